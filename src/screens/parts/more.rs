//! What is folded away until it is wanted.

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
    /// Told when it was opened or closed.
    pub on_toggle: Act<()>,
    /// Makes what is folded away: it is in the page only as long as it is open.
    pub children: Box<dyn Fn() -> Element>,
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
            on_toggle,
            children,
        } = self;
        let words = element("span").text(summary).child(element("small").text(aside));
        let details = element("details").class(if minor { "more fine" } else { "more" }).set("id", id);
        let node = details.node().clone();
        let is_open = move || node.has_attribute("open");
        let open = is_open.clone();
        let inside = element("div").class("in").fill_for(
            move || is_open().to_string(),
            move || if open() { vec![children()] } else { Vec::new() },
        );
        details
            .child(element("summary").child(words))
            .child(inside)
            .on("toggle", move |_| on_toggle.run(()))
    }
}
