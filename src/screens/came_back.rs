//! A list that came back from another plot's card: told day by day, and noted in the grower's own notebook.

use leptos_dom::helpers::request_animation_frame;

use super::app::App;
use super::card::treatment_words;
use super::model::Model;
use super::parts::{Element, act, button, element, error_note, focus_on, link_button, undo_row};
use super::round::task_words;
use super::words::{self, amount, group_name};
use crate::almanac::Sun;
use crate::notebook::{Coded, DayPage, Done, Treatment};
use crate::quantity::{Measure, Volume};

/// What a list that came back says, day by day, and noting it.
pub fn came_back(app: App) -> Element {
    let key = move || {
        let model = app.look();
        (if model.share.before_reply.is_some() { "noted" } else { "" }).to_owned() + &words::looked_at(&model)
    };
    element("div").fill_for(key, move || {
        let model = app.look();
        let Some(reply) = &model.share.reply else {
            return Vec::new();
        };
        let mut parts = Vec::new();
        if !model.notebook.shared.contains(&reply.plan) {
            parts.push(error_note(
                "This list answers a plan that was not made with this notebook. Check that the days and plants are yours before you note it.".into(),
            ));
        }
        let made = ["It answers the plan that was made on ", &reply.made.spoken(), "."].concat();
        parts.push(element("p").text(made));
        if reply.days.is_empty() {
            parts.push(element("p").class("mt").text("Nothing has been ticked yet."));
            return parts;
        }
        let days = reply.days.iter().map(|page| {
            let time = element("time").set("datetime", page.day.to_string()).text(page.day.spoken());
            element("li").child(element("b").child(time)).text(". ".to_owned() + &told(&model, page))
        });
        parts.push(element("ul").class("due mt").set("id", "came-back").children(days));
        parts.push(element("div").class("press").set("id", "note-reply").child(noting(app, &model)));
        parts
    })
}

fn noting(app: App, model: &Model) -> Element {
    let focus = || request_animation_frame(|| focus_on("#note-reply button"));
    if model.share.before_reply.is_some() {
        let back = act(move |()| {
            app.change(|model| {
                if let Some(way) = model.share.before_reply.take() {
                    model.take_back(way);
                }
            });
            focus();
        });
        return undo_row(
            "In your notebook".to_owned(),
            "what you had noted of these days stays".to_owned(),
            link_button("Undo".into(), back),
        );
    }
    let adds_something = model.share.reply.as_ref().is_some_and(|reply| {
        let mut noted = model.notebook.clone();
        reply.note_in(&mut noted);
        noted != model.notebook
    });
    if !adds_something {
        let mut groups = model.share.reply.iter().flat_map(|reply| &reply.days).flat_map(|page| &page.groups);
        let words = if groups.all(|group| model.notebook.known(group.id).is_some()) {
            "All of this is in your notebook already."
        } else {
            "What is not in your notebook already is of plants that are not there any more."
        };
        return element("p").text(words);
    }
    let note = act(move |()| {
        app.change(|model| {
            let before = model.notebook.clone();
            if let Some(reply) = &model.share.reply {
                reply.note_in(&mut model.notebook);
                model.share.before_reply = Some((before, model.notebook.clone()));
            }
        });
        focus();
    });
    button("Note it in my notebook".into(), note)
}

/// What was done on a day, in words.
fn told(model: &Model, page: &DayPage) -> String {
    let mut parts = Vec::new();
    for group in &page.groups {
        let name = model
            .notebook
            .known(group.id)
            .map_or_else(|| "Plants that are not here any more".to_owned(), group_name);
        let litres = |litres: f64| amount(&Measure::dose(Volume::from_litres(litres), model.units()));
        let given = group.given.map(|given| litres(given) + " a plant");
        let felt = group.feel.map(|feel| "felt ".to_owned() + words::feels(feel));
        let fed = group.fed.map(|fed| "fed ".to_owned() + &litres(fed) + " a plant");
        let said: Vec<_> = given.into_iter().chain(fed).chain(felt).collect();
        parts.push(name + ": " + &said.join(", "));
    }
    for done in &page.done {
        parts.push(match *done {
            Done::Task(task) => task_words(task).to_owned(),
            Done::Treated(pest, control, plants) => {
                let treatment = Treatment {
                    day: page.day,
                    pest,
                    control,
                    plants,
                };
                treatment_words(&treatment, &model.notebook)
            }
        });
    }
    if let Some(Sun::Word(sky)) = page.weather.and_then(|weather| weather.sun) {
        parts.push("The day was ".to_owned() + sky.code());
    }
    parts.join(". ") + "."
}
