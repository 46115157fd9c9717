//! My plants: the groups, and the one that is looked at.

use leptos::prelude::*;

use super::app::App;
use super::fields::{choice, number};
use super::morning_water::{group_labels, several_name};
use super::parts::{CaneMark, Cordon, Key, KeyShape, Keys, More, Section, TextField, TickBox, link_button};
use super::words::{self, entries_of, thing_of, value_of};
use crate::notebook::{ContainerKind, Field, GroupRecord, Notebook};
use crate::quantity::{Length, UnitSystem, decimal};
use crate::water::{Leafiness, Place};

/// The section.
pub fn my_plants(app: App) -> AnyView {
    let body = view! {
        {group_labels(app, "group", add(app))}
        {undo(app)}
        <div class="plant-ed">
            {cordon(app)}
            <div class="ctl">
                {number(app, Field::Height, Signal::derive(move || size_hint(app, Field::Height)))}
                {number(app, Field::Trusses, Signal::derive(move || size_hint(app, Field::Trusses)))}
                {number(app, Field::Plants, "in this group".into())}
                {container(app)}
            </div>
        </div>
        {place(app)}
        {details(app)}
    };
    Section {
        id: "plants",
        heading: "My plants".into(),
        aside: Signal::derive(move || several_name(app)),
        children: body.into_any(),
    }
    .view()
}

fn size_hint(app: App, field: Field) -> String {
    let (own, other) = app.group(|group| match field {
        Field::Height => (group.height.value().is_some(), group.trusses.value().is_some()),
        _ => (group.trusses.value().is_some(), group.height.value().is_some()),
    });
    match (own, other, field) {
        (false, true, Field::Height) => "goes with the trusses",
        (false, true, _) => "goes with the height",
        (false, false, Field::Trusses) => "tap a truss, or step",
        _ => "",
    }
    .to_owned()
}

fn add(app: App) -> AnyView {
    let room = Memo::new(move |_| app.notebook.with(|notebook| notebook.groups.len() < Notebook::MOST_GROUPS));
    let put_in = move |group: GroupRecord| {
        app.notebook.update(|notebook| {
            if let Some(index) = notebook.add_group(group) {
                app.selected.set(index);
            }
        });
    };
    let fresh = Callback::new(move |()| put_in(GroupRecord::default()));
    let alike = Callback::new(move |()| {
        let mut copy = app.group(GroupRecord::clone);
        let name = words::group_name(&copy);
        copy.rename(&(name + " too"));
        put_in(copy);
    });
    let remove = Callback::new(move |()| {
        let index = app.selected.get_untracked();
        app.notebook.update(|notebook| {
            if let Some(group) = notebook.remove_group(index) {
                app.selected.set(index.saturating_sub(1));
                app.removed.set(Some((index, group)));
            }
        });
    });
    let several = Memo::new(move |_| app.notebook.with(|notebook| notebook.groups.len() > 1));
    let links = move || {
        view! {
            <span class="group-links">
                {room.get().then(|| link_button("Add a group".into(), fresh))}
                {room.get().then(|| link_button("Copy this one".into(), alike))}
                {several.get().then(|| link_button("Remove it".into(), remove))}
            </span>
        }
    };
    links.into_any()
}

fn undo(app: App) -> AnyView {
    let put_back = Callback::new(move |()| {
        if let Some((index, group)) = app.removed.get_untracked() {
            app.notebook.update(|notebook| notebook.restore_group(index, group));
            app.selected.set(index);
            app.removed.set(None);
        }
    });
    let row = move || {
        app.removed
            .with(|removed| removed.as_ref().map(|(_, group)| words::group_name(group)))
            .map(|name| {
                view! { <div class="undo" role="status"><p>{name}" was removed"</p>{link_button("Undo".into(), put_back)}</div> }
            })
    };
    row.into_any()
}

