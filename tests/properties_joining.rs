//! Properties of joining what two tabs made of one notebook, tried on random notebooks, changes and orders of news.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use first_truss::almanac::{CivilDay, Sky, Sun, Yesterday};
use first_truss::notebook::{
    Entry, Field, GroupRecord, Keeper, Notebook, PestRecord, ProductRecord, Refused, Slot, Store, joined, open, seal,
};
use first_truss::pest::Control;
use first_truss::quantity::Units;
use first_truss::water::Feel;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;

use crate::measures::ALL_UNITS;
use crate::properties_notebook::{any_day, any_notebook};

/// One thing that a grower does. A group is told by its place among those that there are.
#[derive(Clone, Debug)]
enum Deed {
    Plot(String),
    Can(String),
    Sky(Sky),
    Units(Units),
    Add(String),
    Remove(usize),
    Name(usize, String),
    Height(usize, String),
    Trusses(usize, String),
    Feel(usize, Feel),
    /// Waters a group on one of a few days; nothing takes it back.
    Water(usize, i32, Option<f64>),
    /// Puts the feel of a past day right.
    FeelOf(usize, i32, Feel),
    /// Puts the sky of a past day right.
    SkyOf(i32, Sky),
}

/// One of the few days that deeds are about.
fn noted_day(number: i32) -> CivilDay {
    CivilDay::default().days_later(number)
}

fn any_deed() -> impl Strategy<Value = Deed> {
    let text = "[0-9]{1,2}([.,][0-9])?|[a-c]{1,3}|";
    prop_oneof![
        "[a-z]{0,6}".prop_map(Deed::Plot),
        text.prop_map(Deed::Can),
        select(Sky::ALL.to_vec()).prop_map(Deed::Sky),
        select(ALL_UNITS.to_vec()).prop_map(Deed::Units),
        "[a-z]{1,6}".prop_map(Deed::Add),
        (0_usize..8).prop_map(Deed::Remove),
        (0_usize..8, "[a-z]{1,6}").prop_map(|(group, name)| Deed::Name(group, name)),
        (0_usize..8, text).prop_map(|(group, text)| Deed::Height(group, text)),
        (0_usize..8, text).prop_map(|(group, text)| Deed::Trusses(group, text)),
        (0_usize..8, select(vec![Feel::Dry, Feel::Moist, Feel::Sodden])).prop_map(|(group, feel)| Deed::Feel(group, feel)),
        any_noting(),
    ]
}

fn any_noting() -> impl Strategy<Value = Deed> {
    let litres = prop_oneof![3 => (0_u32..40).prop_map(|tenths| Some(f64::from(tenths) / 10.0)), 1 => Just(None)];
    let feel = select(vec![Feel::Dry, Feel::Moist, Feel::Sodden]);
    prop_oneof![
        (0_usize..8, 0_i32..4, litres).prop_map(|(group, day, litres)| Deed::Water(group, day, litres)),
        (0_usize..8, 0_i32..4, feel).prop_map(|(group, day, feel)| Deed::FeelOf(group, day, feel)),
        (0_i32..4, select(Sky::ALL.to_vec())).prop_map(|(day, sky)| Deed::SkyOf(day, sky)),
    ]
}

fn type_into(notebook: &mut Notebook, group: usize, field: Field, text: &str) {
    let units = notebook.units;
    if let Some(entry) = notebook.entry_mut(group, field) {
        entry.type_text(field, units, text);
    }
}

