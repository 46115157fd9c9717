//! Something looks wrong: where, what it looks like, and what may be behind it.

use leptos_dom::helpers::{document, request_animation_frame};

use super::app::App;
use super::feed_answers::{is_fed, weeks_in_compost};
use super::feed_shelf::weighed;
use super::feed_words::{can, poured, range};
use super::fields::tick;
use super::model::Model;
use super::parts::{Element, Key, KeyShape, Keys, Live, PlantFinder, element, section_heading};
use super::route::Route;
use super::sign_words::{FRUIT_LOOKS, LEAF_LOOKS, PARTS, cause, odds};
use super::words::{base_drawing, in_scale};
use crate::feed::{Cause, DRENCH, DRENCH_LITRES, FOLIAR, Look, Need, Nutrient, Odds, Part, REPEAT_AFTER_DAYS, causes, routine_grams};
use crate::notebook::{ASSUMED_LABEL, ContainerKind, GroupRecord};
use crate::quantity::decimal;
use crate::today::{FeedKnown, facts};
use crate::water::Feel;

/// The section.
pub fn signs(app: App) -> Element {
    let places = Keys {
        legend: "Where does it show?",
        aside: "".into(),
        headed: false,
        name: "sign-part",
        faces: PARTS
            .iter()
            .map(|&(_, value, words)| Key {
                value,
                words,
                drawing: "",
                small: "",
            })
            .collect(),
        shape: KeyShape::Plain,
        selected: app.live(|model| {
            let part = PARTS.iter().find(|(part, ..)| model.feed.sign.0 == Some(*part));
            part.map(|(_, code, _)| (*code).to_owned())
        }),
        assumed: Live::fixed(None),
        on_choose: app.act(|model, value: String| {
            let part = PARTS.iter().find(|(_, code, _)| *code == value);
            look_at(model, part.map(|(part, ..)| *part));
        }),
    };
    let plant = PlantFinder {
        container: base_drawing(app.look().group().map(|group| group.container).unwrap_or_default()),
        chosen: app.live(|model| PARTS.iter().position(|(part, ..)| model.feed.sign.0 == Some(*part))),
        on_part: app.act(|model, place: usize| look_at(model, PARTS.get(place).map(|(part, ..)| *part))),
    };
    let places = places.view().class_when("find", Live::fixed(true)).child(plant.view());
    let sights = element("div").set("id", "looks").fill_for(
        move || kind(&app.look()).to_string(),
        move || match kind(&app.look()) {
            0 => Vec::new(),
            1 => vec![looks(app, &LEAF_LOOKS), epsom_tried(app)],
            _ => vec![looks(app, &FRUIT_LOOKS)],
        },
    );
    let told = element("div").fill_for(
        move || {
            let model = app.look();
            let (part, look) = model.feed.sign;
            let number = |place: Option<usize>| place.map_or(99, |place| place).to_string();
            [
                number(PARTS.iter().position(|(other, ..)| part == Some(*other))),
                number(LEAF_LOOKS.iter().chain(&FRUIT_LOOKS).position(|(other, ..)| look == Some(*other))),
                model.feed.turn.to_string(),
                model.group().is_some_and(|group| group.epsom_tried).to_string(),
            ]
            .join(" ")
        },
        move || told(&app.look()),
    );
    element("section").class("sec").set("id", "signs").children([
        section_heading("Something looks wrong".into(), "".into()),
        places,
        sights,
        told,
    ])
}

/// Looks at another part of the plant. Leaves do not look like fruit.
fn look_at(model: &mut Model, part: Option<Part>) {
    let (before, look) = model.feed.sign;
    let is_fruit = |part| part == Some(Part::Fruit);
    model.feed.sign = (part, look.filter(|_| is_fruit(before) == is_fruit(part)));
}

/// Whether magnesium was tried in vain.
fn epsom_tried(app: App) -> Element {
    tick(
        app,
        "epsom-tried",
        "Epsom salts were given",
        "and new leaves look no better",
        |model| model.group().is_some_and(|group| group.epsom_tried),
        |model, ticked| {
            if let Some(group) = model.group_mut() {
                group.epsom_tried = ticked;
            }
        },
    )
}

