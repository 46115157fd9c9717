//! Every sentence that says why there is no dose, no day or no notebook, word for word.

use first_truss::almanac::{CivilDay, Latitude, Sky, Sun, Thermometer, Yesterday};
use first_truss::notebook::{GroupRecord, OpenError};
use first_truss::quantity::{TemperatureScale, UnitSystem, Units};
use first_truss::water::{Container, Group, PlantSize, morning_water};
use wasm_bindgen_test::wasm_bindgen_test;

const IMPERIAL: Units = Units {
    system: UnitSystem::Imperial,
    temperature: TemperatureScale::Celsius,
};
const US: Units = Units {
    system: UnitSystem::Us,
    temperature: TemperatureScale::Fahrenheit,
};

fn day(text: &str) -> CivilDay {
    text.parse().expect("a day")
}

fn latitude(degrees_north: f64) -> Latitude {
    Latitude::from_degrees_north(degrees_north).expect("a latitude")
}

/// Morning water for a usual group after a July day, with one thing about it changed.
#[track_caller]
fn check_water_error(units: Units, change: impl FnOnce(&mut Group, &mut Yesterday), sentence: &str) {
    let (mut group, mut yesterday) = (Group::default(), Yesterday::default());
    change(&mut group, &mut yesterday);
    let error = morning_water(&group, &yesterday, None, latitude(52.0), day("2026-07-16")).expect_err(sentence);
    assert_eq!(error.sentence(units), sentence);
    if units == Units::default() {
        assert_eq!(error.to_string(), sentence);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_day_that_cannot_have_been_so_is_named() {
    let range = |warmest: f64, coolest: f64| {
        move |_: &mut Group, yesterday: &mut Yesterday| {
            (yesterday.warmest, yesterday.coolest) = (Some(warmest), Some(coolest));
        }
    };
    check_water_error(
        IMPERIAL,
        range(10.0, 20.0),
        "Coolest 20 °C is above warmest 10 °C: check which is which.",
    );
    check_water_error(US, range(10.0, 20.0), "Coolest 68 °F is above warmest 50 °F: check which is which.");
    check_water_error(IMPERIAL, range(99.0, 10.0), "A reading can be −30 to 60 °C: 99 °C cannot be right.");
    let sun = |hours: f64| move |_: &mut Group, yesterday: &mut Yesterday| yesterday.sun = Some(Sun::Hours(hours));
    check_water_error(
        IMPERIAL,
        sun(17.0),
        "Yesterday had 16 hours from sunrise to sunset: 17 hours of sun cannot be right.",
    );
    check_water_error(
        IMPERIAL,
        sun(-1.0),
        "Yesterday had 16 hours from sunrise to sunset: −1 hours of sun cannot be right.",
    );
    check_water_error(
        IMPERIAL,
        |_, yesterday| yesterday.rain_millimetres = Some(600.0),
        "Rain can be 0 to 500 mm: 600 mm cannot be right.",
    );
    check_water_error(
        IMPERIAL,
        |_, yesterday| yesterday.humidity_percent = Some(101.0),
        "Humidity can be 1 to 100 %: 101 % cannot be right.",
    );
    check_water_error(
        IMPERIAL,
        |_, yesterday| yesterday.wind_metres_per_second = Some(-0.5),
        "Wind can be 0 to 40 m/s: −0.5 m/s cannot be right.",
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn a_group_that_cannot_be_is_named() {
    check_water_error(
        IMPERIAL,
        |group, _| {
            group.size = PlantSize {
                height_metres: Some(4.5),
                trusses: None,
            };
        },
        "Height can be 0 to 4 m: 4.5 m cannot be right.",
    );
    check_water_error(
        IMPERIAL,
        |group, _| group.size.trusses = Some(-1.0),
        "Trusses set can be 0 to 20: −1 cannot be right.",
    );
    check_water_error(
        IMPERIAL,
        |group, _| group.count = 1000,
        "Plants can be 0 to 999: 1000 cannot be right.",
    );
    check_water_error(
        IMPERIAL,
        |group, _| group.ground = Some(0.0),
        "Ground for a plant can be 0.05 to 0.8 m²: 0 m² cannot be right.",
    );
    check_water_error(
        IMPERIAL,
        |group, _| group.container = Container::GrowBag { litres: 1.0, plants: 2 },
        "Grow-bag size can be 5 to 200 litres: 1 litre cannot be right.",
    );
    check_water_error(
        IMPERIAL,
        |group, _| group.container = Container::Pot { litres: 0.0 },
        "Pot size can be 0.2 to 500 litres: 0 litres cannot be right.",
    );
    check_water_error(
        IMPERIAL,
        |group, _| group.planted = Some(day("2026-07-17")),
        "Planted on Fri 17 July is still to come: give a day up to today.",
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn a_place_without_sun_says_so() {
    for (degrees_north, on, words) in [(75.0, "2026-12-22", "75° north"), (-80.5, "2026-06-22", "80.5° south")] {
        let error = morning_water(&Group::default(), &Yesterday::default(), None, latitude(degrees_north), day(on));
        assert_eq!(
            error.map_err(|error| error.to_string()).err(),
            Some(format!(
                "At {words} the sun hardly rises at this time of year: a tomato drinks next to nothing, so feel the compost instead."
            ))
        );
    }
    for degrees in [90.5, -91.0, f64::INFINITY] {
        assert!(Latitude::from_degrees_north(degrees).is_err());
    }
    assert_eq!(
        Latitude::from_degrees_north(91.0).map_err(|error| error.to_string()),
        Err("Latitude can be −90 to 90°: 91° cannot be right.".to_owned())
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn a_stored_notebook_that_cannot_be_opened_says_why() {
    assert_eq!(
        OpenError::Damaged.to_string(),
        "The notebook on this device is damaged and cannot be read. It was set aside; nothing was thrown away."
    );
    assert_eq!(
        OpenError::Newer { version: 7 }.to_string(),
        "The notebook on this device was written by a newer First Truss than this one. It was set aside; nothing was thrown away."
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn a_planting_day_is_read_or_refused_in_words() {
    let today = day("2026-07-16");
    let mut record = GroupRecord::default();
    for (typed, planted, error) in [
        ("2026-05-20", Some("2026-05-20"), None),
        ("abc", Some("2026-05-20"), Some("“abc” is not a day: write it as 9 July 2026.")),
        (
            "2026-02-29",
            Some("2026-05-20"),
            Some("“2026-02-29” is not a day: write it as 9 July 2026."),
        ),
        (
            "20/5/2026",
            Some("2026-05-20"),
            Some("“20/5/2026” is not a day: write it as 9 July 2026."),
        ),
        (
            "20 May",
            Some("2026-05-20"),
            Some("“20 May” is not a day: write it as 9 July 2026."),
        ),
        (" 21 may 2026 ", Some("2026-05-21"), None),
        ("2024-02-29", Some("2024-02-29"), None),
        ("2026-07-16", Some("2026-07-16"), None),
        (
            "2026-07-17",
            Some("2026-07-17"),
            Some("That day is still to come: give a day up to today."),
        ),
        (" ", None, None),
    ] {
        record.type_planted(typed);
        assert_eq!(record.planted_text, typed);
        assert_eq!(record.planted, planted.map(day), "“{typed}”");
        assert_eq!(record.planted_error(today).as_deref(), error, "“{typed}”");
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn days_are_read_printed_and_spoken() {
    for (text, spoken) in [
        ("2026-07-09", "Thu 9 July"),
        ("2024-02-29", "Thu 29 February"),
        ("2025-12-31", "Wed 31 December"),
        ("2000-01-01", "Sat 1 January"),
    ] {
        assert_eq!((day(text).to_string(), day(text).spoken()), (text.to_owned(), spoken.to_owned()));
    }
    for (text, means) in [
        ("9 July 2026", "2026-07-09"),
        ("31 aug 2026", "2026-08-31"),
        ("1 Sept 2026", "2026-09-01"),
        ("July 9 2026", "2026-07-09"),
        ("MAY 9, 2026", "2026-05-09"),
        ("29 February 2024", "2024-02-29"),
        ("1 December 9998", "9998-12-01"),
        ("9 July, 2026", "2026-07-09"),
        ("9, July 2026", "2026-07-09"),
        ("9th of July  2026", "2026-07-09"),
        ("1st of Sept 2026", "2026-09-01"),
        ("2ND OF MAY 2026", "2026-05-02"),
        ("May 3rd, 2026", "2026-05-03"),
    ] {
        assert_eq!(day(text), day(means), "{text}");
    }
    for month in 1..=12_i8 {
        let first = CivilDay::new(2026, month, 1).expect("a day");
        let name = first.month_name();
        for letters in [3, name.len()] {
            assert_eq!(day(&format!("1 {} 2026", &name[..letters])), first);
        }
        let longer = format!("1 {name}s 2026");
        assert!(longer.parse::<CivilDay>().is_err(), "{longer}");
    }
    for text in [
        "",
        "31 August",
        "Au 31 2026",
        "9 7 2026",
        "July 2026",
        "9 July 2026 5",
        "9t July 2026",
        "9thst July 2026",
        "th July 2026",
        "9 July 2026th",
        "2026-07-9th",
        "2026-of-07-09",
        "2026--07-09",
        "2026-07-09,",
        "31 June 2026",
        "9 July 26",
        "26-07-09",
        "300-July 2026",
        "300 July 2026",
        "July July 2026",
        "9-July-2026",
        "2026",
        "2026-13-01",
        "2026-00-10",
        "2025-02-29",
        "0000-01-01",
        "9999-12-31",
        "2026-07-09T00",
        "−1-01-01",
    ] {
        assert_eq!(
            text.parse::<CivilDay>().map_err(|error| error.to_string()),
            Err(format!("“{text}” is not a day: write it as 9 July 2026."))
        );
    }
    assert_eq!(day("2025-03-01").yesterday(), day("2025-02-28"));
    assert_eq!(day("2024-03-01").yesterday(), day("2024-02-29"));
    assert_eq!(day("2026-01-01").yesterday(), day("2025-12-31"));
    assert_eq!(day("2024-12-31").day_of_year(), 366);
    assert_eq!(day("2026-07-09").days_since(day("2024-02-28")), 862);
}

#[wasm_bindgen_test(unsupported = test)]
fn an_inside_reading_is_not_taken_for_the_sky() {
    let at = |thermometer| {
        let yesterday = Yesterday {
            warmest: Some(30.0),
            coolest: Some(10.0),
            thermometer,
            ..Yesterday::default()
        };
        yesterday.at(latitude(52.0), day("2026-07-15")).expect("a possible day").clearness
    };
    let assumed = Sky::Mixed.clearness();
    assert!((at(Thermometer::Inside) - assumed).abs() < f64::EPSILON);
    assert!(at(Thermometer::Outside) > 0.7);
}
