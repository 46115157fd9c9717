use super::morning::UseOfDay;
use super::{Canopy, Demand, RootZone};
use crate::almanac::Weather;
use crate::quantity::{Volume, bounded};
use crate::working::{Working, value};

/// Spread of the plant's own thirst about the sum, log-normal standard deviation, no unit (choice; to be learnt from readings).
pub(super) const PLANT_SPREAD: f64 = 0.25;
/// Spread of one day about the sum, no unit (choice; never learnt).
pub(super) const DAY_SPREAD: f64 = 0.15;
/// Further spread while the sky is only assumed, no unit: from the words' own doses (choice).
pub(super) const SKY_SPREAD: f64 = 0.30;
/// Further spread while the size of the plant is only assumed, no unit (choice).
const SIZE_SPREAD: f64 = 0.35;
/// Further spread while the temperatures are those of the nearest latitude that they were fitted for, no unit (choice: at 33° a day of
/// 38 °C in place of the 24 °C that is guessed takes about half as much again).
pub(super) const FAR_SPREAD: f64 = 0.35;
/// Standard deviations either side that hold 80 % of a normal distribution, no unit (exact, rounded).
pub(super) const LIKELY_DEVIATIONS: f64 = 1.281_552;
/// Clearness, no unit, from which the sum agrees with the experiment station's table, and below which it reads high (choice: of the
/// table's middle row; it tells skies in words).
pub const AGREES_FROM: f64 = 0.42;
/// Clearness, no unit, of the table's dull row, where the low end has to reach down to the table (choice: the table tells skies in
/// words).
const DULL: f64 = 0.25;
/// What divides the low end on a dull day, on top of the likely factor, no unit, so that it reaches the table's ½ pint (choice made
/// from Fairfield Experimental Horticulture Station's table, of which the sum reads 40 to 47 % too much on dull days).
const LEAST_LIKELY_BELOW_DULL: f64 = 1.28;
/// Share of the easy water that one watering may let go before the next (choice).
const DEEPEST_SWING: f64 = 0.5;
/// Waterings in a day that a person can keep up: morning, noon, before three (choice).
pub(super) const MOST_WATERINGS: f64 = 3.0;
/// Parts that one watering is poured in at most (choice).
const MOST_PARTS: f64 = 3.0;
/// Parts that a watering of compost which has shrunk is poured in at least (choice).
const PARTS_AFTER_DROUGHT: u32 = 2;
/// Share of the easy water that is gone when compost feels dry: half of people would call it dry (choice).
pub const DRY_FROM: f64 = 0.8;
/// Share of the gap between the sum and that feel that is refilled before the compost is felt again (choice: too much at once
/// harms a closed bag, too little is put right by the next squeeze).
const DRY_REFILL: f64 = 0.5;

/// Where a first morning's range comes from.
const MORNING_RANGE: &str =
    "Plant 25 %, day 15 %, assumed sky 30 %, assumed size 35 % (choice); dull days from the Fairfield experiment station’s table";
/// Where the range of a balance comes from.
const BALANCE_RANGE: &str = "Plant 25 % or as far as the readings leave it open, day 15 %, assumed sky 30 %, assumed size 35 % (choice); dull days as in Fairfield’s table";

/// What a squeezed handful of compost says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Feel {
    /// It crumbles.
    Dry,
    /// It holds together and no water comes.
    Moist,
    /// Water drips from it.
    Sodden,
}

/// Something that was assumed because nobody said it, and that widens the range or should be shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Assumption {
    /// A mixed sky.
    Sky,
    /// The usual temperatures of the month.
    Temperatures,
    /// The usual temperatures of latitudes far from where they were measured.
    FarGuess,
    /// A half-grown plant.
    Size,
    /// No rain, for plants outdoors.
    NoRain,
}

