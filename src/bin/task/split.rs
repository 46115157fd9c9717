//! Cuts the built program in two: what the first answer needs, and the rest, which the page fetches when that answer stands.
//!
//! The cut is where `screens/rest.rs` says. Trunk knows nothing of it: it builds the page around the whole program, and what it
//! made of that is replaced here.

use std::collections::HashMap;
use std::env;
use std::fs;
use std::path::{Path, PathBuf};

use crate::failure::{Failure, Outcome};
use crate::process::run;
use crate::project::Project;
use crate::tools::Tools;

/// The features of WebAssembly that the program may use.
const FEATURES: [&str; 6] = [
    "--enable-bulk-memory",
    "--enable-nontrapping-float-to-int",
    "--enable-sign-ext",
    "--enable-mutable-globals",
    "--enable-reference-types",
    "--enable-multivalue",
];

/// Replaces the program in `folder`, which Trunk has just filled, by its two parts. `styles` come with its loader: a file of their own
/// would cost the first paint a request.
///
/// # Errors
///
/// When a tool fails or the folder is not as Trunk leaves it.
pub fn split(project: &Project, folder: &Path, is_release: bool, styles: &str) -> Outcome<()> {
    let tools = Tools::install(project)?;
    let target = env::var_os("CARGO_TARGET_DIR").map_or_else(|| project.root.join("target"), PathBuf::from);
    let profile = if is_release { "release" } else { "debug" };
    let whole = target.join("wasm32-unknown-unknown").join(profile).join("first-truss.wasm");
    let work = target.join("split");
    drop(fs::remove_dir_all(&work));
    fs::create_dir_all(&work).map_err(|cause| Failure::at("create", &work, cause))?;
    let mut cut = tools.command(project, "wasm-split-cli");
    run(cut.arg(&whole).arg(&work).args(["--out-name", "first"]))?;
    let mut bind = tools.command(project, "wasm-bindgen");
    bind.arg(work.join("first.wasm")).arg("--out-dir").arg(&work);
    run(bind.args(["--target", "web", "--no-typescript", "--keep-lld-exports", "--out-name", "bound"]))?;

    plain_names(&work)?;

    let name = name_of_program(folder)?;
    let placed = |what: &str| folder.join(format!("{name}{what}"));
    for (made, place) in [("bound_bg.wasm", "_bg.wasm"), ("split_rest.wasm", "_rest.wasm")] {
        let (made, place) = (work.join(made), placed(place));
        if is_release {
            let mut shrink = tools.command(project, "wasm-opt");
            run(shrink.arg("-Oz").args(FEATURES).arg(made).arg("-o").arg(place))?;
        } else {
            fs::copy(&made, &place).map_err(|cause| Failure::at("copy", &made, cause))?;
        }
    }
    let loader = one_loader(&read(&work.join("bound.js"))?, &read(&work.join("__wasm_split.js"))?, &name);
    let loader = loader.and_then(|loader| long_texts_encoded(&loader));
    let loader = loader.ok_or_else(|| Failure::new("The loaders are not as the tools used to write them: see src/bin/task/split.rs."))?;
    let place = placed(".js");
    fs::write(&place, loader + &puts_in(styles)).map_err(|cause| Failure::at("write", &place, cause))?;
    if is_release {
        shrink_script(project, &tools, &place)
    } else {
        Ok(())
    }
}

/// Writes a module or script shorter: without comments, with short names inside it. What it exports and what it does stay.
///
/// # Errors
///
/// When the tool fails.
pub fn shrink_script(project: &Project, tools: &Tools, script: &Path) -> Outcome<()> {
    let mut shrink = tools.command(project, "terser");
    run(shrink
        .arg(script)
        .args(["--module", "--compress", "--mangle", "--output"])
        .arg(script))
}

/// The length of the hash by which wasm-bindgen tells its names apart, in signs.
const HASH: usize = 16;
type Hash = [u8; HASH];

