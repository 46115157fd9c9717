use super::{Control, Pest, Warmth};
use crate::almanac::CivilDay;

/// Why a living control waits, or what it asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Wait {
    /// The week is too cool: its mean, and the least it takes, °C.
    TooCool {
        /// Mean of the week, or of the soil.
        mean: f64,
        /// The least.
        least: f64,
    },
    /// The week is too warm, °C.
    TooWarm {
        /// Mean of the week.
        mean: f64,
        /// The most.
        most: f64,
    },
    /// Something was sprayed lately.
    AfterSpray,
    /// What was sprayed may last: its label says how long.
    AskLabel,
}

/// What a living control needs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Needs {
    /// Least mean of a week, or of the soil, °C.
    pub least_mean: f64,
    /// Most, °C.
    pub most_mean: f64,
    /// Least of a night, °C.
    pub least_night: f64,
    /// Least humidity, %, if that matters.
    pub least_humidity: Option<f64>,
    /// Whose numbers these are.
    pub source: &'static str,
}

/// *Encarsia formosa*, °C and %: below a mean of about 18.4 °C its 241 °C·d above 12 take longer than whitefly's 381 above 8.3 (computed).
/// Night and humidity from a supplier's sheet (read).
const ENCARSIA: Needs = Needs {
    least_mean: 18.0,
    most_mean: 30.0,
    least_night: 10.0,
    least_humidity: Some(50.0),
    source: "Shishehbor and Brennan 1996 (abstract read); break-even with whitefly computed",
};
/// *Aphidius colemani*, °C: 9.8 days at 25 °C, from 2.65 °C on (Zamani et al. 2007, abstract read); least mean (choice).
const APHIDIUS: Needs = Needs {
    least_mean: 12.0,
    most_mean: 28.0,
    least_night: 5.0,
    least_humidity: None,
    source: "Zamani et al. 2007 (abstract read); least mean is a choice",
};
/// *Phytoseiulus persimilis*, °C and %: excellent at 20 °C, poorer at 15 and 25, none at 30 (Force 1967, read); from 11 °C, and its eggs hatch
/// above 60 % humidity (Natural History Museum, read).
const PERSIMILIS: Needs = Needs {
    least_mean: 15.0,
    most_mean: 25.0,
    least_night: 11.0,
    least_humidity: Some(60.0),
    source: "Force 1967 (abstract read) and a museum’s page",
};
/// *Phasmarhabditis*, °C: moist soil of 5 °C and more, best below 20 (Wikipedia and suppliers' sheets, read).
const NEMATODES: Needs = Needs {
    least_mean: 5.0,
    most_mean: 20.0,
    least_night: -5.0,
    least_humidity: None,
    source: "An encyclopaedia and suppliers’ sheets (read)",
};

/// Days for which what lives is taken to be at work after it was put out (choice: as long as parasitoids are put out for).
pub const AT_WORK: i32 = 42;
/// Days after a soap or oil until a living control is brought in (choice: one to two).
const AFTER_CONTACT_SPRAY: i32 = 2;
/// Days for which any other spray may harm a living control, so that its label is to be asked (from memory: the longest of residues on
/// leaves do for eight to twelve weeks).
const RESIDUES_LAST: i32 = 84;
/// Months of the north in which nematodes are watered in outdoors (suppliers' sheets, read: March to October).
const NEMATODE_MONTHS: std::ops::RangeInclusive<u8> = 3..=10;
/// Days of air whose mean stands for the soil's temperature (choice).
const SOIL_DAYS: u16 = 30;
/// Days that are looked ahead for a warm week (limit).
const LOOK_AHEAD: u16 = 120;

