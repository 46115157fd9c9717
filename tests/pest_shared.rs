//! One product in several programmes: one label, and uses that count together.

use first_truss::almanac::CivilDay;
use first_truss::notebook::{Field, Notebook, PestRecord, ProductRecord, joined, open, seal};
use first_truss::pest::{Conflict, Deed, Pest, Product, Programme, SharedUse, Told, cleared, overdrawn};
use first_truss::quantity::Units;
use wasm_bindgen_test::wasm_bindgen_test;

use crate::pest_scene::{CONTACT, OTHER, day, product, read, sprays, whitefly};

/// So many days after 1 June.
fn june(later: i32) -> CivilDay {
    day("2026-06-01").days_later(later)
}

/// Sprays of whitefly at 20 °C from 1 June, by a label of three uses seven days apart where the pest asks for six: so five in all, one a
/// week, until none of its eggs is left. With what the label has against it.
fn planned(shared: &[i32], deeds: &[i32]) -> (Vec<i32>, Vec<Conflict>) {
    let aside = Product {
        is_used: false,
        ..product(2, OTHER, read(0, 9, Some(1)))
    };
    let products = [product(1, CONTACT, read(7, 3, Some(1))), aside];
    let used = |later: &i32| SharedUse {
        product: 1,
        day: june(*later),
    };
    let of_another = SharedUse { product: 2, day: june(0) };
    let shared: Vec<_> = shared.iter().map(used).chain([of_another]).collect();
    let done = |later: &i32| Deed {
        day: june(*later),
        control: CONTACT,
        is_done: true,
        product: 1,
    };
    let today = june(deeds.iter().copied().fold(0, i32::max));
    let deeds: Vec<_> = deeds.iter().map(done).collect();
    let programme = Programme {
        shared: &shared,
        ..whitefly(&products, &[], &deeds)
    };
    let outline = programme.outline(today);
    let conflicts = outline.conflicts.iter().map(|(_, conflict)| *conflict);
    let is_longer = |conflict: &Conflict| matches!(conflict, Conflict::LongerBetween { label: 7, pest: 6 });
    (
        sprays(&outline).iter().map(|(day, _)| *day).collect(),
        conflicts.filter(|conflict| !is_longer(conflict)).collect(),
    )
}

#[wasm_bindgen_test(unsupported = test)]
fn a_use_against_another_pest_counts_towards_the_label() {
    let ends = |elsewhere: u16, needed: u16| Conflict::UsesEnd {
        allowed: 3,
        elsewhere,
        needed,
    };
    assert_eq!(planned(&[], &[]), (vec![0, 7, 14], vec![ends(0, 5)]));
    assert_eq!(planned(&[-2], &[]), (vec![5, 12], vec![ends(1, 5)]), "a week after it");
    assert_eq!(planned(&[-2, -2], &[]), (vec![5, 12], vec![ends(1, 5)]), "one day is one use");
    assert_eq!(planned(&[-20], &[]), (vec![0, 7], vec![ends(1, 5)]), "long ago, but of this season");
    for order in [[-9, -2], [-2, -9]] {
        assert_eq!(planned(&order, &[]), (vec![5], vec![ends(2, 5)]), "in any order");
    }
    assert_eq!(planned(&[-16, -9, -2], &[]), (vec![], vec![ends(3, 5)]));
    // What was sprayed today may have reached these too: to note that is no other use.
    assert_eq!(planned(&[0], &[]), (vec![0, 7, 14], vec![ends(1, 5)]));
    assert_eq!(planned(&[-14, -7, 0], &[]), (vec![0], vec![ends(3, 5)]));
    assert_eq!(planned(&[0], &[0]), (vec![0, 7, 14], vec![ends(0, 5)]));
    // What was done already: after so long a gap it begins anew.
    assert_eq!(planned(&[3], &[0]), (vec![0, 10], vec![Conflict::UsedTooSoon, ends(1, 5)]));
    assert_eq!(planned(&[0, 7], &[0, 14]), (vec![0, 14], vec![ends(1, 6)]));
    assert_eq!(planned(&[7, 14], &[0, 21]), (vec![0, 21], vec![Conflict::UsedTooOften, ends(2, 6)]));
}

