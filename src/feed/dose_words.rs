//! The measures of doses, and every word that a dose may hold.

use super::Country;
use crate::quantity::{LITRES_PER_IMPERIAL_GALLON, LITRES_PER_US_GALLON};

/// A metric teaspoon, ml (choice among spoons).
pub const TEASPOON: f64 = 5.0;
/// A metric tablespoon, ml (choice among spoons: American ones hold 14.8, old British ones 17.7, Australian ones 20).
pub const TABLESPOON: f64 = 15.0;
/// A US teaspoon, ml: a sixth of a US fluid ounce (exact).
const US_TEASPOON: f64 = US_FLUID_OUNCE / 6.0;
/// A US tablespoon, ml: half a US fluid ounce (exact).
const US_TABLESPOON: f64 = US_FLUID_OUNCE / 2.0;
/// By how much a spoon may be out, as a share (from memory).
pub const SPOON_SPREAD: f64 = 0.2;
/// An imperial fluid ounce, ml (exact).
pub const FLUID_OUNCE: f64 = LITRES_PER_IMPERIAL_GALLON * 1000.0 / 160.0;
/// A US fluid ounce, ml (exact).
pub const US_FLUID_OUNCE: f64 = LITRES_PER_US_GALLON * 1000.0 / 128.0;
/// An ounce by weight, g: exact.
pub const OUNCE: f64 = 28.349_523_125;
/// What a word of a dose means.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Meaning {
    /// A measure.
    Unit(Unit),
    /// A number.
    Count(f64),
    /// Between feed and water: "per", "in", "to".
    Between,
    /// Whose measures.
    Country(Country),
    /// Makes the ounces after it fluid.
    Fluid,
    /// Changes nothing.
    Idle,
}

/// A measure of feed or water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Unit {
    /// Millilitres in it, everywhere the same.
    Volume(f64),
    /// Millilitres in it: in the UK, in the US.
    OfCountry(f64, f64),
    /// Millilitres in a spoon: metric, US.
    Spoon(f64, f64),
    /// Grams in it.
    Weight(f64),
    Ounce,
    Cap,
    Can,
}

/// An imperial gallon, ml (exact).
const IMPERIAL_GALLON: f64 = LITRES_PER_IMPERIAL_GALLON * 1000.0;
/// A US gallon, ml (exact).
const US_GALLON: f64 = LITRES_PER_US_GALLON * 1000.0;

