use crate::quantity::bounded;

use super::{CivilDay, Latitude};

/// Mean daily maximum of each month, °C: Sutton Bonington, 52.83 °N, 48 m, 1991–2020.
/// Source (read): Met Office historic station data, Open Government Licence; means of the monthly values.
const MAXIMUM: [f64; 12] = [7.5, 8.1, 10.6, 13.6, 16.7, 19.6, 22.0, 21.7, 18.7, 14.5, 10.4, 7.8];
/// Mean daily minimum of each month, °C: the same station, years and source.
const MINIMUM: [f64; 12] = [1.9, 1.9, 3.0, 4.6, 7.1, 10.1, 12.1, 12.1, 10.1, 7.5, 4.4, 2.2];
/// Change of the maximum for each degree further north, °C, fitted over 33 stations of the same data (computed).
const MAXIMUM_SLOPE: [f64; 12] = [-0.23, -0.25, -0.36, -0.45, -0.54, -0.64, -0.68, -0.66, -0.57, -0.46, -0.33, -0.25];
/// Change of the minimum for each degree further north, °C, fitted over the same stations (computed).
const MINIMUM_SLOPE: [f64; 12] = [-0.14, -0.15, -0.20, -0.21, -0.34, -0.35, -0.38, -0.37, -0.29, -0.30, -0.23, -0.19];
/// Latitude of the station, degrees north (read, with the data).
const STATION_LATITUDE: f64 = 52.83;
/// The fitted latitudes, degrees: further out the nearest of them is used and the guess is marked as far (choice: those of the
/// stations).
const FITTED_LATITUDES: (f64, f64) = (50.0, 60.0);

/// Warmer inside an unheated house than outside, on the day's maximum, K.
/// Source (read): means measured in a plastic tunnel, Savage 1980, Agrochemophysica 12:5–13; South African, so editable.
pub const INSIDE_WARMER_BY_DAY: f64 = 4.2;
/// Warmer inside an unheated house than outside, on the night's minimum, K. Same source.
pub const INSIDE_WARMER_BY_NIGHT: f64 = 1.3;

/// The temperatures of an ordinary day at a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UsualTemperatures {
    /// Day's maximum outdoors, °C.
    pub maximum: f64,
    /// Night's minimum outdoors, °C.
    pub minimum: f64,
    /// Whether the place lies outside the latitudes that were fitted (50 to 60°): read a thermometer instead.
    pub far_guess: bool,
}

impl UsualTemperatures {
    /// Mean outdoors, °C: half-way between the two.
    #[must_use]
    pub const fn mean(&self) -> f64 {
        f64::midpoint(self.maximum, self.minimum)
    }

    /// Mean inside an unheated house, °C.
    #[must_use]
    pub const fn inside_mean(&self) -> f64 {
        self.mean() + f64::midpoint(INSIDE_WARMER_BY_DAY, INSIDE_WARMER_BY_NIGHT)
    }
}

/// The usual outdoor maximum and minimum for a day and latitude, linear between the fifteenths of adjacent months.
///
/// In the southern hemisphere the months are half a year on. Source: science of the station set named above; error of the
/// May to September mean over 33 stations from latitude alone: rms 0.72 K, −1.17 to +1.76 K.
#[must_use]
pub fn usual_temperatures(latitude: Latitude, day: CivilDay) -> UsualTemperatures {
    let degrees = latitude.degrees_north().abs();
    let (low, high) = FITTED_LATITUDES;
    let north_of_station = bounded(degrees, low, high) - STATION_LATITUDE;
    let at = |table: &[f64; 12], slope: &[f64; 12]| {
        let month = |index: usize| table.get(index).copied().unwrap_or(0.0) + slope.get(index).copied().unwrap_or(0.0) * north_of_station;
        between_fifteenths(latitude, day, month)
    };
    UsualTemperatures {
        maximum: at(&MAXIMUM, &MAXIMUM_SLOPE),
        minimum: at(&MINIMUM, &MINIMUM_SLOPE),
        far_guess: !(low..=high).contains(&degrees),
    }
}

/// Interpolates a monthly value between the fifteenths of the two months around a day (choice), half a year on in the south (choice).
fn between_fifteenths(latitude: Latitude, day: CivilDay, month_value: impl Fn(usize) -> f64) -> f64 {
    let half_a_year = if latitude.is_southern() { 6 } else { 0 };
    let month = usize::from(day.month()) + 11 + half_a_year;
    let (before, days_past, length) = if day.day() >= 15 {
        (month, day.day() - 15, day.days_in_month())
    } else {
        (month - 1, day.day() + day.days_in_month_before() - 15, day.days_in_month_before())
    };
    let share = f64::from(days_past) / f64::from(length);
    month_value(before % 12) * (1.0 - share) + month_value((before + 1) % 12) * share
}
