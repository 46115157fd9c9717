//! Ruled sections, like a notebook's.

use super::{Element, Words, element};

/// A section of the page under a rule and a heading.
pub struct Section {
    /// The `id` a link can lead to, or empty.
    pub id: &'static str,
    /// The heading.
    pub heading: Words,
    /// What stands at the right of the heading. May be empty.
    pub aside: Words,
    /// What the section holds.
    pub children: Element,
}

impl Section {
    /// The section.
    #[must_use]
    pub fn view(self) -> Element {
        let mut section = element("section").class("sec");
        if !self.id.is_empty() {
            section = section.set("id", self.id);
        }
        section.child(section_heading(self.heading, self.aside)).child(self.children)
    }
}

/// A section with nothing at the right of its heading.
#[must_use]
pub fn plain_section(id: &'static str, heading: impl Into<Words>, children: Element) -> Element {
    Section {
        id,
        heading: heading.into(),
        aside: "".into(),
        children,
    }
    .view()
}

/// The heading of a section with a few words at its right.
#[must_use]
pub fn section_heading(heading: Words, aside: Words) -> Element {
    let heading = element("h2").text(heading);
    element("div").class("h").child(heading).child(element("small").text(aside))
}
