//! Going away: what every group needs meanwhile, when someone has to come, and what to tell them.

use super::ahead::{days_words, drinkers, standings, stored, stored_words, turns};
use super::app::App;
use super::fields::{choice, number};
use super::model::Model;
use super::parts::{Answer, Element, KeyShape, Keys, Live, More, act, element, error_note, live, working};
use super::route::Route;
use super::share_state::still_away;
use super::show_working::steps_of;
use super::words::{amount, both_read, group_name, one_container};
use super::yesterday::sky_faces;
use crate::almanac::{CivilDay, Sky, usual_temperatures};
use crate::notebook::{Coded, Field, GroupRecord, Visits};
use crate::quantity::{Measure, Units, Volume, decimal};
use crate::water::{Absence, AwayGroup, AwayPlan, Season, SomeoneComes, WaterError, away_plan};

/// In how many days the absence may begin, as the values of the list.
const DAYS_AHEAD: [&str; 15] = ["0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12", "13", "14"];

/// The disclosure.
pub fn away(app: App) -> Element {
    More {
        id: "away",
        summary: "Going away".into(),
        aside: app.words(|model| match model.notebook.away.days.value() {
            Some(days) => days_words(days) + " from " + &model.notebook.away.absence(model.today).first.spoken(),
            None => String::new(),
        }),
        minor: false,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(move || inside(app)),
    }
    .view()
}

fn inside(app: App) -> Element {
    let sky = Keys {
        legend: "Sky you expect",
        aside: app.words(|model| {
            if model.notebook.away.sky.is_none() {
                "assumed: as usual for the season".to_owned()
            } else {
                String::new()
            }
        }),
        headed: false,
        name: "away-sky",
        faces: sky_faces(),
        shape: KeyShape::Tall,
        selected: app.live(|model| model.notebook.away.sky.map(|sky| sky.code().to_owned())),
        assumed: Live::fixed(None),
        on_choose: app.act(|model, value: String| model.notebook.away.sky = Sky::from_code(&value)),
    };
    let steps = element("div")
        .class("steps")
        .children([number(app, Field::DaysAway, "without anyone to water"), from(app)]);
    let plan = element("div")
        .fill_for(move || state(&app.look()), move || planned(&app.look()))
        .unhurried();
    let reckoned = More {
        id: "away-working",
        summary: "How the days are reckoned".into(),
        aside: "the plants that run short first".into(),
        minor: true,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(move || {
            let lines = move || plan_of(&app.look()).map(|plan| steps_of(&plan.working)).unwrap_or_default();
            working(live(lines)).unhurried()
        }),
    };
    let paper = element("p").class("mt").child(
        element("a")
            .class("link")
            .set("href", Route::Week.fragment())
            .text("The week on paper, to print"),
    );
    element("div").children([steps, sky.view(), plan, paper, reckoned.view()])
}

/// The first day, from a list that is made anew on each day.
fn from(app: App) -> Element {
    let key = move || app.look().today.to_string();
    element("div").class("steps").fill_for(key, move || {
        let today = app.look().today;
        let ahead = move |day: CivilDay| usize::try_from(day.days_since(today)).ok().and_then(|days| DAYS_AHEAD.get(days));
        let first = app.look().notebook.away.absence(today).first;
        let mut entries: Vec<_> = DAYS_AHEAD
            .into_iter()
            .zip(0..)
            .map(|(value, days)| (value, today.days_later(days).spoken()))
            .collect();
        if ahead(first).is_none() {
            entries.insert(0, ("", first.spoken()));
        }
        let list = choice(
            app,
            "away-from",
            "From",
            entries,
            move |model| {
                let first = model.notebook.away.absence(model.today).first;
                ahead(first).copied().unwrap_or_default().to_owned()
            },
            move |model, days| {
                if let Ok(days) = days.parse() {
                    model.notebook.away.from = Some(today.days_later(days));
                }
            },
        );
        vec![list]
    })
}

/// Tells one state of the plan, and of those that it is for, from another.
fn state(model: &Model) -> String {
    let record = &model.notebook.away;
    let absence = absence(model);
    let level = model.notebook.butt_now(model.today).map(|now| decimal(now.butt.level, 1));
    let sky = record.sky.map(Coded::code).unwrap_or_default();
    let days = absence.days.to_string();
    let parts = [
        days,
        absence.first.to_string(),
        level.unwrap_or_default(),
        turns(model),
        model.notebook.plot.number.clone(),
    ];
    parts.join(" ") + sky
}

