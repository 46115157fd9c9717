//! From the quantities of the tables on the butt, days away, growth and ripening to the calls of the library.

use first_truss::almanac::{CivilDay, Latitude, sun_on, usual_month};
use first_truss::water::{
    Absence, AwayGroup, AwayPlan, Butt, DailyNeed, LastTruss, MonthAhead, Outlook, PlantSize, Roof, RoofKind, SomeoneComes, Standing,
    away_plan, carry_forward, demand_until, last_truss, ripening, season_outlook, truss_rate, usual_mean,
};

use super::case::Inputs;
use super::scene::Scene;

type Number = Result<f64, String>;

/// Size of the butt where a case names none, litres.
const BUTT_LITRES: f64 = 200.0;

/// The quantity from the inputs.
pub fn answer(quantity: &str, inputs: &Inputs) -> Number {
    Ok(match quantity {
        // Roof and butt
        "runoff" => kind_of_roof(inputs)?.runoff(),
        "roof_litres" => roof(inputs)?.litres_per_millimetre() * inputs.number("rain")?,
        "refill_low" => roof(inputs)?.refill(inputs.number("rain")?).low,
        "refill_high" => roof(inputs)?.refill(inputs.number("rain")?).high,
        "litres_for_all" => litres_for_all(inputs)?,
        "butt_days" => butt_days(inputs)?,
        "usual_rain" => usual(inputs)?.0,
        "usual_sun_hours" => usual(inputs)?.1,
        "month_supply" => month(inputs)?.supply,
        "month_demand" => month(inputs)?.demand,
        "month_days_of_butt" => BUTT_LITRES / (month(inputs)?.demand / f64::from(month(inputs)?.days)),
        "season_short" => season(inputs)?.iter().map(|month| month.short).sum(),
        "season_over" => season(inputs)?.iter().map(|month| month.over).sum(),
        // Days away
        "away_litres" => away(inputs)?.1.each.value,
        "away_total" => away(inputs)?.0.total.value,
        "away_reservoir" => away(inputs)?.0.reservoir,
        "easy_water_days" => away(inputs)?.1.easy_water_lasts.value,
        "store_days" => away(inputs)?.1.store_lasts.value,
        "someone_after_days" => f64::from(someone(inputs)?.1.by.days_since(someone(inputs)?.0)),
        "someone_every" => f64::from(someone(inputs)?.1.every),
        "nobody_needed" => f64::from(u8::from(away(inputs)?.0.someone_comes.is_none())),
        "days_until_stress" => {
            let store = store(inputs)?;
            demand_until(inputs.number("coefficient")?, 0.0, store.0, store.1) / inputs.number("demand")?
        }
        // Growth and ripening
        "days_for_a_truss" => 1.0 / truss_rate(inputs.number("celsius")?),
        "days_to_ripen" => {
            let celsius = inputs.number("celsius")?;
            ripening(day("2026-01-01")?, day("2026-12-31")?, &|_| celsius).days
        }
        "carried_height" => carried(inputs)?.height_metres.ok_or("no height")?,
        "carried_trusses" => carried(inputs)?.trusses.ok_or("no trusses")?,
        "stop_day" => f64::from(last(inputs)?.stop.day_of_year()),
        "days_to_stop" => f64::from(last(inputs)?.stop.days_since(Scene::read(inputs)?.today)),
        "taper_day" => f64::from(last(inputs)?.taper.0.day_of_year()),
        "last_truss" => f64::from(last(inputs)?.truss.ok_or("no truss")?),
        "nothing_ripens" => f64::from(u8::from(last(inputs).is_err())),
        _ => return Err(format!("no quantity “{quantity}”")),
    })
}

fn day(text: &str) -> Result<CivilDay, String> {
    text.parse::<CivilDay>().map_err(|error| error.to_string())
}

fn kind_of_roof(inputs: &Inputs) -> Result<RoofKind, String> {
    Ok(match inputs.word("roof")? {
        "glass" => RoofKind::Glass,
        "smooth sheet" => RoofKind::SmoothSheet,
        "rough sheet" => RoofKind::RoughSheet,
        "tiles" => RoofKind::Tiles,
        "flat" => RoofKind::Flat,
        other => return Err(format!("no roof “{other}”")),
    })
}

fn roof(inputs: &Inputs) -> Result<Roof, String> {
    Ok(Roof {
        plan_area: inputs.number("roof_area")?,
        kind: kind_of_roof(inputs)?,
    })
}

