use super::{DayRow, Dose, Feel, Group};
use crate::almanac::{mean_saturation_vapour_pressure, vapour_pressure_from_mean_humidity};

/// Shortfall `1 − Ks` of a day, no unit, from which the plants are short of water, and badly so (choice).
const DROUGHT: (f64, f64) = (0.02, 0.15);
/// Days among the last three weeks that were bad and from which blossom-end rot is likely, and very likely (choice).
const BLOSSOM_END_ROT: (f64, f64) = (2.0, 4.0);
/// Days that count for blossom-end rot: fruit shows it one to three weeks later (from memory, with a trade summary that was read).
const THREE_WEEKS: usize = 21;
/// Stress coefficient `Ks`, no unit, below which a plant goes short and a day is bad for young fruit (choice).
const STRESSED: f64 = 0.9;
/// Swing, as a share of the easy water, from which a day is bad for young fruit (choice).
const WIDE_SWING: f64 = 0.6;
/// Dryness of the air that takes the calcium to the leaves, kPa (choice).
const DRY_AIR: f64 = 1.5;
/// Days of wet compost in a row from which roots suffer, and suffer badly (choice).
const WET: (f64, f64) = (2.0, 4.0);
/// Share of what was given from which a day's drain is too much (choice).
const MUCH_DRAIN: f64 = 0.25;
/// Air in the compost below which roots lack it, share of the volume (choice; published bands begin at 0.10).
const LEAST_AIR: f64 = 0.10;
/// Days that one counts for of which nobody noted the water, or that follows such a one, and that nobody felt (choice).
const ASSUMED_DAY: f64 = 0.5;
/// Mean temperature below which wet days count half again as much, °C (choice).
const COLD: f64 = 14.0;
/// Days that such a day counts for (choice).
const COLD_DAY: f64 = 1.5;
/// Refill in one go, as a share of the easy water, from which ripening fruit may crack, and is likely to (choice; from `1` on
/// the refill is spread over two days).
const CRACKING: (f64, f64) = (0.8, 1.0);
/// Trusses set from which the lowest fruit colours (common practice, no source).
const COLOURS_FROM: f64 = 4.0;
/// Days after a refill in which fruit cracks (choice).
const DAYS_TO_CRACK: usize = 3;

/// How pressing a risk is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// Nothing to do.
    None,
    /// Worth a change.
    Amber,
    /// Do something now.
    Red,
}

impl Level {
    const fn one_up(self) -> Self {
        match self {
            Self::None => Self::Amber,
            Self::Amber | Self::Red => Self::Red,
        }
    }
}

/// A figure beside the two thresholds that it is judged by: the reason for its level.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Risk {
    /// The figure.
    pub value: f64,
    /// From here amber.
    pub amber: f64,
    /// From here red.
    pub red: f64,
    /// The level.
    pub level: Level,
}

impl Risk {
    fn judged(value: f64, (amber, red): (f64, f64)) -> Self {
        let level = if value >= red {
            Level::Red
        } else if value >= amber {
            Level::Amber
        } else {
            Level::None
        };
        Self { value, amber, red, level }
    }
}

/// What the indices of a morning need beside the season.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Care {
    /// Whether every watering is a feeding.
    pub feeds_always: bool,
    /// Whether fruit is colouring.
    pub ripening: bool,
}

impl Care {
    /// As far as the plants themselves tell.
    #[must_use]
    pub fn of(group: &Group) -> Self {
        Self {
            feeds_always: false,
            ripening: group.size.settled().1 >= COLOURS_FROM,
        }
    }
}

/// The indices of a morning.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Risks {
    /// Yesterday's shortfall, `1 − Ks`.
    pub drought: Risk,
    /// Days among the last 21 with `Ks < 0.9` or a swing above `0.6·RAW`, while the plants carried young fruit, half a day each where
    /// that only follows from water that nobody noted; one step up in air drier than 1.5 kPa, or when nothing drains and every watering is a feeding.
    pub blossom_end_rot: Risk,
    /// Days in a row, up to yesterday, on which more than a quarter of what was given drained or less than a tenth of the
    /// compost was air; a day colder than 14 °C counts one and a half.
    pub wet: Risk,
    /// Largest refill in one go, of this morning's deficit and the last three days, over the easy water, while fruit ripens.
    pub cracking: Risk,
    /// The compost is sodden: no water, whatever the sum says.
    pub stop: bool,
}