/// The days away, or what is left of them once they have begun.
fn absence(model: &Model) -> Absence {
    let absence = model.notebook.absence(model.today);
    let (first, days) = still_away(absence.first, absence.days, model.today);
    Absence { first, days, ..absence }
}

fn plan_of(model: &Model) -> Result<AwayPlan, WaterError> {
    let standings = standings(model);
    away_plan(&standings, absence(model), model.notebook.place())
}

/// The answer, what it means for each group, and the words to hand over.
fn planned(model: &Model) -> Vec<Element> {
    let plan = match plan_of(model) {
        Ok(plan) => plan,
        Err(error) => return vec![error_note(error.sentence(model.units()).into())],
    };
    let units = model.units();
    let absence = absence(model);
    let records = drinkers(model);
    let has_begun = model.notebook.away.absence(model.today).first < absence.first;
    let full = if has_begun {
        "Counted from today, with every bag and pot filled this morning.".to_owned()
    } else {
        "Fill every bag and pot on ".to_owned() + &absence.first.spoken() + " before you go."
    };
    let (figure, unit) = stored(plan.total.value, units);
    let answer = Answer {
        id: "answer-away-litres".to_owned(),
        value: decimal(plan.total.value, 1).into(),
        words: figure.into(),
    };
    let headline = element("p").class("line").child(answer.view().class("n")).child(
        element("span")
            .class("u")
            .text(unit.to_owned() + " in all for " + &days_words(f64::from(absence.days))),
    );
    let mut parts = vec![
        element("div").class("stat mt").child(headline),
        element("p").class("sub").text(range(model, &plan)),
        element("div").class("mt").children(
            records
                .iter()
                .zip(&plan.groups)
                .map(|((record, _), group)| group_line(record, group, absence, units)),
        ),
        element("p").class("mt").text(coming(&plan, absence)),
        element("p").class("note").text(
            full + " A tank that waters by itself has to hold "
                + &stored_words(plan.reservoir, units)
                + ". No rain is counted on."
                + &warmth(model),
        ),
    ];
    if let Some(someone) = &plan.someone_comes {
        parts.push(card(model, &records, &plan, someone));
    }
    parts
}

/// By which temperatures the days are reckoned where the usual ones are a far guess; nothing elsewhere.
fn warmth(model: &Model) -> String {
    let Some((day, read)) = model.notebook.read_for_ahead(model.today) else {
        let is_far = usual_temperatures(model.notebook.place(), model.today).far_guess;
        let words = " The usual temperatures are a far guess here: type those of yesterday on Morning water first.";
        return if is_far { words } else { "" }.to_owned();
    };
    [
        " Taken to be as warm as ",
        &day.spoken(),
        ": ",
        &both_read(&read, model.units()),
        ".",
    ]
    .concat()
}

/// The likely range, and what the butt makes of it.
fn range(model: &Model, plan: &AwayPlan) -> String {
    let units = model.units();
    let total = plan.total;
    let likely = "likely ".to_owned() + &stored(total.low, units).0 + " to " + &stored_words(total.high, units) + ".";
    let Some(now) = model.notebook.butt_now(model.today) else {
        return likely;
    };
    let level = now.butt.level;
    let enough = if level >= total.high {
        ": enough."
    } else if level >= total.value {
        ": enough unless they are thirsty."
    } else if level >= total.low {
        ": it may run out."
    } else {
        ": too little."
    };
    likely + " The butt holds " + &stored_words(level, units) + enough
}

/// What one group takes and when it runs short.
fn group_line(record: &GroupRecord, group: &AwayGroup, absence: Absence, units: Units) -> Element {
    // What they use; what is poured is a little more, for a part of it runs out.
    let a_day = group.each.value / f64::from(absence.days.max(1));
    let each = amount(&Measure::dose(Volume::from_litres(a_day), units));
    let words = ": about ".to_owned() + &each + " for each plant a day, " + &stored_words(group.all.value, units) + " in all";
    let short = match group.runs_short(absence) {
        Some((by, _)) => "; runs short on ".to_owned() + &by.spoken() + ".",
        None => "; holds out.".to_owned(),
    };
    element("p").child(element("b").text(group_name(record))).text(words + &short)
}

