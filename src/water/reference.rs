//! Water use of the reference crop, mm/day, by five published equations.
//!
//! Sources: FAO-56 (Allen, Pereira, Raes and Smith 1998, *Crop evapotranspiration*, FAO Irrigation and Drainage
//! Paper 56) for Penman–Monteith and Hargreaves–Samani; Makkink 1957, Priestley and Taylor 1972 and Turc 1961 in the
//! forms of the open-source library pyet 1.5.0 (read). Page numbers of equations are from memory.

use crate::quantity::bounded;

use crate::almanac::{evaporation_equivalent, psychrometric_constant, saturation_slope};

/// Latent heat of vaporisation `λ`, MJ/kg. FAO-56 p. 31 (from memory; its inverse 0.408 in Eq. 20 was read).
pub const LATENT_HEAT: f64 = 2.45;

/// Lowest wind speed at 2 m that the equations take, m/s. FAO-56 p. 63 (read).
pub const LOWEST_WIND_SPEED: f64 = 0.5;

/// Makkink's coefficient in the form used here, no unit (read second-hand, in pyet 1.5.0).
pub const MAKKINK_COEFFICIENT: f64 = 0.65;

/// Priestley and Taylor's coefficient, no unit (read second-hand, in pyet 1.5.0).
const PRIESTLEY_TAYLOR_COEFFICIENT: f64 = 1.26;

/// What the Penman–Monteith equation needs to know of one day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReferenceDay {
    /// Mean temperature `T`, °C: half the sum of the day's extremes.
    pub mean_celsius: f64,
    /// Net radiation `Rn`, MJ/m²/day.
    pub net_radiation: f64,
    /// Soil heat flux `G`, MJ/m²/day; 0 for one day.
    pub soil_heat_flux: f64,
    /// Wind speed at 2 m `u2`, m/s.
    pub wind_speed: f64,
    /// Mean saturation vapour pressure `es`, kPa.
    pub saturation_vapour_pressure: f64,
    /// Actual vapour pressure `ea`, kPa.
    pub actual_vapour_pressure: f64,
    /// Atmospheric pressure `P`, kPa.
    pub pressure_kilopascals: f64,
}

/// Reference evapotranspiration `ET0`, mm/day, by the FAO Penman–Monteith equation.
///
/// ```text
///        0.408·Δ·(Rn − G) + γ·900/(T + 273)·u2·(es − ea)
/// ET0 = ────────────────────────────────────────────────        FAO-56 Eq. 6, p. 24
///                  Δ + γ·(1 + 0.34·u2)
/// ```
///
/// The wind is not let below 0.5 m/s (p. 63) and the temperature is held within −100 to 100 °C. A winter day whose
/// net radiation is negative can give a value slightly below zero (dew). The equation and its coefficients stand in FAO-56 (read).
#[must_use]
pub fn penman_monteith(day: &ReferenceDay) -> f64 {
    let slope = saturation_slope(day.mean_celsius);
    let gamma = psychrometric_constant(day.pressure_kilopascals);
    let wind = day.wind_speed.max(LOWEST_WIND_SPEED);
    let deficit = day.saturation_vapour_pressure - day.actual_vapour_pressure;
    let kelvin = bounded(day.mean_celsius, -100.0, 100.0) + 273.0;
    let radiation_term = evaporation_equivalent(slope * (day.net_radiation - day.soil_heat_flux));
    let wind_term = gamma * 900.0 / kelvin * wind * deficit;
    (radiation_term + wind_term) / (slope + gamma * (1.0 + 0.34 * wind))
}

