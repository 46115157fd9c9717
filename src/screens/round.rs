//! Today's round: what is to be done today, in which order, and what not.

use super::ahead::{need, standings};
use super::app::App;
use super::card::treatment_words;
use super::feed_answers::{season_is_over, stage};
use super::feed_mix::{is_cold, wilts};
use super::model::Model;
use super::parts::{Element, element, plain_section};
use super::pest_beside::is_wet_today;
use super::pest_words::{how_to, wait_words};
use super::share_state::due_today;
use super::tips::{stop_button, way_back};
use super::watered::{is_all_fed, is_noted};
use super::words::group_name;
use crate::feed::{Stage, is_due};
use crate::notebook::Field;
use crate::pest::Control;
use crate::quantity::decimal;
use crate::today::{ButtToday, GroupToday, Item, Known, Reason, Task, todays_round};
use crate::water::away_plan;

/// The section; absent as long as there is but one thing to do.
pub fn today(app: App) -> Element {
    let key = move || {
        let model = app.look();
        let key_of = |line: Line| {
            let ids: String = line.stops.iter().map(|id| id.to_string() + " ").collect();
            line.what + &line.why + &ids + "\n"
        };
        let lines = lines(&model).into_iter().map(key_of);
        lines.chain([model.stopped.is_empty().to_string()]).collect()
    };
    let shown = move || {
        let model = app.look();
        round(app, lines(&model), way_back(app, &model))
    };
    element("div").fill_for(key, shown).unhurried()
}

/// One thing in words.
pub struct Line {
    pub what: String,
    pub why: String,
    pub not_today: bool,
    /// The numbers of the groups whose tips are to be taken out.
    pub stops: Vec<u32>,
}

impl Line {
    /// What there is nothing to press about.
    pub const fn plain(what: String, why: String, not_today: bool) -> Self {
        Self {
            what,
            why,
            not_today,
            stops: Vec::new(),
        }
    }
}

fn round(app: App, lines: Vec<Line>, way_back: Option<Element>) -> Vec<Element> {
    let (not_today, to_do): (Vec<Line>, Vec<Line>) = lines.into_iter().partition(|line| line.not_today);
    if to_do.len() < 2 && not_today.is_empty() && way_back.is_none() {
        return Vec::new();
    }
    let list = |tag: &'static str, class: &'static str, lines: Vec<Line>| {
        let items = lines.into_iter().map(|line| {
            let why = element("small").text(line.why);
            let words = element("span").child(element("b").text(line.what)).child(why);
            let stop = (!line.stops.is_empty()).then(|| stop_button(app, line.stops));
            element("li").child(words.children(stop))
        });
        element(tag).class(class).children(items)
    };
    let mut body = element("div");
    if !to_do.is_empty() {
        body = body.child(list("ol", "round", to_do));
    }
    body = body.children(way_back);
    if !not_today.is_empty() {
        body = body.child(element("h3").text("Not today")).child(list("ul", "round", not_today));
    }
    vec![plain_section("round", "Today’s round", body)]
}

/// The round over all that is known this morning.
fn lines(model: &Model) -> Vec<Line> {
    let may_feed = !is_cold(model) && !wilts(model);
    let is_watered = |id| {
        let mut answers = model.answers.iter();
        is_noted(model, id) || answers.any(|answer| answer.id == id && is_all_fed(model, answer))
    };
    let items = items(model, &is_watered, &|id| may_feed && feed_due(model, id));
    let mut lines: Vec<Line> = items.iter().map(|item| line(item, model)).collect();
    for treatment in due_today(model) {
        if treatment.control == Control::WaterJet && is_wet_today(model, treatment.plants) {
            let why = "sprayed today: water would wash it off".to_owned();
            lines.push(Line::plain(treatment_words(&treatment, &model.notebook), why, true));
            continue;
        }
        let may_pick = model.notebook.pick_in(model.today).is_none();
        let first = if treatment.control.is_sprayed() && may_pick {
            "; pick what is ripe first"
        } else {
            ""
        };
        let why = ["due today", how_to(treatment.control, treatment.pest), first].concat();
        lines.push(Line::plain(treatment_words(&treatment, &model.notebook), why, false));
    }
    let wait = wait_words(&model.notebook.uses_elsewhere(0, model.today), model.today);
    if !wait.is_empty() {
        lines.push(Line::plain("Pick".to_owned(), wait, true));
    }
    lines
}

/// The items of the round; `watered` and `feed_due` tell of a group by its number.
pub fn items(model: &Model, watered: &dyn Fn(u32) -> bool, feed_due: &dyn Fn(u32) -> bool) -> Vec<Item> {
    let groups: Vec<_> = model
        .answers
        .iter()
        .map(|answer| {
            let shown = answer.shown.as_ref()?;
            Some(GroupToday {
                group: &shown.standing.group,
                dose: shown.dose(),
                last: shown.last_truss.as_ref(),
                stopped: shown.standing.stopped_at.is_some(),
                feed_due: feed_due(answer.id),
                watered: watered(answer.id),
            })
        })
        .collect();
    let known = Known {
        today: model.today,
        groups: &groups,
        butt: butt(model),
        someone_comes: model.notebook.away.now(model.today).and_then(|_| {
            let absence = model.notebook.absence(model.today);
            let standings = standings(model);
            let plan = away_plan(&standings, absence, model.notebook.place()).ok()?;
            Some(plan.someone_comes?.by)
        }),
    };
    todays_round(&known)
}

