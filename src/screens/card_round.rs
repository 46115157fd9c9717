//! The round on another plot's card: each line can be ticked, and what is ticked stands in the card's own notebook.

use super::app::App;
use super::card::{feed_words, treatment_words};
use super::model::Model;
use super::parts::{Element, TickBox, element};
use super::pest_words::how_to;
use super::round::{Line, items, line};
use super::share_state::Guest;
use crate::almanac::CivilDay;
use crate::browser::time_of_day;
use crate::notebook::{DayPage, Done, Plan, Treatment};
use crate::today::{Item, Task};

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
    let mut ticks: Vec<_> = items(model, &|_| false, &|id| is_feed_due(model, plan, id))
        .into_iter()
        // What cannot be put back is left to whose plants they are.
        .filter(|item| item.task != Task::StopPlants)
        .map(Tick::Item)
        .collect();
    for treatment in &plan.treatments {
        let is_done = |page: &DayPage| page.day >= treatment.day && page.day < model.today && is_done(page, treatment);
        if treatment.day <= model.today && !model.notebook.days.iter().any(is_done) {
            ticks.push(Tick::Treatment(*treatment));
        }
    }
    ticks
}

fn words_of(tick: &Tick, model: &Model) -> Line {
    match tick {
        Tick::Treatment(treatment) => Line::plain(
            treatment_words(treatment, &model.notebook),
            ["due ", &treatment.day.spoken(), how_to(treatment.control, treatment.pest)].concat(),
            false,
        ),
        Tick::Item(item) => {
            let mut line = line(item, model);
            let feed = model.share.guest.as_ref().and_then(|guest| guest.plan.feed.as_ref());
            if let (Task::Feed, false, Some(feed)) = (item.task, item.not_today, feed) {
                line.why = feed_words(feed, &model.notebook) + ", as part of the water, on moist compost";
            }
            line
        }
    }
}

/// The round as a list to be ticked, and what not to do today.
pub fn round(app: App) -> Element {
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

/// Whether a day's page says that a treatment was done.
fn is_done(page: &DayPage, treatment: &Treatment) -> bool {
    page.done.iter().any(|done| done.is_of(treatment))
}

fn is_ticked(model: &Model, tick: &Tick) -> bool {
    let Some(page) = model.notebook.day(model.today) else {
        return false;
    };
    match tick {
        Tick::Treatment(treatment) => is_done(page, treatment),
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
            let done = Done::Treated(treatment.pest, treatment.control, treatment.plants);
            model.notebook.note(today, |page| {
                page.done.retain(|other| !other.is_of(treatment));
                page.tick(done, is_done);
            });
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
