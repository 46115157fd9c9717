//! The steps behind a number.

use super::{Element, Live, element};

/// One step of the working.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WorkingLine {
    /// What is worked out.
    pub title: String,
    /// The formula with the values in it.
    pub formula: String,
    /// What comes out, with its unit.
    pub result: String,
    /// Where the formula comes from.
    pub source: String,
}

/// The numbered steps.
#[must_use]
pub fn working(lines: Live<Vec<WorkingLine>>) -> Element {
    let written = lines.clone();
    let key = move || written.get().into_iter().map(|line| line.formula + &line.result + "\n").collect();
    element("ol")
        .class("work")
        .fill_for(key, move || lines.get().into_iter().map(line).collect())
}

fn line(line: WorkingLine) -> Element {
    let equals = if line.formula.is_empty() || line.result.is_empty() {
        ""
    } else {
        " = "
    };
    let sum = element("p")
        .class("f")
        .text(line.formula)
        .text(equals)
        .child(element("b").text(line.result));
    element("li")
        .child(element("h3").text(line.title))
        .child(sum)
        .child(element("p").class("src").text(line.source))
}
