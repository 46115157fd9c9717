use js_sys::Promise;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Document, Element, EventTarget, XmlHttpRequest, XmlHttpRequestResponseType};

/// The style sheets that the first answer can do without, as one file: `cargo task seal` makes it.
const STYLES: &str = "rest.css";
/// The drawings that it can do without; the `id` of their outermost element.
const DRAWINGS: &str = "drawings";

/// Asks at once for the styles and drawings of the rest of the program, unless the page has them, and puts them in when they come.
///
/// # Errors
/// When a file does not come. Nothing of it is left in the page, so that it can be asked for again.
pub fn fetch_look() -> impl Future<Output = Result<(), JsValue>> {
    let document = web_sys::window().and_then(|window| window.document());
    let asked = document.ok_or(JsValue::NULL).and_then(|document| {
        let (styles, drawings) = (ask_for_styles(&document)?, ask_for_drawings(&document)?);
        Ok((document, styles, drawings))
    });
    async move {
        let (document, styles, drawings) = asked?;
        if let Some((link, comes)) = styles
            && let Err(trouble) = comes.await
        {
            link.remove();
            return Err(trouble);
        }
        if let Some((request, comes)) = drawings {
            comes.await?;
            let drawn = request.response_xml()?.and_then(|drawn| drawn.get_element_by_id(DRAWINGS));
            let drawn = document.import_node_with_deep(drawn.as_ref().ok_or(JsValue::NULL)?, true)?;
            document.body().ok_or(JsValue::NULL)?.append_child(&drawn)?;
        }
        Ok(())
    }
}

fn ask_for_styles(document: &Document) -> Result<Option<(Element, JsFuture)>, JsValue> {
    if document.get_element_by_id(STYLES).is_some() {
        return Ok(None);
    }
    let link = document.create_element("link")?;
    for (name, value) in [("id", STYLES), ("rel", "stylesheet"), ("href", STYLES)] {
        link.set_attribute(name, value)?;
    }
    let come = arrival(&link);
    document.head().ok_or(JsValue::NULL)?.append_child(&link)?;
    Ok(Some((link, come)))
}

/// As a document of its own: text may not be made into elements here.
fn ask_for_drawings(document: &Document) -> Result<Option<(XmlHttpRequest, JsFuture)>, JsValue> {
    if document.get_element_by_id(DRAWINGS).is_some() {
        return Ok(None);
    }
    let request = XmlHttpRequest::new()?;
    request.open("GET", &(DRAWINGS.to_owned() + ".svg"))?;
    request.set_response_type(XmlHttpRequestResponseType::Document);
    let come = arrival(&request);
    request.send()?;
    Ok(Some((request, come)))
}

/// Fails when what was asked for will not come.
fn arrival(of: &EventTarget) -> JsFuture {
    Promise::new(&mut |come, fail| {
        for (event, then) in [("load", &come), ("error", &fail)] {
            let _ = of.add_event_listener_with_callback(event, then);
        }
    })
    .into()
}
