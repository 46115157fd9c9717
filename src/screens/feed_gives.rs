//! What the can gives: strength, a week's need, how often, and the working.

use super::feed_answers::FeedShown;
use super::feed_words as say;
use super::model::Model;
use super::parts::{Answer, Bar, Element, GaugeBand, Table, WorkingLine, bars, element, gauge, section_heading};
use super::show_working::steps_of;
use super::words::temperature;
use crate::feed::{BAND_ENDS, Lean, METER_COLD, Nutrient, SEEDLING_LIMIT, shown_at, wanted};
use crate::notebook::ASSUMED_LABEL;
use crate::quantity::decimal;

/// The scale of the gauge: ends of the bands, mS/cm, with their fills. Strong and too strong by half are one; the last band ends
/// where the drawing does.
const GAUGE: [(f64, &str, &str); 4] = [
    (BAND_ENDS[0], "f-plate", "weak"),
    (BAND_ENDS[1], "f-leaf", "right"),
    (BAND_ENDS[3], "c-hatch", "strong"),
    (5.0, "f-tom", "stop"),
];

/// A section of this screen.
pub fn section(heading: &'static str, children: Vec<Element>) -> Vec<Element> {
    vec![
        element("section")
            .class("sec")
            .child(section_heading(heading.into(), "".into()))
            .children(children),
    ]
}

fn note(words: impl Into<super::parts::Words>) -> Element {
    element("p").class("note mt").text(words)
}

fn figure(id: &str, value: f64, decimals: usize, words: String) -> Element {
    Answer {
        id: id.to_owned(),
        value: decimal(value, decimals).into(),
        words: words.into(),
    }
    .view()
}

/// What a litre of the can holds, beside what is wanted.
fn contents(model: &Model, shown: &FeedShown) -> Element {
    let mix = &shown.mix;
    let delivered = mix.delivered(model.notebook.feed.water);
    let ids = [
        "answer-nitrogen",
        "answer-phosphorus",
        "answer-potassium",
        "answer-magnesium",
        "answer-calcium",
        "answer-sulphur",
    ];
    let mut rows: Vec<Element> = Vec::new();
    let mut row = |name: &'static str, cell: Element, wanted: String| {
        let head = element("th").set("scope", "row").text(name);
        let cells = [element("td").class("num").child(cell), element("td").class("num").text(wanted)];
        rows.push(element("tr").child(head).children(cells));
    };
    for (nutrient, id) in Nutrient::ALL.into_iter().zip(ids) {
        let value = delivered.of(nutrient);
        let is_first = matches!(nutrient, Nutrient::Nitrogen | Nutrient::Phosphorus | Nutrient::Potassium);
        if is_first || value > 0.0 {
            let range = mix.strength.range(value);
            let words = if range.low < range.high && is_first {
                decimal(value, 0) + ", likely " + &say::range(range.low, range.high, 0)
            } else {
                decimal(value, 0)
            };
            let (low, high) = wanted(shown.stage, nutrient, shown.aim);
            let wanted = if high > 0.0 { say::range(low, high, 0) } else { String::new() };
            row(say::nutrient(nutrient), figure(id, value, 1, words), wanted);
        }
    }
    if let Some(ratio) = mix.potassium_to_nitrogen() {
        let lean = match Lean::of(ratio) {
            Lean::Leaf => "to leaf",
            Lean::Even => "even",
            Lean::Potash => "much potash",
        };
        row(
            "K to N",
            figure("answer-k-to-n", ratio, 2, decimal(ratio, 1) + " to 1"),
            lean.to_owned(),
        );
    }
    let water = model.notebook.feed.water;
    if water.bicarbonate() > 0.0 {
        let words = decimal(water.bicarbonate(), 0);
        row(
            "Bicarbonate",
            figure("answer-bicarbonate", water.bicarbonate(), 0, words),
            String::new(),
        );
    }
    let heads = ["Element", "Gives", "Wanted now"].map(|head| element("th").set("scope", "col").text(head));
    element("table")
        .class("given")
        .child(element("caption").text("In each litre, mg"))
        .child(element("thead").child(element("tr").children(heads)))
        .child(element("tbody").children(rows))
}

