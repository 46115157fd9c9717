use crate::almanac::{CivilDay, UsualTemperatures};

/// What is known of an evening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Evening {
    /// Temperature at dusk, °C.
    pub dusk: f64,
    /// Lowest of the night, °C.
    pub night: f64,
    /// Whether soil and litter are wet; not known until told.
    pub is_wet: Option<bool>,
    /// Relative humidity, %.
    pub humidity: Option<f64>,
}

/// Rain of a day from which the ground counts as wet, mm (choice).
const WETS_FROM: f64 = 1.0;
/// How far above the night's minimum it stands at dusk, as a share of the day's range (choice: three quarters of the way down).
const LEFT_AT_DUSK: f64 = 0.25;

impl Evening {
    /// An evening as is usual, after a day with so much rain, mm, and of such a humidity, %, where they are told.
    #[must_use]
    pub fn usual(usual: &UsualTemperatures, rain: Option<f64>, humidity: Option<f64>) -> Self {
        Self {
            dusk: usual.minimum + LEFT_AT_DUSK * (usual.maximum - usual.minimum),
            night: usual.minimum,
            is_wet: rain.map(|rain| rain >= WETS_FROM),
            humidity,
        }
    }
}

/// How busy slugs are likely to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SlugOutlook {
    /// 0 (none about) to 5 (all about).
    pub level: u8,
    /// Whether nobody has told if the ground is wet: it may be two more, or one less.
    pub is_unsure: bool,
    /// Whether all that starts them holds: wet ground, 4 to 20 °C, falling, damp air.
    pub is_active: bool,
}

/// Temperatures at which they are about when it falls, °C. Dainton 1954, Journal of Experimental Biology (abstract read).
const ABOUT: (f64, f64) = (4.0, 20.0);
/// Grazing was still seen at this, °C. Folia Malacologica 2011 19:267 (abstract read).
const STILL_GRAZING: f64 = 1.0;
/// Humidity from which they stay out, % (choice).
const DAMP: f64 = 80.0;
/// Nights of the first patrols (common practice, no source).
pub const PATROL_NIGHTS: i32 = 7;

/// Whether slugs are about tonight.
///
/// Active when the ground is wet and `4 ≤ T ≤ 20` and it falls after sunset and `RH ≥ 80 %` (choice, from Dainton 1954: between 4 and
/// 20 °C falling temperature starts them, above it stops them). The level counts: wet ground two, or one when nobody
/// has told, and one each for temperature, its fall, and damp air.
#[must_use]
pub fn slugs_tonight(evening: &Evening) -> SlugOutlook {
    let is_wet = evening.is_wet == Some(true);
    let wetness = match evening.is_wet {
        Some(true) => 2,
        None => 1,
        Some(false) => 0,
    };
    let (low, high) = ABOUT;
    let is_mild = evening.dusk >= low && evening.dusk <= high;
    let falls = evening.night < evening.dusk;
    let is_damp = evening.humidity.map_or(is_wet, |humidity| humidity >= DAMP);
    let level = if evening.dusk < STILL_GRAZING {
        0
    } else {
        wetness + u8::from(is_mild) + u8::from(is_mild && falls) + u8::from(is_damp)
    };
    SlugOutlook {
        level,
        is_unsure: evening.is_wet.is_none(),
        is_active: is_wet && is_mild && falls && is_damp,
    }
}

/// The last of the nights in a row on which to go round with a torch, one to three hours after sunset; then on damp nights.
#[must_use]
pub fn last_patrol(first: CivilDay) -> CivilDay {
    first.days_later(PATROL_NIGHTS - 1)
}
