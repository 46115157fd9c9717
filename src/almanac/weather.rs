use std::fmt;

use super::{
    CivilDay, INSIDE_WARMER_BY_DAY, INSIDE_WARMER_BY_NIGHT, Latitude, STANDARD_WIND_SPEED, Siting, Sky, SunOnDay, UsualTemperatures,
    clearness_from_sunshine, clearness_from_temperature_range, solar_radiation, sun_on, sunshine_from_clearness, usual_temperatures,
};
use crate::quantity::{OutOfRange, Range, Temperature, TemperatureScale, Units, decimal};

/// Thermometer readings that can be, °C.
pub const TEMPERATURE_RANGE: Range = Range {
    what: "A reading",
    low: -30.0,
    high: 60.0,
    unit: " °C",
};
/// A day's rain that can be, mm.
pub const RAIN_RANGE: Range = Range {
    what: "Rain",
    low: 0.0,
    high: 500.0,
    unit: " mm",
};
/// Relative humidity that can be, %.
pub const HUMIDITY_RANGE: Range = Range {
    what: "Humidity",
    low: 1.0,
    high: 100.0,
    unit: " %",
};
/// A day's mean wind that can be, m/s at two metres.
pub const WIND_RANGE: Range = Range {
    what: "Wind",
    low: 0.0,
    high: 40.0,
    unit: " m/s",
};

/// Radiation under which a day counts as sunless, MJ/m²: less than a tenth of a millimetre of evaporation (choice).
const LEAST_EXTRATERRESTRIAL_RADIATION: f64 = 0.25;
/// How much the radiation inside warms the house above the day's mean outside, K per MJ/m² (choice, fitted to simulated days).
const WARMING_BY_RADIATION: f64 = 0.12;

/// How the sun of a day is told.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Sun {
    /// In one word.
    Word(Sky),
    /// As hours of bright sunshine, from none to the whole daylight.
    Hours(f64),
}

/// Where the thermometer hangs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Thermometer {
    /// In the glasshouse or tunnel.
    Inside,
    /// In the open air.
    #[default]
    Outside,
}

/// What the grower says of yesterday. Everything may be missing.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Yesterday {
    /// The sun, in a word or in hours.
    pub sun: Option<Sun>,
    /// Maximum of the thermometer, °C, −30 to 60.
    pub warmest: Option<f64>,
    /// Minimum of the thermometer, °C, −30 to 60.
    pub coolest: Option<f64>,
    /// Where those two were read.
    pub thermometer: Thermometer,
    /// Rain, mm, 0 to 500; none when missing.
    pub rain_millimetres: Option<f64>,
    /// Mean relative humidity, %, 1 to 100.
    pub humidity_percent: Option<f64>,
    /// Mean wind at two metres, m/s, 0 to 40; 2 when missing.
    pub wind_metres_per_second: Option<f64>,
}

/// Whether a value was read or is what is usual.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reading {
    /// The grower read it.
    Read,
    /// Nobody read it: the usual value stands in.
    Usual,
}

/// What the day's clearness was taken from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ClearnessFrom {
    /// The grower's word.
    Word(Sky),
    /// Measured hours of sun.
    Hours(f64),
    /// The range between the two readings outside.
    TemperatureRange,
    /// Nothing: a mixed day is assumed.
    Assumed,
}

/// Yesterday's weather with every gap filled and every filling marked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weather {
    /// The place.
    pub latitude: Latitude,
    /// The day that this was.
    pub day: CivilDay,
    /// The sun above the air on that day.
    pub sun: SunOnDay,
    /// Share of the extraterrestrial radiation that reached the ground, 0 to 0.75.
    pub clearness: f64,
    /// Where the clearness comes from.
    pub clearness_from: ClearnessFrom,
    /// Radiation on the ground outside, MJ/m² a day.
    pub solar_radiation: f64,
    /// Maximum where the thermometer hangs, °C.
    pub maximum: f64,
    /// Minimum where the thermometer hangs, °C.
    pub minimum: f64,
    /// Where the maximum and minimum hold; outside when both are usual values.
    pub thermometer: Thermometer,
    /// Whether the maximum was read.
    pub maximum_from: Reading,
    /// Whether the minimum was read.
    pub minimum_from: Reading,
    /// Whether usual temperatures were used outside the latitudes that they were fitted for.
    pub far_guess: bool,
    /// Rain, mm.
    pub rain_millimetres: f64,
    /// Mean relative humidity, %, when it was read.
    pub humidity_percent: Option<f64>,
    /// Mean wind at two metres, m/s.
    pub wind_metres_per_second: f64,
}

