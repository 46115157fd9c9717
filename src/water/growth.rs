//! How plants grow between two looks at them.

use super::canopy::{HEIGHT_AT_NO_TRUSS, HEIGHT_PER_TRUSS};
use super::{HEIGHT_RANGE, PlantSize, TRUSSES_RANGE};
use crate::almanac::CivilDay;
use crate::quantity::bounded;

/// Mean temperatures within which trusses were counted, °C (from memory, de Koning 1994).
pub const TRUSSES_FITTED: (f64, f64) = (15.0, 25.0);
/// Where that line comes to nought and plants stand still, °C (computed: e to the power of 0.2903 ÷ 0.1454).
const GROWTH_STANDS_STILL: f64 = 7.3636;
/// Height of a plant as it is planted, m (choice).
const SEEDLING: f64 = 0.2;
/// Days that a look at a plant is carried forward at most (choice: longer than any season).
const MOST_DAYS: i32 = 300;

/// Trusses that appear in a day, from the mean temperature `T`, °C; above 25 °C as at 25, and below 15 °C the line goes on until plants
/// stand still at 7.4 (choice).
///
/// `−0.2903 + 0.1454·ln T`: one each 6.9 days at 20 °C. De Koning 1994 (from memory).
#[must_use]
pub fn truss_rate(mean_celsius: f64) -> f64 {
    let (_, warmest) = TRUSSES_FITTED;
    (-0.2903 + 0.1454 * bounded(mean_celsius, GROWTH_STANDS_STILL, warmest).ln()).max(0.0)
}

/// A plant as it probably is by now.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Carried {
    /// Its size: what was looked at, grown on; what was not stays unknown.
    pub size: PlantSize,
    /// Whether it grew at all since it was looked at, so that its size is an estimate.
    pub estimated: bool,
    /// Days colder or warmer than trusses were counted at: growth is then only roughly right.
    pub days_beyond_fit: u32,
}

/// Height and trusses on the morning of `to`, from a look at the plant on `from`, with the mean temperature of each day, °C.
///
/// Trusses come at [`truss_rate`], height with 0.18 m for each (choice), until the plant is `stopped_at` a height in metres. A
/// plant below 0.30 m first grows to there, where the first truss stands (choice).
#[must_use]
pub fn carry_forward(
    size: PlantSize,
    from: CivilDay,
    to: CivilDay,
    stopped_at: Option<f64>,
    mean_celsius: &dyn Fn(CivilDay) -> f64,
) -> Carried {
    let (coldest, warmest) = TRUSSES_FITTED;
    let (mut new_trusses, mut days_beyond_fit) = (0.0, 0);
    if size != PlantSize::default() {
        let mut day = from;
        for _ in 0..to.days_since(from).min(MOST_DAYS) {
            let mean = mean_celsius(day);
            new_trusses += truss_rate(mean);
            days_beyond_fit += u32::from(!(coldest..=warmest).contains(&mean));
            day = day.tomorrow();
        }
    }
    let (height, trusses) = size.settled();
    let room = stopped_at.unwrap_or(HEIGHT_RANGE.high).min(HEIGHT_RANGE.high) - height;
    let taller = bounded(new_trusses * HEIGHT_PER_TRUSS, 0.0, room.max(0.0));
    let below_first = if trusses > 0.0 {
        0.0
    } else {
        (HEIGHT_AT_NO_TRUSS - height).max(0.0)
    };
    let more = (taller - below_first).max(0.0) / HEIGHT_PER_TRUSS;
    Carried {
        size: PlantSize {
            height_metres: size.height_metres.map(|height| height + taller),
            trusses: size.trusses.map(|trusses| (trusses + more).min(TRUSSES_RANGE.high.max(trusses))),
        },
        estimated: taller > 0.0,
        days_beyond_fit,
    }
}

/// Height and trusses on the morning of an earlier day, `to`, from a look at the plant on `from`: fewer trusses, none of them
/// below nought, and less height, none of it below a seedling's.
#[must_use]
pub fn carry_back(size: PlantSize, from: CivilDay, to: CivilDay, mean_celsius: &dyn Fn(CivilDay) -> f64) -> PlantSize {
    let (mut fewer, mut day) = (0.0, from);
    for _ in 0..from.days_since(to).min(MOST_DAYS) {
        day = day.yesterday();
        fewer += truss_rate(mean_celsius(day));
    }
    PlantSize {
        height_metres: size
            .height_metres
            .map(|height| (height - fewer * HEIGHT_PER_TRUSS).max(height.min(SEEDLING))),
        trusses: size.trusses.map(|trusses| (trusses - fewer).max(0.0)),
    }
}
