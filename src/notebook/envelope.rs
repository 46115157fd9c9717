use std::{borrow::Cow, fmt};

use crc::{CRC_32_ISO_HDLC, Crc, Table};

use super::Notebook;
use super::lines::{Lines, Page};

/// Version of the stored form that this program writes (limit: the first).
pub const ENVELOPE_VERSION: u32 = 1;
/// The step from each version to the next one, oldest first: pages as the older program wrote them become the newer one's.
const STEPS: [fn(&str) -> String; ENVELOPE_VERSION as usize - 1] = [];
/// Longest text that is looked at, bytes: far above any notebook, far below what a browser stores (limit).
const LONGEST_TEXT: usize = 4_000_000;

/// A notebook with the number of its writing.
#[derive(Clone, Debug, PartialEq)]
pub struct Opened {
    /// What was kept.
    pub notebook: Notebook,
    /// How often it had been written.
    pub revision: u32,
    /// The check of the text that its writer had last taken over from the store.
    pub after: String,
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
                f.write_str("The notebook on this device is damaged and cannot be read. It was set aside; nothing was thrown away.")
            }
            Self::Newer { .. } => f.write_str(
                "The notebook on this device was written by a newer First Truss than this one. It was set aside; nothing was thrown away.",
            ),
        }
    }
}

impl std::error::Error for OpenError {}

/// What the first line of a stored notebook begins with.
const SIGN: &str = "first-truss ";
/// What the second line begins with.
const REVISION: &str = "revision ";
/// What the third line begins with.
const CHECK: &str = "check ";
/// The word, on the first page, of the check of the text that the writer had last taken over.
const AFTER: &str = "after";

/// Opens stored text:
///
/// ```text
/// first-truss 1          version of the form
/// revision 12            how often it has been written
/// check 5f0c2a19         CRC-32 of the second line and of all that follows the third
/// page
/// plot-name=Marlpit Lane
/// page
/// id=0
/// name=Glasshouse
/// height=5
/// ```
///
/// # Errors
/// [`OpenError`], when it is damaged or newer than this program.
pub fn open(text: &str) -> Result<Opened, OpenError> {
    let version = text
        .strip_prefix(SIGN)
        .and_then(|rest| rest.split('\n').next())
        .and_then(|version| version.parse().ok());
    match version {
        Some(version) if version > ENVELOPE_VERSION => Err(OpenError::Newer { version }),
        Some(version @ 1..=ENVELOPE_VERSION) if text.len() <= LONGEST_TEXT => open_whole(text, version).ok_or(OpenError::Damaged),
        _ => Err(OpenError::Damaged),
    }
}

fn open_whole(text: &str, version: u32) -> Option<Opened> {
    let mut parts = text.splitn(4, '\n').skip(1);
    let (revision, check, body) = (parts.next()?, parts.next()?, parts.next()?);
    (check == CHECK.to_owned() + &check_of(revision, body)).then_some(())?;
    let steps = STEPS.iter().skip(usize::try_from(version - 1).ok()?);
    let body = steps.fold(Cow::Borrowed(body), |body, step| step(&body).into());
    let mut pages = Page::all_in(&body)?;
    let revision = revision.strip_prefix(REVISION)?.parse().ok()?;
    Some(Opened {
        after: pages.first_mut()?.take(AFTER).to_owned(),
        notebook: Notebook::from_pages(pages)?,
        revision,
    })
}

/// The text to store or to save to a file.
#[must_use]
pub fn seal(notebook: &Notebook, revision: u32) -> String {
    seal_after(notebook, revision, "")
}

/// The text to store, by a writer that had last taken over the text with the check `after`: so another tab knows whether its
/// own last writing is in it.
pub(super) fn seal_after(notebook: &Notebook, revision: u32, after: &str) -> String {
    let mut body = String::new();
    let mut pages = notebook.pages();
    if let Some(first) = pages.first_mut() {
        first.put(AFTER, after);
    }
    for Lines { head, lines } in &pages {
        for line in std::iter::once(head).chain(lines) {
            body.push_str(line);
            body.push('\n');
        }
    }
    let revision = REVISION.to_owned() + &revision.to_string();
    let check = check_of(&revision, &body);
    format!("{SIGN}{ENVELOPE_VERSION}\n{revision}\n{CHECK}{check}\n{body}")
}

/// The check that stands in a stored text.
pub(super) fn check_in(text: &str) -> &str {
    let line = text.split('\n').nth(2).unwrap_or_default();
    line.strip_prefix(CHECK).unwrap_or_default()
}

/// CRC-32 of the line with the counter and of the body, eight hexadecimal digits.
fn check_of(revision: &str, body: &str) -> String {
    format!("{:08x}", crc32(&[revision, body]))
}

/// CRC-32 (ISO-HDLC, as in zip files) of texts one after another.
pub(super) fn crc32(texts: &[&str]) -> u32 {
    // Its table is made anew each time: that costs less than it saves, and no bytes of the program.
    let crc = Crc::<u32, Table<1>>::new(&CRC_32_ISO_HDLC);
    let mut digest = crc.digest();
    for text in texts {
        digest.update(text.as_bytes());
    }
    digest.finalize()
}
