//! Properties of what is kept, tried on random notebooks and random damage.

use first_truss::almanac::{CivilDay, Sky, Sun, Thermometer, Yesterday};
use first_truss::feed::{Stage, Stem, Straight};
use first_truss::notebook::{
    ButtRecord, ContainerKind, DayPage, Entry, FeedRecord, Field, GroupDay, GroupRecord, GroupSeason, MorningRecord, Notebook, SeasonPage,
    open, seal,
};
use first_truss::quantity::Units;
use first_truss::water::{Feel, Leafiness, Medium, Placement, PlantedFrom, Readings};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;

use crate::measures::ALL_UNITS;

/// What people type into a number field, and what they should not.
fn any_typing() -> impl Strategy<Value = String> {
    prop_oneof![
        "[0-9]{1,3}",
        "[0-9]{0,3}[.,][0-9]{0,3}",
        "[0-9]{0,2} ?[½¼¾⅓]",
        "[-−+]?[0-9]{1,2}( [0-9]/[0-9])?",
        // Anything that fits into one line.
        "\\PC{0,20}",
    ]
}

/// Text typed into a field one after the other, each step kept as the page keeps it.
fn entry(field: Field, units: Units) -> impl Strategy<Value = Entry> {
    (vec(any_typing(), 0..3), option::of(-3_i32..=3)).prop_map(move |(texts, steps)| {
        let mut entry = Entry::default();
        for text in &texts {
            entry.type_text(field, units, text);
        }
        // Steps short of the limits of the field.
        let mut stepped = entry.clone();
        stepped.step(field, units, field.middle(), steps.unwrap_or(0));
        let range = field.range(units);
        let reached = stepped.value().map_or(range.low, |held| field.typed(units, held));
        if steps.is_some() && reached > range.low && reached < range.high {
            entry = stepped;
        }
        entry
    })
}

pub fn any_day() -> impl Strategy<Value = CivilDay> {
    (1_i16..=9998, 1_i8..=12, 1_i8..=31).prop_filter_map("no such day", |(year, month, day)| CivilDay::new(year, month, day).ok())
}

fn any_group(units: Units) -> impl Strategy<Value = GroupRecord> {
    let entries = GroupRecord::FIELDS.into_iter().map(|field| entry(field, units)).collect::<Vec<_>>();
    let kinds = vec![
        ContainerKind::GrowBag,
        ContainerKind::Pot,
        ContainerKind::Basket,
        ContainerKind::Border,
        ContainerKind::Ring,
    ];
    (
        entries,
        "\\PC{0,45}",
        select(vec!["glass", "tunnel", "outdoors"]),
        select(kinds),
        select(vec![Medium::Peat, Medium::PeatFree, Medium::Coir, Medium::Loam]),
        (any::<bool>(), option::of(any::<bool>()), any::<bool>(), any::<bool>()),
        select(vec![Leafiness::Sparse, Leafiness::Usual, Leafiness::Bushy]),
        (
            option::of(any_day()),
            "\\PC{0,12}",
            select(vec![PlantedFrom::Pot7, PlantedFrom::Pot9, PlantedFrom::Pot13]),
        ),
        (
            option::of(select(vec![Feel::Dry, Feel::Moist, Feel::Sodden])),
            option::of(select(Stage::ALL.to_vec())),
            option::of(select(vec![Stem::Thin, Stem::Right, Stem::Lush])),
        ),
    )
        .prop_map(
            |(
                entries,
                name,
                place,
                container,
                medium,
                (settled, drains, granules, epsom_tried),
                leafiness,
                (planted, then, planted_from),
                (feel, stage, stem),
            )| {
                let mut record = GroupRecord {
                    container,
                    medium,
                    settled,
                    drains,
                    leafiness,
                    planted_from,
                    feel,
                    stage,
                    stem,
                    granules,
                    epsom_tried,
                    ..GroupRecord::default()
                };
                record.rename(&name);
                record.move_to(place);
                if let Some(day) = planted {
                    record.type_planted(&day.to_string());
                    if !then.trim().is_empty() {
                        record.type_planted(&then);
                    }
                }
                for (field, entry) in GroupRecord::FIELDS.into_iter().zip(entries) {
                    if let Some(slot) = record.entry_mut(field) {
                        *slot = entry;
                    }
                }
                record
            },
        )
}

