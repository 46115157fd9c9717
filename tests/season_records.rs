//! What a season makes of its records: gaps, looks at the plants, changes, days that nobody wrote down.

use first_truss::almanac::{CivilDay, STANDARD_LATITUDE, Sky, Sun, Yesterday};
use first_truss::water::{Container, DayRecord, Feel, Group, PlantSize, Readings, Records, Season, WaterError, season};
use wasm_bindgen_test::wasm_bindgen_test;

fn today() -> CivilDay {
    CivilDay::new(2026, 7, 20).expect("a day")
}

fn group() -> Group {
    Group {
        container: Container::Pot { litres: 12.0 },
        size: PlantSize {
            height_metres: Some(1.2),
            trusses: Some(5.0),
        },
        ..Group::default()
    }
}

/// A bright day so many days ago, felt moist, with a litre poured.
fn told(days_ago: i32) -> DayRecord {
    DayRecord {
        day: today().days_later(-days_ago),
        weather: Some(Yesterday {
            sun: Some(Sun::Word(Sky::Bright)),
            warmest: Some(24.0),
            coolest: Some(12.0),
            ..Yesterday::default()
        }),
        given: Some(1.0),
        readings: Readings {
            feel: Some(Feel::Moist),
            ..Readings::default()
        },
        ..DayRecord::default()
    }
}

fn worked_out(days: &[DayRecord]) -> Season {
    with(days, |_| {}).expect("a season")
}

fn with(days: &[DayRecord], change: impl FnOnce(&mut Records)) -> Result<Season, WaterError> {
    let group = group();
    let mut records = Records {
        days,
        ..Records::new(&group)
    };
    change(&mut records);
    season(&records, STANDARD_LATITUDE, today())
}

fn of(group: &Group, days: &[DayRecord]) -> Season {
    let records = Records {
        days,
        ..Records::new(group)
    };
    season(&records, STANDARD_LATITUDE, today()).expect("a season")
}

fn run(days_ago: std::ops::RangeInclusive<i32>) -> Vec<DayRecord> {
    days_ago.map(told).collect()
}

