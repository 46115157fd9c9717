//! The notices that the licences of the page's libraries ask for.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use crate::failure::{Failure, Outcome};

use super::graph::Package;

/// What the files of a licence's text are called, in capitals; where a choice is offered, the first is taken.
const NAMES: [&str; 4] = ["LICENSE-MIT", "LICENCE", "LICENSE", "COPYING"];

/// For a library that brings no text of its own: the licence as the Open Source Initiative prints it.
const MIT: &str = "\
Permission is hereby granted, free of charge, to any person obtaining a copy of this software and associated documentation \
files (the \"Software\"), to deal in the Software without restriction, including without limitation the rights to use, copy, \
modify, merge, publish, distribute, sublicense, and/or sell copies of the Software, and to permit persons to whom the Software \
is furnished to do so, subject to the following conditions:\n\nThe above copyright notice and this permission notice shall be \
included in all copies or substantial portions of the Software.\n\nTHE SOFTWARE IS PROVIDED \"AS IS\", WITHOUT WARRANTY OF ANY \
KIND, EXPRESS OR IMPLIED, INCLUDING BUT NOT LIMITED TO THE WARRANTIES OF MERCHANTABILITY, FITNESS FOR A PARTICULAR PURPOSE AND \
NONINFRINGEMENT. IN NO EVENT SHALL THE AUTHORS OR COPYRIGHT HOLDERS BE LIABLE FOR ANY CLAIM, DAMAGES OR OTHER LIABILITY, \
WHETHER IN AN ACTION OF CONTRACT, TORT OR OTHERWISE, ARISING FROM, OUT OF OR IN CONNECTION WITH THE SOFTWARE OR THE USE OR \
OTHER DEALINGS IN THE SOFTWARE.";

/// The standard library is in every program, and no package.
const RUST: &str = "The Rust standard library (MIT OR Apache-2.0), by the Rust Project contributors";

/// The text of every licence once, after the names of those that are under it.
///
/// # Errors
///
/// When a library brings no text and is not under MIT, or its text cannot be read.
pub fn notices(carried: &[&Package]) -> Outcome<String> {
    let mut under: BTreeMap<String, Vec<String>> = BTreeMap::from([(MIT.to_owned(), vec![RUST.to_owned()])]);
    for package in carried.iter().filter(|package| package.source.is_some()) {
        let licence = package.licence.as_deref().unwrap_or_default();
        let mut name = format!("{package} ({licence})");
        if !package.authors.is_empty() {
            name += &format!(", by {}", package.authors.join(", "));
        }
        let text = match own_text(&package.folder)? {
            Some(text) => text,
            None if licence.split([' ', '/']).any(|word| word == "MIT") => MIT.to_owned(),
            None => return Err(Failure::new(format!("{package} brings no text of its licence, {licence}."))),
        };
        under.entry(text).or_default().push(name);
    }
    let parts = under.iter().map(|(text, names)| format!("{}\n\n{text}\n", names.join("\n")));
    let parts: Vec<_> = parts.collect();
    Ok(format!(
        "First Truss is built with these libraries. Thanks to all who made them.\n\n{}",
        parts.join("\n----------------------------------------\n\n")
    ))
}

fn own_text(folder: &Path) -> Outcome<Option<String>> {
    let files = fs::read_dir(folder).map_err(|cause| Failure::at("read", folder, cause))?;
    let mut files: Vec<_> = files
        .filter_map(|file| Some(file.ok()?.path()))
        .filter(|file| file.is_file())
        .collect();
    files.sort();
    let called = |file: &&std::path::PathBuf, name: &str| {
        let stem = file.file_name().and_then(|own| own.to_str()).unwrap_or_default().to_uppercase();
        stem.starts_with(name)
    };
    let Some(file) = NAMES.iter().find_map(|name| files.iter().find(|file| called(file, name))) else {
        return Ok(None);
    };
    let text = fs::read_to_string(file).map_err(|cause| Failure::at("read", file, cause))?;
    Ok(Some(text.replace('\r', "").trim().to_owned()))
}

#[cfg(test)]
mod tests {
    use std::fs;

    use super::super::graph::Package;
    use super::notices;

    fn package(folder: &std::path::Path, name: &str, licence: &str) -> Package {
        let folder = folder.join(name);
        fs::create_dir_all(&folder).unwrap();
        Package {
            id: name.into(),
            name: name.into(),
            version: "1.0.0".into(),
            licence: Some(licence.into()),
            source: Some("registry+x".into()),
            writes_code: false,
            authors: vec!["A. Grower".into()],
            folder,
        }
    }

    #[test]
    fn each_text_stands_once_under_the_names_of_those_it_holds_for() {
        let folder = std::env::temp_dir().join(format!("first-truss-notices-{}", std::process::id()));
        let [one, two, bare] = ["one", "two", "bare"].map(|name| package(&folder, name, "MIT OR Apache-2.0"));
        for package in [&one, &two] {
            fs::write(package.folder.join("LICENSE-APACHE"), "other terms").unwrap();
            fs::write(package.folder.join("LICENSE-MIT.txt"), "Copyright somebody\r\n\r\nterms\n").unwrap();
        }
        let told = notices(&[&one, &two, &bare]).unwrap();
        assert_eq!(told.matches("Copyright somebody\n\nterms\n").count(), 1, "{told}");
        assert!(
            told.contains("one 1.0.0 (MIT OR Apache-2.0), by A. Grower\ntwo 1.0.0 (MIT OR Apache-2.0), by A. Grower\n\nCopyright"),
            "{told}"
        );
        assert!(!told.contains("other terms"));
        assert!(
            told.contains("bare 1.0.0 (MIT OR Apache-2.0), by A. Grower\n\nPermission is hereby granted"),
            "{told}"
        );
        let strange = package(&folder, "strange", "Zlib");
        assert!(notices(&[&strange]).is_err(), "its text is nowhere");
        fs::remove_dir_all(&folder).unwrap();
    }
}
