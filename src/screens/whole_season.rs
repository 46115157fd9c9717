//! The season on a page: water for each plant, feed, treatments and what was noted, in totals and pictures.

use super::ahead::{days_words, drinkers, stored_words, turns};
use super::app::App;
use super::card::treatment_words;
use super::feed_answers::FeedAnswer;
use super::feed_words::{measured_out, poured};
use super::model::Model;
use super::parts::{Answer, Element, Table, element, plain_section};
use super::round::task_words;
use super::season::{earlier_seasons, weeks_of};
use super::week::heading;
use super::words::{amount, group_name, short_day};
use crate::almanac::CivilDay;
use crate::notebook::{A_SEASON, Coded, Done, GroupRecord, GroupSeason, SeasonPage, Treatment};
use crate::quantity::{Measure, Volume, decimal};
use crate::today::Task;
use crate::water::{DayRow, Feel, Season};

/// The whole screen.
pub fn whole_season(app: App) -> Vec<Element> {
    let sheet = element("div").class("paper").fill_for(
        move || turns(&app.look()) + &app.look().today.to_string(),
        move || sheet(&app.look()),
    );
    vec![sheet]
}

fn sheet(model: &Model) -> Vec<Element> {
    let line = "Water up to ".to_owned()
        + &model.today.yesterday().spoken()
        + ", all else up to today. Days without a note count as watered as advised until the first note, and from then on as dry, in long silences as watered in part.";
    let mut parts = vec![heading("The season so far", line)];
    for ((record, season), place) in drinkers(model).into_iter().zip(1..) {
        parts.push(plain_section("", group_name(record), water(model, record, season, place)));
    }
    parts.extend(water_of_gone(model).map(|table| plain_section("", "Plants that are gone".to_owned(), table.view())));
    parts.push(plain_section("", "Feed".to_owned(), feed(model)));
    parts.push(plain_section("", "Treatments".to_owned(), treatments(model)));
    parts.push(plain_section("", "Noted".to_owned(), noted(model)));
    if !model.notebook.seasons.is_empty() {
        parts.push(plain_section("", "Earlier seasons".to_owned(), earlier_seasons(model, None).view()));
    }
    parts
}

fn line(words: String) -> Element {
    element("p").text(words)
}

/// What each plant of a group got, used and lost, and the weeks drawn.
fn water(model: &Model, record: &GroupRecord, season: &Season, place: usize) -> Element {
    let units = model.units();
    let litres = |litres: f64| amount(&Measure::dose(Volume::from_litres(litres), units));
    let sum = |of: &dyn Fn(&DayRow) -> f64| season.days.iter().map(of).sum::<f64>();
    let given = sum(&|day| day.flows.given);
    if season.days.is_empty() {
        return line("No day is over yet of which anything was told.".to_owned());
    }
    let answer = Answer {
        id: if place == 1 {
            "answer-season-water".to_owned()
        } else {
            "answer-season-water-".to_owned() + &place.to_string()
        },
        value: decimal(given, 1).into(),
        words: litres(given).into(),
    };
    let assumed = sum(&|day| if day.assumed_pour { day.flows.given } else { 0.0 });
    let days = if season.days.len() == 1 {
        "one day".to_owned()
    } else {
        season.days.len().to_string() + " days"
    };
    let mut rest = [
        " for each plant in ",
        &days,
        "; used ",
        &litres(sum(&|day| day.flows.used)),
        ", ran off ",
        &litres(sum(&|day| day.flows.drained)),
        ".",
    ]
    .concat();
    if assumed > 0.0 {
        rest = rest + " Of that " + &litres(assumed) + " was not noted.";
    }
    let all = given * f64::from(record.count());
    let whole = match record.count() {
        1 => String::new(),
        count => ["All ", &count.to_string(), " together: ", &stored_words(all, units), "."].concat(),
    };
    let headline = element("p").class("sum").child(answer.view()).text(rest);
    element("div").children([headline, line(whole)]).children(weeks_of(model, season))
}

/// What was noted this season of the groups that are gone, if anything was.
fn gone(model: &Model) -> Option<SeasonPage> {
    let mut season = model.notebook.season_so_far(model.today)?;
    season.groups.retain(|group| !model.notebook.stands(group.id));
    (!season.groups.is_empty()).then_some(season)
}

/// What each plant of the groups that are gone got.
fn water_of_gone(model: &Model) -> Option<Table> {
    let row = |group: &GroupSeason| {
        vec![
            name_of_gone(model, group.id),
            if group.plants == 0 {
                String::new()
            } else {
                group.plants.to_string()
            },
            amount(&Measure::dose(Volume::from_litres(group.given), model.units())),
            days_words(f64::from(group.days)),
        ]
    };
    let season = gone(model)?;
    let rows: Vec<_> = season.groups.iter().filter(|group| group.days > 0).map(row).collect();
    (!rows.is_empty()).then_some(Table {
        caption: "As it was noted",
        heads: &["Plants", "How many", "Given to each", "On"],
        rows,
    })
}

