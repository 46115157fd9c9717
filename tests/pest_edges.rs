//! Where an answer on pests turns: what a control kills, when a living one may be brought in, and lines of a calendar file.

use first_truss::almanac::{CivilDay, Latitude, STANDARD_LATITUDE};
use first_truss::pest::{
    Advice, Basis, CalendarEntry, Control, DayReading, Extent, GlassOffset, HOME_COVERAGE, Introduction, Kills, Label, LifeStage, Pest,
    Product, Programme, Told, Wait, Warmth, advice, calendar_file, development_line, introduction, soil_mean,
};
use wasm_bindgen_test::wasm_bindgen_test;

const STAGES: [LifeStage; 4] = [LifeStage::Egg, LifeStage::Young, LifeStage::Pupa, LifeStage::Adult];
const PESTS: [Pest; 9] = [
    Pest::Whitefly,
    Pest::SpiderMite,
    Pest::Aphid,
    Pest::Thrips,
    Pest::RussetMite,
    Pest::LeafMiningMoth,
    Pest::LeafMiningFly,
    Pest::TomatoMoth,
    Pest::Slug,
];

#[track_caller]
fn near(found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-12, "{found} is not {expected}");
}

const SOME: Kills = Kills {
    egg: 0.1,
    young: 0.5,
    pupa: 0.2,
    adult: 0.8,
    basis: Basis::Published,
};

#[wasm_bindgen_test(unsupported = test)]
fn what_is_reached_is_killed_and_two_treatments_meet_what_is_left() {
    let part = SOME.with_coverage(0.25);
    let twice = SOME.and(SOME);
    for stage in STAGES {
        let killed = SOME.of(stage);
        near(part.of(stage), killed / 4.0);
        near(1.0 - twice.of(stage), (1.0 - killed) * (1.0 - killed));
        near(SOME.and(Kills::NONE).of(stage), killed);
        near(Kills::NONE.and(SOME).of(stage), killed);
    }
    assert_eq!((part.basis, twice.basis), (Basis::Published, Basis::Published));
}

/// Numbers are given where there is a trial or a stated choice, and nowhere else.
#[wasm_bindgen_test(unsupported = test)]
fn only_these_controls_have_numbers_against_these_pests() {
    use Pest::{Aphid, RussetMite, SpiderMite, Thrips, Whitefly};
    for control in Control::ALL {
        let on: &[Pest] = match control {
            Control::ContactSpray => &[Whitefly, SpiderMite, RussetMite, Aphid],
            Control::OtherSpray | Control::HandPicking => &PESTS,
            Control::Vacuum | Control::StickyCards => &[Whitefly, Thrips],
            Control::WaterJet => &[Whitefly, SpiderMite, Aphid],
            Control::Parasitoid => &[Whitefly, Aphid],
            Control::Traps | Control::FerricPhosphate | Control::PredatoryMite | Control::Nematodes => &[],
        };
        for pest in PESTS {
            let kills = control.kills(pest);
            assert_eq!(kills.is_some(), on.contains(&pest), "{control:?} on {pest:?}");
            let Some(kills) = kills else { continue };
            assert!(
                STAGES.iter().all(|stage| (0.0..1.0).contains(&kills.of(*stage))),
                "{control:?} on {pest:?}"
            );
            assert!(STAGES.iter().any(|stage| kills.of(*stage) > 0.0), "{control:?} on {pest:?}");
        }
        let weekly = matches!(control, Control::StickyCards | Control::Parasitoid);
        assert_eq!(control.works_all_week(), weekly, "{control:?}");
    }
}

/// Soap dips in a laboratory: young mites .89 to .99, adults .93 to .99 (abstract); young aphids .98, adults .95 (encyclopaedia). A home
/// sprayer reaches four fifths.
#[wasm_bindgen_test(unsupported = test)]
fn soap_kills_what_it_killed_in_the_laboratory_where_it_reaches() {
    let mites = Control::ContactSpray.kills(Pest::SpiderMite).expect("numbers");
    assert!((0.89 * HOME_COVERAGE..0.99 * HOME_COVERAGE).contains(&mites.young));
    assert!((0.93 * HOME_COVERAGE..0.99 * HOME_COVERAGE).contains(&mites.adult));
    assert_eq!(Control::ContactSpray.kills(Pest::RussetMite), Some(mites));
    let aphids = Control::ContactSpray.kills(Pest::Aphid).expect("numbers");
    near(aphids.young, 0.98 * HOME_COVERAGE);
    near(aphids.adult, 0.95 * HOME_COVERAGE);
    assert!(mites.basis == Basis::Published && aphids.basis == Basis::Published);
}

