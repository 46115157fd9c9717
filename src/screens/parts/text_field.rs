//! A line of text, and the notes under any field.

use leptos_dom::helpers::{event_target, event_target_value};

use super::{Act, Element, Live, Words, drawing, element, live, words};

/// A labelled line of text.
pub struct TextField {
    /// The name and `id` of the field; unlike any other on the page.
    pub name: String,
    /// What is asked.
    pub label: Words,
    /// What was typed.
    pub text: Live<String>,
    /// What is taken as long as nothing is typed; it stands in the field with a dotted underline.
    pub assumed: Live<Option<String>>,
    /// What is usual or what it is for. May be empty.
    pub hint: Words,
    /// What is wrong with the text, as a full sentence.
    pub error: Live<Option<String>>,
    /// Told the text after every keystroke.
    pub on_text: Act<String>,
}

impl TextField {
    /// The labelled field with its notes.
    #[must_use]
    pub fn view(self) -> Element {
        let Self {
            name,
            label,
            text,
            assumed,
            hint,
            error,
            on_text,
        } = self;
        let (typed, guess) = (text.clone(), assumed.clone());
        let guessed = live(move || typed.get().is_empty() && guess.get().is_some());
        let shown = text.clone();
        let input = text_input(&name, &error).value(text, assumed).on("focus", move |event| {
            // What is only assumed goes with the first key.
            if shown.get().is_empty() {
                event_target::<web_sys::HtmlInputElement>(&event).select();
            }
        });
        let input = input.on("input", move |event| {
            on_text.run(event_target_value(&event));
        });
        field_step(&name, label, element("div").class("field words").child(input), hint, &error).class_when("assumed", guessed)
    }
}

/// A line of text that refers to the notes under it.
pub(super) fn text_input(name: &str, error: &Live<Option<String>>) -> Element {
    element("input")
        .set("id", field_id(name))
        .set("name", name.to_string())
        .set("type", "text")
        .set("autocomplete", "off")
        .set("enterkeyhint", "done")
        .set("aria-describedby", name.to_string() + "-notes")
        .set_when("aria-invalid", "true", wrong(error))
}

/// A field under its label, and under it the hint or, in the hint's place, what is wrong.
pub(super) fn field_step(name: &str, label: Words, field: Element, hint: Words, error: &Live<Option<String>>) -> Element {
    let told = error.clone();
    let notes = element("span")
        .class("hint")
        .set("id", name.to_string() + "-notes")
        .child(drawing("mark-risk", "mark-small"))
        .child(element("span").text(words(move || told.get().unwrap_or_else(|| hint.get()))));
    element("div")
        .class("step")
        .class_when("err", wrong(error))
        .child(element("label").class("lab").set("for", field_id(name)).text(label))
        .child(field)
        .child(notes)
}

/// The `id` of a field is its name; but `plants` is the section that `#plants` leads to.
fn field_id(name: &str) -> String {
    (if name == "plants" { "plants-here" } else { name }).to_string()
}

fn wrong(error: &Live<Option<String>>) -> Live<bool> {
    let error = error.clone();
    live(move || error.get().is_some())
}
