//! Long proofs: far more cases for each property, and a change to every line that some test must notice.

use std::fs;
use std::path::Path;
use std::time::Instant;

use crate::build;
use crate::dependencies;
use crate::failure::{Failure, Outcome};
use crate::options::Options;
use crate::process::{listen, run};
use crate::project::Project;
use crate::serve::Server;
use crate::tally::Tally;
use crate::tools::{Browser, Tools, cargo_mutants};

/// Cases for each property; a quick run tries a few hundred.
const CASES: &str = "200000";

/// The computations whose every line must be noticed by a test.
const MODULES: &[&str] = &["quantity", "almanac", "water"];

pub fn prove(project: &Project, mut options: Options) -> Outcome<()> {
    let only: Option<String> = options.value("--only")?;
    let module: Option<String> = options.value("--module")?;
    let share: Option<String> = options.value("--shard")?;
    options.finish()?;
    let modules: Vec<&str> = match &module {
        None => MODULES.to_vec(),
        Some(module) if MODULES.contains(&module.as_str()) => vec![module],
        Some(module) => {
            return Err(Failure::new(format!(
                "There is no module \"{module}\" to prove: choose among {}.",
                MODULES.join(", ")
            )));
        }
    };
    match only.as_deref() {
        None => {
            properties(project)?;
            faults(project)?;
            dependencies::advisories(project, &Tools::install(project)?)?;
            mutants(project, &modules, share.as_deref())
        }
        Some("advisories") => dependencies::advisories(project, &Tools::install(project)?),
        Some("properties") => properties(project),
        Some("faults") => faults(project),
        Some("mutants") => mutants(project, &modules, share.as_deref()),
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

/// Changes one thing after another in each module; `share`, such as "0/8", is the part of the changes to try.
fn mutants(project: &Project, modules: &[&str], share: Option<&str>) -> Outcome<()> {
    let programs = cargo_mutants(project)?;
    let tools = Tools::install(project)?;
    let mut missed = 0;
    for module in modules {
        let start = Instant::now();
        let output = project.root.join("target").join("mutants").join(module);
        fs::create_dir_all(&output).map_err(|cause| Failure::at("create", &output, cause))?;
        let mut command = tools.command(project, programs.join("cargo-mutants"));
        command
            .args(["mutants", "--no-shuffle", "--colors=never"])
            .arg(format!("--file=src/{module}/**"))
            .arg("--output")
            .arg(&output)
            .args(share.map(|share| format!("--shard={share}")))
            .args(["--", "--lib", "--test=checks"]);
        // It ends badly when a mutant is missed, which the counts below tell better.
        let ended = run(&mut command);
        let counts = Counts::read(&output.join("mutants.out"))?;
        println!(
            "{module}: {} caught, {} missed, {} timed out, {} not buildable, in {:.0} s",
            counts.caught,
            counts.missed,
            counts.timed_out,
            counts.unviable,
            start.elapsed().as_secs_f64()
        );
        if counts.tried() == 0 {
            ended?;
            println!("{module}: there was nothing to change.");
        }
        missed += counts.missed;
    }
    if missed == 0 {
        Ok(())
    } else {
        Err(Failure::new(format!(
            "{missed} changes went unnoticed: each is listed in target/mutants/<module>/mutants.out/missed.txt."
        )))
    }
}

/// What became of the changed programs.
struct Counts {
    caught: usize,
    missed: usize,
    timed_out: usize,
    unviable: usize,
}

impl Counts {
    fn tried(&self) -> usize {
        self.caught + self.missed + self.timed_out + self.unviable
    }

    /// From the lists that cargo-mutants leaves, one change to a line.
    fn read(folder: &Path) -> Outcome<Self> {
        let count = |name: &str| {
            let file = folder.join(name);
            fs::read_to_string(&file)
                .map(|text| text.lines().filter(|line| !line.trim().is_empty()).count())
                .map_err(|cause| Failure::at("read", &file, cause))
        };
        Ok(Self {
            caught: count("caught.txt")?,
            missed: count("missed.txt")?,
            timed_out: count("timeout.txt")?,
            unviable: count("unviable.txt")?,
        })
    }
}
