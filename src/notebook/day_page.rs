use super::lines::{ID, Lines, YES, parts};
use super::link::{kept_placement, placement_line, read_placement};
use super::{Coded, Field, Treatment};
use crate::almanac::{CivilDay, Sky, Sun, Thermometer, Yesterday};
use crate::pest::{Control, Pest};
use crate::quantity::{decimal, parse_number};
use crate::today::Task;
use crate::water::{DayRecord, Feel, Placement, Readings};

/// The line that begins the page of a day.
pub(super) const DAY_PAGE: &str = "page day";
/// The word of the time at which the water of a day was noted.
const NOTED_AT: &str = "at";
/// The words of what one group got and how its compost felt; the group's number follows.
const GIVEN: &str = "given";
const FEEL: &str = "feel";
const LIGHTER: &str = "lighter";
const DRIP: &str = "drip";
/// The word of where one group stood until then; the group's number follows.
const BEFORE: &str = "before";
/// The word of where it stood when the day began, where that was changed on it for all days before too.
const STOOD: &str = "stood";
/// The word of the feed that one group got; the group's number follows.
const FED: &str = "fed";
/// Words of what was ticked as done; a task or a pest follows.
const DONE: &str = "done-";
const TREATED: &str = "treated-";

/// A treatment that was ticked from its words, unless they are none.
fn treated(pest: &str, text: &str) -> Option<Done> {
    let (control, plants) = match text.split_once(' ') {
        Some((control, plants)) => (control, Some(plants.parse().ok()?)),
        None => (text, None),
    };
    Some(Done::Treated(Pest::from_code(pest)?, Control::from_code(control)?, plants))
}

/// Something of a day's round that was ticked as done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Done {
    /// One of the round's tasks.
    Task(Task),
    /// A treatment against a pest, of the group of this number; of no certain one in what older programs wrote.
    Treated(Pest, Control, Option<u32>),
}

impl Done {
    /// Whether it says that this treatment was done.
    #[must_use]
    pub fn is_of(self, treatment: &Treatment) -> bool {
        let Self::Treated(pest, control, plants) = self else {
            return false;
        };
        (pest, control) == (treatment.pest, treatment.control) && (plants.is_none() || plants == treatment.plants)
    }
}

/// What was noted of one group on one day.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct GroupDay {
    /// The group's number.
    pub id: u32,
    /// Litres poured for each plant, to a thousandth; nought when it is known that nothing was.
    pub given: Option<f64>,
    /// Litres of feed for each plant, to a thousandth; part of what is poured that day.
    pub fed: Option<f64>,
    /// How the compost felt that morning.
    pub feel: Option<Feel>,
    /// Litres that a pot was lighter than when it has just drained, to a thousandth.
    pub lighter: Option<f64>,
    /// Litres until the compost began to drip, to a thousandth.
    pub drip: Option<f64>,
    /// Where the plants stood and in what until that morning, when they were moved or potted on.
    pub before: Option<Placement>,
    /// The same when the day began, where it was changed on it for all days before too: a way back, of which the calculation knows
    /// nothing.
    pub stood: Option<Placement>,
}

impl GroupDay {
    /// What was seen of the compost that morning, before pouring.
    #[must_use]
    pub const fn readings(&self) -> Readings {
        Readings {
            feel: self.feel,
            lighter: self.lighter,
            drip: self.drip,
        }
    }

    /// Litres of water that each plant is known to have got: as noted, and no less than with the feed, which is a part of it.
    #[must_use]
    pub fn water(&self) -> Option<f64> {
        match (self.given, self.fed) {
            (Some(given), Some(fed)) => Some(given.max(fed)),
            (given, fed) => given.or(fed),
        }
    }

    /// Notes what was seen of the compost.
    pub const fn see(&mut self, readings: Readings) {
        self.feel = readings.feel;
        self.lighter = readings.lighter;
        self.drip = readings.drip;
    }

    /// Where the litres go that are kept under a word.
    fn litres_mut(&mut self, word: &str) -> Option<&mut Option<f64>> {
        match word {
            GIVEN => Some(&mut self.given),
            FED => Some(&mut self.fed),
            LIGHTER => Some(&mut self.lighter),
            DRIP => Some(&mut self.drip),
            _ => None,
        }
    }

    /// Whether nothing is noted.
    fn is_empty(&self) -> bool {
        *self
            == Self {
                id: self.id,
                ..Self::default()
            }
    }
}

/// What was noted of one civil day.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DayPage {
    /// The day.
    pub day: CivilDay,
    /// What it was like, when anything of that was told; every number to a thousandth.
    pub weather: Option<Yesterday>,
    /// When its water was noted, such as `9.05`; empty when it was not noted on the day itself.
    pub noted_at: String,
    /// The groups of which something was noted, by their numbers.
    pub groups: Vec<GroupDay>,
    /// What else was ticked as done.
    pub done: Vec<Done>,
    /// Lines that a later program wrote; kept as they are.
    pub unknown: Vec<String>,
}

