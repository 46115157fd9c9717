//! The last fortnight of the group that is looked at: drawn, as a table, and day by day to change.

use leptos_dom::helpers::request_animation_frame;

use super::app::App;
use super::fed::fed_that_day;
use super::fields::{choice, number};
use super::model::Model;
use super::moved::noted_move;
use super::parts::{
    Chart, ChartDay, Element, KeyShape, Keys, Live, More, Poured, Section, Table, act, element, focus_on, link_button, undo_row, words,
};
use super::season::season;
use super::words as say;
use super::yesterday::{feel_faces, sky_faces};
use crate::almanac::{CivilDay, Sky, Sun};
use crate::notebook::{Coded, Field};
use crate::quantity::{Measure, Volume, decimal};
use crate::water::{Feel, Readings, Thirst};

/// Days that are shown, today with them.
const SHOWN: usize = 14;
/// How many days ago, as the value of a day in the list; the empty one is none of them.
const DAYS_AGO: [&str; SHOWN] = ["0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12", "13"];

/// The section.
pub fn days(app: App) -> Element {
    let told = element("div").fill_for(
        move || turn(&app.look()),
        move || {
            let model = app.look();
            let rows = last_days(&model);
            if rows.len() < 2 {
                return vec![element("p").class("blank").text(if model.notebook.poured(model.today).is_some() {
                    "Your first day is noted. From tomorrow on your days are drawn here."
                } else {
                    "Press Watered each morning: your days are drawn here."
                })];
            }
            vec![element("figure").child(chart(&model, &rows).view())]
        },
    );
    let table = More {
        id: "days-table",
        summary: "Show as a table".into(),
        aside: "".into(),
        minor: true,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(move || element("div").fill_for(move || turn(&app.look()), move || vec![table(&app.look()).view()])),
    };
    let change = More {
        id: "change-day",
        summary: "Change a day".into(),
        aside: "what was given, felt and seen".into(),
        minor: true,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(move || change(app)),
    };
    let learnt = element("div").fill_for(move || turn(&app.look()), move || vec![learnt(app)]);
    let body = element("div").children([told.unhurried(), learnt, table.view(), season(app), change.view()]);
    Section {
        id: "days",
        heading: "Last 14 days".into(),
        aside: app.words(say::looked_at),
        children: body,
    }
    .view()
}

/// Tells one state of the days of the group that is looked at from another.
pub fn turn(model: &Model) -> String {
    let name = model.group().map(say::group_name).unwrap_or_default();
    match model.answer() {
        Some(answer) => answer.id.to_string() + " " + &answer.turn.to_string() + &name,
        None => name,
    }
}

/// A day as it is shown; litres for each plant.
struct Row {
    day: CivilDay,
    poured: Poured,
    used: Option<f64>,
    drained: f64,
    gone: f64,
    felt: bool,
    feel: Feel,
}

/// The last days with this morning, oldest first.
fn last_days(model: &Model) -> Vec<Row> {
    let Some(shown) = model.shown() else {
        return Vec::new();
    };
    let season = &shown.season;
    let from = season.days.len().saturating_sub(SHOWN - 1);
    let days = season.days.iter().skip(from).map(|day| Row {
        day: day.day,
        poured: if day.assumed_pour {
            Poured::Taken(day.flows.given)
        } else {
            noted(day.flows.given)
        },
        used: Some(day.flows.used),
        drained: day.flows.drained,
        gone: day.flows.start / day.store.easy_water,
        felt: day.readings != Readings::default(),
        feel: day.readings.feel.unwrap_or_else(|| day.store.feel(day.flows.start)),
    });
    let given_today = model.noted_given(model.today);
    let today = Row {
        day: model.today,
        poured: given_today.map_or(Poured::Taken(shown.each.volume.litres()), noted),
        used: None,
        drained: 0.0,
        gone: season.deficit / season.store.easy_water,
        felt: model.group().is_some_and(|group| group.readings() != Readings::default()),
        feel: shown.dose().feel.unwrap_or_else(|| season.store.feel(season.deficit)),
    };
    days.chain([today]).collect()
}

fn noted(litres: f64) -> Poured {
    if litres > 0.0 { Poured::Noted(litres) } else { Poured::Nothing }
}

