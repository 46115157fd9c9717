//! What most growers set once and never touch again: name, leaves, compost, planting.

use super::app::App;
use super::fields::{choice, number, tick};
use super::parts::{Element, Key, KeyShape, Keys, Live, More, TextField, act, element, live};
use super::words::{self as say, entries_of};
use crate::notebook::{Coded, Field, GroupRecord};
use crate::water::{Leafiness, Medium, PlantedFrom};

/// The disclosure.
pub fn details(app: App) -> Element {
    More {
        id: "more-plants",
        summary: "More about them".into(),
        aside: "name, leaves, compost, planting".into(),
        minor: true,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(move || fields(app)),
    }
    .view()
}

fn fields(app: App) -> Element {
    let fields = element("div").class("steps mt").children([
        medium(app),
        number(app, Field::Ground, "the floor or row, shared out"),
        number(app, Field::StoppedAt, "they grow no taller"),
        planted(app),
        planted_from(app),
    ]);
    let ticks = [
        tick(
            app,
            "settled",
            "Second season, or shrunk",
            "holds a fifth less",
            |model| model.group().is_some_and(|group| group.settled),
            |model, ticked| {
                if let Some(group) = model.group_mut() {
                    group.settled = ticked;
                }
            },
        ),
        tick(
            app,
            "drains",
            "Surplus water runs away",
            "not in a bag, a border or a closed saucer",
            |model| {
                model
                    .group()
                    .is_some_and(|group| group.drains.unwrap_or_else(|| group.group().container.usually_drains()))
            },
            |model, ticked| {
                if let Some(group) = model.group_mut() {
                    group.drains = Some(ticked);
                }
            },
        ),
    ];
    element("div")
        .child(name(app))
        .child(element("div").class("mt").child(leaves(app)))
        .child(fields)
        .children(ticks)
}

/// A line of text of the group that is looked at.
fn line(
    app: App,
    field: &'static str,
    label: &'static str,
    hint: &'static str,
    read: fn(&GroupRecord) -> &str,
    error: Live<Option<String>>,
    write: fn(&mut GroupRecord, &str),
) -> Element {
    TextField {
        name: field.to_owned(),
        label: label.into(),
        text: app.live(move |model| model.group().map(|group| read(group).to_owned()).unwrap_or_default()),
        assumed: Live::fixed(None),
        hint: hint.into(),
        error,
        on_text: app.act(move |model, text: String| {
            if let Some(group) = model.group_mut() {
                write(group, &text);
            }
        }),
    }
    .view()
}

fn name(app: App) -> Element {
    let right = live(|| None);
    line(
        app,
        "group-name",
        "Name on the label",
        "at most 40 letters",
        |group| &group.name,
        right,
        GroupRecord::rename,
    )
}

fn planted(app: App) -> Element {
    let error = app.live(move |model| model.group().and_then(|group| group.planted_error(model.today)));
    let hint = "as 20 May 2026; for five weeks roots reach only a part";
    line(
        app,
        "planted",
        "Planted on",
        hint,
        |group| &group.planted_text,
        error,
        GroupRecord::type_planted,
    )
}

fn medium(app: App) -> Element {
    choice(
        app,
        "medium",
        "Roots grow in",
        entries_of(&say::MEDIA),
        |model| model.group().map(|group| group.medium.code().to_owned()).unwrap_or_default(),
        |model, value| {
            if let (Some(medium), Some(group)) = (Medium::from_code(value), model.group_mut()) {
                group.medium = medium;
            }
        },
    )
}

fn planted_from(app: App) -> Element {
    choice(
        app,
        "planted-from",
        "Out of a",
        entries_of(&say::STARTING_POTS),
        |model| model.group().map(|group| group.planted_from.code().to_owned()).unwrap_or_default(),
        |model, value| {
            if let (Some(pot), Some(group)) = (PlantedFrom::from_code(value), model.group_mut()) {
                group.planted_from = pot;
            }
        },
    )
}

fn leaves(app: App) -> Element {
    let small = ["lower ones off", "side shoots out", "a bush, or left"];
    let keys = say::LEAVES.iter().zip(small).map(|((leaves, words), small)| Key {
        value: leaves.code(),
        words,
        drawing: "",
        small,
    });
    Keys {
        legend: "Leaves",
        aside: "".into(),
        headed: false,
        name: "leafiness",
        faces: keys.collect(),
        shape: KeyShape::Plain,
        selected: live(move || {
            let leafiness = app.look().group().map(|group| group.leafiness).unwrap_or_default();
            Some(leafiness.code().to_owned())
        }),
        assumed: live(|| None),
        on_choose: app.act(move |model, value: String| {
            if let (Some(leafiness), Some(group)) = (Leafiness::from_code(&value), model.group_mut()) {
                group.leafiness = leafiness;
            }
        }),
    }
    .view()
}
