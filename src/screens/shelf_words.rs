//! What things of the feed shelf are called. Every figure comes from the calculation.

use crate::feed::{Basis, BlendError, Cloud, Contents, Meeting, Nutrient, PHOSPHORUS_IN_OXIDE, POTASSIUM_IN_OXIDE, Straight, Stuff};
use crate::quantity::decimal;

/// What can stand on the shelf: name, and what a bag of it usually says.
pub const SHELF: [(Straight, &str, &str); 7] = [
    (Straight::PotassiumNitrate, "Potassium nitrate", "13-0-46"),
    (Straight::PotassiumPhosphate, "Monopotassium phosphate", "0-52-34"),
    (Straight::PotassiumSulphate, "Sulphate of potash", "0-0-50"),
    (Straight::CalciumNitrate, "Calcium nitrate", "15.5-0-0, calcium 19"),
    (Straight::EpsomSalts, "Epsom salts", "magnesium 9.8"),
    (Straight::AmmoniumSulphate, "Sulphate of ammonia", "21-0-0"),
    (Straight::Urea, "Urea", "46-0-0"),
];

/// What a salt holds in the words of a label.
pub fn as_label(contents: &Contents, basis: Basis) -> String {
    let (phosphorus, potassium) = match basis {
        Basis::Oxides => (PHOSPHORUS_IN_OXIDE, POTASSIUM_IN_OXIDE),
        Basis::Elements => (1.0, 1.0),
    };
    let number = |percent: f64| decimal(percent, 1);
    let mut words = [
        &number(contents.nitrogen()),
        "-",
        &number(contents.phosphorus / phosphorus),
        "-",
        &number(contents.potassium / potassium),
    ]
    .concat();
    for nutrient in [Nutrient::Magnesium, Nutrient::Calcium, Nutrient::Sulphur] {
        if contents.of(nutrient) > 0.0 {
            words += &[" + ", &number(contents.of(nutrient)), " ", nutrient.sign()].concat();
        }
    }
    words
}

/// A salt's name.
pub fn salt(of: Straight) -> &'static str {
    SHELF.iter().find(|(salt, ..)| *salt == of).map_or("", |(_, name, _)| name)
}

/// How a salt does in a stock at 10 °C.
pub const fn dissolves(cloud: Cloud) -> &'static str {
    match cloud {
        Cloud::Clear => "dissolves",
        Cloud::MayCloud => "only just: use warm water",
        Cloud::FallsOut => "too much: it will not dissolve",
    }
}

/// What feeds are made of, as far as they may not meet.
pub const fn stuff(of: Stuff) -> &'static str {
    match of {
        Stuff::Calcium => "calcium nitrate",
        Stuff::Sulphate => "sulphates, Epsom salts too",
        Stuff::Phosphate => "phosphates, most feeds too",
        Stuff::Iron => "chelated iron",
        Stuff::Urea => "urea",
        Stuff::Nitrate => "nitrates",
    }
}

/// Whether two may meet in a concentrate.
pub const fn meets(meeting: Meeting) -> &'static str {
    match meeting {
        Meeting::Fine => "may meet",
        Meeting::Limited => "for a day only",
        Meeting::Apart => "never",
    }
}

/// Why nothing comes from the shelf.
pub fn blend_error(error: BlendError) -> String {
    match error {
        BlendError::NothingFits => "Nothing ticked holds what a can of this stage wants.".to_owned(),
        BlendError::TooStrong(millisiemens) => [
            "The nearest mix would be too strong for a can, about ",
            &decimal(millisiemens, 1),
            " mS/cm: tick something else.",
        ]
        .concat(),
    }
}