fn chart(model: &Model, rows: &[Row]) -> Chart {
    let units = model.units();
    let on_jug = |litres: f64| units.poured_number(Volume::from_litres(litres));
    let days = rows.iter().map(|row| ChartDay {
        date: if row.day == model.today {
            "today".to_owned()
        } else {
            say::short_day(row.day)
        },
        poured: match row.poured {
            Poured::Noted(litres) => Poured::Noted(on_jug(litres)),
            Poured::Taken(litres) => Poured::Taken(on_jug(litres)),
            Poured::Nothing => Poured::Nothing,
        },
        used: row.used.map(on_jug),
        drained: on_jug(row.drained),
        gone: row.gone,
        felt: row.felt,
    });
    let name = model.group().map(say::group_name).unwrap_or_default();
    let missed = rows.iter().filter(|row| matches!(row.poured, Poured::Nothing)).count().to_string();
    let last = rows.last().map(|row| say::feels(row.feel)).unwrap_or_default();
    Chart {
        days: days.collect(),
        title: Field::Given.unit(units).trim_start().to_owned() + " a plant, " + &name,
        below: "compost, ".to_owned() + &name,
        borders: model.shown().map(|shown| shown.season.store.borders()).unwrap_or_default(),
        words: "Water given each day as bars, hatched where it ran off, water used as a line, and beneath how full the compost was, with a dot where it was felt. Days with none: ".to_owned()
            + &missed
            + ". This morning the compost is likely "
            + last
            + ".",
    }
}

fn table(model: &Model) -> Table {
    let amount = |litres: f64| {
        let measure = Measure::dose(Volume::from_litres(litres), model.units());
        say::amount(&measure)
    };
    // Less than a printed figure is none.
    let drained = |litres: f64| Measure::dose(Volume::from_litres(litres), model.units()).volume.litres() > 0.0;
    let rows = last_days(model).into_iter().rev().map(|row| {
        let given = match row.poured {
            Poured::Noted(litres) if drained(row.drained) => amount(litres) + ", " + &amount(row.drained) + " ran off",
            Poured::Noted(litres) => amount(litres),
            Poured::Taken(litres) if row.used.is_none() => amount(litres) + ", to come",
            Poured::Taken(litres) if litres <= 0.0 => "none, assumed".to_owned(),
            Poured::Taken(litres) => amount(litres) + ", assumed",
            Poured::Nothing => "none".to_owned(),
        };
        let used = row.used.map_or_else(|| "–".to_owned(), amount);
        vec![say::short_day(row.day), given, used, say::feels(row.feel).to_owned()]
    });
    Table {
        caption: "For each plant, newest first",
        heads: &["Day", "Given", "Used", "Compost"],
        rows: rows.collect(),
    }
}

/// What the plants taught, with the way to put it back, and then the way to have it again.
fn learnt(app: App) -> Element {
    let forgotten = {
        let model = app.look();
        let id = model.group().map(|group| group.id);
        model.forgotten.filter(|(of, ..)| Some(*of) == id)
    };
    if let Some((_, learn_from, handed)) = forgotten {
        let undo = act(move |()| {
            app.change(|model| {
                model.forgotten = None;
                if let Some(group) = model.group_mut() {
                    (group.learn_from, group.handed) = (learn_from, handed);
                }
            });
            request_animation_frame(|| focus_on("#learnt button"));
        });
        let row = undo_row(
            "Forgotten".to_owned(),
            "what these plants taught".to_owned(),
            link_button("Undo".into(), undo),
        );
        return row.set("id", "forgotten");
    }
    let told = learnt_words(&app.look());
    if told.is_empty() {
        return element("p");
    }
    let forget = act(move |()| {
        app.change(|model| {
            let today = model.today;
            if let Some(group) = model.group_mut() {
                let before = (group.id, group.learn_from, group.handed);
                group.learn_from = Some(today);
                if let Some(handed) = &mut group.handed {
                    (handed.thirst, handed.off) = (Thirst::default(), 0.0);
                }
                model.forgotten = Some(before);
            }
        });
        request_animation_frame(|| focus_on("#forgotten button"));
    });
    let line = element("p").set("id", "learnt").text(told).text(" ");
    line.child(link_button("Forget it".into(), forget))
}

/// In words, once there is something to say.
fn learnt_words(model: &Model) -> String {
    let Some(thirst) = model.shown().map(|shown| shown.season.thirst) else {
        return String::new();
    };
    let Some(percent) = thirst.percent_more() else {
        return String::new();
    };
    let much = if percent.abs() < 1.0 {
        "as much as the sum says".to_owned()
    } else {
        let word = if percent > 0.0 {
            " % more than the sum"
        } else {
            " % less than the sum"
        };
        "about ".to_owned() + &decimal(percent.abs(), 0) + word
    };
    "These plants drink ".to_owned() + &much + ": " + &thirst.readings.to_string() + " readings."
}

