//! Amounts as they are printed, and units there and back.

use first_truss::quantity::{
    Area, Axis, LITRES_PER_IMPERIAL_GALLON, LITRES_PER_IMPERIAL_PINT, LITRES_PER_US_GALLON, LITRES_PER_US_PINT, Length, Likely,
    METRES_PER_FOOT, MILLIMETRES_PER_INCH, Measure, SQUARE_METRES_PER_SQUARE_FOOT, Temperature, TemperatureScale, UnitSystem, Units,
    Volume, cans, decimal, quarters,
};
use wasm_bindgen_test::wasm_bindgen_test;

/// Allowed loss of a unit there and back, in the unit.
const EXACT: f64 = 1e-9;

const fn units(system: UnitSystem, temperature: TemperatureScale) -> Units {
    Units { system, temperature }
}

/// Every choice of units.
pub const ALL_UNITS: [Units; 6] = [
    units(UnitSystem::Imperial, TemperatureScale::Celsius),
    units(UnitSystem::Imperial, TemperatureScale::Fahrenheit),
    units(UnitSystem::Metric, TemperatureScale::Celsius),
    units(UnitSystem::Metric, TemperatureScale::Fahrenheit),
    units(UnitSystem::Us, TemperatureScale::Celsius),
    units(UnitSystem::Us, TemperatureScale::Fahrenheit),
];