fn name_of_gone(model: &Model, id: u32) -> String {
    model.notebook.gone(id).map_or_else(|| "A group".to_owned(), group_name)
}

/// A group of which something may be noted this season, whether it stands or is gone.
struct Plants {
    id: u32,
    name: String,
    count: u32,
}

fn all_plants(model: &Model) -> Vec<Plants> {
    let standing = model.notebook.groups.iter().map(|record| Plants {
        id: record.id,
        name: group_name(record),
        count: record.count(),
    });
    let gone = gone(model).map(|season| season.groups).unwrap_or_default();
    let gone = gone.iter().map(|group| Plants {
        id: group.id,
        name: name_of_gone(model, group.id),
        count: group.plants,
    });
    standing.chain(gone).collect()
}

/// How often and with how much each group was fed since the first day of the season.
fn feed(model: &Model) -> Element {
    let since = first_day(model);
    let mut answer = FeedAnswer::default();
    answer.work_out(&model.notebook, model.group(), model.shown(), model.today);
    let shown = answer.shown.as_ref();
    let mut rows = Vec::new();
    let mut whole = 0.0;
    for Plants { id, name, count } in all_plants(model) {
        let pages = model.notebook.days.iter().filter(|page| (since..=model.today).contains(&page.day));
        let fed: Vec<f64> = pages.filter_map(|page| page.group(id)?.fed).collect();
        let each: f64 = fed.iter().sum();
        if fed.is_empty() {
            continue;
        }
        let mut row = vec![name, fed.len().to_string(), poured(each, model.units())];
        let contents = shown.map(|shown| shown.mix.strength.feed).unwrap_or_default();
        let grams = |milligrams: f64| decimal(milligrams * each / 1000.0, 1);
        row.extend([contents.nitrogen(), contents.phosphorus, contents.potassium].map(grams));
        rows.push(row);
        whole += each * f64::from(count);
    }
    if rows.is_empty() {
        return line("No feed is noted.".to_owned());
    }
    let table = Table {
        caption: "For each plant; grams as elements",
        heads: &["Plants", "Times", "Feed", "N", "P", "K"],
        rows,
    };
    let of_feed = shown.map(|shown| {
        let feed = shown.mix.amount.value / shown.can * whole;
        let unit = if shown.mix.is_weighed { " g" } else { " ml" };
        line(
            [
                "About ",
                &measured_out(feed),
                unit,
                " of feed for all plants, and the grams, as the can is mixed now.",
            ]
            .concat(),
        )
    });
    element("div").class("by-feed").children(of_feed).child(table.view())
}

/// What was done this season against pests, by day.
fn treatments(model: &Model) -> Element {
    let done = model.notebook.treatments_done(model.today.days_later(-A_SEASON), model.today);
    if done.is_empty() {
        return line("No treatment is noted.".to_owned());
    }
    let row = |treatment: &Treatment| vec![short_day(treatment.day), treatment_words(treatment, &model.notebook)];
    let table = Table {
        caption: "As they were noted",
        heads: &["Day", "Against what, with what"],
        rows: done.iter().map(row).collect(),
    };
    table.view()
}

/// How the compost felt, and what else was ticked.
fn noted(model: &Model) -> Element {
    let since = first_day(model);
    let days = since..=model.today;
    let pages: Vec<_> = model.notebook.days.iter().filter(|page| days.contains(&page.day)).collect();
    let mut rows = Vec::new();
    for Plants { id, name, .. } in all_plants(model) {
        let felt = |feel: Feel| {
            let of = |page: &&&crate::notebook::DayPage| page.group(id).and_then(|group| group.feel) == Some(feel);
            pages.iter().filter(of).count().to_string()
        };
        let [dry, moist, sodden] = [Feel::Dry, Feel::Moist, Feel::Sodden].map(felt);
        rows.push(vec![name, dry, moist, sodden]);
    }
    let felt = Table {
        caption: "Mornings on which the compost felt so",
        heads: &["Plants", "Dry", "Moist", "Sodden"],
        rows,
    };
    let ticked = |task: Task| pages.iter().filter(|page| page.done.contains(&Done::Task(task))).count();
    let done = Task::CODES
        .iter()
        .map(|(_, task)| (*task, ticked(*task)))
        .filter(|(_, times)| *times > 0);
    let done: Vec<_> = done
        .map(|(task, times)| task_words(task).to_owned() + ": " + &times.to_string())
        .collect();
    let mut parts = vec![felt.view()];
    if !done.is_empty() {
        parts.push(line("Ticked: ".to_owned() + &done.join("; ") + "."));
    }
    element("div").children(parts)
}

/// The first day of this season, of all groups, those that are gone too.
fn first_day(model: &Model) -> CivilDay {
    let seasons = drinkers(model);
    let firsts = seasons.iter().filter_map(|(_, season)| season.days.first()).map(|day| day.day);
    firsts.chain(gone(model).map(|season| season.first)).min().unwrap_or(model.today)
}
