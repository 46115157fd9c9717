use super::away_record::ASSUMED_DAYS_AWAY;
use super::day_page::DAY_PAGE;
use super::feed_record::{ASSUMED_A_WEEK, ASSUMED_EACH, FEED_PAGE};
use super::lines::{ID, Lines, PAGE, Page};
use super::pest_record::PEST_PAGE;
use super::season_page::SEASON_PAGE;
use super::{AwayRecord, ButtRecord, DayPage, Entry, FeedRecord, Field, GroupRecord, MorningRecord, PestRecord, SeasonPage, Waits};
use crate::almanac::{
    CivilDay, INSIDE_WARMER_BY_DAY, INSIDE_WARMER_BY_NIGHT, Latitude, STANDARD_LATITUDE, STANDARD_WIND_SPEED, Sun, Weather, WeatherError,
};
use crate::feed::{USUAL_DENSITY, USUAL_FRUIT, USUAL_STOCK};
use crate::quantity::{UnitSystem, Units};
use crate::water::{DayRecord, Group, LONGEST_GAP, Placement, Readings, USUAL_BUTT_LITRES};

/// Size of the can of one who counts in gallons, until told, gallons (common practice, no source).
const ASSUMED_GALLONS: f64 = 2.0;
/// Size of the can of one who counts in litres, until told, litres (common practice, no source).
const ASSUMED_LITRES: f64 = 10.0;

/// The word of the number that the next group gets.
const NEXT_ID: &str = "next-id";
/// The word of the plans that were handed out.
const SHARED: &str = "shared";
/// Plans that are remembered (limit).
const MOST_SHARED: usize = 8;
/// The word of the day that a clock shows that was set back.
const CLOCK_BEHIND: &str = "clock-behind";

/// The plot's own words, shown in the header.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Plot {
    /// Its name, such as the allotment's.
    pub name: String,
    /// Its number or letters, for the badge.
    pub number: String,
}

/// Everything that is kept on the device.
#[derive(Clone, Debug, PartialEq)]
pub struct Notebook {
    /// Whose plot.
    pub plot: Plot,
    /// The units typed and read.
    pub units: Units,
    /// Degrees north, to half a degree, as typed or chosen.
    pub latitude: Entry,
    /// Size of the watering can.
    pub can: Entry,
    /// The water butt.
    pub butt: ButtRecord,
    /// Days without anyone at home.
    pub away: AwayRecord,
    /// The feed and the shelf.
    pub feed: FeedRecord,
    /// The plants. Never empty.
    pub groups: Vec<GroupRecord>,
    /// The number that the next group gets.
    pub next_id: u32,
    /// This morning's entries.
    pub morning: MorningRecord,
    /// What was noted day by day, in order. This morning's entries join it on the next morning.
    pub days: Vec<DayPage>,
    /// The seasons that are over and summed up, in order.
    pub seasons: Vec<SeasonPage>,
    /// Programmes against pests, in the order in which they were begun.
    pub programmes: Vec<PestRecord>,
    /// What is left of programmes that were ended.
    pub waits: Waits,
    /// The clock's own day, while it stands before the day of this morning's entries: somebody has set it back.
    pub clock_behind: Option<CivilDay>,
    /// The checks of the plans that were handed out last, oldest first: lists that come back name them.
    pub shared: Vec<u32>,
    /// Lines of the first page that a later program wrote; kept as they are.
    pub unknown: Vec<String>,
    /// Pages that a later program wrote, each with the line that begins it; kept as they are.
    pub unknown_pages: Vec<Vec<String>>,
}

impl Default for Notebook {
    fn default() -> Self {
        Self {
            plot: Plot::default(),
            units: Units::default(),
            latitude: Entry::default(),
            can: Entry::default(),
            butt: ButtRecord::default(),
            away: AwayRecord::default(),
            feed: FeedRecord::default(),
            groups: vec![GroupRecord::default()],
            next_id: 1,
            morning: MorningRecord::default(),
            days: Vec::new(),
            seasons: Vec::new(),
            programmes: Vec::new(),
            waits: Waits::default(),
            clock_behind: None,
            shared: Vec::new(),
            unknown: Vec::new(),
            unknown_pages: Vec::new(),
        }
    }
}

