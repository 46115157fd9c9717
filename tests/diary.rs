//! The diary: what is noted day by day, how mornings are filed into it, and what the calculation gets of it.

use first_truss::almanac::{CivilDay, Sky, Sun, Thermometer, Yesterday};
use first_truss::notebook::{DayPage, Field, GroupDay, GroupRecord, Notebook, joined, open, seal};
use first_truss::water::{DayRecord, Feel, Readings, Records, Season, season};
use wasm_bindgen_test::wasm_bindgen_test;

fn july(day: i8) -> CivilDay {
    CivilDay::new(2026, 7, day).expect("a day")
}

/// Two groups, with numbers 0 and 1, on a morning.
fn begun_on(morning: CivilDay) -> Notebook {
    let mut notebook = Notebook::default();
    notebook.add_group(GroupRecord::default());
    notebook.turn_to(morning);
    notebook
}

fn opened(notebook: &Notebook) -> Notebook {
    open(&seal(notebook, 1)).expect("what was just sealed").notebook
}

fn sky(sky: Sky) -> Yesterday {
    Yesterday {
        sun: Some(Sun::Word(sky)),
        ..Yesterday::default()
    }
}

fn dates(notebook: &Notebook) -> Vec<CivilDay> {
    notebook.days.iter().map(|page| page.day).collect()
}

fn pour(notebook: &mut Notebook, day: CivilDay, id: u32, litres: f64) {
    notebook.note(day, |page| page.note(id, |group| group.given = Some(litres)));
}

/// What the calculation makes of a group's days.
fn worked_out(notebook: &Notebook, place: usize, today: CivilDay) -> Season {
    let record = notebook.groups.get(place).expect("a group");
    let (group, days) = (record.group(), notebook.records(record, today));
    let records = Records {
        days: &days,
        learn_from: record.learn_from,
        looked: record.looked,
        ..Records::new(&group)
    };
    season(&records, notebook.place(), today).expect("a season")
}

