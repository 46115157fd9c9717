//! Opening a copy from a file: what it holds, whether it is used or added, and the way back.

use leptos_dom::helpers::request_animation_frame;

use super::app::App;
use super::model::Model;
use super::parts::{Element, act, button, element, error_note, focus_on, link_button, undo_row};
use super::pest_words::pest_words;
use super::words::{group_name, short_day};
use crate::browser::read_chosen;
use crate::notebook::{LARGEST_COPY, Notebook, open_copy};

/// The button that asks for a file, and what has come of it.
pub fn copy(app: App) -> Element {
    let state = move || {
        let model = app.look();
        let refused = model.refused_copy.unwrap_or_default();
        let offered = model.offered.as_ref().map(held).unwrap_or_default();
        refused.to_owned() + &offered + if model.before_copy.is_some() { "opened" } else { "" }
    };
    let told = element("div").set("id", "copy").fill_for(state, move || {
        let model = app.look();
        if let Some(copy) = &model.offered {
            return offered(app, copy);
        }
        if let Some(why) = model.refused_copy {
            return vec![element("div").class("mt").child(error_note(why.into()))];
        }
        if model.before_copy.is_some() {
            return vec![undo(app)];
        }
        Vec::new()
    });
    element("div").child(chooser(app)).child(told)
}

/// A field for a file under the face of a button.
fn chooser(app: App) -> Element {
    let field = element("input")
        .set("type", "file")
        .set("name", "copy")
        .set("accept", ".txt,text/plain")
        .on("change", move |event| {
            read_chosen(&event, LARGEST_COPY, move |text| {
                app.change(|model| offer(model, text.as_deref()));
                request_animation_frame(|| focus_on("#copy button"));
            });
        });
    let label = element("label").class("btn slim file").text("Open a copy from a file").child(field);
    element("div").class("btn-row mt").child(label)
}

/// Looks at the text of a file. Nothing is changed yet.
fn offer(model: &mut Model, text: Option<&str>) {
    let copy = match text {
        Some(text) => open_copy(text),
        None => Err("This file is too large for a notebook, or cannot be read: nothing was changed."),
    };
    (model.offered, model.refused_copy) = match copy {
        Ok(copy) => (Some(copy), None),
        Err(why) => (None, Some(why)),
    };
}

/// What a copy holds, in words.
fn held(copy: &Notebook) -> String {
    let names: Vec<_> = copy.groups.iter().map(group_name).collect();
    let mut words = names.join(", ");
    match copy.days.as_slice() {
        [] => {}
        [day] => words = words + "; noted: " + &short_day(day.day),
        [first, .., last] => words = words + "; noted: " + &short_day(first.day) + " to " + &short_day(last.day),
    }
    if !copy.programmes.is_empty() {
        let pests: Vec<_> = copy.programmes.iter().map(|programme| pest_words(programme.pest).name).collect();
        words = words + "; against pests: " + &pests.join(", ");
    }
    if !copy.seasons.is_empty() {
        words = words + "; seasons before: " + &copy.seasons.len().to_string();
    }
    words
}

fn offered(app: App, copy: &Notebook) -> Vec<Element> {
    let take = |change: fn(&mut Model, Notebook)| {
        act(move |()| {
            app.change(|model| {
                if let Some(copy) = model.offered.take() {
                    let before = model.notebook.clone();
                    let programme = model.programme().id;
                    change(model, copy);
                    model.follow_programme(programme);
                    model.turn_to(model.today);
                    model.before_copy = Some((before, model.notebook.clone()));
                    model.look_at(0);
                }
            });
            request_animation_frame(|| focus_on("#copy button"));
        })
    };
    let replace = take(|model, copy| model.notebook = copy);
    let add = take(|model, copy| model.notebook = model.notebook.with_copy(&copy));
    let leave = act(move |()| {
        app.change(|model| model.offered = None);
        request_animation_frame(|| focus_on("[name=copy]"));
    });
    vec![
        element("p")
            .class("mt")
            .child(element("b").text("The copy holds: "))
            .text(held(copy) + "."),
        element("div").class("btn-row mt").children([
            button("Use it in place of mine".into(), replace),
            button("Add it to mine".into(), add),
        ]),
        element("p").class("note").child(link_button("Leave it".into(), leave)),
    ]
}

fn undo(app: App) -> Element {
    let back = act(move |()| {
        app.change(|model| {
            if let Some(way) = model.before_copy.take() {
                model.take_back(way);
                model.look_at(0);
            }
        });
        request_animation_frame(|| focus_on("[name=copy]"));
    });
    undo_row(
        "The copy is open".to_owned(),
        "what was here can be put back".to_owned(),
        link_button("Undo".into(), back),
    )
}
