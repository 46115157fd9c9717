//! When something looks wrong: what it may be, likeliest first. Never a verdict: each cause has to be looked at first.

use super::magnesium::is_enough;
use super::stage::{LITTLE_POTASH, MUCH_POTASH};
use super::{Band, Water};

/// Where it shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The youngest leaves and the tip.
    Top,
    /// The fruit.
    Fruit,
    /// The edges of leaves half-way up.
    Edges,
    /// The oldest leaves.
    Lower,
}

/// What it looks like.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// Yellow between green veins.
    BetweenVeins,
    /// Pale all over.
    PaleAllOver,
    /// Brown or burnt edges.
    BrownEdges,
    /// Purple beneath.
    PurpleBeneath,
    /// Dark spots.
    DarkSpots,
    /// Curled or twisted.
    Curled,
    /// Fruit with a dark, sunken end.
    SunkenEnd,
    /// Fruit with hard green or yellow shoulders.
    HardShoulders,
    /// Fruit with yellow patches that do not ripen.
    Blotched,
    /// Much leaf and little fruit.
    LittleFruit,
}

/// What may be behind it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// Short of magnesium.
    Magnesium,
    /// More potash than magnesium and calcium stand.
    TooMuchPotash,
    /// Old leaves.
    Age,
    /// Roots that stand too wet.
    WetRoots,
    /// Short of nitrogen.
    Nitrogen,
    /// Cold nights.
    Cold,
    /// Short of potash.
    Potassium,
    /// Too much salt.
    Salt,
    /// Dry roots, sun or wind.
    Dry,
    /// Short of phosphorus.
    Phosphorus,
    /// Short of iron.
    Iron,
    /// Hard water.
    HardWater,
    /// A virus, mites, or a residue of weedkiller.
    NotFeed,
    /// A mould or a wilt.
    Disease,
    /// Uneven water.
    UnevenWater,
    /// Too much nitrogen.
    TooMuchNitrogen,
    /// Heat, or leaves taken off.
    Heat,
    /// Flowers that have not set.
    PoorSet,
}

/// How likely a cause is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Odds {
    /// Perhaps.
    Perhaps,
    /// May be.
    MayBe,
    /// Likely.
    Likely,
}

/// What is known beside the look of the plant; nothing where nobody told.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Facts {
    /// Days of the last seven on which the compost felt sodden.
    pub sodden_days: Option<u32>,
    /// Whether the compost was dry or its water uneven lately.
    pub uneven_water: bool,
    /// K:N of the feed, as elements.
    pub potassium_to_nitrogen: Option<f64>,
    /// Nitrogen of the feed, mg/L.
    pub nitrogen: Option<f64>,
    /// Weeks in this compost.
    pub weeks_in_compost: Option<f64>,
    /// Whether the plants have been fed in the last fortnight.
    pub is_fed: bool,
    /// Whether Epsom salts were given without change.
    pub epsom_tried: bool,
    /// The coldest of the last nights, °C.
    pub coldest: Option<f64>,
    /// What the can most likely reads, mS/cm.
    pub conductivity: Option<f64>,
    /// Magnesium of the feed, mg/L.
    pub magnesium: Option<f64>,
    /// The water.
    pub water: Water,
}

/// Nitrogen above which growth goes into leaf, mg/L (choice: the top of the band of a picked crop).
const MUCH_NITROGEN: f64 = 200.0;
/// Night below which roots take up little phosphorus, °C (choice; common practice says about 12).
const COLD_NIGHT: f64 = 12.0;
/// Weeks from which compost is used up (common practice, no source).
const SPENT_WEEKS: f64 = 5.0;
/// Days for which plants count as fed of late (choice: labels ask for a feed in a week to a fortnight).
pub const FED_OF_LATE: i32 = 14;
/// Days of seven from which roots have been too wet (choice).
const WET_DAYS: u32 = 2;

