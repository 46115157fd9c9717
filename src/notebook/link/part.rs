use super::super::{Coded, Entry, Field, NAME_LENGTH};
use crate::almanac::CivilDay;
use crate::quantity::{Units, decimal};

/// The key of a part's text, which is its last.
const TEXT: u8 = b'N';
/// What stands between the numbers of one key.
const BETWEEN: u8 = b'-';
/// What stands before a number below nought, and around a sign that a link cannot hold.
const MINUS: u8 = b'~';
/// Parts of a litre in which a pour is noted (limit).
pub const POURED: f64 = 1e3;
/// Digits of the longest number (limit).
const MOST_DIGITS: usize = 10;
/// Decimals of the finest number (limit).
const MOST_DECIMALS: i64 = 6;
/// The first year of a day in a link (limit).
const FIRST_YEAR: i64 = 2000;
/// Years of which a day in a link can be (limit).
const YEARS: i64 = 100;

/// Whole numbers that can be, and the one that is left out.
#[derive(Clone, Copy)]
pub struct Limit {
    pub low: i64,
    pub high: i64,
    pub usual: i64,
}

impl Limit {
    /// From nought, which is usual.
    pub const fn to(high: i64) -> Self {
        Self { low: 0, high, usual: 0 }
    }
}

/// One part of a link: its kind, numbers under keys, and a text. The same steps write it and read it, so that both agree.
#[derive(Default)]
pub struct Part {
    pub kind: u8,
    lists: Vec<(u8, Vec<i64>)>,
    text: String,
    reads: bool,
    /// What was read that cannot be.
    pub wrong: Option<&'static str>,
}

/// Appends a number to base 36.
pub fn put_number(out: &mut String, value: u64) {
    if value >= 36 {
        put_number(out, value / 36);
    }
    let digit = value % 36;
    out.extend(char::from_digit(u32::try_from(digit).unwrap_or_default(), 36));
}

/// A number to base 36 of digits and small letters.
pub fn number(digits: &[u8]) -> Option<u64> {
    if digits.is_empty() || digits.len() > MOST_DIGITS {
        return None;
    }
    digits.iter().try_fold(0, |sum: u64, &digit| {
        let digit = char::from(digit).to_digit(36).filter(|_| !digit.is_ascii_uppercase())?;
        Some(sum * 36 + u64::from(digit))
    })
}

impl Part {
    /// A part to be written.
    pub fn begun(kind: u8) -> Self {
        Self { kind, ..Self::default() }
    }

    /// A part to be read, unless it is not written as one.
    pub fn read(written: &str) -> Option<Self> {
        let (&kind, mut rest) = written.as_bytes().split_first()?;
        let mut part = Self {
            kind,
            reads: true,
            ..Self::default()
        };
        while let Some((&key, after)) = rest.split_first() {
            if !key.is_ascii_uppercase() {
                return None;
            }
            if key == TEXT {
                part.text = read_text(after)?;
                break;
            }
            let end = after.iter().position(u8::is_ascii_uppercase).unwrap_or(after.len());
            let (values, next) = after.split_at_checked(end)?;
            let values = values.split(|&sign| sign == BETWEEN).map(|value| match value.split_first() {
                Some((&MINUS, digits)) => number(digits).and_then(|value| i64::try_from(value).ok()).map(|value| -value),
                _ => number(value).and_then(|value| i64::try_from(value).ok()),
            });
            part.lists.push((key, values.collect::<Option<_>>()?));
            rest = next;
        }
        Some(part)
    }

    /// The part as it stands in a link.
    pub fn put_into(&self, out: &mut String) {
        out.push(char::from(self.kind));
        self.put_lists(out);
        if !self.text.is_empty() {
            out.push(char::from(TEXT));
            put_text(out, &self.text);
        }
    }

    /// Its numbers under their keys.
    pub fn put_lists(&self, out: &mut String) {
        for (key, values) in &self.lists {
            out.push(char::from(*key));
            for (place, value) in values.iter().enumerate() {
                if place > 0 {
                    out.push(char::from(BETWEEN));
                }
                if *value < 0 {
                    out.push(char::from(MINUS));
                }
                put_number(out, value.unsigned_abs());
            }
        }
    }

    fn refuse(&mut self, what: &'static str) {
        self.wrong = self.wrong.or(Some(what));
    }

    /// Several numbers under one key, or none. Writing, they are moved within their limits; reading, one beyond them is refused.
    pub fn list(&mut self, key: u8, what: &'static str, values: Option<&[i64]>, limits: &[Limit]) -> Option<Vec<i64>> {
        if self.reads {
            let (_, list) = self.lists.iter().find(|(other, _)| *other == key)?;
            let mut list = list.clone();
            list.extend(limits.iter().skip(list.len()).map(|limit| limit.usual));
            let can_be = list.len() == limits.len()
                && list
                    .iter()
                    .zip(limits)
                    .all(|(value, limit)| (limit.low..=limit.high).contains(value));
            if !can_be {
                self.refuse(what);
                return None;
            }
            return Some(list);
        }
        let bounded = values?
            .iter()
            .zip(limits)
            .map(|(value, limit)| (*value).max(limit.low).min(limit.high));
        let bounded: Vec<i64> = bounded.collect();
        let mut kept = bounded.clone();
        while kept.len() > 1 && kept.last() == limits.get(kept.len() - 1).map(|limit| &limit.usual) {
            kept.pop();
        }
        self.lists.push((key, kept));
        Some(bounded)
    }

    /// A number that is left out where it is usual.
    pub fn whole(&mut self, key: u8, what: &'static str, value: i64, limit: Limit) -> i64 {
        let told = Some(value).filter(|value| *value != limit.usual);
        self.told(key, what, told, limit).unwrap_or(limit.usual)
    }

