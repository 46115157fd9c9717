//! What turns to gypsum or calcium phosphate in a can, and what must not meet in a concentrate.

use super::element::atomic_weight as weight;
use super::{Contents, Ions, Straight, Water, activity};
use crate::quantity::Range;

/// Calcium times sulphate from which gypsum may fall out of a can, and from which it will, mmol²/L² (choice: PHREEQC at 15 °C
/// has it saturated at 14.5 mmol/L of each).
pub const GYPSUM_LIMITS: (f64, f64) = (100.0, 200.0);
/// Solubility product of brushite, CaHPO₄·2H₂O, as −log₁₀, no unit (from memory).
const BRUSHITE: f64 = 6.59;
/// The second step of phosphoric acid, as −log₁₀, no unit (PHREEQC's database, read).
const SECOND_ACIDITY: f64 = 7.21;
/// Share of what dissolves at 10 °C from which a stock is warned of (choice).
const NEARLY_FULL: f64 = 0.5;

/// How likely something is to fall out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cloud {
    /// It stays clear.
    Clear,
    /// It may turn cloudy: stir, and use it the same day.
    MayCloud,
    /// It will fall out: not in one can.
    FallsOut,
}

/// Whether gypsum falls out of a can with so much calcium and sulphate, mmol/L.
#[must_use]
pub fn gypsum(ions: &Ions) -> Cloud {
    let (may, will) = GYPSUM_LIMITS;
    let product = ions.calcium * ions.sulphate;
    match () {
        () if product > will => Cloud::FallsOut,
        () if product > may => Cloud::MayCloud,
        () => Cloud::Clear,
    }
}

/// By how many powers of ten a can is over what calcium phosphate stays dissolved in it, at an acidity (pH) and an ionic strength,
/// mol/L; below nought it stays clear. Without calcium or phosphorus it is minus infinity.
///
/// `log({Ca²⁺}{HPO₄²⁻}) + pK`, with Davies's activities and `HPO₄/H₂PO₄ = 10^(pH − pK₂)` in activities.
#[must_use]
pub fn brushite_index(calcium: f64, phosphorus: f64, acidity: f64, strength: f64) -> f64 {
    let (one, two) = (activity(strength, 1.0), activity(strength, 2.0));
    let ratio = 10_f64.powf(acidity - SECOND_ACIDITY) * one / two;
    let hydrogen_phosphate = phosphorus * ratio / (1.0 + ratio);
    (calcium / 1000.0 * two * hydrogen_phosphate / 1000.0 * two).log10() + BRUSHITE
}

/// Whether calcium phosphate may cloud a can of so much, mg/L, in water of an acidity.
#[must_use]
pub fn phosphate(contents: &Contents, acidity: f64) -> Cloud {
    let strength = Ions::of(contents).free().strength();
    let over = brushite_index(
        contents.calcium / weight::CALCIUM,
        contents.phosphorus / weight::PHOSPHORUS,
        acidity,
        strength,
    );
    if over > 0.0 { Cloud::MayCloud } else { Cloud::Clear }
}

/// What may fall out of a can.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Clouds {
    /// Calcium with sulphate.
    pub gypsum: Cloud,
    /// Calcium with phosphate.
    pub phosphate: Cloud,
}

/// What may fall out of a can with so much feed, mg/L, in a water with its own calcium and acidity.
#[must_use]
pub fn clouds(feed: &Contents, water: Water) -> Clouds {
    let mut all = *feed;
    all.calcium += water.calcium();
    Clouds {
        gypsum: gypsum(&Ions::of(&all)),
        phosphate: phosphate(&all, water.acidity()),
    }
}

/// Whether a stock of so many grams in a litre of water dissolves at 10 °C.
#[must_use]
pub fn stock(salt: Straight, grams_in_litre: f64) -> Cloud {
    let Some((cold, _)) = salt.solubility() else {
        return Cloud::Clear;
    };
    match grams_in_litre / (cold * 10.0) {
        share if share > 1.0 => Cloud::FallsOut,
        share if share > NEARLY_FULL => Cloud::MayCloud,
        _ => Cloud::Clear,
    }
}

/// What a feed is made of, as far as concentrates are concerned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stuff {
    /// Calcium nitrate.
    Calcium,
    /// Epsom salts, sulphate of potash, sulphate of ammonia.
    Sulphate,
    /// Phosphates, and nearly every complete feed.
    Phosphate,
    /// Chelated iron.
    Iron,
    /// Urea.
    Urea,
    /// Nitrate of potash and the like.
    Nitrate,
}

/// Whether two feeds may meet in a concentrate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meeting {
    /// They may.
    Fine,
    /// Within limits: for a day.
    Limited,
    /// They must not: gypsum or calcium phosphate. One after another into a full can.
    Apart,
}

