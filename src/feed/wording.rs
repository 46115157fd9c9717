//! A line as people type it, cut into numbers, words and signs that know where they stand.

use std::fmt;

use crate::quantity::{NumberError, parse_number};

/// Characters of a label or a dose that are read (limit).
const LONGEST: usize = 80;

/// A piece of typed text, and the place of its first character, counted from 1.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Piece {
    pub(super) at: usize,
    pub(super) text: String,
    pub(super) kind: PieceKind,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum PieceKind {
    /// A number; whether it is a fraction that may follow a whole one.
    Number(f64, bool),
    /// Letters, in small.
    Word,
    /// Any other character but a space.
    Sign(char),
}

/// Typed text that cannot be read, with the place of the trouble.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Misread {
    /// What stands there; empty at the end of the text.
    pub what: String,
    /// The place of its first character, counted from 1.
    pub at: usize,
    /// Why it cannot be read, as the rest of a sentence.
    pub why: &'static str,
}

impl fmt::Display for Misread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "“{}” at character {} {}", self.what, self.at, self.why)
    }
}

/// Why text cannot even be cut into pieces.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unreadable {
    /// More characters than are read.
    TooLong,
    /// A number that could be two.
    Number(NumberError),
}

impl fmt::Display for Unreadable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLong => f.write_str("That is longer than any label says it: type the figures and their measures alone."),
            Self::Number(error) => error.fmt(f),
        }
    }
}

impl Piece {
    /// This piece as what cannot be read.
    pub(super) fn misread(&self, why: &'static str) -> Misread {
        Misread {
            what: self.text.clone(),
            at: self.at,
            why,
        }
    }

    pub(super) const fn number(&self) -> Option<f64> {
        match self.kind {
            PieceKind::Number(number, _) => Some(number),
            _ => None,
        }
    }
}

/// The pieces of a line. With `fractions`, "1/2" and "1 1/2" are one number. A stop that is no decimal mark is left out.
pub(super) fn pieces(text: &str, fractions: bool) -> Result<Vec<Piece>, Unreadable> {
    let characters: Vec<char> = text.chars().collect();
    if characters.len() > LONGEST {
        return Err(Unreadable::TooLong);
    }
    let is_at = |at: usize, is: fn(char) -> bool| characters.get(at).copied().is_some_and(is);
    let mut pieces: Vec<Piece> = Vec::new();
    let mut at = 0;
    while let Some(&character) = characters.get(at) {
        let start = at;
        at += 1;
        let kind = if is_of_number(character) {
            while is_at(at, is_of_number) || (is_at(at, is_mark) && is_at(at + 1, |next| next.is_ascii_digit())) {
                at += 1;
            }
            if fractions && is_at(at, |next| next == '/') && is_part(&characters, start, at) {
                at += 2;
            }
            let number = characters.get(start..at).unwrap_or_default().iter().collect::<String>();
            let value = parse_number(&number).map_err(Unreadable::Number)?.unwrap_or_default();
            PieceKind::Number(value, number.contains('/') || !character.is_ascii_digit())
        } else if is_of_word(character) {
            while is_at(at, is_of_word) || (at == start + 1 && is_at(at, |next| next == '.')) {
                at += 1;
            }
            PieceKind::Word
        } else if matches!(character, ' ' | '\u{a0}' | '.') || character.is_ascii_control() {
            continue;
        } else {
            PieceKind::Sign(if matches!(character, '−' | '–' | '—') {
                '-'
            } else {
                character
            })
        };
        let mut text: String = characters.get(start..at).unwrap_or_default().iter().collect();
        if kind == PieceKind::Word {
            text.make_ascii_lowercase();
            text.retain(|letter| letter != '.');
        }
        if let (PieceKind::Number(part, true), Some(before)) = (kind, pieces.last_mut())
            && let PieceKind::Number(whole, false) = before.kind
        {
            before.kind = PieceKind::Number(whole + part, true);
            continue;
        }
        pieces.push(Piece { at: start + 1, text, kind });
    }
    Ok(pieces)
}

const fn is_of_number(character: char) -> bool {
    character.is_ascii_digit() || matches!(character, '¼' | '½' | '¾' | '⅓' | '⅔' | '⅛' | '⅜' | '⅝' | '⅞')
}

/// Letters; what is no sign of a keyboard counts as one, since the tables of all the world's letters would be heavy.
const fn is_of_word(character: char) -> bool {
    character.is_ascii_alphabetic() || !(character.is_ascii() || is_of_number(character) || matches!(character, '−' | '–' | '—' | '\u{a0}'))
}

const fn is_mark(character: char) -> bool {
    matches!(character, '.' | ',')
}

/// Whether one digit, a stroke and one greater digit stand alone, as in ¾ written as "3/4".
fn is_part(characters: &[char], start: usize, stroke: usize) -> bool {
    let digit = |at: usize| characters.get(at).and_then(|character| character.to_digit(10));
    stroke == start + 1 && digit(stroke + 2).is_none() && digit(start).zip(digit(stroke + 1)).is_some_and(|(part, whole)| part < whole)
}
