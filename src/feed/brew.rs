//! Feeds brewed at home: what published recipes could hold at most, never more than a wide range.

/// A range, mg/L.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Brewed {
    /// Low end.
    pub low: f64,
    /// High end: all that was in the leaves.
    pub high: f64,
}

/// What is brewed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Brew {
    /// Nettles.
    Nettle,
    /// Comfrey.
    Comfrey,
}

/// The least that goes from leaves into the water, as a share (choice).
const LEAST_DISSOLVED: f64 = 0.3;
/// Nitrogen in dried nettles, as a share (from memory).
const NETTLE_NITROGEN: (f64, f64) = (0.03, 0.05);
/// Dried nettles of the trial's recipe, g in a litre (Maričić et al. 2021, read).
const NETTLE_RECIPE: f64 = 18.3;
/// Parts of water that the trial added to one of brew (same).
const NETTLE_WATER: f64 = 3.0;
/// Dry matter of fresh comfrey leaves, and nitrogen and potassium in it, as shares (from memory).
const COMFREY: (f64, f64, f64) = (0.12, 0.035, 0.055);
/// Fresh comfrey of the allotments' recipe, g in a litre: 1 kg in 15 litres (read).
const COMFREY_RECIPE: f64 = 1000.0 / 15.0;

impl Brew {
    /// Nitrogen as it is poured, mg/L: nettles with three parts of water, comfrey as it is.
    #[must_use]
    pub fn nitrogen(self) -> Brewed {
        match self {
            Self::Nettle => {
                let (low, high) = NETTLE_NITROGEN;
                let poured = NETTLE_RECIPE * 1000.0 / (1.0 + NETTLE_WATER);
                Brewed {
                    low: LEAST_DISSOLVED * low * poured,
                    high: high * poured,
                }
            }
            Self::Comfrey => comfrey(COMFREY.1),
        }
    }

    /// Potassium as it is poured, mg/L, where something is published.
    #[must_use]
    pub fn potassium(self) -> Option<Brewed> {
        match self {
            Self::Nettle => None,
            Self::Comfrey => Some(comfrey(COMFREY.2)),
        }
    }
}

fn comfrey(share: f64) -> Brewed {
    let all = COMFREY_RECIPE * 1000.0 * COMFREY.0 * share;
    Brewed {
        low: LEAST_DISSOLVED * all,
        high: all,
    }
}
