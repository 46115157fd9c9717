//! What is kept of a trial in the repository, and the changes that need not be noticed.

use std::collections::{BTreeMap, HashSet};
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use toml::{Table, Value};

use super::lines::Lines;
use super::list::Change;
use crate::failure::{Failure, Outcome};
use crate::seal::digest::short;

/// The folder of records, from the package's.
pub const FOLDER: &str = "tests/mutants";

/// What a trial of one module came to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Record {
    pub module: String,
    /// The day, as "2026-11-26".
    pub date: String,
    /// The files as they were tried, with their hashes.
    pub files: BTreeMap<String, String>,
    /// The version of cargo-mutants that listed the changes.
    pub cargo_mutants: String,
    /// The part that was to be tried, such as "0/8"; empty for the whole.
    pub share: String,
    pub all: i64,
    /// How far the trial got in the order that favours no file.
    pub passed: i64,
    pub tried: i64,
    pub caught: i64,
    pub timed_out: i64,
    pub unbuildable: i64,
    pub justified: i64,
    /// Of those tried, the ones that had a program built for each.
    pub one_by_one: i64,
    pub minutes: f64,
    /// Noticed by no check and justified by nothing: what, and where.
    pub missed: Vec<Place>,
    /// What came of each change that was tried this time, by its name; kept beside the copy alone.
    pub outcomes: BTreeMap<String, &'static str>,
}

/// A change, told without line numbers.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    pub file: String,
    /// Such as `replace * with + in Belief::observe`.
    pub change: String,
    /// The source from the change to the end of its line.
    pub at: String,
}

impl Place {
    pub fn of(change: &Change, text: &str) -> Self {
        let start = Lines::of(text).byte(change.start);
        let rest = text.get(start..).and_then(|rest| rest.lines().next()).unwrap_or("");
        Self {
            file: change.file.clone(),
            change: change.what().to_string(),
            at: rest.trim_end().to_string(),
        }
    }

    fn read(table: &Value) -> Option<Self> {
        Some(Self {
            file: table.get("file")?.as_str()?.to_string(),
            change: table.get("change")?.as_str()?.to_string(),
            at: table.get("at")?.as_str()?.to_string(),
        })
    }
}

impl Record {
    fn file(root: &Path, module: &str) -> PathBuf {
        root.join(FOLDER).join(format!("{module}.toml"))
    }

    pub fn write(&self, root: &Path) -> Outcome<()> {
        let file = Self::file(root, &self.module);
        let mut text = String::from("# Written by `cargo task prove --only mutants`, not by hand.\n\n");
        let words = [
            ("module", &self.module),
            ("date", &self.date),
            ("cargo_mutants", &self.cargo_mutants),
            ("share", &self.share),
        ];
        let numbers = [
            ("all", self.all),
            ("passed", self.passed),
            ("tried", self.tried),
            ("caught", self.caught),
            ("timed_out", self.timed_out),
            ("unbuildable", self.unbuildable),
            ("justified", self.justified),
            ("one_by_one", self.one_by_one),
        ];
        for (key, word) in words {
            let _ = writeln!(text, "{key} = {}", Value::from(word.as_str()));
        }
        for (key, number) in numbers {
            let _ = writeln!(text, "{key} = {number}");
        }
        let _ = writeln!(text, "minutes = {:.1}\n\n[files]", self.minutes);
        for (file, hash) in &self.files {
            let _ = writeln!(text, "{} = {}", Value::from(file.as_str()), Value::from(hash.as_str()));
        }
        for Place { file, change, at } in &self.missed {
            let _ = write!(text, "\n[[missed]]\n");
            for (key, word) in [("file", file), ("change", change), ("at", at)] {
                let _ = writeln!(text, "{key} = {}", Value::from(word.as_str()));
            }
        }
        if let Some(folder) = file.parent() {
            fs::create_dir_all(folder).map_err(|cause| Failure::at("create", folder, cause))?;
        }
        fs::write(&file, text).map_err(|cause| Failure::at("write", &file, cause))
    }

    /// Writes what came of each change, to be held against cargo-mutants' own runs.
    pub fn write_outcomes(&self, root: &Path) -> Outcome<()> {
        let file = root.join("target").join("mutants").join(format!("outcomes-{}.txt", self.module));
        let lines: Vec<String> = self.outcomes.iter().map(|(name, outcome)| format!("{outcome}: {name}\n")).collect();
        fs::write(&file, lines.concat()).map_err(|cause| Failure::at("write", &file, cause))
    }