fn does(notebook: &mut Notebook, deed: &Deed) {
    match deed {
        Deed::Plot(name) => notebook.plot.name.clone_from(name),
        Deed::Can(text) => type_into(notebook, 0, Field::Can, text),
        Deed::Sky(sky) => notebook.morning.choose_sky(*sky),
        Deed::Units(units) => notebook.change_units(*units),
        Deed::Add(name) => {
            let mut group = GroupRecord::default();
            group.rename(name);
            notebook.add_group(group);
        }
        Deed::Remove(index) => {
            notebook.remove_group(*index);
        }
        Deed::Name(index, name) => {
            if let Some(group) = notebook.groups.get_mut(*index) {
                group.rename(name);
            }
        }
        Deed::Height(index, text) => type_into(notebook, *index, Field::Height, text),
        Deed::Trusses(index, text) => type_into(notebook, *index, Field::Trusses, text),
        Deed::Feel(index, feel) => {
            if let Some(group) = notebook.groups.get_mut(*index) {
                group.feel = Some(*feel);
            }
        }
        Deed::Water(index, day, litres) => {
            if let Some(id) = notebook.groups.get(*index).map(|group| group.id) {
                notebook.note(noted_day(*day), |page| page.note(id, |group| group.given = *litres));
            }
        }
        Deed::FeelOf(index, day, feel) => {
            if let Some(id) = notebook.groups.get(*index).map(|group| group.id) {
                notebook.note(noted_day(*day), |page| page.note(id, |group| group.feel = Some(*feel)));
            }
        }
        Deed::SkyOf(day, sky) => notebook.note(noted_day(*day), |page| {
            page.note_weather(&Yesterday {
                sun: Some(Sun::Word(*sky)),
                ..page.weather.unwrap_or_default()
            });
        }),
    }
}

/// What is noted of the few days: the sky of each, and of each group that there was at first what it got and how it felt.
fn noted(notebook: &Notebook, ids: &[u32]) -> Vec<Option<String>> {
    let mut noted = Vec::new();
    for page in (0..4).map(|number| notebook.day(noted_day(number))) {
        noted.push(page.and_then(|page| page.weather?.sun).map(|sun| format!("{sun:?}")));
        for id in ids {
            let group = page.and_then(|page| page.group(*id));
            noted.push(group.and_then(|group| group.given).map(|given| format!("{given}")));
            noted.push(group.and_then(|group| group.feel).map(|feel| format!("{feel:?}")));
        }
    }
    noted
}

/// One thing that a grower does about pests. A programme is told by its number.
#[derive(Clone, Debug)]
enum PestDeed {
    Spray(u64, i32),
    CallSame(u64, u64),
    CallOther(u64),
    End(u64),
}

fn any_pest_deed() -> impl Strategy<Value = PestDeed> {
    let id = || 1_u64..5;
    prop_oneof![
        3 => (id(), 0_i32..20).prop_map(|(id, day)| PestDeed::Spray(id, day)),
        3 => (id(), id()).prop_map(|(id, other)| PestDeed::CallSame(id, other)),
        1 => id().prop_map(PestDeed::CallOther),
        1 => id().prop_map(PestDeed::End),
    ]
}

/// Four programmes for the same plants, each with a product of its own.
fn four_programmes() -> Notebook {
    let programme = |id: u64| PestRecord {
        id,
        plants: Some(0),
        products: vec![ProductRecord::unread(1, Control::ContactSpray)],
        ..PestRecord::default()
    };
    Notebook {
        programmes: (1..5).map(programme).collect(),
        ..Notebook::default()
    }
}

fn after_pests(notebook: &Notebook, deeds: &[PestDeed]) -> Notebook {
    let mut notebook = notebook.clone();
    for deed in deeds {
        let at = |notebook: &Notebook, id: u64| notebook.programmes.iter().position(|programme| programme.id == id);
        match *deed {
            PestDeed::Spray(id, day) => {
                if let Some(at) = at(&notebook, id) {
                    notebook.programmes[at].note(noted_day(day), Control::ContactSpray, 1, true);
                }
            }
            PestDeed::CallSame(id, other) => {
                let bottle = at(&notebook, other).map(|at| notebook.programmes[at].products[0].bottle(other));
                if let Some(bottle) = bottle {
                    notebook.call_same(id, 1, bottle);
                }
            }
            PestDeed::CallOther(id) => notebook.call_other(id, 1),
            PestDeed::End(id) => {
                if let Some(at) = at(&notebook, id) {
                    notebook.end_programme(at);
                }
            }
        }
    }
    notebook
}

