//! Why a task stopped, as a sentence for the person who started it.

use std::fmt::{self, Display};
use std::path::Path;

pub type Outcome<T> = Result<T, Failure>;

/// A sentence that says what went wrong and, where it can, what to do.
#[derive(Debug)]
pub struct Failure(String);

impl Failure {
    pub fn new(sentence: impl Into<String>) -> Self {
        Self(sentence.into())
    }

    /// A failure that has been told already.
    pub fn told() -> Self {
        Self(String::new())
    }

    pub fn is_told(&self) -> bool {
        self.0.is_empty()
    }

    /// A failure to do `action` (such as "read") with the file or folder at `path`.
    pub fn at(action: &str, path: &Path, cause: impl Display) -> Self {
        Self(format!("Cannot {action} {}: {cause}.", path.display()))
    }
}

impl Display for Failure {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(&self.0)
    }
}
