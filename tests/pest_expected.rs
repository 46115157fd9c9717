//! The numbers to be expected beside those of a population that is led through the same days by hand, what a best plan is searched for,
//! and what counts say.

use first_truss::pest::{
    Aim, Back, Basis, Control, Count, Curve, Deed, Extent, Kills, LONGEST_CURVE, Label, LifeTable, Outcome, Outline, Pest, Population,
    Product, Programme, curve, outcome,
};
use wasm_bindgen_test::wasm_bindgen_test;

use crate::pest_scene::{CONTACT, constant, day, product, read, whitefly};

const CARDS: Control = Control::StickyCards;
const WASPS: Control = Control::Parasitoid;
const JET: Control = Control::WaterJet;
const VACUUM: Control = Control::Vacuum;
/// Degree-days a day of whitefly at 20 °C.
const A_DAY: f64 = 11.7;

#[track_caller]
fn life() -> LifeTable {
    Pest::Whitefly.species().and_then(|species| species.life).expect("a life table")
}

#[track_caller]
fn kills(control: Control) -> Kills {
    control.kills(Pest::Whitefly).expect("numbers")
}

fn outline(programme: &Programme, later: i32) -> Outline {
    programme.outline(day("2026-06-01").days_later(later))
}

fn deed(later: i32, control: Control, product: u8, is_done: bool) -> Deed {
    Deed {
        day: day("2026-06-01").days_later(later),
        control,
        is_done,
        product,
    }
}

/// Totals of whitefly at 20 °C on the evenings from day 0: treated on these days, and from a day on every day.
fn led(days: usize, treated: &[(usize, Kills)], daily: &[(usize, Kills)]) -> Vec<f64> {
    let mut population = Population::steady(&life(), 1.0);
    let mut totals = Vec::new();
    for today in 0..=days {
        if today > 0 {
            population.advance(A_DAY);
        }
        for (_, kills) in treated.iter().filter(|(day, _)| *day == today) {
            population.treat(kills);
        }
        for (_, kills) in daily.iter().filter(|(from, _)| today >= *from) {
            population.treat(kills);
        }
        totals.push(population.total());
    }
    totals
}

/// The totals of an outline are these, and so is the day from which there are as many again for good.
#[track_caller]
fn check_numbers(outline: &Outline, treated: &[(usize, Kills)], daily: &[(usize, Kills)], days: usize) {
    let shown = outline.curve.as_ref().expect("a curve");
    let totals = led(LONGEST_CURVE, treated, daily);
    assert_eq!(
        (shown.with.len(), shown.before.len(), shown.without.len()),
        (days + 1, days + 1, days + 1)
    );
    for (day, (stages, total)) in shown.with.iter().zip(&totals).enumerate() {
        let sum: f64 = stages.iter().sum();
        assert!((sum / total - 1.0).abs() < 1e-9, "day {day}: {sum}, not {total}");
    }
    let date = |day: usize| outline.start.days_later(i32::try_from(day).expect("a day"));
    let expected = match (1..=LONGEST_CURVE).rfind(|day| totals[*day] < 1.0) {
        None => Back::NeverFewer,
        Some(LONGEST_CURVE) => Back::NotWithin,
        Some(fewer) => Back::On(date(fewer + 1)),
    };
    assert_eq!(outline.back, Some(expected));
}

fn all_of(control: Control, days: &[usize]) -> Vec<(usize, Kills)> {
    days.iter().map(|day| (*day, kills(control))).collect()
}