/// The days on which the product of a programme was used, there and in what was ended.
fn uses_of(programme: &PestRecord) -> Vec<CivilDay> {
    let own = programme.deeds.iter().map(|deed| deed.day);
    own.chain(programme.products[0].used_before.iter().copied()).collect()
}

fn after(notebook: &Notebook, deeds: &[Deed]) -> Notebook {
    let mut notebook = notebook.clone();
    for deed in deeds {
        does(&mut notebook, deed);
    }
    notebook
}

/// As it is once it has been kept: a latitude to half a degree.
fn kept(notebook: &Notebook) -> Notebook {
    open(&seal(notebook, 1)).expect("what was just sealed").notebook
}

/// What one tab alone changes, here the plot and the first group, …
fn changed_here(notebook: &mut Notebook, name: &str, height: &str) {
    notebook.plot.name.push_str(name);
    type_into(notebook, 0, Field::Height, height);
    notebook.morning.thermometer = first_truss::almanac::Thermometer::Inside;
}

/// … and the other: the can, the trusses of the first group, and a group of its own.
fn changed_there(notebook: &mut Notebook, text: &str) {
    type_into(notebook, 0, Field::Can, text);
    type_into(notebook, 0, Field::Trusses, text);
    if let Some(group) = notebook.groups.first_mut() {
        group.feel = Some(Feel::Moist);
    }
    let mut group = GroupRecord::default();
    group.rename("added there");
    notebook.add_group(group);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn joining_with_an_unchanged_side_gives_the_other(base in any_notebook(), deeds in vec(any_deed(), 0..12)) {
        let base = kept(&base);
        let changed = after(&base, &deeds);
        prop_assert_eq!(joined(&base, &changed, &base), changed.clone());
        prop_assert_eq!(joined(&base, &base, &changed), changed.clone());
        prop_assert_eq!(kept(&joined(&base, &changed, &changed)), kept(&changed));
    }

    #[test]
    fn joining_changes_of_different_things_gives_all_of_them_whoever_comes_first(
        base in any_notebook(),
        name in "[a-z]{1,3}",
        height in "[1-6]",
        text in "[1-9]",
    ) {
        let base = kept(&base);
        let (mut here, mut there, mut both) = (base.clone(), base.clone(), base.clone());
        changed_here(&mut here, &name, &height);
        changed_there(&mut there, &text);
        changed_here(&mut both, &name, &height);
        changed_there(&mut both, &text);
        let both = kept(&both);
        prop_assert_eq!(kept(&joined(&base, &here, &there)), both.clone());
        prop_assert_eq!(kept(&joined(&base, &there, &here)), both);
    }

    #[test]
    fn joining_loses_no_group_and_nothing_that_one_side_alone_entered(
        base in any_notebook(),
        here in vec(any_deed(), 0..10),
        there in vec(any_deed(), 0..10),
    ) {
        let base = kept(&base);
        let (here, there) = (after(&base, &here), after(&base, &there));
        let both = joined(&base, &here, &there);
        prop_assert!(!both.groups.is_empty());
        prop_assert_eq!(kept(&both), both.clone(), "it opens as it was kept");
        let group = |notebook: &Notebook, id: u32| notebook.groups.iter().find(|group| group.id == id).cloned();
        for side in [&here, &there] {
            for added in side.groups.iter().filter(|added| group(&base, added.id).is_none()) {
                prop_assert!(both.groups.iter().any(|group| group.name == added.name), "{} was added", added.name);
            }
        }
        for before in &base.groups {
            let sides = [&here, &there].map(|side| group(side, before.id));
            match (&sides, group(&both, before.id)) {
                ([Some(here), Some(there)], Some(both)) => {
                    let name = if here.name == before.name { &there.name } else { &here.name };
                    prop_assert_eq!(&both.name, name);
                    let feel = if here.feel == before.feel { there.feel } else { here.feel };
                    prop_assert_eq!(both.feel, feel);
                }
                ([None, None], after) => prop_assert!(after.is_none()),
                ([Some(only), None] | [None, Some(only)], after) => {
                    prop_assert!(after.is_some() || only.name == before.name && only.feel == before.feel);
                }
                _ => prop_assert!(false, "a group that both have is gone"),
            }
            let is_noted = both.days.iter().any(|page| page.group(before.id).is_some());
            prop_assert_eq!(both.gone(before.id).is_some(), is_noted && group(&both, before.id).is_none());
        }
        let plot = if here.plot == base.plot { &there.plot } else { &here.plot };
        prop_assert_eq!(&both.plot, plot);
    }

    #[test]
    fn joining_loses_no_use_of_a_product_and_leaves_no_name_of_a_name(
        base in vec(any_pest_deed(), 0..8),
        here in vec(any_pest_deed(), 0..8),
        there in vec(any_pest_deed(), 0..8),
    ) {
        let base = kept(&after_pests(&four_programmes(), &base));
        let (here, there) = (after_pests(&base, &here), after_pests(&base, &there));
        let both = joined(&base, &here, &there);
        prop_assert_eq!(kept(&both), both.clone(), "it opens as it was kept");
        for programme in &both.programmes {
            let uses = uses_of(programme);
            for side in [&here, &there] {
                let same = side.programmes.iter().find(|other| other.id == programme.id);
                for day in same.map(uses_of).unwrap_or_default() {
                    prop_assert!(uses.contains(&day), "{day} of {}", programme.id);
                }
            }
            if let Some((id, number)) = programme.products[0].same_as {
                prop_assert_ne!(id, programme.id);
                let named = both.programmes.iter().find(|other| other.id == id).and_then(|other| other.product(number));
                prop_assert!(named.is_none_or(|named| named.same_as.is_none()), "{id} names another");
            }
        }
    }

    #[test]
    fn joining_keeps_of_each_day_and_group_what_one_side_alone_noted(
        base in any_notebook(),
        before in vec(any_noting(), 0..6),
        here in vec(any_noting(), 0..10),
        there in vec(any_noting(), 0..10),
    ) {
        let base = kept(&after(&base, &before));
        let (here, there) = (after(&base, &here), after(&base, &there));
        let both = joined(&base, &here, &there);
        let ids: Vec<_> = base.groups.iter().map(|group| group.id).collect();
        let [was, mine, theirs, now] = [&base, &here, &there, &both].map(|notebook| noted(notebook, &ids));
        for (((was, mine), theirs), now) in was.into_iter().zip(mine).zip(theirs).zip(now) {
            // Where both changed it, the one that writes is right.
            prop_assert_eq!(now, if mine == was { theirs } else { mine });
        }
        prop_assert!(both.days.is_sorted_by(|one, next| one.day < next.day));
        prop_assert_eq!(kept(&both), both);
    }

    #[test]
    fn a_group_added_on_both_sides_keeps_its_own_days(
        base in any_notebook(),
        here in vec(any_noting(), 1..8),
        there in vec(any_noting(), 1..8),
    ) {
        let mut base = kept(&base);
        base.groups.truncate(2);
        let add = |name: &str, deeds: &[Deed]| {
            let mut side = base.clone();
            let mut group = GroupRecord::default();
            group.rename(name);
            let place = side.add_group(group).expect("room");
            for deed in deeds {
                match deed {
                    Deed::Water(_, day, litres) => does(&mut side, &Deed::Water(place, *day, *litres)),
                    Deed::FeelOf(_, day, feel) => does(&mut side, &Deed::FeelOf(place, *day, *feel)),
                    _ => {}
                }
            }
            side
        };
        let (here, there) = (add("added here", &here), add("added there", &there));
        let both = joined(&base, &here, &there);
        for (side, name) in [(&here, "added here"), (&there, "added there")] {
            let id = |notebook: &Notebook| notebook.groups.iter().find(|group| group.name == name).map(|group| group.id);
            let of = |notebook: &Notebook| {
                let id = id(notebook).expect("the group");
                // Without the sky, which belongs to no group.
                noted(notebook, &[id]).into_iter().enumerate().filter(|(place, _)| place % 3 != 0).collect::<Vec<_>>()
            };
            prop_assert_eq!(of(&both), of(side), "{}", name);
        }
        prop_assert_eq!(kept(&both), both);
    }

    #[test]
    fn joining_evenings_and_mornings_keeps_the_new_morning(
        base in any_notebook(),
        today in any_day(),
        evening in vec(any_deed(), 0..6),
        morning in vec(any_deed(), 0..6),
    ) {
        let mut base = kept(&base);
        let yesterday = today.yesterday();
        base.morning.day = Some(yesterday);
        base.clock_behind = None;
        let late = after(&base, &evening);
        let mut turned = base.clone();
        turned.turn_to(today);
        let early = after(&turned, &morning);
        for both in [joined(&base, &early, &late), joined(&base, &late, &early)] {
            prop_assert_eq!(both.morning.day, Some(today));
            prop_assert_eq!(both.morning.sky, early.morning.sky, "of this morning only what was entered this morning");
            let feel_of = |notebook: &Notebook, id: u32| notebook.groups.iter().find(|group| group.id == id).map(|group| group.feel);
            for group in &early.groups {
                if base.groups.iter().any(|before| before.id == group.id) && feel_of(&late, group.id).is_some() {
                    prop_assert_eq!(feel_of(&both, group.id), Some(group.feel));
                }
            }
        }
    }

    #[test]
    fn lines_and_pages_of_a_later_program_outlive_any_joining(
        base in any_notebook(),
        here in vec(any_deed(), 0..8),
        there in vec(any_deed(), 0..8),
    ) {
        let mut base = kept(&base);
        base.unknown = vec!["later=yes".to_owned()];
        base.unknown_pages = vec![
            vec!["page harvest".to_owned(), "id=9".to_owned(), "kilograms=2".to_owned()],
            vec!["page harvest".to_owned(), "id=10".to_owned(), "kilograms=3".to_owned()],
        ];
        for group in &mut base.groups {
            group.unknown = vec!["trained=double".to_owned()];
        }
        prop_assert_eq!(&kept(&base), &base);
        let (here, mut there) = (after(&base, &here), after(&base, &there));
        there.unknown_pages.push(vec!["page harvest".to_owned(), "id=11".to_owned()]);
        let both = joined(&base, &here, &there);
        prop_assert_eq!(&both.unknown, &base.unknown);
        prop_assert_eq!(&both.unknown_pages, &there.unknown_pages);
        for group in &both.groups {
            let was_there = base.groups.iter().any(|before| before.id == group.id);
            prop_assert_eq!(!group.unknown.is_empty(), was_there);
        }
        prop_assert_eq!(kept(&both), both);
    }
}

