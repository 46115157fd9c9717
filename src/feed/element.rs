//! The nutrients that labels name, what their atoms weigh, and oxides turned into plain elements.

/// Atomic weights, g/mol: IUPAC's abridged standard values (read in a library's table).
pub mod atomic_weight {
    /// Hydrogen, g/mol. IUPAC abridged standard atomic weights (read through the library periodictable).
    pub const HYDROGEN: f64 = 1.008;
    /// Carbon, g/mol. Same source.
    pub const CARBON: f64 = 12.011;
    /// Nitrogen, g/mol. Same source.
    pub const NITROGEN: f64 = 14.007;
    /// Oxygen, g/mol. Same source.
    pub const OXYGEN: f64 = 15.999;
    /// Magnesium, g/mol. Same source.
    pub const MAGNESIUM: f64 = 24.305;
    /// Phosphorus, g/mol. Same source.
    pub const PHOSPHORUS: f64 = 30.974;
    /// Sulphur, g/mol. Same source.
    pub const SULPHUR: f64 = 32.06;
    /// Chlorine, g/mol. Same source.
    pub const CHLORINE: f64 = 35.45;
    /// Potassium, g/mol. Same source.
    pub const POTASSIUM: f64 = 39.098;
    /// Calcium, g/mol. Same source.
    pub const CALCIUM: f64 = 40.078;
}

use atomic_weight as weight;

/// Phosphorus in phosphorus pentoxide, P₂O₅, share of the weight (exact, from the atomic weights): what labels print as P in
/// most countries.
pub const PHOSPHORUS_IN_OXIDE: f64 = 2.0 * weight::PHOSPHORUS / (2.0 * weight::PHOSPHORUS + 5.0 * weight::OXYGEN);
/// Potassium in potassium oxide, K₂O, share of the weight (exact, the same way): what labels print as K in most countries.
pub const POTASSIUM_IN_OXIDE: f64 = 2.0 * weight::POTASSIUM / (2.0 * weight::POTASSIUM + weight::OXYGEN);
/// Magnesium in magnesium oxide, `MgO`, share of the weight (exact, the same way).
pub const MAGNESIUM_IN_OXIDE: f64 = weight::MAGNESIUM / (weight::MAGNESIUM + weight::OXYGEN);
/// Calcium in calcium oxide, `CaO`, share of the weight (exact, the same way).
pub const CALCIUM_IN_OXIDE: f64 = weight::CALCIUM / (weight::CALCIUM + weight::OXYGEN);
/// Sulphur in sulphur trioxide, SO₃, share of the weight (exact, the same way).
pub const SULPHUR_IN_OXIDE: f64 = weight::SULPHUR / (weight::SULPHUR + 3.0 * weight::OXYGEN);
/// Sulphur in sulphate, SO₄, share of the weight (exact, the same way).
pub(super) const SULPHUR_IN_SULPHATE: f64 = weight::SULPHUR / (weight::SULPHUR + 4.0 * weight::OXYGEN);
/// Bicarbonate, HCO₃, for each part of alkalinity given as calcium carbonate, no unit, by weight (exact, the same way).
pub const BICARBONATE_IN_ALKALINITY: f64 =
    2.0 * (weight::HYDROGEN + weight::CARBON + 3.0 * weight::OXYGEN) / (weight::CALCIUM + weight::CARBON + 3.0 * weight::OXYGEN);

/// A nutrient that a plant's need, a label or a target names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Nutrient {
    /// N.
    Nitrogen,
    /// P.
    Phosphorus,
    /// K.
    Potassium,
    /// Mg.
    Magnesium,
    /// Ca.
    Calcium,
    /// S.
    Sulphur,
}

impl Nutrient {
    /// All of them, in the order in which they are shown.
    pub const ALL: [Self; 6] = [
        Self::Nitrogen,
        Self::Phosphorus,
        Self::Potassium,
        Self::Magnesium,
        Self::Calcium,
        Self::Sulphur,
    ];

