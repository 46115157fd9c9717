//! The size of each file of a first visit: as written, with gzip, and as it is sent.

use std::path::Path;

use super::results::Request;
use crate::failure::{Failure, Outcome};
use crate::serve::Folder;

/// A file of the page. Sizes are in bytes.
pub struct File {
    name: String,
    raw: usize,
    gzip: usize,
    /// With brotli where that helps.
    sent: usize,
    /// Whether it is asked for only once the page is usable.
    follows: bool,
}

/// Weighs each file of `requests` once.
///
/// # Errors
///
/// When the page asked for a file that is not there, or other bytes came than the file has.
pub fn weighed(dist: &Path, requests: &[Request]) -> Outcome<Vec<File>> {
    let folder = Folder::new(dist).map_err(|cause| Failure::at("read", dist, cause))?;
    let mut files: Vec<File> = Vec::new();
    for Request { path, gzip, arrived } in requests {
        let (Some(raw), Some(sent)) = (folder.answer(path, false), folder.answer(path, true)) else {
            return Err(Failure::new(format!("The page asks for {path}, which is not there.")));
        };
        let (raw, sent, packed) = (raw.body.len(), sent.body.len(), !raw.media_type.compressible);
        if let Some(arrived) = arrived.filter(|arrived| *arrived != sent) {
            return Err(Failure::new(format!("Of {path} came {arrived} bytes, but it has {sent}.")));
        }
        if files.iter().all(|file| file.name != *path) {
            files.push(File {
                name: path.clone(),
                raw,
                // What is packed already is sent as it is.
                gzip: if packed { raw } else { *gzip },
                sent,
                follows: false,
            });
        }
    }
    Ok(files)
}

/// Adds the rest of the program to the `files` of a first visit, if it was not asked for before the page was usable.
///
/// # Errors
///
/// When the program is not in the two parts that the build cuts it into.
pub fn add_rest(files: &mut Vec<File>, dist: &Path) -> Outcome<()> {
    let name = files
        .iter()
        .find_map(|file| Some(file.name.strip_suffix("_bg.wasm")?.to_owned() + "_rest.wasm"));
    let name = name.ok_or_else(|| Failure::new("The page asks for no program."))?;
    if files.iter().all(|file| file.name != name) {
        let rest = weighed(
            dist,
            &[Request {
                path: name,
                gzip: 0,
                arrived: None,
            }],
        )?;
        files.extend(rest.into_iter().map(|file| File { follows: true, ..file }));
    }
    Ok(())
}

/// The bytes that are sent until the page is usable for the files whose names end with `ending`; with "" for all.
pub fn sent(files: &[File], ending: &str) -> usize {
    files.iter().filter(|file| !file.follows).map(|file| file.sent_if(ending)).sum()
}

/// The same, whenever a file is asked for.
pub fn sent_ever(files: &[File], ending: &str) -> usize {
    files.iter().map(|file| file.sent_if(ending)).sum()
}

impl File {
    fn sent_if(&self, ending: &str) -> usize {
        if self.name.ends_with(ending) { self.sent } else { 0 }
    }
}

pub fn print(files: &[File]) {
    println!("\nAsked for until the page is usable:");
    println!("  {:>10}{:>10}{:>10}  file", "bytes", "gzip", "brotli");
    let (follow, first): (Vec<&File>, Vec<&File>) = files.iter().partition(|file| file.follows);
    for File { name, raw, gzip, sent, .. } in &first {
        println!("  {raw:>10}{gzip:>10}{sent:>10}  {name}");
    }
    let raw: usize = first.iter().map(|file| file.raw).sum();
    let gzip: usize = first.iter().map(|file| file.gzip).sum();
    println!("  {raw:>10}{gzip:>10}{:>10}  {} files in total", sent(files, ""), first.len());
    for File { name, raw, sent, .. } in follow {
        println!("Then follows:\n  {raw:>10}          {sent:>10}  {name}");
    }
}

#[cfg(test)]
mod tests {
    use std::fs;

    use super::{add_rest, sent, sent_ever, weighed};
    use crate::measure::results::Request;

    fn request(path: &str, arrived: Option<usize>) -> Request {
        Request {
            path: path.to_string(),
            gzip: 50,
            arrived,
        }
    }

    #[test]
    fn each_file_is_weighed_once_as_it_is_sent() {
        let folder = std::env::temp_dir().join(format!("first-truss-{}-weigh", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        fs::write(folder.join("index.html"), "x".repeat(1000)).unwrap();
        fs::write(folder.join("a.wasm"), vec![1; 2000]).unwrap();
        fs::write(folder.join("face.woff2"), vec![1; 3000]).unwrap();
        let asked = ["/", "/a.wasm", "/face.woff2", "/a.wasm"].map(|path| request(path, None));
        let files = weighed(&folder, &asked).unwrap();
        let raw: Vec<usize> = files.iter().map(|file| file.raw).collect();
        assert_eq!(raw, [1000, 2000, 3000]);
        // A typeface is compressed already, so it is sent as it is.
        let gzip: Vec<usize> = files.iter().map(|file| file.gzip).collect();
        assert_eq!(gzip, [50, 50, 3000]);
        assert_eq!(sent(&files, ".woff2"), 3000);
        let program = sent(&files, ".wasm");
        assert!((1..100).contains(&program));
        assert_eq!(sent(&files, ""), sent(&files, "/") + program + 3000);

        assert!(weighed(&folder, &[request("/b.css", None)]).is_err());
        assert!(weighed(&folder, &[request("/a.wasm", Some(program))]).is_ok());
        assert!(weighed(&folder, &[request("/a.wasm", Some(2000))]).is_err());
    }

    #[test]
    fn the_rest_of_the_program_counts_for_the_whole_but_not_for_the_start() {
        let folder = std::env::temp_dir().join(format!("first-truss-rest-{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        fs::write(folder.join("a_bg.wasm"), vec![1; 2000]).unwrap();
        let first = || weighed(&folder, &[request("/a_bg.wasm", None)]).unwrap();
        assert!(add_rest(&mut first(), &folder).is_err(), "it is not there");
        fs::write(folder.join("a_rest.wasm"), vec![2; 3000]).unwrap();
        let mut files = first();
        let start = sent(&files, "");
        add_rest(&mut files, &folder).unwrap();
        assert_eq!((files.len(), sent(&files, "")), (2, start));
        assert!(sent_ever(&files, ".wasm") > start);
        add_rest(&mut files, &folder).unwrap();
        assert_eq!(files.len(), 2, "it counts once");
        assert!(add_rest(&mut Vec::new(), &folder).is_err());
    }
}
