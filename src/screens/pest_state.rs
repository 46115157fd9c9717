//! What Pest repeats shows: the programme that is looked at, worked out.

use super::model::Model;
use super::route::Route;
use crate::almanac::{CivilDay, Thermometer};
use crate::browser::milliseconds;
use crate::notebook::{Entry, Field, PestRecord};
use crate::pest::{Advice, BestPlan, DayReading, GlassOffset, Outline, Search, Warmth, advice, introduction};
use crate::water::Place;

/// What is looked at on Pest repeats, and its answer.
#[derive(Default)]
pub struct PestState {
    /// Position of the programme.
    pub selected: usize,
    /// The programme that was ended last, as long as it can be put back.
    pub ended: Option<PestRecord>,
    /// What is shown before any programme is begun.
    blank: PestRecord,
    /// What stands in the field of a count.
    pub count: Entry,
    /// The programme worked out.
    pub outline: Option<Outline>,
    /// What is to be minded.
    pub advice: Vec<Advice>,
    /// Usual mean of the coming week, or what was told, °C.
    pub week_mean: f64,
    /// When a living control may come in.
    pub introduced: Option<CivilDay>,
    /// The search for the best plan, while it goes on.
    pub search: Option<Search>,
    /// The best plan, once found, for as long as nothing changes.
    pub found: Option<BestPlan>,
    /// Share of today's numbers that a best plan keeps to, in tenths.
    pub tenths: u8,
    /// Counts how often the answer has changed.
    pub version: u32,
    /// What was worked out last.
    of: Option<(PestRecord, CivilDay, Vec<DayReading>, bool)>,
}

impl PestState {
    /// Before anything is looked at: a best plan keeps to today's numbers.
    pub fn begun() -> Self {
        Self {
            tenths: 10,
            ..Self::default()
        }
    }
}

impl Model {
    /// The programme that is looked at.
    pub fn programme(&self) -> &PestRecord {
        self.notebook.programmes.get(self.pests.selected).unwrap_or(&self.pests.blank)
    }

    /// The same, to change: with the first change a programme is begun.
    pub fn programme_mut(&mut self) -> &mut PestRecord {
        if self.notebook.programmes.get(self.pests.selected).is_none() {
            self.begin_programme();
        }
        let blank = &mut self.pests.blank;
        self.notebook.programmes.get_mut(self.pests.selected).unwrap_or(blank)
    }

    /// Begins another programme and looks at it.
    pub fn begin_programme(&mut self) {
        let programmes = &mut self.notebook.programmes;
        let last = programmes.last().map_or(0, |programme| programme.id);
        self.pests.selected = programmes.len();
        programmes.push(PestRecord {
            id: milliseconds().max(last + 1),
            ..PestRecord::default()
        });
    }

    /// Ends the programme that is looked at.
    pub fn end_programme(&mut self) {
        let at = self.pests.selected;
        if at < self.notebook.programmes.len() {
            self.pests.ended = Some(self.notebook.programmes.remove(at));
        }
        self.pests.selected = at.saturating_sub(1);
    }

    /// Puts the programme that was ended last back where it stood among the others, and looks at it.
    pub fn restore_programme(&mut self) {
        if let Some(ended) = self.pests.ended.take() {
            let programmes = &mut self.notebook.programmes;
            let at = programmes.iter().take_while(|programme| programme.id < ended.id).count();
            programmes.insert(at, ended);
            self.pests.selected = at;
        }
    }

    /// The entry of a field on Pest repeats.
    pub fn pest_entry(&self, field: Field) -> Option<&Entry> {
        if field == Field::PestCount {
            return Some(&self.pests.count);
        }
        self.programme().entry(field)
    }

    /// The same, to change.
    pub fn pest_entry_mut(&mut self, field: Field) -> Option<&mut Entry> {
        if field == Field::PestCount {
            return Some(&mut self.pests.count);
        }
        if !PestRecord::FIELDS.contains(&field) {
            return None;
        }
        self.programme_mut().entry_mut(field)
    }

    /// Whether the plants stand under a cover.
    pub fn is_covered(&self) -> bool {
        !matches!(self.group().map(|group| group.group().place), Some(Place::Outdoors { .. }))
    }

    /// The days whose extremes are noted, as they were where the plants stand.
    pub fn readings(&self) -> Vec<DayReading> {
        let is_covered = self.is_covered();
        let offset = GlassOffset::default();
        let noted = self.notebook.days.iter().filter_map(|page| Some((page.day, page.weather?)));
        let yesterday = [(self.today.yesterday(), self.notebook.morning.yesterday())];
        let all = noted.chain(yesterday);
        all.filter_map(|(day, told)| {
            let (warmest, coolest) = (told.warmest?, told.coolest?);
            let (by_day, by_night) = match (told.thermometer, is_covered) {
                (Thermometer::Inside, true) | (Thermometer::Outside, false) => (0.0, 0.0),
                (Thermometer::Outside, true) => (offset.by_day, offset.by_night),
                (Thermometer::Inside, false) => return None,
            };
            Some(DayReading {
                day,
                coolest: coolest + by_night,
                warmest: warmest + by_day,
            })
        })
        .collect()
    }

    /// Works the programme out anew, when it is looked at and anything of it has changed.
    pub fn work_out_pests(&mut self) {
        if self.route != Route::PestRepeats {
            return;
        }
        let is_covered = self.is_covered();
        let of = (self.programme().clone(), self.today, self.readings(), is_covered);
        if self.pests.of.as_ref() == Some(&of) {
            return;
        }
        let (record, today, readings, _) = &of;
        let programme = record.programme(self.notebook.place(), is_covered, readings, *today);
        let outline = programme.outline(*today);
        let last_spray = record.deeds.iter().rev().find(|deed| deed.is_done && deed.control.is_sprayed());
        let last_spray = last_spray.map(|deed| (deed.day, deed.control));
        let coming = introduction(record.pest, record.control(), &programme.warmth, last_spray, false, *today);
        let usual = Warmth {
            readings: &[],
            ..programme.warmth
        };
        let pests = &mut self.pests;
        pests.advice = advice(&programme, &outline, *today);
        pests.week_mean = usual.mean_of(*today, 7);
        pests.introduced = coming.and_then(|coming| coming.day);
        pests.outline = Some(outline);
        pests.search = None;
        pests.found = None;
        pests.version = pests.version.wrapping_add(1);
        pests.of = Some(of);
    }

    /// Begins the search for the best plan.
    pub fn begin_search(&mut self) {
        let level = f64::from(self.pests.tenths.max(1)) / 10.0;
        if let Some((record, today, readings, is_covered)) = &self.pests.of {
            let programme = record.programme(self.notebook.place(), *is_covered, readings, *today);
            self.pests.search = programme.aim(*today, level).map(Search::new);
        }
        self.pests.found = None;
        self.pests.version = self.pests.version.wrapping_add(1);
    }

    /// Whether there is anything to search.
    pub fn can_search(&self) -> bool {
        let Some((record, today, readings, is_covered)) = &self.pests.of else {
            return false;
        };
        let programme = record.programme(self.notebook.place(), *is_covered, readings, *today);
        programme.aim(*today, 1.0).is_some()
    }

    /// Goes on with the search; true while there is more to do.
    pub fn search_on(&mut self) -> bool {
        let Some(search) = &mut self.pests.search else {
            return false;
        };
        if !search.work() {
            return true;
        }
        self.pests.found = search.answer().cloned();
        self.pests.search = None;
        self.pests.version = self.pests.version.wrapping_add(1);
        false
    }
}
