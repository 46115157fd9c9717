//! What is kept on the device: it opens as it was sealed, damage is always seen, and a new morning forgets what it must.

use first_truss::almanac::{CivilDay, Sky, Thermometer};
use first_truss::notebook::{
    ContainerKind, ENVELOPE_VERSION, Entry, Field, GroupRecord, MorningRecord, Notebook, OpenError, Plot, open, seal,
};
use first_truss::quantity::{TemperatureScale, UnitSystem, Units};
use first_truss::water::{Cover, Exposure, Feel, Leafiness, Medium, Place, PlantSize, PlantedFrom};
use wasm_bindgen_test::wasm_bindgen_test;

const METRIC: Units = Units {
    system: UnitSystem::Metric,
    temperature: TemperatureScale::Celsius,
};
const IMPERIAL: Units = Units {
    system: UnitSystem::Imperial,
    temperature: TemperatureScale::Celsius,
};
const US: Units = Units {
    system: UnitSystem::Us,
    temperature: TemperatureScale::Fahrenheit,
};

fn day(text: &str) -> CivilDay {
    text.parse().expect("a day")
}

fn typed(field: Field, units: Units, texts: &[&str]) -> Entry {
    let mut entry = Entry::default();
    for text in texts {
        entry.type_text(field, units, text);
    }
    entry
}

/// A notebook in which everything was entered once, some of it badly.
pub fn full_notebook() -> Notebook {
    let mut notebook = Notebook {
        plot: Plot {
            name: "Marlpit Lane – süd = “Ø”".to_owned(),
            number: "14b".to_owned(),
        },
        units: US,
        latitude: typed(Field::Latitude, US, &["51,5"]),
        can: typed(Field::Can, US, &["2½"]),
        morning: MorningRecord {
            day: Some(day("2026-07-09")),
            sky: Some(Sky::Bright),
            sunshine_hours: typed(Field::SunshineHours, US, &["8", "8,,"]),
            warmest: typed(Field::Warmest, US, &["81"]),
            coolest: typed(Field::Coolest, US, &["1 1/2", "inf"]),
            thermometer: Thermometer::Inside,
            rain: typed(Field::Rain, US, &["1/3"]),
            humidity: typed(Field::Humidity, US, &[" 60 "]),
            wind: typed(Field::Wind, US, &["."]),
        },
        ..Notebook::default()
    };
    let mut record = GroupRecord {
        plants: typed(Field::Plants, US, &["6"]),
        place: Place::Outdoors {
            exposure: Exposure::Exposed,
        },
        container: ContainerKind::Basket,
        bag_size: typed(Field::BagSize, US, &["35"]),
        plants_in_bag: typed(Field::PlantsInBag, US, &["3", "2.5"]),
        pot_size: typed(Field::PotSize, US, &["9½"]),
        pot_width: typed(Field::PotWidth, US, &["13 3/4"]),
        medium: Medium::Loam,
        settled: true,
        drains: Some(false),
        height: typed(Field::Height, US, &["2 1/3"]),
        trusses: typed(Field::Trusses, US, &["4"]),
        leafiness: Leafiness::Bushy,
        ground: typed(Field::Ground, US, &["2,7"]),
        planted_from: PlantedFrom::Pot7,
        feel: Some(Feel::Sodden),
        ..GroupRecord::default()
    };
    record.rename("Tumblers = by the door");
    record.type_planted("2026-05-20");
    record.type_planted("20 May");
    notebook.add_group(record);
    notebook
}

#[track_caller]
fn check_opens_as_sealed(notebook: &Notebook, revision: u32) {
    let opened = open(&seal(notebook, revision)).expect("what was just sealed");
    assert_eq!((&opened.notebook, opened.revision), (notebook, revision));
}

#[wasm_bindgen_test(unsupported = test)]
fn a_sealed_notebook_opens_as_it_was() {
    for revision in [0, 1, 12, u32::MAX] {
        check_opens_as_sealed(&Notebook::default(), revision);
        check_opens_as_sealed(&full_notebook(), revision);
    }
    let mut notebook = Notebook::default();
    while notebook.add_group(GroupRecord::default()).is_some() {}
    assert_eq!(notebook.groups.len(), Notebook::MOST_GROUPS);
    check_opens_as_sealed(&notebook, 7);
}