impl Notebook {
    /// Groups up to which another may be added (limit).
    pub const MOST_GROUPS: usize = 8;
    /// Groups that are opened at most: what several tabs added and what was put back beyond [`Self::MOST_GROUPS`] is not lost (limit).
    const MOST_OPENED: usize = 64;

    /// Where the plot lies: as told, or the standard latitude.
    #[must_use]
    pub fn place(&self) -> Latitude {
        self.latitude
            .value()
            .and_then(|degrees| Latitude::from_degrees_north(degrees).ok())
            .unwrap_or(STANDARD_LATITUDE)
    }

    /// The units in which the can is told.
    #[must_use]
    pub fn can_units(&self) -> Units {
        self.can.units(Field::Can, self.units)
    }

    /// Litres in the can.
    #[must_use]
    pub fn can_litres(&self) -> f64 {
        self.can.value().unwrap_or_else(|| self.assumed_can())
    }

    fn assumed_can(&self) -> f64 {
        let size = match self.units.system {
            UnitSystem::Metric => ASSUMED_LITRES,
            UnitSystem::Imperial | UnitSystem::Us => ASSUMED_GALLONS,
        };
        self.units.can(size).litres()
    }

    /// Yesterday's weather as entered, with its gaps filled.
    ///
    /// # Errors
    /// [`WeatherError`], when yesterday cannot have been so.
    pub fn weather(&self, today: CivilDay) -> Result<Weather, WeatherError> {
        self.morning.yesterday().at(self.place(), today.yesterday())
    }

    /// The entry behind a field; fields of a group are those of the group at `index`.
    #[must_use]
    pub fn entry(&self, index: usize, field: Field) -> Option<&Entry> {
        match field {
            Field::Can => Some(&self.can),
            Field::Latitude => Some(&self.latitude),
            Field::DaysAway => Some(&self.away.days),
            _ => self
                .morning
                .entry(field)
                .or_else(|| self.butt.entry(field))
                .or_else(|| self.feed.entry(field))
                .or_else(|| self.groups.get(index)?.entry(field)),
        }
    }

    /// The entry behind a field, to change.
    pub fn entry_mut(&mut self, index: usize, field: Field) -> Option<&mut Entry> {
        match field {
            Field::Can => Some(&mut self.can),
            Field::Latitude => Some(&mut self.latitude),
            Field::DaysAway => Some(&mut self.away.days),
            _ => self
                .morning
                .entry_mut(field)
                .or_else(|| self.butt.entry_mut(field))
                .or_else(|| self.feed.entry_mut(field))
                .or_else(|| self.groups.get_mut(index)?.entry_mut(field)),
        }
    }

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

    /// What stands in for a field while nothing is entered, in SI; nothing for what is simply not used
    /// then, nor for a butt of which no level was read.
    #[must_use]
    pub fn assumed(&self, index: usize, field: Field, today: CivilDay) -> Option<f64> {
        let weather = || self.weather(today).ok();
        match field {
            Field::Can => Some(self.assumed_can()),
            Field::Latitude => Some(STANDARD_LATITUDE.degrees_north()),
            Field::Warmest => weather().map(|weather| weather.maximum),
            Field::Coolest => weather().map(|weather| weather.minimum),
            Field::SunshineHours => weather().map(|weather| weather.sunshine_hours()),
            Field::Rain | Field::Roof => Some(0.0),
            Field::Wind => Some(STANDARD_WIND_SPEED),
            Field::Humidity
            | Field::PotDrained
            | Field::PotNow
            | Field::Drip
            | Field::StoppedAt
            | Field::Cap
            | Field::Nitrate
            | Field::Ammonium
            | Field::Urea
            | Field::PestMean
            | Field::LeastDays
            | Field::MostUses
            | Field::DaysBeforePicking
            | Field::PestCount => None,
            Field::ButtSize => Some(USUAL_BUTT_LITRES),
            Field::ButtLevel => self.butt_now(today).map(|now| now.butt.level),
            Field::DaysAway => Some(ASSUMED_DAYS_AWAY),
            Field::FeedEach => Some(ASSUMED_EACH),
            Field::FeedsAWeek => Some(ASSUMED_A_WEEK),
            Field::Fruit => Some(USUAL_FRUIT),
            Field::Stock => Some(USUAL_STOCK),
            Field::FeedWeighs => Some(USUAL_DENSITY.value),
            Field::WarmerByDay => Some(INSIDE_WARMER_BY_DAY),
            Field::WarmerByNight => Some(INSIDE_WARMER_BY_NIGHT),
            _ => self.groups.get(index).map(|group| group.assumed(field)),
        }
    }

