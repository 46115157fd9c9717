use crate::quantity::Range;
use crate::working::{Working, value};

/// Roofs that can be, m² seen from above.
pub const ROOF_RANGE: Range = Range {
    what: "Roof",
    low: 0.0,
    high: 1000.0,
    unit: " m²",
};

/// Share of the water that passes the filter or leaf trap, 0 to 1 (read: Centre for Alternative Technology).
const FILTER: f64 = 0.90;
/// Rain that only wets the roof, mm: least and most (choice).
const WETTING: (f64, f64) = (0.5, 1.0);

/// What a roof is made of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum RoofKind {
    /// Glass or polycarbonate, as on the house itself.
    #[default]
    Glass,
    /// Smooth sheet at a slope.
    SmoothSheet,
    /// Rough sheet at a slope.
    RoughSheet,
    /// Tiles at a slope.
    Tiles,
    /// A flat roof.
    Flat,
}

impl RoofKind {
    /// All kinds.
    pub const ALL: [Self; 5] = [Self::Glass, Self::SmoothSheet, Self::RoughSheet, Self::Tiles, Self::Flat];

    /// Share of the rain that runs off, 0 to 1: tiles 0.75 and flat at most 0.5 (read: Centre for Alternative Technology);
    /// sheet 0.9 smooth and 0.8 rough (from memory: usual with the form of BS 8515:2009, since withdrawn); glass 0.9 (choice).
    #[must_use]
    pub const fn runoff(self) -> f64 {
        match self {
            Self::Glass | Self::SmoothSheet => 0.90,
            Self::RoughSheet => 0.80,
            Self::Tiles => 0.75,
            Self::Flat => 0.50,
        }
    }
}

/// A roof that fills a butt.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Roof {
    /// Area seen from above, m², 0 to 1000.
    pub plan_area: f64,
    /// What it is made of.
    pub kind: RoofKind,
}

/// What one spell of rain brings.
#[derive(Clone, Debug, PartialEq)]
pub struct Refill {
    /// Litres when a thirsty roof takes its 1 mm first.
    pub low: f64,
    /// Litres when it takes 0.5 mm.
    pub high: f64,
    /// How they were reached.
    pub working: Working,
}

impl Roof {
    /// Litres from each millimetre of rain on a wet roof: `A·C·η`.
    #[must_use]
    pub const fn litres_per_millimetre(self) -> f64 {
        self.plan_area * self.kind.runoff() * FILTER
    }

    /// Litres from one spell of rain, mm.
    ///
    /// `V = A·(P − wetting)·C·η`, in the form of BS 8515:2009 (read; since withdrawn) with the roof's wetting taken off (choice).
    #[must_use]
    pub fn refill(self, rain_millimetres: f64) -> Refill {
        let (least, most) = WETTING;
        let litres = |wetting: f64| self.litres_per_millimetre() * (rain_millimetres - wetting).max(0.0);
        let mut working = Working::default();
        let low = litres(most);
        let high = working.step(
            "Rain from the roof",
            "V = area × (rain − 0.5 to 1 mm that wet the roof) × run-off × 0.90 past the filter",
            &[
                value("area", self.plan_area, "m²", 1),
                value("rain", rain_millimetres, "mm", 1),
                value("run-off", self.kind.runoff(), "", 2),
                value("at least", low, "litres", 0),
            ],
            value("at most", litres(least), "litres", 0),
            "Form of BS 8515:2009, since withdrawn; coefficients of the Centre for Alternative Technology; sheet from memory, glass our choice",
        );
        Refill { low, high, working }
    }
}
