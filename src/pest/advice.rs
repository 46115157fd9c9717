use super::{Control, Outline, Pest, Programme, Shut, Standing, TOO_HOT};
use crate::almanac::CivilDay;

/// Something to mind with a programme. The words are the screens'.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Advice {
    /// The label and local rules win over every date here.
    LabelFirst,
    /// The label shuts the spray out: what is done by hand stands in its place.
    ByHandInstead,
    /// Sprays hardly touch eggs and pupae: that is why it comes back.
    EggsEscape,
    /// Adults are a small part of all of them: once is not enough.
    AdultsAreFew,
    /// No egg stage: within a week the young of today breed.
    NoEggs,
    /// It is so cold that it hardly moves: no rush.
    NoRush,
    /// The cycle stalls before winter, and frost kills it outdoors.
    Stalls,
    /// The cycle stalls while it is cold, and goes on once it is warmer.
    ColdNow,
    /// Spider mites hide for the winter: clean up instead of spraying.
    CleanUp,
    /// Heavily infested plants are better taken out.
    TakeOutWorst,
    /// Winter hosts, weeds and new plants carry it over: break the bridge.
    BreakBridge,
    /// Sticky leaves and black mould come from it: wash the fruit.
    Honeydew,
    /// Tap a leaf over white paper.
    PaperTap,
    /// Wet the undersides by noon and damp the path: dry heat suits it.
    DampDown,
    /// Look and aim under the leaves.
    Undersides,
    /// Not in sun or heat, not on wilted plants; try one leaf first.
    NotInSun,
    /// Not on open flowers nor when bees fly.
    Bees,
    /// Gloves, long sleeves, eyes; children and pets off until dry.
    Protect,
    /// Pick what is ripe before spraying.
    PickFirst,
    /// Not the same group of substances on two generations running.
    ChangeGroup,
    /// Broad sprays kill what eats mites.
    SparePredators,
    /// A battery cleaner, or dry hands and a residual-current plug; freeze the bag.
    VacuumSafely,
    /// Mains water under glass, never from the butt.
    MainsWater,
    /// Predatory mites are poor on hairy tomato leaves.
    HairyLeaves,
    /// Parasitoids and predators are used as their supplier says.
    AsSupplier,
    /// Parasitoids keep few whitefly few, about one on twenty plants (textbook, read), and do not catch up with many.
    WhileFew,
    /// It is not warm enough for them yet.
    TooCoolForThem,
    /// A spray was used lately: wait.
    WaitAfterSpray,
    /// Cards catch them too: keep one to watch.
    CardsCatchThem,
    /// Take mined leaves off and squash what is in them.
    TakeLeavesOff,
    /// It may have to be reported: see the plant health portal.
    ReportIt,
    /// Search in the evening, daily for a week, then weekly.
    EveningSearch,
    /// Take out bored fruit; sound fruit is good.
    BoredFruit,
    /// Go round with a torch one to three hours after sunset.
    TorchRound,
    /// Nematodes take days to weeks, and large slugs and snails escape.
    NematodesAreSlow,
    /// Keep nematodes cool until the soil is 5 °C and moist.
    KeepNematodesCool,
    /// Keep nematodes and pellets away from ponds.
    Ponds,
    /// No bodies are seen after ferric phosphate: that is usual.
    NoBodies,
    /// Bait locked away from pets and children; a vet if it was eaten.
    BaitLocked,
    /// Old blue pellets may not be used outdoors in Great Britain: to the council's waste site.
    OldPellets,
    /// It is hotter than 35 °C at times.
    TooHot,
}

/// Degree-days a day below which there is no rush, °C·d (choice).
const NO_RUSH_BELOW: f64 = 2.0;
/// Mean of the coming week from which dry heat is likely, °C (choice: a maximum of 26 and more).
const DRY_HEAT_FROM: f64 = 21.0;
/// Days for which a day that was too hot is still warned of (choice).
const LATELY: i32 = 7;
/// Month of the north from which clearing is nearer than curing (choice).
const LATE_FROM: u8 = 9;
/// Months of the north in which a cold that stalls them will pass (choice).
const WARMS_IN: std::ops::Range<u8> = 3..LATE_FROM;

