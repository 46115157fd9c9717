//! The format, the dependencies, the sources of the numbers, and clippy, natively and for the browser.

use std::process::Command;

use crate::dependencies;
use crate::failure::Outcome;
use crate::options::Options;
use crate::process::run;
use crate::project::Project;
use crate::sources;
use crate::tools::Tools;

pub fn lint(project: &Project, options: Options) -> Outcome<()> {
    options.finish()?;
    check(project, &Tools::install(project)?)
}

/// # Errors
///
/// At the first of them that finds something.
pub fn check(project: &Project, tools: &Tools) -> Outcome<()> {
    let cargo = || -> Command { tools.command(project, Project::cargo()) };
    run(cargo().args(["fmt", "--check"]))?;
    dependencies::check(project, tools)?;
    sources::check(project)?;
    run(cargo()
        .args(["clippy", "--locked", "--all-targets", "--features=task"])
        .args(["--", "-D", "warnings"]))?;
    run(cargo()
        // Benches run natively only.
        .args(["clippy", "--locked", "--lib", "--bins", "--tests"])
        .args(["--target=wasm32-unknown-unknown", "--", "-D", "warnings"]))
}
