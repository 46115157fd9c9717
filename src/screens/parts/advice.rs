//! What to do beside watering, with the reason.

use super::{Element, Live, drawing, element};

/// One piece of advice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AdviceLine {
    /// A mark of the sprite: `mark-split`, `mark-tap`, `mark-damp`, `mark-hold`, `mark-dry`, `mark-risk`, `mark-pour-ball`,
    /// `mark-pour-ring`, `mark-pour-all`, `mark-look`, `mark-leaf`, `mark-ok`.
    pub mark: &'static str,
    /// What to do.
    pub heading: String,
    /// Why.
    pub words: String,
}

/// The list of advice, most pressing first.
#[must_use]
pub fn advice(lines: Live<Vec<AdviceLine>>) -> Element {
    let written = lines.clone();
    let key = move || written.get().into_iter().map(|line| line.heading + &line.words + "\n").collect();
    element("ul")
        .class("advice")
        .fill_for(key, move || lines.get().into_iter().map(line).collect())
}

fn line(line: AdviceLine) -> Element {
    let words = element("div")
        .child(element("h3").text(line.heading))
        .child(element("p").text(line.words));
    element("li").child(drawing(line.mark, "mark")).child(words)
}
