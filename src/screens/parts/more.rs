//! What is folded away until it is wanted.

use leptos::{ev, prelude::*};

/// A disclosure: a summary that opens in place.
pub struct More {
    /// The `id` of the disclosure.
    pub id: &'static str,
    /// What is folded away.
    pub summary: Signal<String>,
    /// What it holds at present, as a second line. May be empty.
    pub aside: Signal<String>,
    /// Whether it belongs to what stands above it (no rule, a smaller summary).
    pub minor: bool,
    /// Whether it is open at the start.
    pub open: bool,
    /// Told whether it is open after a change.
    pub on_toggle: Callback<bool>,
    /// What is folded away.
    pub children: AnyView,
}

impl More {
    /// The disclosure.
    #[must_use]
    pub fn view(self) -> AnyView {
        let Self {
            id,
            summary,
            aside,
            minor,
            open,
            on_toggle,
            children,
        } = self;
        let class = if minor { "more fine" } else { "more" };
        let toggled = move |event: ev::Event| {
            on_toggle.run(event_target::<web_sys::Element>(&event).has_attribute("open"));
        };
        view! {
            <details class=class id=id open=open
                on:toggle=toggled>
                <summary><span>{summary}<small>{aside}</small></span></summary>
                <div class="in">{children}</div>
            </details>
        }
        .into_any()
    }
}
