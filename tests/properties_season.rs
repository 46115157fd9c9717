//! Properties of a season's balance that hold for every sequence of days.

use first_truss::almanac::{CivilDay, Yesterday};
use first_truss::water::{Container, DayRecord, Feel, Group, Past, Readings, Records, Season, morning_water, season, season_after};
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;

use crate::random_mornings::{Morning, any_cover, any_group, any_outdoors, any_yesterday, growing_morning, number};

/// Days of a random season.
const DAYS: usize = 60;
/// Litres that may come from nowhere in one day.
const ROUNDING: f64 = 1e-9;

/// A day without its date.
fn any_day_record() -> impl Strategy<Value = DayRecord> {
    let weather = option::weighted(0.8, any_yesterday());
    let readings = (
        option::weighted(0.3, select(vec![Feel::Dry, Feel::Moist, Feel::Sodden])),
        option::weighted(0.1, number(0.0..=5.0)),
        option::weighted(0.1, number(0.0..=5.0)),
    );
    let before = option::weighted(0.05, any_group().prop_map(|group| group.placement()));
    (weather, option::weighted(0.6, number(0.0..=6.0)), any::<bool>(), readings, before).prop_map(
        |(weather, given, in_parts, (feel, lighter, drip), before)| DayRecord {
            before,
            weather,
            given,
            in_parts,
            readings: Readings { feel, lighter, drip },
            ..DayRecord::default()
        },
    )
}

/// Sixty days before a morning, a few of them without a record.
fn any_days() -> impl Strategy<Value = Vec<Option<DayRecord>>> {
    proptest::collection::vec(option::weighted(0.85, any_day_record()), DAYS)
}

fn dated(days: Vec<Option<DayRecord>>, today: CivilDay) -> Vec<DayRecord> {
    let first = today.days_later(-i32::try_from(days.len()).expect("few days"));
    let mut day = first;
    let mut records = Vec::new();
    for record in days {
        records.extend(record.map(|record| DayRecord { day, ..record }));
        day = day.tomorrow();
    }
    records
}

fn worked_out(morning: &Morning, days: &[DayRecord]) -> Option<Season> {
    let records = Records {
        days,
        looked: Some(morning.today.days_later(-30)),
        ..Records::new(&morning.group)
    };
    season(&records, morning.latitude, morning.today).ok()
}

