//! The keeper of the notebook: nothing that it could not open is ever written over, and a full or blocked store is said.

use std::cell::{Cell, RefCell};

use first_truss::notebook::{Keeper, Notebook, OpenError, Plot, Refused, Slot, Store, open, seal};
use wasm_bindgen_test::wasm_bindgen_test;

use crate::keeping::{full_notebook, newer_text};

/// Whether a store refuses to write a slot.
type Refuses = fn(Slot) -> bool;

/// A store in memory that can be filled up, blocked, or made to forget.
#[derive(Default)]
struct Memory {
    slots: RefCell<Vec<(Slot, String)>>,
    writings: Cell<usize>,
    refuses: Cell<Option<Refuses>>,
    forgets: Cell<bool>,
}

impl Memory {
    fn holding(current: &str) -> Self {
        let memory = Self::default();
        memory.put(Slot::Current, current);
        memory
    }

    fn put(&self, slot: Slot, text: &str) {
        let mut slots = self.slots.borrow_mut();
        slots.retain(|(other, _)| *other != slot);
        slots.push((slot, text.to_owned()));
    }

    fn get(&self, slot: Slot) -> Option<String> {
        let slots = self.slots.borrow();
        slots.iter().find(|(other, _)| *other == slot).map(|(_, text)| text.clone())
    }
}

impl Store for &Memory {
    fn read(&self, slot: Slot) -> Option<String> {
        self.get(slot)
    }

    fn write(&self, slot: Slot, text: &str) -> Result<(), Refused> {
        if self.refuses.get().is_some_and(|refuses| refuses(slot)) {
            return Err(Refused);
        }
        self.writings.set(self.writings.get() + 1);
        if !self.forgets.get() {
            self.put(slot, text);
        }
        Ok(())
    }
}

fn set_aside_count(memory: &Memory) -> usize {
    (0..=u8::MAX).filter(|&number| memory.get(Slot::SetAside(number)).is_some()).count()
}

