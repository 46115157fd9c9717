use super::element::atomic_weight as weight;
use super::{Basis, Contents, Grade, Label};

/// A salt that is sold by itself, or that published mixes are made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Straight {
    /// KNO₃, nitrate of potash.
    PotassiumNitrate,
    /// K₂SO₄, sulphate of potash.
    PotassiumSulphate,
    /// KH₂PO₄, monopotassium phosphate.
    PotassiumPhosphate,
    /// 5Ca(NO₃)₂·NH₄NO₃·10H₂O, the calcium nitrate that gardeners are sold.
    CalciumNitrate,
    /// `MgSO₄·7H₂O`.
    EpsomSalts,
    /// CO(NH₂)₂.
    Urea,
    /// (NH₄)₂SO₄, sulphate of ammonia.
    AmmoniumSulphate,
    /// Mg(NO₃)₂·6H₂O.
    MagnesiumNitrate,
    /// `MgSO₄·H₂O`.
    Kieserite,
    /// `KCl`, muriate of potash.
    PotassiumChloride,
    /// Ca(NO₃)₂·4H₂O, as laboratories are sold it.
    PureCalciumNitrate,
    /// NH₄NO₃: for published mixes only, since selling it to the public is restricted.
    AmmoniumNitrate,
}

/// Atoms in one formula of a salt, nitrogen by its form.
struct Formula {
    nitrate: f64,
    ammonium: f64,
    urea: f64,
    phosphorus: f64,
    potassium: f64,
    magnesium: f64,
    calcium: f64,
    sulphur: f64,
    chlorine: f64,
    carbon: f64,
    hydrogen: f64,
    oxygen: f64,
}

/// Nothing at all, to be filled in.
const EMPTY: Formula = Formula {
    nitrate: 0.0,
    ammonium: 0.0,
    urea: 0.0,
    phosphorus: 0.0,
    potassium: 0.0,
    magnesium: 0.0,
    calcium: 0.0,
    sulphur: 0.0,
    chlorine: 0.0,
    carbon: 0.0,
    hydrogen: 0.0,
    oxygen: 0.0,
};

/// What dissolves in 100 g of water, g of the salt as named: at 10 °C and at 20 °C.
type Solubility = Option<(f64, f64)>;

impl Straight {
    /// All of them.
    pub const ALL: [Self; 12] = [
        Self::PotassiumNitrate,
        Self::PotassiumSulphate,
        Self::PotassiumPhosphate,
        Self::CalciumNitrate,
        Self::EpsomSalts,
        Self::Urea,
        Self::AmmoniumSulphate,
        Self::MagnesiumNitrate,
        Self::Kieserite,
        Self::PotassiumChloride,
        Self::PureCalciumNitrate,
        Self::AmmoniumNitrate,
    ];

    /// Those that stand on a home grower's shelf.
    pub const SHELF: [Self; 7] = [
        Self::PotassiumNitrate,
        Self::PotassiumPhosphate,
        Self::PotassiumSulphate,
        Self::CalciumNitrate,
        Self::EpsomSalts,
        Self::AmmoniumSulphate,
        Self::Urea,
    ];

    /// Its atoms, nitrogen by its form: the salt's chemical formula (exact).
    const fn formula(self) -> Formula {
        match self {
            Self::PotassiumNitrate => Formula {
                potassium: 1.0,
                nitrate: 1.0,
                oxygen: 3.0,
                ..EMPTY
            },
            Self::PotassiumSulphate => Formula {
                potassium: 2.0,
                sulphur: 1.0,
                oxygen: 4.0,
                ..EMPTY
            },
            Self::PotassiumPhosphate => Formula {
                potassium: 1.0,
                hydrogen: 2.0,
                phosphorus: 1.0,
                oxygen: 4.0,
                ..EMPTY
            },
            Self::CalciumNitrate => Formula {
                calcium: 5.0,
                nitrate: 11.0,
                ammonium: 1.0,
                hydrogen: 24.0,
                oxygen: 43.0,
                ..EMPTY
            },
            Self::EpsomSalts => Formula {
                magnesium: 1.0,
                sulphur: 1.0,
                hydrogen: 14.0,
                oxygen: 11.0,
                ..EMPTY
            },
            Self::Urea => Formula {
                carbon: 1.0,
                oxygen: 1.0,
                urea: 2.0,
                hydrogen: 4.0,
                ..EMPTY
            },
            Self::AmmoniumSulphate => Formula {
                ammonium: 2.0,
                hydrogen: 8.0,
                sulphur: 1.0,
                oxygen: 4.0,
                ..EMPTY
            },
            Self::MagnesiumNitrate => Formula {
                magnesium: 1.0,
                nitrate: 2.0,
                hydrogen: 12.0,
                oxygen: 12.0,
                ..EMPTY
            },
            Self::Kieserite => Formula {
                magnesium: 1.0,
                sulphur: 1.0,
                hydrogen: 2.0,
                oxygen: 5.0,
                ..EMPTY
            },
            Self::PotassiumChloride => Formula {
                potassium: 1.0,
                chlorine: 1.0,
                ..EMPTY
            },
            Self::PureCalciumNitrate => Formula {
                calcium: 1.0,
                nitrate: 2.0,
                hydrogen: 8.0,
                oxygen: 10.0,
                ..EMPTY
            },
            Self::AmmoniumNitrate => Formula {
                ammonium: 1.0,
                nitrate: 1.0,
                hydrogen: 4.0,
                oxygen: 3.0,
                ..EMPTY
            },
        }
    }

