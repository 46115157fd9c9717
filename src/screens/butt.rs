//! The water butt: what is left in it, how long it lasts and what fills it.

use leptos_dom::helpers::{document, request_animation_frame};

use super::ahead::{days_words, need, standings, stored, stored_words, turns};
use super::app::App;
use super::fields::{choice, number};
use super::model::Model;
use super::parts::{
    Answer, ButtPicture, Element, More, WorkingLine, act, button, element, focus_on, link_button, live, section_heading, undo_row, working,
};
use super::show_working::steps_of;
use super::words::{ROOFS, entries_of};
use crate::notebook::{ButtNow, ButtRecord, Coded, Field};
use crate::quantity::{UnitSystem, Units, decimal};
use crate::water::{DaysLeft, MonthAhead, RoofKind, season_outlook};

/// The section; as long as no butt was told of, only the way to tell of one.
pub fn butt(app: App) -> Element {
    let is_there = move || app.look().notebook.butt.is_there().to_string();
    let heading = element("div").fill_for(is_there, move || {
        if app.look().notebook.butt.is_there() {
            vec![section_heading("Water butt".into(), "".into())]
        } else {
            Vec::new()
        }
    });
    let state = element("div")
        .fill_for(move || state(&app.look()), move || told(&app.look()))
        .unhurried();
    let buttons = element("div").fill_for(is_there, move || {
        if app.look().notebook.butt.is_there() {
            vec![buttons(app)]
        } else {
            Vec::new()
        }
    });
    let fields = More {
        id: "butt-fields",
        summary: app.words(|model| {
            let words = if model.notebook.butt.is_there() {
                "Level, size and roof"
            } else {
                "I water from a butt"
            };
            words.to_owned()
        }),
        aside: "".into(),
        minor: true,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(move || fields(app)),
    };
    let further = element("div").fill_for(is_there, move || {
        if app.look().notebook.butt.is_there() {
            vec![season_ahead(app), steps(app)]
        } else {
            Vec::new()
        }
    });
    let section = element("section").class("sec").set("id", "butt");
    section.children([heading, state, buttons, fields.view(), further])
}

/// Tells one state of the butt, and of those who drink from it, from another.
fn state(model: &Model) -> String {
    let record = &model.notebook.butt;
    let Some(now) = model.notebook.butt_now(model.today) else {
        return record.is_there().to_string();
    };
    let numbers = [now.butt.level, now.butt.size, now.butt.roof.plan_area, f64::from(now.silent_days)];
    let numbers: String = numbers.map(|number| decimal(number, 2) + " ").concat();
    numbers + record.kind.code() + model.units().system.code() + &turns(model)
}

/// How long the butt lasts those who drink from it.
fn lasts(model: &Model, now: &ButtNow) -> Option<DaysLeft> {
    let standings = standings(model);
    now.butt.days_left(need(model, &standings)?, &standings)
}

/// A figure with its unit beside it.
fn stat(id: &str, value: f64, figure: String, unit: String) -> Element {
    let answer = Answer {
        id: id.to_owned(),
        value: decimal(value, 1).into(),
        words: figure.into(),
    };
    let unit = element("span").class("u").text(unit);
    element("p").class("line").children([answer.view().class("n"), unit])
}

fn note(words: String) -> Element {
    element("p").class("note").text(words)
}

/// The drawn butt with what is to be said of it.
fn told(model: &Model) -> Vec<Element> {
    let units = model.units();
    let Some(now) = model.notebook.butt_now(model.today) else {
        let there = model.notebook.butt.is_there();
        let missing = "Dip it, or fill it: then the days that it lasts stand here.";
        return if there { vec![note(missing.to_owned())] } else { Vec::new() };
    };
    let butt = now.butt;
    let (figure, unit) = stored(butt.level, units);
    let mut lines = vec![stat("answer-butt-litres", butt.level, figure, unit.to_owned() + " left")];
    if let Some(left) = lasts(model, &now) {
        let days = days_words(left.mixed.value);
        let (figure, unit) = days.split_once(' ').unwrap_or((&days, ""));
        lines.push(stat(
            "answer-butt-days",
            left.mixed.value,
            figure.to_owned(),
            unit.to_owned() + ", about",
        ));
        lines.push(note(skies(&left)));
    }
    let side = element("div")
        .class("side")
        .child(picture(&now, units))
        .child(element("div").class("stat").children(lines));
    let mut parts = vec![side];
    if butt.roof.plan_area > 0.0 {
        parts.push(refill(&now, units));
    }
    if now.silent_days > 0 {
        let days = days_words(f64::from(now.silent_days));
        parts.push(note(
            "No watering is noted for ".to_owned() + &days + " since it was read, so there may be less: dip it to be sure.",
        ));
    }
    parts
}

/// How long it lasts under each sky.
fn skies(left: &DaysLeft) -> String {
    "Mixed skies, no rain: likely ".to_owned()
        + &decimal(left.mixed.low, 0)
        + " to "
        + &decimal(left.mixed.high, 0)
        + " days. Clear skies about "
        + &decimal(left.clear.value, 0)
        + ", dull ones about "
        + &decimal(left.dull.value, 0)
        + "."
}