/// Water is neither made nor lost, and the store stays between full and dry.
#[track_caller]
fn check_sound(season: &Season) {
    let mut over_all = 0.0;
    for row in &season.days {
        let flows = row.flows;
        let lost = flows.given + flows.rain - flows.used - flows.drained - (flows.start - flows.end);
        assert!(lost.abs() <= ROUNDING, "{lost} litres from nowhere: {row:?}");
        over_all += lost;
        for deficit in [flows.start, flows.after_pour, flows.end] {
            assert!((0.0..=row.store.all_water).contains(&deficit), "{row:?}");
        }
        assert!(
            flows.used >= 0.0 && flows.drained >= -ROUNDING && (0.0..=1.0).contains(&flows.stress),
            "{row:?}"
        );
    }
    assert!(over_all.abs() <= ROUNDING, "{over_all} litres over the season");
    for pair in season.days.windows(2) {
        if let [day, next] = pair {
            assert_eq!(day.day.tomorrow(), next.day);
            let found = next.flows.start - (day.flows.end - next.corrected);
            assert!(found.abs() <= ROUNDING, "{found} litres overnight: {day:?} {next:?}");
        }
    }
    assert!((0.0..=season.store.all_water).contains(&season.deficit), "{season:?}");
    assert!((0.6..=1.65).contains(&season.thirst.factor), "{:?}", season.thirst);
    let dose = &season.dose;
    let (low, litres, high) = (dose.low.litres(), dose.per_plant.litres(), dose.high.litres());
    assert!(
        0.0 <= low && low <= litres && litres <= high && high.is_finite(),
        "{low} {litres} {high}"
    );
    let most = 3.0 * season.store.easy_water / (1.0 - dose.root_zone.drained);
    assert!(litres <= most + ROUNDING, "{litres} litres where {most} are held");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn water_is_conserved_over_sixty_days(
        morning in growing_morning(prop_oneof![any_cover(), any_outdoors()]),
        days in any_days(),
    ) {
        let records = dated(days, morning.today);
        if let Some(season) = worked_out(&morning, &records) {
            check_sound(&season);
        }
    }

    #[test]
    fn no_group_and_no_day_breaks_the_count(
        group in any_group(),
        morning in growing_morning(any_cover()),
        days in any_days(),
    ) {
        let morning = Morning { group, ..morning };
        if let Some(season) = worked_out(&morning, &dated(days, morning.today)) {
            check_sound(&season);
        }
    }

    #[test]
    fn the_order_of_entry_does_not_matter(
        (morning, records, shuffled) in (growing_morning(any_cover()), any_days()).prop_flat_map(|(morning, days)| {
            let records = dated(days, morning.today);
            (Just(morning), Just(records.clone()), Just(records).prop_shuffle())
        }),
    ) {
        prop_assert_eq!(worked_out(&morning, &records), worked_out(&morning, &shuffled));
    }

    #[test]
    fn editing_a_past_day_is_as_having_entered_it_right_at_first(
        morning in growing_morning(any_cover()),
        days in any_days(),
        place in 0..DAYS,
        wrong in any_day_record(),
    ) {
        let right = dated(days, morning.today);
        let edited = morning.today.days_later(-i32::try_from(place).expect("few days") - 1);
        let Some(correction) = right.iter().find(|record| record.day == edited) else { return Ok(()) };
        let mut records = right.clone();
        for record in &mut records {
            if record.day == edited {
                *record = DayRecord { day: edited, ..wrong.clone() };
            }
        }
        records.push(correction.clone());
        prop_assert_eq!(worked_out(&morning, &records), worked_out(&morning, &right));
    }

    #[test]
    fn what_was_lived_through_serves_whatever_is_told_of_yesterday_and_this_morning(
        morning in growing_morning(prop_oneof![any_cover(), any_outdoors()]),
        days in any_days(),
        told in [option::of(any_day_record()), option::of(any_day_record())],
        then in [option::of(any_day_record()), option::of(any_day_record())],
    ) {
        let before = dated(days, morning.today.yesterday());
        let with = |last: [Option<DayRecord>; 2]| {
            let mut records = before.clone();
            records.extend(dated(last.to_vec(), morning.today.tomorrow()).into_iter().map(|record| DayRecord { before: None, ..record }));
            records
        };
        let (told, then) = (with(told), with(then));
        let records = |days| Records { looked: Some(morning.today), ..Records { days, ..Records::new(&morning.group) } };
        let past = Past::of(&records(&told), morning.latitude, morning.today);
        prop_assert_eq!(
            season_after(&past, &records(&then), morning.latitude, morning.today).ok(),
            season(&records(&then), morning.latitude, morning.today).ok()
        );
    }

    #[test]
    fn a_first_morning_is_the_morning_s_own_sum(morning in growing_morning(prop_oneof![any_cover(), any_outdoors()])) {
        let of_yesterday = DayRecord {
            day: morning.today.yesterday(),
            weather: Some(morning.yesterday),
            ..DayRecord::default()
        };
        let of_today = DayRecord {
            day: morning.today,
            readings: Readings { feel: morning.feel, ..Readings::default() },
            ..DayRecord::default()
        };
        let days = [of_today, of_yesterday];
        let records = Records { days: &days, ..Records::new(&morning.group) };
        let dose = season(&records, morning.latitude, morning.today).map(|season| season.dose);
        prop_assert_eq!(
            dose,
            morning_water(&morning.group, &morning.yesterday, morning.feel, morning.latitude, morning.today)
        );
    }

    /// A grower who has poured as advised and stays away for a day has to pour no less on the next.
    #[test]
    fn a_skipped_day_takes_no_less_and_no_more_than_is_held(
        morning in growing_morning(any_cover()),
        given in 0.0..=3.0_f64,
        before in 2..20_i32,
    ) {
        let with = |last: f64| {
            let days: Vec<DayRecord> = (1..=before).map(|back| DayRecord {
                day: morning.today.days_later(-back),
                weather: Some(morning.yesterday),
                given: Some(if back == 1 { last } else { given }),
                ..DayRecord::default()
            }).collect();
            worked_out(&morning, &days)
        };
        let (poured, skipped) = (with(given).expect("a possible day"), with(0.0).expect("a possible day"));
        check_sound(&skipped);
        prop_assert!(poured.deficit <= skipped.deficit + ROUNDING);
        prop_assert!(poured.dose.per_plant.litres() <= skipped.dose.per_plant.litres() + ROUNDING);
    }
}

