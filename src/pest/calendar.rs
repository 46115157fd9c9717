use crate::almanac::CivilDay;

/// Octets that a line may hold without its end (RFC 5545, 3.1; from memory, confirmed in secondary pages).
const LONGEST_LINE: usize = 75;
/// The end of a line.
const LINE_END: &str = "\r\n";
/// Who made the file.
const PRODUCT: &str = "-//First Truss//Pest repeats//EN";
/// What makes an identifier one of ours: the name is kept for examples and never anybody's.
const DOMAIN: &str = "@first-truss.invalid";

/// One entry of a whole day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CalendarEntry {
    /// What it is known by, the same at each export: letters, digits and hyphens.
    pub name: String,
    /// The day.
    pub day: CivilDay,
    /// The line that is seen.
    pub summary: String,
    /// What is read when it is opened.
    pub description: String,
    /// Whether it reminds at eight in the morning.
    pub reminds: bool,
}

/// The entries as a calendar file (RFC 5545), for every program that keeps dates.
///
/// `stamp` is when it is written, in UTC, as `20260709T083000Z`; `revision` rises with each change, so that an entry known by the
/// same name moves to its new day. The same input gives the same bytes.
#[must_use]
pub fn calendar_file(entries: &[CalendarEntry], stamp: &str, revision: u32) -> String {
    let mut file = String::new();
    for line in ["BEGIN:VCALENDAR", "VERSION:2.0"] {
        put(&mut file, line, "");
    }
    put(&mut file, "PRODID:", PRODUCT);
    put(&mut file, "CALSCALE:GREGORIAN", "");
    let sequence = revision.to_string();
    for entry in entries {
        put(&mut file, "BEGIN:VEVENT", "");
        put(&mut file, "UID:", &(entry.name.clone() + DOMAIN));
        put(&mut file, "DTSTAMP:", stamp);
        put(&mut file, "SEQUENCE:", &sequence);
        put(&mut file, "DTSTART;VALUE=DATE:", &basic(entry.day));
        // The day on which it is over, which is the next.
        put(&mut file, "DTEND;VALUE=DATE:", &basic(entry.day.tomorrow()));
        put(&mut file, "SUMMARY:", &escaped(&entry.summary));
        put(&mut file, "DESCRIPTION:", &escaped(&entry.description));
        put(&mut file, "TRANSP:TRANSPARENT", "");
        if entry.reminds {
            put(&mut file, "BEGIN:VALARM", "");
            put(&mut file, "ACTION:DISPLAY", "");
            put(&mut file, "DESCRIPTION:", &escaped(&entry.summary));
            put(&mut file, "TRIGGER:PT8H", "");
            put(&mut file, "END:VALARM", "");
        }
        put(&mut file, "END:VEVENT", "");
    }
    put(&mut file, "END:VCALENDAR", "");
    file
}

/// One content line, folded so that no line holds more than 75 octets; the blank that a further line begins with counts, and no
/// character is torn apart.
fn put(file: &mut String, name: &str, value: &str) {
    let mut octets = 0;
    for character in name.chars().chain(value.chars()) {
        if octets + character.len_utf8() > LONGEST_LINE {
            file.push_str(LINE_END);
            file.push(' ');
            octets = 1;
        }
        file.push(character);
        octets += character.len_utf8();
    }
    file.push_str(LINE_END);
}

/// Text with what has a meaning of its own marked, and without other control characters (RFC 5545, 3.3.11). A colon stays as it is.
fn escaped(text: &str) -> String {
    let mut escaped = String::new();
    let mut characters = text.chars().peekable();
    while let Some(character) = characters.next() {
        match character {
            // One end of a line, though it takes two characters. A search for both would bring a tenfold of this code.
            '\r' if characters.peek() == Some(&'\n') => {}
            '\\' | ';' | ',' => {
                escaped.push('\\');
                escaped.push(character);
            }
            '\n' => escaped.push_str("\\n"),
            other if other.is_control() && other != '\t' => escaped.push(' '),
            other => escaped.push(other),
        }
    }
    escaped
}

/// `20260709`.
fn basic(day: CivilDay) -> String {
    day.to_string().replace('-', "")
}
