//! What to do beside watering, with the reason.

use leptos::prelude::*;

use super::drawing;

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
pub fn advice(lines: Signal<Vec<AdviceLine>>) -> AnyView {
    let items = move || lines.get().into_iter().map(line).collect::<Vec<_>>();
    view! { <ul class="advice">{items}</ul> }.into_any()
}

fn line(line: AdviceLine) -> AnyView {
    view! { <li>{drawing(line.mark, "mark")}<div><h3>{line.heading}</h3><p>{line.words}</p></div></li> }.into_any()
}
