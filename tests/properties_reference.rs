//! Properties of the reference equations that hold for every input, tried on random ones.

use first_truss::almanac::{
    Psychrometer, Siting, SunOnDay, atmospheric_pressure, clear_sky_radiation, clearness_from_sunshine,
    clearness_from_temperature_range_at, day_of_year, mean_saturation_vapour_pressure, mid_month_day_of_year, net_longwave, net_radiation,
    net_shortwave, saturation_slope, saturation_vapour_pressure, solar_radiation, sun_on, vapour_pressure_from_minimum_temperature,
    vapour_pressure_from_wet_bulb, wind_speed_at_two_metres,
};
use first_truss::water::{
    ReferenceDay, basal_coefficient_from_cover, climatic_adjustment, deplete_by_morning_stress, depletion_fraction,
    effective_cover_of_rows, hargreaves_samani, interception, loss_over_day, makkink, makkink_1957, penman_monteith, priestley_taylor,
    radiation_weighting, thin_stand_reduction, turc, water_stress_coefficient,
};
use proptest::prelude::*;

/// Beyond anything on earth, yet finite.
const ABSURD: std::ops::RangeInclusive<f64> = -1e9..=1e9;

#[track_caller]
fn check_sun(latitude: f64, day: u16) -> SunOnDay {
    let sun = sun_on(latitude, day);
    let radiation = sun.extraterrestrial_radiation;
    assert!((0.0..50.0).contains(&radiation), "{latitude}° on day {day}: {radiation} MJ/m²/day");
    assert!(
        (0.0..=24.0).contains(&sun.daylight_hours),
        "{latitude}° on day {day}: {} h",
        sun.daylight_hours
    );
    assert!((0.96..1.04).contains(&sun.relative_distance));
    assert!(sun.declination_radians.abs() <= 0.409);
    sun
}

#[test]
fn the_sun_is_sound_on_every_day_at_every_whole_degree() {
    for latitude in -90..=90 {
        for day in 1..=366 {
            check_sun(f64::from(latitude), day);
        }
    }
}

#[test]
fn the_polar_night_is_dark_and_the_polar_day_has_no_night() {
    for (pole, dark_day, light_day) in [(90.0, 355, 172), (-90.0, 172, 355), (75.0, 355, 172)] {
        let dark = check_sun(pole, dark_day);
        assert_eq!(
            [dark.extraterrestrial_radiation, dark.daylight_hours].map(f64::to_bits),
            [0.0_f64; 2].map(f64::to_bits),
            "{pole}° must be exactly dark"
        );
        let light = check_sun(pole, light_day);
        assert!((light.daylight_hours - 24.0).abs() < f64::EPSILON, "{pole}°");
        assert!(light.extraterrestrial_radiation > 40.0, "{pole}°");
    }
}

#[test]
fn days_of_the_year_run_without_a_gap() {
    const LENGTHS: [u8; 12] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    for leap_year in [false, true] {
        let mut expected = 0;
        for (month, length) in (1..).zip(LENGTHS) {
            let length = if leap_year && month == 2 { 29 } else { length };
            for day in 1..=length {
                expected += 1;
                assert_eq!(
                    day_of_year(month, day, leap_year),
                    expected,
                    "day {day} of month {month}, leap year {leap_year}"
                );
            }
            if !leap_year {
                let middle = day_of_year(month, 15, false);
                // The short formula of the paper is up to two days out: it puts the middle of March on the 17th.
                assert!(mid_month_day_of_year(month).abs_diff(middle) <= 2, "month {month}");
            }
        }
        assert_eq!(expected, if leap_year { 366 } else { 365 });
    }
}

#[test]
fn a_day_without_sun_still_has_a_finite_net_radiation() {
    let loss = net_longwave(-10.0, -20.0, 0.2, 0.0, 0.0);
    assert!(loss > 0.0 && loss < 10.0, "{loss} MJ/m²/day");
}

#[test]
fn a_store_without_a_slowing_part_empties_and_then_gives_nothing() {
    for (deficit, demand, readily, total, expected) in [
        (0.0, 1.0, 3.0, 3.0, 1.0),
        (2.5, 1.0, 3.0, 3.0, 0.5),
        (3.0, 1.0, 3.0, 3.0, 0.0),
        (5.0, 1.0, 3.0, 4.0, 0.0),
        (0.0, 1.0, 5.0, 3.0, 1.0),
        (2.5, 1.0, 5.0, 3.0, 0.5),
        (0.0, 0.0, 3.0, 4.0, 0.0),
        (0.0, -1.0, 3.0, 4.0, 0.0),
        (-1.0, 1.0, 3.0, 4.0, 1.0),
        (0.0, 1.0, 0.0, 0.0, 0.0),
        (0.0, 1.0, -1.0, -2.0, 0.0),
    ] {
        let loss = loss_over_day(deficit, demand, readily, total);
        assert!(
            (loss - expected).abs() < 1e-12,
            "D {deficit}, E {demand}, RAW {readily}, TAW {total}: {loss}, not {expected}"
        );
    }
}

