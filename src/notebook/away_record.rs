use super::lines::{Lines, Page};
use super::{DayPage, Entry, Field, Notebook};
use crate::almanac::{CivilDay, Sky, Sun, Yesterday, usual_temperatures};
use crate::quantity::Units;
use crate::water::{Absence, Outlook};

/// Days away until told (choice: a week).
pub(super) const ASSUMED_DAYS_AWAY: f64 = 7.0;
/// Days back to which a reading still tells of the days after it (choice: a week).
const READ_WITHIN: i32 = 7;
/// The words of the first day away and of the sky that is expected.
const FROM: &str = "away-from";
const SKY: &str = "away-sky";

/// Days without anyone at home, as the grower entered them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AwayRecord {
    /// How many.
    pub days: Entry,
    /// The first of them; until told it is tomorrow.
    pub from: Option<CivilDay>,
    /// What they are expected to be like; as usual for the season until told.
    pub sky: Option<Sky>,
}

impl AwayRecord {
    /// The absence with what is assumed. Days that no absence can have are seen to by the field.
    #[must_use]
    pub fn absence(&self, today: CivilDay) -> Absence {
        Absence {
            first: self.from.unwrap_or_else(|| today.tomorrow()),
            days: whole(self.days.value().unwrap_or(ASSUMED_DAYS_AWAY)),
            outlook: self.sky.map(Outlook::under).unwrap_or_default(),
        }
    }

    /// The absence, as long as it lasts.
    #[must_use]
    pub fn now(&self, today: CivilDay) -> Option<Absence> {
        let absence = self.absence(today);
        (self.days.value().is_some() && absence.first <= today && !self.is_over(today)).then_some(absence)
    }

    /// Whether the last day of an absence with a first day has gone by.
    fn is_over(&self, today: CivilDay) -> bool {
        let Absence { first, days, .. } = self.absence(today);
        first.days_later(i32::try_from(days).unwrap_or(i32::MAX)) <= today
    }

    /// Holds on to the first day once the grower plans an absence. One that has begun and is taken back leaves no first day.
    pub(super) fn fix(&mut self, today: CivilDay) {
        if self.days.value().is_some() {
            self.from = self.from.or_else(|| Some(today.tomorrow()));
        } else {
            self.from = self.from.filter(|from| *from > today);
        }
    }

    /// A new morning: an absence that is over is forgotten.
    pub(super) fn turn_to(&mut self, today: CivilDay) {
        if self.from.is_some() && self.is_over(today) {
            *self = Self::default();
        }
    }

    pub(super) fn put_into(&self, lines: &mut Lines, units: Units) {
        lines.put_entry(Field::DaysAway, units, &self.days);
        lines.put_day(FROM, self.from);
        lines.put_told(SKY, self.sky);
    }

    pub(super) fn from_page(page: &mut Page, units: Units) -> Self {
        Self {
            days: page.entry(Field::DaysAway, units),
            from: page.day(FROM),
            sky: page.told(SKY),
        }
    }
}

/// Days are kept whole by their field.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a float cast saturates")]
const fn whole(days: f64) -> u32 {
    days as u32
}

impl Notebook {
    /// The last day before `day`, a week back at most, of which both temperatures were read, with what was told of it.
    #[must_use]
    pub fn last_read(&self, day: CivilDay) -> Option<(CivilDay, Yesterday)> {
        let is_late = |page: &&DayPage| page.day < day && day.days_since(page.day) <= READ_WITHIN;
        let mut pages = self.days.iter().rev().filter(is_late);
        pages.find_map(|page| {
            let told = page.weather.filter(|told| told.warmest.is_some() && told.coolest.is_some())?;
            Some((page.day, told))
        })
    }

    /// What the last readings say of days to come where the usual temperatures are a far guess: the day that was read, and its
    /// temperatures; this morning's are yesterday's.
    #[must_use]
    pub fn read_for_ahead(&self, today: CivilDay) -> Option<(CivilDay, Yesterday)> {
        let this_morning = self.morning.yesterday();
        let is_read = self.morning.day == Some(today) && this_morning.warmest.is_some() && this_morning.coolest.is_some();
        let read = || {
            let this_morning = is_read.then(|| (today.yesterday(), this_morning));
            this_morning.or_else(|| self.last_read(today))
        };
        usual_temperatures(self.place(), today).far_guess.then(read).flatten()
    }

    /// The days away, as warm as the last readings where the usual temperatures are a far guess.
    #[must_use]
    pub fn absence(&self, today: CivilDay) -> Absence {
        let absence = self.away.absence(today);
        let Some((_, read)) = self.read_for_ahead(today) else {
            return absence;
        };
        let outlook = Outlook::Like(Yesterday {
            sun: self.away.sky.map(Sun::Word),
            warmest: read.warmest,
            coolest: read.coolest,
            thermometer: read.thermometer,
            ..Yesterday::default()
        });
        Absence { outlook, ..absence }
    }
}