/// A fortnight after the last treatment is still shown, and six weeks at least.
#[wasm_bindgen_test(unsupported = test)]
fn the_numbers_are_those_of_the_planned_days() {
    let soap = [product(1, CONTACT, read(5, 20, Some(1)))];
    let sprayed = all_of(CONTACT, &[0, 6, 12, 18, 24, 30]);
    let full = outline(&whitefly(&soap, &[], &[]), 0);
    check_numbers(&full, &sprayed, &[], 44);
    let least = Programme {
        extent: Extent::Least,
        ..whitefly(&soap, &[], &[])
    };
    check_numbers(&outline(&least, 0), &sprayed[..3], &[], 42);
    // What was left out kills nothing.
    let skipped = [deed(0, CONTACT, 1, true), deed(6, CONTACT, 1, false)];
    let without = [&sprayed[..1], &sprayed[2..]].concat();
    check_numbers(&outline(&whitefly(&soap, &[], &skipped), 7), &without, &[], 44);
    // Every third day on what flies: soon there are more than on the first day.
    let flies: Vec<usize> = (0..=33).step_by(3).collect();
    let vacuum = outline(&whitefly(&[], &[], &[]), 0);
    check_numbers(&vacuum, &all_of(VACUUM, &flies), &[], 47);
    assert_eq!(vacuum.back, Some(Back::NeverFewer));
}

/// Cards from the first evening, and no more on the days on which they are changed; what lives from three weeks after it was brought in.
#[wasm_bindgen_test(unsupported = test)]
fn cards_work_from_the_first_day_and_parasitoids_after_three_weeks() {
    let flies: Vec<usize> = (0..=33).step_by(3).collect();
    let vacuum = all_of(VACUUM, &flies);
    let cards = [(0, kills(CARDS))];
    check_numbers(&outline(&whitefly(&[], &[CARDS], &[]), 0), &vacuum, &cards, 47);
    check_numbers(&outline(&whitefly(&[], &[WASPS], &[]), 0), &vacuum, &[(21, kills(WASPS))], 47);
    let alone = |control: Control, beside: &'static [Control]| Programme {
        control,
        ..whitefly(&[], beside, &[])
    };
    for beside in [&[][..], &[CARDS]] {
        check_numbers(&outline(&alone(CARDS, beside), 0), &[], &cards, 42);
    }
    // Until day 42 they are brought in; they are no treatment of a day.
    for beside in [&[][..], &[WASPS]] {
        check_numbers(&outline(&alone(WASPS, beside), 0), &[], &[(21, kills(WASPS))], 42);
    }
    // Brought in on 1 June, and counted from there on 21 June too.
    let deeds = [deed(0, WASPS, 0, true)];
    let brought = Programme {
        control: WASPS,
        ..whitefly(&[], &[], &deeds)
    };
    check_numbers(&outline(&brought, 20), &[], &[(21, kills(WASPS))], 42);
}

/// A whole year of cold: what was sprayed away does not come back within the four months that are looked at.
#[wasm_bindgen_test(unsupported = test)]
fn in_the_cold_they_do_not_come_back_within_four_months() {
    let soap = [product(1, CONTACT, read(5, 20, Some(1)))];
    let cold = Programme {
        warmth: constant(10.0),
        ..whitefly(&soap, &[], &[])
    };
    assert_eq!(outline(&cold, 0).back, Some(Back::NotWithin));
}

/// What works every day does so from its own day on, and not before.
#[wasm_bindgen_test(unsupported = test)]
fn what_works_every_day_begins_on_its_day() {
    let all = Kills {
        egg: 0.5,
        young: 0.5,
        pupa: 0.5,
        adult: 0.5,
        basis: Basis::Published,
    };
    let shown: Curve = curve(&life(), &[0.0; 9], 6, &[], &[(3, all)]);
    let totals: Vec<f64> = shown.with.iter().map(|stages| stages.iter().sum()).collect();
    for (total, expected) in totals.iter().zip([1.0, 1.0, 1.0, 0.5, 0.25, 0.125, 0.0625]) {
        assert!((total - expected).abs() < 1e-12, "{totals:?}");
    }
    assert_eq!((totals.len(), shown.assumed), (7, false));
}

// What a best plan is searched for

fn aim_of(programme: &Programme) -> Option<Aim> {
    let aim = programme.aim(day("2026-06-01"), 0.5);
    assert_eq!(programme.can_aim(), aim.is_some());
    aim
}

