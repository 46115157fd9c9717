//! The size of each file of a first visit, as written and as sent.

use std::path::Path;

use crate::failure::{Failure, Outcome};
use crate::serve::Folder;

/// The most bytes that may be sent for the files whose names end so. A kB is 1,000 bytes.
struct Budget {
    ending: &'static str,
    bytes: usize,
}

const BUDGETS: &[Budget] = &[Budget {
    ending: ".wasm",
    bytes: 65_000,
}];

struct File {
    name: String,
    raw: usize,
    sent: usize,
}

/// Prints a table of the files that were asked for, each once, and says whether all are within their budgets.
///
/// # Errors
///
/// When the page asked for a file that is not there.
pub fn print(dist: &Path, requests: &[String]) -> Outcome<bool> {
    let files = weighed(dist, requests)?;
    println!("\nFirst visit:");
    println!("  {:>10}{:>12}  file", "bytes", "brotli");
    for file in &files {
        println!("  {:>10}{:>12}  {}", file.raw, file.sent, file.name);
    }
    let raw: usize = files.iter().map(|file| file.raw).sum();
    let sent: usize = files.iter().map(|file| file.sent).sum();
    println!("  {raw:>10}{sent:>12}  {} files in total", files.len());

    let mut within = true;
    for Budget { ending, bytes } in BUDGETS {
        let sent = sent_with(&files, ending);
        let verdict = if sent <= *bytes { "within" } else { "OVER" };
        println!("  {ending} {sent} bytes with brotli: {verdict} its budget of {bytes}");
        within &= sent <= *bytes;
    }
    Ok(within)
}

fn weighed(dist: &Path, requests: &[String]) -> Outcome<Vec<File>> {
    let folder = Folder::new(dist).map_err(|cause| Failure::at("read", dist, cause))?;
    let mut files: Vec<File> = Vec::new();
    for request in requests {
        if files.iter().any(|file| file.name == *request) {
            continue;
        }
        let (Some(raw), Some(sent)) = (folder.answer(request, false), folder.answer(request, true)) else {
            return Err(Failure::new(format!("The page asks for {request}, which is not there.")));
        };
        files.push(File {
            name: request.clone(),
            raw: raw.body.len(),
            sent: sent.body.len(),
        });
    }
    Ok(files)
}

fn sent_with(files: &[File], ending: &str) -> usize {
    files.iter().filter(|file| file.name.ends_with(ending)).map(|file| file.sent).sum()
}

#[cfg(test)]
mod tests {
    use std::fs;

    use super::{sent_with, weighed};

    #[test]
    fn each_file_is_weighed_once_as_it_is_sent() {
        let folder = std::env::temp_dir().join(format!("first-truss-{}-weigh", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        fs::write(folder.join("index.html"), "x".repeat(1000)).unwrap();
        fs::write(folder.join("a.wasm"), vec![1; 2000]).unwrap();
        fs::write(folder.join("face.woff2"), vec![1; 3000]).unwrap();
        let asked = ["/", "/a.wasm", "/face.woff2", "/a.wasm"].map(str::to_string);
        let files = weighed(&folder, &asked).unwrap();
        let raw: Vec<usize> = files.iter().map(|file| file.raw).collect();
        assert_eq!(raw, [1000, 2000, 3000]);
        assert!((1..100).contains(&sent_with(&files, ".wasm")));
        // A typeface is compressed already, so it is sent as it is.
        assert_eq!(sent_with(&files, ".woff2"), 3000);
        let missing = weighed(&folder, &["/b.css".to_string()]);
        assert!(missing.is_err());
    }
}
