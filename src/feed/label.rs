use std::fmt;

use super::Contents;
use super::element::{
    CALCIUM_IN_OXIDE, MAGNESIUM_IN_OXIDE, PHOSPHORUS_IN_OXIDE, POTASSIUM_IN_OXIDE, SULPHUR_IN_OXIDE, SULPHUR_IN_SULPHATE,
};
use super::wording::{Misread, Piece, PieceKind, Unreadable, pieces};
use crate::quantity::{Likely, Range, decimal};

/// What a litre of liquid feed weighs until told, kg, with its range (from memory).
pub const USUAL_DENSITY: Likely = Likely {
    low: 1.05,
    value: 1.15,
    high: 1.30,
};
/// Liquid feeds that can be, kg a litre.
pub const DENSITY_RANGE: Range = Range {
    what: "What a litre of feed weighs",
    low: 0.9,
    high: 1.8,
    unit: " kg",
};
/// What a millilitre of soluble powder weighs, g, with its range: a US teaspoon holds 6 g (Michigan State University's
/// leaflet, read), give or take a fifth.
pub const POWDER_DENSITY: Likely = Likely {
    low: 0.96,
    value: 1.2,
    high: 1.44,
};
/// The most nitrogen that a feed can hold, %: urea's (exact, from the atomic weights, rounded up).
const MOST_NITROGEN: f64 = 46.7;
/// By how much the forms of nitrogen may pass the nitrogen of the label, %: both are rounded (choice).
const ROUNDING: f64 = 0.15;

/// Whether the second and third number of a label are oxides or elements.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Basis {
    /// P₂O₅ and K₂O, as in Europe and America.
    #[default]
    Oxides,
    /// P and K, as in Australia and New Zealand.
    Elements,
}

/// What the numbers of a label are counted in.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Form {
    /// A liquid: grams in 100 ml.
    #[default]
    ByVolume,
    /// A liquid: grams in 100 g, with the weight of a litre in kg where that is known.
    ByWeight(Option<f64>),
    /// A powder or crystals: grams in 100 g.
    Powder,
}

impl Form {
    /// Grams that a millilitre weighs.
    #[must_use]
    pub const fn density(self) -> Likely {
        match self {
            Self::ByVolume | Self::ByWeight(None) => USUAL_DENSITY,
            Self::ByWeight(Some(density)) => Likely {
                low: density,
                value: density,
                high: density,
            },
            Self::Powder => POWDER_DENSITY,
        }
    }
}

/// The forms of nitrogen that a label tells, % of the feed.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct NitrogenForms {
    /// Nitrate nitrogen.
    pub nitrate: f64,
    /// Ammonium nitrogen.
    pub ammonium: f64,
    /// Urea nitrogen.
    pub urea: f64,
}

/// The numbers of a label as printed, and what follows them as plain elements; all in %.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Grade {
    /// The three numbers.
    pub numbers: [f64; 3],
    /// Mg.
    pub magnesium: f64,
    /// Ca.
    pub calcium: f64,
    /// S.
    pub sulphur: f64,
}

/// What a feed's label says of its contents.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Label {
    /// The numbers.
    pub grade: Grade,
    /// Oxides or elements.
    pub basis: Basis,
    /// Liquid or powder.
    pub form: Form,
    /// Forms of nitrogen, as far as it tells them.
    pub forms: NitrogenForms,
}

/// Why a label cannot be used; each is a sentence for a grower.
#[derive(Clone, Debug, PartialEq)]
pub enum LabelError {
    /// Nothing is typed.
    Empty,
    /// The text cannot be cut into pieces.
    Unreadable(Unreadable),
    /// Something in it has no place in a label.
    Misread(Misread),
    /// Fewer than three numbers.
    TooFew(usize),
    /// All three numbers are nought.
    Nothing,
    /// More than 100 % in all.
    MoreThanAll(f64),
    /// More nitrogen than any feed holds.
    TooMuchNitrogen(f64),
    /// The forms come to more than the nitrogen: what they come to, and the nitrogen.
    FormsBeyondNitrogen(f64, f64),
}

