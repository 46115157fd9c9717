//! One thing after another is changed in the calculation; a check must notice each.
//!
//! cargo-mutants lists the changes. To build the program anew for each of some 6,500 takes days, so all are written into one copy
//! of the source, each behind a number (`switches.rs`), which is built once. What cannot be written in so, such as a change to a
//! constant, has a program of its own (`alone.rs`).

mod alone;
mod copy;
mod list;
mod record;
mod switches;
mod trial;

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::PathBuf;
use std::process::Command;
use std::time::{Duration, Instant, SystemTime, UNIX_EPOCH};

use crate::failure::{Failure, Outcome};
use crate::project::Project;
use crate::seal::digest::short;
use crate::tally::Tally;
use crate::tools::cargo_mutants;
use copy::Copy;
use list::Change;
use record::{List, Place, Record, files};
use trial::{Checks, Fate};

/// The calculation: every change to it must be noticed.
pub const MODULES: [&str; 7] = ["quantity", "working", "almanac", "feed", "pest", "water", "notebook"];
const VERSION: &str = "27.1.0";
/// After how many changes a line says how far it is.
const TOLD_EVERY: i64 = 200;

/// For how long the quick run tries changes.
const QUICK: Duration = Duration::from_mins(5);
/// How many it tries at most: those of a usual change. To build the copy takes minutes, and after large ones the records are due anew.
const MOST_QUICK: usize = 60;
/// How often the quick run tries a change before it counts as missed.
const TRIES: usize = 3;

/// What Git calls a tree without any file.
const EMPTY_TREE: &str = "4b825dc642cb6eb9a060e54bf8d69288fbee4904";

/// A part of all changes: number `part` of `parts`, from 0.
#[derive(Clone, Copy)]
struct Share {
    part: usize,
    parts: usize,
}

impl Share {
    fn read(text: &str) -> Outcome<Self> {
        let read = || {
            let (part, parts) = text.split_once('/')?;
            let share = Self {
                part: part.parse().ok()?,
                parts: parts.parse().ok()?,
            };
            (share.part < share.parts).then_some(share)
        };
        read().ok_or_else(|| Failure::new(format!("--shard is such as 0/8, from 0/8 to 7/8, not \"{text}\".")))
    }
}

/// The program of checks with all changes in it, and what each check reaches.
struct Ready {
    changes: Vec<Change>,
    places: Vec<Place>,
    /// The sources as they were when all began, by path.
    texts: BTreeMap<String, String>,
    built: copy::Built,
    checks: Checks,
}

impl Ready {
    fn make(project: &Project, changes: Vec<Change>, with_longest: bool) -> Outcome<Self> {
        let start = Instant::now();
        let copy = Copy::of(project, &MODULES)?;
        let built = copy.build(&changes)?;
        let texts = copy.into_sources();
        let built_in = start.elapsed();
        let notes = project.root.join("target").join("mutants").join("reached");
        let checks = Checks::learn(&built, &notes, with_longest)?;
        println!(
            "{} changes in one program, built in {:.0} s; {} checks without any change in {:.0} s",
            built.placed.len(),
            built_in.as_secs_f64(),
            checks.count(),
            start.elapsed().saturating_sub(built_in).as_secs_f64()
        );
        let text = |change: &Change| texts.get(&change.file).map_or("", String::as_str);
        let places = changes.iter().map(|change| Place::of(change, text(change))).collect();
        Ok(Self {
            changes,
            places,
            texts,
            built,
            checks,
        })
    }

    fn text(&self, file: &str) -> &str {
        self.texts.get(file).map_or("", String::as_str)
    }

    /// The changes to a module or a share of them, in an order that favours no file, so that those tried first are a fair part.
    fn order(&self, module: &str, share: Option<&str>) -> Outcome<Vec<usize>> {
        let Share { part, parts } = share.map_or(Ok(Share { part: 0, parts: 1 }), Share::read)?;
        let mine = (1..=self.changes.len()).filter(|number| self.changes[number - 1].module() == module);
        let shared = mine.enumerate().filter(|(place, _)| place % parts == part);
        let mut order: Vec<usize> = shared.map(|(_, number)| number).collect();
        order.sort_by_key(|number| short(self.changes[number - 1].name.as_bytes()));
        Ok(order)
    }

