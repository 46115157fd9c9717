use super::belief::Readings;
use super::{Care, Group, Handed, Place, Placement, PlantSize, carry_back, carry_forward, usual_mean};
use crate::almanac::{CivilDay, Latitude, Yesterday};

/// Days that are looked back on at most (limit).
const MOST_DAYS: i32 = 366;
/// Days without a word after which another season has begun: what was learnt was of other plants (choice).
pub const WINTER: i32 = 90;

/// Waterings in a day that are believed (limit).
pub(super) const MOST_NOTED: u32 = 24;

/// What the grower keeps of one civil day for one group. Everything but the day may be missing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DayRecord {
    /// The day.
    pub day: CivilDay,
    /// What it was like; told on the morning after.
    pub weather: Option<Yesterday>,
    /// Poured on it for each plant, litres; nought when it is known that nothing was.
    pub given: Option<f64>,
    /// Equal waterings that it came in, 1 to 24; as many as are advised when missing.
    pub waterings: Option<u32>,
    /// Whether each went on in parts with pauses.
    pub in_parts: bool,
    /// What was seen of the compost on its morning, before pouring. A drip test counts as poured.
    pub readings: Readings,
    /// Where the plants stood and in what until this morning, when they were moved or potted on.
    pub before: Option<Placement>,
}

impl DayRecord {
    /// Whether anything was written down of the day itself.
    pub(super) fn is_told(&self) -> bool {
        self.weather.is_some() || self.tells_of_water()
    }

    /// Whether anything was written down of its water: the sky alone is told by whoever was not there as well.
    pub(super) fn tells_of_water(&self) -> bool {
        self.given.is_some() || self.readings.count() > 0
    }
}

/// Everything that one group's water is worked out from.
#[derive(Clone, Copy, Debug)]
pub struct Records<'a> {
    /// The plants as they stand now, as large as on the day that they were looked at.
    pub group: &'a Group,
    /// The day on which their size was looked at. Without it they do not grow.
    pub looked: Option<CivilDay>,
    /// Height at which they are stopped, m.
    pub stopped_at: Option<f64>,
    /// One for each day of which something is known, in any order; of two for one day the later in the list counts.
    pub days: &'a [DayRecord],
    /// Readings of earlier days teach nothing: what was learnt until then was put back. Plants that were handed over go on learning only
    /// with such a day, for whoever waters comes to the owner's dose without.
    pub learn_from: Option<CivilDay>,
    /// What the risks need to know.
    pub care: Care,
    /// What another notebook handed over: the count goes on from its day, and earlier records are passed over. After a winter it is of
    /// other plants.
    pub handed: Option<Handed>,
}

impl<'a> Records<'a> {
    /// Nothing but the plants: the first morning.
    #[must_use]
    pub const fn new(group: &'a Group) -> Self {
        Self {
            group,
            looked: None,
            stopped_at: None,
            days: &[],
            learn_from: None,
            care: Care {
                feeds_always: false,
                ripening: false,
            },
            handed: None,
        }
    }

    /// Whether the readings of a day teach something.
    pub(super) fn learns_on(&self, day: CivilDay) -> bool {
        self.learn_from.is_none_or(|from| from <= day)
    }

    /// The records of this season by day, up to today's: the first of them told, the days without one empty.
    pub(super) fn by_day(&self, today: CivilDay) -> Vec<Option<&'a DayRecord>> {
        let age = |record: &DayRecord| usize::try_from(today.days_since(record.day)).ok();
        let told = self
            .days
            .iter()
            .filter(|record| record.is_told() && today.days_since(record.day) <= MOST_DAYS);
        let since = self
            .handed
            .map(|handed| today.days_since(handed.day))
            .filter(|since| *since <= MOST_DAYS);
        let handed = since.and_then(|since| usize::try_from(since).ok());
        let oldest = told.filter_map(age).max().max(handed).unwrap_or(0);
        let mut by_age = vec![None; oldest + 1];
        for record in self.days {
            if let Some(place) = age(record).and_then(|age| by_age.get_mut(age)) {
                *place = Some(record);
            }
        }
        let (mut kept, mut silent) = (1, 0);
        for (age, record) in by_age.iter().enumerate() {
            silent += 1;
            if silent > WINTER {
                break;
            }
            if record.is_some_and(DayRecord::is_told) || handed == Some(age) {
                (kept, silent) = (age + 1, 0);
            }
            if handed == Some(age) {
                break;
            }
        }
        by_age.truncate(kept);
        by_age.reverse();
        by_age
    }

    /// What was handed over, if the days of this season begin with it.
    pub(super) fn handed_with(&self, by_day: &[Option<&DayRecord>], today: CivilDay) -> Option<Handed> {
        let since = |handed: &Handed| usize::try_from(today.days_since(handed.day)).ok();
        self.handed
            .filter(|handed| since(handed).is_some_and(|since| since + 1 == by_day.len()))
    }

    /// Where the plants stood on a day and in what: as before the first move after it, or as now.
    fn placement_on(&self, day: CivilDay) -> Placement {
        let last_of = |moved| self.days.iter().rev().find(|record| record.day == moved);
        let moves = self.days.iter().filter(|record| record.day > day && record.before.is_some());
        let moves = moves.filter_map(|record| Some((record.day, last_of(record.day)?.before?)));
        let next = moves.min_by_key(|(moved, _)| *moved);
        next.map_or_else(|| self.group.placement(), |(_, before)| before)
    }

    /// The plants on the morning of a day, and whether their size is only an estimate.
    pub(super) fn plants_on(&self, day: CivilDay, latitude: Latitude) -> (Group, bool) {
        let placement = self.placement_on(day);
        let (size, estimated) = match self.looked {
            Some(since) => self.grown(self.group.size, placement.place, since, day, latitude),
            None => (self.group.size, false),
        };
        let plants = self.group.placed(&placement);
        (Group { size, ..plants }, estimated)
    }

    /// A size on another day, by the usual temperatures, and whether it differs.
    fn grown(&self, size: PlantSize, place: Place, from: CivilDay, to: CivilDay, latitude: Latitude) -> (PlantSize, bool) {
        let mean = |day| usual_mean(place, latitude, day);
        if from <= to {
            let carried = carry_forward(size, from, to, self.stopped_at, &mean);
            (carried.size, carried.estimated)
        } else {
            (carry_back(size, from, to, &mean), true)
        }
    }

    /// Takes the plants from one morning to the next: looked at, or grown by the day's own temperature, and where they stand then.
    pub(super) fn next_morning(&self, plants: &mut Group, estimated: &mut bool, morning: CivilDay, mean_celsius: f64) {
        let mut size = plants.size;
        if self.looked == Some(morning) {
            size = self.group.size;
            *estimated = false;
        } else if self.looked.is_some() {
            let carried = carry_forward(size, morning.yesterday(), morning, self.stopped_at, &|_| mean_celsius);
            size = carried.size;
            *estimated |= carried.estimated;
        }
        *plants = Group {
            size,
            ..plants.placed(&self.placement_on(morning))
        };
    }
}
