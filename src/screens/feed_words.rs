//! What things of Feed mix are called. Every figure comes from the calculation.

use super::words::amount;
use crate::feed::{Band, Cloud, Mix, Nutrient, SPOON_SPREAD, Stage, TEASPOON, WEEK, Way};
use crate::quantity::{Likely, Measure, UnitSystem, Units, Volume, decimal, quarters};

/// Feed as it is measured out: whole ml or grams from ten on, tenths below.
pub fn measured_out(value: f64) -> String {
    decimal(value, usize::from(value < 9.95))
}

/// The unit of an amount of feed.
pub const fn unit(mix: &Mix) -> &'static str {
    if mix.is_weighed { "g" } else { "ml" }
}

/// The can: "2 gallons".
pub fn can(litres: f64, units: Units) -> String {
    let number = decimal(units.can_number(Volume::from_litres(litres)), 1);
    let one = number == "1";
    let unit = match units.system {
        UnitSystem::Imperial if one => " gallon",
        UnitSystem::Imperial => " gallons",
        UnitSystem::Metric if one => " litre",
        UnitSystem::Metric => " litres",
        UnitSystem::Us if one => " US gallon",
        UnitSystem::Us => " US gallons",
    };
    number + unit
}

/// Litres for a plant: "2¾ pints".
pub fn poured(litres: f64, units: Units) -> String {
    amount(&Measure::dose(Volume::from_litres(litres), units))
}

/// Fluid ounces below which a jug shows none (choice).
const LEAST_OUNCES: f64 = 0.5;

/// An amount of feed in spoons, to the half, or in caps that were measured, and in fluid ounces.
pub fn spoons(mix: &Mix, cap: Option<f64>, units: Units) -> String {
    let Likely { low, value, high } = mix.amount;
    if low < value {
        return ["likely ", &measured_out(low), " to ", &measured_out(high), ": spoons differ"].concat();
    }
    if mix.is_weighed {
        return "on a kitchen scale that shows tenths".to_owned();
    }
    let spoons = |each: f64, one: &str, many: &str| {
        let count = quarters((value / each * 2.0).round() / 2.0);
        if count == "0" {
            return "less than half a ".to_owned() + one + ": a syringe measures it";
        }
        let name = if matches!(count.as_str(), "½" | "1") { one } else { many };
        ["about ", &count, " ", name].concat()
    };
    let mut words = match cap {
        Some(cap) => spoons(cap, "cap", "caps"),
        None if value < TEASPOON / 4.0 => spoons(TEASPOON, "teaspoon", ""),
        None => spoons(TEASPOON, "teaspoon", "teaspoons") + " ±\u{a0}" + &decimal(SPOON_SPREAD * 100.0, 0) + "\u{a0}%",
    };
    if units.system != UnitSystem::Metric {
        let volume = Volume::from_litres(value / 1000.0);
        let (ounces, name) = match units.system {
            UnitSystem::Us => (volume.us_fluid_ounces(), "\u{a0}US\u{a0}fl\u{a0}oz"),
            _ => (volume.imperial_fluid_ounces(), "\u{a0}fl\u{a0}oz"),
        };
        if ounces >= LEAST_OUNCES {
            words += &[", ", &decimal(ounces, 1), name].concat();
        }
    }
    words
}

/// Both ends of a range, or the one number where they print alike.
pub fn range(low: f64, high: f64, decimals: usize) -> String {
    let (low, high) = (decimal(low, decimals), decimal(high, decimals));
    if low == high { low } else { low + " to " + &high }
}

/// Where a conductivity lies.
pub const fn band(band: Band) -> &'static str {
    match band {
        Band::Weak => "weak",
        Band::Normal => "about right",
        Band::Strong => "strong",
        Band::Caution => "too strong",
        Band::Stop => "far too strong",
    }
}

/// A nutrient's name.
pub const fn nutrient(nutrient: Nutrient) -> &'static str {
    match nutrient {
        Nutrient::Nitrogen => "Nitrogen, N",
        Nutrient::Phosphorus => "Phosphorus, P",
        Nutrient::Potassium => "Potassium, K",
        Nutrient::Magnesium => "Magnesium, Mg",
        Nutrient::Calcium => "Calcium, Ca",
        Nutrient::Sulphur => "Sulphur, S",
    }
}

/// How strong a way to feed is, by the can that is offered.
pub fn way(way: &Way) -> String {
    match way.share {
        share if share >= 1.0 => "As above".to_owned(),
        share if (share - 0.5).abs() < 0.01 => "Half of it".to_owned(),
        share => decimal(share * 100.0, 0) + " %",
    }
}

/// The stages with their codes: word and drawing.
pub const STAGES: [(Stage, &str, &str); 4] = [
    (Stage::NoTruss, "No truss set", "stage-none"),
    (Stage::Swelling, "First truss swelling", "stage-swelling"),
    (Stage::Picking, "Picking", "stage-picking"),
    (Stage::Late, "Late, tip out", "stage-late"),
];

/// What much ammonium does: mark, heading and words.
pub const MUCH_AMMONIUM: (&str, &str, &str) = (
    "mark-hold",
    "Most of its nitrogen is ammonium",
    "It keeps calcium out of the fruit and sours the compost. Most of the nitrogen should be nitrate.",
);

/// What calcium and sulphate do in a can: mark and words.
pub const fn gypsum(cloud: Cloud) -> (&'static str, &'static str) {
    match cloud {
        Cloud::FallsOut => ("mark-hold", "Calcium and sulphate fall out as gypsum: not in one can."),
        _ => (
            "mark-risk",
            "Calcium and sulphate may fall out as gypsum. Stir, and use it the same day.",
        ),
    }
}

/// A share of what is needed: "80 %".
pub fn percent(share: f64) -> String {
    decimal(share * 100.0, 0) + " %"
}

/// So many times a week, within a sentence.
pub fn times_a_week(a_week: f64) -> String {
    match times(a_week).as_str() {
        "1 a week" => "once a week".to_owned(),
        times => times.replace(" a week", " times a week"),
    }
}

/// So many times a week, in days where that is less than once.
pub fn times(a_week: f64) -> String {
    if a_week < 1.0 {
        ["once in ", &decimal(WEEK / a_week, 0), " days"].concat()
    } else {
        decimal(a_week, 1) + " a week"
    }
}
