//! The one thing to do on this screen: note that the plants were watered.

use leptos_dom::helpers::request_animation_frame;

use super::app::App;
use super::model::Model;
use super::parts::{Element, act, chief_button, element, focus_on, link_button, undo_row};
use super::words::amount;
use crate::browser::time_of_day;
use crate::quantity::{Measure, Volume};

/// The button, or in its place what was noted.
pub fn watered(app: App) -> Element {
    let key = move || {
        let model = app.look();
        model
            .notebook
            .poured(model.today)
            .map_or_else(|| nothing_to_pour(&model).to_string(), |total| told(&model, total).1)
    };
    element("div").class("press").set("id", "watered").fill_for(key, move || {
        let model = app.look();
        if let Some(total) = model.notebook.poured(model.today) {
            let (what, small) = told(&model, total);
            let undo = act(move |()| {
                app.change(forget);
                focus_soon();
            });
            return vec![undo_row(what, small, link_button("Undo".into(), undo))];
        }
        let words = if nothing_to_pour(&model) { "No water today" } else { "Watered" };
        let note = act(move |()| {
            app.change(note);
            focus_soon();
        });
        vec![chief_button(words.into(), note)]
    })
}

/// Gives the focus to what has taken the place of the button that had it.
fn focus_soon() {
    request_animation_frame(|| focus_on("#watered button"));
}

/// Whether the answer for every group is none.
fn nothing_to_pour(model: &Model) -> bool {
    let mut shown = model.answers.iter().filter_map(|answer| answer.shown.as_ref());
    shown.all(|shown| shown.each.volume.litres() <= 0.0)
}

/// What was noted, and how much.
fn told(model: &Model, total: f64) -> (String, String) {
    let page = model.notebook.day(model.today);
    let at = page.map(|page| page.noted_at.as_str()).unwrap_or_default();
    let what = if total > 0.0 { "Watered" } else { "No water" };
    let when = if at.is_empty() {
        " today".to_owned()
    } else {
        " at ".to_owned() + at
    };
    let noted = amount(&Measure::dose(Volume::from_litres(total), model.units()));
    let now = amount(&Measure::dose(super::answers::total(&model.answers), model.units()));
    let small = if noted == now {
        let place = if model.share.guest.is_some() {
            "on this card"
        } else {
            "in the notebook"
        };
        [&noted, ", ", place].concat()
    } else {
        // Something was changed since, or a day was noted otherwise.
        [&noted, " noted; the sum now says ", &now].concat()
    };
    (what.to_owned() + &when, small)
}

/// Notes for every group what its answer says.
fn note(model: &mut Model) {
    let day = model.today;
    for answer in &model.answers {
        if let Some(shown) = &answer.shown {
            let litres = shown.each.volume.litres();
            model
                .notebook
                .note(day, |page| page.note(answer.id, |group| group.given = Some(litres)));
        }
    }
    model.notebook.note(day, |page| page.noted_at = time_of_day());
}

/// Takes back what was noted today.
pub fn forget(model: &mut Model) {
    let groups: Vec<_> = model.notebook.groups.iter().map(|group| group.id).collect();
    model.notebook.note(model.today, |page| {
        for id in groups {
            page.note(id, |group| group.given = None);
        }
        page.noted_at.clear();
    });
}