impl Stuff {
    /// All of them.
    pub const ALL: [Self; 6] = [
        Self::Calcium,
        Self::Sulphate,
        Self::Phosphate,
        Self::Iron,
        Self::Urea,
        Self::Nitrate,
    ];
}

/// Whether two kinds of feed may meet in a concentrate (practice, read second-hand; the University of Massachusetts' sheet on
/// greenhouse tomatoes, read, keeps calcium nitrate in a stock of its own).
#[must_use]
pub const fn meeting(one: Stuff, other: Stuff) -> Meeting {
    match (one, other) {
        (Stuff::Calcium, Stuff::Sulphate | Stuff::Phosphate) | (Stuff::Sulphate | Stuff::Phosphate, Stuff::Calcium) => Meeting::Apart,
        (Stuff::Calcium, Stuff::Urea)
        | (Stuff::Urea, Stuff::Calcium)
        | (Stuff::Phosphate, Stuff::Iron)
        | (Stuff::Iron, Stuff::Phosphate) => Meeting::Limited,
        _ => Meeting::Fine,
    }
}

/// Times that a stock can be as strong as the can.
pub const STOCK_RANGE: Range = Range {
    what: "A stock",
    low: 2.0,
    high: 400.0,
    unit: " times as strong as the can",
};
/// Times as strong as the can, until told (common practice: the University of Massachusetts' sheet on greenhouse tomatoes,
/// read, dilutes its stocks a hundredfold).
pub const USUAL_STOCK: f64 = 100.0;

/// One salt in a stock.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InStock {
    /// Which.
    pub salt: Straight,
    /// Grams in a litre of the stock.
    pub grams: f64,
    /// Whether it dissolves at 10 °C by itself.
    pub dissolves: Cloud,
    /// Whether it belongs into the second bottle, when calcium has to stand in one of its own.
    pub second: bool,
}

/// A stock that is diluted for the can.
#[derive(Clone, Debug, PartialEq)]
pub struct Stock {
    /// What is in it, in the shelf's order.
    pub salts: Vec<InStock>,
    /// Calcium with sulphate, if all stood in one bottle.
    pub gypsum: Cloud,
    /// Calcium with phosphate, if all stood in one bottle.
    pub phosphate: Cloud,
    /// Salts that may stand together for a day only.
    pub is_limited: bool,
}

impl Stock {
    /// Whether it takes two bottles.
    #[must_use]
    pub fn takes_two(&self) -> bool {
        self.gypsum > Cloud::Clear || self.phosphate > Cloud::Clear
    }
}

/// A stock so many times as strong as a can with so many grams of each salt in a litre.
///
/// Gypsum goes by `Ca × SO₄` as in the can. How much phosphate a strong stock keeps dissolved beside calcium no dilute rule says: there
/// [`meeting`] decides.
#[must_use]
pub fn stock_of(salts: &[(Straight, f64)], times: f64) -> Stock {
    let mut all = Contents::default();
    for (salt, grams) in salts {
        all = all.plus(&super::in_a_litre(&salt.contents(), 1.0), grams * times);
    }
    let used = || salts.iter().filter(|(_, grams)| *grams > 0.0);
    let meet = |wanted: Meeting, of: fn(Stuff) -> bool| {
        used().any(|(one, _)| used().any(|(other, _)| of(other.stuff()) && meeting(one.stuff(), other.stuff()) == wanted))
    };
    let is_phosphate = |stuff| stuff == Stuff::Phosphate;
    Stock {
        salts: used()
            .map(|&(salt, grams)| InStock {
                salt,
                grams: grams * times,
                dissolves: stock(salt, grams * times),
                second: !matches!(salt.stuff(), Stuff::Calcium | Stuff::Nitrate),
            })
            .collect(),
        gypsum: gypsum(&Ions::of(&all)),
        phosphate: if meet(Meeting::Apart, is_phosphate) {
            Cloud::FallsOut
        } else {
            Cloud::Clear
        },
        is_limited: meet(Meeting::Limited, |_| true),
    }
}

impl Straight {
    /// What it is made of.
    #[must_use]
    pub const fn stuff(self) -> Stuff {
        match self {
            Self::CalciumNitrate | Self::PureCalciumNitrate => Stuff::Calcium,
            Self::PotassiumSulphate | Self::EpsomSalts | Self::AmmoniumSulphate | Self::Kieserite => Stuff::Sulphate,
            Self::PotassiumPhosphate => Stuff::Phosphate,
            Self::Urea => Stuff::Urea,
            Self::PotassiumNitrate | Self::MagnesiumNitrate | Self::PotassiumChloride | Self::AmmoniumNitrate => Stuff::Nitrate,
        }
    }
}
