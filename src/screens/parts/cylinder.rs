//! A measuring cylinder with its level.

use super::{Element, drawing::measured, drawn};
use crate::quantity::Axis;

/// Where the drawing has nought and its top mark.
const NOUGHT: f64 = 128.0;
const TOP_MARK: f64 = 26.0;
/// Named marks, with one between each two.
const NAMED_MARKS: u32 = 5;

/// A cylinder of the smallest round size that holds `filled`, as a picture with its words.
#[must_use]
pub fn cylinder(filled: f64, words: String) -> Element {
    let axis = Axis::up_to(filled, NAMED_MARKS);
    let holds = axis.step * f64::from(NAMED_MARKS);
    let height = |amount: f64| NOUGHT - (NOUGHT - TOP_MARK) * amount / holds;
    let level = height(filled);
    let mut ticks = String::new();
    let mut parts = Vec::new();
    for mark in 1..=NAMED_MARKS {
        let named = axis.step * f64::from(mark);
        ticks += &measured("M24 #h9M24 #h18", &[height(named - axis.step / 2.0), height(named)]);
        let label = drawn("text")
            .class("cap end")
            .set("x", "21")
            .set("y", measured("#", &[height(named) + 4.6]));
        parts.push(label.text(measured("#", &[named])));
    }
    let path = |class: &'static str, course: String| drawn("path").class(class).set("d", course);
    drawn("svg")
        .class("cylinder")
        .set("viewBox", "-8 0 92 150")
        .set("role", "img")
        .set("aria-label", words)
        .child(path("f-glass", "M24 14V132H64V14z".to_owned()))
        .child(path("f-feed", measured("M24 #H64V132H24z", &[level])))
        .child(path("ink tick", ticks))
        .children(parts)
        .child(path(
            "ink",
            measured("M24 #H64M64 10V132H24V18Q23 12 17 10zM14 140h60v-8H14z", &[level]),
        ))
        .child(path("f-ink", measured("M67 #l9-6v12z", &[level])))
}
