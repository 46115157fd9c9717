use std::fmt;

use super::Field;
use crate::quantity::{Length, NumberError, OutOfRange, TemperatureScale, UnitSystem, Units, bounded, decimal, parse_number};

/// What stands in a number field: the text exactly as typed and the last number that it made. Of an earlier day only the
/// number is left.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Entry {
    text: String,
    value: Option<f64>,
}

/// Why typed text gives no number for its field.
#[derive(Clone, Debug, PartialEq)]
pub enum EntryError {
    /// It is not a number.
    Number(NumberError),
    /// It cannot be.
    OutOfRange(OutOfRange),
    /// It would have to be whole.
    NotWhole(OutOfRange),
}

impl fmt::Display for EntryError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Number(error) => error.fmt(f),
            Self::OutOfRange(error) => error.fmt(f),
            Self::NotWhole(OutOfRange { range, value }) => {
                write!(f, "{} are counted whole: {} cannot be right.", range.what, decimal(*value, 2))
            }
        }
    }
}

impl std::error::Error for EntryError {}

/// Decimals of litres in which two sizes of a can that are one print alike (choice: a hundredth of a millilitre).
const SAME_CAN: usize = 5;
/// Other words for the units that fields print.
const UNIT_WORDS: [(&str, &str); 20] = [
    ("l", "litres"),
    ("lt", "litres"),
    ("ltr", "litres"),
    ("litre", "litres"),
    ("liter", "litres"),
    ("liters", "litres"),
    ("gal", "gallons"),
    ("gallon", "gallons"),
    ("pt", "pints"),
    ("pint", "pints"),
    ("foot", "ft"),
    ("feet", "ft"),
    ("metre", "m"),
    ("metres", "m"),
    ("m2", "m²"),
    ("in", "inches"),
    ("inch", "inches"),
    ("lbs", "lb"),
    ("c", "°C"),
    ("f", "°F"),
];

/// Typed text in its number and the units that a word behind it names: those of the grower where there is none. A gallon or pint is
/// the grower's own; to one who measures in litres it has to be called UK or US.
fn named(field: Field, units: Units, text: &str) -> (&str, Units) {
    let text = text.trim();
    // A unit begins with a letter or a sign of its own, and may hold a slash, a power or a space: m/s, m², sq ft.
    let begins_unit = |sign: char| sign.is_ascii_alphabetic() || sign == '°' || sign == '%';
    let first = text.find(begins_unit).unwrap_or(text.len());
    // What holds no digit is no number, but may have its unit behind it: “ten litres”.
    let later = text.match_indices(' ').map(|(place, _)| place).filter(|_| !has_digit(text));
    let mut places = std::iter::once(first).chain(later);
    places
        .find_map(|place| {
            let (number, word) = text.split_at_checked(place)?;
            Some((number.trim_end(), unit_called(field, units, word)?))
        })
        .unwrap_or((text, units))
}

fn has_digit(text: &str) -> bool {
    text.contains(|sign: char| sign.is_ascii_digit())
}

/// Whether compost is told there: in litres everywhere, or by the gallons of a bucket where a word says so.
const fn is_compost(field: Field) -> bool {
    matches!(field, Field::PotSize | Field::BagSize)
}

/// The units of gallons in which compost is told, if it is.
fn gallons_of_compost(field: Field, units: Units, text: &str) -> Option<Units> {
    let (number, named) = named(field, units, text);
    let is_so = is_compost(field) && number != text.trim() && named.system != UnitSystem::Metric;
    is_so.then_some(named)
}

/// Words behind what is counted.
const COUNTED: [&str; 12] = [
    "day", "days", "plant", "plants", "truss", "trusses", "time", "times", "use", "uses", "spray", "sprays",
];

/// What words say that name no unit of the field's own, in SI: a latitude by its half of the world, a height in centimetres, and what
/// is counted with its name behind it.
fn told_otherwise(field: Field, text: &str) -> Option<f64> {
    let text = text.trim();
    if let Some(metres) = feet_and_inches(text).filter(|_| matches!(field, Field::Height | Field::StoppedAt)) {
        return Some(metres);
    }
    let word = text
        .rsplit(|sign: char| !sign.is_ascii_alphabetic())
        .next()
        .filter(|word| !word.is_empty())?;
    let number = text.get(..text.len() - word.len())?.trim_end().trim_end_matches('°');
    let number = parse_number(number).ok()??;
    let is = |other: &&str| other.eq_ignore_ascii_case(word);
    match field {
        Field::Latitude if ["s", "south"].iter().any(&is) => Some(-number.abs()),
        Field::Latitude if ["n", "north"].iter().any(&is) => Some(number),
        Field::Height | Field::StoppedAt if is(&"cm") => Some(number / 100.0),
        _ if field.is_whole() && number.fract() == 0.0 && COUNTED.iter().any(is) => Some(number),
        _ => None,
    }
}

