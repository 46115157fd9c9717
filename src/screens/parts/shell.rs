//! The strip at the top and the tabs at the foot of every screen.

use leptos_dom::helpers::{document, window};
use wasm_bindgen::JsCast as _;

use super::{Element, Live, Words, drawing, element, live};

/// The strip at the top: whose plot, which day, and the way to the notebook.
pub struct Strip {
    /// The number in the oval badge; empty shows a drawn truss instead.
    pub plot_number: Words,
    /// The plot's name.
    pub plot_name: Words,
    /// Today as `YYYY-MM-DD`.
    pub date: Words,
    /// Today in words.
    pub date_words: Words,
    /// The address of the notebook.
    pub notebook_href: &'static str,
}

impl Strip {
    /// The strip.
    #[must_use]
    pub fn view(self) -> Element {
        let Self {
            plot_number,
            plot_name,
            date,
            date_words,
            notebook_href,
        } = self;
        let written = plot_number.clone();
        let badge = element("span").class("oval").fill_for(
            move || written.get(),
            move || {
                let number = plot_number.get();
                if number.is_empty() {
                    vec![drawing("badge", "badge")]
                } else {
                    vec![element("span").child(element("span").class("unseen").text("Plot ")).text(number)]
                }
            },
        );
        let words = element("p")
            .class("strip-words")
            .child(element("strong").text(plot_name))
            .child(element("time").set("id", "today").set("datetime", date).text(date_words));
        let notebook = element("a").class("strip-btn").set("href", notebook_href);
        let notebook = notebook.child(drawing("tab-book", "tab-i")).text("Notebook");
        element("header").class("strip").child(badge).child(words).child(notebook)
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
pub fn tabs(links: Vec<TabLink>, current: &Live<&'static str>) -> Element {
    let items = links.into_iter().map(|link| {
        let current = current.clone();
        let here = live(move || current.get() == link.href);
        let is_here = here.clone();
        element("a")
            .class("tab")
            .set("href", link.href)
            .set_when("aria-current", "page", here)
            .on("click", move |_| {
                if is_here.get() {
                    go_to_top();
                }
            })
            .child(drawing(link.drawing, "tab-i"))
            .child(element("span").text(link.words))
    });
    element("nav").class("tabs").set("aria-label", "Calculators").children(items)
}

/// The first link of the page: leads a keyboard past the strip and the tabs to the question on the plate. It moves the
/// focus and leaves the address alone.
#[must_use]
pub fn skip_link() -> Element {
    let skip = |event: web_sys::Event| {
        event.prevent_default();
        focus_on("#question");
    };
    element("a")
        .class("skip")
        .set("href", "#question")
        .text("Skip to the answer")
        .on("click", skip)
}

/// Shows the screen from its top, with the focus on its question.
pub fn go_to_top() {
    focus_on("#question");
    window().scroll_to_with_x_and_y(0.0, 0.0);
}

/// Moves the focus to the first element that `selector` finds; without one it stays where it is.
pub fn focus_on(selector: &str) {
    let found = document().query_selector(selector).ok().flatten();
    if let Some(element) = found.and_then(|element| element.dyn_into::<web_sys::HtmlElement>().ok()) {
        // A page without focus loses nothing.
        let _ = element.focus();
    }
}
