use super::balance::{DayWater, Flows, Store};
use super::dose::{DAY_SPREAD, DRY_FROM, Feel};
use crate::quantity::bounded;

/// Width of the border between moist and dry, as a share of the easy water (choice).
const DRY_WIDTH: f64 = 0.12;
/// Share of the easy water that is gone where half of people would call compost sodden (choice).
const SODDEN_FROM: f64 = 0.15;
/// Width of the border between moist and sodden, as a share of the easy water (choice).
const SODDEN_WIDTH: f64 = 0.06;
/// Chance that a reading has nothing to do with the sum: a leak, a forgotten can, another pot (choice).
const ASTRAY: f64 = 0.05;
/// Spread of one drip test about the use of one day, log-normal standard deviation, the day's own part with it (choice).
const DRIP_SPREAD: f64 = 0.16;
/// Error of a kitchen or luggage scale and of what drips off while weighing, litres (choice).
const SCALE_ERROR: f64 = 0.1;
/// Error of a jug, litres (choice).
const JUG_ERROR: f64 = 0.02;

/// Points of the normal distribution at which a reading is weighed, in standard deviations, with their weights (Gauss–Hermite
/// of five points; from memory, confirmed by the sums of its even powers).
const NODES: [(f64, f64); 5] = [
    (-2.856_970_013_872_8, 0.011_257_411_327_72),
    (-1.355_626_179_974_27, 0.222_075_922_005_61),
    (0.0, 0.533_333_333_333_33),
    (1.355_626_179_974_27, 0.222_075_922_005_61),
    (2.856_970_013_872_8, 0.011_257_411_327_72),
];
/// Levels between full and dry at which a reading that went astray is weighed.
const LEVELS: u8 = 16;

/// What is seen of the compost on a morning, before water is poured.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Readings {
    /// A squeezed handful.
    pub feel: Option<Feel>,
    /// Litres below a drained pot's weight, for one plant: a kilogram is a litre.
    pub lighter: Option<f64>,
    /// Litres for one plant until the first drip.
    pub drip: Option<f64>,
}

impl Readings {
    /// How many there are.
    pub(super) fn count(&self) -> u32 {
        u32::from(self.feel.is_some()) + u32::from(self.lighter.is_some()) + u32::from(self.drip.is_some())
    }
}

/// Chance of a feel at a deficit that is `gone` of the easy water.
///
/// `P(dry) = σ((x − 0.8)/0.12)`, `P(sodden) = σ((0.15 − x)/0.06)`, the rest moist (choice). `off` is how far one
/// grower's borders lie towards dry, as a share of the easy water.
#[must_use]
pub fn chance_of(feel: Feel, gone: f64, off: f64) -> f64 {
    let dry = logistic((gone - off - DRY_FROM) / DRY_WIDTH);
    let sodden = logistic((SODDEN_FROM + off - gone) / SODDEN_WIDTH);
    match feel {
        Feel::Dry => dry,
        Feel::Sodden => sodden,
        Feel::Moist => (1.0 - dry - sodden).max(0.0),
    }
}

fn logistic(x: f64) -> f64 {
    1.0 / (1.0 + (-x).exp())
}

/// What a reading leaves of a belief: how likely it was, and the first two moments of the deficit with it.
#[derive(Clone, Copy, Debug, Default)]
struct Weighed {
    likelihood: f64,
    first: f64,
    second: f64,
}

impl Weighed {
    fn add(&mut self, weight: f64, deficit: f64) {
        self.likelihood += weight;
        self.first += weight * deficit;
        self.second += weight * deficit * deficit;
    }
}

/// What is believed of the deficit: about normal.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Belief {
    /// Mean, litres below full.
    pub deficit: f64,
    /// Standard deviation, litres.
    pub spread: f64,
}

impl Belief {
    /// Takes in what is seen of the compost and tells how likely it was. The plant overrules the sum: a reading that the sum
    /// holds for impossible moves the belief to where the reading is likely.
    pub fn morning(&mut self, store: &Store, readings: &Readings, off: f64) -> f64 {
        let mut likelihood = 1.0;
        if let Some(feel) = readings.feel {
            likelihood *= self.feel(store, feel, off);
        }
        if let Some(lighter) = readings.lighter {
            likelihood *= self.measured(store, lighter, SCALE_ERROR);
        }
        if let Some(drip) = readings.drip {
            let of_jug = (DRIP_SPREAD * DRIP_SPREAD - DAY_SPREAD * DAY_SPREAD).sqrt();
            likelihood *= self.measured(store, drip, of_jug * drip + JUG_ERROR);
        }
        likelihood
    }

    /// The same, and what it took off the deficit, litres.
    pub fn corrected(&mut self, store: &Store, readings: &Readings, off: f64) -> f64 {
        self.deficit = bounded(self.deficit, 0.0, store.all_water);
        let before = self.deficit;
        self.morning(store, readings, off);
        before - self.deficit
    }

    fn feel(&mut self, store: &Store, feel: Feel, off: f64) -> f64 {
        let mut weighed = Weighed::default();
        for (place, weight) in NODES {
            let deficit = bounded(self.deficit + place * self.spread, 0.0, store.all_water);
            weighed.add((1.0 - ASTRAY) * weight * chance_of(feel, deficit / store.easy_water, off), deficit);
        }
        for level in 0..LEVELS {
            let deficit = store.all_water * (f64::from(level) + 0.5) / f64::from(LEVELS);
            weighed.add(
                ASTRAY / f64::from(LEVELS) * chance_of(feel, deficit / store.easy_water, off),
                deficit,
            );
        }
        self.settle(&weighed)
    }

    /// A reading in litres below full, with its standard error.
    fn measured(&mut self, store: &Store, litres: f64, error: f64) -> f64 {
        let seen = bounded(litres, 0.0, store.all_water);
        let variance = self.spread * self.spread + error * error;
        let off = seen - self.deficit;
        let density = (-off * off / (2.0 * variance)).exp() / (std::f64::consts::TAU * variance).sqrt();
        let gain = self.spread * self.spread / variance;
        let mut weighed = Weighed::default();
        weighed.add((1.0 - ASTRAY) * density, self.deficit + gain * off);
        weighed.add(ASTRAY / store.all_water, seen);
        let likelihood = self.settle(&weighed);
        // Neither part is sharper than the reading with the belief.
        self.spread = (self.spread * self.spread + gain * error * error).sqrt();
        likelihood
    }

    fn settle(&mut self, weighed: &Weighed) -> f64 {
        if weighed.likelihood > 0.0 {
            self.deficit = weighed.first / weighed.likelihood;
            self.spread = (weighed.second / weighed.likelihood - self.deficit * self.deficit).max(0.0).sqrt();
        }
        weighed.likelihood
    }

    /// Carries the belief over a day. `of_day` is the variance of the day's use over the square of its mean, `of_pour` the
    /// variance of what was poured, litres².
    pub fn day(&mut self, store: &Store, water: &DayWater, of_day: f64, of_pour: f64) -> Flows {
        let flows = store.day(self.deficit, water);
        let mut carried = 0.0;
        if self.spread > 0.0 {
            let drier = store.day(self.deficit + self.spread, water).end;
            let wetter = store.day(self.deficit - self.spread, water).end;
            carried = (drier - wetter) / 2.0;
        }
        self.deficit = flows.end;
        self.spread = (carried * carried + flows.used * flows.used * of_day + of_pour).sqrt();
        flows
    }
}
