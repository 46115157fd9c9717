//! Copies from a file: opened or refused with a sentence, used or added; and the season as a table.

use first_truss::almanac::{CivilDay, STANDARD_LATITUDE, Sky, Sun};
use first_truss::notebook::{
    Done, ENVELOPE_VERSION, Field, GroupRecord, GroupSeason, Notebook, PestCount, PestRecord, ProductRecord, SeasonPage, Waits, open_copy,
    seal, season_table,
};
use first_truss::pest::{Control, Pest, Told};
use first_truss::quantity::{UnitSystem, Units};
use first_truss::today::Task;
use first_truss::water::{Feel, Handed, Records, Stay, Thirst, season};
use wasm_bindgen_test::wasm_bindgen_test;

fn july(day: i8) -> CivilDay {
    CivilDay::new(2026, 7, day).expect("a day")
}

/// A notebook on a July morning with groups of these names, of which each got so many litres on some days.
fn notebook(morning: i8, names: &[&str], poured: &[(i8, u32, f64)]) -> Notebook {
    let mut notebook = Notebook::default();
    for name in names.iter().skip(1) {
        let mut group = GroupRecord::default();
        group.rename(name);
        notebook.add_group(group);
    }
    notebook.groups[0].rename(names[0]);
    notebook.turn_to(july(morning));
    for (day, id, litres) in poured {
        notebook.note(july(*day), |page| page.note(*id, |group| group.given = Some(*litres)));
    }
    notebook
}

fn given(notebook: &Notebook, day: i8, name: &str) -> Option<f64> {
    let group = notebook.groups.iter().find(|group| group.name == name).expect("the group");
    notebook.day(july(day))?.group(group.id)?.given
}

#[wasm_bindgen_test(unsupported = test)]
fn a_copy_opens_as_it_was_saved_and_nothing_else_opens() {
    let saved = notebook(9, &["Glass", "Wall"], &[(8, 0, 1.0)]);
    let text = seal(&saved, 0);
    assert_eq!(open_copy(&text), Ok(saved));
    let no_notebook =
        "This file is not a whole First Truss notebook, so nothing was changed. Choose one that “Save a copy to a file” made.";
    let cut: String = text.chars().take(text.chars().count() - 3).collect();
    for wrong in [
        "",
        "first-truss",
        "<script>alert(1)</script>",
        "NaN",
        "first-truss 1\nrevision 1e308\ncheck 0\npage\n",
        &cut,
        &"x".repeat(100_000),
    ] {
        assert_eq!(open_copy(wrong), Err(no_notebook));
    }
    let newer = text.replacen("first-truss 1", "first-truss 99", 1);
    let take_it = "This file was written by a newer First Truss, so nothing was changed. Use the new version first, then open it.";
    assert_eq!(open_copy(&newer), Err(take_it));
}

/// A notebook with something of everything that the first version keeps.
fn everything() -> Notebook {
    let mut notebook = crate::keeping::full_notebook();
    notebook.note(july(7), |page| {
        "9.05".clone_into(&mut page.noted_at);
        page.tick(Done::Task(Task::Tap), true);
        page.tick(Done::Treated(Pest::Whitefly, Control::Vacuum, None), true);
        page.note(0, |group| {
            (group.given, group.feel, group.lighter) = (Some(1.28), Some(Feel::Dry), Some(0.998));
            group.fed = Some(1.5);
        });
        // The day had one line of feed for all.
        page.note(1, |group| group.fed = Some(1.5));
    });
    notebook.note(july(8), |page| page.note(0, |group| group.given = Some(0.0)));
    notebook.programmes.push(PestRecord {
        id: 1_783_000_000_000,
        pest: Pest::SpiderMite,
        first: Some(july(1)),
        counts: vec![PestCount {
            day: july(2),
            seen: 40.0,
            on_card: false,
        }],
        ..PestRecord::default()
    });
    notebook.seasons.push(SeasonPage {
        first: CivilDay::new(2025, 4, 15).expect("a day"),
        last: CivilDay::new(2025, 10, 11).expect("a day"),
        groups: vec![GroupSeason {
            id: 0,
            name: "Glasshouse".to_owned(),
            plants: 6,
            days: 120,
            given: 96.5,
            dry: 12,
            sodden: 3,
        }],
        unknown: vec!["moons=13".to_owned()],
    });
    notebook.hand_out(0xffff_fff1);
    notebook
}

