use super::balance::{DayWater, Flows, SODDEN_FROM, Store};
use super::dose::{DAY_SPREAD, DRY_FROM, Feel};
use crate::quantity::bounded;

/// Width of the border between moist and dry, as a share of the easy water (choice).
const DRY_WIDTH: f64 = 0.12;
/// Width of the border between moist and sodden, as a share of what is missing there (choice).
const SODDEN_WIDTH: f64 = 0.4;
/// Most that is missing from compost that drips, as a share of what is missing where half of people would call it sodden (choice).
const DRIPS_TO: f64 = 0.5;
/// Chance that a reading has nothing to do with the sum, while learning, 0 to 1: a leak, a forgotten can, another pot (choice).
pub(super) const ASTRAY: f64 = 0.02;
/// The same chance for the compost's own state: the plant overrules the sum (choice).
pub(super) const OVERRULED: f64 = 0.3;
/// Spread of one drip test about the use of one day, log-normal standard deviation, no unit, the day's own part with it (choice).
const DRIP_SPREAD: f64 = 0.16;
/// Error of a kitchen or luggage scale and of what drips off while weighing, litres (choice).
const SCALE_ERROR: f64 = 0.1;
/// Error of a jug, litres (choice).
const JUG_ERROR: f64 = 0.02;

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
    /// The same with litres that can be.
    pub(super) fn possible(self) -> Self {
        Self {
            feel: self.feel,
            lighter: self.lighter.map(possible_litres),
            drip: self.drip.map(possible_litres),
        }
    }

    /// How many there are.
    pub(super) fn count(&self) -> u32 {
        u32::from(self.feel.is_some()) + u32::from(self.lighter.is_some()) + u32::from(self.drip.is_some())
    }
}

/// Litres of one plant on one day that can be: none to a thousand, and none for what is not a number.
pub(super) fn possible_litres(litres: f64) -> f64 {
    bounded(litres.max(0.0), 0.0, 1000.0)
}

fn logistic(x: f64) -> f64 {
    1.0 / (1.0 + (-x).exp())
}

/// Where half of people would call compost sodden, litres, as far as one grower's borders lie off.
fn sodden_border(store: &Store, off: f64) -> f64 {
    (store.sodden_to * (1.0 + off / SODDEN_FROM)).max(0.0)
}

/// A chance that rises with the deficit, averaged over what is believed of it: itself and its first two derivatives.
#[derive(Clone, Copy)]
struct Edge {
    chance: f64,
    first: f64,
    second: f64,
}

impl Edge {
    /// What every deficit allows: chance 1, no unit, and no slope (exact).
    const CERTAIN: Self = Self {
        chance: 1.0,
        first: 0.0,
        second: 0.0,
    };

    const fn less(self, other: Self) -> Self {
        Self {
            chance: self.chance - other.chance,
            first: self.first - other.first,
            second: self.second - other.second,
        }
    }
}

/// A part of what is believed after a reading: how likely, and its mean and variance.
#[derive(Clone, Copy)]
struct Part {
    weight: f64,
    mean: f64,
    variance: f64,
}

/// What is believed of the deficit: about normal.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Belief {
    /// Mean, litres below full.
    pub deficit: f64,
    /// Standard deviation, litres.
    pub spread: f64,
    /// Chance that the count of water is wrong for reasons that it does not know.
    pub astray: f64,
}

impl Belief {
    /// A morning on which so many litres are missing, give or take the spread of one day's use.
    pub fn begin(deficit: f64, of_day: f64, astray: f64) -> Self {
        Self {
            deficit,
            spread: deficit * of_day.sqrt(),
            astray,
        }
    }

