//! A box of a height of its own, so that what changes in it lays out nothing around it.

use wasm_bindgen::{JsCast as _, closure::Closure};
use web_sys::{HtmlElement, ResizeObserver};

use super::{Element, drawing::measured, element};

/// `inner` in such a box. It is told its height whenever that of `inner` has changed, and before that is painted.
#[must_use]
pub fn steady(inner: Element) -> Element {
    let node = inner.node().clone();
    let outer = element("div").class("steady").child(inner);
    let style = outer.node().unchecked_ref::<HtmlElement>().style();
    let watched = node.clone();
    let told = Closure::<dyn FnMut()>::new(move || {
        let height = watched.get_bounding_client_rect().height();
        let _ = style.set_property("height", &measured("#px", &[height]));
    });
    // The browser keeps the closure as long as the box: it calls it once more when the box is taken out of the page.
    if let Ok(observer) = ResizeObserver::new(told.into_js_value().unchecked_ref()) {
        observer.observe(&node);
    }
    outer
}
