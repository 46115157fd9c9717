//! One drawing of the sprite.

use super::{Element, drawn};

/// Shows the symbol `id` of the sprite, hidden from screen readers: the words beside it say the same.
/// `class` gives it its size.
#[must_use]
pub fn drawing(id: &'static str, class: &'static str) -> Element {
    drawn("svg").class(class).set("aria-hidden", "true").child(symbol(id))
}

/// Shows the symbol or group `id` of the sprite inside another drawing.
pub(super) fn symbol(id: &'static str) -> Element {
    drawn("use").set("href", String::from("#") + id)
}

/// Writes numbers into a drawing's text, each in the place of one `#`: `measured("translate(0 #)", &[20.5])`.
///
/// They are written to a hundredth, by way of whole numbers: printing fractions in general would cost the page ten
/// kilobytes.
pub(super) fn measured(text: &str, numbers: &[f64]) -> String {
    let mut numbers = numbers.iter();
    let mut written = String::new();
    for character in text.chars() {
        match numbers.as_slice() {
            [number, ..] if character == '#' => {
                written += &hundredths(*number);
                numbers.next();
            }
            _ => written.push(character),
        }
    }
    written
}

fn hundredths(number: f64) -> String {
    #[expect(clippy::cast_possible_truncation, reason = "drawings are far smaller than twenty million pixels")]
    let whole = (number * 100.0).round() as i32;
    let mut digits = whole.unsigned_abs().to_string();
    while digits.len() < 3 {
        digits.insert(0, '0');
    }
    digits.insert(digits.len() - 2, '.');
    let digits = digits.trim_end_matches('0').trim_end_matches('.');
    let sign = if whole < 0 { "-" } else { "" };
    String::from(sign) + digits
}
