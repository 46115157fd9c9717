//! What is kept of feed: exactly as typed, with the last good words beside it, and joined line by line.

use first_truss::almanac::CivilDay;
use first_truss::feed::{Country, Form, MixError, Nutrient, OunceKind, Stage, Stem, Straight, Water};
use first_truss::notebook::{FeedRecord, Field, FormKind, GroupDay, GroupRecord, Notebook, joined, open, seal};
use first_truss::quantity::{UnitSystem, Units};
use wasm_bindgen_test::wasm_bindgen_test;

fn opened(notebook: &Notebook) -> Notebook {
    open(&seal(notebook, 1)).expect("what was just sealed").notebook
}

fn july(day: i8) -> CivilDay {
    CivilDay::new(2026, 7, day).expect("a day")
}

fn feed_group(notebook: &mut Notebook, day: CivilDay, id: u32, litres: Option<f64>) {
    notebook.note(day, |page| page.note(id, |group| group.fed = litres));
}

fn full() -> Notebook {
    let mut notebook = Notebook::default();
    let units = notebook.units;
    let feed = &mut notebook.feed;
    let bottle = feed.bottle_mut();
    bottle.type_label("NPK 7:7:7 + 2 MgO");
    bottle.type_label("60-60-60");
    bottle.type_dose(" 1 fl oz per gallon ");
    bottle.form = Some(FormKind::ByWeight);
    bottle.country = Some(Country::Us);
    bottle.cap.type_text(Field::Cap, units, "25");
    feed.water = Water::Hard;
    feed.each.type_text(Field::FeedEach, units, "2½");
    feed.each.type_text(Field::FeedEach, units, "lots");
    feed.keep(Straight::Urea, true);
    feed.keep(Straight::PotassiumNitrate, true);
    feed.keep(Straight::EpsomSalts, true);
    feed.keep(Straight::Urea, false);
    feed.type_bag(Straight::PotassiumNitrate, "13-0-46");
    feed.type_bag(Straight::PotassiumNitrate, "13-0-460");
    if let Some(group) = notebook.groups.first_mut() {
        group.tell_stage(Some(Stage::Swelling), july(9));
        group.stem = Some(Stem::Thin);
        group.granules = true;
        group.epsom_tried = true;
    }
    feed_group(&mut notebook, july(9), 0, Some(1.42));
    notebook
}

#[wasm_bindgen_test(unsupported = test)]
fn a_feed_opens_as_it_was_kept() {
    let notebook = full();
    assert_eq!(opened(&notebook), notebook);
    let text = seal(&notebook, 1);
    for line in [
        "page feed",
        "feed-label=60-60-60",
        "feed-label-held=NPK 7:7:7 + 2 MgO",
        "feed-dose= 1 fl oz per gallon ",
        "feed-each=lots",
        "shelf-epsom-salts=yes",
        "bag-potassium-nitrate=13-0-460",
        "bag-potassium-nitrate-held=13-0-46",
        "stage=swelling",
        "stage-told=2026-07-09",
        "epsom-tried=yes",
        "fed0=1.42",
    ] {
        assert!(text.lines().any(|kept| kept == line), "“{line}” is missing from {text}");
    }
    assert!(!text.contains("urea=") && !text.contains("feed-dose-held"), "{text}");
    assert!(!seal(&Notebook::default(), 1).contains("page feed"), "nothing is told of any feed");
}

/// What was told of the crop holds for three weeks; after that, and where nobody knows since when, trusses and season may be further.
#[wasm_bindgen_test(unsupported = test)]
fn a_stage_that_was_told_long_ago_no_longer_holds() {
    let mut group = GroupRecord::default();
    assert_eq!(group.told_stage(july(9)), None);
    group.stage = Some(Stage::Swelling);
    assert_eq!(group.told_stage(july(9)), Some((Stage::Swelling, false)));
    group.tell_stage(Some(Stage::Picking), july(1));
    for (day, holds) in [(1, true), (22, true), (23, false)] {
        assert_eq!(group.told_stage(july(day)), Some((Stage::Picking, holds)), "{day}");
    }
    group.tell_stage(None, july(30));
    assert_eq!(group.told_stage(july(30)), None);
}

