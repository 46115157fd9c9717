use std::f64::consts::{FRAC_PI_2, PI};

/// Between which temperatures an animal develops, °C.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thresholds {
    /// Below this it stands still.
    pub lower: f64,
    /// Above this it goes no faster: a horizontal cut-off.
    pub upper: f64,
}

/// How the course of a day's temperature is drawn between its minimum and its maximum.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum DayShape {
    /// A single sine wave: Baskerville and Emin 1969, Environmental Entomology 50:514–517 (formula from memory, confirmed by 24
    /// printed values). What this program counts with.
    #[default]
    Sine,
    /// A single triangle, for checks. Zalom et al. 1983, University of California leaflet 21373 (second-hand).
    Triangle,
}

/// Degree-days of one day above `lower`, °C·d, from the mean of its extremes alone, for checks.
///
/// `D = max(0, (x + n)/2 − TL)`: it misses a warm noon of a cold day.
#[must_use]
pub const fn average_degree_days(coolest: f64, warmest: f64, lower: f64) -> f64 {
    (f64::midpoint(coolest, warmest) - lower).max(0.0)
}

/// Degree-days of one day whose mean alone is known, °C·d.
///
/// `D = max(0, min(T, TU) − TL)`.
#[must_use]
pub const fn mean_degree_days(mean: f64, between: Thresholds) -> f64 {
    (mean.min(between.upper) - between.lower).max(0.0)
}

impl DayShape {
    /// Degree-days of one day between the thresholds, °C·d, from its extremes, °C, in either order.
    ///
    /// `D = D(TL) − D(TU)`: a horizontal cut-off, both by the same formula.
    #[must_use]
    pub fn degree_days(self, coolest: f64, warmest: f64, between: Thresholds) -> f64 {
        self.above(coolest, warmest, between.lower) - self.above(coolest, warmest, between.upper)
    }

    /// The same from the two half-days about the maximum, the second falling to the next day's minimum.
    ///
    /// `D = ½·D(n, x) + ½·D(n', x)`.
    #[must_use]
    pub fn double_degree_days(self, coolest: f64, warmest: f64, next_coolest: f64, between: Thresholds) -> f64 {
        f64::midpoint(
            self.degree_days(coolest, warmest, between),
            self.degree_days(next_coolest, warmest, between),
        )
    }

    /// Degree-days above one threshold.
    ///
    /// With `M = (x + n)/2`, `A = (x − n)/2`: `M − TL` when `n ≥ TL`, 0 when `x ≤ TL`, else `(x − TL)²/(2·(x − n))` for the
    /// triangle and `[(M − TL)·(π/2 − θ) + A·cos θ]/π`, `θ = asin((TL − M)/A)`, for the sine.
    fn above(self, coolest: f64, warmest: f64, threshold: f64) -> f64 {
        let (low, high) = (coolest.min(warmest), coolest.max(warmest));
        let mean = f64::midpoint(low, high);
        if low >= threshold {
            return mean - threshold;
        }
        if high <= threshold {
            return 0.0;
        }
        match self {
            Self::Triangle => (high - threshold) * (high - threshold) / (2.0 * (high - low)),
            Self::Sine => {
                let amplitude = (high - low) / 2.0;
                let angle = ((threshold - mean) / amplitude).asin();
                ((mean - threshold) * (FRAC_PI_2 - angle) + amplitude * angle.cos()) / PI
            }
        }
    }
}

/// Lower threshold, °C, and degree-days, °C·d, from development times at constant temperatures: pairs of °C and days.
///
/// Ordinary regression of `1/days` on `T`: `K = 1/slope`, `TL = −intercept/slope`. Nothing with fewer than two temperatures, or
/// when warmth does not speed it up.
#[must_use]
pub fn development_line(times: &[(f64, f64)]) -> Option<(f64, f64)> {
    let count = times.iter().fold(0.0, |count, _| count + 1.0);
    let mean = |part: &dyn Fn(&(f64, f64)) -> f64| times.iter().map(part).sum::<f64>() / count;
    let (mean_celsius, mean_rate) = (mean(&|time| time.0), mean(&|time| 1.0 / time.1));
    let spread = mean(&|time| (time.0 - mean_celsius) * (time.0 - mean_celsius));
    let slope = mean(&|time| (time.0 - mean_celsius) * (1.0 / time.1 - mean_rate)) / spread;
    (slope > 0.0 && slope.is_finite()).then(|| (mean_celsius - mean_rate / slope, 1.0 / slope))
}
