//! Fields bound to the notebook.

use super::app::App;
use super::model::Model;
use super::parts::{Choice, Element, Key, KeyShape, Keys, Live, Stepper, TickBox, Words, element, hold_typing};
use crate::notebook::{Coded, Entry, Field};
use crate::quantity::{UnitSystem, Units, Volume, decimal};

/// What a field asks, with its unit.
fn label(field: Field, units: Units, is_named: bool) -> String {
    let words = match field {
        Field::SunshineHours => return "Hours of sun".to_owned(),
        Field::Latitude => return "Latitude, degrees north".to_owned(),
        Field::LeastDays => return "Days between, at least".to_owned(),
        Field::MostUses => return "Most times in a season".to_owned(),
        Field::DaysBeforePicking => return "Days before picking".to_owned(),
        Field::PestMean => "Average",
        Field::WarmerByDay => "Warmer inside by day",
        Field::WarmerByNight => "Warmer inside at night",
        Field::PestCount => "Counted today",
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
        Field::Given => "Given to each",
        Field::PotDrained => "A drained pot weighs",
        Field::PotNow => "It weighs now",
        Field::Drip => "Poured until it dripped",
        Field::StoppedAt => "Tip taken out at",
        Field::ButtSize => "It holds",
        Field::ButtLevel => "Left in it now",
        Field::Roof => "Roof, from above",
        Field::DaysAway => "Days away",
        Field::FeedWeighs => "A litre of feed weighs",
        Field::Nitrate => "Nitrate nitrogen",
        Field::Ammonium => "Ammonium nitrogen",
        Field::Urea => "Urea nitrogen",
        Field::Cap => "The cap holds",
        Field::Stock => "A stock",
        Field::FeedEach => "Feed for each plant",
        Field::FeedsAWeek => "Feeds a week",
        Field::Fruit => "Fruit hoped for from each",
    };
    let unit = field.unit(units);
    if unit.is_empty() || is_named {
        words.to_owned()
    } else {
        words.to_owned() + "," + unit
    }
}

/// A number field with its steppers. `hint` stands under it while its text is right.
pub fn number(app: App, field: Field, hint: impl Into<Words>) -> Element {
    Stepper {
        name: field.word().to_owned(),
        // A unit that was typed behind the number stands in the field itself.
        label: app.words(move |model| {
            let units = units_of(model, field);
            let is_named = |entry: &Entry| !entry.number(field, units).is_empty() && entry.is_named(field, units);
            label(field, units, model.entry(field).is_some_and(is_named))
        }),
        // A unit alone is that of what is assumed.
        text: app.live(move |model| {
            let typed = model.entry(field).filter(|entry| !entry.number(field, model.units()).is_empty());
            typed.map(|entry| entry.text().to_owned()).unwrap_or_default()
        }),
        assumed: app.live(move |model| {
            let (assumed, units) = (model.assumed(field)?, units_of(model, field));
            Some(decimal(field.typed(units, assumed), field.decimals(units)))
        }),
        hint: hint.into(),
        error: app.live(move |model| model.error(field)),
        whole: field.is_whole(),
        on_text: app.act(move |model, text: String| {
            // The field gets the measure when it is left: not between two digits.
            hold_typing(model.type_text(field, &text));
        }),
        on_step: app.act(move |model, steps| model.step(field, steps)),
    }
    .view()
}

/// The units in which a field stands: the grower's, or those behind its number.
fn units_of(model: &Model, field: Field) -> Units {
    let units = model.units();
    model.entry(field).map_or(units, |entry| entry.units(field, units))
}

/// A choice from a list, bound to a reading and a writing.
pub fn choice(
    app: App,
    name: &'static str,
    label: &'static str,
    entries: Vec<(&'static str, String)>,
    selected: impl Fn(&Model) -> String + 'static,
    choose: impl Fn(&mut Model, &str) + 'static,
) -> Element {
    Choice {
        name: name.to_owned(),
        label: label.into(),
        entries,
        selected: app.words(move |model| selected(model)),
        hint: "".into(),
        on_choose: app.act(move |model, value: String| choose(model, &value)),
    }
    .view()
}

/// A tick box, bound to a reading and a writing.
pub fn tick(
    app: App,
    name: &'static str,
    label: &'static str,
    hint: &'static str,
    ticked: impl Fn(&Model) -> bool + 'static,
    tick: impl Fn(&mut Model, bool) + 'static,
) -> Element {
    TickBox {
        name: name.to_owned(),
        label: label.into(),
        hint: hint.into(),
        ticked: app.live(move |model| ticked(model)),
        on_tick: app.act(move |model, ticked| tick(model, ticked)),
    }
    .view()
}

/// The size of the can, and whether it is told in litres or in gallons. Whatever is chosen stands behind the number.
pub fn can_holds(app: App, hint: &'static str) -> Element {
    let key = move || app.look().units().system.code().to_owned();
    let keys = element("div").fill_for(key, move || {
        let words = match app.look().units().system {
            UnitSystem::Imperial => ["Litres", "Gallons"],
            UnitSystem::Metric => ["Litres", "UK gallons"],
            UnitSystem::Us => ["Litres", "US gallons"],
        };
        let faces = words.map(|words| Key {
            value: words,
            words,
            drawing: "",
            small: "",
        });
        let own = words
            .get(usize::from(app.look().units().system != UnitSystem::Metric))
            .copied()
            .unwrap_or_default();
        let another = words.into_iter().find(|words| *words != own).unwrap_or_default();
        let keys = Keys {
            legend: "The can is marked in",
            aside: app.words(move |model| {
                if model.notebook.asks_cans_measure() {
                    let number = model.notebook.can.number(Field::Can, model.units());
                    [
                        "is that ",
                        number,
                        " ",
                        &own.to_lowercase(),
                        ", or ",
                        number,
                        " ",
                        &another.to_lowercase(),
                        "?",
                    ]
                    .concat()
                } else {
                    String::new()
                }
            }),
            headed: false,
            name: "can-unit",
            faces: faces.to_vec(),
            shape: KeyShape::Plain,
            selected: app.live(move |model| {
                let chosen = match model.notebook.can_units().system {
                    told if told == model.units().system => own,
                    UnitSystem::Metric => another,
                    UnitSystem::Imperial if own == "Litres" => another,
                    // Told in gallons of the other kind: neither key says so.
                    _ => "",
                };
                (!model.notebook.asks_cans_measure()).then(|| chosen.to_owned())
            }),
            assumed: Live::fixed(Some(own.to_owned())),
            on_choose: app.act(move |model, chosen: String| {
                let units = model.units();
                let number = model.notebook.can.number(Field::Can, units).to_owned();
                let number = if number.is_empty() {
                    let litres = model.notebook.can_litres();
                    // The grower's own measure is chosen already: this is another.
                    let chosen = if chosen == "Litres" {
                        UnitSystem::Metric
                    } else {
                        UnitSystem::Imperial
                    };
                    decimal(Units { system: chosen, ..units }.can_number(Volume::from_litres(litres)), 1)
                } else {
                    number
                };
                model.type_text(Field::Can, &(number + " " + &chosen));
            }),
        };
        vec![keys.view()]
    });
    let size = element("div").class("steps mt").child(number(app, Field::Can, hint));
    element("div").child(size).child(keys)
}