    /// # Errors
    ///
    /// When there is none, or it is not what `write` writes.
    pub fn read(root: &Path, module: &str) -> Outcome<Self> {
        let file = Self::file(root, module);
        let table = table(&file)?;
        let word = |key: &str| Some(table.get(key)?.as_str()?.to_string());
        let number = |key: &str| table.get(key)?.as_integer();
        let read = || {
            Some(Self {
                module: word("module")?,
                date: word("date")?,
                files: hashes(table.get("files")?)?,
                cargo_mutants: word("cargo_mutants")?,
                share: word("share")?,
                all: number("all")?,
                passed: number("passed")?,
                tried: number("tried")?,
                caught: number("caught")?,
                timed_out: number("timed_out")?,
                unbuildable: number("unbuildable")?,
                justified: number("justified")?,
                one_by_one: number("one_by_one")?,
                minutes: table.get("minutes")?.as_float()?,
                missed: match table.get("missed") {
                    None => Vec::new(),
                    Some(missed) => missed.as_array()?.iter().map(Place::read).collect::<Option<_>>()?,
                },
                outcomes: BTreeMap::new(),
            })
        };
        read().ok_or_else(|| Failure::new(format!("{} is no record of a trial.", file.display())))
    }
}

/// Changes that need not be noticed, or not yet: each entry of a list names some of a file at one place of it.
pub struct List(HashSet<Place>);

impl List {
    /// Changes that no check can notice or need notice; each entry has its `reason`.
    ///
    /// # Errors
    ///
    /// When the list cannot be read, an entry lacks something, or one stands there twice.
    pub fn justified(root: &Path) -> Outcome<Self> {
        Self::read(root, "justified", true)
    }

    /// Changes that no check notices so far and that nobody has looked at: a list that may only become shorter.
    ///
    /// # Errors
    ///
    /// As `justified`.
    pub fn open(root: &Path) -> Outcome<Self> {
        Self::read(root, "open", false)
    }

    fn read(root: &Path, name: &str, has_reasons: bool) -> Outcome<Self> {
        let file = root.join(FOLDER).join(format!("{name}.toml"));
        let table = table(&file)?;
        let entries = table.get(name).and_then(Value::as_array).map_or(&[][..], Vec::as_slice);
        let mut found = HashSet::new();
        for entry in entries {
            let bad = || Failure::new(format!("{}: an entry lacks something: {entry}", file.display()));
            let word = |key: &str| entry.get(key).and_then(Value::as_str).map(str::to_string);
            let changes = entry.get("change").and_then(Value::as_array).ok_or_else(bad)?;
            let (Some(path), Some(at)) = (word("file"), word("at")) else {
                return Err(bad());
            };
            if has_reasons && word("reason").is_none_or(|reason| reason.trim().is_empty()) {
                return Err(bad());
            }
            for change in changes {
                let place = Place {
                    file: path.clone(),
                    change: change.as_str().ok_or_else(bad)?.to_string(),
                    at: at.clone(),
                };
                if !found.insert(place) {
                    return Err(Failure::new(format!("{}: an entry stands there twice: {entry}", file.display())));
                }
            }
        }
        Ok(Self(found))
    }

    pub fn holds(&self, place: &Place) -> bool {
        self.0.contains(place)
    }

    /// The entries for a module, in order.
    pub fn of_module(&self, module: &str) -> Vec<&Place> {
        let start = format!("src/{module}/");
        let mut places: Vec<&Place> = self.0.iter().filter(|place| place.file.starts_with(&start)).collect();
        places.sort();
        places
    }
}

fn table(file: &Path) -> Outcome<Table> {
    let text = fs::read_to_string(file).map_err(|cause| Failure::at("read", file, cause))?;
    text.parse().map_err(|cause| Failure::at("read", file, cause))
}

fn hashes(value: &Value) -> Option<BTreeMap<String, String>> {
    let hash = |(file, hash): (&String, &Value)| Some((file.clone(), hash.as_str()?.to_string()));
    value.as_table()?.iter().map(hash).collect()
}

/// Each file of a module with its hash.
pub fn files(root: &Path, module: &str) -> Outcome<BTreeMap<String, String>> {
    Ok(hashes_of(&super::copy::module_sources(root, module)?))
}

