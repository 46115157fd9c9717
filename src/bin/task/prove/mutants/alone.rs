//! Changes that are made by themselves: each has a program built for it.

use super::copy::Copy;
use super::lines::Lines;
use super::list::Change;
use super::trial::{Checks, Fate};
use crate::failure::{Failure, Outcome};
use crate::project::Project;

/// Unoptimised, a check takes so many times as long.
const SLOWER: u64 = 20;

/// The copy in which changes are made by themselves.
///
/// # Errors
///
/// When a check fails in it without any change: it would be taken to notice whatever is changed.
pub fn copy(project: &Project, checks: &Checks) -> Outcome<Copy> {
    let copy = Copy::plain(project)?;
    let program = copy
        .program()?
        .map_err(|errors| Failure::new(format!("The checks cannot be built.\n{errors}")))?;
    match checks.fate_of(&program, SLOWER)? {
        Fate::Missed => Ok(copy),
        _ => Err(Failure::new("A check fails unoptimised, without any change.")),
    }
}

/// What became of a change; `None` where no program can be built with it.
///
/// # Errors
///
/// When the source cannot be written, or a program not be started.
pub fn fate(copy: &Copy, checks: &Checks, change: &Change, text: &str) -> Outcome<Option<Fate>> {
    let lines = Lines::of(text);
    let (before, after) = (text.get(..lines.byte(change.start)), text.get(lines.byte(change.end)..));
    let (Some(before), Some(after)) = (before, after) else {
        return Err(Failure::new(format!("There is nothing to change at {}.", change.name)));
    };
    let changed = format!("{before}{}{after}", change.replacement);
    let built = copy.build_with(&change.file, &changed)?;
    built.map(|program| checks.fate_of(&program, SLOWER)).transpose()
}