fn any_morning(units: Units) -> impl Strategy<Value = MorningRecord> {
    let entries = MorningRecord::FIELDS
        .into_iter()
        .map(|field| entry(field, units))
        .collect::<Vec<_>>();
    (
        entries,
        option::of(any_day()),
        option::of(select(Sky::ALL.to_vec())),
        select(vec![Thermometer::Inside, Thermometer::Outside]),
    )
        .prop_map(|(entries, day, sky, thermometer)| {
            let mut record = MorningRecord {
                day,
                sky,
                thermometer,
                ..MorningRecord::default()
            };
            for (field, entry) in MorningRecord::FIELDS.into_iter().zip(entries) {
                if let Some(slot) = record.entry_mut(field) {
                    *slot = entry;
                }
            }
            record
        })
}

fn any_weather() -> impl Strategy<Value = Yesterday> {
    let sun = prop_oneof![select(Sky::ALL.to_vec()).prop_map(Sun::Word), (0.0..=24.0).prop_map(Sun::Hours),];
    let number = |range: std::ops::RangeInclusive<f64>| option::weighted(0.3, range);
    (
        option::of(sun),
        (number(-30.0..=60.0), number(-30.0..=60.0), any::<bool>()),
        (number(0.0..=500.0), number(1.0..=100.0), number(0.0..=40.0)),
    )
        .prop_map(|(sun, (warmest, coolest, inside), (rain, humidity, wind))| Yesterday {
            sun,
            warmest,
            coolest,
            thermometer: if inside { Thermometer::Inside } else { Thermometer::Outside },
            rain_millimetres: rain,
            humidity_percent: humidity,
            wind_metres_per_second: wind,
        })
}

/// Anywhere that plants can stand, as a notebook has it.
fn any_placement() -> impl Strategy<Value = Placement> {
    let can_be = any_group(Units::default()).prop_map(|group| group.placement());
    can_be.prop_filter("a size that cannot be", |placement| placement.check().is_ok())
}

fn any_day_page() -> impl Strategy<Value = DayPage> {
    let group = (
        0_u32..10,
        option::of(0.0..=50.0),
        option::of(select(vec![Feel::Dry, Feel::Moist, Feel::Sodden])),
        option::weighted(0.3, 0.0..=50.0),
        option::weighted(0.3, 0.0..=50.0),
        option::weighted(0.3, 0.0..=50.0),
        (option::weighted(0.2, any_placement()), option::weighted(0.2, any_placement())),
    );
    (any_day(), any_weather(), vec(group, 0..4), "|[0-9]{1,2}\\.[0-9]{2}").prop_map(|(day, weather, groups, noted_at)| {
        let mut page = DayPage {
            noted_at,
            ..DayPage::of(day)
        };
        page.note_weather(&weather);
        for (id, given, feel, lighter, drip, fed, (before, stood)) in groups {
            page.note(id, |group| {
                group.given = given;
                group.fed = fed;
                (group.before, group.stood) = (before, stood);
                group.see(Readings { feel, lighter, drip });
            });
        }
        page
    })
}

fn any_season_page() -> impl Strategy<Value = SeasonPage> {
    let count = || 0_u32..400;
    let group = (0_u32..10, "\\PC{0,40}", count(), count(), 0_u32..2_000_000, (count(), count()));
    (any_day(), any_day(), vec(group, 0..4)).prop_map(|(first, last, groups)| {
        let mut season = SeasonPage {
            first,
            last,
            ..SeasonPage::default()
        };
        for (id, name, plants, days, given, (dry, sodden)) in groups {
            let group = GroupSeason {
                id,
                name,
                plants,
                days,
                given: f64::from(given) / 1000.0,
                dry,
                sodden,
            };
            let index = season.groups.partition_point(|other| other.id < id);
            if season.groups.get(index).is_none_or(|other| other.id != id) {
                season.groups.insert(index, group);
            }
        }
        season
    })
}

/// Groups that stand no more, one for each number of which something is noted, as long as there are some.
fn remembered(notebook: &Notebook, gone: Vec<GroupRecord>) -> Vec<GroupRecord> {
    let noted = |id: &u32| notebook.days.iter().any(|page| page.group(*id).is_some());
    let ids = (notebook.next_id..10).filter(noted);
    ids.zip(gone).map(|(id, group)| GroupRecord { id, ..group }).collect()
}

/// Words of labels and doses, good and bad.
fn any_words() -> impl Strategy<Value = (String, String)> {
    let label = prop_oneof![
        select(vec!["5-2-9", "60-60-60", "NPK 7:7:7+2MgO", " 4,5-2-8 ", ""]).prop_map(str::to_owned),
        "\\PC{0,20}"
    ];
    let dose = prop_oneof![
        select(vec!["20 ml per gallon", "a cap per can", "1:20", "a splash", "15 ml in 10 l "]).prop_map(str::to_owned),
        "\\PC{0,20}"
    ];
    (label, dose)
}

