//! Days, skies and temperatures: the calendar's own facts, and what is filled in where nothing was read.

use first_truss::almanac::{
    CivilDay, DISTRICTS, INSIDE_WARMER_BY_DAY, INSIDE_WARMER_BY_NIGHT, Latitude, STANDARD_LATITUDE, Siting, Sky, Sun, Thermometer,
    WeatherError, Yesterday, clear_sky_radiation, clearness_from_temperature_range, monthly_soil_heat_flux_to_date, net_longwave,
    usual_temperatures,
};
use first_truss::quantity::Units;
use wasm_bindgen_test::wasm_bindgen_test;

const EXACT: f64 = 1e-9;

fn day(year: i16, month: i8, day: i8) -> CivilDay {
    CivilDay::new(year, month, day).expect("a day")
}

fn latitude(degrees_north: f64) -> Latitude {
    Latitude::from_degrees_north(degrees_north).expect("a latitude")
}

#[track_caller]
fn check_near(found: f64, expected: f64) {
    assert!((found - expected).abs() < EXACT, "{found} is not {expected}");
}

/// The Gregorian calendar of 1582 (Inter gravissimas): every fourth year is a leap year, of the hundredth years every fourth.
#[wasm_bindgen_test(unsupported = test)]
fn days_are_counted_over_leap_years_and_centuries() {
    for (earlier, later, days) in [
        (day(2026, 2, 28), day(2026, 3, 1), 1),
        (day(2024, 2, 28), day(2024, 3, 1), 2),
        (day(1900, 1, 1), day(2000, 1, 1), 36_524),
        (day(2000, 1, 1), day(2100, 1, 1), 36_525),
        (day(1600, 7, 9), day(2000, 7, 9), 146_097),
        (day(2026, 7, 9), day(2026, 7, 9), 0),
    ] {
        assert_eq!(later.days_since(earlier), days, "{earlier:?} to {later:?}");
        assert_eq!(earlier.days_since(later), -days, "{later:?} to {earlier:?}");
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn months_have_their_names() {
    let names = [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ];
    for (month, name) in (1..).zip(names) {
        assert_eq!(day(2026, month, 1).month_name(), name);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn the_equator_keeps_the_calendar_of_the_north() {
    let july = day(2026, 7, 9);
    assert_eq!(july.northern_month(latitude(0.0)), 7);
    assert_eq!(july.northern_month(latitude(0.5)), 7);
    assert_eq!(july.northern_month(latitude(-0.5)), 1);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_word_for_the_sky_is_the_nearest_to_its_own_clearness_and_to_what_lies_about_it() {
    for sky in Sky::ALL {
        for beside in [-0.04, 0.0, 0.04] {
            assert_eq!(Sky::nearest(sky.clearness() + beside), sky);
        }
    }
    assert_eq!(Sky::nearest(0.0), Sky::Dark);
    assert_eq!(Sky::nearest(1.0), Sky::Clear);
}

#[wasm_bindgen_test(unsupported = test)]
fn hours_of_sun_come_back_from_the_weather() {
    for hours in [0.0, 3.5, 7.25, 14.0] {
        let told = Yesterday {
            sun: Some(Sun::Hours(hours)),
            ..Yesterday::default()
        };
        let weather = told.at(STANDARD_LATITUDE, day(2026, 7, 8)).expect("weather");
        check_near(weather.sunshine_hours(), hours);
    }
}

/// New Zealand, Tasmania, Australia and Chile lie south of the equator and have its seasons; all other districts lie north (atlas).
#[wasm_bindgen_test(unsupported = test)]
fn a_district_lies_on_its_own_side_of_the_equator() {
    let southern = ["New Zealand", "Tasmania", "Australia", "Chile"];
    for district in DISTRICTS {
        let is_southern = southern.iter().any(|name| district.name.contains(name));
        assert_eq!(latitude(district.degrees_north).is_southern(), is_southern, "{}", district.name);
    }
}

/// In every month, days and nights are cooler further north: fitted over 33 stations of the Met Office historic station data, means of 1991
/// to 2020, by 0.14 to 0.68 K for each degree, so by one to eight between 50° and 60° (ends rounded outwards: choice).
#[wasm_bindgen_test(unsupported = test)]
fn further_north_days_and_nights_are_cooler_in_every_month() {
    for month in 1..=12 {
        let ends = [50.0, 60.0].map(|degrees| usual_temperatures(latitude(degrees), day(2025, month, 15)));
        let [south, north] = ends;
        for (what, cooler) in [
            ("by day", south.maximum - north.maximum),
            ("by night", south.minimum - north.minimum),
        ] {
            assert!((1.0..8.0).contains(&cooler), "month {month}, {what}: {cooler}");
        }
    }
}

/// The other end of the day is the usual one of the place where the thermometer hangs.
#[wasm_bindgen_test(unsupported = test)]
fn one_reading_inside_has_the_usual_other_end_of_a_house() {
    let yesterday = day(2026, 7, 8);
    let usual = usual_temperatures(STANDARD_LATITUDE, yesterday);
    let inside = Yesterday {
        thermometer: Thermometer::Inside,
        ..Yesterday::default()
    };
    let warmest = Yesterday {
        warmest: Some(31.0),
        ..inside
    };
    let weather = warmest.at(STANDARD_LATITUDE, yesterday).expect("weather");
    check_near(weather.minimum, usual.minimum + INSIDE_WARMER_BY_NIGHT);
    let coolest = Yesterday {
        coolest: Some(9.0),
        ..inside
    };
    let weather = coolest.at(STANDARD_LATITUDE, yesterday).expect("weather");
    check_near(weather.maximum, usual.maximum + INSIDE_WARMER_BY_DAY);
    let outside = Yesterday::default().at(STANDARD_LATITUDE, yesterday).expect("weather");
    check_near(outside.inside_minimum(), usual.minimum + INSIDE_WARMER_BY_NIGHT);
    check_near(outside.inside_maximum(), usual.maximum + INSIDE_WARMER_BY_DAY);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_day_may_be_as_cool_as_it_is_warm_but_not_cooler() {
    let told = |coolest: f64| Yesterday {
        warmest: Some(15.0),
        coolest: Some(coolest),
        ..Yesterday::default()
    };
    let at = |coolest: f64| told(coolest).at(STANDARD_LATITUDE, day(2026, 7, 8));
    let still = at(15.0).expect("weather");
    check_near(still.maximum, still.minimum);
    assert!(matches!(at(15.5), Err(WeatherError::CoolestAboveWarmest { .. })));
}

#[wasm_bindgen_test(unsupported = test)]
fn a_temperature_from_far_away_is_marked_while_one_of_the_two_is_usual() {
    let far = |warmest: Option<f64>, coolest: Option<f64>| {
        let told = Yesterday {
            warmest,
            coolest,
            ..Yesterday::default()
        };
        told.at(latitude(42.0), day(2026, 7, 8)).expect("weather").far_guess
    };
    assert!(far(None, None) && far(Some(30.0), None) && far(None, Some(12.0)));
    assert!(!far(Some(30.0), Some(12.0)));
}

#[wasm_bindgen_test(unsupported = test)]
fn why_a_day_cannot_be_prints_as_its_sentence() {
    let told = Yesterday {
        warmest: Some(10.0),
        coolest: Some(20.0),
        ..Yesterday::default()
    };
    let error = told.at(STANDARD_LATITUDE, day(2026, 7, 8)).expect_err("no such day");
    assert_eq!(error.to_string(), error.sentence(Units::default()));
    assert_eq!(error.to_string(), "Coolest 20 °C is above warmest 10 °C: check which is which.");
}

/// FAO-56 example 15, p. 61: 22.3 of 40.6 MJ/m²/day at 26.6 and 14.8 °C, inland.
#[wasm_bindgen_test(unsupported = test)]
fn clearness_follows_from_the_range_of_temperature() {
    let clearness = clearness_from_temperature_range(26.6, 14.8, Siting::Inland);
    assert!((clearness - 22.3 / 40.6).abs() < 0.0015, "{clearness}");
}

/// Two readings that are alike are no day without light.
#[wasm_bindgen_test(unsupported = test)]
fn no_day_is_darker_than_the_darkest_word() {
    for (coolest, clearness) in [(15.0, 0.13), (14.5, 0.13), (14.0, 0.16), (11.0, 0.32)] {
        let told = Yesterday {
            warmest: Some(15.0),
            coolest: Some(coolest),
            thermometer: Thermometer::Outside,
            ..Yesterday::default()
        };
        let weather = told.at(STANDARD_LATITUDE, day(2026, 7, 8)).expect("a day");
        assert!((weather.clearness - clearness).abs() < 1e-12, "{coolest}: {}", weather.clearness);
    }
}

/// FAO-56 Eq. 44, p. 54, is proportional to the change: example 17, p. 70, has 0.14 MJ/m²/day for one degree.
#[wasm_bindgen_test(unsupported = test)]
fn the_ground_takes_heat_in_proportion_to_the_change_of_the_month() {
    check_near(monthly_soil_heat_flux_to_date(29.2, 30.2), 0.14);
    check_near(monthly_soil_heat_flux_to_date(20.0, 23.0), 0.42);
    check_near(monthly_soil_heat_flux_to_date(20.0, 18.0), -0.28);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_day_without_sun_loses_heat_like_a_half_clouded_one() {
    let clear = clear_sky_radiation(40.0, 0.0);
    let half = net_longwave(20.0, 10.0, 1.2, clear / 2.0, clear);
    check_near(net_longwave(20.0, 10.0, 1.2, 0.0, 0.0), half);
}