/// Every word that a dose may hold, without a plural s. What one of each holds, ml or g (exact, but for
/// the spoons above).
const WORDS: &[(&str, Meaning)] = &[
    ("ml", Meaning::Unit(Unit::Volume(1.0))),
    ("cc", Meaning::Unit(Unit::Volume(1.0))),
    ("millilitre", Meaning::Unit(Unit::Volume(1.0))),
    ("milliliter", Meaning::Unit(Unit::Volume(1.0))),
    ("cl", Meaning::Unit(Unit::Volume(10.0))),
    ("l", Meaning::Unit(Unit::Volume(1000.0))),
    ("lt", Meaning::Unit(Unit::Volume(1000.0))),
    ("ltr", Meaning::Unit(Unit::Volume(1000.0))),
    ("litre", Meaning::Unit(Unit::Volume(1000.0))),
    ("liter", Meaning::Unit(Unit::Volume(1000.0))),
    ("gallon", Meaning::Unit(Unit::OfCountry(IMPERIAL_GALLON, US_GALLON))),
    ("gal", Meaning::Unit(Unit::OfCountry(IMPERIAL_GALLON, US_GALLON))),
    ("quart", Meaning::Unit(Unit::OfCountry(IMPERIAL_GALLON / 4.0, US_GALLON / 4.0))),
    ("qt", Meaning::Unit(Unit::OfCountry(IMPERIAL_GALLON / 4.0, US_GALLON / 4.0))),
    ("pint", Meaning::Unit(Unit::OfCountry(IMPERIAL_GALLON / 8.0, US_GALLON / 8.0))),
    ("pt", Meaning::Unit(Unit::OfCountry(IMPERIAL_GALLON / 8.0, US_GALLON / 8.0))),
    ("floz", Meaning::Unit(Unit::OfCountry(FLUID_OUNCE, US_FLUID_OUNCE))),
    ("fl", Meaning::Fluid),
    ("fluid", Meaning::Fluid),
    ("oz", Meaning::Unit(Unit::Ounce)),
    ("ounce", Meaning::Unit(Unit::Ounce)),
    ("lb", Meaning::Unit(Unit::Weight(16.0 * OUNCE))),
    ("pound", Meaning::Unit(Unit::Weight(16.0 * OUNCE))),
    ("g", Meaning::Unit(Unit::Weight(1.0))),
    ("gm", Meaning::Unit(Unit::Weight(1.0))),
    ("gram", Meaning::Unit(Unit::Weight(1.0))),
    ("gramme", Meaning::Unit(Unit::Weight(1.0))),
    ("kg", Meaning::Unit(Unit::Weight(1000.0))),
    ("kilo", Meaning::Unit(Unit::Weight(1000.0))),
    ("mg", Meaning::Unit(Unit::Weight(0.001))),
    ("tsp", Meaning::Unit(Unit::Spoon(TEASPOON, US_TEASPOON))),
    ("teaspoon", Meaning::Unit(Unit::Spoon(TEASPOON, US_TEASPOON))),
    ("teaspoonful", Meaning::Unit(Unit::Spoon(TEASPOON, US_TEASPOON))),
    ("tbsp", Meaning::Unit(Unit::Spoon(TABLESPOON, US_TABLESPOON))),
    ("tablespoon", Meaning::Unit(Unit::Spoon(TABLESPOON, US_TABLESPOON))),
    ("tablespoonful", Meaning::Unit(Unit::Spoon(TABLESPOON, US_TABLESPOON))),
    ("cap", Meaning::Unit(Unit::Cap)),
    ("capful", Meaning::Unit(Unit::Cap)),
    ("lid", Meaning::Unit(Unit::Cap)),
    ("can", Meaning::Unit(Unit::Can)),
    ("canful", Meaning::Unit(Unit::Can)),
    ("a", Meaning::Count(1.0)),
    ("an", Meaning::Count(1.0)),
    ("one", Meaning::Count(1.0)),
    ("two", Meaning::Count(2.0)),
    ("three", Meaning::Count(3.0)),
    ("four", Meaning::Count(4.0)),
    ("five", Meaning::Count(5.0)),
    ("six", Meaning::Count(6.0)),
    ("ten", Meaning::Count(10.0)),
    ("half", Meaning::Count(0.5)),
    ("quarter", Meaning::Count(0.25)),
    ("per", Meaning::Between),
    ("in", Meaning::Between),
    ("into", Meaning::Between),
    ("to", Meaning::Between),
    ("for", Meaning::Between),
    ("with", Meaning::Between),
    ("every", Meaning::Between),
    ("each", Meaning::Between),
    ("plus", Meaning::Between),
    ("part", Meaning::Idle),
    ("us", Meaning::Country(Country::Us)),
    ("usa", Meaning::Country(Country::Us)),
    ("american", Meaning::Country(Country::Us)),
    ("uk", Meaning::Country(Country::Uk)),
    ("imp", Meaning::Country(Country::Uk)),
    ("imperial", Meaning::Country(Country::Uk)),
    ("british", Meaning::Country(Country::Uk)),
    ("of", Meaning::Idle),
    ("water", Meaning::Idle),
    ("feed", Meaning::Idle),
    ("concentrate", Meaning::Idle),
    ("product", Meaning::Idle),
    ("liquid", Meaning::Idle),
    ("add", Meaning::Idle),
    ("mix", Meaning::Idle),
    ("use", Meaning::Idle),
    ("dilute", Meaning::Idle),
    ("dissolve", Meaning::Idle),
    ("the", Meaning::Idle),
    ("level", Meaning::Idle),
    ("watering", Meaning::Idle),
    ("metric", Meaning::Idle),
    ("solution", Meaning::Idle),
];

/// What a word means, in the singular or with a plural s.
pub(super) fn meaning(word: &str) -> Option<Meaning> {
    let known = |word: &str| WORDS.iter().find(|(name, _)| *name == word).map(|(_, meaning)| *meaning);
    known(word).or_else(|| known(word.strip_suffix('s')?))
}
