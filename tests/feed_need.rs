//! Where words turn: the day's water, a week's need, K:N, what is wanted in which month, and how much is poured of a feed.

use first_truss::almanac::{CivilDay, STANDARD_LATITUDE};
use first_truss::feed::{
    Contents, Due, Form, Habit, Label, Lean, Need, Nutrient, Portion, Situation, Stage, Stem, Straight, Strength, USUAL_DENSITY,
    enough_a_week, needs, nitrogen_aim, portion, timing, wanted,
};
use first_truss::quantity::Likely;
use first_truss::working::Working;
use wasm_bindgen_test::wasm_bindgen_test;

#[wasm_bindgen_test(unsupported = test)]
fn feed_is_a_part_of_the_days_water_or_all_of_it_or_too_much() {
    for (feed, day, told) in [
        (0.5, 1.0, Portion::Part),
        (0.85, 1.0, Portion::Part),
        (0.86, 1.0, Portion::All),
        (1.2, 1.0, Portion::All),
        (1.21, 1.0, Portion::TooMuch),
        (0.5, 0.0, Portion::TooMuch),
    ] {
        assert_eq!(portion(feed, day), told, "{feed} of {day}");
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_quarter_over_the_need_is_too_much() {
    let need = |share: f64| {
        let likely = |value| Likely {
            low: value,
            value,
            high: value,
        };
        Need {
            nutrient: Nutrient::Phosphorus,
            fed: likely(share),
            needed: likely(1.0),
        }
    };
    assert!(!need(1.25).is_over() && need(1.26).is_over());
    assert!(!need(0.5).is_short() && need(0.49).is_short());
    let enough = |nitrogen: f64, potassium: f64| enough_a_week(&[need(nitrogen), need(9.0), need(potassium)], 5.0);
    assert_eq!(
        [enough(1.25, 2.0), enough(2.0, 1.25), enough(1.26, 2.0), enough(2.0, 2.5)],
        [None, None, Some(4.0), Some(3.0)]
    );
}

/// Hegde 1997: 2.5 to 3 g of nitrogen and 3 to 3.5 g of potassium for a kilogram of fruit; 3 kg over ten weeks of picking; before and
/// after them a share of it (choice): 0.3 without a truss, 0.7 while the first swells, 0.5 at the end.
#[wasm_bindgen_test(unsupported = test)]
fn a_weeks_need_follows_the_stage_and_has_the_range_of_its_source() {
    let strength = Strength {
        feed: Contents::default(),
        spread: (1.0, 1.0),
    };
    let habit = Habit { litres: 1.5, a_week: 2.0 };
    for (stage, share) in [
        (Stage::NoTruss, 0.3),
        (Stage::Swelling, 0.7),
        (Stage::Picking, 1.0),
        (Stage::Late, 0.5),
    ] {
        let [nitrogen, _, potassium] = needs(&strength, habit, stage, 3.0, &mut Working::silent());
        for (need, low, value, high) in [(nitrogen, 0.75, 0.825, 0.9), (potassium, 0.9, 0.975, 1.05)] {
            let got = [need.needed.low, need.needed.value, need.needed.high];
            for (got, wanted) in got.into_iter().zip([low, value, high]) {
                assert!((got - wanted * share).abs() < 1e-12, "{stage:?}: {got}, not {wanted} × {share}");
            }
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn potash_to_nitrogen_leans_one_way_or_neither() {
    for (ratio, lean) in [
        (0.79, Lean::Leaf),
        (0.8, Lean::Even),
        (1.49, Lean::Even),
        (2.5, Lean::Even),
        (2.51, Lean::Potash),
    ] {
        assert_eq!(Lean::of(ratio), lean, "{ratio}");
    }
    // What has no nitrogen leans nowhere.
    assert_eq!(Straight::PotassiumSulphate.contents().potassium_to_nitrogen(), None);
}

#[wasm_bindgen_test(unsupported = test)]
fn more_nitrogen_is_wanted_from_may_to_august_and_by_thin_stems() {
    let of = |month: i8, stem, stage| {
        let day = CivilDay::new(2026, month, 9).expect("a day");
        wanted(stage, Nutrient::Nitrogen, nitrogen_aim(day, STANDARD_LATITUDE, stem))
    };
    let same = |got: (f64, f64), low: f64, high: f64| assert_eq!((got.0.to_bits(), got.1.to_bits()), (low.to_bits(), high.to_bits()));
    same(of(7, None, Stage::Picking), 175.0, 200.0);
    same(of(9, None, Stage::Picking), 150.0, 175.0);
    same(of(4, None, Stage::Picking), 150.0, 200.0);
    same(of(9, Some(Stem::Thin), Stage::Swelling), 125.0, 150.0);
    same(of(7, Some(Stem::Lush), Stage::NoTruss), 60.0, 80.0);
    // Nothing else goes by the month.
    same(wanted(Stage::Picking, Nutrient::Potassium, 0.75), 200.0, 300.0);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_feed_from_the_shelf_is_poured_or_weighed_as_its_label_counts() {
    let label = |form| Label { form, ..Label::default() };
    let (by_volume, is_weighed) = label(Form::ByVolume).measured_out(4.4);
    assert!((by_volume.value - 4.4).abs() < 1e-12 && !is_weighed);
    let (powder, is_weighed) = label(Form::Powder).measured_out(4.4);
    assert!((powder.value - 4.4).abs() < 1e-12 && is_weighed);
    let (by_weight, is_weighed) = label(Form::ByWeight(None)).measured_out(4.4);
    assert!(!is_weighed && (by_weight.value - 4.4 / USUAL_DENSITY.value).abs() < 1e-12);
    assert!((by_weight.low - 4.4 / 1.3).abs() < 1e-12 && (by_weight.high - 4.4 / 1.05).abs() < 1e-12);
    let (known, _) = label(Form::ByWeight(Some(1.2))).measured_out(4.4);
    assert!((known.low - known.high).abs() < 1e-12 && (known.value - 4.4 / 1.2).abs() < 1e-12);
}

/// A weaker can has the tap's own salt all the same.
#[wasm_bindgen_test(unsupported = test)]
fn half_of_a_feed_in_hard_water_is_more_than_half_as_salty() {
    let due = |conductivity: f64, own_conductivity: f64| {
        let situation = Situation {
            stage: Stage::Picking,
            weeks_in_compost: None,
            compost_litres: None,
            stem: None,
            granules: false,
            is_feed: true,
            conductivity: Likely {
                low: conductivity,
                value: conductivity,
                high: conductivity,
            },
            at_half: {
                let half = own_conductivity + (conductivity - own_conductivity) / 2.0;
                Likely {
                    low: half,
                    value: half,
                    high: half,
                }
            },
            own_conductivity,
            habit: Habit { litres: 1.5, a_week: 2.0 },
            last_fed: None,
            is_over: false,
            today: CivilDay::new(2026, 7, 9).expect("a day"),
        };
        let timing = timing(&situation);
        (timing.due, timing.share.to_bits())
    };
    assert_eq!(due(2.5, 0.65), (Due::Today, 1.0_f64.to_bits()));
    assert_eq!(due(2.6, 0.65), (Due::Today, 0.5_f64.to_bits()));
    // Half of it has to be poured without a second thought, or none is.
    assert_eq!(due(5.0, 0.0), (Due::Today, 0.5_f64.to_bits()));
    assert_eq!(due(5.1, 0.0), (Due::Never, 1.0_f64.to_bits()));
    // 0.65 + (4.34 − 0.65) ÷ 2 = 2.495; two hundredths more in the can are one more in half of it.
    assert_eq!(due(4.34, 0.65), (Due::Today, 0.5_f64.to_bits()));
    assert_eq!(due(4.36, 0.65), (Due::Never, 1.0_f64.to_bits()));
}
