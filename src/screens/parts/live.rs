//! What a part is given: values that may change, words, and what to do when it is touched.
//!
//! A Leptos `Signal<T>` costs several kilobytes of program for every type `T`. A part needs only to read a value at each pass
//! over the page, and a shared closure does that for a few bytes: `live(move || count.get())`.

use std::{borrow::Cow, rc::Rc};

/// Something that gives a value. A closure behind a trait of one method: behind `dyn Fn` each would bring two more entries,
/// which nobody calls, and code for them.
trait Give<T> {
    fn give(&self) -> T;
}

impl<T, F: Fn() -> T> Give<T> for F {
    fn give(&self) -> T {
        self()
    }
}

/// A value that may change: it is read anew at each pass over the page.
pub struct Live<T>(Rc<dyn Give<T>>);

impl<T> Clone for Live<T> {
    fn clone(&self) -> Self {
        Self(Rc::clone(&self.0))
    }
}

impl<T> Live<T> {
    /// The value now.
    #[must_use]
    pub fn get(&self) -> T {
        self.0.give()
    }
}

impl<T: Clone + 'static> Live<T> {
    /// A value that never changes.
    #[must_use]
    pub fn fixed(value: T) -> Self {
        live(move || value.clone())
    }
}

/// A value worked out anew whenever it is read.
#[must_use]
pub fn live<T>(value: impl Fn() -> T + 'static) -> Live<T> {
    Live(Rc::new(value))
}

/// Words that never change, or words that do.
#[derive(Clone)]
pub enum Words {
    /// Written once.
    Fixed(Cow<'static, str>),
    /// Written again at every change.
    Live(Live<String>),
}

impl Words {
    /// The words now.
    #[must_use]
    pub fn get(&self) -> String {
        match self {
            Self::Fixed(words) => words.clone().into_owned(),
            Self::Live(words) => words.get(),
        }
    }
}

impl From<&'static str> for Words {
    fn from(words: &'static str) -> Self {
        Self::Fixed(Cow::Borrowed(words))
    }
}

impl From<String> for Words {
    fn from(words: String) -> Self {
        Self::Fixed(Cow::Owned(words))
    }
}

impl From<Live<String>> for Words {
    fn from(words: Live<String>) -> Self {
        Self::Live(words)
    }
}

/// Words worked out anew whenever they are read.
#[must_use]
pub fn words(words: impl Fn() -> String + 'static) -> Words {
    Words::Live(live(words))
}

/// What to do when a part is touched.
pub struct Act<T>(Rc<dyn Fn(T)>);

impl<T> Clone for Act<T> {
    fn clone(&self) -> Self {
        Self(Rc::clone(&self.0))
    }
}

impl<T> Act<T> {
    /// Does it.
    pub fn run(&self, with: T) {
        (self.0)(with);
    }
}

/// Something to do when a part is touched: `act(move |text: String| name.set(text))`.
#[must_use]
pub fn act<T>(what: impl Fn(T) + 'static) -> Act<T> {
    Act(Rc::new(what))
}
