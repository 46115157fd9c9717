//! What a screen reader is told when the answer changes.

use std::time::Duration;

use leptos::prelude::*;

use super::Words;

/// How long the words must stand still before they are spoken: a stepper held down is one change, not twenty.
const SETTLING_TIME: Duration = Duration::from_millis(600);

/// Says `words` in the page's one polite live region once they have stood still for a moment, each once, and nothing at the
/// start: the page is read from the top then anyway. The region stands in `index.html`, for a reader tells only what changes
/// in a region that it knows.
pub fn announce(words: Words) {
    Effect::new(move |before: Option<(String, Option<TimeoutHandle>)>| {
        let next = words.get();
        let Some((last, waiting)) = before else {
            return (next, None);
        };
        if next == last {
            return (next, waiting);
        }
        if let Some(handle) = waiting {
            handle.clear();
        }
        let said = next.clone();
        let say = move || {
            if let Some(region) = document().get_element_by_id("said") {
                region.set_text_content(Some(&said));
            }
        };
        (next, set_timeout_with_handle(say, SETTLING_TIME).ok())
    });
}
