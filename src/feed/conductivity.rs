//! How much salt a can holds, as a meter would read it.

use super::Contents;
use super::element::atomic_weight as weight;

/// Ions in a can, mmol/L.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Ions {
    /// K⁺.
    pub potassium: f64,
    /// NH₄⁺.
    pub ammonium: f64,
    /// Na⁺.
    pub sodium: f64,
    /// Ca²⁺.
    pub calcium: f64,
    /// Mg²⁺.
    pub magnesium: f64,
    /// NO₃⁻.
    pub nitrate: f64,
    /// Cl⁻.
    pub chloride: f64,
    /// SO₄²⁻.
    pub sulphate: f64,
    /// H₂PO₄⁻.
    pub dihydrogen_phosphate: f64,
    /// HCO₃⁻.
    pub bicarbonate: f64,
}

/// Conductivities of ions at 25 °C at no strength, S·cm²/eq (CRC Handbook's table, read through the library thermo), in the order of
/// [`Ions::singles`].
const SINGLE_CONDUCTIVITIES: [f64; 7] = [73.48, 73.5, 50.08, 71.42, 76.31, 36.0, 44.5];
/// The same for Ca, Mg and SO₄, for each equivalent.
const DOUBLE_CONDUCTIVITIES: [f64; 3] = [59.47, 53.0, 80.0];
/// The same for a pair that keeps a charge (choice, with the method).
const PAIR_CONDUCTIVITY: f64 = 50.0;
/// Strength of the pairs `MgSO₄`, `CaSO₄`, KSO₄⁻ and NH₄SO₄⁻: log₁₀ of their association constants, no unit (PHREEQC's
/// database, read).
const PAIR_CONSTANTS: [f64; 4] = [2.37, 2.25, 0.85, 1.11];
/// Rounds in which the pairs settle: in a strong can each leaves at most half of what is left to settle (limit).
const ROUNDS: u32 = 60;
/// How far a meter may differ from the sum in a known mix, as a share (choice from measured salts).
pub const METER_SPREAD: f64 = 0.15;
/// The same above 5 mS/cm.
pub const METER_SPREAD_STRONG: f64 = 0.25;
/// What each degree adds to the reading of a meter that does not allow for temperature, as a share (rule of thumb, within
/// 1.4 % from 15 to 35 °C).
const SHARE_PER_DEGREE: f64 = 0.02;

impl Ions {
    /// The ions of a can whose nutrients are all told, mg/L; urea carries no charge.
    #[must_use]
    pub fn of(contents: &Contents) -> Self {
        Self {
            potassium: contents.potassium / weight::POTASSIUM,
            ammonium: contents.ammonium_nitrogen / weight::NITROGEN,
            calcium: contents.calcium / weight::CALCIUM,
            magnesium: contents.magnesium / weight::MAGNESIUM,
            nitrate: contents.nitrate_nitrogen / weight::NITROGEN,
            chloride: contents.chlorine / weight::CHLORINE,
            sulphate: contents.sulphur / weight::SULPHUR,
            dihydrogen_phosphate: contents.phosphorus / weight::PHOSPHORUS,
            ..Self::default()
        }
    }

    const fn singles(&self) -> [f64; 7] {
        [
            self.potassium,
            self.ammonium,
            self.sodium,
            self.nitrate,
            self.chloride,
            self.dihydrogen_phosphate,
            self.bicarbonate,
        ]
    }

    /// Positive charges less negative ones, mmol/L: what a label leaves open.
    #[must_use]
    pub fn charge(&self) -> f64 {
        self.potassium + self.ammonium + self.sodium + 2.0 * (self.calcium + self.magnesium)
            - self.nitrate
            - self.chloride
            - self.dihydrogen_phosphate
            - self.bicarbonate
            - 2.0 * self.sulphate
    }

    /// What a conductivity meter would read at 25 °C, µS/cm.
    ///
    /// `EC = Σ λ°·m·c·γ^α`, after Appelo 2010 (from memory; its form checked by number), on the ions that are left free when
    /// sulphate has paired with magnesium, calcium, potassium and ammonium. `m` charge, `c` mmol/L; `I = ½ Σ c·m²/1000`;
    /// `log γ = −0.509 m²(√I/(1 + √I) − 0.3 I)`; `α = 0.6/√m`, or `√I/m` once `I` passes `0.36 m`. Pairs with a charge count
    /// as single ions.
    #[must_use]
    pub fn conductivity(&self) -> f64 {
        self.free().conductivity()
    }

