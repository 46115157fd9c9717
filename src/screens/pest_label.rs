//! What the labels of the products say, one product at a time: empty until it is read.

use super::app::App;
use super::fields::{choice, number, tick};
use super::model::Model;
use super::parts::{Element, GroupLabel, GroupLabels, Key, KeyShape, Keys, Live, Section, TextField, element};
use super::pest_shared::{others_key, same_as};
use super::pest_words::{control_words, product_name};
use crate::almanac::CivilDay;
use crate::notebook::{Coded, Field, MOST_PRODUCTS, PestRecord};
use crate::pest::{Control, Told};

/// What the labels say: empty until they are read.
pub fn label(app: App) -> Element {
    let key = move || {
        let model = app.look();
        let programme = model.programme();
        let looked_at = model.product().map_or(0, |product| product.number);
        let names = [
            &programme.products.len().to_string(),
            " ",
            &looked_at.to_string(),
            &others_key(&model),
        ]
        .concat();
        if programme.control().needs_label() {
            names + programme.control().code()
        } else {
            String::new()
        }
    };
    element("div").fill_for(key, move || {
        let model = app.look();
        let programme = model.programme();
        if !programme.control().needs_label() {
            return Vec::new();
        }
        let mut parts = Vec::new();
        if programme.products.len() > 1 {
            parts.push(products(app));
            parts.push(used_as(app, &model));
        }
        parts.extend(same_as(app));
        parts.extend(label_questions(app));
        let add = choice(
            app,
            "add-product",
            "Another product in turn",
            added(programme),
            |_| String::new(),
            |model, code| {
                if let Some(control) = Control::from_code(code)
                    && let Some(number) = model.programme_mut().add_product(control)
                {
                    model.pests.product = number;
                }
            },
        );
        if programme.products.len() < usize::from(MOST_PRODUCTS) {
            parts.push(element("div").class("steps mt").child(add));
        }
        let section = Section {
            id: "label",
            heading: "From its label".into(),
            aside: "empty until you read it".into(),
            children: element("div").children(parts),
        };
        vec![section.view()]
    })
}

/// The kinds of product that can be added.
fn added(programme: &PestRecord) -> Vec<(&'static str, String)> {
    let kinds = programme.pest.controls().iter().filter(|control| control.needs_label());
    let kinds = kinds.map(|control| (control.code(), control_words(*control, programme.pest).name.to_owned()));
    [("", "choose its kind".to_owned())].into_iter().chain(kinds).collect()
}

/// The products by name, one of which is looked at.
fn products(app: App) -> Element {
    GroupLabels {
        legend: "Product",
        name: "product",
        labels: app.live(|model| {
            let programme = model.programme();
            let products = programme.products.iter().map(|product| GroupLabel {
                value: product.number.to_string(),
                words: product_name(programme, product.number),
            });
            products.collect()
        }),
        selected: app.words(|model| model.product().map_or(0, |product| product.number).to_string()),
        on_choose: app.act(|model, number: String| model.pests.product = number.parse().unwrap_or_default()),
        after: element("span"),
    }
    .view()
}

/// What the product is called, and whether it takes its turn.
fn used_as(app: App, model: &Model) -> Element {
    let name = TextField {
        name: "product-name".to_owned(),
        label: "You call it".into(),
        text: app.live(|model| model.product().map(|product| product.name.clone()).unwrap_or_default()),
        assumed: Live::fixed(None),
        hint: "".into(),
        error: Live::fixed(None),
        on_text: app.act(|model, text: String| {
            if let Some(product) = model.product_mut() {
                product.name = text;
            }
        }),
    };
    let part = element("div").child(name.view());
    let main = model.programme().main().map(|product| product.number);
    if model.product().map(|product| product.number) == main {
        return part;
    }
    part.child(tick(
        app,
        "product-used",
        "Use it in turn",
        "when the first may not be used, and with the next generation",
        |model| model.product().is_some_and(|product| product.is_used),
        |model, ticked| {
            if let Some(product) = model.product_mut() {
                product.is_used = ticked;
            }
        },
    ))
}

/// What is asked of one label.
fn label_questions(app: App) -> Vec<Element> {
    let questions = [
        ("names-crop", "Names tomatoes, or edible crops?"),
        ("names-place", "Names this place: under cover, or outdoors?"),
        ("for-home", "For home gardens?"),
    ];
    let mut parts: Vec<Element> = Vec::new();
    for (name, legend) in questions {
        let words = ["yes", "no", "not known"];
        let faces = Told::CODES.iter().zip(words).map(|((value, _), words)| Key {
            value,
            words,
            drawing: "",
            small: "",
        });
        let keys = Keys {
            legend,
            aside: "".into(),
            headed: false,
            name,
            faces: faces.collect(),
            shape: KeyShape::Plain,
            selected: app.live(move |model| {
                let outdoors = !model.is_covered(model.programme());
                let told = model.product().map_or(Told::Unknown, |product| product.told(name, outdoors));
                Some(told.code().to_owned())
            }),
            assumed: Live::fixed(None),
            on_choose: app.act(move |model, code: String| {
                let outdoors = !model.is_covered(model.programme());
                if let (Some(told), Some(product)) = (Told::from_code(&code), model.product_mut()) {
                    product.answer(name, told, outdoors);
                }
            }),
        };
        parts.push(keys.view());
    }
    let numbers = [
        number(app, Field::LeastDays, "0 where it says that there are none"),
        number(app, Field::MostUses, ""),
        number(app, Field::DaysBeforePicking, "needed for your picking date"),
    ];
    parts.push(element("div").class("steps").children(numbers));
    let latest = TextField {
        name: "latest-use".to_owned(),
        label: "Last day of use, if it names one".into(),
        text: app.live(|model| model.product().map(|product| product.latest_use.clone()).unwrap_or_default()),
        assumed: Live::fixed(None),
        hint: "as 31 August 2026".into(),
        error: app.live(|model| {
            let text = &model.product()?.latest_use;
            let wrong = text.parse::<CivilDay>().err().filter(|_| !text.trim().is_empty());
            wrong.map(|error| error.to_string())
        }),
        on_text: app.act(|model, text: String| {
            if let Some(product) = model.product_mut() {
                product.latest_use = text;
            }
        }),
    };
    parts.push(latest.view());
    parts
}
