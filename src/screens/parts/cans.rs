//! Watering cans, drawn.

use super::{
    Element, Live,
    drawing::{measured, symbol},
    drawn, element, live,
};

/// More cans than this are written only: the one that is drawn stands for them.
const MOST_DRAWN: f64 = 3.0;

/// Draws a number of cans, the last one filled in part. The figure beside them says the same in words.
#[must_use]
pub fn cans(count: Live<f64>) -> Element {
    let many = {
        let count = count.clone();
        live(move || count.get() > 2.0 && count.get() <= MOST_DRAWN)
    };
    let written = count.clone();
    let key = move || measured("#", &[written.get()]);
    element("span")
        .class("cans")
        .class_when("many", many)
        .set("aria-hidden", "true")
        .fill_for(key, move || {
            let count = count.get();
            let mut left = if count > MOST_DRAWN { 1.0 } else { count.max(0.0) };
            let mut drawn = vec![can(left.min(1.0))];
            while left > 1.0 {
                left -= 1.0;
                drawn.push(can(left.min(1.0)));
            }
            drawn
        })
}

/// One can filled to `share` (0–1).
fn can(share: f64) -> Element {
    let mut can = drawn("svg").class("can").set("viewBox", "0 0 62 48").child(symbol("can-back"));
    if share > 0.0 {
        let surface = 45.0 - 27.0 * share;
        let water = drawn("path").class("f-water").set("d", measured("M10 #H55V48H10z", &[surface]));
        let line = drawn("path").class("ink thin").set("d", measured("M10 #H55", &[surface]));
        can = can.child(drawn("g").set("clip-path", "url(#can-inside)").child(water).child(line));
    }
    can.child(symbol("can-front"))
}