    /// The hashes of a module's files.
    fn files(&self, module: &str) -> BTreeMap<String, String> {
        let start = format!("src/{module}/");
        let mine = self.texts.iter().filter(|(file, _)| file.starts_with(&start));
        record::hashes_of(mine)
    }
}

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
    for (mut record, left) in begun_with {
        if trial.minutes.is_none() && !left.alone.is_empty() {
            let start = Instant::now();
            missed -= record.missed.len();
            one_by_one(&Copy::plain(project)?, &ready, &left.alone, &mut record)?;
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

/// What came of trying the changes to files that differ from the record.
pub struct Quick {
    pub tally: Tally,
    pub remark: String,
}

/// Tries the changes to lines of the calculation that are not as they were when the records were kept, for some minutes at most.
pub fn quick(project: &Project) -> Outcome<Quick> {
    let mut differing = Vec::new();
    for module in MODULES {
        let known = Record::read(&project.root, module).map_or_else(|_| BTreeMap::new(), |record| record.files);
        if files(&project.root, module)? != known {
            differing.push(module);
        }
    }
    if differing.is_empty() {
        return Ok(Quick::nothing("every file of the calculation is as its record has it"));
    }
    let Some(difference) = since_the_records(project, &differing) else {
        return Ok(Quick::nothing("Git does not tell what has changed since the records"));
    };
    if difference.is_empty() {
        return Ok(Quick::nothing(
            "no line of the calculation has changed since its records were committed, though it is not as they have it",
        ));
    }
    let programs = cargo_mutants(project)?;
    let file = project.root.join("target").join("mutants").join("difference.diff");
    fs::create_dir_all(file.with_file_name("")).map_err(|cause| Failure::at("create", &file, cause))?;
    fs::write(&file, difference).map_err(|cause| Failure::at("write", &file, cause))?;
    let concerned = list::changes(project, &programs, &differing, Some(&file))?;
    if concerned.is_empty() {
        return Ok(Quick::nothing(
            "cargo-mutants finds none in the lines that have changed since the records",
        ));
    }
    if concerned.len() > MOST_QUICK {
        return Ok(Quick::nothing(&format!(
            "{} stand in what has changed since the records, more than the {MOST_QUICK} that a quick run tries: \
             `cargo task prove --only mutants` does",
            concerned.len()
        )));
    }
    let names: BTreeSet<&str> = concerned.iter().map(|change| change.name.as_str()).collect();
    let listed = [List::justified(&project.root)?, List::open(&project.root)?];
    let ready = Ready::make(project, list::changes(project, &programs, &MODULES, None)?, true)?;
    let mut wanted: Vec<usize> = (1..=ready.changes.len())
        .filter(|number| names.contains(ready.changes[number - 1].name.as_str()))
        .collect();
    // In no order that favours a file, so that what there is time for is a fair part.
    wanted.sort_by_key(|number| short(ready.changes[number - 1].name.as_bytes()));
    let start = Instant::now();
    let (mut tally, mut tried, mut excused) = (Tally::default(), 0, 0);
    for number in &wanted {
        if start.elapsed() > QUICK {
            break;
        }
        tried += 1;
        let is_placed = ready.built.placed.contains(number);
        if !is_placed || listed.iter().any(|list| list.holds(&ready.places[number - 1])) {
            excused += 1;
            continue;
        }
        let mut fate = Fate::Missed;
        // Some are noticed only by chance.
        for _ in 0..TRIES {
            if fate == Fate::Missed {
                fate = ready.checks.fate(*number, false, &BTreeSet::new())?;
            }
        }
        if fate == Fate::Missed {
            fate = ready.checks.fate(*number, true, &BTreeSet::new())?;
        }
        if fate == Fate::Missed {
            println!("missed: {}", ready.changes[number - 1].name);
            tally.failed += 1;
        } else {
            tally.passed += 1;
        }
    }
    Ok(Quick {
        tally,
        remark: format!(
            "changes tried: {tried} of {} in what has changed since the records; {} noticed, {} missed, {excused} listed, not buildable or \
             to be built alone",
            wanted.len(),
            tally.passed,
            tally.failed
        ),
    })
}

impl Quick {
    fn nothing(why: &str) -> Self {
        Self {
            tally: Tally::default(),
            remark: format!("changes tried: none, because {why}"),
        }
    }
}

/// The lines of these modules that have changed since their records were committed, all where one never was; `None` without Git.
fn since_the_records(project: &Project, modules: &[&str]) -> Option<String> {
    // To the last blank: it may be a line of the difference.
    let git = |arguments: &[&str]| {
        let output = Command::new("git").current_dir(&project.root).args(arguments).output().ok()?;
        output
            .status
            .success()
            .then(|| String::from_utf8_lossy(&output.stdout).into_owned())
    };
    let mut difference = String::new();
    for module in modules {
        let commit = git(&["log", "-1", "--format=%H", "--", &format!("{}/{module}.toml", record::FOLDER)])?;
        let from = if commit.trim().is_empty() { EMPTY_TREE } else { commit.trim() };
        difference.push_str(&git(&[
            "diff",
            "--no-color",
            "--no-ext-diff",
            from,
            "--",
            &format!("src/{module}"),
        ])?);
    }
    Some(difference)
}

/// What is left after the quicker checks.
struct Left {
    /// What they missed.
    missed: Vec<usize>,
    /// What is not in the program.
    alone: Vec<usize>,
    /// Whether there was no time for all that was missed before.
    is_hurried: bool,
}

/// Which checks have missed what the record of a module says was missed: they need not be asked again, for nothing has changed for
/// them. It is kept beside the copy, and holds for that record alone.
struct Asked(PathBuf);

impl Asked {
    fn of(project: &Project, module: &str) -> Self {
        Self(project.root.join("target").join("mutants").join(format!("asked-{module}.txt")))
    }

    fn before(&self, record: &Record) -> BTreeSet<String> {
        let text = fs::read_to_string(&self.0).unwrap_or_default();
        match text.split_once('\n') {
            Some((of, names)) if of == Self::key(record) => names.lines().map(str::to_string).collect(),
            _ => BTreeSet::new(),
        }
    }

    fn keep(&self, record: &Record, names: &BTreeSet<String>) -> Outcome<()> {
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        let text = format!("{}\n{}", Self::key(record), names.join("\n"));
        fs::write(&self.0, text).map_err(|cause| Failure::at("write", &self.0, cause))
    }

    fn key(record: &Record) -> String {
        short(format!("{:?}{:?}", record.files, record.missed).as_bytes())
    }
}

/// Tries what is in the program with all but the longest checks, until the time is up.
fn attempt(
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
        if justified.holds(place) {
            record.justified += 1;
        } else if ready.built.unbuildable.contains(&number) {
            record.unbuildable += 1;
        } else {
            let fate = ready.checks.fate(number, false, before)?;
            if fate == Fate::Missed {
                left.missed.push(number);
            }
            note(record, place, &ready.changes[number - 1].name, fate, ready.checks.reach(number));
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
    for place in std::mem::take(&mut record.missed) {
        match order.iter().find(|number| ready.places[**number - 1] == place) {
            Some(number) if is_alone(*number) => {
                alone_again.push(*number);
                record.missed.push(place);
            }
            Some(_) if is_over() => {
                left.is_hurried = true;
                record.missed.push(place);
            }
            Some(number) => {
                record.tried -= 1;
                try_one(*number, record, before)?;
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
fn ask_longest(ready: &Ready, missed: &[usize], record: &mut Record) -> Outcome<()> {
    for number in missed {
        let fate = ready.checks.fate(*number, true, &BTreeSet::new())?;
        if fate != Fate::Missed {
            let place = &ready.places[number - 1];
            let at = record.missed.iter().position(|missed| missed == place);
            at.map(|at| record.missed.remove(at));
            note(record, place, "", fate, true);
            println!("noticed by a long check: {}", ready.changes[number - 1].name);
        }
    }
    Ok(())
}

/// Builds a program for each change that could not be written in with the others.
fn one_by_one(copy: &Copy, ready: &Ready, numbers: &[usize], record: &mut Record) -> Outcome<()> {
    println!("{}: {} changes are built one at a time", record.module, numbers.len());
    for number in numbers {
        let change = &ready.changes[number - 1];
        if let Some(at) = record.missed.iter().position(|missed| *missed == ready.places[number - 1]) {
            record.missed.remove(at);
        } else {
            record.tried += 1;
            record.one_by_one += 1;
        }
        match alone::fate(copy, &ready.checks, change, ready.text(&change.file))? {
            None => record.unbuildable += 1,
            Some(fate) => note(record, &ready.places[number - 1], &change.name, fate, true),
        }
    }
    Ok(())
}

fn note(record: &mut Record, place: &Place, name: &str, fate: Fate, reached: bool) {
    match fate {
        Fate::Caught => record.caught += 1,
        Fate::TimedOut => record.timed_out += 1,
        Fate::Missed => {
            println!("missed{}: {name}", if reached { "" } else { " (no check goes there)" });
            record.missed.push(place.clone());
        }
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
