//! The rest of the program: every screen but the answer of Morning water. It is a file of its own, which follows when the
//! first answer stands, so that a first visit on a weak signal need not wait for it.
//!
//! [`rest`] is where the built program is cut: what only [`THE_REST`] reaches goes into that file. Code for the start must
//! not name any of it.

use wasm_bindgen_futures::spawn_local;
use wasm_split_helpers::{SplitLoaderError, wasm_split};

use super::app::App;
use super::model::Model;
use super::parts::{Element, element};
use super::{feed_answers, feed_mix, morning_water, notebook_sheet, pest_repeats};

/// What the rest of the program can do, for the part that is there from the start.
pub struct Rest {
    /// Morning water under its answer.
    pub desk: fn(App) -> Vec<Element>,
    /// Morning water beside or under its desk.
    pub leaves: fn(App) -> Vec<Element>,
    pub feed_mix: fn(App) -> Vec<Element>,
    pub pest_repeats: fn(App) -> Vec<Element>,
    pub notebook_sheet: fn(App) -> Vec<Element>,
    /// Works out what the screens of the rest show.
    pub work_out: fn(&mut Model),
}

static THE_REST: Rest = Rest {
    desk: morning_water::desk,
    leaves: morning_water::leaves,
    feed_mix: feed_mix::feed_mix,
    pest_repeats: pest_repeats::pest_repeats,
    notebook_sheet: notebook_sheet::notebook_sheet,
    work_out,
};

#[wasm_split(rest, fallible)]
fn rest() -> Result<&'static Rest, SplitLoaderError> {
    Ok(&THE_REST)
}

/// Fetches the rest of the program.
pub fn fetch(app: App) {
    spawn_local(async move {
        if let Ok(rest) = rest().await {
            app.goes_on_with(rest);
        }
    });
}

/// Filled by the rest of the program once that is here.
pub fn follows(app: App, tag: &'static str, part: fn(&Rest) -> fn(App) -> Vec<Element>) -> Element {
    element(tag).fill_for(
        move || app.rest().is_some().to_string(),
        move || app.rest().map(|rest| part(rest)(app)).unwrap_or_default(),
    )
}

fn work_out(model: &mut Model) {
    feed_answers::work_out(model);
    model.work_out_pests();
}
