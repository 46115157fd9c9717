//! A choice from a longer list.

use leptos_dom::helpers::event_target_value;

use super::{Act, Element, Live, Words, element, live, text_field::field_step};

/// A labelled native list of which one entry is chosen.
pub struct Choice {
    /// The name and `id` of the list; unlike any other on the page.
    pub name: String,
    /// What is asked.
    pub label: Words,
    /// Value and words of each entry, in order.
    pub entries: Vec<(&'static str, String)>,
    /// The value of the chosen entry.
    pub selected: Words,
    /// What is usual or what it is for. May be empty.
    pub hint: Words,
    /// Told the value of the entry that was chosen.
    pub on_choose: Act<String>,
}

impl Choice {
    /// The labelled list.
    #[must_use]
    pub fn view(self) -> Element {
        let Self {
            name,
            label,
            entries,
            selected,
            hint,
            on_choose,
        } = self;
        let entries = entries.into_iter().map(|(value, words)| {
            let selected = selected.clone();
            element("option")
                .set("value", value)
                .text(words)
                .property_when("selected", live(move || selected.get() == value))
        });
        let list = element("select")
            .set("id", name.clone())
            .set("name", name.clone())
            .set("aria-describedby", name.clone() + "-notes")
            .children(entries)
            .on("change", move |event| {
                on_choose.run(event_target_value(&event));
            });
        let field = element("div").class("field list").child(list);
        field_step(&name, label, field, hint, &Live::fixed(None))
    }
}
