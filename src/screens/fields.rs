//! Fields bound to the notebook.

use super::app::App;
use super::model::Model;
use super::parts::{Choice, Element, Stepper, TickBox, Words};
use crate::notebook::Field;
use crate::quantity::{Units, decimal};

/// What a field asks, with its unit.
fn label(field: Field, units: Units) -> String {
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
        Field::StoppedAt => "Stopped at",
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
    if unit.is_empty() {
        words.to_owned()
    } else {
        words.to_owned() + "," + unit
    }
}

/// A number field with its steppers. `hint` stands under it while its text is right.
pub fn number(app: App, field: Field, hint: impl Into<Words>) -> Element {
    Stepper {
        name: field.word().to_owned(),
        label: app.words(move |model| label(field, model.units())),
        text: app.live(move |model| model.entry(field).map(|entry| entry.text().to_owned()).unwrap_or_default()),
        assumed: app.live(move |model| {
            let assumed = model.assumed(field)?;
            Some(decimal(field.typed(model.units(), assumed), field.decimals(model.units())))
        }),
        hint: hint.into(),
        error: app.live(move |model| model.error(field)),
        whole: field.is_whole(),
        on_text: app.act(move |model, text: String| model.type_text(field, &text)),
        on_step: app.act(move |model, steps| model.step(field, steps)),
    }
    .view()
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
