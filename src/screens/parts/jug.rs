//! A measuring jug with its level and the likely range.

use crate::quantity::bounded;

use super::{
    Element, Live, Words,
    drawing::{measured, symbol},
    drawn, live, words,
};

/// What a jug shows, in the jug's own unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JugLevel {
    /// What is in it; `None` draws it empty, without a range.
    pub filled: Option<f64>,
    /// The lower end of the likely range.
    pub low: f64,
    /// The upper end of the likely range.
    pub high: f64,
    /// What it holds at its top mark; its quarters are named.
    pub holds: f64,
}

/// A drawn measuring jug.
pub struct Jug {
    /// What it shows.
    pub level: Live<JugLevel>,
    /// What it shows, in words.
    pub words: Words,
}

/// Where the drawing has its bottom and its top mark.
const BOTTOM_MARK: f64 = 104.0;
const TOP_MARK: f64 = 26.0;

impl JugLevel {
    /// The height in the drawing of `amount`, kept inside the jug.
    fn height(self, amount: f64) -> f64 {
        let share = if self.holds > 0.0 {
            bounded(amount / self.holds, 0.0, 1.1)
        } else {
            0.0
        };
        BOTTOM_MARK - (BOTTOM_MARK - TOP_MARK) * share
    }
}

impl Jug {
    /// The jug as a picture with its words.
    #[must_use]
    pub fn view(self) -> Element {
        let level = self.level;
        let marks = (1..=4).map(|quarter| {
            let share = f64::from(quarter) / 4.0;
            let foot = BOTTOM_MARK - (BOTTOM_MARK - TOP_MARK) * share + 4.6;
            let level = level.clone();
            let words = words(move || mark_words(level.get().holds * share));
            drawn("text")
                .class("jug-n")
                .set("x", "37")
                .set("y", measured("#", &[foot]))
                .text(words)
        });
        let now = level.clone();
        let empty = live(move || now.get().filled.is_none_or(|filled| filled <= 0.0));
        let now = level.clone();
        let surface = words(move || {
            let now = now.get();
            measured("translate(0 #)", &[now.height(now.filled.unwrap_or_default())])
        });
        // The band is open at the right, where the wall of the jug closes it.
        let now = level.clone();
        let band = words(move || {
            let now = now.get();
            measured("M52 #H94V#H52", &[now.height(now.high), now.height(now.low)])
        });
        let inside = || drawn("g").set("clip-path", "url(#jug-inside)");
        let raised = || drawn("g").class("level").set("transform", surface.clone());
        let water = drawn("path").class("f-water").set("d", "M0 0H92V120H0z");
        drawn("svg")
            .class("jug")
            .class_when("empty", empty)
            .set("viewBox", "0 0 100 116")
            .set("role", "img")
            .set("aria-label", self.words)
            .child(symbol("jug-back"))
            .child(inside().child(raised().child(water)))
            .child(symbol("jug-marks"))
            .children(marks)
            .child(
                inside()
                    .child(drawn("path").class("band").set("d", band.clone()))
                    .child(drawn("path").class("ink dash2").set("d", band))
                    .child(raised().child(drawn("path").class("ink").set("d", "M8 0H88"))),
            )
            .child(symbol("jug-front"))
    }
}

/// An amount as it stands on a jug's wall: quarters as fractions, anything else as a decimal.
fn mark_words(amount: f64) -> String {
    let whole = amount.trunc();
    let fraction = match amount - whole {
        rest if rest < 0.01 => "",
        rest if (rest - 0.25).abs() < 0.01 => "¼",
        rest if (rest - 0.5).abs() < 0.01 => "½",
        rest if (rest - 0.75).abs() < 0.01 => "¾",
        _ => return measured("#", &[amount]),
    };
    if whole > 0.0 {
        measured("#", &[whole]) + fraction
    } else {
        fraction.into()
    }
}
