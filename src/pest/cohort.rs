use super::{Thresholds, Warmth};
use crate::almanac::CivilDay;

/// Days that are looked ahead for a date: beyond a winter (limit).
pub const DAYS_AHEAD: u16 = 400;
/// Degree-days by which a sum may fall short and still count, °C·d: 0.6·96 is not whole in binary (limit).
pub const SLACK: f64 = 1e-9;

/// The warmth of the days after a day: a treatment stands at dusk of day 0, and the count starts with day 1.
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    /// Day 0.
    pub start: CivilDay,
    /// Degree-days of day 1, day 2 and so on, °C·d.
    pub daily: Vec<f64>,
    /// Mean temperature of the same days, °C.
    pub means: Vec<f64>,
}

impl Course {
    /// The days after `start`.
    #[must_use]
    pub fn after(start: CivilDay, warmth: &Warmth, between: Thresholds) -> Self {
        let (mut day, mut daily, mut means) = (start, Vec::new(), Vec::new());
        for _ in 0..DAYS_AHEAD {
            day = day.tomorrow();
            let temperature = warmth.on(day);
            daily.push(temperature.degree_days(between));
            means.push(temperature.mean());
        }
        Self { start, daily, means }
    }

    /// Whole days after day `from` until so much warmth has come, counted from day 0; nothing within [`DAYS_AHEAD`].
    ///
    /// Event day = smallest `N` with `Σ DD(from + 1 … N) ≥ K`.
    #[must_use]
    pub fn days_until(&self, from: usize, degree_days: f64) -> Option<usize> {
        let mut sum = 0.0;
        if degree_days <= SLACK {
            return Some(from);
        }
        for (number, day) in (1..).zip(&self.daily).skip(from) {
            sum += day;
            if sum >= degree_days - SLACK {
                return Some(number);
            }
        }
        None
    }

    /// Days after day `from` within which at most so much warmth comes.
    #[must_use]
    pub fn days_within(&self, from: usize, degree_days: f64) -> usize {
        let mut sum = 0.0;
        let within = self.daily.iter().skip(from).take_while(|&&day| {
            sum += day;
            sum <= degree_days + SLACK
        });
        within.count()
    }

    /// Warmth of the days after `from` up to `to`, °C·d.
    #[must_use]
    pub fn between(&self, from: usize, to: usize) -> f64 {
        self.daily.iter().take(to).skip(from).sum()
    }

    /// Mean temperature of the seven days after a day, °C (exact).
    #[must_use]
    pub fn week_mean(&self, from: usize) -> f64 {
        self.means.iter().skip(from).take(7).sum::<f64>() / 7.0
    }

    /// The date of a day.
    #[must_use]
    pub fn date(&self, number: usize) -> CivilDay {
        self.start.days_later(i32::try_from(number).unwrap_or(i32::MAX))
    }
}
