//! A number with a step down and a step up.

use std::{cell::Cell, rc::Rc, time::Duration};

use leptos_dom::helpers::{
    IntervalHandle, TimeoutHandle, event_target, event_target_value, set_interval_with_handle, set_timeout_with_handle,
};
use wasm_bindgen::JsCast as _;

use super::{
    Act, Element, Live, Words, element, live,
    text_field::{field_step, text_input},
    words,
};

/// A button held down starts to repeat after this long …
const HOLD_BEFORE_REPEATING: Duration = Duration::from_millis(400);
/// … and then steps this often.
const REPEAT_EVERY: Duration = Duration::from_millis(110);

/// A labelled number field between a minus and a plus button.
///
/// The text stays exactly as typed: nothing is written back into the field while it is being edited. As long as nothing
/// is typed the assumed value stands in the field with a dotted underline; typing replaces it, clearing brings it back.
pub struct Stepper {
    /// The name and `id` of the field; unlike any other on the page.
    pub name: String,
    /// What is asked, with its unit.
    pub label: Words,
    /// What was typed; empty when nothing was.
    pub text: Live<String>,
    /// The value taken as long as nothing is typed, as text.
    pub assumed: Live<Option<String>>,
    /// Whose guess it is, or what range is usual. May be empty.
    pub hint: Words,
    /// What is wrong with the text, as a full sentence.
    pub error: Live<Option<String>>,
    /// Whether only whole numbers make sense: the phone then shows digits alone.
    pub whole: bool,
    /// Told the text after every keystroke.
    pub on_text: Act<String>,
    /// Told −1 or +1 at every step.
    pub on_step: Act<i32>,
}

impl Stepper {
    /// The labelled field with its buttons and notes.
    #[must_use]
    pub fn view(self) -> Element {
        let Self {
            name,
            label,
            text,
            assumed,
            hint,
            error,
            whole,
            on_text,
            on_step,
        } = self;
        let (typed, guess) = (text.clone(), assumed.clone());
        let guessed = live(move || typed.get().is_empty() && guess.get().is_some());
        let arrow = on_step.clone();
        let input = text_input(&name, &error)
            .set("inputmode", if whole { "numeric" } else { "decimal" })
            .value(text, assumed)
            .on("focus", |event| {
                event_target::<web_sys::HtmlInputElement>(&event).select();
            })
            .on("input", move |event| on_text.run(event_target_value(&event)))
            .on("keydown", move |event| {
                let by = match event.unchecked_ref::<web_sys::KeyboardEvent>().key().as_str() {
                    "ArrowUp" => 1,
                    "ArrowDown" => -1,
                    _ => return,
                };
                event.prevent_default();
                arrow.run(by);
            });
        let field = element("div")
            .class("stepper")
            .child(step_button("−", spoken("Less: ", &label), -1, on_step.clone()))
            .child(input)
            .child(step_button("+", spoken("More: ", &label), 1, on_step));
        field_step(&name, label, field, hint, &error).class_when("assumed", guessed)
    }
}

fn spoken(before: &'static str, label: &Words) -> Words {
    let label = label.clone();
    words(move || String::from(before) + &label.get())
}

/// What a held button has running.
#[derive(Default)]
struct Hold {
    starting: Cell<Option<TimeoutHandle>>,
    repeating: Cell<Option<IntervalHandle>>,
    repeated: Cell<bool>,
}

impl Hold {
    fn let_go(&self) {
        if let Some(handle) = self.starting.take() {
            handle.clear();
        }
        if let Some(handle) = self.repeating.take() {
            handle.clear();
        }
    }
}

impl Drop for Hold {
    fn drop(&mut self) {
        self.let_go();
    }
}

/// A press steps once; holding it down steps on until it is let go.
fn step_button(sign: &'static str, label: Words, by: i32, step: Act<i32>) -> Element {
    let hold = Rc::new(Hold::default());
    let pressing = Rc::clone(&hold);
    let repeat = step.clone();
    let press = move |_: web_sys::Event| {
        pressing.let_go();
        pressing.repeated.set(false);
        // The timers do not keep the button alive: when it goes, they stop.
        let button = Rc::downgrade(&pressing);
        let step = repeat.clone();
        let start = move || {
            if let Some(hold) = button.upgrade() {
                hold.repeated.set(true);
                hold.repeating
                    .set(set_interval_with_handle(move || step.run(by), REPEAT_EVERY).ok());
            }
        };
        pressing.starting.set(set_timeout_with_handle(start, HOLD_BEFORE_REPEATING).ok());
    };
    let mut button = element("button")
        .set("type", "button")
        .set("aria-label", label)
        .text(sign)
        .on("pointerdown", press);
    for end in ["pointerup", "pointerleave", "pointercancel"] {
        let hold = Rc::clone(&hold);
        button = button.on(end, move |_| hold.let_go());
    }
    button.on("click", move |_| {
        hold.let_go();
        // The click that ends a long press has been counted already.
        if !hold.repeated.replace(false) {
            step.run(by);
        }
    })
}
