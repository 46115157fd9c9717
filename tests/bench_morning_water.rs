//! How long one group's morning takes: `cargo bench`. The aims on an ordinary computer: at most 20 µs for a morning, 1 µs for one
//! day of the balance.

use divan::{Bencher, black_box};
use first_truss::almanac::{CivilDay, STANDARD_LATITUDE, Sky, Sun, Yesterday};
use first_truss::water::{DayRecord, DayWater, Exposure, Feel, Group, Place, PlantSize, Readings, Records, Store, morning_water, season};

fn main() {
    divan::main();
}

/// A plant under glass: Makkink's equation inside.
#[divan::bench]
fn under_glass(bencher: Bencher) {
    morning(bencher, Place::default());
}

/// A plant in the open: Penman-Monteith, and rain.
#[divan::bench]
fn outdoors(bencher: Bencher) {
    morning(bencher, Place::Outdoors { exposure: Exposure::Usual });
}

fn morning(bencher: Bencher, place: Place) {
    let size = PlantSize {
        height_metres: Some(1.2),
        trusses: Some(5.0),
    };
    let group = Group {
        count: 12,
        place,
        size,
        ..Group::default()
    };
    let yesterday = Yesterday {
        sun: Some(Sun::Word(Sky::Clear)),
        warmest: Some(27.0),
        coolest: Some(13.0),
        rain_millimetres: Some(4.0),
        ..Yesterday::default()
    };
    bencher.bench(|| {
        morning_water(
            black_box(&group),
            black_box(&yesterday),
            Some(Feel::Moist),
            STANDARD_LATITUDE,
            CivilDay::default(),
        )
    });
}

/// One day of the balance of one group, as dry as it gets: two pours, bypass, and loss from both parts of the store.
#[divan::bench]
fn day_of_balance(bencher: Bencher) {
    let store = Store {
        easy_water: 3.0,
        all_water: 3.96,
    };
    let water = DayWater {
        given: 0.5,
        pours: 2,
        rain: 0.1,
        demand: 1.5,
        ..DayWater::default()
    };
    bencher.bench(|| store.day(black_box(3.2), black_box(&water)));
}

/// A season of 150 days, felt on every second morning: balance, learning and today's dose.
#[divan::bench]
fn whole_season(bencher: Bencher) {
    let group = Group {
        count: 12,
        ..Group::default()
    };
    let first = CivilDay::default();
    let days: Vec<DayRecord> = (0..150)
        .map(|number| DayRecord {
            day: first.days_later(number),
            weather: Some(Yesterday {
                sun: Some(Sun::Word(if number % 3 == 0 { Sky::Clear } else { Sky::Dull })),
                ..Yesterday::default()
            }),
            given: Some(0.8),
            readings: Readings {
                feel: (number % 2 == 0).then_some(Feel::Moist),
                ..Readings::default()
            },
            ..DayRecord::default()
        })
        .collect();
    let records = Records {
        days: &days,
        ..Records::new(&group)
    };
    bencher.bench(|| season(black_box(&records), STANDARD_LATITUDE, first.days_later(150)));
}
