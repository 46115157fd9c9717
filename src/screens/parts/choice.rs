//! A choice from a longer list.

use leptos::prelude::*;

/// A labelled native list of which one entry is chosen.
pub struct Choice {
    /// The name and `id` of the list; unlike any other on the page.
    pub name: String,
    /// What is asked.
    pub label: Signal<String>,
    /// Value and words of each entry, in order.
    pub entries: Vec<(&'static str, String)>,
    /// The value of the chosen entry.
    pub selected: Signal<String>,
    /// What is usual or what it is for. May be empty.
    pub hint: Signal<String>,
    /// Told the value of the entry that was chosen.
    pub on_choose: Callback<String>,
}

impl Choice {
    /// The labelled list.
    #[must_use]
    pub fn view(self) -> AnyView {
        let Self {
            name,
            label,
            entries,
            selected,
            hint,
            on_choose,
        } = self;
        let notes = name.clone() + "-notes";
        let entries: Vec<_> = entries
            .into_iter()
            .map(|(value, words)| {
                let chosen = Signal::derive(move || selected.with(|chosen| chosen == value));
                view! { <option value=value prop:selected=chosen>{words}</option> }
            })
            .collect();
        view! {
            <div class="step">
                <label class="lab" for=name.clone()>{label}</label>
                <div class="field list">
                    <select id=name.clone() name=name aria-describedby=notes.clone()
                        on:change=move |event| on_choose.run(event_target_value(&event))>
                        {entries}
                    </select>
                </div>
                <span class="hint" id=notes>{hint}</span>
            </div>
        }
        .into_any()
    }
}
