//! The form of the tables.

use std::{cell::RefCell, collections::BTreeSet};

use serde::Deserialize;
use toml::{Table, Value};

/// Tolerance of a full-precision value whose case states none, as a share of the value.
const FULL_PRECISION_SHARE: f64 = 1e-6;

/// Where the expected number of a case comes from.
#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Eq)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// Printed in a standard or in the paper that sets it.
    Standard,
    /// Printed in a handbook.
    Handbook,
    /// Printed in a scientific paper.
    Paper,
    /// Taken from a measured data set.
    Dataset,
    /// Given by an independent open-source library.
    Library,
    /// What growers do, without a study behind it.
    CommonPractice,
    /// A published value quoted from memory.
    FromMemory,
    /// Worked out apart from this program from the formulas it states.
    Computed,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Self; 8] = [
        Self::Standard,
        Self::Handbook,
        Self::Paper,
        Self::Dataset,
        Self::Library,
        Self::CommonPractice,
        Self::FromMemory,
        Self::Computed,
    ];

    /// The word for it in the tables.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Standard => "standard",
            Self::Handbook => "handbook",
            Self::Paper => "paper",
            Self::Dataset => "dataset",
            Self::Library => "library",
            Self::CommonPractice => "common-practice",
            Self::FromMemory => "from-memory",
            Self::Computed => "computed",
        }
    }
}

/// One number, or the numbers of one line of a table.
#[derive(Debug, Deserialize)]
#[serde(untagged)]
enum Numbers {
    One(f64),
    Line(Vec<f64>),
}

impl Numbers {
    fn as_slice(&self) -> &[f64] {
        match self {
            Self::One(number) => std::slice::from_ref(number),
            Self::Line(numbers) => numbers,
        }
    }
}

/// One published number, or one published line of a table along which a single input varies.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Case {
    pub name: String,
    pub source: String,
    pub kind: Kind,
    pub quantity: String,
    inputs: Table,
    /// The input whose list of values runs along the line.
    vary: Option<String>,
    /// The number as the source prints it.
    expected: Option<Numbers>,
    /// Largest departure from the printed number, in the unit of the case.
    tolerance: Option<f64>,
    /// In place of a number: the lowest and the highest that the source gives.
    between: Option<[f64; 2]>,
    /// How far beyond the nearer end of that range the number may lie, as a share of this end.
    beyond: Option<f64>,
    pub unit: String,
    /// The same number in full precision, worked out apart from this program.
    computed: Option<Numbers>,
    /// Its tolerance in the unit of the case, where it has fewer than seven figures.
    computed_tolerance: Option<f64>,
}

/// What one number of a case is worked out from, and what it must be.
#[derive(Debug)]
pub struct Trial {
    /// The inputs, none of them used yet.
    pub inputs: Inputs,
    /// Each range that the number must lie in.
    pub allowed: Vec<Allowed>,
}

/// A range that a number must lie in, in the words of its case.
#[derive(Debug)]
pub struct Allowed {
    pub low: f64,
    pub high: f64,
    pub words: String,
}

impl Allowed {
    fn about(expected: f64, tolerance: f64) -> Self {
        Self {
            low: expected - tolerance,
            high: expected + tolerance,
            words: format!("{expected} ± {tolerance}"),
        }
    }

    fn between([low, high]: [f64; 2], beyond: f64) -> Self {
        Self {
            low: low - beyond * low.abs(),
            high: high + beyond * high.abs(),
            words: format!("{low} to {high} or at most {beyond} of that beyond"),
        }
    }

    /// Whether a number lies in it; a NaN never does.
    pub fn holds(&self, number: f64) -> bool {
        number >= self.low && number <= self.high
    }
}

impl Case {
    /// Each number of the case.
    ///
    /// # Errors
    /// When the case does not say what it expects, or says it twice.
    pub fn trials(&self) -> Result<Vec<Trial>, String> {
        let lines = self.inputs_along_the_line()?;
        let count = lines.len();
        let along = |numbers: &Option<Numbers>| match numbers.as_ref().map(Numbers::as_slice) {
            None => Ok(vec![None; count]),
            Some(numbers) if numbers.len() == count => Ok(numbers.iter().copied().map(Some).collect::<Vec<_>>()),
            Some(numbers) => Err(format!("{} numbers for {count} inputs", numbers.len())),
        };
        let (expected, computed) = (along(&self.expected)?, along(&self.computed)?);
        let trials = lines.into_iter().zip(expected).zip(computed).map(|((inputs, expected), computed)| {
            let mut allowed = Vec::new();
            match (expected, self.tolerance, self.between) {
                (Some(expected), Some(tolerance), None) => allowed.push(Allowed::about(expected, tolerance)),
                (None, None, Some(between)) => allowed.push(Allowed::between(between, self.beyond.unwrap_or(0.0))),
                _ => return Err("give either a number with its tolerance or a range".to_owned()),
            }
            if let Some(value) = computed {
                let tolerance = self.computed_tolerance.unwrap_or(FULL_PRECISION_SHARE * value.abs());
                allowed.push(Allowed::about(value, tolerance));
            }
            Ok(Trial { inputs, allowed })
        });
        trials.collect()
    }

