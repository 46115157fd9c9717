use super::Handed;
use super::balance::{DayWater, Store};
use super::belief::{ASTRAY, Belief, Readings};
use super::dose::{LIKELY_DEVIATIONS, PLANT_SPREAD, likely_factor_of};
use super::poured::Poured;
use crate::quantity::bounded;

/// Points of the grid of factors (choice).
const POINTS: usize = 24;
/// Logarithm of the first factor, no unit, two spreads of the prior below the sum; the last lies as far above. Readings that contradict
/// one another must not carry a dose away (choice).
const FIRST: f64 = -2.0 * PLANT_SPREAD;
/// From the logarithm of one point to the next, no unit (exact: the grid is even).
const STEP: f64 = -FIRST / 11.5;
/// How far one grower's "dry" and "sodden" may lie off, as a share of the easy water, with what each is held for before any
/// reading (choice).
const BORDERS: [(f64, f64); 3] = [(-0.15, 0.25), (0.0, 0.5), (0.15, 0.25)];
/// Times that the middle of a grid is moved to where what was learnt lies (choice).
const CENTRINGS: usize = 24;
/// Weight, no unit, from which a candidate is given up (limit).
const NEGLIGIBLE: f64 = 1e-4;
/// Spread, no unit, below which nothing is learnt: plants change from week to week (choice).
const LEAST_SPREAD: f64 = 0.015;
/// Readings from which there is something to say (choice).
const ENOUGH_READINGS: u32 = 3;
/// Spread, no unit, from which there is something to say (choice).
const NARROW_ENOUGH: f64 = 0.2;

/// How much more or less than the sum the plants of a group drink, as far as the readings tell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thirst {
    /// Factor on the sum's demand, 0.607 to 1.649; 1 when nothing is known.
    pub factor: f64,
    /// Standard deviation of its logarithm; 0.25 when nothing is known.
    pub spread: f64,
    /// Readings that it was learnt from.
    pub readings: u32,
}

impl Default for Thirst {
    fn default() -> Self {
        Self {
            factor: 1.0,
            spread: PLANT_SPREAD,
            readings: 0,
        }
    }
}

impl Thirst {
    /// Percent more than the sum, negative for less, once the readings say anything worth telling.
    #[must_use]
    pub fn percent_more(&self) -> Option<f64> {
        (self.readings >= ENOUGH_READINGS && self.spread <= NARROW_ENOUGH).then_some(100.0 * (self.factor - 1.0))
    }

    /// Ends between which the factor lies in four of five groups.
    #[must_use]
    pub fn likely(&self) -> (f64, f64) {
        let wide = likely_factor_of(self.spread * self.spread);
        (self.factor / wide, self.factor * wide)
    }
}

/// One factor, what would be believed of the compost if it were true, and how well it explains the readings.
#[derive(Clone, Copy, Debug, Default)]
struct Candidate {
    logarithm: f64,
    factor: f64,
    off: f64,
    weight: f64,
    belief: Belief,
}

/// Learns a [`Thirst`]: Bayes on a grid of factors with a log-normal prior, each with a balance of its own.
#[derive(Clone, Debug)]
pub(super) struct Learner {
    candidates: [Candidate; POINTS * BORDERS.len()],
    readings: u32,
}

impl Learner {
    /// Nothing known yet. When it never `reads` anything, all but the middle of the prior is left out, for speed.
    pub fn new(reads: bool) -> Self {
        let mut candidates = [Candidate::default(); POINTS * BORDERS.len()];
        let mut logarithm = FIRST;
        for row in candidates.chunks_exact_mut(BORDERS.len()) {
            let deviations = logarithm / PLANT_SPREAD;
            let prior = (-deviations * deviations / 2.0).exp();
            let is_middle = logarithm.abs() < STEP;
            for (candidate, (off, weight)) in row.iter_mut().zip(BORDERS) {
                *candidate = Candidate {
                    logarithm,
                    factor: logarithm.exp(),
                    off,
                    weight: if reads || is_middle { weight * prior } else { 0.0 },
                    belief: Belief::default(),
                };
            }
            logarithm += STEP;
        }
        Self { candidates, readings: 0 }
    }

    /// What another notebook learnt, and what it believed of the compost: nothing more is learnt here.
    pub fn handed(handed: &Handed) -> Self {
        let mut learner = Self::new(false);
        for candidate in &mut learner.candidates {
            candidate.weight = 0.0;
        }
        let [first, ..] = &mut learner.candidates;
        *first = Candidate {
            logarithm: handed.thirst.factor.ln(),
            factor: handed.thirst.factor,
            off: handed.off,
            weight: 1.0,
            belief: handed.belief(ASTRAY),
        };
        learner
    }

