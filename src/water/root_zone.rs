//! The store of water that roots can reach, and what a plant still takes as it empties.
//!
//! Source: FAO-56 (Allen, Pereira, Raes and Smith 1998, *Crop evapotranspiration*, FAO Irrigation and Drainage
//! Paper 56), chapter 8. Stores, deficits and demands share one unit, mm or litres.

use crate::quantity::bounded;

/// Share of its store tomato uses before it slows (`p`) at 5 mm/day, no unit. FAO-56 Table 22 (read).
pub const TOMATO_DEPLETION_FRACTION: f64 = 0.40;

/// Total available water `TAW`, mm, from the water at field capacity and at wilting (m³/m³, 0 to 1) and the rooting
/// depth, m; never negative.
///
/// `TAW = 1000·(θFC − θWP)·Zr`, FAO-56 Eq. 82, worked in example 36, p. 166.
#[must_use]
pub fn total_available_water(field_capacity: f64, wilting_point: f64, rooting_depth_metres: f64) -> f64 {
    (1000.0 * (field_capacity - wilting_point) * rooting_depth_metres).max(0.0)
}

/// Readily available water `RAW`, in the unit of the total, from the depletion fraction (`p`, 0 to 1).
///
/// `RAW = p·TAW`, FAO-56 Eq. 83, worked in example 36, p. 166.
#[must_use]
pub fn readily_available_water(total_available: f64, depletion_fraction: f64) -> f64 {
    bounded(depletion_fraction, 0.0, 1.0) * total_available.max(0.0)
}

/// Depletion fraction `p`, 0.1 to 0.8, for a crop that uses `crop_evapotranspiration` mm/day, from the fraction of
/// the table for 5 mm/day.
///
/// `p = p(table) + 0.04·(5 − ETc)`, FAO-56 Table 22, footnote (read).
#[must_use]
pub fn depletion_fraction(table_fraction: f64, crop_evapotranspiration: f64) -> f64 {
    bounded(table_fraction + 0.04 * (5.0 - crop_evapotranspiration), 0.1, 0.8)
}

/// Water stress coefficient `Ks`, 0 (dry) to 1 (unhindered), at a deficit `Dr` below the full store.
///
/// `Ks = (TAW − Dr)/(TAW − RAW)` where `Dr > RAW`, else 1, with `RAW = p·TAW`: FAO-56 Eq. 84, worked in example 37,
/// p. 168.
#[must_use]
pub fn water_stress_coefficient(deficit: f64, readily_available: f64, total_available: f64) -> f64 {
    if deficit <= readily_available.min(total_available) {
        1.0
    } else if deficit >= total_available {
        0.0
    } else {
        (total_available - deficit) / (total_available - readily_available)
    }
}

/// One dry day of the paper's own daily count.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DepletionDay {
    /// Water stress coefficient `Ks` at the start of the day, 0 to 1.
    pub stress_coefficient: f64,
    /// Deficit at the end of the day, in the unit of the store, at most `TAW`.
    pub deficit_at_end: f64,
}

/// A day without water as FAO-56 example 37, p. 168, counts it: the stress of the morning holds all day.
///
/// `Dr,i = Dr,i−1 + Ks·ETc`, FAO-56 Eq. 85 without rain, irrigation and drainage. [`loss_over_day`] is the form used
/// for a dose, because this one can step past the wilting point in a small pot.
#[must_use]
pub fn deplete_by_morning_stress(deficit: f64, demand: f64, readily_available: f64, total_available: f64) -> DepletionDay {
    let stress_coefficient = water_stress_coefficient(deficit, readily_available, total_available);
    DepletionDay {
        stress_coefficient,
        deficit_at_end: (deficit + stress_coefficient * demand.max(0.0)).min(total_available.max(deficit)),
    }
}

/// Water lost over a day of `demand` `E` that begins at deficit `D`, all in litres or all in mm. Never more than the
/// demand, nor than the water that is left (`TAW − D`).
///
/// FAO-56 Eq. 84 integrated over the day, so that the stress follows the drying:
///
/// ```text
/// D + E ≤ RAW:  loss = E
/// otherwise:    a = max(0, RAW − D),  d = max(D, RAW)
///               loss = a + (TAW − d)·(1 − exp(−(E − a)/(TAW − RAW)))
/// ```
///
/// A deficit below zero counts as a full store, a readily available part above the total as the whole. On the ten
/// days of FAO-56 example 37 it ends at 103.56 mm, where the stress of each morning gives 104.51 mm.
#[must_use]
pub fn loss_over_day(deficit_litres_or_mm: f64, demand: f64, readily_available: f64, total_available: f64) -> f64 {
    let demand = demand.max(0.0);
    let deficit = deficit_litres_or_mm.max(0.0);
    let left = (total_available - deficit).max(0.0);
    let readily_available = bounded(readily_available, 0.0, total_available.max(0.0));
    if deficit + demand <= readily_available {
        return demand.min(left);
    }
    let unhindered = (readily_available - deficit).max(0.0);
    let slowing_range = total_available - readily_available;
    let slowed = if slowing_range > 0.0 {
        let below = (total_available - deficit.max(readily_available)).max(0.0);
        below * (1.0 - (-(demand - unhindered) / slowing_range).exp())
    } else {
        0.0
    };
    (unhindered + slowed).min(demand).min(left)
}

/// The demand that brings the store from deficit `D` down to where a plant gets only the share `coefficient` (`Ks`, above 0
/// to 1) of what it would take: the inverse of [`loss_over_day`]. None is left to go when it is already there.
///
/// ```text
/// E = max(0, RAW − D) + (TAW − RAW)·ln((TAW − max(D, RAW))/((TAW − RAW)·Ks))
/// ```
#[must_use]
pub fn demand_until(coefficient: f64, deficit: f64, readily_available: f64, total_available: f64) -> f64 {
    let readily_available = bounded(readily_available, 0.0, total_available.max(0.0));
    let deficit = deficit.max(0.0);
    let unhindered = (readily_available - deficit).max(0.0);
    let slowing_range = total_available - readily_available;
    let now = water_stress_coefficient(deficit, readily_available, total_available);
    unhindered + slowing_range * (now / coefficient).ln().max(0.0)
}
