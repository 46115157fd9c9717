//! Seals a built page: each file is listed by the hash of its final bytes for the offline worker, and the page's content
//! security policy lets through its own inline scripts and styles and nothing else.
//!
//! The names that Trunk gives to files cannot serve for this: it hashes the program before the last tools change it.

pub mod digest;
mod files;
mod markup;
mod policy;

use std::env;
use std::fs;
use std::path::{Path, PathBuf};

use crate::dependencies::notices_of_page;
use crate::failure::{Failure, Outcome};
use crate::options::Options;
use crate::project::Project;
use crate::split::{shrink_script, split};
use crate::tools::Tools;

pub use markup::policy_of;

/// What the browser asks for by this name at every look for a new version.
pub const WORKER: &str = "worker.js";
const PAGE: &str = "index.html";
/// What the page runs when it has been painted.
const LATER: &str = "later.js";

/// Seals `--folder`, or what Trunk has just built, or else `dist/`. What Trunk has built is cut in two first. A page under
/// development is not sealed: it would be kept, and the next change would not show.
pub fn seal(project: &Project, mut options: Options) -> Outcome<()> {
    let named: Option<PathBuf> = options.value("--folder")?;
    options.finish()?;
    let built = env::var_os("TRUNK_STAGING_DIR").map(PathBuf::from).filter(|_| named.is_none());
    let desk_styles = read(&project.root.join("style/desk.css"))?;
    if let Some(folder) = &built {
        let is_release = env::var("TRUNK_PROFILE").as_deref() == Ok("release");
        split(project, folder, is_release, &desk_styles)?;
        put_later_script(project, folder)?;
        put_rest_of_styles(project, folder)?;
        let tools = Tools::install(project)?;
        write(&folder.join("notices.txt"), &notices_of_page(project, &tools)?)?;
        if !is_release {
            return Ok(());
        }
        shrink_script(project, &tools, &folder.join(LATER))?;
    }
    let folder = named.or(built).unwrap_or_else(|| project.dist());
    let sealed = seal_folder(&folder, &project.root.join("src/browser/worker.js"), &desk_styles)?;
    println!("{} files sealed as build {}.", sealed.files, sealed.build);
    Ok(())
}

/// One file, for each costs a weak signal a request.
fn put_later_script(project: &Project, folder: &Path) -> Outcome<()> {
    let sources = project.root.join("src/browser");
    let texts = ["page.js", "offers.js", "versions.js", "install.js", "numerals.js"].map(|name| read(&sources.join(name)));
    let texts: Vec<String> = texts.into_iter().collect::<Outcome<_>>()?;
    write(&folder.join(LATER), &texts.concat())
}

/// The styles that follow with the rest of the program, as one file.
fn put_rest_of_styles(project: &Project, folder: &Path) -> Outcome<()> {
    let sheets = ["controls", "morning-water", "feed-mix", "pest-repeats", "hand-over"];
    let texts = sheets.map(|name| read(&project.root.join("style").join(name).with_extension("css")));
    let texts: Vec<String> = texts.into_iter().collect::<Outcome<_>>()?;
    write(&folder.join("rest.css"), &texts.concat())
}

struct Sealed {
    build: String,
    files: usize,
}

/// `brought` are the styles that the program's loader puts into the page.
fn seal_folder(folder: &Path, worker_source: &Path, brought: &str) -> Outcome<Sealed> {
    fill_in_policy(&folder.join(PAGE), brought)?;
    let worker = read(worker_source)?;
    let files = files::list(folder)?;
    let listed = listed(&files)?;
    // The worker's own lines count too: two workers must never share a cache that only one of them knows how to fill.
    let build = digest::short(format!("{listed}{worker}").as_bytes());
    write(
        &folder.join(WORKER),
        &format!("const BUILD = \"{build}\";\nconst FILES = {listed};\n\n{worker}"),
    )?;
    Ok(Sealed { build, files: files.len() })
}

/// As the worker reads it, a line for each file.
fn listed(files: &[(String, String)]) -> Outcome<String> {
    let lines = files
        .iter()
        .map(|file| serde_json::to_string(file).map(|line| format!("  {line},\n")));
    let lines: String = lines
        .collect::<Result<_, _>>()
        .map_err(|cause| Failure::new(format!("The files cannot be listed: {cause}.")))?;
    Ok(format!("[\n{lines}]"))
}

fn fill_in_policy(page: &Path, brought: &str) -> Outcome<()> {
    let html = read(page)?;
    let mut inline = markup::inline(&html).map_err(|cause| Failure::at("seal", page, cause))?;
    inline.styles.push(brought.to_owned());
    let sealed = markup::with_policy(&html, &policy::policy(&inline)).map_err(|cause| Failure::at("seal", page, cause))?;
    write(page, &sealed)
}

fn read(file: &Path) -> Outcome<String> {
    fs::read_to_string(file).map_err(|cause| Failure::at("read", file, cause))
}

fn write(file: &Path, text: &str) -> Outcome<()> {
    fs::write(file, text).map_err(|cause| Failure::at("write", file, cause))
}

#[cfg(test)]
mod tests {
    use std::fs;
    use std::path::PathBuf;

    use super::{policy_of, seal_folder};

