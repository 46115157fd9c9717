//! From the sun above the air to what a crop receives and keeps.
//!
//! Source: FAO-56 (Allen, Pereira, Raes and Smith 1998, *Crop evapotranspiration*, FAO Irrigation and Drainage
//! Paper 56), chapter 3. All radiation is in MJ/m²/day. Page numbers of equations are from memory.

use crate::quantity::bounded;

/// Share of extraterrestrial radiation that reaches the ground under a wholly clouded sky, `as`.
/// FAO-56 Eq. 35, p. 50 (read).
pub const OVERCAST_CLEARNESS: f64 = 0.25;

/// What full sunshine adds to [`OVERCAST_CLEARNESS`], `bs`, no unit. FAO-56 Eq. 35, p. 50 (read).
pub const SUNSHINE_CLEARNESS: f64 = 0.50;

/// Share of extraterrestrial radiation that reaches sea level under a clear sky. FAO-56 Eq. 36, p. 51 (read).
pub const CLEAR_SKY_CLEARNESS: f64 = 0.75;

/// Gain of clear-sky clearness with elevation, 1/m. FAO-56 Eq. 37, p. 51 (read).
const CLEAR_SKY_GAIN: f64 = 2e-5;

/// Albedo of the grass reference crop, `α`, no unit. FAO-56 Eq. 38, p. 51 (read).
const ALBEDO: f64 = 0.23;

/// Stefan–Boltzmann constant, MJ/K⁴/m²/day. FAO-56 Eq. 39, p. 52 (read).
const STEFAN_BOLTZMANN: f64 = 4.903e-9;

/// 0 °C as FAO-56 Eq. 39 has it, K, p. 52 (read). Eq. 6 uses 273.
const KELVIN_AT_ZERO: f64 = 273.16;

/// Relative radiation `Rs/Rso`, no unit, taken when there is no sun to compare, as in the polar night (choice: half-clouded).
const CLEARNESS_WITHOUT_SUN: f64 = 0.5;

/// Lowest cloudiness factor of net long-wave radiation, no unit (choice). No sky of Eq. 35 reaches it; it keeps a measured
/// radiation near zero from turning the loss into a gain.
const LOWEST_CLOUDINESS_FACTOR: f64 = 0.05;

/// Evaporation of 1 MJ/m², mm. FAO-56 Eq. 20 (read): 1/2.45 rounded.
pub const EVAPORATION_OF_MEGAJOULE: f64 = 0.408;

/// Clearness `Kt` = `Rs/Ra`, 0.25 to 0.75, from the share of the day with sunshine (`n/N`, 0 to 1).
///
/// `Rs/Ra = as + bs·n/N`, FAO-56 Eq. 35, p. 50.
#[must_use]
pub fn clearness_from_sunshine(sunshine_fraction: f64) -> f64 {
    OVERCAST_CLEARNESS + SUNSHINE_CLEARNESS * bounded(sunshine_fraction, 0.0, 1.0)
}

/// Share of the day with sunshine (`n/N`, 0 to 1) that goes with a clearness: the other way round than
/// [`clearness_from_sunshine`], with clearness below 0.25 counting as no sun.
#[must_use]
pub fn sunshine_from_clearness(clearness: f64) -> f64 {
    bounded((clearness - OVERCAST_CLEARNESS) / SUNSHINE_CLEARNESS, 0.0, 1.0)
}

/// How near the sea a place lies, for clearness from the temperature range. FAO-56 Eq. 50, p. 60 (read).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Siting {
    /// On or near a large water body: `kRs` 0.19.
    Coast,
    /// Where land shapes the air: `kRs` 0.16.
    Inland,
}

impl Siting {
    /// The adjustment coefficient `kRs`, °C^−0.5. FAO-56 Eq. 50, p. 60 (read).
    #[must_use]
    pub const fn coefficient(self) -> f64 {
        match self {
            Self::Coast => 0.19,
            Self::Inland => 0.16,
        }
    }
}

/// Clearness `Kt` = `Rs/Ra`, 0 to 0.75, from the day's extremes of temperature, °C, when sunshine is unknown.
///
/// `Rs/Ra = kRs·√(Tmax − Tmin)`, FAO-56 Eq. 50, p. 60, held at or below the clear sky of Eq. 36. A maximum below the
/// minimum counts as no range.
#[must_use]
pub fn clearness_from_temperature_range(maximum_celsius: f64, minimum_celsius: f64, exposure: Siting) -> f64 {
    clearness_from_temperature_range_at(maximum_celsius, minimum_celsius, exposure, 0.0)
}

/// As [`clearness_from_temperature_range`], held at or below the clear sky of Eq. 37 for `elevation_metres`.
#[must_use]
pub fn clearness_from_temperature_range_at(maximum_celsius: f64, minimum_celsius: f64, exposure: Siting, elevation_metres: f64) -> f64 {
    let range = (maximum_celsius - minimum_celsius).max(0.0);
    (exposure.coefficient() * range.sqrt()).min(clear_sky_clearness(elevation_metres))
}