/// Why yesterday cannot have been as told, or why nothing can be said of it.
#[derive(Clone, Debug, PartialEq)]
pub enum WeatherError {
    /// A value is outside what can be.
    OutOfRange(OutOfRange),
    /// The coolest reading is above the warmest.
    CoolestAboveWarmest {
        /// °C.
        warmest: f64,
        /// °C.
        coolest: f64,
    },
    /// More hours of sun than the day had, or fewer than none.
    SunBeyondDaylight {
        /// Hours told.
        hours: f64,
        /// Hours from sunrise to sunset.
        daylight: f64,
    },
    /// The sun hardly rose or did not rise.
    SunlessDay {
        /// Degrees north.
        degrees_north: f64,
    },
}

impl WeatherError {
    /// The sentence for a grower with this thermometer.
    #[must_use]
    pub fn sentence(&self, units: Units) -> String {
        match self {
            Self::OutOfRange(error) => error.to_string(),
            Self::CoolestAboveWarmest { warmest, coolest } => {
                let shown = |celsius: f64| decimal(units.temperature_number(Temperature::from_celsius(celsius)), 1);
                let degree = if units.temperature == TemperatureScale::Celsius {
                    "°C"
                } else {
                    "°F"
                };
                format!(
                    "Coolest {} {degree} is above warmest {} {degree}: check which is which.",
                    shown(*coolest),
                    shown(*warmest)
                )
            }
            Self::SunBeyondDaylight { hours, daylight } => {
                format!(
                    "Yesterday had {} hours from sunrise to sunset: {} hours of sun cannot be right.",
                    decimal(*daylight, 1),
                    decimal(*hours, 2)
                )
            }
            Self::SunlessDay { degrees_north } => format!(
                "At {}° {} the sun hardly rises at this time of year: a tomato drinks next to nothing, so feel the compost instead.",
                decimal(degrees_north.abs(), 1),
                if *degrees_north < 0.0 { "south" } else { "north" }
            ),
        }
    }
}

impl fmt::Display for WeatherError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence(Units::default()))
    }
}

impl std::error::Error for WeatherError {}

impl From<OutOfRange> for WeatherError {
    fn from(error: OutOfRange) -> Self {
        Self::OutOfRange(error)
    }
}

impl Yesterday {
    /// Whether anything of the day is told; where the thermometer hangs says nothing by itself.
    #[must_use]
    pub fn is_told(&self) -> bool {
        let nothing = Self {
            thermometer: self.thermometer,
            ..Self::default()
        };
        *self != nothing
    }

    /// Fills the gaps: a mixed sky, or the range between two outside readings; usual temperatures; no rain; a light wind.
    ///
    /// `day` is the day that is told of.
    ///
    /// # Errors
    /// [`WeatherError`]: a value that cannot be, or a day without sun.
    pub fn at(&self, latitude: Latitude, day: CivilDay) -> Result<Weather, WeatherError> {
        let sun = sun_on(latitude.degrees_north(), day.day_of_year());
        if sun.extraterrestrial_radiation < LEAST_EXTRATERRESTRIAL_RADIATION {
            return Err(WeatherError::SunlessDay {
                degrees_north: latitude.degrees_north(),
            });
        }
        let usual = usual_temperatures(latitude, day);
        let (maximum, minimum, thermometer) = self.temperatures(usual)?;
        let (clearness, clearness_from) = self.clearness(sun.daylight_hours)?;
        let optional = |value: Option<f64>, range: Range| value.map(|value| range.check(value)).transpose();
        let reading = |value: Option<f64>| if value.is_some() { Reading::Read } else { Reading::Usual };
        Ok(Weather {
            latitude,
            day,
            sun,
            clearness,
            clearness_from,
            solar_radiation: solar_radiation(clearness, sun.extraterrestrial_radiation),
            maximum,
            minimum,
            thermometer,
            maximum_from: reading(self.warmest),
            minimum_from: reading(self.coolest),
            far_guess: usual.far_guess && (self.warmest.is_none() || self.coolest.is_none()),
            rain_millimetres: optional(self.rain_millimetres, RAIN_RANGE)?.unwrap_or(0.0),
            humidity_percent: optional(self.humidity_percent, HUMIDITY_RANGE)?,
            wind_metres_per_second: optional(self.wind_metres_per_second, WIND_RANGE)?.unwrap_or(STANDARD_WIND_SPEED),
        })
    }

