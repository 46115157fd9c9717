//! A thing that is so or is not.

use leptos::prelude::*;

/// A labelled tick box.
pub struct TickBox {
    /// The name and `id` of the box; unlike any other on the page.
    pub name: String,
    /// What is so when it is ticked.
    pub label: Signal<String>,
    /// A second, smaller line. May be empty.
    pub hint: Signal<String>,
    /// Whether it is ticked.
    pub ticked: Signal<bool>,
    /// Told whether it is ticked after a change.
    pub on_tick: Callback<bool>,
}

impl TickBox {
    /// The box with its label.
    #[must_use]
    pub fn view(self) -> AnyView {
        let Self {
            name,
            label,
            hint,
            ticked,
            on_tick,
        } = self;
        view! {
            <label class="tick">
                <input id=name.clone() name=name type="checkbox" prop:checked=ticked
                    on:change=move |event| on_tick.run(event_target_checked(&event)) />
                <i aria-hidden="true"></i>
                <span>{label}<small>{hint}</small></span>
            </label>
        }
        .into_any()
    }
}
