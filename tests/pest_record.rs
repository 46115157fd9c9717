//! Programmes against pests as they are kept: exactly as typed, joined from two tabs, and worked out from what stands there.

use first_truss::almanac::{CivilDay, STANDARD_LATITUDE};
use first_truss::notebook::{Entry, Field, Notebook, PestRecord, ProductRecord, joined, open, seal};
use first_truss::pest::{Control, Extent, Pest, Standing, Told};
use first_truss::quantity::{UnitSystem, Units};
use wasm_bindgen_test::wasm_bindgen_test;

#[track_caller]
fn day(text: &str) -> CivilDay {
    text.parse().expect("a day")
}

fn typed(field: Field, text: &str) -> Entry {
    let mut entry = Entry::default();
    entry.type_text(field, Units::default(), text);
    entry
}

/// A programme with everything in it.
fn whole(id: u64) -> PestRecord {
    let mut record = PestRecord {
        id,
        pest: Pest::SpiderMite,
        control: Some(Control::ContactSpray),
        beside: vec![Control::StickyCards],
        first: Some(day("2026-07-01")),
        mean: typed(Field::PestMean, "21½"),
        warmer_by_day: typed(Field::WarmerByDay, "6"),
        warmer_by_night: typed(Field::WarmerByNight, "2,5"),
        products: vec![
            ProductRecord {
                names_crop: Told::Yes,
                names_place: Told::Yes,
                for_home: Told::Yes,
                least_days: typed(Field::LeastDays, "7"),
                most_uses: typed(Field::MostUses, "three"),
                days_before_picking: typed(Field::DaysBeforePicking, "3"),
                latest_use: "2026-08-31".to_owned(),
                ..ProductRecord::unread(1, Control::ContactSpray)
            },
            ProductRecord {
                name: "the green bottle; from June".to_owned(),
                is_used: false,
                names_crop: Told::No,
                least_days: typed(Field::LeastDays, "10"),
                ..ProductRecord::unread(2, Control::OtherSpray)
            },
        ],
        extent: Extent::Chosen,
        planned: vec![day("2026-07-15"), day("2026-07-22")],
        sent: 2,
        unknown: vec!["later=word".to_owned()],
        ..PestRecord::default()
    };
    record.note(day("2026-07-08"), Control::WaterJet, 0, false);
    record.note(day("2026-07-05"), Control::OtherSpray, 2, true);
    record.note(day("2026-07-01"), Control::ContactSpray, 1, true);
    record.count(day("2026-07-09"), Some(40.0), false);
    record.count(day("2026-07-02"), Some(120.0), false);
    record.count(day("2026-07-02"), Some(31.0), true);
    record
}

fn notebook(programmes: Vec<PestRecord>) -> Notebook {
    Notebook {
        programmes,
        ..Notebook::default()
    }
}

#[track_caller]
fn kept(notebook: &Notebook) -> Notebook {
    open(&seal(notebook, 1)).expect("it opens").notebook
}

#[wasm_bindgen_test(unsupported = test)]
fn a_programme_comes_back_as_it_was_typed() {
    let before = notebook(vec![
        whole(1_783_000_000_000),
        PestRecord {
            id: 1_783_000_000_001,
            ..PestRecord::default()
        },
    ]);
    assert_eq!(kept(&before), before);
    let record = &before.programmes[0];
    assert_eq!(record.products[0].most_uses.text(), "three");
    assert_eq!(
        record.deeds.iter().map(|deed| deed.day).collect::<Vec<_>>(),
        [day("2026-07-01"), day("2026-07-05"), day("2026-07-08")]
    );
    assert_eq!(record.deeds.iter().map(|deed| deed.product).collect::<Vec<_>>(), [1, 2, 0]);
}

#[wasm_bindgen_test(unsupported = test)]
fn label_fields_are_empty_until_they_are_read() {
    assert_eq!(PestRecord::default().products(), []);
    let label = ProductRecord::unread(1, Control::ContactSpray).product().label;
    assert_eq!([label.names_crop, label.names_place, label.for_home], [Told::Unknown; 3]);
    assert_eq!([label.least_days, label.most_uses, label.days_before_picking], [None; 3]);
    // What cannot be read counts as not read.
    assert_eq!(whole(1).products()[0].label.most_uses, None);
}

#[wasm_bindgen_test(unsupported = test)]
fn what_cannot_be_read_is_kept_as_it_is() {
    let text = seal(&notebook(vec![whole(7)]), 1);
    let opened = open(&text).expect("it opens").notebook;
    assert_eq!(opened.programmes[0].unknown, ["later=word"]);
    assert_eq!(seal(&opened, 1), text);
}

#[wasm_bindgen_test(unsupported = test)]
fn two_tabs_note_different_days_of_one_programme() {
    let base = notebook(vec![whole(7)]);
    let (mut here, mut there) = (base.clone(), base.clone());
    here.programmes[0].note(day("2026-07-15"), Control::ContactSpray, 1, true);
    there.programmes[0].count(day("2026-07-16"), Some(9.0), false);
    there.programmes[0].products[1].most_uses = typed(Field::MostUses, "2");
    there.programmes[0].forget(day("2026-07-08"));
    let both = joined(&base, &here, &there);
    let record = &both.programmes[0];
    assert_eq!(
        record.deeds.iter().map(|deed| deed.day).collect::<Vec<_>>(),
        [day("2026-07-01"), day("2026-07-05"), day("2026-07-15")]
    );
    assert_eq!(record.counts.len(), 4);
    assert_eq!(record.products[1].most_uses.text(), "2");
}

