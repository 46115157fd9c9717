//! The days of which no watering was noted: one row each, to be told in two touches.

use super::app::App;
use super::days::past_sky;
use super::model::Model;
use super::parts::{Element, Key, KeyShape, Keys, More, act, element, link_button};
use super::words;
use crate::almanac::CivilDay;
use crate::notebook::Notebook;
use crate::quantity::{Measure, Volume};

/// The names of the keys of each row, of its sky and its water; as many as there can be missed days.
const NAMES: [(&str, &str); Notebook::MOST_MISSED] = [
    ("missed-sky-1", "missed-water-1"),
    ("missed-sky-2", "missed-water-2"),
    ("missed-sky-3", "missed-water-3"),
    ("missed-sky-4", "missed-water-4"),
    ("missed-sky-5", "missed-water-5"),
    ("missed-sky-6", "missed-water-6"),
    ("missed-sky-7", "missed-water-7"),
    ("missed-sky-8", "missed-water-8"),
    ("missed-sky-9", "missed-water-9"),
    ("missed-sky-10", "missed-water-10"),
    ("missed-sky-11", "missed-water-11"),
    ("missed-sky-12", "missed-water-12"),
    ("missed-sky-13", "missed-water-13"),
];
/// The values of the keys for a day's water.
const NOTHING: &str = "nothing";
const AS_USED: &str = "as-used";

/// The disclosure; absent where no day was missed.
pub fn missed(app: App) -> Element {
    let days = move || app.look().missed.iter().map(|day| day.to_string() + " ").collect::<String>();
    element("div").fill_for(days, move || {
        if app.look().missed.is_empty() {
            return Vec::new();
        }
        let more = More {
            id: "missed",
            summary: app.words(|model| match model.missed.as_slice() {
                [day] => "Nothing is noted of ".to_owned() + &day.spoken(),
                days => "Nothing is noted of ".to_owned() + &days.len().to_string() + " days",
            }),
            aside: app.words(|model| {
                let untold = |day: &CivilDay| model.notebook.poured(*day).is_none();
                let words = if !model.missed.iter().any(untold) {
                    "told by now"
                } else if model.missed.iter().any(|day| is_partly_watered(model, *day)) {
                    "assumed: watered in part; tell what you know"
                } else {
                    "assumed: not watered; tell what you know"
                };
                words.to_owned()
            }),
            minor: true,
            on_toggle: act(move |()| app.refresh()),
            children: Box::new(move || {
                let days = app.look().missed.clone();
                let all = (days.len() > 1).then(|| all_as_used(app));
                let partly = app.live(|model| !model.missed.iter().any(|day| is_partly_watered(model, *day)));
                let why = element("p").class("mt").set_when("hidden", "", partly).text(
                    "After more than three days in a row without a word somebody most likely watered: part of each day’s use counts as poured, more the longer they are.",
                );
                let rows = days.into_iter().zip(NAMES).map(|(day, names)| row(app, day, names));
                element("div").children(all).child(why).children(rows)
            }),
        };
        vec![more.view()]
    })
}

/// The way to tell of all days at once, of which nothing is told yet.
fn all_as_used(app: App) -> Element {
    let untold = |model: &Model| -> Vec<CivilDay> {
        let days = model.missed.iter().copied();
        days.filter(|day| model.notebook.poured(*day).is_none()).collect()
    };
    let tell = app.act(move |model, ()| {
        for day in untold(model) {
            pour(model, day, true);
        }
    });
    let button = link_button("They got their water on all of these".into(), tell);
    // Hidden and not taken away: the link that was pressed keeps the focus.
    element("p").child(button.set_when("hidden", "", app.live(move |model| untold(model).is_empty())))
}

/// One day. Yesterday's sky stands on the screen already.
fn row(app: App, day: CivilDay, (sky_name, water_name): (&'static str, &'static str)) -> Element {
    let mut row = element("div").class("mt").child(element("h3").text(day.spoken()));
    if day < app.look().today.yesterday() {
        row = row.child(past_sky(app, day, sky_name));
    }
    row.child(water(app, day, water_name))
}

fn water(app: App, day: CivilDay, name: &'static str) -> Element {
    let key = |value, words, small| Key {
        value,
        words,
        drawing: "",
        small,
    };
    Keys {
        legend: "They got",
        aside: app.words(move |model| noted(model, day)),
        headed: false,
        name,
        faces: vec![key(NOTHING, "Nothing", ""), key(AS_USED, "Their water", "what they used that day")],
        shape: KeyShape::Plain,
        selected: app.live(move |model| {
            let poured = model.notebook.poured(day)?;
            Some(if poured > 0.0 { AS_USED } else { NOTHING }.to_owned())
        }),
        assumed: app.live(move |model| (!is_partly_watered(model, day)).then(|| NOTHING.to_owned())),
        on_choose: app.act(move |model, value: String| pour(model, day, value == AS_USED)),
    }
    .view()
}

/// Whether something is taken to have been poured on a day of which nothing is noted.
fn is_partly_watered(model: &Model, day: CivilDay) -> bool {
    let rows = model.shown().map(|shown| shown.season.days.iter()).into_iter().flatten();
    rows.rev().any(|row| row.day == day && row.assumed_pour && row.flows.given > 0.0)
}

/// What is noted of the day for all groups.
fn noted(model: &Model, day: CivilDay) -> String {
    let poured = model.notebook.poured(day).filter(|&litres| litres > 0.0);
    let amount = |litres| words::amount(&Measure::dose(Volume::from_litres(litres), model.units())) + " in all";
    poured.map(amount).unwrap_or_default()
}

/// Notes for every group that it got nothing, or what it used that day, as far as that is counted.
fn pour(model: &mut Model, day: CivilDay, as_used: bool) {
    model.taken_out = None;
    for answer in &model.answers {
        let rows = answer.shown.iter().flat_map(|shown| &shown.season.days);
        let Some(used) = rows.into_iter().find(|row| row.day == day).map(|row| row.demand) else {
            continue;
        };
        let litres = if as_used {
            Measure::dose(Volume::from_litres(used), model.units()).volume.litres()
        } else {
            0.0
        };
        model
            .notebook
            .note(day, |page| page.note(answer.id, |group| group.given = Some(litres)));
    }
}
