use super::dose::DRY_FROM;
use super::{Feel, RootZone, loss_over_day, water_stress_coefficient};
use crate::quantity::bounded;

/// Share of the easy water that is gone where half of people would call compost sodden (choice).
pub const SODDEN_FROM: f64 = 0.15;
/// Share of the last day's use that is gone there, where that is less: compost that was filled up a day before is not sodden, however
/// much it holds (choice).
const SODDEN_AFTER: f64 = 0.5;
/// Least share of the easy water that is gone there (limit).
const SODDEN_LEAST: f64 = 0.005;
/// Share of a pour that runs down beside compost which has shrunk to the driest it can be (choice).
const BYPASS: f64 = 0.3;

/// How much water the compost of one plant holds between full (drained, all its pores that can hold water filled) and dry.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Store {
    /// What comes easily (RAW), litres or mm, 0 to `all_water`.
    pub easy_water: f64,
    /// What comes at all (TAW), litres or mm.
    pub all_water: f64,
    /// What is missing where half of people would call it sodden, litres or mm, above 0.
    pub sodden_to: f64,
}

impl From<&RootZone> for Store {
    fn from(zone: &RootZone) -> Self {
        Self::new(zone.easy_water, zone.all_water)
    }
}

/// What comes to one plant's compost on one day, and what the plant would take from full compost; litres.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct DayWater {
    /// Poured, over the whole day.
    pub given: f64,
    /// Equal pours that this came in, 1 or more; nought counts as one.
    pub pours: u32,
    /// Whether each pour went on in parts with a pause between, so that nothing ran past shrunk compost.
    pub in_parts: bool,
    /// Rain that reached the compost.
    pub rain: f64,
    /// Use of the plant and its compost while nothing is short.
    pub demand: f64,
}

/// Where one day's water went, litres. Always `given + rain = used + drained + (start − end)`: deficits are below full.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Flows {
    /// Poured.
    pub given: f64,
    /// Rain that reached the compost.
    pub rain: f64,
    /// Taken by the plant and the air.
    pub used: f64,
    /// Not held: what ran through and what ran past.
    pub drained: f64,
    /// Deficit in the morning before anything was poured.
    pub start: f64,
    /// Deficit after the first pour.
    pub after_pour: f64,
    /// Deficit at the end of the day.
    pub end: f64,
    /// The day's stress coefficient Ks: used ÷ wanted, 0 to 1; 1 when nothing was wanted.
    pub stress: f64,
    /// From the wettest to the driest of the day.
    pub swing: f64,
}

impl Store {
    /// Compost of which so many litres or mm come easily (RAW, above 0) and at all (TAW, as much or more).
    #[must_use]
    pub const fn new(easy_water: f64, all_water: f64) -> Self {
        Self {
            easy_water,
            all_water,
            sodden_to: SODDEN_FROM * easy_water,
        }
    }

    /// The same on the morning after a day on which so many litres were used.
    pub(super) fn after_use(self, litres: f64) -> Self {
        let least = SODDEN_LEAST * self.easy_water;
        Self {
            sodden_to: bounded(SODDEN_AFTER * litres, least, SODDEN_FROM * self.easy_water),
            ..self
        }
    }

    /// One day from its morning's deficit (0 to `all_water`; outside is moved to the nearest end).
    ///
    /// ```text
    /// b    = 0.3·clamp((D − RAW)/(TAW − RAW), 0, 1)     share that runs past shrunk compost; none when poured in parts
    /// D₁   = max(0, D − pour·(1 − b) − rain)            drained = pour + rain − (D − D₁)
    /// D₂   = D₁ + loss(D₁, demand)                      FAO-56 Eq. 84 integrated over the day
    /// ```
    ///
    /// Rain falls through the day: what full compost cannot take at once goes against the day's loss before it drains. Several
    /// pours share demand and rain equally.
    #[must_use]
    pub fn day(&self, deficit: f64, water: &DayWater) -> Flows {
        let all_water = self.all_water.max(0.0);
        let start = bounded(deficit, 0.0, all_water);
        let count = water.pours.max(1);
        let share = 1.0 / f64::from(count);
        let (given, rain, demand) = (
            water.given.max(0.0) * share,
            water.rain.max(0.0) * share,
            water.demand.max(0.0) * share,
        );
        let (mut deficit, mut used, mut drained) = (start, 0.0, 0.0);
        let (mut after_pour, mut wettest, mut driest) = (start, start, start);
        for pour in 0..count {
            let shrunk = deficit > self.easy_water && !water.in_parts;
            let reaching = if shrunk { given * (1.0 - self.bypass(deficit)) } else { given };
            let held = reaching.min(deficit);
            deficit -= held;
            let rain_held = rain.min(deficit);
            deficit -= rain_held;
            if pour == 0 {
                after_pour = deficit;
            }
            wettest = wettest.min(deficit);
            // Most days of most candidates of a season are unhindered: worked out without a call.
            let unhindered = deficit + demand <= self.easy_water.min(all_water);
            let loss = if unhindered {
                demand
            } else {
                loss_over_day(deficit, demand, self.easy_water, all_water)
            };
            let later_rain = (rain - rain_held).min(loss);
            deficit = (deficit + loss - later_rain).min(all_water);
            driest = driest.max(deficit);
            used += loss;
            drained += given + rain - held - rain_held - later_rain;
        }
        let wanted = demand * f64::from(count);
        Flows {
            given: water.given.max(0.0),
            rain: water.rain.max(0.0),
            used,
            drained,
            start,
            after_pour,
            end: deficit,
            stress: if wanted > 0.0 { (used / wanted).min(1.0) } else { 1.0 },
            swing: driest - wettest,
        }
    }

    /// Share of a pour that runs past shrunk compost, 0 to 0.3.
    fn bypass(&self, deficit: f64) -> f64 {
        BYPASS * (1.0 - water_stress_coefficient(deficit, self.easy_water, self.all_water))
    }

    /// Shares of the easy water that are gone where half of people would call it sodden, and dry.
    #[must_use]
    pub fn borders(&self) -> (f64, f64) {
        (self.sodden_to / self.easy_water, DRY_FROM)
    }

    /// How a squeezed handful would feel to most people at a deficit.
    #[must_use]
    pub fn feel(&self, deficit: f64) -> Feel {
        if deficit >= DRY_FROM * self.easy_water {
            Feel::Dry
        } else if deficit < self.sodden_to {
            Feel::Sodden
        } else {
            Feel::Moist
        }
    }
}
