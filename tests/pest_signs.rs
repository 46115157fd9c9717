//! How a pest is made sure of, what can be done about it, slugs at night, and the very edges of warmth and cautions.

use first_truss::almanac::{CivilDay, UsualTemperatures};
use first_truss::pest::{
    Advice, BlightNight, Control, Course, Deed, Evening, Pest, Programme, Recognise, SlugOutlook, advice, blight_watch, last_patrol,
    slugs_tonight,
};
use wasm_bindgen_test::wasm_bindgen_test;

use crate::pest_scene::{CONTACT, constant, day, product, read, whitefly};

/// Spider mites and thrips fall on white paper when a leaf is tapped (common practice, no source); a russet mite is not seen without a lens.
#[wasm_bindgen_test(unsupported = test)]
fn each_pest_is_made_sure_of_in_its_way() {
    for pest in Pest::ALL {
        let expected = match pest {
            Pest::SpiderMite | Pest::Thrips => Recognise::ByPaperTap,
            Pest::RussetMite => Recognise::ByLens,
            _ => Recognise::ByEye,
        };
        assert_eq!(pest.recognise(), expected, "{pest:?}");
    }
}

/// What stands in for a spray that the label shuts out is offered for every pest, and before anything with a label.
#[wasm_bindgen_test(unsupported = test)]
fn what_needs_no_label_is_offered_first() {
    for pest in Pest::ALL {
        let controls = pest.controls();
        assert!(controls.contains(&pest.physical_control()), "{pest:?}");
        let labelled = controls.iter().position(|control| control.needs_label()).unwrap_or(controls.len());
        assert!(controls[labelled..].iter().all(|control| !control.is_by_hand()), "{pest:?}");
        assert!(labelled > 0, "{pest:?}");
    }
    let slug = Pest::Slug.controls();
    assert_eq!(
        slug,
        [Control::HandPicking, Control::Traps, Control::Nematodes, Control::FerricPhosphate]
    );
}

// Slugs

const BUSY: Evening = Evening {
    dusk: 15.0,
    night: 10.0,
    is_wet: Some(true),
    humidity: Some(90.0),
};

fn level(evening: Evening) -> (u8, bool) {
    let SlugOutlook { level, is_active, .. } = slugs_tonight(&evening);
    (level, is_active)
}

/// Two for wet ground, one each for 4 to 20 °C, its fall within that, and damp air (choice, from Dainton 1954: between 4 and 20 °C
/// falling temperature starts them, above it stops them).
#[wasm_bindgen_test(unsupported = test)]
fn what_brings_slugs_out_adds_up() {
    assert_eq!(level(BUSY), (5, true));
    assert_eq!(
        level(Evening {
            humidity: Some(79.0),
            ..BUSY
        }),
        (4, false)
    );
    assert_eq!(level(Evening { night: 15.0, ..BUSY }), (4, false), "it does not fall");
    assert_eq!(level(Evening { dusk: 20.1, ..BUSY }), (3, false), "too warm for its fall to count");
    assert_eq!(
        level(Evening {
            dusk: 3.9,
            night: 2.0,
            ..BUSY
        }),
        (3, false)
    );
    assert_eq!(
        level(Evening {
            dusk: 0.9,
            night: 0.0,
            ..BUSY
        }),
        (0, false),
        "below what was still seen grazing"
    );
    let dry = Evening {
        is_wet: Some(false),
        ..BUSY
    };
    assert_eq!(level(dry), (3, false));
    // Where nobody has told, it may be two more, or one less.
    let unknown = Evening {
        is_wet: None,
        humidity: None,
        ..BUSY
    };
    assert_eq!(level(unknown), (3, false));
    assert!(slugs_tonight(&unknown).is_unsure && !slugs_tonight(&BUSY).is_unsure);
    assert_eq!(
        level(Evening {
            is_wet: Some(true),
            ..unknown
        })
        .0,
        5
    );
    assert_eq!(
        level(Evening {
            is_wet: Some(false),
            ..unknown
        })
        .0,
        2
    );
}

/// Seven nights in a row (common practice, no source).
#[wasm_bindgen_test(unsupported = test)]
fn a_week_of_rounds_ends_on_the_seventh_night() {
    assert_eq!(last_patrol(day("2026-06-28")), day("2026-07-04"));
}

// Warmth

