/// The language that the browser speaks with its reader, as a tag of BCP 47; empty where it does not say.
#[must_use]
pub fn language() -> String {
    let window = web_sys::window();
    window.and_then(|window| window.navigator().language()).unwrap_or_default()
}
