//! Doses and labels in the words of labels: what is read, and what is said of what cannot be.

use first_truss::feed::{Ask, Basis, Country, Grade, Measured, OunceKind, Rate, RateError, RatioKind, Told, Unreadable};
use wasm_bindgen_test::wasm_bindgen_test;

/// A grower with UK gallons, ounces by weight, a cap of 25 ml and a can of 10 litres.
const TOLD: Told = Told {
    country: Some(Country::Uk),
    ounce: Some(OunceKind::Weight),
    ratio: None,
    cap: Some(25.0),
    can: 10.0,
};
const NOTHING_TOLD: Told = Told {
    country: None,
    ounce: None,
    ratio: None,
    cap: None,
    can: 10.0,
};

#[track_caller]
fn check(typed: &str, told: &Told, measured: Measured, per_litre: f64) {
    match Rate::parse(typed, told) {
        Ok(rate) => {
            assert_eq!(rate.measured, measured, "“{typed}”");
            let got = rate.per_litre.value;
            assert!((got - per_litre).abs() < 5e-5 * per_litre, "“{typed}”: {got}, not {per_litre}");
        }
        Err(error) => panic!("“{typed}”: {error}"),
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn doses_are_read_in_the_words_of_labels() {
    let ml = |typed: &str, per_litre: f64| check(typed, &TOLD, Measured::Millilitres, per_litre);
    let grams = |typed: &str, per_litre: f64| check(typed, &TOLD, Measured::Grams, per_litre);
    let parts = |typed: &str, per_litre: f64| check(typed, &TOLD, Measured::Parts, per_litre);
    ml("20 ml per gallon", 4.399_4);
    parts("1 in 200", 5.0);
    parts("1:200", 5.0);
    parts("1 + 200", 4.975_12);
    ml("5 ml/l", 5.0);
    ml("15 ml per 4.5 l", 3.333_33);
    ml("1 fl oz per gallon", 6.25);
    ml("half a capful per can", 1.25);
    ml("2 tbsp per US gallon", 7.812_5);
    grams("10 g in 10 litres", 1.0);
    // And as other labels put it.
    ml("20ml/gallon", 4.399_4);
    ml("20 ml a gallon", 4.399_4);
    ml("20 ml to a gallon", 4.399_4);
    ml("20mls per gal.", 4.399_4);
    ml("20 ml per US gallon", 5.283_4);
    ml("20 ml per gallon (US)", 5.283_4);
    ml("20 ml per imperial gallon", 4.399_4);
    ml("20 ml in 4.5 litres of water", 4.444_44);
    ml("Add 20 ml to 4,5 litres", 4.444_44);
    ml("Dilute 5 ml per litre", 5.0);
    ml("5ml per 1l", 5.0);
    ml("50 ml per 10 litre can", 5.0);
    ml("50 ml to a 10-litre can", 5.0);
    ml("50 ml per watering can", 5.0);
    ml("one capful per 4.5 l", 5.555_56);
    ml("a capful to a gallon", 5.499_22);
    ml("capful per can", 2.5);
    ml("capful/litre", 25.0);
    ml("capful a litre", 25.0);
    ml("2 capfuls to 9 litres", 5.555_56);
    ml("1½ caps per 10 l", 3.75);
    ml("1 1/2 tsp per litre", 7.5);
    ml("1/2 teaspoon per litre", 2.5);
    ml("½ tsp to a litre", 2.5);
    ml("two teaspoons per litre", 10.0);
    ml("2 teaspoonfuls per litre", 10.0);
    ml("1 tsp per US gal", 1.302_08);
    ml("1 fl. oz. per gallon", 6.25);
    ml("½ fluid ounce per gallon", 3.125);
    ml("1 pint per 40 gallons", 3.125);
    ml("1 fl oz per U.S. gallon", 7.812_5);
    ml("1 litre per 200 litres", 5.0);
    ml("0.5 cl per litre", 5.0);
    ml("20 cc per 4.5 l", 4.444_44);
    ml("quarter of a cap per litre", 6.25);
    grams("1 oz per gallon", 6.236_03);
    grams("2 oz to the gallon", 12.472_06);
    grams("1 lb per 100 gallons", 0.997_76);
    grams("500 mg/l", 0.5);
    grams("1 kg per 1000 l", 1.0);
    grams("1.5 grammes per litre", 1.5);
    parts("0.5 %", 5.0);
    parts("0.5% solution", 5.0);
    parts("1 part in 200", 5.0);
    parts("1 part to 200 parts water", 4.975_12);
    parts("1 part feed to 100 parts water", 9.900_99);
    parts("5 parts per 1000", 5.0);
    parts("1/200", 5.0);
    parts("1:200 in water", 4.975_12);
    parts("1 plus 100", 9.900_99);
}

/// Every word for a measure that is not metric holds what the law gives it: the Weights and Measures Act 1985 for the British ones and the
/// pound, NIST Handbook 44, Appendix C, for the American (both from memory). A spoon of a grower who is no American is metric (choice). One
/// of each holds so many millilitres or grams in the UK, and in the US.
#[wasm_bindgen_test(unsupported = test)]
fn every_measure_holds_what_the_law_gives_it() {
    use Measured::{Grams, Millilitres};
    for (words, measured, british, american) in [
        (&["gallon", "gal"][..], Millilitres, 4_546.09, 3_785.411_784),
        (&["quart", "qt"], Millilitres, 1_136.522_5, 946.352_946),
        (&["pint", "pt"], Millilitres, 568.261_25, 473.176_473),
        (&["fl oz", "floz", "fluid ounce"], Millilitres, 28.413_062_5, 29.573_529_562_5),
        (&["tbsp", "tablespoon", "tablespoonful"], Millilitres, 15.0, 14.786_764_781_25),
        (&["tsp", "teaspoon", "teaspoonful"], Millilitres, 5.0, 4.928_921_593_75),
        (&["lb", "pound"], Grams, 453.592_37, 453.592_37),
    ] {
        for word in words {
            for (country, of_one) in [(Country::Uk, british), (Country::Us, american)] {
                let told = Told {
                    country: Some(country),
                    ..TOLD
                };
                check(&format!("1 {word} per 100 litres"), &told, measured, of_one / 100.0);
                check(&format!("4 {word}s in 400 l"), &told, measured, of_one / 100.0);
            }
            check(&format!("1 US {word} per 100 litres"), &TOLD, measured, american / 100.0);
        }
    }
    // And as a measure of the water.
    for (word, british, american) in [
        ("gallon", 4.546_09, 3.785_411_784),
        ("gal", 4.546_09, 3.785_411_784),
        ("quart", 1.136_522_5, 0.946_352_946),
        ("qt", 1.136_522_5, 0.946_352_946),
        ("pint", 0.568_261_25, 0.473_176_473),
        ("pt", 0.568_261_25, 0.473_176_473),
    ] {
        check(&format!("10 ml per {word}"), &TOLD, Millilitres, 10.0 / british);
        check(&format!("10 ml per US {word}"), &TOLD, Millilitres, 10.0 / american);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn spoons_have_a_range_and_gallons_another_answer() {
    let spoon = Rate::parse("2 tsp per litre", &TOLD).expect("a dose");
    assert!(spoon.by_spoon && (spoon.per_litre.low - 8.0).abs() < 1e-9 && (spoon.per_litre.high - 12.0).abs() < 1e-9);
    let gallon = Rate::parse("20 ml per gallon", &TOLD).expect("a dose");
    let other = gallon.other_country.expect("another answer");
    assert!((other / gallon.per_litre.value - 4.546_09 / 3.785_411_784).abs() < 1e-12);
    assert!(!gallon.by_spoon && gallon.per_litre.low.to_bits() == gallon.per_litre.value.to_bits());
    let told = Rate::parse("20 ml per UK gallon", &TOLD).expect("a dose");
    assert_eq!(told.other_country, None);
    let ratio = Rate::parse("1:200", &TOLD).expect("a dose");
    assert!(ratio.other_ratio.is_some_and(|other| (other - 4.975_124).abs() < 1e-5));
    let added = Rate::parse(
        "1:20",
        &Told {
            ratio: Some(RatioKind::Added),
            ..TOLD
        },
    )
    .expect("a dose");
    assert!((added.per_litre.value - 1000.0 / 21.0).abs() < 1e-9);
}

/// Whose measures they are counts only where the measure of one country is another's, and which way a ratio counts only where its
/// words do not say.
#[wasm_bindgen_test(unsupported = test)]
fn another_answer_is_given_only_where_the_words_leave_it_open() {
    let rate = |typed: &str, told: &Told| Rate::parse(typed, told).unwrap_or_else(|error| panic!("“{typed}”: {error}"));
    let fluid = Told {
        ounce: Some(OunceKind::Fluid),
        ..TOLD
    };
    assert_eq!(rate("20 ml per litre", &TOLD).other_country, None);
    assert_eq!(
        rate("1 oz per 10 litres", &TOLD).other_country,
        None,
        "an ounce by weight is the same everywhere"
    );
    // A US fluid ounce is 29.5735 ml (exact: 231 in³ ÷ 128).
    let other = rate("1 oz per 10 litres", &fluid).other_country.expect("a US fluid ounce");
    assert!((other - 2.957_35).abs() < 1e-5, "{other}");
    // What is said, and for how many litres.
    for (typed, amount, litres) in [("20 ml per gallon", 20.0, 4.546_09), ("5 ml per 10 litres", 5.0, 10.0)] {
        let (got, of) = rate(typed, &TOLD).said;
        assert!(
            (got - amount).abs() < 1e-9 && (of - litres).abs() < 1e-9,
            "“{typed}”: {got} in {of}"
        );
    }
    let added = Told {
        ratio: Some(RatioKind::Added),
        ..TOLD
    };
    for (typed, told, per_litre, other) in [
        // "In" and "per" say that the water is counted with the feed, whatever was told of strokes.
        ("1 in 20", &TOLD, 50.0, None),
        ("1 in 20", &added, 50.0, None),
        ("5 parts per 1000", &added, 5.0, None),
        // From fifty on the two are 2 % apart, and nothing is asked.
        ("1:50", &TOLD, 20.0, Some(1000.0 / 51.0)),
        ("1:200 solution", &TOLD, 5.0, Some(1000.0 / 201.0)),
    ] {
        let got = rate(typed, told);
        assert!((got.per_litre.value - per_litre).abs() < 1e-9, "“{typed}”: {got:?}");
        let away = |other: f64| got.other_ratio.map(|got| (got - other).abs() < 1e-9);
        assert_eq!(
            other.map_or(got.other_ratio.is_none().then_some(true), away),
            Some(true),
            "“{typed}”: {got:?}"
        );
    }
    for typed in ["1:49", "2:60", "water 1:20"] {
        assert_eq!(Rate::parse(typed, &TOLD), Err(RateError::Asked(Ask::Ratio)), "“{typed}”");
    }
}

#[track_caller]
fn check_dose_error(typed: &str, told: &Told, sentence: &str) {
    match Rate::parse(typed, told) {
        Ok(rate) => panic!("“{typed}” is read as {rate:?}"),
        Err(error) => assert_eq!(error.to_string(), sentence, "“{typed}”"),
    }
}

const WHICH_GALLON: &str = "Which gallons, pints and fluid ounces does the label mean? A UK gallon is 4.55 litres, a US one 3.79.";

#[wasm_bindgen_test(unsupported = test)]
fn what_only_the_grower_can_tell_is_asked() {
    let ask = |typed: &str, sentence: &str| check_dose_error(typed, &NOTHING_TOLD, sentence);
    ask("20 ml per gallon", WHICH_GALLON);
    ask("1 pint per 100 litres", WHICH_GALLON);
    ask("1 fl oz per litre", WHICH_GALLON);
    ask(
        "1 oz per 10 litres",
        "Which ounces does the label mean: by weight (28 g), or fluid ounces?",
    );
    ask(
        "half a capful per can",
        "How many ml does the cap hold? Fill it with water and pour that on the scales: 1 g is 1 ml. No cap is like another.",
    );
    ask(
        "1:20",
        "Does the label mean one part in that many of the mix, or added to that many of water?",
    );
    let fluid = Told {
        ounce: Some(OunceKind::Fluid),
        ..NOTHING_TOLD
    };
    check_dose_error("1 oz per 10 litres", &fluid, WHICH_GALLON);
    check_dose_error(
        "a cap per litre",
        &Told { cap: Some(500.0), ..TOLD },
        "A cap can be 1 to 200 ml: 500 ml cannot be right.",
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn a_dose_that_cannot_be_read_is_told_where() {
    let error = |typed: &str, sentence: &str| check_dose_error(typed, &TOLD, sentence);
    error("", "Type the dose as the label gives it, such as 20 ml per gallon.");
    error("   ", "Type the dose as the label gives it, such as 20 ml per gallon.");
    error(
        "a splash per can",
        "“splash” at character 3 is not a measure: use ml, litres, g, oz, pints, gallons, teaspoons, tablespoons or caps.",
    );
    error(
        "2 spoons per litre",
        "“spoons” at character 3 is not a measure: use ml, litres, g, oz, pints, gallons, teaspoons, tablespoons or caps.",
    );
    error(
        "20 ml # gallon",
        "“#” at character 7 has no place in a dose, such as 20 ml per gallon.",
    );
    error(
        "20 ml",
        "That says how much feed but not for how much water: add “per litre” or “per gallon”.",
    );
    error("20", "“20” at character 1 needs its measure after it, such as ml or g.");
    error("20 per litre", "“20” at character 1 needs its measure after it, such as ml or g.");
    error("ml per litre", "“ml” at character 1 needs a number before it, such as 20 ml.");
    error(
        "-20 ml per litre",
        "“-” at character 1 would make a dose below nought: there is none.",
    );
    error("−5 ml/l", "“−” at character 1 would make a dose below nought: there is none.");
    error(
        "15-20 ml per gallon",
        "“-” at character 3 makes a range: type one figure, the lower one to be safe.",
    );
    error(
        "5 to 10 ml per litre",
        "“to” at character 3 makes a range: type one figure, the lower one to be safe.",
    );
    error(
        "20 ml per 5 g",
        "“g” at character 13 measures no water: use litres, gallons, pints or your can.",
    );
    error(
        "20 ml per 10",
        "“10” at character 11 measures no water: use litres, gallons, pints or your can.",
    );
    error(
        "20 ml per 0 litres",
        "“litres” at character 13 cannot be none: a dose needs some water.",
    );
    error("1 in 0", "“0” at character 6 cannot be none: a dose needs some water.");
    error("20 ml 30 ml per litre", "“30” at character 7 comes after the dose has ended.");
    error("20 ml per litre litre", "“litre” at character 17 comes after the dose has ended.");
    error("per litre", "“litre” at character 5 needs a number before it, such as 20 ml.");
    error(
        "1:1",
        "That makes 500 in a litre, and labels give 0.02 to 100 ml or g: look at the label again.",
    );
    error(
        "200:1",
        "That makes 995.025 in a litre, and labels give 0.02 to 100 ml or g: look at the label again.",
    );
    error(
        "0 ml per litre",
        "That makes 0 in a litre, and labels give 0.02 to 100 ml or g: look at the label again.",
    );
    error(
        "1 litre per litre",
        "That makes 1000 in a litre, and labels give 0.02 to 100 ml or g: look at the label again.",
    );
    error("1,500 ml per can", "“1,500” could be 1.500 or 1500: type one of those.");
    error(
        "add twenty millilitres of the concentrate to each and every gallon of the water that you use",
        "That is longer than any label says it: type the figures and their measures alone.",
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn a_sign_or_a_number_that_stands_where_none_can_is_told() {
    let error = |typed: &str, sentence: &str| check_dose_error(typed, &TOLD, sentence);
    error("% 5", "“%” at character 1 has no place in a dose, such as 20 ml per gallon.");
    error(
        "1 ml in 5 % water",
        "“%” at character 11 has no place in a dose, such as 20 ml per gallon.",
    );
    error(": 200", "“:” at character 1 has no place in a dose, such as 20 ml per gallon.");
    error("1:5:200", "“:” at character 4 has no place in a dose, such as 20 ml per gallon.");
    error("/ 200", "“/” at character 1 has no place in a dose, such as 20 ml per gallon.");
    error(
        "20 ml/litre/can",
        "“/” at character 12 has no place in a dose, such as 20 ml per gallon.",
    );
    error("ml 20 per litre", "“20” at character 4 comes after the dose has ended.");
    error("1 in 200 litres", "“1” at character 1 needs its measure after it, such as ml or g.");
    error(
        "1/1",
        "That makes 500 in a litre, and labels give 0.02 to 100 ml or g: look at the label again.",
    );
    assert!(
        Rate::parse(&format!("{:>80}", "5 ml per litre"), &TOLD).is_ok(),
        "eighty characters"
    );
    assert_eq!(
        Rate::parse(&format!("{:>81}", "5 ml per litre"), &TOLD),
        Err(RateError::Unreadable(Unreadable::TooLong))
    );
}

#[track_caller]
fn check_grade(typed: &str, numbers: [f64; 3], extras: [f64; 3]) {
    let grade = Grade::parse(typed).unwrap_or_else(|error| panic!("“{typed}”: {error}"));
    let got = [grade.magnesium, grade.calcium, grade.sulphur];
    let same = |one: [f64; 3], other: [f64; 3]| one.iter().zip(other).all(|(one, other)| (one - other).abs() < 1e-4);
    assert!(same(grade.numbers, numbers) && same(got, extras), "“{typed}”: {grade:?}");
}

#[wasm_bindgen_test(unsupported = test)]
fn labels_are_read_as_they_are_printed() {
    const NONE: [f64; 3] = [0.0; 3];
    for typed in [
        "5-2-9",
        "5:2:9",
        "NPK 5:2:9",
        "N-P-K 5-2-9",
        "5 2 9",
        " 5 – 2 – 9 ",
        "5/2/9",
        "5, 2, 9",
        "NPK (5-2-9)",
        "5%-2%-9%",
    ] {
        check_grade(typed, [5.0, 2.0, 9.0], NONE);
    }
    check_grade("5-2-9+2MgO", [5.0, 2.0, 9.0], [1.206_08, 0.0, 0.0]);
    check_grade("5-2-9 + 2 Mg", [5.0, 2.0, 9.0], [2.0, 0.0, 0.0]);
    check_grade("5-2-9+2MgO+4SO3+TE", [5.0, 2.0, 9.0], [1.206_08, 0.0, 1.601_84]);
    check_grade("15.5-0-0 + 26 CaO", [15.5, 0.0, 0.0], [0.0, 18.582_1, 0.0]);
    // 4 % of sulphate, SO₄, are 4 · 32.06 / 96.06 of sulphur.
    check_grade("5-2-9+4SO4", [5.0, 2.0, 9.0], [0.0, 0.0, 1.335]);
    check_grade("5-2-9+4SO4+2MgO", [5.0, 2.0, 9.0], [1.206_08, 0.0, 1.335]);
    check_grade("5-2-9 + 0.02 B, 0.04 Cu, Fe, Mn, Mo and 0.02 Zn", [5.0, 2.0, 9.0], NONE);
    check_grade("20-20-20 with trace elements", [20.0, 20.0, 20.0], NONE);
    check_grade("20-20-20 + trace-elements", [20.0, 20.0, 20.0], NONE);
    check_grade("4,5-2-8", [4.5, 2.0, 8.0], NONE);
    check_grade("4,5, 2, 8", [4.5, 2.0, 8.0], NONE);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_label_may_say_how_p_and_k_are_counted() {
    for (typed, basis) in [
        ("5-2-9", None),
        ("5-2-9 elements", Some(Basis::Elements)),
        ("Elemental 5-2-9", Some(Basis::Elements)),
        ("5-2-9 (oxides)", Some(Basis::Oxides)),
        ("NPK oxide 5-2-9 with trace elements", Some(Basis::Oxides)),
        ("5-2-9 with trace elements", None),
        ("5-2-9 + trace-elements", None),
        ("5-2-9+2MgO+ME elements", None),
        ("5-2-9 TE elements", None),
        ("elements 5-2-9 trace elements", Some(Basis::Elements)),
        ("5-2-9 °", None),
    ] {
        assert_eq!(Grade::basis_in(typed), basis, "{typed}");
        assert!(typed.contains('°') || Grade::parse(typed).is_ok(), "{typed}");
    }
}

#[track_caller]
fn check_label_error(typed: &str, sentence: &str) {
    match Grade::parse(typed) {
        Ok(grade) => panic!("“{typed}” is read as {grade:?}"),
        Err(error) => assert_eq!(error.to_string(), sentence, "“{typed}”"),
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_label_that_cannot_be_is_told_why() {
    check_label_error("", "Type the three numbers of the label, such as 5-2-9.");
    check_label_error(
        "0-0-0",
        "A feed of 0-0-0 holds nothing: look for the three numbers on the label again.",
    );
    check_label_error(
        "60-60-60",
        "That comes to 180 in 100, and no feed can hold more than 100: look at the label again.",
    );
    check_label_error(
        "40-30-25+6S",
        "That comes to 101 in 100, and no feed can hold more than 100: look at the label again.",
    );
    check_label_error(
        "47-2-9",
        "Nitrogen can be 0 to 46 % of a feed: 47 % cannot be right. Look at the label again.",
    );
    check_label_error("-5-2-9", "“-” at character 1 would make a number below nought: a label has none.");
    check_label_error("5--2-9", "“-” at character 3 would make a number below nought: a label has none.");
    check_label_error(
        "NPK -5-2-9",
        "“-” at character 5 would make a number below nought: a label has none.",
    );
    check_label_error(
        "tomato",
        "“tomato” at character 1 has no place in a label: type three numbers, such as 5-2-9, and what follows them, such as +2MgO.",
    );
    check_label_error(
        "5-2-9*",
        "“*” at character 6 has no place in a label: type three numbers, such as 5-2-9, and what follows them, such as +2MgO.",
    );
    check_label_error(
        "5-2",
        "A number is missing: a label gives three, for nitrogen, phosphorus and potassium, such as 5-2-9.",
    );
    check_label_error(
        "NPK",
        "There is no number here: a label gives three, for nitrogen, phosphorus and potassium, such as 5-2-9.",
    );
    check_label_error(
        "5-2-9-2",
        "“2” at character 7 is a fourth number without a name: write what it is, such as +2MgO.",
    );
    check_label_error(
        "5-2-9+MgO",
        "“mgo” at character 7 has no number before it: write how much, such as +2MgO.",
    );
    check_label_error("5-2,500-9", "“2,500” could be 2.500 or 2500: type one of those.");
}

/// Random text of pieces that doses are made of and of signs that are not: nothing may panic, and what is read must lie in the range.
#[wasm_bindgen_test(unsupported = test)]
fn random_text_never_stops_the_reader() {
    const PIECES: [&str; 40] = [
        "1",
        "20",
        "½",
        "1/2",
        "1,5",
        "4.5",
        "0",
        "999999999999999999",
        " ",
        " ",
        " ",
        "ml",
        "l",
        "g",
        "oz",
        "fl",
        "per",
        "in",
        "a",
        "half",
        "cap",
        "can",
        "gallon",
        "US",
        "tsp",
        ":",
        "+",
        "/",
        "-",
        "−",
        "%",
        ".",
        ",",
        "(",
        "é",
        "\u{202e}",
        "🍅",
        "ß",
        "\n",
        "MgO",
    ];
    let tries = if cfg!(target_arch = "wasm32") { 10_000 } else { 100_000 };
    let mut state = 0x9e37_79b9_7f4a_7c15_u64;
    let mut read = 0;
    for _ in 0..tries {
        let mut text = String::new();
        let mut next = || {
            // Xorshift: the same strings on every run.
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            usize::try_from(state % 1_000_003).expect("small")
        };
        for _ in 0..next() % 14 {
            text.push_str(PIECES[next() % PIECES.len()]);
        }
        for told in [&TOLD, &NOTHING_TOLD] {
            match Rate::parse(&text, told) {
                Ok(rate) => {
                    read += 1;
                    let value = rate.per_litre.value;
                    assert!((0.02..=100.0).contains(&value), "“{text}”: {value}");
                }
                // All is told there but what a ratio counts.
                Err(RateError::Asked(ask)) if told.cap.is_some() => assert_eq!(ask, Ask::Ratio, "“{text}”"),
                Err(error) => assert!(!error.to_string().is_empty()),
            }
        }
        if let Ok(grade) = Grade::parse(&text) {
            assert!(grade.numbers.iter().sum::<f64>() <= 100.0, "“{text}”");
        }
    }
    assert!(read > tries / 1000, "only {read} of {tries} random doses could be read");
}

/// How often it is given, and the same water in other words, are no part of a dose.
#[wasm_bindgen_test(unsupported = test)]
fn what_a_label_prints_behind_a_dose_is_left_out() {
    let told = Told {
        country: Some(Country::Uk),
        ..Told::default()
    };
    let rate = |typed: &str| Rate::parse(typed, &told);
    let gallon = rate("20 ml per gallon");
    assert!(gallon.is_ok());
    for typed in [
        "20ml per 1 gallon (4.5 litres)",
        "20 ml per gallon every 7 days",
        "20 ml per gallon (4.5 litres) every week",
        "20 ml every gallon every fortnight",
    ] {
        assert_eq!(rate(typed), gallon, "{typed}");
    }
    assert_eq!(
        rate("20 ml in 4.5 litres of water every 7 days"),
        rate("20 ml in 4.5 litres of water")
    );
    // Before the water is told they are no end.
    assert_eq!(rate("20 ml every 4.5 litres"), rate("20 ml per 4.5 litres"));
    assert!(rate("20 ml (2 caps) per gallon").is_err());
    assert!(rate("20 ml per gallon every gallon").is_err() && rate("20 ml per gallon (UK)").is_ok());
}
