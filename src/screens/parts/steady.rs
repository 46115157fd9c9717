//! A box of a height of its own, so that what changes in it lays out nothing around it.

use std::{cell::Cell, rc::Rc};

use leptos_dom::helpers::document;
use wasm_bindgen::{JsCast, closure::Closure};
use web_sys::{HtmlElement, ResizeObserver};

use super::{Element, drawing::measured, element};

/// How much lower, CSS px, what is inside may become under somebody who types before the box follows at once: the words of
/// another number take two or three lines less, a group of plants is more (choice).
const MOST_KEPT: f64 = 80.0;

/// `inner` in such a box. It is told its height whenever that of `inner` has changed, and before that is painted.
///
/// While a number is typed it keeps a line that is not needed any more, so that nothing below moves up and down with every key:
/// the next answer to a tap lets that go.
#[must_use]
pub fn steady(inner: Element) -> Element {
    let node = inner.node().clone();
    let outer = element("div").class("steady").child(inner);
    let style = outer.node().unchecked_ref::<HtmlElement>().style();
    let (told, keeps) = (Cell::new(0.0), Rc::new(Cell::new(false)));
    let is_kept = keeps.clone();
    let fit = Rc::new(move || {
        let height = node.get_bounding_client_rect().height();
        let less = told.get() - height;
        keeps.set(less > 0.0 && less <= MOST_KEPT && is_typing());
        if !keeps.get() {
            told.set(height);
            let _ = style.set_property("height", &measured("#px", &[height]));
        }
    });
    // The browser keeps the closure as long as the box: it calls it once more when the box is taken out of the page.
    let watched = outer.node().first_element_child();
    let resized = fit.clone();
    let resized = Closure::<dyn FnMut()>::new(move || resized());
    if let (Some(watched), Ok(observer)) = (watched, ResizeObserver::new(resized.into_js_value().unchecked_ref())) {
        observer.observe(&watched);
    }
    outer.follow(Box::new(move || {
        if is_kept.get() && !is_typing() {
            fit();
        }
    }))
}

/// Whether the focus is in a field for typing.
fn is_typing() -> bool {
    document().query_selector(":focus:read-write").is_ok_and(|field| field.is_some())
}