fn any_feed(units: Units) -> impl Strategy<Value = FeedRecord> {
    let fields = FeedRecord::FIELDS.into_iter().chain([Field::Nitrate, Field::Cap]);
    let entries = fields.map(|field| (Just(field), entry(field, units))).collect::<Vec<_>>();
    let salts = vec((select(Straight::SHELF.to_vec()), any::<bool>(), any_words()), 0..6);
    // What one feed is told, and whether another is added, taken off, or put into the can after it.
    let bottle = ("\\PC{0,20}", vec(any_words(), 0..3), any::<bool>(), 0_u8..4);
    (vec(bottle, 0..7), entries, salts).prop_map(|(bottles, entries, salts)| {
        let mut feed = FeedRecord::default();
        for (number, (name, words, in_mixer, then)) in bottles.into_iter().enumerate() {
            let bottle = feed.bottle_mut();
            bottle.rename(&name);
            bottle.in_mixer = in_mixer;
            for (label, dose) in &words {
                bottle.type_label(label);
                bottle.type_dose(dose);
            }
            match then {
                0 => feed.add(u64::try_from(number).expect("small")),
                1 => drop(feed.remove()),
                2 => feed.put_in_can(0),
                _ => (),
            }
        }
        for (field, entry) in entries {
            if let Some(slot) = feed.entry_mut(field) {
                *slot = entry;
            }
        }
        for (salt, is_there, (label, _)) in salts {
            feed.keep(salt, is_there);
            feed.type_bag(salt, &label);
        }
        feed
    })
}