/// The text as each version wrote it opens for ever, and says what it said. A new version adds its own file and leaves these alone.
#[wasm_bindgen_test(unsupported = test)]
fn a_file_of_each_version_opens() {
    let versions = [include_str!("kept/envelope-1.txt")];
    assert_eq!(versions.len(), ENVELOPE_VERSION as usize, "one for each version");
    for text in versions {
        let notebook = open_copy(text).expect("a whole notebook");
        assert_eq!(notebook, everything());
        assert_eq!(open_copy(&seal(&notebook, 7)), Ok(notebook), "and can be kept again");
    }
}

/// A text with the right check, whatever it says.
fn sealed(body: &str) -> String {
    let revision = "revision 3";
    let crc = crc::Crc::<u32, crc::Table<1>>::new(&crc::CRC_32_ISO_HDLC);
    let mut digest = crc.digest();
    digest.update(revision.as_bytes());
    digest.update(body.as_bytes());
    format!("first-truss 1\n{revision}\ncheck {:08x}\n{body}", digest.finalize())
}

#[wasm_bindgen_test(unsupported = test)]
fn what_no_notebook_can_be_is_refused_with_a_sentence() {
    let not_whole = "This file is not a whole First Truss notebook, so nothing was changed. Choose one that “Save a copy to a file” made.";
    let refused = |text: &str, what: &str| assert_eq!(open_copy(text), Err(not_whole), "{what}");
    let group = |id: usize| format!("page\nid={id}\nname=Group {id}\n");
    let groups = |count: usize| "page\n".to_owned() + &(0..count).map(group).collect::<Vec<_>>().concat();
    assert_eq!(
        open_copy(&sealed(&groups(8))).map(|notebook| notebook.groups.len()),
        Ok(8),
        "the check is right"
    );
    refused(&sealed(&groups(10_000)), "ten thousand groups");
    refused(&sealed(&groups(0)), "no group");
    refused(&sealed(""), "no page");
    refused(&sealed("nothing\n"), "a line on no page");
    // Rubbish of ten megabytes: of one sign, of lines, and with the right head and check.
    refused(&"x".repeat(10_000_000), "one sign");
    refused(&"page\nid=1\n".repeat(1_000_000), "lines");
    refused(&sealed(&groups(1)).replace("id=0", &"9".repeat(10_000_000)), "a long line");
    refused(
        &sealed(&("page\npage\nid=0\nname=".to_owned() + &"<script>".repeat(1_250_000) + "\n")),
        "a long name",
    );
    // A file that somebody wrote into: its check tells.
    let whole = seal(&everything(), 41);
    for (here, there) in [
        ("plot-name=Marlpit Lane", "plot-name=<script>alert(1)</script>"),
        ("plants=6", "plants=NaN"),
        ("plants=6", "plants=1e308"),
        ("given0=1.28", "given0=1e308"),
    ] {
        let changed = whole.replace(here, there);
        assert_ne!(changed, whole, "{here}");
        refused(&changed, there);
    }
}

