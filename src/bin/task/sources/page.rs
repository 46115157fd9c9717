//! The page itself.

use std::collections::BTreeMap;
use std::fmt::Write;

use super::cases::{Cases, Row};
use super::code::Place;
use super::statement::Status;
use super::{Exception, File};

/// The names of the parts, as links lead to them.
const CONSTANTS: &str = "## Constants";
const FORMULAS: &str = "## Numbers in formulas and choices";
const CASES: &str = "## Published cases";

/// The whole page, from what was read.
pub fn written(files: &[File], cases: &Cases, exceptions: &[Exception]) -> String {
    let mut page = String::from(
        "# Where the numbers come from\n\n\
         Every constant of the calculation with its unit, its source and on whose word it stands, and every published case that the\n\
         tests hold it to. `cargo task sources` writes this page from the comments of the code (`src`) and the tables of cases\n\
         (`tests/published`); `cargo task lint` fails when it is no longer what they say, and when a number lacks any of it. Do not edit\n\
         it: mend the comment or the case.\n\n\
         Formulas with their values and sources are also shown on each screen, under *Show the working*. What to make of it stands in\n\
         [README.md](README.md#how-far-to-trust-it).\n",
    );
    let places = |functions: bool| {
        files
            .iter()
            .flat_map(|file| &file.reading.places)
            .filter(move |place| place.is_function == functions)
    };
    summary(&mut page, places(false).count(), places(true).count(), files, cases);
    from_memory(&mut page, files, cases);
    let _ = write!(page, "\n{CONSTANTS}\n");
    tables(&mut page, files, false);
    let _ = write!(
        page,
        "\n{FORMULAS}\n\n\
         Functions that print a published equation, choose among several values, or step by a number of their own. None, one, two, a half\n\
         and powers of ten are not listed.\n"
    );
    tables(&mut page, files, true);
    page.push_str("\nNumbers of no other meaning than this:\n\n");
    for Exception { file, function, reason } in exceptions {
        let _ = writeln!(page, "- `{function}` in `{file}`: {reason}.");
    }
    let _ = write!(
        page,
        "\n{CASES}\n\n\
         What must come out, how near, and who says so. A line of a source's table is one case.\n"
    );
    for table in &cases.tables {
        let _ = write!(page, "\n### {}\n\n{}\n\n", table.name, cell(&table.about));
        page.push_str("| case | must be | tolerance | kind | source |\n|---|---|---|---|---|\n");
        for row in &table.rows {
            let Row {
                name,
                source,
                kind,
                expected,
                tolerance,
            } = row;
            let _ = writeln!(
                page,
                "| {} | {} | {} | {} | {} |",
                cell(name),
                cell(expected),
                cell(tolerance),
                kind,
                cell(source)
            );
        }
    }
    page
}

fn summary(page: &mut String, constants: usize, functions: usize, files: &[File], cases: &Cases) {
    let first = |is_function: bool, status: Status| {
        let places = files.iter().flat_map(|file| &file.reading.places);
        places
            .filter(|place| place.is_function == is_function && place.statement.statuses.first() == Some(&status))
            .count()
    };
    let wordless: usize = files.iter().map(|file| file.reading.wordless).sum();
    let _ = write!(
        page,
        "\n## In short\n\n\
         {constants} constants, and {functions} functions with numbers of their own; counted by the first word that a comment names. {wordless} more\n\
         constants hold words, lists and noughts only.\n\n\
         | word | constants | functions | it means |\n|---|---:|---:|---|\n"
    );
    for status in Status::ALL {
        let _ = writeln!(
            page,
            "| {} | {} | {} | {} |",
            status.name(),
            first(false, status),
            first(true, status),
            status.meaning()
        );
    }
    let rows = || cases.tables.iter().flat_map(|table| &table.rows);
    let misprints = rows().filter(|row| row.kind == MISPRINT).count();
    let _ = write!(
        page,
        "\n{} published cases, and {misprints} misprints that must not come out.\n\n| kind | cases | its number is |\n|---|---:|---|\n",
        rows().count() - misprints
    );
    for (kind, meaning) in &cases.kinds {
        let count = rows().filter(|row| row.kind == *kind).count();
        let _ = writeln!(page, "| {kind} | {count} | {} |", lowered(meaning));
    }
}

/// The word in place of a kind.
pub const MISPRINT: &str = "misprint";

fn from_memory(page: &mut String, files: &[File], cases: &Cases) {
    page.push_str(
        "\n## From memory\n\nPublished, but not read again: every one that names memory at all, with what else it says. The first to be looked up.\n\n",
    );
    for file in files {
        for place in file
            .reading
            .places
            .iter()
            .filter(|place| place.statement.statuses.contains(&Status::Memory))
        {
            let _ = writeln!(
                page,
                "- `{}` ({}): {}",
                place.name,
                cell(&place.numbers),
                cell(&place.statement.text)
            );
        }
    }
    let mut by_source: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for row in cases
        .tables
        .iter()
        .flat_map(|table| &table.rows)
        .filter(|row| row.kind == "from-memory")
    {
        by_source.entry(&row.source).or_default().push(&row.name);
    }
    for (source, names) in by_source {
        let _ = writeln!(
            page,
            "- cases {}: {}",
            names.iter().map(|name| format!("*{}*", cell(name))).collect::<Vec<_>>().join(", "),
            cell(source)
        );
    }
}

/// One table for each file that has any.
fn tables(page: &mut String, files: &[File], functions: bool) {
    for file in files {
        let places: Vec<&Place> = file.reading.places.iter().filter(|place| place.is_function == functions).collect();
        if places.is_empty() {
            continue;
        }
        let _ = write!(page, "\n### {}\n\n", file.name);
        page.push_str(if functions {
            "| function | numbers | word | what it is and whose |\n|---|---|---|---|\n"
        } else {
            "| constant | value | unit | word | what it is and whose |\n|---|---|---|---|---|\n"
        });
        for place in places {
            let words: Vec<&str> = place.statement.statuses.iter().map(|status| status.name()).collect();
            let unit = place.statement.unit.as_deref().unwrap_or("");
            let unit = if functions { String::new() } else { format!("{} | ", cell(unit)) };
            let _ = writeln!(
                page,
                "| `{}` | {} | {unit}{} | {} |",
                place.name,
                cell(&place.numbers),
                words.join("; "),
                cell(&place.statement.text)
            );
        }
    }
}

/// Text that stays in its cell.
fn cell(text: &str) -> String {
    let plain = text.replace("```text", "").replace("```", "").replace("[`", "`").replace("`]", "`");
    plain.replace('|', "\\|").split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A sentence as the end of another.
fn lowered(sentence: &str) -> String {
    let mut signs = sentence.trim_end_matches('.').chars();
    signs
        .next()
        .map_or_else(String::new, |first| first.to_lowercase().collect::<String>() + signs.as_str())
}
