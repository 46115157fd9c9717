//! Writes the changes into a source so that all of them are built at once and a number says which one is in force.

use std::collections::HashSet;
use std::ops::Range;

use syn::visit::Visit as _;

use super::list::Change;
use super::writer::Writer;
use crate::failure::{Failure, Outcome};

/// A source with its changes written in.
pub struct Switched {
    pub text: String,
    /// What was written in, where, and for which changes.
    pub written: Vec<Written>,
    /// The functions that are constant no longer, by name, with the changes in them.
    pub freed: Vec<(String, Vec<usize>)>,
    /// The changes that stand in the text.
    pub placed: HashSet<usize>,
    /// Changes with which the text would be no Rust.
    pub refused: HashSet<usize>,
    /// Changes of one place: where one is reached, all are.
    pub together: Vec<Vec<usize>>,
}

/// A stretch of the written text that is there for some changes.
pub struct Written {
    pub place: Range<usize>,
    pub changes: Vec<usize>,
}

impl Switched {
    /// The changes for which the innermost stretch around a byte of the text was written; nothing outside of all.
    pub fn changes_at(&self, byte: usize) -> &[usize] {
        self.written
            .iter()
            .filter(|written| written.place.contains(&byte))
            .min_by_key(|written| written.place.len())
            .map_or(&[], |written| &written.changes)
    }

    /// Whether a function of this name stopped being constant here, and the changes in it.
    pub fn freed(&self, name: &str) -> Option<&[usize]> {
        self.freed
            .iter()
            .find(|(freed, _)| freed == name)
            .map(|(_, changes)| changes.as_slice())
    }
}

/// The text with the numbered changes written in; a function of `constant` keeps its `const`, and no change is written into it.
///
/// # Errors
///
/// When the text is no Rust.
pub fn write(text: &str, changes: &[(usize, &Change)], constant: &HashSet<String>) -> Outcome<Switched> {
    let file = syn::parse_file(text).map_err(|cause| Failure::new(format!("A source cannot be read: {cause}.")))?;
    let mut writer = Writer::of(text, changes, constant);
    writer.visit_file(&file);
    Ok(writer.assembled())
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::super::list::{Change, Genre};
    use super::{Switched, write};

    fn change(genre: Genre, start: (usize, usize), end: (usize, usize), replacement: &str) -> Change {
        Change {
            name: String::new(),
            file: String::new(),
            genre,
            start,
            end,
            replacement: replacement.to_string(),
        }
    }

    fn written(text: &str, changes: &[Change]) -> Switched {
        let numbered: Vec<(usize, &Change)> = (1..).zip(changes).collect();
        write(text, &numbered, &HashSet::new()).unwrap()
    }

    #[test]
    fn both_operands_are_worked_out_once() {
        let text = "fn f(é: f64, b: f64) -> f64 { é + b * 2.0 }";
        let changes = [
            change(Genre::Binary, (1, 33), (1, 34), "-"),
            change(Genre::Binary, (1, 37), (1, 38), "/"),
        ];
        let switched = written(text, &changes);
        assert_eq!(
            switched.text,
            "fn f(é: f64, b: f64) -> f64 { (match ((é ), ( (match ((b ), ( 2.0)) { (l__, r__) => match crate::switch::at(2) \
             { 2 => { l__ / r__ } _ => { l__ * r__ } } }))) { (l__, r__) => match crate::switch::at(1) { 1 => { l__ - r__ } \
             _ => { l__ + r__ } } }) }"
        );
        let byte = switched.text.find("l__ / r__").unwrap();
        assert_eq!(switched.changes_at(byte), [2]);
        assert_eq!(switched.changes_at(0), [0; 0]);
        assert_eq!(switched.placed, HashSet::from([1, 2]));
    }

    #[test]
    fn a_condition_is_asked_for_its_second_half_as_before() {
        let and = written(
            "fn f(a: bool, b: bool) -> bool { a && b }",
            &[change(Genre::Binary, (1, 36), (1, 38), "||")],
        );
        assert_eq!(
            and.text,
            "fn f(a: bool, b: bool) -> bool { (match a  { l__ => if l__ != crate::switch::on(1) {  b } else { l__ } }) }"
        );
        let bound = "fn f(a: Option<u8>, b: bool) -> bool { if let Some(_) = a && b { b } else { !b } }";
        let bound = written(bound, &[change(Genre::Binary, (1, 59), (1, 61), "||")]);
        assert!(!bound.text.contains("switch") && bound.refused == HashSet::from([1]));
    }

    #[test]
    fn arms_bodies_signs_and_fields_have_their_switches() {
        let arm = written(
            "fn f(a: u8) -> u8 { match a { 1 => 2, _ if a > 3 => 3, _ => a } }",
            &[
                change(Genre::Arm, (1, 31), (1, 38), ""),
                change(Genre::Guard, (1, 44), (1, 49), "true"),
            ],
        );
        assert_eq!(
            arm.text,
            "fn f(a: u8) -> u8 { match a { 1 if !crate::switch::on(1) => 2, _ if (crate::switch::on(2) || (a > 3)) => 3, _ => a } }"
        );
        let body = written(
            "const fn f(a: i8) -> i8 { -a }",
            &[
                change(Genre::Body, (1, 27), (1, 29), "0"),
                change(Genre::Unary, (1, 27), (1, 28), ""),
            ],
        );
        assert_eq!(
            body.text,
            " fn f(a: i8) -> i8 { match crate::switch::at(1) { 1 => { return 0; } _ => {} } (match a { v__ => match crate::switch::at(2) \
             { 2 => { v__ } _ => { -v__ } } }) }"
        );
        assert_eq!(body.freed("f").map(<[usize]>::len), Some(2));
        let field = written(
            "fn f(a: u8) -> P { P { a, ..P::default() } }",
            &[change(Genre::Field, (1, 24), (1, 26), "")],
        );
        assert_eq!(
            field.text,
            "fn f(a: u8) -> P { P { a: if crate::switch::on(1) { let spare__: P = P::default(); spare__.a } else { a }, ..P::default() } }"
        );
    }
}
