//! Groups that were removed: whose it is what was noted of them, for as long as anything is.

use first_truss::almanac::CivilDay;
use first_truss::notebook::{Done, Field, GroupRecord, GroupSeason, Notebook, joined, open, seal};
use first_truss::pest::{Control, Pest};
use first_truss::quantity::{UnitSystem, Units};
use first_truss::water::{Exposure, Feel, Place};
use wasm_bindgen_test::wasm_bindgen_test;

fn july(day: i8) -> CivilDay {
    CivilDay::new(2026, 7, day).expect("a day")
}

/// A notebook on the twentieth of July with groups of these names, numbered from nought, of which each got so many litres on some days.
fn notebook(names: &[&str], poured: &[(i8, u32, f64)]) -> Notebook {
    let mut notebook = Notebook::default();
    notebook.groups[0].rename(names[0]);
    for name in &names[1..] {
        add(&mut notebook, name);
    }
    notebook.turn_to(july(20));
    for (day, id, litres) in poured {
        pour(&mut notebook, *day, *id, *litres);
    }
    notebook
}

fn add(notebook: &mut Notebook, name: &str) {
    let mut group = GroupRecord::default();
    group.rename(name);
    notebook.add_group(group).expect("room");
}

fn pour(notebook: &mut Notebook, day: i8, id: u32, litres: f64) {
    notebook.note(july(day), |page| page.note(id, |group| group.given = Some(litres)));
}

#[track_caller]
fn remove(notebook: &mut Notebook, name: &str) -> GroupRecord {
    let index = notebook.groups.iter().position(|group| group.name == name).expect("the group");
    notebook.remove_group(index).expect("another is left")
}

#[track_caller]
fn opened(notebook: &Notebook) -> Notebook {
    open(&seal(notebook, 1)).expect("just sealed").notebook
}

/// The groups that stand and those that are gone, by number and name.
fn told(notebook: &Notebook) -> [Vec<(u32, &str)>; 2] {
    [
        notebook.groups.iter().map(|group| (group.id, group.name.as_str())).collect(),
        notebook.gone.iter().map(|gone| (gone.id, gone.name.as_str())).collect(),
    ]
}

/// What is noted of a number, day by day.
fn poured(notebook: &Notebook, id: u32) -> Vec<(u8, f64)> {
    let given = notebook
        .days
        .iter()
        .filter_map(|page| Some((page.day.day(), page.group(id)?.given?)));
    given.collect()
}

