//! The one state behind all screens.

use super::answers::{GroupAnswer, Shown, answers};
use super::feed_answers::{FeedAnswer, assumed_each};
use super::moved::Stood;
use super::pest_state::PestState;
use super::rest::Rest;
use super::route::Route;
use super::share_state::ShareState;
use crate::almanac::{CivilDay, Weather, WeatherError};
use crate::notebook::{ButtRecord, Entry, Field, GroupDay, GroupRecord, Notebook, OpenError, Start, joined};
use crate::quantity::Units;
use crate::water::{Handed, PlantSize, WaterError, Wilting};

/// Everything that any screen shows.
pub struct Model {
    /// Everything that is kept.
    pub notebook: Notebook,
    /// This morning.
    pub today: CivilDay,
    /// The screen that is shown.
    pub route: Route,
    /// The day whose page is being changed.
    pub changed_day: Option<CivilDay>,
    /// What stands in the field of the water given on that day.
    pub given: Entry,
    /// A copy from a file that may be taken over.
    pub offered: Option<Notebook>,
    /// Why a file is no copy.
    pub refused_copy: Option<&'static str>,
    /// The notebook before and after a copy was taken over, as long as that can be undone.
    pub before_copy: Option<(Notebook, Notebook)>,
    /// What was noted of a group on a day before it was taken out, as long as that can be undone.
    pub taken_out: Option<(CivilDay, GroupDay)>,
    /// What stood there of other days, with the group's number, and could not be read.
    pub(super) unread: Vec<(CivilDay, u32, Entry)>,
    /// The days of which no watering was noted when this day began; they stay while they are being told.
    pub missed: Vec<CivilDay>,
    /// The numbers of the groups that one press noted as watered this morning, as long as that can be undone.
    pub noted_at_once: Vec<u32>,
    /// The butt as it was before it was noted as filled up, as long as that can be taken back.
    pub butt_before: Option<ButtRecord>,
    /// How each group stood when this day began.
    pub stood: Vec<Stood>,
    /// What a group learnt from and was handed before that was forgotten, by its number, as long as that can be undone.
    pub forgotten: Option<(u32, Option<CivilDay>, Option<Handed>)>,
    /// Groups that were stopped today by one tap, by their numbers, with what was told of that before.
    pub stopped: Vec<(u32, Entry)>,
    /// How the plants wilt, as told just now.
    pub wilting: Option<Wilting>,
    /// Position of the group that is looked at.
    pub selected: usize,
    /// The group that was removed last, as long as it can be put back.
    pub removed: Option<GroupRecord>,
    /// Why the kept notebook was not opened, if it was not.
    pub trouble: Option<OpenError>,
    /// Whether the last attempt to keep the notebook failed.
    pub not_kept: bool,
    /// What is shared, and what came by a link.
    pub share: ShareState,
    /// The rest of the program, once it is here.
    pub rest: Option<&'static Rest>,
    /// Whether it was asked for in vain.
    pub rest_is_missing: bool,
    /// Pest repeats.
    pub pests: PestState,
    /// This morning's answers, one for each group; worked out anew after every change.
    pub answers: Vec<GroupAnswer>,
    /// The answer of Feed mix; worked out anew while that is looked at.
    pub feed: FeedAnswer,
}

impl Model {
    /// What a visit starts with, before any answer.
    pub fn new(start: Start, today: CivilDay, route: Route) -> Self {
        Self {
            notebook: start.notebook,
            today,
            route,
            changed_day: None,
            given: Entry::default(),
            offered: None,
            refused_copy: None,
            before_copy: None,
            taken_out: None,
            unread: Vec::new(),
            noted_at_once: Vec::new(),
            missed: Vec::new(),
            butt_before: None,
            stood: Vec::new(),
            forgotten: None,
            stopped: Vec::new(),
            wilting: None,
            selected: 0,
            removed: None,
            trouble: start.trouble,
            not_kept: start.refused,
            share: ShareState::default(),
            rest: None,
            rest_is_missing: false,
            pests: PestState::begun(),
            answers: Vec::new(),
            feed: FeedAnswer::default(),
        }
    }

