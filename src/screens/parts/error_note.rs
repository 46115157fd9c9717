//! What is wrong, with its triangle.

use leptos::prelude::*;

use super::drawing;

/// A full sentence saying what is wrong, beside the warning triangle.
#[must_use]
pub fn error_note(words: Signal<String>) -> AnyView {
    view! { <p class="error-note">{drawing("mark-risk", "mark-small")}<span>{words}</span></p> }.into_any()
}
