//! The screen's one chief action, and its undoing.

use leptos::prelude::request_animation_frame;
use wasm_bindgen::JsCast as _;

use super::{Act, Element, Live, Words, element, live};

/// A button that records something and becomes the row that tells and undoes it. Both have the same height, so that
/// nothing moves, and the keyboard's focus goes along.
pub struct Record {
    /// The words on the button, such as *Watered*.
    pub words: &'static str,
    /// Whether it is recorded.
    pub done: Live<bool>,
    /// When it was recorded, once it is.
    pub told: Words,
    /// What was recorded, as a second line.
    pub told_small: Words,
    /// Told when the button was pressed.
    pub on_do: Act<()>,
    /// Told when *Undo* was pressed.
    pub on_undo: Act<()>,
}

impl Record {
    /// The button and its undo row, of which one is shown.
    #[must_use]
    pub fn view(self) -> Element {
        let Self {
            words,
            done,
            told,
            told_small,
            on_do,
            on_undo,
        } = self;
        let undone = {
            let done = done.clone();
            live(move || !done.get())
        };
        let do_button = element("button")
            .set("type", "button")
            .class("btn do")
            .text(words);
        let undo_button = element("button")
            .set("type", "button")
            .class("link")
            .text("Undo");
        let (do_node, undo_node) = (do_button.node().clone(), undo_button.node().clone());
        let do_button = do_button
            .set_when("hidden", "", done)
            .on("click", move |_| {
                on_do.run(());
                focus_once_shown(undo_node.clone());
            });
        let undo_button = undo_button.on("click", move |_| {
            on_undo.run(());
            focus_once_shown(do_node.clone());
        });
        let told = element("p")
            .text(told)
            .child(element("small").text(told_small));
        let undo = element("div")
            .class("undo")
            .set_when("hidden", "", undone)
            .child(told)
            .child(undo_button);
        element("div").class("press").child(do_button).child(undo)
    }
}

/// Puts the focus on a button in the next frame, when the page shows it.
fn focus_once_shown(button: web_sys::Element) {
    request_animation_frame(move || {
        let _ = button.unchecked_into::<web_sys::HtmlElement>().focus();
    });
}