/// When someone has to come.
fn coming(plan: &AwayPlan, absence: Absence) -> String {
    let Some(someone) = &plan.someone_comes else {
        return "If the weather is as expected and all of them are poured full before you go, none should run short before you are back. \
                Have someone look in if it turns hot."
            .to_owned();
    };
    let last = i32::try_from(absence.days).unwrap_or(i32::MAX);
    let back = absence.first.days_later(last);
    if someone.by >= back {
        return "They may just hold out. If they are thirsty, someone has to come by ".to_owned() + &someone.early.spoken() + ".";
    }
    let mut words = "Someone has to come by ".to_owned() + &someone.by.spoken();
    if someone.early < someone.by {
        words = words + ", by " + &someone.early.spoken() + " if they are thirsty";
    }
    words + ", then " + &how_often(someone.every, someone.daily_is_too_seldom) + "."
}

/// What is asked of whoever waters, in one sentence: how often they come, and when; or to look in only.
pub fn asked(model: &Model, (first, days): (CivilDay, u32), visits: Visits) -> String {
    let count: u32 = standings(model).iter().map(|standing| standing.group.count).sum();
    let plants = if count == 1 {
        "this plant".to_owned()
    } else {
        ["these ", &count.to_string(), " plants"].concat()
    };
    let last = first.days_later(i32::try_from(days).unwrap_or(i32::MAX)).yesterday();
    let dates = [&first.spoken(), " to ", &last.spoken()].concat();
    if visits.every == 0 {
        let words = ". Water only what feels dry, or when it turns hot: it should last.";
        return [&dates, ": please look in on ", &plants, words].concat();
    }
    let often = how_often(visits.every, visits.twice_a_day);
    let by = visits.by.spoken();
    [&dates, ": please water ", &plants, " ", &often, ", beginning by ", &by, "."].concat()
}

/// How often someone has to come in so many days from `first`.
pub fn visits(model: &Model, first: CivilDay, days: u32) -> Visits {
    let absence = Absence {
        first,
        days,
        ..model.notebook.absence(model.today)
    };
    let plan = away_plan(&standings(model), absence, model.notebook.place()).ok();
    match plan.and_then(|plan| plan.someone_comes) {
        Some(someone) => Visits {
            every: someone.every,
            by: someone.early,
            twice_a_day: someone.daily_is_too_seldom,
        },
        None => Visits {
            every: 0,
            by: first,
            twice_a_day: false,
        },
    }
}

fn how_often(every: u32, twice_a_day: bool) -> String {
    match every {
        _ if twice_a_day => "morning and early afternoon every day".to_owned(),
        1 => "every morning".to_owned(),
        days => "every ".to_owned() + &days_words(f64::from(days)),
    }
}

/// Words for whoever waters, to be copied or read out.
fn card(model: &Model, records: &[(&GroupRecord, &Season)], plan: &AwayPlan, someone: &SomeoneComes) -> Element {
    let units = model.units();
    let plot = model.notebook.plot.number.trim();
    let heading = "For whoever waters".to_owned() + if plot.is_empty() { "" } else { ", plot " } + plot;
    let mut lines =
        vec!["Come by ".to_owned() + &someone.early.spoken() + ", then " + &how_often(someone.every, someone.daily_is_too_seldom) + "."];
    for ((record, _), group) in records.iter().zip(&plan.groups) {
        let of = |litres: f64| amount(&Measure::dose(Volume::from_litres(litres), units));
        let litres = group.a_visit(someone.every);
        let mut line = group_name(record) + ": " + &of(litres) + " a plant";
        let sharing = record.group().container.plants();
        if sharing > 1 {
            line = line + ", " + &of(litres * f64::from(sharing)) + " " + one_container(record.container);
        }
        let when = match someone.every {
            _ if someone.daily_is_too_seldom => " a day, half of it each time.",
            1 => " each time.",
            _ => " each time, in two or three rounds a quarter of an hour apart.",
        };
        line += when;
        if record.place.is_outdoors() {
            line += " None if it has rained hard.";
        }
        lines.push(line);
    }
    lines.push("Squeeze a handful first: if it drips, leave those plants that day.".to_owned());
    let items = lines.into_iter().map(|line| element("li").text(line));
    element("div")
        .class("card")
        .set("id", "hand-over")
        .child(element("h3").text(heading))
        .child(element("ol").children(items))
}
