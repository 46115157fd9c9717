//! Where every number of the calculation comes from: read from the code and the published cases, and written as one page.

mod cases;
mod code;
mod page;
mod statement;

use std::fs;
use std::path::{Path, PathBuf};

use crate::failure::{Failure, Outcome};
use crate::options::Options;
use crate::project::Project;

use cases::Cases;
use code::{Place, Reading};

/// The modules that work something out, in the order of the map. The screens hold no constant of the trade.
const MODULES: [&str; 7] = ["quantity", "almanac", "water", "feed", "pest", "today", "notebook"];

/// The module whose functions hold whole numbers of the stored form.
const STORED: &str = "notebook";

/// The page.
const PAGE: &str = "SOURCES.md";

/// A function whose numbers need no source.
struct Exception {
    file: &'static str,
    function: &'static str,
    reason: &'static str,
}

const EXCEPTIONS: &[Exception] = &[
    Exception {
        file: "quantity/measure.rs",
        function: "quarters",
        reason: "four quarters make one",
    },
    Exception {
        file: "quantity/measure.rs",
        function: "decimal",
        reason: "decimals that a `u64` can hold",
    },
    Exception {
        file: "almanac/day.rs",
        function: "CivilDay::default",
        reason: "a day for a device that has no calendar",
    },
    Exception {
        file: "almanac/day.rs",
        function: "CivilDay::new",
        reason: "the years that the calendar library can hold",
    },
    Exception {
        file: "almanac/day.rs",
        function: "CivilDay::northern_month",
        reason: "half a year on",
    },
    Exception {
        file: "almanac/day.rs",
        function: "CivilDay::days_in_month_before",
        reason: "December, before the first day that can be",
    },
    Exception {
        file: "almanac/day.rs",
        function: "month_name",
        reason: "numbers of months",
    },
    Exception {
        file: "almanac/day.rs",
        function: "days_from_era",
        reason: "the Gregorian calendar",
    },
    Exception {
        file: "almanac/day.rs",
        function: "CivilDay::from_str",
        reason: "signs of a refused text that are told",
    },
    Exception {
        file: "almanac/day.rs",
        function: "year_of",
        reason: "figures of a year, all of them",
    },
    Exception {
        file: "feed/mixer.rs",
        function: "part_of_its_own",
        reason: "room for columns, no bound",
    },
];

/// A file of the calculation and what it holds.
pub struct File {
    /// As from the folder `src`: `almanac/sun.rs`.
    pub name: String,
    pub reading: Reading,
}

/// Writes the page.
pub fn sources(project: &Project, options: Options) -> Outcome<()> {
    options.finish()?;
    let (files, cases) = read(project)?;
    let page = page::written(&files, &cases, EXCEPTIONS);
    let path = project.root.join(PAGE);
    fs::write(&path, page).map_err(|cause| Failure::at("write", &path, cause))?;
    println!("{PAGE} is written.");
    judged(&files)
}

/// # Errors
///
/// When a number of the calculation lacks its unit, source or status, or the page is not what the sources say.
pub fn check(project: &Project) -> Outcome<()> {
    let (files, cases) = read(project)?;
    judged(&files)?;
    let path = project.root.join(PAGE);
    let kept = fs::read_to_string(&path).map_err(|cause| Failure::at("read", &path, cause))?;
    if kept == page::written(&files, &cases, EXCEPTIONS) {
        Ok(())
    } else {
        Err(Failure::new(format!(
            "{PAGE} is no longer what the code says: run `cargo task sources`."
        )))
    }
}

fn read(project: &Project) -> Outcome<(Vec<File>, Cases)> {
    let mut files = Vec::new();
    for module in MODULES {
        let mut paths = Vec::new();
        rust_files(&project.root.join("src").join(module), &mut paths)?;
        paths.sort();
        for path in paths {
            let text = fs::read_to_string(&path).map_err(|cause| Failure::at("read", &path, cause))?;
            let reading = code::read(&text, module != STORED).map_err(|cause| Failure::at("read", &path, cause))?;
            let name = path.strip_prefix(project.root.join("src")).unwrap_or(&path);
            files.push(File {
                name: name.to_string_lossy().replace('\\', "/"),
                reading,
            });
        }
    }
    Ok((files, cases::read(&project.root.join("tests").join("published"))?))
}