/// As it is kept: no finer than a thousandth.
pub(super) fn kept(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0
}

impl DayPage {
    /// The page of a day with nothing on it.
    #[must_use]
    pub fn of(day: CivilDay) -> Self {
        Self { day, ..Self::default() }
    }

    /// Whether nothing is noted.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::of(self.day)
    }

    /// What was noted of a group.
    #[must_use]
    pub fn group(&self, id: u32) -> Option<&GroupDay> {
        self.groups.iter().find(|group| group.id == id)
    }

    /// Changes what is noted of a group.
    pub fn note(&mut self, id: u32, change: impl FnOnce(&mut GroupDay)) {
        let day = self.day;
        let group = self.group_mut(id);
        change(group);
        group.given = group.given.map(kept);
        group.fed = group.fed.map(kept);
        group.lighter = group.lighter.map(kept);
        group.drip = group.drip.map(kept);
        group.before = group.before.and_then(|before| kept_placement(before, day));
        group.stood = group.stood.and_then(|stood| kept_placement(stood, day));
        self.groups.retain(|group| !group.is_empty());
    }

    /// The place for what is noted of a group.
    #[expect(clippy::indexing_slicing, reason = "what is not there is put there first")]
    fn group_mut(&mut self, id: u32) -> &mut GroupDay {
        let index = self.groups.partition_point(|group| group.id < id);
        if self.groups.get(index).is_none_or(|group| group.id != id) {
            self.groups.insert(index, GroupDay { id, ..GroupDay::default() });
        }
        &mut self.groups[index]
    }

    /// Ticks something as done, or takes the tick back.
    pub fn tick(&mut self, what: Done, is_done: bool) {
        self.done.retain(|other| *other != what);
        if is_done {
            self.done.push(what);
        }
    }

    /// Gives what is noted of a group another number.
    pub(super) fn renumber(&mut self, before: u32, after: u32) {
        for done in &mut self.done {
            if let Done::Treated(.., plants) = done
                && *plants == Some(before)
            {
                *plants = Some(after);
            }
        }
        if let Some(index) = self.groups.iter().position(|group| group.id == before) {
            let group = self.groups.remove(index);
            self.note(after, |noted| *noted = GroupDay { id: after, ..group });
        }
    }

    /// Before groups were fed by themselves a day had one line of feed, which every plant got: gives it to these groups.
    pub(super) fn feed_each(&mut self, ids: &[u32]) {
        let fed = |line: &String| number(line.strip_prefix(FED)?.strip_prefix('=')?, Field::Given);
        let Some(at) = self.unknown.iter().position(|line| fed(line).is_some()) else {
            return;
        };
        let litres = fed(&self.unknown.remove(at));
        for id in ids {
            self.note(*id, |group| group.fed = group.fed.or(litres));
        }
    }

    /// Notes what the day was like, unless nothing of it was told.
    pub fn note_weather(&mut self, told: &Yesterday) {
        let weather = Yesterday {
            sun: told.sun.map(|sun| match sun {
                Sun::Hours(hours) => Sun::Hours(kept(hours)),
                Sun::Word(sky) => Sun::Word(sky),
            }),
            warmest: told.warmest.map(kept),
            coolest: told.coolest.map(kept),
            thermometer: told.thermometer,
            rain_millimetres: told.rain_millimetres.map(kept),
            humidity_percent: told.humidity_percent.map(kept),
            wind_metres_per_second: told.wind_metres_per_second.map(kept),
        };
        self.weather = weather.is_told().then_some(weather);
    }

    /// The day as the calculation takes it for one group. The feed's water is part of the day's: where nothing else is noted of that, it
    /// is what was given.
    #[must_use]
    pub fn record(&self, id: u32) -> DayRecord {
        let group = self.group(id);
        DayRecord {
            day: self.day,
            weather: self.weather,
            given: group.and_then(GroupDay::water),
            readings: group.map(GroupDay::readings).unwrap_or_default(),
            before: group.and_then(|group| group.before),
            ..DayRecord::default()
        }
    }

    pub(super) fn page(&self) -> Lines {
        let mut lines = Lines::begun(DAY_PAGE);
        lines.put(ID, &self.day.to_string());
        lines.put(NOTED_AT, &self.noted_at);
        if let Some(weather) = &self.weather {
            let sun = match weather.sun {
                Some(Sun::Word(sky)) => {
                    lines.put("sky", sky.code());
                    None
                }
                Some(Sun::Hours(hours)) => Some(hours),
                None => None,
            };
            lines.put_choice("thermometer", weather.thermometer);
            let numbers = [
                (Field::SunshineHours, sun),
                (Field::Warmest, weather.warmest),
                (Field::Coolest, weather.coolest),
                (Field::Rain, weather.rain_millimetres),
                (Field::Humidity, weather.humidity_percent),
                (Field::Wind, weather.wind_metres_per_second),
            ];
            for (field, value) in numbers {
                if let Some(value) = value {
                    lines.put(field.word(), &decimal(value, 3));
                }
            }
        }
        for done in &self.done {
            match done {
                Done::Task(task) => lines.put(&(DONE.to_owned() + task.code()), YES),
                Done::Treated(pest, control, plants) => {
                    let plants = plants.map(|plants| " ".to_owned() + &plants.to_string()).unwrap_or_default();
                    lines.put(&(TREATED.to_owned() + pest.code()), &(control.code().to_owned() + &plants));
                }
            }
        }
        for group in &self.groups {
            let id = group.id.to_string();
            for (word, litres) in [(GIVEN, group.given), (FED, group.fed), (LIGHTER, group.lighter), (DRIP, group.drip)] {
                if let Some(litres) = litres {
                    lines.put(&(word.to_owned() + &id), &decimal(litres, 3));
                }
            }
            if let Some(feel) = group.feel {
                lines.put(&(FEEL.to_owned() + &id), feel.code());
            }
            for (word, placement) in [(BEFORE, group.before), (STOOD, group.stood)] {
                if let Some(placement) = placement {
                    lines.put(&(word.to_owned() + &id), &placement_line(placement, self.day));
                }
            }
        }
        lines.lines.extend_from_slice(&self.unknown);
        lines
    }

    /// A day from the lines of its page. What cannot be read is kept as it is.
    pub(super) fn from_lines(day: CivilDay, lines: &[&str]) -> Self {
        let mut page = Self::of(day);
        let mut told = Yesterday::default();
        for line in lines {
            let (word, text) = parts(line);
            if !(word == ID || page.takes(word, text) || takes_weather(&mut told, word, text)) {
                page.unknown.push((*line).to_owned());
            }
        }
        page.note_weather(&told);
        page
    }

    /// Takes what a line says of the groups or of the hour. Tells whether it does.
    fn takes(&mut self, word: &str, text: &str) -> bool {
        if word == NOTED_AT {
            text.clone_into(&mut self.noted_at);
            return true;
        }
        if let (Some(task), YES) = (word.strip_prefix(DONE).and_then(Task::from_code), text) {
            self.tick(Done::Task(task), true);
            return true;
        }
        if let Some(treated) = word.strip_prefix(TREATED).and_then(|pest| treated(pest, text)) {
            self.tick(treated, true);
            return true;
        }
        let of = word.trim_end_matches(|character: char| character.is_ascii_digit());
        let Some(id) = word.strip_prefix(of).and_then(|id| id.parse().ok()) else {
            return false;
        };
        if of == FEEL {
            let feel = Feel::from_code(text);
            if feel.is_some() {
                self.group_mut(id).feel = feel;
            }
            return feel.is_some();
        }
        if let BEFORE | STOOD = of {
            let placement = read_placement(text, self.day);
            if placement.is_some() {
                let group = self.group_mut(id);
                *(if of == BEFORE { &mut group.before } else { &mut group.stood }) = placement;
            }
            return placement.is_some();
        }
        if GroupDay::default().litres_mut(of).is_none() {
            return false;
        }
        let litres = number(text, Field::Given).map(kept);
        if litres.is_some()
            && let Some(place) = self.group_mut(id).litres_mut(of)
        {
            *place = litres;
        }
        litres.is_some()
    }
}