    /// The free ions and pairs, found in rounds: each divides the sulphate between what is free and the pairs that the round before
    /// left room for.
    #[must_use]
    pub fn free(&self) -> Free {
        let partners = [self.magnesium, self.calcium, self.potassium, self.ammonium];
        let mut free = Free::new(*self, [0.0; 4]);
        for _ in 0..ROUNDS {
            // A double ion gives a pair without charge; a single one gives a pair like itself.
            let two = free.activity(2.0);
            let factors = [two * two, two * two, two, two];
            // Pairs for each mmol/L of free sulphate.
            let mut pairs = [0.0; 4];
            for (((pair, partner), constant), factor) in pairs.iter_mut().zip(partners).zip(PAIR_CONSTANTS).zip(factors) {
                let eager = 10_f64.powf(constant) * factor / 1000.0;
                *pair = eager * partner / (1.0 + eager * free.ions.sulphate);
            }
            let sulphate = self.sulphate / (1.0 + pairs.iter().sum::<f64>());
            free = Free::new(*self, pairs.map(|pair| pair * sulphate));
        }
        free
    }
}

/// The ions that are left free, and the pairs of sulphate, mmol/L.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Free {
    /// The free ions.
    pub ions: Ions,
    /// `MgSO₄`, `CaSO₄`, KSO₄⁻ and NH₄SO₄⁻.
    pub pairs: [f64; 4],
}

impl Free {
    fn new(all: Ions, pairs: [f64; 4]) -> Self {
        let [magnesium, calcium, potassium, ammonium] = pairs;
        let ions = Ions {
            magnesium: all.magnesium - magnesium,
            calcium: all.calcium - calcium,
            potassium: all.potassium - potassium,
            ammonium: all.ammonium - ammonium,
            sulphate: all.sulphate - pairs.iter().sum::<f64>(),
            ..all
        };
        Self { ions, pairs }
    }

    const fn charged_pairs(&self) -> f64 {
        let [_, _, potassium, ammonium] = self.pairs;
        potassium + ammonium
    }

    const fn doubles(&self) -> [f64; 3] {
        [self.ions.calcium, self.ions.magnesium, self.ions.sulphate]
    }

    /// Ionic strength, mol/L: `½ Σ c·m²/1000` (exact, by definition).
    #[must_use]
    pub fn strength(&self) -> f64 {
        let singles: f64 = self.ions.singles().iter().sum();
        let doubles: f64 = self.doubles().iter().sum();
        (singles + self.charged_pairs() + 4.0 * doubles) / 2000.0
    }

    /// Activity coefficient of an ion with so many charges, after Davies.
    #[must_use]
    pub fn activity(&self, charges: f64) -> f64 {
        activity(self.strength(), charges)
    }

    /// What is left of an ion's conductivity: `γ^α`, `α = 0.6/√m` below `I = 0.36 m`, else `√I/m`. Appelo 2010 (from memory; it
    /// agrees with PHREEQC).
    #[must_use]
    pub fn slowed(&self, charges: f64) -> f64 {
        let strength = self.strength();
        let exponent = if strength < 0.36 * charges {
            0.6 / charges.sqrt()
        } else {
            strength.sqrt() / charges
        };
        self.activity(charges).powf(exponent)
    }

    fn conductivity(&self) -> f64 {
        let weighed =
            |amounts: &[f64], conductivities: &[f64]| -> f64 { amounts.iter().zip(conductivities).map(|(c, each)| c * each).sum() };
        let singles = weighed(&self.ions.singles(), &SINGLE_CONDUCTIVITIES) + PAIR_CONDUCTIVITY * self.charged_pairs();
        let doubles = 2.0 * weighed(&self.doubles(), &DOUBLE_CONDUCTIVITIES);
        singles * self.slowed(1.0) + doubles * self.slowed(2.0)
    }
}

/// Activity coefficient at an ionic strength, mol/L: `log γ = −0.509 m²(√I/(1 + √I) − 0.3 I)`. Davies, 0.509 at
/// 25 °C (from memory; it agrees with PHREEQC).
#[must_use]
pub fn activity(strength: f64, charges: f64) -> f64 {
    let root = strength.max(0.0).sqrt();
    10_f64.powf(-0.509 * charges * charges * (root / (1.0 + root) - 0.3 * strength))
}

/// The quick sum: a hundredth of a meter's reading for each milliequivalent of cations, µS/cm.
///
/// `EC ≈ 100 Σ cations` (meq/L). Within a third for feeds, twice too much for drenches.
#[must_use]
pub fn quick_conductivity(ions: &Ions) -> f64 {
    100.0 * (ions.potassium + ions.ammonium + ions.sodium + 2.0 * (ions.calcium + ions.magnesium))
}

