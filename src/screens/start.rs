//! How the program takes the place of the static shell of `index.html`.

use std::time::Duration;

use leptos_dom::helpers::{document, request_animation_frame, set_timeout};

use super::app::App;
use super::model::Model;
use super::parts::{early_choice, is_for_typing, on_window, say_what_is_wrong, take_over};
use super::route::Route;
use super::water_plate::show_first;
use super::{current_fragment, current_route, go_to_place, name_page, page, rest};
use crate::almanac::Sky;
use crate::notebook::Coded;
use crate::water::Feel;

/// Puts the program in place of the static shell, with the keys that were pressed meanwhile. Where Morning water is shown its
/// first answer is painted on the shell's own plate, before the others are worked out and the page is built.
pub fn mount() {
    std::panic::set_hook(Box::new(|_| show_stopped()));
    let route = current_route();
    let app = App::start(route);
    // From another tab. What it says is looked up where it is kept, for there may be later news by now.
    on_window("storage", move |_| app.take_in());
    // A page that is not shown paints no frame.
    if route != Route::MorningWater || document().hidden() {
        return open(app);
    }
    app.quietly(|model| {
        EarlyChoice::now().tell(model);
        model.work_out_first();
    });
    show_first(&app.look());
    request_animation_frame(move || set_timeout(move || open(app), Duration::ZERO));
}

/// Builds the page and keeps it up to date from now on.
fn open(app: App) {
    let early = EarlyChoice::now();
    app.quietly(|model| model.route = current_route());
    // Not on another plot's card, whose own morning it is.
    if early.is_some() && app.look().route != Route::Card {
        app.change(|model| early.tell(model));
    } else {
        app.quietly(Model::work_out);
    }
    let page = page(app);
    name_page(app);
    take_over(&page);
    app.shows(page);
    // Not before the answer is painted, which is when the next frame begins.
    request_animation_frame(move || request_animation_frame(move || rest::fetch(app)));
    on_window("online", move |_| rest::fetch(app));
    on_window("hashchange", move |_| {
        rest::fetch(app);
        // Looked up by itself: what arrives takes the model's place, which nobody may be looking at then.
        let rest = app.look().rest;
        let arrived = rest.is_some_and(|rest| (rest.arrive)(app, &current_fragment()));
        if app.turn_to(current_route()) || arrived {
            name_page(app);
            request_animation_frame(go_to_place);
        }
    });
    on_window("focus", move |_| {
        app.look_at_clock();
        rest::fetch(app);
    });
    // A page that is not shown paints no frame, and one that is left has no later.
    on_window("pagehide", move |_| app.catch_up());
    on_window("visibilitychange", move |_| {
        app.catch_up();
        if !document().hidden() {
            app.look_at_clock();
            // A page that the browser had put away heard of nothing.
            app.take_in();
        }
    });
    on_window("focusout", move |event| {
        if is_for_typing(&event) {
            app.let_go();
        }
    });
    say_what_is_wrong();
}

/// What was pressed on the shell.
struct EarlyChoice {
    sky: Option<Sky>,
    feel: Option<Feel>,
}

impl EarlyChoice {
    fn now() -> Self {
        Self {
            sky: early_choice("sky").as_deref().and_then(Sky::from_code),
            feel: early_choice("feel").as_deref().and_then(Feel::from_code),
        }
    }

    const fn is_some(&self) -> bool {
        self.sky.is_some() || self.feel.is_some()
    }

    fn tell(&self, model: &mut Model) {
        if let Some(sky) = self.sky {
            model.notebook.morning.choose_sky(sky);
        }
        if let Some(group) = model.group_mut().filter(|_| self.feel.is_some()) {
            group.feel = self.feel;
        }
    }
}

/// Shows the panel for a program that has stopped: `index.html` has it ready, since nothing here can be relied on then. What
/// is kept is not touched.
fn show_stopped() {
    if let Some(panel) = document().get_element_by_id("stopped") {
        // A page that refuses this shows nothing worse than what is there.
        let _ = panel.remove_attribute("hidden");
    }
}
