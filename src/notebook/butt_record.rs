use super::day_page::kept;
use super::lines::{Lines, Page, YES};
use super::{Coded, Entry, Field, GroupDay, Notebook};
use crate::almanac::CivilDay;
use crate::feed::Water;
use crate::quantity::{Units, decimal, parse_number};
use crate::water::{Butt, ButtDay, Roof, RoofKind, USUAL_BUTT_LITRES};

/// The words of the day on which the level was read, and of the litres that had been drawn on it by then.
const READ: &str = "butt-read";
const DRAWN: &str = "butt-read-after";
/// The word of what the roof is made of.
const ROOF_KIND: &str = "roof-kind";

/// The water butt as the grower entered it. Its level is that of the day on which it was read: what it is now follows from the
/// days since.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ButtRecord {
    /// Litres that it holds.
    pub size: Entry,
    /// Litres that were in it when it was read.
    pub level: Entry,
    /// The day on which it was read.
    pub read: Option<CivilDay>,
    /// What had been drawn on that day before it was read, litres; in older texts all of the day's.
    pub drawn: f64,
    /// The roof that fills it.
    pub roof: Entry,
    /// What the roof is made of.
    pub kind: RoofKind,
}

/// A butt on a morning, with what its level rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ButtNow {
    /// The butt with what is in it now.
    pub butt: Butt,
    /// Litres that were in it before this morning's watering.
    pub before_watering: f64,
    /// Days since it was read of which no watering was noted.
    pub silent_days: u32,
}

impl ButtRecord {
    /// All number fields of a butt.
    pub const FIELDS: [Field; 3] = [Field::ButtSize, Field::ButtLevel, Field::Roof];

    /// Whether the grower has told of a butt.
    #[must_use]
    pub const fn is_there(&self) -> bool {
        self.size.value().is_some() || self.level.value().is_some()
    }

    /// Litres that it holds.
    #[must_use]
    pub fn litres(&self) -> f64 {
        self.size.value().unwrap_or(USUAL_BUTT_LITRES)
    }

    /// Notes that the level was read today.
    fn read_on(&mut self, today: CivilDay, drawn: f64) {
        self.read = self.level.value().map(|_| today);
        self.drawn = self.read.map_or(0.0, |_| kept(drawn));
    }

    /// A new morning: what was read until then, on `day` at the latest, is a level of an earlier day.
    pub(super) fn leave_level(&mut self, day: CivilDay, units: Units) {
        if self.level.value().is_some() {
            self.read = self.read.or(Some(day));
        }
        self.level.leave_number(Field::ButtLevel, units);
    }

    /// Why what was read cannot be, when it is more than the butt holds, by more than the 0.1 litres of what is printed (limit).
    #[must_use]
    pub fn overfull(&self, units: Units) -> Option<String> {
        let (level, size) = (self.level.value()?, self.litres());
        let printed = |litres| decimal(Field::ButtSize.typed(units, litres), 1);
        // What is converted and printed may come back a hair larger.
        (level > size + 0.1).then(|| {
            let unit = Field::ButtSize.unit(units);
            "The butt holds ".to_owned() + &printed(size) + unit + ": " + &printed(level) + " cannot be in it."
        })
    }

    pub(super) fn put_into(&self, lines: &mut Lines, units: Units) {
        for field in Self::FIELDS {
            if let Some(entry) = self.entry(field) {
                lines.put_entry(field, units, entry);
            }
        }
        lines.put_day(READ, self.read);
        let drawn = if self.drawn.is_finite() {
            decimal(self.drawn, 3)
        } else {
            YES.to_owned()
        };
        lines.put(DRAWN, if self.drawn > 0.0 { &drawn } else { "" });
        lines.put_choice(ROOF_KIND, self.kind);
    }

    pub(super) fn from_page(page: &mut Page, units: Units) -> Self {
        let mut record = Self {
            read: page.day(READ),
            drawn: match page.take(DRAWN) {
                YES => f64::INFINITY,
                text => parse_number(text).ok().flatten().map_or(0.0, |litres| kept(litres.max(0.0))),
            },
            kind: page.choice(ROOF_KIND),
            ..Self::default()
        };
        for field in Self::FIELDS {
            if let Some(entry) = record.entry_mut(field) {
                *entry = page.entry(field, units);
            }
        }
        record
    }

    /// The entry behind a field of the butt, to change.
    pub const fn entry_mut(&mut self, field: Field) -> Option<&mut Entry> {
        Some(match field {
            Field::ButtSize => &mut self.size,
            Field::ButtLevel => &mut self.level,
            Field::Roof => &mut self.roof,
            _ => return None,
        })
    }