/// The group of a case, stopped at its own height unless the case says that it grows or where it is stopped.
pub fn standing(inputs: &Inputs) -> Result<Standing, String> {
    let group = Scene::read(inputs)?.group;
    let stopped_at = if inputs.flag("grows")? {
        None
    } else if inputs.has("stopped_at") {
        Some(inputs.number("stopped_at")?)
    } else {
        Some(group.size.settled().0)
    };
    Ok(Standing {
        stopped_at,
        ..Standing::from(group)
    })
}

/// Litres for all plants after the weather of the case.
fn litres_for_all(inputs: &Inputs) -> Number {
    let scene = Scene::read(inputs)?;
    let dose = scene.dose().map_err(|error| error.to_string())?;
    Ok(dose.per_plant.litres() * f64::from(scene.group.count))
}

fn butt_days(inputs: &Inputs) -> Number {
    let litres = litres_for_all(inputs)?;
    let butt = Butt {
        size: BUTT_LITRES,
        level: BUTT_LITRES,
        roof: Roof::default(),
    };
    let need = DailyNeed {
        clear: litres,
        mixed: litres,
        dull: litres,
        far_guess: false,
    };
    let left = butt.days_left(need, &[standing(inputs)?]).ok_or("nothing is needed")?;
    Ok(left.mixed.value)
}

/// Rain, mm, and hours of sun of a month at 52° north.
fn usual(inputs: &Inputs) -> Result<(f64, f64), String> {
    let latitude = Latitude::from_degrees_north(52.0).map_err(|error| error.to_string())?;
    let middle = CivilDay::new(2025, inputs.whole("month")?, 15).map_err(|error| error.to_string())?;
    let month = usual_month(latitude, middle).ok_or("no such month")?;
    let daylight = sun_on(latitude.degrees_north(), middle.day_of_year()).daylight_hours;
    Ok((
        month.rain_millimetres,
        month.sunshine_share * daylight * f64::from(middle.days_in_month()),
    ))
}

/// The season from the first of a case's month, or from its morning.
fn season(inputs: &Inputs) -> Result<Vec<MonthAhead>, String> {
    let butt = Butt {
        size: BUTT_LITRES,
        level: inputs.number_or("level", BUTT_LITRES)?,
        roof: roof(inputs)?,
    };
    let scene = Scene::read(inputs)?;
    season_outlook(&butt, &[standing(inputs)?], scene.latitude, scene.today).map_err(|error| error.to_string())
}

fn month(inputs: &Inputs) -> Result<MonthAhead, String> {
    season(inputs)?.first().copied().ok_or_else(|| "no month ahead".to_owned())
}

/// The plan for one group, each day like the weather of the case or as usual, from its morning on or from the day of its weather.
fn away(inputs: &Inputs) -> Result<(AwayPlan, AwayGroup), String> {
    let scene = Scene::read(inputs)?;
    let absence = Absence {
        first: scene.today,
        days: inputs.whole("days")?,
        outlook: if inputs.flag("usual")? {
            Outlook::Usual
        } else {
            Outlook::Like(scene.yesterday)
        },
    };
    let plan = away_plan(&[standing(inputs)?], absence, scene.latitude).map_err(|error| error.to_string())?;
    let group = plan.groups.first().copied().ok_or("no group")?;
    Ok((plan, group))
}

fn someone(inputs: &Inputs) -> Result<(CivilDay, SomeoneComes), String> {
    let someone = away(inputs)?.0.someone_comes.ok_or("nobody needed")?;
    Ok((Scene::read(inputs)?.today, someone))
}

fn store(inputs: &Inputs) -> Result<(f64, f64), String> {
    Ok((inputs.number("easy_water")?, inputs.number("all_water")?))
}

fn carried(inputs: &Inputs) -> Result<PlantSize, String> {
    let standing = standing(inputs)?;
    let scene = Scene::read(inputs)?;
    let celsius = inputs.has("celsius").then(|| inputs.number("celsius")).transpose()?;
    let mean = |day| celsius.unwrap_or_else(|| usual_mean(scene.group.place, scene.latitude, day));
    let to = day(inputs.word("to")?)?;
    Ok(carry_forward(standing.group.size, scene.today, to, standing.stopped_at, &mean).size)
}

fn last(inputs: &Inputs) -> Result<LastTruss, String> {
    let scene = Scene::read(inputs)?;
    last_truss(&standing(inputs)?, scene.latitude, scene.today).ok_or_else(|| "nothing ripens".to_owned())
}
