//! The quick run: everything a change must pass.

mod failures;
mod texts;

use std::num::NonZero;
use std::thread::available_parallelism;
use std::time::{Duration, Instant};

use crate::build;
use crate::failure::{Failure, Outcome};
use crate::lint;
use crate::options::Options;
use crate::process::{Heard, listen};
use crate::project::Project;
use crate::prove::mutants;
use crate::references;
use crate::serve::Server;
use crate::tally::Tally;
use crate::tools::{Browser, Tools};
use failures::failures;

/// Seconds for the whole program of tests in the browser, on a slow machine.
const BROWSER_TEST_SECONDS: &str = "300";
/// Seconds for the driver to come up.
const DRIVER_SECONDS: &str = "60";

/// Lines of these kinds are repeated at the end: so both runs can be compared, and it is seen how much was tried.
const REMARKS: [&str; 4] = ["published cases passed:", "faults tried:", "worked out again:", "changes noticed:"];

/// What a part that ran to its end came to.
#[derive(Default)]
struct Done {
    tally: Tally,
    remarks: Vec<String>,
    failures: Vec<String>,
}

/// A part of the run, how long it took and what it came to.
struct Part {
    name: &'static str,
    time: Duration,
    done: Done,
}

pub fn test(project: &Project, options: Options) -> Outcome<()> {
    options.finish()?;
    let start = Instant::now();
    let mut parts = Vec::new();
    let mut equipment = None;
    parts.push(timed("tools", || {
        equipment = Some((Tools::install(project)?, Browser::find_or_install()?));
        Ok(Done::default())
    }));
    if let Some((tools, browser)) = &equipment {
        parts.push(timed("format and clippy", || lint::check(project, tools).map(|()| Done::default())));
        parts.push(timed("native tests", || native(project, tools)));
        parts.push(timed("other libraries", || other_libraries(project, tools)));
        parts.push(timed("changes", || {
            mutants::quick(project).map(|mutants::Quick { tally, missed, remark }| Done {
                tally,
                remarks: vec![remark],
                failures: missed,
            })
        }));
        parts.push(timed("tests in Chromium", || in_chromium(project, tools, browser)));
        let page = timed("release page", || build::release(project, tools).map(|()| Done::default()));
        let is_built = page.done.tally.failed == 0;
        parts.push(page);
        if is_built {
            parts.push(timed("journeys", || journeys(project, tools, browser)));
        }
    }
    report(&parts, start.elapsed())
}

fn timed(name: &'static str, part: impl FnOnce() -> Outcome<Done>) -> Part {
    let start = Instant::now();
    let done = part().unwrap_or_else(|failure| {
        println!("{failure}");
        Done {
            tally: Tally { passed: 0, failed: 1 },
            remarks: Vec::new(),
            failures: vec![failure.to_string()],
        }
    });
    Part {
        name,
        time: start.elapsed(),
        done,
    }
}

/// The tests of the package, of its task runner and of its documentation.
fn native(project: &Project, tools: &Tools) -> Outcome<Done> {
    let mut command = tools.command(project, Project::cargo());
    command
        .args(["test", "--locked", "--no-fail-fast", "--features=task"])
        .args(["--", "--show-output"])
        .env("CARGO_TERM_COLOR", "never");
    let heard = listen(&mut command)?;
    judged(&heard, Tally::of_rust(&heard.lines))
}

/// Random cases worked out again by libraries of other makes.
fn other_libraries(project: &Project, tools: &Tools) -> Outcome<Done> {
    let heard = references::run(project, tools, None)?;
    judged(&heard, Tally::of_node(&heard.lines))
}

fn in_chromium(project: &Project, tools: &Tools, browser: &Browser) -> Outcome<Done> {
    let mut command = tools.command(project, Project::cargo());
    command
        .args(["test", "--locked", "--target=wasm32-unknown-unknown", "--no-default-features"])
        .args(["--test=checks", "--", "--nocapture"])
        .env("CARGO_TERM_COLOR", "never")
        .env("CHROMEDRIVER", &browser.driver)
        .env("WASM_BINDGEN_TEST_TIMEOUT", BROWSER_TEST_SECONDS)
        .env("WASM_BINDGEN_TEST_DRIVER_TIMEOUT", DRIVER_SECONDS);
    let heard = listen(&mut command)?;
    judged(&heard, Tally::of_rust(&heard.lines))
}

/// A person's ways through the release page, served as `cargo task serve` does; as many side by side as there are processors.
fn journeys(project: &Project, tools: &Tools, browser: &Browser) -> Outcome<Done> {
    let server = Server::start_anywhere(&project.dist())?;
    server.pack();
    let texts = texts::written(&project.root.join("target"))?;
    let mut command = tools.node(project, browser, &server);
    command.env("FIRST_TRUSS_CALENDAR_TEXTS", &texts);
    let side_by_side = available_parallelism().map_or(1, NonZero::get);
    command
        .args(["--test", "--test-reporter=spec"])
        .arg(format!("--test-concurrency={side_by_side}"))
        .args(Project::scripts(&project.browser_tests().join("journeys"))?);
    let heard = listen(&mut command)?;
    judged(&heard, Tally::of_node(&heard.lines))
}

/// A run counts only when it ended well and at least one test ran.
fn judged(heard: &Heard, mut tally: Tally) -> Outcome<Done> {
    if tally.ran() == 0 {
        let why = if heard.success {
            "No test ran."
        } else {
            "It ended before any test ran."
        };
        return Err(Failure::new(why));
    }
    let remarks = heard
        .lines
        .iter()
        .filter_map(|line| {
            let start = REMARKS.iter().find_map(|remark| line.find(remark))?;
            Some(line[start..].to_string())
        })
        .collect();
    let mut failures = failures(&heard.lines);
    if !heard.success && tally.failed == 0 {
        tally.failed = 1;
        failures.push("It failed outside its tests.".to_string());
    }
    Ok(Done { tally, remarks, failures })
}

/// Prints the times, what the runs remarked, what failed, and the closing line.
fn report(parts: &[Part], total: Duration) -> Outcome<()> {
    let tally = parts.iter().fold(Tally::default(), |sum, part| sum + part.done.tally);
    println!();
    for part in parts {
        let Tally { passed, failed } = part.done.tally;
        let counts = match (passed, failed) {
            (0, 0) => "ok".to_string(),
            _ => format!("{passed} passed, {failed} failed"),
        };
        println!("{:<20}{:>8.1} s   {counts}", part.name, part.time.as_secs_f64());
        for remark in &part.done.remarks {
            println!("{:<20}             {remark}", "");
        }
    }
    println!("{:<20}{:>8.1} s\n", "total", total.as_secs_f64());
    for part in parts.iter().filter(|part| !part.done.failures.is_empty()) {
        println!("{}: what failed", part.name);
        for line in &part.done.failures {
            println!("    {line}");
        }
        println!();
    }
    let closing = format!("{} passed, {} failed", tally.passed, tally.failed);
    println!("{closing}");
    if tally.failed == 0 { Ok(()) } else { Err(Failure::told()) }
}
