//! What is known of the plants when something looks wrong: water and feed together.

use crate::feed::{Facts, Mix, Water};
use crate::water::{Feel, Level, Season};

/// Days that count when the compost is asked about (choice).
const WEEK: usize = 7;

/// What is known beside a season of water.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FeedKnown<'a> {
    /// The can as it is poured; nothing of a label that is guessed.
    pub mix: Option<&'a Mix>,
    /// What the can most likely reads at the dose as it is typed, which may be more than is to be poured, mS/cm.
    pub conductivity: Option<f64>,
    /// The water that it is filled with.
    pub water: Water,
    /// Weeks in this compost.
    pub weeks_in_compost: Option<f64>,
    /// Whether they were fed in the last fortnight, and with enough nitrogen not to go short.
    pub is_fed: bool,
    /// Whether Epsom salts were given without change.
    pub epsom_tried: bool,
    /// The coldest of the last night, °C, where it was read.
    pub coldest: Option<f64>,
}

/// K:N of a can, without end where there is potassium and no nitrogen.
fn potassium_to_nitrogen(mix: &Mix) -> Option<f64> {
    let endless = || (mix.strength.feed.potassium > 0.0).then_some(f64::INFINITY);
    mix.potassium_to_nitrogen().or_else(endless)
}

/// What speaks for or against a cause: sodden days and uneven water from the season, strength and K:N from the can.
#[must_use]
pub fn facts(season: Option<&Season>, known: &FeedKnown) -> Facts {
    let felt = |season: &Season| {
        let feels = || season.days.iter().rev().take(WEEK).filter_map(|day| day.readings.feel);
        let this_morning = season.dose.feel;
        let sodden = feels().chain(this_morning).filter(|&feel| feel == Feel::Sodden).count();
        let is_felt = feels().next().is_some() || this_morning.is_some();
        is_felt.then(|| u32::try_from(sodden).unwrap_or(u32::MAX))
    };
    let uneven = |season: &Season| season.risks.blossom_end_rot.level > Level::None || season.risks.drought.level > Level::None;
    Facts {
        sodden_days: season.and_then(felt),
        uneven_water: season.is_some_and(uneven),
        potassium_to_nitrogen: known.mix.and_then(potassium_to_nitrogen),
        nitrogen: known.mix.map(|mix| mix.strength.feed.nitrogen()),
        weeks_in_compost: known.weeks_in_compost,
        is_fed: known.is_fed,
        epsom_tried: known.epsom_tried,
        coldest: known.coldest,
        conductivity: known.conductivity,
        magnesium: known.mix.map(|mix| mix.strength.feed.magnesium),
        water: known.water,
    }
}
