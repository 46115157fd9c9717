//! Pressure, humidity and wind of the air.
//!
//! Source: FAO-56 (Allen, Pereira, Raes and Smith 1998, *Crop evapotranspiration*, FAO Irrigation and Drainage
//! Paper 56), chapter 3. Eq. 7 and 8 are from memory, confirmed by examples 2, 4, 17 and 18; the others were read.
//! Page numbers of equations are from memory.

use crate::quantity::bounded;

/// Elevation used when none is given, m (choice).
pub const STANDARD_ELEVATION_METRES: f64 = 50.0;

/// Wind speed at 2 m used when none is known, m/s. FAO-56 p. 63 (read).
pub const STANDARD_WIND_SPEED: f64 = 2.0;

/// Saturation vapour pressure at 0 °C, kPa. FAO-56 Eq. 11 and 14 (read); Eq. 48 prints it rounded, 0.611.
const SATURATION_AT_ZERO: f64 = 0.6108;

/// Factor of the temperature in the exponent, no unit. FAO-56 Eq. 11 (read).
const SATURATION_FACTOR: f64 = 17.27;

/// Temperature offset in the exponent, °C. FAO-56 Eq. 11 (read).
const SATURATION_OFFSET: f64 = 237.3;

/// Factor of the slope, °C: 17.27 · 237.3 rounded. FAO-56 Eq. 13 (read).
const SLOPE_FACTOR: f64 = 4098.0;

/// Psychrometric constant over pressure, 1/°C. FAO-56 Eq. 8 (from memory, confirmed by examples 2 and 18).
const PSYCHROMETRIC_CONSTANT_OVER_PRESSURE: f64 = 0.665e-3;

/// Temperatures are held within these, °C, so that Eq. 11 stays clear of its pole at −237.3 °C (choice).
const LOWEST_CELSIUS: f64 = -100.0;
/// See [`LOWEST_CELSIUS`].
const HIGHEST_CELSIUS: f64 = 100.0;

/// Atmospheric pressure, kPa, at `elevation_metres` above the sea (−500 to 9000).
///
/// `P = 101.3·((293 − 0.0065·z)/293)^5.26`, FAO-56 Eq. 7, p. 31 (from memory, confirmed
/// by examples 2, 4, 17 and 18).
#[must_use]
pub fn atmospheric_pressure(elevation_metres: f64) -> f64 {
    let elevation = bounded(elevation_metres, -500.0, 9000.0);
    101.3 * ((293.0 - 0.0065 * elevation) / 293.0).powf(5.26)
}

/// Psychrometric constant, kPa/°C, at `pressure_kilopascals` (30 to 110).
///
/// `γ = 0.665·10⁻³·P`, FAO-56 Eq. 8 (from memory, confirmed by examples 2 and 18).
#[must_use]
pub fn psychrometric_constant(pressure_kilopascals: f64) -> f64 {
    PSYCHROMETRIC_CONSTANT_OVER_PRESSURE * pressure_kilopascals.max(0.0)
}

/// Saturation vapour pressure, kPa, at `celsius` (−100 to 100; a value outside is moved to the nearest end).
///
/// `e°(T) = 0.6108·exp(17.27·T/(T + 237.3))`, FAO-56 Eq. 11, p. 36.
#[must_use]
pub fn saturation_vapour_pressure(celsius: f64) -> f64 {
    let celsius = bounded(celsius, LOWEST_CELSIUS, HIGHEST_CELSIUS);
    SATURATION_AT_ZERO * (SATURATION_FACTOR * celsius / (celsius + SATURATION_OFFSET)).exp()
}

/// Mean saturation vapour pressure of a day, kPa, from its highest and lowest temperature, °C.
///
/// `es = (e°(Tmax) + e°(Tmin))/2`, FAO-56 Eq. 12, p. 36. The pressure at the mean temperature would be too low.
#[must_use]
pub fn mean_saturation_vapour_pressure(maximum_celsius: f64, minimum_celsius: f64) -> f64 {
    f64::midpoint(
        saturation_vapour_pressure(maximum_celsius),
        saturation_vapour_pressure(minimum_celsius),
    )
}

/// Slope of the saturation vapour pressure curve, kPa/°C, at `celsius` (−100 to 100, as
/// [`saturation_vapour_pressure`]); for a day, at its mean temperature.
///
/// `Δ = 4098·e°(T)/(T + 237.3)²`, FAO-56 Eq. 13, p. 37.
#[must_use]
pub fn saturation_slope(celsius: f64) -> f64 {
    let celsius = bounded(celsius, LOWEST_CELSIUS, HIGHEST_CELSIUS);
    SLOPE_FACTOR * saturation_vapour_pressure(celsius) / (celsius + SATURATION_OFFSET).powi(2)
}

