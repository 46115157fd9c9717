//! What came by a link: another plot's card with today's amounts and its round to be ticked, the list that came back, or why a
//! link is not opened. A card is Morning water for plants that are kept apart from the grower's own notebook.

use std::sync::atomic::{AtomicBool, Ordering};

use leptos_dom::helpers::{request_animation_frame, window};

use super::app::App;
use super::away::{asked, visits};
use super::came_back::came_back;
use super::card_round::round;
use super::feed_words::{can, measured_out, poured};
use super::model::Model;
use super::morning_water::{assumed, steps, what_follows, with_care};
use super::parts::{Element, act, button, element, error_note, focus_on, plain_section};
use super::pest_words::{control_words, pest_words};
use super::route::Route;
use super::share::pass_on;
use super::share_state::{Guest, ShareState};
use super::show_working::show_working;
use super::water_plate::{foot, plate};
use super::watered::watered;
use super::words::group_name;
use super::yesterday::{feel, fine_tune, sky};
use crate::almanac::CivilDay;
use crate::browser::{BrowserStore, address_with, today};
use crate::notebook::{FeedPlan, LinkKind, Notebook, Plan, Reply, Treatment, check_of_link, is_card_over, kind_of_link};

/// Opens what the address carries, in place of what had come before. Tells whether anything came or went.
pub fn arrive(app: App, fragment: &str) -> bool {
    let went = app.come_home();
    forget_old_cards(fragment);
    let arrivals = app.look().share.arrivals.wrapping_add(1);
    let text = fragment.trim_start_matches('#');
    let mut share = ShareState {
        arrivals,
        ..ShareState::default()
    };
    match kind_of_link(fragment) {
        None => return went,
        Some(LinkKind::Plan) => match Plan::open(text) {
            Ok(plan) => {
                app.quietly(|model| model.share.arrivals = arrivals);
                let check = check_of_link(text);
                app.visit(BrowserStore::of_card(check), |start| {
                    let is_new = start.notebook == Notebook::default();
                    let mut model = Model::new(start, today(), Route::Card);
                    if is_new {
                        model.notebook = plan.notebook.clone();
                    }
                    share.guest = Some(Guest { plan, check });
                    model.share = share;
                    model.turn_to(model.today);
                    model.work_out();
                    model
                });
                return true;
            }
            Err(error) => share.refused = Some(error),
        },
        Some(LinkKind::Reply) => match Reply::open(text) {
            Ok(reply) => share.reply = Some(reply),
            Err(error) => share.refused = Some(error),
        },
    }
    app.quietly(|model| {
        let own = &mut model.share;
        own.arrivals = arrivals;
        (own.refused, own.reply, own.before_reply) = (share.refused, share.reply, None);
    });
    true
}

/// Takes away, once in a visit, the cards that nobody looks after any more.
fn forget_old_cards(fragment: &str) {
    static ONCE: AtomicBool = AtomicBool::new(false);
    if !ONCE.swap(true, Ordering::Relaxed) {
        let is_plan = kind_of_link(fragment) == Some(LinkKind::Plan);
        let open = is_plan.then(|| check_of_link(fragment.trim_start_matches('#')));
        let now = today();
        BrowserStore::forget_cards(open, &|text| is_card_over(text, now));
    }
}

/// The whole screen.
pub fn card(app: App) -> Vec<Element> {
    let model = app.look();
    if let Some(guest) = &model.share.guest {
        return neighbours(app, &guest.plan);
    }
    let (title, body) = match (&model.share.reply, model.share.refused) {
        (Some(_), _) => ("What was done", came_back(app)),
        (None, Some(error)) => ("This link cannot be opened", error_note(error.to_string().into())),
        (None, None) => ("Nothing came by this link", element("div")),
    };
    let title = element("h1")
        .class("sheet-title")
        .set("id", "question")
        .set("tabindex", "-1")
        .text(title);
    vec![
        element("div")
            .class("desk")
            .child(title)
            .child(element("div").class("mt").set("id", "by-link").child(body)),
    ]
}

