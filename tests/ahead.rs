//! The butt and the days away as they are kept: what the days make of a level, and when an absence begins and ends.

use first_truss::almanac::{CivilDay, STANDARD_LATITUDE, Sky, Sun, Thermometer, Yesterday};
use first_truss::feed::Water;
use first_truss::notebook::{ButtNow, Entry, Field, GroupRecord, Notebook, open, seal};
use first_truss::quantity::{TemperatureScale, UnitSystem, Units};
use first_truss::water::{Absence, Butt, ButtDay, Group, Outlook, Roof, RoofKind, Standing, away_plan};
use wasm_bindgen_test::wasm_bindgen_test;

const METRIC: Units = Units {
    system: UnitSystem::Metric,
    temperature: TemperatureScale::Celsius,
};
const IMPERIAL: Units = Units {
    system: UnitSystem::Imperial,
    temperature: TemperatureScale::Celsius,
};

fn day(text: &str) -> CivilDay {
    text.parse().expect("a day")
}

fn july(day_of_month: i32) -> CivilDay {
    day("2026-07-01").days_later(day_of_month - 1)
}

/// Types into a field on a day, as the page does.
fn type_on(notebook: &mut Notebook, today: CivilDay, field: Field, text: &str) {
    let units = notebook.units;
    notebook
        .entry_mut(0, field)
        .expect("a field of the notebook")
        .type_text(field, units, text);
    notebook.told(field, today);
}

/// Ten plants, a butt of 200 litres with 100 in it on 1 July, no roof.
fn with_butt() -> Notebook {
    let mut notebook = Notebook {
        units: METRIC,
        ..Notebook::default()
    };
    notebook.turn_to(july(1));
    for (field, text) in [(Field::Plants, "10"), (Field::ButtSize, "200"), (Field::ButtLevel, "100")] {
        type_on(&mut notebook, july(1), field, text);
    }
    notebook
}

fn pour(notebook: &mut Notebook, day: CivilDay, each: f64) {
    notebook.note(day, |page| page.note(0, |group| group.given = Some(each)));
}

fn rain(notebook: &mut Notebook, day: CivilDay, millimetres: f64) {
    let told = Yesterday {
        rain_millimetres: Some(millimetres),
        ..Yesterday::default()
    };
    notebook.note(day, |page| page.note_weather(&told));
}

#[track_caller]
fn now(notebook: &Notebook, today: CivilDay) -> ButtNow {
    notebook.butt_now(today).expect("a level was read")
}

#[track_caller]
fn check_level(notebook: &Notebook, today: CivilDay, litres: f64) {
    let level = now(notebook, today).butt.level;
    assert!((level - litres).abs() < 1e-9, "{level} litres, not {litres}");
}

#[wasm_bindgen_test(unsupported = test)]
fn a_butt_is_there_once_its_size_or_level_is_told() {
    let mut notebook = Notebook::default();
    assert!(!notebook.butt.is_there());
    assert_eq!(notebook.butt_now(july(1)), None);
    type_on(&mut notebook, july(1), Field::ButtSize, "44");
    assert!(notebook.butt.is_there());
    assert_eq!(notebook.butt_now(july(1)), None, "nobody has read how full it is");
    type_on(&mut notebook, july(1), Field::ButtLevel, "28");
    let litres = IMPERIAL.can(28.0).litres();
    check_level(&notebook, july(1), litres);
    type_on(&mut notebook, july(1), Field::ButtLevel, "");
    assert_eq!(notebook.butt_now(july(1)), None);
}

