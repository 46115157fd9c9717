//! A figure that machines read too.

use super::{Element, Words, element};

/// A printed figure with the same value in SI units for tests, scripts and assistive tools.
#[derive(Clone)]
pub struct Answer {
    /// The stable `id` of the `<data>` element, such as `answer-dose`.
    pub id: String,
    /// The value in SI units, as a plain decimal number; empty when there is no answer.
    pub value: Words,
    /// The figure as the grower reads it, such as `2¼`.
    pub words: Words,
}

impl Answer {
    /// The figure in its `<data>` element.
    #[must_use]
    pub fn view(self) -> Element {
        element("data").set("id", self.id).set("value", self.value).text(self.words)
    }
}