#[wasm_bindgen_test(unsupported = test)]
fn bad_words_leave_the_last_good_ones() {
    let notebook = opened(&full());
    let (feed, units) = (&notebook.feed, notebook.units);
    let bottle = feed.bottle();
    assert_eq!((bottle.label.text(), bottle.label.good()), ("60-60-60", "NPK 7:7:7 + 2 MgO"));
    assert!(matches!(feed.feed(units, 10.0, false), Err(MixError::Label(_))));
    let good = feed.feed(units, 10.0, true).expect("a feed");
    assert_eq!(good.label.grade.numbers.map(f64::to_bits), [7.0_f64; 3].map(f64::to_bits));
    // Words of which none was ever good are not taken for good when they are opened.
    let mut never = Notebook::default();
    never.feed.bottle_mut().type_label("tomato");
    let never = opened(&never);
    assert_eq!((never.feed.bottle().label.text(), never.feed.bottle().label.good()), ("tomato", ""));
    assert!(never.feed.feed(units, 10.0, true).is_ok(), "what is assumed");
    // An emptied field forgets: what is assumed stands in again.
    let mut emptied = notebook.clone();
    emptied.feed.bottle_mut().type_label(" ");
    assert_eq!(emptied.feed.bottle().words(false).0, "5-2-9");
    assert_eq!(emptied.feed.bottle().label.good(), "");
}

/// A dose in grams is one of a powder until the form is told, whatever the label of the dose asks besides.
#[wasm_bindgen_test(unsupported = test)]
fn a_dose_in_grams_is_of_a_powder_until_told() {
    let mut notebook = Notebook::default();
    let units = notebook.units;
    let bottle = notebook.feed.bottle_mut();
    assert_eq!(bottle.form(false), FormKind::ByVolume);
    for (dose, ounce, form) in [
        ("5 g per litre", None, FormKind::Powder),
        ("5 ml per litre", None, FormKind::ByVolume),
        ("1 in 200", None, FormKind::ByVolume),
        ("1 oz per gallon", Some(OunceKind::Weight), FormKind::Powder),
        ("1 oz per gallon", Some(OunceKind::Fluid), FormKind::ByVolume),
        ("1 oz per gallon", None, FormKind::ByVolume),
    ] {
        bottle.type_dose(dose);
        bottle.ounce = ounce;
        assert_eq!((bottle.form(false), bottle.form(true)), (form, form), "{dose}");
    }
    bottle.type_dose("5 g per litre");
    bottle.type_dose("5 gnats");
    assert_eq!((bottle.form(false), bottle.form(true)), (FormKind::ByVolume, FormKind::Powder));
    assert_eq!(notebook.feed.feed(units, 10.0, true).expect("a feed").label.form, Form::Powder);
    assert_eq!(opened(&notebook), notebook);
    let bottle = notebook.feed.bottle_mut();
    bottle.form = Some(FormKind::ByVolume);
    assert_eq!(bottle.form(true), FormKind::ByVolume, "as told");
    assert_eq!(opened(&notebook), notebook);
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
    notebook.feed.bottle_mut().type_dose("20 ml per gallon");
    // As the grower measures, until it is told; one who measures in litres is asked, and nothing is guessed.
    assert_eq!(per_litre(&notebook, Units::default()).map(f64::to_bits), Ok(uk.to_bits()));
    assert_eq!(per_litre(&notebook, us).map(f64::to_bits), Ok(american.to_bits()));
    let metric = Units {
        system: UnitSystem::Metric,
        ..Units::default()
    };
    assert!(per_litre(&notebook, metric).is_err(), "asked, never guessed");
    notebook.feed.bottle_mut().country = Some(Country::Uk);
    assert_eq!(per_litre(&notebook, us).map(f64::to_bits), Ok(uk.to_bits()));
}