    /// Turns to the page of this day.
    pub fn turn_to(&mut self, today: CivilDay) {
        let today = self.share.turn_to(&mut self.notebook, today);
        if let Some(removed) = self.removed.as_mut().filter(|_| self.today != today) {
            removed.leave_readings();
        }
        self.today = today;
        self.look_at_notebook();
        self.noted_at_once.clear();
        self.butt_before = None;
        self.forgotten = None;
        self.stopped.clear();
        self.wilting = None;
        self.pests.forgotten = None;
    }

    /// What follows from the notebook as it was when this day began, or came to be at once.
    pub fn look_at_notebook(&mut self) {
        self.missed = self.notebook.missed_days(self.today);
        self.look_where_they_stand();
        self.taken_out = None;
    }

    /// Undoes what was taken over at once, by the notebook before and after it. What was noted since stays.
    pub fn take_back(&mut self, (before, after): (Notebook, Notebook)) {
        let waits_stay = self.notebook.waits != after.waits;
        let programme = self.programme().id;
        self.notebook = joined(&after, &self.notebook, &before);
        if !waits_stay {
            // Joined they would be the later of both.
            self.notebook.waits = before.waits;
        }
        self.follow_programme(programme);
        self.look_at_notebook();
    }

    /// The units typed and read.
    pub const fn units(&self) -> Units {
        self.notebook.units
    }

    /// The group that is looked at.
    pub fn group(&self) -> Option<&GroupRecord> {
        self.notebook.groups.get(self.selected)
    }

    /// The group that is looked at, to change.
    pub fn group_mut(&mut self) -> Option<&mut GroupRecord> {
        self.notebook.groups.get_mut(self.selected)
    }

    /// Whether there is a choice of groups.
    pub const fn has_several(&self) -> bool {
        self.notebook.groups.len() > 1
    }

    /// Yesterday's weather as used, unless it cannot have been so.
    pub fn weather(&self) -> Option<Weather> {
        self.notebook.weather(self.today).ok()
    }

    /// The answer for the group that is looked at.
    pub fn answer(&self) -> Option<&GroupAnswer> {
        self.answers.get(self.selected)
    }

    /// The last answer that could be worked out for the group that is looked at.
    pub fn shown(&self) -> Option<&Shown> {
        self.answer()?.shown.as_ref()
    }

    /// What stands in for a field while nothing is entered, in SI.
    pub fn assumed(&self, field: Field) -> Option<f64> {
        if field == Field::Given {
            return self.assumed_given();
        }
        if field == Field::PestMean {
            return Some(self.pests.week_mean.round());
        }
        let is_grown = self.entry(field).is_some_and(Entry::is_of_earlier_day);
        let grown = self.size().filter(|_| is_grown).map(PlantSize::settled);
        match field {
            Field::Height => grown.map(|(height, _)| height),
            Field::Trusses => grown.map(|(_, trusses)| trusses),
            Field::FeedEach => {
                let water = self.shown().map(|shown| shown.each.volume.litres());
                let usual = self.notebook.assumed(self.selected, field, self.today);
                usual.map(|usual| assumed_each(water, usual))
            }
            _ => None,
        }
        .or_else(|| self.notebook.assumed(self.selected, field, self.today))
    }

    /// The size of the plants that are looked at, as it has become.
    pub fn size(&self) -> Option<PlantSize> {
        let answer = self.answer().filter(|answer| answer.error.is_none());
        let grown = answer.and_then(|answer| answer.shown.as_ref()).map(|shown| shown.season.size);
        grown.or_else(|| self.group().map(|group| group.group().size))
    }

    /// Notes that the size of the plants is looked at today, when that is what a field tells.
    fn look_at_size(&mut self, field: Field) {
        let (today, size) = (self.today, self.size());
        if matches!(field, Field::Height | Field::Trusses)
            && let (Some(size), Some(group)) = (size, self.group_mut())
        {
            group.look(today, size);
        }
    }

