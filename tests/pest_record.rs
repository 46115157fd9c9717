//! Programmes against pests as they are kept: exactly as typed, joined from two tabs, and worked out from what stands there.

use first_truss::almanac::{CivilDay, STANDARD_LATITUDE};
use first_truss::notebook::{Entry, Field, Notebook, PestRecord, ProductRecord, joined, open, seal};
use first_truss::pest::{Control, Extent, GlassOffset, Pest, Product, Shut, Standing, Told, picking_day};
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
        plants: Some(3),
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
    there.programmes[0].forget(day("2026-07-08"), Control::WaterJet, 0);
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

/// A label that was asked about one place says nothing of another, and all again on the way back. What was used still waits by it.
#[wasm_bindgen_test(unsupported = test)]
fn a_label_that_was_asked_about_one_place_does_not_name_another() {
    let mut record = whole(7);
    record.products[0].answer("names-place", Told::Yes, true);
    let opened = |record: &PestRecord| kept(&notebook(vec![record.clone()])).programmes.remove(0);
    assert_eq!(opened(&record), record);
    record.products[0].answer("names-place", Told::Yes, false);
    assert_eq!(opened(&record), record);
    let places = |outdoors: bool| -> Vec<Told> {
        record
            .products_for(outdoors)
            .iter()
            .map(|product| product.label.names_place)
            .collect()
    };
    assert_eq!(places(false), [Told::Yes, Told::Unknown]);
    assert_eq!(places(true), [Told::Unknown; 2]);
    assert_eq!(record.products()[0].label.names_place, Told::Yes);
    let numbers = |products: Vec<Product>| products.iter().map(|product| product.number).collect::<Vec<_>>();
    assert_eq!(numbers(record.products_for(true)), numbers(record.products()));
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
    record.forget(day("2026-07-04"), Control::Vacuum, 0);
    assert_eq!(planned(&record, "2026-07-02"), ["2026-07-04", "2026-07-07"]);
}

/// What stands of the deeds: the day of July, with what, the product, and whether it was done.
fn deeds(record: &PestRecord) -> Vec<(u8, Control, u8, bool)> {
    let deeds = record.deeds.iter();
    deeds
        .map(|deed| (deed.day.day(), deed.control, deed.product, deed.is_done))
        .collect()
}

const SPRAYED: (u8, Control, u8, bool) = (1, Control::ContactSpray, 1, true);
const VACUUMED: (u8, Control, u8, bool) = (1, Control::Vacuum, 0, true);

/// A spray of 1 July, after which picking waits for 14 days, and what was done by hand on the same day.
fn sprayed_and_vacuumed() -> PestRecord {
    let mut record = PestRecord {
        id: 7,
        pest: Pest::Whitefly,
        ..PestRecord::default()
    };
    record.choose(Control::ContactSpray);
    let soap = &mut record.products[0];
    (soap.names_crop, soap.names_place, soap.for_home) = (Told::Yes, Told::Yes, Told::Yes);
    (soap.least_days, soap.most_uses) = (typed(Field::LeastDays, "7"), typed(Field::MostUses, "2"));
    soap.days_before_picking = typed(Field::DaysBeforePicking, "14");
    record.note(day("2026-07-01"), Control::ContactSpray, 1, true);
    record.note(day("2026-07-01"), Control::Vacuum, 0, true);
    record
}

