//! Random texts in a calendar file of the program's, for a reader of another make.

use std::fs;
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

use first_truss::almanac::CivilDay;
use first_truss::pest::{CalendarEntry, calendar_file};
use serde_json::json;

use crate::failure::{Failure, Outcome};
use crate::random::Numbers;

/// Texts in the file.
const TEXTS: usize = 200;
/// Signs of the longest.
const LONGEST: usize = 160;
/// What they are made of: signs of one to four octets, and all that has a meaning of its own.
const SIGNS: [&str; 20] = [
    "a",
    "n",
    "N",
    "z",
    "é",
    "ß",
    "°",
    "½",
    "“",
    "€",
    "🍅",
    "👩‍🌾",
    ",",
    ";",
    "\\",
    "\n",
    ":",
    "\"",
    " ",
    "=",
];

/// Leaves the texts and the file in `folder`, as JSON, and tells where. The seed stands in it.
pub fn written(folder: &Path) -> Outcome<PathBuf> {
    let seed = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |now| now.as_secs());
    let file = folder.join("calendar-texts.json");
    fs::write(&file, of_seed(seed)).map_err(|cause| Failure::at("write", &file, cause))?;
    Ok(file)
}

fn of_seed(seed: u64) -> String {
    let mut numbers = Numbers::of_seed(seed);
    let mut text = || -> String {
        let signs = numbers.below(LONGEST);
        (0..signs).map(|_| numbers.one_of(&SIGNS)).collect()
    };
    let entries: Vec<CalendarEntry> = (0..TEXTS)
        .map(|number| CalendarEntry {
            name: format!("visit-{number}"),
            day: CivilDay::default().days_later(i32::try_from(number).unwrap_or(0)),
            summary: text(),
            description: text(),
            reminds: number % 2 == 0,
        })
        .collect();
    let texts: Vec<_> = entries
        .iter()
        .map(|entry| json!({"uid": entry.name, "day": entry.day.to_string(), "summary": entry.summary, "description": entry.description}))
        .collect();
    let file = calendar_file(&entries, "20260709T083000Z", 3);
    json!({"seed": seed, "texts": texts, "file": file}).to_string()
}

#[cfg(test)]
mod tests {
    use super::{LONGEST, SIGNS, of_seed};

    #[test]
    fn all_signs_stand_in_it_and_a_seed_tells_all() {
        let text = of_seed(1);
        let value: serde_json::Value = serde_json::from_str(&text).unwrap();
        let texts = value["texts"].as_array().unwrap();
        assert_eq!(texts.len(), 200);
        let all: String = texts.iter().map(|text| text["summary"].as_str().unwrap()).collect();
        assert!(SIGNS.iter().all(|sign| all.contains(sign)) && all.len() > 50 * LONGEST);
        assert_eq!(of_seed(1), text);
        assert_ne!(of_seed(2), text);
    }
}
