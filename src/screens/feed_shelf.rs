//! From the shelf: straights and feeds that are ticked, mixed to what a can of this stage should hold; the same as a stock; and feeds
//! brewed at home.

use super::app::App;
use super::feed_label::bottle_name;
use super::feed_words::{self as say, measured_out, range};
use super::fields::number;
use super::model::Model;
use super::parts::{AdviceLine, Answer, Element, Live, More, Table, TextField, TickBox, act, advice, element, section_heading};
use super::shelf_words::{self, SHELF, blend_error};
use crate::feed::{Band, Blend, Brew, Brewed, Cloud, Grade, Meeting, Nutrient, Straight, Stuff, USUAL_STOCK, clouds, meeting, stock_of};
use crate::notebook::{Bottle, Coded, Field};
use crate::quantity::{TemperatureScale, decimal};

/// The section.
pub fn shelf(app: App) -> Element {
    let salts = SHELF.iter().map(|&(salt, name, grade)| {
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
            words: app.words(move |model| grams(model, salt).map(weighed).unwrap_or_default()),
        };
        row(tick, answer)
    });
    let key = move || {
        let model = app.look();
        let bottles = model.notebook.feed.bottles();
        bottles
            .map(|bottle| [&bottle.id.to_string(), " ", &bottle_name(bottle), &small(bottle)].concat())
            .collect()
    };
    let feeds = element("ul").class("shelf").fill_for(key, move || {
        let model = app.look();
        model.notebook.feed.bottles().map(|bottle| bottle_row(app, bottle)).collect()
    });
    let told = element("div").fill_for(move || app.look().feed.turn.to_string(), move || told(&app.look()));
    element("section").class("sec").set("id", "shelf").children([
        section_heading("From the shelf".into(), "".into()),
        element("p").class("note").text("Tick what you have. The amounts are for one can."),
        element("ul").class("shelf").children(salts),
        feeds,
        bags(app),
        told,
        as_stock(app),
        brews(app),
    ])
}

fn row(tick: TickBox, answer: Answer) -> Element {
    element("li")
        .child(tick.view())
        .child(element("span").class("num").child(answer.view()))
}

/// The numbers and the dose of a feed.
fn small(bottle: &Bottle) -> String {
    let (label, dose) = bottle.words(false);
    label + ", " + &dose
}

/// A feed that is kept, by its number.
fn bottle_row(app: App, bottle: &Bottle) -> Element {
    let id = bottle.id;
    let number = id.to_string();
    let tick = TickBox {
        name: "mixer-".to_owned() + &number,
        label: bottle_name(bottle).into(),
        hint: small(bottle).into(),
        ticked: app.live(move |model| model.notebook.feed.mixed_bottles().any(|bottle| bottle.id == id)),
        on_tick: app.act(move |model, ticked| model.notebook.feed.change_bottle(id, |bottle| bottle.in_mixer = ticked)),
    };
    let answer = Answer {
        id: "answer-mixer-".to_owned() + &number,
        value: app.words(move |model| poured(model, id).map(|(amount, _)| decimal(amount, 2)).unwrap_or_default()),
        words: app.words(move |model| {
            let poured = poured(model, id);
            poured.map(|(amount, unit)| measured_out(amount) + unit).unwrap_or_default()
        }),
    };
    row(tick, answer)
}

/// What the bags of the ticked salts print, folded away.
fn bags(app: App) -> Element {
    More {
        id: "bags",
        summary: "What your bags say".into(),
        aside: "the grade on a bag beats the formula".into(),
        minor: true,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(move || {
            let ticked = move || app.look().notebook.feed.shelf.iter().map(|salt| salt.code()).collect::<String>();
            element("div").fill_for(ticked, move || {
                let salts = app.look().notebook.feed.shelf.clone();
                salts.into_iter().map(|salt| bag(app, salt)).collect()
            })
        }),
    }
    .view()
}