#[wasm_bindgen_test(unsupported = test)]
fn a_second_job_of_a_day_leaves_the_first_where_it_is() {
    let mut record = sprayed_and_vacuumed();
    assert_eq!(deeds(&record), [SPRAYED, VACUUMED]);
    let products = record.products();
    let today = day("2026-07-01");
    let outline = record.programme(&products, STANDARD_LATITUDE, true, &[], today).outline(today);
    assert_eq!(outline.pick_now, Some(day("2026-07-15")), "the wait stands");
    let sprays = outline.visits.iter().filter(|visit| visit.control.needs_label());
    let sprays: Vec<_> = sprays.map(|visit| visit.day.to_string()).collect();
    assert_eq!(sprays, ["2026-07-01", "2026-07-08"], "the use counts");
    // The same once more, or left out after all, is the same deed.
    record.note(today, Control::Vacuum, 0, false);
    record.note(today, Control::ContactSpray, 1, true);
    assert_eq!(deeds(&record), [(1, Control::Vacuum, 0, false), SPRAYED]);
    // Another product is another deed. Each is taken back alone.
    record.note(today, Control::ContactSpray, 2, true);
    record.forget(today, Control::ContactSpray, 1);
    record.forget(day("2026-07-02"), Control::ContactSpray, 2);
    assert_eq!(
        deeds(&record),
        [(1, Control::Vacuum, 0, false), (1, Control::ContactSpray, 2, true)]
    );
    record.note(day("2026-06-30"), Control::Vacuum, 0, true);
    assert_eq!(deeds(&record)[0], (30, Control::Vacuum, 0, true), "in order of the days");
}

#[wasm_bindgen_test(unsupported = test)]
fn several_jobs_of_a_day_come_back_and_are_joined() {
    let base = notebook(vec![sprayed_and_vacuumed()]);
    assert_eq!(kept(&base), base);
    let (mut here, mut there) = (base.clone(), base.clone());
    let today = day("2026-07-01");
    here.programmes[0].forget(today, Control::Vacuum, 0);
    here.programmes[0].note(today, Control::WaterJet, 0, true);
    there.programmes[0].note(today, Control::ContactSpray, 2, true);
    there.programmes[0].note(today, Control::HandPicking, 0, false);
    let both = &joined(&base, &here, &there).programmes[0];
    let jet = (1, Control::WaterJet, 0, true);
    let others = [(1, Control::ContactSpray, 2, true), (1, Control::HandPicking, 0, false)];
    assert_eq!(deeds(both), [SPRAYED, jet, others[0], others[1]]);
    // Done in the one and left out in the other: the one that wins is right.
    let (mut done, mut left_out) = (base.clone(), base.clone());
    done.programmes[0].note(today, Control::WaterJet, 0, true);
    left_out.programmes[0].note(today, Control::WaterJet, 0, false);
    assert_eq!(deeds(&joined(&base, &done, &left_out).programmes[0]), [SPRAYED, VACUUMED, jet]);
}

#[wasm_bindgen_test(unsupported = test)]
fn several_jobs_of_a_day_are_one_for_the_days_between() {
    let mut record = PestRecord {
        pest: Pest::Whitefly,
        mean: typed(Field::PestMean, "20"),
        ..PestRecord::default()
    };
    let today = day("2026-07-01");
    record.note(today, Control::Vacuum, 0, true);
    let with = |record: &PestRecord| record.programme(&[], STANDARD_LATITUDE, true, &[], today).outline(today);
    let one = with(&record);
    record.note(today, Control::WaterJet, 0, true);
    let both = with(&record);
    assert_eq!(both.visits.len(), one.visits.len() + 1);
    assert_eq!(both.visits[2..], one.visits[1..]);
    // Torch and traps of one night are one night of the seven.
    record.pest = Pest::Slug;
    record.control = Some(Control::HandPicking);
    record.deeds.clear();
    record.note(today, Control::HandPicking, 0, true);
    record.note(today, Control::Traps, 0, true);
    let nights = with(&record);
    assert_eq!(nights.last().map(|visit| visit.day), Some(day("2026-07-07")));
}

