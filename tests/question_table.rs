//! Tables of growers' questions: read, asked one by one, and told how many were answered.

use std::collections::BTreeSet;

use serde::Deserialize;
use serde::de::DeserializeOwned;

use crate::published::report;

/// The lowest and the highest that an answer may be.
pub type Between = [f64; 2];

/// What every question has, whatever it is about.
pub trait Question: DeserializeOwned {
    /// Its name, unlike any other in its table.
    fn name(&self) -> &str;
    /// Who asked or says what the answer must be.
    fn source(&self) -> &str;
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, bound = "Q: DeserializeOwned")]
struct QuestionFile<Q> {
    question: Vec<Q>,
}

/// Reads a table. Names must differ, so that a failure points at one question.
#[track_caller]
pub fn read<Q: Question>(file: &str, text: &str) -> Vec<Q> {
    let questions = toml::from_str::<QuestionFile<Q>>(text)
        .unwrap_or_else(|error| panic!("{file}: {error}"))
        .question;
    let mut names = BTreeSet::new();
    for question in &questions {
        let name = question.name();
        assert!(names.insert(name), "{file}: two questions are called “{name}”");
    }
    questions
}

/// Asks all questions of a table, prints one line, and fails with every answer that missed.
#[track_caller]
pub fn check<Q: Question>(file: &str, text: &str, missed: impl Fn(&Q) -> Result<(), String>) {
    let questions: Vec<Q> = read(file, text);
    let failures: Vec<String> = questions
        .iter()
        .filter_map(|question| {
            let why = missed(question).err()?;
            Some(format!("{file}: {}: {why} ({})", question.name(), question.source()))
        })
        .collect();
    report(&format!(
        "growers’ questions answered: {} of {} in {file}",
        questions.len() - failures.len(),
        questions.len()
    ));
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}
