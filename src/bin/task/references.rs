//! Random cases that the program works out, for libraries of other makes to work out again.

mod given;

use std::fs;
use std::path::PathBuf;
use std::time::{SystemTime, UNIX_EPOCH};

use crate::failure::{Failure, Outcome};
use crate::options::Options;
use crate::process::{Heard, listen};
use crate::project::Project;
use crate::tools::Tools;

/// The task by itself.
pub fn references(project: &Project, mut options: Options) -> Outcome<()> {
    let seed: Option<u64> = options.value("--seed")?;
    options.finish()?;
    if run(project, &Tools::install(project)?, seed)?.success {
        Ok(())
    } else {
        Err(Failure::told())
    }
}

/// Writes the cases, and lets Node compare. Without a seed it is the time, which each failure names.
pub fn run(project: &Project, tools: &Tools, seed: Option<u64>) -> Outcome<Heard> {
    let seed = seed.unwrap_or_else(|| SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |now| now.as_secs()));
    let target = project.root.join("target");
    let file = target.join("reference-cases.json");
    fs::write(&file, given::cases(seed)).map_err(|cause| Failure::at("write", &file, cause))?;
    let mut command = tools.command(project, "node");
    command
        .current_dir(project.browser_tests())
        .env("FIRST_TRUSS_REFERENCE_CASES", &file)
        .env("NO_COLOR", "1")
        .env_remove("FORCE_COLOR")
        .args(["--test", "--test-reporter=spec", "--test-timeout=60000"])
        .args(files(project)?);
    listen(&mut command)
}

/// The comparisons in the order of their names.
fn files(project: &Project) -> Outcome<Vec<PathBuf>> {
    Project::scripts(&project.browser_tests().join("references"))
}
