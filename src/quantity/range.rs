use std::fmt;

use super::decimal;

/// The values that are possible for something a person types, in the unit they type it in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// What it is, as it stands at the start of a sentence: "Hours of sun".
    pub what: &'static str,
    /// The least possible value.
    pub low: f64,
    /// The greatest possible value.
    pub high: f64,
    /// The unit's words after a number, with a leading space where one is needed: " hours", "°C", "".
    pub unit: &'static str,
}

impl Range {
    /// The value, when it is possible.
    ///
    /// # Errors
    /// A sentence with the value and the range when it is outside, or is not a number.
    pub fn check(self, value: f64) -> Result<f64, OutOfRange> {
        if value >= self.low && value <= self.high {
            Ok(value)
        } else {
            Err(OutOfRange { range: self, value })
        }
    }
}

/// A value that cannot be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OutOfRange {
    /// What was possible.
    pub range: Range,
    /// What came instead.
    pub value: f64,
}

impl fmt::Display for OutOfRange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Range { what, low, high, unit } = self.range;
        let value = decimal(self.value, 2);
        write!(
            f,
            "{what} can be {} to {}{unit}: {value}{} cannot be right.",
            decimal(low, 2),
            decimal(high, 2),
            unit_after(&value, unit)
        )
    }
}

impl std::error::Error for OutOfRange {}

/// The unit's words after a printed number: " litre" after "1", else " litres".
#[must_use]
pub fn unit_after(figure: &str, unit: &'static str) -> &'static str {
    match (figure, unit) {
        ("1", " inches") => " inch",
        ("1", _) => unit.strip_suffix('s').unwrap_or(unit),
        _ => unit,
    }
}
