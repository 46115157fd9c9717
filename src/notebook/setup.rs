use super::away_record::ASSUMED_DAYS_AWAY;
use super::day_page::DAY_PAGE;
use super::feed_record::{ASSUMED_A_WEEK, ASSUMED_EACH, FEED_PAGE};
use super::gone_group::GONE_PAGE;
use super::lines::{ID, Lines, PAGE, Page};
use super::pest_record::PEST_PAGE;
use super::season_page::SEASON_PAGE;
use super::{AwayRecord, ButtRecord, DayPage, Entry, FeedRecord, Field, GroupRecord, MorningRecord, PestRecord, SeasonPage, Waits};
use crate::almanac::{
    CivilDay, INSIDE_WARMER_BY_DAY, INSIDE_WARMER_BY_NIGHT, Latitude, STANDARD_LATITUDE, STANDARD_WIND_SPEED, Weather, WeatherError,
    usual_latitude,
};
use crate::feed::{Basis, USUAL_DENSITY, USUAL_FRUIT, USUAL_STOCK};
use crate::quantity::{UnitSystem, Units, country_in};
use crate::water::USUAL_BUTT_LITRES;

/// Size of the can of one who counts in gallons, until told, gallons (common practice, no source).
const ASSUMED_GALLONS: f64 = 2.0;
/// Litres above which a can is asked about, in which measure it is told: more is no can that one carries (choice).
const MOST_IN_A_CAN: f64 = 15.0;
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
    /// The groups that were removed and of which something is still noted, as they were.
    pub gone: Vec<GroupRecord>,
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
            gone: Vec::new(),
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

    /// An empty notebook, as the country asks that the browser's language names, such as `en-NZ`: in its units, at about its latitude
    /// where that lies far from the standard one, and with labels that count P and K as there.
    #[must_use]
    pub fn usual_for(language: &str) -> Self {
        let mut notebook = Self {
            units: Units::usual_for(language),
            ..Self::default()
        };
        let country = country_in(language);
        if let Some(degrees) = usual_latitude(country) {
            notebook.latitude = Entry::holding(Field::Latitude, notebook.units, degrees);
        }
        if ["au", "nz"].iter().any(|other| other.eq_ignore_ascii_case(country)) {
            notebook.feed.basis = Basis::Elements;
        }
        notebook
    }

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

    /// Whether the can is so large that its number may be meant in another measure, and nothing behind it says in which.
    #[must_use]
    pub fn asks_cans_measure(&self) -> bool {
        let is_told = self.can.is_named(Field::Can, self.units) || self.can.error(Field::Can, self.units).is_some();
        !is_told && self.can.value().is_some_and(|litres| litres > MOST_IN_A_CAN)
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

    /// Takes a group out and hands it over for undoing, unless it is the last. What was noted of it stays, and whose it is.
    pub fn remove_group(&mut self, index: usize) -> Option<GroupRecord> {
        let group = (self.groups.len() > 1 && index < self.groups.len()).then(|| self.groups.remove(index))?;
        self.remember(&group);
        Some(group)
    }

    /// Gives all that is noted of a group another number: its days and seasons, what is kept of it when it is gone, and the
    /// programmes that are for it.
    pub(super) fn renumber(&mut self, before: u32, after: u32) {
        self.days.iter_mut().for_each(|page| page.renumber(before, after));
        self.seasons.iter_mut().for_each(|season| season.renumber(before, after));
        for programme in self.programmes.iter_mut().filter(|programme| programme.plants == Some(before)) {
            programme.plants = Some(after);
        }
        for gone in self.gone.iter_mut().filter(|gone| gone.id == before) {
            gone.id = after;
        }
    }

    /// Puts a removed group back where it stood among the others, and gives its position. One that a copy brought back is there.
    pub fn restore_group(&mut self, mut group: GroupRecord) -> usize {
        if let Some(at) = self.groups.iter().position(|other| other.id == group.id) {
            if self.groups.get(at).is_some_and(|other| other.name == group.name) {
                return at;
            }
            // Of one of which nothing was noted a copy may have given the number away since.
            group.id = self.next_id;
            self.next_id = self.next_id.wrapping_add(1);
        }
        let index = self.groups.iter().take_while(|other| other.id < group.id).count();
        self.groups.insert(index, group);
        self.forget_gone();
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
        for group in self.groups.iter_mut().chain(&mut self.gone) {
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
        pages.extend(self.gone.iter().map(|gone| Lines {
            head: GONE_PAGE.to_owned(),
            ..gone.page(self.units)
        }));
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
            gone: Vec::new(),
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
            if page.head == GONE_PAGE
                && let Ok(id) = page.get(ID).parse()
                && notebook.gone(id).is_none()
            {
                notebook.gone.push(GroupRecord::from_page(id, page, units));
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
        let after_gone = notebook.gone.iter().map(|gone| gone.id.wrapping_add(1)).max().unwrap_or_default();
        notebook.next_id = notebook.least_next_id().max(after_gone).max(next_id);
        notebook.unknown = first.left();
        let ids: Vec<u32> = notebook.groups.iter().map(|group| group.id).collect();
        notebook.days.iter_mut().for_each(|page| page.feed_each(&ids));
        notebook.forget_gone();
        notebook.settle_bottles();
        (1..=Self::MOST_OPENED).contains(&notebook.groups.len()).then_some(notebook)
    }
}
