//! From the quantities of the table on usual weather to the calls of the library.

use first_truss::almanac::{CivilDay, Latitude, UsualTemperatures, usual_temperatures};

use super::case::Inputs;

type Number = Result<f64, String>;

/// Months whose mean makes the growing season's: May to September.
const SEASON: std::ops::RangeInclusive<i8> = 5..=9;

/// The quantity from the inputs.
pub fn answer(quantity: &str, inputs: &Inputs) -> Number {
    let latitude = inputs.number("latitude")?;
    Ok(match quantity {
        "usual_maximum" => at(latitude, day(inputs)?, |usual| usual.maximum)?,
        "usual_minimum" => at(latitude, day(inputs)?, |usual| usual.minimum)?,
        "usual_mean" => at(latitude, day(inputs)?, mean)?,
        "usual_mean_of_may_to_september" => {
            let mut sum = 0.0;
            for month in SEASON {
                sum += at(latitude, fifteenth(month)?, mean)?;
            }
            sum / 5.0
        }
        _ => return Err(format!("no quantity “{quantity}”")),
    })
}

fn mean(usual: UsualTemperatures) -> f64 {
    f64::midpoint(usual.maximum, usual.minimum)
}

/// A value at the exact latitude of a station. The program keeps latitudes to half a degree and is linear in between.
fn at(latitude: f64, day: CivilDay, part: impl Fn(UsualTemperatures) -> f64) -> Number {
    let south = (latitude * 2.0).floor() / 2.0;
    let there = |degrees: f64| {
        let latitude = Latitude::from_degrees_north(degrees).map_err(|error| error.to_string())?;
        Ok::<f64, String>(part(usual_temperatures(latitude, day)))
    };
    let share = (latitude - south) / 0.5;
    Ok((1.0 - share) * there(south)? + share * there(south + 0.5)?)
}

/// A day of an ordinary year: by its date, or the fifteenth of a month.
fn day(inputs: &Inputs) -> Result<CivilDay, String> {
    if inputs.has("month") {
        return fifteenth(inputs.whole("month")?);
    }
    inputs.word("day")?.parse::<CivilDay>().map_err(|error| error.to_string())
}

fn fifteenth(month: i8) -> Result<CivilDay, String> {
    CivilDay::new(2025, month, 15).map_err(|error| error.to_string())
}
