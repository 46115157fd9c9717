//! Today's round: what is to be done, in which order, and what not.

use first_truss::almanac::{CivilDay, STANDARD_LATITUDE, Sky, Sun, Yesterday};
use first_truss::feed::{Stage, is_due};
use first_truss::today::{ButtToday, GroupToday, Known, Reason, Task, todays_round};
use first_truss::water::{Container, Dose, Exposure, Feel, Group, Place, PlantSize, Standing, Thirst, last_truss, morning_water};
use wasm_bindgen_test::wasm_bindgen_test;

struct Plants {
    group: Group,
    dose: Dose,
}

fn plants(place: Place, container: Container, sky: Sky, feel: Option<Feel>, rain: f64) -> Plants {
    let group = Group {
        count: 6,
        place,
        container,
        size: PlantSize {
            height_metres: Some(1.2),
            trusses: Some(5.0),
        },
        ..Group::default()
    };
    let yesterday = Yesterday {
        sun: Some(Sun::Word(sky)),
        warmest: Some(if sky == Sky::Clear { 26.0 } else { 18.0 }),
        coolest: Some(14.0),
        rain_millimetres: Some(rain),
        ..Yesterday::default()
    };
    let dose = morning_water(&group, &yesterday, feel, STANDARD_LATITUDE, today()).expect("a dose");
    Plants { group, dose }
}

fn today() -> CivilDay {
    CivilDay::new(2026, 7, 15).expect("a day")
}

/// Task, reason, whether it is left out today, and the groups.
type Line = (Task, Reason, bool, Vec<usize>);

fn of<'a>(group: &'a Group, dose: &'a Dose) -> GroupToday<'a> {
    GroupToday {
        group,
        dose,
        last: None,
        stopped: false,
        feed_due: false,
        watered: false,
    }
}

fn round(plants: &[Plants], butt: Option<ButtToday>, someone_comes: Option<CivilDay>) -> Vec<Line> {
    let groups: Vec<Option<GroupToday>> = plants.iter().map(|Plants { group, dose }| Some(of(group, dose))).collect();
    let known = Known {
        today: today(),
        groups: &groups,
        butt,
        someone_comes,
    };
    todays_round(&known)
        .into_iter()
        .map(|item| (item.task, item.reason, item.not_today, item.groups))
        .collect()
}

fn glass() -> Place {
    Place::default()
}

