/// Metres in a foot, exact (international yard and pound agreement, 1959).
pub const METRES_PER_FOOT: f64 = 0.3048;
/// Millimetres in an inch, exact (same agreement).
pub const MILLIMETRES_PER_INCH: f64 = 25.4;

/// A length, a height, or a depth of rain. Held in metres.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Length(f64);

impl Length {
    /// From metres.
    #[must_use]
    pub const fn from_metres(metres: f64) -> Self {
        Self(metres)
    }

    /// From centimetres.
    #[must_use]
    pub const fn from_centimetres(centimetres: f64) -> Self {
        Self(centimetres / 100.0)
    }

    /// From millimetres.
    #[must_use]
    pub const fn from_millimetres(millimetres: f64) -> Self {
        Self(millimetres / 1000.0)
    }

    /// From feet.
    #[must_use]
    pub const fn from_feet(feet: f64) -> Self {
        Self(feet * METRES_PER_FOOT)
    }

    /// From inches.
    #[must_use]
    pub const fn from_inches(inches: f64) -> Self {
        Self::from_millimetres(inches * MILLIMETRES_PER_INCH)
    }

    /// In metres.
    #[must_use]
    pub const fn metres(self) -> f64 {
        self.0
    }

    /// In centimetres.
    #[must_use]
    pub const fn centimetres(self) -> f64 {
        self.0 * 100.0
    }

    /// In millimetres.
    #[must_use]
    pub const fn millimetres(self) -> f64 {
        self.0 * 1000.0
    }

    /// In feet.
    #[must_use]
    pub const fn feet(self) -> f64 {
        self.0 / METRES_PER_FOOT
    }

    /// In inches.
    #[must_use]
    pub const fn inches(self) -> f64 {
        self.millimetres() / MILLIMETRES_PER_INCH
    }
}
