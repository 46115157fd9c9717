//! The keys and fields that say what yesterday was like and how the compost feels.

use super::app::App;
use super::fields::number;
use super::model::Model;
use super::parts::{Element, GroupLabel, GroupLabels, Key, KeyShape, Keys, Live, More, act, element, link_button, live, words};
use super::words as say;
use crate::almanac::{Sky, Thermometer};
use crate::notebook::{Coded, ContainerKind, Field};
use crate::quantity::{UnitSystem, decimal};
use crate::water::Feel;

/// The keys of a sky, with their words and drawings.
const SKY_KEYS: [(Sky, &str, &str); 5] = [
    (Sky::Clear, "Clear", "sky-clear"),
    (Sky::Bright, "Bright", "sky-bright"),
    (Sky::Mixed, "Mixed", "sky-mixed"),
    (Sky::Dull, "Dull", "sky-dull"),
    (Sky::Dark, "Dark", "sky-dark"),
];

/// The keys of squeezed compost, with their words and drawings.
const FEEL_KEYS: [(Feel, &str, &str); 3] = [
    (Feel::Dry, "Dry", "compost-dry"),
    (Feel::Moist, "Moist", "compost-moist"),
    (Feel::Sodden, "Sodden", "compost-sodden"),
];

/// The faces of the keys for a sky.
pub fn sky_faces() -> Vec<Key> {
    faces(&SKY_KEYS)
}

/// The faces of the keys for squeezed compost.
pub fn feel_faces() -> Vec<Key> {
    faces(&FEEL_KEYS)
}

fn faces<T: Coded>(keys: &[(T, &'static str, &'static str)]) -> Vec<Key> {
    keys.iter()
        .map(|(choice, words, drawing)| Key {
            value: choice.code(),
            words,
            drawing,
            small: "",
        })
        .collect()
}

/// The five keys for yesterday's sky.
pub fn sky(app: App) -> Element {
    Keys {
        legend: "Yesterday was",
        aside: app.words(move |model| model.weather().as_ref().map(say::sky_aside).unwrap_or_default()),
        headed: true,
        name: "sky",
        faces: sky_faces(),
        shape: KeyShape::Tall,
        selected: app.live(move |model| {
            let morning = &model.notebook.morning;
            let by_hours = morning.sunshine_hours.value().is_some();
            let nearest = || model.weather().map(|weather| Sky::nearest(weather.clearness));
            let sky = if by_hours { nearest() } else { morning.sky };
            sky.map(|sky| sky.code().to_owned())
        }),
        assumed: live(|| Some(Sky::Mixed.code().to_owned())),
        on_choose: app.act(|model, value: String| {
            if let Some(sky) = Sky::from_code(&value) {
                model.notebook.morning.choose_sky(sky);
            }
        }),
    }
    .view()
}

/// The three keys for the squeezed compost of the group that is looked at, with the groups' labels where there are several.
pub fn feel(app: App) -> Element {
    let labels = labels_of_several(app, "feel-group");
    let keys = Keys {
        legend: "Compost feels",
        aside: app.words(move |model| {
            if model.has_several() {
                format!("in {}", say::looked_at(model))
            } else {
                "squeeze a handful".to_owned()
            }
        }),
        headed: true,
        name: "feel",
        faces: feel_faces(),
        shape: KeyShape::Wide,
        selected: app.live(move |model| model.group().and_then(|group| group.feel).map(|feel| feel.code().to_owned())),
        assumed: Live::fixed(Some("moist".to_owned())),
        on_choose: app.act(move |model, value: String| {
            if let Some(group) = model.group_mut() {
                group.feel = Feel::from_code(&value);
            }
        }),
    };
    element("div").child(keys.view()).child(labels)
}

/// A weighed pot and the drip test, folded away.
pub fn measured(app: App) -> Element {
    More {
        id: "measured",
        summary: "Weigh a pot, or pour until it drips".into(),
        aside: app.words(say::readings),
        minor: true,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(move || readings(app)),
    }
    .view()
}

fn readings(app: App) -> Element {
    let kind = move || app.look().group().map(|group| group.container).unwrap_or_default();
    element("div").class("steps").fill_for(
        move || kind().code().to_owned(),
        move || {
            let drip = number(app, Field::Drip, "a plant, on moist compost: part of today’s water");
            if matches!(kind(), ContainerKind::Pot | ContainerKind::Basket) {
                let drained = number(app, Field::PotDrained, "an hour after a good watering, plant and all");
                vec![drained, number(app, Field::PotNow, "before watering"), drip]
            } else {
                vec![drip]
            }
        },
    )
}

/// The labels of the groups where there are several: see [`group_labels`].
pub fn labels_of_several(app: App, name: &'static str) -> Element {
    element("div").class("feel-labels").fill_for(
        move || app.look().has_several().to_string(),
        move || {
            if app.look().has_several() {
                vec![group_labels(app, name, element("span"))]
            } else {
                Vec::new()
            }
        },
    )
}

