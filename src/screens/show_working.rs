//! The working of a screen's answer, folded away.

use super::app::App;
use super::parts::{Element, Live, More, Words, WorkingLine, act, working};
use crate::working::{Step, Working};

/// The disclosure; `aside` says whose working it is, where that is not plain.
pub fn show_working(app: App, id: &'static str, aside: Words, lines: Live<Vec<WorkingLine>>) -> Element {
    More {
        id,
        summary: "Show the working".into(),
        aside,
        minor: false,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(move || working(lines.clone())),
    }
    .view()
}

/// The steps of a working as they are shown.
pub fn steps_of(working: &Working) -> Vec<WorkingLine> {
    let line = |step: &Step| WorkingLine {
        title: step.title.to_owned(),
        formula: step.formula.to_owned() + "; " + &step.values_line(),
        result: step.result.symbol.to_owned() + " " + &step.result.printed(),
        source: step.source.to_owned(),
    };
    working.steps().iter().map(line).collect()
}
