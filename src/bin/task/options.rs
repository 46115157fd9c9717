//! The `--name value` pairs that follow a task's name.

use std::str::FromStr;

use crate::failure::{Failure, Outcome};

pub struct Options(Vec<String>);

impl Options {
    pub fn new(arguments: Vec<String>) -> Self {
        Self(arguments)
    }

    /// Takes the value that follows `name`, if `name` was given.
    ///
    /// # Errors
    ///
    /// When the value is missing or cannot be read as a `T`.
    pub fn value<T: FromStr>(&mut self, name: &str) -> Outcome<Option<T>> {
        let Some(place) = self.0.iter().position(|argument| argument == name) else {
            return Ok(None);
        };
        let mut taken = self.0.drain(place..self.0.len().min(place + 2)).skip(1);
        let text = taken.next().ok_or_else(|| Failure::new(format!("{name} needs a value.")))?;
        text.parse()
            .map(Some)
            .map_err(|_| Failure::new(format!("{name} cannot be \"{text}\".")))
    }

    /// Whether `name` was given, which has no value.
    pub fn flag(&mut self, name: &str) -> bool {
        let before = self.0.len();
        self.0.retain(|argument| argument != name);
        self.0.len() < before
    }

    /// Makes sure that nothing is left over.
    ///
    /// # Errors
    ///
    /// Names the first argument that no one asked for.
    pub fn finish(self) -> Outcome<()> {
        match self.0.first() {
            None => Ok(()),
            Some(argument) => Err(Failure::new(format!("This task has no use for \"{argument}\"."))),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Options;

    fn options(arguments: &[&str]) -> Options {
        Options::new(arguments.iter().map(ToString::to_string).collect())
    }

    #[test]
    fn a_value_is_taken_once() {
        let mut options = options(&["--port", "8123"]);
        assert_eq!(options.value::<u16>("--port").unwrap(), Some(8123));
        assert_eq!(options.value::<u16>("--port").unwrap(), None);
        assert!(options.finish().is_ok());
    }

    #[test]
    fn a_flag_is_taken_wherever_it_stands() {
        let mut options = options(&["--accept", "--only", "water"]);
        assert!(options.flag("--accept"));
        assert!(!options.flag("--accept"));
        assert_eq!(options.value::<String>("--only").unwrap().as_deref(), Some("water"));
        assert!(options.finish().is_ok());
    }

    #[test]
    fn what_is_wrong_is_named() {
        let mut missing = options(&["--port"]);
        let failure = missing.value::<u16>("--port").unwrap_err();
        assert_eq!(failure.to_string(), "--port needs a value.");
        let mut unreadable = options(&["--port", "wide"]);
        let failure = unreadable.value::<u16>("--port").unwrap_err();
        assert_eq!(failure.to_string(), "--port cannot be \"wide\".");
        let failure = options(&["--prot", "1"]).finish().unwrap_err();
        assert_eq!(failure.to_string(), "This task has no use for \"--prot\".");
    }
}
