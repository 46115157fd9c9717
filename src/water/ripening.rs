//! From an open flower to a ripe fruit, and the last truss for which there is time.

use super::{Place, PlantSize, Standing, carry_back, carry_forward, usual_mean};
use crate::almanac::{CivilDay, Latitude};
use crate::quantity::bounded;
use crate::working::{Working, value};

/// Mean temperature below which the rate follows a straight line, °C: there its logarithm falls too fast (from memory, with the rate).
const RIPENING_STRAIGHT_BELOW: f64 = 17.0;
/// Mean temperature at which that line comes to nought, °C: the line through 95 days at 14 °C and 65 at 18 (Adams, Cockshull and Cave
/// 2001, abstract read).
const RIPENING_STANDS_STILL: f64 = 5.33;
/// Mean temperature below which ripening is only guessed, °C: the coldest trial (Adams and others 2001, abstract read).
pub const RIPENING_UNRELIABLE_BELOW: f64 = 14.0;
/// Temperatures outside which the nearest of them counts, °C (choice: the logarithm would run away).
const RIPENING_LIMITS: (f64, f64) = (10.0, 30.0);
/// Usual mean temperature at which an unheated crop is cleared, °C (choice: hardly anything ripens on the plant below).
const SEASON_ENDS_BELOW: f64 = 12.0;
/// Days before that by which the last truss should be ripe, for a cool autumn (choice, with which the practice of stopping is met).
const IN_HAND: i32 = 14;
/// Days either side of the stop date (choice).
const STOP_WITHIN: i32 = 10;
/// Days before the end from which feed and water taper: six weeks to four (common practice, no source).
const TAPER: (i32, i32) = (42, 28);
/// Days within which a fruit ripens if it does at all (choice: longer than any season).
const LONGEST_RIPENING: f64 = 200.0;
/// Days that one walk through the season takes at most (limit).
const MOST_DAYS: u32 = 366;

/// Share of the way from flower to ripe fruit that goes by in a day, at mean temperature `T`, °C, with the share `A` (0 to 1)
/// already done; never negative.
///
/// `0.0181 + ln(T/20)·(0.0392 − 0.213·A + 0.451·A² − 0.240·A³)`: 55 days at 20 °C. De Koning 1994 (from memory). Below 17 °C the
/// rate of 17 °C times `(T − 5.33)/(17 − 5.33)`, so that it takes 95 days at 14 °C (Adams, Cockshull and Cave 2001). Unreliable
/// below 14 °C.
#[must_use]
pub fn ripening_rate(mean_celsius: f64, done: f64) -> f64 {
    let (coldest, warmest) = RIPENING_LIMITS;
    let mean = bounded(mean_celsius, coldest, warmest);
    let done = bounded(done, 0.0, 1.0);
    let by_age = 0.0392 + done * (-0.213 + done * (0.451 - 0.240 * done));
    let straight = (mean.min(RIPENING_STRAIGHT_BELOW) - RIPENING_STANDS_STILL) / (RIPENING_STRAIGHT_BELOW - RIPENING_STANDS_STILL);
    (0.0181 + (mean.max(RIPENING_STRAIGHT_BELOW) / 20.0).ln() * by_age) * straight
}

/// How far the fruit of a flower has come.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ripening {
    /// Share of the way done, 0 (flower) to 1 (ripe).
    pub done: f64,
    /// Days from the flower until it was ripe, or until the day asked for when it is not yet.
    pub days: f64,
    /// Whether a day was below 14 °C, where the rate is unreliable.
    pub unreliable: bool,
}

/// The fruit on the morning of `to` of a flower that opened on `from`, with the mean temperature of each day, °C.
#[must_use]
pub fn ripening(from: CivilDay, to: CivilDay, mean_celsius: &dyn Fn(CivilDay) -> f64) -> Ripening {
    let mut fruit = Ripening {
        done: 0.0,
        days: 0.0,
        unreliable: false,
    };
    let mut day = from;
    for _ in 0..MOST_DAYS {
        if day >= to || fruit.done >= 1.0 {
            break;
        }
        let mean = mean_celsius(day);
        let rate = ripening_rate(mean, fruit.done);
        let left = 1.0 - fruit.done;
        fruit.unreliable |= mean < RIPENING_UNRELIABLE_BELOW;
        fruit.days += if rate > left { left / rate } else { 1.0 };
        fruit.done = (fruit.done + rate).min(1.0);
        day = day.tomorrow();
    }
    fruit
}