/// Another plot's card.
fn neighbours(app: App, plan: &Plan) -> Vec<Element> {
    let name = plan.notebook.plot.name.trim();
    let whose = if name.is_empty() { "A neighbour’s plants" } else { name }.to_owned();
    let model = app.look();
    // A link of an older page leaves it to this one.
    let visits = plan.visits.unwrap_or_else(|| visits(&model, plan.first, plan.days));
    let when = asked(&model, (plan.first, plan.days), visits);
    let over = if today() > plan.last().tomorrow() {
        " That is over: ask for a new link before you pour.".to_owned()
    } else if today() < plan.made {
        " By this device’s clock the plan has yet to be made: check the date of this device.".to_owned()
    } else if today() < plan.first {
        let first = plan.first.spoken();
        [
            " Before ",
            &first,
            " the plot’s own grower waters: what stands below is for today, and changes each morning.",
        ]
        .concat()
    } else {
        String::new()
    };
    let holds = if plan.notebook.can.value().is_some() {
        "of "
    } else {
        "taken to hold "
    };
    let pick = element("p").child(element("b").text(app.words(not_to_pick)));
    let head = element("div").class("whose").set("id", "whose").children([
        element("p").class("name").text(whose),
        element("p").text(when + &over),
        pick,
        element("p").class("note").text(
            [
                "A can is the plot’s own, ",
                holds,
                &can(plan.notebook.can_litres(), plan.notebook.can_units()),
                ". Worked out on this device: your own notebook is as it was, under the tabs.",
            ]
            .concat(),
        ),
    ]);
    let several = element("p").class("note").text(app.words(for_days));
    let taken = element("p")
        .class("note assumed-line")
        .set("id", "assumed")
        .text(super::parts::words(move || assumed(app)));
    let desk = element("div").class("desk").children([
        head,
        plate(app, "", ""),
        foot(app),
        several,
        sky(app),
        feel(app),
        watered(app),
        taken,
        fine_tune(app),
    ]);
    let step_by_step = app.words(|model| model.group().map(group_name).unwrap_or_default() + ", step by step");
    let mut leaves = vec![plain_section("round", "Today’s round", round(app))];
    leaves.extend(due(plan));
    leaves.extend([
        what_follows(app),
        send_back(app),
        keep(app),
        show_working(app, "working", step_by_step, app.live(steps)),
        with_care(),
    ]);
    vec![desk, element("div").class("leaves").children(leaves)]
}

/// Until when nothing may be picked on the other plot; empty when it may.
fn not_to_pick(model: &Model) -> String {
    let plan = model.share.guest.as_ref().map(|guest| &guest.plan);
    let Some((plan, days)) = plan.and_then(|plan| Some((plan, plan.pick_in?))) else {
        return String::new();
    };
    let day = plan.made.days_later(i32::try_from(days).unwrap_or(i32::MAX));
    if days == 0 {
        "Pick nothing: something was used against pests, and its label was not read.".to_owned()
    } else if day > model.today {
        ["Pick nothing before ", &day.spoken(), ": something was used against pests."].concat()
    } else {
        String::new()
    }
}

/// Says so where today's water is that of several days, because nobody noted any on those before.
fn for_days(model: &Model) -> String {
    let Some(shown) = model.shown().filter(|shown| shown.each.volume.litres() > 0.0) else {
        return String::new();
    };
    let before = shown.season.days.iter().rev().filter(|row| row.day < model.today);
    let dry = before.take_while(|row| row.flows.given <= 0.0).count();
    if dry == 0 {
        return String::new();
    }
    let before = if dry == 1 {
        "yesterday".to_owned()
    } else {
        ["on the ", &dry.to_string(), " days before"].concat()
    };
    [
        "That is for ",
        &(dry + 1).to_string(),
        " days: nothing was noted as poured ",
        &before,
        ".",
    ]
    .concat()
}