/// Whether a group was fed before, and is to be again.
fn feed_due(model: &Model, id: u32) -> bool {
    let usual = model.assumed(Field::FeedsAWeek).unwrap_or_default();
    let a_week = model.notebook.feed.a_week.value().unwrap_or(usual);
    let group = model.notebook.groups.iter().find(|group| group.id == id);
    let answer = model.answers.iter().find(|answer| answer.id == id);
    let water = answer.and_then(|answer| answer.shown.as_ref());
    let stage = stage(&model.notebook, group, water, model.today);
    let last = model.notebook.last_fed(id, model.today);
    // As Feed mix has it: one that is told to be picked still is fed.
    let is_over = stage == Stage::Late && season_is_over(&model.notebook, water, model.today);
    last.is_some_and(|last| !is_over && is_due(last, a_week, stage, model.today))
}

fn butt(model: &Model) -> Option<ButtToday> {
    let now = model.notebook.butt_now(model.today)?;
    let standings = standings(model);
    Some(ButtToday {
        level: now.butt.level,
        clear_day: need(model, &standings)?.clear,
    })
}

/// An item in words.
pub fn line(item: &Item, model: &Model) -> Line {
    let mut what = task_words(item.task).to_owned();
    let groups = &model.notebook.groups;
    if groups.len() > 1 && (1..groups.len()).contains(&item.groups.len()) {
        let names: Vec<_> = item.groups.iter().filter_map(|&place| groups.get(place)).map(group_name).collect();
        what = what + ": " + &names.join(", ");
    }
    let mut why = String::new();
    if let Some(day) = item.day {
        why = "by ".to_owned() + &day.spoken() + ": ";
    } else if let Some(hours) = item.hours {
        let part = match hours.from {
            ..12 if hours.until <= 12 => " in the morning",
            12.. => " in the afternoon",
            _ => "",
        };
        why = [
            "between ",
            &on_the_clock(hours.from),
            " and ",
            &on_the_clock(hours.until),
            part,
            ": ",
        ]
        .concat();
    }
    Line {
        what,
        why: why + reason_words(item.reason),
        not_today: item.not_today,
        stops: if item.task == Task::StopPlants {
            item.groups
                .iter()
                .filter_map(|&place| groups.get(place))
                .map(|group| group.id)
                .collect()
        } else {
            Vec::new()
        },
    }
}

/// An hour as a clock's face has it.
fn on_the_clock(hour: u8) -> String {
    decimal(f64::from(if hour > 12 { hour - 12 } else { hour }), 0)
}

pub const fn task_words(task: Task) -> &'static str {
    match task {
        Task::Squeeze => "Squeeze a handful first",
        Task::LiftPot => "Lift a pot first",
        Task::WaterDry => "Water the dry ones, in parts",
        Task::Water => "Water",
        Task::Feed => "Feed",
        Task::SqueezeAgain => "Squeeze again",
        Task::TopUpButt => "Top up the butt",
        Task::Tap => "Tap the trusses",
        Task::DampPath => "Damp the path",
        Task::StopPlants => "Take out the tip",
        Task::Taper => "Feed half as often",

        Task::PourAtNoon => "Pour again at noon",
        Task::PourBeforeThree => "Pour the last part",
        Task::SomeoneComes => "Someone has to come and water",
    }
}

const fn reason_words(reason: Reason) -> &'static str {
    match reason {
        Reason::Daily => "before the day warms up",
        Reason::Dry => "dry compost lets water run past",
        Reason::DryRoots => "feed scorches dry roots: water alone today",
        Reason::Sodden => "the compost is sodden",
        Reason::SumReadsHigh => "after a dull day the sum reads high",
        Reason::RainDidIt => "rain has given what was used",
        Reason::SmallStore => "the compost holds too little for the day at once",
        Reason::FlowersOpen => "pollen runs in bright, warm air",
        Reason::BeforeWetting => "before you wet the path: pollen must be dry",
        Reason::HotAndDry => "the house gets hot and its air dry",
        Reason::Dull => "if today is as dull as yesterday no pollen runs",
        Reason::Cool => "it is too cool for pollen to run",
        Reason::Warm => "it is too warm for pollen to run",
        Reason::ColdNight => "the night was too cold for fruit to set",
        Reason::HotDay => "the day was too hot for fruit to set",
        Reason::DampAir => "the air is too damp for pollen to run",
        Reason::ButtShortToday => "it holds too little for this morning",
        Reason::ButtShortTomorrow => "what is left will not do for another clear day",
        Reason::LastTruss => "two leaves above the truss in flower: what flowers later is not likely to ripen",
        Reason::SeasonEnds => "the dose falls by itself: few warm weeks are left",
        Reason::Away => "nobody is at home",
        Reason::FeedDue => "as part of today’s water, on moist compost, as Feed mix says",
        Reason::AlreadyWatered => "watered already: tomorrow, in place of water",
    }
}
