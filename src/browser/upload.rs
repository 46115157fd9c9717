use std::rc::Rc;

use wasm_bindgen::{JsCast as _, closure::Closure};
use web_sys::{Event, FileReader, HtmlInputElement};

/// Reads the text of the file that was just chosen, and hands it over: none when it is larger than `most` bytes or cannot be read.
/// The field is emptied, so that the same file can be chosen again.
pub fn read_chosen(event: &Event, most: f64, then: impl Fn(Option<String>) + 'static) {
    let field: Option<HtmlInputElement> = event.target().and_then(|target| target.dyn_into().ok());
    let Some(file) = field.as_ref().and_then(|field| field.files()?.get(0)) else {
        return;
    };
    let then = Rc::new(then);
    let reader = FileReader::new().ok().filter(|_| file.size() <= most);
    let is_read = reader.is_some_and(|reader| {
        let (read, told) = (reader.clone(), Rc::clone(&then));
        let done = Closure::once_into_js(move || told(read.result().ok().and_then(|text| text.as_string())));
        reader.set_onloadend(Some(done.unchecked_ref()));
        reader.read_as_text(&file).is_ok()
    });
    if !is_read {
        then(None);
    }
    if let Some(field) = field {
        field.set_value("");
    }
}
