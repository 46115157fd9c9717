//! The group and the past day that are looked at, and what is noted of them.

use super::model::Model;
use crate::almanac::{CivilDay, Sky, Sun, Yesterday};
use crate::notebook::{Entry, Field, GroupDay};

impl Model {
    /// What each plant is taken to have got on the day that is being changed.
    pub(super) fn assumed_given(&self) -> Option<f64> {
        self.given_on(self.changed_day?)
    }

    /// What each plant of the group that is looked at is taken to have got on a day, today's as it is asked for.
    pub(super) fn given_on(&self, day: CivilDay) -> Option<f64> {
        let shown = self.shown()?;
        if day == self.today {
            return Some(shown.each.volume.litres());
        }
        let row = shown.season.days.iter().find(|row| row.day == day)?;
        Some(row.flows.given)
    }

    /// Looks at a group.
    pub fn look_at(&mut self, index: usize) {
        self.turn_page(index, self.changed_day);
    }

    /// Opens the page of a day to change it.
    pub fn open_day(&mut self, day: Option<CivilDay>) {
        self.turn_page(self.selected, day);
    }

    /// Opens the page of a day for a group. Text that could not be read waits until its page is opened again.
    fn turn_page(&mut self, index: usize, day: Option<CivilDay>) {
        let units = self.units();
        let is_unread = self.given.error(Field::Given, units).is_some();
        if let (true, Some((day, id))) = (is_unread, self.changed_page()) {
            self.unread.push((day, id, std::mem::take(&mut self.given)));
        }
        (self.selected, self.changed_day) = (index, day);
        let page = self.changed_page();
        let place = self.unread.iter().position(|(day, id, _)| page == Some((*day, *id)));
        self.given = match place {
            Some(place) => self.unread.swap_remove(place).2,
            None => self.held_given(),
        };
    }

    /// The day that is being changed, with the number of the group.
    fn changed_page(&self) -> Option<(CivilDay, u32)> {
        Some((self.changed_day?, self.group()?.id))
    }

    /// What is noted of the day that is being changed, as if it had been typed.
    fn held_given(&self) -> Entry {
        let noted = self.changed_day.and_then(|day| self.noted_given(day));
        let entry = noted.map(|litres| Entry::holding(Field::Given, self.units(), litres));
        entry.unwrap_or_default()
    }

    /// Litres noted of a day for each plant of the group that is looked at.
    pub fn noted_given(&self, day: CivilDay) -> Option<f64> {
        self.notebook.day(day)?.group(self.group()?.id)?.given
    }

    /// Shows what was noted elsewhere of the day that is being changed: by Watered, by Undo, or in another tab. What was typed
    /// and noted stays as it was typed.
    pub fn follow_noted(&mut self) {
        let noted = self.changed_day.and_then(|day| self.noted_given(day));
        let is_shown = match (self.given.value(), noted) {
            // Noted to a thousandth.
            (Some(shown), Some(noted)) => (shown - noted).abs() < 0.001,
            (shown, noted) => shown == noted,
        };
        if !is_shown {
            self.given = self.held_given();
        }
    }

    /// Notes what a past day was like. The thermometer hung where it hangs now, unless something of the day is noted already.
    pub fn note_sky(&mut self, day: CivilDay, sky: Option<Sky>) {
        let thermometer = self.notebook.morning.thermometer;
        self.notebook.note(day, |page| {
            let told = page.weather.unwrap_or(Yesterday {
                thermometer,
                ..Yesterday::default()
            });
            page.note_weather(&Yesterday {
                sun: sky.map(Sun::Word),
                ..told
            });
        });
    }

    /// Changes what is noted of a day for the group that is looked at.
    pub fn note_of_group(&mut self, day: CivilDay, change: impl FnOnce(&mut GroupDay)) {
        self.taken_out = None;
        if let Some(id) = self.group().map(|group| group.id) {
            self.notebook.note(day, |page| page.note(id, change));
        }
    }

    /// Takes out what is noted of a day for the group that is looked at.
    pub fn take_out(&mut self, day: CivilDay) {
        let mut before = None;
        self.note_of_group(day, |group| {
            let nothing = GroupDay {
                id: group.id,
                ..GroupDay::default()
            };
            before = Some((day, std::mem::replace(group, nothing)));
        });
        self.taken_out = before;
        self.given = Entry::default();
    }

    /// Keeps what stands in the field of the water given.
    pub(super) fn note_given(&mut self) {
        let litres = self.given.value();
        if let Some(day) = self.changed_day {
            self.note_of_group(day, |group| group.given = litres);
        }
    }
}