/// One morning's water for one plant.
#[derive(Clone, Debug, PartialEq)]
pub struct Dose {
    /// For each plant in the whole day.
    pub per_plant: Volume,
    /// Low end of the likely range: four in five mornings lie between low and high.
    pub low: Volume,
    /// High end of the likely range.
    pub high: Volume,
    /// Still missing afterwards, because dry compost is refilled over two days; nothing when one day is enough.
    pub rest: Volume,
    /// Waterings that it is spread over, 1 to 3.
    pub waterings: u32,
    /// Parts that one watering is poured in, 1 to 3.
    pub parts: u32,
    /// Whether even that many waterings leave the compost short.
    pub container_too_small: bool,
    /// Whether the compost says: no water today.
    pub hold_off: bool,
    /// What was felt.
    pub feel: Option<Feel>,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
    /// Whether place and season lie within what the sum was tried in: 45 to 60° of latitude, April to October of the north.
    pub within_tried: bool,
    /// Yesterday's weather as used.
    pub weather: Weather,
    /// The leaves.
    pub canopy: Canopy,
    /// The compost that the roots reach.
    pub root_zone: RootZone,
    /// What the plant used yesterday.
    pub demand: Demand,
    /// Rain that the roots got, litres.
    pub rain: f64,
    /// Share of the compost filled by roots, 0 to 1.
    pub rooted: f64,
    /// How the dose was reached.
    pub working: Working,
}

/// What is missing from the compost, with the day's shape, before it becomes a dose.
pub(super) struct Refill {
    pub dose: f64,
    pub low: f64,
    pub high: f64,
    pub rest: f64,
    pub waterings: u32,
    pub parts: u32,
    pub container_too_small: bool,
}

/// What the balance of the days before says on a morning.
pub(super) struct Missing {
    /// Deficit below full, litres.
    pub deficit: f64,
    /// Used in a day, litres.
    pub demand: f64,
    /// What its range multiplies and divides the dose by.
    pub likely_factor: f64,
}

/// What the compost is to hold of a day's waterings, litres, and how many of them are wished for.
pub(super) fn held_of(deficit: f64, demand: f64, easy_water: f64) -> (f64, f64) {
    let later = (demand - left_open(demand, easy_water)).min((MOST_WATERINGS - 1.0) * easy_water);
    (deficit.min(easy_water) + later, waterings_for(demand, easy_water))
}

/// What a day's waterings leave open of its use until the next morning, litres: all of it up to half of the easy water, or what goes
/// from one of the most waterings to the next where that is more.
pub(super) fn left_open(demand: f64, easy_water: f64) -> f64 {
    demand.min((DEEPEST_SWING * easy_water).max(demand / MOST_WATERINGS))
}

/// Waterings for a day's use, before the limit of what a person can keep up: one for each half of the easy water.
pub(super) fn waterings_for(demand: f64, easy_water: f64) -> f64 {
    (demand / (DEEPEST_SWING * easy_water)).ceil().max(1.0)
}

impl Refill {
    /// `deficit = max(0, E − rain)`, moved by what the compost feels like; `dose = deficit/(1 − LF)`, in
    /// `n = ⌈E/(0.5·RAW)⌉` waterings (at most 3), each of which the roots can hold.
    pub fn new(day: &UseOfDay, feel: Option<Feel>, assumptions: &[Assumption], working: &mut Working) -> Self {
        let (demand, rain, zone) = (day.demand.total(), day.rain, &day.root_zone);
        let used = (demand - rain).max(0.0);
        let (formula, missing) = match feel {
            Some(Feel::Sodden) => ("sodden compost: nothing is missing, whatever the sum says", 0.0),
            Some(Feel::Dry) => (
                "used − rain, and half of the gap to 0.8 × RAW, since the compost feels dry",
                used + DRY_REFILL * (DRY_FROM * zone.easy_water - used).max(0.0),
            ),
            Some(Feel::Moist) | None => ("used − rain, not below nothing", used),
        };
        let missing = working.step(
            "Missing from the compost this morning",
            formula,
            &[
                value("used", demand, "litres", 2),
                value("rain", rain, "litres", 2),
                value("RAW", zone.easy_water, "litres", 1),
            ],
            value("missing", missing, "litres", 2),
            "Yesterday is taken to have begun full; the squeeze overrules the sum (choice)",
        );
        let wished = waterings_for(demand, zone.easy_water);
        let held = missing.min(wished.min(MOST_WATERINGS) * zone.easy_water);
        Self::pour(held, wished, day, (likely_factor(assumptions), MORNING_RANGE), working)
    }