    const STYLES: &str = "p { margin: 0 }\n";
    const PAGE_SOURCE: &str = "<!doctype html>\n<html><head><meta charset=\"utf-8\">\n\
        <meta http-equiv=\"Content-Security-Policy\" content=\"\">\n<style>p { color: red }</style>\
        <script type=\"module\">start();</script></head><body><p>a</p></body></html>\n";

    /// A built page in a folder of its own, and the source of a worker beside it.
    fn built(name: &str) -> (PathBuf, PathBuf) {
        let above = std::env::temp_dir().join(format!("first-truss-seal-{}-{name}", std::process::id()));
        drop(fs::remove_dir_all(&above));
        let folder = above.join("dist");
        fs::create_dir_all(folder.join("pictures")).unwrap();
        fs::create_dir_all(folder.join("a")).unwrap();
        fs::write(above.join("worker.js"), "// worker\n").unwrap();
        fs::write(folder.join("index.html"), PAGE_SOURCE).unwrap();
        fs::write(folder.join("pictures/wide.png"), "picture").unwrap();
        fs::write(folder.join("a/b.wasm"), "abc").unwrap();
        fs::write(folder.join("a.js"), "").unwrap();
        fs::write(folder.join("_headers"), "for the host").unwrap();
        fs::write(folder.join(".htaccess"), "for the host").unwrap();
        (folder, above.join("worker.js"))
    }

    #[test]
    fn the_worker_lists_the_final_bytes_of_what_the_page_needs() {
        let (folder, source) = built("lists");
        let sealed = seal_folder(&folder, &source, STYLES).unwrap();
        assert_eq!(sealed.files, 3);
        let worker = fs::read_to_string(folder.join("worker.js")).unwrap();
        assert!(worker.starts_with(&format!("const BUILD = \"{}\";\n", sealed.build)), "{worker}");
        assert!(worker.ends_with("];\n\n// worker\n"), "{worker}");
        let list = worker.split_once("const FILES = ").unwrap().1.split_once(";\n").unwrap().0;
        let list: Vec<(String, String)> = serde_json::from_str(&list.replace(",\n]", "]")).unwrap();
        // The published SHA-256 of nothing and of "abc", as FIPS 180 gives them, in base 64.
        assert_eq!(
            list[0],
            ("a.js".into(), "sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=".into())
        );
        assert_eq!(
            list[1],
            ("a/b.wasm".into(), "sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=".into())
        );
        let page = fs::read(folder.join("index.html")).unwrap();
        assert_eq!(list[2], ("index.html".into(), super::digest::integrity(&page)));
    }

    #[test]
    fn the_same_files_are_sealed_to_the_same_bytes_again_and_again() {
        let (folder, source) = built("again");
        let first = seal_folder(&folder, &source, STYLES).unwrap().build;
        let once = (
            fs::read(folder.join("worker.js")).unwrap(),
            fs::read(folder.join("index.html")).unwrap(),
        );
        let second = seal_folder(&folder, &source, STYLES).unwrap().build;
        let twice = (
            fs::read(folder.join("worker.js")).unwrap(),
            fs::read(folder.join("index.html")).unwrap(),
        );
        assert_eq!(first, second);
        assert_eq!(once, twice);
    }

    #[test]
    fn new_bytes_under_an_old_name_or_in_the_worker_make_a_new_build() {
        let (folder, source) = built("new");
        let before = seal_folder(&folder, &source, STYLES).unwrap().build;
        fs::write(folder.join("a/b.wasm"), "abd").unwrap();
        let changed = seal_folder(&folder, &source, STYLES).unwrap().build;
        fs::write(&source, "// another worker\n").unwrap();
        let worker = seal_folder(&folder, &source, STYLES).unwrap().build;
        assert_ne!(before, changed);
        assert_ne!(changed, worker);
        fs::write(folder.join("pictures/wide.png"), "another picture").unwrap();
        assert_eq!(
            seal_folder(&folder, &source, STYLES).unwrap().build,
            worker,
            "pictures are not kept"
        );
    }

    #[test]
    fn the_policy_stands_in_the_page_and_the_rest_of_it_is_untouched() {
        let (folder, source) = built("policy");
        seal_folder(&folder, &source, STYLES).unwrap();
        let page = fs::read_to_string(folder.join("index.html")).unwrap();
        let policy = policy_of(&page).unwrap();
        assert!(policy.starts_with("default-src 'none'; "), "{policy}");
        let styles = ["p { color: red }", STYLES].map(|text| format!(" '{}'", super::digest::integrity(text.as_bytes())));
        assert!(policy.contains(&format!("; style-src 'self'{}; ", styles.concat())), "{policy}");
        assert_eq!(page.replace(&policy, ""), PAGE_SOURCE);
    }

    #[test]
    fn a_page_that_could_not_be_guarded_is_refused() {
        for (name, from, to) in [
            ("style", "<p>a", "<p style=\"color:red\">a"),
            ("event", "<p>a", "<p onclick=\"a()\">a"),
            ("missing", "http-equiv=\"Content-Security-Policy\" ", ""),
            ("late", "<meta http-equiv", "<script>early()</script><meta http-equiv"),
        ] {
            let (folder, source) = built(name);
            fs::write(folder.join("index.html"), PAGE_SOURCE.replace(from, to)).unwrap();
            assert!(seal_folder(&folder, &source, STYLES).is_err(), "{name}");
        }
    }
}
