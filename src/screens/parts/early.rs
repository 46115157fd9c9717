//! The change from the static page to the program.

use leptos_dom::helpers::document;
use wasm_bindgen::JsCast;

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

/// Writes the first answer on the plate of the static page, which has one row: its `value` in SI units, and the words of each place
/// in it. They come in nodes of their own, and the row stays as high as it is until the page has come: nothing moves twice.
pub fn first_answer(value: &str, figure_class: &str, words: &[(&str, String)]) {
    let Ok(Some(empty)) = document().query_selector("#shell .say") else {
        return;
    };
    let Ok(Ok(told)) = empty.clone_node_with_deep(true).map(JsCast::dyn_into::<web_sys::Element>) else {
        return;
    };
    let at = |place: &str| told.query_selector(place).ok().flatten();
    if let (Some(figure), Some(data)) = (at(".n"), at("data")) {
        figure.set_class_name(figure_class);
        let _ = data.set_attribute("value", value);
    }
    for (place, words) in words {
        if let Some(node) = at(place) {
            node.set_text_content(Some(words));
        }
    }
    if let Some(Ok(row)) = empty.parent_element().map(JsCast::dyn_into::<web_sys::HtmlElement>) {
        let _ = row.style().set_property("height", &(row.offset_height().to_string() + "px"));
    }
    let _ = empty.replace_with_with_node_1(&told);
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
