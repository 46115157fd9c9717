use crate::almanac::{Sky, Thermometer};
use crate::pest::{Control, Extent, Pest, Told};
use crate::quantity::{TemperatureScale, UnitSystem};
use crate::today::Task;
use crate::water::{Cover, Exposure, Feel, Leafiness, Medium, PlantedFrom};

use super::ContainerKind;

/// A choice that has a short word of its own: in what is stored, and as the value of its key or list entry on the page.
///
/// A word never changes once it has been released; a new choice gets a new one.
pub trait Coded: Copy + PartialEq + 'static {
    /// Every choice with its word, in the order in which they are offered.
    const CODES: &'static [(&'static str, Self)];

    /// The word of this choice.
    #[must_use]
    fn code(self) -> &'static str {
        Self::CODES.iter().find(|(_, choice)| *choice == self).map_or("", |(code, _)| code)
    }

    /// The choice with this word, if there is one.
    #[must_use]
    fn from_code(code: &str) -> Option<Self> {
        Self::CODES.iter().find(|(other, _)| *other == code).map(|(_, choice)| *choice)
    }
}

impl Coded for Sky {
    const CODES: &'static [(&'static str, Self)] = &[
        ("clear", Self::Clear),
        ("bright", Self::Bright),
        ("mixed", Self::Mixed),
        ("dull", Self::Dull),
        ("dark", Self::Dark),
    ];
}

impl Coded for Feel {
    const CODES: &'static [(&'static str, Self)] = &[("dry", Self::Dry), ("moist", Self::Moist), ("sodden", Self::Sodden)];
}

impl Coded for Thermometer {
    const CODES: &'static [(&'static str, Self)] = &[("outside", Self::Outside), ("inside", Self::Inside)];
}

impl Coded for UnitSystem {
    const CODES: &'static [(&'static str, Self)] = &[("imperial", Self::Imperial), ("metric", Self::Metric), ("us", Self::Us)];
}

impl Coded for TemperatureScale {
    const CODES: &'static [(&'static str, Self)] = &[("celsius", Self::Celsius), ("fahrenheit", Self::Fahrenheit)];
}

impl Coded for ContainerKind {
    const CODES: &'static [(&'static str, Self)] = &[
        ("grow-bag", Self::GrowBag),
        ("pot", Self::Pot),
        ("basket", Self::Basket),
        ("border", Self::Border),
        ("ring", Self::Ring),
    ];
}

impl Coded for Medium {
    const CODES: &'static [(&'static str, Self)] = &[
        ("peat-free", Self::PeatFree),
        ("peat", Self::Peat),
        ("coir", Self::Coir),
        ("loam", Self::Loam),
    ];
}

impl Coded for Cover {
    const CODES: &'static [(&'static str, Self)] = &[
        ("glass", Self::Glass),
        ("clean-glass", Self::CleanGlass),
        ("old-glass", Self::OldGlass),
        ("twin-wall", Self::TwinWall),
        ("thick-twin-wall", Self::ThickTwinWall),
        ("new-polythene", Self::NewPolythene),
        ("old-polythene", Self::OldPolythene),
    ];
}

impl Coded for Exposure {
    const CODES: &'static [(&'static str, Self)] = &[("sheltered", Self::Sheltered), ("usual", Self::Usual), ("exposed", Self::Exposed)];
}

impl Coded for Leafiness {
    const CODES: &'static [(&'static str, Self)] = &[("sparse", Self::Sparse), ("usual", Self::Usual), ("bushy", Self::Bushy)];
}

impl Coded for PlantedFrom {
    const CODES: &'static [(&'static str, Self)] = &[("7-cm", Self::Pot7), ("9-cm", Self::Pot9), ("13-cm", Self::Pot13)];
}

impl Coded for Pest {
    const CODES: &'static [(&'static str, Self)] = &[
        ("whitefly", Self::Whitefly),
        ("spider-mite", Self::SpiderMite),
        ("aphid", Self::Aphid),
        ("thrips", Self::Thrips),
        ("russet-mite", Self::RussetMite),
        ("leaf-mining-moth", Self::LeafMiningMoth),
        ("leaf-mining-fly", Self::LeafMiningFly),
        ("tomato-moth", Self::TomatoMoth),
        ("slug", Self::Slug),
    ];
}

impl Coded for Control {
    const CODES: &'static [(&'static str, Self)] = &[
        ("vacuum", Self::Vacuum),
        ("water-jet", Self::WaterJet),
        ("hand-picking", Self::HandPicking),
        ("sticky-cards", Self::StickyCards),
        ("traps", Self::Traps),
        ("contact-spray", Self::ContactSpray),
        ("other-spray", Self::OtherSpray),
        ("ferric-phosphate", Self::FerricPhosphate),
        ("parasitoid", Self::Parasitoid),
        ("predatory-mite", Self::PredatoryMite),
        ("nematodes", Self::Nematodes),
    ];
}

impl Coded for Told {
    const CODES: &'static [(&'static str, Self)] = &[("yes", Self::Yes), ("no", Self::No), ("unknown", Self::Unknown)];
}

impl Coded for Extent {
    const CODES: &'static [(&'static str, Self)] = &[("full", Self::Full), ("least", Self::Least), ("chosen", Self::Chosen)];
}

impl Coded for Task {
    const CODES: &'static [(&'static str, Self)] = &[
        ("squeeze", Self::Squeeze),
        ("lift-pot", Self::LiftPot),
        ("water-dry", Self::WaterDry),
        ("water", Self::Water),
        ("feed", Self::Feed),
        ("squeeze-again", Self::SqueezeAgain),
        ("top-up-butt", Self::TopUpButt),
        ("tap", Self::Tap),
        ("damp-path", Self::DampPath),
        ("stop-plants", Self::StopPlants),
        ("taper", Self::Taper),
        ("pour-at-noon", Self::PourAtNoon),
        ("pour-before-three", Self::PourBeforeThree),
        ("someone-comes", Self::SomeoneComes),
    ];
}