#[wasm_bindgen_test(unsupported = test)]
fn what_is_poured_is_taken_off_and_put_back_when_it_is_undone() {
    let mut notebook = with_butt();
    check_level(&notebook, july(1), 100.0);
    pour(&mut notebook, july(1), 1.5);
    check_level(&notebook, july(1), 85.0);
    let morning = now(&notebook, july(1)).before_watering;
    assert!((morning - 100.0).abs() < 1e-9, "{morning}");
    notebook.note(july(1), |page| page.note(0, |group| group.given = None));
    check_level(&notebook, july(1), 100.0);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_level_that_was_read_after_watering_has_that_water_taken_off_already() {
    let mut notebook = with_butt();
    pour(&mut notebook, july(1), 1.5);
    type_on(&mut notebook, july(1), Field::ButtLevel, "90");
    check_level(&notebook, july(1), 90.0);
    // What is poured after the reading comes out of the butt as well.
    pour(&mut notebook, july(1), 2.0);
    check_level(&notebook, july(1), 85.0);
    pour(&mut notebook, july(1), 1.0);
    check_level(&notebook, july(1), 90.0);
    pour(&mut notebook, july(2), 1.0);
    notebook.turn_to(july(2));
    check_level(&notebook, july(2), 80.0);
    // Whoever wrote `yes` took all of that day's water for poured before.
    let unread = with_butt();
    assert!(!seal(&unread, 1).contains("butt-read-after"));
    let mut older = with_butt();
    pour(&mut older, july(1), 1.5);
    type_on(&mut older, july(1), Field::ButtLevel, "90");
    older.butt.drawn = f64::INFINITY;
    let text = seal(&older, 1);
    assert!(text.lines().any(|line| line == "butt-read-after=yes"), "{text}");
    let mut older = open(&text).expect("sealed").notebook;
    pour(&mut older, july(1), 2.0);
    check_level(&older, july(1), 90.0);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_level_that_was_read_after_feeding_has_that_rain_water_taken_off_already() {
    for (water, level) in [(Water::Rain, 90.0), (Water::Hard, 80.0)] {
        let mut notebook = with_butt();
        notebook.feed.water = water;
        notebook.note(july(1), |page| page.note(0, |group| group.fed = Some(1.0)));
        type_on(&mut notebook, july(1), Field::ButtLevel, "90");
        check_level(&notebook, july(1), 90.0);
        // Water that comes later on a day on which feed came out of the butt is in the same reading.
        pour(&mut notebook, july(1), 1.0);
        check_level(&notebook, july(1), level);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_day_that_is_put_right_later_counts_as_if_it_had_been_right_at_first() {
    let mut notebook = with_butt();
    for day in 1..=4 {
        notebook.turn_to(july(day));
        pour(&mut notebook, july(day), 2.0);
    }
    check_level(&notebook, july(4), 20.0);
    pour(&mut notebook, july(2), 0.0);
    check_level(&notebook, july(4), 40.0);
    pour(&mut notebook, july(3), 7.0);
    check_level(&notebook, july(4), 0.0);
}

#[wasm_bindgen_test(unsupported = test)]
fn rain_fills_it_from_the_roof_up_to_the_brim() {
    let mut notebook = with_butt();
    type_on(&mut notebook, july(1), Field::Roof, "10");
    notebook.butt.kind = RoofKind::Tiles;
    notebook.turn_to(july(2));
    // 10 m² × (6 − 0.75) mm × 0.75 × 0.90
    type_on(&mut notebook, july(2), Field::Rain, "6");
    check_level(&notebook, july(2), 100.0 + 35.4375);
    // The same once it is filed on the page of its day; 30 mm on the next day overflow.
    notebook.turn_to(july(3));
    check_level(&notebook, july(3), 100.0 + 35.4375);
    rain(&mut notebook, july(2), 30.0);
    type_on(&mut notebook, july(3), Field::Rain, "30");
    check_level(&notebook, july(3), 200.0);
    // What ran over is not there later.
    pour(&mut notebook, july(3), 5.0);
    check_level(&notebook, july(3), 150.0);
    // Rain before the level was read is in it already.
    rain(&mut notebook, day("2026-06-30"), 40.0);
    check_level(&notebook, july(3), 150.0);
}

#[wasm_bindgen_test(unsupported = test)]
fn days_without_a_note_are_counted_and_take_nothing() {
    let mut notebook = with_butt();
    pour(&mut notebook, july(1), 1.0);
    for day in 2..=5 {
        notebook.turn_to(july(day));
    }
    pour(&mut notebook, july(4), 1.0);
    check_level(&notebook, july(5), 80.0);
    assert_eq!(now(&notebook, july(5)).silent_days, 2, "the second and the third");
}

#[wasm_bindgen_test(unsupported = test)]
fn filled_up_is_a_level_of_today() {
    let mut notebook = with_butt();
    pour(&mut notebook, july(1), 3.0);
    notebook.turn_to(july(3));
    notebook.fill_butt(july(3));
    check_level(&notebook, july(3), 200.0);
    assert_eq!(notebook.butt.read, Some(july(3)));
    assert_eq!(now(&notebook, july(3)).silent_days, 0);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_level_that_cannot_be_read_leaves_the_earlier_one_with_its_day() {
    let mut notebook = with_butt();
    pour(&mut notebook, july(1), 1.0);
    notebook.turn_to(july(3));
    type_on(&mut notebook, july(3), Field::ButtLevel, "half");
    check_level(&notebook, july(3), 90.0);
    assert_eq!(notebook.butt.read, Some(july(1)));
}

#[wasm_bindgen_test(unsupported = test)]
fn more_than_it_holds_cannot_be_in_it() {
    let mut notebook = with_butt();
    assert_eq!(notebook.butt.overfull(METRIC), None);
    type_on(&mut notebook, july(1), Field::ButtLevel, "250");
    assert_eq!(
        notebook.butt.overfull(METRIC).as_deref(),
        Some("The butt holds 200 litres: 250 cannot be in it.")
    );
    check_level(&notebook, july(1), 200.0);
    notebook.fill_butt(july(1));
    notebook.change_units(IMPERIAL);
    assert_eq!(notebook.butt.overfull(IMPERIAL), None, "a full butt is full in gallons too");
}

#[wasm_bindgen_test(unsupported = test)]
fn a_day_in_the_life_of_a_butt_keeps_its_water() {
    let butt = Butt {
        size: 100.0,
        level: 30.0,
        roof: Roof {
            plan_area: 10.0,
            kind: RoofKind::Glass,
        },
    };
    let level = |poured, rain_millimetres| butt.after(ButtDay { poured, rain_millimetres }).level;
    // Poured first, then rained: 10 m² × (2.75 − 0.75) mm × 0.81.
    for (poured, rain, expected) in [
        (0.0, 0.0, 30.0),
        (10.0, 0.0, 20.0),
        (50.0, 0.0, 0.0),
        (50.0, 2.75, 16.2),
        (0.0, 50.0, 100.0),
    ] {
        assert!(
            (level(poured, rain) - expected).abs() < 1e-9,
            "{poured} {rain}: {}",
            level(poured, rain)
        );
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn butt_and_absence_open_as_they_were_sealed() {
    let check = |notebook: &Notebook| {
        let opened = open(&seal(notebook, 3)).expect("what was just sealed");
        assert_eq!(&opened.notebook, notebook);
    };
    let mut notebook = with_butt();
    pour(&mut notebook, july(1), 1.25);
    type_on(&mut notebook, july(1), Field::Roof, "12.5");
    type_on(&mut notebook, july(1), Field::DaysAway, "6");
    notebook.away.sky = Some(Sky::Dull);
    for kind in RoofKind::ALL {
        notebook.butt.kind = kind;
        check(&notebook);
    }
    type_on(&mut notebook, july(1), Field::ButtLevel, "66");
    assert!(notebook.butt.drawn > 0.0);
    check(&notebook);
    notebook.turn_to(july(2));
    assert_eq!(notebook.butt.level.text(), "", "it is a level of an earlier day");
    check(&notebook);
    check_level(&open(&seal(&notebook, 4)).expect("sealed").notebook, july(2), 66.0);
    notebook.change_units(IMPERIAL);
    check(&notebook);
    check_level(&notebook, july(2), 66.0);
    notebook.butt.level = Entry::default();
    type_on(&mut notebook, july(2), Field::ButtSize, "40 or so");
    type_on(&mut notebook, july(2), Field::DaysAway, "61");
    check(&notebook);
}

#[wasm_bindgen_test(unsupported = test)]
fn an_absence_lasts_from_its_first_day_to_its_last_and_is_then_forgotten() {
    let mut notebook = Notebook::default();
    notebook.turn_to(july(1));
    let assumed = notebook.away.absence(july(1));
    assert_eq!((assumed.first, assumed.days, assumed.outlook), (july(2), 7, Outlook::Usual));
    assert_eq!(notebook.away.now(july(2)), None, "nobody has said so");
    type_on(&mut notebook, july(1), Field::DaysAway, "3");
    notebook.away.sky = Some(Sky::Clear);
    assert_eq!(notebook.away.now(july(1)), None);
    for day in 2..=4 {
        notebook.turn_to(july(day));
        let absence = notebook.away.now(july(day)).expect("away");
        assert_eq!((absence.first, absence.days), (july(2), 3));
        assert_eq!(absence.outlook, Outlook::under(Sky::Clear));
    }
    assert_eq!(notebook.away.now(july(5)), None);
    notebook.turn_to(july(5));
    assert_eq!(notebook.away.days.value(), None);
    assert_eq!(notebook.away.absence(july(5)).first, july(6));
}

#[wasm_bindgen_test(unsupported = test)]
fn all_groups_drink_from_the_butt() {
    let mut notebook = with_butt();
    let place = notebook.add_group(GroupRecord::default()).expect("room for another");
    let id = notebook.groups.get(place).expect("just added").id;
    pour(&mut notebook, july(1), 1.0);
    notebook.note(july(1), |page| page.note(id, |group| group.given = Some(4.0)));
    assert_eq!(notebook.poured(july(1)), Some(14.0));
    check_level(&notebook, july(1), 86.0);
}

/// The days are reckoned whether or not anyone has to come, and what one plant uses on a day adds up to all that is used.
#[wasm_bindgen_test(unsupported = test)]
fn an_absence_has_its_working_even_where_all_hold_out() {
    let standings = [
        Standing::from(Group::default()),
        Standing::from(Group {
            count: 6,
            ..Group::default()
        }),
    ];
    for (days, is_short) in [(1, false), (30, true)] {
        let absence = Absence {
            first: july(10),
            days,
            outlook: Outlook::default(),
        };
        let plan = away_plan(&standings, absence, STANDARD_LATITUDE).expect("a plan");
        assert_eq!(plan.someone_comes.is_some(), is_short, "{days} days");
        assert!(plan.working.steps().len() >= 3, "{days} days");
        let group = plan.groups.last().expect("two groups");
        assert!((group.each.value * 6.0 - group.all.value).abs() < 1e-9);
        assert!(group.a_day * f64::from(days) >= group.each.value, "what drains is poured too");
    }
}

/// Readings of the last week are offered again on a morning without, the latest of them, and where the usual temperatures are a far
/// guess the days away go by them.
#[wasm_bindgen_test(unsupported = test)]
fn the_last_readings_stand_in_where_the_usual_is_a_far_guess() {
    let mut notebook = Notebook::default();
    notebook.turn_to(july(9));
    type_on(&mut notebook, july(9), Field::Warmest, "31");
    type_on(&mut notebook, july(9), Field::Coolest, "20");
    notebook.morning.thermometer = Thermometer::Inside;
    notebook.turn_to(july(10));
    type_on(&mut notebook, july(10), Field::Warmest, "33");
    notebook.turn_to(july(11));
    // Of the ninth one reading alone was told, of the eighth both; the day itself is not before itself.
    let read = |day: i32| notebook.last_read(july(day)).map(|(day, told)| (day, told.warmest, told.coolest));
    assert_eq!(read(9), Some((july(8), Some(31.0), Some(20.0))));
    assert_eq!(read(10), read(9));
    assert_eq!(read(8), None);
    assert_eq!(read(15), read(9), "a week");
    assert_eq!(read(16), None, "and no longer");

    let outlook = |notebook: &Notebook, day: i32| match notebook.absence(july(day)).outlook {
        Outlook::Usual => None,
        Outlook::Like(told) => Some((told.sun, told.warmest, told.coolest, told.thermometer)),
    };
    assert_eq!(outlook(&notebook, 11), None, "at 52° the usual will do");
    assert_eq!(notebook.read_for_ahead(july(11)), None);
    notebook.latitude = Entry::holding(Field::Latitude, notebook.units, 33.0);
    let inside = Thermometer::Inside;
    assert_eq!(outlook(&notebook, 11), Some((None, Some(31.0), Some(20.0), inside)));
    assert_eq!(outlook(&notebook, 16), None);
    notebook.away.sky = Some(Sky::Clear);
    let clear = Some(Sun::Word(Sky::Clear));
    assert_eq!(outlook(&notebook, 11), Some((clear, Some(31.0), Some(20.0), inside)));
    assert_eq!(notebook.absence(july(11)).first, july(12));
    // This morning's are of yesterday, once both are there, and of this morning alone.
    type_on(&mut notebook, july(11), Field::Warmest, "35");
    assert_eq!(notebook.read_for_ahead(july(11)).map(|(day, _)| day), Some(july(8)));
    type_on(&mut notebook, july(11), Field::Coolest, "22");
    assert_eq!(
        notebook.read_for_ahead(july(11)).map(|(day, told)| (day, told.warmest)),
        Some((july(10), Some(35.0)))
    );
    assert_eq!(
        notebook.read_for_ahead(july(12)).map(|(day, _)| day),
        Some(july(8)),
        "not yet on its page"
    );
    notebook.morning.warmest = Entry::default();
    assert_eq!(
        notebook.read_for_ahead(july(11)).map(|(day, _)| day),
        Some(july(8)),
        "one alone is none"
    );
}

/// A can that nobody told is a round one in the grower's own unit.
#[wasm_bindgen_test(unsupported = test)]
fn an_untold_can_is_round() {
    for (system, litres) in [
        (UnitSystem::Imperial, 9.092_18),
        (UnitSystem::Metric, 10.0),
        (UnitSystem::Us, 7.570_823_568),
    ] {
        let mut notebook = Notebook::default();
        notebook.units.system = system;
        assert!((notebook.can_litres() - litres).abs() < 1e-9, "{system:?}");
        assert_eq!(notebook.assumed(0, Field::Can, july(9)), Some(notebook.can_litres()));
    }
}

/// Days away that are taken back leave a first day that was chosen, as long as it is to come; none that has come.
#[wasm_bindgen_test(unsupported = test)]
fn an_absence_that_is_taken_back_leaves_no_first_day_that_has_come() {
    let mut notebook = with_butt();
    type_on(&mut notebook, july(1), Field::DaysAway, "5");
    assert_eq!(notebook.away.from, Some(july(2)));
    type_on(&mut notebook, july(1), Field::DaysAway, "");
    assert_eq!(notebook.away.from, Some(july(2)), "a number may be typed anew");
    type_on(&mut notebook, july(1), Field::DaysAway, "5");
    notebook.turn_to(july(2));
    type_on(&mut notebook, july(2), Field::DaysAway, "");
    assert_eq!(notebook.away.from, None);
    assert_eq!(notebook.absence(july(2)).first, july(3));
}
