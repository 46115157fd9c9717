use super::lines::{Lines, Page};
use super::{Entry, Field};
use crate::almanac::{CivilDay, Sky, Sun, Thermometer, Yesterday};
use crate::quantity::Units;

/// What was entered this morning about yesterday.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct MorningRecord {
    /// The morning that this was entered on.
    pub day: Option<CivilDay>,
    /// The sky in a word.
    pub sky: Option<Sky>,
    /// Hours of sun; they win over the word.
    pub sunshine_hours: Entry,
    /// Maximum of the thermometer.
    pub warmest: Entry,
    /// Minimum of the thermometer.
    pub coolest: Entry,
    /// Where it hangs; carried from day to day.
    pub thermometer: Thermometer,
    /// Rain.
    pub rain: Entry,
    /// Humidity.
    pub humidity: Entry,
    /// Wind.
    pub wind: Entry,
}

impl MorningRecord {
    /// All number fields of a morning.
    pub const FIELDS: [Field; 6] = [
        Field::SunshineHours,
        Field::Warmest,
        Field::Coolest,
        Field::Rain,
        Field::Humidity,
        Field::Wind,
    ];

    pub(super) fn put_into(&self, lines: &mut Lines, units: Units) {
        lines.put_day("morning", self.day);
        lines.put_told("sky", self.sky);
        lines.put_choice("thermometer", self.thermometer);
        for field in Self::FIELDS {
            if let Some(entry) = self.entry(field) {
                lines.put_entry(field, units, entry);
            }
        }
    }

    pub(super) fn from_page(page: &mut Page, units: Units) -> Self {
        let mut record = Self {
            day: page.day("morning"),
            sky: page.told("sky"),
            thermometer: page.choice("thermometer"),
            ..Self::default()
        };
        for field in Self::FIELDS {
            if let Some(entry) = record.entry_mut(field) {
                *entry = page.entry(field, units);
            }
        }
        record
    }

    /// Yesterday as the calculation takes it.
    #[must_use]
    pub fn yesterday(&self) -> Yesterday {
        Yesterday {
            sun: self.sunshine_hours.value().map(Sun::Hours).or_else(|| self.sky.map(Sun::Word)),
            warmest: self.warmest.value(),
            coolest: self.coolest.value(),
            thermometer: self.thermometer,
            rain_millimetres: self.rain.value(),
            humidity_percent: self.humidity.value(),
            wind_metres_per_second: self.wind.value(),
        }
    }

    /// Takes a word for the sky; it replaces hours of sun.
    pub fn choose_sky(&mut self, sky: Sky) {
        self.sky = Some(sky);
        self.sunshine_hours = Entry::default();
    }

    /// A new morning: what was said of the day before yesterday no longer holds; the thermometer still hangs where it hung.
    #[must_use]
    pub fn on(day: CivilDay, thermometer: Thermometer) -> Self {
        Self {
            day: Some(day),
            thermometer,
            ..Self::default()
        }
    }

    /// The entry behind a field of the morning, when the field is one of the morning's.
    pub const fn entry_mut(&mut self, field: Field) -> Option<&mut Entry> {
        Some(match field {
            Field::SunshineHours => &mut self.sunshine_hours,
            Field::Warmest => &mut self.warmest,
            Field::Coolest => &mut self.coolest,
            Field::Rain => &mut self.rain,
            Field::Humidity => &mut self.humidity,
            Field::Wind => &mut self.wind,
            _ => return None,
        })
    }

    /// The entry behind a field of the morning, to read.
    #[must_use]
    pub const fn entry(&self, field: Field) -> Option<&Entry> {
        Some(match field {
            Field::SunshineHours => &self.sunshine_hours,
            Field::Warmest => &self.warmest,
            Field::Coolest => &self.coolest,
            Field::Rain => &self.rain,
            Field::Humidity => &self.humidity,
            Field::Wind => &self.wind,
            _ => return None,
        })
    }

    /// Prints every number anew after a change of units.
    pub fn change_units(&mut self, from: Units, to: Units) {
        for field in Self::FIELDS {
            if let Some(entry) = self.entry_mut(field) {
                entry.change_units(field, from, to);
            }
        }
    }
}