#[wasm_bindgen_test(unsupported = test)]
fn several_feeds_stand_side_by_side_and_one_is_in_the_can() {
    let mut notebook = full();
    let feed = &mut notebook.feed;
    feed.add(1_000);
    feed.bottle_mut().rename("For the flowers");
    feed.bottle_mut().type_label("4-2-14");
    // A clock that was set back gives no number twice.
    feed.add(1_000);
    feed.bottle_mut().type_label("20-20-20");
    feed.bottle_mut().in_mixer = true;
    let numbers = |feed: &FeedRecord| feed.bottles().map(|bottle| bottle.id).collect::<Vec<_>>();
    assert_eq!(numbers(feed), [0, 1_000, 1_001]);
    assert_eq!(feed.bottle().words(false).0, "20-20-20");
    feed.put_in_can(1_000);
    let kept = opened(&notebook);
    assert_eq!(kept, notebook);
    assert_eq!(kept.feed.bottle().name, "For the flowers");
    // Each has its own words; the shelf knows the one that the mixer may use.
    assert_eq!(kept.feed.things().len(), 3);
    let last = kept.feed.things().pop().expect("the feed");
    assert!((last.nitrogen() - 20.0).abs() < 1e-9, "{last:?}");
    // Taken off and put back, whichever it is.
    for id in [0, 1_000, 1_001] {
        let mut feed = kept.feed.clone();
        feed.put_in_can(id);
        let removed = feed.remove().expect("one of three");
        assert_eq!((removed.id, feed.count()), (id, 2));
        assert_ne!(feed.bottle().id, id);
        assert!(!numbers(&feed).contains(&id));
        let mut without = kept.clone();
        without.feed = feed.clone();
        assert_eq!(opened(&without), without);
        feed.restore(removed);
        assert_eq!(numbers(&feed), [0, 1_000, 1_001]);
        assert_eq!(feed.bottle().id, id);
    }
    // The last one stays, and there are never more than are mixed.
    let mut one = FeedRecord::default();
    assert_eq!(one.remove(), None);
    for _ in 0..9 {
        one.add(5);
    }
    assert_eq!((one.count(), FeedRecord::MOST_FEEDS), (5, 5));
}

/// Before there were several feeds, the one stood on the first page.
#[wasm_bindgen_test(unsupported = test)]
fn the_one_feed_of_an_earlier_page_is_opened() {
    let text = seal(&full(), 1);
    let (_, page) = text.split_once("page feed\n").expect("a page");
    let words: Vec<&str> = page
        .lines()
        .take_while(|line| !line.starts_with("page"))
        .filter(|line| *line != "id=0")
        .collect();
    assert!(words.len() > 3, "{words:?}");
    let mut before = full();
    before.feed.bottle_mut().type_label("");
    before.feed = FeedRecord::default();
    before.unknown = words.iter().map(|line| (*line).to_owned()).collect();
    let now = opened(&before);
    assert_eq!(now.feed.bottle(), full().feed.bottle());
    assert_eq!(now.unknown, [""; 0]);
}

