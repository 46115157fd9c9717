//! From the quantities of the tables on reference evapotranspiration to the calls of the library.
//!
//! An input that a case leaves out is worked out from the others in the order FAO-56 gives; for example solar
//! radiation from hours of sunshine or, failing those, from the temperature range.

use first_truss::almanac::{
    DAILY_SOIL_HEAT_FLUX, Psychrometer, Siting, SunOnDay, atmospheric_pressure, black_body_radiation, clear_sky_radiation,
    clearness_from_sunshine, clearness_from_temperature_range_at, day_of_year, evaporation_equivalent, mean_saturation_vapour_pressure,
    monthly_soil_heat_flux, monthly_soil_heat_flux_to_date, net_longwave, net_radiation, net_shortwave, psychrometric_constant,
    saturation_slope, saturation_vapour_pressure, solar_noon_altitude_radians, solar_radiation, sun_on, vapour_pressure_from_dew_point,
    vapour_pressure_from_humidity_range, vapour_pressure_from_maximum_humidity, vapour_pressure_from_mean_humidity,
    vapour_pressure_from_minimum_temperature, vapour_pressure_from_wet_bulb, wind_speed_at_two_metres,
};
use first_truss::water::{
    ReferenceDay, STAKING_GAIN, TOMATO_BASAL, TOMATO_SINGLE, basal_coefficient_from_cover, basal_coefficient_from_leaf_area,
    climatic_adjustment, deplete_by_morning_stress, effective_cover_of_rows, hargreaves_samani, loss_over_day, makkink, makkink_1957,
    penman_monteith, priestley_taylor, readily_available_water, thin_stand_reduction, total_available_water, turc,
};

use super::case::Inputs;

type Number = Result<f64, String>;

/// The quantity from the inputs.
pub fn answer(quantity: &str, inputs: &Inputs) -> Number {
    Ok(match quantity {
        // Sun
        "day_of_year" => f64::from(day_of_year(inputs.whole("month")?, inputs.whole("day")?, inputs.flag("leap_year")?)),
        "relative_distance" => sun(inputs)?.relative_distance,
        "declination" => sun(inputs)?.declination_radians,
        "sunset_hour_angle" => sun(inputs)?.sunset_hour_angle_radians,
        "extraterrestrial_radiation" => sun(inputs)?.extraterrestrial_radiation,
        "extraterrestrial_radiation_as_water" => evaporation_equivalent(sun(inputs)?.extraterrestrial_radiation),
        "daylight_hours" => sun(inputs)?.daylight_hours,
        "noon_altitude" => noon_altitude(inputs)?,
        "sine_of_noon_altitude" => noon_altitude(inputs)?.sin(),
        // Air
        "atmospheric_pressure" => pressure(inputs)?,
        "psychrometric_constant" => psychrometric_constant(pressure(inputs)?),
        "saturation_vapour_pressure" => saturation_vapour_pressure(inputs.number("celsius")?),
        "mean_saturation_vapour_pressure" => mean_saturation(inputs)?,
        "saturation_slope" => saturation_slope(inputs.number("celsius")?),
        "actual_vapour_pressure" => actual_vapour_pressure(inputs)?,
        "wind_speed_at_two_metres" => wind(inputs)?,
        // Radiation
        "solar_radiation" => solar(inputs)?,
        "solar_radiation_as_water" => evaporation_equivalent(solar(inputs)?),
        "clear_sky_radiation" => clear_sky(inputs)?,
        "black_body_radiation" => black_body_radiation(inputs.number("celsius")?),
        "net_shortwave" => net_shortwave(solar(inputs)?),
        "net_longwave" => longwave(inputs)?,
        "net_radiation" => net(inputs)?,
        "soil_heat_flux" => soil_heat(inputs)?,
        // Reference equations
        "penman_monteith" => penman_monteith(&reference_day(inputs)?),
        "hargreaves_samani" => hargreaves_samani(
            inputs.number("maximum_celsius")?,
            inputs.number("minimum_celsius")?,
            sun(inputs)?.extraterrestrial_radiation,
        ),
        "makkink" => makkink(mean_celsius(inputs)?, solar(inputs)?, pressure(inputs)?),
        "makkink_1957" => makkink_1957(mean_celsius(inputs)?, solar(inputs)?, pressure(inputs)?),
        "priestley_taylor" => priestley_taylor(mean_celsius(inputs)?, net(inputs)?, soil_heat(inputs)?, pressure(inputs)?),
        "turc" => turc(mean_celsius(inputs)?, solar(inputs)?, inputs.number("mean_humidity")?),
        // Crop coefficients
        "middle_coefficient" => middle_coefficient(inputs)?,
        "thin_stand_reduction" => thin_stand_reduction(inputs.number("cover")?, inputs.number("dense_cover")?),
        "middle_coefficient_of_thin_stand" => {
            middle_coefficient(inputs)? - thin_stand_reduction(inputs.number("cover")?, inputs.number("dense_cover")?)
        }
        "effective_cover" => effective_cover(inputs)?,
        "basal_coefficient_from_cover" => basal_coefficient_from_cover(
            inputs.number("minimum_coefficient")?,
            middle_coefficient(inputs)?,
            inputs.number("cover")?,
            effective_cover(inputs)?,
            inputs.number("height")?,
        ),
        "basal_coefficient_from_leaf_area" => basal_coefficient_from_leaf_area(
            inputs.number("minimum_coefficient")?,
            inputs.number("full_coefficient")?,
            inputs.number("leaf_area_index")?,
        ),
        // Root zone
        "total_available_water" => total_available(inputs)?,
        "readily_available_water" => readily_available(inputs)?,
        "deficit_after_dry_days" => dry_days(inputs)?.1,
        "stress_coefficient_of_dry_day" => dry_days(inputs)?.0,
        "deficit_after_dry_days_integrated" => dry_days_integrated(inputs)?,
        _ => return Err(format!("no quantity “{quantity}”")),
    })
}