fn named(name: &str) -> Notebook {
    Notebook {
        plot: Plot {
            name: name.to_owned(),
            ..Plot::default()
        },
        ..Notebook::default()
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_first_visit_keeps_nothing_until_something_is_entered() {
    let memory = Memory::default();
    let (mut keeper, start) = Keeper::start(&memory);
    assert_eq!((start.notebook, start.trouble), (Notebook::default(), None));
    assert_eq!(keeper.keep(&Notebook::default()), Ok(()));
    assert_eq!(memory.writings.get(), 0);
    assert_eq!(keeper.keep(&named("one")), Ok(()));
    assert_eq!(memory.writings.get(), 1);
    assert_eq!(keeper.keep(&named("one")), Ok(()));
    assert_eq!(memory.writings.get(), 1, "the same again is not written");
    let (_, start) = Keeper::start(&memory);
    assert_eq!((start.notebook, start.trouble), (named("one"), None));
}

#[wasm_bindgen_test(unsupported = test)]
fn the_notebook_of_before_stays_beside_the_new_one_all_visit_long() {
    let memory = Memory::holding(&seal(&named("before"), 5));
    let (mut keeper, start) = Keeper::start(&memory);
    assert_eq!(start.notebook, named("before"));
    for name in ["one", "two", "three"] {
        assert_eq!(keeper.keep(&named(name)), Ok(()));
        let before = memory.get(Slot::Before).map(|text| open(&text));
        assert_eq!(before.and_then(Result::ok).map(|opened| opened.notebook), Some(named("before")));
        let current = memory.get(Slot::Current).map(|text| open(&text));
        assert_eq!(current.and_then(Result::ok).map(|opened| opened.notebook), Some(named(name)));
    }
    let revision = memory
        .get(Slot::Current)
        .and_then(|text| open(&text).ok())
        .map(|opened| opened.revision);
    assert_eq!(revision, Some(8), "three writings after the fifth");
    let (mut keeper, _) = Keeper::start(&memory);
    assert_eq!(keeper.keep(&named("next visit")), Ok(()));
    let before = memory.get(Slot::Before).and_then(|text| open(&text).ok());
    assert_eq!(before.map(|opened| opened.notebook), Some(named("three")));
}

#[wasm_bindgen_test(unsupported = test)]
fn damaged_text_is_set_aside_before_anything_is_written_over_it() {
    let sealed = seal(&full_notebook(), 9);
    let damaged = sealed.get(..sealed.len() / 2).expect("ASCII there").to_owned();
    let (newer, version) = newer_text();
    for (text, trouble) in [(damaged, OpenError::Damaged), (newer, OpenError::Newer { version })] {
        let memory = Memory::holding(&text);
        let (mut keeper, start) = Keeper::start(&memory);
        assert_eq!((start.notebook, start.trouble), (Notebook::default(), Some(trouble)));
        assert_eq!(
            memory.get(Slot::Current),
            Some(text.clone()),
            "untouched until something is entered"
        );
        assert_eq!(keeper.set_aside_texts(), std::slice::from_ref(&text));
        assert_eq!(keeper.keep(&named("new")), Ok(()));
        assert_eq!(memory.get(Slot::SetAside(0)), Some(text.clone()), "exactly as it was");
        let (keeper, start) = Keeper::start(&memory);
        assert_eq!((start.notebook, start.trouble), (named("new"), None));
        assert_eq!(keeper.set_aside_texts(), [text]);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn the_same_damaged_text_takes_one_place_only() {
    let memory = Memory::holding("damaged");
    for _ in 0..10 {
        let (_, start) = Keeper::start(&memory);
        assert_eq!(start.trouble, Some(OpenError::Damaged));
    }
    assert_eq!(set_aside_count(&memory), 1);
}

#[wasm_bindgen_test(unsupported = test)]
fn when_no_place_is_left_to_set_text_aside_it_is_not_written_over() {
    let memory = Memory::default();
    for number in 0..Slot::MOST_SET_ASIDE {
        memory.put(Slot::Current, &format!("damaged {number}"));
        let (mut keeper, _) = Keeper::start(&memory);
        assert_eq!(keeper.keep(&named("new")), Ok(()));
    }
    memory.put(Slot::Current, "one damaged text too many");
    let (mut keeper, start) = Keeper::start(&memory);
    assert_eq!(start.trouble, Some(OpenError::Damaged));
    for name in ["one", "two"] {
        assert_eq!(keeper.keep(&named(name)), Err(Refused));
    }
    assert_eq!(memory.get(Slot::Current).as_deref(), Some("one damaged text too many"));
    let kept: Vec<_> = (0..Slot::MOST_SET_ASIDE).map(|number| format!("damaged {number}")).collect();
    assert_eq!(keeper.set_aside_texts(), kept);
    assert_eq!(set_aside_count(&memory), usize::from(Slot::MOST_SET_ASIDE));
}

#[wasm_bindgen_test(unsupported = test)]
fn text_whose_copy_is_not_safe_is_not_written_over() {
    let memory = Memory::holding("damaged");
    memory.refuses.set(Some(|slot| matches!(slot, Slot::SetAside(_))));
    let (mut keeper, _) = Keeper::start(&memory);
    assert_eq!(keeper.keep(&named("new")), Err(Refused));
    assert_eq!(memory.get(Slot::Current).as_deref(), Some("damaged"));

    let memory = Memory::holding("damaged");
    memory.forgets.set(true);
    let (mut keeper, _) = Keeper::start(&memory);
    memory.forgets.set(false);
    assert_eq!(
        keeper.keep(&named("new")),
        Err(Refused),
        "the store took the copy and did not keep it"
    );
    assert_eq!(memory.get(Slot::Current).as_deref(), Some("damaged"));
}

#[wasm_bindgen_test(unsupported = test)]
fn a_blocked_store_is_reported_each_time_and_tried_again() {
    let memory = Memory::default();
    memory.refuses.set(Some(|_| true));
    let (mut keeper, start) = Keeper::start(&memory);
    assert_eq!(start.trouble, None);
    for _ in 0..2 {
        assert_eq!(keeper.keep(&named("one")), Err(Refused));
    }
    memory.refuses.set(None);
    assert_eq!(keeper.keep(&named("one")), Ok(()));
    let (_, start) = Keeper::start(&memory);
    assert_eq!(start.notebook, named("one"));
}

#[wasm_bindgen_test(unsupported = test)]
fn a_store_with_room_for_one_notebook_still_keeps_that_one() {
    let memory = Memory::holding(&seal(&named("before"), 1));
    memory.refuses.set(Some(|slot| slot != Slot::Current));
    let (mut keeper, _) = Keeper::start(&memory);
    assert_eq!(keeper.keep(&named("after")), Ok(()));
    let (_, start) = Keeper::start(&memory);
    assert_eq!(start.notebook, named("after"));

    memory.refuses.set(Some(|_| true));
    let (mut keeper, _) = Keeper::start(&memory);
    assert_eq!(keeper.keep(&named("no room")), Err(Refused));
    let (_, start) = Keeper::start(&memory);
    assert_eq!(start.notebook, named("after"), "what was kept is still whole");
}
