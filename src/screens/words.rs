//! What things are called on screen. Only wording: every figure comes from the calculation.

use super::answers::Shown;
use super::model::Model;
use crate::almanac::{CivilDay, ClearnessFrom, Reading, Sky, Weather, Yesterday};
use crate::notebook::{Coded, ContainerKind, Field, GroupRecord};
use crate::quantity::{Measure, Temperature, TemperatureScale, UnitSystem, Units, Volume, decimal};
use crate::water::{Advice, Assumption, Cover, Exposure, Feel, Leafiness, Medium, PlantedFrom, Readings, RoofKind};

/// What a sky's word means.
pub const fn sky_meaning(sky: Sky) -> &'static str {
    match sky {
        Sky::Clear => "hardly a cloud",
        Sky::Bright => "sun most of the day",
        Sky::Mixed => "sun and cloud by turns",
        Sky::Dull => "grey, no shadows",
        Sky::Dark => "lamps on by day",
    }
}

/// What the sky keys say at their right: what the pressed one means, or what is assumed.
pub fn sky_aside(weather: &Weather) -> String {
    match weather.clearness_from {
        ClearnessFrom::Word(sky) => sky_meaning(sky).to_owned(),
        ClearnessFrom::Hours(hours) => format!("{} hours of sun", decimal(hours, 1)),
        ClearnessFrom::TemperatureRange => "from your thermometer".to_owned(),
        ClearnessFrom::Assumed => "assumed mixed: tap yours".to_owned(),
    }
}

/// A day of this year: "9 July".
pub fn short_day(day: CivilDay) -> String {
    day.day().to_string() + " " + day.month_name()
}

/// How compost feels.
pub const fn feels(feel: Feel) -> &'static str {
    match feel {
        Feel::Dry => "dry",
        Feel::Moist => "moist",
        Feel::Sodden => "sodden",
    }
}

/// What was weighed or poured this morning to learn how the compost is; nothing as long as nothing was.
pub fn readings(model: &Model) -> String {
    let Some(Readings { lighter, drip, .. }) = model.group().map(GroupRecord::readings) else {
        return String::new();
    };
    let of = |litres| amount(&Measure::dose(Volume::from_litres(litres), model.units()));
    match (lighter, drip) {
        (_, Some(drip)) => "dripped after ".to_owned() + &of(drip),
        (Some(lighter), None) => "lighter by ".to_owned() + &of(lighter),
        (None, None) => String::new(),
    }
}

/// The name of a group, or what stands for one without.
pub fn group_name(record: &GroupRecord) -> String {
    match (record.name.trim(), record.place_word()) {
        ("", "tunnel") => "Tunnel".to_owned(),
        ("", "outdoors") => "Outdoors".to_owned(),
        ("", _) => "Under glass".to_owned(),
        (name, _) => name.to_owned(),
    }
}

/// How many stand in what: "12 in bags".
pub fn group_small(record: &GroupRecord) -> String {
    let container = match record.container {
        ContainerKind::GrowBag => "bags",
        ContainerKind::Pot => "pots",
        ContainerKind::Basket => "baskets",
        ContainerKind::Border => "the border",
        ContainerKind::Ring => "rings",
    };
    match record.plants.value() {
        None => "one, a guess".to_owned(),
        Some(_) => format!("{} in {container}", record.count()),
    }
}

/// What one container is called after an amount: "a bag".
pub const fn one_container(kind: ContainerKind) -> &'static str {
    match kind {
        ContainerKind::GrowBag => "a bag",
        ContainerKind::Pot => "a pot",
        ContainerKind::Basket => "a basket",
        ContainerKind::Border => "a plant",
        ContainerKind::Ring => "a ring",
    }
}

/// The symbol under the drawn plant.
pub const fn base_drawing(kind: ContainerKind) -> &'static str {
    match kind {
        ContainerKind::GrowBag => "base-bag",
        ContainerKind::Pot => "base-pot",
        ContainerKind::Basket => "base-basket",
        ContainerKind::Border => "base-border",
        ContainerKind::Ring => "base-ring",
    }
}