/// A last day that is no day may be any: until it can be read no spray is planned, and no picking day stands.
#[wasm_bindgen_test(unsupported = test)]
fn a_last_day_that_cannot_be_read_shuts_the_label() {
    let mut record = sprayed_and_vacuumed();
    let today = day("2026-07-02");
    let mut told = |text: &str| {
        text.clone_into(&mut record.products[0].latest_use);
        let products = record.products();
        let outline = record.programme(&products, STANDARD_LATITUDE, true, &[], today).outline(today);
        (outline.shut, outline.pick_now, products[0].label.latest_use)
    };
    let wait = Some(day("2026-07-15"));
    for empty in ["", " "] {
        assert_eq!(told(empty), (None, wait, None), "it names none");
    }
    assert_eq!(told("31 August 2026"), (None, wait, Some(day("2026-08-31"))));
    assert_eq!(told("end of August"), (Some(Shut::LimitsUnread), None, None));
}

#[wasm_bindgen_test(unsupported = test)]
fn the_warmth_inside_is_as_told_else_as_usual() {
    let usual = GlassOffset::default();
    assert_eq!(PestRecord::default().offset(), usual);
    let told = whole(7).offset();
    assert!((told.by_day - 6.0).abs() < 1e-9 && (told.by_night - 2.5).abs() < 1e-9, "{told:?}");
    let by_day = PestRecord {
        warmer_by_day: typed(Field::WarmerByDay, "0"),
        ..PestRecord::default()
    };
    assert_eq!(by_day.offset(), GlassOffset { by_day: 0.0, ..usual });
    let inside = by_day.programme(&[], STANDARD_LATITUDE, true, &[], day("2026-07-01")).warmth;
    assert_eq!(inside.glass, Some(by_day.offset()));
    let outside = by_day.programme(&[], STANDARD_LATITUDE, false, &[], day("2026-07-01")).warmth;
    assert_eq!(outside.glass, None);
}

#[wasm_bindgen_test(unsupported = test)]
fn what_is_noted_would_become_another_pests() {
    let mut record = PestRecord::default();
    record.choose(Control::ContactSpray);
    assert!(record.is_blank(), "what is chosen is not noted");
    record.count(day("2026-07-01"), Some(3.0), true);
    assert!(!record.is_blank());
    assert!(!sprayed_and_vacuumed().is_blank());
}

/// The days from which what was used elsewhere lets one pick, on 2 July; nothing where a label does not say it.
fn waits(notebook: &Notebook, id: u64, today: &str) -> Vec<Option<CivilDay>> {
    let used = notebook.uses_elsewhere(id, day(today));
    used.iter().map(|used| picking_day(&[*used])).collect()
}

#[wasm_bindgen_test(unsupported = test)]
fn a_wait_goes_on_when_its_programme_is_ended() {
    let other = PestRecord {
        id: 8,
        pest: Pest::Slug,
        ..PestRecord::default()
    };
    let base = notebook(vec![sprayed_and_vacuumed(), other]);
    let wait = Some(day("2026-07-15"));
    assert_eq!(waits(&base, 8, "2026-07-02"), [wait], "of the other programme");
    assert_eq!(waits(&base, 7, "2026-07-02"), [], "its own are its own");
    assert_eq!(waits(&base, 8, "2026-07-15"), [wait], "it may still be wet");
    assert_eq!(waits(&base, 8, "2026-07-16"), []);
    let mut ended = base.clone();
    assert_eq!(ended.end_programme(2), None);
    assert_eq!(ended.end_programme(0).map(|(ended, _)| ended.id), Some(7));
    assert_eq!((ended.waits.pick_from, ended.waits.unread), (wait, None));
    assert_eq!(waits(&kept(&ended), 8, "2026-07-02"), [wait], "and it is kept");
    // The later of what two tabs know, whichever wins.
    let mut later = base.clone();
    later.programmes[0].note(day("2026-07-03"), Control::ContactSpray, 1, true);
    later.end_programme(0);
    for (winning, other) in [(&ended, &later), (&later, &ended)] {
        assert_eq!(joined(&base, winning, other).waits.pick_from, Some(day("2026-07-17")));
    }
    // What was left out waits for nothing, nor what was done by hand; an earlier wait does not take the place of a later one.
    let mut none = notebook(vec![sprayed_and_vacuumed()]);
    none.waits.pick_from = Some(day("2026-07-20"));
    none.programmes[0].products[0].days_before_picking = Entry::default();
    assert_eq!(
        waits(&none, 8, "2026-07-19"),
        [None, Some(day("2026-07-20"))],
        "nobody knows how long"
    );
    none.programmes[0].note(day("2026-07-01"), Control::ContactSpray, 1, false);
    assert_eq!(waits(&none, 8, "2026-07-21"), []);
    none.programmes[0] = sprayed_and_vacuumed();
    none.end_programme(0);
    assert_eq!(none.waits.pick_from, Some(day("2026-07-20")));
}

