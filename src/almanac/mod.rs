//! Civil days, the sun, places, yesterday's weather and the usual weather of the month.

mod air;
mod climate;
mod day;
mod place;
mod radiation;
mod sky;
mod sun;
mod usual_month;
mod weather;

pub use air::{
    Psychrometer, STANDARD_ELEVATION_METRES, STANDARD_WIND_SPEED, atmospheric_pressure, mean_saturation_vapour_pressure,
    psychrometric_constant, saturation_slope, saturation_vapour_pressure, vapour_pressure_from_dew_point,
    vapour_pressure_from_humidity_range, vapour_pressure_from_maximum_humidity, vapour_pressure_from_mean_humidity,
    vapour_pressure_from_minimum_temperature, vapour_pressure_from_wet_bulb, wind_speed_at_two_metres,
};
pub use climate::{INSIDE_WARMER_BY_DAY, INSIDE_WARMER_BY_NIGHT, UsualTemperatures, usual_temperatures};
pub use day::{CivilDay, DayError};
pub use place::{DISTRICTS, District, LATITUDE_RANGE, Latitude, STANDARD_LATITUDE, usual_latitude};
pub use radiation::{
    CLEAR_SKY_CLEARNESS, DAILY_SOIL_HEAT_FLUX, EVAPORATION_OF_MEGAJOULE, OVERCAST_CLEARNESS, SUNSHINE_CLEARNESS, Siting,
    black_body_radiation, clear_sky_radiation, clearness_from_sunshine, clearness_from_temperature_range,
    clearness_from_temperature_range_at, evaporation_equivalent, monthly_soil_heat_flux, monthly_soil_heat_flux_to_date, net_longwave,
    net_radiation, net_shortwave, solar_radiation, sunshine_from_clearness,
};
pub use sky::Sky;
pub use sun::{SOLAR_CONSTANT, SunOnDay, day_of_year, mid_month_day_of_year, solar_noon_altitude_radians, sun_on};
pub use usual_month::{UsualMonth, usual_month};
pub use weather::{
    ClearnessFrom, HUMIDITY_RANGE, RAIN_RANGE, Reading, Sun, TEMPERATURE_RANGE, Thermometer, WIND_RANGE, Weather, WeatherError, Yesterday,
};