/// Puts numbers for the hashes in the names by which the program's parts and its loader know each other. Nothing depends on what
/// they are, and no compression makes a hash smaller: it is a fifth of the loader.
fn plain_names(work: &Path) -> Outcome<()> {
    let numbers = numbers_for_hashes(&read(&work.join("bound.js"))?);
    for name in ["bound.js", "__wasm_split.js", "bound_bg.wasm", "split_rest.wasm"] {
        let file = work.join(name);
        let mut bytes = fs::read(&file).map_err(|cause| Failure::at("read", &file, cause))?;
        for start in 0..bytes.len().saturating_sub(HASH - 1) {
            if let Some(number) = numbers.get(&bytes[start..start + HASH]) {
                bytes[start..start + HASH].copy_from_slice(number);
            }
        }
        fs::write(&file, bytes).map_err(|cause| Failure::at("write", &file, cause))?;
    }
    Ok(())
}

/// A number for the hash of each name in a loader; names that are alike but for their hashes get different ones.
fn numbers_for_hashes(loader: &str) -> HashMap<Hash, Hash> {
    let mut alike: HashMap<(&str, &str), usize> = HashMap::new();
    let mut numbers = HashMap::new();
    let is_hex = |sign: &u8| sign.is_ascii_digit() || (b'a'..=b'f').contains(sign);
    for name in loader.split(|sign: char| !sign.is_ascii_alphanumeric() && sign != '_') {
        let (Some(start), true) = (name.len().checked_sub(HASH), name.contains("wbg") || name.contains("wasm_bindgen")) else {
            continue;
        };
        let hash = (0..=start).find(|&at| at > 0 && name.as_bytes()[at..at + HASH].iter().all(is_hex));
        if let Some(at) = hash
            && let Ok(hash) = Hash::try_from(&name.as_bytes()[at..at + HASH])
            && !numbers.contains_key(&hash)
        {
            let count = alike.entry((&name[..at], &name[at + HASH..])).or_default();
            let mut number = [b'0'; HASH];
            let digits = count.to_string();
            number[HASH - digits.len()..].copy_from_slice(digits.as_bytes());
            numbers.insert(hash, number);
            *count += 1;
        }
    }
    numbers
}

fn read(file: &Path) -> Outcome<String> {
    fs::read_to_string(file).map_err(|cause| Failure::at("read", file, cause))
}

/// What the names of the program's files begin with: Trunk puts a hash into it.
fn name_of_program(folder: &Path) -> Outcome<String> {
    let files = fs::read_dir(folder).map_err(|cause| Failure::at("read", folder, cause))?;
    let mut names = files.filter_map(|file| Some(file.ok()?.file_name().to_str()?.strip_suffix("_bg.wasm")?.to_owned()));
    names
        .next()
        .ok_or_else(|| Failure::new(format!("There is no program in {}.", folder.display())))
}

/// One script of the two that import each other: it saves a request. `None` when either is not as expected.
fn one_loader(first: &str, rest: &str, name: &str) -> Option<String> {
    let import_of_rest = first
        .lines()
        .find(|line| line.starts_with("import * as ") && line.contains("__wasm_split.js"))?;
    let alias = import_of_rest.strip_prefix("import * as ")?.split_once(' ')?.0;
    let import_of_first = rest.lines().find(|line| line.starts_with("import { initSync } from "))?;
    let file = "./split_rest.wasm";
    if !rest.contains(file) {
        return None;
    }
    let (fetches, load) = rest
        .replace(import_of_first, "")
        .replace(file, &format!("./{name}_rest.wasm"))
        .split_once("export const __wasm_split_load_rest = ")
        .map(|(fetches, load)| (fetches.to_owned(), load.to_owned()))?;
    let first = first.replace(import_of_rest, "");
    Some(format!(
        "{first}\n{fetches}const {alias} = {{ __wasm_split_load_rest: {} }};\n",
        load.trim_end().trim_end_matches(';')
    ))
}

