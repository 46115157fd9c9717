//! The whole season of the group that is looked at, week by week, and the seasons before it.

use super::app::App;
use super::days::turn;
use super::model::Model;
use super::parts::{Chart, ChartDay, Element, More, Poured, Table, act, element};
use super::words as say;
use crate::notebook::{Field, GroupSeason, SeasonPage};
use crate::quantity::{Measure, Volume};
use crate::water::{DayRow, Readings, Season};

/// Days in a week.
const WEEK: usize = 7;

/// The disclosure.
pub fn season(app: App) -> Element {
    More {
        id: "season",
        summary: "The whole season".into(),
        aside: "by weeks, and earlier ones".into(),
        minor: true,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(move || {
            element("div")
                .fill_for(move || turn(&app.look()), move || inside(&app.look()))
                .unhurried()
        }),
    }
    .view()
}

fn inside(model: &Model) -> Vec<Element> {
    let mut parts = model.shown().map(|shown| weeks_of(model, &shown.season)).unwrap_or_default();
    if !model.notebook.seasons.is_empty() {
        parts.push(
            element("div")
                .class("mt")
                .child(earlier_seasons(model, model.group().map(|group| group.id)).view()),
        );
    }
    parts
}

/// A group's season by weeks, drawn and as a table.
pub fn weeks_of(model: &Model, season: &Season) -> Vec<Element> {
    let weeks = weeks(season);
    if weeks.len() < 2 {
        return vec![element("p").class("blank").text("Weeks are drawn here once there are two.")];
    }
    let chart = element("figure").child(chart(model, &weeks).view());
    vec![chart, table(model, &weeks).view()]
}

/// Some days added up; litres for each plant.
struct Week {
    from: String,
    days: f64,
    given: f64,
    assumed: bool,
    used: f64,
    drained: f64,
    gone: f64,
    felt: bool,
}

/// The weeks up to yesterday, oldest first; the first of them may be short.
fn weeks(season: &Season) -> Vec<Week> {
    let mut weeks: Vec<_> = season.days.rchunks(WEEK).map(week).collect();
    weeks.reverse();
    weeks
}

fn week(days: &[DayRow]) -> Week {
    let sum = |of: fn(&DayRow) -> f64| days.iter().map(of).sum::<f64>();
    let count = sum(|_| 1.0);
    Week {
        from: days.first().map(|day| say::short_day(day.day)).unwrap_or_default(),
        days: count,
        given: sum(|day| day.flows.given),
        assumed: days.iter().all(|day| day.assumed_pour),
        used: sum(|day| day.flows.used),
        drained: sum(|day| day.flows.drained),
        gone: sum(|day| day.flows.start / day.store.easy_water) / count,
        felt: days.iter().any(|day| day.readings != Readings::default()),
    }
}

fn chart(model: &Model, weeks: &[Week]) -> Chart {
    let units = model.units();
    let on_jug = |litres: f64| units.poured_number(Volume::from_litres(litres));
    let days = weeks.iter().map(|week| {
        let given = on_jug(week.given / week.days);
        ChartDay {
            date: week.from.clone(),
            poured: match given {
                _ if week.assumed => Poured::Taken(given),
                none if none <= 0.0 => Poured::Nothing,
                given => Poured::Noted(given),
            },
            used: Some(on_jug(week.used / week.days)),
            drained: on_jug(week.drained / week.days),
            gone: week.gone,
            felt: week.felt,
        }
    });
    Chart {
        days: days.collect(),
        title: Field::Given.unit(units).trim_start().to_owned() + " a plant a day, by weeks",
        below: "compost, week’s mean".to_owned(),
        borders: model.shown().map(|shown| shown.season.store.borders()).unwrap_or_default(),
        words: "Water given a day in each week as bars, hatched where it ran off, water used as a line, and beneath how full the compost was. The table below says the same.".to_owned(),
    }
}

fn amount(model: &Model, litres: f64) -> String {
    say::amount(&Measure::dose(Volume::from_litres(litres), model.units()))
}

fn table(model: &Model, weeks: &[Week]) -> Table {
    let row = |week: &Week| {
        let given = amount(model, week.given);
        vec![
            week.from.clone(),
            if week.assumed { given + ", assumed" } else { given },
            amount(model, week.used),
            amount(model, week.drained),
        ]
    };
    Table {
        caption: "For each plant in seven days, newest first",
        heads: &["From", "Given", "Used", "Ran off"],
        rows: weeks.iter().rev().map(row).collect(),
    }
}

/// The seasons that are summed up, of all groups, or of one that stands and of those that are gone.
pub fn earlier_seasons(model: &Model, of: Option<u32>) -> Table {
    let others = |id: u32| of.is_some_and(|of| of != id) && model.notebook.stands(id);
    let seasons = model.notebook.seasons.iter().rev();
    let groups = seasons.flat_map(|season| season.groups.iter().map(move |group| (season, group)));
    let rows = groups
        .filter(|(_, group)| !others(group.id))
        .map(|(season, group)| earlier_row(model, season, group));
    Table {
        caption: "Earlier seasons, as they were noted",
        heads: &["Season", "Given to each", "On", "Felt on mornings"],
        rows: rows.collect(),
    }
}

fn earlier_row(model: &Model, season: &SeasonPage, group: &GroupSeason) -> Vec<String> {
    let name = match group.name.trim() {
        "" => "a group",
        name => name,
    };
    let year: String = season.last.to_string().chars().take_while(char::is_ascii_digit).collect();
    vec![
        year + ", " + name,
        amount(model, group.given),
        group.days.to_string() + " days",
        "dry ".to_owned() + &group.dry.to_string() + ", sodden " + &group.sodden.to_string(),
    ]
}
