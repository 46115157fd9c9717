//! Every tool a task needs, at the version it was tried with, installed once for each user.

mod browser;
mod node;
mod rust;

pub use browser::Browser;
pub use rust::cargo_mutants;

use std::env;
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::failure::{Failure, Outcome};
use crate::project::Project;
use crate::serve::Server;

/// The tools that build and test the page.
pub struct Tools {
    search_path: OsString,
}

impl Tools {
    /// Makes sure that the wasm target, Trunk, the wasm-bindgen programs and the Node packages are here.
    ///
    /// # Errors
    ///
    /// A sentence that says what could not be installed.
    pub fn install(project: &Project) -> Outcome<Self> {
        rust::wasm_target()?;
        rust::fetch_crates(project)?;
        let mut folders = vec![
            rust::trunk(project)?,
            rust::wasm_bindgen(project)?,
            rust::wasm_split(project)?,
            node::packages(project)?,
        ];
        if let Some(path) = env::var_os("PATH") {
            folders.extend(env::split_paths(&path));
        }
        let search_path =
            env::join_paths(folders).map_err(|cause| Failure::new(format!("The tools cannot be put on the search path: {cause}.")))?;
        Ok(Self { search_path })
    }

    /// A program that is started in the package and finds the tools.
    pub fn command(&self, project: &Project, program: impl AsRef<std::ffi::OsStr>) -> Command {
        let mut command = Command::new(program);
        command.current_dir(&project.root).env("PATH", &self.search_path);
        command
    }

    /// Node in the folder of the journeys, with the browser to drive and the page to visit.
    pub fn node(&self, project: &Project, browser: &Browser, page: &Server) -> Command {
        let mut command = self.command(project, "node");
        command
            .current_dir(project.browser_tests())
            .env("CHROME", &browser.chromium)
            .env("FIRST_TRUSS_ADDRESS", page.address())
            .env("FIRST_TRUSS_RUNNER", &project.runner)
            .env("NO_COLOR", "1")
            .env_remove("FORCE_COLOR");
        command
    }
}

/// The first program of these names on the search path.
fn on_path(names: &[&str]) -> Option<PathBuf> {
    let path = env::var_os("PATH")?;
    let folders: Vec<PathBuf> = env::split_paths(&path).collect();
    names
        .iter()
        .find_map(|name| folders.iter().map(|folder| program(folder, name)).find(|file| file.is_file()))
}

fn program(folder: &Path, name: &str) -> PathBuf {
    folder.join(format!("{name}{}", env::consts::EXE_SUFFIX))
}
