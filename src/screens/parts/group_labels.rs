//! Plant labels that name the groups and choose between them.

use leptos::prelude::*;

/// One pointed label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GroupLabel {
    /// The value of its radio button.
    pub value: String,
    /// The name on it.
    pub words: String,
}

/// The groups' labels, of which one is chosen.
pub struct GroupLabels {
    /// What is chosen between, for a screen reader.
    pub legend: &'static str,
    /// The name of the radio buttons; unlike any other on the page.
    pub name: &'static str,
    /// The labels, in order.
    pub labels: Signal<Vec<GroupLabel>>,
    /// The value of the chosen one.
    pub selected: Signal<String>,
    /// Told the value of the label that was chosen.
    pub on_choose: Callback<String>,
    /// What stands after the last label, such as *Add a group*.
    pub after: AnyView,
}

impl GroupLabels {
    /// The labels as a group of radio buttons.
    #[must_use]
    pub fn view(self) -> AnyView {
        let Self {
            legend,
            name,
            labels,
            selected,
            on_choose,
            after,
        } = self;
        let items = move || {
            labels
                .get()
                .into_iter()
                .map(|label| pointed_label(label, name, selected, on_choose))
                .collect::<Vec<_>>()
        };
        view! {
            <fieldset class="labels">
                <legend class="unseen">{legend}</legend>
                {items}
                {after}
            </fieldset>
        }
        .into_any()
    }
}

fn pointed_label(label: GroupLabel, name: &'static str, selected: Signal<String>, on_choose: Callback<String>) -> AnyView {
    let GroupLabel { value, words } = label;
    let here = value.clone();
    let chosen = Signal::derive(move || selected.with(|chosen| *chosen == here));
    view! {
        <label class="lbl">
            <input type="radio" name=name value=value prop:checked=chosen
                on:change=move |event| on_choose.run(event_target_value(&event)) />
            <span>{words}</span>
        </label>
    }
    .into_any()
}