/// The indices of a morning after these days, with a deficit in litres and the dose that it led to.
pub(super) fn risks(days: &[DayRow], deficit: f64, dose: &Dose, care: Care) -> Risks {
    let mut bad_days = 0.0;
    for (place, day) in days.iter().enumerate().rev().take(THREE_WEEKS) {
        if day.is_bad_for_young_fruit() {
            let days = days.get(place.saturating_sub(1)..=place).unwrap_or_default();
            let is_assumed = day.readings.count() == 0 && days.iter().any(|day| day.assumed_pour);
            bad_days += if is_assumed { ASSUMED_DAY } else { 1.0 };
        }
    }
    let mut blossom_end_rot = Risk::judged(bad_days, BLOSSOM_END_ROT);
    let salts_stay = care.feeds_always && dose.root_zone.drained <= 0.0;
    if bad_days > 0.0 && (salts_stay || dryness(dose) > DRY_AIR) {
        blossom_end_rot.level = blossom_end_rot.level.one_up();
    }
    let mut wet_days = 0.0;
    for day in days.iter().rev() {
        if !day.is_wet() {
            break;
        }
        wet_days += if day.mean_temperature < COLD { COLD_DAY } else { 1.0 };
    }
    let mut refill = 0.0;
    if care.ripening {
        refill = deficit / dose.root_zone.easy_water;
        for day in days.iter().rev().take(DAYS_TO_CRACK) {
            refill = f64::max(refill, (day.flows.start - day.flows.after_pour) / day.store.easy_water);
        }
    }
    Risks {
        drought: Risk::judged(1.0 - days.last().map_or(1.0, |day| day.flows.stress), DROUGHT),
        blossom_end_rot,
        wet: Risk::judged(wet_days, WET),
        cracking: Risk::judged(refill, CRACKING),
        stop: dose.feel == Some(Feel::Sodden),
    }
}

/// How far the air inside was from saturated on the day's mean, kPa; nought where nobody read the humidity.
fn dryness(dose: &Dose) -> f64 {
    dose.weather.humidity_percent.map_or(0.0, |humidity| {
        let (warmest, coolest) = (dose.weather.inside_maximum(), dose.weather.inside_minimum());
        mean_saturation_vapour_pressure(warmest, coolest) - vapour_pressure_from_mean_humidity(warmest, coolest, humidity)
    })
}

impl DayRow {
    /// Whether the day was short of water, or swung widely, for fruit that was just set.
    #[must_use]
    pub fn is_bad_for_young_fruit(&self) -> bool {
        let swung = self.flows.swing > WIDE_SWING * self.store.easy_water;
        self.trusses >= 1.0 && (self.is_short() || swung)
    }

    /// Whether the plant got clearly less than it would have taken.
    #[must_use]
    pub fn is_short(&self) -> bool {
        self.flows.stress < STRESSED
    }

    /// Whether much of what was given ran away, or roots lacked air.
    #[must_use]
    pub fn is_wet(&self) -> bool {
        let came = self.flows.given + self.flows.rain;
        self.flows.drained > MUCH_DRAIN * came || self.air < LEAST_AIR
    }
}

/// How plants wilt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wilting {
    /// In the heat of noon only: firm again by the evening.
    NoonOnly,
    /// In the evening too.
    AllDay,
    /// Even on a cool morning.
    InTheMorningToo,
    /// One plant among firm ones.
    OnePlant,
}

/// What to do about wilting plants (choice, from how roots behave in dry and in flooded compost).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WiltAdvice {
    /// Water now, in parts with pauses.
    WaterInParts,
    /// No water: let it drain, and shade the plants.
    DrainAndShade,
    /// As it should be: no more water; shade or open up.
    NormalAtNoon,
    /// Look at roots and stem: a disease, or roots without air.
    RootsOrStem,
    /// Look at that plant alone: its stem, its roots, its own pot.
    ThatPlant,
    /// Firm soon after the next watering, or else roots: feel the compost at the bottom.
    FeelDeeper,
}

/// What to do about wilting plants in compost that feels so. Dry compost comes first: it explains any wilting.
#[must_use]
pub const fn wilt_advice(wilting: Wilting, feel: Feel) -> WiltAdvice {
    match (feel, wilting) {
        (Feel::Dry, _) => WiltAdvice::WaterInParts,
        (_, Wilting::OnePlant) => WiltAdvice::ThatPlant,
        (_, Wilting::InTheMorningToo) => WiltAdvice::RootsOrStem,
        (Feel::Sodden, _) => WiltAdvice::DrainAndShade,
        (Feel::Moist, Wilting::NoonOnly) => WiltAdvice::NormalAtNoon,
        (Feel::Moist, Wilting::AllDay) => WiltAdvice::FeelDeeper,
    }
}
