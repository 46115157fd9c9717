use super::demand::COMPOST_FEEDS_WEEKS;
use super::{Band, Habit, Stage, Stem};
use crate::almanac::CivilDay;
use crate::quantity::{Likely, bounded};

/// Compost for a plant up to which it is taken to be used up after five weeks, litres (choice).
const SOON_USED_UP: f64 = 15.0;
/// Share of the label's strength with which a crop without fruit is begun, and for lush plants; share of the feeds once the last truss
/// has set (common practice, no source).
pub const HALF: f64 = 0.5;
/// Feeds a week that can be: once a fortnight to daily (limit).
const FEEDS_A_WEEK: (f64, f64) = (0.5, 7.0);

/// A week, days (exact).
pub const WEEK: f64 = 7.0;

/// Mean of a day below which nothing is fed, °C: cold roots take little up (from memory, no source).
const TOO_COLD: f64 = 12.0;

/// Whether it was too cold to feed on a day with these extremes where the plants grow, °C.
#[must_use]
pub fn is_too_cold(warmest: f64, coolest: f64) -> bool {
    f64::midpoint(warmest, coolest) < TOO_COLD
}

/// What decides whether it is time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Situation {
    /// How far the crop is.
    pub stage: Stage,
    /// Weeks since the plants were set into this compost.
    pub weeks_in_compost: Option<f64>,
    /// Compost for a plant, litres; nothing in open ground.
    pub compost_litres: Option<f64>,
    /// How thick the stems are.
    pub stem: Option<Stem>,
    /// Whether granules in the compost feed slowly too.
    pub granules: bool,
    /// Whether it holds any nitrogen, phosphorus or potassium.
    pub is_feed: bool,
    /// What a meter would read in the can at the label's strength, mS/cm.
    pub conductivity: Likely,
    /// The same at [`HALF`] of it, which is more than half: salts of a weaker can pair less.
    pub at_half: Likely,
    /// Of that the water's own, which a weaker can has too, mS/cm.
    pub own_conductivity: f64,
    /// How they are fed.
    pub habit: Habit,
    /// When they were last fed.
    pub last_fed: Option<CivilDay>,
    /// Whether it is usually too cold by now to ripen anything more.
    pub is_over: bool,
    /// Today.
    pub today: CivilDay,
}

/// Why it is time or not, and why weaker or less often.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// No truss has set and little compost still feeds.
    CompostFeeds,
    /// No truss has set, and nobody said how long the plants have been in their compost.
    WaitForTruss,
    /// No truss has set, but the compost has fed for five weeks.
    CompostSpent,
    /// No truss has set, and there is much compost or open ground.
    GroundFeeds,
    /// Fruit swells or is picked.
    FruitSwells,
    /// The last truss has set: half as often.
    CropEnds,
    /// It is usually too cold to ripen anything more.
    SeasonOver,
    /// Without nitrogen, phosphorus and potassium it is no feed, but a cure for a shortage.
    NoFeed,
    /// Stems are lush: less nitrogen.
    LushStem,
    /// Granules in the compost feed too: only from picking on, and half as strong.
    Granules,
    /// The can is too strong as the label has it, or most likely is.
    TooStrong,
    /// The can may be too strong as the label has it, which leaves open what it holds.
    MayBeTooStrong,
}

/// Whether to feed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Due {
    /// Not before the crop is further, or before this day.
    NotYet(Option<CivilDay>),
    /// Today.
    Today,
    /// On a day to come: early and late.
    On(CivilDay, CivilDay),
    /// Not this can: it is too strong, or no feed.
    Never,
}

/// One way to give the same grams in a week.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Way {
    /// Share of the label's strength.
    pub share: f64,
    /// Times a week.
    pub a_week: f64,
}

/// Whether it is time, how strong, and when next.
#[derive(Clone, Debug, PartialEq)]
pub struct Timing {
    /// Whether to feed.
    pub due: Due,
    /// Share of the label's strength: at most 1.
    pub share: f64,
    /// Why.
    pub why: Vec<Why>,
    /// Times a week.
    pub a_week: f64,
    /// When next if they are fed today: early and late.
    pub next: (CivilDay, CivilDay),
    /// Full, half, and little at every watering: the same grams in a week. What would need more than a feed a day is left out.
    pub ways: Vec<Way>,
}

