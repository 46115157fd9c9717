use std::fmt;
use std::str::FromStr;

use jiff::civil::{Date, Weekday};

use super::Latitude;

/// A day of the civil calendar, without clock or time zone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CivilDay(Date);

/// Text or numbers that are not a day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DayError {
    text: String,
}

impl fmt::Display for DayError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "“{}” is not a day: write it as 9 July 2026.", self.text)
    }
}

impl std::error::Error for DayError {}

/// The first of July 2026: what stands in where a device has no calendar.
impl Default for CivilDay {
    fn default() -> Self {
        Self(jiff::civil::date(2026, 7, 1))
    }
}

impl CivilDay {
    /// A day by its numbers: year 1 to 9998, month 1 to 12, day 1 to 31.
    ///
    /// # Errors
    /// When the calendar has no such day, as 29 February of an ordinary year.
    pub fn new(year: i16, month: i8, day: i8) -> Result<Self, DayError> {
        let in_reach = (1..=9998).contains(&year);
        Date::new(year, month, day)
            .ok()
            .filter(|_| in_reach)
            .map(Self)
            .ok_or_else(|| DayError {
                text: format!("{year}-{month:02}-{day:02}"),
            })
    }

    /// The day before. The first day that can be is its own yesterday.
    #[must_use]
    pub fn yesterday(self) -> Self {
        Self(self.0.yesterday().unwrap_or(self.0))
    }

    /// The day after. The last day that can be is its own tomorrow.
    #[must_use]
    pub fn tomorrow(self) -> Self {
        Self(self.0.tomorrow().unwrap_or(self.0))
    }

    /// The day so many days later, or earlier when they are negative; at most 1,000 either way.
    #[must_use]
    pub fn days_later(self, days: i32) -> Self {
        let step = if days < 0 { Self::yesterday } else { Self::tomorrow };
        (0..days.unsigned_abs().min(1000)).fold(self, |day, _| step(day))
    }

    /// The month, 1 to 12, in which the north has the season that this day has here.
    #[must_use]
    pub fn northern_month(self, latitude: Latitude) -> u8 {
        let month = self.month();
        if latitude.is_southern() { (month + 5) % 12 + 1 } else { month }
    }

    /// Day of the year, 1 to 366.
    #[must_use]
    pub fn day_of_year(self) -> u16 {
        self.0.day_of_year().unsigned_abs()
    }

    /// Year, 1 to 9998.
    #[must_use]
    pub fn year(self) -> i16 {
        self.0.year()
    }

    /// Month, 1 to 12.
    #[must_use]
    pub fn month(self) -> u8 {
        self.0.month().unsigned_abs()
    }

    /// Day of the month, 1 to 31.
    #[must_use]
    pub fn day(self) -> u8 {
        self.0.day().unsigned_abs()
    }

    /// Days in this month, 28 to 31.
    #[must_use]
    pub fn days_in_month(self) -> u8 {
        self.0.days_in_month().unsigned_abs()
    }

    /// Days in the month before, 28 to 31.
    #[must_use]
    pub fn days_in_month_before(self) -> u8 {
        self.0
            .first_of_month()
            .yesterday()
            .map_or(31, |last| last.days_in_month().unsigned_abs())
    }

    /// Whole days from an earlier day to this one; negative when it is later.
    #[must_use]
    pub fn days_since(self, earlier: Self) -> i32 {
        days_from_era(self.0) - days_from_era(earlier.0)
    }

    /// As a grower reads it: "Thu 9 July".
    #[must_use]
    pub fn spoken(self) -> String {
        format!("{} {} {}", weekday_name(self.0.weekday()), self.day(), self.month_name())
    }

    /// The month's name: "July".
    #[must_use]
    pub fn month_name(self) -> &'static str {
        month_name(self.0.month())
    }
}

/// Days since the start of year 0 of the proleptic Gregorian calendar.
fn days_from_era(date: Date) -> i32 {
    let before = i32::from(date.year()) - 1;
    before * 365 + before.div_euclid(4) - before.div_euclid(100) + before.div_euclid(400) + i32::from(date.day_of_year())
}

const fn weekday_name(weekday: Weekday) -> &'static str {
    match weekday {
        Weekday::Monday => "Mon",
        Weekday::Tuesday => "Tue",
        Weekday::Wednesday => "Wed",
        Weekday::Thursday => "Thu",
        Weekday::Friday => "Fri",
        Weekday::Saturday => "Sat",
        Weekday::Sunday => "Sun",
    }
}

/// The form that is stored and put into `<time datetime>`: "2026-07-09" (ISO 8601).
impl fmt::Display for CivilDay {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.0.year(), self.0.month(), self.0.day())
    }
}

/// Reads "2026-07-09" (ISO 8601) and what a grower writes: "9 July 2026", "9th of July 2026", "July 9, 2026", the month's name in full
/// or its first letters, three at least. A day without its year in four digits, or with its month as a number among others, is refused, never guessed.
impl FromStr for CivilDay {
    type Err = DayError;

    fn from_str(text: &str) -> Result<Self, DayError> {
        let text = text.trim();
        stored(text)
            .or_else(|| written(text))
            .and_then(|(year, month, day)| Self::new(year, month, day).ok())
            .ok_or_else(|| DayError {
                text: text.chars().take(24).collect(),
            })
    }
}

/// Year, month and day of the stored form.
fn stored(text: &str) -> Option<(i16, i8, i8)> {
    let mut parts = text.splitn(3, '-');
    let (year, month, day) = (parts.next()?, parts.next()?, parts.next()?);
    Some((year_of(year)?, month.parse().ok()?, day.parse().ok()?))
}

/// Year, month and day of what a grower writes.
fn written(text: &str) -> Option<(i16, i8, i8)> {
    let mut parts = [""; 3];
    let mut free = parts.iter_mut();
    for part in text.split([' ', ',']) {
        if !part.is_empty() && !part.eq_ignore_ascii_case("of") {
            *free.next()? = part;
        }
    }
    let [first, second, year] = parts;
    let (month, day) = match month_named(first) {
        None => (month_named(second)?, first),
        Some(month) => (month, second),
    };
    Some((year_of(year)?, month, without_ordinal(day).parse().ok()?))
}

/// A year in four digits (definition).
fn year_of(text: &str) -> Option<i16> {
    text.parse().ok().filter(|_| text.len() == 4)
}

/// The figures of "9th", and what has no such ending as it stands.
fn without_ordinal(text: &str) -> &str {
    let cut = text.len().checked_sub(2).and_then(|end| text.split_at_checked(end));
    match cut {
        Some((figures, ending)) if ["st", "nd", "rd", "th"].iter().any(|ordinal| ordinal.eq_ignore_ascii_case(ending)) => figures,
        _ => text,
    }
}

/// The number of a month by its name or its first letters, three at least, whatever their case (choice).
fn month_named(name: &str) -> Option<i8> {
    let mut months = 1..=12;
    months.find(|&month| {
        name.len() >= 3
            && month_name(month)
                .get(..name.len())
                .is_some_and(|head| head.eq_ignore_ascii_case(name))
    })
}

/// The name of a month, 1 to 12.
const fn month_name(month: i8) -> &'static str {
    match month {
        1 => "January",
        2 => "February",
        3 => "March",
        4 => "April",
        5 => "May",
        6 => "June",
        7 => "July",
        8 => "August",
        9 => "September",
        10 => "October",
        11 => "November",
        _ => "December",
    }
}
