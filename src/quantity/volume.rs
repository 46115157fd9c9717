/// Litres in an imperial gallon, exact (Weights and Measures Act 1985, UK).
pub const LITRES_PER_IMPERIAL_GALLON: f64 = 4.546_09;
/// Litres in an imperial pint: an eighth of the gallon, exact.
pub const LITRES_PER_IMPERIAL_PINT: f64 = LITRES_PER_IMPERIAL_GALLON / 8.0;
/// Litres in an imperial fluid ounce: a twentieth of the pint, exact.
pub const LITRES_PER_IMPERIAL_FLUID_OUNCE: f64 = LITRES_PER_IMPERIAL_PINT / 20.0;
/// Litres in a US liquid gallon: 231 cubic inches, exact (NIST Handbook 44, Appendix C).
pub const LITRES_PER_US_GALLON: f64 = 3.785_411_784;
/// Litres in a US liquid pint: an eighth of the gallon, exact.
pub const LITRES_PER_US_PINT: f64 = LITRES_PER_US_GALLON / 8.0;
/// Litres in a US fluid ounce: a sixteenth of the pint, exact.
pub const LITRES_PER_US_FLUID_OUNCE: f64 = LITRES_PER_US_PINT / 16.0;

/// An amount of liquid, or the space inside a container. Held in litres.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Volume(f64);

impl Volume {
    /// No liquid at all.
    pub const ZERO: Self = Self(0.0);

    /// From litres.
    #[must_use]
    pub const fn from_litres(litres: f64) -> Self {
        Self(litres)
    }

    /// From imperial pints.
    #[must_use]
    pub const fn from_imperial_pints(pints: f64) -> Self {
        Self(pints * LITRES_PER_IMPERIAL_PINT)
    }

    /// From US liquid pints.
    #[must_use]
    pub const fn from_us_pints(pints: f64) -> Self {
        Self(pints * LITRES_PER_US_PINT)
    }

    /// From imperial gallons.
    #[must_use]
    pub const fn from_imperial_gallons(gallons: f64) -> Self {
        Self(gallons * LITRES_PER_IMPERIAL_GALLON)
    }

    /// From US liquid gallons.
    #[must_use]
    pub const fn from_us_gallons(gallons: f64) -> Self {
        Self(gallons * LITRES_PER_US_GALLON)
    }

    /// In litres.
    #[must_use]
    pub const fn litres(self) -> f64 {
        self.0
    }

    /// In millilitres.
    #[must_use]
    pub const fn millilitres(self) -> f64 {
        self.0 * 1000.0
    }

    /// In imperial pints.
    #[must_use]
    pub const fn imperial_pints(self) -> f64 {
        self.0 / LITRES_PER_IMPERIAL_PINT
    }

    /// In US liquid pints.
    #[must_use]
    pub const fn us_pints(self) -> f64 {
        self.0 / LITRES_PER_US_PINT
    }

    /// In imperial gallons.
    #[must_use]
    pub const fn imperial_gallons(self) -> f64 {
        self.0 / LITRES_PER_IMPERIAL_GALLON
    }

    /// In US liquid gallons.
    #[must_use]
    pub const fn us_gallons(self) -> f64 {
        self.0 / LITRES_PER_US_GALLON
    }

    /// In imperial fluid ounces.
    #[must_use]
    pub const fn imperial_fluid_ounces(self) -> f64 {
        self.0 / LITRES_PER_IMPERIAL_FLUID_OUNCE
    }

    /// In US fluid ounces.
    #[must_use]
    pub const fn us_fluid_ounces(self) -> f64 {
        self.0 / LITRES_PER_US_FLUID_OUNCE
    }
}
