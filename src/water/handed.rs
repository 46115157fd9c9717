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
    /// The last day on which they are watered as is asked, where nothing is noted: by who handed them over, before going away. From
    /// then on nothing is poured but what is noted. Without it they are taken as any plants are.
    pub watered_to: Option<CivilDay>,
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
