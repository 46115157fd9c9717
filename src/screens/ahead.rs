//! What the plans ahead have in common: the groups as they stand this morning, and how stored water is printed.

use super::model::Model;
use super::words::group_name;
use crate::notebook::{Field, GroupRecord};
use crate::quantity::{Units, decimal};
use crate::water::{DailyNeed, Season, Standing, daily_need};

/// Each group that has an answer and plants.
pub fn drinkers(model: &Model) -> Vec<(&GroupRecord, &Season)> {
    let groups = model.notebook.groups.iter().zip(&model.answers);
    let drinkers = groups.filter_map(|(record, answer)| Some((record, &answer.shown.as_ref()?.season)));
    drinkers.filter(|(record, _)| record.count() > 0).collect()
}

/// The same, as they stand this morning.
pub fn standings(model: &Model) -> Vec<Standing> {
    let shown = model.answers.iter().filter_map(|answer| answer.shown.as_ref());
    let drinkers = shown.filter(|shown| shown.standing.group.count > 0);
    drinkers.map(|shown| shown.standing.clone()).collect()
}

/// What all groups get in a day under three skies.
pub fn need(model: &Model, standings: &[Standing]) -> Option<DailyNeed> {
    daily_need(standings, model.notebook.place(), model.today).ok()
}

/// Tells one state of all groups from another.
pub fn turns(model: &Model) -> String {
    let names = model.notebook.groups.iter().map(group_name);
    let turns = model.answers.iter().map(|answer| answer.turn.to_string());
    turns.zip(names).map(|(turn, name)| turn + &name + "\n").collect()
}

/// Stored water as its figure and its unit: in gallons or litres.
pub fn stored(litres: f64, units: Units) -> (String, &'static str) {
    let typed = Field::ButtSize.typed(units, litres);
    let figure = decimal(typed, usize::from(typed < 10.0));
    let unit = Field::ButtSize.unit(units).trim_start();
    let unit = if figure == "1" { unit.trim_end_matches('s') } else { unit };
    (figure, unit)
}

/// Stored water in words: "28 gallons".
pub fn stored_words(litres: f64, units: Units) -> String {
    let (figure, unit) = stored(litres, units);
    figure + " " + unit
}

/// Whole days in words.
pub fn days_words(days: f64) -> String {
    let figure = decimal(days, 0);
    let unit = if figure == "1" { " day" } else { " days" };
    figure + unit
}