fn rust_files(folder: &Path, found: &mut Vec<PathBuf>) -> Outcome<()> {
    let entries = fs::read_dir(folder).map_err(|cause| Failure::at("read", folder, cause))?;
    for path in entries.filter_map(|entry| Some(entry.ok()?.path())) {
        if path.is_dir() {
            rust_files(&path, found)?;
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            found.push(path);
        }
    }
    Ok(())
}

fn judged(files: &[File]) -> Outcome<()> {
    let findings = findings(files, EXCEPTIONS);
    if findings.is_empty() {
        Ok(())
    } else {
        Err(Failure::new(findings.join("\n")))
    }
}

/// What each number lacks, and exceptions that nothing needs.
fn findings(files: &[File], exceptions: &[Exception]) -> Vec<String> {
    let mut findings = Vec::new();
    let mut is_needed = vec![false; exceptions.len()];
    for file in files {
        for place in &file.reading.places {
            let excepted = exceptions
                .iter()
                .position(|exception| exception.file == file.name && exception.function == place.name);
            if let Some(at) = excepted {
                is_needed[at] = true;
                continue;
            }
            findings.extend(lacks(place).map(|lack| {
                format!(
                    "src/{}:{}: {} ({}) {lack}: {}",
                    file.name, place.line, place.name, place.numbers, place.statement.text
                )
            }));
        }
    }
    for file in files {
        for step in &file.reading.steps {
            if [&step.title, &step.formula, &step.source]
                .iter()
                .any(|words| words.trim().is_empty())
            {
                findings.push(format!(
                    "src/{}:{}: a step of a working lacks its title, formula or source: {} {} {}",
                    file.name, step.line, step.title, step.formula, step.source
                ));
            }
        }
    }
    let spare = exceptions.iter().zip(is_needed).filter(|(_, needed)| !needed);
    findings.extend(spare.map(|(exception, _)| format!("{} in {} needs no exception.", exception.function, exception.file)));
    findings
}

fn lacks(place: &Place) -> Option<&'static str> {
    let statement = &place.statement;
    match (statement.statuses.is_empty(), statement.unit.is_none() && !place.is_function) {
        (false, false) => None,
        (true, false) => Some("does not say on whose word it stands"),
        (false, true) => Some("has no unit"),
        (true, true) => Some("has no unit and does not say on whose word it stands"),
    }
}

#[cfg(test)]
mod tests {
    use super::{Exception, File, code, findings};

    fn file(text: &str) -> File {
        File {
            name: "water/a.rs".to_string(),
            reading: code::read(text, true).unwrap(),
        }
    }

    #[test]
    fn a_number_without_unit_or_status_is_found_with_its_place() {
        let found = findings(
            &[file(
                "/// A number.\nconst A: f64 = 1.5;\nfn f() -> f64 { 0.7 }\n/// Days (choice).\nconst B: f64 = 2.5;",
            )],
            &[],
        );
        assert_eq!(
            found,
            [
                "src/water/a.rs:2: A (1.5) has no unit and does not say on whose word it stands: A number.",
                "src/water/a.rs:3: f (0.7) does not say on whose word it stands: ",
            ]
        );
    }

    #[test]
    fn a_step_without_a_source_is_found() {
        let step = |source: &str| file(&format!("fn f() {{ w.step(\"a\", \"b\", &[], c, \"{source}\"); }}"));
        assert_eq!(findings(&[step("FAO-56 Eq. 6")], &[]), Vec::<String>::new());
        assert_eq!(
            findings(&[step(" ")], &[]),
            ["src/water/a.rs:1: a step of a working lacks its title, formula or source: a b  "]
        );
    }

    #[test]
    fn an_exception_serves_one_function_and_must_be_needed() {
        let exception = |file, function| Exception {
            file,
            function,
            reason: "a reason",
        };
        let text = "fn f() -> f64 { 0.7 }";
        assert_eq!(findings(&[file(text)], &[exception("water/a.rs", "f")]), Vec::<String>::new());
        assert_eq!(findings(&[file(text)], &[exception("water/b.rs", "f")]).len(), 2);
        assert_eq!(
            findings(&[file("fn g() {}")], &[exception("water/a.rs", "f")]),
            ["f in water/a.rs needs no exception."]
        );
    }
}
