//! The packages and who uses whom, from what `cargo metadata` prints.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::{self, Display};
use std::path::PathBuf;

use serde_json::Value;

use crate::failure::{Failure, Outcome};

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Package {
    pub id: String,
    pub name: String,
    pub version: String,
    pub licence: Option<String>,
    /// `None` for a package that lies here.
    pub source: Option<String>,
    /// A macro's package runs while the page is built and is not in it.
    pub writes_code: bool,
    pub authors: Vec<String>,
    /// Where its files are.
    pub folder: PathBuf,
}

impl Display for Package {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "{} {}", self.name, self.version)
    }
}

pub struct Graph {
    pub packages: Vec<Package>,
    root: String,
    /// The packages that each uses when it runs, by their `id`; not those that only its tests or its build need.
    uses: BTreeMap<String, Vec<String>>,
}

impl Graph {
    /// # Errors
    ///
    /// When the text is not what `cargo metadata` prints.
    pub fn read(text: &str) -> Outcome<Self> {
        let told: Value = serde_json::from_str(text).map_err(|cause| Failure::new(format!("`cargo metadata` cannot be read: {cause}.")))?;
        Self::of(&told).ok_or_else(|| Failure::new("`cargo metadata` printed something else than expected."))
    }

    fn of(told: &Value) -> Option<Self> {
        let packages = told["packages"].as_array()?.iter().map(package).collect::<Option<_>>()?;
        let nodes = told["resolve"]["nodes"].as_array()?.iter();
        Some(Self {
            packages,
            root: text(&told["resolve"]["root"])?,
            uses: nodes.map(|node| Some((text(&node["id"])?, used(node)?))).collect::<Option<_>>()?,
        })
    }

    /// The packages whose code may end in what is built, the root among them.
    pub fn carried(&self) -> Vec<&Package> {
        let mut reached = BTreeSet::new();
        let mut next = vec![self.root.as_str()];
        while let Some(id) = next.pop() {
            let writes_code = self.packages.iter().any(|package| package.id == id && package.writes_code);
            if !writes_code && reached.insert(id) {
                next.extend(self.uses.get(id).into_iter().flatten().map(String::as_str));
            }
        }
        self.packages
            .iter()
            .filter(|package| reached.contains(package.id.as_str()))
            .collect()
    }
}

fn text(value: &Value) -> Option<String> {
    value.as_str().map(str::to_string)
}

fn package(told: &Value) -> Option<Package> {
    let kinds = told["targets"]
        .as_array()?
        .iter()
        .filter_map(|target| target["kind"].as_array())
        .flatten();
    Some(Package {
        id: text(&told["id"])?,
        name: text(&told["name"])?,
        version: text(&told["version"])?,
        licence: text(&told["license"]),
        source: text(&told["source"]),
        writes_code: kinds.into_iter().any(|kind| kind == "proc-macro"),
        authors: told["authors"].as_array()?.iter().filter_map(name).collect(),
        folder: PathBuf::from(text(&told["manifest_path"])?).parent()?.to_path_buf(),
    })
}

/// An author's name, without the address behind it.
fn name(author: &Value) -> Option<String> {
    let whole = author.as_str()?;
    Some(whole.split_once('<').map_or(whole, |(name, _)| name).trim().to_string())
}

/// The packages that `node` uses when it runs: those with a kind of `null`.
fn used(node: &Value) -> Option<Vec<String>> {
    let runs = |dependency: &&Value| {
        let kinds = dependency["dep_kinds"].as_array();
        kinds.is_some_and(|kinds| kinds.iter().any(|kind| kind["kind"].is_null()))
    };
    node["deps"]
        .as_array()?
        .iter()
        .filter(runs)
        .map(|dependency| text(&dependency["pkg"]))
        .collect()
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::Graph;

    #[test]
    fn what_the_page_carries_is_followed_from_its_root() {
        let package = |id: &str, kind: &str| {
            json!({
                "id": id, "name": id, "version": "1.0.0", "license": "MIT", "source": null, "targets": [{ "kind": [kind] }],
                "authors": [], "manifest_path": "/crates/one/Cargo.toml",
            })
        };
        let uses = |id: &str, kind: Option<&str>| json!({ "pkg": id, "dep_kinds": [{ "kind": kind }] });
        let told = json!({
            "packages": [
                package("page", "lib"), package("used", "lib"), package("by-used", "lib"), package("macro", "proc-macro"),
                package("by-macro", "lib"), package("tests", "lib"), package("build", "lib"),
            ],
            "resolve": {
                "root": "page",
                "nodes": [
                    { "id": "page", "deps": [uses("used", None), uses("macro", None), uses("tests", Some("dev")), uses("build", Some("build"))] },
                    { "id": "used", "deps": [uses("by-used", None), uses("page", None)] },
                    { "id": "macro", "deps": [uses("by-macro", None)] },
                ],
            },
        });
        let graph = Graph::read(&told.to_string()).unwrap();
        let carried: Vec<String> = graph.carried().iter().map(ToString::to_string).collect();
        assert_eq!(carried, ["page 1.0.0", "used 1.0.0", "by-used 1.0.0"]);
        assert_eq!(graph.packages.len(), 7);
    }

    #[test]
    fn anything_else_is_refused() {
        assert!(Graph::read("not json").is_err());
        assert!(Graph::read(r#"{"packages": [], "resolve": null}"#).is_err());
        assert!(Graph::read(r#"{"packages": [{"id": "one"}], "resolve": {"root": "one", "nodes": []}}"#).is_err());
    }
}
