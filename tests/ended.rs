//! Programmes that were ended: what was done in them stays with its days, and goes when they are put back.

use first_truss::almanac::CivilDay;
use first_truss::notebook::{Done, GroupRecord, Notebook, PestRecord, Treatment, open, seal};
use first_truss::pest::{Control, Pest};
use wasm_bindgen_test::wasm_bindgen_test;

fn july(day: i8) -> CivilDay {
    CivilDay::new(2026, 7, day).expect("a day")
}

/// A programme against whitefly on the plants of this number, vacuumed on these days.
fn programme(id: u64, plants: Option<u32>, days: &[i8]) -> PestRecord {
    let mut programme = PestRecord {
        plants,
        id,
        pest: Pest::Whitefly,
        ..PestRecord::default()
    };
    for day in days {
        programme.note(july(*day), Control::Vacuum, 0, true);
    }
    programme
}

fn notebook(programmes: Vec<PestRecord>) -> Notebook {
    let mut notebook = Notebook {
        programmes,
        ..Notebook::default()
    };
    notebook.turn_to(july(20));
    notebook
}

fn vacuumed(plants: Option<u32>) -> Done {
    Done::Treated(Pest::Whitefly, Control::Vacuum, plants)
}

/// Days in July, with the plants.
fn done(notebook: &Notebook) -> Vec<(i32, Option<u32>)> {
    let all = notebook.treatments_done(july(1), july(20));
    all.iter()
        .map(|Treatment { day, plants, .. }| (day.days_since(july(1)) + 1, *plants))
        .collect()
}

#[wasm_bindgen_test(unsupported = test)]
fn what_was_done_stays_when_its_programme_is_ended() {
    let mut plot = notebook(vec![programme(7, Some(0), &[9, 3]), programme(8, Some(1), &[5])]);
    plot.programmes[0].note(july(12), Control::Vacuum, 0, false);
    let before = plot.clone();
    let all = vec![(3, Some(0)), (5, Some(1)), (9, Some(0))];
    assert_eq!(done(&plot), all, "what was left out was not done");
    let (ended, left) = plot.end_programme(0).expect("it was there");
    assert_eq!(done(&plot), all);
    assert_eq!(open(&seal(&plot, 1)).expect("just sealed").notebook, plot, "and it is kept");
    assert_eq!(plot.put_back(ended, &left), 0);
    assert_eq!((&plot.programmes, &plot.days), (&before.programmes, &before.days));
    let (second, left) = plot.end_programme(1).expect("it was there");
    assert_eq!(plot.put_back(second, &left), 1, "behind those that were begun before it");
    assert_eq!(plot.programmes, before.programmes);
    plot.end_programme(1);
    plot.end_programme(0);
    assert_eq!(done(&plot), all, "both are ended");
    assert_eq!(plot.treatments_done(july(4), july(8)).len(), 1, "of these days alone");
    assert_eq!(plot.treatments_done(july(3), july(9)).len(), 3, "both days count");
}

/// A neighbour's list ticks the page of the day too. What a programme says of that day itself wins; what it does not say stands, also
/// where it was begun anew since.
#[wasm_bindgen_test(unsupported = test)]
fn what_is_ticked_and_noted_is_one_treatment() {
    let ticked = |programme: PestRecord, plants: Option<u32>| {
        let mut plot = notebook(vec![programme]);
        for day in [4, 5] {
            plot.note(july(day), |page| page.tick(vacuumed(plants), true));
        }
        done(&plot)
    };
    let both = [(4, Some(0)), (5, Some(0))];
    assert_eq!(ticked(programme(7, Some(0), &[5]), Some(0)), both, "once each");
    assert_eq!(ticked(programme(7, Some(0), &[4]), Some(0)), both);
    assert_eq!(
        ticked(programme(7, Some(0), &[3]), Some(0)).len(),
        3,
        "of one that was ended after it began"
    );
    let mut left_out = programme(7, Some(0), &[]);
    left_out.note(july(5), Control::Vacuum, 0, false);
    assert_eq!(ticked(left_out, Some(0)), [(4, Some(0))]);
    let mut jet = programme(7, Some(0), &[]);
    jet.note(july(5), Control::WaterJet, 0, true);
    assert_eq!(ticked(jet, Some(0)).len(), 3, "another job of the day");
    assert_eq!(ticked(programme(7, Some(0), &[4]), None), [(4, Some(0)), (5, None)]);
    assert_eq!(ticked(programme(7, None, &[4]), Some(0)), [(4, None), (5, Some(0))]);
    let other_plants = [(4, Some(1)), (4, Some(0)), (5, Some(0))];
    assert_eq!(ticked(programme(7, Some(1), &[4]), Some(0)), other_plants);
    let other_pest = PestRecord {
        pest: Pest::Aphid,
        ..programme(7, Some(0), &[4])
    };
    assert_eq!(ticked(other_pest, Some(0)).len(), 3);
}

#[wasm_bindgen_test(unsupported = test)]
fn plants_that_were_treated_are_remembered() {
    for is_ended in [false, true] {
        let mut plot = notebook(vec![programme(7, Some(1), &[5])]);
        let mut bench = GroupRecord::default();
        bench.rename("Bench");
        plot.add_group(bench).expect("room");
        if is_ended {
            plot.end_programme(0);
        }
        plot.remove_group(1).expect("another is left");
        assert_eq!(plot.known(1).map(|group| group.name.as_str()), Some("Bench"), "{is_ended}");
        plot.programmes.clear();
        plot.turn_to(july(21));
        assert_eq!(open(&seal(&plot, 1)).expect("just sealed").notebook.known(1).is_some(), is_ended);
    }
    let mut plot = notebook(vec![programme(7, Some(0), &[5]), programme(8, Some(1), &[])]);
    plot.add_group(GroupRecord::default()).expect("room");
    plot.remove_group(1).expect("another is left");
    assert_eq!(plot.known(1), None, "nothing was done to them");
}

/// Of these plants, in any programme that goes on or was ended; not what was done by hand, nor of other plants.
#[wasm_bindgen_test(unsupported = test)]
fn what_was_sprayed_on_plants_is_known_of_all_programmes() {
    let sprayed = |id: u64, plants: Option<u32>, days: &[i8]| {
        let mut programme = programme(id, plants, &[19]);
        for day in days {
            programme.note(july(*day), Control::ContactSpray, 1, true);
        }
        programme
    };
    let mut plot = notebook(vec![
        sprayed(7, Some(0), &[9]),
        sprayed(8, Some(1), &[5]),
        PestRecord {
            pest: Pest::Aphid,
            ..sprayed(9, None, &[7])
        },
    ]);
    let days = |plot: &Notebook, plants: Option<u32>| {
        let all = plot.sprayed(plants, july(20));
        assert!(all.iter().all(|(_, control)| *control == Control::ContactSpray));
        all.iter().map(|(day, _)| day.days_since(july(1)) + 1).collect::<Vec<_>>()
    };
    assert_eq!(days(&plot, Some(0)), [7, 9]);
    assert_eq!(days(&plot, Some(1)), [5, 7]);
    assert_eq!(days(&plot, None), [5, 7, 9]);
    plot.end_programme(0);
    assert_eq!(days(&plot, Some(0)), [7, 9]);
}
