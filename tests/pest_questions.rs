//! Growers' questions on pests: which days, and what must and must not be said. The inputs are those of the published tables.

use first_truss::almanac::CivilDay;
use first_truss::pest::{
    Advice, Conflict, Control, DayReading, Deed, Outline, Pest, Population, Product, Programme, Standing, Told, Visit, Warmth, advice,
    introduction,
};
use serde::Deserialize;
use toml::Table;
use wasm_bindgen_test::wasm_bindgen_test;

use crate::published::case::Inputs;
use crate::published::pest::{control, day, label, pest, warmth};
use crate::question_table::{self, Between, check, read};

/// One question with what its answer must be. Days are counted from the first treatment.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Question {
    name: String,
    #[serde(rename = "asks")]
    _asks: String,
    source: String,
    inputs: Table,
    /// Days from the first planned treatment to the second.
    between: Option<Between>,
    /// Treatments with what is repeated.
    treatments: Option<Between>,
    hatched: Option<Between>,
    last_adult: Option<Between>,
    /// The next visit.
    next: Option<Between>,
    /// The last visit.
    last: Option<Between>,
    picked: Option<Between>,
    /// Degree-days of the first day.
    pace: Option<Between>,
    /// What they must not be.
    pace_not: Option<f64>,
    /// Adults of 100 animals.
    adults_percent: Option<Between>,
    /// Days until a living control may come in.
    introduced: Option<Between>,
    #[serde(default)]
    not_introduced: bool,
    #[serde(default)]
    no_picking: bool,
    /// What the visits are planned with in place of what was chosen.
    planned_with: Option<String>,
    /// What fills the gap after the last use.
    filled_with: Option<String>,
    /// Whether that fills the wait between two uses as well.
    #[serde(default)]
    filled_between: bool,
    /// Inputs that make another programme of this one.
    against: Option<Table>,
    hatched_against: Option<Between>,
    #[serde(default)]
    conflicts: Vec<String>,
    #[serde(default)]
    must: Vec<String>,
    #[serde(default)]
    must_not: Vec<String>,
}

impl question_table::Question for Question {
    fn name(&self) -> &str {
        &self.name
    }

    fn source(&self) -> &str {
        &self.source
    }
}

/// `EggsEscape` as it stands in the tables: "eggs escape".
fn in_words(name: &str) -> String {
    let mut words = String::new();
    for sign in name.chars().take_while(|sign| sign.is_alphanumeric()) {
        if sign.is_uppercase() && !words.is_empty() {
            words.push(' ');
        }
        words.extend(sign.to_lowercase());
    }
    words
}

fn kind(advice: Advice) -> String {
    in_words(&format!("{advice:?}"))
}

fn conflict(conflict: Conflict) -> String {
    in_words(&format!("{conflict:?}"))
}