#[wasm_bindgen_test(unsupported = test)]
fn the_grade_on_a_bag_beats_the_formula() {
    let mut feed = full().feed;
    // The last good words hold.
    let bag = feed.contents_of(Straight::PotassiumNitrate);
    let near = |got: f64, wanted: f64| assert!((got - wanted).abs() < 1e-3, "{got}, not {wanted}");
    near(bag.nitrogen(), 13.0);
    near(bag.nitrate_nitrogen, 13.0);
    near(bag.potassium, 46.0 * 0.830_15);
    assert_eq!(feed.things().first(), Some(&bag));
    // What the grade does not name the formula tells; what it names it does not.
    let theory = Straight::CalciumNitrate.contents();
    feed.type_bag(Straight::CalciumNitrate, "15.5-0-0");
    let bag = feed.contents_of(Straight::CalciumNitrate);
    near(bag.calcium, theory.calcium);
    near(bag.ammonium_nitrogen / bag.nitrogen(), theory.ammonium_nitrogen / theory.nitrogen());
    feed.type_bag(Straight::CalciumNitrate, "15.5-0-0 + 26 CaO");
    near(feed.contents_of(Straight::CalciumNitrate).of(Nutrient::Calcium), 26.0 * 0.714_7);
    feed.type_bag(Straight::EpsomSalts, "0-0-0 + 16 MgO");
    near(feed.contents_of(Straight::EpsomSalts).magnesium, 16.0 * 0.603_04);
    // Emptied, the formula stands in again.
    feed.type_bag(Straight::CalciumNitrate, "");
    assert_eq!(feed.contents_of(Straight::CalciumNitrate), theory);
    assert_eq!(feed.bag(Straight::CalciumNitrate), "");
}

