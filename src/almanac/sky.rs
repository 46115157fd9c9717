/// A whole day's sky in one word.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sky {
    /// Thick cloud all day, lamps lit early.
    Dark,
    /// Grey, no shadows.
    Dull,
    /// Sun and cloud by turns.
    Mixed,
    /// Sun most of the day.
    Bright,
    /// Hardly a cloud.
    Clear,
}

impl Sky {
    /// All words, from the most sun to the least.
    pub const ALL: [Self; 5] = [Self::Clear, Self::Bright, Self::Mixed, Self::Dull, Self::Dark];

    /// Share of the extraterrestrial radiation that reaches the ground, 0 to 1 (choice; FAO-56 p. 60 gives about 0.25 under
    /// dense cloud to 0.75 cloudless as means of several days).
    ///
    /// "Dark" lies below what hours of sun can say, since no hours of sun already stands for 0.25.
    #[must_use]
    pub const fn clearness(self) -> f64 {
        match self {
            Self::Clear => 0.70,
            Self::Bright => 0.60,
            Self::Mixed => 0.475,
            Self::Dull => 0.275,
            Self::Dark => 0.13,
        }
    }

    /// The word that stands nearest to a clearness.
    #[must_use]
    pub fn nearest(clearness: f64) -> Self {
        let mut nearest = Self::Mixed;
        for sky in Self::ALL {
            if (sky.clearness() - clearness).abs() < (nearest.clearness() - clearness).abs() {
                nearest = sky;
            }
        }
        nearest
    }
}