/// Whether nothing, leaves or fruit are looked at.
fn kind(model: &Model) -> u8 {
    match model.feed.sign.0 {
        None => 0,
        Some(Part::Fruit) => 2,
        Some(_) => 1,
    }
}

fn looks(app: App, looks: &'static [(Look, &'static str, &'static str, &'static str)]) -> Element {
    Keys {
        legend: "What does it look like?",
        aside: "".into(),
        headed: false,
        name: "sign-look",
        faces: looks
            .iter()
            .map(|&(_, value, words, drawing)| Key {
                value,
                words,
                drawing,
                small: "",
            })
            .collect(),
        shape: KeyShape::Plain,
        selected: app.live(move |model| {
            let look = looks.iter().find(|(look, ..)| model.feed.sign.1 == Some(*look));
            look.map(|(_, code, ..)| (*code).to_owned())
        }),
        assumed: Live::fixed(None),
        on_choose: app.act(move |model, value: String| {
            model.feed.sign.1 = looks.iter().find(|(_, code, ..)| *code == value).map(|(look, ..)| *look);
            // The answer stands below the keys: both come into view.
            request_animation_frame(|| {
                if let Some(looks) = document().get_element_by_id("looks") {
                    looks.scroll_into_view();
                }
            });
        }),
    }
    .view()
}

fn is_short_of_nitrogen(need: &Need) -> bool {
    need.nutrient == Nutrient::Nitrogen && need.is_short()
}

fn told(model: &Model) -> Vec<Element> {
    let (Some(part), Some(look)) = model.feed.sign else {
        return Vec::new();
    };
    let told = model.feed.shown.as_ref().filter(|_| !model.guesses_label());
    let known = FeedKnown {
        mix: told.map(|shown| &shown.mix),
        conductivity: told.map(|shown| shown.as_typed.value),
        water: model.notebook.feed.water,
        weeks_in_compost: model.group().and_then(|group| weeks_in_compost(group, model.today)),
        is_fed: is_fed(&model.notebook, model.group(), model.today)
            && told.is_none_or(|shown| !shown.needs.iter().any(is_short_of_nitrogen)),
        epsom_tried: model.group().is_some_and(|group| group.epsom_tried),
        coldest: model.notebook.morning.coolest.value(),
    };
    let facts = facts(model.shown().map(|shown| &shown.season), &known);
    let found = causes(part, look, &facts);
    let leads_to_water = found
        .first()
        .is_some_and(|(cause, _)| matches!(cause, Cause::WetRoots | Cause::UnevenWater | Cause::Dry));
    let lines = found.iter().map(|&(cause, odds)| line(model, cause, odds));
    let mut parts = vec![element("ol").class("causes").set("id", "causes").children(lines)];
    if leads_to_water {
        let link = element("a")
            .class("link")
            .set("href", Route::MorningWater.fragment())
            .text("Morning water");
        parts.push(element("p").child(link));
    }
    parts.push(element("p").class("note mt").text(
        "If one plant among many shows it, it is not feed: that would show on all of the same age. Old leaves rarely turn green again: look at the new ones.",
    ));
    parts
}

