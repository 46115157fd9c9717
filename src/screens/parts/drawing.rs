//! One drawing of the sprite.

use leptos::prelude::*;

/// Shows the symbol `id` of the sprite, hidden from screen readers: the words beside it say the same.
/// `class` gives it its size.
#[must_use]
pub fn drawing(id: &'static str, class: &'static str) -> AnyView {
    view! {
        <svg class=class aria-hidden="true" focusable="false">
            <use href=String::from("#") + id></use>
        </svg>
    }
    .into_any()
}
