//! What one reading makes of the count of water and of the plants' own thirst, held against Bayes' rule summed over a fine grid.
//!
//! The borders of the feels, their widths, the errors of scale and jug, the chance that a reading has nothing to do with the sum
//! and what is held of the plants before any reading are choices of this program, as its documentation states them.

use crate::water_scene::{drip, feel, lighter};
use first_truss::almanac::{CivilDay, STANDARD_LATITUDE, Sky, Sun, Yesterday};
use first_truss::water::{Container, DayRecord, Feel, Group, Handed, PlantSize, Readings, Records, Season, Store, Thirst, season};
use wasm_bindgen_test::wasm_bindgen_test;

/// Steps of a sum.
const STEPS: u32 = 4000;
/// Where half of people feel the border between moist and dry, and its width, as shares of the easy water.
const DRY: (f64, f64) = (0.80, 0.12);
/// The same between sodden and moist, its width as a share of where it lies.
const SODDEN: (f64, f64) = (0.15, 0.4);
/// Chance that a reading has nothing to do with the sum, for the compost's own state.
const OVERRULED: f64 = 0.30;
/// The same while learning.
const ASTRAY: f64 = 0.02;

/// Variance of a day's use over the square of its mean: log-normal with 15 %, and with 30 % more when the sky is assumed.
fn of_day(assumed_sky: bool) -> f64 {
    let variance = 0.15 * 0.15 + if assumed_sky { 0.30 * 0.30 } else { 0.0 };
    f64::exp(variance) - 1.0
}

fn today() -> CivilDay {
    CivilDay::new(2026, 7, 20).expect("a day")
}

/// A pot that takes one watering a day.
fn group() -> Group {
    Group {
        container: Container::Pot { litres: 20.0 },
        size: PlantSize {
            height_metres: Some(1.2),
            trusses: Some(5.0),
        },
        ..Group::default()
    }
}

fn told(back: i32) -> DayRecord {
    DayRecord {
        day: today().days_later(-back),
        weather: Some(Yesterday {
            sun: Some(Sun::Word(Sky::Bright)),
            warmest: Some(24.0),
            coolest: Some(12.0),
            ..Yesterday::default()
        }),
        ..DayRecord::default()
    }
}

fn worked_out(days: &[DayRecord], handed: Option<Handed>) -> Season {
    let group = group();
    let records = Records {
        days,
        handed,
        ..Records::new(&group)
    };
    season(&records, STANDARD_LATITUDE, today()).expect("a season")
}

fn normal(x: f64, mean: f64, spread: f64) -> f64 {
    let deviations = (x - mean) / spread;
    (-deviations * deviations / 2.0).exp() / (spread * std::f64::consts::TAU.sqrt())
}

/// Middles of even steps from one end to the other, and their width.
fn steps(from: f64, to: f64) -> impl Iterator<Item = (f64, f64)> {
    let width = (to - from) / f64::from(STEPS);
    (0..STEPS).map(move |step| (from + (f64::from(step) + 0.5) * width, width))
}

/// How likely a reading is at a deficit, and over which deficits it is likely if it has nothing to do with the sum.
fn likelihood(readings: &Readings, store: &Store, off: f64, deficit: f64) -> f64 {
    let past = |at: f64, width: f64| 1.0 / (1.0 + (-(deficit - at) / width).exp());
    let past_dry = || past((DRY.0 + off) * store.easy_water, DRY.1 * store.easy_water);
    let past_sodden = || past(store.sodden_to * (1.0 + off / SODDEN.0), SODDEN.1 * store.sodden_to);
    if let Some(litres) = readings.lighter {
        return normal(litres, deficit, 0.1);
    }
    if let Some(litres) = readings.drip {
        // 16 % with the day's own 15 %, and what a jug errs by.
        let jug = (0.16_f64 * 0.16 - 0.15 * 0.15).sqrt();
        return normal(litres, deficit, jug * litres + 0.02);
    }
    match readings.feel.expect("a reading") {
        Feel::Dry => past_dry(),
        Feel::Moist => past_sodden() - past_dry(),
        Feel::Sodden => 1.0 - past_sodden(),
    }
}