#[wasm_bindgen_test(unsupported = test)]
fn a_removed_group_is_remembered_while_something_is_noted_of_it() {
    let mut notebook = notebook(&["Glass", "Wall", "Herbs"], &[(8, 0, 1.0), (8, 1, 2.0), (9, 1, 2.5)]);
    let units = notebook.units;
    notebook.groups[1].plants.type_text(Field::Plants, units, "4");
    notebook.groups[1].place = Place::Outdoors {
        exposure: Exposure::default(),
    };
    let before = notebook.clone();
    let wall = remove(&mut notebook, "Wall");
    remove(&mut notebook, "Herbs");
    assert_eq!(notebook.gone, [wall], "of the herbs nothing is noted");
    assert_eq!(notebook.gone(1).map(GroupRecord::count), Some(4));
    assert_eq!((notebook.gone(0), notebook.gone(2)), (None, None));
    assert_eq!(notebook.days, before.days, "what was noted stays");
    let text = seal(&notebook, 1);
    assert!(text.contains("\npage gone\nid=1\nname=Wall\nplants=4\n"), "{text}");
    assert!(
        text.contains("\nnext-id=3\n"),
        "programs that know nothing of it do not give its number away"
    );
    assert_eq!(opened(&notebook), notebook);
    notebook.note(july(8), |page| page.note(1, |group| group.given = None));
    assert_eq!(opened(&notebook), notebook, "one day is left");
    notebook.note(july(9), |page| page.note(1, |group| group.given = None));
    assert_eq!(opened(&notebook).gone, []);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_removed_group_keeps_its_measures_in_other_units() {
    let mut notebook = notebook(&["Glass", "Wall"], &[(8, 1, 2.0)]);
    let imperial = notebook.units;
    notebook.groups[1].pot_size.type_text(Field::PotSize, imperial, "2.5");
    let mut wall = remove(&mut notebook, "Wall");
    let metric = Units {
        system: UnitSystem::Metric,
        ..imperial
    };
    notebook.change_units(metric);
    wall.change_units(imperial, metric);
    assert_eq!(notebook.gone, [wall]);
    assert_eq!(opened(&notebook), notebook);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_group_that_is_put_back_is_gone_no_more() {
    let mut notebook = notebook(&["Glass", "Wall", "Herbs"], &[(8, 1, 2.0), (8, 2, 0.5)]);
    let before = notebook.clone();
    let herbs = remove(&mut notebook, "Herbs");
    let wall = remove(&mut notebook, "Wall");
    assert_eq!(told(&notebook)[1], [(1, "Wall"), (2, "Herbs")], "by their numbers");
    notebook.restore_group(herbs);
    assert_eq!(told(&notebook)[1], [(1, "Wall")]);
    notebook.restore_group(wall);
    assert_eq!(notebook, before);
}

/// What another program wrote: a group that stands is not gone, whatever a page says; a number is given once; and what cannot be read
/// of pages or lines is kept.
#[wasm_bindgen_test(unsupported = test)]
fn pages_of_removed_groups_are_read_with_care() {
    let gone = |id: u32, unknown: &[&str]| GroupRecord {
        id,
        unknown: unknown.iter().map(|line| (*line).to_owned()).collect(),
        ..GroupRecord::default()
    };
    let mut notebook = notebook(&["Glass"], &[(8, 0, 1.0), (8, 7, 2.0)]);
    notebook.gone = vec![gone(0, &["harvest=3"]), gone(5, &["harvest=4"]), gone(6, &[]), gone(7, &[])];
    let pages = [vec!["page gone", "id=7", "name=twice"], vec!["page gone", "id=x", "name=no number"]];
    notebook.unknown_pages = pages.map(|lines| lines.into_iter().map(str::to_owned).collect()).to_vec();
    let read = opened(&notebook);
    assert_eq!(read.gone, [gone(5, &["harvest=4"]), gone(7, &[])]);
    assert_eq!(read.unknown_pages, notebook.unknown_pages);
    assert_eq!((notebook.next_id, read.next_id), (1, 8));
    assert_eq!(opened(&read), read);
}

/// A notebook of two groups with thirty days of 2025 noted, of which one was removed, and so many days of 2026.
fn two_seasons(days: i32) -> Notebook {
    let first = |year: i16| CivilDay::new(year, 5, 1).expect("a day");
    let mut notebook = notebook(&["Glass", "Wall", "Herbs"], &[]);
    for (begun, ids, days) in [(first(2025), [0, 1], 30), (first(2026), [0, 2], days)] {
        for (id, day) in ids
            .into_iter()
            .flat_map(|id| (0..days).map(move |number| (id, begun.days_later(number))))
        {
            notebook.note(day, |page| page.note(id, |group| group.given = Some(0.5)));
        }
    }
    remove(&mut notebook, "Wall");
    remove(&mut notebook, "Herbs");
    notebook
}

#[wasm_bindgen_test(unsupported = test)]
fn a_season_that_is_summed_up_knows_whose_it_was() {
    let mut notebook = two_seasons(14);
    notebook.turn_to(july(21));
    let group = |id: u32, name: &str| GroupSeason {
        id,
        name: name.to_owned(),
        plants: 1,
        days: 30,
        given: 15.0,
        ..GroupSeason::default()
    };
    let [season] = notebook.seasons.as_slice() else {
        panic!("one season")
    };
    assert_eq!(season.groups, [group(0, "Glass"), group(1, "Wall")]);
    assert_eq!(told(&notebook)[1], [(2, "Herbs")], "of the wall nothing is noted any more");
    assert_eq!(opened(&notebook), notebook);
    add(&mut notebook, "Beans");
    assert_eq!(told(&notebook)[0], [(0, "Glass"), (3, "Beans")], "a number is never given twice");
}

#[wasm_bindgen_test(unsupported = test)]
fn the_season_so_far_tells_of_all_plants_up_to_today() {
    let notebook = two_seasons(10);
    let first = CivilDay::new(2026, 5, 1).expect("a day");
    let days = |today: CivilDay| {
        let season = notebook.season_so_far(today)?;
        let groups = season
            .groups
            .iter()
            .map(|group| (group.id, group.name.clone(), group.plants, group.days));
        Some((season.first, season.last, groups.collect::<Vec<_>>()))
    };
    let both = |days: u32| vec![(0, "Glass".to_owned(), 1, days), (2, "Herbs".to_owned(), 1, days)];
    assert_eq!(days(first.yesterday()), None, "a winter lies between");
    assert_eq!(days(first), Some((first, first, both(1))));
    assert_eq!(
        days(first.days_later(3)),
        Some((first, first.days_later(3), both(4))),
        "later notes are not of it"
    );
    let last = first.days_later(9);
    assert_eq!(days(last.days_later(90)), Some((first, last, both(10))));
    assert_eq!(days(last.days_later(91)), None);
    assert_eq!(Notebook::default().season_so_far(first), None);
}

/// One tab removed a group of which nothing was noted, and the other had noted something of it meanwhile.
#[wasm_bindgen_test(unsupported = test)]
fn what_the_other_tab_noted_of_a_removed_group_is_its_own() {
    let base = notebook(&["Glass", "Wall", "Herbs"], &[]);
    let (mut here, mut there) = (base.clone(), base.clone());
    remove(&mut here, "Wall");
    remove(&mut here, "Herbs");
    pour(&mut there, 19, 1, 2.0);
    for both in [joined(&base, &here, &there), joined(&base, &there, &here)] {
        assert_eq!(told(&both), [vec![(0, "Glass")], vec![(1, "Wall")]]);
        assert_eq!(poured(&both, 1), [(19, 2.0)]);
        assert_eq!(opened(&both), both);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_group_that_the_other_tab_changed_or_put_back_is_not_gone() {
    let base = notebook(&["Glass", "Wall"], &[(8, 1, 2.0)]);
    let (mut here, mut there) = (base.clone(), base.clone());
    let wall = remove(&mut here, "Wall");
    there.groups[1].rename("West wall");
    for both in [joined(&base, &here, &there), joined(&base, &there, &here)] {
        assert_eq!(told(&both), [vec![(0, "Glass"), (1, "West wall")], vec![]]);
    }

    // Both know that it is gone. One puts it back, while the other notes something else.
    let base = here;
    let (mut here, mut there) = (base.clone(), base.clone());
    here.restore_group(wall);
    pour(&mut there, 19, 0, 1.0);
    for both in [joined(&base, &here, &there), joined(&base, &there, &here)] {
        assert_eq!(told(&both), [vec![(0, "Glass"), (1, "Wall")], vec![]]);
        assert_eq!((poured(&both, 0), poured(&both, 1)), (vec![(19, 1.0)], vec![(8, 2.0)]));
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_group_that_both_tabs_removed_is_gone_once() {
    let base = notebook(&["Glass", "Wall"], &[(8, 1, 2.0)]);
    let (mut here, mut there) = (base.clone(), base.clone());
    here.groups[1].rename("West");
    there.groups[1].rename("East");
    remove(&mut here, "West");
    remove(&mut there, "East");
    assert_eq!(told(&joined(&base, &here, &there)), [vec![(0, "Glass")], vec![(1, "West")]]);

    // What a third tab added and removed again came to both.
    let mut third = base.clone();
    add(&mut third, "Herbs");
    pour(&mut third, 9, 2, 0.5);
    remove(&mut third, "Herbs");
    let (mut here, mut there) = (third.clone(), third);
    pour(&mut here, 10, 0, 1.0);
    pour(&mut there, 11, 0, 1.0);
    let both = joined(&base, &here, &there);
    assert_eq!((&told(&both)[1], both.next_id), (&vec![(2, "Herbs")], 3));
}

/// Both tabs added a group under the same number, and one or both removed theirs again.
#[wasm_bindgen_test(unsupported = test)]
fn a_removed_group_is_not_taken_for_another_that_the_other_tab_added() {
    let base = notebook(&["Glass"], &[]);
    let with = |names: &[&str], removed: bool| {
        let mut side = base.clone();
        for name in names {
            let id = side.next_id;
            add(&mut side, name);
            pour(&mut side, 8, id, f64::from(u8::try_from(name.len()).expect("short")));
        }
        for name in names.iter().filter(|_| removed) {
            remove(&mut side, name);
        }
        side
    };
    // Its name has as many letters as litres were poured.
    let check = |here: &Notebook, there: &Notebook, wanted: [&[(u32, &str)]; 2]| {
        let both = joined(&base, here, there);
        assert_eq!(told(&both), wanted.map(<[_]>::to_vec));
        for (id, name) in told(&both).concat().into_iter().filter(|(id, name)| *id > 0 && !name.is_empty()) {
            assert_eq!(
                poured(&both, id),
                [(8, f64::from(u8::try_from(name.len()).expect("short")))],
                "{name}"
            );
        }
        let last = told(&both).concat().iter().map(|(id, _)| *id).max();
        assert_eq!(Some(both.next_id), last.map(|id| id + 1));
        assert_eq!(opened(&both), both);
    };
    let glass = (0, "Glass");
    let (wall, herbs) = (with(&["Wall"], false), with(&["Basil"], false));
    let (no_wall, no_herbs) = (with(&["Wall"], true), with(&["Basil"], true));
    check(&wall, &no_herbs, [&[glass, (2, "Wall")], &[(1, "Basil")]]);
    check(&no_wall, &herbs, [&[glass, (1, "Basil")], &[(2, "Wall")]]);
    check(&no_wall, &no_herbs, [&[glass], &[(1, "Basil"), (2, "Wall")]]);
    let two = |names: [&str; 2]| with(&names, true);
    let four = [(1, "Rue"), (2, "Rosemary"), (3, "Wall"), (4, "Beans")];
    check(&two(["Wall", "Beans"]), &two(["Rue", "Rosemary"]), [&[glass], &four]);
    // Nothing was told of the one that stands here.
    let mut empty = base.clone();
    empty.add_group(GroupRecord::default());
    check(&empty, &no_herbs, [&[glass, (2, "")], &[(1, "Basil")]]);
    // And where the other has none of that number, nobody gets another.
    let mut there = base.clone();
    pour(&mut there, 9, 0, 1.0);
    check(&no_wall, &there, [&[glass], &[(1, "Wall")]]);
}

/// What a notebook and a copy come to: the groups that stand and those that are gone. The copy a second time changes nothing.
#[track_caller]
fn check_added(mine: &Notebook, copy: &Notebook, wanted: [&[(u32, &str)]; 2]) -> Notebook {
    let both = mine.with_copy(copy);
    assert_eq!(told(&both), wanted.map(<[_]>::to_vec));
    assert_eq!(opened(&both), both);
    assert_eq!(both.with_copy(copy), both, "the same once more");
    both
}

#[wasm_bindgen_test(unsupported = test)]
fn a_copys_removed_group_is_not_taken_for_another_of_its_number() {
    let glass = (0, "Glass");
    let mine = notebook(&["Glass", "Cherry"], &[(8, 1, 1.0)]);
    let mut copy = notebook(&["Glass", "Wall"], &[(8, 1, 2.0)]);
    remove(&mut copy, "Wall");
    let both = check_added(&mine, &copy, [&[glass, (1, "Cherry")], &[(2, "Wall")]]);
    assert_eq!(
        (poured(&both, 1), poured(&both, 2), both.next_id),
        (vec![(8, 1.0)], vec![(8, 2.0)], 3)
    );

    // Nor is one that is gone here.
    let mut mine = mine;
    remove(&mut mine, "Cherry");
    let both = check_added(&mine, &copy, [&[glass], &[(1, "Cherry"), (2, "Wall")]]);
    assert_eq!((poured(&both, 1), poured(&both, 2)), (vec![(8, 1.0)], vec![(8, 2.0)]));
    let standing = notebook(&["Glass", "Wall"], &[(8, 1, 2.0)]);
    let both = check_added(&mine, &standing, [&[glass, (2, "Wall")], &[(1, "Cherry")]]);
    assert_eq!((poured(&both, 1), poured(&both, 2)), (vec![(8, 1.0)], vec![(8, 2.0)]));

    // Where nobody has its number it keeps it.
    let both = check_added(&notebook(&["Glass"], &[]), &copy, [&[glass], &[(1, "Wall")]]);
    assert_eq!((poured(&both, 1), both.next_id), (vec![(8, 2.0)], 2));
    // The first group of a new notebook is not it either, though nothing was told of that yet.
    let mut copy = notebook(&["Wall", "Glass"], &[(8, 0, 2.0)]);
    remove(&mut copy, "Wall");
    check_added(&notebook(&[""], &[]), &copy, [&[(0, ""), (1, "Glass")], &[(2, "Wall")]]);
}

/// A group that one removed and the other kept stands; where both removed it, it is as this notebook has it.
#[wasm_bindgen_test(unsupported = test)]
fn a_group_of_both_stands_where_it_stands_in_one() {
    let glass = (0, "Glass");
    let mine = notebook(&["Glass", "Wall"], &[(8, 1, 1.0)]);
    let copy = notebook(&["Glass", "Wall"], &[(9, 1, 2.0)]);
    let without = |notebook: &Notebook, plants: &str| {
        let mut notebook = notebook.clone();
        let units = notebook.units;
        notebook.groups[1].plants.type_text(Field::Plants, units, plants);
        remove(&mut notebook, "Wall");
        notebook
    };
    let here_or_there = [(without(&mine, ""), copy.clone()), (mine.clone(), without(&copy, ""))];
    for (mine, copy) in here_or_there {
        let both = check_added(&mine, &copy, [&[glass, (1, "Wall")], &[]]);
        assert_eq!(poured(&both, 1), [(8, 1.0), (9, 2.0)]);
    }
    let both = check_added(&without(&mine, "4"), &without(&copy, "6"), [&[glass], &[(1, "Wall")]]);
    assert_eq!((poured(&both, 1), both.gone[0].count()), (vec![(8, 1.0), (9, 2.0)], 4));
}

/// Its name finds a group again that has another number here, unless the copy has given that number to others.
#[wasm_bindgen_test(unsupported = test)]
fn a_copys_removed_group_is_known_by_its_name() {
    let glass = (0, "Glass");
    let names = ["Glass", "Cherry", "Wall"];
    let wall_here = notebook(&names, &[(8, 1, 1.0), (8, 2, 2.0)]);
    let mut gone_here = wall_here.clone();
    remove(&mut gone_here, "Wall");
    let standing_copy = notebook(&["Glass", "Wall"], &[(9, 1, 3.0)]);
    let mut copy_without = standing_copy.clone();
    remove(&mut copy_without, "Wall");
    let cases: [(_, _, [&[_]; 2]); 3] = [
        (&wall_here, &copy_without, [&[glass, (1, "Cherry"), (2, "Wall")], &[]]),
        (&gone_here, &standing_copy, [&[glass, (1, "Cherry"), (2, "Wall")], &[]]),
        (&gone_here, &copy_without, [&[glass, (1, "Cherry")], &[(2, "Wall")]]),
    ];
    for (mine, copy, wanted) in cases {
        let both = check_added(mine, copy, wanted);
        assert_eq!((poured(&both, 1), poured(&both, 2)), (vec![(8, 1.0)], vec![(8, 2.0), (9, 3.0)]));
    }

    // The copy has others under the number of its like here.
    let copy = |removed: &[&str]| {
        let mut copy = notebook(&["Glass", "Wall", "Herbs"], &[(9, 1, 3.0), (9, 2, 0.5)]);
        for name in removed {
            remove(&mut copy, name);
        }
        copy
    };
    for (mine, copy) in [
        (&wall_here, copy(&["Wall", "Herbs"])),
        (&wall_here, copy(&["Herbs"])),
        (&gone_here, copy(&[])),
        (&gone_here, copy(&["Wall"])),
    ] {
        let both = mine.with_copy(&copy);
        let after: Vec<_> = told(&both).concat().into_iter().filter(|(id, _)| *id > 2).collect();
        assert_eq!(after.len(), 2, "{after:?}");
        for (id, name) in after {
            assert_eq!(poured(&both, id), [(9, if name == "Wall" { 3.0 } else { 0.5 })], "{name}");
        }
        assert_eq!((poured(&both, 2), both.next_id), (vec![(8, 2.0)], 5));
    }

    // Two of one name are two.
    let mine = notebook(&["Glass", "Cherry", "Herbs", "Wall"], &[(8, 3, 2.0)]);
    let mut copy = notebook(&["Glass", "Wall", "Wall"], &[(9, 1, 3.0), (9, 2, 0.5)]);
    remove(&mut copy, "Wall");
    remove(&mut copy, "Wall");
    let both = mine.with_copy(&copy);
    assert_eq!((poured(&both, 3), poured(&both, 4)), (vec![(8, 2.0), (9, 3.0)], vec![(9, 0.5)]));
}

/// Without a name nothing but what was noted tells whether it is the same group.
#[wasm_bindgen_test(unsupported = test)]
fn a_removed_group_without_a_name_is_known_by_what_was_noted() {
    let mine = notebook(&["", "Glass"], &[(8, 0, 1.0), (9, 0, 1.5)]);
    let mut gone_here = mine.clone();
    remove(&mut gone_here, "");
    let copy = |litres: f64| {
        let copy = notebook(&["", "Glass"], &[(8, 0, litres)]);
        let mut gone = copy.clone();
        remove(&mut gone, "");
        (copy, gone)
    };
    let ((same, same_gone), (other, other_gone)) = (copy(1.0), copy(2.0));
    let glass = (1, "Glass");
    check_added(&mine, &same_gone, [&[(0, ""), glass], &[]]);
    check_added(&gone_here, &same_gone, [&[glass], &[(0, "")]]);
    check_added(&gone_here, &same, [&[(0, ""), glass], &[]]);
    check_added(&mine, &other_gone, [&[(0, ""), glass], &[(2, "")]]);
    check_added(&gone_here, &other_gone, [&[glass], &[(0, ""), (2, "")]]);
    let both = check_added(&gone_here, &other, [&[glass, (2, "")], &[(0, "")]]);
    assert_eq!((poured(&both, 0), poured(&both, 2)), (vec![(8, 1.0), (9, 1.5)], vec![(8, 2.0)]));
}

/// The feel of a morning counts as noted too, once it is filed.
#[wasm_bindgen_test(unsupported = test)]
fn what_was_felt_of_a_removed_group_is_in_its_season() {
    let mut notebook = notebook(&["Glass", "Wall"], &[]);
    notebook.groups[1].feel = Some(Feel::Dry);
    notebook.turn_to(july(21));
    remove(&mut notebook, "Wall");
    let season = notebook.season_so_far(july(21)).expect("a season");
    let wall = GroupSeason {
        id: 1,
        name: "Wall".to_owned(),
        plants: 1,
        dry: 1,
        ..GroupSeason::default()
    };
    assert_eq!(season.groups, [wall]);
}

/// A copy brought the group back before that was undone, or gave its number away where nothing was noted of it.
#[wasm_bindgen_test(unsupported = test)]
fn a_group_that_a_copy_brought_back_is_not_put_back_twice() {
    let mut here = notebook(&["Glass", "Wall", "Herbs"], &[(8, 1, 2.0)]);
    let copy = here.clone();
    let wall = remove(&mut here, "Wall");
    let mut both = here.with_copy(&copy);
    assert_eq!(both.restore_group(wall.clone()), 1);
    assert_eq!(told(&both), [vec![(0, "Glass"), (1, "Wall"), (2, "Herbs")], vec![]]);
    both.groups[1].rename("West");
    assert_eq!(both.restore_group(wall), 3, "another has the number now");
    assert_eq!((both.groups[3].id, both.next_id), (3, 4));
}

/// What a removed group drank came out of the butt all the same.
#[wasm_bindgen_test(unsupported = test)]
fn the_butt_is_no_fuller_when_a_group_is_removed() {
    let mut notebook = notebook(&["Glass", "Wall"], &[(8, 0, 1.0), (8, 1, 2.0)]);
    assert_eq!(notebook.poured(july(8)), Some(3.0));
    notebook.groups[1].plants.type_text(Field::Plants, notebook.units, "4");
    assert_eq!(notebook.poured(july(8)), Some(9.0));
    remove(&mut notebook, "Wall");
    assert_eq!((notebook.poured(july(8)), notebook.poured(july(9))), (Some(9.0), None));
}

/// A treatment that was ticked on a neighbour's day goes with its plants.
#[wasm_bindgen_test(unsupported = test)]
fn a_ticked_treatment_goes_with_its_group() {
    let mine = notebook(&["Glass", "Cherry"], &[(8, 1, 1.0)]);
    let mut copy = notebook(&["Glass", "Wall"], &[(8, 1, 2.0)]);
    let done = |plants: u32| Done::Treated(Pest::Whitefly, Control::Vacuum, Some(plants));
    copy.note(july(9), |page| {
        page.tick(done(0), true);
        page.tick(done(1), true);
    });
    let both = mine.with_copy(&copy);
    assert_eq!(both.day(july(9)).map(|page| page.done.clone()), Some(vec![done(0), done(2)]));
}