/// Whether to feed today, how strong at most, and when next.
///
/// Start when the first truss swells, or half as strong after five weeks in little compost. The label's strength is a ceiling. A can that
/// is too strong is halved, and not poured where half of it is too strong still. Granules feed a crop without fruit to pick.
#[must_use]
pub fn timing(situation: &Situation) -> Timing {
    if !situation.is_feed {
        return no_feed(situation);
    }
    let mut why = Vec::new();
    let a_week = feeds_a_week(situation.habit.a_week, situation.stage);
    let mut share: f64 = 1.0;
    let mut waits = None;
    match situation.stage {
        Stage::NoTruss => {
            share = HALF;
            let is_little = situation.compost_litres.is_some_and(|litres| litres <= SOON_USED_UP);
            let (reason, until) = start(situation, is_little);
            if !situation.granules {
                why.push(reason);
                waits = Some(until).filter(|_| reason != Why::CompostSpent);
            }
        }
        Stage::Swelling | Stage::Picking => why.push(Why::FruitSwells),
        Stage::Late if situation.is_over => {
            why.push(Why::SeasonOver);
            waits = Some(None);
        }
        Stage::Late => why.push(Why::CropEnds),
    }
    if situation.granules {
        share = HALF;
        why.push(Why::Granules);
        if matches!(situation.stage, Stage::NoTruss | Stage::Swelling) {
            waits = Some(None);
        }
    }
    if situation.stem == Some(Stem::Lush) {
        share = HALF;
        why.push(Why::LushStem);
    }
    let reads = |share: f64| if share < 1.0 { situation.at_half } else { situation.conductivity };
    // For certain with the water's own salt, or by the middle of what the label leaves open without it.
    let is_too_strong = |share: f64| Band::of(reads(share).low.max(reads(share).value - situation.own_conductivity)) >= Band::Caution;
    if is_too_strong(share) {
        share = HALF;
        why.push(Why::TooStrong);
    }
    let is_never = is_too_strong(share);
    if !is_never && Band::of(reads(share).high) >= Band::Caution {
        why.push(Why::MayBeTooStrong);
    }
    let (soonest, latest) = days_between(a_week);
    let after = |day: CivilDay| (day.days_later(soonest), day.days_later(latest));
    let due = if is_never {
        // No share of it is offered then.
        share = 1.0;
        Due::Never
    } else if let Some(until) = waits {
        Due::NotYet(until)
    } else {
        match situation.last_fed.map(after) {
            Some((early, late)) if early > situation.today => Due::On(early, late),
            _ => Due::Today,
        }
    };
    Timing {
        due,
        share,
        why,
        a_week,
        next: after(situation.today),
        ways: ways(a_week),
    }
}

/// Nothing is due of what is no feed.
fn no_feed(situation: &Situation) -> Timing {
    let a_week = feeds_a_week(situation.habit.a_week, situation.stage);
    Timing {
        due: Due::Never,
        share: 1.0,
        why: vec![Why::NoFeed],
        a_week,
        next: (situation.today, situation.today),
        ways: ways(a_week),
    }
}

/// Before any truss has set: why to wait, and until when the compost feeds.
fn start(situation: &Situation, is_little: bool) -> (Why, Option<CivilDay>) {
    match situation.weeks_in_compost {
        _ if !is_little => (Why::GroundFeeds, None),
        None => (Why::WaitForTruss, None),
        Some(weeks) if weeks < COMPOST_FEEDS_WEEKS => {
            let days = whole(((COMPOST_FEEDS_WEEKS - weeks) * WEEK).ceil());
            (Why::CompostFeeds, Some(situation.today.days_later(days)))
        }
        Some(_) => (Why::CompostSpent, None),
    }
}

/// Whether the next feed is due after one on `last`, at so many a week, for a crop of a stage.
#[must_use]
pub fn is_due(last: CivilDay, a_week: f64, stage: Stage, today: CivilDay) -> bool {
    last.days_later(days_between(feeds_a_week(a_week, stage)).0) <= today
}

/// Feeds a week within what can be, half as many once the last truss has set.
fn feeds_a_week(told: f64, stage: Stage) -> f64 {
    let (least, most) = FEEDS_A_WEEK;
    let share = if stage == Stage::Late { HALF } else { 1.0 };
    bounded(told, least, most) * share
}

/// Whole days from one feed to the next, at the soonest and at the latest.
fn days_between(a_week: f64) -> (i32, i32) {
    let days = WEEK / a_week;
    (whole(days.floor()).max(1), whole(days.ceil()).max(1))
}

fn ways(a_week: f64) -> Vec<Way> {
    let (_, daily) = FEEDS_A_WEEK;
    [a_week, 2.0 * a_week, daily]
        .into_iter()
        .enumerate()
        .filter(|&(place, times)| times <= daily && (place != 2 || times > 2.0 * a_week))
        .map(|(_, times)| Way {
            share: a_week / times,
            a_week: times,
        })
        .collect()
}

/// Days that are already whole.
#[expect(clippy::cast_possible_truncation, reason = "a float cast saturates")]
const fn whole(days: f64) -> i32 {
    days as i32
}
