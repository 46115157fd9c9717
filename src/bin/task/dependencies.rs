//! What the page and this runner are made of: where each dependency comes from, its licence, and how many versions of it the
//! page carries.

mod graph;
mod licence;
mod notices;

use crate::failure::{Failure, Outcome};
use crate::process::{ask, run};
use crate::project::Project;
use crate::tools::Tools;

use graph::{Graph, Package};
use licence::Refused;

/// A dependency that the page carries in two versions, and why that is borne.
struct Double {
    name: &'static str,
    reason: &'static str,
}

const DOUBLES: &[Double] = &[];

/// How Cargo is asked for what the page carries.
const PAGE: &[&str] = &["--filter-platform=wasm32-unknown-unknown"];

/// Prints what was found.
///
/// # Errors
///
/// When a dependency comes from elsewhere than the one registry, when its licence is missing, unreadable or not among those
/// that are allowed, or when the page carries two versions of one without a reason.
pub fn check(project: &Project, tools: &Tools) -> Outcome<()> {
    let all = graph(project, tools, &["--all-features"])?;
    let page = graph(project, tools, PAGE)?;
    let carried = page.carried();
    let mut findings = sources(&all.packages);
    findings.extend(licences(&all.packages));
    findings.extend(doubles(&carried, DOUBLES));
    if !findings.is_empty() {
        return Err(Failure::new(findings.join("\n")));
    }
    println!(
        "\n{} dependencies: one registry, allowed licences. The page carries {} of them, {} in two versions:",
        all.packages.iter().filter(|package| package.source.is_some()).count(),
        carried.len() - 1,
        DOUBLES.len(),
    );
    for Double { name, reason } in DOUBLES {
        println!("  {name}: {reason}.");
    }
    println!("Advisories were not looked up: their list is on the network. `cargo task prove --only advisories` does it.");
    Ok(())
}

/// The notices of the libraries that the page carries.
///
/// # Errors
///
/// When Cargo cannot say what it carries, or one of them brings no licence's text.
pub fn notices_of_page(project: &Project, tools: &Tools) -> Outcome<String> {
    notices::notices(&graph(project, tools, PAGE)?.carried())
}

/// Looks the advisories up with cargo-audit, where it is installed.
///
/// # Errors
///
/// When there is an advisory, or its list cannot be had.
pub fn advisories(project: &Project, tools: &Tools) -> Outcome<()> {
    let audit = || {
        let mut command = tools.command(project, Project::cargo());
        command.arg("audit");
        command
    };
    if ask(audit().arg("--version")).is_none() {
        println!("\nadvisories: NOT looked up, for cargo-audit is not installed (`cargo install cargo-audit`).");
        return Ok(());
    }
    run(&mut audit())
}

/// The dependencies as Cargo resolves them, without the network.
fn graph(project: &Project, tools: &Tools, choice: &[&str]) -> Outcome<Graph> {
    let mut command = tools.command(project, Project::cargo());
    command
        .args(["metadata", "--locked", "--offline", "--format-version=1"])
        .args(choice);
    let told =
        ask(&mut command).ok_or_else(|| Failure::new("`cargo metadata` failed: run `cargo fetch --locked` where there is a network."))?;
    Graph::read(&told)
}

/// Each package but our own comes from a registry, and all from the same.
fn sources(packages: &[Package]) -> Vec<String> {
    let mut registry = None;
    let mut findings = Vec::new();
    for package in packages {
        let Some(source) = &package.source else { continue };
        if !source.starts_with("registry+") && !source.starts_with("sparse+") {
            findings.push(format!("{package} comes from {source}, which is no registry."));
        } else if *registry.get_or_insert(source) != source {
            findings.push(format!("{package} comes from another registry than the rest: {source}."));
        }
    }
    findings
}

