//! Pictures of the release page, to be looked at.

use std::path::PathBuf;

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
    let tools = Tools::install(project)?;
    let browser = Browser::find_or_install()?;
    build::release(project, &tools)?;
    let server = Server::start_anywhere(&project.dist())?;
    let mut command = tools.node(project, &browser, &server);
    command
        .arg("shots.mjs")
        // An absolute folder stays as it is.
        .env("FIRST_TRUSS_SHOTS", project.root.join(folder));
    run(&mut command)
}