/// With the right check, too, nothing counts that cannot be: it stands as it was typed and makes no number.
#[wasm_bindgen_test(unsupported = test)]
fn numbers_that_cannot_be_make_none() {
    for number in [
        "NaN",
        "inf",
        "1e308",
        "-1000",
        "99999999999999999999",
        "<script>alert(1)</script>",
        "0x10",
        "٣",
    ] {
        let text = sealed(&format!(
            "page\ncan={number}\nlatitude={number}\npage\nid=0\nname={number}\nplants={number}\nheight={number}\nheight-held=7ff8000000000000\n\
             handed=2026-07-08 {number}\npage day\nid=2026-07-08\ngiven0={number}\nfed0={number}\n"
        ));
        let notebook = open_copy(&text).expect("a whole notebook");
        let group = &notebook.groups[0];
        assert_eq!(
            (notebook.can.value(), group.plants.value(), group.height.value()),
            (None, None, None),
            "{number}"
        );
        assert_eq!((notebook.can.text(), group.name.as_str(), group.handed), (number, number, None));
        assert_eq!((notebook.place(), group.count()), (STANDARD_LATITUDE, 1));
        let page = notebook.day(july(8)).expect("the day");
        assert_eq!(page.group(0), None, "{number}");
        assert_eq!(
            page.unknown,
            [format!("given0={number}"), format!("fed0={number}")],
            "kept as it is"
        );
        assert_eq!(open_copy(&seal(&notebook, 1)), Ok(notebook));
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn another_plots_plants_come_as_groups_of_their_own() {
    let mine = notebook(20, &[""], &[(19, 0, 1.5)]);
    let other = notebook(18, &["", "Baskets"], &[(17, 0, 3.0), (17, 1, 0.5)]);
    let both = mine.with_plants_of(&other).expect("room");
    assert_eq!(both.groups.len(), 3, "a group without a name is not taken for mine");
    let given = |id: u32, day: i8| both.day(july(day)).and_then(|page| page.group(id)?.given);
    assert_eq!((given(0, 19), given(0, 17)), (Some(1.5), None));
    assert_eq!((given(both.groups[1].id, 17), given(both.groups[2].id, 17)), (Some(3.0), Some(0.5)));
    // What was handed over with them is a beginning to learn from; what was put back before stays so.
    let handed = |learn_from: Option<CivilDay>, is_handed: bool| {
        let mut other = other.clone();
        other.groups[1].handed = is_handed.then(|| Handed {
            day: july(17),
            deficit: 0.5,
            spread: 0.1,
            thirst: Thirst::default(),
            off: 0.0,
            given: 1.0,
            pour_spread: 0.0,
            pours: 1,
            in_parts: false,
            stay: Some(Stay {
                from: july(19),
                kept_on: None,
            }),
        });
        other.groups[1].learn_from = learn_from;
        let kept = mine.with_plants_of(&other).expect("room").groups[2].clone();
        (kept.learn_from, kept.handed.and_then(|handed| handed.stay))
    };
    // They stay with whoever waters no longer.
    let stay = Some(Stay {
        from: july(19),
        kept_on: Some(july(20)),
    });
    assert_eq!(handed(None, true), (Some(july(21)), stay), "this morning taught there already");
    assert_eq!(handed(Some(july(3)), true), (Some(july(3)), stay));
    assert_eq!(handed(None, false), (None, None));
    let full = notebook(18, &["1", "2", "3", "4", "5", "6", "7", "8"], &[]);
    assert_eq!(mine.with_plants_of(&full), None);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_copy_of_the_same_plants_adds_its_days_and_changes_nothing_told_here() {
    let mut mine = notebook(20, &["Glass"], &[(19, 0, 1.5), (10, 0, 1.0)]);
    let mut copy = notebook(12, &["Glass", "Wall"], &[(10, 0, 9.0), (11, 0, 2.0)]);
    let units = mine.units;
    mine.groups[0].height.type_text(Field::Height, units, "5");
    copy.groups[0].height.type_text(Field::Height, units, "3");
    copy.groups[1].pot_width.type_text(Field::PotWidth, units, "12");
    "Elsewhere".clone_into(&mut copy.plot.name);
    copy.change_units(Units {
        system: UnitSystem::Metric,
        ..units
    });
    let both = mine.with_copy(&copy);
    assert_eq!(both.groups.len(), 2);
    let wall = &both.groups[1].pot_width;
    assert_eq!(
        (wall.text(), wall.value()),
        ("12", copy.groups[1].pot_width.value()),
        "in the units here"
    );
    assert_eq!(
        (both.groups[0].height.text(), both.plot.name.as_str(), both.units),
        ("5", "", units)
    );
    assert_eq!(both.morning.day, mine.morning.day);
    let poured = [19, 11, 10].map(|day| given(&both, day, "Glass"));
    assert_eq!(poured, [Some(1.5), Some(2.0), Some(1.0)]);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_copy_of_other_plants_adds_them_with_their_days() {
    let mine = notebook(20, &["Glass"], &[(19, 0, 1.5)]);
    let mut copy = notebook(18, &["Neighbour", "Baskets"], &[(17, 0, 3.0), (17, 1, 0.5), (19, 0, 4.0)]);
    copy.programmes = [(7, Some(0)), (8, Some(1)), (9, None), (10, Some(5))]
        .map(|(id, plants)| PestRecord {
            id,
            plants,
            ..PestRecord::default()
        })
        .to_vec();
    let both = mine.with_copy(&copy);
    let mut names: Vec<_> = both.groups.iter().map(|group| group.name.as_str()).collect();
    names.sort_unstable();
    assert_eq!(names, ["Baskets", "Glass", "Neighbour"]);
    assert_eq!(given(&both, 19, "Glass"), Some(1.5));
    assert_eq!(given(&both, 19, "Neighbour"), Some(4.0));
    assert_eq!(given(&both, 17, "Neighbour"), Some(3.0));
    assert_eq!(given(&both, 17, "Baskets"), Some(0.5));
    let baskets = both.groups.iter().find(|group| group.name == "Baskets");
    assert_eq!(baskets.map(|group| group.id), Some(1), "a number that is free here stays");
    let neighbour = both.groups.iter().find(|group| group.name == "Neighbour").map(|group| group.id);
    let plants: Vec<_> = both.programmes.iter().map(|programme| programme.plants).collect();
    assert_eq!(plants, [neighbour, Some(1), None, None], "a programme stays with its plants");
    assert_eq!(neighbour, Some(2));
}

/// Whichever of the two keeps one from picking longer, and what is noted in either of one programme.
#[wasm_bindgen_test(unsupported = test)]
fn a_copy_brings_its_programmes_and_how_long_not_to_pick() {
    let sprayed = |id: u64, days: &[i8]| {
        let mut programme = PestRecord {
            id,
            ..PestRecord::default()
        };
        for day in days {
            programme.note(july(*day), Control::Vacuum, 0, true);
        }
        programme
    };
    let wait = |day: i8| Waits {
        pick_from: Some(july(day)),
        ..Waits::default()
    };
    for (here, there, later) in [(21, 24, 24), (24, 21, 24)] {
        let mut mine = notebook(20, &["Glass"], &[]);
        let mut copy = notebook(18, &["Glass"], &[]);
        (mine.waits, copy.waits) = (wait(here), wait(there));
        (mine.programmes, copy.programmes) = (vec![sprayed(7, &[10])], vec![sprayed(7, &[12]), sprayed(8, &[13])]);
        let both = mine.with_copy(&copy);
        assert_eq!(both.waits, wait(later));
        let days: Vec<Vec<u8>> = both
            .programmes
            .iter()
            .map(|programme| programme.deeds.iter().map(|deed| deed.day.day()).collect())
            .collect();
        assert_eq!(days, [vec![10, 12], vec![13]]);
    }
    // What is chosen of a programme that is here too is as it is here.
    let mut mine = notebook(20, &["Glass"], &[]);
    let mut copy = notebook(18, &["Glass"], &[]);
    let chosen = |plants: u32, leaves_gaps: bool, names_place: Told| {
        let mut product = ProductRecord::unread(1, Control::ContactSpray);
        (product.names_crop, product.names_place) = (Told::Yes, names_place);
        PestRecord {
            plants: Some(plants),
            leaves_gaps,
            products: vec![product],
            ..sprayed(7, &[10])
        }
    };
    mine.programmes = vec![chosen(0, false, Told::Unknown)];
    copy.programmes = vec![chosen(3, true, Told::Yes)];
    copy.programmes[0].count(july(11), Some(5.0), false);
    let both = mine.with_copy(&copy).programmes.remove(0);
    assert_eq!(both.counts.len(), 1);
    assert_eq!(
        PestRecord {
            counts: Vec::new(),
            ..both
        },
        mine.programmes[0]
    );
}

/// A programme with products of these numbers, kinds and names, used on these days of July.
fn programme(products: &[(u8, Control, &str)], uses: &[(i8, u8)]) -> PestRecord {
    let product = |(number, control, name): &(u8, Control, &str)| ProductRecord {
        name: (*name).to_owned(),
        ..ProductRecord::unread(*number, *control)
    };
    let mut programme = PestRecord {
        id: 7,
        products: products.iter().map(product).collect(),
        ..PestRecord::default()
    };
    for (day, number) in uses {
        let control = products.iter().find(|(of, ..)| of == number).map(|(_, control, _)| *control);
        programme.note(july(*day), control.expect("its product"), *number, true);
    }
    programme
}

/// Two phones with one programme, of which each added products: the number of a product may be another one's there.
#[wasm_bindgen_test(unsupported = test)]
fn a_copys_uses_stay_with_their_product() {
    use Control::{ContactSpray as Soap, OtherSpray as Other};
    let added = |mine: PestRecord, theirs: PestRecord| {
        let (mut here, mut copy) = (notebook(20, &["Glass"], &[]), notebook(20, &["Glass"], &[]));
        here.programmes = vec![mine];
        let mut beside = programme(&[(1, Other, "")], &[]);
        (beside.id, beside.products[0].same_as) = (8, Some((7, 2)));
        copy.programmes = vec![theirs, beside];
        let both = here.with_copy(&copy);
        assert_eq!(both.with_copy(&copy), both, "the same once more");
        assert_eq!(open_copy(&seal(&both, 1)).as_ref(), Ok(&both));
        let own = &both.programmes[0];
        let products = own.products.iter().map(|product| (product.number, product.name.clone()));
        let uses = own.deeds.iter().map(|deed| (deed.day.day(), deed.product));
        let named = both.programmes[1].products[0].same_as.map(|(_, number)| number);
        (products.collect::<Vec<_>>(), uses.collect::<Vec<_>>(), named)
    };
    let names = |names: &[(u8, &str)]| names.iter().map(|(number, name)| (*number, (*name).to_owned())).collect::<Vec<_>>();
    let (one, soap, oil) = ((1, Soap, "Green"), (2, Soap, "Soap"), (2, Other, "Oil"));

    assert_eq!(
        added(programme(&[one, soap], &[(3, 2)]), programme(&[one, oil], &[(8, 1), (9, 2)])),
        (
            names(&[(1, "Green"), (2, "Soap"), (3, "Oil")]),
            vec![(3, 2), (8, 1), (9, 3)],
            Some(3)
        ),
        "a free number, in every programme"
    );
    let third = (3, Soap, "Soap");
    assert_eq!(
        added(
            programme(&[one, soap, (3, Other, "Oil")], &[]),
            programme(&[one, oil, third], &[(9, 2), (10, 3)])
        ),
        (names(&[(1, "Green"), (2, "Soap"), (3, "Oil")]), vec![(9, 3), (10, 2)], Some(3)),
        "that of its like, all at once"
    );
    assert_eq!(
        added(programme(&[one], &[]), programme(&[one, oil, third], &[(9, 2)])),
        (names(&[(1, "Green"), (2, "Oil")]), vec![(9, 2)], Some(2)),
        "only what was used"
    );
    assert_eq!(
        added(programme(&[one, (2, Other, "")], &[]), programme(&[one, oil], &[(9, 2)])),
        (names(&[(1, "Green"), (2, "")]), vec![(9, 2)], Some(2)),
        "nothing says that they are two"
    );
    let two = [(1, Soap, "Blue"), (2, Other, "Oil")];
    assert_eq!(
        added(programme(&[one], &[]), programme(&two, &[(8, 1), (9, 2)])),
        (names(&[(1, "Green"), (2, "Oil"), (3, "Blue")]), vec![(8, 3), (9, 2)], Some(2))
    );
    let alike = [(1, Soap, ""), (2, Soap, "Green")];
    assert_eq!(
        added(programme(&alike, &[]), programme(&alike, &[(9, 2)])).1,
        [(9, 2)],
        "its own number first"
    );
    let others = [(1, Other, "Oil"), (2, Other, "Fat")];
    assert_eq!(
        added(programme(&[one, soap], &[]), programme(&others, &[(8, 1), (9, 2)])),
        (
            names(&[(1, "Green"), (2, "Soap"), (3, "Oil"), (4, "Fat")]),
            vec![(8, 3), (9, 4)],
            Some(4)
        ),
        "a number each"
    );
    let full = [one, soap, (3, Soap, "Red"), (4, Soap, "White")];
    assert_eq!(
        added(programme(&full, &[]), programme(&[one, oil], &[(9, 2)])),
        (names(&[(1, "Green"), (2, "Soap"), (3, "Red"), (4, "White")]), vec![(9, 2)], Some(2)),
        "there is no room for one more"
    );
    let room = [one, soap, (3, Soap, "Red")];
    assert_eq!(
        added(programme(&room, &[]), programme(&[one, oil], &[(9, 2)])).1,
        [(9, 4)],
        "the last number there is"
    );
    // What is done by hand has no product.
    let mut by_hand = programme(&[one], &[]);
    by_hand.note(july(9), Control::Vacuum, 0, true);
    assert_eq!(added(programme(&[one], &[]), by_hand).1, [(9, 0)]);
}

#[wasm_bindgen_test(unsupported = test)]
fn what_was_seen_on_a_copys_last_morning_comes_with_its_days() {
    let mine = notebook(20, &["Glass"], &[(19, 0, 1.5)]);
    let mut copy = notebook(12, &["Glass"], &[(12, 0, 2.0)]);
    copy.morning.choose_sky(Sky::Clear);
    copy.groups[0].feel = Some(Feel::Dry);
    let both = mine.with_copy(&copy);
    assert_eq!(both.morning, mine.morning);
    assert_eq!(both.groups[0].feel, None);
    let sun = both.day(july(11)).and_then(|page| page.weather?.sun);
    assert_eq!(sun, Some(Sun::Word(Sky::Clear)), "that day's yesterday");
    let seen = both
        .day(july(12))
        .and_then(|page| page.group(0))
        .map(|group| (group.feel, group.given));
    assert_eq!(seen, Some((Some(Feel::Dry), Some(2.0))));
}

#[wasm_bindgen_test(unsupported = test)]
fn a_group_that_is_still_empty_takes_in_the_copys() {
    let copy = notebook(12, &["Glass"], &[(11, 0, 2.0)]);
    let both = Notebook::default().with_copy(&copy);
    assert_eq!(both.groups.len(), 1);
    assert_eq!(given(&both, 11, "Glass"), Some(2.0));
    let mut mine = Notebook::default();
    mine.groups[0].rename("Glass");
    mine.add_group(GroupRecord::default());
    let both = mine.with_copy(&notebook(12, &["Glass", "Wall"], &[(11, 1, 2.0)]));
    assert_eq!(both.groups.len(), 2);
    assert_eq!(given(&both, 11, "Wall"), Some(2.0));
}

/// A copy has two groups of one name, whose numbers are others' here.
#[wasm_bindgen_test(unsupported = test)]
fn two_groups_of_one_name_stay_two() {
    let mine = notebook(20, &["Glass", "Wall", "Tom"], &[(19, 2, 1.5)]);
    let copy = notebook(18, &["Tom", "Tom"], &[(17, 0, 3.0), (17, 1, 0.5)]);
    let both = mine.with_copy(&copy);
    assert_eq!(both.groups.len(), 4);
    let poured: Vec<_> = both
        .day(july(17))
        .expect("the day")
        .groups
        .iter()
        .map(|group| (group.id, group.given))
        .collect();
    assert_eq!(poured, [(2, Some(3.0)), (3, Some(0.5))]);
}

/// The last season of the groups of these numbers.
fn last_season(groups: &[(u32, f64)]) -> SeasonPage {
    let group = |(id, given): &(u32, f64)| GroupSeason {
        id: *id,
        given: *given,
        ..GroupSeason::default()
    };
    SeasonPage {
        first: CivilDay::new(2025, 4, 15).expect("a day"),
        last: CivilDay::new(2025, 10, 11).expect("a day"),
        groups: groups.iter().map(group).collect(),
        unknown: Vec::new(),
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn groups_of_one_number_keep_their_seasons_apart() {
    let mut mine = notebook(20, &["Glass", "Wall"], &[(19, 0, 1.5)]);
    mine.seasons.push(last_season(&[(0, 90.0), (1, 60.0)]));
    let mut copy = notebook(18, &["Neighbour", "Wall"], &[(17, 0, 3.0)]);
    let mut before = last_season(&[(0, 70.0), (1, 50.0)]);
    before.last = before.last.yesterday();
    copy.seasons.push(before);
    let both = mine.with_copy(&copy);
    let id_of = |name: &str| both.groups.iter().find(|group| group.name == name).expect("the group").id;
    assert_eq!(
        (id_of("Glass"), id_of("Wall"), id_of("Neighbour")),
        (0, 1, 2),
        "mine keep their numbers"
    );
    let told: Vec<Vec<_>> = both
        .seasons
        .iter()
        .map(|season| season.groups.iter().map(|group| (group.id, group.given)).collect())
        .collect();
    assert_eq!(told, [[(1, 50.0), (2, 70.0)], [(0, 90.0), (1, 60.0)]]);
    assert_eq!(both.next_id, 3, "the next group gets a number that nobody had");
    // The same copy once more is the same plants, by their name.
    assert_eq!(both.with_copy(&copy), both);
    copy.groups[0].name.clear();
    let four = both.with_copy(&copy);
    assert_eq!(four.groups.len(), 4, "what has no name is not taken for another");
    assert_eq!(four.with_copy(&copy), four, "nor is it new a second time");
    let mut other = copy.clone();
    other.groups[0].settled = !other.groups[0].settled;
    assert_eq!(four.with_copy(&other).groups.len(), 5, "but it is when another is told");
    copy.note(copy.morning.day.expect("a day"), |page| {
        page.note(0, |group| group.given = Some(9.0));
    });
    assert_eq!(four.with_copy(&copy).groups.len(), 5, "or more is noted of it");
}

/// A copy's group has the number of another one here, and its name is that of one whose number the copy has given away.
#[wasm_bindgen_test(unsupported = test)]
fn a_number_that_a_copy_has_given_away_is_not_taken() {
    let mine = notebook(20, &["Glass", "Neighbour"], &[(19, 1, 1.5)]);
    let copy = notebook(18, &["Neighbour", "Baskets"], &[(17, 0, 3.0), (17, 1, 0.5)]);
    let both = mine.with_copy(&copy);
    assert_eq!(both.groups.len(), 4);
    assert_eq!(given(&both, 19, "Neighbour"), Some(1.5), "the first of the name is mine");
    assert_eq!(given(&both, 17, "Baskets"), Some(0.5));
    assert!(
        both.day(july(17))
            .is_some_and(|page| page.groups.iter().any(|group| group.given == Some(3.0)))
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn the_season_as_a_table_has_a_row_for_each_group_and_day() {
    let mut notebook = notebook(10, &["Glass", "Wall"], &[(8, 0, 1.25), (9, 0, 0.0), (8, 1, 0.5), (9, 1, 0.75)]);
    notebook.note(july(9), |page| page.note(0, |group| group.feel = Some(Feel::Dry)));
    let season_of = |place: usize| {
        let group = notebook.groups[place].group();
        let days = notebook.records(&notebook.groups[place], july(10));
        let records = Records {
            days: &days,
            ..Records::new(&group)
        };
        season(&records, notebook.place(), july(10)).expect("a season")
    };
    let (glass, wall) = (season_of(0), season_of(1));
    let table = season_table([("Glass, \"old\"".to_owned(), &glass), ("=1+1".to_owned(), &wall)]);
    let rows: Vec<_> = table.split("\r\n").collect();
    assert_eq!(rows.len(), 6, "heads, four days, and the end of the last line");
    assert!(rows[0].starts_with("date,group,given (litres),"));
    assert!(rows[1].starts_with("2026-07-08,\"Glass, \"\"old\"\"\",1.25,no,"), "{}", rows[1]);
    assert!(
        rows[2].starts_with("2026-07-09,\"Glass, \"\"old\"\"\",0,no,") && rows[2].ends_with(",dry"),
        "{}",
        rows[2]
    );
    assert!(rows[4].starts_with("2026-07-09,\"'=1+1\",0.75,no,"), "{}", rows[4]);
    assert!(
        rows[1..5]
            .iter()
            .all(|row| row.matches(',').count() - row.matches("Glass, ").count() == 7)
    );
}
