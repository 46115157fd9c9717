//! The week on paper: what each plant gets by what the day before was like, and the days with what falls due, to be ticked by hand.

use super::ahead::{days_words, drinkers, standings};
use super::app::App;
use super::card::{feed_words, treatment_words};
use super::model::Model;
use super::parts::{Element, Table, act, button, element, error_note, plain_section};
use super::share_state::plan;
use super::words::{group_name, group_small, one_container};
use crate::almanac::Sky;
use crate::notebook::Plan;
use crate::quantity::{Measure, UnitSystem, Volume, cans, quarters};
use crate::water::{Absence, AwayPlan, Outlook, away_plan};

/// The whole screen.
pub fn week(app: App) -> Vec<Element> {
    let sheet = element("div").class("paper").fill_for(
        move || super::ahead::turns(&app.look()) + &app.look().today.to_string(),
        move || sheet(&app.look()),
    );
    vec![sheet]
}

/// The button that prints a sheet. Paper takes nothing that can be pressed.
pub fn print_button() -> Element {
    let print = act(move |()| {
        if let Some(window) = web_sys::window() {
            let _ = window.print();
        }
    });
    element("div").class("btn-row").child(button("Print this page".into(), print))
}

/// A heading that takes the focus, a line under it, and the button that prints.
pub fn heading(title: &'static str, line: String) -> Element {
    let title = element("h1")
        .class("sheet-title")
        .set("id", "question")
        .set("tabindex", "-1")
        .text(title);
    element("div").children([title, element("p").class("note").text(line), print_button()])
}

fn sheet(model: &Model) -> Vec<Element> {
    let Some(plan) = plan(model) else {
        return vec![
            heading("The week on paper", String::new()),
            error_note("No group has an answer this morning, so there is nothing to write down.".into()),
        ];
    };
    let notebook = &model.notebook;
    let whose = [notebook.plot.name.trim(), notebook.plot.number.trim()].join(" ");
    let days = days_words(f64::from(plan.days));
    let line = [
        whose.trim(),
        if whose.trim().is_empty() { "" } else { ": " },
        &days,
        " from ",
        &plan.first.spoken(),
        ".",
    ]
    .concat();
    let mut parts = vec![heading("The week on paper", line)];
    match amounts(model, &plan) {
        Some(table) => {
            let table = element("div").class("by-sky").child(table);
            parts.push(plain_section("", "Each plant, by what the day before was like", table));
        }
        None => parts.push(error_note("This season has days without sun: go by the compost.".into())),
    }
    parts.push(plain_section(
        "",
        "The days",
        element("div").class("by-day").child(days_table(&plan)),
    ));
    let lines = [
        "Squeeze a handful first. If it drips, leave those plants that day; if it is dry, pour in parts with a pause between.",
        "A large dose goes on in parts, the last of them before three.",
        "Outdoors: none if it has rained hard. Feed only on moist compost: it is part of the day’s water.",
        "A product is used only by someone who has its label in hand: the label and local rules win over every date.",
    ];
    let items = lines.into_iter().map(|line| element("li").text(line));
    parts.push(plain_section(
        "",
        "Before you pour",
        element("ul").class("cautions").children(items),
    ));
    parts
}

/// What each group gets under each sky: for a plant, for a container that several share, and all of it in cans.
fn amounts(model: &Model, plan: &Plan) -> Option<Element> {
    let standings = standings(model);
    let under = |sky: Sky| -> Option<AwayPlan> {
        let absence = Absence {
            first: plan.first,
            days: plan.days,
            outlook: Outlook::under(sky),
        };
        away_plan(&standings, absence, model.notebook.place()).ok()
    };
    let plans: Vec<AwayPlan> = Sky::ALL.into_iter().map(under).collect::<Option<_>>()?;
    let units = model.units();
    // One unit for a row: where a figure is in millilitres, all of them are, and it says so.
    let row = |name: String, litres: &dyn Fn(&AwayPlan) -> f64| {
        let cells: Vec<_> = plans
            .iter()
            .map(|plan| Measure::dose(Volume::from_litres(litres(plan)), units))
            .collect();
        let Some(like) = cells.iter().find(|cell| cell.unit == "ml").or_else(|| cells.first()) else {
            return vec![name];
        };
        let mut row = vec![name + if like.unit == "ml" { ", ml" } else { "" }];
        row.extend(
            plans
                .iter()
                .map(|plan| Measure::end_of_range(Volume::from_litres(litres(plan)), units, like).figure),
        );
        row
    };
    let mut rows = Vec::new();
    for (place, (record, _)) in drinkers(model).into_iter().enumerate() {
        let a_day = |plan: &AwayPlan| plan.groups.get(place).map_or(0.0, |group| group.a_day);
        rows.push(row(group_name(record) + ", " + &group_small(record), &a_day));
        let sharing = f64::from(record.group().container.plants());
        if sharing > 1.0 {
            let name = group_name(record) + ", " + one_container(record.container);
            rows.push(row(name, &|plan| sharing * a_day(plan)));
        }
    }
    let can = Volume::from_litres(model.notebook.can_litres());
    let counts: Vec<f64> = standings.iter().map(|standing| f64::from(standing.group.count)).collect();
    let all = |plan: &AwayPlan| {
        let litres = plan.groups.iter().zip(&counts).map(|(group, count)| group.a_day * count).sum();
        let (under, cans) = cans(Volume::from_litres(litres), can);
        under.to_owned() + &quarters(cans)
    };
    let mut last = vec!["All together, cans".to_owned()];
    last.extend(plans.iter().map(all));
    rows.push(last);
    let table = Table {
        caption: match units.system {
            UnitSystem::Imperial => "Pints for each plant in a day, or ml where it says so",
            UnitSystem::Metric => "Litres for each plant in a day, or ml where it says so",
            UnitSystem::Us => "US pints for each plant in a day, or ml where it says so",
        },
        heads: &["Plants", "Clear", "Bright", "Mixed", "Dull", "Dark"],
        rows,
    };
    Some(table.view())
}

/// A row for each day, with room to tick.
fn days_table(plan: &Plan) -> Element {
    let mut rows = Vec::new();
    let mut day = plan.first;
    for _ in 0..plan.days {
        let feed = plan.feed.as_ref().filter(|_| plan.feeds_on(day));
        let treatments = plan.treatments.iter().filter(|treatment| treatment.day == day);
        let treatments: Vec<_> = treatments.map(|treatment| treatment_words(treatment, &plan.notebook)).collect();
        let mut due = treatments.join("; ");
        if let Some(feed) = feed {
            due = "Feed: ".to_owned() + &feed_words(feed, &plan.notebook) + if due.is_empty() { "" } else { "; " } + &due;
        }
        rows.push(vec![day.spoken(), String::new(), due]);
        day = day.tomorrow();
    }
    Table {
        caption: "Write down what was poured",
        heads: &["Day", "Poured", "Falls due"],
        rows,
    }
    .view()
}
