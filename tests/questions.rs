//! Growers' questions that one morning can answer: what the answer must say, and must not say.
//!
//! To add one, write a `[[question]]` in a table under `questions/`. Its inputs are those of the published tables.

use first_truss::almanac::Yesterday;
use first_truss::quantity::{Measure, Units, Volume};
use first_truss::water::{Advice, Dose, Threat};
use serde::Deserialize;
use toml::Table;
use wasm_bindgen_test::wasm_bindgen_test;

use crate::published::ahead;
use crate::published::case::Inputs;
use crate::published::scene::Scene;
use crate::question_table::{self, Between, check, read};

/// One question with what its answer must be.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Question {
    name: String,
    /// What was asked.
    #[serde(rename = "asks")]
    _asks: String,
    /// Who asked or says what the answer must be.
    source: String,
    inputs: Table,
    /// The dose for a plant, litres.
    litres: Option<Between>,
    /// The dose for all plants of the group, litres.
    total_litres: Option<Between>,
    /// What a plant used yesterday, litres.
    used_litres: Option<Between>,
    /// What a plant used over the water that comes easily from its compost.
    share_of_easy_water: Option<Between>,
    /// The dose for a plant and what follows it in the other units, as printed in imperial units.
    printed: Option<[String; 2]>,
    /// The dose for all plants that share a container, as printed in imperial units.
    printed_for_container: Option<[String; 2]>,
    /// Inputs that make another morning of this one, to compare with.
    against: Option<Table>,
    /// This dose over that of the other morning.
    ratio: Option<Between>,
    /// The same for all plants that share a container.
    ratio_for_container: Option<Between>,
    /// Kinds of advice that must be given.
    #[serde(default)]
    must: Vec<String>,
    /// Kinds of advice that must not be given.
    #[serde(default)]
    must_not: Vec<String>,
    /// A quantity of the tables on plans ahead, asked in place of the dose, and what it must be.
    quantity: Option<String>,
    between: Option<Between>,
    /// The sentence, when there is no dose.
    refused: Option<String>,
}

impl question_table::Question for Question {
    fn name(&self) -> &str {
        &self.name
    }

    fn source(&self) -> &str {
        &self.source
    }
}

/// Every kind of advice by its word in the tables.
const KINDS: [&str; 16] = [
    "hold off",
    "water first",
    "container too small",
    "split",
    "in parts",
    "where to pour",
    "every few days",
    "rain did it",
    "tap trusses",
    "set likely poor",
    "damp path",
    "rest tomorrow",
    "went short",
    "blossom end",
    "wet roots",
    "cracking",
];