/// What is to be minded with a programme, most pressing first; warmth by the coming seven days (choice).
#[must_use]
pub fn advice(programme: &Programme, outline: &Outline, today: CivilDay) -> Vec<Advice> {
    let (pest, control) = (programme.pest, programme.control);
    let species = pest.species();
    let week = programme.warmth.mean_of(today, 7);
    let pace = species.map(|species| programme.warmth.on(today).degree_days(species.thresholds));
    let is_spray = control.is_sprayed();
    let is_shut = outline.shut.is_some();
    let is_sprayed = is_spray && !is_shut;
    let sucks = matches!(pest, Pest::Whitefly | Pest::Aphid);
    let mites = matches!(pest, Pest::SpiderMite | Pest::RussetMite);
    let month = today.northern_month(programme.warmth.latitude);
    let by_air = matches!(outline.control, Control::Vacuum | Control::StickyCards | Control::WaterJet);
    let living = [control]
        .iter()
        .chain(programme.beside)
        .copied()
        .find(|control| control.is_living());
    let coming = outline.introduction.as_ref();
    let nematodes = control == Control::Nematodes;
    let is_cold = coming.is_some_and(|coming| coming.mean < coming.needs.least_mean);
    let has_cards = coming.is_some_and(|coming| coming.cards_catch_it);
    let waits = coming.is_some_and(|coming| {
        let waits = |wait: &super::Wait| matches!(wait, super::Wait::AfterSpray | super::Wait::AskLabel);
        coming.waits.iter().any(waits)
    });
    let does = |control: Control| {
        let ahead = outline.visits.iter().filter(|visit| visit.standing == Standing::Ahead);
        outline.control == control || ahead.map(|visit| visit.control).any(|other| other == control)
    };
    let slug = pest == Pest::Slug;
    let bait = control == Control::FerricPhosphate;
    let readings = &programme.warmth.readings;
    let too_hot = readings
        .iter()
        .any(|reading| reading.warmest > TOO_HOT && today.days_since(reading.day) <= LATELY)
        || programme.warmth.mean.is_some_and(|mean| mean > TOO_HOT);
    let warms = WARMS_IN.contains(&month);
    let is_idle = pace.is_some_and(|pace| pace < NO_RUSH_BELOW);
    [
        (Advice::LabelFirst, control.needs_label() || is_shut),
        (Advice::ByHandInstead, is_shut && outline.shut != Some(Shut::LimitsUnread)),
        (Advice::CleanUp, outline.hides),
        (Advice::Stalls, outline.stalls && !warms),
        (Advice::ColdNow, outline.stalls && warms),
        (Advice::NoRush, is_idle && !slug),
        (Advice::TooHot, too_hot),
        (
            Advice::EggsEscape,
            is_sprayed && matches!(pest, Pest::Whitefly | Pest::SpiderMite | Pest::Thrips),
        ),
        (Advice::AdultsAreFew, by_air && pest == Pest::Whitefly),
        (Advice::NoEggs, pest == Pest::Aphid),
        (Advice::PaperTap, matches!(pest, Pest::SpiderMite | Pest::Thrips)),
        // What nobody can see is not picked off.
        (
            Advice::TakeOutWorst,
            pest == Pest::RussetMite || mites && (outline.hides || month >= LATE_FROM),
        ),
        (Advice::DampDown, pest == Pest::SpiderMite && week >= DRY_HEAT_FROM),
        (Advice::Undersides, sucks || mites),
        (Advice::Honeydew, sucks),
        (Advice::NotInSun, is_sprayed),
        (Advice::Bees, is_sprayed),
        (Advice::Protect, is_sprayed || bait && !is_shut),
        (Advice::PickFirst, is_sprayed && outline.may_pick(today)),
        (Advice::ChangeGroup, control == Control::OtherSpray && !is_shut),
        (Advice::SparePredators, control == Control::OtherSpray || pest == Pest::Aphid),
        (Advice::VacuumSafely, does(Control::Vacuum)),
        (Advice::MainsWater, does(Control::WaterJet)),
        (Advice::WaitAfterSpray, waits),
        (Advice::TooCoolForThem, is_cold && !nematodes),
        (Advice::WhileFew, living == Some(Control::Parasitoid) && pest == Pest::Whitefly),
        (Advice::CardsCatchThem, has_cards),
        (Advice::HairyLeaves, living == Some(Control::PredatoryMite)),
        (Advice::AsSupplier, living.is_some()),
        (Advice::TakeLeavesOff, matches!(pest, Pest::LeafMiningMoth | Pest::LeafMiningFly)),
        (Advice::ReportIt, pest == Pest::LeafMiningMoth),
        (Advice::EveningSearch, pest == Pest::TomatoMoth),
        (Advice::BoredFruit, matches!(pest, Pest::TomatoMoth | Pest::LeafMiningMoth)),
        (Advice::TorchRound, slug),
        (Advice::KeepNematodesCool, nematodes && is_cold),
        (Advice::NematodesAreSlow, nematodes),
        (Advice::NoBodies, bait),
        (Advice::BaitLocked, slug),
        (Advice::Ponds, nematodes || bait),
        (Advice::OldPellets, slug),
        (Advice::BreakBridge, sucks || is_idle || mites),
    ]
    .into_iter()
    .filter_map(|(advice, holds)| holds.then_some(advice))
    .collect()
}
