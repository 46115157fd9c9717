//! Builds the page with Trunk.

use std::env;
use std::process::Command;

use crate::failure::Outcome;
use crate::options::Options;
use crate::process::run;
use crate::project::Project;
use crate::tools::Tools;

pub fn build(project: &Project, options: Options) -> Outcome<()> {
    options.finish()?;
    release(project, &Tools::install(project)?)
}

pub fn develop(project: &Project, mut options: Options) -> Outcome<()> {
    let port: Option<u16> = options.value("--port")?;
    options.finish()?;
    let tools = Tools::install(project)?;
    let mut command = trunk(project, &tools);
    command.args(["serve", "--offline"]);
    if let Some(port) = port {
        command.arg("--port").arg(port.to_string());
    }
    run(&mut command)
}

/// Builds the release page into dist/.
pub fn release(project: &Project, tools: &Tools) -> Outcome<()> {
    run(trunk(project, tools).args(["build", "--release", "--offline"]))
}

/// Trunk with the tools it would otherwise download.
fn trunk(project: &Project, tools: &Tools) -> Command {
    let mut command = tools.command(project, "trunk");
    if env::var_os("NO_COLOR").is_some() {
        // Trunk reads this variable as a flag and stops at the customary "1".
        command.env("NO_COLOR", "true");
    }
    command
}