    /// The entry behind a field.
    pub fn entry(&self, field: Field) -> Option<&Entry> {
        if field == Field::Given {
            return Some(&self.given);
        }
        self.pest_entry(field).or_else(|| self.notebook.entry(self.selected, field))
    }

    /// Turns to other units, with what can still be put back.
    pub fn change_units(&mut self, to: Units) {
        let from = self.notebook.units;
        self.notebook.change_units(to);
        if let Some(group) = &mut self.removed {
            group.change_units(from, to);
        }
        if let Some(butt) = &mut self.butt_before {
            butt.change_units(from, to);
        }
        if let Some(programme) = &mut self.pests.ended {
            programme.change_units(from, to);
        }
        for (_, height) in &mut self.stopped {
            height.change_units(Field::StoppedAt, from, to);
        }
    }

    /// What is wrong with a field: its own text, or its quarrel with another.
    pub fn error(&self, field: Field) -> Option<String> {
        let units = self.units();
        if let Some(error) = self.entry(field)?.error(field, units) {
            return Some(error.to_string());
        }
        if field == Field::ButtLevel {
            return self.notebook.butt.overfull(units);
        }
        let Some(WaterError::Weather(quarrel)) = &self.answer()?.error else {
            return None;
        };
        let concerned = match quarrel {
            WeatherError::CoolestAboveWarmest { .. } => Field::Coolest,
            WeatherError::SunBeyondDaylight { .. } => Field::SunshineHours,
            WeatherError::OutOfRange(_) | WeatherError::SunlessDay { .. } => return None,
        };
        (concerned == field).then(|| quarrel.sentence(units))
    }

    /// Takes typed text for a field; for the can in the measure that was chosen or typed before. Tells whether that was put behind it.
    pub fn type_text(&mut self, field: Field, text: &str) -> bool {
        let units = self.units();
        self.look_at_size(field);
        if field == Field::Given {
            self.given.type_text(field, units, text);
            self.note_given();
        } else if let Some(entry) = self.pest_entry_mut(field) {
            entry.type_text(field, units, text);
        } else if let Some(entry) = self.notebook.entry_mut(self.selected, field) {
            let is_can = field == Field::Can;
            let has_measure = is_can && entry.retype_text(field, units, text);
            if !is_can {
                entry.type_text(field, units, text);
            }
            self.told(field);
            return has_measure;
        }
        false
    }

    /// Whether no label was typed, so that [`ASSUMED_LABEL`](crate::notebook::ASSUMED_LABEL) stands in.
    pub fn guesses_label(&self) -> bool {
        self.notebook.feed.bottle().label.text().trim().is_empty()
    }

    /// Steps a field up or down from what stands there or is assumed.
    pub fn step(&mut self, field: Field, steps: i32) {
        let units = self.units();
        let assumed = self.assumed(field).unwrap_or_else(|| field.middle());
        self.look_at_size(field);
        if field == Field::Given {
            self.given.step(field, units, assumed, steps);
            self.note_given();
        } else if let Some(entry) = self.pest_entry_mut(field) {
            entry.step(field, units, assumed, steps);
        } else if let Some(entry) = self.notebook.entry_mut(self.selected, field) {
            entry.step(field, units, assumed, steps);
            self.told(field);
        }
    }

    /// Notes on which day a field was told. What one tap had noted there has no way back any more.
    fn told(&mut self, field: Field) {
        self.notebook.told(field, self.today);
        if ButtRecord::FIELDS.contains(&field) {
            self.butt_before = None;
        }
        if field == Field::StoppedAt {
            self.stopped.clear();
        }
    }

    /// Works out the first group's answer, ahead of all others.
    pub fn work_out_first(&mut self) {
        self.answers = answers(&self.notebook, 1, self.today, Vec::new());
    }

    /// Works the answers out anew. Where that cannot be done the earlier one stays.
    pub fn work_out(&mut self) {
        let before = std::mem::take(&mut self.answers);
        self.answers = answers(&self.notebook, usize::MAX, self.today, before);
        if let Some(rest) = self.rest {
            (rest.work_out)(self);
        }
    }
}
