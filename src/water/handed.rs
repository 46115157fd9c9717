use super::Thirst;
use super::belief::Belief;
use crate::almanac::CivilDay;

/// What a group's past comes to on the morning before this one, after its readings and before its water. From this, and from
/// what is told of the days since, another notebook comes to the same doses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Handed {
    /// The day: yesterday when it was handed over.
    pub day: CivilDay,
    /// What was missing from full compost, litres, 0 and up.
    pub deficit: f64,
    /// Standard deviation of that, litres, 0 and up.
    pub spread: f64,
    /// What the plants taught.
    pub thirst: Thirst,
    /// How far this grower's borders of dry and sodden lie off, as a share of the easy water, −0.15 to 0.15.
    pub off: f64,
    /// Poured for each plant on that day, litres.
    pub given: f64,
    /// Standard deviation of that, litres; none where it was noted.
    pub pour_spread: f64,
    /// Equal waterings that it came in, 1 to 24.
    pub pours: u32,
    /// Whether each went on in parts with pauses.
    pub in_parts: bool,
    /// Who waters them from then on; without it they are taken as any plants are.
    pub stay: Option<Stay>,
}

/// A stay with whoever waters while their grower is away.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stay {
    /// The first day away, on which all is filled: to its evening their grower waters as is asked, where nothing is noted. From then
    /// on nothing is poured but what is noted.
    pub from: CivilDay,
    /// The day on which whoever waters kept them: from then on they are taken as any plants are.
    pub kept_on: Option<CivilDay>,
}

impl Stay {
    /// Whether their grower still waters on a day; nothing when the stay is over.
    pub(super) fn is_watered_on(&self, day: CivilDay) -> Option<bool> {
        let is_over = self.kept_on.is_some_and(|kept| kept <= day);
        (!is_over).then_some(day <= self.from)
    }
}

impl Handed {
    /// What is believed of the deficit.
    pub(super) const fn belief(&self, astray: f64) -> Belief {
        Belief {
            deficit: self.deficit,
            spread: self.spread,
            astray,
        }
    }
}