#[wasm_bindgen_test(unsupported = test)]
fn questions_on_pests() {
    check("pest.toml", include_str!("questions/pest.toml"), missed);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_wrong_answer_on_pests_is_noticed() {
    let table = "[[question]]\nname = 'q'\nasks = 'a'\nsource = 's'\ninputs = { pest = 'whitefly', control = 'vacuum', celsius = 20, first = '2026-06-01' }\n";
    for wrong in [
        "between = [5, 6]",
        "treatments = [1, 2]",
        "must = ['label first']",
        "must = ['no such advice']",
        "must_not = ['vacuum safely']",
        "picked = [1, 9]",
        "planned_with = 'water jet'",
        "conflicts = ['uses end']",
        "",
    ] {
        let questions: Vec<Question> = read("table", &format!("{table}{wrong}"));
        assert!(missed(questions.first().expect("one question")).is_err(), "“{wrong}” passes");
    }
}

/// What the inputs of a question make.
struct Asked {
    pest: Pest,
    control: Control,
    beside: Vec<Control>,
    first: CivilDay,
    today: CivilDay,
    deeds: Vec<Deed>,
    products: [Product; 1],
    readings: Vec<DayReading>,
    warmth: Warmth<'static>,
}

impl Asked {
    fn read(table: &Table) -> Result<Self, String> {
        let inputs = Inputs::new(table.clone());
        let first = day(&inputs, "first")?;
        let own = control(inputs.word("control")?)?;
        let mut deeds = Vec::new();
        for (key, control) in [("done", own), ("sprayed", Control::ContactSpray)] {
            if inputs.has(key) {
                deeds.push(Deed {
                    day: day(&inputs, key)?,
                    control,
                    is_done: true,
                    product: u8::from(control.needs_label()),
                });
            }
        }
        let mut readings = Vec::new();
        if inputs.has("coolest") {
            readings.push(DayReading {
                day: first,
                coolest: inputs.number("coolest")?,
                warmest: inputs.number("warmest")?,
            });
        }
        let mut label = label(&inputs)?;
        if inputs.has("names_crop") {
            label.names_crop = if inputs.word("names_crop")? == "no" {
                Told::No
            } else {
                Told::Unknown
            };
        }
        let asked = Self {
            pest: pest(&inputs)?,
            control: own,
            beside: if inputs.has("beside") {
                vec![control(inputs.word("beside")?)?]
            } else {
                Vec::new()
            },
            first,
            today: if inputs.has("today") { day(&inputs, "today")? } else { first },
            deeds,
            products: [Product::first(own, label)],
            readings,
            warmth: warmth(&inputs, &[])?,
        };
        match inputs.unused().as_slice() {
            [] => Ok(asked),
            unused => Err(format!("input never used: {}", unused.join(", "))),
        }
    }

    fn programme(&self) -> Programme<'_> {
        Programme {
            pest: self.pest,
            control: self.control,
            beside: &self.beside,
            first: self.first,
            deeds: &self.deeds,
            products: &self.products,
            warmth: Warmth {
                readings: &self.readings,
                ..self.warmth
            },
            extent: first_truss::pest::Extent::Full,
            chosen: &[],
            elsewhere: &[],
            shared: &[],
            sprayed: &[],
            fills_gaps: true,
        }
    }

    fn since(&self, day: Option<CivilDay>) -> f64 {
        day.map_or(f64::NAN, |day| f64::from(day.days_since(self.first)))
    }
}

fn missed(question: &Question) -> Result<(), String> {
    let asked = Asked::read(&question.inputs)?;
    let programme = asked.programme();
    let outline = programme.outline(asked.today);
    let ahead: Vec<_> = outline.visits.iter().filter(|visit| visit.standing == Standing::Ahead).collect();
    let own: Vec<CivilDay> = ahead
        .iter()
        .filter(|visit| visit.control == outline.control)
        .map(|visit| visit.day)
        .collect();
    let mut is_asked = false;
    let mut within = |what: &str, got: f64, allowed: Option<Between>| match allowed {
        None => Ok(()),
        Some([low, high]) => {
            is_asked = true;
            if got >= low && got <= high {
                Ok(())
            } else {
                Err(format!("{what}: {got}, not {low} to {high}"))
            }
        }
    };
    let between = own
        .get(1)
        .zip(own.first())
        .map_or(f64::NAN, |(second, first)| f64::from(second.days_since(*first)));
    within("days between", between, question.between)?;
    within("treatments", f64::from(u32::try_from(own.len()).unwrap_or(0)), question.treatments)?;
    within("hatched", asked.since(outline.hatched.map(|day| day.central)), question.hatched)?;
    within(
        "last adult",
        asked.since(outline.last_adult.map(|day| day.central)),
        question.last_adult,
    )?;
    within("next", asked.since(outline.next().map(|visit| visit.day)), question.next)?;
    within("last", asked.since(own.last().copied()), question.last)?;
    within("picked", asked.since(outline.pick_after_last), question.picked)?;
    let pace = asked
        .pest
        .species()
        .map_or(f64::NAN, |species| programme.warmth.on(asked.first).degree_days(species.thresholds));
    within("degree-days", pace, question.pace)?;
    let life = asked.pest.species().and_then(|species| species.life.as_ref());
    let adults = life.map_or(f64::NAN, |life| Population::steady(life, 100.0).by_stage()[3]);
    within("adults of 100", adults, question.adults_percent)?;
    let coming = introduction(
        asked.pest,
        asked.control,
        &programme.warmth,
        &sprayed(&asked.deeds),
        false,
        asked.today,
    );
    let introduced = coming.and_then(|coming| coming.day);
    within("introduced", asked.since(introduced), question.introduced)?;
    if let Some(table) = &question.against {
        let mut inputs = question.inputs.clone();
        inputs.extend(table.clone());
        let other = Asked::read(&inputs)?;
        let hatched = other.programme().outline(other.today).hatched;
        within(
            "hatched against",
            other.since(hatched.map(|day| day.central)),
            question.hatched_against,
        )?;
    }
    is_asked |= said_wrongly(question, &asked, &outline, pace, introduced)?;
    if is_asked { Ok(()) } else { Err("nothing is asked".to_owned()) }
}

