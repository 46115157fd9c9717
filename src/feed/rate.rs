use std::fmt;

use super::dose_reader::read;
use super::wording::{Misread, Unreadable};
use crate::quantity::{Likely, OutOfRange, Range, decimal};

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

impl Rate {
    /// Reads a dose in the words of a label, with what the grower has told beside them: "20 ml per gallon", "1 in 200",
    /// "half a capful per can".
    ///
    /// # Errors
    /// [`RateError`], which names the place of what cannot be read, or asks for what only the grower can tell.
    pub fn parse(typed: &str, told: &Told) -> Result<Self, RateError> {
        read(typed, told)
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
    pub(super) const fn plain(measured: Measured, per_litre: f64) -> Self {
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

    /// The dose itself, unless no label gives such a one.
    pub(super) fn checked(self) -> Result<Self, RateError> {
        DOSE_RANGE.check(self.per_litre.value).map_err(RateError::Impossible)?;
        Ok(self)
    }
}