/// The loader with no more than short texts handed over sign by sign, as long as they are ASCII: a whole notebook takes ten times as
/// long so as the browser's own encoder takes. `None` when the loader is not as expected.
fn long_texts_encoded(loader: &str) -> Option<String> {
    let all_signs = "for (; offset < len; offset++) {";
    (loader.matches(all_signs).count() == 1).then(|| loader.replace(all_signs, "for (; len < 1000 && offset < len; offset++) {"))
}

/// A script that gives the page `styles`.
fn puts_in(styles: &str) -> String {
    let text = serde_json::Value::from(styles);
    format!("const styles = document.createElement(\"style\");\nstyles.textContent = {text};\ndocument.head.append(styles);\n")
}

#[cfg(test)]
mod tests {
    use super::{long_texts_encoded, numbers_for_hashes, one_loader, puts_in};

    const FIRST: &str = "import * as import1 from \"./__wasm_split.js\"\nexport { initSync };\n";
    const REST: &str = "import { initSync } from \"./first.js\";\nfunction makeLoad(fetcher) {}\n\
        export const __wasm_split_load_rest = makeLoad(() => fetch(\"./split_rest.wasm\"));\n";

    #[test]
    fn two_loaders_become_one_that_imports_nothing() {
        let loader = one_loader(FIRST, REST, "first-truss-1").unwrap();
        assert!(!loader.contains("import "), "{loader}");
        assert!(loader.starts_with("\nexport { initSync };\n"), "{loader}");
        assert!(
            loader.ends_with("const import1 = { __wasm_split_load_rest: makeLoad(() => fetch(\"./first-truss-1_rest.wasm\")) };\n"),
            "{loader}"
        );
    }

    #[test]
    fn a_long_text_is_left_to_the_encoder() {
        let loop_over_signs = "for (; offset < len; offset++) {";
        let loader = long_texts_encoded(&format!("let offset = 0;\n{loop_over_signs} }}")).unwrap();
        assert_eq!(loader, "let offset = 0;\nfor (; len < 1000 && offset < len; offset++) { }");
        assert_eq!(long_texts_encoded("let offset = 0;"), None);
        assert_eq!(long_texts_encoded(&loop_over_signs.repeat(2)), None);
    }

    #[test]
    fn styles_are_one_text_of_a_script() {
        let script = puts_in("a::before { content: \"\\2014\" }\n");
        let line = r#"styles.textContent = "a::before { content: \"\\2014\" }\n";"#;
        assert!(script.lines().any(|other| other == line), "{script}");
    }

    #[test]
    fn names_with_hashes_stay_apart() {
        let loader = "__wbg_get_0123456789abcdef: get, __wbg_get_fedcba9876543210: other, __wbg_set_00ff00ff00ff00ff: set,\n\
            wasm_bindgen__invoke__h1111111111111111_3(), wasm.__wbg_get_0123456789abcdef, first_2222222222222222, __wbg_short";
        let numbers = numbers_for_hashes(loader);
        let number = |hash: &[u8; 16]| numbers.get(hash).map(|number| std::str::from_utf8(number).unwrap());
        assert_eq!(number(b"0123456789abcdef"), Some("0000000000000000"));
        assert_eq!(number(b"fedcba9876543210"), Some("0000000000000001"));
        assert_eq!(number(b"00ff00ff00ff00ff"), Some("0000000000000000"));
        assert_eq!(number(b"1111111111111111"), Some("0000000000000000"));
        assert_eq!(numbers.len(), 4);
    }

    #[test]
    fn loaders_of_another_form_are_refused() {
        assert_eq!(one_loader("export {};\n", REST, "a"), None);
        assert_eq!(one_loader(FIRST, "export {};\n", "a"), None);
        assert_eq!(one_loader(FIRST, &REST.replace("split_rest", "split_other"), "a"), None);
    }
}
