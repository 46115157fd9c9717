use std::rc::Rc;

use js_sys::Promise;
use wasm_bindgen::{JsCast as _, JsValue, closure::Closure};
use web_sys::{Navigator, ShareData};

fn navigator() -> Option<Navigator> {
    web_sys::window().map(|window| window.navigator())
}

/// The address of this page with another fragment.
#[must_use]
pub fn address_with(fragment: &str) -> String {
    let whole = web_sys::window()
        .and_then(|window| window.location().href().ok())
        .unwrap_or_default();
    let (page, _) = whole.split_once('#').unwrap_or((&whole, ""));
    page.to_owned() + "#" + fragment
}

/// Whether the device has a sheet of its own for passing things on.
#[must_use]
pub fn can_share() -> bool {
    has("share")
}

/// Not every browser has what a newer one has: asked by name, since the bindings take it to be there.
fn has(name: &str) -> bool {
    navigator().is_some_and(|navigator| js_sys::Reflect::has(&navigator, &name.into()).unwrap_or_default())
}

/// Shows the device's sheet with an address, in the turn of the tap that asked for it. Then it is told whether that was passed on.
/// A sheet that was put away is no fault.
pub fn share_address(title: &str, address: &str, then: impl Fn(bool) + 'static) {
    let data = ShareData::new();
    data.set_title(title);
    data.set_url(address);
    share(&data, then);
}

fn share(data: &ShareData, then: impl Fn(bool) + 'static) {
    match navigator().filter(|_| can_share()) {
        Some(navigator) => settle(&navigator.share_with_data(data), move |refusal| then(refusal.is_none())),
        None => then(false),
    }
}

/// Puts text into the clipboard, and tells whether the browser let it.
pub fn copy_text(text: &str, then: impl Fn(bool) + 'static) {
    match navigator().filter(|_| has("clipboard")) {
        Some(navigator) => settle(&navigator.clipboard().write_text(text), move |refusal| then(refusal.is_none())),
        None => then(false),
    }
}

/// Tells by what a promise was broken; none when it was kept.
pub(super) fn settle(promise: &Promise, then: impl Fn(Option<JsValue>) + 'static) {
    let then: Rc<dyn Fn(Option<JsValue>)> = Rc::new(then);
    let other = Rc::clone(&then);
    let kept = Closure::once_into_js(move |_: JsValue| then(None));
    let broken = Closure::once_into_js(move |refusal: JsValue| other(Some(refusal)));
    let call = |name: &str| {
        js_sys::Reflect::get(promise, &name.into())
            .ok()?
            .dyn_into::<js_sys::Function>()
            .ok()
    };
    if let Some(go_on) = call("then") {
        let _ = go_on.call2(promise, &kept, &broken);
    }
}
