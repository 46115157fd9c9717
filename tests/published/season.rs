//! The water of a whole season, summed over the doses of its mornings.

use first_truss::almanac::{CivilDay, Latitude, Sun, Yesterday, sun_on};
use first_truss::quantity::Volume;
use first_truss::water::{Container, Cover, Group, Place, PlantSize, morning_water, volume_of_pot};

use super::case::Inputs;

type Number = Result<f64, String>;

/// Mean maximum and minimum, °C, and share of the daylight with sun of May to September at Oxford, 1981 to 2010 (Met
/// Office historic station data, Open Government Licence; the shares are worked out from the monthly hours).
const OXFORD: [(i8, f64, f64, f64); 5] = [
    (5, 17.1, 7.9, 0.40),
    (6, 20.2, 10.9, 0.39),
    (7, 22.7, 13.0, 0.42),
    (8, 22.3, 12.9, 0.44),
    (9, 19.1, 10.7, 0.38),
];
/// Oxford to half a degree.
const OXFORD_LATITUDE: f64 = 52.0;
/// Height at planting and when the plant is stopped, m.
const HEIGHTS: (f64, f64) = (0.25, 1.8);
/// Days from planting until it is stopped: twelve weeks (choice; the measured seasons do not state it).
const DAYS_OF_GROWTH: f64 = 84.0;
/// Open surface of the pot, m².
const OPENING: f64 = 0.07;

/// The quantity from the inputs: litres for one plant from 15 May to 30 September, all of it or one month's.
pub fn answer(quantity: &str, inputs: &Inputs) -> Number {
    let month = match quantity {
        "season_litres" => None,
        "month_litres" => Some(inputs.whole::<u8>("month")?),
        _ => return Err(format!("no quantity “{quantity}”")),
    };
    let cover = match inputs.word("place")? {
        "glass" => Cover::Glass,
        "new polythene" => Cover::NewPolythene,
        other => return Err(format!("no place “{other}”")),
    };
    let (planted, last) = (day(2025, 5, 15)?, day(2025, 9, 30)?);
    let mut litres = 0.0;
    let mut told_of = planted;
    while told_of <= last {
        if month.is_none_or(|month| month == told_of.month()) {
            litres += litres_of(told_of, f64::from(told_of.days_since(planted)), cover)?.litres();
        }
        told_of = told_of.tomorrow();
    }
    Ok(litres)
}

/// What a plant used on a day that had the month's mean weather.
fn litres_of(told_of: CivilDay, days_since_planting: f64, cover: Cover) -> Result<Volume, String> {
    let (_, warmest, coolest, sun_share) = OXFORD
        .into_iter()
        .find(|(month, ..)| u8::try_from(*month) == Ok(told_of.month()))
        .ok_or("no weather for that month")?;
    let latitude = Latitude::from_degrees_north(OXFORD_LATITUDE).map_err(|error| error.to_string())?;
    let daylight = sun_on(latitude.degrees_north(), told_of.day_of_year()).daylight_hours;
    let (from, to) = HEIGHTS;
    let height = (from + (to - from) * days_since_planting / DAYS_OF_GROWTH).min(to);
    let group = Group {
        place: Place::Covered { cover, shaded: false },
        container: Container::Pot {
            litres: volume_of_pot(2.0 * (OPENING / std::f64::consts::PI).sqrt()),
        },
        drains: Some(false),
        size: PlantSize {
            height_metres: Some(height),
            trusses: None,
        },
        ..Group::default()
    };
    let yesterday = Yesterday {
        sun: Some(Sun::Hours(sun_share * daylight)),
        warmest: Some(warmest),
        coolest: Some(coolest),
        ..Yesterday::default()
    };
    morning_water(&group, &yesterday, None, latitude, told_of.tomorrow())
        .map(|dose| dose.per_plant)
        .map_err(|error| error.to_string())
}

fn day(year: i16, month: i8, day: i8) -> Result<CivilDay, String> {
    CivilDay::new(year, month, day).map_err(|error| error.to_string())
}
