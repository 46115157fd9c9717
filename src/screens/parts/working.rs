//! The steps behind a number.

use leptos::prelude::*;

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
pub fn working(lines: Signal<Vec<WorkingLine>>) -> AnyView {
    let items = move || lines.get().into_iter().map(line).collect::<Vec<_>>();
    view! { <ol class="work">{items}</ol> }.into_any()
}

fn line(line: WorkingLine) -> AnyView {
    let equals = if line.formula.is_empty() || line.result.is_empty() {
        ""
    } else {
        " = "
    };
    view! {
        <li>
            <h3>{line.title}</h3>
            <p class="f">{line.formula}{equals}<b>{line.result}</b></p>
            <p class="src">{line.source}</p>
        </li>
    }
    .into_any()
}
