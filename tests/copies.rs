//! Copies from a file: opened or refused with a sentence, used or added; and the season as a table.

use first_truss::almanac::CivilDay;
use first_truss::notebook::{Field, GroupRecord, Notebook, open_copy, seal, season_table};
use first_truss::quantity::{UnitSystem, Units};
use first_truss::water::{Feel, Records, season};
use wasm_bindgen_test::wasm_bindgen_test;

fn july(day: i8) -> CivilDay {
    CivilDay::new(2026, 7, day).expect("a day")
}

/// A notebook on a July morning with groups of these names, of which each got so many litres on some days.
fn notebook(morning: i8, names: &[&str], poured: &[(i8, u32, f64)]) -> Notebook {
    let mut notebook = Notebook::default();
    for name in names.iter().skip(1) {
        let mut group = GroupRecord::default();
        group.rename(name);
        notebook.add_group(group);
    }
    notebook.groups[0].rename(names[0]);
    notebook.turn_to(july(morning));
    for (day, id, litres) in poured {
        notebook.note(july(*day), |page| page.note(*id, |group| group.given = Some(*litres)));
    }
    notebook
}

fn given(notebook: &Notebook, day: i8, name: &str) -> Option<f64> {
    let group = notebook.groups.iter().find(|group| group.name == name).expect("the group");
    notebook.day(july(day))?.group(group.id)?.given
}

#[wasm_bindgen_test(unsupported = test)]
fn a_copy_opens_as_it_was_saved_and_nothing_else_opens() {
    let saved = notebook(9, &["Glass", "Wall"], &[(8, 0, 1.0)]);
    let text = seal(&saved, 0);
    assert_eq!(open_copy(&text), Ok(saved));
    let no_notebook =
        "This file is not a whole First Truss notebook, so nothing was changed. Choose one that “Save a copy to a file” made.";
    let cut: String = text.chars().take(text.chars().count() - 3).collect();
    for wrong in [
        "",
        "first-truss",
        "<script>alert(1)</script>",
        "NaN",
        "first-truss 1\nrevision 1e308\ncheck 0\npage\n",
        &cut,
        &"x".repeat(100_000),
    ] {
        assert_eq!(open_copy(wrong), Err(no_notebook));
    }
    let newer = text.replacen("first-truss 1", "first-truss 99", 1);
    let take_it = "This file was written by a newer First Truss, so nothing was changed. Take the new version first, then open it.";
    assert_eq!(open_copy(&newer), Err(take_it));
}

#[wasm_bindgen_test(unsupported = test)]
fn a_copy_of_the_same_plants_adds_its_days_and_changes_nothing_told_here() {
    let mut mine = notebook(20, &["Glass"], &[(19, 0, 1.5), (10, 0, 1.0)]);
    let mut copy = notebook(12, &["Glass"], &[(10, 0, 9.0), (11, 0, 2.0)]);
    let units = mine.units;
    mine.groups[0].height.type_text(Field::Height, units, "5");
    copy.groups[0].height.type_text(Field::Height, units, "3");
    "Elsewhere".clone_into(&mut copy.plot.name);
    copy.change_units(Units {
        system: UnitSystem::Metric,
        ..units
    });
    let both = mine.with_copy(&copy);
    assert_eq!(both.groups.len(), 1);
    assert_eq!(
        (both.groups[0].height.text(), both.plot.name.as_str(), both.units),
        ("5", "", units)
    );
    assert_eq!(both.morning.day, mine.morning.day);
    let poured = [19, 11, 10].map(|day| given(&both, day, "Glass"));
    assert_eq!(poured, [Some(1.5), Some(2.0), Some(1.0)]);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_copy_of_other_plants_adds_them_with_their_days() {
    let mine = notebook(20, &["Glass"], &[(19, 0, 1.5)]);
    let copy = notebook(18, &["Neighbour", "Baskets"], &[(17, 0, 3.0), (17, 1, 0.5), (19, 0, 4.0)]);
    let both = mine.with_copy(&copy);
    let mut names: Vec<_> = both.groups.iter().map(|group| group.name.as_str()).collect();
    names.sort_unstable();
    assert_eq!(names, ["Baskets", "Glass", "Neighbour"]);
    assert_eq!(given(&both, 19, "Glass"), Some(1.5));
    assert_eq!(given(&both, 19, "Neighbour"), Some(4.0));
    assert_eq!(given(&both, 17, "Neighbour"), Some(3.0));
    assert_eq!(given(&both, 17, "Baskets"), Some(0.5));
}

#[wasm_bindgen_test(unsupported = test)]
fn the_season_as_a_table_has_a_row_for_each_group_and_day() {
    let mut notebook = notebook(10, &["Glass", "Wall"], &[(8, 0, 1.25), (9, 0, 0.0), (8, 1, 0.5), (9, 1, 0.75)]);
    notebook.note(july(9), |page| page.note(0, |group| group.feel = Some(Feel::Dry)));
    let season_of = |place: usize| {
        let group = notebook.groups[place].group();
        let days = notebook.records(&notebook.groups[place], july(10));
        let records = Records {
            days: &days,
            ..Records::new(&group)
        };
        season(&records, notebook.place(), july(10)).expect("a season")
    };
    let (glass, wall) = (season_of(0), season_of(1));
    let table = season_table([("Glass, \"old\"".to_owned(), &glass), ("=1+1".to_owned(), &wall)]);
    let rows: Vec<_> = table.split("\r\n").collect();
    assert_eq!(rows.len(), 6, "heads, four days, and the end of the last line");
    assert!(rows[0].starts_with("date,group,given (litres),"));
    assert!(rows[1].starts_with("2026-07-08,\"Glass, \"\"old\"\"\",1.25,no,"), "{}", rows[1]);
    assert!(
        rows[2].starts_with("2026-07-09,\"Glass, \"\"old\"\"\",0,no,") && rows[2].ends_with(",dry"),
        "{}",
        rows[2]
    );
    assert!(rows[4].starts_with("2026-07-09,\"'=1+1\",0.75,no,"), "{}", rows[4]);
    assert!(
        rows[1..5]
            .iter()
            .all(|row| row.matches(',').count() - row.matches("Glass, ").count() == 7)
    );
}
