//! What is wrong, with its triangle.

use super::{Element, Words, drawing, element};

/// A full sentence saying what is wrong, beside the warning triangle.
#[must_use]
pub fn error_note(words: Words) -> Element {
    element("p")
        .class("error-note")
        .child(drawing("mark-risk", "mark-small"))
        .child(element("span").text(words))
}
