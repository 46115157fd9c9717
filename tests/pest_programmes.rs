//! Several products in one programme, what fills the waits between them, what lives and is brought in, what counts say, and the calendar's
//! corners: each on days that can be counted on one's fingers.

use first_truss::almanac::{Latitude, STANDARD_LATITUDE};
use first_truss::pest::{
    Application, Conflict, Control, Count, Deed, GlassOffset, Kills, Label, Outcome, Outline, Pest, Product, Programme, Shut, Standing,
    Told, Warmth, curve, mean_degree_days, outcome,
};
use wasm_bindgen_test::wasm_bindgen_test;

use crate::pest_scene::{CONTACT, OTHER, constant, day, plan, product, read, sprays, whitefly};

#[wasm_bindgen_test(unsupported = test)]
fn a_second_product_takes_over_where_the_first_may_not_be_used() {
    let (soap, other) = (product(1, CONTACT, read(5, 2, Some(1))), product(2, OTHER, read(5, 9, Some(3))));
    // Every six days at 20 °C. The first one's two uses end; the other goes on.
    let both = [soap, other];
    let outline = whitefly(&both, &[], &[]).outline(day("2026-06-01"));
    assert_eq!(sprays(&outline), [(0, 1), (6, 1), (12, 2), (18, 2), (24, 2), (30, 2)]);
    assert_eq!(outline.conflicts, []);
    // Alone it ends, and what needs no label goes on.
    let alone = [soap];
    let outline = whitefly(&alone, &[], &[]).outline(day("2026-06-01"));
    assert_eq!(sprays(&outline), [(0, 1), (6, 1)]);
    let ends = Conflict::UsesEnd {
        allowed: 2,
        elsewhere: 0,
        needed: 6,
    };
    assert!(outline.conflicts.contains(&(1, ends)), "{:?}", outline.conflicts);
    assert!(
        plan(&outline)
            .iter()
            .any(|(day, control, _)| *day > 6 && *control == Control::Vacuum)
    );
    // One that is put aside takes no turn.
    let aside = [soap, Product { is_used: false, ..other }];
    assert_eq!(sprays(&whitefly(&aside, &[], &[]).outline(day("2026-06-01"))), [(0, 1), (6, 1)]);
}

/// Where the cold holds the pest up, eight weeks are all that is planned: a label that allows more than fit into them has not ended.
#[wasm_bindgen_test(unsupported = test)]
fn in_the_cold_no_more_is_wanted_than_is_planned() {
    let cold = |products: &[Product], control: Control| {
        let programme = Programme {
            control,
            first: day("2026-11-26"),
            warmth: Warmth {
                latitude: STANDARD_LATITUDE,
                glass: Some(GlassOffset::default()),
                mean: None,
                readings: &[],
            },
            ..whitefly(products, &[], &[])
        };
        programme.outline(day("2026-11-26"))
    };
    let days = |outline: &Outline| -> Vec<i32> {
        let visits = outline.visits.iter();
        visits.map(|visit| visit.day.days_since(outline.start)).collect()
    };
    // Every ten days, which is the longest wait of the rule.
    let outline = cold(&[product(1, CONTACT, read(7, 8, Some(1)))], CONTACT);
    assert!(outline.stalls);
    assert_eq!(days(&outline), [0, 10, 20, 30, 40, 50]);
    assert!(outline.visits.iter().all(|visit| visit.control == CONTACT));
    assert_eq!(outline.conflicts, []);
    // A label that allows three has ended: six are wanted, and what is done by hand goes on no longer than the plan.
    let outline = cold(&[product(1, CONTACT, read(7, 3, Some(1)))], CONTACT);
    assert_eq!(
        outline.conflicts,
        [(
            1,
            Conflict::UsesEnd {
                allowed: 3,
                elsewhere: 0,
                needed: 6
            }
        )]
    );
    assert_eq!(sprays(&outline).len(), 3);
    let last = days(&outline).pop();
    assert!(last.is_some_and(|day| (50..60).contains(&day)), "{last:?}");
    // By hand it ends there too.
    assert_eq!(days(&cold(&[], Control::Vacuum)).pop(), Some(56));
}