/// By the first product and its label alone, beside what works all week but does not live, over six weeks.
#[wasm_bindgen_test(unsupported = test)]
fn a_best_plan_is_searched_for_with_the_first_label() {
    let label = Label {
        latest_use: Some(day("2026-07-01")),
        ..read(6, 4, Some(1))
    };
    let products = [product(1, CONTACT, label), product(2, CONTACT, read(3, 9, Some(1)))];
    let beside = [CARDS, WASPS, JET];
    let programme = Programme {
        extent: Extent::Least,
        ..whitefly(&products, &beside, &[])
    };
    let aim = aim_of(&programme).expect("an aim");
    assert_eq!((aim.least_days, aim.most, aim.latest, aim.daily.len()), (6, 4, 30, 42));
    assert!(aim.daily.iter().all(|day| (day - A_DAY).abs() < 1e-9));
    assert_eq!((aim.kills, aim.life), (kills(CONTACT), life()));
    assert_eq!(aim.level.to_bits(), 0.5_f64.to_bits());
    let adult = aim.every_day.adult;
    assert!(
        (adult - kills(CARDS).adult).abs() < 1e-12 && aim.every_day.young.abs() < 1e-12,
        "{adult}"
    );
    // The whole programme of the first product, whatever is shown, and without what is done by hand between.
    assert_eq!(aim.simple, [0, 6, 12, 18]);
    // A last day that is over leaves none; one that is far off is no limit.
    let until = |latest: &str| {
        let label = Label {
            latest_use: Some(day(latest)),
            ..read(6, 4, Some(1))
        };
        let products = [product(1, CONTACT, label)];
        let aim = aim_of(&whitefly(&products, &[], &[])).expect("an aim");
        (aim.most, aim.latest)
    };
    assert_eq!(until("2026-05-31").0, 0);
    assert_eq!(until("2026-06-01"), (4, 0));
    assert_eq!(until("2026-12-31"), (4, 42));
}

/// At 15 °C every ten days, 6.7 °C·d each, until 308.9 have come on day 47: the last lies beyond six weeks.
#[wasm_bindgen_test(unsupported = test)]
fn the_simple_rule_is_looked_at_as_far_as_six_weeks() {
    let soap = [product(1, CONTACT, read(5, 20, Some(1)))];
    let cool = Programme {
        warmth: constant(15.0),
        ..whitefly(&soap, &[], &[])
    };
    assert_eq!(aim_of(&cool).expect("an aim").simple, [0, 10, 20, 30, 40]);
    assert_eq!(outline(&cool, 0).visits.len(), 6);
    // By hand there is no label: three days between, and as many as there are days.
    let by_hand = aim_of(&whitefly(&[], &[], &[])).expect("an aim");
    assert_eq!((by_hand.least_days, by_hand.most, by_hand.latest), (3, 42, 42));
    assert_eq!(by_hand.simple, (0..=33).step_by(3).collect::<Vec<_>>());
}

#[wasm_bindgen_test(unsupported = test)]
fn nothing_is_searched_for_where_nothing_can_be_planned_anew() {
    let soap = [product(1, CONTACT, read(5, 20, Some(1)))];
    assert!(aim_of(&whitefly(&soap, &[], &[])).is_some());
    // Something stands already.
    assert!(aim_of(&whitefly(&soap, &[], &[deed(0, CONTACT, 1, true)])).is_none());
    // What hangs all week has no days.
    let cards = Programme {
        control: CARDS,
        ..whitefly(&[], &[], &[])
    };
    assert!(aim_of(&cards).is_none());
    // No life table, no numbers, no label.
    let thrips = Programme {
        pest: Pest::Thrips,
        ..whitefly(&[], &[], &[])
    };
    assert!(aim_of(&thrips).is_none());
    let unread: [Product; 1] = [product(1, CONTACT, Label::default())];
    assert!(aim_of(&whitefly(&unread, &[], &[])).is_none());
}

