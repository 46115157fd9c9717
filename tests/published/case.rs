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

/// One published number.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Case {
    pub name: String,
    pub source: String,
    pub kind: Kind,
    pub quantity: String,
    inputs: Table,
    /// The number as the source prints it.
    pub expected: f64,
    /// Largest departure from the printed number, in the unit of the case.
    pub tolerance: f64,
    pub unit: String,
    /// The same number in full precision, worked out apart from this program.
    computed: Option<f64>,
    /// Its tolerance in the unit of the case, where it has fewer than seven figures.
    computed_tolerance: Option<f64>,
}

impl Case {
    /// The inputs, none of them used yet.
    pub fn inputs(&self) -> Inputs {
        Inputs::new(self.inputs.clone())
    }

    /// The full-precision value and its tolerance, where the case has one.
    pub fn full_precision(&self) -> Option<(f64, f64)> {
        let value = self.computed?;
        let tolerance = self.computed_tolerance.unwrap_or(FULL_PRECISION_SHARE * value.abs());
        Some((value, tolerance))
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
    fn new(values: Table) -> Self {
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
