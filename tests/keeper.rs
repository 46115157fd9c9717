//! The keeper of the notebook: nothing that it could not open is ever written over, and a full or blocked store is said.

use std::cell::{Cell, RefCell};

use first_truss::notebook::{GroupRecord, Keeper, Notebook, OpenError, Plot, Refused, Slot, Store, open, seal};
use first_truss::quantity::Units;
use wasm_bindgen_test::wasm_bindgen_test;

use crate::keeping::{full_notebook, newer_text};

/// Whether a store refuses to write a slot.
type Refuses = fn(Slot) -> bool;

/// A store in memory that can be filled up, blocked, or made to forget.
#[derive(Default)]
pub struct Memory {
    slots: RefCell<Vec<(Slot, String)>>,
    writings: Cell<usize>,
    refuses: Cell<Option<Refuses>>,
    forgets: Cell<bool>,
    keeps_back: Cell<bool>,
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
    fn read(&self, slot: Slot) -> Result<Option<String>, Refused> {
        if self.keeps_back.get() { Err(Refused) } else { Ok(self.get(slot)) }
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

/// Keeps what is entered in one tab, where nothing comes from another.
fn keep(keeper: &mut Keeper<&Memory>, notebook: &Notebook) -> Result<(), Refused> {
    let mut notebook = notebook.clone();
    keeper.keep(&mut notebook, &mut 0)
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
    assert_eq!(keep(&mut keeper, &Notebook::default()), Ok(()));
    assert_eq!(memory.writings.get(), 0);
    assert_eq!(keep(&mut keeper, &named("one")), Ok(()));
    assert_eq!(memory.writings.get(), 1);
    assert_eq!(keep(&mut keeper, &named("one")), Ok(()));
    assert_eq!(memory.writings.get(), 1, "the same again is not written");
    let (_, start) = Keeper::start(&memory);
    assert_eq!((start.notebook, start.trouble), (named("one"), None));
}

/// What is usual where the grower is stands on an empty page alone, is not written for its own sake, and is no news against another tab's.
#[wasm_bindgen_test(unsupported = test)]
fn an_empty_notebook_is_in_the_units_that_are_usual() {
    let american = Notebook::usual_for("en-US");
    let memory = Memory::default();
    let (mut keeper, start) = Keeper::start_with(&memory, american.clone());
    assert_eq!(start.notebook, american);
    assert_eq!(keep(&mut keeper, &start.notebook), Ok(()));
    assert_eq!(memory.writings.get(), 0);
    let mut mine = start.notebook;
    mine.groups[0].rename("one");
    assert_eq!(keep(&mut keeper, &mine), Ok(()));
    let (_, start) = Keeper::start(&memory);
    assert_eq!(start.notebook, mine, "and stays, wherever the notebook is opened next");
    // Kept units are the grower's, those of Britain too.
    let memory = Memory::holding(&seal(&named("kept"), 5));
    let (_, start) = Keeper::start_with(&memory, american.clone());
    assert_eq!(start.notebook, named("kept"));
    // Two tabs on an empty store: the one that told others is followed.
    let memory = Memory::default();
    let (mut here, start) = Keeper::start_with(&memory, american.clone());
    let (mut there, other) = Keeper::start_with(&memory, american.clone());
    let mut told = other.notebook;
    told.change_units(Units::default());
    assert_eq!(keep(&mut there, &told), Ok(()));
    let mut mine = start.notebook;
    mine.groups[0].rename("one");
    assert_eq!(here.keep(&mut mine, &mut 0), Ok(()));
    assert_eq!((mine.units, mine.groups[0].name.as_str()), (Units::default(), "one"));
    assert_eq!(mine.place(), american.place());
}

#[wasm_bindgen_test(unsupported = test)]
fn the_notebook_of_before_stays_beside_the_new_one_all_visit_long() {
    let memory = Memory::holding(&seal(&named("before"), 5));
    let (mut keeper, start) = Keeper::start(&memory);
    assert_eq!(start.notebook, named("before"));
    for name in ["one", "two", "three"] {
        assert_eq!(keep(&mut keeper, &named(name)), Ok(()));
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
    assert_eq!(keep(&mut keeper, &named("next visit")), Ok(()));
    let before = memory.get(Slot::Before).and_then(|text| open(&text).ok());
    assert_eq!(before.map(|opened| opened.notebook), Some(named("three")));
}

#[wasm_bindgen_test(unsupported = test)]
fn the_notebook_of_before_can_be_kept_ahead_of_the_first_change() {
    let memory = Memory::holding(&seal(&named("before"), 5));
    let (mut keeper, _) = Keeper::start(&memory);
    keeper.keep_before();
    assert_eq!(memory.get(Slot::Before), memory.get(Slot::Current));
    assert_eq!(memory.writings.get(), 1);
    assert_eq!(keep(&mut keeper, &named("one")), Ok(()));
    keeper.keep_before();
    assert_eq!(memory.writings.get(), 2, "once in a visit");
    let before = memory.get(Slot::Before).and_then(|text| open(&text).ok());
    assert_eq!(before.map(|opened| opened.notebook), Some(named("before")));

    // There is nothing to keep of an empty store, nor of a text that could not be opened.
    for text in [None, Some("torn")] {
        let memory = text.map_or_else(Memory::default, Memory::holding);
        let (mut keeper, _) = Keeper::start(&memory);
        keeper.keep_before();
        assert_eq!(memory.get(Slot::Before), None);
    }
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
        assert_eq!(keep(&mut keeper, &named("new")), Ok(()));
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
        assert_eq!(keep(&mut keeper, &named("new")), Ok(()));
    }
    memory.put(Slot::Current, "one damaged text too many");
    let (mut keeper, start) = Keeper::start(&memory);
    assert_eq!(start.trouble, Some(OpenError::Damaged));
    for name in ["one", "two"] {
        assert_eq!(keep(&mut keeper, &named(name)), Err(Refused));
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
    assert_eq!(keep(&mut keeper, &named("new")), Err(Refused));
    assert_eq!(memory.get(Slot::Current).as_deref(), Some("damaged"));

    // The store takes the copy and does not keep it.
    let memory = Memory::holding("damaged");
    memory.forgets.set(true);
    let (mut keeper, start) = Keeper::start(&memory);
    assert!(start.refused);
    assert_eq!(keep(&mut keeper, &named("new")), Err(Refused));
    assert_eq!(memory.get(Slot::Current).as_deref(), Some("damaged"));
    // Once it keeps what it takes, the copy is made first.
    memory.forgets.set(false);
    assert_eq!(keep(&mut keeper, &named("new")), Ok(()));
    assert_eq!(keeper.set_aside_texts(), ["damaged"]);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_blocked_store_is_reported_each_time_and_tried_again() {
    let memory = Memory::default();
    memory.refuses.set(Some(|_| true));
    let (mut keeper, start) = Keeper::start(&memory);
    assert_eq!(start.trouble, None);
    for _ in 0..2 {
        assert_eq!(keep(&mut keeper, &named("one")), Err(Refused));
    }
    memory.refuses.set(None);
    assert_eq!(keep(&mut keeper, &named("one")), Ok(()));
    let (_, start) = Keeper::start(&memory);
    assert_eq!(start.notebook, named("one"));
}

#[wasm_bindgen_test(unsupported = test)]
fn a_store_with_room_for_one_notebook_still_keeps_that_one() {
    let memory = Memory::holding(&seal(&named("before"), 1));
    memory.refuses.set(Some(|slot| slot != Slot::Current));
    let (mut keeper, _) = Keeper::start(&memory);
    assert_eq!(keep(&mut keeper, &named("after")), Ok(()));
    let (_, start) = Keeper::start(&memory);
    assert_eq!(start.notebook, named("after"));

    memory.refuses.set(Some(|_| true));
    let (mut keeper, _) = Keeper::start(&memory);
    assert_eq!(keep(&mut keeper, &named("no room")), Err(Refused));
    let (_, start) = Keeper::start(&memory);
    assert_eq!(start.notebook, named("after"), "what was kept is still whole");
}

#[wasm_bindgen_test(unsupported = test)]
fn a_store_that_does_not_say_what_it_holds_is_not_written_to() {
    let memory = Memory::holding(&seal(&two_groups(), 4));
    memory.keeps_back.set(true);
    let (mut keeper, start) = Keeper::start(&memory);
    assert_eq!((&start.notebook, start.trouble, start.refused), (&Notebook::default(), None, true));
    let mut notebook = named("new");
    let mut position = 0;
    assert_eq!(keeper.keep(&mut notebook, &mut position), Err(Refused));
    assert_eq!(memory.writings.get(), 0);
    memory.keeps_back.set(false);
    assert_eq!(keeper.keep(&mut notebook, &mut position), Ok(()));
    assert_eq!(notebook.plot.name, "new");
    assert_eq!(notebook.groups, two_groups().groups, "what was there is still there");
    assert_eq!(current(&memory), notebook);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_store_that_fills_up_in_the_middle_keeps_the_old_text_and_takes_the_next_when_there_is_room() {
    let memory = Memory::holding(&seal(&named("before"), 1));
    let (mut keeper, start) = Keeper::start(&memory);
    let mut notebook = start.notebook;
    for full in [true, false, true, false] {
        memory.refuses.set(full.then_some(|_| true));
        let old = memory.get(Slot::Current);
        notebook.plot.number.push('1');
        assert_eq!(keeper.keep(&mut notebook, &mut 0), if full { Err(Refused) } else { Ok(()) });
        if full {
            assert_eq!(memory.get(Slot::Current), old, "the old text is whole");
        } else {
            assert_eq!(current(&memory), notebook);
        }
    }
}

fn two_groups() -> Notebook {
    let mut notebook = Notebook::default();
    for name in ["one", "two"] {
        let mut group = GroupRecord::default();
        group.rename(name);
        notebook.add_group(group);
    }
    notebook.remove_group(0);
    notebook
}

fn current(memory: &Memory) -> Notebook {
    let text = memory.get(Slot::Current).expect("a text");
    open(&text).expect("a whole text").notebook
}

/// Two tabs on one store.
fn two_tabs(memory: &Memory) -> [(Keeper<&Memory>, Notebook, usize); 2] {
    [(); 2].map(|()| {
        let (keeper, start) = Keeper::start(memory);
        (keeper, start.notebook, 0)
    })
}

#[wasm_bindgen_test(unsupported = test)]
fn two_tabs_write_without_an_echo_and_lose_nothing() {
    let memory = Memory::holding(&seal(&two_groups(), 1));
    let [(mut here, mut mine, mut at), (mut there, mut theirs, mut on)] = two_tabs(&memory);
    "Marlpit Lane".clone_into(&mut mine.plot.name);
    mine.groups[0].rename("first");
    here.keep(&mut mine, &mut at).expect("room");
    theirs.groups[1].rename("second");
    there.keep(&mut theirs, &mut on).expect("room");
    let before = memory.writings.get();
    for _ in 0..3 {
        here.keep(&mut mine, &mut at).expect("room");
        there.keep(&mut theirs, &mut on).expect("room");
    }
    assert_eq!(memory.writings.get(), before, "taking over is not writing");
    assert_eq!((&mine, &mine), (&theirs, &current(&memory)));
    assert_eq!(mine.plot.name, "Marlpit Lane");
    assert_eq!(
        mine.groups.iter().map(|group| group.name.as_str()).collect::<Vec<_>>(),
        ["first", "second"]
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn the_group_that_is_looked_at_stays_in_view_when_another_tab_takes_one_out_before_it() {
    let memory = Memory::holding(&seal(&two_groups(), 1));
    let [(mut here, mut mine, mut at), (mut there, mut theirs, mut on)] = two_tabs(&memory);
    at = at.saturating_add(1);
    let looked_at = mine.groups[at].clone();
    theirs.remove_group(0);
    there.keep(&mut theirs, &mut on).expect("room");
    here.keep(&mut mine, &mut at).expect("room");
    assert_eq!((at, mine.groups.get(at)), (0, Some(&looked_at)));
    // And when that very group is taken out there is another one in its place.
    let added = theirs.add_group(GroupRecord::default());
    assert_eq!(added, Some(1));
    theirs.remove_group(0);
    there.keep(&mut theirs, &mut on).expect("room");
    here.keep(&mut mine, &mut at).expect("room");
    assert_eq!((at, mine.groups.len()), (0, 1));
}

#[wasm_bindgen_test(unsupported = test)]
fn a_group_that_is_changed_here_stays_when_another_tab_has_taken_it_out() {
    let memory = Memory::holding(&seal(&two_groups(), 1));
    let [(mut here, mut mine, mut at), (mut there, mut theirs, mut on)] = two_tabs(&memory);
    theirs.remove_group(1);
    there.keep(&mut theirs, &mut on).expect("room");
    mine.groups[1].rename("still wanted");
    at = at.saturating_add(1);
    here.keep(&mut mine, &mut at).expect("room");
    assert_eq!(mine.groups.get(at).map(|group| group.name.as_str()), Some("still wanted"));
    assert_eq!(current(&memory), mine);
}

#[wasm_bindgen_test(unsupported = test)]
fn groups_added_in_two_tabs_at_once_are_both_kept_with_numbers_of_their_own() {
    let memory = Memory::holding(&seal(&two_groups(), 1));
    let [(mut here, mut mine, mut at), (mut there, mut theirs, mut on)] = two_tabs(&memory);
    for (notebook, name) in [(&mut mine, "here"), (&mut theirs, "there")] {
        let mut group = GroupRecord::default();
        group.rename(name);
        notebook.add_group(group);
    }
    (at, on) = (at.saturating_add(2), on.saturating_add(2));
    here.keep(&mut mine, &mut at).expect("room");
    there.keep(&mut theirs, &mut on).expect("room");
    let names: Vec<_> = theirs.groups.iter().map(|group| group.name.as_str()).collect();
    assert_eq!(names, ["one", "two", "here", "there"]);
    assert_eq!(theirs.groups[on].name, "there", "the group that is looked at is still the one");
    here.keep(&mut mine, &mut at).expect("room");
    assert_eq!((&mine, mine.groups[at].name.as_str()), (&theirs, "here"));
}

#[wasm_bindgen_test(unsupported = test)]
fn a_store_that_another_hand_has_emptied_or_filled_with_other_text_gets_the_notebook_back() {
    for spoilt in [None, Some("[1,2,3]"), Some("")] {
        let memory = Memory::holding(&seal(&two_groups(), 7));
        let (mut keeper, start) = Keeper::start(&memory);
        let mut notebook = start.notebook;
        memory.slots.borrow_mut().clear();
        if let Some(text) = spoilt {
            memory.put(Slot::Current, text);
        }
        assert_eq!(keeper.keep(&mut notebook, &mut 0), Ok(()));
        assert_eq!(notebook, two_groups());
        assert_eq!(current(&memory), notebook);
        assert_eq!(keeper.take_trouble(), spoilt.map(|_| OpenError::Damaged));
        assert_eq!(keeper.set_aside_texts(), spoilt.map(str::to_owned).into_iter().collect::<Vec<_>>());
        assert_eq!(
            memory.get(Slot::Before),
            None,
            "other text never takes the place of the notebook of before"
        );
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_notebook_begun_anew_after_the_store_was_emptied_is_joined_with_the_one_still_open() {
    let memory = Memory::holding(&seal(&two_groups(), 7));
    let (mut here, start) = Keeper::start(&memory);
    let mut mine = start.notebook;
    memory.slots.borrow_mut().clear();
    let (mut there, start) = Keeper::start(&memory);
    let mut theirs = start.notebook;
    theirs.groups[0].rename("new");
    there.keep(&mut theirs, &mut 0).expect("room");
    here.keep(&mut mine, &mut 0).expect("room");
    let mut names: Vec<_> = mine.groups.iter().map(|group| group.name.clone()).collect();
    names.sort_unstable();
    assert_eq!(names, ["new", "one", "two"]);
    there.keep(&mut theirs, &mut 0).expect("room");
    assert_eq!((&theirs, &current(&memory)), (&mine, &mine));
}

#[wasm_bindgen_test(unsupported = test)]
fn what_a_later_program_writes_meanwhile_is_left_alone() {
    let memory = Memory::holding(&seal(&two_groups(), 7));
    let (mut keeper, start) = Keeper::start(&memory);
    let mut notebook = start.notebook;
    let (newer, _) = newer_text();
    memory.put(Slot::Current, &newer);
    "new".clone_into(&mut notebook.plot.name);
    for _ in 0..2 {
        assert_eq!(keeper.keep(&mut notebook, &mut 0), Err(Refused));
    }
    assert_eq!(memory.get(Slot::Current), Some(newer));
    assert_eq!(set_aside_count(&memory), 0);
    assert_eq!(notebook.plot.name, "new");
}

#[wasm_bindgen_test(unsupported = test)]
fn the_notebook_of_before_is_what_stood_there_before_this_tab_wrote() {
    let memory = Memory::holding(&seal(&named("before"), 1));
    let [(mut here, mut mine, mut at), (mut there, mut theirs, mut on)] = two_tabs(&memory);
    "theirs".clone_into(&mut theirs.plot.name);
    there.keep(&mut theirs, &mut on).expect("room");
    "7".clone_into(&mut mine.plot.number);
    here.keep(&mut mine, &mut at).expect("room");
    let before = memory.get(Slot::Before).and_then(|text| open(&text).ok());
    assert_eq!(before.map(|opened| opened.notebook), Some(named("theirs")));
}

#[wasm_bindgen_test(unsupported = test)]
fn it_is_known_whether_this_visit_has_written() {
    let memory = Memory::holding(&seal(&named("before"), 1));
    let (mut keeper, start) = Keeper::start(&memory);
    assert!(!keeper.has_written());
    assert_eq!(keep(&mut keeper, &start.notebook), Ok(()));
    assert!(!keeper.has_written(), "what is kept already is not written");
    assert_eq!(keep(&mut keeper, &named("one")), Ok(()));
    assert!(keeper.has_written());
}

/// A tab that began with `base` and has written what `change` made of it.
fn tab<'a>(memory: &'a Memory, base: Option<&Notebook>, change: fn(&mut Notebook)) -> (Keeper<&'a Memory>, Notebook) {
    if let Some(base) = base {
        memory.put(Slot::Current, &seal(base, 1));
    }
    let (mut keeper, start) = Keeper::start(memory);
    let mut notebook = start.notebook;
    change(&mut notebook);
    keeper.keep(&mut notebook, &mut 0).expect("room");
    (keeper, notebook)
}

/// What such a tab comes to when it finds instead of its own text that of another, which began as it did and made `other` of it;
/// `now` is what is entered in it meanwhile.
fn crossed(base: Option<&Notebook>, change: fn(&mut Notebook), other: fn(&mut Notebook), now: fn(&mut Notebook)) -> Notebook {
    let (here, there) = (Memory::default(), Memory::default());
    tab(&there, base, other);
    let (mut keeper, mut notebook) = tab(&here, base, change);
    here.put(Slot::Current, &there.get(Slot::Current).expect("a text"));
    now(&mut notebook);
    keeper.keep(&mut notebook, &mut 0).expect("room");
    notebook
}

/// Both wrote at once, and each finds the other's text: they come to the same notebook, whichever of the two it is; but what is being
/// entered now goes before what was written.
#[wasm_bindgen_test(unsupported = test)]
fn two_tabs_that_wrote_at_once_come_to_the_same_notebook() {
    let base = two_groups();
    let [here, there]: [fn(&mut Notebook); 2] = [
        |notebook| {
            "here".clone_into(&mut notebook.plot.name);
            notebook.groups[0].rename("first");
        },
        |notebook| {
            "there".clone_into(&mut notebook.plot.name);
            notebook.groups[1].rename("second");
        },
    ];
    let [mine, theirs] = [(here, there), (there, here)].map(|(change, other)| crossed(Some(&base), change, other, |_| ()));
    assert_eq!(mine, theirs);
    assert_eq!([&mine.groups[0].name, &mine.groups[1].name], ["first", "second"]);
    for (change, other) in [(here, there), (there, here)] {
        let now = crossed(Some(&base), change, other, |notebook| "now".clone_into(&mut notebook.plot.name));
        assert_eq!(now.plot.name, "now");
        assert_eq!([&now.groups[0].name, &now.groups[1].name], ["first", "second"]);
    }
}

/// Both began with nothing in the store: the group that stands there at first is the same in both, and stays out once one has taken it
/// out.
#[wasm_bindgen_test(unsupported = test)]
fn two_tabs_that_began_with_nothing_share_the_first_group() {
    let here: fn(&mut Notebook) = |notebook| {
        let mut group = GroupRecord::default();
        group.rename("one");
        notebook.add_group(group);
        notebook.remove_group(0);
    };
    let there: fn(&mut Notebook) = |notebook| "there".clone_into(&mut notebook.plot.name);
    let both = crossed(None, here, there, |_| ());
    assert_eq!(both.plot.name, "there");
    assert_eq!(both.groups.iter().map(|group| group.name.as_str()).collect::<Vec<_>>(), ["one"]);
}

/// Once the store was emptied nothing is known to be shared: a group that nobody has told anything of is kept like the others.
#[wasm_bindgen_test(unsupported = test)]
fn after_the_store_was_emptied_an_untouched_group_stays_too() {
    let mut base = Notebook::default();
    let mut group = GroupRecord::default();
    group.rename("one");
    base.add_group(group);
    let memory = Memory::holding(&seal(&base, 7));
    let (mut here, start) = Keeper::start(&memory);
    let mut mine = start.notebook;
    memory.slots.borrow_mut().clear();
    here.keep(&mut mine, &mut 0).expect("room");
    let mut other = Notebook::default();
    let mut group = GroupRecord::default();
    group.rename("two");
    other.add_group(group);
    other.remove_group(0);
    memory.put(Slot::Current, &seal(&other, 1));
    here.keep(&mut mine, &mut 0).expect("room");
    let mut names: Vec<_> = mine.groups.iter().map(|group| group.name.as_str()).collect();
    names.sort_unstable();
    assert_eq!(names, ["", "one", "two"]);
}
