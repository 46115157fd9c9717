//! The published cases, as far as the page tells of them.

use std::fs;
use std::path::Path;

use syn::Item;
use toml::Value;

use super::code::documented;
use super::page::MISPRINT;
use crate::failure::{Failure, Outcome};

/// All files of cases, and what their kinds mean.
pub struct Cases {
    pub tables: Vec<Table>,
    /// The word of each kind and the comment of `Kind` in the tests.
    pub kinds: Vec<(String, String)>,
}

/// One file of cases.
pub struct Table {
    /// Its name: `fao56.toml`.
    pub name: String,
    /// The comment at its head.
    pub about: String,
    pub rows: Vec<Row>,
}

/// A published case, or a misprint that must not come out.
pub struct Row {
    pub name: String,
    pub source: String,
    /// The word of its kind; "misprint" for one of these.
    pub kind: String,
    /// What must come out, with its unit.
    pub expected: String,
    pub tolerance: String,
}

/// # Errors
///
/// When a file cannot be read, or a case lacks its name, source, kind, number or tolerance.
pub fn read(folder: &Path) -> Outcome<Cases> {
    let kinds = kinds(&folder.join("case.rs"))?;
    let entries = fs::read_dir(folder).map_err(|cause| Failure::at("read", folder, cause))?;
    let mut paths: Vec<_> = entries
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| path.extension().is_some_and(|extension| extension == "toml"))
        .collect();
    paths.sort();
    let tables = paths.iter().map(|path| {
        let text = fs::read_to_string(path).map_err(|cause| Failure::at("read", path, cause))?;
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        table(name, &text).map_err(|cause| Failure::at("read", path, cause))
    });
    let tables = tables.collect::<Outcome<Vec<_>>>()?;
    Ok(Cases { tables, kinds })
}

/// The kinds as the tests define them.
fn kinds(path: &Path) -> Outcome<Vec<(String, String)>> {
    let text = fs::read_to_string(path).map_err(|cause| Failure::at("read", path, cause))?;
    let file = syn::parse_file(&text).map_err(|cause| Failure::at("read", path, cause))?;
    let kinds = file.items.iter().find_map(|item| match item {
        Item::Enum(kinds) if kinds.ident == "Kind" => Some(kinds),
        _ => None,
    });
    let kinds = kinds.ok_or_else(|| Failure::at("read", path, "it has no `Kind`"))?;
    let named = kinds
        .variants
        .iter()
        .map(|kind| (with_hyphens(&kind.ident.to_string()), documented(&kind.attrs)));
    Ok(named.collect())
}

/// `CommonPractice` as the tables write it: `common-practice`.
fn with_hyphens(name: &str) -> String {
    let mut word = String::new();
    for sign in name.chars() {
        if sign.is_uppercase() && !word.is_empty() {
            word.push('-');
        }
        word.extend(sign.to_lowercase());
    }
    word
}

fn table(name: String, text: &str) -> Result<Table, String> {
    let value: toml::Table = text.parse().map_err(|error: toml::de::Error| error.message().to_string())?;
    let list = |key: &str| value.get(key).and_then(Value::as_array).cloned().unwrap_or_default();
    let cases = list("case").into_iter().map(|case| row(&case, None));
    let misprints = list("misprint").into_iter().map(|misprint| row(&misprint, Some(MISPRINT)));
    let rows = cases.chain(misprints).collect::<Result<Vec<_>, _>>()?;
    if rows.is_empty() {
        return Err("it holds no case".to_string());
    }
    let about: Vec<&str> = text.lines().map_while(|line| line.strip_prefix('#')).map(str::trim).collect();
    Ok(Table {
        name,
        about: about.join(" "),
        rows,
    })
}

fn row(case: &Value, kind: Option<&str>) -> Result<Row, String> {
    let word = |key: &str| case.get(key).and_then(Value::as_str).map(str::to_string);
    let name = word("name").ok_or("a case has no name")?;
    let lacking = |what: &str| format!("\u{201c}{name}\u{201d} has no {what}");
    let source = word("source")
        .filter(|source| !source.is_empty())
        .ok_or_else(|| lacking("source"))?;
    let kind = kind.map(str::to_string).or_else(|| word("kind")).ok_or_else(|| lacking("kind"))?;
    let unit = word("unit").unwrap_or_default();
    let (expected, tolerance) = if let Some(printed) = case.get("printed") {
        (format!("not {}", numbers(printed)), case.get("tolerance"))
    } else if let Some(between) = case.get("between").and_then(Value::as_array) {
        let [low, high] = between.as_slice() else {
            return Err(lacking("two ends"));
        };
        (format!("{} to {}", numbers(low), numbers(high)), case.get("beyond"))
    } else {
        let expected = case.get("expected").ok_or_else(|| lacking("number"))?;
        let tolerance = case.get("tolerance").ok_or_else(|| lacking("tolerance"))?;
        (numbers(expected), Some(tolerance))
    };
    let tolerance = match (tolerance, case.get("beyond").is_some()) {
        (None, _) => "the range".to_string(),
        (Some(share), true) => format!("{} of its nearer end beyond", numbers(share)),
        (Some(tolerance), false) => format!("\u{b1} {}", numbers(tolerance)),
    };
    Ok(Row {
        source,
        kind,
        expected: format!("{expected} {unit}").trim().to_string(),
        tolerance,
        name,
    })
}

/// A number or a line of them, as written.
fn numbers(value: &Value) -> String {
    match value {
        Value::Array(list) => list.iter().map(numbers).collect::<Vec<_>>().join(", "),
        other => other.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::{table, with_hyphens};

    const CASE: &str =
        "# About it.\n# All of it.\n\n# Not this.\n[[case]]\nname = \"a\"\nsource = \"s\"\nkind = \"paper\"\nunit = \"mm\"\n";

    fn row(rest: &str) -> Result<(String, String), String> {
        let table = table("t.toml".to_string(), &format!("{CASE}{rest}"))?;
        assert_eq!(table.about, "About it. All of it.");
        let [row] = table.rows.as_slice() else { panic!() };
        Ok((row.expected.clone(), row.tolerance.clone()))
    }

    #[test]
    fn a_case_says_what_must_be_and_how_near() {
        let told = |expected: &str, tolerance: &str| Ok((expected.to_string(), tolerance.to_string()));
        assert_eq!(row("expected = [1.5, 2]\ntolerance = 0.1"), told("1.5, 2 mm", "± 0.1"));
        assert_eq!(row("between = [1, 2]"), told("1 to 2 mm", "the range"));
        assert_eq!(
            row("between = [1, 2]\nbeyond = 0.1"),
            told("1 to 2 mm", "0.1 of its nearer end beyond")
        );
    }

    #[test]
    fn what_a_case_lacks_is_told() {
        assert_eq!(row("expected = 1"), Err("\u{201c}a\u{201d} has no tolerance".to_string()));
        assert_eq!(row("tolerance = 1"), Err("\u{201c}a\u{201d} has no number".to_string()));
        let nameless = table("t".to_string(), "[[case]]\nsource = \"s\"").err();
        assert_eq!(nameless.as_deref(), Some("a case has no name"));
        let sourceless = table("t".to_string(), "[[case]]\nname = \"a\"\nsource = \"\"\nkind = \"paper\"").err();
        assert_eq!(sourceless.as_deref(), Some("\u{201c}a\u{201d} has no source"));
    }

    #[test]
    fn a_kind_is_written_with_hyphens() {
        assert_eq!(with_hyphens("CommonPractice"), "common-practice");
        assert_eq!(with_hyphens("Paper"), "paper");
    }
}