/// What is looked at first for each sight, likeliest first (after extension services' keys, read, and common practice).
#[must_use]
const fn usual(part: Part, look: Look) -> &'static [(Cause, Odds)] {
    use Cause as C;
    use Odds::{Likely, MayBe, Perhaps};
    match (part, look) {
        (Part::Top, Look::BetweenVeins) => &[(C::WetRoots, Likely), (C::HardWater, MayBe), (C::Iron, MayBe)],
        (Part::Top, Look::PaleAllOver) => &[(C::WetRoots, Likely), (C::Iron, MayBe), (C::Cold, Perhaps), (C::Nitrogen, Perhaps)],
        (Part::Top, Look::Curled) => &[(C::NotFeed, Likely), (C::TooMuchNitrogen, MayBe), (C::Heat, Perhaps)],
        (Part::Top, Look::DarkSpots) => &[(C::Disease, Likely), (C::NotFeed, Perhaps)],
        (Part::Top, Look::BrownEdges) => &[(C::UnevenWater, Likely), (C::Salt, MayBe), (C::Dry, Perhaps)],
        (_, Look::SunkenEnd) => &[(C::UnevenWater, Likely), (C::Salt, MayBe), (C::TooMuchPotash, Perhaps)],
        (_, Look::HardShoulders) => &[(C::Heat, Likely), (C::Potassium, MayBe)],
        (_, Look::Blotched) => &[(C::Potassium, MayBe), (C::Heat, MayBe), (C::NotFeed, Perhaps)],
        (_, Look::LittleFruit) => &[(C::TooMuchNitrogen, Likely), (C::PoorSet, MayBe)],
        (Part::Lower, Look::BetweenVeins) => &[
            (C::Magnesium, Likely),
            (C::TooMuchPotash, Perhaps),
            (C::Age, MayBe),
            (C::WetRoots, Perhaps),
            (C::NotFeed, Perhaps),
        ],
        (_, Look::BetweenVeins) => &[(C::Magnesium, MayBe), (C::WetRoots, MayBe), (C::NotFeed, Perhaps)],
        (_, Look::PaleAllOver) => &[(C::Nitrogen, MayBe), (C::WetRoots, MayBe), (C::Cold, Perhaps), (C::Age, Perhaps)],
        (_, Look::BrownEdges) => &[(C::Salt, MayBe), (C::Dry, MayBe), (C::Potassium, MayBe), (C::WetRoots, Perhaps)],
        (_, Look::PurpleBeneath) => &[(C::Cold, Likely), (C::Phosphorus, Perhaps)],
        (_, Look::DarkSpots) => &[(C::Disease, Likely), (C::Magnesium, Perhaps), (C::Age, Perhaps)],
        (_, Look::Curled) => &[(C::Heat, Likely), (C::TooMuchNitrogen, MayBe), (C::NotFeed, Perhaps)],
    }
}

/// What may be behind a sight, likeliest first: the usual causes of it, each a step up or down for what is known.
#[must_use]
pub fn causes(part: Part, look: Look, facts: &Facts) -> Vec<(Cause, Odds)> {
    let all = || {
        usual(part, look)
            .iter()
            .map(|&(cause, odds)| (cause, shifted(odds, evidence(cause, facts))))
    };
    // Equal odds keep the usual order.
    let of = |wanted: Odds| all().filter(move |&(_, odds)| odds == wanted);
    of(Odds::Likely).chain(of(Odds::MayBe)).chain(of(Odds::Perhaps)).collect()
}

const fn shifted(odds: Odds, steps: i32) -> Odds {
    match odds as i32 + steps {
        ..=0 => Odds::Perhaps,
        1 => Odds::MayBe,
        _ => Odds::Likely,
    }
}

/// Whether what is known speaks for a cause (above nought) or against it.
fn evidence(cause: Cause, facts: &Facts) -> i32 {
    let ratio = facts.potassium_to_nitrogen;
    let side = |speaks_for: bool, speaks_against: bool| i32::from(speaks_for) - i32::from(speaks_against);
    let above = |value: Option<f64>, limit: f64| value.is_some_and(|value| value > limit);
    let below = |value: Option<f64>, limit: f64| value.is_some_and(|value| value < limit);
    match cause {
        Cause::WetRoots => side(
            facts.sodden_days.is_some_and(|days| days >= WET_DAYS),
            facts.sodden_days.is_some_and(|days| days == 0),
        ),
        Cause::TooMuchPotash => side(above(ratio, MUCH_POTASH), below(ratio, MUCH_POTASH)),
        Cause::Potassium => side(below(ratio, LITTLE_POTASH), above(ratio, MUCH_POTASH)),
        Cause::TooMuchNitrogen => side(
            below(ratio, LITTLE_POTASH) || above(facts.nitrogen, MUCH_NITROGEN),
            below(facts.nitrogen, MUCH_NITROGEN / 2.0),
        ),
        Cause::Nitrogen => side(
            above(facts.weeks_in_compost, SPENT_WEEKS) && !facts.is_fed,
            below(facts.weeks_in_compost, SPENT_WEEKS) || facts.is_fed,
        ),
        Cause::Cold => side(
            below(facts.coldest, COLD_NIGHT),
            facts.coldest.is_some_and(|coldest| coldest >= COLD_NIGHT),
        ),
        Cause::Phosphorus => side(false, below(facts.coldest, COLD_NIGHT)),
        Cause::Salt => side(
            facts.conductivity.is_some_and(|conductivity| Band::of(conductivity) > Band::Strong),
            facts
                .conductivity
                .is_some_and(|conductivity| Band::of(conductivity) <= Band::Normal),
        ),
        Cause::UnevenWater | Cause::Dry => side(facts.uneven_water, false),
        Cause::HardWater => side(facts.water == Water::Hard, facts.water == Water::Rain),
        // Tried in vain it is hardly that, whatever else speaks for it.
        Cause::Magnesium if facts.epsom_tried => -2,
        Cause::Magnesium => side(above(ratio, MUCH_POTASH), facts.magnesium.is_some_and(is_enough)),
        Cause::NotFeed => side(facts.epsom_tried, false),
        Cause::Iron | Cause::Age | Cause::Disease | Cause::Heat | Cause::PoorSet => 0,
    }
}