fn bag(app: App, salt: Straight) -> Element {
    TextField {
        name: "bag-".to_owned() + salt.code(),
        label: shelf_words::salt(salt).into(),
        text: app.live(move |model| model.notebook.feed.bag(salt).to_owned()),
        assumed: app.live(move |model| Some(shelf_words::as_label(&salt.contents(), model.notebook.feed.basis))),
        hint: "".into(),
        error: app.live(move |model| {
            let text = model.notebook.feed.bag(salt).to_owned();
            let error = Grade::parse(&text).err().filter(|_| !text.trim().is_empty());
            error.map(|error| error.to_string())
        }),
        on_text: app.act(move |model, text: String| model.notebook.feed.type_bag(salt, &text)),
    }
    .view()
}

fn mixed(model: &Model) -> Option<&Blend> {
    model.feed.shelf.as_ref()?.as_ref().ok()
}

/// Grams of a salt for the can, when it is ticked and something can be mixed.
fn grams(model: &Model, salt: Straight) -> Option<f64> {
    let place = model.notebook.feed.shelf.iter().position(|&other| other == salt)?;
    Some(mixed(model)?.per_litre.get(place)? * model.notebook.can_litres())
}

/// A feed for the can as it is measured out, with its unit, when it is ticked and something can be mixed.
fn poured(model: &Model, id: u64) -> Option<(f64, &'static str)> {
    let feed = &model.notebook.feed;
    let place = feed.mixed_bottles().position(|bottle| bottle.id == id)?;
    let counted = mixed(model)?.per_litre.get(feed.shelf.len() + place)? * model.notebook.can_litres();
    let bottle = feed.mixed_bottles().nth(place)?;
    let (amount, is_weighed) = bottle.label(feed.basis, true).ok()?.measured_out(counted);
    Some((amount.value, if is_weighed { " g" } else { " ml" }))
}

/// The feeds of which the mix takes more than their labels give, each with what the label gives to the can.
fn beyond_label(model: &Model) -> Vec<String> {
    let feed = &model.notebook.feed;
    let litres = model.notebook.can_litres();
    let more = feed.mixed_bottles().filter_map(|bottle| {
        let (amount, unit) = poured(model, bottle.id)?;
        let most = feed.feed_of(bottle, model.units(), litres, true).ok()?.rate.per_litre.value * litres;
        // A thousandth is no more than how it is printed.
        (amount > most * 1.001).then(|| [&bottle_name(bottle), " at most ", &measured_out(most), unit].concat())
    });
    more.collect()
}

/// The salts in the mix, with grams in a litre.
fn salts_used(model: &Model) -> Vec<(Straight, f64)> {
    let amounts = mixed(model).map(|blend| blend.per_litre.as_slice()).unwrap_or_default();
    let shelf = model.notebook.feed.shelf.iter().zip(amounts);
    shelf
        .filter(|(_, grams)| **grams > 0.0)
        .map(|(salt, grams)| (*salt, *grams))
        .collect()
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
    let beyond = beyond_label(model);
    if !beyond.is_empty() {
        line(
            "mark-hold",
            "More than the label",
            beyond.join(", ") + ": pour no more, and what is short stays short.",
        );
    }
    let reads = blend.conductivity_in(model.notebook.feed.water);
    if Band::of(reads.low) > Band::Strong {
        line(
            "mark-risk",
            "Strong with this water",
            "With the water’s own salt more than roots should have: rain water, or half of all of it.".to_owned(),
        );
    }
    if blend.strength.feed.is_mostly_ammonium() {
        let (mark, heading, words) = say::MUCH_AMMONIUM;
        line(mark, heading, words.to_owned());
    }
    let used = salts_used(model);
    let mut stuffs: Vec<Stuff> = used.iter().map(|(salt, _)| salt.stuff()).collect();
    if model.notebook.feed.mixed_bottles().next().is_some() {
        // Nearly every complete feed holds phosphate.
        stuffs.push(Stuff::Phosphate);
    }
    let meets = |one: &Stuff| stuffs.iter().any(|other| meeting(*one, *other) == Meeting::Apart);
    if stuffs.iter().any(meets) {
        line(
            "mark-risk",
            "Calcium nitrate last",
            "Into the full can, after the others are dissolved. Together in a concentrate they turn to gypsum and calcium phosphate."
                .to_owned(),
        );
    }
    let clouds = clouds(&feed, model.notebook.feed.water);
    if clouds.gypsum > Cloud::Clear {
        let (mark, words) = say::gypsum(clouds.gypsum);
        line(mark, "Gypsum in the can", words.to_owned());
    }
    if clouds.phosphate > Cloud::Clear {
        line("mark-risk", "It may cloud", "Stir, and use it the same day.".to_owned());
    }
    line(
        "mark-ok",
        "Weigh it",
        "A kitchen scale that shows tenths. Spoons can be a fifth out.".to_owned(),
    );
    let own = model.notebook.feed.water.conductivity();
    let whose = if own > 0.0 {
        ", of that the water’s own ".to_owned() + &decimal(own, 2)
    } else {
        " in rain water".to_owned()
    };
    let strength = ["About ", &range(reads.low, reads.high, 1), " mS/cm", &whose, "."].concat();
    vec![makes, element("p").class("note").text(strength), advice(Live::fixed(lines))]
}

