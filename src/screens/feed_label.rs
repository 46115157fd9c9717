//! What the label says, and how the feed is given.

use leptos_dom::helpers::request_animation_frame;

use super::app::App;
use super::feed_words::STAGES;
use super::fields::{can_holds, number, tick};
use super::model::Model;
use super::parts::{
    Element, GroupLabel, GroupLabels, Key, KeyShape, Keys, Live, More, TextField, Words, act, element, focus_on, link_button, live,
    undo_row,
};
use super::words as say;
use super::yesterday::labels_of_several;
use crate::browser::milliseconds;
use crate::feed::{Ask, Basis, Grade, Rate, RateError};
use crate::notebook::{ASSUMED_DOSE, ASSUMED_LABEL, Bottle, Coded, FeedRecord, Field};

/// A question of the label that is answered by a key.
struct Asked {
    legend: &'static str,
    name: &'static str,
    faces: &'static [(&'static str, &'static str, &'static str)],
    chosen: fn(&Model) -> Option<&'static str>,
    assumed: fn(&Model) -> Option<&'static str>,
    choose: fn(&mut Model, &str),
}

fn code<T: Coded>(choice: Option<T>) -> Option<&'static str> {
    choice.map(Coded::code)
}

const FORM: Asked = Asked {
    legend: "Counted in",
    name: "feed-form",
    faces: &[
        ("by-volume", "By volume", "w/v: g in 100 ml"),
        ("by-weight", "By weight", "w/w: g in 100 g"),
        ("powder", "Powder", "g in 100 g"),
    ],
    chosen: |model| code(model.notebook.feed.bottle().form),
    assumed: |model| code(Some(model.notebook.feed.bottle().form(false))),
    choose: |model, code| model.notebook.feed.bottle_mut().form = Coded::from_code(code),
};
const COUNTRY: Asked = Asked {
    legend: "Which gallon",
    name: "feed-country",
    faces: &[("uk", "UK", "4.55 litres"), ("us", "US", "3.79 litres")],
    chosen: |model| code(model.notebook.feed.bottle().country),
    assumed: |model| code(Some(model.notebook.feed.bottle().told(model.units(), 1.0).country?)),
    choose: |model, code| model.notebook.feed.bottle_mut().country = Coded::from_code(code),
};
const OUNCE: Asked = Asked {
    legend: "Which ounce",
    name: "feed-ounce",
    faces: &[("weight", "By weight", "28 g"), ("fluid", "Fluid", "a measure")],
    chosen: |model| code(model.notebook.feed.bottle().ounce),
    assumed: |_| None,
    choose: |model, code| model.notebook.feed.bottle_mut().ounce = Coded::from_code(code),
};
const RATIO: Asked = Asked {
    legend: "One part",
    name: "feed-ratio",
    faces: &[("total", "In that many", "of the mix"), ("added", "Added", "to that much water")],
    chosen: |model| code(model.notebook.feed.bottle().ratio),
    assumed: |_| None,
    choose: |model, code| model.notebook.feed.bottle_mut().ratio = Coded::from_code(code),
};
const BASIS: Asked = Asked {
    legend: "P and K are",
    name: "feed-basis",
    faces: &[("oxides", "Oxides", "most labels"), ("elements", "Elements", "Australia, NZ")],
    chosen: |model| Some(model.notebook.feed.basis.code()),
    assumed: |_| None,
    choose: |model, code| model.notebook.feed.basis = Coded::from_code(code).unwrap_or_default(),
};
const WATER: Asked = Asked {
    legend: "The can is filled with",
    name: "feed-water",
    faces: &[
        ("rain", "Rain", "from the butt"),
        ("soft", "Soft tap", ""),
        ("hard", "Hard tap", "fur in the kettle"),
    ],
    chosen: |model| Some(model.notebook.feed.water.code()),
    assumed: |_| None,
    choose: |model, code| model.notebook.feed.water = Coded::from_code(code).unwrap_or_default(),
};
const STEM: Asked = Asked {
    legend: "Stem, a hand below the tip",
    name: "stem",
    faces: &[
        ("thin", "Thin", "below 8 mm"),
        ("right", "Right", "10 to 12 mm"),
        ("lush", "Lush", "above 15 mm"),
    ],
    chosen: |model| code(model.group().and_then(|group| group.stem)),
    assumed: |_| None,
    choose: |model, code| {
        if let Some(group) = model.group_mut() {
            group.stem = Coded::from_code(code);
        }
    },
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
        selected: app.live(|model| (question.chosen)(model).map(str::to_owned)),
        assumed: app.live(|model| (question.assumed)(model).map(str::to_owned)),
        on_choose: app.act(|model, value: String| (question.choose)(model, &value)),
    }
    .view()
}

