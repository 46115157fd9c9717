//! A number with a step down and a step up.

use std::time::Duration;

use leptos::{ev, prelude::*};

use super::text_field::field_notes;

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
    pub label: Signal<String>,
    /// What was typed; empty when nothing was.
    pub text: Signal<String>,
    /// The value taken as long as nothing is typed, as text.
    pub assumed: Signal<Option<String>>,
    /// Whose guess it is, or what range is usual. May be empty.
    pub hint: Signal<String>,
    /// What is wrong with the text, as a full sentence.
    pub error: Signal<Option<String>>,
    /// Whether only whole numbers make sense: the phone then shows digits alone.
    pub whole: bool,
    /// Told the text after every keystroke.
    pub on_text: Callback<String>,
    /// Told −1 or +1 at every step.
    pub on_step: Callback<i32>,
}

impl Stepper {
    /// The labelled field with its buttons and notes.
    #[must_use]
    pub fn view(self) -> AnyView {
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
        let editing = RwSignal::new(false);
        let guessed = Signal::derive(move || text.with(String::is_empty) && assumed.with(Option::is_some));
        let shown = Signal::derive(move || {
            let typed = text.get();
            if typed.is_empty() && !editing.get() {
                assumed.get().unwrap_or_default()
            } else {
                typed
            }
        });
        let step = Callback::new(move |by: i32| {
            editing.set(false);
            on_step.run(by);
        });
        let wrong = Signal::derive(move || error.with(Option::is_some));
        let less = Signal::derive(move || String::from("Less: ") + &label.get());
        let more = Signal::derive(move || String::from("More: ") + &label.get());
        let arrows = move |event: ev::KeyboardEvent| {
            let by = match event.key().as_str() {
                "ArrowUp" => 1,
                "ArrowDown" => -1,
                _ => return,
            };
            event.prevent_default();
            step.run(by);
        };
        let pad = if whole { "numeric" } else { "decimal" };
        let notes = name.clone() + "-notes";
        view! {
            <div class="step" class:assumed=guessed class:err=wrong>
                <label class="lab" for=name.clone()>{label}</label>
                <div class="stepper">
                    {step_button("−", less, -1, step)}
                    <input id=name.clone() name=name type="text" inputmode=pad
                        autocomplete="off" enterkeyhint="done" aria-describedby=notes.clone()
                        aria-invalid=Signal::derive(move || wrong.get().then_some("true"))
                        prop:value=shown
                        on:focus=move |event| select_all(&event)
                        on:blur=move |_| editing.set(false)
                        on:input=move |event| {
                            editing.set(true);
                            on_text.run(event_target_value(&event));
                        }
                        on:keydown=arrows />
                    {step_button("+", more, 1, step)}
                </div>
                {field_notes(notes, hint, error)}
            </div>
        }
        .into_any()
    }
}

/// What is typed next replaces the whole text.
fn select_all(event: &ev::FocusEvent) {
    event_target::<web_sys::HtmlInputElement>(event).select();
}

/// A press steps once; holding it down steps on until it is let go.
fn step_button(sign: &'static str, label: Signal<String>, by: i32, step: Callback<i32>) -> AnyView {
    let starting = StoredValue::new(None::<TimeoutHandle>);
    let repeating = StoredValue::new(None::<IntervalHandle>);
    let repeated = StoredValue::new(false);
    let let_go = move || {
        if let Some(handle) = starting.try_get_value().flatten() {
            handle.clear();
        }
        if let Some(handle) = repeating.try_get_value().flatten() {
            handle.clear();
        }
    };
    let hold = move |_: ev::PointerEvent| {
        let_go();
        repeated.set_value(false);
        let handle = set_timeout_with_handle(
            move || {
                if repeated.try_set_value(true).is_none() {
                    let handle = set_interval_with_handle(move || step.run(by), REPEAT_EVERY);
                    repeating.set_value(handle.ok());
                }
            },
            HOLD_BEFORE_REPEATING,
        );
        starting.set_value(handle.ok());
    };
    on_cleanup(let_go);
    view! {
        <button type="button" aria-label=label
            on:pointerdown=hold
            on:pointerup=move |_| let_go()
            on:pointerleave=move |_| let_go()
            on:pointercancel=move |_| let_go()
            on:click=move |_| {
                let_go();
                // The click that ends a long press has been counted already.
                if !repeated.get_value() {
                    step.run(by);
                }
                repeated.set_value(false);
            }>
            {sign}
        </button>
    }
    .into_any()
}
