use super::lines::{ID, Lines, YES};
use super::{Coded, Entry, Field};
use crate::almanac::{CivilDay, Latitude};
use crate::pest::{Control, DayReading, Deed, Extent, GlassOffset, Label, Pest, Programme, Told, Warmth};
use crate::quantity::{Units, decimal, parse_number};

/// The line that begins the page of a programme.
pub(super) const PEST_PAGE: &str = "page pest";
/// Words of what is chosen and told.
const PEST: &str = "pest";
const CONTROL: &str = "control";
const FIRST: &str = "first";
const EXTENT: &str = "extent";
const NAMES_CROP: &str = "names-crop";
const NAMES_PLACE: &str = "names-place";
const FOR_HOME: &str = "for-home";
const LATEST_USE: &str = "latest-use";
const SENT: &str = "sent";
/// Words that a day or a control follows.
const BESIDE: &str = "beside-";
const DONE: &str = "done";
const SKIPPED: &str = "skipped";
const PLANNED: &str = "planned";
const COUNTED: &str = "counted";

/// Animals that were counted on a day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PestCount {
    /// The day.
    pub day: CivilDay,
    /// How many.
    pub seen: f64,
}

/// One programme against a pest as the grower entered it. What a label says is empty until it is read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PestRecord {
    /// Its number: when it was begun, in milliseconds of the clock, so that no two are alike.
    pub id: u64,
    /// The pest.
    pub pest: Pest,
    /// What is repeated, once chosen.
    pub control: Option<Control>,
    /// What is done beside it.
    pub beside: Vec<Control>,
    /// The day of the first treatment, once told; today until then.
    pub first: Option<CivilDay>,
    /// What was done and left out, by day.
    pub deeds: Vec<Deed>,
    /// Daily mean where they stand; what is usual until told.
    pub mean: Entry,
    /// How much warmer it is inside by day.
    pub warmer_by_day: Entry,
    /// How much warmer it is inside by night.
    pub warmer_by_night: Entry,
    /// Whether the label names tomatoes or edible crops.
    pub names_crop: Told,
    /// Whether it names the place.
    pub names_place: Told,
    /// Whether it is for home gardens.
    pub for_home: Told,
    /// Least days between uses.
    pub least_days: Entry,
    /// Most uses.
    pub most_uses: Entry,
    /// Days before picking.
    pub days_before_picking: Entry,
    /// The last day of use, exactly as typed.
    pub latest_use: String,
    /// How far it goes.
    pub extent: Extent,
    /// Days of a best plan that was taken on.
    pub planned: Vec<CivilDay>,
    /// Counts, by day.
    pub counts: Vec<PestCount>,
    /// How often its dates were given to a calendar.
    pub sent: u32,
    /// Lines that a later program wrote; kept as they are.
    pub unknown: Vec<String>,
}

impl PestRecord {
    /// All number fields of a programme.
    pub const FIELDS: [Field; 6] = [
        Field::PestMean,
        Field::WarmerByDay,
        Field::WarmerByNight,
        Field::LeastDays,
        Field::MostUses,
        Field::DaysBeforePicking,
    ];

    /// What is repeated: as chosen, or what needs no label.
    #[must_use]
    pub fn control(&self) -> Control {
        self.control.unwrap_or_else(|| self.pest.physical_control())
    }

    /// The label as far as it was read.
    #[must_use]
    pub fn label(&self) -> Label {
        let whole = |entry: &Entry| entry.value().map(whole);
        Label {
            names_crop: self.names_crop,
            names_place: self.names_place,
            for_home: self.for_home,
            least_days: whole(&self.least_days),
            most_uses: whole(&self.most_uses),
            days_before_picking: whole(&self.days_before_picking),
            latest_use: self.latest_use.parse().ok(),
        }
    }

    /// The programme to be worked out, at a place under cover or in the open, with the days that were read.
    #[must_use]
    pub fn programme<'a>(&'a self, latitude: Latitude, is_covered: bool, readings: &'a [DayReading], today: CivilDay) -> Programme<'a> {
        let usual = GlassOffset::default();
        Programme {
            pest: self.pest,
            control: self.control(),
            beside: &self.beside,
            first: self.first.unwrap_or(today),
            deeds: &self.deeds,
            label: self.label(),
            warmth: Warmth {
                latitude,
                glass: is_covered.then(|| GlassOffset {
                    by_day: self.warmer_by_day.value().unwrap_or(usual.by_day),
                    by_night: self.warmer_by_night.value().unwrap_or(usual.by_night),
                }),
                mean: self.mean.value(),
                readings,
            },
            extent: self.extent,
            chosen: &self.planned,
        }
    }

    /// The answer to a question of the label, by its word: `names-crop`, `names-place`, `for-home`.
    pub fn told_mut(&mut self, word: &str) -> Option<&mut Told> {
        Some(match word {
            NAMES_CROP => &mut self.names_crop,
            NAMES_PLACE => &mut self.names_place,
            FOR_HOME => &mut self.for_home,
            _ => return None,
        })
    }

    /// The same, to read.
    #[must_use]
    pub fn told(&self, word: &str) -> Told {
        match word {
            NAMES_CROP => self.names_crop,
            NAMES_PLACE => self.names_place,
            FOR_HOME => self.for_home,
            _ => Told::Unknown,
        }
    }

    /// Notes what was done, or left out, on a day, in place of what was noted of it.
    pub fn note(&mut self, day: CivilDay, control: Control, is_done: bool) {
        self.forget(day);
        let place = self.deeds.partition_point(|deed| deed.day < day);
        self.deeds.insert(place, Deed { day, control, is_done });
    }

