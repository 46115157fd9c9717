use super::{Coded, Entry, Field};
use crate::quantity::Units;

/// The word for a thing that is so.
pub(super) const YES: &str = "yes";
/// The word for a thing that is not.
pub(super) const NO: &str = "no";

/// One page of the notebook as it is stored: lines of `word=text`, each word once. Words that this program does not know are
/// passed over, words that are missing stand for what is usual.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Lines(pub Vec<String>);

impl Lines {
    /// Writes a line, unless there is nothing to say.
    pub fn put(&mut self, word: &str, text: &str) {
        if !text.is_empty() {
            // One line each, whatever was pasted.
            let line: String = text
                .chars()
                .map(|character| if character.is_control() { ' ' } else { character })
                .collect();
            self.0.push(word.to_owned() + "=" + &line);
        }
    }

    /// Writes a choice, unless it is the usual one.
    pub fn put_choice<T: Coded + Default>(&mut self, word: &str, choice: T) {
        if choice != T::default() {
            self.put(word, choice.code());
        }
    }

    /// Writes a number field: its text, and the last number that it made where that cannot be read from the text.
    pub fn put_entry(&mut self, field: Field, units: Units, entry: &Entry) {
        self.put(field.word(), entry.text());
        let mut read_back = Entry::default();
        read_back.type_text(field, units, entry.text());
        if let Some(value) = entry.value().filter(|value| read_back.value() != Some(*value)) {
            // All 64 bits, so that what is opened is what was kept.
            self.put(&(field.word().to_owned() + "-held"), &format!("{:x}", value.to_bits()));
        }
    }

    /// The text after a word; empty when the word is not there.
    pub fn get(&self, word: &str) -> &str {
        let after = |line: &'_ String| line.starts_with(word) && line.get(word.len()..=word.len()) == Some("=");
        self.0
            .iter()
            .find(|line| after(line))
            .and_then(|line| line.get(word.len() + 1..))
            .unwrap_or_default()
    }

    /// A choice, or the usual one.
    pub fn choice<T: Coded + Default>(&self, word: &str) -> T {
        T::from_code(self.get(word)).unwrap_or_default()
    }

    /// A number field. A number outside its field's range is not taken.
    pub fn entry(&self, field: Field, units: Units) -> Entry {
        let held = u64::from_str_radix(self.get(&(field.word().to_owned() + "-held")), 16)
            .ok()
            .map(f64::from_bits);
        Entry::kept(field, units, self.get(field.word()), held)
    }
}
