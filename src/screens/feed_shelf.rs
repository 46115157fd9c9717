//! From the shelf: straights that are ticked, mixed to what a can of this stage should hold; and feeds brewed at home.

use super::app::App;
use super::feed_words::{SHELF, blend_error, measured_out, range};
use super::model::Model;
use super::parts::{AdviceLine, Answer, Element, Live, More, TickBox, act, advice, element, section_heading};
use crate::feed::{Blend, Brew, Brewed, Cloud, Meeting, Nutrient, Straight, meeting, phosphate};
use crate::notebook::Coded;
use crate::quantity::decimal;

/// The section.
pub fn shelf(app: App) -> Element {
    let rows = SHELF.iter().map(|&(salt, name, grade)| {
        let tick = TickBox {
            name: "shelf-".to_owned() + salt.code(),
            label: name.into(),
            hint: grade.into(),
            ticked: app.live(move |model| model.notebook.feed.shelf.contains(&salt)),
            on_tick: app.act(move |model, ticked| model.notebook.feed.keep(salt, ticked)),
        };
        let answer = Answer {
            id: "answer-".to_owned() + salt.code(),
            value: app.words(move |model| grams(model, salt).map(|grams| decimal(grams, 2)).unwrap_or_default()),
            words: app.words(move |model| grams(model, salt).map(|grams| decimal(grams, 1) + " g").unwrap_or_default()),
        };
        element("li")
            .child(tick.view())
            .child(element("span").class("num").child(answer.view()))
    });
    let told = element("div").fill_for(move || app.look().feed.turn.to_string(), move || told(&app.look()));
    element("section").class("sec").set("id", "shelf").children([
        section_heading("From the shelf".into(), "".into()),
        element("p")
            .class("note")
            .text("Tick what you have. Grams are for one can; the grade on your bag may differ a little."),
        element("ul").class("shelf").children(rows),
        told,
        brews(app),
    ])
}

fn mixed(model: &Model) -> Option<&Blend> {
    model.feed.shelf.as_ref()?.as_ref().ok()
}

/// Grams of a salt for the can, when it is ticked and something can be mixed.
fn grams(model: &Model, salt: Straight) -> Option<f64> {
    let place = model.notebook.feed.shelf.iter().position(|&other| other == salt)?;
    Some(mixed(model)?.per_litre.get(place)? * model.notebook.can_litres())
}

fn told(model: &Model) -> Vec<Element> {
    let blend = match &model.feed.shelf {
        None => return Vec::new(),
        Some(Err(error)) => return vec![element("p").class("note mt").text(blend_error(*error))],
        Some(Ok(blend)) => blend,
    };
    let feed = blend.strength.feed;
    let made = Nutrient::ALL
        .into_iter()
        .filter(|nutrient| feed.of(*nutrient) > 0.0)
        .map(|nutrient| {
            let number = element("b").class("num").text(decimal(feed.of(nutrient), 0));
            element("span").text(nutrient.sign().to_owned() + " ").child(number)
        });
    let makes = element("p")
        .class("makes")
        .child(element("b").text("Makes, mg in a litre"))
        .children(made);
    let mut lines = Vec::new();
    let mut line = |mark, heading: &str, words: String| {
        lines.push(AdviceLine {
            mark,
            heading: heading.to_owned(),
            words,
        });
    };
    if !blend.misses.is_empty() {
        let misses: Vec<String> = blend
            .misses
            .iter()
            .map(|miss| {
                let (way, by) = if miss.had < miss.wanted {
                    (" short by ", miss.wanted - miss.had)
                } else {
                    (" over by ", miss.had - miss.wanted)
                };
                [miss.nutrient.sign(), way, &decimal(by, 0), " mg of ", &decimal(miss.wanted, 0)].concat()
            })
            .collect();
        line("mark-look", "What it cannot reach", misses.join(", ") + ".");
    }
    let shelf = &model.notebook.feed.shelf;
    let used: Vec<Straight> = shelf
        .iter()
        .zip(&blend.per_litre)
        .filter(|(_, grams)| **grams > 0.0)
        .map(|(salt, _)| *salt)
        .collect();
    let meets = used
        .iter()
        .any(|one| used.iter().any(|other| meeting(one.stuff(), other.stuff()) == Meeting::Apart));
    if meets {
        line(
            "mark-risk",
            "Calcium nitrate last",
            "Into the full can, after the others are dissolved. Together in a concentrate they turn to gypsum and chalk.".to_owned(),
        );
    }
    if phosphate(&feed, model.notebook.feed.water.acidity()) == Cloud::MayCloud {
        line("mark-risk", "It may cloud", "Stir, and use it the same day.".to_owned());
    }
    line(
        "mark-ok",
        "Weigh it",
        "A kitchen scale that shows tenths. Spoons can be a third out.".to_owned(),
    );
    let strength = [
        "About ",
        &decimal(blend.conductivity.value, 1),
        " mS/cm with nothing of the water’s own.",
    ]
    .concat();
    vec![makes, element("p").class("note").text(strength), advice(Live::fixed(lines))]
}

fn brews(app: App) -> Element {
    More {
        id: "brews",
        summary: "Nettle and comfrey brews".into(),
        aside: "".into(),
        minor: true,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(|| {
            let of = |brewed: Brewed| range(brewed.low, brewed.high, 0);
            let line = |name: &'static str, brew: Brew| {
                let potassium = brew.potassium().map(|brewed| [" and potassium ", &of(brewed)].concat()).unwrap_or_default();
                element("li").text([name, ": nitrogen ", &of(brew.nitrogen()), &potassium, " mg in a litre."].concat())
            };
            let lines = [
                line("Dried nettles, 183 g in 10 litres, with three parts of water", Brew::Nettle),
                line("Comfrey, 1 kg of leaves in 15 litres, as it is", Brew::Comfrey),
                element("li").text("A third to all of what the leaves hold: nobody knows what yours holds. A conductivity meter tells more."),
                element("li").text("Phosphorus and magnesium are often low. Add a measured feed. Wear gloves, never drink it, none on fruit or salad leaves."),
            ];
            element("ul").class("cautions").children(lines)
        }),
    }
    .view()
}

/// An amount that is weighed.
pub fn weighed(grams: f64) -> String {
    measured_out(grams) + " g"
}
