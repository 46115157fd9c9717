//! A water butt with its level.

use super::{
    Element, Words,
    drawing::{measured, symbol},
    drawn,
};
use crate::quantity::bounded;

/// A drawn butt.
pub struct ButtPicture {
    /// What is in it, as a share of what it holds.
    pub filled: f64,
    /// What stands at its four marks, from the bottom.
    pub marks: [String; 4],
    /// What it shows, in words.
    pub words: Words,
}

/// Where the drawing has its bottom and its top mark.
const BOTTOM: f64 = 138.0;
const TOP_MARK: f64 = 42.0;
/// How far the marks lie apart, and where the lowest stands.
const BETWEEN_MARKS: f64 = 24.0;
const LOWEST_MARK: f64 = 114.0;

impl ButtPicture {
    /// The butt as a picture with its words.
    #[must_use]
    pub fn view(self) -> Element {
        let surface = BOTTOM - (BOTTOM - TOP_MARK) * bounded(self.filled, 0.0, 1.0);
        let marks = self.marks.into_iter().zip([0.0, 1.0, 2.0, 3.0]).map(|(mark, place)| {
            drawn("text")
                .class("cap")
                .set("x", "43")
                .set("y", measured("#", &[LOWEST_MARK - BETWEEN_MARKS * place + 4.5]))
                .text(mark)
        });
        let water = drawn("path").class("f-water").set("d", measured("M0 #H128V168H0z", &[surface]));
        let ripples = drawn("path")
            .class("ink")
            .set("d", measured("M10 #q8-4 16 0t16 0 16 0 16 0 16 0 16 0", &[surface]));
        let inside = drawn("g").set("clip-path", "url(#butt-inside)").child(water).child(ripples);
        drawn("svg")
            .class("butt")
            .set("viewBox", "0 0 128 168")
            .set("role", "img")
            .set("aria-label", self.words)
            .children([symbol("butt-back"), inside, symbol("butt-front")])
            .children(marks)
    }
}
