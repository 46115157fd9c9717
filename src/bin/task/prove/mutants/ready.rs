//! The program of checks with all changes in it, and the order in which they are tried.

use std::collections::BTreeMap;
use std::time::Instant;

use super::MODULES;
use super::copy::{Built, Copy};
use super::list::Change;
use super::record::{self, Place};
use super::trial::Checks;
use crate::failure::{Failure, Outcome};
use crate::project::Project;
use crate::seal::digest::short;

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
pub struct Ready {
    pub changes: Vec<Change>,
    pub places: Vec<Place>,
    /// The sources as they were when all began, by path.
    texts: BTreeMap<String, String>,
    pub built: Built,
    pub checks: Checks,
}

impl Ready {
    pub fn make(project: &Project, changes: Vec<Change>, with_longest: bool) -> Outcome<Self> {
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

    pub fn text(&self, file: &str) -> &str {
        self.texts.get(file).map_or("", String::as_str)
    }

    /// The changes to a module or a share of them, in an order that favours no file, so that those tried first are a fair part.
    pub fn order(&self, module: &str, share: Option<&str>) -> Outcome<Vec<usize>> {
        let Share { part, parts } = share.map_or(Ok(Share { part: 0, parts: 1 }), Share::read)?;
        let mine = (1..=self.changes.len()).filter(|number| self.changes[number - 1].module() == module);
        let shared = mine.enumerate().filter(|(place, _)| place % parts == part);
        let mut order: Vec<usize> = shared.map(|(_, number)| number).collect();
        order.sort_by_key(|number| short(self.changes[number - 1].name.as_bytes()));
        Ok(order)
    }

    /// The hashes of a module's files.
    pub fn files(&self, module: &str) -> BTreeMap<String, String> {
        let start = format!("src/{module}/");
        let mine = self.texts.iter().filter(|(file, _)| file.starts_with(&start));
        record::hashes_of(mine)
    }
}