/// When a living control may be brought in.
#[derive(Clone, Debug, PartialEq)]
pub struct Introduction {
    /// What it needs.
    pub needs: Needs,
    /// The first day that is warm enough, by readings, forecast or what is usual; nothing within 120 days.
    pub day: Option<CivilDay>,
    /// Why it is not today.
    pub waits: Vec<Wait>,
    /// Whether cards hang that would catch it too: keep one to watch, take the others down.
    pub cards_catch_it: bool,
    /// Mean of the coming week, or of the soil, °C.
    pub mean: f64,
}

/// What a living control of a pest needs; nothing for the others.
#[must_use]
pub const fn needs(pest: Pest, control: Control) -> Option<Needs> {
    Some(match (control, pest) {
        (Control::Parasitoid, Pest::Whitefly) => ENCARSIA,
        (Control::Parasitoid, Pest::Aphid) => APHIDIUS,
        (Control::PredatoryMite, _) => PERSIMILIS,
        (Control::Nematodes, _) => NEMATODES,
        _ => return None,
    })
}

/// Mean temperature of the soil, °C: of the air over the thirty days before (choice).
#[must_use]
pub fn soil_mean(warmth: &Warmth, day: CivilDay) -> f64 {
    warmth.mean_of(day.days_later(-i32::from(SOIL_DAYS)), SOIL_DAYS)
}

/// Whether a living control of a pest finds it warm enough on a day: by the mean of the week from then on (choice), or of the soil.
pub(super) fn is_warm_enough(pest: Pest, control: Control, warmth: &Warmth, day: CivilDay) -> bool {
    needs(pest, control).is_none_or(|needs| {
        let mean = mean_for(control, warmth, day);
        let is_season =
            control != Control::Nematodes || warmth.glass.is_some() || NEMATODE_MONTHS.contains(&day.northern_month(warmth.latitude));
        is_season && mean >= needs.least_mean && mean <= needs.most_mean && warmth.on(day).coolest() >= needs.least_night
    })
}

/// Mean that a living control goes by on a day, °C: of the seven days from then on (choice), or of the soil.
fn mean_for(control: Control, warmth: &Warmth, day: CivilDay) -> f64 {
    if control == Control::Nematodes {
        soil_mean(warmth, day)
    } else {
        warmth.mean_of(day, 7)
    }
}

/// When a living control may be brought in, from today on, after all that was sprayed: by the mean of the coming seven days (choice).
#[must_use]
pub fn introduction(
    pest: Pest,
    control: Control,
    warmth: &Warmth,
    sprayed: &[(CivilDay, Control)],
    has_cards: bool,
    today: CivilDay,
) -> Option<Introduction> {
    let needs = needs(pest, control)?;
    // What was sprayed on leaves does not reach what lives in the soil.
    let last = |spray: Control| {
        let days = sprayed.iter().filter(|(_, control)| *control == spray).map(|(day, _)| *day);
        days.max().filter(|_| control != Control::Nematodes)
    };
    let mut waits = Vec::new();
    let free_from = last(Control::ContactSpray).map_or(today, |day| day.days_later(AFTER_CONTACT_SPRAY).max(today));
    if free_from > today {
        waits.push(Wait::AfterSpray);
    }
    let asks_label = last(Control::OtherSpray).is_some_and(|day| today.days_since(day) <= RESIDUES_LAST);
    if asks_label {
        waits.push(Wait::AskLabel);
    }
    let mean = mean_for(control, warmth, today);
    if mean < needs.least_mean {
        waits.push(Wait::TooCool {
            mean,
            least: needs.least_mean,
        });
    } else if mean > needs.most_mean {
        waits.push(Wait::TooWarm {
            mean,
            most: needs.most_mean,
        });
    }
    let mut day = free_from;
    let mut found = None;
    for _ in 0..LOOK_AHEAD {
        if is_warm_enough(pest, control, warmth, day) {
            found = Some(day);
            break;
        }
        day = day.tomorrow();
    }
    Some(Introduction {
        needs,
        day: found.filter(|_| !asks_label),
        waits,
        cards_catch_it: has_cards && control == Control::Parasitoid,
        mean,
    })
}
