use std::fmt;

use super::Field;
use crate::quantity::{NumberError, OutOfRange, Units, bounded, decimal, parse_number};

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

    /// Why the text makes no number, if it does not.
    #[must_use]
    pub fn error(&self, field: Field, units: Units) -> Option<EntryError> {
        read(field, units, &self.text).err()
    }

    /// One press of the buttons: so many steps up or down from the number that stands there or is assumed (in SI), kept
    /// within the range.
    pub fn step(&mut self, field: Field, units: Units, assumed: f64, steps: i32) {
        let from = field.typed(units, self.value.filter(|_| !self.text.is_empty()).unwrap_or(assumed));
        let step = field.step(units);
        let range = field.range(units);
        let target = ((from / step).round() + f64::from(steps)) * step;
        let typed = bounded(target, range.low, range.high);
        self.text = decimal(typed, field.decimals(units));
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

    /// Prints the number anew after a change of units. Text that made no number stays as it was typed, and counts if it makes
    /// one in the new unit.
    pub fn change_units(&mut self, field: Field, from: Units, to: Units) {
        let text = std::mem::take(&mut self.text);
        match (read(field, from, &text), self.value) {
            (Ok(None), Some(_)) => (),
            (Ok(_), Some(value)) => *self = Self::holding(field, to, value),
            _ => self.type_text(field, to, &text),
        }
    }
}

/// Reads typed text for a field: `Ok(None)` when it is empty, otherwise the value in SI.
fn read(field: Field, units: Units, text: &str) -> Result<Option<f64>, EntryError> {
    let Some(typed) = parse_number(text).map_err(EntryError::Number)? else {
        return Ok(None);
    };
    let range = field.range(units);
    if field.is_whole() && typed.fract() != 0.0 {
        return Err(EntryError::NotWhole(OutOfRange { range, value: typed }));
    }
    range.check(typed).map_err(EntryError::OutOfRange)?;
    Ok(Some(field.held(units, typed)))
}