/// Paths with the first sixteen hexadecimal digits of the SHA-256 of their texts.
pub fn hashes_of<'a>(sources: impl IntoIterator<Item = (&'a String, &'a String)>) -> BTreeMap<String, String> {
    let sources = sources.into_iter();
    sources.map(|(path, text)| (path.clone(), short(text.as_bytes()))).collect()
}

#[cfg(test)]
mod tests {
    use std::fs;
    use std::path::Path;

    use super::super::MODULES;
    use super::{List, Place, Record, files};

    fn root() -> &'static Path {
        Path::new(env!("CARGO_MANIFEST_DIR"))
    }

    /// What is written can be read, with signs that TOML has to escape.
    #[test]
    fn a_record_comes_back() {
        let folder = std::env::temp_dir().join(format!("first-truss-record-{}", std::process::id()));
        let record = Record {
            module: "water".to_string(),
            date: "2026-11-26".to_string(),
            files: [("src/water/mod.rs".to_string(), "0123456789abcdef".to_string())].into(),
            cargo_mutants: "27.1.0".to_string(),
            share: "1/8".to_string(),
            all: 9,
            passed: 5,
            tried: 3,
            caught: 1,
            timed_out: 1,
            unbuildable: 0,
            justified: 0,
            one_by_one: 1,
            minutes: 0.5,
            missed: vec![Place {
                file: "src/water/mod.rs".to_string(),
                change: "replace f -> String with \"xyzzy\".into()".to_string(),
                at: "format!(\"{x} \\\\ {y}\")".to_string(),
            }],
            outcomes: std::collections::BTreeMap::new(),
        };
        record.write(&folder).unwrap();
        let read = Record::read(&folder, "water").unwrap();
        fs::remove_dir_all(&folder).unwrap();
        assert_eq!(read, record);
    }

    /// The records are whole, and what they say was missed is justified by now or known to be open. One of an older source is told
    /// to be that.
    #[test]
    fn every_change_that_was_tried_is_noticed_or_listed() {
        let (justified, open) = (List::justified(root()).unwrap(), List::open(root()).unwrap());
        let (mut all, mut tried, mut reasons, mut waiting) = (0, 0, 0, 0);
        for module in MODULES {
            let record = Record::read(root(), module).unwrap();
            let listed = |place: &&Place| justified.holds(place) || open.holds(place);
            let missed: Vec<&Place> = record.missed.iter().filter(|place| !listed(place)).collect();
            assert!(missed.is_empty(), "{module}: {missed:#?}");
            let counted = record.caught + record.timed_out + record.unbuildable + record.justified;
            assert_eq!(record.tried, counted + i64::try_from(record.missed.len()).unwrap(), "{module}");
            assert!(record.tried <= record.all && record.tried > 0, "{module}");
            if files(root(), module).unwrap() != record.files {
                println!(
                    "changes noticed: the record of {module}, of {}, is of an older source than this one",
                    record.date
                );
            }
            all += record.all;
            tried += record.tried;
            reasons += record.justified;
            waiting += open.of_module(module).len();
        }
        println!(
            "changes noticed: {tried} of {all} tried for the records, {reasons} need not be noticed, {waiting} that no check notices are open"
        );
    }

    /// As long as the file is as it was recorded: of a newer one the record has yet to tell.
    #[test]
    fn what_is_listed_stands_in_the_source() {
        let is_recorded = |file: &String| {
            MODULES.iter().any(|module| {
                let recorded = Record::read(root(), module).unwrap().files;
                recorded.contains_key(file) && recorded.get(file) == files(root(), module).unwrap().get(file)
            })
        };
        for list in [List::justified(root()).unwrap(), List::open(root()).unwrap()] {
            let places = MODULES.iter().flat_map(|module| list.of_module(module));
            for Place { file, change, at } in places.filter(|place| is_recorded(&place.file)) {
                let text = fs::read_to_string(root().join(file)).unwrap_or_else(|_| panic!("There is no {file}."));
                let found = text.lines().any(|line| line.trim_end().ends_with(at.as_str()));
                assert!(found, "{file} has no line that ends with \"{at}\" ({change}).");
            }
            let listed: usize = MODULES.iter().map(|module| list.of_module(module).len()).sum();
            assert_eq!(listed, list.0.len(), "A list names a file that is no part of the calculation.");
        }
    }
}