    /// The inputs of each number: one for each value of the input that varies.
    fn inputs_along_the_line(&self) -> Result<Vec<Inputs>, String> {
        let Some(key) = &self.vary else {
            return Ok(vec![Inputs::new(self.inputs.clone())]);
        };
        let Some(Value::Array(values)) = self.inputs.get(key) else {
            return Err(format!("input {key} is to vary but holds no list"));
        };
        Ok(values
            .iter()
            .map(|value| {
                let mut inputs = self.inputs.clone();
                inputs.insert(key.clone(), value.clone());
                Inputs::new(inputs)
            })
            .collect())
    }
}

/// One number that a source prints wrongly, or that follows from an input it prints wrongly.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Misprint {
    pub name: String,
    pub source: String,
    pub quantity: String,
    inputs: Table,
    /// The number that must not come out.
    pub printed: f64,
    pub tolerance: f64,
    pub unit: String,
    /// Why it counts as a misprint.
    #[serde(rename = "reason")]
    _reason: String,
}

impl Misprint {
    /// The inputs, none of them used yet.
    pub fn inputs(&self) -> Inputs {
        Inputs::new(self.inputs.clone())
    }
}

/// The inputs of a case; it remembers which were used.
#[derive(Debug)]
pub struct Inputs {
    values: Table,
    used: RefCell<BTreeSet<String>>,
}

impl Inputs {
    /// Inputs from a table.
    pub fn new(values: Table) -> Self {
        Self {
            values,
            used: RefCell::default(),
        }
    }

    /// Inputs written as a table of their own.
    #[track_caller]
    pub fn from_text(text: &str) -> Self {
        Self::new(text.parse().expect("a table of inputs"))
    }

    /// Whether an input is there; it does not count as used.
    pub fn has(&self, key: &str) -> bool {
        self.values.contains_key(key)
    }

    /// A number.
    pub fn number(&self, key: &str) -> Result<f64, String> {
        match self.take(key)? {
            Value::Float(number) => Ok(*number),
            Value::Integer(_) => self.whole::<i32>(key).map(f64::from),
            other => Err(format!("input {key} is not a number: {other}")),
        }
    }

    /// A number, or `default` where the case leaves it out.
    pub fn number_or(&self, key: &str, default: f64) -> Result<f64, String> {
        if self.has(key) { self.number(key) } else { Ok(default) }
    }

    /// A whole number.
    pub fn whole<T: TryFrom<i64>>(&self, key: &str) -> Result<T, String> {
        let value = self.take(key)?;
        value
            .as_integer()
            .and_then(|whole| T::try_from(whole).ok())
            .ok_or_else(|| format!("input {key} is not a whole number in range: {value}"))
    }

    /// A word.
    pub fn word(&self, key: &str) -> Result<&str, String> {
        let value = self.take(key)?;
        value.as_str().ok_or_else(|| format!("input {key} is not a word: {value}"))
    }

    /// True or false; false where the case leaves it out.
    pub fn flag(&self, key: &str) -> Result<bool, String> {
        if !self.has(key) {
            return Ok(false);
        }
        let value = self.take(key)?;
        value
            .as_bool()
            .ok_or_else(|| format!("input {key} is neither true nor false: {value}"))
    }

    /// Inputs that no calculation asked for.
    pub fn unused(&self) -> Vec<&str> {
        let used = self.used.borrow();
        self.values.keys().map(String::as_str).filter(|key| !used.contains(*key)).collect()
    }

    fn take(&self, key: &str) -> Result<&Value, String> {
        self.used.borrow_mut().insert(key.to_owned());
        self.values.get(key).ok_or_else(|| format!("input missing: {key}"))
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CaseFile {
    case: Vec<Case>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct MisprintFile {
    misprint: Vec<Misprint>,
}

/// Reads a table of cases. Names must differ, so that a failure points at one case.
#[track_caller]
pub fn read_cases(file: &str, text: &str) -> Vec<Case> {
    let cases = toml::from_str::<CaseFile>(text)
        .unwrap_or_else(|error| panic!("{file}: {error}"))
        .case;
    let mut names = BTreeSet::new();
    for case in &cases {
        assert!(names.insert(case.name.as_str()), "{file}: two cases are called “{}”", case.name);
    }
    cases
}

/// Reads a table of misprints.
#[track_caller]
pub fn read_misprints(file: &str, text: &str) -> Vec<Misprint> {
    let misprints = toml::from_str::<MisprintFile>(text)
        .unwrap_or_else(|error| panic!("{file}: {error}"))
        .misprint;
    assert!(!misprints.is_empty(), "{file} holds no misprint");
    misprints
}