/// The sun; a case on a quantity that does not depend on the latitude may leave it out.
fn sun(inputs: &Inputs) -> Result<SunOnDay, String> {
    Ok(sun_on(inputs.number_or("latitude", 0.0)?, inputs.whole("day_of_year")?))
}

fn noon_altitude(inputs: &Inputs) -> Number {
    Ok(solar_noon_altitude_radians(
        inputs.number("latitude")?,
        sun(inputs)?.declination_radians,
    ))
}

fn pressure(inputs: &Inputs) -> Number {
    Ok(atmospheric_pressure(inputs.number("elevation")?))
}

fn mean_celsius(inputs: &Inputs) -> Number {
    if inputs.has("mean_celsius") {
        return inputs.number("mean_celsius");
    }
    Ok(f64::midpoint(inputs.number("maximum_celsius")?, inputs.number("minimum_celsius")?))
}

fn mean_saturation(inputs: &Inputs) -> Number {
    Ok(mean_saturation_vapour_pressure(
        inputs.number("maximum_celsius")?,
        inputs.number("minimum_celsius")?,
    ))
}

fn actual_vapour_pressure(inputs: &Inputs) -> Number {
    let maximum = || inputs.number("maximum_celsius");
    let minimum = || inputs.number("minimum_celsius");
    Ok(if inputs.has("actual_vapour_pressure") {
        inputs.number("actual_vapour_pressure")?
    } else if inputs.has("dew_point") {
        vapour_pressure_from_dew_point(inputs.number("dew_point")?)
    } else if inputs.has("wet_bulb") {
        vapour_pressure_from_wet_bulb(
            inputs.number("dry_bulb")?,
            inputs.number("wet_bulb")?,
            pressure(inputs)?,
            psychrometer(inputs)?,
        )
    } else if inputs.has("minimum_humidity") {
        vapour_pressure_from_humidity_range(
            maximum()?,
            minimum()?,
            inputs.number("maximum_humidity")?,
            inputs.number("minimum_humidity")?,
        )
    } else if inputs.has("maximum_humidity") {
        vapour_pressure_from_maximum_humidity(minimum()?, inputs.number("maximum_humidity")?)
    } else if inputs.has("mean_humidity") {
        vapour_pressure_from_mean_humidity(maximum()?, minimum()?, inputs.number("mean_humidity")?)
    } else {
        vapour_pressure_from_minimum_temperature(minimum()?)
    })
}

fn psychrometer(inputs: &Inputs) -> Result<Psychrometer, String> {
    match inputs.word("psychrometer")? {
        "aspirated" => Ok(Psychrometer::Aspirated),
        "naturally ventilated" => Ok(Psychrometer::NaturallyVentilated),
        "indoor" => Ok(Psychrometer::Indoor),
        other => Err(format!("no psychrometer “{other}”")),
    }
}

fn wind(inputs: &Inputs) -> Number {
    let speed = inputs.number("wind_speed")?;
    if inputs.has("wind_height") {
        return Ok(wind_speed_at_two_metres(speed, inputs.number("wind_height")?));
    }
    Ok(speed)
}

fn solar(inputs: &Inputs) -> Number {
    if inputs.has("solar_radiation") {
        return inputs.number("solar_radiation");
    }
    let sun = sun(inputs)?;
    let clearness = if inputs.has("sunshine_hours") {
        clearness_from_sunshine(inputs.number("sunshine_hours")? / sun.daylight_hours)
    } else {
        clearness_from_temperature_range_at(
            inputs.number("maximum_celsius")?,
            inputs.number("minimum_celsius")?,
            exposure(inputs)?,
            inputs.number_or("elevation", 0.0)?,
        )
    };
    Ok(solar_radiation(clearness, sun.extraterrestrial_radiation))
}