/// The writings to one store in their order, as its tabs hear of them: each after a while of its own.
#[derive(Default)]
struct Wire {
    /// Who wrote, and what.
    written: RefCell<Vec<(usize, String)>>,
}

/// The store as one tab sees it. It shows a writing of another tab once that has arrived, unless this one has written later.
struct View {
    wire: Rc<Wire>,
    tab: usize,
    arrived: Rc<Cell<usize>>,
}

impl Store for View {
    fn read(&self, slot: Slot) -> Result<Option<String>, Refused> {
        let written = self.wire.written.borrow();
        let seen = |&(at, (tab, _)): &(usize, &(usize, String))| *tab == self.tab || at < self.arrived.get();
        let last = written.iter().enumerate().rfind(seen);
        Ok(last.map(|(_, (_, text))| text.clone()).filter(|_| slot == Slot::Current))
    }

    fn write(&self, slot: Slot, text: &str) -> Result<(), Refused> {
        if slot == Slot::Current {
            self.wire.written.borrow_mut().push((self.tab, text.to_owned()));
        }
        Ok(())
    }
}

struct Tab {
    keeper: Keeper<View>,
    notebook: Notebook,
    position: usize,
    arrived: Rc<Cell<usize>>,
}

impl Tab {
    fn open(wire: &Rc<Wire>, tab: usize) -> Self {
        let arrived = Rc::new(Cell::new(wire.written.borrow().len()));
        let view = View {
            wire: Rc::clone(wire),
            tab,
            arrived: Rc::clone(&arrived),
        };
        let (keeper, start) = Keeper::start(view);
        Self {
            keeper,
            notebook: start.notebook,
            position: 0,
            arrived,
        }
    }

