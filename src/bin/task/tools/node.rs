//! Node and the packages that drive the browser and shrink the program.

use std::fs;
use std::path::PathBuf;
use std::process::Command;

use super::on_path;
use crate::failure::{Failure, Outcome};
use crate::process::{ask, run};
use crate::project::Project;

/// What the packages in tests/browser need.
const OLDEST_NODE: u32 = 20;

/// A copy of the lock file the packages were installed from, kept beside them.
const INSTALLED_LOCK: &str = ".installed-lock.json";

/// The folder of the packages' programs; the packages are installed when they are missing or their lock changed.
///
/// # Errors
///
/// A sentence when Node is missing or too old, or `npm ci` fails.
pub fn packages(project: &Project) -> Outcome<PathBuf> {
    check_version(ask(Command::new("node").arg("--version")).as_deref())?;
    let folder = project.browser_tests();
    let lock = folder.join("package-lock.json");
    let modules = folder.join("node_modules");
    let stamp = modules.join(INSTALLED_LOCK);
    let wanted = fs::read(&lock).map_err(|cause| Failure::at("read", &lock, cause))?;
    if fs::read(&stamp).ok().as_ref() != Some(&wanted) {
        let npm = on_path(&["npm", "npm.cmd"]).ok_or_else(|| Failure::new("Install npm."))?;
        run(Command::new(npm).current_dir(&folder).args(["ci", "--no-audit", "--no-fund"]))?;
        fs::write(&stamp, wanted).map_err(|cause| Failure::at("write", &stamp, cause))?;
    }
    Ok(modules.join(".bin"))
}

/// Accepts what `node --version` prints when it is new enough.
fn check_version(version: Option<&str>) -> Outcome<()> {
    let Some(version) = version else {
        return Err(Failure::new(format!("Install Node {OLDEST_NODE} or later with npm.")));
    };
    let major = version
        .trim_start_matches('v')
        .split('.')
        .next()
        .and_then(|digits| digits.parse::<u32>().ok());
    if major.is_some_and(|major| major >= OLDEST_NODE) {
        Ok(())
    } else {
        Err(Failure::new(format!(
            "Install Node {OLDEST_NODE} or later: this is Node {version}."
        )))
    }
}

#[cfg(test)]
mod tests {
    use super::check_version;

    #[test]
    fn old_or_missing_node_is_told_in_a_sentence() {
        let told = |version| check_version(version).unwrap_err().to_string();
        assert_eq!(told(None), "Install Node 20 or later with npm.");
        assert_eq!(told(Some("v18.19.1")), "Install Node 20 or later: this is Node v18.19.1.");
        assert!(check_version(Some("v20.0.0")).is_ok());
        assert!(check_version(Some("v100.1.2")).is_ok());
    }
}