/// A height in feet and inches, of which twelve are a foot (exact), as they are written and said, m: `4'6"`, `4 ft 6`, `4ft 6in`.
fn feet_and_inches(text: &str) -> Option<f64> {
    let is_mark = |sign: char| matches!(sign, '\'' | '’' | 'f');
    let (feet, rest) = text.split_at_checked(text.find(is_mark)?)?;
    let inches = rest.trim_start_matches(|sign| is_mark(sign) || sign == 't');
    let inches = inches.trim_end_matches(['"', '”', 'i', 'n']);
    let inches = match parse_number(inches).ok()? {
        Some(inches) if (0.0..12.0).contains(&inches) => inches,
        None if !rest.starts_with('f') => 0.0,
        _ => return None,
    };
    Some(Length::from_feet(parse_number(feet).ok()?? + inches / 12.0).metres())
}

/// The units of which a word is one, for a field.
fn unit_called(field: Field, units: Units, word: &str) -> Option<Units> {
    let word = word.trim_start();
    let (country, word) = match word.split_once(' ') {
        Some((country, word)) if country.eq_ignore_ascii_case("uk") || country.eq_ignore_ascii_case("us") => (country, word),
        _ => ("", word),
    };
    let other = UNIT_WORDS.iter().find(|(other, _)| other.eq_ignore_ascii_case(word));
    let word = other.map_or(word, |(_, word)| word);
    let is_liquid = word.eq_ignore_ascii_case("gallons") || word.eq_ignore_ascii_case("pints");
    let of_system = |system| Units { system, ..units };
    let of_scale = |temperature| Units { temperature, ..units };
    let all = [
        units,
        of_system(UnitSystem::Imperial),
        of_system(UnitSystem::Metric),
        of_system(UnitSystem::Us),
        of_scale(TemperatureScale::Celsius),
        of_scale(TemperatureScale::Fahrenheit),
    ];
    for named in all {
        let unit = if is_compost(field) { Field::Can } else { field }.unit(named).trim_start();
        let (of, unit) = unit.strip_prefix("US ").map_or(("uk", unit), |unit| ("us", unit));
        let is_meant = if is_liquid {
            country.eq_ignore_ascii_case(of) || country.is_empty() && named == units
        } else {
            country.is_empty()
        };
        if is_meant && unit.eq_ignore_ascii_case(word) {
            return Some(named);
        }
    }
    None
}

impl Entry {
    /// A value as if it had been typed.
    #[must_use]
    pub fn holding(field: Field, units: Units, held: f64) -> Self {
        Self {
            text: decimal(field.typed(units, held), field.decimals(units)),
            value: Some(held),
        }
    }

    /// What was stored: the text, and the last number in SI where the text alone does not give it.
    pub(super) fn kept(field: Field, units: Units, text: &str, held: Option<f64>) -> Self {
        let mut entry = Self::default();
        entry.type_text(field, units, text);
        let range = field.si_range();
        entry.value = held.filter(|held| (range.low..=range.high).contains(held)).or(entry.value);
        entry
    }

    /// The text as typed.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The last number that the text made, in SI; `None` when the field was left or made empty.
    #[must_use]
    pub const fn value(&self) -> Option<f64> {
        self.value
    }

    /// Takes typed text. Text that makes no number is kept, and the last number with it.
    pub fn type_text(&mut self, field: Field, units: Units, text: &str) {
        // A field has one line and no signs that cannot be seen.
        self.text = text.chars().map(|sign| if sign.is_control() { ' ' } else { sign }).collect();
        if let Ok(value) = read(field, units, &self.text) {
            self.value = value;
        }
    }

    /// Takes typed text in place of what stands here: where that has a unit behind its number, another number, none, or words that
    /// are no number are meant in it too, unless they name their own. Tells whether the unit was put behind what was typed.
    pub fn retype_text(&mut self, field: Field, units: Units, text: &str) -> bool {
        let unit = self.unit(field, units).to_owned();
        let names_its_own = named(field, units, text).0 != text.trim();
        // Letters behind a digit may be on the way to a unit.
        let may_name_it = text.contains(char::is_alphabetic) && has_digit(text);
        let is_bare = !(unit.is_empty() || names_its_own || may_name_it);
        if is_bare {
            let whole = [text.trim(), " ", &unit].concat();
            self.type_text(field, units, whole.trim_start());
        } else {
            self.type_text(field, units, text);
        }
        is_bare
    }

    /// Why the text makes no number, if it does not.
    #[must_use]
    pub fn error(&self, field: Field, units: Units) -> Option<EntryError> {
        read(field, units, &self.text).err()
    }

    /// The units in which its number stands: those of the grower, unless a word behind the number names others.
    #[must_use]
    pub fn units(&self, field: Field, units: Units) -> Units {
        named(field, units, &self.text).1
    }

