use super::interception;
use crate::quantity::{Range, bounded};
use crate::working::{Working, value};

/// Heights of a plant that can be, m.
pub const HEIGHT_RANGE: Range = Range {
    what: "Height",
    low: 0.0,
    high: 4.0,
    unit: " m",
};
/// Trusses on a plant that can be.
pub const TRUSSES_RANGE: Range = Range {
    what: "Trusses set",
    low: 0.0,
    high: 20.0,
    unit: "",
};

/// Leaf area of a full, usual cordon, m² (choice; a published trial's stems carried 1.2 to 1.6).
const FULL_LEAF_AREA: f64 = 1.2;
/// Height from which lower leaves go as fast as new ones come, m (choice).
pub(super) const FULL_HEIGHT: f64 = 1.8;
/// How leaf area rises with height below that: the exponent, no unit (choice).
const LEAF_AREA_POWER: f64 = 1.3;

/// Height at the first truss, m, and for each truss above it, m (choice, anchored on a 1.2 m plant with five trusses).
pub(super) const HEIGHT_AT_NO_TRUSS: f64 = 0.30;
/// Height that each truss adds, m (choice).
pub(super) const HEIGHT_PER_TRUSS: f64 = 0.18;
/// Trusses of the plant assumed before anyone has looked: half grown (choice).
const ASSUMED_TRUSSES: f64 = 3.0;

/// How many leaves a plant keeps for its height.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Leafiness {
    /// Thin, or with its lower leaves taken off.
    Sparse,
    /// A cordon with its side shoots out.
    #[default]
    Usual,
    /// A bush, or a cordon left to itself.
    Bushy,
}

impl Leafiness {
    /// Factor on the leaf area of a usual cordon (choice).
    #[must_use]
    pub const fn factor(self) -> f64 {
        match self {
            Self::Sparse => 0.7,
            Self::Usual => 1.0,
            Self::Bushy => 1.3,
        }
    }
}

/// Height that goes with a number of trusses, m.
#[must_use]
pub fn height_for_trusses(trusses: f64) -> f64 {
    HEIGHT_AT_NO_TRUSS + HEIGHT_PER_TRUSS * trusses
}

/// Trusses that go with a height in metres, 0 to 20; none below 0.3 m. Not rounded.
#[must_use]
pub fn trusses_for_height(height_metres: f64) -> f64 {
    bounded(
        (height_metres - HEIGHT_AT_NO_TRUSS) / HEIGHT_PER_TRUSS,
        TRUSSES_RANGE.low,
        TRUSSES_RANGE.high,
    )
}

/// Height and trusses, either of which may stand in for the other.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PlantSize {
    /// Height, m, 0 to 4.
    pub height_metres: Option<f64>,
    /// Trusses set, 0 to 20.
    pub trusses: Option<f64>,
}

impl PlantSize {
    /// Height in metres and trusses: the missing one from the other, or a half-grown plant.
    #[must_use]
    pub fn settled(self) -> (f64, f64) {
        match (self.height_metres, self.trusses) {
            (Some(height), Some(trusses)) => (height, trusses),
            (Some(height), None) => (height, trusses_for_height(height)),
            (None, trusses) => {
                let trusses = trusses.unwrap_or(ASSUMED_TRUSSES);
                (height_for_trusses(trusses), trusses)
            }
        }
    }
}

/// The leaves of one plant and the light they catch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Canopy {
    /// Leaf area of the plant, m².
    pub leaf_area: f64,
    /// Leaf area over the ground that the plant has, m² per m².
    pub leaf_area_index: f64,
    /// Share of the radiation that the leaves catch, 0 to 1.
    pub light_caught: f64,
}

impl Canopy {
    /// `LA = 1.2·ℓ·(min(h, 1.8)/1.8)^1.3`, `LAI = LA/Ap`, `f = 1 − exp(−0.7·LAI)`.
    ///
    /// Height in m (not below 0), ground per plant in m² (above 0). The height law is our choice; it is the largest single
    /// uncertainty of the dose (±30 %).
    #[must_use]
    pub fn new(height_metres: f64, leafiness: Leafiness, ground: f64, working: &mut Working) -> Self {
        let leaf_area = FULL_LEAF_AREA * leafiness.factor() * (height_metres.min(FULL_HEIGHT) / FULL_HEIGHT).powf(LEAF_AREA_POWER);
        let leaf_area = working.step(
            "Leaves on the plant",
            "LA = 1.2 × leafiness × (height, at most 1.8, ÷ 1.8)^1.3",
            &[
                value("height", height_metres, "m", 2),
                value("leafiness", leafiness.factor(), "", 1),
            ],
            value("LA", leaf_area, "m²", 2),
            "Our choice, near published leaf counts of cordons; right to about a third",
        );
        let leaf_area_index = leaf_area / ground;
        let light_caught = working.step(
            "Light that the leaves catch",
            "f = 1 − exp(−0.7 × LA ÷ ground)",
            &[value("LA", leaf_area, "m²", 2), value("ground", ground, "m²", 2)],
            value("f", interception(leaf_area_index), "", 2),
            "FAO Irrigation and Drainage Paper 56, Eq. 97, exponent 0.7",
        );
        Self {
            leaf_area,
            leaf_area_index,
            light_caught,
        }
    }

    /// Share of the radiation that passes the leaves, 0 to 1.
    #[must_use]
    pub const fn light_passed(&self) -> f64 {
        1.0 - self.light_caught
    }
}