    /// Maximum and minimum in the thermometer's own place. A usual value never makes a reading impossible: it gives way.
    fn temperatures(&self, usual: UsualTemperatures) -> Result<(f64, f64, Thermometer), WeatherError> {
        let (usual_maximum, usual_minimum, thermometer) = match (self.thermometer, self.warmest, self.coolest) {
            (Thermometer::Inside, None, None) | (Thermometer::Outside, ..) => (usual.maximum, usual.minimum, Thermometer::Outside),
            (Thermometer::Inside, ..) => (
                usual.maximum + INSIDE_WARMER_BY_DAY,
                usual.minimum + INSIDE_WARMER_BY_NIGHT,
                Thermometer::Inside,
            ),
        };
        let (maximum, minimum) = match (self.warmest, self.coolest) {
            (Some(warmest), Some(coolest)) => (warmest, coolest),
            (Some(warmest), None) => (warmest, usual_minimum.min(warmest)),
            (None, Some(coolest)) => (usual_maximum.max(coolest), coolest),
            (None, None) => (usual_maximum, usual_minimum),
        };
        TEMPERATURE_RANGE.check(maximum)?;
        TEMPERATURE_RANGE.check(minimum)?;
        if minimum > maximum {
            return Err(WeatherError::CoolestAboveWarmest {
                warmest: maximum,
                coolest: minimum,
            });
        }
        Ok((maximum, minimum, thermometer))
    }

    fn clearness(&self, daylight: f64) -> Result<(f64, ClearnessFrom), WeatherError> {
        match (self.sun, self.warmest, self.coolest, self.thermometer) {
            (Some(Sun::Word(sky)), ..) => Ok((sky.clearness(), ClearnessFrom::Word(sky))),
            (Some(Sun::Hours(hours)), ..) if (0.0..=daylight).contains(&hours) => {
                Ok((clearness_from_sunshine(hours / daylight), ClearnessFrom::Hours(hours)))
            }
            (Some(Sun::Hours(hours)), ..) => Err(WeatherError::SunBeyondDaylight { hours, daylight }),
            (None, Some(warmest), Some(coolest), Thermometer::Outside) => Ok((
                // No day is darker than the darkest there is a word for, however alike both readings are.
                clearness_from_temperature_range(warmest, coolest, Siting::Inland).max(Sky::Dark.clearness()),
                ClearnessFrom::TemperatureRange,
            )),
            _ => Ok((Sky::Mixed.clearness(), ClearnessFrom::Assumed)),
        }
    }
}

impl Weather {
    /// Hours of sun that go with the clearness, 0 to the day's length: the twin of a word.
    #[must_use]
    pub fn sunshine_hours(&self) -> f64 {
        sunshine_from_clearness(self.clearness) * self.sun.daylight_hours
    }

    /// Maximum in the open air, °C: an inside reading less what a house is usually warmer by day.
    #[must_use]
    pub fn outside_maximum(&self) -> f64 {
        match self.thermometer {
            Thermometer::Outside => self.maximum,
            Thermometer::Inside => (self.maximum - INSIDE_WARMER_BY_DAY).max(self.outside_minimum()),
        }
    }

    /// Minimum in the open air, °C: an inside reading less what a house is usually warmer by night.
    #[must_use]
    pub fn outside_minimum(&self) -> f64 {
        match self.thermometer {
            Thermometer::Outside => self.minimum,
            Thermometer::Inside => self.minimum - INSIDE_WARMER_BY_NIGHT,
        }
    }

    /// Highest temperature inside, °C: the reading, or the open air's plus what a house is usually warmer by day.
    #[must_use]
    pub fn inside_maximum(&self) -> f64 {
        match self.thermometer {
            Thermometer::Inside => self.maximum,
            Thermometer::Outside => self.maximum + INSIDE_WARMER_BY_DAY,
        }
    }

    /// Lowest temperature inside, °C: the reading, or the open air's plus what a house is usually warmer by night.
    #[must_use]
    pub fn inside_minimum(&self) -> f64 {
        match self.thermometer {
            Thermometer::Inside => self.minimum,
            Thermometer::Outside => self.minimum + INSIDE_WARMER_BY_NIGHT,
        }
    }

    /// Mean of the maximum and minimum in the thermometer's own place, °C (FAO-56 Eq. 9).
    #[must_use]
    pub fn mean(&self) -> f64 {
        f64::midpoint(self.maximum, self.minimum)
    }

    /// How far the mean inside lies above [`Weather::mean`], K: nothing for inside readings, else 0.12 K for each MJ/m² of
    /// radiation inside (choice).
    #[must_use]
    pub fn inside_warming(&self, radiation_inside: f64) -> f64 {
        match self.thermometer {
            Thermometer::Inside => 0.0,
            Thermometer::Outside => WARMING_BY_RADIATION * radiation_inside,
        }
    }
}
