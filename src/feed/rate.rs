use std::fmt;

use super::wording::{Misread, Piece, PieceKind, Unreadable, pieces};
use crate::quantity::{LITRES_PER_IMPERIAL_GALLON, LITRES_PER_US_GALLON, Likely, OutOfRange, Range, decimal};

/// A metric teaspoon, ml (choice among spoons).
pub const TEASPOON: f64 = 5.0;
/// A metric tablespoon, ml (choice among spoons: American ones hold 14.8, old British ones 17.7, Australian ones 20).
pub const TABLESPOON: f64 = 15.0;
/// A US teaspoon, ml: a sixth of a US fluid ounce.
const US_TEASPOON: f64 = US_FLUID_OUNCE / 6.0;
/// A US tablespoon, ml: half a US fluid ounce.
const US_TABLESPOON: f64 = US_FLUID_OUNCE / 2.0;
/// By how much a spoon may be out, as a share (from memory).
pub const SPOON_SPREAD: f64 = 0.2;
/// An imperial fluid ounce, ml.
pub const FLUID_OUNCE: f64 = LITRES_PER_IMPERIAL_GALLON * 1000.0 / 160.0;
/// A US fluid ounce, ml.
pub const US_FLUID_OUNCE: f64 = LITRES_PER_US_GALLON * 1000.0 / 128.0;
/// An ounce by weight, g: exact.
pub const OUNCE: f64 = 28.349_523_125;
/// Water for one part of feed above which "1 : n" is read as n in all without asking (choice: they are then 2 % apart).
const ASKED_BELOW: f64 = 50.0;
/// Doses that labels give, ml or g in a litre.
pub const DOSE_RANGE: Range = Range {
    what: "A dose",
    low: 0.02,
    high: 100.0,
    unit: " ml or g in a litre",
};
/// Caps that can be, ml.
pub const CAP_RANGE: Range = Range {
    what: "A cap",
    low: 1.0,
    high: 200.0,
    unit: " ml",
};

/// Whose gallons, pints and fluid ounces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Country {
    /// Imperial: a gallon of 4.546 litres.
    Uk,
    /// US liquid: a gallon of 3.785 litres.
    Us,
}

/// What "oz" on a label is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OunceKind {
    /// By weight.
    Weight,
    /// By volume.
    Fluid,
}

/// What "1 : n" counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RatioKind {
    /// One part in n of the mix.
    Total,
    /// One part added to n of water.
    Added,
}

/// What the grower has told beside the words of the label.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Told {
    /// Whose gallons.
    pub country: Option<Country>,
    /// Which ounces.
    pub ounce: Option<OunceKind>,
    /// What a ratio counts.
    pub ratio: Option<RatioKind>,
    /// What the cap of the bottle holds, ml.
    pub cap: Option<f64>,
    /// What the grower's can holds, litres.
    pub can: f64,
}

/// What has to be told before words of a label can be used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ask {
    /// Whose gallons, pints or fluid ounces.
    Country,
    /// Ounces by weight or by volume.
    Ounce,
    /// One part in n or added to n.
    Ratio,
    /// What the cap holds.
    Cap,
}

/// What the amount of feed is measured in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measured {
    /// Millilitres.
    Millilitres,
    /// Grams.
    Grams,
    /// Parts: millilitres of a liquid, grams of a powder.
    Parts,
}

/// A dose: how much feed to a litre of mixed feed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rate {
    /// Millilitres or grams.
    pub measured: Measured,
    /// So much in a litre, with its range where spoons are meant.
    pub per_litre: Likely,
    /// The amount that is said, ml or g, and the litres that it is said for.
    pub said: (f64, f64),
    /// Share of it that is given: 1, or less for a weaker can.
    pub share: f64,
    /// Whether it hangs on whose gallons are meant: the same words with the other country's.
    pub other_country: Option<f64>,
    /// Whether a ratio can be read two ways: the same with n counted the other way.
    pub other_ratio: Option<f64>,
    /// Whether spoons are meant.
    pub by_spoon: bool,
}

