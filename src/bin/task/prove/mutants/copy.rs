//! A copy of the package with all changes written in, built once.

use std::collections::{BTreeMap, HashMap, HashSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use serde_json::{Value, json};

use super::list::Change;
use super::switches::{self, Switched};
use crate::failure::{Failure, Outcome};
use crate::project::Project;
use crate::seal::digest::short;

/// What makes up the library and its checks.
const PARTS: [&str; 4] = ["Cargo.toml", "Cargo.lock", "rust-toolchain.toml", "src"];
/// What the copy has of its own.
const SWITCH: (&str, &str) = ("src/switch.rs", include_str!("switch.rs"));
/// How often what the compiler refuses may be taken out.
const ROUNDS: usize = 60;
/// Refusals that may lie in how a change is written in, and not in the change.
const WRITTEN_IN: [&str; 4] = ["E0282", "E0283", "E0284", "E0015"];

pub struct Copy {
    root: PathBuf,
    target: PathBuf,
    /// The compiler's level: few programs are tried a thousand times, many a few times.
    optimised: &'static str,
    /// The sources with something to write in or to free of `const`, by path from the package's folder.
    sources: BTreeMap<String, String>,
}

/// The program of checks with the changes in it.
pub struct Built {
    pub program: PathBuf,
    /// In the program, to be put in force by number.
    pub placed: HashSet<usize>,
    /// No program can be built with them.
    pub unbuildable: HashSet<usize>,
    /// Changes of one place: where the first is reached, all are.
    pub together: HashMap<usize, Vec<usize>>,
}

/// What is out, and why.
#[derive(Default)]
struct Out {
    unbuildable: HashSet<usize>,
    left: HashSet<usize>,
    constant: HashSet<String>,
}

impl Out {
    /// What was taken out when the same was built before.
    fn recall(file: &Path, key: &str) -> Option<Self> {
        let value: Value = serde_json::from_str(&fs::read_to_string(file).ok()?).ok()?;
        let list = |name: &str| value.get(name)?.as_array();
        let numbers = |name: &str| {
            list(name)?
                .iter()
                .map(|number| usize::try_from(number.as_u64()?).ok())
                .collect::<Option<HashSet<usize>>>()
        };
        (value.get("key")? == key).then_some(())?;
        Some(Self {
            unbuildable: numbers("unbuildable")?,
            left: numbers("left")?,
            constant: list("constant")?
                .iter()
                .map(|name| Some(name.as_str()?.to_string()))
                .collect::<Option<_>>()?,
        })
    }

    fn remember(&self, file: &Path, key: &str) -> Outcome<()> {
        let value = json!({"key": key, "unbuildable": self.unbuildable, "left": self.left, "constant": self.constant});
        put(file, value.to_string().as_bytes())
    }
}

impl Copy {
    /// Brings the copy up to date; what is the same keeps its time, so that it is not built again.
    pub fn of(project: &Project, modules: &[&str]) -> Outcome<Self> {
        let folder = project.root.join("target").join("mutants");
        Self::brought(
            project,
            Self {
                root: folder.join("copy"),
                target: folder.join("build"),
                optimised: "1",
                sources: sources(&project.root, modules)?,
            },
        )
    }

    /// A copy of the package as it is, for one change at a time.
    pub fn plain(project: &Project) -> Outcome<Self> {
        let folder = project.root.join("target").join("mutants");
        Self::brought(
            project,
            Self {
                root: folder.join("alone"),
                target: folder.join("build-alone"),
                optimised: "0",
                sources: BTreeMap::new(),
            },
        )
    }

    fn brought(project: &Project, copy: Self) -> Outcome<Self> {
        let mut kept = HashSet::new();
        for part in PARTS {
            copy.bring(project, Path::new(part), &mut kept)?;
        }
        let tests = Path::new("tests");
        for name in names(&project.root.join(tests))? {
            if name != "browser" {
                copy.bring(project, &tests.join(name), &mut kept)?;
            }
        }
        kept.insert(copy.root.join(SWITCH.0));
        for part in ["src", "tests"] {
            clear(&copy.root.join(part), &kept)?;
        }
        Ok(copy)
    }

    pub fn into_sources(self) -> BTreeMap<String, String> {
        self.sources
    }

    fn bring(&self, project: &Project, path: &Path, kept: &mut HashSet<PathBuf>) -> Outcome<()> {
        let from = project.root.join(path);
        if from.is_dir() {
            for name in names(&from)? {
                self.bring(project, &path.join(name), kept)?;
            }
            return Ok(());
        }
        let to = self.root.join(path);
        kept.insert(to.clone());
        // Those with switches are written later, once.
        if self.sources.keys().any(|source| Path::new(source) == path) {
            return Ok(());
        }
        let mut bytes = fs::read(&from).map_err(|cause| Failure::at("read", &from, cause))?;
        if path == Path::new("src/lib.rs") && !self.sources.is_empty() {
            bytes.extend_from_slice(b"\npub mod switch;\n");
        }
        put(&to, &bytes)
    }

    /// Builds the checks with every change in them that can be; `changes` are numbered from 1.
    pub fn build(&self, changes: &[Change]) -> Outcome<Built> {
        put(&self.root.join(SWITCH.0), SWITCH.1.as_bytes())?;
        let remembered = self.target.with_file_name("refused.json");
        let key = self.key(changes);
        let mut out = Out::recall(&remembered, &key).unwrap_or_default();
        for round in 1..=ROUNDS {
            let written = self.write(changes, &out)?;
            let errors = self.errors()?;
            if errors.is_empty() {
                out.remember(&remembered, &key)?;
                out.unbuildable.extend(written.values().flat_map(|source| &source.refused));
                let placed = written.values().flat_map(|source| source.placed.iter().copied()).collect();
                return Ok(Built {
                    program: self
                        .program()?
                        .map_err(|errors| Failure::new(format!("The checks cannot be built.\n{errors}")))?,
                    placed,
                    together: written
                        .into_values()
                        .flat_map(|source| source.together)
                        .map(|all| (all[0], all))
                        .collect(),
                    unbuildable: out.unbuildable,
                });
            }
            let before = (out.unbuildable.len(), out.left.len(), out.constant.len());
            for error in &errors {
                error.take_out(&written, &mut out);
            }
            println!(
                "round {round}: {} errors; so far {} changes cannot be built, {} cannot be written in",
                errors.len(),
                out.unbuildable.len(),
                out.left.len()
            );
            if before == (out.unbuildable.len(), out.left.len(), out.constant.len()) {
                let told: Vec<_> = errors.iter().map(|error| error.rendered.as_str()).collect();
                return Err(Failure::new(format!("The changed copy cannot be built:\n{}", told.join("\n"))));
            }
        }
        Err(Failure::new(format!(
            "The changed copy still cannot be built after {ROUNDS} rounds."
        )))
    }

    /// What the compiler's refusals follow from.
    fn key(&self, changes: &[Change]) -> String {
        let texts = self.sources.iter().flat_map(|(path, text)| [path.as_str(), text.as_str()]);
        let names = changes.iter().map(|change| change.name.as_str());
        short(texts.chain(names).collect::<Vec<_>>().join("\0").as_bytes())
    }

    fn write(&self, changes: &[Change], out: &Out) -> Outcome<BTreeMap<String, Switched>> {
        let mut written = BTreeMap::new();
        for (path, text) in &self.sources {
            let mine: Vec<(usize, &Change)> = (1..)
                .zip(changes)
                .filter(|(number, change)| change.file == *path && !out.unbuildable.contains(number) && !out.left.contains(number))
                .collect();
            let source = switches::write(text, &mine, &out.constant).map_err(|failure| Failure::new(format!("{path}: {failure}")))?;
            put(&self.root.join(path), source.text.as_bytes())?;
            written.insert(path.clone(), source);
        }
        Ok(written)
    }

    fn cargo(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(Project::cargo());
        command
            .current_dir(&self.root)
            .args(arguments)
            .args(["--locked", "--offline", "--message-format=json"])
            .stdin(Stdio::null());
        quick(&mut command, &self.target, self.optimised);
        command
    }

    fn errors(&self) -> Outcome<Vec<Refused>> {
        let messages = messages(&mut self.cargo(&["check", "--lib"]))?;
        Ok(messages.iter().filter_map(Refused::read).collect())
    }

    /// The program of checks, or what the compiler has against it.
    pub fn program(&self) -> Outcome<Result<PathBuf, String>> {
        let messages = messages(&mut self.cargo(&["test", "--no-run", "--test=checks"]))?;
        let program = messages.iter().find_map(|message| {
            let checks = message.pointer("/target/name")?.as_str()? == "checks";
            message.pointer("/executable")?.as_str().filter(|_| checks).map(PathBuf::from)
        });
        Ok(program.ok_or_else(|| {
            let errors: Vec<_> = messages.iter().filter_map(Refused::read).map(|error| error.rendered).collect();
            errors.join("\n")
        }))
    }

    /// The program of checks with another text in the place of one source; `None` when it cannot be built.
    pub fn build_with(&self, path: &str, text: &str) -> Outcome<Option<PathBuf>> {
        let file = self.root.join(path);
        let before = fs::read(&file).map_err(|cause| Failure::at("read", &file, cause))?;
        put(&file, text.as_bytes())?;
        let program = self.program()?;
        put(&file, &before)?;
        match program {
            Ok(program) => Ok(Some(program)),
            // Without an error of the compiler it is not the change that is to blame.
            Err(errors) if errors.is_empty() => Err(Failure::new("The checks cannot be built, though the compiler finds no fault.")),
            Err(_) => Ok(None),
        }
    }
}

/// Cargo's settings for a program of checks that is soon built and soon run.
fn quick(command: &mut Command, target: &Path, optimised: &str) {
    command
        .env("CARGO_TARGET_DIR", target)
        // Lints are for the source as it is.
        .env("RUSTFLAGS", "--cap-lints=allow")
        .env("CARGO_PROFILE_TEST_OPT_LEVEL", optimised)
        .env("CARGO_PROFILE_TEST_DEBUG", "0")
        .env("CARGO_PROFILE_TEST_CODEGEN_UNITS", "16");
}

/// An error of the compiler.
struct Refused {
    code: String,
    message: String,
    rendered: String,
    /// File and first byte of each place.
    places: Vec<(String, usize)>,
}

impl Refused {
    fn read(value: &Value) -> Option<Self> {
        let message = value.get("message")?;
        let text = |value: &Value, pointer: &str| value.pointer(pointer).and_then(Value::as_str).unwrap_or("").to_string();
        if message.get("level")?.as_str()? != "error" {
            return None;
        }
        let mut spans: Vec<&Value> = message.get("spans")?.as_array()?.iter().collect();
        spans.sort_by_key(|span| span["is_primary"] != true);
        Some(Self {
            code: text(message, "/code/code"),
            message: text(message, "/message"),
            rendered: text(message, "/rendered"),
            places: spans
                .into_iter()
                .filter_map(|span| {
                    Some((
                        text(span, "/file_name").replace('\\', "/"),
                        usize::try_from(span["byte_start"].as_u64()?).ok()?,
                    ))
                })
                .collect(),
        })
    }

    /// Takes out what it complains of.
    fn take_out(&self, written: &BTreeMap<String, Switched>, out: &mut Out) {
        if self.code == "E0015" {
            let name = self.message.split('`').nth(1).unwrap_or("");
            let mut parts = name.rsplit("::");
            let function = parts.next().unwrap_or("");
            let owner = parts.next().unwrap_or("").split('<').next().unwrap_or("");
            for name in [format!("{owner}::{function}"), function.to_string()] {
                let found: Vec<&[usize]> = written.values().filter_map(|source| source.freed(&name)).collect();
                if !found.is_empty() {
                    out.left.extend(found.into_iter().flatten());
                    out.constant.insert(name);
                    return;
                }
            }
        }
        for (file, byte) in &self.places {
            let changes = written.get(file).map_or(&[][..], |source| source.changes_at(*byte));
            match changes {
                [] => {}
                [only] if !WRITTEN_IN.contains(&self.code.as_str()) && !self.code.starts_with("E05") => {
                    out.unbuildable.insert(*only);
                    return;
                }
                several => {
                    out.left.extend(several);
                    return;
                }
            }
        }
    }
}

fn messages(command: &mut Command) -> Outcome<Vec<Value>> {
    let output = command
        .stderr(Stdio::inherit())
        .output()
        .map_err(|cause| Failure::new(format!("Cargo cannot be started: {cause}.")))?;
    let text = String::from_utf8_lossy(&output.stdout);
    Ok(text.lines().filter_map(|line| serde_json::from_str(line).ok()).collect())
}

/// The texts of these modules, and of `today`, which uses their constant functions.
fn sources(root: &Path, modules: &[&str]) -> Outcome<BTreeMap<String, String>> {
    let mut found = BTreeMap::new();
    for module in modules.iter().chain(&["today"]) {
        found.append(&mut module_sources(root, module)?);
    }
    Ok(found)
}

/// The texts of a module's files, by path from the package's folder.
pub fn module_sources(root: &Path, module: &str) -> Outcome<BTreeMap<String, String>> {
    let mut found = BTreeMap::new();
    let mut folders = vec![format!("src/{module}")];
    while let Some(folder) = folders.pop() {
        for name in names(&root.join(&folder))? {
            let path = format!("{folder}/{name}");
            let place = root.join(&path);
            if place.is_dir() {
                folders.push(path);
            } else {
                let text = fs::read_to_string(&place).map_err(|cause| Failure::at("read", &place, cause))?;
                found.insert(path, text);
            }
        }
    }
    Ok(found)
}

fn names(folder: &Path) -> Outcome<Vec<String>> {
    let entries = fs::read_dir(folder).map_err(|cause| Failure::at("read", folder, cause))?;
    let mut names: Vec<String> = entries.filter_map(|entry| entry.ok()?.file_name().into_string().ok()).collect();
    names.sort();
    Ok(names)
}

/// Writes a file unless it says that already.
fn put(file: &Path, bytes: &[u8]) -> Outcome<()> {
    if fs::read(file).is_ok_and(|old| old == bytes) {
        return Ok(());
    }
    if let Some(folder) = file.parent() {
        fs::create_dir_all(folder).map_err(|cause| Failure::at("create", folder, cause))?;
    }
    fs::write(file, bytes).map_err(|cause| Failure::at("write", file, cause))
}

/// Takes away the files of a folder that are not to be kept.
fn clear(folder: &Path, kept: &HashSet<PathBuf>) -> Outcome<()> {
    for name in names(folder)? {
        let path = folder.join(name);
        if path.is_dir() {
            clear(&path, kept)?;
        } else if !kept.contains(&path) {
            fs::remove_file(&path).map_err(|cause| Failure::at("remove", &path, cause))?;
        }
    }
    Ok(())
}