/// A number after it went into a unit and came back.
type ThereAndBack = (&'static str, fn(f64) -> f64);

/// Every conversion of the quantities.
const CONVERSIONS: &[ThereAndBack] = &[
    ("litres", |x| Volume::from_litres(x).litres()),
    ("imperial pints", |x| Volume::from_imperial_pints(x).imperial_pints()),
    ("US pints", |x| Volume::from_us_pints(x).us_pints()),
    ("imperial gallons", |x| Volume::from_imperial_gallons(x).imperial_gallons()),
    ("US gallons", |x| Volume::from_us_gallons(x).us_gallons()),
    ("millilitres", |x| Volume::from_litres(x / 1000.0).millilitres()),
    ("imperial fluid ounces", |x| {
        Volume::from_imperial_pints(x / 20.0).imperial_fluid_ounces()
    }),
    ("US fluid ounces", |x| Volume::from_us_pints(x / 16.0).us_fluid_ounces()),
    ("metres", |x| Length::from_metres(x).metres()),
    ("centimetres", |x| Length::from_centimetres(x).centimetres()),
    ("millimetres", |x| Length::from_millimetres(x).millimetres()),
    ("feet", |x| Length::from_feet(x).feet()),
    ("inches", |x| Length::from_inches(x).inches()),
    ("square metres", |x| Area::from_square_metres(x).square_metres()),
    ("square feet", |x| Area::from_square_feet(x).square_feet()),
    ("degrees Celsius", |x| Temperature::from_celsius(x).celsius()),
    ("degrees Fahrenheit", |x| Temperature::from_fahrenheit(x).fahrenheit()),
    ("Celsius by way of Fahrenheit", |x| {
        Temperature::from_fahrenheit(Temperature::from_celsius(x).fahrenheit()).celsius()
    }),
    ("litres by way of pints", |x| {
        Volume::from_imperial_pints(Volume::from_litres(x).imperial_pints()).litres()
    }),
];

/// Fails where a number does not come back from a unit, whatever the unit.
#[track_caller]
pub fn check_there_and_back(number: f64) {
    let allowed = EXACT * number.abs().max(1.0);
    for (name, there_and_back) in CONVERSIONS {
        let back = there_and_back(number);
        assert!((back - number).abs() <= allowed, "{number} {name} came back as {back}");
    }
    for units in ALL_UNITS {
        for (name, back) in [
            ("temperature", units.temperature_number(units.temperature(number))),
            ("height", units.height_number(units.height(number))),
            ("rain", units.rain_number(units.rain(number))),
            ("width", units.width_number(units.width(number))),
            ("ground", units.ground_number(units.ground(number))),
            ("can", units.can_number(units.can(number))),
            ("weight", units.weight_number(units.weight(number))),
            ("wind", units.wind_number(units.wind(number))),
        ] {
            assert!((back - number).abs() <= allowed, "{name} {number} came back as {back} in {units:?}");
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn units_come_back_as_they_went() {
    for number in [
        0.0,
        1e-12,
        0.1,
        0.25,
        1.0 / 3.0,
        1.0,
        2.5,
        35.0,
        99.9,
        1234.567,
        1e9,
        -40.0,
        -273.15,
    ] {
        check_there_and_back(number);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn units_are_what_the_law_says() {
    for (got, expected) in [
        (LITRES_PER_IMPERIAL_GALLON, 4.546_09),
        (LITRES_PER_IMPERIAL_PINT, 0.568_261_25),
        (LITRES_PER_US_GALLON, 3.785_411_784),
        (LITRES_PER_US_PINT, 0.473_176_473),
        (METRES_PER_FOOT, 0.3048),
        // A mile is 5280 feet, an hour 3600 seconds.
        (Units::default().wind(1.0), 5280.0 * 0.3048 / 3600.0),
        (MILLIMETRES_PER_INCH, 25.4),
        (SQUARE_METRES_PER_SQUARE_FOOT, 0.092_903_04),
        (Temperature::from_fahrenheit(212.0).celsius(), 100.0),
        (Temperature::from_celsius(-40.0).fahrenheit(), -40.0),
        (Volume::from_litres(1.0).imperial_fluid_ounces(), 35.195_079_727_854),
        (Volume::from_litres(1.0).us_fluid_ounces(), 33.814_022_701_843),
    ] {
        assert!((got - expected).abs() <= 1e-12 * expected.abs(), "{got} is not {expected}");
    }
}

#[track_caller]
fn check_measure(litres: f64, system: UnitSystem, printed: &str, twin: &str) {
    let measure = Measure::dose(Volume::from_litres(litres), units(system, TemperatureScale::Celsius));
    assert_eq!(
        (format!("{} {}", measure.figure, measure.unit), measure.twin),
        (printed.to_owned(), twin.to_owned()),
        "{litres} litres in {system:?} units"
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn doses_print_in_quarter_pints() {
    use UnitSystem::Imperial;
    let pints = |pints: f64| Volume::from_imperial_pints(pints).litres();
    for (litres, printed, twin) in [
        (1.647_05, "3 pints", "1.7 litres"),
        (1.079_89, "2 pints", "1.15 litres"),
        (0.634_09, "1 pint", "0.55 litre"),
        (1.25, "2¼ pints", "1.3 litres"),
        (pints(2.9), "3 pints", "1.7 litres"),
        (pints(1.125), "1¼ pints", "0.7 litre"),
        (pints(1.124), "1 pint", "0.55 litre"),
        (pints(0.874), "¾ pint", "0.45 litre"),
        (pints(0.6), "½ pint", "0.3 litre"),
        (pints(0.5), "½ pint", "0.3 litre"),
        (pints(100.0), "100 pints", "56.85 litres"),
    ] {
        check_measure(litres, Imperial, printed, twin);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn doses_print_in_steps_of_50_ml() {
    use UnitSystem::Metric;
    for (litres, printed, twin) in [
        (1.647_05, "1.65 litres", "3 pints"),
        (1.079_89, "1.1 litres", "2 pints"),
        (1.0, "1 litre", "1¾ pints"),
        (1.024, "1 litre", "1¾ pints"),
        (1.026, "1.05 litres", "1¾ pints"),
        (0.634_09, "0.65 litre", "1¼ pints"),
        (0.25, "0.25 litre", "½ pint"),
        (0.30, "0.3 litre", "½ pint"),
    ] {
        check_measure(litres, Metric, printed, twin);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn doses_print_in_us_pints() {
    use UnitSystem::Us;
    for (litres, printed, twin) in [
        (1.647_05, "3½ US pints", "1.65 litres"),
        (LITRES_PER_US_PINT, "1 US pint", "0.45 litre"),
        (0.25, "½ US pint", "0.25 litre"),
        (LITRES_PER_US_PINT / 2.0, "½ US pint", "0.25 litre"),
    ] {
        check_measure(litres, Us, printed, twin);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn small_doses_print_by_the_millilitre_and_never_as_nothing() {
    use UnitSystem::{Imperial, Metric, Us};
    for (litres, system, printed, twin) in [
        (0.284, Imperial, "280 ml", "9¾ fl oz"),
        (0.053, Imperial, "50 ml", "1¾ fl oz"),
        (0.249, Metric, "250 ml", "8¾ fl oz"),
        (0.236, Us, "240 ml", "8 US fl oz"),
        (0.015, Imperial, "20 ml", "¾ fl oz"),
        (0.014, Imperial, "10 ml", "¼ fl oz"),
        (0.004, Imperial, "10 ml", "¼ fl oz"),
        (1e-9, Metric, "10 ml", "¼ fl oz"),
        (f64::MIN_POSITIVE, Us, "10 ml", "¼ US fl oz"),
        (0.0, Imperial, "0 pints", "0 litres"),
        (-1.0, Metric, "0 litres", "0 pints"),
        (f64::NAN, Us, "0 US pints", "0 litres"),
        (f64::INFINITY, Imperial, "0 pints", "0 litres"),
    ] {
        check_measure(litres, system, printed, twin);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn numbers_print_to_the_quarter() {
    for (number, printed) in [
        (0.0, "0"),
        (0.1, "0"),
        (0.125, "¼"),
        (0.3, "¼"),
        (0.5, "½"),
        (0.7, "¾"),
        (0.874, "¾"),
        (0.875, "1"),
        (1.0, "1"),
        (1.13, "1¼"),
        (2.25, "2¼"),
        (9.99, "10"),
        (1000.5, "1000½"),
        (-0.1, "0"),
        (-7.0, "0"),
        (f64::NAN, "0"),
    ] {
        assert_eq!(quarters(number), printed, "{number}");
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn numbers_print_without_idle_decimals() {
    for (number, decimals, printed) in [
        (1.30, 2, "1.3"),
        (1.0, 1, "1"),
        (100.0, 0, "100"),
        (100.0, 2, "100"),
        (0.1 + 0.2, 2, "0.3"),
        (1.005, 1, "1"),
        (2.5, 0, "3"),
        (0.05, 1, "0.1"),
        (1.05, 2, "1.05"),
        (2.04, 1, "2"),
        (-3.0, 0, "−3"),
        (-0.04, 1, "0"),
        (-0.0, 0, "0"),
        (-0.05, 2, "−0.05"),
        (1_234_567.0, 1, "1234567"),
    ] {
        assert_eq!(decimal(number, decimals), printed, "{number} to {decimals}");
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn an_axis_has_round_steps_and_holds_the_highest_value() {
    for (highest, most, step, ticks) in [
        (0.83, 4, 0.5, 2),
        (0.8, 4, 0.2, 4),
        (3.96, 4, 1.0, 4),
        (12.0, 5, 5.0, 3),
        (0.0, 4, 0.01, 1),
        (f64::NAN, 4, 0.01, 1),
    ] {
        let axis = Axis::up_to(highest, most);
        assert!((axis.step - step).abs() < 1e-9 && axis.ticks == ticks, "{highest}: {axis:?}");
        assert!(highest.is_nan() || axis.top() >= highest - 1e-9, "{highest}: {axis:?}");
    }
}

/// With a can of nine litres, as many have: what is told is never half a can for less than a third of one.
#[wasm_bindgen_test(unsupported = test)]
fn a_share_of_a_can_is_told_as_it_is() {
    let of_nine = |litres: f64| {
        let (under, cans) = cans(Volume::from_litres(litres), Volume::from_litres(9.0));
        under.to_owned() + &quarters(cans)
    };
    for (litres, words) in [
        (0.0, "0"),
        (0.15, "<¼"),
        (1.8, "<¼"),
        (2.25, "¼"),
        (2.7, "¼"),
        (4.0, "½"),
        (8.9, "1"),
        (9.2, "1"),
        (12.0, "1¼"),
        (31.0, "3½"),
    ] {
        assert_eq!(of_nine(litres), words, "{litres} litres");
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn both_ends_of_a_range_have_the_measure_of_the_dose() {
    let ends = |system: UnitSystem, [low, each, high]: [f64; 3]| {
        let units = units(system, TemperatureScale::Celsius);
        let each = Measure::dose(Volume::from_litres(each), units);
        [low, high].map(|end| {
            let end = Measure::end_of_range(Volume::from_litres(end), units, &each);
            end.figure + " " + end.unit
        })
    };
    assert_eq!(ends(UnitSystem::Imperial, [0.21, 0.3, 0.43]), ["¼ pint", "¾ pint"]);
    assert_eq!(ends(UnitSystem::Imperial, [0.18, 0.26, 0.38]), ["180 ml", "380 ml"]);
    assert_eq!(ends(UnitSystem::Metric, [0.21, 0.3, 0.43]), ["0.2 litre", "0.45 litre"]);
    assert_eq!(ends(UnitSystem::Metric, [0.14, 0.2, 0.29]), ["140 ml", "290 ml"]);
    assert_eq!(ends(UnitSystem::Us, [0.02, 0.3, 0.43]), ["¼ US pint", "1 US pint"]);
    assert_eq!(ends(UnitSystem::Metric, [0.0, 0.3, 0.43]), ["0 litres", "0.45 litre"]);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_likely_range_lies_about_its_value_by_a_factor_and_adds_up_end_by_end() {
    let one = Likely::about(10.0, 1.25);
    let both = one.plus(Likely::about(2.0, 2.0)).times(3.0);
    for (found, expected) in [
        (one.low, 8.0),
        (one.value, 10.0),
        (one.high, 12.5),
        (both.low, 27.0),
        (both.value, 36.0),
        (both.high, 49.5),
    ] {
        assert!((found - expected).abs() < EXACT, "{found} is not {expected}");
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn units_are_those_of_the_country_that_a_language_names() {
    let of = |language: &str| {
        let Units { system, temperature } = Units::usual_for(language);
        (system, temperature)
    };
    for language in ["en-US", "es-US", "en-us", "es-Latn-US", "US-us"] {
        assert_eq!(of(language), (UnitSystem::Us, TemperatureScale::Fahrenheit), "{language}");
    }
    for language in [
        "en-GB",
        "en",
        "",
        "cy",
        "gd",
        "cy-GB",
        "ur-gb",
        "en-Latn-GB",
        "en-001",
        "en-u-hc-h12",
    ] {
        assert_eq!(of(language), (UnitSystem::Imperial, TemperatureScale::Celsius), "{language}");
    }
    for language in ["de", "de-DE", "en-AU", "en-NZ", "en-CA", "fr", "us", "us-DE", "gb", "ga-IE"] {
        assert_eq!(of(language), (UnitSystem::Metric, TemperatureScale::Celsius), "{language}");
    }
}