#[wasm_bindgen_test(unsupported = test)]
fn two_tabs_that_change_the_feed_are_joined() {
    let mut base = full();
    base.feed.add(7);
    let (mut here, mut there) = (base.clone(), base.clone());
    here.feed.put_in_can(0);
    here.feed.bottle_mut().type_label("4-2-8");
    there.feed.put_in_can(0);
    there.feed.bottle_mut().type_dose("5 ml per litre");
    there.feed.keep(Straight::CalciumNitrate, true);
    // Each adds one at another moment.
    here.feed.add(20);
    here.feed.bottle_mut().type_label("1-1-1");
    there.feed.add(30);
    there.feed.bottle_mut().type_label("2-2-2");
    feed_group(&mut here, july(13), 0, Some(1.0));
    feed_group(&mut there, july(14), 0, Some(2.0));
    let both = joined(&base, &here, &there);
    let labels: Vec<&str> = both.feed.bottles().map(|bottle| bottle.label.text()).collect();
    assert_eq!(labels, ["4-2-8", "", "1-1-1", "2-2-2"]);
    assert_eq!(both.feed.bottles().next().map(|bottle| bottle.dose.text()), Some("5 ml per litre"));
    assert!(both.feed.shelf.contains(&Straight::CalciumNitrate) && both.feed.shelf.contains(&Straight::EpsomSalts));
    assert_eq!(both.last_fed(0, july(14)), Some(july(14)));
    assert_eq!(both.last_fed(0, july(13)), Some(july(13)));
    assert_eq!(both.last_fed(0, july(1)), None);
    // One takes a feed off that the other leaves as it was.
    let mut off = base.clone();
    off.feed.put_in_can(7);
    off.feed.remove();
    assert_eq!(joined(&base, &off, &base).feed.count(), 1);
    assert_eq!(
        joined(&base, &off, &here)
            .feed
            .bottles()
            .map(|bottle| bottle.id)
            .collect::<Vec<_>>(),
        [0, 20]
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn each_group_is_fed_by_itself() {
    let mut notebook = full();
    let second = notebook.add_group(GroupRecord::default()).expect("room");
    let id = notebook.groups[second].id;
    assert_eq!(
        (notebook.last_fed(0, july(20)), notebook.last_fed(id, july(20))),
        (Some(july(9)), None)
    );
    feed_group(&mut notebook, july(12), id, Some(0.5));
    let notebook = opened(&notebook);
    assert_eq!(
        (notebook.last_fed(0, july(20)), notebook.last_fed(id, july(20))),
        (Some(july(9)), Some(july(12)))
    );
    let given = |day, id| notebook.day(day).and_then(|page| page.record(id).given);
    assert_eq!(
        (given(july(12), 0), given(july(12), id).map(f64::to_bits)),
        (None, Some(0.5_f64.to_bits()))
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn the_water_of_a_feed_is_part_of_the_days() {
    let day = july(9);
    let mut notebook = full();
    let given = |notebook: &Notebook| notebook.day(day).and_then(|page| page.record(0).given);
    assert_eq!(given(&notebook).map(f64::to_bits), Some(1.42_f64.to_bits()));
    // What was noted of all the day's water holds the feed.
    notebook.note(day, |page| page.note(0, |group| group.given = Some(1.7)));
    assert_eq!(given(&notebook).map(f64::to_bits), Some(1.7_f64.to_bits()));
    feed_group(&mut notebook, day, 0, None);
    notebook.note(day, |page| page.note(0, |group| group.given = None));
    assert_eq!(given(&notebook), None);
}

/// On a day of which only the feed is noted, its water came out of the butt if the can is filled from it, and is no day to ask about.
#[wasm_bindgen_test(unsupported = test)]
fn the_butt_and_the_season_count_the_water_of_a_feed() {
    let mut notebook = Notebook::default();
    let units = notebook.units;
    notebook.groups[0].plants.type_text(Field::Plants, units, "10");
    notebook.butt.size.type_text(Field::ButtSize, units, "40");
    notebook.butt.level.type_text(Field::ButtLevel, units, "40");
    notebook.told(Field::ButtLevel, july(8));
    notebook.turn_to(july(8));
    notebook.turn_to(july(10));
    let level = |notebook: &Notebook| notebook.butt_now(july(10)).expect("a butt").butt.level;
    let full_butt = level(&notebook);
    feed_group(&mut notebook, july(9), 0, Some(1.5));
    assert!((full_butt - level(&notebook) - 15.0).abs() < 1e-9, "{}", level(&notebook));
    assert_eq!(notebook.poured(july(9)), None, "no watering is noted");
    assert_eq!(notebook.watered(july(9)).map(f64::to_bits), Some(15.0_f64.to_bits()));
    assert_eq!(notebook.missed_days(july(10)), []);
    // All the day's water holds the feed's.
    notebook.note(july(9), |page| page.note(0, |group| group.given = Some(2.0)));
    assert!((full_butt - level(&notebook) - 20.0).abs() < 1e-9);
    notebook.note(july(9), |page| page.note(0, |group| group.given = None));
    // From the tap it left the butt as it was.
    notebook.feed.water = Water::Soft;
    assert!((full_butt - level(&notebook)).abs() < 1e-9);
    // A season of feeds alone is summed up with their water.
    let mut past = Notebook::default();
    for day in 1..=3 {
        feed_group(&mut past, CivilDay::new(2025, 8, day).expect("a day"), 0, Some(1.5));
    }
    for day in 1..=15 {
        past.note(july(day), |page| page.note(0, |group| group.given = Some(1.0)));
    }
    past.turn_to(july(15));
    past.turn_to(july(16));
    let season = past.seasons.first().and_then(|season| season.groups.first()).expect("a season");
    assert_eq!((season.days, season.given.to_bits()), (3, 4.5_f64.to_bits()));
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
        assert_eq!(notebook.feed.bottle().dose.text(), " 1 fl oz per gallon ", "{system:?}");
    }
}

/// Feed is a part of the day's water: where no more than that, or none, is noted as poured, it is all of it.
#[wasm_bindgen_test(unsupported = test)]
fn a_day_has_no_less_water_than_feed() {
    let water = |given: Option<f64>, fed: Option<f64>| {
        let group = GroupDay {
            given,
            fed,
            ..GroupDay::default()
        };
        group.water()
    };
    assert_eq!(water(None, None), None);
    assert_eq!(water(Some(0.5), None), Some(0.5));
    assert_eq!(water(None, Some(1.5)), Some(1.5));
    assert_eq!(water(Some(2.0), Some(1.5)), Some(2.0));
    assert_eq!(water(Some(0.0), Some(1.5)), Some(1.5), "no plain water was needed");
}
