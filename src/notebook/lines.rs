use super::{Coded, Entry, Field};
use crate::almanac::CivilDay;
use crate::quantity::Units;

/// The word for a thing that is so.
pub(super) const YES: &str = "yes";
/// The word for a thing that is not.
pub(super) const NO: &str = "no";

/// The line that begins a page; after it may come the kind of the page.
pub(super) const PAGE: &str = "page";
/// The word of the number that tells the pages of one kind apart.
pub(super) const ID: &str = "id";
/// Lines that a page has room for from the start: as many as a day of eight groups, poured and felt, has (choice).
const USUAL_LINES: usize = 24;
/// What follows the word of a field in the word of its last good number.
const HELD: &str = "-held";
/// What the words begin with that a page may hold several times, each with another text.
const SEVERAL: [&str; 3] = ["done", "skipped", "treated-"];

/// One page of the notebook as it is stored: the line that begins it, then lines of `word=text`, each word once but those of
/// [`SEVERAL`]. Words that are missing stand for what is usual; those that this program does not know are kept as they are.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Lines {
    /// `page`, and a word for its kind if it is neither the plot nor a group.
    pub head: String,
    /// The lines that follow.
    pub lines: Vec<String>,
}

impl Default for Lines {
    fn default() -> Self {
        Self::begun(PAGE)
    }
}

/// A page as it is read: lines of the text in which it stands, or of a page.
#[derive(Clone, Debug)]
pub(super) struct Page<'a> {
    /// As in [`Lines`].
    pub head: &'a str,
    /// The lines that follow.
    pub lines: Vec<&'a str>,
}

impl<'a> Page<'a> {
    /// The pages of a text, unless something stands before the first.
    pub fn all_in(text: &'a str) -> Option<Vec<Self>> {
        let mut pages: Vec<Self> = Vec::new();
        for line in text.lines() {
            // A line of a page has a sign that its first line has not.
            if line.starts_with(PAGE) && !line.contains('=') {
                let lines = Vec::with_capacity(USUAL_LINES);
                pages.push(Self { head: line, lines });
            } else {
                pages.last_mut()?.lines.push(line);
            }
        }
        Some(pages)
    }

    /// The text after a word; empty when the word is not there.
    pub fn get(&self, word: &str) -> &'a str {
        text_after(self.lines.iter().copied(), word)
    }

    /// Takes the text after a word out of the page; empty when the word is not there.
    pub fn take(&mut self, word: &str) -> &'a str {
        let text = self.get(word);
        self.lines.retain(|line| parts(line).0 != word);
        text
    }

    /// Takes out whether something is so.
    pub fn flag(&mut self, word: &str) -> bool {
        self.take(word) == YES
    }

    /// Takes out a day, if there is one.
    pub fn day(&mut self, word: &str) -> Option<CivilDay> {
        self.take(word).parse().ok()
    }

    /// Takes out a choice that was told, if one was.
    pub fn told<T: Coded>(&mut self, word: &str) -> Option<T> {
        T::from_code(self.take(word))
    }

    /// Takes out a choice, or the usual one.
    pub fn choice<T: Coded + Default>(&mut self, word: &str) -> T {
        T::from_code(self.take(word)).unwrap_or_default()
    }

    /// Takes out a number field. A number outside its field's range is not taken.
    pub fn entry(&mut self, field: Field, units: Units) -> Entry {
        let held = u64::from_str_radix(self.take(&(field.word().to_owned() + HELD)), 16);
        Entry::kept(field, units, self.take(field.word()), held.ok().map(f64::from_bits))
    }

    /// What nobody has taken: a later program wrote it.
    pub fn left(self) -> Vec<String> {
        self.lines.into_iter().map(str::to_owned).collect()
    }
}

/// The word and the text of a line.
pub(super) fn parts(line: &str) -> (&str, &str) {
    line.split_once('=').unwrap_or((line, ""))
}

fn text_after<'a>(mut lines: impl Iterator<Item = &'a str>, word: &str) -> &'a str {
    let line = lines.find(|line| parts(line).0 == word);
    line.map(parts).unwrap_or_default().1
}

/// The word of a line, and for a last good number the word of its field: the two are one thing. What may stand several times is
/// one thing with its text, done or left out.
pub(super) fn stem(line: &str) -> &str {
    if let Some(rest) = SEVERAL.iter().find_map(|begins| line.strip_prefix(begins)) {
        return rest;
    }
    let word = parts(line).0;
    word.strip_suffix(HELD).unwrap_or(word)
}

impl Lines {
    /// An empty page.
    pub fn begun(head: &str) -> Self {
        Self {
            head: head.to_owned(),
            lines: Vec::with_capacity(USUAL_LINES),
        }
    }

    /// The page as it is read.
    pub fn page(&self) -> Page<'_> {
        Page {
            head: &self.head,
            lines: self.lines.iter().map(String::as_str).collect(),
        }
    }

    /// Writes a line, unless there is nothing to say.
    pub fn put(&mut self, word: &str, text: &str) {
        if !text.is_empty() {
            let mut line = String::with_capacity(word.len() + 1 + text.len());
            line += word;
            line += "=";
            if text.contains(char::is_control) {
                // One line each, whatever was pasted.
                line.extend(text.chars().map(|character| if character.is_control() { ' ' } else { character }));
            } else {
                line += text;
            }
            self.lines.push(line);
        }
    }

    /// Writes that something is so, if it is.
    pub fn put_flag(&mut self, word: &str, is_so: bool) {
        self.put(word, if is_so { YES } else { "" });
    }

    /// Writes a day, if there is one.
    pub fn put_day(&mut self, word: &str, day: Option<CivilDay>) {
        self.put(word, &day.map(|day| day.to_string()).unwrap_or_default());
    }

    /// Writes a choice that was told, even the usual one.
    pub fn put_told<T: Coded>(&mut self, word: &str, choice: Option<T>) {
        self.put(word, choice.map(Coded::code).unwrap_or_default());
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
            self.put(&(field.word().to_owned() + HELD), &format!("{:x}", value.to_bits()));
        }
    }

    /// The text after a word; empty when the word is not there.
    pub fn get(&self, word: &str) -> &str {
        text_after(self.lines.iter().map(String::as_str), word)
    }
}
