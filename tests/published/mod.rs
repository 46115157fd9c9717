//! Published cases: what the library must give, read from the tables beside this file.
//!
//! To add a case, write a `[[case]]` in one of the tables; a line of a source's table is one case whose `vary` names the
//! input that changes along it. To add a table, put one line into [`published_files!`]. To
//! add a quantity, extend the dispatcher that the table names; a dispatcher is any
//! `fn(&str, &Inputs) -> Result<f64, String>`, and one may hand on what it does not know to another.

pub mod ahead;
mod balance;
pub mod case;
mod dose;
pub mod feed;
pub mod pest;
mod reference;
pub mod scene;
mod season;
mod usual;

use case::{Case, Inputs, Kind, Misprint, read_cases, read_misprints};
use wasm_bindgen_test::wasm_bindgen_test;

/// Works out a quantity from the inputs of a case.
type Answer = fn(&str, &Inputs) -> Result<f64, String>;

/// A table of cases, and what answers them.
struct PublishedFile {
    name: &'static str,
    text: &'static str,
    answer: Answer,
}

/// Lists the tables; each becomes one test of its own and one entry of `FILES`.
macro_rules! published_files {
    ($($test:ident: $file:literal => $answer:path;)+) => {
        /// Every table of published cases.
        const FILES: &[PublishedFile] = &[
            $(PublishedFile { name: $file, text: include_str!($file), answer: $answer }),+
        ];

        $(
            #[wasm_bindgen_test(unsupported = test)]
            fn $test() {
                check(&PublishedFile { name: $file, text: include_str!($file), answer: $answer });
            }
        )+
    };
}

published_files! {
    fao56: "fao56.toml" => reference::answer;
    annex_tables: "annex_tables.toml" => reference::answer;
    cross_library: "cross_library.toml" => reference::answer;
    radiation_equations: "radiation_equations.toml" => reference::answer;
    dose: "dose.toml" => dose::answer;
    practice: "practice.toml" => dose::answer;
    containers: "containers.toml" => dose::answer;
    usual_weather: "usual_weather.toml" => usual::answer;
    season: "season.toml" => season::answer;
    balance: "balance.toml" => balance::answer;
    butt: "butt.toml" => ahead::answer;
    away: "away.toml" => ahead::answer;
    growth: "growth.toml" => ahead::answer;
    feed_chemistry: "feed_chemistry.toml" => feed::answer;
    feed_doses: "feed_doses.toml" => feed::answer;
    feed_salt: "feed_salt.toml" => feed::answer;
    feed_need: "feed_need.toml" => feed::answer;
    feed_shelf: "feed_shelf.toml" => feed::answer;
    pest_degree_days: "pest_degree_days.toml" => pest::answer;
    pest_development: "pest_development.toml" => pest::answer;
    pest_population: "pest_population.toml" => pest::answer;
    pest_repeats: "pest_repeats.toml" => pest::answer;
    pest_law: "pest_law.toml" => pest::answer;
    pest_calendar: "pest_calendar.toml" => pest::answer;
}

