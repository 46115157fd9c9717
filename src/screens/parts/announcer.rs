//! What a screen reader is told when the answer changes.

use std::{
    cell::{Cell, RefCell},
    time::Duration,
};

use leptos_dom::helpers::{TimeoutHandle, set_timeout_with_handle};

use super::{Element, Words, element};

/// How long the words must stand still before they are spoken: a stepper held down is one change, not twenty.
const SETTLING_TIME: Duration = Duration::from_millis(600);

/// The page's one polite live region. It says `words` once they have stood still for a moment, and nothing at the start:
/// the page is read from the top then anyway.
#[must_use]
pub fn announcer(words: Words) -> Element {
    let waiting = Cell::new(None::<TimeoutHandle>);
    let said = RefCell::new(String::new());
    let region = element("p").class("unseen").set("role", "status");
    let node = region.node().clone();
    region.follow(Box::new(move || {
        let next = words.get();
        let before = said.replace(next.clone());
        if before.is_empty() || before == next {
            return;
        }
        if let Some(handle) = waiting.take() {
            handle.clear();
        }
        let node = node.clone();
        waiting.set(set_timeout_with_handle(move || node.set_text_content(Some(&next)), SETTLING_TIME).ok());
    }))
}
