//! A plan for whoever waters, and the list that comes back, each in the fragment of a link.
//!
//! ```text
//! s1.hA7x2B1C7U2NPlot_14.gC12H1jT6JlflsU….f….t….0b1k2x7
//! │  │                   │                       └ CRC-32 of all before it, to base 36, seven digits
//! │  │                   └ further parts: a group, where it stood before, the feed, a treatment
//! │  └ the first part: its kind in small, then a capital for each key with its numbers to base 36, and a text at the end
//! └ kind of link (s: a plan, a: what was done) and version
//! ```
//!
//! Only `A–Z a–z 0–9 - _ . ~` stand in it, and it ends in a letter or digit. What is usual is left out; unknown parts and keys
//! are passed over.

mod error;
mod moved;
mod part;
mod plan;
mod plan_group;
mod reply;

pub use error::LinkError;
pub use plan::{FeedPlan, Plan, Treatment, Visits, is_card_over};
pub use reply::Reply;

pub(super) use moved::{kept_placement, placement_line, read_placement};
pub(super) use plan_group::{handed_line, read_handed};

use super::envelope::crc32;
use part::{Part, number, put_number};

/// Characters of the longest link that is looked at, without its page’s address (limit: 60 days of 8 groups, each given water and feed and
/// felt, take 6,510).
pub const MOST_CHARACTERS: usize = 8000;
/// Characters of the longest link that is shown as a square code: about its fifteenth size
/// (limit).
pub const LONGEST_FOR_SQUARE: usize = 400;
/// Version of the form that this program writes (limit: the first).
const VERSION: u64 = 1;
/// Digits of the check (limit).
const CHECK_DIGITS: usize = 7;

/// What a link carries.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LinkKind {
    /// A plan for whoever waters.
    Plan,
    /// What was done of one.
    Reply,
}

/// What a fragment seems to carry, by its first letter: none when it is no link of this kind at all. No place on a screen has a
/// full stop in its name.
#[must_use]
pub fn kind_of_link(fragment: &str) -> Option<LinkKind> {
    let bytes = fragment.trim_start_matches('#').as_bytes();
    if !bytes.contains(&b'.') {
        return None;
    }
    Some(if bytes.first() == Some(&b'a') {
        LinkKind::Reply
    } else {
        LinkKind::Plan
    })
}

/// The check in a link: what a reply names it by.
#[must_use]
pub fn check_of_link(fragment: &str) -> u32 {
    let check = fragment.rsplit('.').next().unwrap_or_default();
    number(check.as_bytes())
        .and_then(|check| u32::try_from(check).ok())
        .unwrap_or_default()
}

/// The parts of a link whose check holds.
fn opened(fragment: &str, kind: u8) -> Result<Vec<Part>, LinkError> {
    let text = fragment.strip_prefix('#').unwrap_or(fragment);
    if text.len() > MOST_CHARACTERS {
        return Err(LinkError::TooLong);
    }
    let is_ours = |sign: &u8| sign.is_ascii_alphanumeric() || b"-_.~".contains(sign);
    if !text.as_bytes().iter().all(is_ours) {
        return Err(LinkError::ForeignSign);
    }
    let mut pieces = text.split('.');
    let Some((&first, version)) = pieces.next().and_then(|head| head.as_bytes().split_first()) else {
        return Err(LinkError::NotOurs);
    };
    match number(version) {
        Some(version) if first == kind && version > VERSION => return Err(LinkError::Newer),
        Some(VERSION) if first == kind => {}
        _ => return Err(LinkError::NotOurs),
    }
    let Some((body, check)) = text.rsplit_once('.') else {
        return Err(LinkError::CutShort);
    };
    if check.len() != CHECK_DIGITS || !body.as_bytes().contains(&b'.') {
        return Err(LinkError::CutShort);
    }
    if number(check.as_bytes()) != Some(u64::from(crc32(&[body]))) {
        return Err(LinkError::Damaged);
    }
    let parts = body.split('.').skip(1).map(Part::read).collect::<Option<Vec<_>>>();
    parts.ok_or(LinkError::Impossible { what: "its form" })
}

/// A link of such parts.
fn sealed(kind: u8, parts: &[Part]) -> String {
    let mut text = String::new();
    text.push(char::from(kind));
    put_number(&mut text, VERSION);
    for part in parts {
        text.push('.');
        part.put_into(&mut text);
    }
    let mut check = String::new();
    put_number(&mut check, u64::from(crc32(&[&text])));
    text.push('.');
    text.extend(std::iter::repeat_n('0', CHECK_DIGITS.saturating_sub(check.len())));
    text + &check
}

/// Refuses what was read when anything of it cannot be.
fn all_can_be(parts: &[Part]) -> Result<(), LinkError> {
    match parts.iter().find_map(|part| part.wrong) {
        Some(what) => Err(LinkError::Impossible { what }),
        None => Ok(()),
    }
}
