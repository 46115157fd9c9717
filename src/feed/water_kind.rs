/// The water that a can is filled with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Water {
    /// From the butt.
    #[default]
    Rain,
    /// From a soft tap.
    Soft,
    /// From a hard tap.
    Hard,
}

impl Water {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Rain, Self::Soft, Self::Hard];

    /// Its own calcium, mg/L (choice: a hard tap as in a speciation code's worked case, a soft one a fifth of it).
    #[must_use]
    pub const fn calcium(self) -> f64 {
        match self {
            Self::Rain => 0.0,
            Self::Soft => 20.0,
            Self::Hard => 110.0,
        }
    }

    /// Its own bicarbonate, mg/L (choice, as for calcium).
    #[must_use]
    pub const fn bicarbonate(self) -> f64 {
        match self {
            Self::Rain => 0.0,
            Self::Soft => 60.0,
            Self::Hard => 300.0,
        }
    }

    /// What a meter reads in it, mS/cm (a speciation code's case for the hard tap; the others a choice in proportion).
    #[must_use]
    pub const fn conductivity(self) -> f64 {
        match self {
            Self::Rain => 0.0,
            Self::Soft => 0.15,
            Self::Hard => 0.65,
        }
    }

    /// How sour it is (choice: what taps of the kind usually show).
    #[must_use]
    pub const fn acidity(self) -> f64 {
        match self {
            Self::Rain => 6.0,
            Self::Soft => 6.8,
            Self::Hard => 7.5,
        }
    }
}