/// Days that all feel sodden, then dry: whatever the sum says, the plant overrules it.
#[test]
fn the_plant_overrules_the_sum() {
    let group = Group::default();
    let today = CivilDay::default();
    let with = |feel: Feel| {
        let days: Vec<DayRecord> = (0..10)
            .map(|back| DayRecord {
                day: today.days_later(-back),
                weather: Some(Yesterday::default()),
                given: (back > 0).then_some(0.9),
                readings: Readings {
                    feel: (back == 0).then_some(feel),
                    ..Readings::default()
                },
                ..DayRecord::default()
            })
            .collect();
        let records = Records {
            days: &days,
            ..Records::new(&group)
        };
        season(&records, first_truss::almanac::STANDARD_LATITUDE, today).expect("a season")
    };
    let (dry, moist, sodden) = (with(Feel::Dry), with(Feel::Moist), with(Feel::Sodden));
    assert!(
        dry.dose.per_plant.litres() > 1.3 * moist.dose.per_plant.litres(),
        "{dry:?} {moist:?}"
    );
    assert!(moist.dose.per_plant.litres() > 0.0);
    assert!(sodden.dose.per_plant.litres() <= 0.0 && sodden.risks.stop && sodden.dose.hold_off);
    assert!(sodden.deficit < moist.deficit && moist.deficit < dry.deficit);
}

/// Under one sky, a grower who pours what is asked is asked for the same each morning. Of several equal waterings none fills the compost,
/// so that what the first morning adds for draining is still there on the second.
#[test]
fn a_grower_who_pours_as_asked_is_asked_for_the_same() {
    let weather = Yesterday {
        sun: Some(first_truss::almanac::Sun::Word(first_truss::almanac::Sky::Clear)),
        warmest: Some(27.0),
        coolest: Some(13.0),
        ..Yesterday::default()
    };
    for container in [
        Container::Border,
        Container::default(),
        Container::Pot { litres: 12.0 },
        Container::Pot { litres: 7.0 },
        Container::Basket { litres: 6.0 },
    ] {
        let group = Group {
            container,
            ..Group::default()
        };
        let first = CivilDay::new(2026, 6, 14).expect("a day");
        let mut days: Vec<DayRecord> = Vec::new();
        let mut doses = Vec::new();
        for number in 0..14 {
            let today = first.days_later(number);
            days.push(DayRecord {
                day: today.yesterday(),
                weather: Some(weather),
                given: doses.last().copied(),
                ..DayRecord::default()
            });
            let records = Records {
                days: &days,
                ..Records::new(&group)
            };
            let season = season(&records, first_truss::almanac::STANDARD_LATITUDE, today).expect("a season");
            doses.push(season.dose.per_plant.litres());
        }
        let (first, later) = doses.split_first().expect("a morning");
        let (least, most) = later
            .iter()
            .fold((f64::INFINITY, 0.0_f64), |(least, most), &dose| (least.min(dose), most.max(dose)));
        assert!(most - least <= 0.03 * most, "{container:?}: {doses:?}");
        assert!(*first <= most / 0.9 * 1.01 && *first >= 0.97 * least, "{container:?}: {doses:?}");
    }
}