#[wasm_bindgen_test(unsupported = test)]
fn a_hot_clear_day_waters_first_taps_before_the_path_is_wet_and_pours_again() {
    let small = plants(glass(), Container::Pot { litres: 6.0 }, Sky::Clear, None, 0.0);
    assert_eq!(
        round(&[small], None, None),
        [
            (Task::Water, Reason::Daily, false, vec![0]),
            (Task::Tap, Reason::BeforeWetting, false, vec![0]),
            (Task::DampPath, Reason::HotAndDry, false, vec![0]),
            (Task::PourAtNoon, Reason::SmallStore, false, vec![0]),
            (Task::PourBeforeThree, Reason::SmallStore, false, vec![0]),
        ]
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn a_dull_day_feels_before_it_pours_and_does_not_tap() {
    let bag = plants(glass(), Container::default(), Sky::Dull, None, 0.0);
    assert_eq!(
        round(&[bag], None, None),
        [
            (Task::Squeeze, Reason::SumReadsHigh, false, vec![0]),
            (Task::Water, Reason::Daily, false, vec![0]),
            (Task::Tap, Reason::Dull, true, vec![0]),
        ]
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn groups_share_a_line_and_what_is_left_out_comes_last() {
    let open = Place::Outdoors { exposure: Exposure::Usual };
    let wet = plants(open, Container::Border, Sky::Mixed, None, 20.0);
    let sodden = plants(open, Container::default(), Sky::Mixed, Some(Feel::Sodden), 0.0);
    let (one, other) = (
        plants(open, Container::default(), Sky::Mixed, None, 0.0),
        plants(open, Container::default(), Sky::Mixed, None, 0.0),
    );
    let dry = plants(open, Container::default(), Sky::Mixed, Some(Feel::Dry), 0.0);
    let lines = round(&[wet, sodden, one, other, dry], None, None);
    assert_eq!(
        lines,
        [
            (Task::WaterDry, Reason::Dry, false, vec![4]),
            (Task::Water, Reason::Daily, false, vec![2, 3]),
            (Task::SqueezeAgain, Reason::Dry, false, vec![4]),
            (Task::Water, Reason::RainDidIt, true, vec![0]),
            (Task::Water, Reason::Sodden, true, vec![1]),
        ]
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn a_butt_is_filled_before_it_runs_short_and_someone_comes_while_nobody_is_home() {
    let butt = |level| Some(ButtToday { level, clear_day: 10.0 });
    let bags = || [plants(glass(), Container::default(), Sky::Mixed, None, 0.0)];
    let tops_up = |level| {
        round(&bags(), butt(level), None)
            .into_iter()
            .find(|line| line.0 == Task::TopUpButt)
            .map(|line| line.1)
    };
    assert_eq!(tops_up(1.0), Some(Reason::ButtShortToday));
    assert_eq!(tops_up(12.0), Some(Reason::ButtShortTomorrow));
    assert_eq!(tops_up(100.0), None);
    let comes = |day| round(&bags(), None, Some(day)).iter().any(|line| line.0 == Task::SomeoneComes);
    assert!(comes(today().days_later(3)));
    assert!(!comes(today().yesterday()));
}

#[wasm_bindgen_test(unsupported = test)]
fn what_is_poured_already_is_not_asked_for_again() {
    let small = plants(glass(), Container::Pot { litres: 6.0 }, Sky::Clear, None, 0.0);
    let poured = GroupToday {
        watered: true,
        ..of(&small.group, &small.dose)
    };
    let groups = [Some(poured)];
    let tasks = |level| {
        let known = Known {
            today: today(),
            groups: &groups,
            butt: Some(ButtToday { level, clear_day: 10.0 }),
            someone_comes: None,
        };
        todays_round(&known).into_iter().map(|item| item.task).collect::<Vec<_>>()
    };
    let rest = [Task::Tap, Task::DampPath, Task::PourAtNoon, Task::PourBeforeThree];
    assert_eq!(tasks(12.0), rest);
    assert_eq!(tasks(9.0).first(), Some(&Task::TopUpButt), "for another clear day");
    let groups = [Some(poured), Some(of(&small.group, &small.dose))];
    let known = Known {
        today: today(),
        groups: &groups,
        butt: None,
        someone_comes: None,
    };
    let water = todays_round(&known).into_iter().find(|item| item.task == Task::Water);
    assert_eq!(
        water.map(|item| item.groups),
        Some(vec![1]),
        "who has got nothing yet is still asked for"
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn a_feed_that_is_due_comes_after_the_water_and_never_on_sodden_compost() {
    let tasks = |feel, watered: bool| {
        let pot = plants(glass(), Container::Pot { litres: 12.0 }, Sky::Mixed, Some(feel), 0.0);
        let fed = GroupToday {
            feed_due: true,
            watered,
            ..of(&pot.group, &pot.dose)
        };
        let groups = [Some(of(&pot.group, &pot.dose)), Some(fed)];
        let known = Known {
            today: today(),
            groups: &groups,
            butt: None,
            someone_comes: None,
        };
        let lines = todays_round(&known)
            .into_iter()
            .map(|item| (item.task, item.reason, item.not_today, item.groups));
        lines
            .filter(|(task, ..)| matches!(task, Task::Water | Task::Feed))
            .collect::<Vec<_>>()
    };
    assert_eq!(
        tasks(Feel::Moist, false),
        [
            (Task::Water, Reason::Daily, false, vec![0, 1]),
            (Task::Feed, Reason::FeedDue, false, vec![1])
        ]
    );
    assert_eq!(
        tasks(Feel::Sodden, false),
        [
            (Task::Water, Reason::Sodden, true, vec![0, 1]),
            (Task::Feed, Reason::Sodden, true, vec![1])
        ]
    );
    // Once they have had their water there is no room for it today.
    assert_eq!(tasks(Feel::Moist, true)[1..], [(Task::Feed, Reason::AlreadyWatered, true, vec![1])]);
    assert_eq!(tasks(Feel::Dry, true).last(), Some(&(Task::Feed, Reason::DryRoots, true, vec![1])));
    let day = |text: &str| text.parse::<CivilDay>().expect("a day");
    let due = |a_week, today| is_due(day("2026-07-06"), a_week, Stage::Picking, day(today));
    assert!(due(2.0, "2026-07-09") && !due(2.0, "2026-07-08"));
    assert!(due(1.0, "2026-07-13") && !due(1.0, "2026-07-12"));
    assert!(!is_due(day("2026-07-06"), 2.0, Stage::Late, day("2026-07-12")));
    assert!(due(7.0, "2026-07-07") && !due(7.0, "2026-07-06"));
}

#[wasm_bindgen_test(unsupported = test)]
fn plants_are_stopped_and_fed_less_when_the_last_truss_says_so() {
    let tall = plants(glass(), Container::Pot { litres: 12.0 }, Sky::Mixed, None, 0.0);
    let standing = Standing {
        group: tall.group.clone(),
        thirst: Thirst::default(),
        stopped_at: None,
    };
    let last = last_truss(&standing, STANDARD_LATITUDE, today()).expect("a season still to come");
    let tasks = |day: CivilDay, stopped| {
        let groups = [Some(GroupToday {
            last: Some(&last),
            stopped,
            ..of(&tall.group, &tall.dose)
        })];
        let known = Known {
            today: day,
            groups: &groups,
            butt: None,
            someone_comes: None,
        };
        let tasks: Vec<_> = todays_round(&known)
            .into_iter()
            .filter(|item| !item.not_today)
            .map(|item| item.task)
            .collect();
        (tasks.contains(&Task::StopPlants), tasks.contains(&Task::Taper))
    };
    assert_eq!(tasks(last.stop.yesterday(), false), (false, false), "it may still set one");
    assert_eq!(tasks(last.stop, false), (true, false));
    assert_eq!(tasks(last.late, false), (true, false));
    assert_eq!(tasks(last.stop, true), (false, false), "stopped already");
    assert!(last.late < last.taper.0.yesterday());
    assert_eq!(
        tasks(last.taper.0.yesterday(), false),
        (true, false),
        "late, but no flower ripens any more"
    );
    assert_eq!(tasks(last.taper.0.yesterday(), true), (false, false));
    assert_eq!(tasks(last.taper.0, false), (false, true));
}
