//! Seasons that are over: summed up once another has begun, with nothing of what was noted lost from the sums.

use first_truss::almanac::CivilDay;
use first_truss::notebook::{GroupRecord, GroupSeason, Notebook, joined, open, seal};
use first_truss::water::Feel;
use wasm_bindgen_test::wasm_bindgen_test;

fn day(year: i16, month: i8, day: i8) -> CivilDay {
    CivilDay::new(year, month, day).expect("a day")
}

/// A notebook of one group with so many days of a season noted from the first of May of each year: half a litre on each, and
/// dry on every fourth morning and sodden on every eighth.
fn seasons(lengths: &[(i16, i32)]) -> Notebook {
    let mut notebook = Notebook::default();
    notebook.groups[0].rename("Glasshouse");
    for (year, length) in lengths {
        for number in 0..*length {
            notebook.note(day(*year, 5, 1).days_later(number), |page| {
                page.note(0, |group| {
                    group.given = Some(0.5);
                    group.feel = match number % 4 {
                        0 => Some(Feel::Dry),
                        1 if number % 8 == 1 => Some(Feel::Sodden),
                        _ => None,
                    };
                });
            });
        }
    }
    notebook
}

/// The notebook on the morning after its last page.
fn turned(mut notebook: Notebook) -> Notebook {
    let last = notebook.days.last().expect("a day").day;
    notebook.turn_to(last.tomorrow());
    notebook
}

#[wasm_bindgen_test(unsupported = test)]
fn a_season_is_summed_up_when_the_next_has_fourteen_days() {
    let early = turned(seasons(&[(2025, 120), (2026, 13)]));
    assert_eq!((early.days.len(), early.seasons.len()), (133, 0));
    let notebook = turned(seasons(&[(2025, 120), (2026, 14)]));
    assert_eq!(notebook.days.len(), 14, "this season's days stay");
    let [season] = notebook.seasons.as_slice() else {
        panic!("one season")
    };
    assert_eq!((season.first, season.last), (day(2025, 5, 1), day(2025, 8, 28)));
    let group = GroupSeason {
        id: 0,
        name: "Glasshouse".to_owned(),
        plants: 1,
        days: 120,
        given: 60.0,
        dry: 30,
        sodden: 15,
    };
    assert_eq!(season.groups, [group]);
    assert_eq!(open(&seal(&notebook, 1)).expect("just sealed").notebook, notebook);
}

#[wasm_bindgen_test(unsupported = test)]
fn each_winter_parts_two_seasons_and_none_is_summed_up_twice() {
    let mut notebook = turned(seasons(&[(2023, 40), (2024, 3), (2025, 60), (2026, 20)]));
    let begun = |notebook: &Notebook| notebook.seasons.iter().map(|season| season.first).collect::<Vec<_>>();
    assert_eq!(begun(&notebook), [day(2023, 5, 1), day(2024, 5, 1), day(2025, 5, 1)]);
    let summed_up = notebook.seasons.clone();
    // Another tab noted a day of an old season meanwhile.
    notebook.note(day(2025, 6, 2), |page| page.note(0, |group| group.given = Some(9.0)));
    for number in 20..40 {
        notebook.note(day(2026, 5, 1).days_later(number), |page| {
            page.note(0, |group| group.given = Some(1.0));
        });
        notebook.turn_to(day(2026, 5, 2).days_later(number));
    }
    assert_eq!(notebook.seasons, summed_up);
    assert_eq!(notebook.days.len(), 41, "the late note stays as it is");
}

#[wasm_bindgen_test(unsupported = test)]
fn a_clock_set_forward_for_some_mornings_sums_up_nothing() {
    let mut notebook = seasons(&[(2026, 60)]);
    for number in 0..5 {
        notebook.turn_to(day(2027, 5, 1).days_later(number));
        notebook.note(day(2027, 5, 1).days_later(number), |page| {
            page.note(0, |group| group.given = Some(1.0));
        });
    }
    notebook.turn_to(day(2026, 7, 1));
    notebook.turn_to(day(2026, 7, 2));
    assert_eq!((notebook.days.len(), notebook.seasons.len()), (65, 0));
}

#[wasm_bindgen_test(unsupported = test)]
fn what_a_later_program_wrote_of_a_day_or_a_season_stays() {
    let mut notebook = seasons(&[(2025, 10), (2026, 20)]);
    notebook.note(day(2025, 5, 3), |page| page.unknown.push("moon=full".to_owned()));
    let mut notebook = turned(notebook);
    assert_eq!(notebook.seasons.len(), 1);
    assert_eq!(
        notebook.day(day(2025, 5, 3)).map(|page| page.unknown.clone()),
        Some(vec!["moon=full".to_owned()])
    );
    notebook.seasons[0].unknown.push("moons=13".to_owned());
    assert_eq!(open(&seal(&notebook, 1)).expect("just sealed").notebook, notebook);
}

#[wasm_bindgen_test(unsupported = test)]
fn two_tabs_of_which_one_has_summed_up_come_to_the_same() {
    let base = seasons(&[(2025, 30), (2026, 20)]);
    let here = turned(base.clone());
    let mut there = base.clone();
    there.groups[0].rename("Left");
    there.add_group(GroupRecord::default());
    for both in [joined(&base, &here, &there), joined(&base, &there, &here)] {
        assert_eq!((both.days.len(), both.seasons.len(), both.groups.len()), (20, 1, 2));
        assert!((both.seasons[0].groups[0].given - 15.0).abs() < 1e-9);
    }
}

/// Pages that lie ninety days apart are of one season; a day more makes a winter (choice).
#[wasm_bindgen_test(unsupported = test)]
fn pages_ninety_days_apart_are_of_one_season() {
    let noted = |apart: i32| {
        let mut notebook = Notebook::default();
        let last = day(2026, 2, 1);
        for day in (0..15).map(|number| last.days_later(number + apart)).chain([last]) {
            notebook.note(day, |page| page.note(0, |group| group.given = Some(0.5)));
        }
        turned(notebook).seasons.len()
    };
    assert_eq!((noted(90), noted(91)), (0, 1));
}

/// Of a season that a page tells without its first day, the last is all that is known.
#[wasm_bindgen_test(unsupported = test)]
fn a_season_without_its_first_day_is_of_its_last() {
    let notebook = Notebook {
        unknown_pages: vec![vec!["page season".to_owned(), "id=2025-08-28".to_owned()]],
        ..Notebook::default()
    };
    let opened = open(&seal(&notebook, 1)).expect("just sealed").notebook;
    let [season] = opened.seasons.as_slice() else {
        panic!("one season")
    };
    assert_eq!((season.first, season.last), (day(2025, 8, 28), day(2025, 8, 28)));
}