    /// Takes in what is seen of the compost and tells how likely it was. The plant overrules the sum: a reading that the sum
    /// holds for impossible moves the belief to where the reading is likely.
    pub fn morning(&mut self, store: &Store, readings: &Readings, off: f64) -> f64 {
        self.deficit = bounded(self.deficit, 0.0, store.all_water);
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

    /// The same for the dose: compost that drips has next to nothing missing, whatever the sum says. What plants teach is left to Bayes.
    pub fn heed(&mut self, store: &Store, readings: &Readings, off: f64) {
        self.morning(store, readings, off);
        if readings.feel == Some(Feel::Sodden) {
            self.deficit = self.deficit.min(DRIPS_TO * sodden_border(store, off));
        }
    }

    /// `σ((D − at)/width)` averaged over the belief, all in litres: about a logistic curve again, `√(1 + π/8·(s/width)²)` times as
    /// wide (an old approximation of the probit by the logistic, from memory).
    fn edge(&self, at: f64, width: f64) -> Edge {
        let wide = (width * width + std::f64::consts::FRAC_PI_8 * self.spread * self.spread).sqrt();
        let chance = logistic((self.deficit - at) / wide);
        let first = chance * (1.0 - chance) / wide;
        Edge {
            chance,
            first,
            second: first * (1.0 - 2.0 * chance) / wide,
        }
    }

    /// `P(dry) = σ((x − 0.8)/0.12)`, `P(sodden) = σ((w − x)/(0.4·w))`, the rest moist, at a deficit that is `x` of the easy water
    /// (choice), with `w` = 0.15 or half of the last day's use, whichever is less; `off` is how far one grower's borders lie towards dry,
    /// that of sodden in proportion. With a normal belief and a chance `Z` of the feel: mean `m + s²·Z′/Z`, variance `s² + s⁴·(Z″/Z − (Z′/Z)²)`.
    fn feel(&mut self, store: &Store, feel: Feel, off: f64) -> f64 {
        let dry_from = (DRY_FROM + off) * store.easy_water;
        let sodden_to = sodden_border(store, off);
        let dry = self.edge(dry_from, DRY_WIDTH * store.easy_water);
        let past_sodden = self.edge(sodden_to, SODDEN_WIDTH * store.sodden_to);
        let (edge, from, to) = match feel {
            Feel::Dry => (dry, dry_from.min(store.all_water), store.all_water),
            Feel::Moist => (past_sodden.less(dry), sodden_to, dry_from),
            Feel::Sodden => (Edge::CERTAIN.less(past_sodden), 0.0, sodden_to),
        };
        let mut part = Part {
            weight: (1.0 - self.astray) * edge.chance.max(0.0),
            mean: self.deficit,
            variance: self.spread * self.spread,
        };
        if part.weight > 0.0 {
            let (slope, bend) = (edge.first / edge.chance, edge.second / edge.chance);
            part.mean = self.deficit + part.variance * slope;
            part.variance = (part.variance * (1.0 + part.variance * (bend - slope * slope))).max(0.0);
        }
        let doubt = DRY_WIDTH * store.easy_water;
        let astray = Part {
            weight: self.astray * (to - from) / store.all_water,
            mean: bounded(self.deficit, from, to),
            variance: doubt * doubt,
        };
        self.settle(store, part, astray)
    }

    /// A reading in litres below full, with its standard error.
    fn measured(&mut self, store: &Store, litres: f64, error: f64) -> f64 {
        let seen = bounded(litres, 0.0, store.all_water);
        let variance = self.spread * self.spread + error * error;
        let off = seen - self.deficit;
        let gain = self.spread * self.spread / variance;
        let part = Part {
            weight: (1.0 - self.astray) * (-off * off / (2.0 * variance)).exp() / (std::f64::consts::TAU * variance).sqrt(),
            mean: self.deficit + gain * off,
            variance: gain * error * error,
        };
        let astray = Part {
            weight: self.astray / store.all_water,
            mean: seen,
            variance: error * error,
        };
        self.settle(store, part, astray)
    }

    /// The two parts as one belief; how likely the reading was.
    fn settle(&mut self, store: &Store, part: Part, astray: Part) -> f64 {
        let likelihood = part.weight + astray.weight;
        if likelihood <= 0.0 {
            // What cannot be tells nothing.
            return 0.0;
        }
        let share = part.weight / likelihood;
        let apart = part.mean - astray.mean;
        self.deficit = bounded(astray.mean + share * apart, 0.0, store.all_water);
        self.spread = (share * part.variance + (1.0 - share) * astray.variance + share * (1.0 - share) * apart * apart).sqrt();
        likelihood
    }

    /// Carries the belief over a day from both ends of one standard deviation. `of_day` is the variance of the day's use over
    /// the square of its mean, `of_pour` the variance of what was poured, litres².
    pub fn carry(&mut self, store: &Store, water: &DayWater, of_day: f64, of_pour: f64) {
        let drier = store.day(self.deficit + self.spread, water);
        let wetter = store.day((self.deficit - self.spread).max(0.0), water);
        let carried = (drier.end - wetter.end) / 2.0;
        let used = f64::midpoint(drier.used, wetter.used);
        self.deficit = f64::midpoint(drier.end, wetter.end);
        self.spread = (carried * carried + used * used * of_day + of_pour).sqrt();
    }

    /// The same along the mean, with where its water went.
    pub fn day(&mut self, store: &Store, water: &DayWater, of_day: f64, of_pour: f64) -> Flows {
        let flows = store.day(self.deficit, water);
        self.carry(store, water, of_day, of_pour);
        self.deficit = flows.end;
        flows
    }
}
