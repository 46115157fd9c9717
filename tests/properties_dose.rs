//! Properties of the dose that hold for every grower, day and place, tried on random ones.

use first_truss::almanac::{Latitude, Sky, Sun, Yesterday, sunshine_from_clearness};
use first_truss::quantity::{Measure, Volume};
use first_truss::water::{Advice, Container, Feel, Group, Leafiness, PlantSize};
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;

use crate::measures::{ALL_UNITS, check_there_and_back};
use crate::random_mornings::{
    Morning, any_cover, any_day, any_morning, any_outdoors, any_thermometer, civil_day, growing_morning, latitude_within,
};

/// Slack for rounding, litres.
const ROUNDING: f64 = 1e-9;
/// A step so small that no input shows it, as a share of the input's range.
const SMALL_STEP: f64 = 1e-9;
/// What a dose may move over such a step, litres: a millilitre, well below anything poured.
const SMALL_CHANGE: f64 = 1e-3;

/// What must hold of any answer and of any refusal.
fn check_sound(morning: &Morning) {
    let dose = match morning.dose() {
        Ok(dose) => dose,
        Err(error) => {
            for units in ALL_UNITS {
                let sentence = error.sentence(units);
                assert!(
                    sentence.ends_with('.') && sentence.starts_with(char::is_uppercase),
                    "not a sentence: {sentence}"
                );
            }
            return;
        }
    };
    let [litres, low, high] = [dose.per_plant, dose.low, dose.high].map(Volume::litres);
    assert!(
        low >= 0.0 && low <= litres && litres <= high && high.is_finite(),
        "{low} ≤ {litres} ≤ {high}"
    );
    assert!((1..=3).contains(&dose.waterings) && (1..=3).contains(&dose.parts));
    assert!(
        dose.rooted >= 0.0 && dose.rooted <= 1.0 + ROUNDING,
        "{} of the compost is rooted",
        dose.rooted
    );
    assert!(dose.rain >= 0.0 && dose.rain.is_finite());
    let zone = dose.root_zone;
    let held = litres * (1.0 - zone.drained) / f64::from(dose.waterings);
    assert!(
        held <= zone.all_water + ROUNDING && held <= zone.easy_water + ROUNDING,
        "{held} litres at once, but the roots reach {} of easy water and {} in all",
        zone.easy_water,
        zone.all_water
    );
    for used in [
        dose.demand.transpiration,
        dose.demand.evaporation,
        dose.demand.growth,
        dose.demand.reference,
    ] {
        assert!(used >= 0.0 && used.is_finite(), "{:?}", dose.demand);
    }
    for step in dose.working.steps() {
        assert!(step.result.amount.is_finite(), "{step:?}");
        assert!(step.values.iter().all(|value| value.amount.is_finite()), "{step:?}");
    }
    let advice = dose.advice(&morning.group);
    assert!(advice.len() <= 5);
    if morning.feel == Some(Feel::Sodden) {
        assert!(
            high <= 0.0 && dose.hold_off && advice.first() == Some(&Advice::HoldOff),
            "{advice:?}"
        );
    } else {
        assert!(!dose.hold_off && !advice.contains(&Advice::HoldOff));
    }
    for units in ALL_UNITS {
        for volume in [dose.per_plant, dose.low, dose.high] {
            check_measure(volume, units);
        }
    }
}

/// More than nothing never prints as nothing, and what prints is within a step of what was worked out.
fn check_measure(volume: Volume, units: first_truss::quantity::Units) {
    let measure = Measure::dose(volume, units);
    assert_eq!(
        volume.litres() > 0.0,
        measure.figure != "0",
        "{volume:?} prints “{}”",
        measure.figure
    );
    assert_eq!(
        volume.litres() > 0.0,
        !measure.twin.starts_with("0 "),
        "{volume:?}: {}",
        measure.twin
    );
    let departure = (measure.volume.litres() - volume.litres()).abs();
    let smallest = volume.litres() > 0.0 && measure.volume.litres() <= 0.01 + ROUNDING;
    assert!(
        departure <= 0.071_04 || smallest,
        "{volume:?} prints as {:?}, more than half a quarter pint away",
        measure.volume
    );
}

