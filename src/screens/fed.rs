//! Feed that was given, today or on a day before: the keys that note it, and the ways back.

use leptos_dom::helpers::request_animation_frame;

use super::app::App;
use super::feed_answers::assumed_each;
use super::feed_words::poured;
use super::model::Model;
use super::parts::{Act, Element, TickBox, act, chief_button, element, focus_on, link_button, undo_row};
use super::words::looked_at;
use crate::almanac::CivilDay;
use crate::feed::Due;
use crate::notebook::Field;

/// Litres of feed that each plant of the group that is looked at got on a day.
fn fed_on(model: &Model, day: CivilDay) -> Option<f64> {
    model.notebook.day(day)?.group(model.group()?.id)?.fed
}

/// Whether a feed of today is noted for the group that is looked at.
pub fn is_fed_today(model: &Model) -> bool {
    fed_on(model, model.today).is_some()
}

/// Whether today's plain water is noted for the group, and no feed.
pub fn is_watered(model: &Model) -> bool {
    !is_fed_today(model) && model.noted_given(model.today).is_some_and(|litres| litres > 0.0)
}

/// Litres of feed for each plant as one of a day is noted: what stands in its field, or that day's water (today's
/// where nothing of the day is known) where that is less than usual.
fn usual_on(model: &Model, day: CivilDay) -> f64 {
    let usual = model.notebook.assumed(model.selected, Field::FeedEach, model.today);
    let water = model.given_on(day).or_else(|| model.given_on(model.today));
    let assumed = usual.map(|usual| assumed_each(water, usual));
    model.notebook.feed.each.value().or(assumed).unwrap_or_default()
}

/// Notes that the group was fed on a day, or that it was not.
fn note(model: &mut Model, day: CivilDay, is_fed: bool) {
    let litres = is_fed.then(|| usual_on(model, day));
    model.note_of_group(day, |group| group.fed = litres);
}

/// Today's button with that for yesterday, or in their places what was noted.
pub fn fed(app: App) -> Element {
    let today = element("div").class("press").set("id", "fed").fill_for(
        move || told(&app.look(), app.look().today),
        move || {
            let today = app.look().today;
            let told = told(&app.look(), today);
            if told.is_empty() {
                let is_never = |model: &Model| model.feed.shown.as_ref().is_some_and(|shown| shown.timing.due == Due::Never);
                let words = app.words(move |model| if is_never(model) { "Fed all the same" } else { "Fed" }.to_owned());
                return vec![chief_button(words, noting(app, today, true, "#fed button"))];
            }
            let undo = link_button("Undo".into(), noting(app, today, false, "#fed button"));
            vec![undo_row("Fed today".to_owned(), told, undo)]
        },
    );
    let key = move || {
        let model = app.look();
        let told = told(&model, model.today.yesterday());
        is_fed_today(&model).to_string() + &told
    };
    let yesterday = element("div").class("press").set("id", "fed-yesterday").fill_for(key, move || {
        let yesterday = app.look().today.yesterday();
        let told = told(&app.look(), yesterday);
        let noting = |is_fed| noting(app, yesterday, is_fed, "#fed-yesterday button");
        if !told.is_empty() {
            let undo = link_button("Undo".into(), noting(false));
            return vec![undo_row("Fed yesterday".to_owned(), told, undo)];
        }
        let is_open = !is_fed_today(&app.look());
        let button = is_open.then(|| link_button("Fed yesterday".into(), noting(true)));
        button.into_iter().collect()
    });
    element("div").child(today).child(yesterday)
}

/// What is noted of a day's feed and of whose; empty when none is.
fn told(model: &Model, day: CivilDay) -> String {
    let Some(litres) = fed_on(model, day) else {
        return String::new();
    };
    let whose = looked_at(model);
    let whose = if whose.is_empty() { whose } else { whose + ", " };
    poured(litres, model.units()) + " each, " + &whose + "in the notebook"
}

/// Notes it at a press, and gives the focus to the button that has taken the place of the pressed one.
fn noting(app: App, day: CivilDay, is_fed: bool, after: &'static str) -> Act<()> {
    act(move |()| {
        app.change(|model| note(model, day, is_fed));
        request_animation_frame(move || focus_on(after));
    })
}

/// Whether the group was fed on a past day, to be changed.
pub fn fed_that_day(app: App, day: CivilDay) -> Element {
    let hint = app.words(move |model| match told(model, day) {
        told if told.is_empty() => "as much as Feed mix has for each".to_owned(),
        told => told,
    });
    let tick = TickBox {
        name: "day-fed".to_owned(),
        label: "Fed that day".into(),
        hint,
        ticked: app.live(move |model| fed_on(model, day).is_some()),
        on_tick: app.act(move |model, is_fed| note(model, day, is_fed)),
    };
    tick.view()
}