/// A best plan is one of all that the label allows: once some of that is gone, none is searched for.
#[wasm_bindgen_test(unsupported = test)]
fn no_best_plan_is_searched_for_what_was_used_elsewhere() {
    let products = [product(1, CONTACT, read(7, 3, Some(1))), product(2, OTHER, read(7, 3, Some(1)))];
    for (number, can_aim) in [(1, false), (2, true)] {
        let shared = [SharedUse {
            product: number,
            day: june(-2),
        }];
        let programme = Programme {
            shared: &shared,
            ..whitefly(&products, &[], &[])
        };
        assert_eq!(programme.can_aim(), can_aim);
        assert_eq!(programme.aim(june(0), 1.0).is_some(), can_aim);
    }
}

/// A programme with one product, used on these days of June.
fn programme(id: u64, pest: Pest, label: &str, used: &[i32]) -> PestRecord {
    let mut record = PestRecord {
        id,
        pest,
        plants: Some(0),
        control: Some(CONTACT),
        products: vec![ProductRecord::unread(1, CONTACT)],
        ..PestRecord::default()
    };
    if !label.is_empty() {
        let product = &mut record.products[0];
        label.clone_into(&mut product.name);
        "31 August 2026".clone_into(&mut product.latest_use);
        (product.names_crop, product.for_home) = (Told::Yes, Told::Yes);
        product.answer("names-place", Told::Yes, true);
        for (field, text) in [(Field::LeastDays, "7"), (Field::MostUses, "3"), (Field::DaysBeforePicking, "1")] {
            if let Some(entry) = product.entry_mut(field) {
                entry.type_text(field, Units::default(), text);
            }
        }
    }
    for later in used {
        record.note(june(*later), CONTACT, 1, true);
    }
    record
}

fn notebook(programmes: Vec<PestRecord>) -> Notebook {
    Notebook {
        programmes,
        ..Notebook::default()
    }
}

/// What a product is called, and whether it is read in full.
fn label_of(notebook: &Notebook, at: usize) -> (&str, bool) {
    let product = &notebook.programmes[at].products[0];
    (&product.name, cleared(&product.product_for(true).label).is_ok())
}

/// The days after 1 June that count at a programme from others, in June.
fn counted(notebook: &Notebook, id: u64) -> Vec<i32> {
    let shared = notebook.shared_uses(id, june(29));
    let mut days: Vec<_> = shared.iter().map(|shared| shared.day.days_since(june(0))).collect();
    days.sort_unstable();
    days
}

