//! My plants: the groups, and the one that is looked at.

use leptos_dom::helpers::request_animation_frame;

use super::app::App;
use super::fields::{choice, number, tick};
use super::model::Model;
use super::moved::moved;
use super::parts::{CaneMark, Cordon, Element, Key, KeyShape, Keys, Section, act, element, focus_on, go_to_top, link_button, live, words};
use super::plant_details::details;
use super::season_end::season_end;
use super::words::{self as say, entries_of};
use super::yesterday::group_labels;
use crate::notebook::{Coded, ContainerKind, Entry, Field, GroupRecord, Notebook};
use crate::quantity::{Length, UnitSystem, decimal};
use crate::water::{Cover, Exposure, Place, PlantSize};

/// The section.
pub fn my_plants(app: App) -> Element {
    let fields = element("div").class("ctl").children([
        number(app, Field::Height, app.words(move |model| size_hint(model, Field::Height))),
        number(app, Field::Trusses, app.words(move |model| size_hint(model, Field::Trusses))),
        number(app, Field::Plants, "in this group"),
    ]);
    let editor = element("div").class("plant-ed").child(cordon(app)).child(fields);
    Section {
        id: "plants",
        heading: "My plants".into(),
        aside: app.words(say::looked_at),
        children: element("div").children([
            group_labels(app, "group", links(app)),
            undo(app),
            editor,
            container(app),
            place(app),
            moved(app),
            details(app),
            season_end(app),
            element("a")
                .class("link")
                .set("href", "#water")
                .text("See today’s water")
                .on("click", |event| {
                    event.prevent_default();
                    go_to_top();
                }),
        ]),
    }
    .view()
}

/// Whose guess the height or the trusses are.
fn size_hint(model: &Model, field: Field) -> String {
    let since = model.group().and_then(|group| group.looked);
    if let (Some(since), true) = (since, model.entry(field).is_some_and(Entry::is_of_earlier_day)) {
        return "estimated since ".to_owned() + &say::short_day(since);
    }
    let typed = |group: &GroupRecord| (group.height.value().is_some(), group.trusses.value().is_some());
    match (field, model.group().map(typed)) {
        (Field::Height, Some((false, true))) => "goes with the trusses",
        (Field::Trusses, Some((true, false))) => "goes with the height",
        (Field::Trusses, Some((false, false))) => "tap a truss, or step",
        _ => "",
    }
    .to_owned()
}

/// Add, copy and remove.
fn links(app: App) -> Element {
    let put_in = move |model: &mut Model, group: GroupRecord| {
        if let Some(index) = model.notebook.add_group(group) {
            model.look_at(index);
        }
    };
    let add = act(move |()| app.change(|model| put_in(model, GroupRecord::default())));
    let copy = act(move |()| {
        app.change(|model| {
            if let Some(mut copy) = model.group().cloned() {
                copy.leave_readings();
                copy.handed = None;
                let name = say::group_name(&copy);
                copy.rename(&(name + " too"));
                put_in(model, copy);
            }
        });
    });
    let remove = act(move |()| {
        app.change(|model| {
            let index = model.selected;
            if let Some(group) = model.notebook.remove_group(index) {
                model.look_at(index.saturating_sub(1));
                model.removed = Some(group);
            }
        });
        // The way back, which tells what was removed.
        request_animation_frame(|| focus_on("#undo"));
    });
    // Hidden and not taken away: the link that was pressed keeps the focus.
    let count = move || app.look().notebook.groups.len();
    let full = live(move || count() >= Notebook::MOST_GROUPS);
    element("span").class("group-links").children([
        link_button("Add a group".into(), add).set_when("hidden", "", full.clone()),
        link_button("Copy this one".into(), copy).set_when("hidden", "", full),
        link_button("Remove it".into(), remove).set_when("hidden", "", live(move || count() < 2)),
    ])
}

/// The row that puts a removed group back.
fn undo(app: App) -> Element {
    let put_back = act(move |()| {
        app.change(|model| {
            if let Some(group) = model.removed.take() {
                let index = model.notebook.restore_group(group);
                model.look_at(index);
            }
        });
        request_animation_frame(|| focus_on("[name=group]:checked"));
    });
    let removed = move || {
        let model = app.look();
        let stands = |group: &&GroupRecord| {
            model
                .notebook
                .groups
                .iter()
                .any(|other| (other.id, &other.name) == (group.id, &group.name))
        };
        let group = model.removed.as_ref().filter(|group| !stands(group))?;
        let is_noted = model.notebook.gone(group.id).is_some();
        let stays = is_noted.then_some("What was noted of them stays on “The season so far”.");
        Some((say::group_name(group) + " was removed", stays.unwrap_or_default()))
    };
    let key = move || removed().map(|(told, stays)| told + stays).unwrap_or_default();
    element("div").fill_for(key, move || {
        let Some((told, stays)) = removed() else {
            return Vec::new();
        };
        let stays = (!stays.is_empty()).then(|| element("small").text(stays));
        let told = element("p").set("id", "removed").text(told).children(stays);
        let undo = link_button("Undo".into(), put_back.clone());
        vec![
            element("div")
                .class("undo")
                .child(told)
                .child(undo.set("id", "undo").set("aria-describedby", "removed")),
        ]
    })
}

fn size(model: &Model) -> (f64, f64) {
    model.size().map(PlantSize::settled).unwrap_or_default()
}