#[wasm_bindgen_test(unsupported = test)]
fn two_products_take_turns_where_one_label_waits_longer_than_the_pest() {
    let (soap, other) = (product(1, CONTACT, read(10, 9, Some(1))), product(2, OTHER, read(12, 9, Some(1))));
    let alone = [soap];
    let outline = whitefly(&alone, &[], &[]).outline(day("2026-06-01"));
    let waits = Conflict::LongerBetween { label: 10, pest: 6 };
    assert!(outline.conflicts.contains(&(1, waits)), "{:?}", outline.conflicts);
    let both = [soap, other];
    let outline = whitefly(&both, &[], &[]).outline(day("2026-06-01"));
    assert_eq!(sprays(&outline), [(0, 1), (6, 2), (12, 1), (18, 2), (24, 1), (30, 2)]);
    assert!(
        !outline
            .conflicts
            .iter()
            .any(|(_, conflict)| matches!(conflict, Conflict::LongerBetween { .. }))
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn the_next_generation_meets_another_product() {
    let products = [product(1, CONTACT, read(5, 20, Some(1))), product(2, OTHER, read(5, 20, Some(1)))];
    // Once a month, so that each meets a generation of its own (32.6 days at 20 °C).
    let deeds = [(0, 1), (33, 2)].map(|(later, product)| Deed {
        day: day("2026-06-01").days_later(later),
        control: if product == 1 { CONTACT } else { OTHER },
        is_done: true,
        product,
    });
    let programme = whitefly(&products, &[], &deeds);
    let next = programme.outline(day("2026-07-20"));
    let next = next.next().map(|visit| (visit.control, visit.product));
    // The gap was so long that the count began anew on 4 July: its generation is the first again.
    assert_eq!(next, Some((CONTACT, 1)));
    let (first, second) = (whitefly(&products, &[], &deeds[..1]), day("2026-06-01"));
    assert_eq!(first.outline(second).next().map(|visit| visit.product), Some(1));
}

#[wasm_bindgen_test(unsupported = test)]
fn picking_waits_for_every_product() {
    let products = [product(1, CONTACT, read(5, 2, Some(14))), product(2, OTHER, read(5, 1, Some(1)))];
    let outline = whitefly(&products, &[], &[]).outline(day("2026-06-01"));
    assert_eq!(sprays(&outline), [(0, 1), (6, 1), (12, 2)]);
    // The last use is on day 12 with one day to wait, but the one before it waits until day 20.
    assert_eq!(outline.pick_after_last, Some(day("2026-06-21")));
    assert_eq!(outline.pick_after_next, Some(day("2026-06-15")));
    let unread = [products[0], product(2, OTHER, read(5, 1, None))];
    let outline = whitefly(&unread, &[], &[]).outline(day("2026-06-01"));
    assert_eq!(outline.pick_after_last, None, "one of them is not known");
    assert_eq!(outline.pick_after_next, Some(day("2026-06-15")), "the next is");
    assert!(outline.conflicts.contains(&(2, Conflict::PickingUnknown)));
}

/// Between two uses the crop may be picked on the days that the wait leaves over.
#[wasm_bindgen_test(unsupported = test)]
fn picking_is_told_between_uses() {
    let june = |later: i32| day("2026-06-01").days_later(later);
    let told = |days_before_picking, elsewhere: &[Application], deeds: &[Deed]| {
        let soap = [product(1, CONTACT, read(5, 3, Some(days_before_picking)))];
        let programme = Programme {
            elsewhere,
            ..whitefly(&soap, &[], deeds)
        };
        let outline = programme.outline(june(0));
        let days = outline.pick_between.iter().map(|between| {
            let [from, until] = [between.from, between.until].map(|day| day.days_since(june(0)));
            (between.uses, from, until)
        });
        days.collect::<Vec<_>>()
    };
    // Sprays on days 0, 6 and 12.
    assert_eq!(told(3, &[], &[]), [(1, 3, 6), (2, 9, 12)]);
    assert_eq!(told(5, &[], &[]), [(1, 5, 6), (2, 11, 12)], "one day is left over");
    assert_eq!(told(6, &[], &[]), [], "the day of a use is not one for picking");
    let used = |days_before_picking| Application {
        day: june(-4),
        days_before_picking,
    };
    assert_eq!(
        told(3, &[used(Some(14))], &[]),
        [(2, 10, 12)],
        "what was used elsewhere waits longer"
    );
    assert_eq!(told(3, &[used(None)], &[]), [], "nobody knows for how long");
    let done = |later: i32, is_done: bool| Deed {
        day: june(later),
        control: CONTACT,
        is_done,
        product: 1,
    };
    assert_eq!(told(3, &[], &[done(-6, true)]), [(1, -3, 0), (2, 3, 6)]);
    assert_eq!(
        told(3, &[], &[done(-6, true), done(-1, false)]),
        [(1, -3, 5), (2, 8, 11)],
        "one that was left out keeps nobody from picking"
    );
}

/// What was used against another pest keeps the same fruit from being picked.
#[wasm_bindgen_test(unsupported = test)]
fn picking_waits_for_what_was_used_elsewhere() {
    let used = |later: i32, days_before_picking| Application {
        day: day("2026-06-01").days_later(later),
        days_before_picking,
    };
    let june = |later: i32| Some(day("2026-06-01").days_later(later));
    let soap = [product(1, CONTACT, read(5, 2, Some(1)))];
    let deeds = [Deed {
        day: day("2026-06-01"),
        control: CONTACT,
        is_done: true,
        product: 1,
    }];
    let waits = |programme: &Programme, elsewhere: &[Application]| {
        let outline = Programme { elsewhere, ..*programme }.outline(day("2026-06-02"));
        let is_told = outline.conflicts.contains(&(0, Conflict::PickingUnknown));
        ([outline.pick_now, outline.pick_after_next, outline.pick_after_last], is_told)
    };
    let sprayed = whitefly(&soap, &[], &deeds);
    assert_eq!(waits(&sprayed, &[]), ([june(1), june(7), june(7)], false));
    assert_eq!(waits(&sprayed, &[used(0, Some(3))]), ([june(3), june(7), june(7)], false));
    assert_eq!(waits(&sprayed, &[used(-2, Some(14))]), ([june(12); 3], false));
    assert_eq!(waits(&sprayed, &[used(0, Some(3)), used(-2, None)]), ([None; 3], true));
    // By hand alone: the other wait is all there is, and nothing comes after a last use.
    let by_hand = whitefly(&[], &[], &[]);
    assert_eq!(waits(&by_hand, &[]), ([None; 3], false));
    assert_eq!(waits(&by_hand, &[used(0, Some(3))]), ([june(3), None, None], false));
    assert_eq!(waits(&by_hand, &[used(0, None)]), ([None; 3], true));
}

/// The gate stands before each product by itself.
#[wasm_bindgen_test(unsupported = test)]
fn no_date_comes_from_a_product_whose_label_is_shut() {
    let open = product(1, CONTACT, read(5, 2, Some(1)));
    for label in [
        Label::default(),
        Label {
            names_crop: Told::No,
            ..read(5, 9, Some(1))
        },
        Label {
            names_place: Told::Unknown,
            ..read(5, 9, Some(1))
        },
        Label {
            most_uses: None,
            ..read(5, 9, Some(1))
        },
    ] {
        let shut = product(2, OTHER, label);
        for products in [[open, shut], [shut, open]] {
            let outline = whitefly(&products, &[], &[]).outline(day("2026-06-01"));
            assert_eq!(sprays(&outline), [(0, 1), (6, 1)], "{label:?}");
            assert_eq!(outline.shut, None);
            assert!(
                outline
                    .conflicts
                    .iter()
                    .any(|(number, conflict)| *number == 2 && matches!(conflict, Conflict::GivesNone(_)))
            );
            // It was used all the same: nothing says from when to pick.
            let done = [Deed {
                day: day("2026-06-01"),
                control: OTHER,
                is_done: true,
                product: 2,
            }];
            let outline = whitefly(&products, &[], &done).outline(day("2026-06-03"));
            assert_eq!(
                [outline.pick_now, outline.pick_after_next, outline.pick_after_last],
                [None; 3],
                "{label:?}"
            );
        }
        let both = [product(1, CONTACT, label), shut];
        let outline = whitefly(&both, &[], &[]).outline(day("2026-06-01"));
        assert!(outline.shut.is_some() && sprays(&outline).is_empty());
    }
    let none: [Product; 0] = [];
    let programme = Programme {
        control: CONTACT,
        ..whitefly(&none, &[], &[])
    };
    assert_eq!(programme.outline(day("2026-06-01")).shut, Some(Shut::Unread));
}

#[wasm_bindgen_test(unsupported = test)]
fn waits_between_sprays_are_filled_by_hand_and_in_the_numbers() {
    let soap = [product(1, CONTACT, read(14, 3, Some(1)))];
    let outline = whitefly(&soap, &[], &[]).outline(day("2026-06-01"));
    // Every third day in a warm week, but not on the two days before a spray.
    let first: Vec<_> = plan(&outline).into_iter().filter(|(day, ..)| *day <= 28).collect();
    let expected = [
        (0, CONTACT, 1),
        (3, Control::Vacuum, 0),
        (6, Control::Vacuum, 0),
        (9, Control::Vacuum, 0),
        (12, Control::Vacuum, 0),
        (14, CONTACT, 1),
        (17, Control::Vacuum, 0),
        (20, Control::Vacuum, 0),
        (23, Control::Vacuum, 0),
        (26, Control::Vacuum, 0),
        (28, CONTACT, 1),
    ];
    assert_eq!(first, expected);
    // The same dates of the spray alone leave more.
    let total = |outline: &Outline| -> f64 {
        let curve = outline.curve.as_ref().expect("a curve");
        curve.with.get(28).expect("four weeks").iter().sum()
    };
    let species = Pest::Whitefly.species().expect("a species");
    let life = species.life.as_ref().expect("a life");
    let daily = vec![mean_degree_days(20.0, species.thresholds); 40];
    let kills = CONTACT.kills(Pest::Whitefly).expect("kills");
    let alone = curve(life, &daily, 28, &[0, 14, 28].map(|day| (day, kills)), &[]);
    let alone: f64 = alone.with.last().expect("a last day").iter().sum();
    assert!(total(&outline) < 0.9 * alone, "{} and {alone}", total(&outline));
    // A jet instead, in turn with the vacuum, when the grower does both; cards besides.
    let beside = [Control::WaterJet, Control::Vacuum, Control::StickyCards];
    let more = whitefly(&soap, &beside, &[]).outline(day("2026-06-01"));
    let between: Vec<_> = plan(&more).into_iter().skip(1).take(4).map(|(_, control, _)| control).collect();
    assert_eq!(between, [Control::WaterJet, Control::Vacuum, Control::WaterJet, Control::Vacuum]);
    // A label that does not wait longer leaves no gap; what is asked for is done all the same.
    let quick = [product(1, CONTACT, read(5, 9, Some(1)))];
    assert!(
        plan(&whitefly(&quick, &[], &[]).outline(day("2026-06-01")))
            .iter()
            .all(|(_, control, _)| *control == CONTACT)
    );
    let jets = whitefly(&quick, &[Control::WaterJet], &[]).outline(day("2026-06-01"));
    assert_eq!(plan(&jets)[1], (3, Control::WaterJet, 0));
}

#[wasm_bindgen_test(unsupported = test)]
fn what_is_done_by_hand_between_does_not_put_off_the_spray() {
    let soap = [product(1, CONTACT, read(14, 3, Some(1)))];
    let deed = |later, control, product| Deed {
        day: day("2026-06-01").days_later(later),
        control,
        is_done: true,
        product,
    };
    let deeds = [deed(0, CONTACT, 1), deed(3, Control::Vacuum, 0)];
    let outline = whitefly(&soap, &[], &deeds).outline(day("2026-06-04"));
    let ahead: Vec<_> = outline.visits.iter().filter(|visit| visit.standing == Standing::Ahead).collect();
    let next = ahead.iter().find(|visit| visit.control == CONTACT).map(|visit| visit.day);
    assert_eq!(next, Some(day("2026-06-15")));
    // What was done, or left out, is not asked for again; what is late is due today.
    let by_hand = |deeds: &[Deed], today: &str| {
        let outline = whitefly(&soap, &[], deeds).outline(day(today));
        let ahead = outline.visits.iter().filter(|visit| visit.standing == Standing::Ahead);
        let by_hand = ahead.filter(|visit| visit.control == Control::Vacuum).map(|visit| visit.day.day());
        by_hand.take(2).collect::<Vec<_>>()
    };
    assert_eq!(by_hand(&deeds[..1], "2026-06-02"), [4, 7]);
    assert_eq!(by_hand(&deeds, "2026-06-04"), [7, 10]);
    let left_out = [
        deeds[0],
        Deed {
            is_done: false,
            ..deeds[1]
        },
    ];
    assert_eq!(by_hand(&left_out, "2026-06-02"), [7, 10]);
    assert_eq!(by_hand(&deeds[..1], "2026-06-06"), [6, 9]);
}

#[wasm_bindgen_test(unsupported = test)]
fn living_controls_come_in_once_it_is_warm_and_again_two_weeks_later() {
    let today = day("2026-04-01");
    let programme = Programme {
        control: Control::Parasitoid,
        first: today,
        warmth: Warmth {
            glass: Some(GlassOffset::default()),
            mean: None,
            ..constant(0.0)
        },
        ..whitefly(&[], &[], &[])
    };
    let outline = programme.outline(today);
    let coming = outline.introduction.as_ref().and_then(|coming| coming.day).expect("a warm week");
    assert!(coming > day("2026-05-01"), "{coming}");
    let days: Vec<_> = outline.visits.iter().map(|visit| visit.day.days_since(coming)).collect();
    assert_eq!(days, [0, 14, 28, 42]);
    // Never warm enough: nothing is planned.
    let cold = Programme {
        warmth: constant(12.0),
        ..programme
    };
    assert!(cold.outline(today).visits.is_empty());
}

/// Whitefly at 20 °C, sprayed twice: what is counted of adults before the treatments of days 0, 7, 14 and 21.
#[wasm_bindgen_test(unsupported = test)]
fn sticky_cards_alone_tell_whether_it_works() {
    let species = Pest::Whitefly.species().expect("a species");
    let life = species.life.as_ref().expect("a life");
    let daily = vec![mean_degree_days(20.0, species.thresholds); 42];
    let kills = CONTACT.kills(Pest::Whitefly).expect("kills");
    let days = [0, 7, 14];
    let seen_of = |kills: Kills, scale: f64, on_card: bool| -> Vec<Count> {
        let shown = curve(life, &daily, 42, &days.map(|day| (day, kills)), &[]);
        let stages = |day: usize| *shown.before.get(day).expect("a day");
        [0, 7, 14, 21]
            .map(|day| Count {
                day,
                seen: scale * if on_card { stages(day)[3] } else { stages(day).iter().sum() },
                adults_only: on_card,
            })
            .to_vec()
    };
    let expected = curve(life, &daily, 42, &days.map(|day| (day, kills)), &[]);
    for (on_card, scale) in [(true, 2000.0), (true, 40_000.0), (false, 400.0)] {
        assert_eq!(
            outcome(&seen_of(kills, scale, on_card), &expected),
            Some(Outcome::Working),
            "card: {on_card}"
        );
        let nothing = seen_of(Kills::NONE, scale, on_card);
        assert_eq!(outcome(&nothing, &expected), Some(Outcome::Tolerant), "card: {on_card}");
    }
    let half = seen_of(kills.with_coverage(0.45), 2000.0, true);
    assert_eq!(outcome(&half, &expected), Some(Outcome::MissedUndersides));
    // One count says nothing, nor does one of the other kind beside it.
    let card = seen_of(kills, 2000.0, true);
    assert_eq!(outcome(&card[..1], &expected), None);
    let mixed = [seen_of(kills, 400.0, false)[0], card[1]];
    assert_eq!(outcome(&mixed, &expected), None);
    // Leaves that were counted once do not disturb the cards.
    let mut both = card;
    both.insert(
        1,
        Count {
            seen: 3.0,
            adults_only: false,
            ..both[0]
        },
    );
    assert_eq!(outcome(&both, &expected), Some(Outcome::Working));
}

/// Across 29 February, the turn of a year, and with the seasons of the south.
#[wasm_bindgen_test(unsupported = test)]
fn the_calendar_has_its_corners() {
    let soap = [product(1, CONTACT, read(5, 4, Some(3)))];
    let plan = |first: &str| {
        let first = day(first);
        let programme = Programme {
            first,
            ..whitefly(&soap, &[], &[])
        };
        let outline = programme.outline(first);
        let sprays = outline.visits.iter().filter(|visit| visit.control == CONTACT);
        let days: Vec<_> = sprays.map(|visit| visit.day.to_string()).collect();
        (days, outline.pick_after_last.expect("a picking day").to_string())
    };
    let leap = ["2028-02-17", "2028-02-23", "2028-02-29", "2028-03-06"];
    assert_eq!(plan("2028-02-17"), (leap.map(str::to_owned).to_vec(), "2028-03-09".to_owned()));
    let usual = ["2026-02-17", "2026-02-23", "2026-03-01", "2026-03-07"];
    assert_eq!(plan("2026-02-17"), (usual.map(str::to_owned).to_vec(), "2026-03-10".to_owned()));
    let turn = ["2026-12-20", "2026-12-26", "2027-01-01", "2027-01-07"];
    assert_eq!(plan("2026-12-20"), (turn.map(str::to_owned).to_vec(), "2027-01-10".to_owned()));
    // In the south January is July: the same days after, to one or two for the months' own lengths.
    let hatched = |degrees: f64, first: &str| {
        let first = day(first);
        let programme = Programme {
            first,
            warmth: Warmth {
                latitude: Latitude::from_degrees_north(degrees).expect("a latitude"),
                glass: Some(GlassOffset::default()),
                mean: None,
                readings: &[],
            },
            ..whitefly(&[], &[], &[])
        };
        let outline = programme.outline(first);
        outline.hatched.expect("hatching").central.days_since(first)
    };
    assert!((hatched(52.0, "2026-07-05") - hatched(-52.0, "2026-01-03")).abs() <= 2);
    assert!(hatched(-52.0, "2026-07-05") > 3 * hatched(52.0, "2026-07-05"));
    // Mites hide in the winter of their own half of the world.
    let hides = |degrees: f64, first: &str| {
        let first = day(first);
        let programme = Programme {
            pest: Pest::SpiderMite,
            first,
            warmth: Warmth {
                latitude: Latitude::from_degrees_north(degrees).expect("a latitude"),
                ..constant(22.0)
            },
            ..whitefly(&soap, &[], &[])
        };
        programme.outline(first).hides
    };
    assert!(hides(52.0, "2026-09-28") && !hides(-52.0, "2026-09-28"));
    assert!(hides(-52.0, "2026-03-29") && !hides(52.0, "2026-03-29"));
}

/// Every six days at 20 °C six times: the first done, the second left out, the others ahead.
#[wasm_bindgen_test(unsupported = test)]
fn visits_are_counted_by_how_they_stand() {
    let soap = [product(1, CONTACT, read(5, 20, Some(1)))];
    let deed = |later: i32, is_done: bool| Deed {
        day: day("2026-06-01").days_later(later),
        control: CONTACT,
        is_done,
        product: 1,
    };
    let deeds = [deed(0, true), deed(6, false)];
    let outline = whitefly(&soap, &[], &deeds).outline(day("2026-06-07"));
    let standing = |wanted: Standing| outline.visits.iter().filter(|visit| visit.standing == wanted).count();
    assert_eq!(
        (standing(Standing::Done), standing(Standing::Skipped)),
        (1, 1),
        "{:?}",
        plan(&outline)
    );
    assert_eq!(outline.done(), 1);
    assert_eq!(outline.treatments(), outline.visits.len() - 1);
    let (next, last) = (outline.next().expect("one ahead"), outline.last().expect("one ahead"));
    assert!(next.day < last.day && next.standing == Standing::Ahead && last.standing == Standing::Ahead);
    assert!(outline.visits.iter().all(|visit| visit.day <= last.day));
}
