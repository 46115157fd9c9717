//! Chromium and its driver: found, or installed where Debian's packages may be.

use std::env;
use std::path::{Path, PathBuf};
use std::process::Command;

use super::on_path;
use crate::failure::{Failure, Outcome};
use crate::process::{ask, run};

const CHROMIUM_NAMES: &[&str] = &["chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome"];
const CHROMIUM_PLACES: &[&str] = &[
    "/usr/bin/chromium",
    "/snap/bin/chromium",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
];
const DRIVER_NAMES: &[&str] = &["chromedriver"];
const DRIVER_PLACES: &[&str] = &["/usr/bin/chromedriver", "/usr/lib/chromium/chromedriver"];

/// A browser that tests can drive.
pub struct Browser {
    pub chromium: PathBuf,
    pub driver: PathBuf,
}

impl Browser {
    /// # Errors
    ///
    /// One sentence that says what to install.
    pub fn find_or_install() -> Outcome<Self> {
        if let Some(browser) = Self::find() {
            return browser.of_one_version();
        }
        if Path::new("/etc/debian_version").is_file() && is_root() {
            let mut update = apt_get();
            let mut install = apt_get();
            run(update.arg("update"))?;
            run(install.args(["install", "-y", "chromium", "chromium-driver"]))?;
        }
        Self::find()
            .ok_or_else(|| {
                Failure::new(
                    "Install Chromium and ChromeDriver (Debian: `apt-get install chromium chromium-driver`), or set CHROME and CHROMEDRIVER to their programs.",
                )
            })?
            .of_one_version()
    }

    fn find() -> Option<Self> {
        Some(Self {
            chromium: named_by("CHROME")
                .or_else(|| on_path(CHROMIUM_NAMES))
                .or_else(|| first_file(CHROMIUM_PLACES))?,
            driver: named_by("CHROMEDRIVER")
                .or_else(|| on_path(DRIVER_NAMES))
                .or_else(|| first_file(DRIVER_PLACES))?,
        })
    }

    /// A driver refuses a browser of another major version, with a message that is hard to read.
    fn of_one_version(self) -> Outcome<Self> {
        let [chromium, driver] =
            [&self.chromium, &self.driver].map(|program| ask(Command::new(program).arg("--version")).and_then(|text| major_version(&text)));
        match (chromium, driver) {
            (Some(chromium), Some(driver)) if chromium != driver => Err(Failure::new(format!(
                "Install a Chromium and a ChromeDriver of one version: these are {chromium} and {driver}."
            ))),
            _ => Ok(self),
        }
    }
}

fn named_by(variable: &str) -> Option<PathBuf> {
    env::var_os(variable).map(PathBuf::from).filter(|path| path.is_file())
}

fn first_file(places: &[&str]) -> Option<PathBuf> {
    places.iter().map(PathBuf::from).find(|path| path.is_file())
}

fn is_root() -> bool {
    ask(Command::new("id").arg("-u")).as_deref() == Some("0")
}

fn apt_get() -> Command {
    let mut command = Command::new("apt-get");
    command.env("DEBIAN_FRONTEND", "noninteractive");
    command
}

/// The first number with a full stop after it, as in "Chromium 156.0.1 built on Debian 12".
fn major_version(text: &str) -> Option<u32> {
    text.split_whitespace().find_map(|word| word.split_once('.')?.0.parse().ok())
}

#[cfg(test)]
mod tests {
    use super::major_version;

    #[test]
    fn the_major_version_is_read_from_either_program() {
        let chromium = "Chromium 156.0.7000.10 built on Debian GNU/Linux 12";
        assert_eq!(major_version(chromium), Some(156));
        assert_eq!(major_version("ChromeDriver 99.1.2 (abc-refs/1)"), Some(99));
        assert_eq!(major_version("no version"), None);
    }
}
