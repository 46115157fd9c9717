//! What was poured on a day: as noted, or as it is taken where nobody noted it.

use super::LONGEST_GAP;
use super::balance::DayWater;
use crate::quantity::bounded;

/// Spread of a pour that nobody noted but that is taken to have been poured as advised, as a share of it (choice).
const UNNOTED_POUR: f64 = 0.3;
/// Spread of what may have been poured on a day that nobody wrote anything of, as a share of it or of the day's use (choice).
const MISSED_POUR: f64 = 0.5;
/// Days in a row without a word that all count as dry once pours are noted (choice). Of each day of a longer silence a share of its use
/// counts as poured, more the longer it is, and all of it at [`LONGEST_GAP`]: nobody leaves plants dry for two weeks.
const DRY_SILENCE: i32 = 3;

/// What was poured on a day, or is taken to have been, for one plant.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Poured {
    pub litres: f64,
    /// Standard deviation, litres.
    pub spread: f64,
    /// The share that runs through of what was poured as asked: where nobody ever noted a pour.
    pub as_asked: Option<f64>,
    /// Litres besides, for each litre of the day's use: in a long silence.
    by_use: f64,
}

impl Poured {
    /// So many litres, with their standard deviation.
    pub const fn noted(litres: f64, spread: f64) -> Self {
        Self {
            litres,
            spread,
            as_asked: None,
            by_use: 0.0,
        }
    }

    /// As the morning asked, of which so many litres were to be held and a share runs through; of the day something was told, or nothing.
    pub fn asked(held: f64, drained: f64, is_told: bool) -> Self {
        let doubt = if is_told { UNNOTED_POUR } else { MISSED_POUR };
        Self {
            as_asked: Some(drained),
            ..Self::noted(held / (1.0 - drained), doubt * held)
        }
    }

    /// On one day of a silence about its water of so many, 0 for one that was dry; the day took `demand` litres and a share runs through. Where
    /// nothing at all is told of it, not even its weather, somebody may have poured and not noted it.
    pub fn unheard(silence: i32, is_told: bool, demand: f64, drained: f64) -> Self {
        let share = watered_share(silence);
        // All of these days were watered, or none.
        let doubt = (f64::from(silence) * share * (1.0 - share)).sqrt();
        let least = if is_told { 0.0 } else { MISSED_POUR };
        Self {
            spread: doubt.max(least) * demand,
            by_use: share / (1.0 - drained),
            ..Self::default()
        }
    }

    /// The day's water with what goes by its use.
    pub fn on(&self, water: DayWater) -> DayWater {
        DayWater {
            given: water.given + self.by_use * water.demand,
            ..water
        }
    }

    /// Litres².
    pub fn variance(&self) -> f64 {
        self.spread * self.spread
    }
}

/// Share of its use that is taken to have been poured on each day of a silence of so many days, 0 to 1.
fn watered_share(silence: i32) -> f64 {
    bounded(f64::from(silence - DRY_SILENCE) / f64::from(LONGEST_GAP - DRY_SILENCE), 0.0, 1.0)
}