#[test]
fn what_is_not_a_number_does_not_stop_the_program() {
    let sun = sun_on(f64::NAN, 0);
    assert!(sun.relative_distance.is_finite());
    assert!(saturation_vapour_pressure(f64::NAN).is_nan());
    assert!(!loss_over_day(f64::NAN, 1.0, 3.0, 4.0).is_sign_negative());
    assert!(loss_over_day(0.0, f64::NAN, f64::NAN, f64::NAN).abs() < f64::EPSILON);
}

proptest! {
    #[test]
    fn the_sun_is_sound_everywhere(latitude in -90.0..=90.0_f64, day in 1_u16..=366) {
        check_sun(latitude, day);
    }

    #[test]
    fn a_place_or_day_that_does_not_exist_is_moved_to_the_nearest(latitude in ABSURD, day in any::<u16>()) {
        prop_assert_eq!(
            sun_on(latitude, day),
            sun_on(latitude.clamp(-90.0, 90.0), day.clamp(1, 366))
        );
        check_sun(latitude, day);
    }

    #[test]
    fn loss_over_day_takes_neither_more_than_is_there_nor_than_is_wanted(
        total in 0.0..100.0_f64,
        readily_share in 0.0..=1.0_f64,
        deficit_share in 0.0..=1.0_f64,
        demand in 0.0..200.0_f64,
    ) {
        let (readily, deficit) = (readily_share * total, deficit_share * total);
        let loss = loss_over_day(deficit, demand, readily, total);
        prop_assert!(loss >= 0.0 && loss <= demand && loss <= total - deficit, "{loss}");
    }

    #[test]
    fn loss_over_day_is_sound_for_absurd_stores(
        deficit in ABSURD, demand in ABSURD, readily in ABSURD, total in ABSURD,
    ) {
        let loss = loss_over_day(deficit, demand, readily, total);
        prop_assert!(
            loss >= 0.0 && loss <= demand.max(0.0) && loss <= (total - deficit.max(0.0)).max(0.0),
            "{loss}"
        );
    }

    #[test]
    fn loss_over_day_grows_with_demand_and_falls_with_deficit(
        total in 0.1..100.0_f64,
        readily_share in 0.0..=1.0_f64,
        deficit_share in 0.0..=1.0_f64,
        demand in 0.0..200.0_f64,
        step in 0.0..10.0_f64,
    ) {
        let (readily, deficit) = (readily_share * total, deficit_share * total);
        let loss = loss_over_day(deficit, demand, readily, total);
        let thirstier = loss_over_day(deficit, demand + step, readily, total);
        let drier = loss_over_day(deficit + step, demand, readily, total);
        prop_assert!(thirstier >= loss - 1e-9, "{loss} then {thirstier}");
        prop_assert!(drier <= loss + 1e-9, "{loss} then {drier}");
        // A day in two halves comes to the same: the integrated form has no step of its own.
        let morning = loss_over_day(deficit, demand / 2.0, readily, total);
        let evening = loss_over_day(deficit + morning, demand / 2.0, readily, total);
        prop_assert!((morning + evening - loss).abs() < 1e-9, "{loss}, in halves {}", morning + evening);
    }

    #[test]
    fn the_stress_of_the_morning_never_takes_less_than_the_stress_that_follows(
        total in 0.1..100.0_f64,
        readily_share in 0.0..0.99_f64,
        deficit_share in 0.0..=1.0_f64,
        demand_share in 0.0..=1.0_f64,
    ) {
        let (readily, deficit) = (readily_share * total, deficit_share * total);
        let demand = demand_share * total;
        let day = deplete_by_morning_stress(deficit, demand, readily, total);
        let integrated = deficit + loss_over_day(deficit, demand, readily, total);
        prop_assert!((0.0..=1.0).contains(&day.stress_coefficient));
        prop_assert!(day.deficit_at_end >= integrated - 1e-9);
    }

    #[test]
    fn shares_stay_between_none_and_all(
        a in ABSURD, b in ABSURD, c in ABSURD,
    ) {
        for share in [
            radiation_weighting(a, b),
            interception(a),
            effective_cover_of_rows(a, b, c),
            thin_stand_reduction(a, b),
            water_stress_coefficient(a, b, c),
            clearness_from_sunshine(a),
            clearness_from_temperature_range_at(a, b, Siting::Coast, c),
            basal_coefficient_from_cover(0.0, 1.0, a, b, c),
        ] {
            prop_assert!((0.0..=1.0).contains(&share), "{share}");
        }
        prop_assert!((0.1..=0.8).contains(&depletion_fraction(a, b)));
        prop_assert!(climatic_adjustment(a, b, c).abs() < 0.6);
    }

    #[test]
    fn the_air_is_sound_for_absurd_weather(celsius in ABSURD, other in ABSURD, third in ABSURD) {
        for value in [
            saturation_vapour_pressure(celsius),
            saturation_slope(celsius),
            mean_saturation_vapour_pressure(celsius, other),
            vapour_pressure_from_wet_bulb(celsius, other, third, Psychrometer::Indoor),
            atmospheric_pressure(celsius),
            wind_speed_at_two_metres(celsius, other),
        ] {
            prop_assert!(value.is_finite() && value >= 0.0, "{value}");
        }
    }

    #[test]
    fn warmer_air_holds_more(celsius in -90.0..90.0_f64, step in 0.01..10.0_f64) {
        prop_assert!(saturation_vapour_pressure(celsius + step) > saturation_vapour_pressure(celsius));
        prop_assert!(saturation_slope(celsius + step) > saturation_slope(celsius));
    }

    #[test]
    fn reference_use_is_finite_for_absurd_weather(
        latitude in ABSURD,
        day in any::<u16>(),
        elevation in ABSURD,
        maximum in ABSURD,
        minimum in ABSURD,
        wind_speed in ABSURD,
        sunshine in ABSURD,
        humidity in ABSURD,
    ) {
        let sun = sun_on(latitude, day);
        let pressure = atmospheric_pressure(elevation);
        let solar = solar_radiation(clearness_from_sunshine(sunshine), sun.extraterrestrial_radiation);
        let clear = clear_sky_radiation(sun.extraterrestrial_radiation, elevation);
        let actual = vapour_pressure_from_minimum_temperature(minimum);
        let net = net_radiation(
            net_shortwave(solar),
            net_longwave(maximum, minimum, actual, solar, clear),
        );
        let mean = f64::midpoint(maximum, minimum);
        let reference = ReferenceDay {
            mean_celsius: mean,
            net_radiation: net,
            soil_heat_flux: 0.0,
            wind_speed,
            saturation_vapour_pressure: mean_saturation_vapour_pressure(maximum, minimum),
            actual_vapour_pressure: actual,
            pressure_kilopascals: pressure,
        };
        for use_of_water in [
            penman_monteith(&reference),
            makkink_1957(mean, solar, pressure),
            priestley_taylor(mean, net, 0.0, pressure),
        ] {
            prop_assert!(use_of_water.is_finite(), "{use_of_water}");
        }
        for use_of_water in [
            hargreaves_samani(maximum, minimum, sun.extraterrestrial_radiation),
            makkink(mean, solar, pressure),
            turc(mean, solar, humidity),
        ] {
            prop_assert!(use_of_water.is_finite() && use_of_water >= 0.0, "{use_of_water}");
        }
    }

    #[test]
    fn a_day_of_growing_weather_asks_for_a_possible_amount(
        latitude in 45.0..60.0_f64,
        day in 91_u16..=304,
        minimum in 0.0..18.0_f64,
        range in 1.0..18.0_f64,
        sunshine in 0.0..=1.0_f64,
        wind_speed in 0.0..8.0_f64,
    ) {
        let maximum = minimum + range;
        let sun = sun_on(latitude, day);
        let solar = solar_radiation(clearness_from_sunshine(sunshine), sun.extraterrestrial_radiation);
        let clear = clear_sky_radiation(sun.extraterrestrial_radiation, 50.0);
        let actual = vapour_pressure_from_minimum_temperature(minimum);
        let depth = penman_monteith(&ReferenceDay {
            mean_celsius: f64::midpoint(maximum, minimum),
            net_radiation: net_radiation(
                net_shortwave(solar),
                net_longwave(maximum, minimum, actual, solar, clear),
            ),
            soil_heat_flux: 0.0,
            wind_speed,
            saturation_vapour_pressure: mean_saturation_vapour_pressure(maximum, minimum),
            actual_vapour_pressure: actual,
            pressure_kilopascals: atmospheric_pressure(50.0),
        });
        prop_assert!((-0.5..15.0).contains(&depth), "{depth} mm/day");
    }
}