/// The last truss whose fruit is likely to ripen in the usual weather of a place. Its last weeks are always below 14 °C, where the
/// rate is unreliable.
#[derive(Clone, Debug, PartialEq)]
pub struct LastTruss {
    /// When it flowers: stop the plants then, or at once when that day is past.
    pub stop: CivilDay,
    /// Early end of its range, ten days before.
    pub early: CivilDay,
    /// Late end of its range, ten days after.
    pub late: CivilDay,
    /// Which one it is, counted from below; unknown without a look at the plants, nought when there is time for none.
    pub truss: Option<u32>,
    /// When the crop is taken to end.
    pub season_ends: CivilDay,
    /// When feed goes to half as often and water falls with it: first and last day for the change.
    pub taper: (CivilDay, CivilDay),
    /// How the date was reached.
    pub working: Working,
}

/// The last truss that is likely to ripen, for a group as it stands today; nothing once the season is over, or where
/// none ripens at all.
///
/// The season ends when the usual mean falls below 12 °C (choice). From a fortnight before that [`ripening_rate`] is followed back,
/// day by day, from a ripe fruit to its flower.
#[must_use]
pub fn last_truss(standing: &Standing, latitude: Latitude, today: CivilDay) -> Option<LastTruss> {
    let size = standing.group.size;
    let mean = |day| usual_mean(standing.group.place, latitude, day);
    let season_ends = season_end(latitude, today, &mean)?;
    let ripe = season_ends.days_later(-IN_HAND);
    let (mut stop, mut done) = (ripe, 1.0);
    let mut days = 0.0;
    while done > 0.0 {
        if days >= LONGEST_RIPENING {
            return None;
        }
        days += 1.0;
        stop = stop.yesterday();
        done -= ripening_rate(mean(stop), done);
    }
    let is_stopped = standing.stopped_at.is_some_and(|height| size.settled().0 >= height);
    let grown = if is_stopped {
        // All trusses that they have were there when the tip was taken out.
        size
    } else if stop < today {
        carry_back(size, today, stop, &mean)
    } else {
        carry_forward(size, today, stop, standing.stopped_at, &mean).size
    };
    let known = size != PlantSize::default();
    let mut working = Working::default();
    working.step(
        "Days from the last flower to the ripe fruit",
        "each day 0.0181 + ln(T ÷ 20) × (0.0392 − 0.213 A + 0.451 A² − 0.240 A³), below 17 °C that of 17 °C × (T − 5.33) ÷ 11.67, \
         back from a fortnight before the day the mean falls below 12 °C",
        &[
            value("T a fortnight before", mean(ripe), "°C", 1),
            value("T at the flower", mean(stop), "°C", 1),
        ],
        value("days", days, "", 0),
        "De Koning 1994, from memory; below 17 °C Adams and others 2001, abstract read, unreliable below 14 °C; the end of the season and \
         the fortnight in hand are our choice",
    );
    Some(LastTruss {
        stop,
        early: stop.days_later(-STOP_WITHIN),
        late: stop.days_later(STOP_WITHIN),
        truss: known.then(|| whole(grown.settled().1)),
        season_ends,
        taper: (season_ends.days_later(-TAPER.0), season_ends.days_later(-TAPER.1)),
        working,
    })
}

/// Whether the crop comes to its end: feed and water taper, or the season is over.
#[must_use]
pub fn is_ending(last: Option<&LastTruss>, place: Place, latitude: Latitude, today: CivilDay) -> bool {
    match last {
        Some(last) => today >= last.taper.0,
        None => is_over(place, latitude, today),
    }
}

/// Whether it is usually too cold by then to ripen anything more of this summer.
#[must_use]
pub fn is_over(place: Place, latitude: Latitude, today: CivilDay) -> bool {
    !is_warm(usual_mean(place, latitude, today)) && is_past_july(latitude, today)
}

fn is_warm(mean: f64) -> bool {
    mean >= SEASON_ENDS_BELOW
}

/// Whether the summer of the year lies behind, where it is too cold; from the turn of the year on the next one counts (choice).
fn is_past_july(latitude: Latitude, day: CivilDay) -> bool {
    day.northern_month(latitude) > 7
}

/// The first day that is usually too cold after the summer to come; nothing when that summer is past, as from August on (choice), or
/// never comes.
fn season_end(latitude: Latitude, today: CivilDay, mean: &dyn Fn(CivilDay) -> f64) -> Option<CivilDay> {
    let mut day = today;
    let mut warm = false;
    for _ in 0..MOST_DAYS {
        let is_warm = is_warm(mean(day));
        if warm && !is_warm {
            return Some(day);
        }
        if !is_warm && is_past_july(latitude, day) {
            return None;
        }
        warm |= is_warm;
        day = day.tomorrow();
    }
    None
}

/// Whole trusses of a plant.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a float cast saturates")]
const fn whole(trusses: f64) -> u32 {
    trusses as u32
}
