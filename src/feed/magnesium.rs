//! Epsom salts: what a can of them takes, once as a drench, regularly, or on the leaves.

use super::{Contents, Straight, grams_for};
use crate::quantity::Likely;

/// Grams of Epsom salts in a litre of a drench: 2 oz to the imperial gallon (common practice, no source).
pub const DRENCH: f64 = 2.0 * super::OUNCE / crate::quantity::LITRES_PER_IMPERIAL_GALLON;
/// The most of a drench for a plant, litres (choice: a third of the magnesium of its whole season; so little below half a litre that no
/// jug's nearest step is more than that).
pub const DRENCH_LITRES: f64 = 0.49;
/// Days before a drench or a spray is repeated at the soonest (choice).
pub const REPEAT_AFTER_DAYS: i32 = 14;
/// Grams in a litre of a leaf spray, at most (read second-hand, as the Royal Horticultural Society's).
pub const FOLIAR: f64 = 20.0;
/// Magnesium of a regular feed, mg/L (choice, after target tables from memory).
const ROUTINE: (f64, f64) = (40.0, 50.0);

/// Epsom salts for a can of regular feed that brings so many mg/L of magnesium by itself, g: none where that is enough.
#[must_use]
pub fn routine_grams(can_litres: f64, brought: f64) -> Likely {
    let percent = Straight::EpsomSalts.contents().magnesium;
    let (low, high) = ROUTINE;
    let litres = if is_enough(brought) { 0.0 } else { can_litres };
    let grams = |target| grams_for(target - brought, percent, litres);
    Likely {
        low: grams(low),
        value: grams(f64::midpoint(low, high)),
        high: grams(high),
    }
}

/// Whether a feed brings all the magnesium that a regular one should, mg/L.
pub(super) fn is_enough(brought: f64) -> bool {
    brought >= ROUTINE.0
}

/// What a can with so many grams of Epsom salts in a litre holds, mg/L.
#[must_use]
pub fn epsom(grams_in_litre: f64) -> Contents {
    super::in_a_litre(&Straight::EpsomSalts.contents(), grams_in_litre)
}
