//! From the address a browser asks for to the file, its headers and its bytes.

use std::collections::HashMap;
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::SystemTime;

use super::headers;
use super::media_type::MediaType;

/// Brotli at its strongest, as a static host compresses once and serves often.
const QUALITY: u32 = 11;
const WINDOW_BITS: u32 = 22;

/// What to send for a file that exists.
pub struct Answer {
    pub media_type: MediaType,
    pub brotli: bool,
    pub body: Arc<[u8]>,
    pub policy: String,
}

/// A folder of files, each compressed at most once for as long as it does not change.
pub struct Folder {
    root: PathBuf,
    compressed: Mutex<HashMap<PathBuf, Compressed>>,
}

/// A file's compressed bytes, good for as long as the file is not changed again.
struct Compressed {
    changed: SystemTime,
    body: Arc<[u8]>,
}

impl Folder {
    /// # Errors
    ///
    /// When there is no such folder.
    pub fn new(root: &Path) -> std::io::Result<Self> {
        Ok(Self {
            root: root.canonicalize()?,
            compressed: Mutex::default(),
        })
    }

    /// Compresses every file that is ever asked for compressed, so that no visit waits for it.
    pub fn pack(&self) {
        let mut folders = vec![self.root.clone()];
        while let Some(folder) = folders.pop() {
            for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
                let path = entry.path();
                if path.is_dir() {
                    folders.push(path);
                } else if let Some(target) = path.strip_prefix(&self.root).ok().and_then(Path::to_str) {
                    self.answer(&format!("/{target}"), true);
                }
            }
        }
    }

    /// The answer to a request for `target`, such as "/icons/plant.svg?size=2"; `None` when there is no such file.
    pub fn answer(&self, target: &str, accepts_brotli: bool) -> Option<Answer> {
        let file = self.file(target)?;
        let media_type = MediaType::of(&file);
        let brotli = accepts_brotli && media_type.compressible;
        // Looked at before the bytes are read: a change in between is then noticed the next time.
        let changed = fs::metadata(&file).and_then(|data| data.modified()).ok()?;
        let bytes = fs::read(&file).ok()?;
        let policy = headers::policy(&file, &bytes);
        let body = if brotli {
            self.compressed(&file, changed, &bytes)
        } else {
            bytes.into()
        };
        Some(Answer {
            media_type,
            brotli,
            body,
            policy,
        })
    }

    /// The file for a request, which always lies inside the folder.
    fn file(&self, target: &str) -> Option<PathBuf> {
        let path = target.split(['?', '#']).next()?;
        let path = decoded(path.strip_prefix('/')?)?;
        let mut file = self.root.clone();
        for part in path.split('/') {
            // A name is a name: nothing that climbs, is hidden, or means something to another system.
            if part.starts_with('.') || part.contains(['\\', ':', '\0']) {
                return None;
            }
            file.push(part);
        }
        if path.is_empty() || path.ends_with('/') {
            file.push("index.html");
        }
        // Resolves links, so that a link cannot lead outside either.
        let file = file.canonicalize().ok()?;
        (file.starts_with(&self.root) && file.is_file()).then_some(file)
    }

    fn compressed(&self, file: &Path, changed: SystemTime, bytes: &[u8]) -> Arc<[u8]> {
        let known = self
            .kept()
            .get(file)
            .filter(|known| known.changed == changed)
            .map(|known| Arc::clone(&known.body));
        // Compressing takes seconds, in which other files are answered.
        known.unwrap_or_else(|| {
            let body: Arc<[u8]> = compressed(bytes).into();
            let known = Compressed {
                changed,
                body: Arc::clone(&body),
            };
            self.kept().insert(file.to_path_buf(), known);
            body
        })
    }

    #[cfg(test)]
    pub fn is_packed(&self, target: &str) -> bool {
        self.file(target).is_some_and(|file| self.kept().contains_key(&file))
    }

    fn kept(&self) -> MutexGuard<'_, HashMap<PathBuf, Compressed>> {
        self.compressed.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// The bytes as a static host would send them with brotli.
fn compressed(bytes: &[u8]) -> Vec<u8> {
    let mut writer = brotli::CompressorWriter::new(Vec::new(), 4096, QUALITY, WINDOW_BITS);
    // Writing to memory does not fail.
    drop(writer.write_all(bytes));
    writer.into_inner()
}

/// Whether an Accept-Encoding header takes brotli, as in "gzip, deflate, br;q=0.9".
pub fn accepts_brotli(accept_encoding: &str) -> bool {
    accept_encoding.split(',').any(|choice| {
        let mut parts = choice.split(';').map(str::trim);
        let named = parts.next().is_some_and(|name| name.eq_ignore_ascii_case("br"));
        let refused = parts.any(|part| {
            part.strip_prefix("q=")
                .and_then(|quality| quality.parse::<f32>().ok())
                .is_some_and(|quality| quality <= 0.0)
        });
        named && !refused
    })
}

/// Undoes percent-encoding; `None` when it is broken or is not UTF-8.
fn decoded(path: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(path.len());
    let mut rest = path.as_bytes();
    while let Some((&byte, after)) = rest.split_first() {
        rest = after;
        if byte == b'%' {
            let (pair, after) = rest.split_at_checked(2)?;
            let pair = std::str::from_utf8(pair).ok()?;
            bytes.push(u8::from_str_radix(pair, 16).ok()?);
            rest = after;
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::{accepts_brotli, decoded};

    #[test]
    fn brotli_is_sent_only_where_it_is_taken() {
        assert!(accepts_brotli("gzip, deflate, br, zstd"));
        assert!(accepts_brotli("BR;q=0.5"));
        assert!(!accepts_brotli("gzip, br;q=0"));
        assert!(!accepts_brotli("gzip, deflate"));
        assert!(!accepts_brotli("brotli"));
        assert!(!accepts_brotli(""));
    }

    #[test]
    fn percent_signs_are_decoded_or_refused() {
        assert_eq!(decoded("a%20b%2e").as_deref(), Some("a b."));
        assert_eq!(decoded("%C3%A9").as_deref(), Some("é"));
        assert_eq!(decoded("%ff"), None);
        assert_eq!(decoded("%2"), None);
        assert_eq!(decoded("%zz"), None);
        assert_eq!(decoded("%€"), None);
    }
}
