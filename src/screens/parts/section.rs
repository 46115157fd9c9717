//! Ruled sections, like a notebook's.

use leptos::prelude::*;

/// A section of the page under a rule and a heading.
pub struct Section {
    /// The `id` a link can lead to, or empty.
    pub id: &'static str,
    /// The heading.
    pub heading: Signal<String>,
    /// What stands at the right of the heading. May be empty.
    pub aside: Signal<String>,
    /// What the section holds.
    pub children: AnyView,
}

impl Section {
    /// The section.
    #[must_use]
    pub fn view(self) -> AnyView {
        let id = (!self.id.is_empty()).then_some(self.id);
        view! { <section class="sec" id=id>{section_heading(self.heading, self.aside)}{self.children}</section> }.into_any()
    }
}

/// The heading of a section with a few words at its right.
#[must_use]
pub fn section_heading(heading: Signal<String>, aside: Signal<String>) -> AnyView {
    view! { <div class="h"><h2>{heading}</h2><small>{aside}</small></div> }.into_any()
}