/// The four keys for how far the crop is.
pub fn stage(app: App) -> Element {
    let keys = Keys {
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
        // What was told long ago is not pressed any more once they have gone further.
        selected: app.live(|model| {
            let shown = model.feed.shown.as_ref().map(|shown| shown.stage);
            let told = model.group().and_then(|group| group.stage);
            code(told.filter(|told| shown.is_none_or(|shown| shown == *told))).map(str::to_owned)
        }),
        assumed: app.live(|model| model.feed.shown.as_ref().map(|shown| shown.stage.code().to_owned())),
        on_choose: app.act(|model, value: String| {
            let today = model.today;
            if let Some(group) = model.group_mut() {
                group.tell_stage(Coded::from_code(&value), today);
            }
        }),
    };
    element("div").child(keys.view()).child(labels_of_several(app, "feed-group"))
}

/// A line of words of the label.
fn phrase(
    app: App,
    (name, label, hint): (&'static str, &'static str, impl Into<Words>),
    assumed: &'static str,
    read: fn(&Bottle) -> &str,
    error: fn(&Model) -> Option<String>,
    write: fn(&mut Bottle, &str),
) -> Element {
    TextField {
        name: name.to_owned(),
        label: label.into(),
        text: app.live(move |model| read(model.notebook.feed.bottle()).to_owned()),
        assumed: Live::fixed(Some(assumed.to_owned()).filter(|words| !words.is_empty())),
        hint: hint.into(),
        error: app.live(error),
        on_text: app.act(move |model, text: String| write(model.notebook.feed.bottle_mut(), &text)),
    }
    .view()
}

fn label_error(model: &Model) -> Option<String> {
    let text = model.notebook.feed.bottle().label.text();
    if text.trim().is_empty() {
        return None;
    }
    let told = Grade::basis_in(text).filter(|told| *told != model.notebook.feed.basis);
    match (Grade::parse(text), told) {
        (Err(error), _) => Some(error.to_string()),
        (Ok(_), None) => None,
        (Ok(_), Some(told)) => {
            let counted = |basis| if basis == Basis::Oxides { "oxides" } else { "elements" };
            Some(
                [
                    "The label counts P and K as ",
                    counted(told),
                    ", and this page as ",
                    counted(model.notebook.feed.basis),
                    ": choose “P and K are” below.",
                ]
                .concat(),
            )
        }
    }
}

fn dose_read(model: &Model) -> Result<Rate, RateError> {
    let feed = model.notebook.feed.bottle();
    let told = feed.told(model.units(), model.notebook.can_litres());
    Rate::parse(&feed.words(false).1, &told)
}

fn dose_error(model: &Model) -> Option<String> {
    // What has to be asked is asked by the keys below, and is no mistake.
    let error = dose_read(model).err().filter(|error| !matches!(error, RateError::Asked(_)));
    error.map(|error| error.to_string())
}

/// What has to be told for the words of the dose that are typed or assumed.
fn asks(model: &Model) -> Vec<Ask> {
    Rate::asks(&model.notebook.feed.bottle().words(false).1)
}

/// The feeds that are kept, of which one is in the can; a way to add one, and to take one off the shelf.
fn feeds(app: App) -> Element {
    let several = element("div").fill_for(
        move || (app.look().notebook.feed.count() > 1).to_string(),
        move || {
            if app.look().notebook.feed.count() < 2 {
                return Vec::new();
            }
            let labels = GroupLabels {
                legend: "Which feed is in the can",
                name: "feed",
                labels: app.live(|model| {
                    let bottles = model.notebook.feed.bottles();
                    bottles
                        .map(|bottle| GroupLabel {
                            value: bottle.id.to_string(),
                            words: bottle_name(bottle),
                        })
                        .collect()
                }),
                selected: app.words(|model| model.notebook.feed.bottle().id.to_string()),
                on_choose: app.act(|model, id: String| model.notebook.feed.put_in_can(id.parse().unwrap_or_default())),
                after: element("span"),
            };
            let name = phrase(
                app,
                ("feed-name", "Its name", "by its numbers until it has one"),
                "",
                |bottle| &bottle.name,
                |_| None,
                Bottle::rename,
            );
            vec![labels.view(), name]
        },
    );
    let add = link_button("Another feed".into(), app.act(|model, ()| model.notebook.feed.add(milliseconds())));
    let remove = act(move |()| {
        app.change(|model| model.feed.removed = model.notebook.feed.remove());
        request_animation_frame(|| focus_on("#removed-feed button"));
    });
    let remove = link_button("Take it off the shelf".into(), remove).set("id", "remove-feed");
    // Hidden and not taken away: the link that was pressed keeps the focus.
    let count = move || app.look().notebook.feed.count();
    let links = element("p").class("group-links").children([
        add.set("id", "add-feed")
            .set_when("hidden", "", live(move || count() >= FeedRecord::MOST_FEEDS)),
        remove.set_when("hidden", "", live(move || count() < 2)),
    ]);
    element("div").children([several, links, removed(app)])
}

