//! Tries one change after another on the checks that reach it.

use std::collections::{BTreeSet, HashSet};
use std::env;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitStatus, Stdio};
use std::time::{Duration, Instant};

use super::copy::Built;
use crate::failure::{Failure, Outcome};

/// What became of a program with one change.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fate {
    /// A check failed.
    Caught,
    /// No check ended in many times its usual time.
    TimedOut,
    /// Every check passed.
    Missed,
}

/// A check and what it takes.
struct Check {
    name: String,
    time: Duration,
    reaches: HashSet<usize>,
}

pub struct Checks {
    program: PathBuf,
    /// The quickest first.
    checks: Vec<Check>,
}

/// Checks that are run in one go take together about this long, at first; each go takes longer than the one before.
const FIRST_GO: Duration = Duration::from_millis(20);
const LONGER: u32 = 4;
/// Checks that take longest: they are asked only of what all others missed.
const LONG: [&str; 4] = [
    "learning::simulated_seasons_teach_the_plants_own_thirst",
    "pest_numbers::no_spray_and_no_picking_date_without_the_gate",
    "properties_links::no_cut_and_no_changed_sign_is_accepted",
    "properties_links::what_is_sealed_by_another_hand_says_only_what_can_be",
];
/// Seconds of the processor, and how many times its usual time, that a go may take.
const LEAST_LIMIT: u64 = 4;
const LIMIT_TIMES: u64 = 10;
/// Cases for each property: few, because thousands of changes are tried.
const CASES: &str = "32";
/// Bytes of stack for a check: unoptimised, the usual two million are too few for some.
const STACK: &str = "67108864";

impl Checks {
    /// Runs each check by itself, without any change, and notes which changes it reaches; the longest only where they will be asked.
    ///
    /// # Errors
    ///
    /// When a check fails without any change.
    pub fn learn(built: &Built, notes: &Path, with_longest: bool) -> Outcome<Self> {
        let program = &built.program;
        let output = Command::new(program)
            .args(["--list", "--format=terse"])
            .output()
            .map_err(|cause| Failure::at("run", program, cause))?;
        let text = String::from_utf8_lossy(&output.stdout).into_owned();
        let mut checks = Vec::new();
        let names = text.lines().filter_map(|line| line.strip_suffix(": test"));
        for name in names.filter(|name| with_longest || !LONG.contains(name)) {
            drop(fs::remove_file(notes));
            let start = Instant::now();
            let status = command(program, None)
                .args(["--exact", name])
                .env("FIRST_TRUSS_REACHED", notes)
                .status()
                .map_err(|cause| Failure::at("run", program, cause))?;
            if !status.success() {
                return Err(Failure::new(format!("The check {name} fails without any change.")));
            }
            let numbers = fs::read_to_string(notes).unwrap_or_default();
            checks.push(Check {
                name: name.to_string(),
                time: start.elapsed(),
                reaches: numbers
                    .lines()
                    .filter_map(|line| line.parse().ok())
                    .flat_map(|first| built.together.get(&first).cloned().unwrap_or_else(|| vec![first]))
                    .collect(),
            });
        }
        drop(fs::remove_file(notes));
        checks.sort_by_key(|check| check.time);
        Ok(Self {
            program: program.clone(),
            checks,
        })
    }

    pub fn count(&self) -> usize {
        self.checks.len()
    }

    /// The names of all but the longest.
    pub fn names(&self) -> BTreeSet<String> {
        let names = self.checks.iter().map(|check| check.name.clone());
        names.filter(|name| !LONG.contains(&name.as_str())).collect()
    }

    /// Puts one change in force and runs the checks that reach it until one fails: all but the longest, or only the longest; those
    /// that have missed it before are not asked again.
    pub fn fate(&self, change: usize, longest: bool, before: &BTreeSet<String>) -> Outcome<Fate> {
        let asked = |check: &&Check| {
            check.reaches.contains(&change) && LONG.contains(&check.name.as_str()) == longest && !before.contains(&check.name)
        };
        run(&self.program, change, &self.checks.iter().filter(asked).collect::<Vec<_>>(), 1)
    }

    /// Runs every check in another program, in which it may take so many times as long.
    pub fn fate_of(&self, program: &Path, slower: u64) -> Outcome<Fate> {
        run(program, 0, &self.checks.iter().collect::<Vec<_>>(), slower)
    }

    /// Whether any check reaches a change.
    pub fn reach(&self, change: usize) -> bool {
        self.checks.iter().any(|check| check.reaches.contains(&change))
    }
}

fn run(program: &Path, change: usize, checks: &[&Check], slower: u64) -> Outcome<Fate> {
    let mut together = FIRST_GO;
    let mut next = 0;
    while next < checks.len() {
        let mut time = Duration::ZERO;
        let start = next;
        while next < checks.len() && (next == start || time + checks[next].time <= together) {
            time += checks[next].time;
            next += 1;
        }
        together *= LONGER;
        let go = &checks[start..next];
        let limit = slower * (LEAST_LIMIT + LIMIT_TIMES * time.as_secs());
        let status = command(program, Some(limit))
            .arg("--exact")
            .args(go.iter().map(|check| check.name.as_str()))
            .env("FIRST_TRUSS_CHANGE", change.to_string())
            .status()
            .map_err(|cause| Failure::at("run", program, cause))?;
        if out_of_time(status) {
            return Ok(Fate::TimedOut);
        }
        if !status.success() {
            return Ok(Fate::Caught);
        }
    }
    Ok(Fate::Missed)
}

/// The program of checks with one thread; a limit is in seconds of the processor, so that a machine at other work takes nothing away.
fn command(program: &Path, limit: Option<u64>) -> Command {
    let mut command = match limit {
        Some(limit) if cfg!(unix) => {
            let mut command = Command::new("sh");
            command.args(["-c", &format!("ulimit -t {limit}; exec \"$@\""), "sh"]).arg(program);
            command
        }
        _ => Command::new(program),
    };
    command
        .arg("--test-threads=1")
        .env("PROPTEST_CASES", CASES)
        .env("RUST_MIN_STACK", STACK)
        .env_remove("FIRST_TRUSS_EVERY_FAULT")
        // A case that fails is enough: no smaller one is looked for, and none is kept.
        .env("PROPTEST_MAX_SHRINK_ITERS", "0")
        .env("PROPTEST_DISABLE_FAILURE_PERSISTENCE", "1")
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .current_dir(env::temp_dir());
    command
}

/// Whether the system ended a program because its time was up.
#[cfg(unix)]
fn out_of_time(status: ExitStatus) -> bool {
    use std::os::unix::process::ExitStatusExt as _;
    // SIGXCPU, and SIGKILL a second later.
    matches!(status.signal(), Some(24 | 9))
}

#[cfg(not(unix))]
fn out_of_time(_: ExitStatus) -> bool {
    false
}
