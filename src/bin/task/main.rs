//! The developers' own task runner: `cargo task` lists what it can do.

mod build;
mod dependencies;
mod failure;
mod lint;
mod measure;
mod options;
mod process;
mod project;
mod prove;
mod random;
mod references;
mod seal;
mod serve;
mod sight;
mod sources;
mod split;
mod tally;
mod test;
mod tools;

use std::process::ExitCode;

use failure::{Failure, Outcome};
use options::Options;
use project::Project;

/// One thing the runner can do.
struct Task {
    name: &'static str,
    options: &'static str,
    help: &'static str,
    run: fn(&Project, Options) -> Outcome<()>,
}

const TASKS: &[Task] = &[
    Task {
        name: "serve",
        options: "[--port N]",
        help: "build the page for release and serve it at a printed local address",
        run: serve::serve,
    },
    Task {
        name: "dev",
        options: "[--port N]",
        help: "serve an unoptimised page that reloads when a file changes",
        run: build::develop,
    },
    Task {
        name: "build",
        options: "",
        help: "build the page for release into dist/",
        run: build::build,
    },
    Task {
        name: "lint",
        options: "",
        help: "check the format, the dependencies and the sources of all numbers, then clippy natively and for the browser",
        run: lint::lint,
    },
    Task {
        name: "test",
        options: "",
        help: "lint, native tests, the same tests in Chromium, then the journeys through the release page",
        run: test::test,
    },
    Task {
        name: "seal",
        options: "[--folder FOLDER]",
        help: "list a built page's files for its offline worker and fill in its policy; Trunk calls it after each build",
        run: seal::seal,
    },
    Task {
        name: "measure",
        options: "[--runs N]",
        help: "the page's bytes, times and memory beside a plain page's, and its budgets",
        run: measure::measure,
    },
    Task {
        name: "sight",
        options: "[--only NAME] [--accept]",
        help: "hold every state to its picture, or take the pictures anew; what differs is in target/sight",
        run: sight::sight,
    },
    Task {
        name: "sources",
        options: "",
        help: "write where every number comes from, from the code and the published cases, into SOURCES.md",
        run: sources::sources,
    },
    Task {
        name: "references",
        options: "[--seed N]",
        help: "random cases worked out again by libraries of other makes, and compared",
        run: references::references,
    },
    Task {
        name: "icons",
        options: "",
        help: "render the icons from their drawings, and take the pictures for installing, into style/",
        run: sight::icons,
    },
    Task {
        name: "prove",
        options: "[--only properties|faults|mutants|advisories] [--module NAME] [--shard 0/8] [--minutes N] [--again]",
        help: "long proofs: many cases for each property, a test that notices each changed line, and advisories",
        run: prove::prove,
    },
];

fn main() -> ExitCode {
    let mut arguments = std::env::args().skip(1);
    let Some(name) = arguments.next() else {
        print!("{}", listing());
        return ExitCode::SUCCESS;
    };
    if matches!(name.as_str(), "help" | "--help" | "-h") {
        print!("{}", listing());
        return ExitCode::SUCCESS;
    }
    match perform(&name, arguments.collect()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            if !failure.is_told() {
                eprintln!("{failure}");
            }
            ExitCode::FAILURE
        }
    }
}

fn perform(name: &str, arguments: Vec<String>) -> Outcome<()> {
    let task = TASKS
        .iter()
        .find(|task| task.name == name)
        .ok_or_else(|| Failure::new(format!("There is no task \"{name}\".\n\n{}", listing())))?;
    (task.run)(&Project::find()?, Options::new(arguments))
}

/// What `cargo task` prints when it is given nothing to do.
fn listing() -> String {
    let tasks = TASKS.iter().map(|task| {
        let options = match task.options {
            "" => String::new(),
            options => format!("\n{:11}{options}", ""),
        };
        format!("  {:<9}{}{options}", task.name, task.help)
    });
    std::iter::once("Usage: cargo task <task>\n".to_string())
        .chain(tasks)
        .chain(["\nTools are kept at pinned versions in $FIRST_TRUSS_CACHE, or else in the user's cache folder.\n".to_string()])
        .collect::<Vec<_>>()
        .join("\n")
}
