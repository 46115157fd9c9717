//! How long one group's morning takes: `cargo bench`. The aim is at most 20 µs on an ordinary computer.

use divan::{Bencher, black_box};
use first_truss::almanac::{CivilDay, STANDARD_LATITUDE, Sky, Sun, Yesterday};
use first_truss::water::{Exposure, Feel, Group, Place, PlantSize, morning_water};

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
