//! The rest of the program: every screen but the answer of Morning water. It is a file of its own, which follows when the
//! first answer stands, so that a first visit on a weak signal need not wait for it.
//!
//! [`rest`] is where the built program is cut: what only [`THE_REST`] reaches goes into that file. Code for the start must
//! not name any of it.

use wasm_bindgen_futures::spawn_local;
use wasm_split_helpers::{SplitLoaderError, wasm_split};

use super::app::App;
use super::current_fragment;
use super::model::Model;
use super::parts::{Element, element};
use super::{card, feed_answers, feed_mix, morning_water, notebook_sheet, pest_repeats, week, whole_season};
use crate::browser::fetch_look;

/// Makes a part of a screen.
pub type Part = fn(App) -> Vec<Element>;

/// What the rest of the program can do, for the part that is there from the start.
pub struct Rest {
    /// Morning water under its answer.
    pub desk: Part,
    /// Morning water beside or under its desk.
    pub leaves: Part,
    /// Feed mix.
    pub feed_mix: Part,
    /// Pest repeats.
    pub pest_repeats: Part,
    /// The Notebook.
    pub notebook_sheet: Part,
    /// What came by a link.
    pub card: Part,
    /// The week on paper.
    pub week: Part,
    /// The season on paper.
    pub whole_season: Part,
    /// Opens what an address carries; tells whether anything came or went.
    pub arrive: fn(App, &str) -> bool,
    /// Works out what the screens of the rest show.
    pub work_out: fn(&mut Model),
}

/// Said in place of what has been asked for in vain.
const MISSING: &str = "This part of First Truss has not come yet. It is asked for again as soon as there is signal.";

static THE_REST: Rest = Rest {
    desk: morning_water::desk,
    leaves: morning_water::leaves,
    feed_mix: feed_mix::feed_mix,
    pest_repeats: pest_repeats::pest_repeats,
    notebook_sheet: notebook_sheet::notebook_sheet,
    card: card::card,
    week: week::week,
    whole_season: whole_season::whole_season,
    arrive: card::arrive,
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
        let look = fetch_look();
        let program = rest().await.ok();
        // Without its styles and drawings it is not shown.
        let came = if look.await.is_ok() { program } else { None };
        if app.look().rest.is_some() {
            return; // It was asked for twice.
        }
        app.quietly(|model| (model.rest, model.rest_is_missing) = (came, came.is_none()));
        if let Some(rest) = came {
            (rest.arrive)(app, &current_fragment());
        }
        app.show(Model::work_out);
        app.prepare();
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