fn cordon(app: App) -> Element {
    let metric = move || app.look().units().system == UnitSystem::Metric;
    let tag = move || {
        let model = app.look();
        let height = model.units().height_number(Length::from_metres(size(&model).0));
        format!("{} {}", decimal(height, 1), if metric() { "m" } else { "ft" })
    };
    Cordon {
        height_metres: app.live(move |model| size(model).0),
        trusses: app.live(move |model| drawn_trusses(size(model).1)),
        tag: words(tag),
        marks: live(move || {
            let units = app.look().units();
            let step = if metric() { 0.5 } else { 1.0 };
            let mark = |number: i32| {
                let typed = f64::from(number) * step;
                CaneMark {
                    height_metres: units.height(typed).metres(),
                    words: decimal(typed, 1),
                }
            };
            (1..=9).map(mark).collect()
        }),
        unit: words(move || (if metric() { "m" } else { "ft" }).to_owned()),
        container: app.live(move |model| say::base_drawing(model.group().map(|group| group.container).unwrap_or_default())),
        words: words(move || format!("A plant {} tall with {} trusses set", tag(), drawn_trusses(size(&app.look()).1))),
        on_truss: app.act(move |model, number: u32| {
            let set = drawn_trusses(size(model).1);
            let wanted = if number == set { number.saturating_sub(1) } else { number };
            model.type_text(Field::Trusses, &wanted.to_string());
        }),
    }
    .view()
}

/// Trusses as they are drawn: whole ones.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a float cast saturates, and the field's range is 0 to 20"
)]
fn drawn_trusses(trusses: f64) -> u32 {
    trusses.round() as u32
}

fn container(app: App) -> Element {
    let kind = move || app.look().group().map(|group| group.container).unwrap_or_default();
    let list = choice(
        app,
        "container",
        "They stand in",
        entries_of(&say::CONTAINERS),
        |model| model.group().map(|group| group.container.code().to_owned()).unwrap_or_default(),
        |model, value| {
            if let (Some(kind), Some(group)) = (ContainerKind::from_code(value), model.group_mut()) {
                group.container = kind;
            }
        },
    );
    let sizes = element("div").class("steps").fill_for(
        move || kind().code().to_owned(),
        move || match kind() {
            ContainerKind::GrowBag => vec![
                number(app, Field::PlantsInBag, ""),
                number(app, Field::BagSize, "as printed on the bag"),
            ],
            ContainerKind::Pot => vec![pot_size(app), number(app, Field::PotWidth, "across the rim")],
            ContainerKind::Basket => vec![pot_size(app)],
            ContainerKind::Border | ContainerKind::Ring => Vec::new(),
        },
    );
    element("div").class("steps mt").child(list).child(sizes)
}

fn place(app: App) -> Element {
    let key = |value, words| Key {
        value,
        words,
        drawing: "",
        small: "",
    };
    let word = move || app.look().group().map(|group| group.place_word().to_owned()).unwrap_or_default();
    let keys = Keys {
        legend: "They grow",
        aside: "".into(),
        headed: false,
        name: "place",
        faces: vec![
            key("glass", "Under glass"),
            key("tunnel", "In a tunnel"),
            key("outdoors", "Outdoors"),
        ],
        shape: KeyShape::Plain,
        selected: live(move || Some(word())),
        assumed: live(|| None),
        on_choose: app.act(move |model, value: String| {
            if let Some(group) = model.group_mut() {
                group.move_to(&value);
            }
        }),
    };
    let covers = element("div").class("steps mt").fill_for(word, move || match word().as_str() {
        "outdoors" => vec![exposure(app)],
        "tunnel" => cover(app, &say::POLYTHENES),
        _ => cover(app, &say::GLASSES),
    });
    element("div").class("mt").child(keys.view()).child(covers)
}

fn exposure(app: App) -> Element {
    choice(
        app,
        "exposure",
        "How open the spot is",
        entries_of(&say::EXPOSURES),
        |model| match model.group().map(|group| group.place) {
            Some(Place::Outdoors { exposure }) => exposure.code().to_owned(),
            _ => String::new(),
        },
        |model, value| {
            if let (Some(exposure), Some(group)) = (Exposure::from_code(value), model.group_mut()) {
                group.place = Place::Outdoors { exposure };
            }
        },
    )
}

fn cover(app: App, covers: &'static [(Cover, &'static str)]) -> Vec<Element> {
    let list = choice(
        app,
        "cover",
        "Covered with",
        entries_of(covers),
        move |model| match model.group().map(|group| group.place) {
            Some(Place::Covered { cover, .. }) => cover.code().to_owned(),
            _ => String::new(),
        },
        move |model, value| {
            if let (
                Some(chosen),
                Some(GroupRecord {
                    place: Place::Covered { cover, .. },
                    ..
                }),
            ) = (Cover::from_code(value), model.group_mut())
            {
                *cover = chosen;
            }
        },
    );
    let shaded = tick(
        app,
        "shaded",
        "Shading paint or net on it",
        "",
        |model| matches!(model.group().map(|group| group.place), Some(Place::Covered { shaded: true, .. })),
        |model, ticked| {
            if let Some(GroupRecord {
                place: Place::Covered { shaded, .. },
                ..
            }) = model.group_mut()
            {
                *shaded = ticked;
            }
        },
    );
    vec![list, shaded]
}

/// The size of a pot or basket, which is told in litres everywhere.
fn pot_size(app: App) -> Element {
    let hint = app.words(|model| {
        let is_us = model.units().system == UnitSystem::Us;
        (if is_us { "or type 5 gal" } else { "" }).to_owned()
    });
    number(app, Field::PotSize, hint)
}