/// Takes what a line says of the weather. Tells whether it does.
fn takes_weather(told: &mut Yesterday, word: &str, text: &str) -> bool {
    if let ("sky", Some(sky)) = (word, Sky::from_code(text)) {
        told.sun = told.sun.or(Some(Sun::Word(sky)));
        return true;
    }
    if let ("thermometer", Some(thermometer)) = (word, Thermometer::from_code(text)) {
        told.thermometer = thermometer;
        return true;
    }
    let mut hours = None;
    let places = [
        (Field::SunshineHours, &mut hours),
        (Field::Warmest, &mut told.warmest),
        (Field::Coolest, &mut told.coolest),
        (Field::Rain, &mut told.rain_millimetres),
        (Field::Humidity, &mut told.humidity_percent),
        (Field::Wind, &mut told.wind_metres_per_second),
    ];
    let mut taken = false;
    for (field, place) in places {
        if field.word() == word
            && let Some(value) = number(text, field)
        {
            *place = Some(value);
            taken = true;
        }
    }
    told.sun = hours.map(Sun::Hours).or(told.sun);
    taken
}

/// A stored number of a field, if it can be.
fn number(text: &str, field: Field) -> Option<f64> {
    let range = field.si_range();
    parse_number(text).ok()?.filter(|value| (range.low..=range.high).contains(value))
}
