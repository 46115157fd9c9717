//! What a screen reader is told when the answer changes.

use std::time::Duration;

use leptos::prelude::*;

/// How long the words must stand still before they are spoken: a stepper held down is one change, not twenty.
const SETTLING_TIME: Duration = Duration::from_millis(600);

/// The page's one polite live region. It says `words` once they have stood still for a moment, and nothing at the start:
/// the page is read from the top then anyway.
#[must_use]
pub fn announcer(words: Signal<String>) -> AnyView {
    let spoken = RwSignal::new(String::new());
    let waiting = StoredValue::new(None::<TimeoutHandle>);
    let stop_waiting = move || {
        if let Some(handle) = waiting.try_get_value().flatten() {
            handle.clear();
        }
    };
    Effect::new(move |earlier: Option<()>| {
        let next = words.get();
        if earlier.is_some() {
            stop_waiting();
            let handle = set_timeout_with_handle(
                move || {
                    let _ = spoken.try_set(next);
                },
                SETTLING_TIME,
            );
            waiting.set_value(handle.ok());
        }
    });
    on_cleanup(stop_waiting);
    view! { <p class="unseen" role="status">{spoken}</p> }.into_any()
}
