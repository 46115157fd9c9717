//! A thing that is so or is not.

use leptos_dom::helpers::event_target_checked;

use super::{Act, Element, Live, Words, element};

/// A labelled tick box.
pub struct TickBox {
    /// The name and `id` of the box; unlike any other on the page.
    pub name: String,
    /// What is so when it is ticked.
    pub label: Words,
    /// A second, smaller line. May be empty.
    pub hint: Words,
    /// Whether it is ticked.
    pub ticked: Live<bool>,
    /// Told whether it is ticked after a change.
    pub on_tick: Act<bool>,
}

impl TickBox {
    /// The box with its label.
    #[must_use]
    pub fn view(self) -> Element {
        let Self {
            name,
            label,
            hint,
            ticked,
            on_tick,
        } = self;
        let tick = element("input")
            .set("id", name.clone())
            .set("name", name)
            .set("type", "checkbox")
            .property_when("checked", ticked)
            .on("change", move |event| {
                on_tick.run(event_target_checked(&event));
            });
        element("label")
            .class("tick")
            .child(tick)
            .child(element("i").set("aria-hidden", "true"))
            .child(element("span").text(label).child(element("small").text(hint)))
    }
}
