//! Long proofs: far more cases for each property, and a change to every line that some test must notice.

pub mod mutants;

use std::time::Instant;

use crate::build;
use crate::dependencies;
use crate::failure::{Failure, Outcome};
use crate::options::Options;
use crate::process::{listen, run};
use crate::project::Project;
use crate::serve::Server;
use crate::tally::Tally;
use crate::tools::{Browser, Tools};

/// Cases for each property; a quick run tries a few hundred.
const CASES: &str = "200000";

pub fn prove(project: &Project, mut options: Options) -> Outcome<()> {
    let only: Option<String> = options.value("--only")?;
    let module: Option<String> = options.value("--module")?;
    let share: Option<String> = options.value("--shard")?;
    let again = options.flag("--again");
    let minutes: Option<f64> = options.value("--minutes")?;
    options.finish()?;
    let modules: Vec<&str> = match &module {
        None => mutants::MODULES.to_vec(),
        Some(modules) => modules.split(',').collect(),
    };
    if let Some(unknown) = modules.iter().find(|module| !mutants::MODULES.contains(*module)) {
        return Err(Failure::new(format!(
            "There is no module \"{unknown}\" to prove: choose among {}.",
            mutants::MODULES.join(", ")
        )));
    }
    let trial = mutants::Trial {
        share: share.as_deref(),
        again,
        minutes,
    };
    match only.as_deref() {
        None => {
            properties(project)?;
            faults(project)?;
            dependencies::advisories(project, &Tools::install(project)?)?;
            mutants::prove(project, &modules, &trial)
        }
        Some("advisories") => dependencies::advisories(project, &Tools::install(project)?),
        Some("properties") => properties(project),
        Some("faults") => faults(project),
        Some("mutants") => mutants::prove(project, &modules, &trial),
        Some(other) => Err(Failure::new(format!(
            "--only is properties, faults, mutants or advisories, not \"{other}\"."
        ))),
    }
}

fn properties(project: &Project) -> Outcome<()> {
    let start = Instant::now();
    let tools = Tools::install(project)?;
    let mut command = tools.command(project, Project::cargo());
    command
        // As the quick run builds them, so that nothing is built again.
        .args(["test", "--locked", "--no-fail-fast", "--features=task"])
        .args(["--lib", "--test=checks"])
        .env("PROPTEST_CASES", CASES)
        .env("CARGO_TERM_COLOR", "never");
    let heard = listen(&mut command)?;
    let Tally { passed, failed } = Tally::of_rust(&heard.lines);
    println!(
        "\nproperties: {passed} passed, {failed} failed with {CASES} cases each, in {:.0} s",
        start.elapsed().as_secs_f64()
    );
    if heard.success && passed > 0 {
        Ok(())
    } else {
        Err(Failure::new("The properties are not proved."))
    }
}

/// Every fault of what is kept, where a quick run tries a part; each check says how many that were.
fn faults(project: &Project) -> Outcome<()> {
    let start = Instant::now();
    let tools = Tools::install(project)?;
    let mut command = tools.command(project, Project::cargo());
    command
        .args(["test", "--locked", "--features=task", "--test=checks"])
        .args(["faults::", "--", "--nocapture"])
        .env("FIRST_TRUSS_EVERY_FAULT", "1")
        .env("CARGO_TERM_COLOR", "never");
    let heard = listen(&mut command)?;
    let Tally { passed, failed } = Tally::of_rust(&heard.lines);
    println!(
        "\nfaults: {passed} checks passed, {failed} failed, in {:.0} s",
        start.elapsed().as_secs_f64()
    );
    if !heard.success || passed == 0 {
        return Err(Failure::new("What is kept is not proved against every fault."));
    }
    killed(project, &tools)
}

/// Tabs that end in the middle of a save, ten times as many as in a quick run.
fn killed(project: &Project, tools: &Tools) -> Outcome<()> {
    let browser = Browser::find_or_install()?;
    build::release(project, tools)?;
    let server = Server::start_anywhere(&project.dist())?;
    let mut command = tools.node(project, &browser, &server);
    command
        .args(["--test", "--test-reporter=spec", "journeys/killed.mjs"])
        .env("FIRST_TRUSS_EVERY_FAULT", "1");
    run(&mut command)
}