pub fn any_notebook() -> impl Strategy<Value = Notebook> {
    select(ALL_UNITS.to_vec()).prop_flat_map(|units| {
        (
            vec(any_group(units), 1..=Notebook::MOST_GROUPS),
            any_morning(units),
            entry(Field::Latitude, units),
            entry(Field::Can, units),
            ButtRecord::FIELDS.into_iter().map(|field| entry(field, units)).collect::<Vec<_>>(),
            ("\\PC{0,30}", "\\PC{0,6}"),
            (vec(any_day_page(), 0..6), vec(any_season_page(), 0..3), vec(any_group(units), 0..4)),
            any_feed(units),
        )
            .prop_map(
                move |(groups, morning, latitude, can, butt, (name, number), (days, seasons, gone), feed)| {
                    let mut notebook = Notebook {
                        units,
                        latitude,
                        can,
                        morning,
                        feed,
                        ..Notebook::default()
                    };
                    for (field, entry) in ButtRecord::FIELDS.into_iter().zip(butt) {
                        if let Some(slot) = notebook.butt.entry_mut(field) {
                            *slot = entry;
                        }
                    }
                    (notebook.plot.name, notebook.plot.number) = (name, number);
                    for group in groups {
                        let place = notebook.add_group(group);
                        if place == Some(1) {
                            notebook.remove_group(0);
                        }
                    }
                    // Numbers are given anew when a notebook is opened.
                    notebook.next_id = 0;
                    for group in &mut notebook.groups {
                        group.id = notebook.next_id;
                        notebook.next_id += 1;
                    }
                    for day in days {
                        notebook.note(day.day, |page| *page = day);
                    }
                    notebook.gone = remembered(&notebook, gone);
                    if let Some(last) = notebook.gone.last() {
                        notebook.next_id = notebook.next_id.max(last.id + 1);
                    }
                    for season in seasons {
                        if let Err(index) = notebook.seasons.binary_search_by_key(&season.last, |other| other.last) {
                            notebook.seasons.insert(index, season);
                        }
                    }
                    notebook
                },
            )
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_notebook_opens_as_it_was_sealed(notebook in any_notebook(), revision in any::<u32>()) {
        let text = seal(&notebook, revision);
        let opened = open(&text).expect("what was just sealed");
        let mut kept = notebook.clone();
        if notebook.latitude.value().is_some_and(|degrees| (degrees * 2.0).fract() != 0.0) {
            // Nothing finer than half a degree is kept.
            kept.latitude = Entry::holding(Field::Latitude, notebook.units, notebook.place().degrees_north());
        }
        prop_assert_eq!(&opened.notebook, &kept);
        prop_assert_eq!(opened.revision, revision);
        prop_assert_eq!(seal(&opened.notebook, revision), text);
    }

    #[test]
    fn days_stand_in_order_and_say_something_whatever_was_noted(
        notebook in any_notebook(),
        days in vec((any_day_page(), any::<bool>()), 0..8),
    ) {
        let mut notebook = notebook;
        for (day, again) in &days {
            notebook.note(day.day, |page| page.clone_from(day));
            if *again {
                notebook.note(day.day, |page| *page = DayPage::of(day.day));
            }
            let noted = notebook.day(day.day);
            prop_assert_eq!(noted, Some(day).filter(|day| !again && !day.is_empty()));
        }
        prop_assert!(notebook.days.is_sorted_by(|one, next| one.day < next.day));
        prop_assert!(notebook.days.iter().all(|page| !page.is_empty()));
        let group = notebook.groups.first().expect("a group").clone();
        let quiet = Notebook { morning: MorningRecord::default(), ..notebook };
        let group = GroupRecord { feel: None, pot_now: Entry::default(), drip: Entry::default(), ..group };
        let records = quiet.records(&group, CivilDay::default());
        prop_assert_eq!(records.len(), quiet.days.len());
        for (record, page) in records.iter().zip(&quiet.days) {
            let noted = page.group(group.id);
            prop_assert_eq!((record.day, record.weather), (page.day, page.weather));
            let least = noted.and_then(|noted| noted.fed).unwrap_or_default();
            prop_assert_eq!(record.given, noted.and_then(|noted| Some(noted.given.or(noted.fed)?.max(least))));
            prop_assert_eq!(record.readings, noted.map(GroupDay::readings).unwrap_or_default());
            prop_assert_eq!(record.before, noted.and_then(|noted| noted.before).filter(|_| page.day <= CivilDay::default()));
        }
    }

    #[test]
    fn mornings_in_any_order_lose_no_day_that_was_noted(notebook in any_notebook(), mornings in vec(0_i32..30, 1..12)) {
        let mut notebook = notebook;
        let first = CivilDay::new(2026, 6, 1).expect("a day");
        let before = notebook.days.clone();
        for (turn, days) in mornings.iter().enumerate() {
            notebook.turn_to(first.days_later(*days));
            if turn % 2 == 0 {
                notebook.morning.choose_sky(Sky::Clear);
            }
            let given = f64::from(*days) + 0.5;
            notebook.note(first.days_later(*days), |page| page.note(3, |group| group.given = Some(given)));
        }
        for days in &mornings {
            let noted = notebook.day(first.days_later(*days)).and_then(|page| page.group(3)?.given);
            prop_assert_eq!(noted, Some(f64::from(*days) + 0.5));
        }
        for page in &before {
            let now = notebook.day(page.day);
            if now.is_none() && notebook.seasons.iter().any(|season| (season.first..=season.last).contains(&page.day)) {
                continue;
            }
            prop_assert!(now.is_some());
            prop_assert!(page.weather.is_none() || now.is_some_and(|now| now.weather.is_some()));
        }
        prop_assert!(notebook.days.is_sorted_by(|one, next| one.day < next.day));
    }

    #[test]
    fn any_change_of_units_keeps_what_is_held_and_comes_back(notebook in any_notebook(), path in vec(select(ALL_UNITS.to_vec()), 1..4)) {
        // Text that makes no number in one unit may make one in another, and then it counts: "12" is too high in metres.
        let first = notebook.clone();
        let held = |notebook: &Notebook| {
            let mut held = Vec::new();
            for index in 0..notebook.groups.len() {
                for field in GroupRecord::FIELDS.into_iter().chain(MorningRecord::FIELDS).chain(ButtRecord::FIELDS).chain([Field::Can]) {
                    let is_number = first.entry(index, field).is_some_and(|entry| entry.error(field, first.units).is_none());
                    held.push(notebook.entry(index, field).filter(|_| is_number).and_then(Entry::value));
                }
            }
            held
        };
        let before = held(&notebook);
        let mut changed = notebook.clone();
        for units in path {
            changed.change_units(units);
            prop_assert_eq!(&held(&changed), &before);
        }
    }

    #[test]
    fn any_damage_is_seen(
        notebook in any_notebook(),
        at in any::<prop::sample::Index>(),
        length in 1_usize..40,
        put in "\\PC{0,40}",
    ) {
        let text = seal(&notebook, 7);
        let boundaries: Vec<usize> = (0..=text.len()).filter(|&at| text.is_char_boundary(at)).collect();
        let from = at.index(boundaries.len());
        let to = (from + length).min(boundaries.len() - 1);
        let damaged = format!("{}{put}{}", &text[..boundaries[from]], &text[boundaries[to]..]);
        prop_assume!(damaged != text);
        prop_assert!(open(&damaged).is_err(), "{damaged}");
    }

    #[test]
    fn any_text_that_was_not_sealed_is_refused(text in any::<String>()) {
        prop_assert!(open(&text).is_err());
    }
}
