//! A dose in the words of a label, taken apart into feed and water.

use super::dose_words::{Meaning, Unit, meaning};
use super::wording::{Piece, PieceKind, pieces};
use super::{
    Ask, CAP_RANGE, Country, DOSE_RANGE, FLUID_OUNCE, Measured, OUNCE, OunceKind, Rate, RateError, RatioKind, SPOON_SPREAD, Told,
    US_FLUID_OUNCE,
};

/// Parts of water for one of feed above which "1 : n" is read as n in all without asking (choice: they are then 2 % apart).
const ASKED_BELOW: f64 = 50.0;

const NO_MEASURE: &str = "is not a measure: use ml, litres, g, oz, pints, gallons, teaspoons, tablespoons or caps.";
const NO_NUMBER: &str = "needs a number before it, such as 20 ml.";
const NO_MEASURE_AFTER: &str = "needs its measure after it, such as ml or g.";
const NO_WATER_MEASURE: &str = "measures no water: use litres, gallons, pints or your can.";
const NO_DOSE: &str = "has no place in a dose, such as 20 ml per gallon.";
const BELOW_NOUGHT: &str = "would make a dose below nought: there is none.";
const A_RANGE: &str = "makes a range: type one figure, the lower one to be safe.";
const TOO_MUCH: &str = "comes after the dose has ended.";

/// What is counted in "every 7 days".
const TIMES: [&str; 6] = ["day", "days", "week", "weeks", "fortnight", "watering"];

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

/// Reads a dose: see [`Rate::parse`].
pub(super) fn read(typed: &str, told: &Told) -> Result<Rate, RateError> {
    let pieces = pieces(typed, true).map_err(RateError::Unreadable)?;
    let pieces = dose_of(&pieces);
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

/// The dose alone, without what a label prints behind it: how often it is given, and the same water said again in brackets.
fn dose_of(pieces: &[Piece]) -> &[Piece] {
    let is_measure = |piece: &&Piece| matches!(meaning(&piece.text), Some(Meaning::Unit(_)));
    let is_time = |piece: &Piece| piece.number().is_some() || TIMES.contains(&piece.text.as_str());
    let is_end = |place: &usize| {
        let (before, rest) = pieces.split_at(*place);
        let [piece, after, ..] = rest else { return false };
        let is_said_again = piece.kind == PieceKind::Sign('(') && after.number().is_some();
        before.iter().filter(is_measure).count() >= 2 && (is_said_again || piece.text == "every" && is_time(after))
    };
    let end = (0..pieces.len()).find(is_end).unwrap_or(pieces.len());
    pieces.split_at(end).0
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
