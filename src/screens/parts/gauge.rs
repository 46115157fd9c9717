//! A range on a scale of named bands, and shares of something that is needed.

use super::{Element, drawing::measured, drawn};
use crate::quantity::bounded;

/// Width of the drawings.
const WIDTH: f64 = 358.0;

/// One band of a gauge: where it ends, how it is filled, what it is called.
pub struct GaugeBand {
    /// Its upper end.
    pub end: f64,
    /// The class of its fill.
    pub fill: &'static str,
    /// Its name; empty where there is no room for one.
    pub name: &'static str,
}

/// A scale from nought through all bands with a range over it, as a picture with its words.
#[must_use]
pub fn gauge(bands: &[GaugeBand], low: f64, high: f64, words: String) -> Element {
    let top = bands.last().map_or(1.0, |band| band.end);
    let at = |value: f64| 2.0 + (WIDTH - 4.0) * bounded(value / top, 0.0, 1.0);
    let mut drawing = drawn("svg")
        .class("gauge")
        .set("viewBox", "0 0 358 88")
        .set("role", "img")
        .set("aria-label", words);
    let mut start = 0.0;
    for band in bands {
        let (left, right) = (at(start), at(band.end));
        let course = measured("M# 26H#V54H#z", &[left, right, left]);
        let label = |class: &'static str, x: f64, y: &'static str| drawn("text").class(class).set("x", measured("#", &[x])).set("y", y);
        for class in ["f-plate", band.fill, "ink"] {
            drawing = drawing.child(drawn("path").class(class).set("d", course.clone()));
        }
        drawing = drawing.child(label("cap b mid", f64::midpoint(left, right), "70").text(band.name));
        if band.end < top {
            drawing = drawing.child(label("cap mid", right, "85").text(measured("#", &[band.end])));
        }
        start = band.end;
    }
    let range = measured("M# 4v16M# 4v16M# 12H#", &[at(low), at(high), at(low), at(high)]);
    drawing.child(drawn("path").class("ink spout").set("d", range))
}

/// A bar: its sign, the share that it shows, how it is filled.
pub struct Bar {
    /// What it is called.
    pub sign: &'static str,
    /// Share of what is needed.
    pub share: f64,
    /// The share in words.
    pub words: String,
    /// The class of its fill.
    pub fill: &'static str,
}

/// Where the bars begin, how long a full share is, and how long the longest.
const BEGIN: f64 = 36.0;
const FULL: f64 = 190.0;
const LONGEST: f64 = 250.0;

/// Bars beside the line of what is needed, as a picture with its words.
#[must_use]
pub fn bars(bars: &[Bar], line: &'static str, words: String) -> Element {
    let mut drawing = drawn("svg")
        .class("gauge")
        .set("viewBox", "0 0 358 150")
        .set("role", "img")
        .set("aria-label", words);
    let mut y = 26.0;
    for bar in bars {
        let end = BEGIN + bounded(bar.share * FULL, 2.0, LONGEST);
        let course = measured("M# #H#v28H#z", &[BEGIN, y, end, BEGIN]);
        let label = |class: &'static str, x: &'static str| drawn("text").class(class).set("x", x).set("y", measured("#", &[y + 20.0]));
        for class in ["f-plate", bar.fill, "ink"] {
            drawing = drawing.child(drawn("path").class(class).set("d", course.clone()));
        }
        drawing = drawing
            .child(label("bar-sign", "0").text(bar.sign))
            .child(label("bar-share", "358").text(bar.words.clone()));
        y += 42.0;
    }
    let at = measured("#", &[BEGIN + FULL]);
    drawing
        .child(drawn("path").class("ink spout").set("d", measured("M# 18V142", &[BEGIN + FULL])))
        .child(drawn("text").class("cap b mid").set("x", at).set("y", "12").text(line))
}