/// Ends between which a feel lies if it has nothing to do with the sum.
fn ends(feel: Feel, store: &Store, off: f64) -> (f64, f64) {
    let (sodden, dry) = (store.sodden_to * (1.0 + off / SODDEN.0), (DRY.0 + off) * store.easy_water);
    match feel {
        Feel::Dry => (dry, store.all_water),
        Feel::Moist => (sodden, dry),
        Feel::Sodden => (0.0, sodden),
    }
}

/// The part that has nothing to do with the sum: how likely it makes the reading, and its mean and spread.
fn apart(readings: &Readings, store: &Store, off: f64, deficit: f64) -> (f64, f64, f64) {
    if let Some(litres) = readings.lighter {
        return (1.0 / store.all_water, litres, 0.1);
    }
    if let Some(litres) = readings.drip {
        let jug = (0.16_f64 * 0.16 - 0.15 * 0.15).sqrt();
        return (1.0 / store.all_water, litres, jug * litres + 0.02);
    }
    let (from, to) = ends(readings.feel.expect("a reading"), store, off);
    ((to - from) / store.all_water, deficit.max(from).min(to), DRY.1 * store.easy_water)
}

/// Mean and spread of the deficit after a reading, by Bayes' rule.
fn after(mean: f64, spread: f64, readings: &Readings, store: &Store, off: f64) -> (f64, f64) {
    let (mut whole, mut first, mut second) = (0.0, 0.0, 0.0);
    for (deficit, width) in steps(mean - 8.0 * spread, mean + 8.0 * spread) {
        let weight = (1.0 - OVERRULED) * normal(deficit, mean, spread) * likelihood(readings, store, off, deficit) * width;
        whole += weight;
        first += weight * deficit;
        second += weight * deficit * deficit;
    }
    let (weight, middle, wide) = apart(readings, store, off, mean);
    let weight = OVERRULED * weight;
    whole += weight;
    first += weight * middle;
    second += weight * (middle * middle + wide * wide);
    (first / whole, (second / whole - (first / whole) * (first / whole)).sqrt())
}

/// What is believed of yesterday morning, with and without a reading on it, when so much was missing on the morning before.
fn before_and_after(deficit: f64, spread: f64, off: f64, readings: Readings) -> (Handed, Handed, Store) {
    let handed = Handed {
        day: today().days_later(-2),
        deficit,
        spread,
        thirst: Thirst::default(),
        off,
        given: 0.0,
        pour_spread: 0.0,
        pours: 1,
        in_parts: false,
        stay: None,
    };
    let with = |readings: Readings| {
        let read = DayRecord {
            given: Some(0.0),
            readings,
            ..told(1)
        };
        worked_out(&[told(2), read], Some(handed))
    };
    let (without, with) = (with(Readings::default()), with(readings));
    (without.handed.expect("a past"), with.handed.expect("a past"), with.store)
}

/// The mean that the dose heeds: of compost that drips at most half of what is missing at its border, whatever the sum says.
fn heeded(mean: f64, readings: &Readings, store: &Store, off: f64) -> f64 {
    match readings.feel {
        Some(Feel::Sodden) => mean.min(0.5 * store.sodden_to * (1.0 + off / 0.15)),
        _ => mean,
    }
}

/// How far a figure may lie off: a weighing and a drip test are exact, a feel is as good as the logistic curve stands for the normal
/// one, which is least good far out, where sodden compost surprises.
fn tolerance(readings: &Readings, exact: f64, felt: f64, surprising: f64) -> f64 {
    match readings.feel {
        None => exact,
        Some(Feel::Dry | Feel::Moist) => felt,
        Some(Feel::Sodden) => surprising,
    }
}

#[track_caller]
fn near(found: f64, wanted: f64, tolerance: f64, what: &str) {
    assert!((found - wanted).abs() <= tolerance, "{what}: {found} is not {wanted} ± {tolerance}");
}

#[wasm_bindgen_test(unsupported = test)]
fn a_reading_moves_the_count_as_bayes_says() {
    for (deficit, spread) in [(0.0, 0.3), (0.6, 0.3), (1.2, 0.3), (1.2, 0.6), (1.8, 0.2), (1.8, 0.5)] {
        for off in [0.0, 0.1] {
            for readings in [
                feel(Feel::Dry),
                feel(Feel::Moist),
                feel(Feel::Sodden),
                lighter(1.0),
                lighter(2.0),
                drip(1.5),
                drip(3.0),
            ] {
                let (before, found, store) = before_and_after(deficit, spread, off, readings);
                let (mean, wide) = after(before.deficit, before.spread, &readings, &store, off);
                let what = format!("{deficit} ± {spread}, {off}, {readings:?}");
                let of_mean = tolerance(&readings, 1e-4, 0.03, 0.25);
                near(found.deficit, heeded(mean, &readings, &store, off), of_mean, &what);
                near(found.spread, wide, of_mean, &what);
            }
        }
    }
}

