use super::{DayShape, Thresholds, mean_degree_days};
use crate::almanac::{CivilDay, INSIDE_WARMER_BY_DAY, INSIDE_WARMER_BY_NIGHT, Latitude, usual_temperatures};

/// Temperature above which tomatoes and what lives on them suffer, °C (choice): worth a warning.
pub const TOO_HOT: f64 = 35.0;

/// How much warmer it is inside than out, K.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GlassOffset {
    /// On the day's maximum.
    pub by_day: f64,
    /// On the night's minimum.
    pub by_night: f64,
}

/// Measured in a plastic tunnel in South Africa: read a thermometer instead. See `almanac`.
impl Default for GlassOffset {
    fn default() -> Self {
        Self {
            by_day: INSIDE_WARMER_BY_DAY,
            by_night: INSIDE_WARMER_BY_NIGHT,
        }
    }
}

/// The extremes that a grower read of one day where the plants stand, °C.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DayReading {
    /// The day.
    pub day: CivilDay,
    /// Minimum of its night.
    pub coolest: f64,
    /// Maximum.
    pub warmest: f64,
}

/// What is known of the temperature where the plants stand. A reading of a day comes first, then the mean that was told, then what
/// is usual.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Warmth<'a> {
    /// The place.
    pub latitude: Latitude,
    /// What a house adds to the open air; nothing outdoors.
    pub glass: Option<GlassOffset>,
    /// A daily mean that was told for all days, °C.
    pub mean: Option<f64>,
    /// Days that were read.
    pub readings: &'a [DayReading],
}

/// The temperature of one day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum DayTemperature {
    /// Its minimum and maximum, °C.
    Extremes {
        /// Minimum.
        coolest: f64,
        /// Maximum.
        warmest: f64,
    },
    /// Its mean alone, °C.
    Mean(f64),
}

impl DayTemperature {
    /// Degree-days of this day, °C·d.
    #[must_use]
    pub fn degree_days(self, between: Thresholds) -> f64 {
        match self {
            Self::Extremes { coolest, warmest } => DayShape::Sine.degree_days(coolest, warmest, between),
            Self::Mean(mean) => mean_degree_days(mean, between),
        }
    }

    /// Mean of the day, °C.
    #[must_use]
    pub const fn mean(self) -> f64 {
        match self {
            Self::Extremes { coolest, warmest } => f64::midpoint(coolest, warmest),
            Self::Mean(mean) => mean,
        }
    }

    /// Minimum of the day, °C; its mean where that is all that is known.
    #[must_use]
    pub const fn coolest(self) -> f64 {
        match self {
            Self::Extremes { coolest, .. } => coolest,
            Self::Mean(mean) => mean,
        }
    }
}

impl Warmth<'_> {
    /// The temperature of a day: as read, else the mean that was told, else what is usual. Where that is a far guess the nearest
    /// day that was read stands in for it (choice).
    #[must_use]
    pub fn on(&self, day: CivilDay) -> DayTemperature {
        let as_read = |reading: &DayReading| DayTemperature::Extremes {
            coolest: reading.coolest,
            warmest: reading.warmest,
        };
        if let Some(reading) = self.readings.iter().find(|reading| reading.day == day) {
            return as_read(reading);
        }
        if let Some(mean) = self.mean {
            return DayTemperature::Mean(mean);
        }
        let usual = usual_temperatures(self.latitude, day);
        if usual.far_guess
            && let Some(nearest) = self.readings.iter().min_by_key(|reading| reading.day.days_since(day).abs())
        {
            return as_read(nearest);
        }
        let (by_day, by_night) = self.glass.map_or((0.0, 0.0), |glass| (glass.by_day, glass.by_night));
        DayTemperature::Extremes {
            coolest: usual.minimum + by_night,
            warmest: usual.maximum + by_day,
        }
    }

    /// Mean of the days from `first` on, °C.
    #[must_use]
    pub fn mean_of(&self, first: CivilDay, days: u16) -> f64 {
        let (mut day, mut sum) = (first, 0.0);
        for _ in 0..days {
            sum += self.on(day).mean();
            day = day.tomorrow();
        }
        sum / f64::from(days.max(1))
    }
}
