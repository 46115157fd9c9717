//! The sun on a given day and latitude: radiation above the air, sunset and daylight.
//!
//! Source: FAO-56 (Allen, Pereira, Raes and Smith 1998, *Crop evapotranspiration*, FAO Irrigation and Drainage
//! Paper 56), chapter 3 and Annex 2. Page numbers of equations are from memory, those of examples were read.

use crate::quantity::bounded;

use std::f64::consts::{PI, TAU};

/// Solar constant `Gsc`, MJ/m²/minute. FAO-56 Eq. 21, p. 46 (read).
pub const SOLAR_CONSTANT: f64 = 0.0820;

/// Minutes of a day, `24·60` of FAO-56 Eq. 21 (exact).
const MINUTES_OF_DAY: f64 = 24.0 * 60.0;

/// Days of the year in the angle of FAO-56 Eq. 23 and 24, p. 46 (read). It stays 365 in leap years.
const DAYS_IN_ANGLE: f64 = 365.0;

/// Largest departure of the inverse relative distance from 1, no unit. FAO-56 Eq. 23, p. 46 (read).
const DISTANCE_SWING: f64 = 0.033;

/// Largest declination of the sun, radians. FAO-56 Eq. 24, p. 46 (read).
const LARGEST_DECLINATION: f64 = 0.409;

/// Phase of the declination, radians. FAO-56 Eq. 24, p. 46 (read).
const DECLINATION_PHASE: f64 = 1.39;

/// The sun of one day at one latitude.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SunOnDay {
    /// Inverse relative distance between earth and sun `dr`, no unit, 0.967 to 1.033.
    pub relative_distance: f64,
    /// Solar declination `δ`, radians, −0.409 to 0.409.
    pub declination_radians: f64,
    /// Sunset hour angle `ωs`, radians, 0 (polar night) to π (polar day).
    pub sunset_hour_angle_radians: f64,
    /// Extraterrestrial radiation `Ra`, MJ/m²/day, never negative, exactly 0 in the polar night.
    pub extraterrestrial_radiation: f64,
    /// Daylight hours `N`, h, 0 to 24.
    pub daylight_hours: f64,
}

/// The sun at `latitude_degrees_north` (−90 to 90, south negative) on `day_of_year` (`J`, 1 to 366).
///
/// ```text
/// dr = 1 + 0.033·cos(2πJ/365)                                               Eq. 23, p. 46
/// δ  = 0.409·sin(2πJ/365 − 1.39)                                            Eq. 24, p. 46
/// ωs = arccos(−tan φ · tan δ)                                               Eq. 25, p. 46
/// Ra = (24·60/π)·Gsc·dr·[ωs·sin φ·sin δ + cos φ·cos δ·sin ωs]  MJ/m²/day    Eq. 21, p. 46
/// N  = (24/π)·ωs  h                                                         Eq. 34, p. 48
/// ```
///
/// The argument of the arc cosine is held within −1 to 1 (choice), so that the polar day has 24 h of light and the
/// polar night none. The paper warns that the equations lose accuracy in winter beyond 55° of latitude. A latitude
/// or day outside its range is moved to the nearest end.
#[must_use]
pub fn sun_on(latitude_degrees_north: f64, day_of_year: u16) -> SunOnDay {
    let latitude = bounded(latitude_degrees_north, -90.0, 90.0).to_radians();
    let year_angle = TAU * f64::from(day_of_year.clamp(1, 366)) / DAYS_IN_ANGLE;
    let relative_distance = 1.0 + DISTANCE_SWING * year_angle.cos();
    let declination = LARGEST_DECLINATION * (year_angle - DECLINATION_PHASE).sin();
    let (sines, cosines) = (latitude.sin() * declination.sin(), latitude.cos() * declination.cos());
    // tan φ · tan δ, from what Eq. 21 needs anyway.
    let sunset_hour_angle = bounded(-sines / cosines, -1.0, 1.0).acos();
    let day_integral = sunset_hour_angle * sines + cosines * sunset_hour_angle.sin();
    SunOnDay {
        relative_distance,
        declination_radians: declination,
        sunset_hour_angle_radians: sunset_hour_angle,
        extraterrestrial_radiation: MINUTES_OF_DAY / PI * SOLAR_CONSTANT * relative_distance * day_integral.max(0.0),
        daylight_hours: 24.0 * sunset_hour_angle / PI,
    }
}

/// Altitude of the sun at solar noon `η`, radians, −π/2 to π/2, from the latitude in degrees north (−90 to 90) and
/// the declination `δ` in radians.
///
/// `sin η = sin φ·sin δ + cos φ·cos δ`, as worked in FAO-56 example 42, p. 191 (read).
#[must_use]
pub fn solar_noon_altitude_radians(latitude_degrees_north: f64, declination_radians: f64) -> f64 {
    let latitude = bounded(latitude_degrees_north, -90.0, 90.0).to_radians();
    let sine = latitude.sin() * declination_radians.sin() + latitude.cos() * declination_radians.cos();
    bounded(sine, -1.0, 1.0).asin()
}

/// Day of the year `J`, 1 to 366, of day `day` (`D`, 1 to 31) in month `month` (`M`, 1 to 12).
///
/// ```text
/// J = INT(275·M/9 − 30 + D) − 2;   if M < 3: J + 2;   if the year is a leap year and M > 2: J + 1
/// ```
///
/// FAO-56 Annex 2 (read). A month or day outside its range is moved to the nearest end; a day the month does not have runs
/// on into the next month.
#[must_use]
pub fn day_of_year(month: u8, day: u8, leap_year: bool) -> u16 {
    let month = u16::from(month.clamp(1, 12));
    let day = u16::from(day.clamp(1, 31));
    let before_correction = 275 * month / 9 + day - 30;
    if month < 3 {
        before_correction
    } else {
        before_correction - 2 + u16::from(leap_year)
    }
}

/// Day of the year in the middle of month `month` (`M`, 1 to 12): `J = INT(30.4·M − 15)`. FAO-56 Annex 2 (read).
#[must_use]
pub fn mid_month_day_of_year(month: u8) -> u16 {
    (304 * u16::from(month.clamp(1, 12)) - 150) / 10
}
