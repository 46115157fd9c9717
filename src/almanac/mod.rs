//! Civil days, the sun, places, yesterday's weather and the usual weather of the month.

mod air;
mod climate;
mod day;
mod place;
mod radiation;
mod sky;
mod sun;
mod weather;

pub use air::*;
pub use climate::{INSIDE_WARMER_BY_DAY, INSIDE_WARMER_BY_NIGHT, UsualTemperatures, usual_temperatures};
pub use day::{CivilDay, DayError};
pub use place::{DISTRICTS, District, LATITUDE_RANGE, Latitude, STANDARD_LATITUDE};
pub use radiation::*;
pub use sky::Sky;
pub use sun::*;
pub use weather::{
    ClearnessFrom, HUMIDITY_RANGE, RAIN_RANGE, Reading, STANDARD_WIND, Sun, TEMPERATURE_RANGE, Thermometer, WIND_RANGE, Weather, WeatherError, Yesterday,
};