    /// Tells a volume in the unit of another system, with its name behind the number, or that alone where there is no number. Litres
    /// that went through gallons of six decimals are round again.
    pub(super) fn tell_in(&mut self, field: Field, units: Units, system: UnitSystem) {
        let other = Units { system, ..units };
        let unit = match system {
            UnitSystem::Imperial => "UK gallons",
            UnitSystem::Metric => "litres",
            UnitSystem::Us => "US gallons",
        };
        let held = self.value;
        let number = held.map(|held| decimal(field.typed(other, held), field.decimals(other)) + " ");
        self.type_text(field, units, &(number.unwrap_or_default() + unit));
        let alike = |(held, printed): (f64, f64)| decimal(held, SAME_CAN) == decimal(printed, SAME_CAN);
        let is_round = held.zip(self.value).is_some_and(alike);
        if !is_round {
            self.value = held;
        }
    }

    /// Whether a unit stands behind its number, or alone.
    #[must_use]
    pub fn is_named(&self, field: Field, units: Units) -> bool {
        !self.unit(field, units).is_empty()
    }

    /// The unit behind the number, as typed; empty where there is none.
    fn unit(&self, field: Field, units: Units) -> &str {
        let text = self.text.trim();
        text.get(named(field, units, text).0.len()..).unwrap_or_default().trim_start()
    }

    /// The text without a unit behind its number.
    #[must_use]
    pub fn number(&self, field: Field, units: Units) -> &str {
        named(field, units, &self.text).0
    }

    /// One press of the buttons: so many steps (not 0) up or down from the number that is shown there, typed or assumed (in
    /// SI), kept within the range. From between two steps the first leads to the next of them: 2.8 ft goes up to 3 and down to 2½.
    /// A unit behind the number stays, but compost is stepped in litres.
    pub fn step(&mut self, field: Field, units: Units, assumed: f64, steps: i32) {
        let is_in_gallons = gallons_of_compost(field, units, &self.text).is_some();
        let unit = if is_in_gallons { "" } else { self.unit(field, units) }.to_owned();
        let units = self.units(field, units);
        let from = field.typed(units, self.value.filter(|_| !self.text.is_empty()).unwrap_or(assumed));
        let step = field.step(units);
        let range = field.range(units);
        let along = f64::from(steps.signum());
        // What is printed as a step is on it: printing leaves out half of the last digit, of which 0.49 is taken (choice).
        let left_out = (0..field.decimals(units)).fold(0.49, |part, _| part / 10.0);
        let passed = ((along * from + left_out) / step).floor();
        let target = (along * passed + f64::from(steps)) * step;
        let typed = bounded(target, range.low, range.high);
        self.text = decimal(typed, field.decimals(units));
        if !unit.is_empty() {
            self.text = [&self.text, " ", &unit].concat();
        }
        self.value = Some(field.held(units, typed));
    }

    /// Whether a number of an earlier day stands here.
    #[must_use]
    pub const fn is_of_earlier_day(&self) -> bool {
        self.text.is_empty() && self.value.is_some()
    }

    /// Keeps the number for later days: the field is then as if nothing was typed today. Text that made no number stays.
    pub(super) fn leave_number(&mut self, field: Field, units: Units) {
        if self.error(field, units).is_none() {
            self.text.clear();
        }
    }

    /// Takes what a number of an earlier day has become since.
    pub(super) fn carry(&mut self, value: Option<f64>) {
        if self.is_of_earlier_day() && value.is_some() {
            self.value = value;
        }
    }

    /// Holds a number as if of an earlier day, or nothing.
    pub(super) fn hold(&mut self, value: Option<f64>) {
        *self = Self {
            text: String::new(),
            value,
        };
    }

    /// Prints the number anew after a change of units. Text that says the same in both, or made no number, stays as it was typed;
    /// the latter counts if it makes one in the new unit.
    pub fn change_units(&mut self, field: Field, from: Units, to: Units) {
        let text = std::mem::take(&mut self.text);
        let says_now = read(field, to, &text).ok().flatten();
        match (read(field, from, &text), self.value) {
            (_, Some(_)) if says_now == self.value => self.text = text,
            (Ok(None), Some(_)) => (),
            (Ok(_), Some(value)) => *self = Self::holding(field, to, value),
            _ => self.type_text(field, to, &text),
        }
    }
}

/// Reads typed text for a field: `Ok(None)` when it is empty, otherwise the value in SI.
fn read(field: Field, units: Units, text: &str) -> Result<Option<f64>, EntryError> {
    if let Some(held) = told_otherwise(field, text) {
        let range = field.range(units);
        range.check(field.typed(units, held)).map_err(EntryError::OutOfRange)?;
        return Ok(Some(held));
    }
    let gallons = gallons_of_compost(field, units, text);
    let (number, units) = named(field, units, text);
    let Some(typed) = parse_number(number).map_err(EntryError::Number)? else {
        return Ok(None);
    };
    let typed = gallons.map_or(typed, |gallons| gallons.can(typed).litres());
    let range = field.range(units);
    if field.is_whole() && typed.fract() != 0.0 {
        return Err(EntryError::NotWhole(OutOfRange { range, value: typed }));
    }
    range.check(typed).map_err(EntryError::OutOfRange)?;
    Ok(Some(field.held(units, typed)))
}
