use std::fmt;

use serde::{Deserialize, Serialize};

use super::Notebook;
use super::lines::Lines;

/// Version of the stored form that this program writes.
pub const ENVELOPE_VERSION: u32 = 1;
/// Longest text that is looked at, bytes: far above any notebook, far below what a browser stores.
const LONGEST_TEXT: usize = 4_000_000;

/// The stored form, as JSON: version, a counter of writings, a check over all that follows, and the notebook's pages.
#[derive(Serialize, Deserialize)]
struct Envelope {
    #[serde(rename = "first-truss")]
    version: u32,
    revision: u32,
    check: u32,
    #[serde(default)]
    pages: Vec<Vec<String>>,
}

/// A notebook with the number of its writing.
#[derive(Clone, Debug, PartialEq)]
pub struct Opened {
    /// What was kept.
    pub notebook: Notebook,
    /// How often it had been written.
    pub revision: u32,
}

/// Why stored text is not opened. It is never changed or thrown away for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OpenError {
    /// It is not a whole notebook, or its check does not fit.
    Damaged,
    /// A later program wrote it.
    Newer {
        /// The version it is written in.
        version: u32,
    },
}

impl fmt::Display for OpenError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Damaged => {
                f.write_str("The notebook on this device is damaged and cannot be read. It was set aside, nothing was thrown away.")
            }
            Self::Newer { version } => write!(
                f,
                "The notebook on this device is from a newer First Truss (form {version}, this one reads {ENVELOPE_VERSION}). It was set aside, nothing was thrown away."
            ),
        }
    }
}

impl std::error::Error for OpenError {}

/// Opens stored text.
///
/// # Errors
/// [`OpenError`], when it is damaged or newer than this program.
pub fn open(text: &str) -> Result<Opened, OpenError> {
    if text.len() > LONGEST_TEXT {
        return Err(OpenError::Damaged);
    }
    let envelope: Envelope = serde_json::from_str(text).map_err(|_| OpenError::Damaged)?;
    if envelope.version > ENVELOPE_VERSION {
        return Err(OpenError::Newer { version: envelope.version });
    }
    if envelope.version != ENVELOPE_VERSION || envelope.check != check_of(envelope.revision, &envelope.pages) {
        return Err(OpenError::Damaged);
    }
    let pages: Vec<_> = envelope.pages.into_iter().map(Lines).collect();
    let notebook = Notebook::from_pages(&pages).ok_or(OpenError::Damaged)?;
    Ok(Opened {
        notebook,
        revision: envelope.revision,
    })
}

/// The text to store.
#[must_use]
pub fn seal(notebook: &Notebook, revision: u32) -> String {
    let pages: Vec<_> = notebook.pages().into_iter().map(|Lines(lines)| lines).collect();
    let envelope = Envelope {
        version: ENVELOPE_VERSION,
        revision,
        check: check_of(revision, &pages),
        pages,
    };
    // Numbers and strings always have a JSON form.
    serde_json::to_string(&envelope).unwrap_or_default()
}

/// CRC-32 (IEEE 802.3) of the counter and every line, with a mark after each line and page.
fn check_of(revision: u32, pages: &[Vec<String>]) -> u32 {
    let mut hasher = crc32fast::Hasher::new();
    hasher.update(&revision.to_le_bytes());
    for page in pages {
        for line in page {
            hasher.update(line.as_bytes());
            hasher.update(b"\n");
        }
        hasher.update(b"\x0c");
    }
    hasher.finalize()
}
