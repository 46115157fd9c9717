//! Pictures of the release page, to be looked at.

use std::path::{Path, PathBuf};

use crate::build;
use crate::failure::Outcome;
use crate::options::Options;
use crate::process::run;
use crate::project::Project;
use crate::serve::Server;
use crate::tools::{Browser, Tools};

pub fn shots(project: &Project, mut options: Options) -> Outcome<()> {
    let folder: Option<PathBuf> = options.value("--out")?;
    options.finish()?;
    let folder = folder.unwrap_or_else(|| PathBuf::from("target").join("shots"));
    // An absolute folder stays as it is.
    photograph(project, "shots.mjs", &project.root.join(folder))
}

/// Renders the icons, and takes the pictures that a browser shows when it offers to install the page, into style/.
pub fn icons(project: &Project, options: Options) -> Outcome<()> {
    options.finish()?;
    photograph(project, "icons.mjs", &project.root.join("style"))
}

/// Builds and serves the release page for a script that takes pictures of it into `folder`.
fn photograph(project: &Project, script: &str, folder: &Path) -> Outcome<()> {
    let tools = Tools::install(project)?;
    let browser = Browser::find_or_install()?;
    build::release(project, &tools)?;
    let server = Server::start_anywhere(&project.dist())?;
    let mut command = tools.node(project, &browser, &server);
    command.arg(script).env("FIRST_TRUSS_SHOTS", folder);
    run(&mut command)
}
