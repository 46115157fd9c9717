//! The files that the worker keeps.

use std::fs;
use std::path::Path;

use super::{WORKER, digest};
use crate::failure::{Failure, Outcome};

/// Asked for by the device while it installs the page, when there is signal, and never by the page itself.
const NOT_KEPT: &str = "pictures/";

/// A host reads these for itself and serves none of them.
fn is_for_host(name: &str) -> bool {
    name.starts_with('.') || name == "_headers"
}

/// Each file's path from `folder` with "/" between its parts, and the hash of its bytes, in the order of the paths.
pub fn list(folder: &Path) -> Outcome<Vec<(String, String)>> {
    let mut files = Vec::new();
    gather(folder, "", &mut files)?;
    files.sort();
    Ok(files)
}

fn gather(folder: &Path, path: &str, files: &mut Vec<(String, String)>) -> Outcome<()> {
    let unread = |cause| Failure::at("read", folder, cause);
    for entry in fs::read_dir(folder).map_err(unread)? {
        let entry = entry.map_err(unread)?;
        let name = entry
            .file_name()
            .into_string()
            .map_err(|name| Failure::new(format!("{} in {} is no name for an address.", name.display(), folder.display())))?;
        if is_for_host(&name) {
            continue;
        }
        let path = format!("{path}{name}");
        if entry.file_type().map_err(unread)?.is_dir() {
            let path = format!("{path}/");
            if path != NOT_KEPT {
                gather(&entry.path(), &path, files)?;
            }
        } else if path != WORKER {
            let bytes = fs::read(entry.path()).map_err(|cause| Failure::at("read", &entry.path(), cause))?;
            files.push((path, digest::integrity(&bytes)));
        }
    }
    Ok(())
}
