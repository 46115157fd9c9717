//! The change from the static page to the program.

use leptos_dom::helpers::document;
use wasm_bindgen::JsCast as _;

use super::Element;

/// The value of the key of the static page that was pressed before the program took over, if any. To be asked before
/// [`take_over`].
#[must_use]
pub fn early_choice(name: &str) -> Option<String> {
    let pressed = document()
        .query_selector(&(String::from("#shell input[name=") + name + "]:checked"))
        .ok()??;
    Some(pressed.dyn_into::<web_sys::HtmlInputElement>().ok()?.value())
}

/// Puts the program's page in the place of the static one in one step, so that nothing moves; also
/// takes away the message that the program has not started. Does nothing on a page without a shell.
pub fn take_over(page: &Element) {
    let document = document();
    if let Some(shell) = document.get_element_by_id("shell") {
        let _ = shell.replace_with_with_node_1(page.node());
    }
    if let Some(message) = document.get_element_by_id("cannot-start") {
        message.remove();
    }
}
