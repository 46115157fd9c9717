//! Where things are: the package, what it builds, and the per-user cache of tools.

use std::env;
use std::fs;
use std::path::{Path, PathBuf};

use crate::failure::{Failure, Outcome};

pub struct Project {
    pub root: PathBuf,
    pub cache: PathBuf,
    /// This runner. Asked for at the start: `cargo test` builds it anew, and a program that was replaced no longer knows its
    /// own place.
    pub runner: PathBuf,
}

impl Project {
    /// # Errors
    ///
    /// When no home or cache folder is known, or there is no package here.
    pub fn find() -> Outcome<Self> {
        // Cargo sets the first; the second serves a runner that is started by hand.
        let root = env::var_os("CARGO_MANIFEST_DIR")
            .map(PathBuf::from)
            .or_else(|| env::current_dir().ok())
            .filter(|folder| folder.join("Trunk.toml").is_file())
            .ok_or_else(|| Failure::new("Run `cargo task` inside the First Truss package."))?;
        let folder = |name: &str| env::var_os(name).map(PathBuf::from).filter(|path| path.is_absolute());
        let cache = folder("FIRST_TRUSS_CACHE")
            .or_else(|| Some(folder("XDG_CACHE_HOME")?.join("first-truss")))
            .or_else(|| Some(env::home_dir()?.join(".cache").join("first-truss")))
            .ok_or_else(|| Failure::new("Set FIRST_TRUSS_CACHE to a folder where tools can be kept."))?;
        let runner = env::current_exe().map_err(|cause| Failure::new(format!("This program does not know its own place: {cause}.")))?;
        Ok(Self { root, cache, runner })
    }

    /// The release page.
    pub fn dist(&self) -> PathBuf {
        self.root.join("dist")
    }

    /// The journeys and everything that drives a browser.
    pub fn browser_tests(&self) -> PathBuf {
        self.root.join("tests").join("browser")
    }

    /// The scripts of a folder in the order of their names.
    ///
    /// # Errors
    ///
    /// When the folder cannot be read.
    pub fn scripts(folder: &Path) -> Outcome<Vec<PathBuf>> {
        let entries = fs::read_dir(folder).map_err(|cause| Failure::at("read", folder, cause))?;
        let mut files: Vec<PathBuf> = entries
            .filter_map(|entry| Some(entry.ok()?.path()))
            .filter(|path| path.extension().is_some_and(|extension| extension == "mjs"))
            .collect();
        files.sort();
        Ok(files)
    }

    /// The program for the page's own crate and for the tools: the Cargo that started this runner.
    pub fn cargo() -> PathBuf {
        env::var_os("CARGO").map_or_else(|| PathBuf::from("cargo"), PathBuf::from)
    }
}
