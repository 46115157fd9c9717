//! What is kept word for word, and where joining, adding and putting back turn.

use first_truss::almanac::{CivilDay, STANDARD_LATITUDE, Thermometer};
use first_truss::feed::{Basis, OunceKind, RatioKind, Straight};
use first_truss::notebook::{Field, GroupRecord, Notebook, PestRecord, ProductRecord, SeasonPage, joined, open, seal};
use first_truss::pest::{Control, Label, Told};
use first_truss::quantity::{UnitSystem, Units};
use wasm_bindgen_test::wasm_bindgen_test;

fn july(day: i8) -> CivilDay {
    CivilDay::new(2026, 7, day).expect("a day")
}

#[track_caller]
fn opened(notebook: &Notebook) -> Notebook {
    open(&seal(notebook, 1)).expect("it opens").notebook
}

fn lines_of(notebook: &Notebook) -> Vec<String> {
    seal(notebook, 1).lines().map(str::to_owned).collect()
}

fn group(name: &str) -> GroupRecord {
    let mut group = GroupRecord::default();
    group.rename(name);
    group
}

fn names(notebook: &Notebook) -> Vec<&str> {
    notebook.groups.iter().map(|group| group.name.as_str()).collect()
}

/// The three questions that open or shut a spray: each answer is that of its own question, and the one about the place is of its place.
#[wasm_bindgen_test(unsupported = test)]
fn each_answer_of_a_label_is_that_of_its_own_question() {
    const QUESTIONS: [&str; 3] = ["names-crop", "names-place", "for-home"];
    for outdoors in [false, true] {
        for (place, word) in QUESTIONS.into_iter().enumerate() {
            let mut product = ProductRecord::unread(1, Control::ContactSpray);
            product.answer(word, Told::Yes, outdoors);
            let answers = |outdoors: bool| QUESTIONS.map(|word| product.told(word, outdoors));
            let mut wanted = [Told::Unknown; 3];
            wanted[place] = Told::Yes;
            assert_eq!(answers(outdoors), wanted, "{word}");
            let of_label = |label: &Label| [label.names_crop, label.names_place, label.for_home];
            assert_eq!(of_label(&product.product().label), wanted, "{word}");
            assert_eq!(of_label(&product.product_for(outdoors).label), wanted, "{word}");
            if word == "names-place" {
                wanted[place] = Told::Unknown;
            }
            assert_eq!(answers(!outdoors), wanted, "{word}");
            assert_eq!(of_label(&product.product_for(!outdoors).label), wanted, "{word}");
            product.answer(word, Told::No, !outdoors);
            assert_eq!(product.told(word, !outdoors), Told::No);
        }
    }
    // What was answered before places were told apart holds for both.
    let mut product = ProductRecord::unread(1, Control::ContactSpray);
    product.names_place = Told::Yes;
    assert_eq!([true, false].map(|outdoors| product.told("names-place", outdoors)), [Told::Yes; 2]);
    product.answer("least-days", Told::Yes, true);
    assert_eq!(product.told("least-days", true), Told::Unknown);
}

/// Three products on one page: the words of the first stand by themselves, as they did when there was but one.
#[wasm_bindgen_test(unsupported = test)]
fn the_words_of_each_product_are_told_apart() {
    let units = Units::default();
    let mut record = PestRecord::default();
    for (control, days, name) in [
        (Control::ContactSpray, "7", "soap"),
        (Control::OtherSpray, "10", "green bottle"),
        (Control::OtherSpray, "14", "blue bottle"),
    ] {
        let number = record.add_product(control).expect("room");
        let product = record.product_mut(number).expect("it was added");
        name.clone_into(&mut product.name);
        product.names_crop = Told::Yes;
        product.least_days.type_text(Field::LeastDays, units, days);
        product.days_before_picking.type_text(Field::DaysBeforePicking, units, "3");
    }
    for (number, name) in [(1, Some("soap")), (2, Some("green bottle")), (3, Some("blue bottle")), (4, None)] {
        assert_eq!(record.product(number).map(|product| product.name.as_str()), name);
    }
    let days: Vec<_> = record.products().iter().map(|product| product.label.least_days).collect();
    assert_eq!(days, [Some(7), Some(10), Some(14)]);
    record.note(july(1), Control::ContactSpray, 1, true);
    record.note(july(8), Control::OtherSpray, 2, true);
    let notebook = Notebook {
        programmes: vec![record],
        ..Notebook::default()
    };
    assert_eq!(opened(&notebook), notebook);
    let lines = lines_of(&notebook);
    for line in [
        "called=soap",
        "names-crop=yes",
        "least-days=7",
        "p2-least-days=10",
        "p3-least-days=14",
        // Only the number of a further product is told.
        "done2026-07-01=contact-spray",
        "done2026-07-08=other-spray 2",
    ] {
        assert!(lines.iter().any(|kept| kept == line), "“{line}” is missing from {lines:?}");
    }
    assert!(!lines.iter().any(|line| line.starts_with("sent")), "nothing was sent: {lines:?}");
}