/// Solar radiation at the ground `Rs`, MJ/m²/day, from clearness (0 to 1) and extraterrestrial radiation.
///
/// `Rs = Kt·Ra`, FAO-56 Eq. 35, p. 50, and Eq. 50, p. 60.
#[must_use]
pub fn solar_radiation(clearness: f64, extraterrestrial_radiation: f64) -> f64 {
    bounded(clearness, 0.0, 1.0) * extraterrestrial_radiation.max(0.0)
}

/// Clear-sky radiation `Rso`, MJ/m²/day, at `elevation_metres` (−500 to 9000; 0 gives Eq. 36).
///
/// `Rso = (0.75 + 2·10⁻⁵·z)·Ra`, FAO-56 Eq. 37, p. 51.
#[must_use]
pub fn clear_sky_radiation(extraterrestrial_radiation: f64, elevation_metres: f64) -> f64 {
    clear_sky_clearness(elevation_metres) * extraterrestrial_radiation.max(0.0)
}

/// Net short-wave radiation `Rns`, MJ/m²/day.
///
/// `Rns = (1 − α)·Rs`, α 0.23, FAO-56 Eq. 38, p. 51.
#[must_use]
pub fn net_shortwave(solar_radiation: f64) -> f64 {
    (1.0 - ALBEDO) * solar_radiation
}

/// Black-body radiation at `celsius` (−273.16 to 1000), MJ/m²/day: `σ·TK⁴` of FAO-56 Eq. 39, p. 52, and Annex 2 (read).
#[must_use]
pub fn black_body_radiation(celsius: f64) -> f64 {
    STEFAN_BOLTZMANN * bounded(celsius + KELVIN_AT_ZERO, 0.0, 1273.16).powi(4)
}

/// Net outgoing long-wave radiation `Rnl`, MJ/m²/day, from the day's extremes of temperature, °C, the actual vapour
/// pressure, kPa, and solar and clear-sky radiation, MJ/m²/day.
///
/// `Rnl = σ·(Tmax,K⁴ + Tmin,K⁴)/2·(0.34 − 0.14·√ea)·(1.35·Rs/Rso − 0.35)` with `Rs/Rso ≤ 1`, FAO-56 Eq. 39, p. 52 (read).
///
/// The last bracket is not let below 0.05, and a day without sun counts as half-clouded (choice).
#[must_use]
pub fn net_longwave(
    maximum_celsius: f64,
    minimum_celsius: f64,
    actual_vapour_pressure: f64,
    solar_radiation: f64,
    clear_sky_radiation: f64,
) -> f64 {
    let relative_radiation = if clear_sky_radiation > 0.0 {
        bounded(solar_radiation / clear_sky_radiation, 0.0, 1.0)
    } else {
        CLEARNESS_WITHOUT_SUN
    };
    let humidity_factor = 0.34 - 0.14 * actual_vapour_pressure.max(0.0).sqrt();
    let cloudiness_factor = (1.35 * relative_radiation - 0.35).max(LOWEST_CLOUDINESS_FACTOR);
    f64::midpoint(black_body_radiation(maximum_celsius), black_body_radiation(minimum_celsius)) * humidity_factor * cloudiness_factor
}

/// Net radiation `Rn`, MJ/m²/day.
///
/// `Rn = Rns − Rnl`, FAO-56 Eq. 40, p. 53.
#[must_use]
pub fn net_radiation(net_shortwave: f64, net_longwave: f64) -> f64 {
    net_shortwave - net_longwave
}

/// Depth of water that `megajoules` per m² evaporate, mm.
///
/// `mm = 0.408·MJ`, FAO-56 Eq. 20.
#[must_use]
pub fn evaporation_equivalent(megajoules: f64) -> f64 {
    EVAPORATION_OF_MEGAJOULE * megajoules
}

/// Soil heat flux of a day `G`, MJ/m²/day: it may be left out. FAO-56 Eq. 42, p. 54 (read).
pub const DAILY_SOIL_HEAT_FLUX: f64 = 0.0;

/// Soil heat flux of a month `G`, MJ/m²/day, from the mean temperatures, °C, of the month before and the month after.
///
/// `G = 0.07·(Tᵢ₊₁ − Tᵢ₋₁)`, FAO-56 Eq. 43, p. 54 (read).
#[must_use]
pub fn monthly_soil_heat_flux(previous_mean_celsius: f64, next_mean_celsius: f64) -> f64 {
    0.07 * (next_mean_celsius - previous_mean_celsius)
}

/// Soil heat flux of a month `G`, MJ/m²/day, when the month after is not known, from the mean temperatures, °C, of
/// the month before and of the month itself.
///
/// `G = 0.14·(Tᵢ − Tᵢ₋₁)`, FAO-56 Eq. 44, p. 54 (read).
#[must_use]
pub fn monthly_soil_heat_flux_to_date(previous_mean_celsius: f64, mean_celsius: f64) -> f64 {
    0.14 * (mean_celsius - previous_mean_celsius)
}

/// `Rso/Ra` of FAO-56 Eq. 37 (read), from 500 m below the sea to 9000 m above it (limit).
fn clear_sky_clearness(elevation_metres: f64) -> f64 {
    CLEAR_SKY_CLEARNESS + CLEAR_SKY_GAIN * bounded(elevation_metres, -500.0, 9000.0)
}
