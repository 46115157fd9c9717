use super::METRES_PER_FOOT;

/// Square metres in a square foot, exact.
pub const SQUARE_METRES_PER_SQUARE_FOOT: f64 = METRES_PER_FOOT * METRES_PER_FOOT;

/// An area of ground, leaf or wet surface. Held in square metres.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Area(f64);

impl Area {
    /// From square metres.
    #[must_use]
    pub const fn from_square_metres(square_metres: f64) -> Self {
        Self(square_metres)
    }

    /// From square feet.
    #[must_use]
    pub const fn from_square_feet(square_feet: f64) -> Self {
        Self(square_feet * SQUARE_METRES_PER_SQUARE_FOOT)
    }

    /// In square metres.
    #[must_use]
    pub const fn square_metres(self) -> f64 {
        self.0
    }

    /// In square feet.
    #[must_use]
    pub const fn square_feet(self) -> f64 {
        self.0 / SQUARE_METRES_PER_SQUARE_FOOT
    }
}
