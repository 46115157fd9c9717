//! The wasm target and the tools that Cargo installs.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use super::program;
use crate::failure::{Failure, Outcome};
use crate::process::{ask, run};
use crate::project::Project;

const WASM_TARGET: &str = "wasm32-unknown-unknown";

/// A program that `cargo install` puts into a folder of its own.
struct Tool {
    package: &'static str,
    program: &'static str,
    /// The folder's name, which must change whenever the version or the features do.
    folder: &'static str,
    arguments: &'static [&'static str],
}

/// A tool is built once and runs for seconds: what would make it faster takes minutes more to build.
const QUICKLY_BUILT: [(&str, &str); 3] = [
    ("CARGO_PROFILE_RELEASE_OPT_LEVEL", "1"),
    ("CARGO_PROFILE_RELEASE_LTO", "off"),
    ("CARGO_PROFILE_RELEASE_CODEGEN_UNITS", "16"),
];

const TRUNK: Tool = Tool {
    package: "trunk",
    program: "trunk",
    folder: "trunk-0.21.14",
    arguments: &["--version=0.21.14", "--locked", "--no-default-features", "--features=rustls"],
};

/// Trunk compares this version with that of the crate in Cargo.lock, character by character.
/// Not `--locked`: the tool's own lock file names a crate version that may be missing.
const WASM_BINDGEN: Tool = Tool {
    package: "wasm-bindgen-cli",
    program: "wasm-bindgen",
    folder: "wasm-bindgen-0.2.130",
    arguments: &["--version=0.2.130", "--no-default-features"],
};

/// Goes with the crate `wasm_split_helpers`, which marks where the program is cut.
const WASM_SPLIT: Tool = Tool {
    package: "wasm_split_cli_support",
    program: "wasm-split-cli",
    folder: "wasm-split-0.2.4",
    arguments: &["--version=0.2.4", "--locked", "--features=build-binary"],
};

const CARGO_MUTANTS: Tool = Tool {
    package: "cargo-mutants",
    program: "cargo-mutants",
    folder: "cargo-mutants-27.1.0",
    arguments: &["--version=27.1.0", "--locked"],
};

/// The folder of Trunk's program, which is installed first if need be.
pub fn trunk(project: &Project) -> Outcome<PathBuf> {
    install(project, &TRUNK)
}

/// The folder of `wasm-bindgen` and `wasm-bindgen-test-runner`.
pub fn wasm_bindgen(project: &Project) -> Outcome<PathBuf> {
    install(project, &WASM_BINDGEN)
}

/// The folder of `wasm-split-cli`.
pub fn wasm_split(project: &Project) -> Outcome<PathBuf> {
    install(project, &WASM_SPLIT)
}

/// The folder of `cargo-mutants`.
pub fn cargo_mutants(project: &Project) -> Outcome<PathBuf> {
    install(project, &CARGO_MUTANTS)
}

fn install(project: &Project, tool: &Tool) -> Outcome<PathBuf> {
    let folder = project.cache.join(tool.folder);
    let programs = folder.join("bin");
    if program(&programs, tool.program).is_file() {
        return Ok(programs);
    }
    println!(
        "{} is installed once, into {}; this takes some minutes.",
        tool.package,
        folder.display()
    );
    fs::create_dir_all(&folder).map_err(|cause| Failure::at("create", &folder, cause))?;
    let scratch = folder.join("build");
    // Started in the cache, so that this package's Cargo settings do not reach the tool.
    let mut command = Command::new(Project::cargo());
    command
        .current_dir(&project.cache)
        .env("CARGO_TARGET_DIR", &scratch)
        .envs(QUICKLY_BUILT)
        .env_remove("RUSTFLAGS")
        .args(["install", tool.package, "--root"])
        .arg(&folder)
        .args(tool.arguments);
    run(&mut command).map_err(|failure| {
        Failure::new(format!(
            "{failure}\n{} could not be installed: check the network, then try again.",
            tool.package
        ))
    })?;
    // Hundreds of megabytes that nobody needs again; a leftover does no harm.
    drop(fs::remove_dir_all(scratch));
    Ok(programs)
}

/// Makes sure that the standard library for the browser is here.
pub fn wasm_target() -> Outcome<()> {
    let installed = ask(Command::new("rustc").args(["--print", "sysroot"]))
        .is_some_and(|sysroot| Path::new(&sysroot).join("lib/rustlib").join(WASM_TARGET).is_dir());
    if installed {
        return Ok(());
    }
    run(Command::new("rustup").args(["target", "add", WASM_TARGET])).map_err(|_| {
        Failure::new(format!(
            "Install the Rust target {WASM_TARGET} (`rustup target add {WASM_TARGET}`)."
        ))
    })
}

/// Downloads what Cargo.lock names: Trunk builds offline, and this runner needs only a part of it.
pub fn fetch_crates(project: &Project) -> Outcome<()> {
    run(Command::new(Project::cargo())
        .current_dir(&project.root)
        .args(["fetch", "--locked", "--quiet"]))
}