impl fmt::Display for LabelError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("Type the three numbers of the label, such as 5-2-9."),
            Self::Unreadable(error) => error.fmt(f),
            Self::Misread(error) => error.fmt(f),
            Self::TooFew(count) => {
                let count = if *count == 0 {
                    "There is no number here"
                } else {
                    "A number is missing"
                };
                write!(
                    f,
                    "{count}: a label gives three, for nitrogen, phosphorus and potassium, such as 5-2-9."
                )
            }
            Self::Nothing => f.write_str("A feed of 0-0-0 holds nothing: look for the three numbers on the label again."),
            Self::MoreThanAll(sum) => write!(
                f,
                "That comes to {} in 100, and no feed can hold more than 100: look at the label again.",
                decimal(*sum, 2)
            ),
            Self::TooMuchNitrogen(percent) => write!(
                f,
                "Nitrogen can be 0 to 46 % of a feed: {} % cannot be right. Look at the label again.",
                decimal(*percent, 2)
            ),
            Self::FormsBeyondNitrogen(forms, nitrogen) => write!(
                f,
                "The forms of nitrogen come to {} %, more than the {} % of nitrogen on the label: check which is which.",
                decimal(*forms, 2),
                decimal(*nitrogen, 2)
            ),
        }
    }
}

impl std::error::Error for LabelError {}

const NOT_OF_A_LABEL: &str = "has no place in a label: type three numbers, such as 5-2-9, and what follows them, such as +2MgO.";
const BELOW_NOUGHT: &str = "would make a number below nought: a label has none.";
const NO_NAME: &str = "is a fourth number without a name: write what it is, such as +2MgO.";
const NO_NUMBER: &str = "has no number before it: write how much, such as +2MgO.";

/// Where a grade keeps an element.
type Place = fn(&mut Grade) -> &mut f64;

/// What may stand behind a number after the first three: its name, and the share of the element in it (exact, from the atomic
/// weights).
const EXTRAS: [(&str, Place, f64); 6] = [
    ("mgo", |grade| &mut grade.magnesium, MAGNESIUM_IN_OXIDE),
    ("mg", |grade| &mut grade.magnesium, 1.0),
    ("cao", |grade| &mut grade.calcium, CALCIUM_IN_OXIDE),
    ("ca", |grade| &mut grade.calcium, 1.0),
    ("so", |grade| &mut grade.sulphur, SULPHUR_IN_OXIDE),
    ("s", |grade| &mut grade.sulphur, 1.0),
];
/// Words after which elements are trace elements.
const TRACE: [&str; 3] = ["trace", "te", "me"];
/// Words that a label may carry and that change nothing here.
const IDLE: [&str; 21] = [
    "npk",
    "n",
    "p",
    "k",
    "te",
    "me",
    "fe",
    "b",
    "cu",
    "mn",
    "mo",
    "zn",
    "with",
    "and",
    "plus",
    "trace",
    "elements",
    "elemental",
    "oxides",
    "oxide",
    "micronutrients",
];

impl Grade {
    /// Reads the numbers of a label as typed: "5-2-9", "NPK 5:2:9", "5-2-9+2MgO". Trace elements are passed over.
    ///
    /// # Errors
    /// [`LabelError`], which names the place of what cannot be read.
    pub fn parse(typed: &str) -> Result<Self, LabelError> {
        let pieces = pieces(typed, false).map_err(LabelError::Unreadable)?;
        if pieces.is_empty() {
            return Err(LabelError::Empty);
        }
        let mut grade = Self::default();
        let mut count = 0;
        let mut waiting: Option<&Piece> = None;
        for (place, piece) in pieces.iter().enumerate() {
            let before = place.checked_sub(1).and_then(|before| pieces.get(before));
            match piece.kind {
                PieceKind::Number(number, _) => {
                    // The figure of a formula: the 3 in "SO3", the 4 in "SO4" (exact).
                    if before.is_some_and(|before| before.text == "so") {
                        continue;
                    }
                    if let Some(waiting) = waiting {
                        return Err(LabelError::Misread(waiting.misread(NO_NAME)));
                    }
                    if let Some(place) = grade.numbers.get_mut(count) {
                        *place = number;
                        count += 1;
                    } else {
                        waiting = Some(piece);
                    }
                }
                PieceKind::Word => {
                    let extra = EXTRAS.iter().find(|(name, ..)| *name == piece.text);
                    match (extra, waiting.and_then(Piece::number)) {
                        (Some((name, element, share)), Some(number)) => {
                            let figure = pieces.get(place + 1).and_then(Piece::number);
                            let is_sulphate = *name == "so" && figure == Some(4.0);
                            *element(&mut grade) = number * if is_sulphate { SULPHUR_IN_SULPHATE } else { *share };
                            waiting = None;
                        }
                        (Some(_), None) => return Err(LabelError::Misread(piece.misread(NO_NUMBER))),
                        (None, _) if IDLE.contains(&piece.text.as_str()) => waiting = None,
                        (None, _) => return Err(LabelError::Misread(piece.misread(NOT_OF_A_LABEL))),
                    }
                }
                // It parts numbers, and letters as in "N-P-K"; elsewhere it is a minus.
                PieceKind::Sign('-') if !is_parting(before, pieces.get(place + 1)) => {
                    return Err(LabelError::Misread(piece.misread(BELOW_NOUGHT)));
                }
                PieceKind::Sign('-' | ':' | '+' | '/' | ',' | '%' | '(' | ')' | ';') => (),
                PieceKind::Sign(_) => return Err(LabelError::Misread(piece.misread(NOT_OF_A_LABEL))),
            }
        }
        if let Some(waiting) = waiting {
            return Err(LabelError::Misread(waiting.misread(NO_NAME)));
        }
        if count < 3 {
            return Err(LabelError::TooFew(count));
        }
        grade.checked()
    }

