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

/// Makes a part of a screen.
pub type Part = fn(App) -> Vec<Element>;

/// What the rest of the program can do, for the part that is there from the start.
pub struct Rest {
    /// Morning water under its answer.
    pub desk: Part,
    /// Morning water beside or under its desk.
    pub leaves: Part,
    pub feed_mix: Part,
    pub pest_repeats: Part,
    pub notebook_sheet: Part,
    /// Works out what the screens of the rest show.
    pub work_out: fn(&mut Model),
}

const MISSING: &str = "This part of First Truss has not come yet. It is asked for again as soon as there is signal.";

static THE_REST: Rest = Rest {
    desk: morning_water::desk,
    leaves: morning_water::leaves,
    feed_mix: feed_mix::feed_mix,
    pest_repeats: pest_repeats::pest_repeats,
    notebook_sheet: notebook_sheet::notebook_sheet,
    work_out,
};

#[wasm_split(rest, fallible)]
#[allow(clippy::unnecessary_wraps, reason = "that the file does not come is told by the error")]
fn rest() -> Result<&'static Rest, SplitLoaderError> {
    Ok(&THE_REST)
}

/// Fetches the rest of the program, unless it is here.
pub fn fetch(app: App) {
    if app.look().rest.is_some() {
        return;
    }
    spawn_local(async move {
        let rest = rest().await.ok();
        app.show(|model| {
            model.rest_is_missing = rest.is_none();
            model.rest = rest.or(model.rest);
            model.work_out();
        });
    });
}

/// An element that the rest of the program fills, once it is here.
pub fn follows(app: App, part: fn(&Rest) -> Part) -> Element {
    element("div").fill_for(move || stand(app).to_owned(), move || filled(app, part))
}

/// Tells apart what stands in the place of the rest.
pub fn stand(app: App) -> &'static str {
    let model = app.look();
    match (model.rest, model.rest_is_missing) {
        (Some(_), _) => "here",
        (None, false) => "to come",
        (None, true) => "missing",
    }
}

/// What stands in the place of a part of the rest.
pub fn filled(app: App, part: fn(&Rest) -> Part) -> Vec<Element> {
    let (rest, is_missing) = {
        let model = app.look();
        (model.rest, model.rest_is_missing)
    };
    match rest {
        Some(rest) => part(rest)(app),
        None if is_missing => vec![element("p").class("note missing").set("role", "status").text(MISSING)],
        None => Vec::new(),
    }
}

fn work_out(model: &mut Model) {
    feed_answers::work_out(model);
    model.work_out_pests();
}
