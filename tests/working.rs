//! The steps behind a number, as they are kept and printed.

use first_truss::working::{Step, Value, Working, value};
use wasm_bindgen_test::wasm_bindgen_test;

/// Two values into one result.
fn radiation(working: &mut Working) -> f64 {
    let values = [value("Kt", 0.7, "", 2), value("Ra", 40.0, "MJ/m²", 1)];
    working.step("Radiation", "Rs = Kt·Ra", &values, value("Rs", 28.0, "MJ/m²", 1), "FAO-56 Eq. 35")
}

#[wasm_bindgen_test(unsupported = test)]
fn a_step_keeps_what_went_in_and_hands_on_what_came_out() {
    let mut working = Working::default();
    let result = radiation(&mut working);
    assert_eq!(result.to_bits(), 28.0_f64.to_bits());
    let [step] = working.steps() else {
        panic!("one step was taken, not {:?}", working.steps());
    };
    assert_eq!(
        (step.title, step.formula, step.source),
        ("Radiation", "Rs = Kt·Ra", "FAO-56 Eq. 35")
    );
    assert_eq!(step.values_line(), "Kt 0.7 · Ra 40 MJ/m²");
    assert_eq!(step.result.printed(), "28 MJ/m²");
}

#[wasm_bindgen_test(unsupported = test)]
fn a_step_without_values_has_an_empty_line() {
    let step = Step {
        title: "",
        formula: "",
        values: Vec::<Value>::new(),
        result: value("x", 1.25, "", 1),
        source: "",
    };
    assert_eq!(step.values_line(), "");
    assert_eq!(step.result.printed(), "1.3");
}

#[wasm_bindgen_test(unsupported = test)]
fn a_silent_working_and_all_that_are_like_it_keep_nothing() {
    let mut silent = Working::silent();
    assert_eq!(radiation(&mut silent).to_bits(), 28.0_f64.to_bits());
    let mut like_it = silent.alike();
    radiation(&mut like_it);
    assert!(silent.steps().is_empty() && like_it.steps().is_empty());
    let mut told = Working::default().alike();
    radiation(&mut told);
    assert_eq!(told.steps().len(), 1);
}

#[wasm_bindgen_test(unsupported = test)]
fn the_steps_of_a_later_part_stand_after_the_earlier() {
    let (mut first, mut later) = (Working::default(), Working::default());
    radiation(&mut first);
    later.step("Loss", "E", &[], value("E", 4.0, "mm", 1), "its source");
    first.extend(later);
    let titles: Vec<&str> = first.steps().iter().map(|step| step.title).collect();
    assert_eq!(titles, ["Radiation", "Loss"]);
}