    /// Weight of one formula, g/mol.
    #[must_use]
    pub const fn molar_mass(self) -> f64 {
        let atoms = self.formula();
        (atoms.nitrate + atoms.ammonium + atoms.urea) * weight::NITROGEN
            + atoms.phosphorus * weight::PHOSPHORUS
            + atoms.potassium * weight::POTASSIUM
            + atoms.magnesium * weight::MAGNESIUM
            + atoms.calcium * weight::CALCIUM
            + atoms.sulphur * weight::SULPHUR
            + atoms.chlorine * weight::CHLORINE
            + atoms.carbon * weight::CARBON
            + atoms.hydrogen * weight::HYDROGEN
            + atoms.oxygen * weight::OXYGEN
    }

    /// What the pure salt holds, g in 100 g: theory, which the grade printed on a bag beats.
    #[must_use]
    pub const fn contents(self) -> Contents {
        let atoms = self.formula();
        let share = 100.0 / self.molar_mass();
        Contents {
            nitrate_nitrogen: atoms.nitrate * weight::NITROGEN * share,
            ammonium_nitrogen: atoms.ammonium * weight::NITROGEN * share,
            urea_nitrogen: atoms.urea * weight::NITROGEN * share,
            untold_nitrogen: 0.0,
            phosphorus: atoms.phosphorus * weight::PHOSPHORUS * share,
            potassium: atoms.potassium * weight::POTASSIUM * share,
            magnesium: atoms.magnesium * weight::MAGNESIUM * share,
            calcium: atoms.calcium * weight::CALCIUM * share,
            sulphur: atoms.sulphur * weight::SULPHUR * share,
            chlorine: atoms.chlorine * weight::CHLORINE * share,
        }
    }

    /// What a bag of it holds, g in 100 g, by the grade printed on it. The salt's formula stands in for what the grade does not say: the
    /// forms of its nitrogen, and magnesium, calcium, sulphur and chlorine that are not named.
    #[must_use]
    pub fn as_printed(self, grade: Grade, basis: Basis) -> Contents {
        let pure = self.contents();
        let label = Label {
            grade,
            basis,
            ..Label::default()
        };
        let printed = label.contents().unwrap_or(pure);
        let fit = if pure.nitrogen() > 0.0 {
            printed.nitrogen() / pure.nitrogen()
        } else {
            0.0
        };
        let named = |printed: f64, pure: f64| if printed > 0.0 { printed } else { pure };
        Contents {
            nitrate_nitrogen: pure.nitrate_nitrogen * fit,
            ammonium_nitrogen: pure.ammonium_nitrogen * fit,
            urea_nitrogen: pure.urea_nitrogen * fit,
            untold_nitrogen: if fit > 0.0 { 0.0 } else { printed.nitrogen() },
            magnesium: named(printed.magnesium, pure.magnesium),
            calcium: named(printed.calcium, pure.calcium),
            sulphur: named(printed.sulphur, pure.sulphur),
            chlorine: pure.chlorine,
            ..printed
        }
    }

    /// What dissolves in 100 g of water, g: at 10 °C and at 20 °C; nothing where it never limits a can or a stock.
    ///
    /// The handbook's solubility tables (from memory; potassium nitrate at 10 °C read). A table that is copied from page to
    /// page heads its columns five degrees too warm: its figures are not these.
    #[must_use]
    pub const fn solubility(self) -> Solubility {
        match self {
            Self::PotassiumNitrate => Some((21.0, 32.0)),
            Self::PotassiumSulphate => Some((9.3, 11.0)),
            Self::PotassiumPhosphate => Some((18.0, 23.0)),
            Self::EpsomSalts => Some((80.0, 106.0)),
            Self::Urea => Some((85.0, 108.0)),
            Self::AmmoniumSulphate => Some((73.0, 75.0)),
            Self::PotassiumChloride => Some((31.0, 34.0)),
            Self::CalciumNitrate | Self::MagnesiumNitrate | Self::Kieserite | Self::PureCalciumNitrate | Self::AmmoniumNitrate => None,
        }
    }
}
