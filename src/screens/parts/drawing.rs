//! One drawing of the sprite.

use super::{Element, drawn};

/// Shows the symbol `id` of the sprite, hidden from screen readers: the words beside it say the same.
/// `class` gives it its size.
#[must_use]
pub fn drawing(id: &'static str, class: &'static str) -> Element {
    drawn("svg")
        .class(class)
        .set("aria-hidden", "true")
        .child(symbol(id))
}

/// Shows the symbol or group `id` of the sprite inside another drawing.
pub(super) fn symbol(id: &'static str) -> Element {
    drawn("use").set("href", String::from("#") + id)
}
