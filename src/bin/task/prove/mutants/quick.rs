//! The changes to those lines of the calculation that are not as they were when the records were kept.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::process::Command;
use std::time::{Duration, Instant};

use super::ready::Ready;
use super::record::{FOLDER, List, Record, files};
use super::trial::Fate;
use super::{MODULES, list};
use crate::failure::{Failure, Outcome};
use crate::project::Project;
use crate::seal::digest::short;
use crate::tally::Tally;
use crate::tools::cargo_mutants;

/// For how long the quick run tries changes.
const QUICK: Duration = Duration::from_mins(5);
/// How many it tries at most: those of a usual change. To build the copy takes minutes, and after large ones the records are due anew.
const MOST_QUICK: usize = 60;
/// How often the quick run tries a change before it counts as missed.
const TRIES: usize = 3;

/// What Git calls a tree without any file.
const EMPTY_TREE: &str = "4b825dc642cb6eb9a060e54bf8d69288fbee4904";

/// What came of trying the changes to files that differ from the record.
pub struct Quick {
    pub tally: Tally,
    /// The changes that no check noticed.
    pub missed: Vec<String>,
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
    let (mut tally, mut missed, mut tried, mut excused) = (Tally::default(), Vec::new(), 0, 0);
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
            missed.push(format!("no check notices {}", ready.changes[number - 1].name));
            tally.failed += 1;
        } else {
            tally.passed += 1;
        }
    }
    Ok(Quick {
        tally,
        missed,
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
            missed: Vec::new(),
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
        let commit = git(&["log", "-1", "--format=%H", "--", &format!("{FOLDER}/{module}.toml")])?;
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