/// Actual vapour pressure, kPa, from the dew point, °C.
///
/// `ea = e°(Tdew)`, FAO-56 Eq. 14, p. 37.
#[must_use]
pub fn vapour_pressure_from_dew_point(celsius: f64) -> f64 {
    saturation_vapour_pressure(celsius)
}

/// Actual vapour pressure, kPa, when nothing is known of the humidity: the dew point is taken as the night's lowest
/// temperature, °C.
///
/// `ea = e°(Tmin)`, FAO-56 Eq. 48, p. 58. In a dry climate the paper takes 2 to 3 °C off the lowest temperature.
#[must_use]
pub fn vapour_pressure_from_minimum_temperature(minimum_celsius: f64) -> f64 {
    saturation_vapour_pressure(minimum_celsius)
}

/// Actual vapour pressure, kPa, from the day's extremes of temperature, °C, and relative humidity, % (0 to 100).
///
/// `ea = [e°(Tmin)·RHmax/100 + e°(Tmax)·RHmin/100]/2`, FAO-56 Eq. 17, p. 38.
#[must_use]
pub fn vapour_pressure_from_humidity_range(
    maximum_celsius: f64,
    minimum_celsius: f64,
    maximum_humidity_percent: f64,
    minimum_humidity_percent: f64,
) -> f64 {
    f64::midpoint(
        saturation_vapour_pressure(minimum_celsius) * share(maximum_humidity_percent),
        saturation_vapour_pressure(maximum_celsius) * share(minimum_humidity_percent),
    )
}

/// Actual vapour pressure, kPa, from the lowest temperature, °C, and the highest relative humidity, % (0 to 100).
///
/// `ea = e°(Tmin)·RHmax/100`, FAO-56 Eq. 18, worked in example 5.
#[must_use]
pub fn vapour_pressure_from_maximum_humidity(minimum_celsius: f64, maximum_humidity_percent: f64) -> f64 {
    saturation_vapour_pressure(minimum_celsius) * share(maximum_humidity_percent)
}

/// Actual vapour pressure, kPa, from the day's extremes of temperature, °C, and its mean humidity, % (0 to 100).
///
/// `ea = es·RHmean/100`, FAO-56 Eq. 19, in the form worked in example 5.
#[must_use]
pub fn vapour_pressure_from_mean_humidity(maximum_celsius: f64, minimum_celsius: f64, mean_humidity_percent: f64) -> f64 {
    mean_saturation_vapour_pressure(maximum_celsius, minimum_celsius) * share(mean_humidity_percent)
}

/// How a wet-bulb thermometer is aired; its coefficient `apsy`, 1/°C, stands in FAO-56 Eq. 16, p. 38 (read).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Psychrometer {
    /// Fan-drawn air of about 5 m/s: 0.000662.
    Aspirated,
    /// Natural draught of about 1 m/s: 0.000800.
    NaturallyVentilated,
    /// Unventilated, installed indoors: 0.001200.
    Indoor,
}

impl Psychrometer {
    /// The coefficient `apsy`, 1/°C. FAO-56 Eq. 16, p. 38 (read).
    #[must_use]
    pub const fn coefficient(self) -> f64 {
        match self {
            Self::Aspirated => 0.000_662,
            Self::NaturallyVentilated => 0.000_800,
            Self::Indoor => 0.001_200,
        }
    }
}

/// Actual vapour pressure, kPa, from dry- and wet-bulb temperature, °C, at `pressure_kilopascals`; never negative.
///
/// `ea = e°(Twet) − apsy·P·(Tdry − Twet)`, FAO-56 Eq. 15 and 16, p. 37–38.
#[must_use]
pub fn vapour_pressure_from_wet_bulb(
    dry_bulb_celsius: f64,
    wet_bulb_celsius: f64,
    pressure_kilopascals: f64,
    psychrometer: Psychrometer,
) -> f64 {
    let depression = dry_bulb_celsius - wet_bulb_celsius;
    (saturation_vapour_pressure(wet_bulb_celsius) - psychrometer.coefficient() * pressure_kilopascals * depression).max(0.0)
}

/// Wind speed at 2 m, m/s, from `speed_metres_per_second` measured at `height_metres` above short grass (0.5 to
/// 100 m; a height outside is moved to the nearest end, choice).
///
/// `u2 = uz·4.87/ln(67.8·z − 5.42)`, FAO-56 Eq. 47, p. 56.
#[must_use]
pub fn wind_speed_at_two_metres(speed_metres_per_second: f64, height_metres: f64) -> f64 {
    let height = bounded(height_metres, 0.5, 100.0);
    speed_metres_per_second.max(0.0) * 4.87 / (67.8 * height - 5.42).ln()
}

/// Percent as a share of 1, held within 0 to 1.
fn share(percent: f64) -> f64 {
    bounded(percent / 100.0, 0.0, 1.0)
}
