//! Days to come: how long water lasts, what grows meanwhile, and for which flowers there is time.

use first_truss::almanac::{CivilDay, Latitude, STANDARD_LATITUDE, Sky, Yesterday};
use first_truss::water::{
    Absence, AwayPlan, Butt, Container, DailyNeed, Exposure, Group, LastTruss, Outlook, Place, PlantSize, Roof, RoofKind, Standing,
    TRUSSES_FITTED, Thirst, away_plan, carry_back, carry_forward, daily_need, is_ending, last_truss, morning_water, ripening,
    ripening_rate, season_outlook, truss_rate,
};
use wasm_bindgen_test::wasm_bindgen_test;

/// Standard deviations either side that hold four of five values of a normal distribution.
const FOUR_IN_FIVE: f64 = 1.281_552;

#[track_caller]
fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() <= 1e-9 * wanted.abs().max(1.0), "{found} is not {wanted}");
}

fn day(text: &str) -> CivilDay {
    text.parse().expect("a day")
}

fn size(height: f64, trusses: f64) -> PlantSize {
    PlantSize {
        height_metres: Some(height),
        trusses: Some(trusses),
    }
}

/// A plant of 0.9 m in a pot, which grows on.
fn growing(litres: f64) -> Standing {
    Standing::from(Group {
        count: 3,
        container: Container::Pot { litres },
        size: size(0.9, 3.0),
        ..Group::default()
    })
}

fn plan(standings: &[Standing], days: u32, outlook: Outlook) -> AwayPlan {
    let absence = Absence {
        first: day("2026-06-20"),
        days,
        outlook,
    };
    away_plan(standings, absence, STANDARD_LATITUDE).expect("a plan")
}

/// Litres that each plant uses in so many days.
fn used(standing: &Standing, days: u32) -> f64 {
    if days == 0 {
        return 0.0;
    }
    plan(std::slice::from_ref(standing), days, Outlook::Usual).groups[0].each.value
}

/// Days until so many litres are used, by looking at absences of one day after another; the last day's use goes on.
fn days_until(standing: &Standing, absence: u32, litres: f64) -> f64 {
    let whole = (0..absence).take_while(|days| used(standing, days + 1) < litres).count();
    let whole = u32::try_from(whole).expect("few days");
    let from = whole.min(absence - 1);
    let of_day = used(standing, from + 1) - used(standing, from);
    f64::from(whole) + (litres - used(standing, whole)) / of_day
}

/// The easy water lasts until that much is used, day by day, by plants that grow; likewise at the ends of its range, which single
/// days' 15 % widen the less the more days there are, and the plants' own 25 % always.
#[wasm_bindgen_test(unsupported = test)]
fn easy_water_lasts_until_it_is_used() {
    let standing = growing(40.0);
    let dose = morning_water(&standing.group, &Yesterday::default(), None, STANDARD_LATITUDE, day("2026-06-21")).expect("a dose");
    let easy = dose.root_zone.easy_water;
    for absence in [2, 14] {
        let group = plan(std::slice::from_ref(&standing), absence, Outlook::Usual).groups[0];
        let lasts = group.easy_water_lasts;
        assert!(lasts.value > 3.0 && lasts.high < 14.0, "{lasts:?}");
        near(lasts.value, days_until(&standing, absence, easy));
        let factor = (FOUR_IN_FIVE * (0.0625 + 0.0225 / lasts.value).sqrt()).exp();
        near(lasts.low, days_until(&standing, absence, easy / factor));
        near(lasts.high, days_until(&standing, absence, easy * factor));
    }
    // They grow: a later day takes more.
    assert!(used(&standing, 14) - used(&standing, 13) > 1.1 * used(&standing, 1));
}