/// Gaps between sprays are filled until the grower says otherwise.
#[wasm_bindgen_test(unsupported = test)]
fn gaps_stay_empty_only_where_that_was_said() {
    for leaves_gaps in [false, true] {
        let record = PestRecord {
            leaves_gaps,
            ..PestRecord::default()
        };
        let programme = record.programme(&[], STANDARD_LATITUDE, true, &[], july(1));
        assert_eq!(programme.fills_gaps, !leaves_gaps);
        let notebook = Notebook {
            programmes: vec![record],
            ..Notebook::default()
        };
        assert_eq!(opened(&notebook), notebook);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn all_that_is_told_of_a_feed_is_kept() {
    let mut notebook = Notebook::default();
    notebook.feed.basis = Basis::Elements;
    let bottle = notebook.feed.bottle_mut();
    bottle.type_dose("1 oz per gallon");
    (bottle.ounce, bottle.ratio) = (Some(OunceKind::Fluid), Some(RatioKind::Added));
    assert_eq!(opened(&notebook), notebook);
    notebook.feed.type_bag(Straight::Urea, "46-0-0");
    assert_eq!(
        (notebook.feed.bag(Straight::Urea), notebook.feed.bag(Straight::EpsomSalts)),
        ("46-0-0", "")
    );
    // Words that are no dose leave the last that were one.
    let bottle = notebook.feed.bottle_mut();
    bottle.type_dose("as you like");
    assert_eq!((bottle.dose.text(), bottle.dose.good()), ("as you like", "1 oz per gallon"));
    // A second feed is kept though nothing is told of the first.
    let mut notebook = Notebook::default();
    notebook.feed.add(1_000);
    notebook.feed.bottle_mut().rename("Seaweed");
    notebook.feed.change_bottle(0, |bottle| bottle.in_mixer = true);
    let in_mixer: Vec<_> = notebook.feed.bottles().map(|bottle| bottle.in_mixer).collect();
    assert_eq!(in_mixer, [true, false]);
    notebook.feed.change_bottle(0, |bottle| bottle.in_mixer = false);
    notebook.feed.change_bottle(7, |bottle| bottle.in_mixer = true);
    assert!(notebook.feed.bottles().all(|bottle| !bottle.in_mixer), "there is no such feed");
    assert_eq!(opened(&notebook), notebook);
    // A page with the number of another feed is none, and stays as it is.
    notebook.unknown_pages = vec![vec!["page feed".to_owned(), "id=1000".to_owned(), "name=Other".to_owned()]];
    assert_eq!(opened(&notebook), notebook);
}

#[wasm_bindgen_test(unsupported = test)]
fn what_begins_like_a_page_and_says_something_is_a_line() {
    let notebook = Notebook {
        unknown: vec!["pages-read=12".to_owned()],
        ..Notebook::default()
    };
    assert_eq!(opened(&notebook), notebook);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_group_keeps_the_day_from_which_it_is_learnt() {
    let mut notebook = Notebook::default();
    notebook.groups[0].learn_from = Some(july(3));
    assert_eq!(opened(&notebook).groups[0].learn_from, Some(july(3)));
}

#[wasm_bindgen_test(unsupported = test)]
fn the_thermometer_hangs_where_it_hung() {
    let mut notebook = Notebook::default();
    notebook.turn_to(july(8));
    notebook.morning.thermometer = Thermometer::Inside;
    notebook.turn_to(july(9));
    assert_eq!(notebook.morning.thermometer, Thermometer::Inside);
}

/// The last eight plans are remembered, each once, the newest last.
#[wasm_bindgen_test(unsupported = test)]
fn the_last_eight_plans_are_remembered() {
    let mut notebook = Notebook::default();
    for check in 1..=8 {
        notebook.hand_out(check);
    }
    assert_eq!(notebook.shared, [1, 2, 3, 4, 5, 6, 7, 8]);
    notebook.hand_out(3);
    assert_eq!(notebook.shared, [1, 2, 4, 5, 6, 7, 8, 3]);
    notebook.hand_out(9);
    assert_eq!(notebook.shared, [2, 4, 5, 6, 7, 8, 3, 9]);
}

/// Another plot's plants come as long as there is room for all.
#[wasm_bindgen_test(unsupported = test)]
fn eight_groups_have_room_and_nine_have_not() {
    let with = |count: usize| {
        let mut notebook = Notebook::default();
        while notebook.groups.len() < count {
            notebook.add_group(group("more"));
        }
        notebook
    };
    for (mine, theirs) in [(1, 7), (4, 4), (7, 1), (2, 3)] {
        let both = with(mine).with_plants_of(&with(theirs)).expect("room");
        assert_eq!(both.groups.len(), mine + theirs);
    }
    for (mine, theirs) in [(1, 8), (5, 4), (8, 1)] {
        assert_eq!(with(mine).with_plants_of(&with(theirs)), None);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_copy_brings_its_seasons_along() {
    let season = SeasonPage {
        first: CivilDay::new(2025, 5, 1).expect("a day"),
        last: CivilDay::new(2025, 8, 28).expect("a day"),
        ..SeasonPage::default()
    };
    let copy = Notebook {
        seasons: vec![season.clone()],
        ..Notebook::default()
    };
    let mut mine = Notebook::default();
    "7".clone_into(&mut mine.plot.number);
    assert_eq!(mine.with_copy(&copy).seasons, [season]);
}

/// Each tab took out the group that the other had left: the one that is right keeps its own, and all else of both.
#[wasm_bindgen_test(unsupported = test)]
fn when_each_tab_took_out_the_others_group_one_stays() {
    let mut base = Notebook::default();
    base.groups[0].rename("one");
    base.add_group(group("two"));
    let (mut here, mut there) = (base.clone(), base.clone());
    here.remove_group(0);
    there.remove_group(1);
    "Marlpit Lane".clone_into(&mut there.plot.name);
    let both = joined(&base, &here, &there);
    assert_eq!((names(&both), both.plot.name.as_str()), (vec!["two"], "Marlpit Lane"));
}

/// Both tabs added a group and began a programme for it: each programme stays with its own.
#[wasm_bindgen_test(unsupported = test)]
fn a_programme_stays_with_the_group_that_its_tab_added() {
    let base = Notebook::default();
    let with = |name: &str, id: u64| {
        let mut notebook = base.clone();
        let place = notebook.add_group(group(name)).expect("room");
        notebook.programmes.push(PestRecord {
            id,
            plants: Some(notebook.groups[place].id),
            ..PestRecord::default()
        });
        notebook
    };
    let both = joined(&base, &with("Mine", 7), &with("Theirs", 8));
    let plants = |id: u64| {
        let programme = both.programmes.iter().find(|programme| programme.id == id)?;
        both.groups
            .iter()
            .find(|group| Some(group.id) == programme.plants)
            .map(|group| group.name.as_str())
    };
    assert_eq!((plants(7), plants(8)), (Some("Mine"), Some("Theirs")));
}

/// Both tabs added a group, and in one nothing was told of it yet: it is one group.
#[wasm_bindgen_test(unsupported = test)]
fn a_group_that_is_still_empty_in_one_tab_is_the_others() {
    let base = Notebook::default();
    let (mut here, mut there) = (base.clone(), base.clone());
    here.add_group(GroupRecord::default());
    there.add_group(group("Wall"));
    for both in [joined(&base, &here, &there), joined(&base, &there, &here)] {
        assert_eq!(names(&both), ["", "Wall"]);
    }
}

/// A full butt is no more than full, in every measure.
#[wasm_bindgen_test(unsupported = test)]
fn a_butt_changes_its_measure_with_the_notebook() {
    let mut notebook = Notebook::default();
    let units = notebook.units;
    notebook.butt.size.type_text(Field::ButtSize, units, "40");
    notebook.butt.roof.type_text(Field::Roof, units, "60");
    notebook.fill_butt(july(9));
    notebook.change_units(Units {
        system: UnitSystem::Metric,
        ..units
    });
    // Forty gallons of 4.54609 litres; sixty square feet of 0.09290304 m².
    assert_eq!(
        [notebook.butt.size.text(), notebook.butt.level.text(), notebook.butt.roof.text()],
        ["181.8", "181.8", "5.6"]
    );
    assert_eq!(notebook.butt.overfull(notebook.units), None);
}
