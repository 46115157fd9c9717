//! Measured numbers as they are printed.

use super::spread::Spread;

#[derive(Clone, Copy)]
pub enum Unit {
    Bytes,
    Count,
    /// Of a visit or a keystroke, or of a task, of which the browser tells from 50 ms on: 0 is a shorter one.
    Milliseconds,
    /// How many times the plain page's.
    TimesPlain,
    /// The browser's own measure of how much moved, and how far.
    Shift,
}

impl Unit {
    /// The number without its unit.
    pub fn figure(self, number: f64) -> String {
        match self {
            Self::Milliseconds if number < 1.0 => "under 50".to_string(),
            Self::Bytes | Self::Count | Self::Milliseconds => grouped(number),
            Self::TimesPlain => format!("{number:.2}"),
            Self::Shift => format!("{number:.4}"),
        }
    }

    /// The number with its unit.
    pub fn shown(self, number: f64) -> String {
        let unit = match self {
            Self::Bytes => " bytes",
            Self::Milliseconds => " ms",
            Self::TimesPlain => " × plain",
            Self::Count | Self::Shift => "",
        };
        self.figure(number) + unit
    }

    /// The middle and the range of several runs, or a dash when there are none.
    pub fn spread(self, numbers: &[f64]) -> String {
        Spread::of(numbers).map_or_else(
            || "–".to_string(),
            |Spread { least, median, most }| format!("{} ({} to {})", self.shown(median), self.figure(least), self.figure(most)),
        )
    }
}

/// A whole number with a comma before each three digits.
fn grouped(number: f64) -> String {
    let digits = format!("{number:.0}");
    let mut text = String::new();
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::{Unit, grouped};

    #[test]
    fn thousands_are_set_apart() {
        for (number, text) in [
            (0.0, "0"),
            (999.6, "1,000"),
            (90_488.0, "90,488"),
            (1_441_792.0, "1,441,792"),
            (123.4, "123"),
        ] {
            assert_eq!(grouped(number), text);
        }
    }

    #[test]
    fn figures_carry_their_units() {
        assert_eq!(Unit::Bytes.shown(65_000.0), "65,000 bytes");
        assert_eq!(Unit::Shift.shown(0.0), "0.0000");
        assert_eq!(Unit::Milliseconds.shown(0.0), "under 50 ms");
        assert_eq!(Unit::TimesPlain.spread(&[1.0, 1.25, 3.0]), "1.25 × plain (1.00 to 3.00)");
        assert_eq!(Unit::Milliseconds.spread(&[]), "–");
    }
}
