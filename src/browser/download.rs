use js_sys::{Array, Function, Object, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Blob, BlobPropertyBag, File, FilePropertyBag, HtmlAnchorElement, Url};

use super::share::settle;

/// Hands text to the browser as a file to keep.
///
/// # Errors
/// What the browser says when it cannot.
pub fn save_to_file(name: &str, text: &str) -> Result<(), JsValue> {
    save(name, text, "text/plain")
}

/// Hands a calendar file to the device's share sheet, where it takes such a file; else to the browser to keep. Then it is told whether
/// the file was given: a grower who puts the sheet away wants nothing more. To be called from a tap: a browser opens its sheet for
/// nothing else.
pub fn hand_over_calendar(name: &str, text: &str, then: impl Fn(bool) + 'static) {
    const MEDIA_TYPE: &str = "text/calendar";
    let Ok(Some(sharing)) = share(name, text, MEDIA_TYPE) else {
        return then(save(name, text, MEDIA_TYPE).is_ok());
    };
    let (name, text) = (name.to_owned(), text.to_owned());
    settle(&sharing, move |refusal| {
        then(match refusal {
            None => true,
            Some(refusal) if Reflect::get(&refusal, &"name".into()).is_ok_and(|kind| kind == "AbortError") => false,
            // What the device refuses has reached nobody.
            Some(_) => save(&name, &text, MEDIA_TYPE).is_ok(),
        });
    });
}

/// Opens the share sheet with a file, and gives what it promises; none where there is no sheet for such a file.
fn share(name: &str, text: &str, media_type: &'static str) -> Result<Option<Promise>, JsValue> {
    let navigator = web_sys::window().ok_or(JsValue::NULL)?.navigator();
    // Looked up by name: not every browser has them.
    let method = |name: &str| Reflect::get(&navigator, &name.into()).and_then(JsCast::dyn_into::<Function>);
    let (can_share, share) = (method("canShare")?, method("share")?);
    let kind = FilePropertyBag::new();
    kind.set_type(media_type);
    let file = File::new_with_str_sequence_and_options(&Array::of1(&text.into()), name, &kind)?;
    let data = Object::new();
    Reflect::set(&data, &"files".into(), &Array::of1(&file))?;
    if !can_share.call1(&navigator, &data)?.is_truthy() {
        return Ok(None);
    }
    Ok(Some(share.call1(&navigator, &data)?.unchecked_into()))
}

fn save(name: &str, text: &str, media_type: &str) -> Result<(), JsValue> {
    let document = web_sys::window().and_then(|window| window.document()).ok_or(JsValue::NULL)?;
    let kind = BlobPropertyBag::new();
    kind.set_type(media_type);
    let blob = Blob::new_with_str_sequence_and_options(&Array::of1(&text.into()), &kind)?;
    let address = Url::create_object_url_with_blob(&blob)?;
    let link: HtmlAnchorElement = document.create_element("a")?.unchecked_into();
    link.set_href(&address);
    link.set_download(name);
    link.click();
    // Not revoked, for then some browsers save an empty file: it goes with the page.
    Ok(())
}
