//! Fields bound to the notebook.

use leptos::prelude::*;

use super::app::App;
use super::parts::{Choice, Stepper};
use crate::notebook::Field;
use crate::quantity::{Units, decimal};

/// The `name` of a field in the page: a stable handle for tests and scripts.
const fn name(field: Field) -> &'static str {
    match field {
        Field::SunshineHours => "sunshine-hours",
        Field::Warmest => "warmest",
        Field::Coolest => "coolest",
        Field::Rain => "rain",
        Field::Humidity => "humidity",
        Field::Wind => "wind",
        Field::Height => "height",
        Field::Trusses => "trusses",
        Field::Plants => "plants",
        Field::PlantsInBag => "plants-in-bag",
        Field::BagSize => "bag-size",
        Field::PotSize => "pot-size",
        Field::PotWidth => "pot-width",
        Field::Ground => "ground",
        Field::Can => "can",
        Field::Latitude => "latitude",
    }
}

/// What a field asks, with its unit.
fn label(field: Field, units: Units) -> String {
    let words = match field {
        Field::SunshineHours => return "Hours of sun".to_owned(),
        Field::Warmest => "Warmest",
        Field::Coolest => "Coolest",
        Field::Rain => "Rain",
        Field::Humidity => "Humidity",
        Field::Wind => "Wind",
        Field::Height => "Height",
        Field::Trusses => "Trusses set",
        Field::Plants => "Plants",
        Field::PlantsInBag => "Plants to a bag",
        Field::BagSize => "Compost in a bag",
        Field::PotSize => "Compost in one",
        Field::PotWidth => "Or its width",
        Field::Ground => "Ground for each",
        Field::Can => "Your can holds",
        Field::Latitude => "Latitude",
    };
    match field.unit(units) {
        "" => words.to_owned(),
        "°" => words.to_owned() + ", degrees north",
        unit => words.to_owned() + "," + (if unit.starts_with(' ') { "" } else { " " }) + unit,
    }
}

/// A number field with its steppers. `hint` stands under it while its text is right.
pub fn number(app: App, field: Field, hint: Signal<String>) -> AnyView {
    Stepper {
        name: name(field).to_owned(),
        label: Signal::derive(move || label(field, app.units())),
        text: Signal::derive(move || app.entry(field, |entry, _| entry.text().to_owned())),
        assumed: Signal::derive(move || {
            let index = app.selected.get();
            let units = app.units();
            let assumed = app.notebook.with(|notebook| notebook.assumed(index, field, app.today.get()))?;
            Some(decimal(field.typed(units, assumed), field.decimals()))
        }),
        hint,
        error: Signal::derive(move || app.error(field)),
        whole: field.is_whole(),
        on_text: Callback::new(move |text: String| app.type_text(field, &text)),
        on_step: Callback::new(move |steps| app.step(field, steps)),
    }
    .view()
}

/// A choice from a list, bound to a reading and a writing.
pub fn choice(
    name: &'static str,
    label: &'static str,
    entries: Vec<(&'static str, String)>,
    selected: Signal<String>,
    on_choose: impl Fn(&str) + Send + Sync + 'static,
) -> AnyView {
    Choice {
        name: name.to_owned(),
        label: label.into(),
        entries,
        selected,
        hint: "".into(),
        on_choose: Callback::new(move |value: String| on_choose(&value)),
    }
    .view()
}