/// What is no number; tells whether any of it was asked.
fn said_wrongly(question: &Question, asked: &Asked, outline: &Outline, pace: f64, introduced: Option<CivilDay>) -> Result<bool, String> {
    if question.not_introduced && introduced.is_some() {
        return Err("a living control is let in".to_owned());
    }
    if question.no_picking && outline.pick_after_last.or(outline.pick_now).or(outline.pick_after_next).is_some() {
        return Err("a picking day is given".to_owned());
    }
    if question.pace_not.is_some_and(|wrong| (pace - wrong).abs() < 0.05) {
        return Err(format!("{pace} degree-days are those of the mean"));
    }
    if let Some(word) = &question.planned_with
        && outline.control != control(word)?
    {
        return Err(format!("planned with {:?}", outline.control));
    }
    if let Some(word) = &question.filled_with {
        let filler = control(word)?;
        if outline.control == filler || !outline.visits.iter().any(|visit| visit.control == filler) {
            return Err(format!("no gap is filled with {word}"));
        }
    }
    if question.filled_between {
        let own = outline
            .visits
            .iter()
            .filter(|visit| visit.control == outline.control)
            .map(|visit| visit.day);
        let (first, last) = (own.clone().min(), own.max());
        let other = |visit: &&Visit| visit.control != outline.control && Some(visit.day) > first && Some(visit.day) < last;
        if !outline.visits.iter().any(|visit| other(&visit)) {
            return Err("nothing is done between two uses".to_owned());
        }
    }
    let given: Vec<String> = advice(&asked.programme(), outline, asked.today).into_iter().map(kind).collect();
    let conflicts: Vec<String> = outline.conflicts.iter().map(|(_, found)| conflict(*found)).collect();
    if let Some(missing) = question.conflicts.iter().find(|word| !conflicts.contains(word)) {
        return Err(format!("conflict “{missing}” is missing from {conflicts:?}"));
    }
    if let Some(missing) = question.must.iter().find(|word| !given.contains(word)) {
        return Err(format!("advice “{missing}” is missing from {given:?}"));
    }
    if let Some(wrong) = question.must_not.iter().find(|word| given.contains(word)) {
        return Err(format!("advice “{wrong}” is given"));
    }
    Ok(question.not_introduced
        || question.no_picking
        || question.planned_with.is_some()
        || question.filled_with.is_some()
        || !(question.conflicts.is_empty() && question.must.is_empty() && question.must_not.is_empty()))
}

fn sprayed(deeds: &[Deed]) -> Vec<(CivilDay, Control)> {
    let sprays = deeds.iter().filter(|deed| deed.control.is_sprayed());
    sprays.map(|deed| (deed.day, deed.control)).collect()
}