/// By cases, and by their numbers as well, so that long lines of computed numbers do not count as one.
#[wasm_bindgen_test(unsupported = test)]
fn at_most_half_of_all_cases_are_computed_from_the_stated_model() {
    let cases: Vec<Case> = FILES.iter().flat_map(|file| read_cases(file.name, file.text)).collect();
    let numbers = |case: &Case| case.trials().map_or(0, |trials| trials.len());
    for (what, weight) in [("cases", (|_| 1) as fn(&Case) -> usize), ("numbers", numbers)] {
        let all: usize = cases.iter().map(weight).sum();
        let computed: usize = cases.iter().filter(|case| case.kind == Kind::Computed).map(weight).sum();
        report(&format!(
            "published {what}: {all} in all, {computed} of them computed from the stated model"
        ));
        assert!(
            2 * computed <= all,
            "{computed} of {all} published {what} are only computed from the stated model"
        );
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn no_misprint_is_reproduced() {
    let failures: Vec<String> = read_misprints("misprints.toml", include_str!("misprints.toml"))
        .iter()
        .filter_map(|misprint| reproduced(misprint).err())
        .collect();
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}

#[wasm_bindgen_test(unsupported = test)]
fn unknown_quantities_and_unused_inputs_are_refused() {
    let inputs = Inputs::from_text("celsius = 20");
    let unknown = result_of(reference::answer, "no_such_quantity", &inputs);
    assert_eq!(unknown, Err("no quantity “no_such_quantity”".to_owned()));

    let inputs = Inputs::from_text("celsius = 20\nspare = 1");
    let unused = result_of(reference::answer, "saturation_vapour_pressure", &inputs);
    assert_eq!(unused, Err("input never used: spare".to_owned()));

    let missing = result_of(reference::answer, "saturation_vapour_pressure", &Inputs::from_text(""));
    assert_eq!(missing, Err("input missing: celsius".to_owned()));
}

/// Runs all cases of a table, prints one line, and fails with every case that missed.
#[track_caller]
fn check(file: &PublishedFile) {
    let cases = read_cases(file.name, file.text);
    assert!(!cases.is_empty(), "{} holds no case", file.name);
    let failures: Vec<String> = cases.iter().filter_map(|case| missed(file, case).err()).collect();
    report(&format!(
        "published cases passed: {} of {} in {} ({})",
        cases.len() - failures.len(),
        cases.len(),
        file.name,
        count_by_kind(&cases)
    ));
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}

/// Compares each number of a case with its printed value and, where there is one, its full-precision value.
fn missed(file: &PublishedFile, case: &Case) -> Result<(), String> {
    let in_case = |message: String| format!("{}: {}: {message}", file.name, case.name);
    for (place, trial) in (1..).zip(case.trials().map_err(in_case)?) {
        let got = result_of(file.answer, &case.quantity, &trial.inputs).map_err(in_case)?;
        for allowed in &trial.allowed {
            if !allowed.holds(got) {
                return Err(in_case(format!(
                    "number {place}: expected {} {}, got {got} ({})",
                    allowed.words, case.unit, case.source
                )));
            }
        }
    }
    Ok(())
}

/// The quantity of a misprint, of any of the sources that have some.
fn misprint_answer(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    reference::answer(quantity, inputs).or_else(|_| feed::answer(quantity, inputs))
}

/// Fails when a misprinted number comes out within its tolerance.
fn reproduced(misprint: &Misprint) -> Result<(), String> {
    let in_misprint = |message: String| format!("misprints.toml: {}: {message}", misprint.name);
    let got = result_of(misprint_answer, &misprint.quantity, &misprint.inputs()).map_err(in_misprint)?;
    if within(got, misprint.printed, misprint.tolerance) {
        return Err(in_misprint(format!(
            "{} is reproduced within {} {}: {got} ({})",
            misprint.printed, misprint.tolerance, misprint.unit, misprint.source
        )));
    }
    Ok(())
}

/// The quantity, or why it cannot be had: unknown, an input missing, wrong or never used.
fn result_of(answer: Answer, quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let value = answer(quantity, inputs)?;
    match inputs.unused().as_slice() {
        [] => Ok(value),
        unused => Err(format!("input never used: {}", unused.join(", "))),
    }
}

/// Whether a number lies within the tolerance; a NaN never does.
fn within(got: f64, expected: f64, tolerance: f64) -> bool {
    (got - expected).abs() <= tolerance
}

/// “standard: 12, computed: 3”, in the order of [`Kind`].
fn count_by_kind(cases: &[Case]) -> String {
    Kind::ALL
        .iter()
        .filter_map(|&kind| {
            let count = cases.iter().filter(|case| case.kind == kind).count();
            (count > 0).then(|| format!("{}: {count}", kind.name()))
        })
        .collect::<Vec<_>>()
        .join(", ")
}

/// Prints one line, to the console of the browser or to standard output.
pub fn report(line: &str) {
    #[cfg(target_arch = "wasm32")]
    wasm_bindgen_test::console_log!("{line}");
    #[cfg(not(target_arch = "wasm32"))]
    println!("{line}");
}