#[wasm_bindgen_test(unsupported = test)]
fn days_are_kept_in_order_and_an_empty_one_is_taken_out() {
    let mut notebook = begun_on(july(9));
    for day in [7, 3, 9, 5] {
        pour(&mut notebook, july(day), 1, 1.0);
    }
    assert_eq!(dates(&notebook), [july(3), july(5), july(7), july(9)]);
    notebook.note(july(5), |page| page.note(1, |group| group.given = None));
    assert_eq!(dates(&notebook), [july(3), july(7), july(9)]);
    notebook.note(july(4), |_| ());
    notebook.note(july(4), |page| {
        page.note_weather(&Yesterday {
            thermometer: Thermometer::Inside,
            ..Yesterday::default()
        });
    });
    assert_eq!(
        dates(&notebook),
        [july(3), july(7), july(9)],
        "where the thermometer hangs is nothing of a day"
    );
    notebook.note(july(7), |page| page.note(0, |group| group.feel = Some(Feel::Dry)));
    let page = notebook.day(july(7)).expect("the day");
    assert_eq!(
        page.groups.iter().map(|group| group.id).collect::<Vec<_>>(),
        [0, 1],
        "groups by their numbers"
    );
    assert_eq!(opened(&notebook), notebook);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_new_morning_files_yesterdays_weather_and_that_mornings_feels_once() {
    let mut notebook = begun_on(july(9));
    let units = notebook.units;
    notebook.morning.choose_sky(Sky::Clear);
    notebook.morning.warmest.type_text(Field::Warmest, units, "27.5");
    notebook.morning.thermometer = Thermometer::Inside;
    notebook.groups[1].feel = Some(Feel::Dry);
    pour(&mut notebook, july(9), 0, 1.5);
    let told = notebook.morning.yesterday();
    notebook.turn_to(july(10));
    assert_eq!(dates(&notebook), [july(8), july(9)]);
    let [before, day] = notebook.days.as_slice() else {
        panic!("two days")
    };
    assert_eq!((before.weather, before.groups.len()), (Some(told), 0));
    assert_eq!(day.weather, None);
    assert_eq!(day.group(0).map(|group| (group.given, group.feel)), Some((Some(1.5), None)));
    assert_eq!(day.group(1).map(|group| (group.given, group.feel)), Some((None, Some(Feel::Dry))));
    let filed = notebook.clone();
    for _ in 0..3 {
        notebook.turn_to(july(10));
        notebook = opened(&notebook);
    }
    assert_eq!(notebook, filed, "the same morning files nothing again");
    notebook.turn_to(july(11));
    assert_eq!(notebook.days, filed.days, "a morning without a word adds no page");
}

#[wasm_bindgen_test(unsupported = test)]
fn a_clock_that_was_set_back_loses_nothing_that_was_noted() {
    let mut notebook = begun_on(july(14));
    for day in 14..=16 {
        notebook.turn_to(july(day));
        notebook.morning.choose_sky(Sky::Bright);
        notebook.groups[0].feel = Some(Feel::Moist);
        pour(&mut notebook, july(day), 0, 1.0);
    }
    // Set back for a moment nothing is filed, and what was told this morning is there when it is put right.
    let before = notebook.clone();
    notebook.turn_to(july(2));
    assert_eq!(
        (notebook.clock_behind, &notebook.morning, &notebook.groups),
        (Some(july(2)), &before.morning, &before.groups)
    );
    notebook.turn_to(july(16));
    assert_eq!(notebook, before);
    // Back two weeks, three mornings there without a word, and through the noted days once more, again without a word.
    for day in [1, 2, 3, 13, 14, 15, 16, 17] {
        notebook.turn_to(july(day));
    }
    let days: Vec<_> = (13..=16).map(july).collect();
    assert_eq!(dates(&notebook), days);
    for day in &days {
        let page = notebook.day(*day).expect("the day");
        assert_eq!(page.weather, (*day < july(16)).then(|| sky(Sky::Bright)), "{day:?}");
        let noted = page.group(0).map(|group| (group.given, group.feel));
        assert_eq!(noted, (*day > july(13)).then_some((Some(1.0), Some(Feel::Moist))), "{day:?}");
    }
    // What is told anew of a day stands in the place of what was filed.
    notebook.turn_to(july(15));
    notebook.turn_to(july(16));
    notebook.morning.choose_sky(Sky::Dark);
    notebook.groups[0].feel = Some(Feel::Dry);
    for day in [17, 18] {
        notebook.turn_to(july(day));
    }
    assert_eq!(dates(&notebook), days);
    assert_eq!(notebook.day(july(15)).and_then(|page| page.weather), Some(sky(Sky::Dark)));
    let noted = notebook
        .day(july(16))
        .and_then(|page| page.group(0))
        .map(|group| (group.given, group.feel));
    assert_eq!(noted, Some((Some(1.0), Some(Feel::Dry))));
}

#[wasm_bindgen_test(unsupported = test)]
fn what_is_entered_after_a_clock_ran_ahead_is_of_its_own_day() {
    let mut notebook = begun_on(july(15));
    notebook.morning.thermometer = Thermometer::Inside;
    notebook.turn_to(july(20));
    notebook.turn_to(july(16));
    notebook.morning.choose_sky(Sky::Clear);
    notebook.groups[0].feel = Some(Feel::Dry);
    notebook.turn_to(july(17));
    assert_eq!(dates(&notebook), [july(15), july(16)]);
    let told = notebook.day(july(15)).and_then(|page| page.weather?.sun);
    assert_eq!(told, Some(Sun::Word(Sky::Clear)));
    let felt = notebook.day(july(16)).and_then(|page| page.group(0)?.feel);
    assert_eq!(felt, Some(Feel::Dry));
    // A squeeze alone is an entry: it waits for the clock to be put right.
    for (sky, feel) in [(Some(Sky::Dull), None), (None, Some(Feel::Moist))] {
        let mut notebook = begun_on(july(15));
        notebook.morning.sky = sky;
        notebook.groups[0].feel = feel;
        for _ in 0..2 {
            notebook.turn_to(july(12));
            assert_eq!((notebook.morning.day, notebook.clock_behind), (Some(july(15)), Some(july(12))));
        }
        notebook.turn_to(july(13));
        assert_eq!(
            (notebook.morning.day, notebook.clock_behind),
            (Some(july(13)), None),
            "on the next day that it shows"
        );
    }
}

/// The stored text with the lines of `page` after it, sealed anew as a later program would.
fn with_lines(notebook: &Notebook, lines: &[&str]) -> Notebook {
    let mut later = notebook.clone();
    later.unknown_pages.push(lines.iter().map(|line| (*line).to_owned()).collect());
    opened(&later)
}

#[wasm_bindgen_test(unsupported = test)]
fn what_is_not_understood_of_a_day_is_kept() {
    let notebook = begun_on(july(9));
    let lines = [
        "page day",
        "id=2026-07-08",
        "sky=foggy",
        "warmest=900",
        "given1=1.25",
        "feel1=crisp",
        "givenx=3",
        "hail=yes",
    ];
    let notebook = with_lines(&notebook, &lines);
    let [page] = notebook.days.as_slice() else {
        panic!("one day: {notebook:?}")
    };
    assert_eq!((page.day, page.weather, page.noted_at.as_str()), (july(8), None, ""));
    assert_eq!(page.group(1).and_then(|group| group.given), Some(1.25));
    assert_eq!(page.unknown, ["sky=foggy", "warmest=900", "feel1=crisp", "givenx=3", "hail=yes"]);
    assert_eq!(opened(&notebook), notebook);
    // Changed, emptied and joined it is still there.
    let mut changed = notebook.clone();
    changed.note(july(8), |page| page.note(1, |group| group.given = None));
    let mut other = notebook.clone();
    pour(&mut other, july(8), 0, 2.0);
    let both = joined(&notebook, &changed, &other);
    assert_eq!(both.days.first().map(|page| &page.unknown), Some(&page.unknown));
    assert_eq!(both.days.first().map(|page| page.groups.len()), Some(1));
    // A page that is of no day, or of one that there is already, is not taken for one.
    let strange = [
        ["page day", "id=2026-02-30", "sky=clear"],
        ["page day", "id=2026-07-08", "sky=dark"],
    ];
    let mut twice = notebook.clone();
    for lines in strange {
        twice = with_lines(&twice, &lines);
    }
    assert_eq!(twice.days, notebook.days);
    assert_eq!(twice.unknown_pages, strange);
    assert_eq!(opened(&twice), twice);
}

#[wasm_bindgen_test(unsupported = test)]
fn the_calculation_gets_what_was_noted_and_what_is_told_this_morning() {
    let mut notebook = begun_on(july(9));
    notebook.note(july(7), |page| page.note_weather(&sky(Sky::Dull)));
    pour(&mut notebook, july(7), 1, 0.75);
    pour(&mut notebook, july(9), 1, 1.0);
    notebook.note(july(6), |page| page.note(0, |group| group.feel = Some(Feel::Sodden)));
    let records = |notebook: &Notebook, place: usize| notebook.records(&notebook.groups[place], july(9));
    let quiet = records(&notebook, 1);
    let told: Vec<_> = quiet
        .iter()
        .filter(|record| record.weather.is_some() || record.given.is_some())
        .collect();
    assert_eq!(told.len(), 2, "where nothing is told of yesterday nothing is made up: {quiet:?}");
    notebook.morning.choose_sky(Sky::Clear);
    notebook.groups[1].feel = Some(Feel::Dry);
    let of = |records: &[DayRecord], day: i8| records.iter().find(|record| record.day == july(day)).cloned().unwrap_or_default();
    let second = records(&notebook, 1);
    assert_eq!((of(&second, 7).weather, of(&second, 7).given), (Some(sky(Sky::Dull)), Some(0.75)));
    assert_eq!((of(&second, 8).weather, of(&second, 8).given), (Some(sky(Sky::Clear)), None));
    assert_eq!((of(&second, 9).readings.feel, of(&second, 9).given), (Some(Feel::Dry), Some(1.0)));
    assert_eq!(of(&second, 6).readings.feel, None, "that was the other group");
    let first = records(&notebook, 0);
    assert_eq!((of(&first, 6).readings.feel, of(&first, 7).given), (Some(Feel::Sodden), None));
    for records in [first, second] {
        let mut days: Vec<_> = records.iter().map(|record| record.day).collect();
        days.sort_unstable();
        days.dedup();
        assert_eq!(days.len(), records.len(), "each day once");
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn the_morning_gives_the_same_water_before_and_after_it_is_filed() {
    let mut notebook = begun_on(july(1));
    for day in 1..=8 {
        notebook.turn_to(july(day));
        if day != 5 {
            notebook.morning.choose_sky(if day % 2 == 0 { Sky::Clear } else { Sky::Mixed });
        }
        notebook.groups[0].feel = (day % 3 == 0).then_some(Feel::Dry);
        if day != 4 && day != 5 {
            pour(&mut notebook, july(day), 0, 1.0);
        }
    }
    let before = worked_out(&notebook, 0, july(8));
    notebook.turn_to(july(9));
    let after = worked_out(&notebook, 0, july(8));
    assert_eq!((before.dose, before.days, before.thirst), (after.dose, after.days, after.thirst));
}

#[wasm_bindgen_test(unsupported = test)]
fn a_day_that_is_put_right_is_as_if_it_had_been_right_at_first() {
    let morning = |notebook: &mut Notebook, day: i8, litres: f64, feel: Feel| {
        notebook.turn_to(july(day));
        notebook.morning.choose_sky(Sky::Bright);
        notebook.groups[0].feel = Some(feel);
        pour(notebook, july(day), 0, litres);
    };
    let (mut right, mut wrong) = (begun_on(july(1)), begun_on(july(1)));
    for day in 1..=8 {
        let slip = day == 4;
        morning(
            &mut right,
            day,
            if slip { 2.0 } else { 1.0 },
            if slip { Feel::Dry } else { Feel::Moist },
        );
        morning(
            &mut wrong,
            day,
            if slip { 0.2 } else { 1.0 },
            if slip { Feel::Sodden } else { Feel::Moist },
        );
    }
    let at_first = worked_out(&right, 0, july(8));
    assert_ne!(worked_out(&wrong, 0, july(8)).dose.per_plant, at_first.dose.per_plant);
    wrong.note(july(4), |page| {
        page.note(0, |group| (group.given, group.feel) = (Some(2.0), Some(Feel::Dry)));
    });
    assert_eq!(worked_out(&wrong, 0, july(8)), at_first);
    assert_eq!(seal(&wrong, 5), seal(&right, 5));
    wrong.note(july(4), |page| *page = DayPage::of(july(4)));
    assert!(worked_out(&wrong, 0, july(8)) != at_first);
}

#[wasm_bindgen_test(unsupported = test)]
fn two_tabs_note_the_same_day_and_others() {
    let base = begun_on(july(9));
    let (mut here, mut there) = (base.clone(), base.clone());
    pour(&mut here, july(9), 0, 1.0);
    pour(&mut here, july(6), 0, 0.5);
    pour(&mut there, july(9), 1, 2.0);
    there.note(july(7), |page| page.note(1, |group| group.feel = Some(Feel::Dry)));
    let both = joined(&base, &here, &there);
    assert_eq!(both, joined(&base, &there, &here));
    assert_eq!(dates(&both), [july(6), july(7), july(9)]);
    let given = |id: u32| both.day(july(9)).and_then(|page| page.group(id)?.given);
    assert_eq!((given(0), given(1)), (Some(1.0), Some(2.0)));
    // What one takes back goes, unless the other has said something else of it since.
    let mut undone = both.clone();
    undone.note(july(9), |page| page.note(0, |group| group.given = None));
    let mut other = both.clone();
    pour(&mut other, july(9), 1, 2.5);
    let after = joined(&both, &undone, &other);
    let page = after.day(july(9)).expect("the day");
    assert_eq!((page.group(0), page.group(1).and_then(|group| group.given)), (None, Some(2.5)));
}

#[wasm_bindgen_test(unsupported = test)]
fn what_one_tab_takes_back_stays_away_though_the_other_notes_the_day() {
    let mut base = begun_on(july(9));
    pour(&mut base, july(8), 0, 1.0);
    let (mut undone, mut other) = (base.clone(), base.clone());
    undone.note(july(8), |page| page.note(0, |group| group.given = None));
    assert_eq!(undone.day(july(8)), None, "nothing else was noted of the day");
    other.note(july(8), |page| page.note(1, |group| group.feel = Some(Feel::Dry)));
    for both in [joined(&base, &undone, &other), joined(&base, &other, &undone)] {
        let page = both.day(july(8)).expect("the day");
        assert_eq!((page.group(0), page.group(1).and_then(|group| group.feel)), (None, Some(Feel::Dry)));
    }
    // Taken back on both sides, or on one while the other says nothing, it is gone.
    assert_eq!(joined(&base, &undone, &undone).day(july(8)), None);
    let mut elsewhere = base.clone();
    pour(&mut elsewhere, july(7), 0, 2.0);
    assert_eq!(joined(&base, &elsewhere, &undone).day(july(8)), None);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_group_that_is_given_another_number_takes_its_days_along() {
    let base = begun_on(july(9));
    let add = |name: &str, litres: f64| {
        let mut notebook = base.clone();
        let mut group = GroupRecord::default();
        group.rename(name);
        notebook.add_group(group);
        pour(&mut notebook, july(9), 2, litres);
        pour(&mut notebook, july(8), 2, litres / 2.0);
        pour(&mut notebook, july(8), 0, 3.0);
        notebook
    };
    let (here, there) = (add("here", 1.0), add("there", 2.0));
    for both in [joined(&base, &here, &there), joined(&base, &there, &here)] {
        for (name, litres) in [("here", 1.0), ("there", 2.0)] {
            let group = both.groups.iter().find(|group| group.name == name).expect("the group");
            let given = |day: i8| both.day(july(day)).and_then(|page| page.group(group.id)?.given);
            assert_eq!((given(9), given(8)), (Some(litres), Some(litres / 2.0)), "{name}");
        }
        assert_eq!(both.day(july(8)).and_then(|page| page.group(0)?.given), Some(3.0));
        assert_eq!(opened(&both), both);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn an_evening_and_the_next_morning_are_joined_with_all_that_both_noted() {
    let mut base = begun_on(july(9));
    base.morning.choose_sky(Sky::Dull);
    let (mut evening, mut morning) = (base.clone(), base.clone());
    evening.groups[0].feel = Some(Feel::Dry);
    evening.morning.choose_sky(Sky::Clear);
    pour(&mut evening, july(9), 0, 1.0);
    morning.turn_to(july(10));
    morning.morning.choose_sky(Sky::Dark);
    pour(&mut morning, july(10), 1, 0.5);
    for both in [joined(&base, &evening, &morning), joined(&base, &morning, &evening)] {
        assert_eq!(dates(&both), [july(8), july(9), july(10)]);
        assert_eq!(both.morning.sky, Some(Sky::Dark));
        assert_eq!(both.day(july(8)).and_then(|page| page.weather), Some(sky(Sky::Clear)));
        let noted = both
            .day(july(9))
            .and_then(|page| page.group(0))
            .map(|group| (group.given, group.feel));
        assert_eq!(noted, Some((Some(1.0), Some(Feel::Dry))));
        assert_eq!(both.day(july(10)).and_then(|page| page.group(1)?.given), Some(0.5));
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_weighed_pot_and_a_drip_test_are_of_their_morning_and_stay_known() {
    let mut notebook = begun_on(july(9));
    let units = notebook.units;
    let group = &mut notebook.groups[0];
    group.pot_drained.type_text(Field::PotDrained, units, "20");
    group.pot_now.type_text(Field::PotNow, units, "17.8");
    group.drip.type_text(Field::Drip, units, "1.5");
    let seen = notebook.groups[0].readings();
    assert!(
        (seen.lighter.expect("two weights") - 2.2 * 0.453_592_37).abs() < 1e-9,
        "pounds are kilograms, kilograms litres"
    );
    assert!((seen.drip.expect("a drip") - 1.5 * 0.568_261_25).abs() < 1e-9);
    notebook.turn_to(july(10));
    let group = &notebook.groups[0];
    assert_eq!((group.pot_drained.text(), group.pot_now.text(), group.drip.text()), ("20", "", ""));
    assert_eq!(group.readings(), Readings::default(), "a new morning");
    let noted = opened(&notebook)
        .day(july(9))
        .and_then(|page| page.group(0).map(GroupDay::readings))
        .expect("the day");
    assert!((noted.lighter.expect("kept") - 0.998).abs() < 1e-12 && (noted.drip.expect("kept") - 0.852).abs() < 1e-12);
    assert_eq!(
        worked_out(&notebook, 0, july(10)).days[0].readings,
        noted,
        "the calculation learns of it"
    );
    let group = &mut notebook.groups[0];
    group.pot_now.type_text(Field::PotNow, units, "21");
    assert_eq!(
        group.readings().lighter,
        Some(0.0),
        "heavier than drained is not lighter than drained"
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn days_without_a_pour_are_asked_about_since_the_first_that_was_noted() {
    let mut notebook = begun_on(july(20));
    assert!(notebook.missed_days(july(20)).is_empty(), "nobody noted a pour yet");
    for (day, id, litres) in [(12, 0, 1.0), (14, 1, 0.0), (17, 0, 1.0)] {
        pour(&mut notebook, july(day), id, litres);
    }
    notebook.note(july(16), |page| page.note_weather(&sky(Sky::Dull)));
    let asked = |today| notebook.missed_days(july(today)).iter().map(|day| day.day()).collect::<Vec<_>>();
    assert_eq!(asked(20), [19, 18, 16, 15, 13], "noted as nothing is noted");
    assert_eq!(asked(18), [16, 15, 13], "not today, which is still to come");
    assert_eq!(asked(31), (18..=30).rev().collect::<Vec<_>>(), "thirteen at most");
    assert!(notebook.missed_days(july(12)).is_empty());
    // After fourteen silent days the count of water has begun anew: nothing is asked of those, nor of any before.
    let asked_in_august = |notebook: &Notebook, day: i8| notebook.missed_days(CivilDay::new(2026, 8, day).expect("a day"));
    assert_eq!(asked_in_august(&notebook, 1).len(), 13);
    assert!(asked_in_august(&notebook, 2).is_empty());
    let mut today = notebook.clone();
    pour(&mut today, CivilDay::new(2026, 8, 1).expect("a day"), 0, 1.0);
    assert_eq!(asked_in_august(&today, 1).len(), 13, "what is noted today is no silence's end");
    pour(&mut notebook, CivilDay::new(2026, 8, 3).expect("a day"), 0, 1.0);
    let days = asked_in_august(&notebook, 6);
    assert_eq!(days.iter().map(|day| day.day()).collect::<Vec<_>>(), [5, 4]);
    // What is noted of a day to come bridges nothing.
    assert!(asked_in_august(&notebook, 3).is_empty());
}

/// A clock that runs ahead moves nothing today.
#[wasm_bindgen_test(unsupported = test)]
fn a_move_of_a_day_to_come_is_none_yet() {
    let mut notebook = begun_on(july(9));
    let before = notebook.groups[0].placement();
    notebook.note(july(12), |page| page.note(0, |group| group.before = Some(before)));
    let moves = |today| {
        let records = notebook.records(&notebook.groups[0], july(today));
        records.iter().filter(|record| record.before.is_some()).count()
    };
    assert_eq!((moves(11), moves(12), moves(13)), (0, 1, 1));
}