fn exposure(inputs: &Inputs) -> Result<Siting, String> {
    match inputs.word("exposure")? {
        "coast" => Ok(Siting::Coast),
        "inland" => Ok(Siting::Inland),
        other => Err(format!("no exposure “{other}”")),
    }
}

fn clear_sky(inputs: &Inputs) -> Number {
    Ok(clear_sky_radiation(
        sun(inputs)?.extraterrestrial_radiation,
        inputs.number_or("elevation", 0.0)?,
    ))
}

fn longwave(inputs: &Inputs) -> Number {
    Ok(net_longwave(
        inputs.number("maximum_celsius")?,
        inputs.number("minimum_celsius")?,
        actual_vapour_pressure(inputs)?,
        solar(inputs)?,
        clear_sky(inputs)?,
    ))
}

fn net(inputs: &Inputs) -> Number {
    if inputs.has("net_radiation") {
        return inputs.number("net_radiation");
    }
    Ok(net_radiation(net_shortwave(solar(inputs)?), longwave(inputs)?))
}

fn soil_heat(inputs: &Inputs) -> Number {
    if inputs.has("next_month_celsius") {
        return Ok(monthly_soil_heat_flux(
            inputs.number("previous_month_celsius")?,
            inputs.number("next_month_celsius")?,
        ));
    }
    if inputs.has("previous_month_celsius") {
        return Ok(monthly_soil_heat_flux_to_date(
            inputs.number("previous_month_celsius")?,
            inputs.number("month_celsius")?,
        ));
    }
    Ok(DAILY_SOIL_HEAT_FLUX)
}

fn reference_day(inputs: &Inputs) -> Result<ReferenceDay, String> {
    Ok(ReferenceDay {
        mean_celsius: mean_celsius(inputs)?,
        net_radiation: net(inputs)?,
        soil_heat_flux: soil_heat(inputs)?,
        wind_speed: wind(inputs)?,
        saturation_vapour_pressure: mean_saturation(inputs)?,
        actual_vapour_pressure: actual_vapour_pressure(inputs)?,
        pressure_kilopascals: pressure(inputs)?,
    })
}

/// The tomato's own middle coefficient, in the climate of the case.
fn middle_coefficient(inputs: &Inputs) -> Number {
    let table = match inputs.word("coefficient")? {
        "single" => TOMATO_SINGLE.middle,
        "basal" => TOMATO_BASAL.middle,
        other => return Err(format!("no coefficient “{other}”")),
    };
    let staking = if inputs.flag("staked")? { STAKING_GAIN } else { 0.0 };
    let adjustment = climatic_adjustment(
        inputs.number("wind_speed")?,
        inputs.number("minimum_humidity")?,
        inputs.number("height")?,
    );
    Ok(table + staking + adjustment)
}

fn effective_cover(inputs: &Inputs) -> Number {
    Ok(effective_cover_of_rows(
        inputs.number("cover")?,
        inputs.number("height_width_ratio")?,
        noon_altitude(inputs)?,
    ))
}

fn total_available(inputs: &Inputs) -> Number {
    Ok(total_available_water(
        inputs.number("field_capacity")?,
        inputs.number("wilting_point")?,
        inputs.number("rooting_depth")?,
    ))
}

fn readily_available(inputs: &Inputs) -> Number {
    Ok(readily_available_water(
        total_available(inputs)?,
        inputs.number("depletion_fraction")?,
    ))
}

fn demand(inputs: &Inputs) -> Number {
    Ok(inputs.number("crop_coefficient")? * inputs.number("reference_evapotranspiration")?)
}

/// Stress coefficient of the last of `days` dry days, and the deficit at its end.
fn dry_days(inputs: &Inputs) -> Result<(f64, f64), String> {
    let (demand, readily, total) = (demand(inputs)?, readily_available(inputs)?, total_available(inputs)?);
    let start = (1.0, inputs.number("deficit")?);
    Ok((0..inputs.whole::<u16>("days")?).fold(start, |(_, deficit), _| {
        let day = deplete_by_morning_stress(deficit, demand, readily, total);
        (day.stress_coefficient, day.deficit_at_end)
    }))
}

/// The deficit after `days` dry days when the stress follows the drying.
fn dry_days_integrated(inputs: &Inputs) -> Number {
    let (demand, readily, total) = (demand(inputs)?, readily_available(inputs)?, total_available(inputs)?);
    let start = inputs.number("deficit")?;
    Ok((0..inputs.whole::<u16>("days")?).fold(start, |deficit, _| deficit + loss_over_day(deficit, demand, readily, total)))
}