/// The row that puts a feed back.
fn removed(app: App) -> Element {
    let told = move || app.look().feed.removed.as_ref().map(bottle_name).unwrap_or_default();
    element("div").set("id", "removed-feed").fill_for(told, move || {
        let name = told();
        if name.is_empty() {
            return Vec::new();
        }
        let undo = act(move |()| {
            app.change(|model| {
                if let Some(bottle) = model.feed.removed.take() {
                    model.notebook.feed.restore(bottle);
                }
            });
            request_animation_frame(|| focus_on("#remove-feed"));
        });
        vec![undo_row(
            name,
            "was taken off the shelf".to_owned(),
            link_button("Undo".into(), undo),
        )]
    })
}

/// A feed by its name, or by its numbers.
pub fn bottle_name(bottle: &Bottle) -> String {
    let is_told = |text: &str| !text.trim().is_empty();
    if is_told(&bottle.name) {
        bottle.name.clone()
    } else if bottle.id == 0 || is_told(bottle.label.text()) {
        bottle.words(false).0
    } else {
        "A new feed".to_owned()
    }
}

/// The section of the label, and of how the feed is given.
pub fn label(app: App) -> Element {
    let numbers = phrase(
        app,
        ("feed-label", "Numbers, N-P-K", "and what follows, such as +2MgO"),
        ASSUMED_LABEL,
        |feed| feed.label.text(),
        label_error,
        Bottle::type_label,
    );
    let dose = phrase(
        app,
        (
            "feed-dose",
            "Dose, in its own words",
            app.words(|model| match dose_read(model) {
                Err(error @ RateError::Asked(_)) => error.to_string(),
                _ => "20 ml per gallon, 1 in 200, a capful per can".to_owned(),
            }),
        ),
        ASSUMED_DOSE,
        |feed| feed.dose.text(),
        dose_error,
        Bottle::type_dose,
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
        number(app, Field::FeedsAWeek, "no more than the label says"),
        number(app, Field::FeedEach, ""),
        number(app, Field::Fruit, "in the season"),
    ]);
    let heading = super::parts::section_heading("The label says".into(), "".into());
    element("section").class("sec keys-sec").set("id", "label").children([
        heading,
        feeds(app),
        numbers,
        asked(app, &FORM),
        basis(app, true),
        dose,
        told,
        can_holds(app, ""),
        steps,
        further(app),
    ])
}

/// How P and K are counted: among the first questions where it may well be as elements, else among the last.
fn basis(app: App, among_first: bool) -> Element {
    let is_asked = move || {
        let model = app.look();
        let is_told = Grade::basis_in(model.notebook.feed.bottle().label.text()).is_some();
        (is_told || model.notebook.place().degrees_north() < 0.0) == among_first
    };
    element("div").fill_for(
        move || is_asked().to_string(),
        move || if is_asked() { vec![asked(app, &BASIS)] } else { Vec::new() },
    )
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
                |model| model.group().is_some_and(|group| group.granules),
                |model, ticked| {
                    if let Some(group) = model.group_mut() {
                        group.granules = ticked;
                    }
                },
            );
            let steps = [
                (Field::Nitrate, "nitrogen as nitrate"),
                (Field::Ammonium, "as ammonium"),
                (Field::Urea, "as urea"),
                (Field::FeedWeighs, "only where it counts by weight, w/w"),
            ];
            let steps = steps.map(|(field, hint)| number(app, field, hint));
            element("div").children([
                asked(app, &WATER),
                asked(app, &STEM),
                granules,
                basis(app, false),
                element("div").class("steps mt").children(steps),
            ])
        }),
    }
    .view()
}
