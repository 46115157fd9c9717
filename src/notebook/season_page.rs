use super::day_page::kept;
use super::lines::{ID, Lines, parts};
use super::{DayPage, Notebook};
use crate::almanac::CivilDay;
use crate::quantity::{decimal, parse_number};
use crate::water::{Feel, WINTER};

/// The line that begins the page of a season that is over.
pub(super) const SEASON_PAGE: &str = "page season";
/// The word of its first day; its last is its number.
const FIRST: &str = "first";
/// The words of what is kept of each group; the group's number follows.
const NAME: &str = "name";
const PLANTS: &str = "plants";
const DAYS: &str = "days";
const GIVEN: &str = "given";
const DRY: &str = "dry";
const SODDEN: &str = "sodden";

/// Pages of a newer season after which an older one is summed up (choice: a clock that was set forward for a few days sums up
/// nothing).
const BEGUN: usize = 14;

/// What is kept of one group's season: what was noted, added up.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct GroupSeason {
    /// The group's number.
    pub id: u32,
    /// Its name when the season was summed up.
    pub name: String,
    /// Plants in it then.
    pub plants: u32,
    /// Days on which its water was noted.
    pub days: u32,
    /// Litres poured for each plant, to a thousandth.
    pub given: f64,
    /// Mornings on which its compost felt dry.
    pub dry: u32,
    /// Mornings on which its compost felt sodden.
    pub sodden: u32,
}

/// The place of one of its counts.
type CountOf = fn(&mut GroupSeason) -> &mut u32;

/// A season that is over, summed up from the pages of its days.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SeasonPage {
    /// Its first day.
    pub first: CivilDay,
    /// Its last day.
    pub last: CivilDay,
    /// The groups of which something was noted, by their numbers.
    pub groups: Vec<GroupSeason>,
    /// Lines that a later program wrote; kept as they are.
    pub unknown: Vec<String>,
}

impl SeasonPage {
    /// Sums up the days of a season of a notebook, in order; nothing where there is none.
    fn of(days: &[DayPage], notebook: &Notebook) -> Option<Self> {
        let mut season = Self {
            first: days.first()?.day,
            last: days.last()?.day,
            ..Self::default()
        };
        for noted in days.iter().flat_map(|page| &page.groups) {
            season.note(noted.id, |group| {
                if let Some(litres) = noted.water() {
                    group.days += 1;
                    group.given += litres;
                }
                group.dry += u32::from(noted.feel == Some(Feel::Dry));
                group.sodden += u32::from(noted.feel == Some(Feel::Sodden));
            });
        }
        for group in &mut season.groups {
            group.given = kept(group.given);
            if let Some(record) = notebook.known(group.id) {
                group.name.clone_from(&record.name);
                group.plants = record.count();
            }
        }
        Some(season)
    }

    /// Changes what is kept of a group.
    fn note(&mut self, id: u32, change: impl FnOnce(&mut GroupSeason)) {
        let index = self.groups.partition_point(|group| group.id < id);
        if self.groups.get(index).is_none_or(|group| group.id != id) {
            self.groups.insert(
                index,
                GroupSeason {
                    id,
                    ..GroupSeason::default()
                },
            );
        }
        if let Some(group) = self.groups.get_mut(index) {
            change(group);
        }
    }

    /// Gives what is kept of a group another number.
    pub(super) fn renumber(&mut self, before: u32, after: u32) {
        if let Some(index) = self.groups.iter().position(|group| group.id == before) {
            let group = self.groups.remove(index);
            self.note(after, |kept| *kept = GroupSeason { id: after, ..group });
        }
    }

    pub(super) fn page(&self) -> Lines {
        let mut lines = Lines::begun(SEASON_PAGE);
        lines.put(ID, &self.last.to_string());
        lines.put(FIRST, &self.first.to_string());
        for group in &self.groups {
            let id = group.id.to_string();
            lines.put(&(NAME.to_owned() + &id), &group.name);
            lines.put(&(GIVEN.to_owned() + &id), &decimal(group.given, 3));
            let counts = [(PLANTS, group.plants), (DAYS, group.days), (DRY, group.dry), (SODDEN, group.sodden)];
            for (word, count) in counts {
                lines.put(&(word.to_owned() + &id), &count.to_string());
            }
        }
        lines.lines.extend_from_slice(&self.unknown);
        lines
    }

    /// A season from the lines of its page. What cannot be read is kept as it is.
    pub(super) fn from_lines(last: CivilDay, lines: &[&str]) -> Self {
        let mut season = Self {
            first: last,
            last,
            ..Self::default()
        };
        for line in lines {
            let (word, text) = parts(line);
            if !(word == ID || season.takes(word, text)) {
                season.unknown.push((*line).to_owned());
            }
        }
        season
    }

    /// Takes what a line says. Tells whether it does.
    fn takes(&mut self, word: &str, text: &str) -> bool {
        if let (FIRST, Ok(first)) = (word, text.parse()) {
            self.first = first;
            return true;
        }
        let id = |of: &str| word.strip_prefix(of).and_then(|id| id.parse().ok());
        if let Some(id) = id(NAME) {
            self.note(id, |group| text.clone_into(&mut group.name));
            return true;
        }
        if let (Some(id), Ok(Some(litres))) = (id(GIVEN), parse_number(text)) {
            self.note(id, |group| group.given = litres.max(0.0));
            return true;
        }
        let Ok(count) = text.parse() else { return false };
        let places: [(&str, CountOf); 4] = [
            (PLANTS, |group| &mut group.plants),
            (DAYS, |group| &mut group.days),
            (DRY, |group| &mut group.dry),
            (SODDEN, |group| &mut group.sodden),
        ];
        let place = places.into_iter().find_map(|(of, place)| Some((id(of)?, place)));
        let Some((id, place)) = place else { return false };
        self.note(id, |group| *place(group) = count);
        true
    }
}

impl Notebook {
    /// Sums up the seasons that are over, once another has begun in earnest: this season's water does not need their days. A day
    /// with lines of a later program stays.
    pub(super) fn sum_up_seasons(&mut self) {
        let summed_up = self.seasons.last().map(|season| season.last);
        let begin = self.days.partition_point(|page| Some(page.day) <= summed_up);
        let after_winter = |end: &usize| match self.days.get(end.saturating_sub(1)..=*end) {
            Some([before, after]) => is_winter(before, after),
            _ => false,
        };
        let latest = self.days.len().saturating_sub(BEGUN);
        let Some(end) = (begin..=latest).rev().find(after_winter) else {
            return;
        };
        let over: Vec<_> = self.days.drain(begin..end).collect();
        let seasons = over.chunk_by(|before, after| !is_winter(before, after));
        let seasons: Vec<_> = seasons.filter_map(|days| SeasonPage::of(days, self)).collect();
        self.seasons.extend(seasons);
        self.days
            .splice(begin..begin, over.into_iter().filter(|page| !page.unknown.is_empty()));
        self.forget_gone();
    }

    /// What was noted of this season up to today, added up; nothing when it has not begun.
    #[must_use]
    pub fn season_so_far(&self, today: CivilDay) -> Option<SeasonPage> {
        let end = self.days.partition_point(|page| page.day <= today);
        let mut seasons = self.days.get(..end)?.chunk_by(|before, after| !is_winter(before, after));
        let days = seasons.next_back()?;
        if is_winter(days.last()?, &DayPage::of(today)) {
            return None;
        }
        SeasonPage::of(days, self)
    }
}

/// Whether another season begins between two pages.
fn is_winter(before: &DayPage, after: &DayPage) -> bool {
    after.day.days_since(before.day) > WINTER
}
