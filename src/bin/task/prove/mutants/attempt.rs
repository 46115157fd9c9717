//! The trial of a module's changes: what is in the program, then with the longest checks, then one at a time.

use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;
use std::time::Instant;

use super::copy::Copy;
use super::ready::Ready;
use super::record::{List, Place, Record};
use super::trial::Fate;
use super::{Trial, alone, count};
use crate::failure::{Failure, Outcome};
use crate::project::Project;
use crate::seal::digest::short;

/// After how many changes a line says how far it is.
const TOLD_EVERY: i64 = 200;

/// What is left after the quicker checks.
pub struct Left {
    /// What they missed.
    pub missed: Vec<usize>,
    /// What is not in the program.
    pub alone: Vec<usize>,
    /// Whether there was no time for all that was missed before.
    pub is_hurried: bool,
}

/// Which checks have missed what the record of a module says was missed: they need not be asked again, for nothing has changed for
/// them. It is kept beside the copy, and holds for that record alone.
pub struct Asked(PathBuf);

impl Asked {
    pub fn of(project: &Project, module: &str) -> Self {
        Self(project.root.join("target").join("mutants").join(format!("asked-{module}.txt")))
    }

    pub fn before(&self, record: &Record) -> BTreeSet<String> {
        let text = fs::read_to_string(&self.0).unwrap_or_default();
        match text.split_once('\n') {
            Some((of, names)) if of == Self::key(record) => names.lines().map(str::to_string).collect(),
            _ => BTreeSet::new(),
        }
    }

    pub fn keep(&self, record: &Record, names: &BTreeSet<String>) -> Outcome<()> {
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        let text = format!("{}\n{}", Self::key(record), names.join("\n"));
        fs::write(&self.0, text).map_err(|cause| Failure::at("write", &self.0, cause))
    }

    fn key(record: &Record) -> String {
        short(format!("{:?}{:?}", record.files, record.missed).as_bytes())
    }
}

/// Tries what is in the program with all but the longest checks, until the time is up.
pub fn attempt(
    ready: &Ready,
    justified: &List,
    trial: &Trial,
    start: Instant,
    before: &BTreeSet<String>,
    record: &mut Record,
) -> Outcome<Left> {
    let mut left = Left {
        missed: Vec::new(),
        alone: Vec::new(),
        is_hurried: false,
    };
    let mut try_one = |number: usize, record: &mut Record, before: &BTreeSet<String>| -> Outcome<()> {
        let place = &ready.places[number - 1];
        let name = &ready.changes[number - 1].name;
        if justified.holds(place) {
            record.justified += 1;
            record.outcomes.insert(name.clone(), "justified");
        } else if ready.built.unbuildable.contains(&number) {
            record.unbuildable += 1;
            record.outcomes.insert(name.clone(), "not buildable");
        } else {
            let fate = ready.checks.fate(number, false, before)?;
            if fate == Fate::Missed {
                left.missed.push(number);
            }
            note(record, place, name, fate, ready.checks.reach(number));
        }
        record.tried += 1;
        Ok(())
    };
    let order = ready.order(&record.module, trial.share)?;
    let is_alone = |number: usize| !ready.built.unbuildable.contains(&number) && !ready.built.placed.contains(&number);
    let passed = usize::try_from(record.passed).unwrap_or(0);
    let is_over = || trial.minutes.is_some_and(|minutes| start.elapsed().as_secs_f64() > 60.0 * minutes);
    // What was missed before, as far as there is time for it.
    let mut alone_again = Vec::new();
    let mut taken = BTreeSet::new();
    let none = BTreeSet::new();
    for place in std::mem::take(&mut record.missed) {
        let is_alike = |number: &&usize| ready.places[**number - 1] == place && !ready.built.unbuildable.contains(*number);
        let same = |number: &&usize| is_alike(number) && !taken.contains(*number);
        let alike = order.iter().filter(is_alike).count();
        // Where several are told alike it is not told which was missed: one that still is, as asked of all checks.
        let is_missed = |number: &&usize| {
            same(number) && !is_alone(**number) && ready.checks.fate(**number, false, &none).is_ok_and(|fate| fate == Fate::Missed)
        };
        let found = (alike > 1).then(|| order.iter().find(is_missed)).flatten();
        match found.or_else(|| order.iter().find(same)).copied() {
            Some(number) if is_alone(number) => {
                taken.insert(number);
                alone_again.push(number);
                record.missed.push(place);
            }
            Some(_) if is_over() => {
                left.is_hurried = true;
                record.missed.push(place);
            }
            Some(number) => {
                taken.insert(number);
                record.tried -= 1;
                try_one(number, record, if alike > 1 { &none } else { before })?;
            }
            None => return Err(Failure::new(format!("The record of {} has a change that is none.", record.module))),
        }
    }
    for number in order.iter().skip(passed) {
        if is_over() {
            break;
        }
        if !is_alone(*number) {
            try_one(*number, record, &BTreeSet::new())?;
        }
        record.passed += 1;
        if record.passed % TOLD_EVERY == 0 {
            println!(
                "{}: {} of {} passed, {} missed",
                record.module,
                record.passed,
                order.len(),
                record.missed.len()
            );
        }
    }
    left.alone = order.into_iter().filter(|number| is_alone(*number)).collect();
    // They are tried together or not at all.
    if record.one_by_one == count(left.alone.len()) {
        left.alone = alone_again;
    }
    Ok(left)
}

/// Asks the longest checks of what all others missed.
pub fn ask_longest(ready: &Ready, missed: &[usize], record: &mut Record) -> Outcome<()> {
    for number in missed {
        let fate = ready.checks.fate(*number, true, &BTreeSet::new())?;
        if fate != Fate::Missed {
            let place = &ready.places[number - 1];
            let at = record.missed.iter().position(|missed| missed == place);
            at.map(|at| record.missed.remove(at));
            let name = &ready.changes[number - 1].name;
            note(record, place, name, fate, true);
            println!("noticed by a long check: {name}");
        }
    }
    Ok(())
}

/// Builds a program for each change that could not be written in with the others.
pub fn one_by_one(copy: &Copy, ready: &Ready, justified: &List, numbers: &[usize], record: &mut Record) -> Outcome<()> {
    println!("{}: {} changes are built one at a time", record.module, numbers.len());
    for number in numbers {
        let (change, place) = (&ready.changes[number - 1], &ready.places[number - 1]);
        if let Some(at) = record.missed.iter().position(|missed| missed == place) {
            record.missed.remove(at);
        } else {
            record.tried += 1;
            record.one_by_one += 1;
        }
        if justified.holds(place) {
            record.justified += 1;
            record.outcomes.insert(change.name.clone(), "justified");
            continue;
        }
        match alone::fate(copy, &ready.checks, change, ready.text(&change.file))? {
            None => {
                record.unbuildable += 1;
                record.outcomes.insert(change.name.clone(), "not buildable");
            }
            Some(fate) => note(record, place, &change.name, fate, true),
        }
    }
    Ok(())
}

fn note(record: &mut Record, place: &Place, name: &str, fate: Fate, reached: bool) {
    let outcome = match fate {
        Fate::Caught => {
            record.caught += 1;
            "caught"
        }
        Fate::TimedOut => {
            record.timed_out += 1;
            "timed out"
        }
        Fate::Missed => {
            println!("missed{}: {name}", if reached { "" } else { " (no check goes there)" });
            record.missed.push(place.clone());
            "missed"
        }
    };
    record.outcomes.insert(name.to_string(), outcome);
}
