use super::lines::Lines;
use super::{Entry, Field, GroupRecord, MorningRecord};
use crate::almanac::{CivilDay, Latitude, STANDARD_LATITUDE, STANDARD_WIND_SPEED, Weather, WeatherError};
use crate::quantity::Units;

/// Litres in the can until told: two gallons (common practice, no source).
const ASSUMED_CAN: f64 = 2.0 * crate::quantity::LITRES_PER_IMPERIAL_GALLON;

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
    /// The plants. Never empty.
    pub groups: Vec<GroupRecord>,
    /// The number that the next group gets.
    pub next_id: u32,
    /// This morning's entries.
    pub morning: MorningRecord,
}

impl Default for Notebook {
    fn default() -> Self {
        Self {
            plot: Plot::default(),
            units: Units::default(),
            latitude: Entry::default(),
            can: Entry::default(),
            groups: vec![GroupRecord::default()],
            next_id: 1,
            morning: MorningRecord::default(),
        }
    }
}

impl Notebook {
    /// Groups that a notebook holds at most.
    pub const MOST_GROUPS: usize = 8;

    /// Where the plot lies: as told, or the standard latitude.
    #[must_use]
    pub fn place(&self) -> Latitude {
        self.latitude
            .value()
            .and_then(|degrees| Latitude::from_degrees_north(degrees).ok())
            .unwrap_or(STANDARD_LATITUDE)
    }

    /// Litres in the can.
    #[must_use]
    pub fn can_litres(&self) -> f64 {
        self.can.value().unwrap_or(ASSUMED_CAN)
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
            _ => self.morning.entry(field).or_else(|| self.groups.get(index)?.entry(field)),
        }
    }

    /// The entry behind a field, to change.
    pub fn entry_mut(&mut self, index: usize, field: Field) -> Option<&mut Entry> {
        match field {
            Field::Can => Some(&mut self.can),
            Field::Latitude => Some(&mut self.latitude),
            _ => self
                .morning
                .entry_mut(field)
                .or_else(|| self.groups.get_mut(index)?.entry_mut(field)),
        }
    }

    /// What stands in for a field while nothing is entered, in SI; nothing for humidity, which is simply not used then.
    #[must_use]
    pub fn assumed(&self, index: usize, field: Field, today: CivilDay) -> Option<f64> {
        let weather = || self.weather(today).ok();
        match field {
            Field::Can => Some(ASSUMED_CAN),
            Field::Latitude => Some(STANDARD_LATITUDE.degrees_north()),
            Field::Warmest => weather().map(|weather| weather.maximum),
            Field::Coolest => weather().map(|weather| weather.minimum),
            Field::SunshineHours => weather().map(|weather| weather.sunshine_hours()),
            Field::Rain => Some(0.0),
            Field::Wind => Some(STANDARD_WIND_SPEED),
            Field::Humidity => None,
            _ => self.groups.get(index).map(|group| group.assumed(field)),
        }
    }

    /// Turns to the page of `today`: yesterday's entries and squeezes no longer hold on a new morning.
    pub fn turn_to(&mut self, today: CivilDay) {
        if self.morning.day == Some(today) {
            return;
        }
        if self.morning.day.is_some() {
            for group in &mut self.groups {
                group.feel = None;
            }
        }
        let entered_before_the_day_was_known = self.morning.day.is_none() && self.morning != MorningRecord::default();
        if entered_before_the_day_was_known {
            self.morning.day = Some(today);
        } else {
            self.morning = MorningRecord::on(today, self.morning.thermometer);
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

    /// Puts a removed group back where it stood.
    pub fn restore_group(&mut self, index: usize, group: GroupRecord) {
        self.groups.insert(index.min(self.groups.len()), group);
    }

    /// Changes the units and prints every number anew; text that makes no number stays as it was typed.
    pub fn change_units(&mut self, to: Units) {
        let from = std::mem::replace(&mut self.units, to);
        self.can.change_units(Field::Can, from, to);
        self.morning.change_units(from, to);
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
        self.morning.put_into(&mut first, self.units);
        let mut pages = vec![first];
        pages.extend(self.groups.iter().map(|group| group.page(self.units)));
        pages
    }

    /// A notebook from its stored pages, unless there is no first page and no group, or too many.
    pub(super) fn from_pages(pages: &[Lines]) -> Option<Self> {
        let (first, groups) = pages.split_first()?;
        if groups.is_empty() || groups.len() > Self::MOST_GROUPS {
            return None;
        }
        let units = Units {
            system: first.choice("units"),
            temperature: first.choice("temperature-scale"),
        };
        let groups: Vec<_> = (0..)
            .zip(groups)
            .map(|(id, lines)| GroupRecord::from_page(id, lines, units))
            .collect();
        Some(Self {
            plot: Plot {
                name: first.get("plot-name").to_owned(),
                number: first.get("plot-number").to_owned(),
            },
            units,
            latitude: first.entry(Field::Latitude, units),
            can: first.entry(Field::Can, units),
            next_id: (0..).nth(groups.len()).unwrap_or_default(),
            groups,
            morning: MorningRecord::from_lines(first, units),
        })
    }
}