#[wasm_bindgen_test(unsupported = test)]
fn what_nobody_read_the_label_of_is_not_picked_after_its_programme_is_ended() {
    let mut unread = sprayed_and_vacuumed();
    unread.products[0].days_before_picking = Entry::default();
    let mut notebook = notebook(vec![unread]);
    notebook.end_programme(0);
    let waits_of = |notebook: &Notebook| (notebook.waits.pick_from, notebook.waits.unread);
    assert_eq!(waits_of(&notebook), (None, Some(day("2026-07-01"))));
    assert_eq!(waits(&kept(&notebook), 8, "2026-07-02"), [None], "and it is kept");
    let mut read = notebook.clone();
    read.programmes.push(sprayed_and_vacuumed());
    assert_eq!(
        waits(&read, 8, "2026-07-02"),
        [Some(day("2026-07-15")), None],
        "what is known waits beside it"
    );
    read.end_programme(0);
    assert_eq!(waits_of(&read), (Some(day("2026-07-15")), Some(day("2026-07-01"))));
    assert_eq!(read.uses_ended(day("2026-07-02")), read.uses_elsewhere(0, day("2026-07-02")));
    assert_eq!(waits(&read, 8, "2026-07-16"), [None]);
    // No label asks for more than a year.
    assert_eq!(waits(&notebook, 8, "2027-07-01"), [None]);
    assert_eq!(waits(&notebook, 8, "2027-07-02"), []);
    // The later of what two tabs know.
    let mut other = notebook.clone();
    other.waits.unread = Some(day("2026-07-09"));
    for (winning, other) in [(&read, &other), (&other, &read)] {
        assert_eq!(
            waits_of(&joined(&notebook, winning, other)),
            (Some(day("2026-07-15")), Some(day("2026-07-09")))
        );
    }
}

/// What is found in a neighbour's list is booked on the product that it was.
#[wasm_bindgen_test(unsupported = test)]
fn a_kind_has_its_own_product() {
    let mut record = sprayed_and_vacuumed();
    assert_eq!(record.number_of(Control::ContactSpray), 1);
    assert_eq!(record.number_of(Control::Vacuum), 0);
    assert_eq!(record.number_of(Control::OtherSpray), 2, "one that nobody has read");
    assert_eq!(record.number_of(Control::OtherSpray), 2);
    let used: Vec<bool> = record.products.iter().map(|product| product.is_used).collect();
    assert_eq!(used, [true, false], "what was used once takes no turn");
    let mut unread = PestRecord {
        control: Some(Control::OtherSpray),
        ..PestRecord::default()
    };
    assert_eq!(unread.number_of(Control::OtherSpray), 1);
    assert!(unread.products[0].is_used, "it is what is repeated");
    // Of two of a kind nobody knows which it was: the one that waits longest, and for ever the one that is not read.
    let mut two = sprayed_and_vacuumed();
    let second = two.add_product(Control::ContactSpray).expect("room");
    assert_eq!(two.number_of(Control::ContactSpray), second, "not read");
    for (days, longest) in [("14", 1), ("13", 1), ("15", second)] {
        let mut read = two.products[0].clone();
        read.number = second;
        read.days_before_picking = typed(Field::DaysBeforePicking, days);
        two.products[1] = read;
        assert_eq!(two.number_of(Control::ContactSpray), longest, "{days}");
    }
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
