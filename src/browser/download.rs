use wasm_bindgen::{JsCast as _, JsValue};
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, Url};

/// Hands text to the browser as a file to keep.
///
/// # Errors
/// What the browser says when it cannot.
pub fn save_to_file(name: &str, text: &str) -> Result<(), JsValue> {
    save(name, text, "text/plain")
}

/// The same for a calendar, which a device may open at once.
///
/// # Errors
/// What the browser says when it cannot.
pub fn save_calendar(name: &str, text: &str) -> Result<(), JsValue> {
    save(name, text, "text/calendar")
}

fn save(name: &str, text: &str, media_type: &str) -> Result<(), JsValue> {
    let document = web_sys::window().and_then(|window| window.document()).ok_or(JsValue::NULL)?;
    let kind = BlobPropertyBag::new();
    kind.set_type(media_type);
    let blob = Blob::new_with_str_sequence_and_options(&js_sys::Array::of1(&text.into()), &kind)?;
    let address = Url::create_object_url_with_blob(&blob)?;
    let link: HtmlAnchorElement = document.create_element("a")?.unchecked_into();
    link.set_href(&address);
    link.set_download(name);
    link.click();
    Url::revoke_object_url(&address)
}