    /// A number that may be missing.
    pub fn told(&mut self, key: u8, what: &'static str, value: Option<i64>, limit: Limit) -> Option<i64> {
        let value = value.map(|value| [value]);
        self.list(key, what, value.as_ref().map(<[i64; 1]>::as_slice), &[limit])?
            .first()
            .copied()
    }

    /// A choice, by its place among all.
    pub fn choice<T: Coded + Default>(&mut self, key: u8, choice: T) -> T {
        self.told_choice(key, Some(choice).filter(|choice| *choice != T::default()))
            .unwrap_or_default()
    }

    /// A choice that may be missing.
    pub fn told_choice<T: Coded>(&mut self, key: u8, choice: Option<T>) -> Option<T> {
        let place = choice.and_then(|choice| T::CODES.iter().position(|(_, other)| *other == choice));
        let at = self.told(key, "a choice", place.map(signed), Limit::to(signed(T::CODES.len()) - 1))?;
        Some(T::CODES.get(usize::try_from(at).ok()?)?.1)
    }

    /// A number field, with as many decimals as it takes.
    pub fn entry(&mut self, key: u8, field: Field, units: Units, entry: &mut Entry) {
        let limits = [
            Limit {
                low: -9_999_999_999,
                high: 9_999_999_999,
                usual: i64::MIN,
            },
            Limit {
                low: 0,
                high: MOST_DECIMALS,
                usual: signed(field.decimals(units)),
            },
        ];
        let typed = entry.value().map(|value| as_typed(field, units, value));
        let what = field.range(units).what;
        let told = self.list(key, what, typed.as_ref().map(<[i64; 2]>::as_slice), &limits);
        *entry = Entry::default();
        let Some(&[count, decimals]) = told.as_deref() else {
            return;
        };
        let typed = float(count) / ten_to(decimals);
        if field.range(units).check(typed).is_err() {
            return self.refuse(what);
        }
        // At the ends of the range more than one text means the same number.
        let held = field.held(units, typed);
        let [count, decimals] = as_typed(field, units, held);
        if field.is_whole() && decimals > 0 {
            // It has grown since it was typed.
            return entry.hold(Some(held));
        }
        let places = usize::try_from(decimals).unwrap_or_default();
        entry.type_text(field, units, &decimal(float(count) / ten_to(decimals), places));
    }

    /// A day, by its year, month and number.
    pub fn day(&mut self, key: u8, day: CivilDay) -> CivilDay {
        let years = (i64::from(day.year()) - FIRST_YEAR).max(0);
        let year = FIRST_YEAR + years.min(YEARS - 1);
        let packed = ((year - FIRST_YEAR) * 12 + i64::from(day.month()) - 1) * 31 + i64::from(day.day()) - 1;
        let packed = self.told(key, "a day", Some(packed), Limit::to(YEARS * 12 * 31 - 1)).unwrap_or(-1);
        let (year, month, number) = (FIRST_YEAR + packed / 372, packed / 31 % 12 + 1, packed % 31 + 1);
        let read = match (i16::try_from(year), i8::try_from(month), i8::try_from(number)) {
            (Ok(year), Ok(month), Ok(number)) => CivilDay::new(year, month, number).ok(),
            _ => None,
        };
        read.unwrap_or_else(|| {
            self.refuse("a day");
            day
        })
    }

    /// The text of the part, at most as long as a name.
    pub fn text(&mut self, text: &str) -> String {
        if !self.reads {
            self.text = text.chars().filter(|sign| !sign.is_control()).take(NAME_LENGTH).collect();
        } else if self.text.chars().count() > NAME_LENGTH {
            self.refuse("a name");
        }
        self.text.clone()
    }
}

/// A count as a signed number.
pub fn signed(count: usize) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

/// Whole numbers of a link lie far below 2⁵³.
#[expect(clippy::cast_precision_loss, reason = "at most 36¹⁰, which is below 2⁵³")]
pub const fn float(whole: i64) -> f64 {
    whole as f64
}

/// The nearest whole number.
#[expect(clippy::cast_possible_truncation, reason = "a float cast saturates")]
pub fn nearest(value: f64) -> i64 {
    value.round() as i64
}

fn ten_to(decimals: i64) -> f64 {
    (0..decimals).fold(1.0, |unit: f64, _| unit * 10.0)
}

/// A number as it is typed: so many parts, and decimals, with no more of them than bring it back to the last bit.
fn as_typed(field: Field, units: Units, held: f64) -> [i64; 2] {
    let mut decimals = signed(field.decimals(units));
    loop {
        let count = nearest(field.typed(units, held) * ten_to(decimals));
        let back = field.held(units, float(count) / ten_to(decimals));
        if decimals >= MOST_DECIMALS || (back - held).abs() <= 0.0 {
            return [count, decimals];
        }
        decimals += 1;
    }
}

fn put_text(out: &mut String, text: &str) {
    for sign in text.chars() {
        match sign {
            ' ' => out.push('_'),
            '-' => out.push('-'),
            sign if sign.is_ascii_alphanumeric() => out.push(sign),
            sign => {
                out.push(char::from(MINUS));
                put_number(out, u64::from(u32::from(sign)));
                out.push(char::from(MINUS));
            }
        }
    }
}

fn read_text(written: &[u8]) -> Option<String> {
    let mut text = String::new();
    for (place, piece) in written.split(|&sign| sign == MINUS).enumerate() {
        if place % 2 == 1 {
            let sign = char::from_u32(u32::try_from(number(piece)?).ok()?)?;
            text.extend(Some(sign).filter(|sign| !sign.is_control()));
        } else {
            text.extend(piece.iter().map(|&sign| if sign == b'_' { ' ' } else { char::from(sign) }));
        }
    }
    Some(text)
}
