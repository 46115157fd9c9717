//! From the quantities of the table on the water balance to the calls of the library.

use first_truss::almanac::{CivilDay, Latitude, Sky, Sun, Yesterday};
use first_truss::water::{DayWater, Flows, Store, morning_water};

use super::case::Inputs;
use super::scene;

type Number = Result<f64, String>;

/// The quantity from the inputs.
pub fn answer(quantity: &str, inputs: &Inputs) -> Number {
    Ok(match quantity {
        "balance_drained" => flows_of_day(inputs)?.drained,
        "balance_stress" => flows_of_day(inputs)?.stress,
        "balance_deficit" => flows_of_day(inputs)?.end,
        "dry_days_balance" => {
            let (store, demand) = (store(inputs)?, inputs.number("demand")?);
            let water = DayWater {
                demand,
                ..DayWater::default()
            };
            (0..inputs.whole::<u16>("days")?).fold(inputs.number("deficit")?, |deficit, _| store.day(deficit, &water).end)
        }
        "poured_past" => {
            let water = DayWater {
                given: inputs.number("given")?,
                in_parts: inputs.flag("in_parts")?,
                ..DayWater::default()
            };
            store(inputs)?.day(inputs.number("deficit")?, &water).drained
        }
        _ => return Err(format!("no quantity “{quantity}”")),
    })
}

fn store(inputs: &Inputs) -> Result<Store, String> {
    Ok(Store::new(inputs.number("easy_water")?, inputs.number("all_water")?))
}

/// The last of so many days of a case, each with the demand that the morning's sum has for its sky.
fn flows_of_day(inputs: &Inputs) -> Result<Flows, String> {
    let store = store(inputs)?;
    let mut deficit = inputs.number("deficit")?;
    let mut flows = Err("no day".to_owned());
    let days: usize = inputs.whole("day")?;
    let group = scene::group(inputs)?;
    for (sky, given) in inputs.word("skies")?.split(' ').zip(inputs.word("given")?.split(' ')).take(days) {
        let water = DayWater {
            given: given.parse().map_err(|error| format!("{given}: {error}"))?,
            in_parts: true,
            demand: demand_under(sky, &group)?,
            ..DayWater::default()
        };
        let day = store.day(deficit, &water);
        deficit = day.end;
        flows = Ok(day);
    }
    flows
}

/// What a plant uses on a day of the middle of July at 52° north.
fn demand_under(sky: &str, group: &first_truss::water::Group) -> Number {
    let (sky, warmest, coolest) = match sky {
        "clear" => (Sky::Clear, 27.0, 13.0),
        "mixed" => (Sky::Mixed, 21.5, 12.5),
        "dull" => (Sky::Dull, 17.5, 13.0),
        other => return Err(format!("no sky “{other}”")),
    };
    let yesterday = Yesterday {
        sun: Some(Sun::Word(sky)),
        warmest: Some(warmest),
        coolest: Some(coolest),
        ..Yesterday::default()
    };
    let latitude = Latitude::from_degrees_north(52.0).map_err(|error| error.to_string())?;
    let morning = CivilDay::new(2025, 7, 16).map_err(|error| error.to_string())?;
    let dose = morning_water(group, &yesterday, None, latitude, morning).map_err(|error| error.to_string())?;
    Ok(dose.demand.total())
}