/// Which day, and what is noted of it.
fn change(app: App) -> Element {
    let chosen = move || app.look().changed_day.map(|day| day.to_string()).unwrap_or_default();
    let list = element("div").fill_for(
        move || app.look().today.to_string(),
        move || {
            let today = app.look().today;
            let mut entries = vec![("", "Choose a day".to_owned())];
            entries.extend(
                DAYS_AGO
                    .into_iter()
                    .zip(0..)
                    .map(|(ago, days)| (ago, today.days_later(-days).spoken())),
            );
            let list = choice(
                app,
                "day",
                "Which day",
                entries,
                move |model| {
                    let ago = model.changed_day.and_then(|day| usize::try_from(model.today.days_since(day)).ok());
                    ago.and_then(|ago| DAYS_AGO.get(ago)).copied().unwrap_or_default().to_owned()
                },
                |model, ago| {
                    let day = ago.parse().ok().map(|ago: i32| model.today.days_later(-ago));
                    model.open_day(day);
                },
            );
            vec![list]
        },
    );
    let page = element("div").fill_for(chosen, move || match app.look().changed_day {
        Some(day) => page(app, day),
        None => Vec::new(),
    });
    element("div").child(list).child(page)
}

/// The page of a day. What this morning's own keys say of today and yesterday stays with them.
fn page(app: App, day: CivilDay) -> Vec<Element> {
    let today = app.look().today;
    let mut parts = vec![element("div").class("steps mt").child(number(app, Field::Given, "as the jug said"))];
    if day < today {
        parts.push(fed_that_day(app, day));
        parts.push(feel(app, day));
    }
    if day < today.yesterday() {
        parts.push(past_sky(app, day, "day-sky"));
    }
    let moved = move || noted_move(&app.look(), day).is_some();
    let told = "Until that morning they stood otherwise: they were potted on, or moved.";
    parts.push(element("p").text(words(move || (if moved() { told } else { "" }).to_owned())));
    parts.push(taking_out(app, day));
    parts
}

/// The way to take out what is noted of the plants on a day, and in its place the way back. What the day was like is of all plants
/// and stays.
fn taking_out(app: App, day: CivilDay) -> Element {
    let is_out = move || {
        let model = app.look();
        let before = model.taken_out.as_ref();
        before.is_some_and(|(of, before)| *of == day && model.group().is_some_and(|group| group.id == before.id))
    };
    element("div").set("id", "taken-out").fill_for(
        move || is_out().to_string(),
        move || {
            if is_out() {
                let undo = act(move |()| {
                    app.change(|model| {
                        if let Some((day, before)) = model.taken_out.take() {
                            model.note_of_group(day, |group| *group = before);
                        }
                    });
                    focus_soon();
                });
                return vec![undo_row("Taken out".to_owned(), day.spoken(), link_button("Undo".into(), undo))];
            }
            let take_out = act(move |()| {
                app.change(|model| model.take_out(day));
                focus_soon();
            });
            vec![link_button("Take out what is noted of these plants".into(), take_out)]
        },
    )
}

/// Gives the focus to what has taken the place of the button that had it.
fn focus_soon() {
    request_animation_frame(|| focus_on("#taken-out button"));
}

fn feel(app: App, day: CivilDay) -> Element {
    let felt = Keys {
        legend: "The compost felt",
        aside: "".into(),
        headed: false,
        name: "day-feel",
        faces: feel_faces(),
        shape: KeyShape::Wide,
        selected: app.live(move |model| {
            let group = model.notebook.day(day)?.group(model.group()?.id)?;
            Some(group.feel?.code().to_owned())
        }),
        assumed: Live::fixed(None),
        on_choose: app.act(move |model, value: String| model.note_of_group(day, |group| group.feel = Feel::from_code(&value))),
    };
    element("div").class("mt").child(felt.view())
}

/// The keys for what a past day was like, under a name unlike any other on the page.
pub fn past_sky(app: App, day: CivilDay, name: &'static str) -> Element {
    let seen = Keys {
        legend: "The day was",
        aside: "".into(),
        headed: false,
        name,
        faces: sky_faces(),
        shape: KeyShape::Tall,
        selected: app.live(move |model| match model.notebook.day(day)?.weather?.sun? {
            Sun::Word(sky) => Some(sky.code().to_owned()),
            Sun::Hours(_) => {
                let weather = model.notebook.day(day)?.weather?.at(model.notebook.place(), day).ok()?;
                Some(Sky::nearest(weather.clearness).code().to_owned())
            }
        }),
        assumed: Live::fixed(Some(Sky::Mixed.code().to_owned())),
        on_choose: app.act(move |model, value: String| model.note_sky(day, Sky::from_code(&value))),
    };
    element("div").class("mt").child(seen.view())
}
