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

fn pressable(class: &'static str, words: Words, on_press: Act<()>) -> Element {
    element("button")
        .set("type", "button")
        .class(class)
        .text(words)
        .on("click", move |_| on_press.run(()))
}
