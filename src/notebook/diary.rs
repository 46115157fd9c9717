//! What was noted day by day, what the calculation takes of it, and how a new morning begins.

use super::{DayPage, GroupRecord, MorningRecord, Notebook};
use crate::almanac::{CivilDay, Sun};
use crate::water::{DayRecord, Group, LONGEST_GAP, Placement, Readings};

impl Notebook {
    /// Days that are asked about at most when nothing was noted (choice: as far back as the chart).
    pub const MOST_MISSED: usize = 13;

    /// The days since a pour was first noted, the last thirteen at most, of which none is noted for any group, be it of feed alone;
    /// newest first. None from before a silence after which the count of water begins anew.
    #[must_use]
    pub fn missed_days(&self, today: CivilDay) -> Vec<CivilDay> {
        let mut begun = today.yesterday();
        for page in self.days.iter().rev().filter(|page| page.day < today) {
            if begun.days_since(page.day) > LONGEST_GAP {
                break;
            }
            begun = page.day;
        }
        let days = self.days.iter().map(|page| page.day).filter(|&day| day >= begun);
        let noted = days.filter(|&day| self.watered(day).is_some());
        let Some(first) = noted.min() else {
            return Vec::new();
        };
        let days = std::iter::successors(Some(today.yesterday()), |day| Some(day.yesterday()));
        let asked = days.take(Self::MOST_MISSED).take_while(|&day| day > first);
        asked.filter(|&day| self.watered(day).is_none()).collect()
    }

    /// What was noted of a day.
    #[must_use]
    pub fn day(&self, day: CivilDay) -> Option<&DayPage> {
        self.days.get(self.place_of(day).ok()?)
    }

    /// Where the page of a day is, or would be.
    pub(super) fn place_of(&self, day: CivilDay) -> Result<usize, usize> {
        self.days.binary_search_by_key(&day, |page| page.day)
    }

    /// The last day up to `today` on which a group was fed.
    #[must_use]
    pub fn last_fed(&self, id: u32, today: CivilDay) -> Option<CivilDay> {
        let days = self.days.iter().rev().filter(|page| page.day <= today);
        let mut fed = days.filter(|page| page.group(id).is_some_and(|group| group.fed.is_some()));
        fed.next().map(|page| page.day)
    }

    /// Changes what is noted of a day. A page on which nothing is left is taken out.
    pub fn note(&mut self, day: CivilDay, change: impl FnOnce(&mut DayPage)) {
        let index = self.place_of(day).unwrap_or_else(|index| {
            self.days.insert(index, DayPage::of(day));
            index
        });
        if let Some(page) = self.days.get_mut(index) {
            change(page);
            if page.is_empty() {
                self.days.remove(index);
            }
        }
    }

    /// The last move of a group up to a day, with where it stood before.
    #[must_use]
    pub fn last_move(&self, id: u32, today: CivilDay) -> Option<(CivilDay, Placement)> {
        let days = self.days.iter().rev().filter(|page| page.day <= today);
        let mut moves = days.filter_map(|page| Some((page.day, page.group(id)?.before?)));
        moves.next()
    }

    /// A group as the calculation takes it on a day: with what came along when it was potted on.
    #[must_use]
    pub fn plants(&self, record: &GroupRecord, today: CivilDay) -> Group {
        let plants = record.group();
        match self.last_move(record.id, today) {
            Some((day, before)) => plants.moved(day, &before),
            None => plants,
        }
    }

    /// Every day of which something is known for a group. This morning's entries count before what is noted of the same day.
    #[must_use]
    pub fn records(&self, group: &GroupRecord, today: CivilDay) -> Vec<DayRecord> {
        let mut records: Vec<_> = self.days.iter().map(|page| page.record(group.id)).collect();
        // A clock that ran ahead has moved nothing yet.
        for record in records.iter_mut().filter(|record| record.day > today) {
            record.before = None;
        }
        let mut on = |day: CivilDay, change: &dyn Fn(&mut DayRecord)| {
            if let Some(record) = records.iter_mut().find(|record| record.day == day) {
                return change(record);
            }
            let mut record = DayRecord {
                day,
                ..DayRecord::default()
            };
            change(&mut record);
            records.push(record);
        };
        let told = self.morning.yesterday();
        if told.is_told() {
            on(today.yesterday(), &|record| record.weather = Some(told));
        }
        let readings = group.readings();
        if readings != Readings::default() {
            on(today, &|record| record.readings = readings);
        }
        records
    }

    /// Puts this morning's entries on the pages of the days that they belong to.
    fn file_morning(&mut self) {
        let Some(morning) = self.morning.day else {
            return;
        };
        let told = self.morning.yesterday();
        if told.is_told() {
            self.note(morning.yesterday(), |page| page.note_weather(&told));
        }
        for index in 0..self.groups.len() {
            let seen = self.groups.get(index).map(|group| (group.id, group.readings()));
            if let Some((id, readings)) = seen.filter(|(_, readings)| *readings != Readings::default()) {
                self.note(morning, |page| page.note(id, |group| group.see(readings)));
            }
        }
    }

    /// Enters this morning what the pages say of it and of the day before, where nothing is entered: so that what is counted with
    /// can be seen and changed.
    pub(super) fn take_in_readings(&mut self) {
        let Some(morning) = self.morning.day else {
            return;
        };
        let page = self.days.iter().find(|page| page.day == morning);
        for group in self.groups.iter_mut().filter(|group| group.feel.is_none()) {
            group.feel = page.and_then(|page| page.group(group.id)?.feel);
        }
        if !self.morning.yesterday().is_told()
            && let Some(Sun::Word(sky)) = self.day(morning.yesterday()).and_then(|page| page.weather?.sun)
        {
            self.morning.choose_sky(sky);
        }
    }

    /// Turns to the page of `today`: yesterday's entries and squeezes no longer hold on a new morning, and are filed.
    ///
    /// A clock that was set back makes no new morning, unless nothing is entered yet: the entries stay for the first day that it then
    /// shows, and are there when it is put right. On the next day that it shows there is a new morning as on any other.
    pub fn turn_to(&mut self, today: CivilDay) {
        let was_behind = self.clock_behind.take();
        if self.morning.day == Some(today) {
            return;
        }
        let is_behind = self.morning.day.is_some_and(|day| today < day);
        if is_behind && was_behind.is_none_or(|day| day == today) {
            if self.nothing_is_entered() {
                // It ran ahead: what is entered next is of today.
                self.morning.day = Some(today);
            } else {
                self.clock_behind = Some(today);
            }
            return;
        }
        self.file_morning();
        self.sum_up_seasons();
        self.away.turn_to(today);
        if let Some(morning) = self.morning.day {
            self.butt.leave_level(morning, self.units);
            for group in &mut self.groups {
                group.leave_readings();
                group.leave_size(morning, self.units);
            }
        }
        let entered_before_the_day_was_known = self.morning.day.is_none() && self.morning != MorningRecord::default();
        if entered_before_the_day_was_known {
            self.morning.day = Some(today);
        } else {
            self.morning = MorningRecord::on(today, self.morning.thermometer);
        }
    }

    /// Whether this morning's entries are as empty as on a new morning.
    fn nothing_is_entered(&self) -> bool {
        let empty = MorningRecord {
            day: self.morning.day,
            thermometer: self.morning.thermometer,
            ..MorningRecord::default()
        };
        self.morning == empty && self.groups.iter().all(|group| group.readings() == Readings::default())
    }
}