/// Cards and parasitoids take three of ten in a week (choice), a share of each day.
#[wasm_bindgen_test(unsupported = test)]
fn what_works_all_week_leaves_seven_of_ten_after_seven_days() {
    let cards = Control::StickyCards.kills(Pest::Whitefly).expect("numbers");
    near((1.0 - cards.adult).powi(7), 0.7);
    let wasps = Control::Parasitoid.kills(Pest::Aphid).expect("numbers");
    near((1.0 - wasps.young).powi(7), 0.7);
}

fn day(month: i8, day: i8) -> CivilDay {
    CivilDay::new(2026, month, day).expect("a day")
}

const fn always(celsius: f64) -> Warmth<'static> {
    Warmth {
        latitude: STANDARD_LATITUDE,
        glass: None,
        mean: Some(celsius),
        readings: &[],
    }
}

fn brought(pest: Pest, control: Control, celsius: f64, spray: Option<(CivilDay, Control)>) -> Introduction {
    introduction(pest, control, &always(celsius), spray.as_slice(), true, day(7, 9)).expect("a living control")
}

#[wasm_bindgen_test(unsupported = test)]
fn a_parasitoid_waits_two_days_after_soap_and_for_the_label_of_any_other_spray() {
    let after = |days_ago: i32, control: Control| {
        let spray = Some((day(7, 9).days_later(-days_ago), control));
        brought(Pest::Whitefly, Control::Parasitoid, 22.0, spray)
    };
    let today = after(0, Control::ContactSpray);
    assert_eq!((today.day, today.waits), (Some(day(7, 11)), vec![Wait::AfterSpray]));
    let yesterday = after(1, Control::ContactSpray);
    assert_eq!((yesterday.day, yesterday.waits), (Some(day(7, 10)), vec![Wait::AfterSpray]));
    for days_ago in [2, 9] {
        let longer = after(days_ago, Control::ContactSpray);
        assert_eq!((longer.day, longer.waits), (Some(day(7, 9)), vec![]));
    }
    for days_ago in [0, 20, 84] {
        let other = after(days_ago, Control::OtherSpray);
        assert_eq!((other.day, other.waits), (None, vec![Wait::AskLabel]), "{days_ago}");
    }
    let long_ago = after(85, Control::OtherSpray);
    assert_eq!((long_ago.day, long_ago.waits), (Some(day(7, 9)), vec![]));
    // Of all that was sprayed each waits, whichever was the last.
    let both = [
        (day(7, 1), Control::OtherSpray),
        (day(7, 8), Control::ContactSpray),
        (day(7, 2), Control::ContactSpray),
    ];
    let found = introduction(Pest::Whitefly, Control::Parasitoid, &always(22.0), &both, true, day(7, 9)).expect("a living control");
    assert_eq!((found.day, found.waits), (None, vec![Wait::AfterSpray, Wait::AskLabel]));
    let soil = introduction(Pest::Slug, Control::Nematodes, &always(15.0), &both, true, day(7, 9)).expect("a living control");
    assert_eq!((soil.day, soil.waits), (Some(day(7, 9)), vec![]));
    let jet = after(0, Control::WaterJet);
    assert_eq!((jet.day, jet.waits), (Some(day(7, 9)), vec![]));
}

