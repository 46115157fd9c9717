//! The plate of Morning water: a row for each group, and the total at its foot.

use super::answers::{Shown, total};
use super::app::App;
use super::model::Model;
use super::parts::{Answer, Dose, Element, Foot, JugLevel, Plate, element, figure_class, first_answer};
use super::watered::all_noted;
use super::words as say;
use crate::notebook::GroupRecord;
use crate::quantity::{Measure, UnitSystem, Units, Volume, cans, decimal, quarters};
use crate::water::Advice;

/// The plate with its rows, and a link to what they depend on.
pub fn plate(app: App, link: &'static str, link_href: &'static str) -> Element {
    let rows = element("div").class("doses").fill_for(
        move || app.look().notebook.groups.len().to_string(),
        move || (0..app.look().notebook.groups.len()).map(|index| dose_row(app, index)).collect(),
    );
    Plate {
        question: app.words(|model| {
            let is_done = all_noted(model);
            let mut shown = model.answers.iter().filter_map(|answer| answer.shown.as_ref());
            let words = match is_done {
                false => "Each plant, this morning",
                // Another pour is due after noon.
                true if shown.any(|shown| shown.advice.iter().any(|advice| matches!(advice, Advice::Split { .. }))) => {
                    "Done for this morning"
                }
                true => "Done for today",
            };
            words.to_owned()
        }),
        link: link.into(),
        link_href,
        pair: app.live(move |model| model.notebook.groups.len() == 2),
        rows,
    }
    .view()
}

/// Writes the first group's answer on the shell's plate, if there is one.
pub fn show_first(model: &Model) {
    let (Some(group), Some(shown)) = (model.group(), model.shown()) else {
        return;
    };
    let range = if shown.dose().hold_off {
        (".sub > span", String::new())
    } else {
        (".sub b", say::range(shown))
    };
    let words = [
        (".tag", say::group_name(group)),
        (".tag + small", say::group_small(group)),
        ("data", shown.each.figure.clone()),
        (".u > span", shown.each.unit.to_owned()),
        (".u > small", shown.each.twin.clone()),
        (".opt", say::after_range(shown, group.container)),
        (".then", say::in_pours(shown)),
        range,
    ];
    first_answer(&litres(&shown.each), figure_class(&shown.each.figure), &words);
}

/// One group's row. Its answers' ids end in the group's position from the second group on.
fn dose_row(app: App, index: usize) -> Element {
    let id = |name: &str| {
        if index == 0 {
            name.to_owned()
        } else {
            format!("{name}-{}", index + 1)
        }
    };
    let shown = move |read: fn(&Shown) -> String| app.words(move |model| with_shown(model, index, read));
    let record =
        move |read: fn(&GroupRecord) -> String| app.words(move |model| model.notebook.groups.get(index).map(read).unwrap_or_default());
    let low = Answer {
        id: id("answer-dose-low"),
        value: shown(|shown| litres(&shown.low)),
        words: shown(|shown| shown.low.figure.clone()),
    };
    let high = Answer {
        id: id("answer-dose-high"),
        value: shown(|shown| litres(&shown.high)),
        words: shown(|shown| shown.high.figure.clone()),
    };
    let held_off = app.live(move |model| {
        let shown = model.answers.get(index).and_then(|answer| answer.shown.as_ref());
        shown.is_some_and(|shown| shown.dose().hold_off)
    });
    let likely = element("b")
        .child(low.view())
        .text(shown(|shown| {
            if shown.shares_unit() {
                String::new()
            } else {
                " ".to_owned() + shown.low.unit
            }
        }))
        .text(" to ")
        .child(high.view())
        .text(shown(|shown| {
            if shown.shares_unit() {
                String::new()
            } else {
                " ".to_owned() + shown.high.unit
            }
        }));
    Dose {
        tag: record(say::group_name),
        small: record(say::group_small),
        jug: app.live(move |model| jug(model.answers.get(index).and_then(|answer| answer.shown.as_ref()), model.units())),
        jug_words: shown(|shown| format!("Jug filled to {}, likely {}", say::amount(&shown.each), say::range(shown))),
        figure: Answer {
            id: id("answer-dose"),
            value: shown(|shown| litres(&shown.each)),
            words: app.words(move |model| match with_shown(model, index, |shown| shown.each.figure.clone()) {
                figure if figure.is_empty() => "–".to_owned(),
                figure => figure,
            }),
        },
        unit: shown(|shown| shown.each.unit.to_owned()),
        twin: element("span").text(shown(|shown| shown.each.twin.clone())),
        range: element("span").set_when("hidden", "", held_off).text("likely ").child(likely),
        aside: element("span").text(app.words(move |model| {
            let kind = model.notebook.groups.get(index).map(|group| group.container).unwrap_or_default();
            let shown = model.answers.get(index).and_then(|answer| answer.shown.as_ref());
            shown.map(|shown| say::after_range(shown, kind)).unwrap_or_default()
        })),
        then: shown(say::in_pours),
    }
    .view()
}

fn with_shown(model: &Model, index: usize, read: fn(&Shown) -> String) -> String {
    model
        .answers
        .get(index)
        .and_then(|answer| answer.shown.as_ref())
        .map(read)
        .unwrap_or_default()
}

/// Litres for a machine: a plain decimal with three places.
fn litres(measure: &Measure) -> String {
    decimal(measure.volume.litres(), 3)
}

/// The jug drawn for an answer: the smallest of four that holds the likely range.
fn jug(shown: Option<&Shown>, units: Units) -> JugLevel {
    let [smallest, usual, large, largest] = if units.system == UnitSystem::Metric {
        [1.0, 2.0, 4.0, 8.0]
    } else {
        [2.0, 4.0, 8.0, 16.0]
    };
    let Some(shown) = shown else {
        return JugLevel {
            filled: None,
            low: 0.0,
            high: 0.0,
            holds: usual,
        };
    };
    let on_jug = |measure: &Measure| units.poured_number(measure.volume);
    let high = on_jug(&shown.high);
    let holds = [smallest, usual, large].into_iter().find(|size| *size >= high).unwrap_or(largest);
    JugLevel {
        filled: Some(on_jug(&shown.each)),
        low: on_jug(&shown.low),
        high,
        holds,
    }
}

/// The foot of the plate: cans and total.
pub fn foot(app: App) -> Element {
    let all = |model: &Model| Measure::dose(total(&model.answers), model.units());
    let can = |model: &Model| Volume::from_litres(model.notebook.can_litres());
    let under = move |model: &Model| cans(total(&model.answers), can(model)).0.to_owned();
    let fill = move |model: &Model| cans(total(&model.answers), can(model)).1;
    let answer = Answer {
        id: "answer-total".to_owned(),
        value: app.words(move |model| litres(&all(model))),
        words: app.words(move |model| say::amount(&all(model))),
    };
    let totals = element("span")
        .child(element("b").child(answer.view()))
        .text(" in all")
        .child(element("br"))
        .text(app.words(move |model| all(model).twin));
    Foot {
        cans: app.live(fill),
        under: app.words(under),
        figure: Answer {
            id: "answer-cans".to_owned(),
            value: app.words(move |model| decimal(fill(model), 2)),
            words: app.words(move |model| quarters(fill(model))),
        },
        unit: app.words(move |model| (if fill(model) > 0.0 && fill(model) <= 1.0 { "can" } else { "cans" }).to_owned()),
        total: totals,
    }
    .view()
}