const fn kind(advice: &Advice) -> &'static str {
    match advice {
        Advice::HoldOff => "hold off",
        Advice::WaterFirst => "water first",
        Advice::ContainerTooSmall { .. } => "container too small",
        Advice::Split { .. } => "split",
        Advice::InParts { .. } => "in parts",
        Advice::Pour(_) => "where to pour",
        Advice::EveryFewDays { .. } => "every few days",
        Advice::RainDidIt { .. } => "rain did it",
        Advice::TapTrusses => "tap trusses",
        Advice::SetLikelyPoor(_) => "set likely poor",
        Advice::DampPath { .. } => "damp path",
        Advice::RestTomorrow { .. } => "rest tomorrow",
        Advice::Threat { what, .. } => match what {
            Threat::Drought => "went short",
            Threat::BlossomEndRot => "blossom end",
            Threat::WetRoots => "wet roots",
            Threat::Cracking => "cracking",
        },
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn questions_on_plants_under_cover() {
    check("under_cover.toml", include_str!("questions/under_cover.toml"), missed);
}

#[wasm_bindgen_test(unsupported = test)]
fn questions_on_plants_outdoors() {
    check("outdoors.toml", include_str!("questions/outdoors.toml"), missed);
}

#[wasm_bindgen_test(unsupported = test)]
fn questions_at_the_edge_of_what_can_be() {
    check("edges.toml", include_str!("questions/edges.toml"), missed);
}

#[wasm_bindgen_test(unsupported = test)]
fn questions_on_the_days_before() {
    check("days.toml", include_str!("questions/days.toml"), missed);
}

#[wasm_bindgen_test(unsupported = test)]
fn questions_on_days_to_come() {
    check("ahead.toml", include_str!("questions/ahead.toml"), missed);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_wrong_answer_is_noticed() {
    let table = "[[question]]\nname = 'q'\nasks = 'a'\nsource = 's'\ninputs = { weather = 'July mixed', plant = 'T' }\n";
    for wrong in [
        "litres = [3.0, 4.0]",
        "used_litres = [3.0, 4.0]",
        "printed = ['7 pints', '']",
        "must = ['hold off']",
        "must = ['no such advice']",
        "must_not = ['no such advice']",
        "refused = 'No.'",
        "quantity = 'away_litres'\nbetween = [0.1, 0.2]",
        "quantity = 'no such quantity'\nbetween = [0.0, 9.9]",
        "",
    ] {
        let questions: Vec<Question> = read("table", &format!("{table}{wrong}"));
        let question = questions.first().expect("one question");
        assert!(missed(question).is_err(), "“{wrong}” passes");
    }
}

/// The scene of a table of inputs, all of which must be used.
fn scene(inputs: &Table) -> Result<Scene, String> {
    let inputs = Inputs::new(inputs.clone());
    let scene = Scene::read(&inputs)?;
    match inputs.unused().as_slice() {
        [] => Ok(scene),
        unused => Err(format!("input never used: {}", unused.join(", "))),
    }
}

fn missed(question: &Question) -> Result<(), String> {
    if let Some(quantity) = &question.quantity {
        return ahead_missed(quantity, &question.inputs, question.between);
    }
    let scene = scene(&question.inputs)?;
    let dose = match (scene.dose(), &question.refused) {
        (Ok(dose), None) => dose,
        (Ok(dose), Some(sentence)) => return Err(format!("{:?} litres in place of “{sentence}”", dose.per_plant)),
        (Err(error), Some(sentence)) if error.to_string() == *sentence => return Ok(()),
        (Err(error), _) => return Err(format!("“{error}”")),
    };
    let mut asked = !question.must.is_empty() || !question.must_not.is_empty();
    let mut within = |what: &str, got: f64, allowed: Option<Between>| match allowed {
        None => Ok(()),
        Some([low, high]) => {
            asked = true;
            if got >= low && got <= high {
                Ok(())
            } else {
                Err(format!("{what}: {got}, not {low} to {high}"))
            }
        }
    };
    let sharing = f64::from(scene.group.container.plants());
    within("litres", dose.per_plant.litres(), question.litres)?;
    within(
        "litres in all",
        dose.per_plant.litres() * f64::from(scene.group.count),
        question.total_litres,
    )?;
    within("litres used", dose.demand.total(), question.used_litres)?;
    within(
        "share of the easy water",
        dose.demand.total() / dose.root_zone.easy_water,
        question.share_of_easy_water,
    )?;
    let (ratio, sharing_ratio) = ratios(question, &dose, sharing)?;
    within("ratio", ratio, question.ratio)?;
    within("ratio for a container", sharing_ratio, question.ratio_for_container)?;
    let printed = |volume: Volume| {
        let measure = Measure::dose(volume, Units::default());
        [format!("{} {}", measure.figure, measure.unit), measure.twin]
    };
    let each = Measure::dose(dose.per_plant, Units::default()).volume.litres();
    for (got, wanted) in [
        (printed(dose.per_plant), &question.printed),
        (printed(Volume::from_litres(each * sharing)), &question.printed_for_container),
    ] {
        if let Some(wanted) = wanted {
            asked = true;
            if got != *wanted {
                return Err(format!("printed {got:?}, not {wanted:?}"));
            }
        }
    }
    if !asked {
        return Err("nothing is asked".to_owned());
    }
    advice_missed(question, &scene.advice().map_err(|error| error.to_string())?)
}

/// A question on days to come.
fn ahead_missed(quantity: &str, inputs: &Table, between: Option<Between>) -> Result<(), String> {
    let inputs = Inputs::new(inputs.clone());
    let got = ahead::answer(quantity, &inputs)?;
    if let [unused, ..] = inputs.unused().as_slice() {
        return Err(format!("input never used: {unused}"));
    }
    let [low, high] = between.ok_or("nothing is asked")?;
    if got >= low && got <= high {
        Ok(())
    } else {
        Err(format!("{quantity}: {got}, not {low} to {high}"))
    }
}

/// The dose over that of the morning to compare with, for a plant and for all that share a container.
fn ratios(question: &Question, dose: &Dose, sharing: f64) -> Result<(f64, f64), String> {
    let Some(against) = &question.against else {
        return Ok((f64::NAN, f64::NAN));
    };
    let mut inputs = question.inputs.clone();
    inputs.extend(against.clone());
    let other = scene(&inputs)?;
    let other_dose = other.dose().map_err(|error| error.to_string())?;
    let ratio = dose.per_plant.litres() / other_dose.per_plant.litres();
    Ok((ratio, ratio * sharing / f64::from(other.group.container.plants())))
}

fn advice_missed(question: &Question, advice: &[Advice]) -> Result<(), String> {
    if let Some(unknown) = question
        .must
        .iter()
        .chain(&question.must_not)
        .find(|word| !KINDS.contains(&word.as_str()))
    {
        return Err(format!("no advice “{unknown}”"));
    }
    let given: Vec<&str> = advice.iter().map(kind).collect();
    let is_given = |word: &&String| given.contains(&word.as_str());
    if let Some(missing) = question.must.iter().find(|word| !is_given(word)) {
        return Err(format!("advice “{missing}” is missing from {given:?}"));
    }
    if let Some(wrong) = question.must_not.iter().find(is_given) {
        return Err(format!("advice “{wrong}” is given, in {given:?}"));
    }
    Ok(())
}

/// A question on nothing but the group: all that is not entered is assumed, and the assumption is said.
#[wasm_bindgen_test(unsupported = test)]
fn a_first_visit_already_has_an_answer_with_its_assumptions() {
    let scene = Scene::read(&Inputs::from_text("morning = '2026-07-16'")).expect("a scene");
    assert_eq!(scene.yesterday, Yesterday::default());
    let dose = scene.dose().expect("an answer");
    assert!(
        dose.per_plant.litres() > 0.3 && dose.per_plant.litres() < 1.5,
        "{:?}",
        dose.per_plant
    );
    assert!(dose.low.litres() < 0.6 * dose.per_plant.litres() && dose.high.litres() > 1.7 * dose.per_plant.litres());
    let said = format!("{:?}", dose.assumptions);
    assert_eq!(said, "[Sky, Temperatures, Size]");
}