#[wasm_bindgen_test(unsupported = test)]
fn every_choice_is_kept() {
    let mut notebook = Notebook::default();
    let mut keep = |change: &mut dyn FnMut(&mut GroupRecord)| {
        if let Some(group) = notebook.groups.first_mut() {
            change(group);
        }
        check_opens_as_sealed(&notebook, 1);
    };
    for shaded in [false, true] {
        for cover in [
            Cover::CleanGlass,
            Cover::Glass,
            Cover::OldGlass,
            Cover::TwinWall,
            Cover::ThickTwinWall,
            Cover::NewPolythene,
            Cover::OldPolythene,
        ] {
            keep(&mut |group| group.place = Place::Covered { cover, shaded });
        }
    }
    for exposure in [Exposure::Sheltered, Exposure::Usual, Exposure::Exposed] {
        keep(&mut |group| group.place = Place::Outdoors { exposure });
    }
    for container in [
        ContainerKind::GrowBag,
        ContainerKind::Pot,
        ContainerKind::Basket,
        ContainerKind::Border,
        ContainerKind::Ring,
    ] {
        keep(&mut |group| group.container = container);
    }
    for medium in [Medium::Peat, Medium::PeatFree, Medium::Coir, Medium::Loam] {
        keep(&mut |group| group.medium = medium);
    }
    for leafiness in [Leafiness::Sparse, Leafiness::Usual, Leafiness::Bushy] {
        keep(&mut |group| group.leafiness = leafiness);
    }
    for planted_from in [PlantedFrom::Pot7, PlantedFrom::Pot9, PlantedFrom::Pot13] {
        keep(&mut |group| group.planted_from = planted_from);
    }
    for feel in [None, Some(Feel::Dry), Some(Feel::Moist), Some(Feel::Sodden)] {
        keep(&mut |group| group.feel = feel);
    }
    for drains in [None, Some(true), Some(false)] {
        keep(&mut |group| group.drains = drains);
    }
    for settled in [true, false] {
        keep(&mut |group| group.settled = settled);
    }
    for sky in Sky::ALL.map(Some).into_iter().chain([None]) {
        notebook.morning.sky = sky;
        check_opens_as_sealed(&notebook, 1);
    }
    for units in [IMPERIAL, METRIC, US] {
        notebook.units = units;
        check_opens_as_sealed(&notebook, 1);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn text_that_cannot_be_read_is_kept_as_typed_with_the_number_before_it() {
    let mut notebook = Notebook::default();
    for (text, value) in [
        ("1,2", Some(0.365_76)),
        ("abc", Some(0.365_76)),
        ("5 paces", Some(0.365_76)),
        ("", None),
        ("½½", None),
    ] {
        let units = notebook.units;
        let entry = notebook.entry_mut(0, Field::Height).expect("a group");
        entry.type_text(Field::Height, units, text);
        let notebook = open(&seal(&notebook, 1)).expect("what was just sealed").notebook;
        let entry = notebook.entry(0, Field::Height).expect("a group");
        assert_eq!(entry.text(), text);
        match (entry.value(), value) {
            (Some(got), Some(expected)) => assert!((got - expected).abs() < 1e-12, "“{text}”: {got}"),
            (got, expected) => assert_eq!(got, expected, "“{text}”"),
        }
    }
    let units = notebook.units;
    let entry = notebook.entry_mut(0, Field::Height).expect("a group");
    for text in ["1.2", "abc"] {
        entry.type_text(Field::Height, units, text);
    }
    let held = entry.value();
    for to in [METRIC, US, IMPERIAL] {
        notebook.change_units(to);
        let entry = notebook.entry(0, Field::Height).expect("a group");
        assert_eq!((entry.text(), entry.value()), ("abc", held), "{to:?}");
        check_opens_as_sealed(&notebook, 1);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_number_is_kept_to_the_last_bit_through_any_change_of_units() {
    let mut notebook = full_notebook();
    let held = |notebook: &Notebook| {
        let fields = MorningRecord::FIELDS.into_iter().chain(GroupRecord::FIELDS);
        fields
            .map(|field| notebook.entry(1, field).and_then(Entry::value))
            .collect::<Vec<_>>()
    };
    let before = held(&notebook);
    for units in [METRIC, IMPERIAL, US, METRIC, US] {
        notebook.change_units(units);
        assert_eq!(held(&notebook), before, "{units:?}");
        notebook = open(&seal(&notebook, 1)).expect("what was just sealed").notebook;
        assert_eq!(held(&notebook), before, "{units:?}, kept");
    }
}

/// Text with one byte changed, where that is still text at all.
fn with_byte(text: &str, at: usize, byte: u8) -> Option<String> {
    let mut bytes = text.as_bytes().to_vec();
    *bytes.get_mut(at)? = byte;
    String::from_utf8(bytes).ok()
}

/// Tries each of `bytes` at every place of a sealed notebook, and gives the number of damaged texts that were tried.
#[track_caller]
fn check_every_place(text: &str, bytes: impl Fn(u8) -> Vec<u8>) -> usize {
    assert!(text.len() <= 4096, "{} bytes", text.len());
    let mut tried = 0;
    for (at, &old) in text.as_bytes().iter().enumerate() {
        for byte in bytes(old) {
            if byte == old {
                continue;
            }
            let Some(damaged) = with_byte(text, at, byte) else { continue };
            tried += 1;
            match open(&damaged) {
                Err(OpenError::Damaged) => {}
                Err(OpenError::Newer { version }) => assert!(version > ENVELOPE_VERSION),
                Ok(opened) => panic!("byte {at} changed from {old} to {byte} still opens, as {opened:?}"),
            }
        }
    }
    tried
}

#[wasm_bindgen_test(unsupported = test)]
fn a_flipped_bit_anywhere_is_seen() {
    for notebook in [Notebook::default(), full_notebook()] {
        let text = seal(&notebook, 12);
        let tried = check_every_place(&text, |old| (0..8).map(|bit| old ^ (1 << bit)).collect());
        assert!(tried > 4 * text.len(), "{tried}");
    }
}

#[cfg(not(target_arch = "wasm32"))]
#[test]
fn a_changed_byte_anywhere_is_seen() {
    let text = seal(&full_notebook(), 12);
    let tried = check_every_place(&text, |_| (0..=u8::MAX).collect());
    assert!(tried > 100 * text.len(), "{tried}");
}

#[wasm_bindgen_test(unsupported = test)]
fn a_missing_doubled_or_swapped_byte_is_seen() {
    let text = seal(&full_notebook(), 12);
    let refused = |damaged: &str, how: &str, at: usize| {
        if damaged != text {
            assert!(open(damaged).is_err(), "{how} at {at} still opens");
        }
    };
    for at in (0..=text.len()).filter(|&at| text.is_char_boundary(at)) {
        let (start, end) = text.split_at(at);
        refused(start, "cut off", at);
        refused(end, "begun", at);
        let mut rest = end.chars();
        if let Some(character) = rest.next() {
            refused(&format!("{start}{}", rest.as_str()), "a character missing", at);
            refused(&format!("{start}{character}{end}"), "a character doubled", at);
            if let Some(next) = rest.next() {
                refused(&format!("{start}{next}{character}{}", rest.as_str()), "two characters swapped", at);
            }
        }
    }
    refused(&format!("{text}\n"), "a line more", text.len());
    refused(&format!("{text}{text}"), "twice", text.len());
}

#[wasm_bindgen_test(unsupported = test)]
fn what_was_never_a_notebook_is_damaged() {
    let long = "first-truss 1\n".repeat(400_000);
    for text in [
        "",
        " ",
        "null",
        "{}",
        "[]",
        "first-truss",
        "\u{0}",
        "\u{feff}",
        "<html>",
        "2",
        long.as_str(),
    ] {
        assert_eq!(open(text).err(), Some(OpenError::Damaged), "“{}”", text.get(..20).unwrap_or(text));
    }
}

/// A text of a later version, found without knowing the form: the one place where a digit tells the version.
pub fn newer_text() -> (String, u32) {
    let text = seal(&full_notebook(), 3);
    (0..text.len())
        .flat_map(|at| (b'2'..=b'9').map(move |digit| (at, digit)))
        .filter_map(|(at, digit)| with_byte(&text, at, digit))
        .find_map(|damaged| match open(&damaged) {
            Err(OpenError::Newer { version }) => Some((damaged, version)),
            _ => None,
        })
        .expect("a digit that tells the version")
}

#[wasm_bindgen_test(unsupported = test)]
fn a_later_form_is_told_from_damage() {
    let (_, version) = newer_text();
    assert!(version > ENVELOPE_VERSION);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_new_morning_forgets_yesterday_and_the_squeezes_but_not_the_plants() {
    let mut notebook = full_notebook();
    let before = notebook.clone();
    notebook.turn_to(day("2026-07-09"));
    assert_eq!(notebook, before, "the same morning changes nothing");
    notebook.turn_to(day("2026-07-10"));
    assert_eq!(notebook.morning, MorningRecord::on(day("2026-07-10"), Thermometer::Inside));
    assert!(notebook.groups.iter().all(|group| group.feel.is_none()));
    let without_feel = |notebook: &Notebook| {
        let mut groups = notebook.groups.clone();
        for group in &mut groups {
            group.feel = None;
            // What has been told of the size is of an earlier day: tried below.
            (group.height, group.trusses, group.looked) = (Entry::default(), Entry::default(), None);
        }
        (
            notebook.plot.clone(),
            notebook.units,
            notebook.latitude.clone(),
            notebook.can.clone(),
            groups,
        )
    };
    assert_eq!(without_feel(&notebook), without_feel(&before));
    check_opens_as_sealed(&notebook, 2);
}

#[wasm_bindgen_test(unsupported = test)]
fn on_a_new_morning_the_size_is_one_of_an_earlier_day() {
    let mut notebook = full_notebook();
    let told: Vec<_> = notebook.groups.iter().map(|group| group.group().size).collect();
    notebook.turn_to(day("2026-07-10"));
    for (group, size) in notebook.groups.iter().zip(told) {
        assert_eq!(group.group().size, size, "the number itself stays");
        assert_eq!(group.looked, size.height_metres.map(|_| day("2026-07-09")));
        for entry in [&group.height, &group.trusses] {
            assert_eq!((entry.text(), entry.is_of_earlier_day()), ("", entry.value().is_some()));
        }
    }
    let units = notebook.units;
    let group = &mut notebook.groups[1];
    let grown = PlantSize {
        height_metres: Some(0.9),
        trusses: Some(5.5),
    };
    // Only the trusses are told anew: the height is what it has become until then.
    group.look(day("2026-07-12"), grown);
    group.trusses.type_text(Field::Trusses, units, "6");
    assert_eq!(group.group().size.height_metres, Some(0.9));
    assert_eq!(group.group().size.trusses, Some(6.0));
    assert_eq!(group.looked, Some(day("2026-07-12")));
    // Looking once more on that day moves nothing.
    group.look(
        day("2026-07-12"),
        PlantSize {
            height_metres: Some(2.0),
            ..grown
        },
    );
    assert_eq!(group.group().size.height_metres, Some(0.9));
    // A step goes on from what is shown, not from the number of the earlier day.
    group.height.step(Field::Height, units, 0.9, 1);
    let feet = Field::Height.typed(units, group.height.value().expect("a height"));
    assert!((feet - 3.5).abs() < 1e-9, "{feet}");
    // Other units keep a number of an earlier day as one.
    notebook.turn_to(day("2026-07-13"));
    notebook.change_units(METRIC);
    assert!(notebook.groups[1].height.is_of_earlier_day());
    check_opens_as_sealed(&notebook, 3);
}

#[wasm_bindgen_test(unsupported = test)]
fn text_that_is_no_size_stays_on_the_new_morning() {
    let mut notebook = full_notebook();
    let units = notebook.units;
    notebook.groups[1].height.type_text(Field::Height, units, "3 or 4");
    notebook.turn_to(day("2026-07-10"));
    assert_eq!(notebook.groups[1].height.text(), "3 or 4");
    assert!(!notebook.groups[1].height.is_of_earlier_day());
}

#[wasm_bindgen_test(unsupported = test)]
fn what_was_entered_before_the_day_was_known_belongs_to_today() {
    let mut notebook = Notebook::default();
    notebook.morning.choose_sky(Sky::Clear);
    notebook.turn_to(day("2026-07-10"));
    assert_eq!(
        (notebook.morning.day, notebook.morning.sky),
        (Some(day("2026-07-10")), Some(Sky::Clear))
    );
    notebook.turn_to(day("2026-07-11"));
    assert_eq!((notebook.morning.day, notebook.morning.sky), (Some(day("2026-07-11")), None));
}

#[wasm_bindgen_test(unsupported = test)]
fn groups_keep_apart_through_adding_removing_and_putting_back() {
    let mut notebook = Notebook::default();
    let ids = |notebook: &Notebook| notebook.groups.iter().map(|group| group.id).collect::<Vec<_>>();
    while notebook.add_group(GroupRecord::default()).is_some() {}
    assert_eq!(notebook.groups.len(), Notebook::MOST_GROUPS);
    let removed = notebook.remove_group(2).expect("a group");
    let added = notebook.add_group(GroupRecord::default()).expect("room for one");
    assert!(!ids(&notebook).contains(&removed.id), "a number is never used twice");
    let mut apart = ids(&notebook);
    apart.sort_unstable();
    apart.dedup();
    assert_eq!(apart.len(), Notebook::MOST_GROUPS);
    notebook.remove_group(added).expect("a group");
    assert_eq!(notebook.restore_group(removed.clone()), 2);
    assert_eq!(notebook.groups.get(2), Some(&removed));
    let opened = open(&seal(&notebook, 1)).expect("what was just sealed").notebook;
    let mut apart = ids(&opened);
    apart.sort_unstable();
    apart.dedup();
    assert_eq!(apart.len(), Notebook::MOST_GROUPS);
    assert!(opened.groups.iter().all(|group| group.id != opened.next_id));
    // The newest was taken out, and its number is still not given to another.
    assert_eq!(
        opened.next_id, notebook.next_id,
        "a number is never used twice, in another session either"
    );

    let mut alone = Notebook::default();
    assert_eq!(alone.remove_group(0), None, "the last group stays");
    assert_eq!(alone.remove_group(5), None);
    let mut two = Notebook::default();
    two.add_group(GroupRecord::default());
    assert_eq!(two.remove_group(2), None, "there is no third");
    alone.groups.first_mut().expect("a group").rename(&"ö".repeat(100));
    assert_eq!(
        alone.groups.first().map(|group| group.name.chars().count()),
        Some(first_truss::notebook::NAME_LENGTH)
    );
    check_opens_as_sealed(&alone, 1);
}