/// The labels of all groups, by which one is chosen. `name` tells the places apart where they stand.
pub fn group_labels(app: App, name: &'static str, after: Element) -> Element {
    GroupLabels {
        legend: "Which plants",
        name,
        labels: live(move || {
            let label = |(index, group)| GroupLabel {
                value: format!("{index}"),
                words: say::group_name(group),
            };
            app.look().notebook.groups.iter().enumerate().map(label).collect()
        }),
        selected: app.words(move |model| model.selected.to_string()),
        on_choose: act(move |value: String| {
            if let Ok(index) = value.parse() {
                app.change(|model| model.look_at(index));
            }
        }),
        after,
    }
    .view()
}

/// The temperatures that were read last, to be taken again by one tap while yesterday's are not told.
pub fn as_before(app: App) -> Element {
    let read = |model: &Model| {
        let morning = &model.notebook.morning;
        let is_told = [&morning.warmest, &morning.coolest].iter().any(|entry| !entry.text().is_empty());
        let last = || model.notebook.last_read(model.today.yesterday());
        (!is_told).then(last).flatten()
    };
    let words = app.words(move |model| {
        let Some((day, told)) = read(model) else {
            return String::new();
        };
        ["As on ", &day.spoken(), ": ", &say::both_read(&told, model.units())].concat()
    });
    let take = app.act(move |model, ()| {
        let Some((_, told)) = read(model) else { return };
        model.notebook.morning.thermometer = told.thermometer;
        let units = model.units();
        for (field, celsius) in [(Field::Warmest, told.warmest), (Field::Coolest, told.coolest)] {
            if let Some(celsius) = celsius {
                model.type_text(field, &decimal(field.typed(units, celsius), field.decimals(units)));
            }
        }
    });
    let is_hidden = app.live(move |model| read(model).is_none());
    element("p")
        .set("id", "as-before")
        .set_when("hidden", "", is_hidden)
        .child(link_button(words, take))
}

/// Thermometer, hours of sun and the rest, folded away.
pub fn fine_tune(app: App) -> Element {
    More {
        id: "fine-tune",
        summary: "Fine-tune the weather".into(),
        aside: app.words(move |model| {
            let units = model.units();
            let told = model.weather().map(|weather| {
                let hours = decimal(weather.sunshine_hours(), 1);
                format!(
                    "{hours} hours of sun, {} and {}",
                    say::degrees(weather.maximum, units),
                    say::degrees(weather.minimum, units)
                )
            });
            told.unwrap_or_default()
        }),
        minor: true,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(move || weather_fields(app)),
    }
    .view()
}

fn weather_fields(app: App) -> Element {
    let thermometer = Keys {
        legend: "Thermometer hangs",
        aside: "".into(),
        headed: false,
        name: "thermometer",
        faces: vec![
            Key {
                value: "outside",
                words: "Outside",
                drawing: "",
                small: "",
            },
            Key {
                value: "inside",
                words: "Inside",
                drawing: "",
                small: "",
            },
        ],
        shape: KeyShape::Plain,
        selected: app.live(move |model| Some(model.notebook.morning.thermometer.code().to_owned())),
        assumed: live(|| None),
        on_choose: act(move |value: String| {
            let place = if value == "inside" {
                Thermometer::Inside
            } else {
                Thermometer::Outside
            };
            app.change(|model| model.notebook.morning.thermometer = place);
        }),
    };
    // Said of a guess alone: what was typed is the grower's own.
    let usual = |field: Field| {
        app.words(move |model| {
            let is_typed = model.entry(field).is_some_and(|entry| entry.value().is_some());
            if is_typed {
                "as you typed".to_owned()
            } else {
                "usual for ".to_owned() + model.today.yesterday().month_name()
            }
        })
    };
    let daylight = words(move || {
        let daylight = app.look().weather().map(|weather| decimal(weather.sun.daylight_hours, 1));
        daylight.map(|hours| format!("of {hours} by day")).unwrap_or_default()
    });
    // Whether there are plants outdoors, and a roof from which rain fills a butt.
    let outdoors = move || app.look().notebook.groups.iter().any(|group| group.place.is_outdoors());
    let roof = move || app.look().notebook.butt.roof.value().is_some_and(|area| area > 0.0);
    let outdoor_fields = element("div").class("steps").fill_for(
        move || outdoors().to_string() + &roof().to_string(),
        move || {
            let mut fields = Vec::new();
            if outdoors() || roof() {
                fields.push(number(app, Field::Rain, "on plants outdoors, and off the roof into the butt"));
            }
            if outdoors() {
                let hint = app.words(|model| {
                    let metric = model.units().system == UnitSystem::Metric;
                    let words = if metric {
                        "about 2 on an ordinary day, 5 on a windy one"
                    } else {
                        "about 4 on an ordinary day, 11 on a windy one"
                    };
                    words.to_owned()
                });
                fields.push(number(app, Field::Wind, hint));
            }
            fields
        },
    );
    let steps = element("div").class("steps").children([
        number(app, Field::SunshineHours, daylight),
        number(app, Field::Humidity, "the day’s mean; may stay empty"),
        number(app, Field::Warmest, usual(Field::Warmest)),
        number(app, Field::Coolest, usual(Field::Coolest)),
    ]);
    element("div").children([
        steps,
        element("div").class("mt").child(thermometer.view()),
        outdoor_fields.class("steps mt"),
    ])
}