/// The answers of two mornings, the second of which must not be smaller.
#[track_caller]
fn check_rises(before: &Morning, after: &Morning) {
    let (Some(less), Some(more)) = (before.litres(), after.litres()) else {
        panic!("no answer: {:?}, {:?}", before.dose().err(), after.dose().err());
    };
    assert!(more >= less - ROUNDING, "{less} litres, then {more}: {before:?}");
}

/// The answers of two mornings that differ by nothing one could see.
#[track_caller]
fn check_near(before: &Morning, after: &Morning) {
    match (before.litres(), after.litres()) {
        (Some(one), Some(other)) => assert!((one - other).abs() <= SMALL_CHANGE, "{one} litres, then {other}: {before:?}"),
        (one, other) => panic!("an answer is missing: {one:?}, {other:?}: {before:?}"),
    }
}

#[test]
fn every_place_and_day_has_a_dose_or_a_sentence() {
    let first = civil_day(2024, 1, 1).expect("a day");
    let last = civil_day(2025, 12, 31).expect("a day");
    let (mut answered, mut sunless) = (0, 0);
    for half_degrees in -180..=180 {
        let latitude = Latitude::from_degrees_north(f64::from(half_degrees) / 2.0).expect("a latitude");
        let mut morning = Morning {
            group: Group::default(),
            yesterday: Yesterday::default(),
            feel: None,
            latitude,
            today: first,
        };
        while morning.today <= last {
            match morning.dose() {
                Ok(dose) => {
                    answered += 1;
                    assert!(dose.per_plant.litres() > 0.0 && dose.high.litres().is_finite(), "{morning:?}");
                }
                Err(error) => {
                    sunless += 1;
                    assert!(latitude.degrees_north().abs() > 60.0, "{morning:?}: {error}");
                    let side = if latitude.is_southern() { "south" } else { "north" };
                    let sentence = error.to_string();
                    assert!(
                        sentence.contains(side)
                            && sentence.ends_with(
                                "the sun hardly rises at this time of year: a tomato drinks next to nothing, so feel the compost instead."
                            ),
                        "{sentence}"
                    );
                }
            }
            morning.today = morning.today.tomorrow();
        }
    }
    assert_eq!(answered + sunless, 361 * 731);
    assert!(answered > 200_000 && sunless > 5_000, "{answered} answered, {sunless} without sun");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_morning_has_a_sound_dose_or_a_sentence(morning in any_morning()) {
        check_sound(&morning);
    }

    #[test]
    fn a_growing_morning_always_has_a_sound_dose(morning in growing_morning(prop_oneof![any_cover(), any_outdoors()])) {
        prop_assert!(morning.dose().is_ok(), "{:?}", morning.dose().err());
        check_sound(&morning);
    }

    #[test]
    fn sodden_compost_gets_nothing(morning in growing_morning(prop_oneof![any_cover(), any_outdoors()])) {
        let sodden = morning.with(|morning| morning.feel = Some(Feel::Sodden));
        prop_assert_eq!(sodden.litres(), Some(0.0));
        check_sound(&sodden);
    }

    #[test]
    fn dry_compost_gets_no_less_than_moist(morning in growing_morning(prop_oneof![any_cover(), any_outdoors()])) {
        check_rises(
            &morning.with(|morning| morning.feel = Some(Feel::Moist)),
            &morning.with(|morning| morning.feel = Some(Feel::Dry)),
        );
    }

    #[test]
    fn more_sun_takes_no_less_water(
        morning in growing_morning(prop_oneof![any_cover(), any_outdoors()]),
        // From drier air a clear sky takes more by long waves than the sun brings, where it is just high enough to count.
        humidity in option::of(30.0..=100.0_f64),
        share in 0.0..=1.0_f64,
    ) {
        prop_assume!(morning.gains_by_sun());
        let morning = morning.with(|morning| morning.yesterday.humidity_percent = humidity);
        let daylight = morning.daylight();
        let Some(Sun::Hours(hours)) = morning.yesterday.sun else { unreachable!("hours by construction") };
        let brighter = morning.with(|morning| {
            morning.yesterday.sun = Some(Sun::Hours((hours + share * (daylight - hours)).min(daylight)));
        });
        check_rises(&morning, &brighter);
    }

    #[test]
    fn a_better_word_takes_no_less_water(morning in growing_morning(prop_oneof![any_cover(), any_outdoors()])) {
        prop_assume!(morning.gains_by_sun());
        for pair in Sky::ALL.windows(2) {
            let told = |sky: Sky| morning.with(|morning| morning.yesterday.sun = Some(Sun::Word(sky)));
            if let [brighter, duller] = pair {
                check_rises(&told(*duller), &told(*brighter));
            }
        }
    }

    #[test]
    fn more_warmth_takes_no_less_water(
        morning in growing_morning(prop_oneof![any_cover(), any_outdoors()]),
        humidity in option::of(20.0..=100.0_f64),
        warmer in 0.0..=15.0_f64,
    ) {
        let morning = morning.with(|morning| morning.yesterday.humidity_percent = humidity);
        check_rises(
            &morning,
            &morning.with(|morning| morning.yesterday.warmest = morning.yesterday.warmest.map(|warmest| warmest + warmer)),
        );
    }

    #[test]
    fn more_warmth_under_cover_takes_no_less_water_anywhere(
        morning in growing_morning(any_cover()),
        latitude in latitude_within(-60.0..=60.0),
        today in any_day(),
        sky in select(Sky::ALL.to_vec()),
        coolest in -30.0..=40.0_f64,
        range in 0.0..=20.0_f64,
        warmer in 0.0..=20.0_f64,
    ) {
        let told = |warmest: f64| morning.with(|morning| {
            (morning.latitude, morning.today) = (latitude, today);
            morning.yesterday.sun = Some(Sun::Word(sky));
            (morning.yesterday.warmest, morning.yesterday.coolest) = (Some(warmest.min(60.0)), Some(coolest));
        });
        check_rises(&told(coolest + range), &told(coolest + range + warmer));
    }

    #[test]
    fn more_ground_takes_no_less_water(
        morning in growing_morning(prop_oneof![any_cover(), any_outdoors()]),
        more in 1.0..=4.0_f64,
    ) {
        check_rises(
            &morning,
            &morning.with(|morning| morning.group.ground = morning.group.ground.map(|ground| (ground * more).min(0.8))),
        );
    }

    /// Height and leaves only: the open wet surface is never more than the ground, below 1.3 times which this must hold.
    #[test]
    fn a_bigger_plant_under_cover_takes_no_less_water(
        morning in growing_morning(any_cover()),
        taller in 0.0..=1.3_f64,
    ) {
        let taller = morning.with(|morning| {
            morning.group.size.height_metres = morning.group.size.height_metres.map(|height| height + taller);
        });
        check_rises(&morning, &taller);
        let leafy = |leafiness| morning.with(|morning| morning.group.leafiness = leafiness);
        check_rises(&leafy(Leafiness::Sparse), &leafy(Leafiness::Usual));
        check_rises(&leafy(Leafiness::Usual), &leafy(Leafiness::Bushy));
    }

    /// From 1.8 m on the leaves grow no more, whatever the air.
    #[test]
    fn a_taller_plant_outdoors_takes_no_less_water(
        morning in growing_morning(any_outdoors()),
        height in 1.8..=4.0_f64,
        taller in 0.0..=2.2_f64,
        humidity in option::of(1.0..=100.0_f64),
    ) {
        let tall = |height: f64| morning.with(|morning| {
            morning.yesterday.humidity_percent = humidity;
            morning.group.size.height_metres = Some(height.min(4.0));
        });
        check_rises(&tall(height), &tall(height + taller));
    }

    /// With humidity read the leaves gain less light than open compost loses, so the surface has to be smaller: the share of
    /// the radiation is 0.364 for leaves and at most 0.65 for compost.
    #[test]
    fn a_bigger_plant_in_a_pot_takes_no_less_water_when_humidity_is_read(
        morning in growing_morning(any_cover()),
        taller in 0.0..=1.3_f64,
        humidity in 1.0..=100.0_f64,
    ) {
        let morning = morning.with(|morning| morning.yesterday.humidity_percent = Some(humidity));
        let dose = morning.dose().expect("a possible day");
        prop_assume!(dose.root_zone.wet_surface <= 0.56 * morning.group.ground_for_each());
        check_rises(&morning, &morning.with(|morning| {
            morning.group.size.height_metres = morning.group.size.height_metres.map(|height| height + taller);
        }));
    }

    #[test]
    fn more_trusses_take_no_less_water(
        morning in growing_morning(prop_oneof![any_cover(), any_outdoors()]),
        trusses in 0.0..=12.0_f64,
        more in 0.0..=8.0_f64,
    ) {
        let bearing = |trusses: f64| morning.with(|morning| morning.group.size.trusses = Some(trusses));
        check_rises(&bearing(trusses), &bearing(trusses + more));
    }

    #[test]
    fn rain_saves_water_outdoors_and_none_under_cover(
        morning in growing_morning(prop_oneof![any_cover(), any_outdoors()]),
        rain in 0.0..=30.0_f64,
        more in 0.0..=30.0_f64,
    ) {
        let rained = |rain: f64| morning.with(|morning| morning.yesterday.rain_millimetres = Some(rain));
        check_rises(&rained(rain + more), &rained(rain));
        if !morning.group.place.is_outdoors() {
            prop_assert_eq!(rained(rain).litres(), rained(0.0).litres());
        }
    }

    #[test]
    fn words_and_the_hours_they_stand_for_give_one_dose(
        morning in growing_morning(prop_oneof![any_cover(), any_outdoors()]),
    ) {
        // "Dark" lies below what hours can say and has no twin.
        for sky in [Sky::Clear, Sky::Bright, Sky::Mixed, Sky::Dull] {
            let hours = (sky.clearness() - 0.25) / 0.5 * morning.daylight();
            prop_assert!((sunshine_from_clearness(sky.clearness()) * morning.daylight() - hours).abs() < ROUNDING);
            let told = |sun| morning.with(|morning| morning.yesterday.sun = Some(sun)).dose().expect("a possible day");
            let (word, measured) = (told(Sun::Word(sky)), told(Sun::Hours(hours)));
            for (one, other) in [
                (word.per_plant, measured.per_plant),
                (word.low, measured.low),
                (word.high, measured.high),
            ] {
                prop_assert!((one.litres() - other.litres()).abs() < ROUNDING, "{sky:?}: {one:?}, {other:?}");
            }
        }
    }

    #[test]
    fn the_dose_has_no_jump_in_the_weather(
        morning in growing_morning(prop_oneof![any_cover(), any_outdoors()]),
        thermometer in any_thermometer(),
        humidity in 1.0..=99.0_f64,
        wind in 0.0..=8.0_f64,
        rain in 0.0..=60.0_f64,
        by_hours in any::<bool>(),
    ) {
        let morning = morning.with(|morning| {
            morning.yesterday.thermometer = thermometer;
            if !by_hours {
                morning.yesterday.sun = None;
            }
        });
        let with = |change: fn(&mut Yesterday, f64), value: f64| morning.with(|morning| change(&mut morning.yesterday, value));
        let near = |change: fn(&mut Yesterday, f64), value: f64, range: f64| {
            check_near(&with(change, value), &with(change, value + SMALL_STEP * range));
        };
        near(|yesterday, by| yesterday.warmest = yesterday.warmest.map(|warmest| warmest + by), 0.0, 90.0);
        near(|yesterday, by| yesterday.coolest = yesterday.coolest.map(|coolest| coolest - by), 0.0, 90.0);
        near(|yesterday, humidity| yesterday.humidity_percent = Some(humidity), humidity, 99.0);
        near(|yesterday, wind| yesterday.wind_metres_per_second = Some(wind), wind, 40.0);
        near(|yesterday, rain| yesterday.rain_millimetres = Some(rain), rain, 500.0);
        let daylight = morning.daylight();
        let hours = humidity / 100.0 * daylight;
        near(|yesterday, hours| yesterday.sun = Some(Sun::Hours(hours)), hours, daylight);
    }

    #[test]
    fn the_dose_has_no_jump_in_the_plant_and_its_container(
        morning in growing_morning(prop_oneof![any_cover(), any_outdoors()]),
        litres in 5.0..=199.0_f64,
        trusses in 0.0..=19.0_f64,
    ) {
        let near = |change: fn(&mut Group, f64), value: f64, range: f64| {
            let with = |value: f64| morning.with(|morning| change(&mut morning.group, value));
            check_near(&with(value), &with(value + SMALL_STEP * range));
        };
        let (height, ground) = (morning.group.size.height_metres.unwrap_or(1.0), morning.group.ground_for_each());
        near(|group, height| group.size.height_metres = Some(height), height, 4.0);
        near(|group, trusses| group.size.trusses = Some(trusses), trusses, 20.0);
        near(|group, ground| group.ground = Some(ground), ground.min(0.79), 0.8);
        near(|group, litres| group.container = Container::GrowBag { litres, plants: 2 }, litres, 200.0);
        near(|group, litres| group.container = Container::Pot { litres }, litres, 500.0);
        near(|group, litres| group.container = Container::Basket { litres }, litres, 500.0);
    }

    /// The points where a formula changes its form: the full height, the tallest reference depth, no sun and full sun.
    #[test]
    fn the_dose_has_no_jump_where_a_formula_changes_its_form(
        morning in growing_morning(prop_oneof![any_cover(), any_outdoors()]),
    ) {
        let around = |change: fn(&mut Morning, f64), value: f64| {
            let with = |value: f64| morning.with(|morning| change(morning, value));
            check_near(&with(value - SMALL_STEP), &with(value));
            check_near(&with(value), &with(value + SMALL_STEP));
        };
        for height in [0.3, 0.5, 1.8] {
            around(|morning, height| morning.group.size = PlantSize { height_metres: Some(height), trusses: None }, height);
        }
        around(|morning, trusses| morning.group.size.trusses = Some(trusses), 5.0);
        for rain in [0.2, 0.5, 1.0] {
            around(|morning, rain| morning.yesterday.rain_millimetres = Some(rain), rain);
        }
        around(|morning, wind| morning.yesterday.wind_metres_per_second = Some(wind), 0.5);
        around(|morning, wind| morning.yesterday.wind_metres_per_second = Some(wind), 6.0);
        let daylight = morning.daylight();
        let told = |hours: f64| morning.with(|morning| morning.yesterday.sun = Some(Sun::Hours(hours)));
        check_near(&told(0.0), &told(SMALL_STEP));
        check_near(&told(daylight - SMALL_STEP), &told(daylight));
        check_near(&told(0.34 * daylight), &told(0.34 * daylight + SMALL_STEP));
    }

    #[test]
    fn more_than_nothing_never_prints_as_nothing(litres in prop_oneof![0.0..=20.0_f64, 0.0..=0.6_f64, 1e-300..=1e-3_f64]) {
        for units in ALL_UNITS {
            check_measure(Volume::from_litres(litres), units);
        }
    }

    #[test]
    fn units_come_back_as_they_went_for_any_number(number in prop_oneof![-1e3..=1e3_f64, -1e9..=1e9_f64]) {
        check_there_and_back(number);
    }
}
