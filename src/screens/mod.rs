//! What the grower sees: wording and layout, no formula.

use leptos::prelude::*;

/// Puts the program in place of the static shell of `index.html`.
pub fn mount() {
    leptos::mount::mount_to_body(|| view! { <p>"First Truss"</p> });
}
