use std::fmt;

use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;

use super::Notebook;

/// Version of the stored form that this program writes.
pub const ENVELOPE_VERSION: u32 = 1;
/// Longest text that is looked at, bytes: far above any notebook, far below what a browser stores.
const LONGEST_TEXT: usize = 4_000_000;

/// The stored form: version, a 32-bit check over the notebook's own text, a counter of writings, and the notebook.
#[derive(Serialize, Deserialize)]
struct Envelope<'a> {
    #[serde(rename = "first-truss")]
    version: u32,
    revision: u64,
    check: String,
    #[serde(borrow)]
    notebook: &'a RawValue,
}

/// Only the version, so that a newer form is told from a damaged one.
#[derive(Deserialize)]
struct VersionOnly {
    #[serde(rename = "first-truss")]
    version: u32,
}

/// A notebook with the number of its writing.
#[derive(Clone, Debug, PartialEq)]
pub struct Opened {
    /// What was kept.
    pub notebook: Notebook,
    /// How often it had been written.
    pub revision: u64,
}

/// Why stored text is not opened. It is never changed or thrown away for it.
#[derive(Clone, Debug, PartialEq, Eq)]
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
    let VersionOnly { version } = serde_json::from_str(text).map_err(|_| OpenError::Damaged)?;
    if version > ENVELOPE_VERSION {
        return Err(OpenError::Newer { version });
    }
    let envelope: Envelope = serde_json::from_str(text).map_err(|_| OpenError::Damaged)?;
    if envelope.version != ENVELOPE_VERSION || envelope.check != check_of(envelope.revision, envelope.notebook.get()) {
        return Err(OpenError::Damaged);
    }
    let notebook: Notebook = serde_json::from_str(envelope.notebook.get()).map_err(|_| OpenError::Damaged)?;
    Ok(Opened {
        notebook: notebook.mended(),
        revision: envelope.revision,
    })
}

/// The text to store. `None` only if a value in the notebook has no JSON form, which no typed entry can bring about.
#[must_use]
pub fn seal(notebook: &Notebook, revision: u64) -> Option<String> {
    let inner = serde_json::value::to_raw_value(notebook).ok()?;
    let envelope = Envelope {
        version: ENVELOPE_VERSION,
        revision,
        check: check_of(revision, inner.get()),
        notebook: &inner,
    };
    serde_json::to_string(&envelope).ok()
}

/// CRC-32 (IEEE 802.3) of the counter and the notebook's text, eight hexadecimal digits.
fn check_of(revision: u64, notebook: &str) -> String {
    let mut hasher = crc32fast::Hasher::new();
    hasher.update(&revision.to_le_bytes());
    hasher.update(notebook.as_bytes());
    format!("{:08x}", hasher.finalize())
}
