//! What the label says, and how the feed is given.

use super::app::App;
use super::feed_words::STAGES;
use super::fields::{number, tick};
use super::model::Model;
use super::parts::{Element, Key, KeyShape, Keys, Live, More, TextField, Words, act, element};
use super::words as say;
use crate::feed::{Ask, Grade, Rate};
use crate::notebook::{ASSUMED_DOSE, ASSUMED_LABEL, Coded, FeedRecord, Field};

/// A question of the label that is answered by a key.
struct Asked {
    legend: &'static str,
    name: &'static str,
    faces: &'static [(&'static str, &'static str, &'static str)],
    chosen: fn(&FeedRecord) -> Option<&'static str>,
    assumed: &'static str,
    choose: fn(&mut FeedRecord, &str),
}

fn code<T: Coded>(choice: Option<T>) -> Option<&'static str> {
    choice.map(Coded::code)
}

const FORM: Asked = Asked {
    legend: "Counted in",
    name: "feed-form",
    faces: &[
        ("by-volume", "w/v", "grams in 100 ml"),
        ("by-weight", "w/w", "grams in 100 g"),
        ("powder", "Powder", "grams in 100 g"),
    ],
    chosen: |feed| Some(feed.form.code()),
    assumed: "",
    choose: |feed, code| feed.form = Coded::from_code(code).unwrap_or_default(),
};
const COUNTRY: Asked = Asked {
    legend: "Which gallon",
    name: "feed-country",
    faces: &[("uk", "UK", "4.55 litres"), ("us", "US", "3.79 litres")],
    chosen: |feed| code(feed.country),
    assumed: "uk",
    choose: |feed, code| feed.country = Coded::from_code(code),
};
const OUNCE: Asked = Asked {
    legend: "Which ounce",
    name: "feed-ounce",
    faces: &[("weight", "By weight", "28 g"), ("fluid", "Fluid", "a measure")],
    chosen: |feed| code(feed.ounce),
    assumed: "",
    choose: |feed, code| feed.ounce = Coded::from_code(code),
};
const RATIO: Asked = Asked {
    legend: "One part",
    name: "feed-ratio",
    faces: &[("total", "In that many", "of the mix"), ("added", "Added", "to that much water")],
    chosen: |feed| code(feed.ratio),
    assumed: "",
    choose: |feed, code| feed.ratio = Coded::from_code(code),
};
const BASIS: Asked = Asked {
    legend: "P and K are",
    name: "feed-basis",
    faces: &[("oxides", "Oxides", "most labels"), ("elements", "Elements", "Australia, NZ")],
    chosen: |feed| Some(feed.basis.code()),
    assumed: "",
    choose: |feed, code| feed.basis = Coded::from_code(code).unwrap_or_default(),
};
const WATER: Asked = Asked {
    legend: "The can is filled with",
    name: "feed-water",
    faces: &[
        ("rain", "Rain", "from the butt"),
        ("soft", "Soft tap", ""),
        ("hard", "Hard tap", "fur in the kettle"),
    ],
    chosen: |feed| Some(feed.water.code()),
    assumed: "",
    choose: |feed, code| feed.water = Coded::from_code(code).unwrap_or_default(),
};
const STEM: Asked = Asked {
    legend: "Stem, a hand below the tip",
    name: "stem",
    faces: &[
        ("thin", "Thin", "below 8 mm"),
        ("right", "Right", "10 to 12 mm"),
        ("lush", "Lush", "above 15 mm"),
    ],
    chosen: |feed| code(feed.stem),
    assumed: "",
    choose: |feed, code| feed.stem = Coded::from_code(code),
};

fn asked(app: App, question: &'static Asked) -> Element {
    let faces = question.faces.iter().map(|&(value, words, small)| Key {
        value,
        words,
        drawing: "",
        small,
    });
    Keys {
        legend: question.legend,
        aside: "".into(),
        headed: false,
        name: question.name,
        faces: faces.collect(),
        shape: KeyShape::Plain,
        selected: app.live(|model| (question.chosen)(&model.notebook.feed).map(str::to_owned)),
        assumed: app.live(|model| {
            let is_assumed = !question.assumed.is_empty() && model.notebook.feed.dose.good().is_empty();
            is_assumed.then(|| question.assumed.to_owned())
        }),
        on_choose: app.act(|model, value: String| (question.choose)(&mut model.notebook.feed, &value)),
    }
    .view()
}

