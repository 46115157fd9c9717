//! Pictures of the release page: what every state is held to, and what is shown where the page can be installed.

use crate::build;
use crate::failure::Outcome;
use crate::options::Options;
use crate::process::run;
use crate::project::Project;
use crate::serve::Server;
use crate::tools::{Browser, Tools};

/// Holds every state, or those with a word in their name, to its pictures; with `--accept` takes these anew.
pub fn sight(project: &Project, mut options: Options) -> Outcome<()> {
    let only: Option<String> = options.value("--only")?;
    let accept = options.flag("--accept");
    options.finish()?;
    let mut settings = vec![("FIRST_TRUSS_SIGHT_ONLY", only.unwrap_or_default())];
    if accept {
        settings.push(("FIRST_TRUSS_SIGHT", "accept".to_owned()));
    }
    photograph(project, &["--test", "--test-reporter=spec", "journeys/sight.mjs"], settings)
}

/// Renders the icons, and takes the pictures that a browser shows when it offers to install the page, into style/.
pub fn icons(project: &Project, options: Options) -> Outcome<()> {
    options.finish()?;
    let folder = project.root.join("style").display().to_string();
    photograph(project, &["icons.mjs"], vec![("FIRST_TRUSS_SHOTS", folder)])
}

/// Builds and serves the release page for a script that takes pictures of it.
fn photograph(project: &Project, script: &[&str], settings: Vec<(&str, String)>) -> Outcome<()> {
    let tools = Tools::install(project)?;
    let browser = Browser::find_or_install()?;
    build::release(project, &tools)?;
    let server = Server::start_anywhere(&project.dist())?;
    let mut command = tools.node(project, &browser, &server);
    run(command.args(script).envs(settings))
}