/// Containers with their names.
pub const CONTAINERS: [(ContainerKind, &str); 5] = [
    (ContainerKind::GrowBag, "Grow-bag"),
    (ContainerKind::Pot, "Pot"),
    (ContainerKind::Basket, "Hanging basket"),
    (ContainerKind::Border, "Border"),
    (ContainerKind::Ring, "Ring over gravel"),
];

/// Composts with their names.
pub const MEDIA: [(Medium, &str); 4] = [
    (Medium::PeatFree, "Peat-free compost"),
    (Medium::Peat, "Peat compost"),
    (Medium::Coir, "Coir"),
    (Medium::Loam, "Loam-based compost"),
];

/// Roofs with their names.
pub const ROOFS: [(RoofKind, &str); 5] = [
    (RoofKind::Glass, "Glass or clear sheet"),
    (RoofKind::SmoothSheet, "Smooth sheet, sloping"),
    (RoofKind::RoughSheet, "Rough sheet, sloping"),
    (RoofKind::Tiles, "Tiles"),
    (RoofKind::Flat, "Flat"),
];

/// Covers of a glasshouse with their names.
pub const GLASSES: [(Cover, &str); 5] = [
    (Cover::Glass, "Glass as it usually is"),
    (Cover::CleanGlass, "Glass washed this year"),
    (Cover::OldGlass, "Old, green or overhung glass"),
    (Cover::TwinWall, "Twin-wall sheet to 6 mm"),
    (Cover::ThickTwinWall, "Twin-wall sheet, 10 mm and more"),
];

/// Covers of a tunnel with their names.
pub const POLYTHENES: [(Cover, &str); 2] = [
    (Cover::NewPolythene, "Polythene, first two years"),
    (Cover::OldPolythene, "Older polythene"),
];

/// Spots outdoors with their names.
pub const EXPOSURES: [(Exposure, &str); 3] = [
    (Exposure::Sheltered, "A row among others"),
    (Exposure::Usual, "A few plants by themselves"),
    (Exposure::Exposed, "Balcony or windy wall"),
];

/// Systems of measures with their names.
pub const MEASURES: [(UnitSystem, &str); 3] = [
    (UnitSystem::Imperial, "Pints"),
    (UnitSystem::Metric, "Litres"),
    (UnitSystem::Us, "US pints"),
];

/// Scales of a thermometer with their names.
pub const SCALES: [(TemperatureScale, &str); 2] = [(TemperatureScale::Celsius, "°C"), (TemperatureScale::Fahrenheit, "°F")];

/// How leafy plants are, with names.
pub const LEAVES: [(Leafiness, &str); 3] = [
    (Leafiness::Sparse, "Sparse"),
    (Leafiness::Usual, "Usual"),
    (Leafiness::Bushy, "Bushy"),
];

/// Pots planted from, with their names.
pub const STARTING_POTS: [(PlantedFrom, &str); 3] = [
    (PlantedFrom::Pot7, "7 cm (3 inch) pot"),
    (PlantedFrom::Pot9, "9 cm (3½ inch) pot"),
    (PlantedFrom::Pot13, "13 cm (5 inch) pot"),
];

/// Words and names of a list, for a choice.
pub fn entries_of<T: Coded>(list: &[(T, &str)]) -> Vec<(&'static str, String)> {
    list.iter().map(|(thing, name)| (thing.code(), (*name).to_owned())).collect()
}

/// An amount with its unit: "1¼ pints".
pub fn amount(measure: &Measure) -> String {
    format!("{} {}", measure.figure, measure.unit)
}

/// A temperature with its degree sign: "26°".
pub fn degrees(celsius: f64, units: Units) -> String {
    format!("{}°", decimal(units.temperature_number(Temperature::from_celsius(celsius)), 0))
}

/// A temperature with its scale: "26 °C".
pub fn temperature(celsius: f64, units: Units) -> String {
    let number = units.temperature_number(Temperature::from_celsius(celsius));
    decimal(number, 0) + Field::Warmest.unit(units)
}

