//! What a screen reader is told when the answer changes, or what is typed cannot be right.

use std::{
    cell::{Cell, RefCell},
    time::Duration,
};

use leptos_dom::helpers::{TimeoutHandle, document, set_timeout_with_handle};

use super::{Words, on_window};

/// How long the words must stand still before they are spoken: a stepper held down is one change, not twenty.
const SETTLING_TIME: Duration = Duration::from_millis(600);

/// What to do at every refresh: it says `words` in the page's one polite live region once they have stood still for a moment,
/// and nothing at the start, for the page is read from the top then anyway. The region stands in `index.html`: a reader tells
/// only what changes in a region that it knows.
#[must_use]
pub fn announcer(words: Words) -> Box<dyn Fn()> {
    let waiting = Cell::new(None::<TimeoutHandle>);
    let said = RefCell::new(String::new());
    Box::new(move || {
        let next = words.get();
        let before = said.replace(next.clone());
        if before.is_empty() || before == next {
            return;
        }
        if let Some(handle) = waiting.take() {
            handle.clear();
        }
        waiting.set(set_timeout_with_handle(move || say(&next), SETTLING_TIME).ok());
    })
}

/// From now on says what is wrong with a field once its typing has stood still for a moment: what is written under it is told only
/// when the field gets the focus.
pub fn say_what_is_wrong() {
    let waiting = Cell::new(None::<TimeoutHandle>);
    on_window("input", move |_| {
        if let Some(handle) = waiting.take() {
            handle.clear();
        }
        waiting.set(set_timeout_with_handle(say_error, SETTLING_TIME).ok());
    });
}

fn say_error() {
    let field = document().query_selector(":focus[aria-invalid]").ok().flatten();
    let notes = field.and_then(|field| document().get_element_by_id(&field.get_attribute("aria-describedby")?));
    if let Some(words) = notes.and_then(|notes| notes.text_content()) {
        say(&words);
    }
}

/// Says something in the page's one polite live region.
pub fn say(words: &str) {
    if let Some(region) = document().get_element_by_id("said") {
        region.set_text_content(Some(words));
    }
}