/// The range of an absence: 25 % of the plants, 15 % of a day over the days, and 35 % where nobody has told their size.
#[wasm_bindgen_test(unsupported = test)]
fn the_water_of_many_days_is_surer_than_that_of_one() {
    let unknown = Standing {
        group: Group {
            size: PlantSize::default(),
            ..growing(12.0).group
        },
        ..growing(12.0)
    };
    for (standing, of_size) in [(growing(12.0), 0.0), (unknown, 0.35 * 0.35)] {
        for days in [1, 10] {
            let each = plan(std::slice::from_ref(&standing), days, Outlook::Usual).groups[0].each;
            let wide = (FOUR_IN_FIVE * (0.0625_f64 + 0.0225 / f64::from(days) + of_size).sqrt()).exp();
            near(each.high / each.value, wide);
            near(each.value / each.low, wide);
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn thirsty_plants_and_clear_skies_take_more_water_away() {
    let usual = growing(12.0);
    let thirsty = Standing {
        thirst: Thirst {
            factor: 1.3,
            ..Thirst::default()
        },
        ..usual.clone()
    };
    near(used(&thirsty, 5), 1.3 * used(&usual, 5));
    let under = |sky| plan(std::slice::from_ref(&usual), 5, Outlook::under(sky)).groups[0].each.value;
    assert!(under(Sky::Clear) > 1.2 * under(Sky::Mixed) && under(Sky::Mixed) > 1.2 * under(Sky::Dull));
    // Rain is not counted on.
    let outdoors = Standing::from(Group {
        place: Place::Outdoors {
            exposure: Exposure::default(),
        },
        ..usual.group
    });
    let like = |rain| {
        let told = Yesterday {
            rain_millimetres: rain,
            ..Yesterday::default()
        };
        plan(std::slice::from_ref(&outdoors), 5, Outlook::Like(told)).groups[0]
    };
    assert_eq!(like(Some(30.0)), like(None));
}

/// Of two groups that run short on one morning the first is named; a pot that is empty before the day is over is.
#[wasm_bindgen_test(unsupported = test)]
fn whoever_comes_is_told_for_whom_and_whether_that_is_enough() {
    let comes = |standings: &[Standing]| plan(standings, 10, Outlook::Usual).someone_comes.expect("somebody");
    assert_eq!(comes(&[growing(12.0), growing(12.0)]).group, 0);
    let (large, small) = (comes(&[growing(12.0)]), comes(&[growing(2.0)]));
    assert!(large.every >= 1 && !large.daily_is_too_seldom, "{large:?}");
    assert_eq!((small.every, small.daily_is_too_seldom), (1, true));
    // The working is that of the group whose water is gone first, within the absence or not; one without plants has none.
    let nobody = Standing::from(Group {
        count: 0,
        ..growing(2.0).group
    });
    let worked_out = |standings: &[Standing], first: usize| {
        let plan = plan(standings, 2, Outlook::Usual);
        let step = &plan.working.steps()[1];
        assert!(step.title.starts_with("Until the easy water"), "{step:?}");
        near(step.result.amount, plan.groups[first].easy_water_lasts.value);
        plan.someone_comes.map(|comes| comes.group)
    };
    assert_eq!(worked_out(&[nobody.clone(), growing(60.0), growing(30.0), growing(40.0)], 2), None);
    assert_eq!(worked_out(&[growing(60.0), growing(4.0), nobody, growing(30.0)], 1), Some(1));
}

/// A butt's day is what all plants are given to replace their use, under each sky; without a need under one there is no answer.
#[wasm_bindgen_test(unsupported = test)]
fn a_butt_lasts_by_what_is_given_under_each_sky() {
    let (standing, today) = (growing(12.0), day("2026-07-09"));
    let need = daily_need(std::slice::from_ref(&standing), STANDARD_LATITUDE, today).expect("a need");
    for (sky, litres) in [(Sky::Clear, need.clear), (Sky::Mixed, need.mixed), (Sky::Dull, need.dull)] {
        let told = Yesterday {
            sun: Some(first_truss::almanac::Sun::Word(sky)),
            ..Yesterday::default()
        };
        let dose = morning_water(&standing.group, &told, None, STANDARD_LATITUDE, today).expect("a dose");
        near(litres, 3.0 * dose.demand.total() / 0.9);
    }
    let butt = Butt {
        size: 200.0,
        level: 120.0,
        roof: Roof {
            plan_area: 6.0,
            kind: RoofKind::default(),
        },
    };
    let left = |need: DailyNeed| butt.days_left(need, std::slice::from_ref(&standing));
    near(left(need).expect("days").mixed.value, 120.0 / need.mixed);
    for nothing in [
        DailyNeed { clear: 0.0, ..need },
        DailyNeed { mixed: 0.0, ..need },
        DailyNeed { dull: 0.0, ..need },
    ] {
        assert_eq!(left(nothing), None);
    }
    // From the 9th on, July still has 23 of its 31 days, and as much of its rain.
    let supply = |first: &str| season_outlook(&butt, &[], STANDARD_LATITUDE, day(first)).expect("months")[0].supply;
    near(supply("2026-07-09"), supply("2026-07-01") * 23.0 / 31.0);
}

/// Height comes with the trusses, 0.18 m each (choice); the first stands at 0.30 m, to which a plant without one grows first.
#[wasm_bindgen_test(unsupported = test)]
fn plants_grow_forward_and_back_by_their_trusses() {
    let (from, to) = (day("2026-06-01"), day("2026-06-15"));
    let fourteen_days = 14.0 * truss_rate(20.0);
    let grown = |size: PlantSize| carry_forward(size, from, to, None, &|_| 20.0);
    for (height, trusses, wanted) in [
        (1.2, 5.0, 5.0 + fourteen_days),
        (0.2, 0.0, fourteen_days - 0.1 / 0.18),
        (0.3, 0.0, fourteen_days),
        (0.25, 1.0, 1.0 + fourteen_days),
    ] {
        let carried = grown(size(height, trusses));
        near(carried.size.trusses.expect("trusses"), wanted);
        near(carried.size.height_metres.expect("a height"), height + 0.18 * fourteen_days);
        assert!(carried.estimated);
    }
    assert!(!carry_forward(size(1.2, 5.0), from, from, None, &|_| 20.0).estimated);
    let back = |height: f64, days: i32| {
        let earlier = carry_back(size(height, 5.0), to, to.days_later(-days), &|_| 20.0);
        (earlier.height_metres.expect("a height"), earlier.trusses.expect("trusses"))
    };
    near(back(1.2, 14).0, 1.2 - 0.18 * fourteen_days);
    near(back(1.2, 14).1, 5.0 - fourteen_days);
    // None was smaller than a seedling, unless it is now.
    near(back(1.2, 100).0, 0.2);
    near(back(0.12, 100).0, 0.12);
    near(back(1.2, 100).1, 0.0);
}

/// By the line alone, worked out apart: ln 15 = 2.708 050, ln 10 = 2.302 585, ln 8 = 2.079 442, ln 25 = 3.218 876.
#[wasm_bindgen_test(unsupported = test)]
fn plants_grow_slower_in_the_cold_and_stand_still_in_autumn() {
    for (celsius, rate) in [
        (15.0, 0.103_450_5),
        (10.0, 0.044_495_9),
        (8.0, 0.012_050_8),
        (25.0, 0.177_724_6),
        (40.0, 0.177_724_6),
    ] {
        assert!((truss_rate(celsius) - rate).abs() < 1e-6, "{celsius}: {}", truss_rate(celsius));
    }
    for celsius in [7.364, 7.0, 0.0, -5.0] {
        assert!((0.0..1e-4).contains(&truss_rate(celsius)), "{celsius}");
    }
    assert!(truss_rate(7.4) > 1e-4);
    let (from, to) = (day("2026-11-01"), day("2026-12-01"));
    let still = carry_forward(size(1.2, 5.0), from, to, None, &|_| 5.0);
    assert_eq!((still.size, still.estimated), (size(1.2, 5.0), false));
}

#[wasm_bindgen_test(unsupported = test)]
fn days_beyond_the_temperatures_of_the_count_are_counted() {
    let (coldest, warmest) = TRUSSES_FITTED;
    let beyond = |celsius: f64| {
        let (from, to) = (day("2026-06-01"), day("2026-06-08"));
        carry_forward(size(1.2, 5.0), from, to, None, &|_| celsius).days_beyond_fit
    };
    for (celsius, days) in [(coldest - 0.1, 7), (coldest, 0), (20.0, 0), (warmest, 0), (warmest + 0.1, 7)] {
        assert_eq!(beyond(celsius), days, "{celsius}");
    }
}

/// De Koning 1994 (from memory): 0.0181 of the way a day at 20 °C, whatever the age.
#[wasm_bindgen_test(unsupported = test)]
fn fruit_ripens_until_the_day_asked_for_or_until_it_is_ripe() {
    let from = day("2026-06-01");
    let after = |days: i32, celsius: f64| ripening(from, from.days_later(days), &|_| celsius);
    near(after(10, 20.0).done, 0.181);
    near(after(10, 20.0).days, 10.0);
    near(after(55, 20.0).done, 55.0 * 0.0181);
    near(after(56, 20.0).done, 1.0);
    near(after(200, 20.0).days, 1.0 / 0.0181);
    for (celsius, unreliable) in [(13.9, true), (14.0, false), (20.0, false)] {
        assert_eq!(after(10, celsius).unreliable, unreliable, "{celsius}");
    }
    let one_cold_day = |day: CivilDay| if day == from.days_later(3) { 13.0 } else { 20.0 };
    assert!(ripening(from, from.days_later(10), &one_cold_day).unreliable);
}

/// The line through 95 days at 14 °C and 65 at 18 (Adams, Cockshull and Cave 2001) comes to nought at 5.33 °C; a choice keeps to 10 °C.
#[wasm_bindgen_test(unsupported = test)]
fn the_rate_falls_along_a_line_from_17_degrees_to_10() {
    for done in [0.0, 0.3, 0.7, 1.0] {
        let of_17 = |celsius: f64| ripening_rate(celsius, done) / ripening_rate(17.0, done);
        near(of_17(14.0), (14.0 - 5.33) / (17.0 - 5.33));
        near(of_17(10.0), (10.0 - 5.33) / (17.0 - 5.33));
        near(of_17(4.0), of_17(10.0));
        assert!(of_17(16.99) < 1.0 && of_17(16.99) > 0.999 && of_17(17.01) > 1.0, "{done}");
    }
}

fn last(standing: &Standing, degrees: f64, today: &str) -> Option<LastTruss> {
    last_truss(standing, Latitude::from_degrees_north(degrees).expect("a latitude"), day(today))
}

/// Common practice: a fortnight in hand, a margin of ten days about the day, and less feed and water from six weeks to four before the end.
#[wasm_bindgen_test(unsupported = test)]
fn the_last_truss_has_its_margin_its_taper_and_its_days() {
    let standing = growing(12.0);
    for (degrees, today) in [(52.5, "2026-06-01"), (52.5, "2026-01-15"), (-42.0, "2026-12-01")] {
        let last = last(&standing, degrees, today).expect("a season");
        assert_eq!((last.stop.days_since(last.early), last.late.days_since(last.stop)), (10, 10));
        let (from, to) = last.taper;
        assert_eq!((last.season_ends.days_since(from), last.season_ends.days_since(to)), (42, 28));
        let step = &last.working.steps()[0];
        assert!(step.title.starts_with("Days from the last flower"), "{step:?}");
        let ripe = last.season_ends.days_later(-14);
        near(step.result.amount, f64::from(ripe.days_since(last.stop)));
        assert!((60..80).contains(&ripe.days_since(last.stop)), "{last:?}");
        assert!(
            (240..360).contains(&last.season_ends.days_since(day(today))) == (today == "2026-01-15"),
            "{last:?}"
        );
    }
    // In the open in the north too.
    let north = Standing::from(Group {
        place: Place::Outdoors {
            exposure: Exposure::default(),
        },
        ..growing(12.0).group
    });
    assert!(last(&standing, 52.5, "2026-06-01").is_some() && last(&north, 55.0, "2026-06-01").is_some());
    // In the winter the next summer is told, in the autumn nothing is.
    assert_eq!(last(&standing, 52.5, "2026-11-15"), None);
}

/// The crop comes to its end with the taper, six weeks before the cold, and has come to it in the autumn after; at the turn of the year
/// the next one counts (choice), also in the south. So has what is too cold for a season once the summer is past, not before.
#[wasm_bindgen_test(unsupported = test)]
fn a_crop_ends_with_its_taper_and_stays_ended_until_the_year_turns() {
    let standing = growing(12.0);
    let ends = |degrees: f64, today: CivilDay| {
        let place = Latitude::from_degrees_north(degrees).expect("a latitude");
        is_ending(last_truss(&standing, place, today).as_ref(), standing.group.place, place, today)
    };
    for (degrees, summer, autumn, winter) in [
        (52.5, "2026-06-01", "2026-11-15", "2027-01-15"),
        (-42.0, "2026-12-01", "2027-05-15", "2027-07-15"),
    ] {
        let taper = last(&standing, degrees, summer).expect("a season").taper.0;
        assert!(!ends(degrees, taper.yesterday()) && ends(degrees, taper));
        assert!(ends(degrees, day(autumn)) && !ends(degrees, day(winter)));
    }
    let place = Latitude::from_degrees_north(52.5).expect("a latitude");
    let without = |today| is_ending(None, standing.group.place, place, day(today));
    // Usual means of 9 and 18 °C.
    assert_eq!(
        ["2026-04-01", "2026-07-31", "2026-08-01", "2026-12-31"].map(without),
        [false, false, false, true]
    );
}

/// Once the day is past, the last truss is one that was in flower then: those that came later are above it.
#[wasm_bindgen_test(unsupported = test)]
fn after_the_day_to_stop_the_last_truss_is_an_earlier_one() {
    let tall = Standing::from(Group {
        size: size(1.8, 8.0),
        ..growing(12.0).group
    });
    let in_time = last(&tall, 52.5, "2026-07-01").expect("a season");
    assert!(in_time.stop > day("2026-07-01") && in_time.truss > Some(8), "{in_time:?}");
    let late = last(&tall, 52.5, "2026-09-05").expect("a season");
    assert_eq!(late.stop, in_time.stop);
    assert!(late.truss < Some(7) && late.truss > Some(1), "{late:?}");
}

/// What is likely reaches further where the temperatures of days to come are a far guess: by 0.35 (choice) beside what is open anyway.
#[wasm_bindgen_test(unsupported = test)]
fn days_ahead_that_are_a_far_guess_leave_more_open() {
    let standing = growing(10.0);
    let at = |degrees: f64| Latitude::from_degrees_north(degrees).expect("a place");
    let away = |degrees: f64, outlook: Outlook| {
        let absence = Absence {
            first: day("2026-06-20"),
            days: 4,
            outlook,
        };
        away_plan(std::slice::from_ref(&standing), absence, at(degrees)).expect("a plan")
    };
    let read = Outlook::Like(Yesterday {
        warmest: Some(30.0),
        coolest: Some(18.0),
        ..Yesterday::default()
    });
    let spread = |days: f64, far: f64| (FOUR_IN_FIVE * (0.25_f64.powi(2) + 0.15_f64.powi(2) / days + far.powi(2)).sqrt()).exp();
    for (degrees, outlook, far) in [(49.5, Outlook::Usual, 0.35), (50.0, Outlook::Usual, 0.0), (49.5, read, 0.0)] {
        let plan = away(degrees, outlook);
        let each = plan.groups[0].each;
        near(each.high / each.value, spread(4.0, far));
        near(each.value / each.low, spread(4.0, far));
    }
    // The water lasts as long by the sum, and less or longer by what is likely.
    let (far, near_by) = (away(49.5, Outlook::Usual), away(50.0, Outlook::Usual));
    for lasts in [
        (far.groups[0].easy_water_lasts, near_by.groups[0].easy_water_lasts),
        (far.groups[0].store_lasts, near_by.groups[0].store_lasts),
    ] {
        let (far, near_by) = lasts;
        assert!((far.value / near_by.value - 1.0).abs() < 0.02, "{far:?} {near_by:?}");
        assert!(far.low < 0.85 * near_by.low && far.high > 1.1 * near_by.high, "{far:?} {near_by:?}");
    }
    // So does a butt.
    let butt = Butt {
        size: 200.0,
        level: 120.0,
        roof: Roof {
            plan_area: 6.0,
            kind: RoofKind::default(),
        },
    };
    for (degrees, far) in [(49.5, 0.35), (50.0, 0.0)] {
        let need = daily_need(std::slice::from_ref(&standing), at(degrees), day("2026-06-20")).expect("a need");
        let left = butt.days_left(need, std::slice::from_ref(&standing)).expect("days").mixed;
        near(left.high / left.value, spread(left.value, far));
    }
}

/// A day to come of which the sky is left open has the usual sun of its month.
#[wasm_bindgen_test(unsupported = test)]
fn what_is_left_open_of_a_day_to_come_is_usual() {
    let standing = growing(10.0);
    let standings = std::slice::from_ref(&standing);
    assert_eq!(
        plan(standings, 5, Outlook::Like(Yesterday::default())),
        plan(standings, 5, Outlook::Usual)
    );
    let warm = Outlook::Like(Yesterday {
        warmest: Some(35.0),
        coolest: Some(22.0),
        ..Yesterday::default()
    });
    assert!(plan(standings, 5, warm).total.value > 1.1 * plan(standings, 5, Outlook::Usual).total.value);
    assert_ne!(plan(standings, 5, Outlook::under(Sky::Dark)), plan(standings, 5, Outlook::Usual));
}