fn licences(packages: &[Package]) -> Vec<String> {
    let findings = packages.iter().filter_map(|package| {
        let sentence = match licence::accept(package.licence.as_deref()).err()? {
            Refused::Missing => format!("{package} names no licence."),
            Refused::Unreadable(text) => format!("The licence of {package} cannot be read: {text}."),
            Refused::NotAllowed(text) => format!("The licence of {package} is not among those that are allowed: {text}."),
        };
        Some(sentence)
    });
    findings.collect()
}

/// Two versions without a reason, and reasons without two versions.
fn doubles(carried: &[&Package], excused: &[Double]) -> Vec<String> {
    let versions = |name: &str| carried.iter().filter(|package| package.name == name).count();
    let mut twice: Vec<&str> = carried
        .iter()
        .map(|package| package.name.as_str())
        .filter(|name| versions(name) > 1)
        .collect();
    twice.sort_unstable();
    twice.dedup();
    let unexcused = twice
        .iter()
        .filter(|name| !excused.iter().any(|double| double.name == **name))
        .map(|name| {
            format!(
                "The page carries {} versions of {name}: take one away, or give the reason in DOUBLES.",
                versions(name)
            )
        });
    let outlived = excused
        .iter()
        .filter(|double| !twice.contains(&double.name))
        .map(|double| format!("The page carries {} no more than once: take it out of DOUBLES.", double.name));
    unexcused.chain(outlived).collect()
}

#[cfg(test)]
mod tests {
    use std::path::PathBuf;

    use super::{Double, Package, doubles, licences, sources};

    fn package(name: &str, version: &str, source: &str, licence: Option<&str>) -> Package {
        Package {
            id: format!("{name} {version}"),
            name: name.to_string(),
            version: version.to_string(),
            licence: licence.map(str::to_string),
            source: Some(source.to_string()).filter(|source| !source.is_empty()),
            writes_code: false,
            authors: Vec::new(),
            folder: PathBuf::new(),
        }
    }

    #[test]
    fn only_one_registry_is_accepted() {
        let ours = package("page", "1.0.0", "", Some("MIT"));
        let one = package("one", "1.0.0", "registry+https://index.example/", Some("MIT"));
        let two = package("two", "1.0.0", "registry+https://index.example/", Some("MIT"));
        assert_eq!(sources(&[ours.clone(), one.clone(), two]), Vec::<String>::new());
        let from_git = package("three", "1.0.0", "git+https://code.example/three#1", Some("MIT"));
        let elsewhere = package("four", "1.0.0", "registry+https://other.example/", Some("MIT"));
        assert_eq!(
            sources(&[ours, one, from_git, elsewhere]),
            [
                "three 1.0.0 comes from git+https://code.example/three#1, which is no registry.",
                "four 1.0.0 comes from another registry than the rest: registry+https://other.example/.",
            ]
        );
    }

    #[test]
    fn each_licence_that_is_refused_is_told() {
        let with = |licence| package("one", "1.0.0", "registry+x", licence);
        assert_eq!(
            licences(&[with(Some("MIT")), with(Some("Zlib OR GPL-3.0-only"))]),
            Vec::<String>::new()
        );
        assert_eq!(
            licences(&[with(None), with(Some("as it pleases")), with(Some("GPL-3.0-only"))]),
            [
                "one 1.0.0 names no licence.",
                "The licence of one 1.0.0 cannot be read: as it pleases.",
                "The licence of one 1.0.0 is not among those that are allowed: GPL-3.0-only.",
            ]
        );
    }

    #[test]
    fn two_versions_need_a_reason_and_a_reason_two_versions() {
        let [old, new, other] =
            [("one", "1.0.0"), ("one", "2.0.0"), ("two", "1.0.0")].map(|(name, version)| package(name, version, "", None));
        let excused = |name| Double { name, reason: "a reason" };
        let carried = [&old, &new, &other];
        assert_eq!(doubles(&carried, &[excused("one")]), Vec::<String>::new());
        assert_eq!(
            doubles(&carried, &[excused("two")]),
            [
                "The page carries 2 versions of one: take one away, or give the reason in DOUBLES.",
                "The page carries two no more than once: take it out of DOUBLES.",
            ]
        );
    }
}
