//! What to do when plants wilt, by when they do and how the compost is.

use super::app::App;
use super::model::Model;
use super::parts::{Answer, Element, Key, KeyShape, Keys, Live, More, act, element};
use crate::water::{WiltAdvice, Wilting, wilt_advice};

/// The ways to wilt, with the values of their keys and their words.
const WAYS: [(Wilting, &str, &str); 4] = [
    (Wilting::NoonOnly, "noon", "At noon only"),
    (Wilting::AllDay, "all-day", "By evening too"),
    (Wilting::InTheMorningToo, "morning", "Even at dawn"),
    (Wilting::OnePlant, "one", "One plant alone"),
];

/// The disclosure.
pub fn wilting(app: App) -> Element {
    More {
        id: "wilting",
        summary: "Plants wilt?".into(),
        aside: "what to do before you pour".into(),
        minor: true,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(move || inside(app)),
    }
    .view()
}

fn inside(app: App) -> Element {
    let keys = Keys {
        legend: "They wilt",
        aside: "".into(),
        headed: false,
        name: "wilting",
        faces: WAYS
            .map(|(_, value, words)| Key {
                value,
                words,
                drawing: "",
                small: "",
            })
            .to_vec(),
        shape: KeyShape::Plain,
        selected: app.live(|model| {
            let way = WAYS.iter().find(|(way, ..)| model.wilting == Some(*way));
            way.map(|(_, value, _)| (*value).to_owned())
        }),
        assumed: Live::fixed(None),
        on_choose: app.act(|model, value: String| {
            model.wilting = WAYS.iter().find(|(_, key, _)| *key == value).map(|(way, ..)| *way);
        }),
    };
    let advice = move || answer(&app.look());
    let told = element("div").fill_for(
        move || advice().map(|(value, _)| value.to_owned()).unwrap_or_default(),
        move || {
            let told = advice().map(|(value, words)| {
                let answer = Answer {
                    id: "answer-wilting".to_owned(),
                    value: value.into(),
                    words: words.into(),
                };
                element("p").class("mt").child(answer.view())
            });
            told.into_iter().collect()
        },
    );
    element("div").children([keys.view(), told])
}

/// The advice as a value and in words, once it is told how they wilt and how the compost feels.
fn answer(model: &Model) -> Option<(&'static str, &'static str)> {
    let wilting = model.wilting?;
    // A sum of yesterday's water does not say whether roots have air or stand in a dry lump: only a hand does.
    let Some(feel) = model.shown()?.season.dose.feel else {
        return Some((
            "feel-first",
            "First squeeze a handful from where the roots are, and press above how it feels. Dry: water them now, in parts. Dripping: no water, however limp they are.",
        ));
    };
    Some(match wilt_advice(wilting, feel) {
        WiltAdvice::WaterInParts => (
            "water-in-parts",
            "Water them now, in parts with pauses, until a handful feels moist. Shade them until they are firm.",
        ),
        WiltAdvice::DrainAndShade => (
            "drain-and-shade",
            "No water: roots without air cannot drink. Let it drain, shade the plants, and feel again tomorrow.",
        ),
        WiltAdvice::NormalAtNoon => (
            "normal-at-noon",
            "No more water: in the heat leaves lose more than any root brings. Shade or open up; firm by evening is fine.",
        ),
        WiltAdvice::RootsOrStem => (
            "roots-or-stem",
            "Water does not cure this. Look at the roots, brown or white, and cut a low side shoot: a brown ring is a disease. Do not feed.",
        ),
        WiltAdvice::ThatPlant => (
            "that-plant",
            "It is not the weather, for the others are firm. Look at its own stem, roots and pot, and keep it apart from the rest.",
        ),
        WiltAdvice::FeelDeeper => (
            "feel-deeper",
            "Feel deeper down, where the roots are: dry there, water in parts; wet there, wait and shade.",
        ),
    })
}