/// The lowest and the highest conductivity that a can may have whose label does not tell all, µS/cm, at 25 °C.
///
/// Low: phosphorus as potassium phosphate, the other potassium as nitrate as far as nitrogen without a form reaches, the rest of
/// that as urea. High: potassium as chloride (as sulphate in powders), nitrogen without a form as ammonium sulphate. Narrowed
/// only by what the label says.
#[must_use]
pub fn conductivity_bounds(contents: &Contents, is_powder: bool) -> (f64, f64) {
    let untold = contents.untold_nitrogen / weight::NITROGEN;
    let known = Ions::of(contents);
    let open = known.charge();
    let nitrate = untold.min(open.max(0.0));
    let low = Ions {
        nitrate: known.nitrate + nitrate,
        ..known
    };
    let low = balanced(low, false).conductivity();
    let high = Ions {
        ammonium: known.ammonium + untold,
        sulphate: known.sulphate + untold / 2.0,
        ..known
    };
    let high = balanced(high, is_powder).conductivity();
    (low.min(high), low.max(high))
}

/// The ions with the charge made even that the label leaves open: by chloride or sulphate, or by sodium.
fn balanced(ions: Ions, with_sulphate: bool) -> Ions {
    let open = ions.charge();
    match () {
        () if open < 0.0 => Ions {
            sodium: ions.sodium - open,
            ..ions
        },
        () if with_sulphate => Ions {
            sulphate: ions.sulphate + open / 2.0,
            ..ions
        },
        () => Ions {
            chloride: ions.chloride + open,
            ..ions
        },
    }
}

/// A reading at a temperature, µS/cm, as it would be at 25 °C: `EC₂₅ = EC/(1 + 0.02 (T − 25))` (rule of thumb).
#[must_use]
pub fn at_twenty_five(reading: f64, celsius: f64) -> f64 {
    reading / (1.0 + SHARE_PER_DEGREE * (celsius - 25.0))
}

/// A can from a butt on a cool morning, °C, at which the reading of such a meter is told (choice).
pub const METER_COLD: f64 = 15.0;
/// What a meter that does not allow for temperature shows of a conductivity at 25 °C, in its unit: `EC = EC₂₅ (1 + 0.02 (T − 25))`
/// (rule of thumb).
#[must_use]
pub fn shown_at(at_twenty_five: f64, celsius: f64) -> f64 {
    at_twenty_five * (1.0 + SHARE_PER_DEGREE * (celsius - 25.0))
}

/// How far a meter may differ from the sum, as a share, at a conductivity in mS/cm: more above 5 (choice).
#[must_use]
pub const fn meter_spread(millisiemens: f64) -> f64 {
    if millisiemens > 5.0 { METER_SPREAD_STRONG } else { METER_SPREAD }
}

/// How strong a mixed can is (choice, from the limits of soil salinity and of greenhouse crops). The ends belong to the milder.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Band {
    /// Up to 1 mS/cm.
    Weak,
    /// 1 to 2.
    Normal,
    /// 2 to 2.5: on moist compost only.
    Strong,
    /// 2.5 to 3.5: halve it.
    Caution,
    /// Above 3.5: not to be poured as it is.
    Stop,
}

/// Where one band ends and the next begins, mS/cm (choice).
pub const BAND_ENDS: [f64; 4] = [1.0, 2.0, 2.5, 3.5];
/// What seedlings and newly set plants can take, mS/cm (choice; the University of Massachusetts starts them at half strength).
pub const SEEDLING_LIMIT: f64 = 1.0;

impl Band {
    /// The band of a conductivity, mS/cm.
    #[must_use]
    pub fn of(millisiemens: f64) -> Self {
        let passed = BAND_ENDS.iter().filter(|&&end| millisiemens > end).count();
        match passed {
            0 => Self::Weak,
            1 => Self::Normal,
            2 => Self::Strong,
            3 => Self::Caution,
            _ => Self::Stop,
        }
    }
}

/// Conductivity of the soil's own water above which tomatoes give less, mS/cm (Maas 1990, read second-hand).
const YIELD_THRESHOLD: f64 = 2.5;
/// What each further mS/cm costs, % (same).
const YIELD_LOSS: f64 = 9.9;
/// What a tomato gives in a salty soil, % of what it could: `Y = 100 − b(ECe − a)`, never more and never below nothing.
#[must_use]
pub fn yield_in_salt(soil_millisiemens: f64) -> f64 {
    (100.0 - YIELD_LOSS * (soil_millisiemens - YIELD_THRESHOLD).max(0.0)).max(0.0)
}
