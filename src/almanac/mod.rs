//! (the heading comes with the code)

mod air;
mod radiation;
mod sun;

pub use air::{
    Psychrometer, STANDARD_ELEVATION_METRES, STANDARD_WIND_SPEED, atmospheric_pressure,
    mean_saturation_vapour_pressure, psychrometric_constant, saturation_slope,
    saturation_vapour_pressure, vapour_pressure_from_dew_point,
    vapour_pressure_from_humidity_range, vapour_pressure_from_maximum_humidity,
    vapour_pressure_from_mean_humidity, vapour_pressure_from_minimum_temperature,
    vapour_pressure_from_wet_bulb, wind_speed_at_two_metres,
};
pub use radiation::{
    CLEAR_SKY_CLEARNESS, DAILY_SOIL_HEAT_FLUX, EVAPORATION_OF_MEGAJOULE, Exposure,
    OVERCAST_CLEARNESS, SUNSHINE_CLEARNESS, black_body_radiation, clear_sky_radiation,
    clearness_from_sunshine, clearness_from_temperature_range, clearness_from_temperature_range_at,
    evaporation_equivalent, monthly_soil_heat_flux, monthly_soil_heat_flux_to_date, net_longwave,
    net_radiation, net_shortwave, solar_radiation,
};
pub use sun::{
    SOLAR_CONSTANT, SunOnDay, day_of_year, mid_month_day_of_year, solar_noon_altitude_radians,
    sun_on,
};
