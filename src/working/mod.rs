//! The steps behind a number, built by the calculation itself and never a second copy of it.
//!
//! A calculation pushes a [`Step`] at the point where it works a value out, with the very numbers it used. A screen prints
//! the steps; nothing recomputes them.

use crate::quantity::decimal;

/// A number that went into a step or came out of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Value {
    /// Its symbol in the formula, such as "Ra".
    pub symbol: &'static str,
    /// The number, in `unit`.
    pub amount: f64,
    /// Its unit as printed after the number; empty for a pure number.
    pub unit: &'static str,
    /// Decimals worth printing.
    pub decimals: u8,
}

impl Value {
    /// The number and unit: "18.2 MJ/m²".
    #[must_use]
    pub fn printed(&self) -> String {
        let number = decimal(self.amount, usize::from(self.decimals));
        if self.unit.is_empty() {
            number
        } else {
            format!("{number} {}", self.unit)
        }
    }
}

/// A value for a step, with its symbol, unit and printed decimals.
#[must_use]
pub const fn value(symbol: &'static str, amount: f64, unit: &'static str, decimals: u8) -> Value {
    Value {
        symbol,
        amount,
        unit,
        decimals,
    }
}

/// One step: what is worked out, how, from what, with which result, on whose word.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What this step finds, in words.
    pub title: &'static str,
    /// The formula in its source's symbols.
    pub formula: &'static str,
    /// The values put in.
    pub values: Vec<Value>,
    /// What came out.
    pub result: Value,
    /// Where the formula and its constants come from.
    pub source: &'static str,
}

impl Step {
    /// The values put in, as one line: "Kt 0.7 · Ra 40 MJ/m²".
    #[must_use]
    pub fn values_line(&self) -> String {
        let mut line = String::new();
        for value in &self.values {
            if !line.is_empty() {
                line.push_str(" · ");
            }
            line.push_str(value.symbol);
            line.push(' ');
            line.push_str(&value.printed());
        }
        line
    }
}

/// The steps behind one number, in the order in which they were taken.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Working {
    steps: Vec<Step>,
    silent: bool,
}

impl Working {
    /// One that keeps nothing: for the many days of a season whose steps nobody reads.
    #[must_use]
    pub const fn silent() -> Self {
        Self {
            steps: Vec::new(),
            silent: true,
        }
    }

    /// An empty one that keeps steps only if this one does.
    #[must_use]
    pub const fn alike(&self) -> Self {
        Self {
            steps: Vec::new(),
            silent: self.silent,
        }
    }

    /// Records a step and hands its result on, so that the printed number and the used number are one.
    pub fn step(&mut self, title: &'static str, formula: &'static str, values: &[Value], result: Value, source: &'static str) -> f64 {
        if !self.silent {
            self.steps.push(Step {
                title,
                formula,
                values: values.to_vec(),
                result,
                source,
            });
        }
        result.amount
    }

    /// All steps.
    #[must_use]
    pub fn steps(&self) -> &[Step] {
        &self.steps
    }

    /// Appends the steps of a later part of the same calculation.
    pub fn extend(&mut self, later: Self) {
        self.steps.extend(later.steps);
    }
}
