use super::Nutrient;
use crate::almanac::{CivilDay, Latitude};

/// How far the crop is, the further the later.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// No truss has set.
    NoTruss,
    /// The fruit of the first truss swells.
    Swelling,
    /// Fruit is picked.
    #[default]
    Picking,
    /// The last truss has set: four to six weeks are left.
    Late,
}

/// How thick the stem is, 15 cm below the tip.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stem {
    /// Below 8 mm.
    Thin,
    /// 10 to 12 mm.
    Right,
    /// Above 15 mm, about a thumb at the base.
    Lush,
}

/// The lowest and the highest that a can should hold of a nutrient, mg/L.
pub type TargetBand = (f64, f64);

impl Stage {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::NoTruss, Self::Swelling, Self::Picking, Self::Late];

    /// How far a crop with so many set trusses usually is (choice: the lowest fruit colours from four on), and whether it comes to its
    /// end.
    #[must_use]
    pub const fn of_trusses(trusses: f64, is_ending: bool) -> Self {
        match () {
            () if trusses < 1.0 => Self::NoTruss,
            () if is_ending => Self::Late,
            () if trusses < 4.0 => Self::Swelling,
            () => Self::Picking,
        }
    }

    /// What a can should hold (choice, after the target tables of extension services, from memory).
    #[must_use]
    pub const fn band(self, nutrient: Nutrient) -> TargetBand {
        match (nutrient, self) {
            (Nutrient::Nitrogen, Self::NoTruss) => (60.0, 100.0),
            (Nutrient::Nitrogen, Self::Swelling) | (Nutrient::Potassium, Self::NoTruss) => (100.0, 150.0),
            (Nutrient::Nitrogen, Self::Picking | Self::Late) => (150.0, 200.0),
            (Nutrient::Potassium, Self::Swelling) => (150.0, 250.0),
            (Nutrient::Potassium, Self::Picking | Self::Late) => (200.0, 300.0),
            (Nutrient::Phosphorus, _) => (30.0, 50.0),
            (Nutrient::Magnesium, _) => (40.0, 50.0),
            (Nutrient::Calcium, _) => (120.0, 150.0),
            (Nutrient::Sulphur, _) => (0.0, 0.0),
        }
    }

    /// Share of a picking week's need (choice).
    #[must_use]
    pub const fn share_of_need(self) -> f64 {
        match self {
            Self::NoTruss => 0.3,
            Self::Swelling => 0.7,
            Self::Picking => 1.0,
            Self::Late => 0.5,
        }
    }
}

/// K:N below which growth goes into leaf (choice).
pub(super) const LITTLE_POTASH: f64 = 0.8;
/// K:N from which potash may keep magnesium and calcium out (choice).
pub(super) const MUCH_POTASH: f64 = 2.5;

/// Which way a feed's K:N leans.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lean {
    /// To leaf.
    Leaf,
    /// Neither way.
    Even,
    /// To potash.
    Potash,
}

impl Lean {
    /// Of a K:N, as elements.
    #[must_use]
    pub const fn of(potassium_to_nitrogen: f64) -> Self {
        match () {
            () if potassium_to_nitrogen < LITTLE_POTASH => Self::Leaf,
            () if potassium_to_nitrogen > MUCH_POTASH => Self::Potash,
            () => Self::Even,
        }
    }
}

/// What a can of this stage should hold of a nutrient, mg/L: its band, of nitrogen the half that [`nitrogen_aim`] points to.
#[must_use]
pub const fn wanted(stage: Stage, nutrient: Nutrient, nitrogen_aim: f64) -> TargetBand {
    let (low, high) = stage.band(nutrient);
    let middle = f64::midpoint(low, high);
    match nutrient {
        Nutrient::Nitrogen if nitrogen_aim > 0.5 => (middle, high),
        Nutrient::Nitrogen if nitrogen_aim < 0.5 => (low, middle),
        _ => (low, high),
    }
}

/// How far up its band the nitrogen of a can should stand, 0 to 1 (choice): high from May to August of the north and for thin
/// stems, low from September on and for lush ones.
#[must_use]
pub fn nitrogen_aim(day: CivilDay, latitude: Latitude, stem: Option<Stem>) -> f64 {
    match (stem, day.northern_month(latitude)) {
        (Some(Stem::Thin), _) => 1.0,
        (Some(Stem::Lush), _) => 0.0,
        (_, 5..=8) => 0.75,
        (_, 9..=12) => 0.25,
        _ => 0.5,
    }
}

/// What a can of this stage should hold, mg/L, in the order of [`Nutrient::ALL`]; nitrogen so far up its band. No sulphur is asked
/// for, nor calcium where the water brings it.
#[must_use]
pub fn target(stage: Stage, nitrogen_aim: f64, calcium_of_water: f64) -> [f64; 6] {
    Nutrient::ALL.map(|nutrient| {
        let (low, high) = stage.band(nutrient);
        match nutrient {
            Nutrient::Nitrogen => low + (high - low) * nitrogen_aim,
            Nutrient::Calcium => (f64::midpoint(low, high) - calcium_of_water).max(0.0),
            _ => f64::midpoint(low, high),
        }
    })
}