#[wasm_bindgen_test(unsupported = test)]
fn two_tabs_begin_programmes_of_their_own() {
    let base = notebook(Vec::new());
    let (here, there) = (notebook(vec![whole(7)]), notebook(vec![whole(8), whole(9)]));
    let both = joined(&base, &here, &there);
    assert_eq!(both.programmes.iter().map(|record| record.id).collect::<Vec<_>>(), [7, 8, 9]);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_change_of_units_keeps_the_temperature() {
    let mut notebook = notebook(vec![whole(7)]);
    let before = notebook.programmes[0].mean.value();
    notebook.change_units(Units {
        system: UnitSystem::Us,
        temperature: first_truss::quantity::TemperatureScale::Fahrenheit,
    });
    let after = &notebook.programmes[0].mean;
    assert_eq!(after.text(), "70.7");
    assert!(
        before
            .zip(after.value())
            .is_some_and(|(before, after)| (before - after).abs() < 0.05)
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn another_pest_forgets_what_was_chosen_against_the_first() {
    let mut record = whole(7);
    record.turn_to_pest(Pest::Slug);
    assert_eq!(
        (record.control(), record.extent, record.planned.len()),
        (Control::HandPicking, Extent::Full, 0)
    );
    record.turn_to_pest(Pest::Whitefly);
    assert_eq!(record.control(), Control::Vacuum);
}

#[wasm_bindgen_test(unsupported = test)]
fn done_late_and_left_out_are_planned_around() {
    let mut record = PestRecord {
        pest: Pest::Whitefly,
        mean: typed(Field::PestMean, "20"),
        ..PestRecord::default()
    };
    let planned = |record: &PestRecord, today: &str| {
        let outline = record.programme(&[], STANDARD_LATITUDE, true, &[], day(today)).outline(day(today));
        let ahead = outline.visits.iter().filter(|visit| visit.standing == Standing::Ahead);
        ahead.map(|visit| visit.day.to_string()).take(2).collect::<Vec<_>>()
    };
    assert_eq!(planned(&record, "2026-07-01"), ["2026-07-01", "2026-07-04"]);
    record.note(day("2026-07-01"), Control::Vacuum, 0, true);
    assert_eq!(planned(&record, "2026-07-01"), ["2026-07-04", "2026-07-07"]);
    // Two days late: due today, and the rest is counted from there.
    assert_eq!(planned(&record, "2026-07-06"), ["2026-07-06", "2026-07-09"]);
    record.note(day("2026-07-04"), Control::Vacuum, 0, false);
    assert_eq!(planned(&record, "2026-07-05"), ["2026-07-07", "2026-07-10"]);
    record.forget(day("2026-07-04"));
    assert_eq!(planned(&record, "2026-07-02"), ["2026-07-04", "2026-07-07"]);
}

/// A notebook of before a programme could hold several: its label belongs to what was sprayed.
#[wasm_bindgen_test(unsupported = test)]
fn a_label_that_stands_alone_is_that_of_what_is_sprayed() {
    let text = seal(&notebook(vec![whole(7)]), 1);
    assert!(text.contains("label-of=contact-spray"));
    let mut record = PestRecord::default();
    record.choose(Control::OtherSpray);
    record.products[0].names_crop = Told::Yes;
    let before = notebook(vec![record]);
    let opened = kept(&before);
    assert_eq!(opened, before);
    assert_eq!(opened.programmes[0].products[0].control, Control::OtherSpray);
}

/// What was read of one product says nothing of another.
#[wasm_bindgen_test(unsupported = test)]
fn each_product_has_its_own_label() {
    let mut record = PestRecord::default();
    record.choose(Control::ContactSpray);
    let soap = &mut record.products[0];
    (soap.names_crop, soap.names_place, soap.for_home) = (Told::Yes, Told::Yes, Told::Yes);
    (soap.least_days, soap.most_uses) = (typed(Field::LeastDays, "5"), typed(Field::MostUses, "4"));
    let shut = |record: &PestRecord| {
        let products = record.products();
        let today = day("2026-07-01");
        record.programme(&products, STANDARD_LATITUDE, true, &[], today).outline(today).shut
    };
    assert_eq!(shut(&record), None);
    record.choose(Control::OtherSpray);
    assert!(shut(&record).is_some(), "its own label is unread");
    assert_eq!(
        record
            .products()
            .iter()
            .map(|product| (product.number, product.is_used))
            .collect::<Vec<_>>(),
        [(2, true), (1, false)]
    );
    record.choose(Control::ContactSpray);
    assert_eq!(shut(&record), None, "what was read is still there");
    // Four at most.
    assert_eq!(
        [Control::OtherSpray; 4].map(|control| record.add_product(control)),
        [Some(3), Some(4), None, None]
    );
}
