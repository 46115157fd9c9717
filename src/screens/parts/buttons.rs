//! Plain buttons.

use leptos::prelude::*;

/// A raised button for a lesser action; the screen's one chief action is [`super::Record`].
#[must_use]
pub fn button(words: Signal<String>, on_press: Callback<()>) -> AnyView {
    pressable("btn slim", words, on_press)
}

/// A button that looks like a link: add, rename, copy, remove.
#[must_use]
pub fn link_button(words: Signal<String>, on_press: Callback<()>) -> AnyView {
    pressable("link", words, on_press)
}

fn pressable(class: &'static str, words: Signal<String>, on_press: Callback<()>) -> AnyView {
    view! { <button type="button" class=class on:click=move |_| on_press.run(())>{words}</button> }.into_any()
}