/// Words in which each temperature, written in whole °C, is told in the grower's scale.
pub fn in_scale(words: &str, units: Units) -> String {
    let mut told = String::new();
    let mut rest = words;
    while let Some((before, after)) = rest.split_once(" °C") {
        let words = before.trim_end_matches(|sign: char| sign.is_ascii_digit());
        let celsius = before.get(words.len()..).and_then(|number| number.parse::<u16>().ok());
        told = told + words + &temperature(celsius.unwrap_or_default().into(), units);
        rest = after;
    }
    told + rest
}

/// The likely range: the unit is said once where both ends share it.
pub fn range(shown: &Shown) -> String {
    if shown.shares_unit() {
        format!("{} to {}", shown.low.figure, shown.high.figure)
    } else {
        format!("{} to {}", amount(&shown.low), amount(&shown.high))
    }
}

/// What follows the likely range on the plate, with its own comma before it; an amount stays on one line.
pub fn after_range(shown: &Shown, kind: ContainerKind) -> String {
    match &shown.container {
        _ if shown.dose().hold_off => "compost is sodden: hold off".to_owned(),
        Some(container) => ", ".to_owned() + &[&container.figure, " ", one_container(kind)].concat().replace(' ', "\u{a0}"),
        None => String::new(),
    }
}

/// Both temperatures of a day that was read: "28° and 15°".
pub fn both_read(told: &Yesterday, units: Units) -> String {
    let shown = |celsius: Option<f64>| celsius.map(|celsius| degrees(celsius, units)).unwrap_or_default();
    [&shown(told.warmest), " and ", &shown(told.coolest)].concat()
}

/// In how many pours of the day the dose goes on, or else in how many parts, where that is not one; with its own comma before it.
pub fn in_pours(shown: &Shown) -> String {
    let split = shown.advice.iter().find_map(|advice| match advice {
        Advice::Split { waterings, .. } => Some((", over\u{a0}", *waterings, "\u{a0}pours")),
        Advice::InParts { parts, .. } => Some((", in\u{a0}", *parts, "\u{a0}parts")),
        _ => None,
    });
    split.map_or_else(String::new, |(before, count, what)| before.to_owned() + &count.to_string() + what)
}

/// The name of the group that is looked at, where there is a choice.
pub fn looked_at(model: &Model) -> String {
    if model.has_several() {
        model.group().map(group_name).unwrap_or_default()
    } else {
        String::new()
    }
}

/// Everything that was assumed for an answer, with what nobody told the notebook, as one sentence; empty when nothing was.
pub fn assumed(shown: &Shown, month: &str, units: Units, in_notebook: &str) -> String {
    let mut parts = Vec::new();
    for assumption in &shown.dose().assumptions {
        parts.push(match assumption {
            Assumption::Sky => "a mixed day".to_owned(),
            Assumption::Temperatures => {
                let weather = &shown.dose().weather;
                let (high, low) = (degrees(weather.maximum, units), degrees(weather.minimum, units));
                let usual = match (weather.maximum_from, weather.minimum_from) {
                    (Reading::Read, _) => "a low of ".to_owned() + &low,
                    (_, Reading::Read) => "a high of ".to_owned() + &high,
                    _ => high + " and " + &low,
                };
                let is_far = weather.far_guess;
                let far = if is_far { " (a far guess here: read a thermometer)" } else { "" };
                [&usual, " as usual for ", month, far].concat()
            }
            // It stands with the temperatures.
            Assumption::FarGuess => continue,
            Assumption::Size => "a half-grown plant".to_owned(),
            Assumption::NoRain => "no rain".to_owned(),
        });
    }
    match (parts.join(", "), in_notebook) {
        (here, "") if here.is_empty() => String::new(),
        (here, _) if here.is_empty() => ["Assumed, in the notebook: ", in_notebook, "."].concat(),
        (here, "") => ["Assumed: ", &here, ". Tap or type to change."].concat(),
        (here, _) => ["Assumed: ", &here, ". Tap or type to change. In the notebook: ", in_notebook, "."].concat(),
    }
}