    /// Its chemical sign.
    #[must_use]
    pub const fn sign(self) -> &'static str {
        match self {
            Self::Nitrogen => "N",
            Self::Phosphorus => "P",
            Self::Potassium => "K",
            Self::Magnesium => "Mg",
            Self::Calcium => "Ca",
            Self::Sulphur => "S",
        }
    }
}

/// How much of each nutrient there is, nitrogen by its form; the unit is its user's: g in 100 g of a material, mg/L in a can.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Contents {
    /// Nitrogen as nitrate.
    pub nitrate_nitrogen: f64,
    /// Nitrogen as ammonium.
    pub ammonium_nitrogen: f64,
    /// Nitrogen as urea.
    pub urea_nitrogen: f64,
    /// Nitrogen of which nobody says the form.
    pub untold_nitrogen: f64,
    /// Phosphorus.
    pub phosphorus: f64,
    /// Potassium.
    pub potassium: f64,
    /// Magnesium.
    pub magnesium: f64,
    /// Calcium.
    pub calcium: f64,
    /// Sulphur, as sulphate.
    pub sulphur: f64,
    /// Chlorine, as chloride.
    pub chlorine: f64,
}

/// Share of the nitrogen above which ammonium keeps calcium out and sours the compost, no unit (choice; growers keep to much less).
const MUCH_AMMONIUM: f64 = 0.5;

impl Contents {
    /// Whether most of its nitrogen is ammonium.
    #[must_use]
    pub const fn is_mostly_ammonium(&self) -> bool {
        self.ammonium_nitrogen > MUCH_AMMONIUM * self.nitrogen()
    }

    /// Nitrogen in all its forms.
    #[must_use]
    pub const fn nitrogen(&self) -> f64 {
        self.nitrate_nitrogen + self.ammonium_nitrogen + self.urea_nitrogen + self.untold_nitrogen
    }

    /// How much of a nutrient.
    #[must_use]
    pub const fn of(&self, nutrient: Nutrient) -> f64 {
        match nutrient {
            Nutrient::Nitrogen => self.nitrogen(),
            Nutrient::Phosphorus => self.phosphorus,
            Nutrient::Potassium => self.potassium,
            Nutrient::Magnesium => self.magnesium,
            Nutrient::Calcium => self.calcium,
            Nutrient::Sulphur => self.sulphur,
        }
    }

    /// All nutrients, in the order of [`Nutrient::ALL`].
    #[must_use]
    pub fn all(&self) -> [f64; 6] {
        Nutrient::ALL.map(|nutrient| self.of(nutrient))
    }

    /// So many times as much of each.
    #[must_use]
    pub fn times(&self, factor: f64) -> Self {
        Self::default().plus(self, factor)
    }

    /// With so many times another's added.
    #[must_use]
    pub fn plus(&self, other: &Self, times: f64) -> Self {
        let mut sum = self.parts();
        for (part, more) in sum.iter_mut().zip(other.parts()) {
            *part += more * times;
        }
        Self::from_parts(sum)
    }

    /// Potassium for each part of nitrogen, both as elements; nothing without nitrogen.
    #[must_use]
    pub fn potassium_to_nitrogen(&self) -> Option<f64> {
        (self.nitrogen() > 0.0).then(|| self.potassium / self.nitrogen())
    }

    const fn parts(&self) -> [f64; 10] {
        [
            self.nitrate_nitrogen,
            self.ammonium_nitrogen,
            self.urea_nitrogen,
            self.untold_nitrogen,
            self.phosphorus,
            self.potassium,
            self.magnesium,
            self.calcium,
            self.sulphur,
            self.chlorine,
        ]
    }

    const fn from_parts(parts: [f64; 10]) -> Self {
        let [
            nitrate_nitrogen,
            ammonium_nitrogen,
            urea_nitrogen,
            untold_nitrogen,
            phosphorus,
            potassium,
            magnesium,
            calcium,
            sulphur,
            chlorine,
        ] = parts;
        Self {
            nitrate_nitrogen,
            ammonium_nitrogen,
            urea_nitrogen,
            untold_nitrogen,
            phosphorus,
            potassium,
            magnesium,
            calcium,
            sulphur,
            chlorine,
        }
    }
}