/// What falls due while somebody else waters.
fn due(plan: &Plan) -> Option<Element> {
    let mut lines: Vec<(CivilDay, String)> = Vec::new();
    if let Some(feed) = &plan.feed {
        lines.extend(
            feed.days
                .iter()
                .map(|day| (*day, "Feed: ".to_owned() + &feed_words(feed, &plan.notebook))),
        );
    }
    lines.extend(
        plan.treatments
            .iter()
            .map(|treatment| (treatment.day, treatment_words(treatment, &plan.notebook))),
    );
    if lines.is_empty() {
        return None;
    }
    // In order at once: sorting would bring a tenfold of this code.
    let mut items = Vec::new();
    while let Some(place) = (0..lines.len()).min_by_key(|place| lines.get(*place).map(|line| line.0)) {
        let (day, words) = lines.remove(place);
        let time = element("time").set("datetime", day.to_string()).text(day.spoken());
        items.push(element("li").child(element("b").child(time)).text(". ".to_owned() + &words));
    }
    let mut body = element("div").child(element("ul").class("due").children(items));
    if plan.treatments.iter().any(|treatment| treatment.control.needs_label()) {
        body = body.child(
            element("p")
                .class("note mt")
                .text("A product is used only by someone who has its label in hand: the label and local rules win over every date."),
        );
    }
    Some(plain_section("due", "Falls due", body))
}

/// A feed in words: into the can, and for a plant.
pub fn feed_words(feed: &FeedPlan, notebook: &Notebook) -> String {
    let unit = if feed.in_grams { " g" } else { " ml" };
    let each = poured(feed.each, notebook.units);
    let into = can(notebook.can_litres(), notebook.can_units());
    [&measured_out(feed.amount), unit, " in a can of ", &into, ", ", &each, " a plant"].concat()
}

/// A treatment in words, with its plants where there are several groups.
pub fn treatment_words(treatment: &Treatment, notebook: &Notebook) -> String {
    let Treatment { pest, control, plants, .. } = *treatment;
    [
        pest_words(pest).name,
        ": ",
        control_words(control, pest).name,
        &plants_words(plants, notebook),
    ]
    .concat()
}

/// On which plants, where there are several groups.
pub fn plants_words(plants: Option<u32>, notebook: &Notebook) -> String {
    let mut groups = notebook.groups.iter().filter(|_| notebook.groups.len() > 1);
    let name = groups.find(|group| Some(group.id) == plants).map(group_name);
    name.map(|name| ", ".to_owned() + &name).unwrap_or_default()
}

/// The link with what was noted, for the plot's own grower.
fn send_back(app: App) -> Element {
    let address = app.words(|model| {
        let Some(Guest { plan, check }) = &model.share.guest else {
            return String::new();
        };
        address_with(&Reply::of(&model.notebook, *check, plan.made, model.today).link())
    });
    let body = element("div").children([
        element("p").text("What you ticked, poured and saw, as a link for the plot’s own grower."),
        pass_on(app, "reply-address", "What was done on your plot".into(), address),
    ]);
    plain_section("send-back", "Send the list back", body)
}

/// Taking the plants over into the own notebook: only when it is asked for.
fn keep(app: App) -> Element {
    let keep = act(move |()| {
        let plants = app.look().notebook.clone();
        app.come_home();
        app.quietly(|model| match model.notebook.with_plants_of(&plants) {
            Some(with) => {
                model.before_copy = Some((std::mem::replace(&mut model.notebook, with.clone()), with));
                model.look_at_notebook();
            }
            None => model.refused_copy = Some("Your notebook has room for eight groups, and these do not fit in: nothing was changed."),
        });
        app.turn_to(Route::Notebook);
        app.change(|_| ());
        let _ = window().location().set_hash("notebook");
        request_animation_frame(|| focus_on("#copy button"));
    });
    let body = element("div").children([
        element("p").text("These plants stand apart from your own. If you go on looking after them, your notebook can take them over as groups of their own."),
        element("div")
            .class("btn-row mt")
            .child(button("Keep them in my notebook".into(), keep)),
    ]);
    plain_section("keep", "Keep them", body)
}
