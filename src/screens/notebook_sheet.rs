//! The notebook: whose plot, which units, where, and what is kept.

use leptos::prelude::*;

use super::app::App;
use super::fields::{choice, number};
use super::parts::{Key, KeyShape, Keys, Section, TextField, button};
use crate::almanac::{DISTRICTS, Latitude};
use crate::browser::save_to_file;
use crate::notebook::{Entry, Field, Plot, seal};
use crate::quantity::{TemperatureScale, UnitSystem, Units};

/// The whole screen.
pub fn notebook_sheet(app: App) -> AnyView {
    view! {
        <div class="desk">
            <h1 id="question" class="sheet-title" tabindex="-1">"Notebook"</h1>
            {trouble(app)}
            {plot(app)}
            {units(app)}
        </div>
        <div class="leaves">
            {place(app)}
            {kept(app)}
        </div>
    }
    .into_any()
}

fn text(app: App, name: &str, label: &'static str, hint: &'static str, part: fn(&mut Plot) -> &mut String, longest: usize) -> AnyView {
    TextField {
        name: name.to_owned(),
        label: label.into(),
        text: Signal::derive(move || app.notebook.with(|notebook| part(&mut notebook.plot.clone()).clone())),
        hint: hint.into(),
        error: Signal::derive(|| None),
        on_text: Callback::new(move |typed: String| {
            app.notebook
                .update(|notebook| *part(&mut notebook.plot) = typed.chars().take(longest).collect());
        }),
    }
    .view()
}

fn plot(app: App) -> AnyView {
    let fields = view! {
        <div class="steps">
            {text(app, "plot-name", "Name of the plot", "at the top of every page", |plot| &mut plot.name, 40)}
            {text(app, "plot-number", "Number", "for the badge; 4 letters at most", |plot| &mut plot.number, 4)}
            {number(app, Field::Can, "filled to the brim".into())}
        </div>
    };
    Section {
        id: "plot",
        heading: "The plot".into(),
        aside: "".into(),
        children: fields.into_any(),
    }
    .view()
}

fn units(app: App) -> AnyView {
    let key = |value, words, small| Key {
        value,
        words,
        drawing: "",
        small,
    };
    let change = move |change: fn(&mut Units, &str), value: &str| {
        app.notebook.update(|notebook| {
            let mut units = notebook.units;
            change(&mut units, value);
            notebook.change_units(units);
        });
    };
    let system = Keys {
        legend: "Measures",
        aside: "".into(),
        headed: false,
        name: "units",
        keys: vec![
            key("imperial", "Pints", "gallons, feet"),
            key("metric", "Litres", "metres"),
            key("us", "US pints", "US gallons, feet"),
        ],
        shape: KeyShape::Words,
        selected: Signal::derive(move || {
            Some(match app.units().system {
                UnitSystem::Imperial => "imperial".to_owned(),
                UnitSystem::Metric => "metric".to_owned(),
                UnitSystem::Us => "us".to_owned(),
            })
        }),
        assumed: Signal::derive(|| None),
        on_choose: Callback::new(move |value: String| {
            change(
                |units, value| {
                    units.system = match value {
                        "metric" => UnitSystem::Metric,
                        "us" => UnitSystem::Us,
                        _ => UnitSystem::Imperial,
                    };
                },
                &value,
            );
        }),
    };
    let scale = Keys {
        legend: "Thermometer",
        aside: "".into(),
        headed: false,
        name: "temperature-scale",
        keys: vec![key("celsius", "°C", ""), key("fahrenheit", "°F", "")],
        shape: KeyShape::Words,
        selected: Signal::derive(move || {
            Some(match app.units().temperature {
                TemperatureScale::Celsius => "celsius".to_owned(),
                TemperatureScale::Fahrenheit => "fahrenheit".to_owned(),
            })
        }),
        assumed: Signal::derive(|| None),
        on_choose: Callback::new(move |value: String| {
            change(
                |units, value| {
                    units.temperature = if value == "fahrenheit" {
                        TemperatureScale::Fahrenheit
                    } else {
                        TemperatureScale::Celsius
                    };
                },
                &value,
            );
        }),
    };
    let body = view! { {system.view()} <div class="mt">{scale.view()}</div> };
    Section {
        id: "measures",
        heading: "Measures".into(),
        aside: "".into(),
        children: body.into_any(),
    }
    .view()
}

fn place(app: App) -> AnyView {
    let district = Signal::derive(move || {
        app.notebook.with(|notebook| {
            let here = notebook.latitude.value().and(Some(notebook.place()));
            let found = DISTRICTS
                .iter()
                .find(|district| Latitude::from_degrees_north(district.degrees_north).ok() == here);
            found.map_or(String::new(), |district| district.name.to_owned())
        })
    });
    let mut entries = vec![("", "Not in this list".to_owned())];
    entries.extend(DISTRICTS.iter().map(|district| (district.name, district.name.to_owned())));
    let body = view! {
        <div class="steps">
            {choice("district", "Nearest district", entries, district, move |value| {
                if let Some(district) = DISTRICTS.iter().find(|district| district.name == value) {
                    app.notebook.update(|notebook| {
                        notebook.latitude = Entry::holding(Field::Latitude, notebook.units, district.degrees_north);
                    });
                }
            })}
            {number(app, Field::Latitude, "south is below nought; kept to half a degree".into())}
        </div>
        <p class="note">"The latitude says how high the sun stands and what weather is usual. Nothing finer is kept."</p>
    };
    Section {
        id: "place",
        heading: "Where on earth".into(),
        aside: "".into(),
        children: body.into_any(),
    }
    .view()
}

fn kept(app: App) -> AnyView {
    let save = Callback::new(move |()| {
        if let Some(text) = app.notebook.with_untracked(|notebook| seal(notebook, 0)) {
            let name = format!("first-truss-{}.json", app.today.get_untracked());
            // A browser that refuses says so itself.
            let _ = save_to_file(&name, &text);
        }
    });
    let body = view! {
        <p>{move || if app.not_kept.get() {
            "This browser does not keep anything for this page: save a copy to a file before you leave."
        } else {
            "Kept on this device only. Nothing leaves it, and nothing is sent anywhere."
        }}</p>
        <div class="btn-row mt">{button("Save a copy to a file".into(), save)}</div>
        <p class="note mt">"Opening a copy, sharing a link and the diary come with later versions."</p>
    };
    Section {
        id: "kept",
        heading: "What is kept".into(),
        aside: "".into(),
        children: body.into_any(),
    }
    .view()
}

/// What was set aside, with a way to keep it.
fn trouble(app: App) -> AnyView {
    let texts = app.set_aside_texts();
    if texts.is_empty() {
        return ().into_any();
    }
    let count = texts.len();
    let saves: Vec<_> = texts
        .into_iter()
        .enumerate()
        .map(|(number, text)| {
            let save = Callback::new(move |()| {
                let _ = save_to_file(&format!("first-truss-set-aside-{}.txt", number + 1), &text);
            });
            button(format!("Save set-aside text {} to a file", number + 1).into(), save)
        })
        .collect();
    let words = if count == 1 {
        "A notebook could not be read and was set aside, unchanged."
    } else {
        "Some notebooks could not be read and were set aside, unchanged."
    };
    let body = view! { <p>{words}</p><div class="btn-row mt">{saves}</div> };
    Section {
        id: "set-aside",
        heading: "Set aside".into(),
        aside: "".into(),
        children: body.into_any(),
    }
    .view()
}
