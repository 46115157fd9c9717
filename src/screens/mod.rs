//! What the grower sees: wording and layout, no formula and no constant of the trade.
//!
//! [`app`] holds the one state; a screen reads it with `look` and changes it with `change`. [`parts`] draws.

mod advice_words;
mod ahead;
mod answers;
mod app;
mod away;
mod before_pouring;
mod butt;
mod came_back;
mod card;
mod card_round;
mod changed_day;
mod copy;
mod days;
mod fed;
mod feed_answers;
mod feed_gives;
mod feed_label;
mod feed_mix;
mod feed_shelf;
mod feed_signs;
mod feed_timing_words;
mod feed_words;
mod fields;
mod missed;
mod model;
mod morning_water;
mod moved;
mod notebook_sheet;
mod part_by_part;
mod parts;
mod pest_beside;
mod pest_dates;
mod pest_label;
mod pest_nights;
mod pest_numbers;
mod pest_repeats;
mod pest_setup;
mod pest_shared;
mod pest_state;
mod pest_words;
mod plant_details;
mod plants;
mod rest;
mod round;
mod route;
mod season;
mod season_end;
mod share;
mod share_state;
mod shelf_words;
mod show_working;
mod sign_words;
mod start;
mod tips;
mod water_plate;
mod watered;
mod week;
mod whole_season;
mod wilting;
mod words;
mod yesterday;

use leptos_dom::helpers::{document, window};

use app::App;
use parts::{Element, Strip, TabLink, act, announcer, element, error_note, focus_on, go_to_top, link_button, live, skip_link, tabs};
use route::Route;
pub use start::mount;

fn page(app: App) -> Element {
    let links = [
        (Route::MorningWater, "tab-water"),
        (Route::FeedMix, "tab-feed"),
        (Route::PestRepeats, "tab-pest"),
    ];
    let links = links.map(|(route, drawing)| TabLink {
        href: route.fragment(),
        words: route.name(),
        drawing,
    });
    let comes = live(move || app.look().rest.is_none());
    let screen = element("main").set("id", "main").set_when("aria-busy", "true", comes).fill_for(
        move || {
            let (route, arrivals) = (app.look().route, app.look().share.arrivals);
            // Morning water goes on where it is when the rest comes.
            let stand = if route == Route::MorningWater { "" } else { rest::stand(app) };
            route.name().to_owned() + stand + &arrivals.to_string()
        },
        move || {
            let route = app.look().route;
            match route {
                Route::MorningWater => morning_water::morning_water(app),
                Route::FeedMix => rest::filled(app, |rest| rest.feed_mix),
                Route::PestRepeats => rest::filled(app, |rest| rest.pest_repeats),
                Route::Notebook => rest::filled(app, |rest| rest.notebook_sheet),
                Route::Card => rest::filled(app, |rest| rest.card),
                Route::Week => rest::filled(app, |rest| rest.week),
                Route::WholeSeason => rest::filled(app, |rest| rest.whole_season),
            }
        },
    );
    let said = announcer(parts::words(move || spoken(app)));
    element("div").class("page").follow(said).children([
        skip_link(),
        strip(app),
        tabs(links.to_vec(), &app.live(|model| model.route.fragment())),
        notice(app),
        screen,
    ])
}

fn strip(app: App) -> Element {
    Strip {
        plot_number: app.words(move |model| model.notebook.plot.number.clone()),
        plot_name: parts::words(move || {
            let name = app.look().notebook.plot.name.clone();
            let whose = if app.look().share.guest.is_some() {
                "Their plot"
            } else {
                "My plot"
            };
            if name.trim().is_empty() { whose.to_owned() } else { name }
        }),
        date: app.words(move |model| model.today.to_string()),
        date_words: app.words(move |model| model.today.spoken()),
        notebook_href: Route::Notebook.fragment(),
    }
    .view()
}

/// What is wrong with the kept notebook or its keeping, in one line over every screen.
fn notice(app: App) -> Element {
    let sentence = move || {
        let model = app.look();
        match &model.trouble {
            Some(trouble) => trouble.to_string(),
            None if model.not_kept => {
                "Nothing can be kept on this device just now. The page works; save a copy to a file before you leave.".to_owned()
            }
            None => String::new(),
        }
    };
    let dismiss = act(move |()| {
        app.change(|model| model.trouble = None);
        // The button has gone, and the focus with it.
        focus_on("#question");
    });
    element("div").set("id", "notice").set("role", "alert").fill_for(sentence, move || {
        let words = sentence();
        if words.is_empty() {
            return Vec::new();
        }
        let save = element("a")
            .class("link")
            .set("href", Route::Notebook.fragment())
            .text("Save it to a file");
        let mut box_ = element("div").class("notice").child(error_note(words.into())).child(save);
        if app.look().trouble.is_some() {
            box_ = box_.child(link_button("Go on without it".into(), dismiss.clone()));
        }
        vec![box_]
    })
}

/// The headline for a screen reader, after it has changed.
fn spoken(app: App) -> String {
    let model = app.look();
    let groups = model.notebook.groups.iter().zip(&model.answers);
    let said: Vec<_> = groups
        .filter_map(|(group, answer)| {
            let shown = answer.shown.as_ref()?;
            let mut said = if model.has_several() {
                words::group_name(group) + ": "
            } else {
                String::new()
            };
            said = said + &words::amount(&shown.each) + " a plant, likely " + &words::range(shown);
            Some(said)
        })
        .collect();
    said.join("; ")
}

fn current_fragment() -> String {
    window().location().hash().unwrap_or_default()
}

fn current_route() -> Route {
    Route::from_fragment(&current_fragment())
}

/// Names the page after its screen.
fn name_page(app: App) {
    document().set_title(&(app.look().route.name().to_owned() + " - First Truss"));
}

/// The place on the screen that the address names.
fn place() -> Option<web_sys::Element> {
    document().get_element_by_id(current_fragment().trim_start_matches('#'))
}

/// Moves to the place on the screen that was asked for, and the focus to the screen's question.
fn go_to_place() {
    match place() {
        Some(place) => {
            focus_on("#question");
            place.scroll_into_view();
        }
        None => go_to_top(),
    }
}