    /// Takes back what was noted of a day.
    pub fn forget(&mut self, day: CivilDay) {
        self.deeds.retain(|deed| deed.day != day);
    }

    /// Notes how many were counted on a day; nothing takes it back.
    pub fn count(&mut self, day: CivilDay, seen: Option<f64>) {
        self.counts.retain(|count| count.day != day);
        if let Some(seen) = seen {
            let place = self.counts.partition_point(|count| count.day < day);
            self.counts.insert(place, PestCount { day, seen });
        }
    }

    /// Changes the pest: what was chosen against another no longer holds.
    pub fn turn_to_pest(&mut self, pest: Pest) {
        if self.pest != pest {
            self.pest = pest;
            self.control = None;
            self.beside.clear();
            self.planned.clear();
            self.extent = Extent::default();
        }
    }

    /// The entry behind a field of the programme, to change.
    pub const fn entry_mut(&mut self, field: Field) -> Option<&mut Entry> {
        Some(match field {
            Field::PestMean => &mut self.mean,
            Field::WarmerByDay => &mut self.warmer_by_day,
            Field::WarmerByNight => &mut self.warmer_by_night,
            Field::LeastDays => &mut self.least_days,
            Field::MostUses => &mut self.most_uses,
            Field::DaysBeforePicking => &mut self.days_before_picking,
            _ => return None,
        })
    }

    /// The entry behind a field of the programme.
    #[must_use]
    pub const fn entry(&self, field: Field) -> Option<&Entry> {
        Some(match field {
            Field::PestMean => &self.mean,
            Field::WarmerByDay => &self.warmer_by_day,
            Field::WarmerByNight => &self.warmer_by_night,
            Field::LeastDays => &self.least_days,
            Field::MostUses => &self.most_uses,
            Field::DaysBeforePicking => &self.days_before_picking,
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

    pub(super) fn page(&self, units: Units) -> Lines {
        let mut lines = Lines::begun(PEST_PAGE);
        lines.put(ID, &self.id.to_string());
        lines.put_choice(PEST, self.pest);
        lines.put_told(CONTROL, self.control);
        lines.put_day(FIRST, self.first);
        lines.put_choice(EXTENT, self.extent);
        for (word, told) in [
            (NAMES_CROP, self.names_crop),
            (NAMES_PLACE, self.names_place),
            (FOR_HOME, self.for_home),
        ] {
            lines.put_choice(word, told);
        }
        for field in Self::FIELDS {
            if let Some(entry) = self.entry(field) {
                lines.put_entry(field, units, entry);
            }
        }
        lines.put(LATEST_USE, &self.latest_use);
        lines.put(SENT, &if self.sent > 0 { self.sent.to_string() } else { String::new() });
        for control in &self.beside {
            lines.put(&(BESIDE.to_owned() + control.code()), YES);
        }
        let on = |word: &str, day: CivilDay| word.to_owned() + &day.to_string();
        for deed in &self.deeds {
            lines.put(&on(if deed.is_done { DONE } else { SKIPPED }, deed.day), deed.control.code());
        }
        for day in &self.planned {
            lines.put(&on(PLANNED, *day), YES);
        }
        for count in &self.counts {
            lines.put(&on(COUNTED, count.day), &decimal(count.seen, 0));
        }
        lines.lines.extend_from_slice(&self.unknown);
        lines
    }

    /// A programme from its page. What cannot be read is kept as it is.
    pub(super) fn from_page(id: u64, mut lines: Lines, units: Units) -> Self {
        let mut record = Self {
            id,
            pest: lines.choice(PEST),
            control: lines.told(CONTROL),
            first: lines.day(FIRST),
            extent: lines.choice(EXTENT),
            names_crop: lines.choice(NAMES_CROP),
            names_place: lines.choice(NAMES_PLACE),
            for_home: lines.choice(FOR_HOME),
            latest_use: lines.take(LATEST_USE),
            sent: lines.take(SENT).parse().unwrap_or_default(),
            ..Self::default()
        };
        lines.take(ID);
        for field in Self::FIELDS {
            if let Some(entry) = record.entry_mut(field) {
                *entry = lines.entry(field, units);
            }
        }
        for line in lines.lines {
            let (word, text) = line.split_once('=').unwrap_or((&line, ""));
            if !record.takes(word, text) {
                record.unknown.push(line);
            }
        }
        record
    }

    /// Takes what a line says of a day or of a control. Tells whether it does.
    fn takes(&mut self, word: &str, text: &str) -> bool {
        let day = |of: &str| word.strip_prefix(of).and_then(|day| day.parse::<CivilDay>().ok());
        let control = Control::from_code(text);
        if let (Some(day), Some(control)) = (day(DONE), control) {
            self.note(day, control, true);
        } else if let (Some(day), Some(control)) = (day(SKIPPED), control) {
            self.note(day, control, false);
        } else if let (Some(day), YES) = (day(PLANNED), text) {
            let place = self.planned.partition_point(|other| *other < day);
            self.planned.insert(place, day);
        } else if let (Some(day), Some(seen)) = (day(COUNTED), parse_number(text).ok().flatten()) {
            self.count(day, Some(seen));
        } else if let (Some(beside), YES) = (word.strip_prefix(BESIDE).and_then(Control::from_code), text) {
            self.beside.push(beside);
        } else {
            return false;
        }
        true
    }
}

/// Days and uses are kept whole by their fields.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a float cast saturates")]
const fn whole(number: f64) -> u16 {
    number as u16
}