/// Close to its border neither of two feels surprises, and the logistic curve is good to half a hundredth of a litre.
#[wasm_bindgen_test(unsupported = test)]
fn a_feel_near_its_border_moves_the_count_as_bayes_says() {
    for spread in [0.1, 0.2, 0.3] {
        for (deficit, off, felt) in [
            (0.0, 0.11, Feel::Sodden),
            (0.0, 0.11, Feel::Moist),
            (0.0, 0.15, Feel::Sodden),
            (0.0, 0.15, Feel::Moist),
            (1.5, 0.0, Feel::Moist),
            (1.5, 0.0, Feel::Dry),
            (1.8, 0.0, Feel::Dry),
        ] {
            let (before, found, store) = before_and_after(deficit, spread, off, feel(felt));
            let (mean, wide) = after(before.deficit, before.spread, &feel(felt), &store, off);
            let what = format!("{deficit} ± {spread}, {off}, {felt:?}");
            near(found.deficit, heeded(mean, &feel(felt), &store, off), 0.005, &what);
            near(found.spread, wide, 0.005, &what);
        }
    }
}

/// Middle of the factor, spread of its logarithm and how far the borders lie off, after one reading of a deficit that was so many
/// days' use of `demand`, by Bayes' rule.
fn learnt(demand: f64, days: f64, variance: f64, readings: &Readings, store: &Store) -> (f64, f64, f64) {
    let end = 0.5 + 0.5 / 11.5 / 2.0;
    let (mut whole, mut first, mut off) = (0.0, 0.0, 0.0);
    let mut below = Vec::new();
    for number in 0..400 {
        let logarithm = -end + (f64::from(number) + 0.5) / 400.0 * 2.0 * end;
        let factor = logarithm.exp();
        let (mean, spread) = (days * demand * factor, demand * factor * (days * variance).sqrt());
        let mut here = 0.0;
        for (border, held) in [(-0.15, 0.25), (0.0, 0.5), (0.15, 0.25)] {
            let mut likely = ASTRAY * apart(readings, store, border, mean).0;
            for (deficit, width) in steps(mean - 6.0 * spread, mean + 6.0 * spread).step_by(40) {
                likely += (1.0 - ASTRAY) * normal(deficit, mean, spread) * likelihood(readings, store, border, deficit) * width * 40.0;
            }
            let weight = held * normal(logarithm, 0.0, 0.25) * likely;
            here += weight;
            off += weight * border;
        }
        whole += here;
        first += here * logarithm;
        below.push((logarithm, whole));
    }
    let quantile = |share: f64| {
        let place = below.iter().position(|(_, sum)| *sum >= share * whole).expect("a quantile");
        below[place].0
    };
    (
        (first / whole).exp(),
        (quantile(0.9) - quantile(0.1)) / 2.0 / 1.281_552,
        off / whole,
    )
}

#[wasm_bindgen_test(unsupported = test)]
fn a_reading_teaches_what_bayes_says() {
    for assumed_sky in [false, true] {
        for readings in [
            feel(Feel::Dry),
            feel(Feel::Moist),
            feel(Feel::Sodden),
            lighter(1.6),
            lighter(2.5),
            lighter(3.5),
            drip(1.8),
            drip(3.0),
        ] {
            let mut days = [told(2), told(1), DayRecord { readings, ..told(0) }];
            days[1].given = Some(0.0);
            days[2].weather = None;
            for day in &mut days[..2] {
                if assumed_sky {
                    // One reading of a thermometer says nothing of the sky.
                    day.weather = Some(Yesterday {
                        coolest: Some(14.0),
                        ..Yesterday::default()
                    });
                }
            }
            let season = worked_out(&days, None);
            let (factor, spread, off) = learnt(season.dose.demand.total(), 2.0, of_day(assumed_sky), &readings, &season.store);
            let what = format!("{readings:?}, sky assumed: {assumed_sky}");
            near(season.thirst.factor, factor, tolerance(&readings, 0.003, 0.003, 0.04), &what);
            near(season.thirst.spread, spread, tolerance(&readings, 0.003, 0.003, 0.02), &what);
            let found = season.handed.expect("a past").off;
            near(found, off, tolerance(&readings, 1e-9, 0.002, 0.02), &what);
            assert_eq!(season.thirst.readings, 1);
        }
    }
}

