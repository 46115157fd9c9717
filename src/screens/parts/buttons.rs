//! Plain buttons.

use super::{Act, Element, Words, element};

/// A raised button for a lesser action; the screen's one chief action is a heavier one.
#[must_use]
pub fn button(words: Words, on_press: Act<()>) -> Element {
    pressable("btn slim", words, on_press)
}

/// A button that looks like a link: add, rename, copy, remove.
#[must_use]
pub fn link_button(words: Words, on_press: Act<()>) -> Element {
    pressable("link", words, on_press)
}

/// The screen's one chief action.
#[must_use]
pub fn chief_button(words: Words, on_press: Act<()>) -> Element {
    pressable("btn do", words, on_press)
}

/// What stands in the place of a button that was pressed: what was done, a smaller line, and the way back.
#[must_use]
pub fn undo_row(what: String, small: String, undo: Element) -> Element {
    let told = element("span").text(what).child(element("small").text(small));
    element("div").class("undo").child(told).child(undo)
}

fn pressable(class: &'static str, words: Words, on_press: Act<()>) -> Element {
    element("button")
        .set("type", "button")
        .class(class)
        .text(words)
        .on("click", move |_| on_press.run(()))
}