    /// The same as a beginning: what was learnt there is held before any reading here, no narrower than one step of the grid.
    pub fn going_on(handed: &Handed) -> Self {
        let mut learner = Self::new(true);
        let spread = handed.thirst.spread.max(STEP);
        let tilt = bounded(handed.off / BORDERS[2].0, -1.0, 1.0);
        let middle = BORDERS[1].1 * (1.0 - tilt.abs());
        let learnt = bounded(handed.thirst.factor.ln(), FIRST + STEP, -FIRST - STEP);
        // Where the grid ends within what is held likely, its middle lies beside what was learnt: moved until it does not.
        let mut centre = learnt;
        for _ in 0..CENTRINGS {
            for candidate in &mut learner.candidates {
                let deviations = (candidate.logarithm - centre) / spread;
                let border = match candidate.off {
                    off if off > 0.0 => f64::midpoint(1.0 - middle, tilt),
                    off if off < 0.0 => f64::midpoint(1.0 - middle, -tilt),
                    _ => middle,
                };
                candidate.weight = border * (-deviations * deviations / 2.0).exp();
                candidate.belief = handed.belief(ASTRAY);
            }
            centre += learnt - learner.mean(|candidate| candidate.logarithm);
        }
        let sum: f64 = learner.candidates.iter().map(|candidate| candidate.weight).sum();
        learner.candidates.iter_mut().for_each(|candidate| candidate.weight /= sum);
        learner.readings = handed.thirst.readings;
        learner
    }

    /// Begins the count of water anew with so many litres `missing` at each factor.
    pub fn begin(&mut self, missing: impl Fn(f64) -> f64, of_day: f64) {
        for candidate in &mut self.candidates {
            candidate.belief = Belief::begin(missing(candidate.factor), of_day, ASTRAY);
        }
    }

    /// Takes in a morning's readings; what they say of the compost always, of the plants only when it `learns`.
    pub fn morning(&mut self, store: &Store, readings: &Readings, learns: bool) {
        let count = readings.count();
        if count == 0 {
            return;
        }
        let mut sum = 0.0;
        for candidate in &mut self.candidates {
            if candidate.weight > 0.0 {
                let likelihood = candidate.belief.morning(store, readings, candidate.off);
                if learns {
                    candidate.weight *= likelihood;
                }
                sum += candidate.weight;
            }
        }
        if learns {
            self.readings += count;
        }
        if sum > 0.0 {
            for candidate in &mut self.candidates {
                candidate.weight /= sum;
                if candidate.weight < NEGLIGIBLE {
                    candidate.weight = 0.0;
                }
            }
        }
    }

    /// Carries every balance over a day, with the doubts of [`Belief::carry`].
    pub fn day(&mut self, store: &Store, water: &DayWater, poured: &Poured, of_day: f64) {
        for candidate in &mut self.candidates {
            if candidate.weight > 0.0 {
                let demand = water.demand * candidate.factor;
                let water = poured.on(DayWater { demand, ..*water });
                candidate.belief.carry(store, &water, of_day, poured.variance());
            }
        }
    }

    /// Mean of something about the candidates, by how well each explains the readings.
    fn mean(&self, of: fn(&Candidate) -> f64) -> f64 {
        let (mut sum, mut first) = (0.0, 0.0);
        for candidate in &self.candidates {
            sum += candidate.weight;
            first += candidate.weight * of(candidate);
        }
        first / sum
    }

    /// Logarithm of the factor below which this share of what is believed after a reading lies, the weights of which come to 1: each
    /// point stands for a step. Half a step too high, wherever it lies: two of them are as far apart as they should be.
    fn quantile(&self, share: f64) -> f64 {
        let mut left = share;
        for row in self.candidates.chunks_exact(BORDERS.len()) {
            let weight: f64 = row.iter().map(|candidate| candidate.weight).sum();
            if let Some(candidate) = row.first().filter(|_| weight >= left) {
                return candidate.logarithm + left / weight * STEP;
            }
            left -= weight;
        }
        -FIRST
    }

    /// What is believed now: the middle, and the spread of the normal distribution with the same 80 % (exact).
    pub fn thirst(&self) -> Thirst {
        if self.readings == 0 {
            return Thirst::default();
        }
        let half = (self.quantile(0.9) - self.quantile(0.1)) / 2.0;
        Thirst {
            factor: self.mean(|candidate| candidate.logarithm).exp(),
            spread: (half / LIKELY_DEVIATIONS).max(LEAST_SPREAD),
            readings: self.readings,
        }
    }

    /// How far this grower's borders are expected to lie off.
    pub fn off(&self) -> f64 {
        self.mean(|candidate| candidate.off)
    }

    /// Deficit that is expected over all candidates, litres.
    pub fn deficit(&self) -> f64 {
        self.mean(|candidate| candidate.belief.deficit)
    }
}