/// Whatever is read and for however long, the count stays a number: weights of two hundred surprising mornings would come to nothing.
#[wasm_bindgen_test(unsupported = test)]
fn two_hundred_mornings_that_surprise_still_leave_a_number() {
    let days: Vec<DayRecord> = (0..200)
        .map(|back| DayRecord {
            given: Some(2.0),
            readings: lighter(if back % 2 == 0 { 5.0 } else { 0.0 }),
            ..told(back)
        })
        .collect();
    let season = worked_out(&days, None);
    assert_eq!(season.thirst.readings, 200);
    assert!((0.6..=1.65).contains(&season.thirst.factor), "{:?}", season.thirst);
    assert!(season.thirst.spread > 0.0 && season.thirst.spread < 0.3, "{:?}", season.thirst);
    assert!(season.deficit > 3.0 && season.dose.per_plant.litres() > 3.0, "{:?}", season.deficit);
}

/// A border that nobody watered for two months is dry beyond doubt. Who finds it sodden all the same has flooded it: no water, and
/// nothing learnt that is no number, though the sum held it for impossible.
#[wasm_bindgen_test(unsupported = test)]
fn a_parched_border_that_is_found_sodden_gets_no_water() {
    let border = Group {
        container: Container::Border,
        ..group()
    };
    let mut days: Vec<DayRecord> = (1..=60)
        .map(|back| DayRecord {
            given: Some(0.0),
            ..told(back)
        })
        .collect();
    let morning = |days: &[DayRecord], learn_from: Option<CivilDay>| {
        let records = Records {
            days,
            learn_from,
            ..Records::new(&border)
        };
        season(&records, STANDARD_LATITUDE, today()).expect("a season")
    };
    let dry = morning(&days, None);
    assert_eq!((dry.dose.parts, dry.dose.rest.litres() > 1.0), (2, true), "{:?}", dry.dose);
    days.push(DayRecord {
        readings: feel(Feel::Sodden),
        ..told(0)
    });
    let season = morning(&days, None);
    let before = season.days.last().expect("sixty days").flows.end;
    assert!(before > 0.98 * season.store.all_water, "{before} of {:?}", season.store);
    assert!((0.6..=1.65).contains(&season.thirst.factor), "{:?}", season.thirst);
    assert!(season.deficit < 0.35 * season.store.easy_water, "{}", season.deficit);
    assert!(season.dose.hold_off && season.dose.per_plant.litres() <= 0.0 && season.dose.rest.litres() <= 0.0);
    // Found yesterday, when nothing was to be learnt from it, and felt again today, when something is.
    days[0].readings = feel(Feel::Sodden);
    days[60].readings = feel(Feel::Moist);
    let season = morning(&days, Some(today()));
    assert!((0.6..=1.65).contains(&season.thirst.factor), "{:?}", season.thirst);
    assert_eq!(season.thirst.readings, 1);
    // On the morning after it is as sure as any.
    let mut days = days[1..60].to_vec();
    days.push(DayRecord {
        given: Some(0.0),
        readings: feel(Feel::Sodden),
        ..told(1)
    });
    let handed = morning(&days, None).handed.expect("a past");
    assert!(handed.deficit.is_finite() && handed.spread.is_finite(), "{handed:?}");
}

/// What is open of a pour is open of the next morning: the variances add up.
#[wasm_bindgen_test(unsupported = test)]
fn the_doubt_about_a_pour_is_carried_to_the_next_morning() {
    let spread = |pour_spread: f64| {
        let handed = Handed {
            day: today().days_later(-2),
            deficit: 0.9,
            spread: 0.2,
            thirst: Thirst::default(),
            off: 0.0,
            given: 0.5,
            pour_spread,
            pours: 1,
            in_parts: false,
            stay: None,
        };
        worked_out(&[told(2), told(1)], Some(handed)).handed.expect("a past").spread
    };
    for open in [0.1, 0.4, 0.7] {
        near(spread(open).powi(2) - spread(0.0).powi(2), open * open, 1e-9, "variance");
    }
}
