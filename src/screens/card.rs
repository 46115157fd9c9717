//! What came by a link: another plot's card with today's amounts and its round to be ticked, the list that came back, or why a
//! link is not opened. A card is Morning water for plants that are kept apart from the grower's own notebook.

use std::sync::atomic::{AtomicBool, Ordering};

use leptos_dom::helpers::{request_animation_frame, window};

use super::app::App;
use super::away::asked;
use super::feed_words::{can, measured_out, poured};
use super::model::Model;
use super::morning_water::{assumed, steps, what_follows, with_care};
use super::parts::{Element, TickBox, act, button, element, error_note, focus_on, link_button, plain_section, undo_row};
use super::pest_words::{control_words, how_to, pest_words};
use super::round::{Line, items, line, task_words};
use super::route::Route;
use super::share::pass_on;
use super::share_state::{Guest, ShareState};
use super::show_working::show_working;
use super::water_plate::{foot, plate};
use super::watered::watered;
use super::words::{self, amount, group_name};
use super::yesterday::{feel, fine_tune, sky};
use crate::almanac::{CivilDay, Sun};
use crate::browser::{BrowserStore, address_with, time_of_day, today};
use crate::notebook::{
    Coded, DayPage, Done, FeedPlan, LinkKind, Notebook, Plan, Reply, Treatment, check_of_link, is_card_over, kind_of_link,
};
use crate::quantity::{Measure, Volume};
use crate::today::{Item, Task};

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
    let when = asked(&app.look(), (plan.first, plan.days));
    let over = if today() > plan.last().tomorrow() {
        " That is over: ask for a new link before you pour."
    } else if today() < plan.made {
        " By this device’s clock that plan is still to be made: look at its date."
    } else {
        ""
    };
    let head = element("div").class("whose").set("id", "whose").children([
        element("p").class("name").text(whose),
        element("p").text(when + over),
        element("p")
            .class("note")
            .text("Worked out on this device. Your own notebook is as it was, under the tabs."),
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
    lines.extend(plan.treatments.iter().map(|treatment| (treatment.day, treatment_words(*treatment))));
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

/// A treatment in words.
pub fn treatment_words(Treatment { pest, control, .. }: Treatment) -> String {
    [pest_words(pest).name, ": ", control_words(control, pest).name].concat()
}

/// Something that can be ticked.
#[derive(Clone)]
enum Tick {
    Item(Item),
    Treatment(Treatment),
}

/// Litres of feed noted for a group on a page.
fn fed(page: &DayPage, id: u32) -> Option<f64> {
    page.group(id)?.fed
}

/// Whether feed has been due for a group since a day on which nobody gave it.
fn is_feed_due(model: &Model, plan: &Plan, id: u32) -> bool {
    let is_open = |day: CivilDay| {
        let mut pages = model.notebook.days.iter();
        !pages.any(|page| fed(page, id).is_some() && page.day >= day && page.day < model.today)
    };
    let place = plan.notebook.groups.iter().position(|group| group.id == id);
    let feed = plan
        .feed
        .iter()
        .filter(|feed| place.is_some_and(|place| feed.groups.contains(&place)));
    let mut days = feed.flat_map(|feed| feed.days.iter());
    days.any(|day| *day <= model.today && is_open(*day))
}

/// The round of this morning, all of it, with the treatments that are due.
fn ticks(model: &Model) -> Vec<Tick> {
    let Some(Guest { plan, .. }) = &model.share.guest else {
        return Vec::new();
    };
    let mut ticks: Vec<_> = items(model, false, &|id| is_feed_due(model, plan, id))
        .into_iter()
        .map(Tick::Item)
        .collect();
    for treatment in &plan.treatments {
        let done = Done::Treated(treatment.pest, treatment.control);
        let is_done = |page: &DayPage| page.day >= treatment.day && page.day < model.today && page.done.contains(&done);
        if treatment.day <= model.today && !model.notebook.days.iter().any(is_done) {
            ticks.push(Tick::Treatment(*treatment));
        }
    }
    ticks
}

fn words_of(tick: &Tick, model: &Model) -> Line {
    match tick {
        Tick::Treatment(treatment) => Line {
            what: treatment_words(*treatment),
            why: ["due ", &treatment.day.spoken(), how_to(treatment.control)].concat(),
            not_today: false,
        },
        Tick::Item(item) => {
            let mut line = line(item, model);
            let feed = model.share.guest.as_ref().and_then(|guest| guest.plan.feed.as_ref());
            if let (Task::Feed, false, Some(feed)) = (item.task, item.not_today, feed) {
                line.why = feed_words(feed, &model.notebook) + ", on moist compost";
            }
            line
        }
    }
}

/// The round as a list to be ticked, and what not to do today.
fn round(app: App) -> Element {
    let all = |model: &Model| -> Vec<(Tick, Line)> {
        let ticks = ticks(model).into_iter();
        ticks.map(|tick| (tick.clone(), words_of(&tick, model))).collect()
    };
    let key = move || {
        let lines = all(&app.look());
        lines.into_iter().map(|(_, line)| line.what + &line.why + "\n").collect()
    };
    element("div").fill_for(key, move || {
        let (not_today, to_do): (Vec<_>, Vec<_>) = all(&app.look()).into_iter().partition(|(_, line)| line.not_today);
        let boxes = to_do
            .into_iter()
            .zip(1..)
            .map(|((what, line), number)| tick_box(app, what, line, number));
        let mut parts = vec![element("div").class("ticks").children(boxes)];
        if not_today.is_empty() {
            return parts;
        }
        let left = not_today.into_iter().map(|(_, line)| {
            let why = element("small").text(line.why);
            element("li").child(element("span").child(element("b").text(line.what)).child(why))
        });
        parts.push(element("h3").text("Not today"));
        parts.push(element("ul").class("round").children(left));
        parts
    })
}

fn tick_box(app: App, what: Tick, line: Line, number: u32) -> Element {
    let asked = what.clone();
    TickBox {
        name: "done-".to_owned() + &number.to_string(),
        label: line.what.into(),
        hint: line.why.into(),
        ticked: app.live(move |model| is_ticked(model, &asked)),
        on_tick: app.act(move |model, is_done| tick(model, &what, is_done)),
    }
    .view()
}

fn is_ticked(model: &Model, tick: &Tick) -> bool {
    let Some(page) = model.notebook.day(model.today) else {
        return false;
    };
    match tick {
        Tick::Treatment(treatment) => page.done.contains(&Done::Treated(treatment.pest, treatment.control)),
        Tick::Item(item) if matches!(item.task, Task::Feed | Task::Water | Task::WaterDry) => {
            let given = |place: &usize| {
                let group = page.group(model.notebook.groups.get(*place)?.id)?;
                if item.task == Task::Feed { group.fed } else { group.given }
            };
            item.groups.iter().all(|place| given(place).is_some())
        }
        Tick::Item(item) => page.done.contains(&Done::Task(item.task)),
    }
}

fn tick(model: &mut Model, tick: &Tick, is_done: bool) {
    let today = model.today;
    let feed = model
        .share
        .guest
        .as_ref()
        .and_then(|guest| guest.plan.feed.as_ref())
        .map(|feed| feed.each);
    match tick {
        Tick::Treatment(treatment) => {
            let done = Done::Treated(treatment.pest, treatment.control);
            model.notebook.note(today, |page| page.tick(done, is_done));
        }
        Tick::Item(item) if item.task == Task::Feed => {
            for place in &item.groups {
                let Some(id) = model.notebook.groups.get(*place).map(|group| group.id) else {
                    continue;
                };
                model
                    .notebook
                    .note(today, |page| page.note(id, |group| group.fed = feed.filter(|_| is_done)));
            }
        }
        Tick::Item(item) if matches!(item.task, Task::Water | Task::WaterDry) => {
            for place in &item.groups {
                let Some(answer) = model.answers.get(*place) else {
                    continue;
                };
                let litres = answer.shown.as_ref().map(|shown| shown.each.volume.litres());
                let id = answer.id;
                model.notebook.note(today, |page| {
                    page.note(id, |group| group.given = litres.filter(|_| is_done));
                    page.noted_at = if is_done { time_of_day() } else { String::new() };
                });
            }
        }
        Tick::Item(item) => model.notebook.note(today, |page| page.tick(Done::Task(item.task), is_done)),
    }
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
            Some(with) => model.before_copy = Some(std::mem::replace(&mut model.notebook, with)),
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

/// What a list that came back says, day by day, and noting it.
fn came_back(app: App) -> Element {
    let key = move || {
        let model = app.look();
        (if model.share.before_reply.is_some() { "noted" } else { "" }).to_owned() + &words::looked_at(&model)
    };
    element("div").fill_for(key, move || {
        let model = app.look();
        let Some(reply) = &model.share.reply else {
            return Vec::new();
        };
        let mut parts = Vec::new();
        if !model.notebook.shared.contains(&reply.plan) {
            parts.push(error_note(
                "This list answers a plan that was not made with this notebook. Look whether the days and plants are yours before you note it.".into(),
            ));
        }
        let made = ["It answers the plan that was made on ", &reply.made.spoken(), "."].concat();
        parts.push(element("p").text(made));
        if reply.days.is_empty() {
            parts.push(element("p").class("mt").text("Nothing was ticked yet."));
            return parts;
        }
        let days = reply.days.iter().map(|page| {
            let time = element("time").set("datetime", page.day.to_string()).text(page.day.spoken());
            element("li").child(element("b").child(time)).text(". ".to_owned() + &told(&model, page))
        });
        parts.push(element("ul").class("due mt").set("id", "came-back").children(days));
        parts.push(element("div").class("press").set("id", "note-reply").child(noting(app, &model)));
        parts
    })
}

fn noting(app: App, model: &Model) -> Element {
    let focus = || request_animation_frame(|| focus_on("#note-reply button"));
    if model.share.before_reply.is_some() {
        let back = act(move |()| {
            app.change(|model| {
                if let Some(before) = model.share.before_reply.take() {
                    model.notebook = before;
                }
            });
            focus();
        });
        return undo_row(
            "In your notebook".to_owned(),
            "what stood there of these days stayed".to_owned(),
            link_button("Undo".into(), back),
        );
    }
    let note = act(move |()| {
        app.change(|model| {
            let before = model.notebook.clone();
            if let Some(reply) = &model.share.reply {
                reply.note_in(&mut model.notebook);
                model.share.before_reply = Some(before);
            }
        });
        focus();
    });
    button("Note it in my notebook".into(), note)
}

/// What was done on a day, in words.
fn told(model: &Model, page: &DayPage) -> String {
    let mut parts = Vec::new();
    for group in &page.groups {
        let record = model.notebook.groups.iter().find(|record| record.id == group.id);
        let name = record.map_or_else(|| "Plants that are not here any more".to_owned(), group_name);
        let litres = |litres: f64| amount(&Measure::dose(Volume::from_litres(litres), model.units()));
        let given = group.given.map(|given| litres(given) + " a plant");
        let felt = group.feel.map(|feel| "felt ".to_owned() + words::feels(feel));
        let fed = group.fed.map(|fed| "fed ".to_owned() + &litres(fed) + " a plant");
        let said: Vec<_> = given.into_iter().chain(fed).chain(felt).collect();
        parts.push(name + ": " + &said.join(", "));
    }
    for done in &page.done {
        parts.push(match *done {
            Done::Task(task) => task_words(task).to_owned(),
            Done::Treated(pest, control) => treatment_words(Treatment {
                day: page.day,
                pest,
                control,
            }),
        });
    }
    if let Some(Sun::Word(sky)) = page.weather.and_then(|weather| weather.sun) {
        parts.push("The day was ".to_owned() + sky.code());
    }
    parts.join(". ") + "."
}