    /// What the words of a label say of how P and K are counted, if anything: "5-2-9 elements", but not "5-2-9 with trace elements".
    #[must_use]
    pub fn basis_in(typed: &str) -> Option<Basis> {
        let pieces = pieces(typed, false).ok()?;
        let mut words: Vec<&str> = pieces
            .iter()
            .filter(|piece| piece.kind == PieceKind::Word)
            .map(|piece| piece.text.as_str())
            .collect();
        while let Some(word) = words.pop() {
            match word {
                "oxides" | "oxide" => return Some(Basis::Oxides),
                "elemental" => return Some(Basis::Elements),
                "elements" if words.last().is_none_or(|before| !TRACE.contains(before)) => return Some(Basis::Elements),
                _ => {}
            }
        }
        None
    }

    /// The label itself, unless it cannot be.
    fn checked(self) -> Result<Self, LabelError> {
        let [nitrogen, phosphorus, potassium] = self.numbers;
        let sum = nitrogen + phosphorus + potassium + self.magnesium + self.calcium + self.sulphur;
        if sum > 100.0 {
            return Err(LabelError::MoreThanAll(sum));
        }
        if nitrogen > MOST_NITROGEN {
            return Err(LabelError::TooMuchNitrogen(nitrogen));
        }
        if sum <= 0.0 {
            return Err(LabelError::Nothing);
        }
        Ok(self)
    }
}

/// Whether a stroke between two pieces parts them.
fn is_parting(before: Option<&Piece>, after: Option<&Piece>) -> bool {
    let is_word = |piece: &Piece| piece.kind == PieceKind::Word;
    let ends_a_number = |piece: &Piece| piece.number().is_some() || piece.kind == PieceKind::Sign('%');
    before.is_some_and(|before| ends_a_number(before) || (is_word(before) && after.is_some_and(is_word)))
}

impl Label {
    /// An amount in the unit that the label counts in (ml by volume, otherwise g) as it is measured out: ml of a liquid, g of a powder;
    /// and whether it is weighed.
    #[must_use]
    pub const fn measured_out(&self, counted: f64) -> (Likely, bool) {
        let plain = Likely {
            low: counted,
            value: counted,
            high: counted,
        };
        match self.form {
            Form::ByVolume => (plain, false),
            Form::Powder => (plain, true),
            Form::ByWeight(_) => {
                let density = self.form.density();
                let poured = Likely {
                    low: counted / density.high,
                    value: counted / density.value,
                    high: counted / density.low,
                };
                (poured, false)
            }
        }
    }

    /// What the feed holds, g in 100 ml or in 100 g as its form says, as plain elements.
    ///
    /// # Errors
    /// When the forms of nitrogen come to more than the nitrogen.
    pub fn contents(&self) -> Result<Contents, LabelError> {
        let [nitrogen, phosphorus, potassium] = self.grade.numbers;
        let forms = self.forms;
        let told = forms.nitrate + forms.ammonium + forms.urea;
        if told > nitrogen + ROUNDING {
            return Err(LabelError::FormsBeyondNitrogen(told, nitrogen));
        }
        // Rounded forms that pass the nitrogen a little are taken down to it.
        let fit = if told > nitrogen { nitrogen / told } else { 1.0 };
        let (phosphorus_share, potassium_share) = match self.basis {
            Basis::Oxides => (PHOSPHORUS_IN_OXIDE, POTASSIUM_IN_OXIDE),
            Basis::Elements => (1.0, 1.0),
        };
        Ok(Contents {
            nitrate_nitrogen: forms.nitrate * fit,
            ammonium_nitrogen: forms.ammonium * fit,
            urea_nitrogen: forms.urea * fit,
            untold_nitrogen: (nitrogen - told).max(0.0),
            phosphorus: phosphorus * phosphorus_share,
            potassium: potassium * potassium_share,
            magnesium: self.grade.magnesium,
            calcium: self.grade.calcium,
            sulphur: self.grade.sulphur,
            chlorine: 0.0,
        })
    }
}
