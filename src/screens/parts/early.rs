//! Keys pressed before the program was there.

use leptos::prelude::document;
use wasm_bindgen::JsCast as _;

/// The value of the key of the static page that was pressed before the program took over, if any. To be asked before the
/// static page is taken away.
#[must_use]
pub fn early_choice(name: &str) -> Option<String> {
    let pressed = document().query_selector(&format!("#shell input[name={name}]:checked")).ok()??;
    Some(pressed.dyn_into::<web_sys::HtmlInputElement>().ok()?.value())
}
