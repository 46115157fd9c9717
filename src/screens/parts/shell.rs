//! The strip at the top and the tabs at the foot of every screen.

use leptos::prelude::*;

use super::drawing;

/// The strip at the top: whose plot, which day, and the way to the notebook.
pub struct Strip {
    /// The number in the oval badge; empty shows a drawn truss instead.
    pub plot_number: Signal<String>,
    /// The plot's name.
    pub plot_name: Signal<String>,
    /// Today as `YYYY-MM-DD`.
    pub date: Signal<String>,
    /// Today in words.
    pub date_words: Signal<String>,
    /// The address of the notebook.
    pub notebook_href: &'static str,
}

impl Strip {
    /// The strip.
    #[must_use]
    pub fn view(self) -> AnyView {
        let Self {
            plot_number,
            plot_name,
            date,
            date_words,
            notebook_href,
        } = self;
        let badge = move || {
            if plot_number.with(String::is_empty) {
                drawing("badge", "badge")
            } else {
                view! { <span class="unseen">"Plot "</span>{plot_number} }.into_any()
            }
        };
        view! {
            <header class="strip">
                <span class="oval">{badge}</span>
                <p class="strip-words"><strong>{plot_name}</strong><time id="today" datetime=date>{date_words}</time></p>
                <a class="strip-btn" href=notebook_href>{drawing("tab-book", "tab-i")}"Notebook"</a>
            </header>
        }
        .into_any()
    }
}

/// One tab.
#[derive(Clone, Copy)]
pub struct TabLink {
    /// The address of its screen.
    pub href: &'static str,
    /// The screen's name.
    pub words: &'static str,
    /// A symbol of the sprite: `tab-water`, `tab-feed`, `tab-pest`.
    pub drawing: &'static str,
}

/// The tabs, as links. `current` is the address of the screen that is shown.
#[must_use]
pub fn tabs(links: Vec<TabLink>, current: Signal<&'static str>) -> AnyView {
    let items: Vec<_> = links
        .into_iter()
        .map(|link| {
            let here = Signal::derive(move || (current.get() == link.href).then_some("page"));
            view! {
                <a class="tab" href=link.href aria-current=here>
                    {drawing(link.drawing, "tab-i")}<span>{link.words}</span>
                </a>
            }
        })
        .collect();
    view! { <nav class="tabs" aria-label="Calculators">{items}</nav> }.into_any()
}
