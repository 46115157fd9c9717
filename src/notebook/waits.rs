//! What was used against pests and may still keep the crop from being picked, in programmes that go on and in those that were ended.

use super::lines::{Lines, Page};
use super::{Notebook, PestRecord};
use crate::almanac::CivilDay;
use crate::pest::{Application, LABEL_DAYS_RANGE, picking_day};

/// The word of the day before which nothing may be picked.
const PICK_FROM: &str = "pick-from";
/// The word of the last day on which something was used whose label nobody had read.
const UNREAD: &str = "used-unread";

/// What is left of programmes that were ended.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Waits {
    /// The day before which nothing may be picked, by their labels.
    pub pick_from: Option<CivilDay>,
    /// The last day on which something was used whose label nobody had read.
    pub unread: Option<CivilDay>,
}

impl Waits {
    /// The later of each.
    pub(super) fn or_later(self, other: Self) -> Self {
        Self {
            pick_from: self.pick_from.max(other.pick_from),
            unread: self.unread.max(other.unread),
        }
    }

    pub(super) fn with(self, used: Application) -> Self {
        let (pick_from, unread) = match picking_day(&[used]) {
            Some(day) => (Some(day), None),
            None => (None, Some(used.day)),
        };
        self.or_later(Self { pick_from, unread })
    }

    /// The same as uses that wait so long.
    fn uses(self) -> impl Iterator<Item = Application> {
        // As if used on that day: whether it is dry nobody knows then.
        let read = self.pick_from.map(|day| Application {
            day,
            days_before_picking: Some(0),
        });
        let unread = self.unread.map(|day| Application {
            day,
            days_before_picking: None,
        });
        read.into_iter().chain(unread)
    }

    pub(super) fn put_into(self, lines: &mut Lines) {
        lines.put_day(PICK_FROM, self.pick_from);
        lines.put_day(UNREAD, self.unread);
    }

    pub(super) fn from_page(page: &mut Page) -> Self {
        Self {
            pick_from: page.day(PICK_FROM),
            unread: page.day(UNREAD),
        }
    }
}

/// Whether a use may keep the crop from being picked on a day: no label asks for more than a year.
fn may_wait(used: Application, today: CivilDay) -> bool {
    match picking_day(&[used]) {
        Some(day) => day >= today,
        None => f64::from(today.days_since(used.day)) <= LABEL_DAYS_RANGE.high,
    }
}

impl Notebook {
    /// What was used in programmes that were ended, as far as it may still keep the crop from being picked.
    #[must_use]
    pub fn uses_ended(&self, today: CivilDay) -> Vec<Application> {
        self.waits.uses().filter(|used| may_wait(*used, today)).collect()
    }

    /// Days after `today` before which nothing may be picked; 0 where a label that nobody has read leaves that open.
    #[must_use]
    pub fn pick_in(&self, today: CivilDay) -> Option<u32> {
        let used = self.uses_elsewhere(0, today);
        match picking_day(&used) {
            Some(day) => u32::try_from(day.days_since(today)).ok().filter(|days| *days > 0),
            None => (!used.is_empty()).then_some(0),
        }
    }

    /// What was used of products outside the programme of this number, as far as its label may still keep the crop from being picked.
    #[must_use]
    pub fn uses_elsewhere(&self, id: u64, today: CivilDay) -> Vec<Application> {
        let others = self.programmes.iter().filter(|programme| programme.id != id);
        let used = others.flat_map(PestRecord::uses).filter(|used| may_wait(*used, today));
        used.chain(self.uses_ended(today)).collect()
    }
}