/// The four keys for how far the crop is.
pub fn stage(app: App) -> Element {
    Keys {
        legend: "The plants are",
        aside: app.words(say::looked_at),
        headed: true,
        name: "stage",
        faces: STAGES
            .iter()
            .map(|&(stage, words, drawing)| Key {
                value: stage.code(),
                words,
                drawing,
                small: "",
            })
            .collect(),
        shape: KeyShape::Tall,
        selected: app.live(|model| code(model.notebook.feed.stage).map(str::to_owned)),
        assumed: app.live(|model| model.feed.shown.as_ref().map(|shown| shown.stage.code().to_owned())),
        on_choose: app.act(|model, value: String| model.notebook.feed.stage = Coded::from_code(&value)),
    }
    .view()
}

/// A line of words of the label.
fn phrase(
    app: App,
    (name, label, hint): (&'static str, &'static str, &'static str),
    assumed: &'static str,
    read: fn(&FeedRecord) -> &str,
    error: fn(&Model) -> Option<String>,
    write: fn(&mut FeedRecord, &str),
) -> Element {
    TextField {
        name: name.to_owned(),
        label: label.into(),
        text: app.live(move |model| read(&model.notebook.feed).to_owned()),
        assumed: Live::fixed(Some(assumed.to_owned())),
        hint: hint.into(),
        error: app.live(error),
        on_text: app.act(move |model, text: String| write(&mut model.notebook.feed, &text)),
    }
    .view()
}

fn label_error(model: &Model) -> Option<String> {
    let text = model.notebook.feed.label.text();
    let error = Grade::parse(text).err().filter(|_| !text.trim().is_empty());
    error.map(|error| error.to_string())
}

fn dose_error(model: &Model) -> Option<String> {
    let feed = &model.notebook.feed;
    let told = feed.told(model.units(), model.notebook.can_litres());
    Rate::parse(&feed.words(false).1, &told).err().map(|error| error.to_string())
}

/// What has to be told for the words of the dose that are typed or assumed.
fn asks(model: &Model) -> Vec<Ask> {
    Rate::asks(&model.notebook.feed.words(false).1)
}

/// The section of the label, and of how the feed is given.
pub fn label(app: App) -> Element {
    let numbers = phrase(
        app,
        ("feed-label", "Numbers, N-P-K", "and what follows, such as +2MgO"),
        ASSUMED_LABEL,
        |feed| feed.label.text(),
        label_error,
        FeedRecord::type_label,
    );
    let dose = phrase(
        app,
        (
            "feed-dose",
            "Dose, in its own words",
            "20 ml per gallon, 1 in 200, a capful per can",
        ),
        ASSUMED_DOSE,
        |feed| feed.dose.text(),
        dose_error,
        FeedRecord::type_dose,
    );
    let key = move || asks(&app.look()).into_iter().map(|ask| char::from(b'0' + ask as u8)).collect();
    let told = element("div").fill_for(key, move || {
        let asks = asks(&app.look());
        asks.into_iter()
            .map(|ask| match ask {
                Ask::Country => asked(app, &COUNTRY),
                Ask::Ounce => asked(app, &OUNCE),
                Ask::Ratio => asked(app, &RATIO),
                Ask::Cap => number(app, Field::Cap, "fill it with water and weigh that: 1 g is 1 ml"),
            })
            .collect()
    });
    let steps = element("div").class("steps mt").children([
        number(app, Field::Can, ""),
        number(app, Field::FeedsAWeek, ""),
        number(app, Field::FeedEach, ""),
        number(app, Field::Fruit, "in the season"),
    ]);
    let heading = super::parts::section_heading("The label says".into(), "".into());
    element("section").class("sec keys-sec").set("id", "label").children([
        heading,
        numbers,
        asked(app, &FORM),
        dose,
        told,
        steps,
        further(app),
    ])
}

fn further(app: App) -> Element {
    More {
        id: "feed-further",
        summary: "Water, stem, more of the label".into(),
        aside: Words::from(""),
        minor: true,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(move || {
            let granules = tick(
                app,
                "granules",
                "Slow granules in the compost",
                "they feed too",
                |model| model.notebook.feed.granules,
                |model, ticked| model.notebook.feed.granules = ticked,
            );
            let steps = [
                (Field::Nitrate, "nitrogen as nitrate"),
                (Field::Ammonium, "as ammonium"),
                (Field::Urea, "as urea"),
                (Field::FeedWeighs, "only for w/w"),
            ];
            let steps = steps.map(|(field, hint)| number(app, field, hint));
            element("div").children([
                asked(app, &WATER),
                asked(app, &STEM),
                granules,
                asked(app, &BASIS),
                element("div").class("steps mt").children(steps),
            ])
        }),
    }
    .view()
}