fn line(model: &Model, of: Cause, likely: Odds) -> Element {
    let (name, check, mut action) = cause(of);
    let is_sodden = model.shown().is_some_and(|shown| shown.dose().feel == Some(Feel::Sodden));
    match model.group().map(|group| group.container) {
        _ if of != Cause::Salt => {}
        _ if is_sodden => action = "Leave the next feed out. Once the compost is only moist again, plain water.",
        Some(ContainerKind::GrowBag) => {
            action = "Leave the next feed out. Cut slits low in the bag before you run water through, or give plain water only.";
        }
        Some(ContainerKind::Border | ContainerKind::Ring) => {
            action = "Leave the next feed out, and water generously with plain water, so that it sinks below the roots.";
        }
        _ => {}
    }
    let dots = [Odds::Perhaps, Odds::MayBe, Odds::Likely].map(|step| element("i").class(if step <= likely { "on" } else { "off" }));
    let odds = element("span").class("odds").children(dots).child(element("b").text(odds(likely)));
    let ratio = model.feed.shown.as_ref().and_then(|shown| shown.mix.potassium_to_nitrogen());
    let check = match ratio.filter(|_| of == Cause::TooMuchPotash) {
        Some(ratio) => {
            let whose = if model.guesses_label() {
                [" in a guessed ", ASSUMED_LABEL, ", so type your bottle’s numbers first"].concat()
            } else {
                " in the can above".to_owned()
            };
            ["K to N is ", &decimal(ratio, 1), &whose, "; over 2.5 is much."].concat()
        }
        None => in_scale(check, model.units()),
    };
    let mut words = element("div")
        .child(element("h3").text(name).text(" ").child(odds))
        .child(element("p").child(element("b").text("Check first ")).text(check));
    if !action.is_empty() {
        words = words.child(element("p").text(action));
    }
    let is_tried = model.group().is_some_and(|group| group.epsom_tried);
    if of == Cause::Magnesium && is_tried {
        words = words.child(element("p").text("Epsom salts did not help: add no more of them."));
    } else if of == Cause::Magnesium {
        words = words.children(magnesium(model));
    }
    element("li").child(words)
}

/// Epsom salts: regularly, once as a drench, or on the leaves.
fn magnesium(model: &Model) -> Vec<Element> {
    let litres = model.notebook.can_litres();
    let brought = model.feed.shown.as_ref().map_or(0.0, |shown| shown.mix.strength.feed.magnesium);
    let routine = routine_grams(litres, brought);
    let to_can = [" to the can of ", &can(litres, model.notebook.can_units()), ". "].concat();
    let line = |id: &'static str, grams: f64, before: &'static str, words: String, after: String| {
        let answer = super::parts::Answer {
            id: id.to_owned(),
            value: decimal(grams, 2).into(),
            words: words.into(),
        };
        element("p").text(before).child(answer.view()).text(after)
    };
    let each = poured(DRENCH_LITRES, model.units());
    let plants = model.group().map_or(1, GroupRecord::count);
    let in_all = if plants > 1 {
        [
            ", ",
            &poured(DRENCH_LITRES * f64::from(plants), model.units()),
            " for all ",
            &plants.to_string(),
        ]
        .concat()
    } else {
        String::new()
    };
    let days = decimal(f64::from(REPEAT_AFTER_DAYS), 0);
    let (grams, after) = if routine.high > 0.0 {
        (range(routine.low, routine.high, 1) + " g", to_can.clone())
    } else {
        ("none".to_owned(), ": the feed in the can brings enough.".to_owned())
    };
    let mild = line(
        "answer-epsom-routine",
        routine.value,
        "For a mild case, with every feed: Epsom salts, ",
        grams,
        after,
    );
    if routine.high <= 0.0 {
        return vec![mild];
    }
    vec![
        mild,
        line(
            "answer-epsom-drench",
            DRENCH * litres,
            "Only if it shows strongly, once, in plain water in place of a feed (a drench, 2 oz to the UK gallon): ",
            weighed(DRENCH * litres),
            [
                &to_can,
                "At most ",
                &each,
                " a plant",
                &in_all,
                ", on moist compost, plain water the next day, not again for ",
                &days,
                " days. Never this and the mild cure at once. Growers do it; no study has tried it.",
            ]
            .concat(),
        ),
        element("p").class("note").text(
            [
                "On the leaves at most ",
                &decimal(FOLIAR, 0),
                &in_scale(
                    " g in a litre, on a dull evening below 25 °C, never in sun, one plant first, not again for ",
                    model.units(),
                ),
                &days,
                " days. Wash the fruit.",
            ]
            .concat(),
        ),
    ]
}