/// Why a dose cannot be used; each is a sentence for a grower.
#[derive(Clone, Debug, PartialEq)]
pub enum RateError {
    /// Nothing is typed.
    Empty,
    /// The text cannot be cut into pieces.
    Unreadable(Unreadable),
    /// Something in it is not understood.
    Misread(Misread),
    /// An amount without its water.
    NoWater,
    /// Something has to be told first.
    Asked(Ask),
    /// No label gives such a dose.
    Impossible(OutOfRange),
    /// The told cap cannot be.
    Cap(OutOfRange),
}

impl fmt::Display for RateError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("Type the dose as the label gives it, such as 20 ml per gallon."),
            Self::Unreadable(error) => error.fmt(f),
            Self::Misread(error) => error.fmt(f),
            Self::NoWater => f.write_str("That says how much feed but not for how much water: add “per litre” or “per gallon”."),
            Self::Asked(ask) => f.write_str(match ask {
                Ask::Country => "Which gallons, pints and fluid ounces does the label mean? A UK gallon is 4.55 litres, a US one 3.79.",
                Ask::Ounce => "Which ounces does the label mean: by weight (28 g), or fluid ounces?",
                Ask::Ratio => "Does the label mean one part in that many of the mix, or added to that many of water?",
                Ask::Cap => {
                    "How many ml does the cap hold? Fill it with water and pour that on the scales: 1 g is 1 ml. No cap is like another."
                }
            }),
            Self::Impossible(OutOfRange { value, .. }) => {
                write!(
                    f,
                    "That makes {} in a litre, and labels give {} to {} ml or g: look at the label again.",
                    decimal(*value, 3),
                    decimal(DOSE_RANGE.low, 2),
                    decimal(DOSE_RANGE.high, 0)
                )
            }
            Self::Cap(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for RateError {}

const NO_MEASURE: &str = "is not a measure: use ml, litres, g, oz, pints, gallons, teaspoons, tablespoons or caps.";
const NO_NUMBER: &str = "needs a number before it, such as 20 ml.";
const NO_MEASURE_AFTER: &str = "needs its measure after it, such as ml or g.";
const NO_WATER_MEASURE: &str = "measures no water: use litres, gallons, pints or your can.";
const NO_DOSE: &str = "has no place in a dose, such as 20 ml per gallon.";
const BELOW_NOUGHT: &str = "would make a dose below nought: there is none.";
const A_RANGE: &str = "makes a range: type one figure, the lower one to be safe.";
const TOO_MUCH: &str = "comes after the dose has ended.";

/// What a word of a dose means.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Meaning {
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
enum Unit {
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

const IMPERIAL_GALLON: f64 = LITRES_PER_IMPERIAL_GALLON * 1000.0;
const US_GALLON: f64 = LITRES_PER_US_GALLON * 1000.0;

/// Every word that a dose may hold, without a plural s.
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
fn meaning(word: &str) -> Option<Meaning> {
    let known = |word: &str| WORDS.iter().find(|(name, _)| *name == word).map(|(_, meaning)| *meaning);
    known(word).or_else(|| known(word.strip_suffix('s')?))
}

/// One side of a dose: so many of a measure.
#[derive(Clone, Copy, Default)]
struct Side<'a> {
    count: Option<(f64, &'a Piece)>,
    unit: Option<(Unit, &'a Piece)>,
}

/// A dose in the words of a label, taken apart: see [`Rate::parse`].
struct Reader<'a> {
    sides: [Side<'a>; 2],
    /// What stands between the sides, once the water is read.
    between: Option<&'a Piece>,
    country: Option<Country>,
    is_fluid: bool,
    says_water: bool,
    percent: bool,
}

impl<'a> Reader<'a> {
    fn side(&mut self) -> &mut Side<'a> {
        let [feed, water] = &mut self.sides;
        if self.between.is_some() { water } else { feed }
    }

    /// Takes a number for the side that is being read.
    fn count(&mut self, number: f64, piece: &'a Piece) -> Result<(), RateError> {
        let is_at_water = self.between.is_some();
        let side = self.side();
        // "half a capful", "a 10 litre can": where one of two numbers is a word, they multiply.
        let is_word = piece.kind == PieceKind::Word;
        match side.count {
            Some((before, told)) if side.unit.is_none() && (is_word || told.kind == PieceKind::Word) => {
                side.count = Some((before * number, piece));
            }
            None if side.unit.is_none() => side.count = Some((number, piece)),
            // "20 ml a gallon": the water begins.
            _ if is_word && !is_at_water => {
                self.turn_to_water(piece);
                return self.count(number, piece);
            }
            _ => return Err(RateError::Misread(piece.misread(TOO_MUCH))),
        }
        Ok(())
    }

    fn turn_to_water(&mut self, piece: &'a Piece) {
        self.between = Some(piece);
    }

    fn unit(&mut self, unit: Unit, piece: &'a Piece) -> Result<(), RateError> {
        let unit = if self.is_fluid && unit == Unit::Ounce {
            Unit::OfCountry(FLUID_OUNCE, US_FLUID_OUNCE)
        } else {
            unit
        };
        let side = self.side();
        match side.unit {
            None => side.unit = Some((unit, piece)),
            // "10 litre can": the can is the measure that has just been told.
            Some(_) if unit == Unit::Can => (),
            Some(_) => return Err(RateError::Misread(piece.misread(TOO_MUCH))),
        }
        Ok(())
    }

    fn sign(&mut self, sign: char, piece: &'a Piece, after: Option<&Piece>) -> Result<(), RateError> {
        let has_begun = self.side().count.is_some();
        let is_before_number = after.is_some_and(|after| after.number().is_some());
        match sign {
            '%' if has_begun && self.between.is_none() => self.percent = true,
            ':' | '+' | '/' if has_begun && self.between.is_none() => self.turn_to_water(piece),
            '/' if self.side().unit.is_some() && self.between.is_none() => self.turn_to_water(piece),
            '-' if has_begun && is_before_number => return Err(RateError::Misread(piece.misread(A_RANGE))),
            '-' if !has_begun => return Err(RateError::Misread(piece.misread(BELOW_NOUGHT))),
            '-' | '(' | ')' | ',' => (),
            _ => return Err(RateError::Misread(piece.misread(NO_DOSE))),
        }
        Ok(())
    }

    fn word(&mut self, piece: &'a Piece) -> Result<(), RateError> {
        match meaning(&piece.text) {
            None => return Err(RateError::Misread(piece.misread(NO_MEASURE))),
            Some(Meaning::Unit(unit)) => return self.unit(unit, piece),
            Some(Meaning::Count(number)) => return self.count(number, piece),
            Some(Meaning::Between) => {
                let [feed, water] = self.sides;
                if let Some(between) = self.between
                    && feed.unit.is_none()
                    && water.unit.is_some()
                {
                    return Err(RateError::Misread(between.misread(A_RANGE)));
                }
                if self.between.is_none() && (feed.count.is_some() || feed.unit.is_some()) {
                    self.turn_to_water(piece);
                }
            }
            Some(Meaning::Country(country)) => self.country = Some(country),
            Some(Meaning::Fluid) => self.is_fluid = true,
            Some(Meaning::Idle) => self.says_water |= piece.text == "water" && self.between.is_some(),
        }
        Ok(())
    }
}

impl Rate {
    /// Reads a dose in the words of a label, with what the grower has told beside them: "20 ml per gallon", "1 in 200",
    /// "half a capful per can".
    ///
    /// # Errors
    /// [`RateError`], which names the place of what cannot be read, or asks for what only the grower can tell.
    pub fn parse(typed: &str, told: &Told) -> Result<Self, RateError> {
        let pieces = pieces(typed, true).map_err(RateError::Unreadable)?;
        let Some(last) = pieces.last() else {
            return Err(RateError::Empty);
        };
        let mut reader = Reader {
            sides: [Side::default(); 2],
            between: None,
            country: None,
            is_fluid: false,
            says_water: false,
            percent: false,
        };
        for (place, piece) in pieces.iter().enumerate() {
            match piece.kind {
                PieceKind::Number(number, _) => reader.count(number, piece)?,
                PieceKind::Word => reader.word(piece)?,
                PieceKind::Sign(sign) => reader.sign(sign, piece, pieces.get(place + 1))?,
            }
        }
        reader.rate(told, last)
    }

    /// All that only the grower can tell before the words of a dose can be used; nothing where they cannot be read.
    #[must_use]
    pub fn asks(typed: &str) -> Vec<Ask> {
        let mut told = Told {
            can: 10.0,
            ..Told::default()
        };
        let mut asks = Vec::new();
        while let Err(RateError::Asked(ask)) = Self::parse(typed, &told) {
            asks.push(ask);
            match ask {
                Ask::Country => told.country = Some(Country::Uk),
                Ask::Ounce => told.ounce = Some(OunceKind::Fluid),
                Ask::Ratio => told.ratio = Some(RatioKind::Total),
                Ask::Cap => told.cap = Some(CAP_RANGE.low),
            }
        }
        asks
    }

    /// A rate that hangs on nothing further.
    const fn plain(measured: Measured, per_litre: f64) -> Self {
        Self {
            measured,
            per_litre: Likely {
                low: per_litre,
                value: per_litre,
                high: per_litre,
            },
            said: (per_litre, 1.0),
            share: 1.0,
            other_country: None,
            other_ratio: None,
            by_spoon: false,
        }
    }

    /// The same dose at a share of its strength.
    #[must_use]
    pub fn at_share(mut self, share: f64) -> Self {
        self.share = share;
        self.per_litre = self.per_litre.times(share);
        self.other_country = self.other_country.map(|other| other * share);
        self.other_ratio = self.other_ratio.map(|other| other * share);
        self
    }

    fn checked(self) -> Result<Self, RateError> {
        DOSE_RANGE.check(self.per_litre.value).map_err(RateError::Impossible)?;
        Ok(self)
    }
}

impl Reader<'_> {
    fn rate(&self, told: &Told, last: &Piece) -> Result<Rate, RateError> {
        let [feed, water] = self.sides;
        if self.percent {
            let percent = feed.count.map_or(0.0, |(count, _)| count);
            return Rate::plain(Measured::Parts, percent * 10.0).checked();
        }
        let Some((unit, unit_piece)) = feed.unit else {
            return match (feed.count, water.count) {
                (Some((parts, _)), Some((whole, piece))) if water.unit.is_none() => self.ratio(parts, whole, piece, told),
                (Some((_, piece)), _) => Err(RateError::Misread(piece.misread(NO_MEASURE_AFTER))),
                (None, _) => Err(RateError::Misread(last.misread(NO_DOSE))),
            };
        };
        let is_counted_alone = matches!(unit, Unit::Cap | Unit::Spoon(..));
        let amount = match feed.count {
            Some((count, _)) => count,
            None if is_counted_alone => 1.0,
            None => return Err(RateError::Misread(unit_piece.misread(NO_NUMBER))),
        };
        let Some((water_unit, water_piece)) = water.unit else {
            return Err(match water.count {
                Some((_, piece)) => RateError::Misread(piece.misread(NO_WATER_MEASURE)),
                None => RateError::NoWater,
            });
        };
        let country = self.country.or(told.country);
        let litres = |country| -> Result<f64, RateError> {
            let each = match water_unit {
                Unit::Volume(millilitres) => millilitres / 1000.0,
                Unit::OfCountry(uk, us) => of_country(uk, us, country)? / 1000.0,
                Unit::Can => told.can,
                Unit::Spoon(..) | Unit::Weight(_) | Unit::Ounce | Unit::Cap => {
                    return Err(RateError::Misread(water_piece.misread(NO_WATER_MEASURE)));
                }
            };
            Ok(each * water.count.map_or(1.0, |(count, _)| count))
        };
        let feed_each = |country| measure_of_feed(unit, unit_piece, country, told);
        let per_litre = |country| -> Result<f64, RateError> {
            let litres = litres(country)?;
            if litres > 0.0 {
                Ok(amount * feed_each(country)?.1 / litres)
            } else {
                Err(RateError::Misread(water_piece.misread("cannot be none: a dose needs some water.")))
            }
        };
        let value = per_litre(country)?;
        let measured = feed_each(country)?.0;
        let other = match country {
            Some(Country::Uk) => Some(Country::Us),
            Some(Country::Us) => Some(Country::Uk),
            None => None,
        };
        let by_spoon = matches!(unit, Unit::Spoon(..));
        let hangs_on_country = [unit, water_unit]
            .iter()
            .any(|unit| matches!(unit, Unit::OfCountry(..)) || (*unit == Unit::Ounce && measured == Measured::Millilitres));
        let mut rate = Rate::plain(measured, value);
        let litres = litres(country)?;
        rate.said = (value * litres, litres);
        rate.by_spoon = by_spoon;
        if by_spoon {
            rate.per_litre.low *= 1.0 - SPOON_SPREAD;
            rate.per_litre.high *= 1.0 + SPOON_SPREAD;
        }
        if hangs_on_country && self.country.is_none() {
            rate.other_country = other.and_then(|other| per_litre(Some(other)).ok());
        }
        rate.checked()
    }

    /// "1 in 200", "1:200", "1 + 200".
    fn ratio(&self, parts: f64, whole: f64, piece: &Piece, told: &Told) -> Result<Rate, RateError> {
        let total = 1000.0 * parts / whole;
        let added = 1000.0 * parts / (parts + whole);
        if whole <= 0.0 {
            return Err(RateError::Misread(piece.misread("cannot be none: a dose needs some water.")));
        }
        DOSE_RANGE.check(added).map_err(RateError::Impossible)?;
        let between = self.between.map_or("", |between| between.text.as_str());
        let said = match between {
            "in" | "per" => Some(RatioKind::Total),
            "+" | "plus" => Some(RatioKind::Added),
            _ if self.says_water => Some(RatioKind::Added),
            _ => told.ratio,
        };
        let read = match said {
            Some(kind) => kind,
            None if whole / parts < ASKED_BELOW => return Err(RateError::Asked(Ask::Ratio)),
            None => RatioKind::Total,
        };
        let (value, other) = match read {
            RatioKind::Total => (total, added),
            RatioKind::Added => (added, total),
        };
        let mut rate = Rate::plain(Measured::Parts, value);
        rate.other_ratio = said.is_none().then_some(other);
        rate.checked()
    }
}

/// Millilitres in a measure of the country that is meant.
fn of_country(uk: f64, us: f64, country: Option<Country>) -> Result<f64, RateError> {
    match country {
        Some(Country::Uk) => Ok(uk),
        Some(Country::Us) => Ok(us),
        None => Err(RateError::Asked(Ask::Country)),
    }
}

/// What one measure of feed is, in millilitres or grams.
fn measure_of_feed(unit: Unit, piece: &Piece, country: Option<Country>, told: &Told) -> Result<(Measured, f64), RateError> {
    Ok(match unit {
        Unit::Volume(millilitres) => (Measured::Millilitres, millilitres),
        Unit::OfCountry(uk, us) => (Measured::Millilitres, of_country(uk, us, country)?),
        Unit::Spoon(metric, us) => (Measured::Millilitres, if country == Some(Country::Us) { us } else { metric }),
        Unit::Weight(grams) => (Measured::Grams, grams),
        Unit::Ounce => match told.ounce {
            Some(OunceKind::Weight) => (Measured::Grams, OUNCE),
            Some(OunceKind::Fluid) => (Measured::Millilitres, of_country(FLUID_OUNCE, US_FLUID_OUNCE, country)?),
            None => return Err(RateError::Asked(Ask::Ounce)),
        },
        Unit::Cap => {
            let cap = told.cap.ok_or(RateError::Asked(Ask::Cap))?;
            (Measured::Millilitres, CAP_RANGE.check(cap).map_err(RateError::Cap)?)
        }
        Unit::Can => return Err(RateError::Misread(piece.misread(NO_MEASURE))),
    })
}
