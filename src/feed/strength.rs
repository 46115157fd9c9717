use super::Contents;
use crate::quantity::Likely;

/// Milligrams in a litre for each gram in a litre of what holds one per cent (exact).
const MILLIGRAMS_OF_A_PERCENT: f64 = 10.0;

/// mg/L of each nutrient in a can with so many grams (or millilitres) to the litre of something that holds so many grams of it in
/// 100 g (or 100 ml): `mg/L = g/L × % × 10`.
#[must_use]
pub fn in_a_litre(contents: &Contents, per_litre: f64) -> Contents {
    contents.times(per_litre * MILLIGRAMS_OF_A_PERCENT)
}

/// Grams to weigh out so that so many litres hold so many mg/L of what makes up so many per cent:
/// `g = mg/L × L/(% × 10)`.
#[must_use]
pub fn grams_for(milligrams_per_litre: f64, percent: f64, litres: f64) -> f64 {
    milligrams_per_litre * litres / (percent * MILLIGRAMS_OF_A_PERCENT)
}

/// What a can delivers.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Strength {
    /// mg/L of each nutrient, from the feed alone.
    pub feed: Contents,
    /// What its range divides and multiplies that by, because a litre's weight or a spoon is only about known.
    pub spread: (f64, f64),
}

impl Strength {
    /// An amount of it with its range.
    #[must_use]
    pub fn range(&self, value: f64) -> Likely {
        let (low, high) = self.spread;
        Likely {
            low: value * low,
            value,
            high: value * high,
        }
    }
}