#[wasm_bindgen_test(unsupported = test)]
fn a_long_gap_begins_the_count_anew_but_keeps_what_was_learnt() {
    let days = [run(1..=5), run(26..=35)].concat();
    let season = worked_out(&days);
    assert_eq!(season.days.len(), 35, "what was noted before stays in sight");
    assert_eq!(season.thirst.readings, 15);
    let silent = &season.days[10..30];
    assert!(silent.iter().all(|row| row.assumed_pour && row.assumed_sky));
    for row in &silent[14..] {
        assert!((row.flows.given - row.demand).abs() < 1e-9, "an ordinary day: {row:?}");
    }
    let begun = &season.days[30];
    assert!((begun.flows.start + begun.corrected - begun.demand).abs() < 1e-9, "{begun:?}");
    // A short one is filled with days of which nothing is known.
    let season = worked_out(&[run(1..=5), run(9..=12)].concat());
    assert_eq!(season.days.len(), 12);
    let silent = season.days.iter().filter(|row| row.assumed_pour).count();
    assert_eq!(silent, 3);
    assert!(
        season
            .days
            .iter()
            .filter(|row| row.assumed_pour)
            .all(|row| row.assumed_sky && row.flows.given <= 0.0)
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn another_season_or_other_plants_teach_nothing() {
    assert_eq!(worked_out(&[run(1..=5), run(120..=130)].concat()).thirst.readings, 5);
    let young = Group {
        planted: Some(today().days_later(-9)),
        ..group()
    };
    let replanted = of(&young, &run(1..=20));
    // The day before planting ends on the morning of planting.
    assert_eq!((replanted.thirst.readings, replanted.days.len()), (10, 10));
}

#[wasm_bindgen_test(unsupported = test)]
fn what_was_learnt_can_be_put_back() {
    let days = run(1..=20);
    assert_eq!(worked_out(&days).thirst.readings, 20);
    let put_back = with(&days, |records| records.learn_from = Some(today())).expect("a season");
    assert_eq!((put_back.thirst.readings, put_back.thirst.factor.to_bits()), (0, 1.0_f64.to_bits()));
    let since = with(&days, |records| records.learn_from = Some(today().days_later(-3))).expect("a season");
    assert_eq!(since.thirst.readings, 3);
}

#[wasm_bindgen_test(unsupported = test)]
fn plants_grow_from_the_day_they_were_looked_at_both_ways() {
    let days = run(1..=30);
    let looked = |days_ago: i32| with(&days, |records| records.looked = Some(today().days_later(-days_ago))).expect("a season");
    let (now, then, never) = (looked(0), looked(15), worked_out(&days));
    let height = |season: &Season| -> f64 { season.size.height_metres.expect("a height") };
    assert!(!now.size_estimated && then.size_estimated && !never.size_estimated);
    assert!((height(&now) - 1.2).abs() < 1e-9 && (height(&never) - 1.2).abs() < 1e-9);
    assert!((1.5..1.8).contains(&height(&then)), "{}", height(&then));
    let trusses: Vec<f64> = now.days.iter().map(|row| row.trusses).collect();
    assert!(trusses.windows(2).all(|pair| pair[0] < pair[1]), "{trusses:?}");
    assert!((4.8..=5.2).contains(&trusses[29]), "{trusses:?}");
    let stopped = with(&days, |records| {
        records.looked = Some(today().days_later(-15));
        records.stopped_at = Some(1.3);
    });
    assert!((height(&stopped.expect("a season")) - 1.3).abs() < 1e-9);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_sudden_change_holds_from_its_morning_on() {
    let mut days = run(1..=10);
    days[3].before = Some(group().placement());
    let large = Group {
        container: Container::Pot { litres: 20.0 },
        ..group()
    };
    let season = of(&large, &days);
    let stores: Vec<f64> = season.days.iter().map(|row| row.store.easy_water).collect();
    // The store of a day is that of the morning after it, on which the dose for it is worked out.
    let (small, large) = (stores[0], stores[9]);
    assert!(large > 1.3 * small, "{stores:?}");
    for (number, store) in stores.iter().enumerate() {
        let wanted = if number < 6 { small } else { large };
        assert!((store - wanted).abs() < 0.01 * wanted, "{number}: {stores:?}");
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn silence_about_pours_means_as_advised_until_one_is_noted() {
    let mut days = run(1..=10);
    for (number, record) in days.iter_mut().enumerate() {
        // The first pour is noted five days ago, and no other.
        record.given = (number == 4).then_some(1.0);
    }
    let season = worked_out(&days);
    let given: Vec<f64> = season.days.iter().map(|row| row.flows.given).collect();
    assert!(given[..5].iter().all(|&litres| litres > 0.3), "{given:?}");
    assert!(
        (given[5] - 1.0).abs() < 1e-9 && given[6..].iter().all(|&litres| litres <= 0.0),
        "{given:?}"
    );
    assert!(
        season
            .days
            .iter()
            .enumerate()
            .all(|(number, row)| row.assumed_pour == (number != 5))
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn a_past_day_that_cannot_be_counts_as_not_told_and_yesterday_is_an_error() {
    let wrong = Yesterday {
        warmest: Some(10.0),
        coolest: Some(20.0),
        ..Yesterday::default()
    };
    let mut days = run(1..=6);
    days[3].weather = Some(wrong);
    let season = worked_out(&days);
    assert_eq!(season.days.len(), 6);
    assert!(season.days[2].assumed_sky && !season.days[1].assumed_sky);
    days[0].weather = Some(wrong);
    assert!(matches!(with(&days, |_| {}), Err(WaterError::Weather(_))));
}

#[wasm_bindgen_test(unsupported = test)]
fn the_count_begins_after_planting() {
    let days = run(1..=20);
    let planted = Group {
        planted: Some(today().days_later(-8)),
        ..group()
    };
    let records = Records {
        days: &days,
        ..Records::new(&planted)
    };
    let season = season(&records, STANDARD_LATITUDE, today()).expect("a season");
    assert!((8..=9).contains(&season.days.len()), "{}", season.days.len());
    assert!(season.days.windows(2).all(|pair| pair[0].store.all_water < pair[1].store.all_water));
}