fn picture(now: &ButtNow, units: Units) -> Element {
    let size = now.butt.size;
    let words = "Water butt, about ".to_owned() + &stored(now.butt.level, units).0 + " of " + &stored_words(size, units);
    ButtPicture {
        filled: now.butt.level / size,
        marks: [0.25, 0.5, 0.75, 1.0].map(|share| stored(size * share, units).0),
        words: words.into(),
    }
    .view()
}

/// The least rain that a grower reads off the gauge, mm: one press of the field's button.
const fn a_little_rain(units: Units) -> f64 {
    Field::Rain.held(units, Field::Rain.step(units))
}

/// What a little rain brings.
fn refill(now: &ButtNow, units: Units) -> Element {
    let rain = a_little_rain(units);
    let litres = now.butt.roof.litres_per_millimetre();
    let answer = Answer {
        id: "answer-butt-refill".to_owned(),
        value: decimal(litres, 2).into(),
        words: stored_words(litres * rain, units).into(),
    };
    let each = if units.system == UnitSystem::Us {
        "Each tenth of an inch"
    } else {
        "Each mm"
    };
    element("p")
        .class("note")
        .text(each.to_owned() + " of rain on a wet roof brings about ")
        .child(answer.view())
        .text(".")
}

fn buttons(app: App) -> Element {
    let dip = act(move |()| {
        if let Some(fields) = document().get_element_by_id("butt-fields") {
            let _ = fields.set_attribute("open", "");
        }
        app.refresh();
        focus_on("#butt-level");
    });
    let fill = act(move |()| {
        app.change(|model| {
            let today = model.today;
            model.butt_before = Some(model.notebook.fill_butt(today));
        });
        request_animation_frame(|| focus_on("#butt-filled button"));
    });
    let row = element("div")
        .class("btn-row mt")
        .children([button("Dip it".into(), dip), button("Filled up".into(), fill)]);
    element("div").child(row).child(undo(app))
}

/// The way back from having filled it up.
fn undo(app: App) -> Element {
    let is_there = move || app.look().butt_before.is_some().to_string();
    element("div").set("id", "butt-filled").fill_for(is_there, move || {
        if app.look().butt_before.is_none() {
            return Vec::new();
        }
        let undo = act(move |()| {
            app.change(|model| {
                if let Some(ButtRecord { level, read, drawn, .. }) = model.butt_before.take() {
                    let butt = &mut model.notebook.butt;
                    (butt.level, butt.read, butt.drawn) = (level, read, drawn);
                }
            });
            request_animation_frame(|| focus_on("#butt .btn-row button"));
        });
        vec![undo_row(
            "Filled up".to_owned(),
            "to the brim".to_owned(),
            link_button("Undo".into(), undo),
        )]
    })
}

fn fields(app: App) -> Element {
    let read = app.words(|model| {
        let record = &model.notebook.butt;
        match record.read.filter(|_| record.level.is_of_earlier_day()) {
            Some(day) => "as reckoned since ".to_owned() + &day.spoken(),
            None => "as a stick shows it".to_owned(),
        }
    });
    element("div").class("steps").children([
        number(app, Field::ButtLevel, read),
        number(app, Field::ButtSize, "filled to the brim"),
        number(app, Field::Roof, "that drains into it; 0 for none"),
        choice(
            app,
            "roof-kind",
            "The roof is",
            entries_of(&ROOFS),
            |model| model.notebook.butt.kind.code().to_owned(),
            |model, code| model.notebook.butt.kind = RoofKind::from_code(code).unwrap_or_default(),
        ),
    ])
}

/// The months to come, in an ordinary year.
fn season_ahead(app: App) -> Element {
    let table = move || {
        let model = app.look();
        let standings = standings(&model);
        let Some(now) = model.notebook.butt_now(model.today) else {
            return Vec::new();
        };
        let months = season_outlook(&now.butt, &standings, model.notebook.place(), model.today).unwrap_or_default();
        if months.is_empty() {
            return vec![note("The season is over.".to_owned())];
        }
        let units = model.units();
        let lines = months.iter().map(|month| month_line(month, units));
        vec![element("ul").class("cautions").children(lines)]
    };
    More {
        id: "butt-season",
        summary: "The season ahead".into(),
        aside: "rain and need in an ordinary year".into(),
        minor: true,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(move || element("div").fill_for(move || state(&app.look()), table).unhurried()),
    }
    .view()
}

/// One month in words.
fn month_line(month: &MonthAhead, units: Units) -> Element {
    let mut words =
        ": rain brings ".to_owned() + &stored_words(month.supply, units) + ", the plants take " + &stored(month.demand, units).0 + ".";
    if month.short >= 1.0 {
        words = words + " About " + &stored_words(month.short, units) + " must come from the tap.";
    }
    element("li").child(element("b").text(month.first.month_name())).text(words)
}

/// How the days and the refill were reached.
fn steps(app: App) -> Element {
    let lines = move || -> Vec<WorkingLine> {
        let model = app.look();
        let Some(now) = model.notebook.butt_now(model.today) else {
            return Vec::new();
        };
        let days = lasts(&model, &now).map(|left| steps_of(&left.working)).unwrap_or_default();
        let refill = now.butt.roof.refill(a_little_rain(model.units()) * 10.0);
        days.into_iter().chain(steps_of(&refill.working)).collect()
    };
    More {
        id: "butt-working",
        summary: "How the butt is reckoned".into(),
        aside: "".into(),
        minor: true,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(move || working(live(lines)).unhurried()),
    }
    .view()
}
