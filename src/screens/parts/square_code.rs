//! A text as a square code for another device's camera.

use qrcodegen::{QrCode, QrCodeEcc};

use super::{Element, drawn};

/// Light modules around the code, as its standard asks for.
const QUIET: i32 = 4;
/// Width up to which it is drawn, px: of it as many as make every module as wide as the others, for uneven ones are not read.
const WIDEST: i32 = 352;

/// The code, black on white whatever the page's colours are, in one path; nothing when the text is too long for any.
#[must_use]
pub fn square_code(text: &str, words: &'static str) -> Option<Element> {
    let code = QrCode::encode_text(text, QrCodeEcc::Medium).ok()?;
    let size = code.size();
    let mut path = String::new();
    for y in 0..size {
        let mut x = 0;
        while x < size {
            let from = x;
            while x < size && code.get_module(x, y) {
                x += 1;
            }
            if x > from {
                let run = (x - from).to_string();
                for piece in [
                    "M",
                    &(from + QUIET).to_string(),
                    " ",
                    &(y + QUIET).to_string(),
                    "h",
                    &run,
                    "v1h-",
                    &run,
                    "z",
                ] {
                    path.push_str(piece);
                }
            }
            x += 1;
        }
    }
    let modules = size + 2 * QUIET;
    let width = modules * (WIDEST / modules).max(1);
    let whole = modules.to_string();
    let light = drawn("rect")
        .set("width", whole.clone())
        .set("height", whole.clone())
        .set("fill", "#ffffff");
    let dark = drawn("path").set("d", path).set("fill", "#000000");
    let drawing = drawn("svg")
        .set("class", "square-code")
        .set("width", width.to_string())
        .set("viewBox", ["0 0 ", &whole, " ", &whole].concat())
        .set("shape-rendering", "crispEdges")
        .set("role", "img")
        .set("aria-label", words)
        .child(light)
        .child(dark);
    Some(drawing)
}
