//! A line of text, and the notes under any field.

use leptos::prelude::*;

use super::drawing;

/// A labelled line of text.
pub struct TextField {
    /// The name and `id` of the field; unlike any other on the page.
    pub name: String,
    /// What is asked.
    pub label: Signal<String>,
    /// What was typed.
    pub text: Signal<String>,
    /// What is usual or what it is for. May be empty.
    pub hint: Signal<String>,
    /// What is wrong with the text, as a full sentence.
    pub error: Signal<Option<String>>,
    /// Told the text after every keystroke.
    pub on_text: Callback<String>,
}

impl TextField {
    /// The labelled field with its notes.
    #[must_use]
    pub fn view(self) -> AnyView {
        let Self {
            name,
            label,
            text,
            hint,
            error,
            on_text,
        } = self;
        let wrong = Signal::derive(move || error.with(Option::is_some));
        let notes = name.clone() + "-notes";
        view! {
            <div class="step" class:err=wrong>
                <label class="lab" for=name.clone()>{label}</label>
                <div class="field words">
                    <input id=name.clone() name=name type="text" autocomplete="off" enterkeyhint="done"
                        aria-describedby=notes.clone()
                        aria-invalid=Signal::derive(move || wrong.get().then_some("true"))
                        prop:value=text
                        on:input=move |event| on_text.run(event_target_value(&event)) />
                </div>
                {field_notes(notes, hint, error)}
            </div>
        }
        .into_any()
    }
}

/// The hint under a field, or what is wrong with it in place of the hint.
pub(super) fn field_notes(id: String, hint: Signal<String>, error: Signal<Option<String>>) -> AnyView {
    let words = Signal::derive(move || error.get().unwrap_or_else(|| hint.get()));
    view! { <span class="hint" id=id>{drawing("mark-risk", "mark-small")}<span>{words}</span></span> }.into_any()
}