    fn keep(&mut self) {
        self.keeper
            .keep(&mut self.notebook, &mut self.position)
            .expect("the store takes all");
    }

    /// So many writings arrive, and the tab is told once.
    fn hear(&mut self, wire: &Wire, writings: usize) {
        let all = wire.written.borrow().len();
        self.arrived.set((self.arrived.get() + writings).min(all));
        self.keep();
    }
}

/// What happens in or to a tab.
#[derive(Clone, Debug)]
enum Event {
    Does(Deed),
    Hears(usize),
}

fn any_event() -> impl Strategy<Value = Event> {
    prop_oneof![any_deed().prop_map(Event::Does), (1_usize..4).prop_map(Event::Hears)]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn two_tabs_come_to_one_notebook_in_whatever_order_they_hear_of_each_other(
        base in prop::option::of(any_notebook()),
        events in vec((0_usize..2, any_event()), 0..16),
    ) {
        let wire = Rc::new(Wire::default());
        if let Some(base) = &base {
            wire.written.borrow_mut().push((9, seal(base, 3)));
        }
        let mut tabs = [Tab::open(&wire, 0), Tab::open(&wire, 1)];
        let mut added = Vec::new();
        for (number, (tab, event)) in events.iter().enumerate() {
            let tab = &mut tabs[*tab];
            match event {
                // Each name once, so that it can be looked for; nobody takes one out.
                Event::Does(Deed::Add(_)) => {
                    if tab.notebook.groups.len() < Notebook::MOST_GROUPS {
                        added.push(format!("added {number}"));
                    }
                    does(&mut tab.notebook, &Deed::Add(format!("added {number}")));
                    tab.keep();
                }
                Event::Does(Deed::Remove(_) | Deed::Name(..)) => {}
                Event::Does(deed) => {
                    does(&mut tab.notebook, deed);
                    tab.keep();
                }
                Event::Hears(writings) => tab.hear(&wire, *writings),
            }
        }
        let mut rounds = 0;
        let mut before = usize::MAX;
        while before != wire.written.borrow().len() {
            before = wire.written.borrow().len();
            for tab in &mut tabs {
                tab.hear(&wire, usize::MAX / 2);
            }
            rounds += 1;
            prop_assert!(rounds < 6, "the tabs answer each other for ever");
        }
        let [here, there] = &tabs;
        prop_assert_eq!(&here.notebook, &there.notebook);
        let stored = wire.written.borrow().last().map(|(_, text)| open(text).expect("whole").notebook);
        if let Some(stored) = stored {
            prop_assert_eq!(&stored, &kept(&here.notebook));
        }
        for name in &added {
            prop_assert!(here.notebook.groups.iter().any(|group| group.name == *name), "{name} is lost");
        }
    }
}

#[test]
fn the_entry_that_is_being_written_wins_over_an_older_one_with_its_number() {
    let base = Notebook::default();
    let (mut here, mut there) = (base.clone(), base.clone());
    for text in ["4", "4 or 5"] {
        type_into(&mut here, 0, Field::Height, text);
    }
    type_into(&mut there, 0, Field::Height, "3");
    let height = |notebook: &Notebook| notebook.entry(0, Field::Height).cloned();
    let here_height = height(&here);
    assert_eq!(height(&joined(&base, &here, &there)), here_height);
    assert!(here_height.as_ref().and_then(Entry::value).is_some());
    assert_eq!(height(&joined(&base, &there, &here)), height(&there));
}