/// The salts of the mix as a stock, and what must not meet in one.
fn as_stock(app: App) -> Element {
    More {
        id: "as-stock",
        summary: "As a stock to dilute".into(),
        aside: "what dissolves, and what must not meet".into(),
        minor: true,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(move || {
            let key = move || {
                let model = app.look();
                let times = model.notebook.feed.stock.value().unwrap_or(USUAL_STOCK);
                model.feed.turn.to_string() + " " + &decimal(times, 1)
            };
            element("div")
                .child(number(app, Field::Stock, "one part of stock to that many in all"))
                .child(element("div").fill_for(key, move || stock(&app.look())))
        }),
    }
    .view()
}

fn stock(model: &Model) -> Vec<Element> {
    let times = model.notebook.feed.stock.value().unwrap_or(USUAL_STOCK);
    let used = salts_used(model);
    let mut parts = Vec::new();
    if used.is_empty() {
        parts.push(element("p").class("note").text("Tick salts above that make a mix."));
    } else {
        let stock = stock_of(&used, times);
        let two = stock.takes_two();
        let rows = stock.salts.iter().map(|of| {
            let bottle = match (two, of.second) {
                (false, _) => "",
                (_, false) => "A: ",
                (_, true) => "B: ",
            };
            vec![
                bottle.to_owned() + shelf_words::salt(of.salt),
                measured_out(of.grams),
                shelf_words::dissolves(of.dissolves).to_owned(),
            ]
        });
        let table = Table {
            caption: "In each litre of stock",
            heads: match model.units().temperature {
                TemperatureScale::Celsius => &["Salt", "g", "At 10 °C"],
                TemperatureScale::Fahrenheit => &["Salt", "g", "At 50 °F"],
            },
            rows: rows.collect(),
        };
        parts.push(table.view());
        let mut words = String::new();
        if stock.gypsum > Cloud::Clear {
            words += "Calcium and sulphate in one bottle turn to gypsum. ";
        }
        if stock.phosphate > Cloud::Clear {
            words += "Calcium and phosphate in one bottle turn to a white mud. ";
        }
        if two {
            words += "So two bottles, A and B, each into the full can, one after the other. ";
        }
        if stock.is_limited {
            words += "Urea draws damp and does not keep: make it for a day. ";
        }
        words += "Each salt by itself; beside others less dissolves. Feeds stay in their own bottles.";
        parts.push(element("p").class("note mt").text(words));
    }
    let mut rows = Vec::new();
    for (place, one) in Stuff::ALL.into_iter().enumerate() {
        for other in Stuff::ALL.into_iter().skip(place) {
            let meets = meeting(one, other);
            if meets != Meeting::Fine {
                rows.push(vec![
                    [shelf_words::stuff(one), " + ", shelf_words::stuff(other)].concat(),
                    shelf_words::meets(meets).to_owned(),
                ]);
            }
        }
    }
    rows.push(vec![
        "Any feed + bleach, lime or washing soda".to_owned(),
        "never, not even in a can".to_owned(),
    ]);
    let never = Table {
        caption: "What must not meet in a concentrate",
        heads: &["These two", "Together"],
        rows,
    };
    parts.push(never.view());
    parts
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
                element("li").text("A third to all of what the leaves hold: nobody knows what yours holds. A conductivity meter tells how strong it is."),
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
