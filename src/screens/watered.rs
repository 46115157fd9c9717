//! The one thing to do on this screen: note that the plants were watered.

use leptos_dom::helpers::request_animation_frame;

use super::answers::GroupAnswer;
use super::app::App;
use super::model::Model;
use super::parts::{Element, act, chief_button, element, focus_on, link_button, undo_row};
use super::words::amount;
use crate::browser::time_of_day;
use crate::feed::{Portion, portion};
use crate::quantity::{Measure, Volume};

/// The button, or in its place what was noted.
pub fn watered(app: App) -> Element {
    let key = move || {
        let model = app.look();
        if all_noted(&model) {
            told(&model).1
        } else {
            words(&model).to_owned()
        }
    };
    element("div").class("press").set("id", "watered").fill_for(key, move || {
        let model = app.look();
        if all_noted(&model) {
            let (what, small) = told(&model);
            let undo = act(move |()| {
                app.change(forget);
                focus_soon();
            });
            return vec![undo_row(what, small, link_button("Undo".into(), undo))];
        }
        let note = act(move |()| {
            app.change(note);
            focus_soon();
        });
        if left(&model).next().is_none() {
            return Vec::new();
        }
        vec![chief_button(words(&model).into(), note)]
    })
}

/// Gives the focus to what has taken the place of the button that had it.
fn focus_soon() {
    request_animation_frame(|| focus_on("#watered button"));
}

/// Whether this morning's water of a group is noted.
pub fn is_noted(model: &Model, id: u32) -> bool {
    let page = model.notebook.day(model.today);
    page.and_then(|page| page.group(id)?.given).is_some()
}

/// Whether what a group was fed this morning is all of its water.
pub fn is_all_fed(model: &Model, answer: &GroupAnswer) -> bool {
    let fed = || model.notebook.day(model.today)?.group(answer.id)?.fed;
    let needed = answer.shown.as_ref().map(|shown| shown.each.volume.litres());
    fed().zip(needed).is_some_and(|(fed, needed)| portion(fed, needed) != Portion::Part)
}

/// The groups with an answer of which nothing is noted yet.
fn left(model: &Model) -> impl Iterator<Item = &GroupAnswer> {
    let answered = model.answers.iter().filter(|answer| answer.shown.is_some());
    answered.filter(|answer| !is_noted(model, answer.id))
}

/// Whether something is noted this morning, and nothing is left to note.
pub fn all_noted(model: &Model) -> bool {
    model.notebook.poured(model.today).is_some() && left(model).next().is_none()
}

/// The words of the button.
fn words(model: &Model) -> &'static str {
    let (mut need_none, mut is_fed) = (true, false);
    for answer in left(model) {
        if is_all_fed(model, answer) {
            is_fed = true;
        } else if answer.shown.as_ref().is_some_and(|shown| shown.each.volume.litres() > 0.0) {
            need_none = false;
        }
    }
    match (need_none, model.notebook.poured(model.today)) {
        (true, _) if is_fed => "All of it was feed",
        (true, None) => "No water today",
        (false, None) => "Watered",
        (true, Some(_)) => "No water for the others",
        (false, Some(_)) => "Watered the others",
    }
}

/// What was noted, and how much.
fn told(model: &Model) -> (String, String) {
    let total = model.notebook.poured(model.today).unwrap_or_default();
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

/// Notes for each group that is left what its answer says.
fn note(model: &mut Model) {
    let day = model.today;
    let poured = |answer: &GroupAnswer| Some((answer.id, answer.shown.as_ref()?.each.volume.litres()));
    let poured: Vec<_> = left(model).filter_map(poured).collect();
    model.noted_at_once = poured.iter().map(|&(id, _)| id).collect();
    for (id, litres) in poured {
        model.notebook.note(day, |page| page.note(id, |group| group.given = Some(litres)));
    }
    model.taken_out = None;
    model.notebook.note(day, |page| page.noted_at = time_of_day());
}

/// Takes back what the button noted today: all, when that is not known any more.
fn forget(model: &mut Model) {
    let mut groups = std::mem::take(&mut model.noted_at_once);
    if groups.is_empty() {
        groups = model.notebook.groups.iter().map(|group| group.id).collect();
    }
    model.notebook.note(model.today, |page| {
        for id in groups {
            page.note(id, |group| group.given = None);
        }
        page.noted_at.clear();
    });
}