    /// What was noted of a day.
    #[must_use]
    pub fn day(&self, day: CivilDay) -> Option<&DayPage> {
        self.days.get(self.place_of(day).ok()?)
    }

    /// Where the page of a day is, or would be.
    fn place_of(&self, day: CivilDay) -> Result<usize, usize> {
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

    /// Remembers a plan that is handed out.
    pub fn hand_out(&mut self, check: u32) {
        self.shared.retain(|other| *other != check);
        self.shared.push(check);
        while self.shared.len() > MOST_SHARED {
            self.shared.remove(0);
        }
    }

    /// Adds a group and gives its position, unless the notebook is full.
    pub fn add_group(&mut self, mut group: GroupRecord) -> Option<usize> {
        if self.groups.len() >= Self::MOST_GROUPS {
            return None;
        }
        group.id = self.next_id;
        self.next_id = self.next_id.wrapping_add(1);
        self.groups.push(group);
        Some(self.groups.len() - 1)
    }

    /// Takes a group out and hands it over for undoing, unless it is the last.
    pub fn remove_group(&mut self, index: usize) -> Option<GroupRecord> {
        (self.groups.len() > 1 && index < self.groups.len()).then(|| self.groups.remove(index))
    }

    /// Puts a removed group back where it stood among the others, and gives its position.
    pub fn restore_group(&mut self, mut group: GroupRecord) -> usize {
        if self.groups.iter().any(|other| other.id == group.id) {
            // Another tab has given the number away since.
            group.id = self.next_id;
            self.next_id = self.next_id.wrapping_add(1);
        }
        let index = self.groups.iter().take_while(|other| other.id < group.id).count();
        self.groups.insert(index, group);
        index
    }

    /// Changes the units and prints every number anew; text that makes no number stays as it was typed.
    pub fn change_units(&mut self, to: Units) {
        let from = std::mem::replace(&mut self.units, to);
        self.can.change_units(Field::Can, from, to);
        self.butt.change_units(from, to);
        self.feed.change_units(from, to);
        self.morning.change_units(from, to);
        for programme in &mut self.programmes {
            programme.change_units(from, to);
        }
        for group in &mut self.groups {
            group.change_units(from, to);
        }
    }

    /// The pages to store: the plot with this morning, then one for each group.
    pub(super) fn pages(&self) -> Vec<Lines> {
        let mut first = Lines::default();
        first.put("plot-name", &self.plot.name);
        first.put("plot-number", &self.plot.number);
        first.put_choice("units", self.units.system);
        first.put_choice("temperature-scale", self.units.temperature);
        // Nothing finer than half a degree is kept, whatever was typed.
        let degrees = self.place().degrees_north();
        let is_finer = self.latitude.value().is_some_and(|typed| (typed - degrees).abs() > 0.0);
        let rounded = is_finer.then(|| Entry::holding(Field::Latitude, self.units, degrees));
        first.put_entry(Field::Latitude, self.units, rounded.as_ref().unwrap_or(&self.latitude));
        first.put_entry(Field::Can, self.units, &self.can);
        self.butt.put_into(&mut first, self.units);
        self.away.put_into(&mut first, self.units);
        self.feed.put_into(&mut first, self.units);
        let next = self.next_id.to_string();
        first.put(NEXT_ID, if self.next_id == self.least_next_id() { "" } else { &next });
        self.morning.put_into(&mut first, self.units);
        self.waits.put_into(&mut first);
        first.put_day(CLOCK_BEHIND, self.clock_behind);
        let shared: Vec<_> = self.shared.iter().map(u32::to_string).collect();
        first.put(SHARED, &shared.join(" "));
        first.lines.extend_from_slice(&self.unknown);
        let mut pages = vec![first];
        pages.extend(self.groups.iter().map(|group| group.page(self.units)));
        pages.extend(self.days.iter().map(DayPage::page));
        pages.extend(self.feed.pages(self.units));
        pages.extend(self.programmes.iter().map(|programme| programme.page(self.units)));
        pages.extend(self.seasons.iter().map(SeasonPage::page));
        pages.extend(self.unknown_pages.iter().filter_map(|lines| {
            let (head, lines) = lines.split_first()?;
            Some(Lines {
                head: head.clone(),
                lines: lines.to_vec(),
            })
        }));
        pages
    }

    /// The number after the greatest that a group has.
    fn least_next_id(&self) -> u32 {
        self.groups.iter().fold(0, |next, group| next.max(group.id.wrapping_add(1)))
    }

    /// A notebook from its stored pages, unless there is no first page and no group, or too many. A group without a number of
    /// its own, as older texts have them, gets that of its place.
    pub(super) fn from_pages(pages: Vec<Page>) -> Option<Self> {
        let mut pages = pages.into_iter();
        let mut first = pages.next()?;
        let units = Units {
            system: first.choice("units"),
            temperature: first.choice("temperature-scale"),
        };
        let mut notebook = Self {
            plot: Plot {
                name: first.take("plot-name").to_owned(),
                number: first.take("plot-number").to_owned(),
            },
            units,
            latitude: first.entry(Field::Latitude, units),
            can: first.entry(Field::Can, units),
            butt: ButtRecord::from_page(&mut first, units),
            away: AwayRecord::from_page(&mut first, units),
            feed: FeedRecord::from_page(&mut first, units),
            groups: Vec::new(),
            next_id: 0,
            morning: MorningRecord::from_page(&mut first, units),
            days: Vec::new(),
            seasons: Vec::new(),
            programmes: Vec::new(),
            waits: Waits::from_page(&mut first),
            clock_behind: first.day(CLOCK_BEHIND),
            shared: first.take(SHARED).split(' ').filter_map(|check| check.parse().ok()).collect(),
            unknown: Vec::new(),
            unknown_pages: Vec::new(),
        };
        let mut is_first_feed = true;
        for page in pages {
            if page.head == FEED_PAGE && notebook.feed.take_page(page.clone(), units, is_first_feed) {
                is_first_feed = false;
                continue;
            }
            if page.head == PAGE {
                let place = notebook.least_next_id();
                let id = page.get(ID).parse().unwrap_or(place);
                let is_taken = notebook.groups.iter().any(|other| other.id == id);
                let group = GroupRecord::from_page(if is_taken { place } else { id }, page, units);
                notebook.groups.push(group);
                continue;
            }
            if page.head == PEST_PAGE
                && let Ok(id) = page.get(ID).parse()
                && let Err(index) = notebook.programmes.binary_search_by_key(&id, |programme| programme.id)
            {
                let programme = PestRecord::from_page(id, page, units);
                notebook.programmes.insert(index, programme);
                continue;
            }
            let day = page.get(ID).parse::<CivilDay>().ok();
            let season_at = |last| notebook.seasons.binary_search_by_key(&last, |season| season.last);
            match day.map(|day| (day, page.head, notebook.place_of(day), season_at(day))) {
                Some((day, DAY_PAGE, Err(index), _)) => notebook.days.insert(index, DayPage::from_lines(day, &page.lines)),
                Some((last, SEASON_PAGE, _, Err(index))) => notebook.seasons.insert(index, SeasonPage::from_lines(last, &page.lines)),
                _ => {
                    let lines = std::iter::once(page.head).chain(page.lines);
                    notebook.unknown_pages.push(lines.map(str::to_owned).collect());
                }
            }
        }
        let next_id = first.take(NEXT_ID).parse().unwrap_or_default();
        notebook.next_id = notebook.least_next_id().max(next_id);
        notebook.unknown = first.left();
        let ids: Vec<u32> = notebook.groups.iter().map(|group| group.id).collect();
        notebook.days.iter_mut().for_each(|page| page.feed_each(&ids));
        (1..=Self::MOST_OPENED).contains(&notebook.groups.len()).then_some(notebook)
    }
}
