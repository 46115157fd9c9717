use super::{Back, Conflict, Control, Curve, Introduction, Shut};
use crate::almanac::CivilDay;
use crate::working::Working;

/// Where a visit to the plants stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Done.
    Done,
    /// Left out.
    Skipped,
    /// To come.
    Ahead,
}

/// One day of a programme.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Visit {
    /// Its day.
    pub day: CivilDay,
    /// With what.
    pub control: Control,
    /// The number of the product, where it is one; else 0.
    pub product: u8,
    /// Whether it is done.
    pub standing: Standing,
}

/// A date with the day before which, or until which, it may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LikelyDay {
    /// The date.
    pub central: CivilDay,
    /// Its other end: early for hatching, late for adults.
    pub other: CivilDay,
}

/// Days between two uses on which the labels let the crop be picked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Picking {
    /// How many uses of this programme, done or to come, are before it.
    pub uses: usize,
    /// Its first day.
    pub from: CivilDay,
    /// The day of the use to come that ends it.
    pub until: CivilDay,
}

/// A programme worked out.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    /// Day 0: the first treatment, done or to come.
    pub start: CivilDay,
    /// What is repeated, which is a physical control where the label shuts the other out.
    pub control: Control,
    /// Why the label gives no date, if it was asked and does not.
    pub shut: Option<Shut>,
    /// All visits, by day.
    pub visits: Vec<Visit>,
    /// When the eggs of day 0 have hatched, and the day from which they may have.
    pub hatched: Option<LikelyDay>,
    /// When the last egg of day 0 is an adult, and by when 95 of 100 are.
    pub last_adult: Option<LikelyDay>,
    /// Whether the cycle stalls in the cold.
    pub stalls: bool,
    /// Whether spider mites hide for the winter before the programme is over.
    pub hides: bool,
    /// When the living control of the programme may be brought in.
    pub introduction: Option<Introduction>,
    /// The day from which the labels let the crop be picked, after what was used so far.
    pub pick_now: Option<CivilDay>,
    /// The same once the next has been used as well.
    pub pick_after_next: Option<CivilDay>,
    /// The same after the last.
    pub pick_after_last: Option<CivilDay>,
    /// When the crop may be picked before each use to come, if all before it is known; none where the wait takes all the days between.
    pub pick_between: Vec<Picking>,
    /// What the labels and the pest disagree about, each with the number of the product whose label it is.
    pub conflicts: Vec<(u8, Conflict)>,
    /// The numbers to be expected, where a life is known.
    pub curve: Option<Curve>,
    /// When there will be as many again as on day 0.
    pub back: Option<Back>,
    /// How the dates were reached.
    pub working: Working,
}

impl Outline {
    /// Whether the labels of what was used so far let the crop be picked on a day.
    #[must_use]
    pub fn may_pick(&self, day: CivilDay) -> bool {
        let is_unknown = self.conflicts.iter().any(|(_, conflict)| *conflict == Conflict::PickingUnknown);
        !is_unknown && self.pick_now.is_none_or(|from| from <= day)
    }

    /// The next visit.
    #[must_use]
    pub fn next(&self) -> Option<&Visit> {
        self.visits.iter().find(|visit| visit.standing == Standing::Ahead)
    }

    /// The last visit that is planned.
    #[must_use]
    pub fn last(&self) -> Option<&Visit> {
        self.visits.iter().rev().find(|visit| visit.standing == Standing::Ahead)
    }

    /// How many are done.
    #[must_use]
    pub fn done(&self) -> usize {
        self.visits.iter().filter(|visit| visit.standing == Standing::Done).count()
    }

    /// How many there are without those that were left out.
    #[must_use]
    pub fn treatments(&self) -> usize {
        self.visits.iter().filter(|visit| visit.standing != Standing::Skipped).count()
    }
}