#[wasm_bindgen_test(unsupported = test)]
fn the_same_product_has_one_label_and_counts_together() {
    let mut plot = notebook(vec![
        programme(7, Pest::Whitefly, "Green", &[0, 7]),
        programme(8, Pest::Aphid, "", &[10]),
        programme(9, Pest::SpiderMite, "", &[]),
    ]);
    assert_eq!(counted(&plot, 8), [0; 0], "a product of its own until it is called the same");
    plot.call_same(8, 1, (7, 1));
    assert_eq!(label_of(&plot, 1), ("Green", true), "read once for both");
    assert_eq!(label_of(&plot, 2), ("", false), "of another product");
    assert_eq!((counted(&plot, 7), counted(&plot, 8)), (vec![10], vec![0, 7]));
    assert_eq!((counted(&plot, 9), counted(&plot, 6)), (vec![], vec![]));
    // What was left out was not used; a season ago is another season's.
    plot.programmes[0].note(june(3), CONTACT, 1, false);
    assert_eq!(counted(&plot, 8), [0, 7]);
    let after = |days: i32| plot.shared_uses(8, june(days)).len();
    assert_eq!(
        [after(-1), after(0), after(6), after(7), after(240), after(241), after(248)],
        [0, 1, 1, 2, 2, 1, 0]
    );
    assert_eq!(plot.shared_uses(8, june(9))[0].product, 1);
    // It is kept.
    assert_eq!(open(&seal(&plot, 1)).expect("it opens").notebook, plot);
    // The third is the same as the second: all three are.
    plot.call_same(9, 1, plot.programmes[1].products[0].bottle(8));
    assert_eq!(counted(&plot, 9), [0, 7, 10]);
    // What is read anew on one is read on all; their kind and turn are their own.
    "Blue".clone_into(&mut plot.programmes[2].products[0].name);
    plot.programmes[1].products[0].is_used = false;
    plot.share_label(9, 1);
    assert_eq!([0, 1, 2].map(|at| label_of(&plot, at).0), ["Blue"; 3]);
    assert_eq!([0, 1, 2].map(|at| plot.programmes[at].products[0].is_used), [true, false, true]);
    // The first is another one after all: the others stay the same among themselves.
    plot.call_other(7, 1);
    assert_eq!(
        (counted(&plot, 7), counted(&plot, 8), counted(&plot, 9)),
        (vec![], vec![], vec![10])
    );
    assert_eq!(
        [0, 1, 2].map(|at| label_of(&plot, at)),
        [("Blue", true), ("", false), ("", false)],
        "it was the first one's label"
    );
    plot.call_other(9, 1);
    assert_eq!(counted(&plot, 9), [0; 0]);
    // Nothing that is not there.
    let before = plot.clone();
    plot.call_same(9, 2, (7, 1));
    plot.call_same(9, 1, (6, 1));
    plot.share_label(6, 1);
    assert_eq!(plot, before);
}

/// The one whose label was read gives it to the other, whichever was told to be the same.
#[wasm_bindgen_test(unsupported = test)]
fn a_label_that_was_read_is_never_written_over_by_none() {
    let pair = || notebook(vec![programme(7, Pest::Whitefly, "", &[]), programme(8, Pest::Aphid, "Green", &[])]);
    let mut plot = pair();
    plot.call_same(8, 1, (7, 1));
    assert_eq!([0, 1].map(|at| label_of(&plot, at)), [("Green", true); 2]);
    for apart in [7, 8] {
        let mut plot = plot.clone();
        plot.call_other(apart, 1);
        assert_eq!(
            [0, 1].map(|at| label_of(&plot, at)),
            [("", false), ("Green", true)],
            "it stays where it was read"
        );
    }
    let mut plot = pair();
    plot.programmes[0].products[0].for_home = Told::No;
    plot.call_same(8, 1, (7, 1));
    assert_eq!(
        [0, 1].map(|at| label_of(&plot, at)),
        [("", false), ("Green", false)],
        "both were read: as it stands where it is the same, but for a name"
    );
    let again = plot.clone();
    plot.call_same(8, 1, (7, 1));
    assert_eq!(plot, again);
    // It is used as it was before: its kind, its turn and its place in the programme are not the label's.
    let mut one = ProductRecord::unread(2, OTHER);
    one.read_as(&plot.programmes[0].products[0], true);
    assert_eq!((one.number, one.control, one.same_as), (2, OTHER, None));
}

/// Other plants have a count and a place of their own.
#[wasm_bindgen_test(unsupported = test)]
fn uses_count_on_the_same_plants_alone() {
    let mut elsewhere = programme(8, Pest::Aphid, "", &[10]);
    elsewhere.plants = Some(1);
    let mut plot = notebook(vec![programme(7, Pest::Whitefly, "Green", &[0]), elsewhere]);
    plot.call_same(8, 1, (7, 1));
    assert_eq!((counted(&plot, 7), counted(&plot, 8)), (vec![], vec![]));
    let product = &plot.programmes[1].products[0];
    assert_eq!((product.name.as_str(), product.names_crop), ("Green", Told::Yes));
    assert_eq!(
        (product.names_place, product.asked_outdoors),
        (Told::Unknown, None),
        "not asked of this place"
    );
    plot.programmes[1].plants = Some(0);
    plot.share_label(7, 1);
    let product = &plot.programmes[1].products[0];
    assert_eq!((product.names_place, product.asked_outdoors), (Told::Yes, Some(true)));
}

