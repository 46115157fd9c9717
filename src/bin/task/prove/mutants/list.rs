//! The changes that cargo-mutants can make to the calculation.

use std::path::Path;

use serde_json::Value;

use crate::failure::{Failure, Outcome};
use crate::process::ask;
use crate::project::Project;

/// What a change is made to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Genre {
    /// The whole body of a function, by a value.
    Body,
    Binary,
    Unary,
    Arm,
    Guard,
    Field,
}

/// One change, as cargo-mutants lists it.
#[derive(Clone, Debug)]
pub struct Change {
    /// Such as `src/water/belief.rs:41:11: replace * with + in Belief::observe`.
    pub name: String,
    /// From the package's folder, with `/`.
    pub file: String,
    pub genre: Genre,
    /// Line and column of what is replaced, from 1, and of what follows it.
    pub start: (usize, usize),
    pub end: (usize, usize),
    pub replacement: String,
}

impl Change {
    /// The module of the library in which it is made.
    pub fn module(&self) -> &str {
        self.file.split('/').nth(1).unwrap_or("")
    }

    /// What is changed, without where: `replace * with + in Belief::observe`.
    pub fn what(&self) -> &str {
        self.name.split_once(": ").map_or("", |(_, what)| what)
    }

    fn read(value: &Value) -> Option<Self> {
        let text = |pointer: &str| value.pointer(pointer)?.as_str().map(str::to_string);
        let number = |pointer: &str| usize::try_from(value.pointer(pointer)?.as_u64()?).ok();
        Some(Self {
            name: text("/name")?,
            file: text("/file")?,
            genre: match value.pointer("/genre")?.as_str()? {
                "FnValue" => Genre::Body,
                "BinaryOperator" => Genre::Binary,
                "UnaryOperator" => Genre::Unary,
                "MatchArm" => Genre::Arm,
                "MatchArmGuard" => Genre::Guard,
                "StructField" => Genre::Field,
                _ => return None,
            },
            start: (number("/span/start/line")?, number("/span/start/column")?),
            end: (number("/span/end/line")?, number("/span/end/column")?),
            replacement: text("/replacement")?,
        })
    }
}

/// The changes of these modules, in the order of files and lines; with a `difference`, those alone that touch its lines.
///
/// # Errors
///
/// When cargo-mutants cannot list them, or lists what is not known here.
pub fn changes(project: &Project, programs: &Path, modules: &[&str], difference: Option<&Path>) -> Outcome<Vec<Change>> {
    let mut command = std::process::Command::new(programs.join("cargo-mutants"));
    command
        .current_dir(&project.root)
        .args(["mutants", "--list", "--json", "--no-shuffle", "--no-config"])
        .args(modules.iter().map(|module| format!("--file=src/{module}/**")));
    if let Some(difference) = difference {
        command.arg("--in-diff").arg(difference);
    }
    let listed = ask(&mut command).ok_or_else(|| Failure::new("cargo-mutants cannot list the changes."))?;
    // It lists nothing at all when nothing of a difference concerns it.
    if difference.is_some() && listed.is_empty() {
        return Ok(Vec::new());
    }
    serde_json::from_str::<Vec<Value>>(&listed)
        .ok()
        .and_then(|values| values.iter().map(Change::read).collect())
        .ok_or_else(|| Failure::new("The changes that cargo-mutants lists cannot be read."))
}