    /// From a balance: `(min(D, RAW) + max(0, E − max(RAW/2, E/3)))/(1 − LF)`: what is missing is refilled, and later waterings replace what
    /// the day takes beyond the swing that compost is allowed. What is missing beyond `RAW` waits for the next day, and what there is
    /// goes on in parts, because compost that has shrunk lets water run past.
    pub fn of_balance(missing: &Missing, feel: Option<Feel>, day: &UseOfDay, working: &mut Working) -> Self {
        let easy_water = day.root_zone.easy_water;
        let ((held, wished), rest) = if feel == Some(Feel::Sodden) {
            ((0.0, 1.0), 0.0)
        } else {
            let held = held_of(missing.deficit, missing.demand, easy_water);
            (held, (missing.deficit - easy_water).max(0.0))
        };
        let held = working.step(
            "For the compost to hold today",
            "missing, at most RAW, + used beyond half of RAW, or beyond a third of itself where that is more",
            &[
                value("missing", missing.deficit, "litres", 2),
                value("RAW", easy_water, "litres", 1),
                value("used", missing.demand, "litres", 2),
            ],
            value("to hold", held, "litres", 2),
            "The first watering refills; later ones replace what goes beyond that; sodden compost gets none; what is missing beyond RAW waits a day (choice)",
        );
        let mut refill = Self::pour(held, wished, day, (missing.likely_factor, BALANCE_RANGE), working);
        refill.rest = rest;
        if rest > 0.0 {
            refill.parts = refill.parts.max(PARTS_AFTER_DROUGHT);
        }
        refill
    }

    /// So much for the compost to hold (`held`), in as many waterings as are `wished` for or can be kept up.
    fn pour(held: f64, wished: f64, day: &UseOfDay, (factor, source): (f64, &'static str), working: &mut Working) -> Self {
        let zone = &day.root_zone;
        let waterings = wished.min(MOST_WATERINGS);
        let dose = working.step(
            "To pour",
            "missing ÷ (1 − share that drains), never more at once than the roots’ compost can hold",
            &[
                value("missing", held, "litres", 2),
                value("drains", zone.drained, "", 2),
                value("waterings", waterings, "", 0),
            ],
            value("dose", held / (1.0 - zone.drained), "litres", 2),
            "One watering for each half of RAW used in a day; pots that may drain lose a tenth (choice)",
        );
        let low = dose / (factor * further_down(day.weather.clearness));
        let high = (dose * factor).min((MOST_WATERINGS * zone.easy_water / (1.0 - zone.drained)).max(dose));
        working.step(
            "Likely range",
            "dose ÷ and × exp(1.28 × spread); on dull days the low end reaches further down",
            &[
                value("dose", dose, "litres", 2),
                value("low", low, "litres", 2),
                value("high", high, "litres", 2),
            ],
            value("×÷", factor, "", 2),
            source,
        );
        let pour = dose / waterings;
        let parts = bounded((pour / zone.single_pour).ceil(), 1.0, MOST_PARTS);
        Self {
            dose,
            low,
            high,
            rest: 0.0,
            waterings: whole(waterings),
            parts: whole(parts),
            container_too_small: wished > MOST_WATERINGS,
        }
    }
}

/// What the likely range multiplies and divides a dose by: about 1.45 when nothing is assumed.
#[must_use]
pub fn likely_factor(assumptions: &[Assumption]) -> f64 {
    likely_factor_over(1.0, PLANT_SPREAD, assumptions)
}

/// The same for the water of so many days together (1 and up), with what is open about the plants' own thirst: single days even
/// out, that does not.
pub(super) fn likely_factor_over(days: f64, plant_spread: f64, assumptions: &[Assumption]) -> f64 {
    let mut variance = plant_spread.powi(2) + DAY_SPREAD.powi(2) / days.max(1.0);
    for assumption in assumptions {
        variance += match assumption {
            Assumption::Sky => SKY_SPREAD.powi(2),
            Assumption::Size => SIZE_SPREAD.powi(2),
            Assumption::FarGuess => FAR_SPREAD.powi(2),
            Assumption::Temperatures | Assumption::NoRain => 0.0,
        };
    }
    likely_factor_of(variance)
}

/// The same from the variance of the logarithm: 80 % of mornings lie between dose ÷ factor and dose × factor.
pub(super) fn likely_factor_of(variance: f64) -> f64 {
    (LIKELY_DEVIATIONS * variance.sqrt()).exp()
}

/// What else divides the low end: 1 on bright days, more towards dull ones, without a step.
fn further_down(clearness: f64) -> f64 {
    let dullness = bounded((AGREES_FROM - clearness) / (AGREES_FROM - DULL), 0.0, 1.0);
    1.0 + (LEAST_LIKELY_BELOW_DULL - 1.0) * dullness
}

/// A small count that is already whole and not negative.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "1 to 3 by the clamps above")]
const fn whole(count: f64) -> u32 {
    count as u32
}