fn cordon(app: App) -> AnyView {
    let size = move || app.group(|group| group.group().size.settled());
    let tag = Signal::derive(move || {
        let units = app.units();
        let height = units.height_number(Length::from_metres(size().0));
        format!(
            "{} {}",
            decimal(height, 1),
            if units.system == UnitSystem::Metric { "m" } else { "ft" }
        )
    });
    Cordon {
        height_metres: Signal::derive(move || size().0),
        trusses: Signal::derive(move || drawn_trusses(size().1)),
        tag,
        marks: Signal::derive(move || {
            let units = app.units();
            let step = if units.system == UnitSystem::Metric { 0.5 } else { 1.0 };
            let mark = |number: i32| {
                let typed = f64::from(number) * step;
                CaneMark {
                    height_metres: units.height(typed).metres(),
                    words: decimal(typed, 1),
                }
            };
            (1..=9).map(mark).collect()
        }),
        unit: Signal::derive(move || (if app.units().system == UnitSystem::Metric { "m" } else { "ft" }).to_owned()),
        container: Signal::derive(move || words::base_drawing(app.group(|group| group.container))),
        words: Signal::derive(move || format!("A plant {} tall with {} trusses set", tag.get(), drawn_trusses(size().1))),
        on_truss: Callback::new(move |number: u32| {
            let set = drawn_trusses(app.group(|group| group.group().size.settled()).1);
            let wanted = if number == set { number - 1 } else { number };
            app.type_text(Field::Trusses, &wanted.to_string());
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

fn container(app: App) -> AnyView {
    let kind = Memo::new(move |_| app.group(|group| group.container));
    let size = move || match kind.get() {
        ContainerKind::GrowBag => {
            view! { {number(app, Field::PlantsInBag, "".into())} {number(app, Field::BagSize, "as printed on the bag".into())} }.into_any()
        }
        ContainerKind::Pot => {
            view! { {number(app, Field::PotSize, "".into())} {number(app, Field::PotWidth, "across the rim".into())} }.into_any()
        }
        ContainerKind::Basket => number(app, Field::PotSize, "".into()),
        ContainerKind::Border | ContainerKind::Ring => ().into_any(),
    };
    view! {
        {choice(
            "container",
            "They stand in",
            entries_of(&words::CONTAINERS),
            Signal::derive(move || value_of(&words::CONTAINERS, &kind.get())),
            move |value| {
                if let Some(kind) = thing_of(&words::CONTAINERS, value) {
                    app.change_group(|group| group.container = kind);
                }
            },
        )}
        {size}
    }
    .into_any()
}

fn place(app: App) -> AnyView {
    let key = |value, words| Key {
        value,
        words,
        drawing: "",
        small: "",
    };
    let word = Memo::new(move |_| app.group(|group| group.place_word().to_owned()));
    let keys = Keys {
        legend: "They grow",
        aside: "".into(),
        headed: false,
        name: "place",
        keys: vec![
            key("glass", "Under glass"),
            key("tunnel", "In a tunnel"),
            key("outdoors", "Outdoors"),
        ],
        shape: KeyShape::Words,
        selected: Signal::derive(move || Some(word.get())),
        assumed: Signal::derive(|| None),
        on_choose: Callback::new(move |value: String| app.change_group(|group| group.move_to(&value))),
    };
    let covers = move || match word.get().as_str() {
        "outdoors" => exposure(app),
        "tunnel" => cover(app, &words::POLYTHENES),
        _ => cover(app, &words::GLASSES),
    };
    view! { <div class="mt">{keys.view()}</div><div class="steps mt">{covers}</div> }.into_any()
}

fn exposure(app: App) -> AnyView {
    let selected = Signal::derive(move || {
        app.group(|group| match group.place {
            Place::Outdoors { exposure } => value_of(&words::EXPOSURES, &exposure),
            Place::Covered { .. } => String::new(),
        })
    });
    choice(
        "exposure",
        "How open the spot is",
        entries_of(&words::EXPOSURES),
        selected,
        move |value| {
            if let Some(exposure) = thing_of(&words::EXPOSURES, value) {
                app.change_group(|group| group.place = Place::Outdoors { exposure });
            }
        },
    )
}

fn cover(app: App, covers: &'static [(&'static str, crate::water::Cover, &'static str)]) -> AnyView {
    let selected = Signal::derive(move || {
        app.group(|group| match group.place {
            Place::Covered { cover, .. } => value_of(covers, &cover),
            Place::Outdoors { .. } => String::new(),
        })
    });
    let list = choice("cover", "Covered with", entries_of(covers), selected, move |value| {
        if let Some(chosen) = thing_of(covers, value) {
            app.change_group(|group| {
                if let Place::Covered { cover, .. } = &mut group.place {
                    *cover = chosen;
                }
            });
        }
    });
    let shaded = TickBox {
        name: "shaded".to_owned(),
        label: "Shading paint or net on it".into(),
        hint: "".into(),
        ticked: Signal::derive(move || app.group(|group| matches!(group.place, Place::Covered { shaded: true, .. }))),
        on_tick: Callback::new(move |ticked| {
            app.change_group(|group| {
                if let Place::Covered { shaded, .. } = &mut group.place {
                    *shaded = ticked;
                }
            });
        }),
    };
    view! { {list} {shaded.view()} }.into_any()
}

/// What most growers never touch.
fn details(app: App) -> AnyView {
    let leafiness = Keys {
        legend: "Leaves",
        aside: "".into(),
        headed: false,
        name: "leafiness",
        keys: vec![
            Key {
                value: "sparse",
                words: "Sparse",
                drawing: "",
                small: "lower ones off",
            },
            Key {
                value: "usual",
                words: "Usual",
                drawing: "",
                small: "side shoots out",
            },
            Key {
                value: "bushy",
                words: "Bushy",
                drawing: "",
                small: "a bush, or left",
            },
        ],
        shape: KeyShape::Words,
        selected: Signal::derive(move || {
            Some(match app.group(|group| group.leafiness) {
                Leafiness::Sparse => "sparse".to_owned(),
                Leafiness::Usual => "usual".to_owned(),
                Leafiness::Bushy => "bushy".to_owned(),
            })
        }),
        assumed: Signal::derive(|| None),
        on_choose: Callback::new(move |value: String| {
            app.change_group(|group| {
                group.leafiness = match value.as_str() {
                    "sparse" => Leafiness::Sparse,
                    "bushy" => Leafiness::Bushy,
                    _ => Leafiness::Usual,
                };
            });
        }),
    };
    let name = TextField {
        name: "group-name".to_owned(),
        label: "Name on the label".into(),
        text: Signal::derive(move || app.group(|group| group.name.clone())),
        hint: "at most 40 letters".into(),
        error: Signal::derive(|| None),
        on_text: Callback::new(move |text: String| app.change_group(|group| group.rename(&text))),
    };
    let planted = TextField {
        name: "planted".to_owned(),
        label: "Planted on".into(),
        text: Signal::derive(move || app.group(|group| group.planted_text.clone())),
        hint: "as 2026-05-20; for five weeks roots reach only a part".into(),
        error: Signal::derive(move || app.group(|group| group.planted_error(app.today.get()))),
        on_text: Callback::new(move |text: String| app.change_group(|group| group.type_planted(&text))),
    };
    let tick = |name: &str, label: &'static str, hint: &'static str, read: fn(&GroupRecord) -> bool, write: fn(&mut GroupRecord, bool)| {
        TickBox {
            name: name.to_owned(),
            label: label.into(),
            hint: hint.into(),
            ticked: Signal::derive(move || app.group(read)),
            on_tick: Callback::new(move |ticked| app.change_group(|group| write(group, ticked))),
        }
        .view()
    };
    let body = view! {
        {name.view()}
        <div class="mt">{leafiness.view()}</div>
        <div class="steps mt">
            {choice(
                "medium",
                "Roots grow in",
                entries_of(&words::MEDIA),
                Signal::derive(move || app.group(|group| value_of(&words::MEDIA, &group.medium))),
                move |value| {
                    if let Some(medium) = thing_of(&words::MEDIA, value) {
                        app.change_group(|group| group.medium = medium);
                    }
                },
            )}
            {number(app, Field::Ground, "row by spacing, or the floor shared out".into())}
            {planted.view()}
            {choice(
                "planted-from",
                "Out of a",
                entries_of(&words::STARTING_POTS),
                Signal::derive(move || app.group(|group| value_of(&words::STARTING_POTS, &group.planted_from))),
                move |value| {
                    if let Some(pot) = thing_of(&words::STARTING_POTS, value) {
                        app.change_group(|group| group.planted_from = pot);
                    }
                },
            )}
        </div>
        {tick("settled", "Second season, or shrunk", "holds a fifth less", |group| group.settled, |group, ticked| group.settled = ticked)}
        {tick(
            "drains",
            "Surplus water runs away",
            "not in a bag, a border or a closed saucer",
            |group| group.drains.unwrap_or_else(|| group.group().container.usually_drains()),
            |group, ticked| group.drains = Some(ticked),
        )}
    };
    More {
        id: "more-plants",
        summary: "More about them".into(),
        aside: "name, leaves, compost, planting".into(),
        minor: true,
        open: false,
        on_toggle: Callback::new(|_| ()),
        children: body.into_any(),
    }
    .view()
}