/// Nematodes live in the soil: no spray on the leaves holds them up, and they ask for the soil's warmth.
#[wasm_bindgen_test(unsupported = test)]
fn nematodes_wait_for_no_spray() {
    for control in [Control::ContactSpray, Control::OtherSpray] {
        let found = brought(Pest::Slug, Control::Nematodes, 15.0, Some((day(7, 9), control)));
        assert_eq!((found.day, found.waits), (Some(day(7, 9)), vec![]), "{control:?}");
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_living_control_is_told_too_cool_and_too_warm_by_the_mean() {
    let found = |celsius: f64| brought(Pest::SpiderMite, Control::PredatoryMite, celsius, None);
    let needs = found(20.0).needs;
    assert!(matches!(found(needs.least_mean - 0.5).waits[..], [Wait::TooCool { mean, least }] if mean < least));
    assert!(matches!(found(needs.most_mean + 0.5).waits[..], [Wait::TooWarm { mean, most }] if mean > most));
    for celsius in [needs.least_mean, 20.0, needs.most_mean] {
        assert_eq!((found(celsius).day, found(celsius).waits), (Some(day(7, 9)), vec![]), "{celsius}");
        near(found(celsius).mean, celsius);
    }
    assert_eq!(found(needs.most_mean + 0.5).day, None);
}

#[wasm_bindgen_test(unsupported = test)]
fn cards_catch_the_parasitoid_alone() {
    assert!(brought(Pest::Whitefly, Control::Parasitoid, 22.0, None).cards_catch_it);
    assert!(!brought(Pest::SpiderMite, Control::PredatoryMite, 20.0, None).cards_catch_it);
    let no_cards = introduction(Pest::Aphid, Control::Parasitoid, &always(22.0), &[], false, day(7, 9));
    assert!(!no_cards.expect("a living control").cards_catch_it);
}

/// The soil follows the air of the thirty days before.
#[wasm_bindgen_test(unsupported = test)]
fn the_soil_is_as_warm_as_the_days_before() {
    let cold: Vec<DayReading> = (1..=30)
        .map(|ago| DayReading {
            day: day(7, 9).days_later(-ago),
            coolest: 2.0,
            warmest: 6.0,
        })
        .collect();
    let warmth = Warmth {
        readings: &cold,
        ..always(18.0)
    };
    near(soil_mean(&warmth, day(7, 9)), 4.0);
    let found = introduction(Pest::Slug, Control::Nematodes, &warmth, &[], false, day(7, 9)).expect("a living control");
    assert!(matches!(found.waits[..], [Wait::TooCool { .. }]), "{found:?}");
    let week = introduction(Pest::SpiderMite, Control::PredatoryMite, &warmth, &[], false, day(7, 9)).expect("a living control");
    near(week.mean, 18.0);
}

/// A cool night of the air is none of the soil's: nematodes work in soil of 5 °C and more (an encyclopaedia and suppliers' sheets), and
/// what a spider mite's predator would have to wait out does not hold them up; a hard frost does (choice).
#[wasm_bindgen_test(unsupported = test)]
fn a_cool_night_holds_up_no_nematodes_and_a_hard_frost_does() {
    for (coolest, waits) in [(4.0, 0), (0.0, 0), (-3.0, 0), (-8.0, 1)] {
        let tonight = [DayReading {
            day: day(7, 9),
            coolest,
            warmest: 16.0,
        }];
        let warmth = Warmth {
            readings: &tonight,
            ..always(15.0)
        };
        let found = introduction(Pest::Slug, Control::Nematodes, &warmth, &[], false, day(7, 9)).expect("a living control");
        assert_eq!(found.day, Some(day(7, 9).days_later(waits)), "{coolest}");
    }
}

/// Outdoors from March to October (suppliers' sheets), however mild it is; under glass by the soil alone.
#[wasm_bindgen_test(unsupported = test)]
fn nematodes_have_a_season_outdoors() {
    let found = |glass: Option<GlassOffset>, month: i8, of: i8| {
        let warmth = Warmth { glass, ..always(12.0) };
        introduction(Pest::Slug, Control::Nematodes, &warmth, &[], false, day(month, of))
            .expect("a living control")
            .day
    };
    let march = CivilDay::new(2027, 3, 1).expect("a day");
    assert_eq!(found(None, 12, 20), Some(march));
    assert_eq!(found(None, 10, 31), Some(day(10, 31)));
    assert_eq!(found(None, 2, 28), Some(day(3, 1)));
    assert_eq!(found(Some(GlassOffset::default()), 12, 20), Some(day(12, 20)));
    // The season holds for nothing else.
    let predators = introduction(Pest::SpiderMite, Control::PredatoryMite, &always(20.0), &[], false, day(12, 20));
    assert_eq!(predators.expect("a living control").day, Some(day(12, 20)));
}

#[wasm_bindgen_test(unsupported = test)]
fn no_line_of_development_without_warmth_that_speeds_it_up() {
    let (threshold, degree_days) = development_line(&[(15.0, 20.0), (20.0, 10.0), (25.0, 20.0 / 3.0)]).expect("a line");
    near(threshold, 10.0);
    near(degree_days, 100.0);
    assert_eq!(development_line(&[(15.0, 20.0), (25.0, 20.0)]), None);
    assert_eq!(development_line(&[(15.0, 20.0), (25.0, 30.0)]), None);
    assert_eq!(development_line(&[(15.0, 20.0)]), None);
    assert_eq!(development_line(&[]), None);
}

/// RFC 5545, 3.3.11: an end of a line is `\n`, however it is written; other control characters have no place in a text but the tab.
#[wasm_bindgen_test(unsupported = test)]
fn ends_of_lines_and_tabs_in_a_calendar_file() {
    let summary = |text: &str| {
        let entry = CalendarEntry {
            name: "one".to_owned(),
            day: day(7, 9),
            summary: text.to_owned(),
            description: String::new(),
            reminds: false,
        };
        let file = calendar_file(&[entry], "20260709T080000Z", 1);
        let line = file.split("\r\n").find_map(|line| line.strip_prefix("SUMMARY:"));
        line.expect("a summary").to_owned()
    };
    assert_eq!(summary("a\nb"), "a\\nb");
    assert_eq!(summary("a\r\nb"), "a\\nb");
    assert_eq!(summary("a\rb"), "a b");
    assert_eq!(summary("a\tb"), "a\tb");
    assert_eq!(summary("a\u{7}b"), "a b");
}

/// What is to be minded when something is done about a pest from a day on; the label of a product is read in full or not at all.
fn cautions(pest: Pest, control: Control, is_read: bool, warmth: Warmth, first: CivilDay) -> Vec<Advice> {
    let label = if is_read {
        Label {
            names_crop: Told::Yes,
            names_place: Told::Yes,
            for_home: Told::Yes,
            least_days: Some(5),
            most_uses: Some(9),
            days_before_picking: Some(1),
            latest_use: None,
        }
    } else {
        Label::default()
    };
    let products = [Product {
        number: 1,
        control,
        label,
        is_used: true,
    }];
    let programme = Programme {
        pest,
        control,
        beside: &[],
        first,
        deeds: &[],
        products: if control.needs_label() { &products } else { &[] },
        warmth,
        extent: Extent::Full,
        chosen: &[],
        elsewhere: &[],
        shared: &[],
        sprayed: &[],
        fills_gaps: true,
    };
    advice(&programme, &programme.outline(first), first)
}

#[track_caller]
fn check(given: &[Advice], must: &[Advice], must_not: &[Advice]) {
    for wanted in must {
        assert!(given.contains(wanted), "{wanted:?} is missing in {given:?}");
    }
    for unwanted in must_not {
        assert!(!given.contains(unwanted), "{unwanted:?} stands in {given:?}");
    }
}

/// What a spray can do to people, bees and leaves is told with every spray that may be used, and a label comes before all.
#[wasm_bindgen_test(unsupported = test)]
fn a_spray_comes_with_its_cautions_and_never_without_its_label() {
    let cautious = [Advice::NotInSun, Advice::Bees, Advice::Protect, Advice::PickFirst];
    for pest in [Pest::Whitefly, Pest::SpiderMite, Pest::Aphid, Pest::Thrips] {
        for control in [Control::ContactSpray, Control::OtherSpray] {
            let read = cautions(pest, control, true, always(20.0), day(7, 9));
            check(&read, &cautious, &[Advice::ByHandInstead]);
            check(&read, &[Advice::LabelFirst], &[]);
            let changes = control == Control::OtherSpray;
            assert_eq!(read.contains(&Advice::ChangeGroup), changes, "{read:?}");
            assert_eq!(read.contains(&Advice::SparePredators), changes || pest == Pest::Aphid, "{read:?}");
            assert_eq!(read.contains(&Advice::EggsEscape), pest != Pest::Aphid, "{read:?}");
            let unread = cautions(pest, control, false, always(20.0), day(7, 9));
            check(&unread, &[Advice::LabelFirst, Advice::ByHandInstead], &cautious);
            check(&unread, &[], &[Advice::ChangeGroup, Advice::EggsEscape]);
        }
        let by_hand = cautions(pest, Control::WaterJet, true, always(20.0), day(7, 9));
        check(&by_hand, &[Advice::MainsWater], &cautious);
        check(&by_hand, &[], &[Advice::LabelFirst, Advice::ByHandInstead, Advice::EggsEscape]);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn each_pest_has_its_own_cautions() {
    let given = |pest: Pest, control: Control, celsius: f64, first: CivilDay| cautions(pest, control, true, always(celsius), first);
    let july = day(7, 9);
    let mites = given(Pest::SpiderMite, Control::WaterJet, 20.9, july);
    check(
        &mites,
        &[Advice::Undersides, Advice::PaperTap, Advice::BreakBridge],
        &[Advice::DampDown, Advice::Honeydew, Advice::NoRush],
    );
    check(&given(Pest::SpiderMite, Control::WaterJet, 21.0, july), &[Advice::DampDown], &[]);
    check(
        &given(Pest::Whitefly, Control::WaterJet, 25.0, july),
        &[Advice::Honeydew, Advice::Undersides, Advice::AdultsAreFew],
        &[Advice::DampDown, Advice::PaperTap],
    );
    check(
        &given(Pest::Aphid, Control::WaterJet, 20.0, july),
        &[Advice::NoEggs, Advice::Honeydew],
        &[Advice::AdultsAreFew],
    );
    check(
        &given(Pest::Thrips, Control::Vacuum, 20.0, july),
        &[Advice::PaperTap, Advice::VacuumSafely],
        &[Advice::BreakBridge, Advice::AdultsAreFew],
    );
    check(
        &given(Pest::LeafMiningMoth, Control::HandPicking, 20.0, july),
        &[Advice::ReportIt, Advice::TakeLeavesOff, Advice::BoredFruit],
        &[Advice::EveningSearch],
    );
    check(
        &given(Pest::LeafMiningFly, Control::HandPicking, 20.0, july),
        &[Advice::TakeLeavesOff],
        &[Advice::ReportIt, Advice::BoredFruit],
    );
    check(
        &given(Pest::TomatoMoth, Control::HandPicking, 20.0, july),
        &[Advice::EveningSearch, Advice::BoredFruit],
        &[Advice::ReportIt, Advice::TakeLeavesOff],
    );
    // From September on clearing is nearer than curing.
    check(
        &given(Pest::SpiderMite, Control::WaterJet, 18.0, day(8, 31)),
        &[],
        &[Advice::TakeOutWorst],
    );
    check(
        &given(Pest::SpiderMite, Control::WaterJet, 18.0, day(9, 1)),
        &[Advice::TakeOutWorst],
        &[],
    );
    check(
        &given(Pest::Aphid, Control::WaterJet, 18.0, day(9, 1)),
        &[],
        &[Advice::TakeOutWorst],
    );
    // What nobody can see is not picked off in any month.
    check(
        &given(Pest::RussetMite, Control::HandPicking, 18.0, july),
        &[Advice::TakeOutWorst],
        &[],
    );
    check(
        &given(Pest::SpiderMite, Control::PredatoryMite, 20.0, july),
        &[Advice::HairyLeaves, Advice::AsSupplier],
        &[],
    );
    check(
        &given(Pest::Whitefly, Control::Parasitoid, 20.0, july),
        &[Advice::AsSupplier, Advice::WhileFew],
        &[Advice::HairyLeaves],
    );
    check(
        &given(Pest::Aphid, Control::Parasitoid, 20.0, july),
        &[Advice::AsSupplier],
        &[Advice::WhileFew],
    );
    check(&given(Pest::Whitefly, Control::Vacuum, 20.0, july), &[], &[Advice::WhileFew]);
}

#[wasm_bindgen_test(unsupported = test)]
fn slugs_bait_and_nematodes_have_theirs() {
    let bait = cautions(Pest::Slug, Control::FerricPhosphate, true, always(15.0), day(7, 9));
    check(
        &bait,
        &[
            Advice::TorchRound,
            Advice::NoBodies,
            Advice::BaitLocked,
            Advice::Ponds,
            Advice::OldPellets,
            Advice::Protect,
            Advice::LabelFirst,
        ],
        &[Advice::Bees, Advice::NotInSun, Advice::NematodesAreSlow, Advice::NoRush],
    );
    let unread = cautions(Pest::Slug, Control::FerricPhosphate, false, always(15.0), day(7, 9));
    check(&unread, &[Advice::LabelFirst, Advice::BaitLocked], &[Advice::Protect]);
    let living = cautions(Pest::Slug, Control::Nematodes, true, always(15.0), day(7, 9));
    check(
        &living,
        &[Advice::NematodesAreSlow, Advice::Ponds, Advice::AsSupplier],
        &[
            Advice::KeepNematodesCool,
            Advice::TooCoolForThem,
            Advice::NoBodies,
            Advice::LabelFirst,
        ],
    );
    let cold = cautions(Pest::Slug, Control::Nematodes, true, always(3.0), day(7, 9));
    check(&cold, &[Advice::KeepNematodesCool], &[Advice::TooCoolForThem, Advice::NoRush]);
    let mites = cautions(Pest::SpiderMite, Control::PredatoryMite, true, always(12.0), day(7, 9));
    check(
        &mites,
        &[Advice::TooCoolForThem, Advice::AsSupplier],
        &[Advice::KeepNematodesCool, Advice::NematodesAreSlow, Advice::CardsCatchThem],
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn cold_gives_time_and_heat_harms_the_plants() {
    check(
        &cautions(Pest::Whitefly, Control::Vacuum, true, always(9.0), day(7, 9)),
        &[Advice::NoRush, Advice::BreakBridge],
        &[],
    );
    check(
        &cautions(Pest::Thrips, Control::Vacuum, true, always(8.0), day(7, 9)),
        &[Advice::NoRush, Advice::BreakBridge],
        &[],
    );
    check(
        &cautions(Pest::Whitefly, Control::Vacuum, true, always(20.0), day(7, 9)),
        &[],
        &[Advice::NoRush, Advice::TooHot, Advice::ColdNow, Advice::Stalls],
    );
    // A mean that was told counts as well.
    let told = |celsius| cautions(Pest::Whitefly, Control::Vacuum, true, always(celsius), day(7, 9));
    assert!(!told(35.0).contains(&Advice::TooHot) && told(35.1).contains(&Advice::TooHot));
    // What stalls in spring goes on; from September it is for the winter.
    for (month, goes_on) in [(1, false), (2, false), (3, true), (8, true), (9, false), (12, false)] {
        let cold = cautions(Pest::Whitefly, Control::Vacuum, true, always(8.0), day(month, 9));
        assert_eq!(
            (cold.contains(&Advice::ColdNow), cold.contains(&Advice::Stalls)),
            (goes_on, !goes_on),
            "{month}"
        );
    }
    let hot = |warmest: f64, noted: CivilDay| {
        let readings = [DayReading {
            day: noted,
            coolest: 15.0,
            warmest,
        }];
        let warmth = Warmth {
            readings: &readings,
            ..always(20.0)
        };
        cautions(Pest::Whitefly, Control::Vacuum, true, warmth, day(7, 9)).contains(&Advice::TooHot)
    };
    let lately = |warmest| hot(warmest, day(7, 8));
    assert!(!lately(35.0) && lately(35.1));
    // A week later it is past.
    assert!(hot(36.0, day(7, 2)) && !hot(36.0, day(7, 1)));
}

/// Where the usual temperatures are a far guess, the nearest day that was read stands in for those that were not; elsewhere, and where a
/// mean was told, it does not.
#[wasm_bindgen_test(unsupported = test)]
fn the_nearest_reading_stands_in_where_the_usual_is_a_far_guess() {
    let june = |later: i32| day(6, 1).days_later(later);
    let readings = [(0, 20.0, 34.0), (10, 24.0, 38.0)].map(|(later, coolest, warmest)| DayReading {
        day: june(later),
        coolest,
        warmest,
    });
    let mean_on = |degrees: f64, mean: Option<f64>, readings: &[DayReading], later: i32| {
        let warmth = Warmth {
            latitude: Latitude::from_degrees_north(degrees).expect("a place"),
            glass: None,
            mean,
            readings,
        };
        warmth.on(june(later)).mean()
    };
    for (later, mean) in [(-3, 27.0), (0, 27.0), (4, 27.0), (6, 31.0), (10, 31.0), (60, 31.0)] {
        assert!((mean_on(33.0, None, &readings, later) - mean).abs() < 1e-9, "{later}");
    }
    let usual = mean_on(33.0, None, &[], 4);
    assert!(
        (usual - mean_on(50.0, None, &readings, 4)).abs() < 1e-9,
        "the nearest latitude that was fitted"
    );
    assert!((mean_on(33.0, Some(22.0), &readings, 4) - 22.0).abs() < 1e-9);
}
