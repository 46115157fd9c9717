//! What is folded away until it is wanted.

use leptos::prelude::*;

use super::{Act, Element, Words, element};

/// A disclosure: a summary that opens in place.
pub struct More {
    /// The `id` of the disclosure.
    pub id: &'static str,
    /// What is folded away.
    pub summary: Words,
    /// What it holds at present, as a second line. May be empty.
    pub aside: Words,
    /// Whether it belongs to what stands above it (no rule, a smaller summary).
    pub minor: bool,
    /// Whether it is open at the start.
    pub open: bool,
    /// Told whether it is open after a change.
    pub on_toggle: Act<bool>,
    /// What is folded away.
    pub children: Element,
}

impl More {
    /// The disclosure.
    #[must_use]
    pub fn view(self) -> Element {
        let Self {
            id,
            summary,
            aside,
            minor,
            open,
            on_toggle,
            children,
        } = self;
        let words = element("span").text(summary).child(element("small").text(aside));
        let mut details = element("details").class(if minor { "more fine" } else { "more" }).set("id", id);
        if open {
            details = details.set("open", "");
        }
        details
            .child(element("summary").child(words))
            .child(element("div").class("in").child(children))
            .on("toggle", move |event| {
                on_toggle.run(event_target::<web_sys::Element>(&event).has_attribute("open"));
            })
    }
}