/// The label goes on counting when the programme that used it is ended.
#[wasm_bindgen_test(unsupported = test)]
fn what_an_ended_programme_used_still_counts() {
    let mut other = programme(10, Pest::Aphid, "", &[]);
    other.plants = Some(1);
    let mut plot = notebook(vec![
        programme(7, Pest::Whitefly, "Green", &[7, 0]),
        programme(8, Pest::Aphid, "", &[10]),
        programme(9, Pest::SpiderMite, "", &[]),
        other,
    ]);
    plot.programmes[0].note(june(3), CONTACT, 1, false);
    plot.call_same(8, 1, (7, 1));
    plot.call_same(10, 1, (7, 1));
    let before = plot.clone();
    let (ended, left) = plot.end_programme(0).expect("it was there");
    assert_eq!(left.len(), 2);
    assert_eq!(counted(&plot, 8), [0, 7]);
    assert_eq!(
        (counted(&plot, 9), counted(&plot, 10)),
        (vec![], vec![]),
        "another product, other plants"
    );
    assert_eq!(open(&seal(&plot, 1)).expect("it opens").notebook, plot, "and it is kept");
    // Put back, it is as before, also where another tab had ended one that used it on another day.
    let mut back = plot.clone();
    back.programmes[0].products[0].used_before.insert(0, june(-9));
    assert_eq!(back.put_back(ended.clone(), &left), 0);
    assert_eq!(back.programmes[1].products[0].used_before, [june(-9)]);
    back.programmes[1].products[0].used_before.clear();
    assert_eq!(back.programmes, before.programmes);
    // A new one that is the same knows of it by the second, and so on.
    plot.programmes.push(programme(11, Pest::Thrips, "", &[]));
    plot.call_same(11, 1, (7, 1));
    assert_eq!(counted(&plot, 11), [0, 7, 10]);
    plot.end_programme(0);
    assert_eq!(counted(&plot, 11), [0, 7, 10]);
    // Where it comes back with a copy nothing counts twice.
    plot.programmes.insert(0, ended);
    let once: Vec<_> = plot.programmes[3].products[0].used_before.clone();
    assert_eq!(once, [june(0), june(7), june(10)]);
    plot.end_programme(0);
    assert_eq!(plot.programmes[2].products[0].used_before, once);
}

/// Two tabs that end a programme each leave the uses of both.
#[wasm_bindgen_test(unsupported = test)]
fn what_two_tabs_ended_still_counts() {
    let mut base = notebook(vec![
        programme(7, Pest::Whitefly, "Green", &[0]),
        programme(8, Pest::Aphid, "", &[10]),
        programme(9, Pest::SpiderMite, "", &[]),
    ]);
    base.call_same(8, 1, (7, 1));
    base.call_same(9, 1, (7, 1));
    let (mut here, mut there) = (base.clone(), base.clone());
    here.end_programme(0);
    there.end_programme(1);
    for both in [joined(&base, &here, &there), joined(&base, &there, &here)] {
        assert_eq!(
            both.programmes.len(),
            3,
            "each got something of the other, and stays as what is changed does"
        );
        assert_eq!(both.programmes[2].products[0].used_before, [june(0), june(10)]);
        let mut days = counted(&both, 9);
        days.dedup();
        assert_eq!(days, [0, 10]);
        assert_eq!(open(&seal(&both, 1)).expect("it opens").notebook, both);
    }
    let text = seal(&here, 1);
    assert!(text.contains("\nused-before-2026-06-01=yes\n"), "{text}");
}

