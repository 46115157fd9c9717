//! What is kept of feed: exactly as typed, with the last good words beside it, and joined line by line.

use first_truss::feed::{Country, MixError, Stage, Stem, Straight, Water};
use first_truss::notebook::{Field, FormKind, Notebook, joined, open, seal};
use first_truss::quantity::{UnitSystem, Units};
use wasm_bindgen_test::wasm_bindgen_test;

fn opened(notebook: &Notebook) -> Notebook {
    open(&seal(notebook, 1)).expect("what was just sealed").notebook
}

fn full() -> Notebook {
    let mut notebook = Notebook::default();
    let units = notebook.units;
    let feed = &mut notebook.feed;
    feed.type_label("NPK 7:7:7 + 2 MgO");
    feed.type_label("60-60-60");
    feed.type_dose(" 1 fl oz per gallon ");
    feed.form = FormKind::ByWeight;
    feed.country = Some(Country::Us);
    feed.water = Water::Hard;
    feed.stage = Some(Stage::Swelling);
    feed.stem = Some(Stem::Thin);
    feed.granules = true;
    feed.cap.type_text(Field::Cap, units, "25");
    feed.each.type_text(Field::FeedEach, units, "2½");
    feed.each.type_text(Field::FeedEach, units, "lots");
    feed.keep(Straight::Urea, true);
    feed.keep(Straight::PotassiumNitrate, true);
    feed.keep(Straight::EpsomSalts, true);
    feed.keep(Straight::Urea, false);
    let day = "2026-07-09".parse().expect("a day");
    notebook.note(day, |page| page.fed = Some(1.42));
    notebook
}

#[wasm_bindgen_test(unsupported = test)]
fn a_feed_opens_as_it_was_kept() {
    let notebook = full();
    assert_eq!(opened(&notebook), notebook);
    let text = seal(&notebook, 1);
    for line in [
        "feed-label=60-60-60",
        "feed-label-held=NPK 7:7:7 + 2 MgO",
        "feed-dose= 1 fl oz per gallon ",
        "feed-each=lots",
        "shelf-epsom-salts=yes",
        "fed=1.42",
    ] {
        assert!(text.lines().any(|kept| kept == line), "“{line}” is missing from {text}");
    }
    assert!(!text.contains("urea=") && !text.contains("feed-dose-held"), "{text}");
}

#[wasm_bindgen_test(unsupported = test)]
fn bad_words_leave_the_last_good_ones() {
    let notebook = opened(&full());
    let (feed, units) = (&notebook.feed, notebook.units);
    assert_eq!((feed.label.text(), feed.label.good()), ("60-60-60", "NPK 7:7:7 + 2 MgO"));
    assert!(matches!(feed.feed(units, 10.0, false), Err(MixError::Label(_))));
    let good = feed.feed(units, 10.0, true).expect("a feed");
    assert_eq!(good.label.grade.numbers.map(f64::to_bits), [7.0_f64; 3].map(f64::to_bits));
    // An emptied field forgets: what is assumed stands in again.
    let mut emptied = notebook.clone();
    emptied.feed.type_label(" ");
    assert_eq!(emptied.feed.words(false).0, "5-2-9");
    assert_eq!(emptied.feed.label.good(), "");
}

#[wasm_bindgen_test(unsupported = test)]
fn whose_gallons_are_assumed_only_with_the_assumed_dose() {
    let mut notebook = Notebook::default();
    let us = Units {
        system: UnitSystem::Us,
        ..Units::default()
    };
    let per_litre = |notebook: &Notebook, units| notebook.feed.feed(units, 10.0, false).map(|feed| feed.rate.per_litre.value);
    let uk = per_litre(&notebook, Units::default()).expect("a feed");
    let american = per_litre(&notebook, us).expect("a feed");
    assert!((american / uk - 4.546_09 / 3.785_411_784).abs() < 1e-12);
    notebook.feed.type_dose("20 ml per gallon");
    assert!(per_litre(&notebook, Units::default()).is_err(), "asked, never guessed");
    notebook.feed.country = Some(Country::Uk);
    assert_eq!(per_litre(&notebook, us).map(f64::to_bits), Ok(uk.to_bits()));
}

#[wasm_bindgen_test(unsupported = test)]
fn two_tabs_that_change_the_feed_are_joined() {
    let base = full();
    let (mut here, mut there) = (base.clone(), base.clone());
    here.feed.type_label("4-2-8");
    there.feed.type_dose("5 ml per litre");
    there.feed.keep(Straight::CalciumNitrate, true);
    let (monday, tuesday) = ("2026-07-13".parse().expect("a day"), "2026-07-14".parse().expect("a day"));
    here.note(monday, |page| page.fed = Some(1.0));
    there.note(tuesday, |page| page.fed = Some(2.0));
    let both = joined(&base, &here, &there);
    assert_eq!((both.feed.label.text(), both.feed.dose.text()), ("4-2-8", "5 ml per litre"));
    assert!(both.feed.shelf.contains(&Straight::CalciumNitrate) && both.feed.shelf.contains(&Straight::EpsomSalts));
    assert_eq!(both.last_fed(tuesday), Some(tuesday));
    assert_eq!(both.last_fed(monday), Some(monday));
    assert_eq!(both.last_fed("2026-07-01".parse().expect("a day")), None);
}

#[wasm_bindgen_test(unsupported = test)]
fn the_water_of_a_feed_is_part_of_the_days() {
    let day = "2026-07-09".parse().expect("a day");
    let mut notebook = full();
    let given = |notebook: &Notebook| notebook.day(day).and_then(|page| page.record(0).given);
    assert_eq!(given(&notebook).map(f64::to_bits), Some(1.42_f64.to_bits()));
    // What was noted of all the day's water holds the feed.
    notebook.note(day, |page| page.note(0, |group| group.given = Some(1.7)));
    assert_eq!(given(&notebook).map(f64::to_bits), Some(1.7_f64.to_bits()));
    notebook.note(day, |page| page.fed = None);
    notebook.note(day, |page| page.note(0, |group| group.given = None));
    assert_eq!(given(&notebook), None);
}

#[wasm_bindgen_test(unsupported = test)]
fn units_change_what_is_printed_and_not_what_is_held() {
    let mut notebook = full();
    let held = |notebook: &Notebook| notebook.feed.each.value().map(f64::to_bits);
    let before = held(&notebook);
    for system in [UnitSystem::Metric, UnitSystem::Us, UnitSystem::Imperial] {
        notebook.change_units(Units {
            system,
            ..Units::default()
        });
        assert_eq!(held(&notebook), before, "{system:?}");
        assert_eq!(notebook.feed.dose.text(), " 1 fl oz per gallon ", "{system:?}");
    }
}