/// Reference evapotranspiration `ET0`, mm/day, from the day's extremes of temperature, °C, and extraterrestrial
/// radiation, MJ/m²/day; never negative.
///
/// `ET0 = 0.0023·(Tmean + 17.8)·√(Tmax − Tmin)·0.408·Ra`, Hargreaves and Samani, FAO-56 Eq. 52, p. 64 (read).
/// Too high in humid air, too low at more than 3 m/s of wind (p. 64).
#[must_use]
pub fn hargreaves_samani(maximum_celsius: f64, minimum_celsius: f64, extraterrestrial_radiation: f64) -> f64 {
    let warmth = (f64::midpoint(maximum_celsius, minimum_celsius) + 17.8).max(0.0);
    let range = (maximum_celsius - minimum_celsius).max(0.0);
    0.0023 * warmth * range.sqrt() * evaporation_equivalent(extraterrestrial_radiation.max(0.0))
}

/// Share of the radiation that goes into evaporation over a wide wet surface, 0 to 1, at `mean_celsius` and
/// `pressure_kilopascals`.
///
/// `Δ/(Δ + γ)`, with Δ of FAO-56 Eq. 13 and γ of Eq. 8.
#[must_use]
pub fn radiation_weighting(mean_celsius: f64, pressure_kilopascals: f64) -> f64 {
    let slope = saturation_slope(mean_celsius);
    slope / (slope + psychrometric_constant(pressure_kilopascals))
}

/// Reference evapotranspiration, mm/day, from mean temperature, °C, solar radiation, MJ/m²/day, and pressure, kPa.
///
/// `ET = 0.65·Δ/(Δ + γ)·Rs/λ`, Makkink 1957.
#[must_use]
pub fn makkink(mean_celsius: f64, solar_radiation: f64, pressure_kilopascals: f64) -> f64 {
    MAKKINK_COEFFICIENT * radiation_weighting(mean_celsius, pressure_kilopascals) * solar_radiation / LATENT_HEAT
}

/// Makkink's evapotranspiration, mm/day, in its older two-coefficient form; below zero on very dull days.
///
/// `ET = 0.61·Δ/(Δ + γ)·Rs/λ − 0.12`, Makkink 1957 as printed in the supplement (S19) of Hydrology
/// and Earth System Sciences 17, 2013 (read second-hand, in pyet 1.5.0 and its tests).
#[must_use]
pub fn makkink_1957(mean_celsius: f64, solar_radiation: f64, pressure_kilopascals: f64) -> f64 {
    0.61 * radiation_weighting(mean_celsius, pressure_kilopascals) * solar_radiation / LATENT_HEAT - 0.12
}

/// Evapotranspiration of a wide, well-watered surface, mm/day, from mean temperature, °C, net radiation and soil heat
/// flux, MJ/m²/day, and pressure, kPa.
///
/// `ET = 1.26·Δ/(Δ + γ)·(Rn − G)/λ`, Priestley and Taylor 1972.
#[must_use]
pub fn priestley_taylor(mean_celsius: f64, net_radiation: f64, soil_heat_flux: f64, pressure_kilopascals: f64) -> f64 {
    PRIESTLEY_TAYLOR_COEFFICIENT * radiation_weighting(mean_celsius, pressure_kilopascals) * (net_radiation - soil_heat_flux) / LATENT_HEAT
}

/// Reference evapotranspiration, mm/day, from mean temperature, °C, solar radiation, MJ/m²/day, and mean relative
/// humidity, % (0 to 100); 0 at and below freezing.
///
/// `ET = 0.013·T/(T + 15)·(23.88·Rs + 50)`, times `1 + (50 − RH)/70` below 50 % humidity, Turc 1961 (read
/// second-hand, in pyet 1.5.0).
#[must_use]
pub fn turc(mean_celsius: f64, solar_radiation: f64, mean_humidity_percent: f64) -> f64 {
    if mean_celsius <= 0.0 {
        return 0.0;
    }
    let dry_air = 1.0 + (50.0 - bounded(mean_humidity_percent, 0.0, 50.0)) / 70.0;
    0.013 * mean_celsius / (mean_celsius + 15.0) * (23.88 * solar_radiation.max(0.0) + 50.0) * dry_air
}