/// Two tabs that called others the same: whoever is named, all that hang together have one number.
#[wasm_bindgen_test(unsupported = test)]
fn what_two_tabs_called_the_same_hangs_together() {
    let base = notebook(vec![
        programme(7, Pest::Whitefly, "", &[0]),
        programme(8, Pest::Aphid, "", &[10]),
        programme(9, Pest::SpiderMite, "", &[20]),
        programme(10, Pest::Thrips, "", &[]),
    ]);
    let bottles = |notebook: &Notebook| {
        notebook
            .programmes
            .iter()
            .map(|record| record.products[0].bottle(record.id).0)
            .collect::<Vec<_>>()
    };
    let join = |here: &[(u64, u64)], there: &[(u64, u64)]| {
        let called = |pairs: &[(u64, u64)]| {
            let mut side = base.clone();
            for (id, of) in pairs {
                side.call_same(*id, 1, (*of, 1));
            }
            side
        };
        let both = joined(&base, &called(here), &called(there));
        assert_eq!(open(&seal(&both, 1)).expect("it opens").notebook, both);
        (bottles(&both), [7, 8, 9].map(|id| counted(&both, id).len()))
    };
    assert_eq!(join(&[(9, 8)], &[(8, 7)]), (vec![7, 7, 7, 10], [2, 2, 2]), "one of one");
    assert_eq!(join(&[(7, 8)], &[(8, 7)]), (vec![7, 7, 9, 10], [1, 1, 0]), "each of the other");
    assert_eq!(
        join(&[(7, 8), (9, 8)], &[(8, 7)]),
        (vec![7, 7, 7, 10], [2, 2, 2]),
        "a third of one of them"
    );
    assert_eq!(join(&[(9, 10)], &[(8, 7)]), (vec![7, 7, 10, 10], [1, 1, 0]), "nothing in common");
    // A programme that is gone may still be named, and a product never stands for itself.
    let mut plot = base.clone();
    plot.programmes[0].products[0].same_as = Some((7, 1));
    plot.programmes[1].products[0].same_as = Some((6, 1));
    plot.programmes[2].products[0].same_as = Some((8, 1));
    let settled = open(&seal(&plot, 1)).expect("it opens").notebook;
    assert_eq!(bottles(&settled), [7, 6, 6, 10]);
    assert_eq!(settled.programmes[0].products[0].same_as, None);
}

/// What a label says of a place stays where it was asked, whoever joins.
#[wasm_bindgen_test(unsupported = test)]
fn what_a_label_says_of_the_place_is_not_lost_to_other_plants() {
    let mut wall = programme(7, Pest::Whitefly, "Green", &[]);
    wall.plants = Some(1);
    let mut plot = notebook(vec![
        wall,
        programme(8, Pest::Aphid, "", &[]),
        programme(9, Pest::SpiderMite, "", &[]),
    ]);
    plot.call_same(8, 1, (7, 1));
    assert_eq!(label_of(&plot, 1), ("Green", false), "asked of other plants");
    plot.programmes[1].products[0].answer("names-place", Told::Yes, true);
    plot.share_label(8, 1);
    assert_eq!(label_of(&plot, 1), ("Green", true));
    plot.call_same(9, 1, (7, 1));
    assert_eq!(label_of(&plot, 2), ("Green", true), "the one of the same plants knows");
    // One that is not asked yet takes nothing from those that are.
    plot.programmes[2].products[0].answer("names-place", Told::Unknown, true);
    plot.share_label(9, 1);
    assert_eq!(label_of(&plot, 1), ("Green", true));
}

/// A day on which both programmes use it is one use.
#[wasm_bindgen_test(unsupported = test)]
fn more_days_planned_than_a_label_leaves_are_counted_once_each() {
    let days = |later: &[i32]| later.iter().map(|later| june(*later)).collect::<Vec<_>>();
    assert_eq!(overdrawn(days(&[7, 14, 7]), days(&[0]), 3), None, "two days, two left");
    assert_eq!(overdrawn(days(&[14, 7, 21, 7]), days(&[0, 0]), 3), Some((3, 2)));
    assert_eq!(overdrawn(days(&[7]), days(&[0, 3, 5]), 2), Some((1, 0)), "more than all are used");
    assert_eq!(overdrawn(days(&[]), days(&[0, 3, 5]), 2), None);
}