/// Sums that are whole on paper and not in binary count as reached, and as still within.
#[wasm_bindgen_test(unsupported = test)]
fn a_sum_that_is_reached_to_the_last_bit_counts() {
    for (a_day, days) in [(9.6, 10_u16), (0.1, 3), (0.7, 9), (11.7, 7)] {
        let course = Course {
            start: CivilDay::default(),
            daily: vec![a_day; 30],
            means: vec![20.0; 30],
        };
        let sum = f64::from(days) * a_day;
        assert_eq!(course.days_until(0, sum), Some(usize::from(days)), "{a_day}");
        assert_eq!(course.days_within(0, sum), usize::from(days), "{a_day}");
        assert_eq!(course.days_until(0, sum + 0.01), Some(usize::from(days) + 1), "{a_day}");
        assert_eq!(course.days_within(0, sum - 0.01), usize::from(days) - 1, "{a_day}");
    }
}

/// Every three days where the week's mean is 20 °C, every four where it is less (choice).
#[wasm_bindgen_test(unsupported = test)]
fn adults_alone_are_treated_by_the_warmth_of_the_week() {
    for (celsius, expected) in [(19.9, 4), (20.0, 3), (27.0, 3), (15.0, 4)] {
        let programme = Programme {
            warmth: constant(celsius),
            ..whitefly(&[], &[], &[])
        };
        let outline = programme.outline(day("2026-06-01"));
        assert_eq!(outline.visits[1].day.days_since(outline.start), expected, "{celsius} °C");
    }
}

// Cautions

fn told(programme: &Programme, today: &str) -> Vec<Advice> {
    advice(programme, &programme.outline(day(today)), day(today))
}

/// A vacuum cleaner and mains water are minded where they are used: as what is repeated, or between sprays in the days to come.
#[wasm_bindgen_test(unsupported = test)]
fn what_is_used_between_sprays_has_its_cautions_too() {
    let slow = [product(1, CONTACT, read(14, 3, Some(1)))];
    let gaps = told(&whitefly(&slow, &[], &[]), "2026-06-01");
    assert!(gaps.contains(&Advice::VacuumSafely) && !gaps.contains(&Advice::MainsWater));
    let jets = told(&whitefly(&slow, &[Control::WaterJet], &[]), "2026-06-01");
    assert!(jets.contains(&Advice::MainsWater) && !jets.contains(&Advice::VacuumSafely));
    let both = told(&whitefly(&[], &[], &[]), "2026-06-01");
    assert!(both.contains(&Advice::VacuumSafely) && !both.contains(&Advice::MainsWater));
    // What was done and is over is minded no more.
    let quick = [product(1, CONTACT, read(5, 9, Some(1)))];
    let vacuumed = [Deed {
        day: day("2026-06-01"),
        control: Control::Vacuum,
        is_done: true,
        product: 0,
    }];
    assert!(!told(&whitefly(&quick, &[], &vacuumed), "2026-06-02").contains(&Advice::VacuumSafely));
}

/// No rush below two degree-days a day, thrips at 11.5 °C; a parasitoid is brought in from a week of 18 °C on.
#[wasm_bindgen_test(unsupported = test)]
fn cautions_turn_just_there() {
    let thrips = |celsius: f64| {
        let programme = Programme {
            pest: Pest::Thrips,
            warmth: constant(celsius),
            ..whitefly(&[], &[], &[])
        };
        told(&programme, "2026-06-01").contains(&Advice::NoRush)
    };
    assert!(thrips(11.4) && !thrips(11.5));
    let wasps = |celsius: f64| {
        let programme = Programme {
            control: Control::Parasitoid,
            warmth: constant(celsius),
            ..whitefly(&[], &[], &[])
        };
        told(&programme, "2026-06-01").contains(&Advice::TooCoolForThem)
    };
    assert!(wasps(17.9) && !wasps(18.0));
}

#[wasm_bindgen_test(unsupported = test)]
fn an_evening_follows_from_the_usual_day_and_what_was_told() {
    let usual = UsualTemperatures {
        maximum: 22.0,
        minimum: 10.0,
        far_guess: false,
    };
    let evening = |rain: Option<f64>| Evening::usual(&usual, rain, Some(85.0));
    let told = evening(Some(1.0));
    assert_eq!((told.dusk, told.night, told.humidity), (13.0, 10.0, Some(85.0)));
    let wet = [None, Some(0.9), Some(1.0)].map(|rain| evening(rain).is_wet);
    assert_eq!(wet, [None, Some(false), Some(true)]);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_damp_day_makes_a_night_for_blight() {
    let night = BlightNight::of(10.0, 90.0);
    assert!(blight_watch(&[night, night]));
    assert!(!blight_watch(&[night, BlightNight::of(10.0, 89.9)]) && !blight_watch(&[BlightNight::of(9.9, 90.0), night]));
}