    /// The entry behind a field of the butt.
    #[must_use]
    pub const fn entry(&self, field: Field) -> Option<&Entry> {
        Some(match field {
            Field::ButtSize => &self.size,
            Field::ButtLevel => &self.level,
            Field::Roof => &self.roof,
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

impl Notebook {
    /// The butt as it is now, once its level was read: what the days since have taken out and brought.
    ///
    /// Of a day on which nothing was noted nothing is taken to be poured; such days are counted. Rain of the day of the reading
    /// came after it.
    #[must_use]
    pub fn butt_now(&self, today: CivilDay) -> Option<ButtNow> {
        let record = &self.butt;
        let roof = Roof {
            plan_area: record.roof.value().unwrap_or_default(),
            kind: record.kind,
        };
        let mut butt = Butt {
            size: record.litres(),
            level: record.level.value()?,
            roof,
        };
        let read = record.read.unwrap_or(today).min(today);
        let yesterday = today.yesterday();
        let told = self.morning.rain.value();
        let mut silent_days = u32::try_from(today.days_since(read)).unwrap_or_default();
        let poured = |day: CivilDay| {
            let poured = self.drawn(day);
            let before = if day == read { record.drawn } else { 0.0 };
            poured.map(|litres| (litres - before).max(0.0))
        };
        let mut live = |day: CivilDay, rain: Option<f64>| {
            let poured = poured(day);
            if poured.is_some() {
                silent_days = silent_days.saturating_sub(1);
            }
            butt = butt.after(ButtDay {
                poured: poured.unwrap_or_default(),
                rain_millimetres: rain.unwrap_or_default(),
            });
        };
        for page in self.days.iter().filter(|page| (read..yesterday).contains(&page.day)) {
            live(page.day, page.weather.and_then(|weather| weather.rain_millimetres));
        }
        if read <= yesterday {
            live(yesterday, told);
        }
        let before_watering = butt.level.min(butt.size);
        butt = butt.after(ButtDay {
            poured: poured(today).unwrap_or_default(),
            ..ButtDay::default()
        });
        Some(ButtNow {
            butt,
            before_watering,
            silent_days,
        })
    }

    /// Litres that all groups together were given on a day, those that are gone too, when anything was noted of that.
    #[must_use]
    pub fn poured(&self, day: CivilDay) -> Option<f64> {
        self.litres_of(day, &|noted| noted.given)
    }

    /// Litres that all groups together are known to have got on a day, be it as feed alone.
    #[must_use]
    pub fn watered(&self, day: CivilDay) -> Option<f64> {
        self.litres_of(day, &GroupDay::water)
    }

    /// Litres that the butt gave on a day. Feed that alone is noted came out of it if the can is filled from it.
    fn drawn(&self, day: CivilDay) -> Option<f64> {
        if self.feed.water == Water::Rain {
            self.watered(day)
        } else {
            self.poured(day)
        }
    }

    fn litres_of(&self, day: CivilDay, of: &dyn Fn(&GroupDay) -> Option<f64>) -> Option<f64> {
        let page = self.day(day)?;
        let groups = self.groups.iter().chain(&self.gone);
        let litres = groups.filter_map(|group| Some(of(page.group(group.id)?)? * f64::from(group.count())));
        litres.reduce(|sum, litres| sum + litres)
    }

    /// Notes that the butt is full to the brim, and hands over what was noted of it before, for undoing.
    pub fn fill_butt(&mut self, today: CivilDay) -> ButtRecord {
        let before = self.butt.clone();
        self.butt.level = Entry::holding(Field::ButtLevel, self.units, self.butt.litres());
        self.told(Field::ButtLevel, today);
        before
    }

    /// Notes on which day a field was told, where that matters. To be called after each change by the grower.
    pub fn told(&mut self, field: Field, today: CivilDay) {
        match field {
            Field::ButtLevel if self.butt.level.error(field, self.units).is_none() => {
                let drawn = self.drawn(today).unwrap_or_default();
                self.butt.read_on(today, drawn);
            }
            Field::DaysAway => self.away.fix(today),
            _ => (),
        }
    }
}

impl Coded for RoofKind {
    const CODES: &'static [(&'static str, Self)] = &[
        ("glass", Self::Glass),
        ("smooth-sheet", Self::SmoothSheet),
        ("rough-sheet", Self::RoughSheet),
        ("tiles", Self::Tiles),
        ("flat", Self::Flat),
    ];
}
