//! One thing after another is changed in the calculation; a check must notice each.
//!
//! cargo-mutants lists the changes. To build the program anew for each of some 6,500 takes days, so all are written into one copy
//! of the source, each behind a number (`switches.rs`), which is built once. What cannot be written in so, such as a change to a
//! constant, has a program of its own (`alone.rs`).

mod alone;
mod attempt;
mod copy;
mod lines;
mod list;
mod quick;
mod ready;
mod record;
mod switches;
mod trial;
mod writer;

use std::time::{Instant, SystemTime, UNIX_EPOCH};

use crate::failure::{Failure, Outcome};
use crate::project::Project;
use crate::tools::cargo_mutants;
use attempt::{Asked, ask_longest, attempt, one_by_one};
pub use quick::{Quick, quick};
use ready::Ready;
use record::{List, Record};

/// The calculation: every change to it must be noticed.
pub const MODULES: [&str; 7] = ["quantity", "working", "almanac", "feed", "pest", "water", "notebook"];
const VERSION: &str = "27.1.0";
/// How a trial goes.
pub struct Trial<'a> {
    /// Such as "0/8".
    pub share: Option<&'a str>,
    /// Goes on from the record: what it missed, and what it did not come to.
    pub again: bool,
    /// For each module; the longest checks, and what has to be built by itself, are left for a trial without a limit.
    pub minutes: Option<f64>,
}

/// Tries the changes of these modules and keeps their records.
pub fn prove(project: &Project, modules: &[&str], trial: &Trial) -> Outcome<()> {
    let programs = cargo_mutants(project)?;
    let justified = List::justified(&project.root)?;
    let ready = Ready::make(project, list::changes(project, &programs, &MODULES, None)?, trial.minutes.is_none())?;
    let names = ready.checks.names();
    let mut begun_with = Vec::new();
    for module in modules {
        let start = Instant::now();
        stale(&justified, module, &ready)?;
        let mut record = begun(project, &ready, module, trial);
        let asked = Asked::of(project, module);
        let before = asked.before(&record);
        let left = attempt(&ready, &justified, trial, start, &before, &mut record)?;
        kept(&mut record, start, project)?;
        asked.keep(&record, if left.is_hurried { &before } else { &names })?;
        begun_with.push((record, left));
    }
    let mut missed = 0;
    // What takes longest comes last.
    for (record, left) in &mut begun_with {
        if trial.minutes.is_none() {
            let start = Instant::now();
            ask_longest(&ready, &left.missed, record)?;
            kept(record, start, project)?;
        }
        missed += record.missed.len();
    }
    let are_built = trial.minutes.is_none() && begun_with.iter().any(|(_, left)| !left.alone.is_empty());
    let copy = are_built.then(|| alone::copy(project, &ready.checks)).transpose()?;
    for (mut record, left) in begun_with {
        if let Some(copy) = &copy
            && !left.alone.is_empty()
        {
            let start = Instant::now();
            missed -= record.missed.len();
            one_by_one(copy, &ready, &justified, &left.alone, &mut record)?;
            missed += record.missed.len();
            kept(&mut record, start, project)?;
        }
    }
    if missed == 0 {
        Ok(())
    } else {
        Err(Failure::new(format!(
            "{missed} changes went unnoticed: they stand in {}, in the file of their module.",
            record::FOLDER
        )))
    }
}

fn kept(record: &mut Record, start: Instant, project: &Project) -> Outcome<()> {
    record.minutes += start.elapsed().as_secs_f64() / 60.0;
    println!("{}", told(record));
    record.write_outcomes(&project.root)?;
    record.write(&project.root)
}

/// A record with nothing tried yet, or the one that is there when it is to be gone on with and is of the same source.
fn begun(project: &Project, ready: &Ready, module: &str, trial: &Trial) -> Record {
    let files = ready.files(module);
    let share = trial.share.unwrap_or("").to_string();
    if trial.again
        && let Ok(old) = Record::read(&project.root, module)
        && old.files == files
        && old.share == share
    {
        return Record { date: today(), ..old };
    }
    Record {
        module: module.to_string(),
        date: today(),
        files,
        cargo_mutants: VERSION.to_string(),
        share,
        all: count(ready.changes.iter().filter(|change| change.module() == module).count()),
        ..Record::default()
    }
}

/// # Errors
///
/// When the list justifies what is no change.
fn stale(justified: &List, module: &str, ready: &Ready) -> Outcome<()> {
    let gone: Vec<String> = justified
        .of_module(module)
        .into_iter()
        .filter(|place| !ready.places.contains(place))
        .map(|place| format!("{}: {}, at \"{}\"", place.file, place.change, place.at))
        .collect();
    if gone.is_empty() {
        Ok(())
    } else {
        Err(Failure::new(format!("The list justifies what is no change:\n{}", gone.join("\n"))))
    }
}

fn told(record: &Record) -> String {
    let part = if record.tried < record.all {
        format!(" of {}", record.all)
    } else {
        String::new()
    };
    format!(
        "{}: {}{part} tried: {} caught, {} timed out, {} not buildable, {} justified, {} missed, in {:.1} min",
        record.module,
        record.tried,
        record.caught,
        record.timed_out,
        record.unbuildable,
        record.justified,
        record.missed.len(),
        record.minutes
    )
}

/// The day in Greenwich, as "2026-11-26".
fn today() -> String {
    let seconds = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |since| since.as_secs());
    let days = i32::try_from(seconds / 86_400).unwrap_or(0);
    let epoch = jiff::civil::Date::constant(1970, 1, 1);
    epoch.saturating_add(jiff::Span::new().days(days)).to_string()
}

fn count(number: usize) -> i64 {
    i64::try_from(number).unwrap_or(i64::MAX)
}