/// Sprayed three times a week apart, 1.039 of one are left after 28 days (worked out apart from this program): back before that.
#[wasm_bindgen_test(unsupported = test)]
fn a_best_plan_says_when_they_are_back() {
    let soap = [product(1, CONTACT, read(5, 20, Some(1)))];
    let programme = whitefly(&soap, &[], &[]);
    let aim = aim_of(&programme).expect("an aim");
    let totals = led(LONGEST_CURVE, &all_of(CONTACT, &[0, 7, 14]), &[]);
    assert!(totals[27] < 1.0 && totals[28] >= 1.0);
    let first = day("2026-06-01");
    assert_eq!(programme.comes_back(&aim, first, &[0, 7, 14]), Some(Back::On(first.days_later(28))));
    assert_eq!(programme.comes_back(&aim, first, &[]), None);
}

// What counts say

/// Three sprays a week apart leave 1.039 of one on day 28, where there would be 10.34, and 3.216 on day 14 (worked out apart from this
/// program). Seen twice what is expected: undersides missed; seven tenths of what would be there, twice running: tolerant.
#[wasm_bindgen_test(unsupported = test)]
fn counts_are_judged_against_what_is_expected_and_what_would_be() {
    let shown = curve(&life(), &[A_DAY; 42], 42, &all_of(CONTACT, &[0, 7, 14]), &[]);
    let told = |counts: &[(usize, f64)]| {
        let counts: Vec<Count> = counts
            .iter()
            .map(|(day, seen)| Count {
                day: *day,
                seen: *seen,
                adults_only: false,
            })
            .collect();
        outcome(&counts, &shown)
    };
    assert_eq!(told(&[(0, 100.0), (28, 205.0)]), Some(Outcome::Working));
    assert_eq!(told(&[(0, 100.0), (28, 211.0)]), Some(Outcome::MissedUndersides));
    assert_eq!(told(&[(0, 100.0), (14, 230.0), (28, 730.0)]), Some(Outcome::Tolerant));
    assert_eq!(told(&[(0, 100.0), (14, 220.0), (28, 730.0)]), Some(Outcome::MissedUndersides));
    assert_eq!(told(&[(0, 100.0), (14, 230.0), (28, 718.0)]), Some(Outcome::MissedUndersides));
    // Where nothing much was to be expected, nearly as many as without are no tolerance.
    let weak = curve(&life(), &[A_DAY; 42], 42, &[], &[]);
    let counts = [(0, 100.0), (14, 420.0), (28, 1345.0)].map(|(day, seen)| Count {
        day,
        seen,
        adults_only: false,
    });
    assert_eq!(outcome(&counts, &weak), Some(Outcome::Working));
    // Five days after the first count, whenever that was.
    assert_eq!(told(&[(0, 100.0), (4, 100.0)]), None);
    assert!(told(&[(0, 100.0), (5, 100.0)]).is_some());
    assert_eq!(told(&[(3, 100.0), (7, 100.0)]), None);
    assert!(told(&[(3, 100.0), (8, 100.0)]).is_some());
}

/// On a card what flies is counted: untreated it grows as all do, so ten times as many after 28 days where nothing was done.
#[wasm_bindgen_test(unsupported = test)]
fn counts_on_a_card_are_judged_by_the_adults() {
    let shown = curve(&life(), &[A_DAY; 42], 42, &all_of(CONTACT, &[0, 7, 14]), &[]);
    let adults: Vec<f64> = shown.before.iter().map(|stages| stages[3] / shown.before[0][3]).collect();
    let told = |of_expected: f64, of_untreated: f64| {
        let seen = |day: usize, untreated: f64| (of_expected * adults[day]).max(of_untreated * untreated) * 1000.0;
        let counts = [(0, 1000.0), (14, seen(14, 3.2159)), (28, seen(28, 10.342))].map(|(day, seen)| Count {
            day,
            seen,
            adults_only: true,
        });
        outcome(&counts, &shown)
    };
    assert_eq!(told(1.9, 0.0), Some(Outcome::Working));
    assert_eq!(told(2.1, 0.0), Some(Outcome::MissedUndersides));
    assert_eq!(told(2.1, 0.69), Some(Outcome::MissedUndersides));
    assert_eq!(told(2.1, 0.71), Some(Outcome::Tolerant));
}