/// What a litre of the can holds, and how strong that is.
pub fn gives(model: &Model, shown: &FeedShown) -> Vec<Element> {
    let mix = &shown.mix;
    let water = model.notebook.feed.water;
    let (low, high) = (mix.conductivity.low, mix.conductivity.high);
    let strength = element("h3")
        .class("mt")
        .text("Strength, about ")
        .child(figure("answer-conductivity-low", low, 2, decimal(low, 1)))
        .text(" to ")
        .child(figure("answer-conductivity-high", high, 2, decimal(high, 1)))
        .text(" mS/cm");
    let (weak, strong) = mix.bands();
    let words = if strong == weak {
        say::band(weak).to_owned()
    } else {
        ["from ", say::band(weak), " to ", say::band(strong)].concat()
    };
    let bands = GAUGE.map(|(end, fill, name)| GaugeBand { end, fill, name });
    let drawing = gauge(
        &bands,
        low,
        high,
        ["Strength ", &say::range(low, high, 1), " mS/cm: ", &words].concat(),
    );
    let mut after = "mS/cm is what a conductivity meter shows: the more salt, the higher. That is ".to_owned() + &words + ". ";
    if model.guesses_label() {
        after = [
            "Of a guessed feed of ",
            ASSUMED_LABEL,
            ": type your bottle’s own numbers first. ",
            &after,
        ]
        .concat();
    }
    if mix.is_open() {
        after += "The range is wide because the label does not say which nitrogen it holds: tell it under the label. ";
    }
    let (least, most) = mix.on_a_meter();
    if water.conductivity() > 0.0 {
        after += &["The water’s own is about ", &decimal(water.conductivity(), 2), " of it. "].concat();
    }
    let cold = say::range(shown_at(least, METER_COLD), shown_at(most, METER_COLD), 1);
    after += &[
        "A real meter may show ",
        &say::range(least, most, 1),
        "; one that does not allow for temperature ",
        &cold,
        " at ",
        &temperature(METER_COLD, model.units()),
        ".",
    ]
    .concat();
    if !mix.suits_seedlings() {
        after += &[
            " Too strong for seedlings: thin it to ",
            &decimal(SEEDLING_LIMIT, 0),
            " mS/cm at most.",
        ]
        .concat();
    }
    section(
        "What it gives",
        vec![
            contents(model, shown),
            note(
                "Labels count P and K as oxides unless they say otherwise. These are the plain elements, with the water’s own calcium. Wanted: by stage and month. K to N matters little: at one strength, trials from 2 to 14 cropped alike.",
            ),
            strength,
            drawing,
            note(after),
        ],
    )
}

/// A week's need beside what is fed.
pub fn week(model: &Model, shown: &FeedShown) -> Vec<Element> {
    let drawn = shown.needs.each_ref().map(|need| Bar {
        sign: need.nutrient.sign(),
        share: need.share(),
        words: say::percent(need.share()),
        fill: if need.is_over() { "c-hatch" } else { "f-feed" },
    });
    let said: Vec<String> = drawn.iter().map(|bar| [bar.sign, " ", &bar.words].concat()).collect();
    let picture = bars(&drawn, "a week’s need", ["Of a week’s need: ", &said.join(", ")].concat());
    let rows = shown.needs.iter().map(|need| {
        vec![
            need.nutrient.sign().to_owned(),
            decimal(need.fed.value, 2),
            say::range(need.needed.low, need.needed.high, 2),
        ]
    });
    let table = Table {
        caption: "For each plant in a week",
        heads: &["Element", "Fed, g", "Needed, g"],
        rows: rows.collect(),
    };
    let mut words = [
        &say::poured(shown.habit.litres, model.units()),
        " each, ",
        &say::times_a_week(shown.habit.a_week),
        ", for the fruit that you hope for.",
    ]
    .concat();
    if let Some(compost) = shown.from_compost.filter(|compost| compost.value > 0.0) {
        words += &[
            " Fresh compost still gives about ",
            &say::range(compost.low, compost.high, 2),
            " g of nitrogen a week.",
        ]
        .concat();
    }
    section("A week’s need", vec![picture, note(words), table.view()])
}

/// The ways to give the same in a week.
pub fn how_often(_model: &Model, shown: &FeedShown) -> Vec<Element> {
    let rows = shown.timing.ways.iter().map(|way| {
        vec![
            say::way(way),
            say::times(way.a_week),
            say::measured_out(shown.mix.amount.value * way.share) + " " + say::unit(&shown.mix),
        ]
    });
    let table = Table {
        caption: "The same grams in a week",
        heads: &["Strength", "How often", "To the can"],
        rows: rows.collect(),
    };
    section(
        "How often",
        vec![
            table.view(),
            note(
                "Little and often keeps the salt low. Never stronger than the label, and more often only while the strength is about right.",
            ),
        ],
    )
}

/// The steps of the can's figures.
pub fn steps(model: &Model) -> Vec<WorkingLine> {
    let shown = model.feed.shown.as_ref();
    shown.map(|shown| steps_of(&shown.mix.working)).unwrap_or_default()
}
