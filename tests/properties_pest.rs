//! Properties of dates, numbers and best plans against pests that hold for all warmth, labels and treatments.

use std::cmp::Ordering;
use std::collections::BTreeSet;

use first_truss::almanac::{CivilDay, Latitude};
use first_truss::pest::{
    Aim, CalendarEntry, Candidate, Control, Course, DayShape, Deed, Extent, GlassOffset, Kills, Label, LifeTable, Limits, Outline, Pest,
    Product, Programme, Search, SharedUse, Standing, Thresholds, Told, Visit, Warmth, calendar_file, cleared, curve, mean_degree_days,
    repeat, schedule,
};
use first_truss::pest::{Basis, average_degree_days};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;

/// Two hundred cases in a quick run, five thousand where more are asked for.
fn quick_or_long() -> ProptestConfig {
    ProptestConfig::with_cases(if std::env::var_os("PROPTEST_CASES").is_some() { 5000 } else { 200 })
}

/// Days from 1 January 2024 on: two years with a 29 February and both ends of a year.
fn any_day() -> impl Strategy<Value = CivilDay> {
    (0..900_i32).prop_map(|later| CivilDay::new(2024, 1, 1).expect("a day").days_later(later))
}

fn any_warmth() -> impl Strategy<Value = Warmth<'static>> {
    (-60.0..65.0_f64, any::<bool>(), option::weighted(0.3, 5.0..33.0_f64)).prop_map(|(degrees, is_glass, mean)| Warmth {
        latitude: Latitude::from_degrees_north(degrees).expect("a latitude"),
        glass: is_glass.then(GlassOffset::default),
        mean,
        readings: &[],
    })
}

fn any_kills() -> impl Strategy<Value = Kills> {
    [0.0..=1.0_f64, 0.0..=1.0_f64, 0.0..=1.0_f64, 0.0..=1.0_f64].prop_map(|[egg, young, pupa, adult]| Kills {
        egg,
        young,
        pupa,
        adult,
        basis: Basis::Assumed,
    })
}

fn any_label() -> impl Strategy<Value = Label> {
    let told = || select(vec![Told::Yes, Told::Yes, Told::Yes, Told::Yes, Told::No, Told::Unknown]);
    (
        told(),
        told(),
        told(),
        option::weighted(0.9, 0..=21_u16),
        option::weighted(0.9, 1..=8_u16),
        option::weighted(0.7, 0..=14_u16),
        option::weighted(0.2, any_day()),
    )
        .prop_map(
            |(names_crop, names_place, for_home, least_days, most_uses, days_before_picking, latest_use)| Label {
                names_crop,
                names_place,
                for_home,
                least_days,
                most_uses,
                days_before_picking,
                latest_use,
            },
        )
}

#[derive(Debug, Clone)]
struct Case {
    pest: Pest,
    control: Control,
    today: CivilDay,
    deeds: Vec<Deed>,
    beside: Vec<Control>,
    products: Vec<Product>,
    warmth: Warmth<'static>,
    extent: Extent,
    chosen: Vec<CivilDay>,
    shared: Vec<SharedUse>,
}

/// One to three products, the first of which is what is repeated.
fn any_products() -> impl Strategy<Value = Vec<(Label, bool, Control)>> {
    vec(
        (any_label(), any::<bool>(), select(vec![Control::ContactSpray, Control::OtherSpray])),
        1..4,
    )
}

fn any_case() -> impl Strategy<Value = Case> {
    let control = select(Pest::ALL.to_vec()).prop_flat_map(|pest| (Just(pest), select(pest.controls().to_vec())));
    let deeds = vec(
        (0..60_i32, any::<bool>(), select(Control::ALL.to_vec()), any::<bool>(), 1..4_u8),
        0..6,
    );
    let extent = select(vec![Extent::Full, Extent::Least, Extent::Chosen]);
    let beside = vec(
        select(vec![Control::WaterJet, Control::Vacuum, Control::StickyCards, Control::Parasitoid]),
        0..3,
    );
    (
        control,
        any_day(),
        deeds,
        any_products(),
        any_warmth(),
        extent,
        vec(-5..60_i32, 0..8),
        (beside, vec((1..4_u8, 0..60_i32), 0..4)),
    )
        .prop_map(
            |((pest, control), today, deeds, products, warmth, extent, chosen, (beside, shared))| {
                let products: Vec<Product> = (1..)
                    .zip(products)
                    .map(|(number, (label, is_used, other))| Product {
                        number,
                        control: if number == 1 { control } else { other },
                        label,
                        is_used,
                    })
                    .collect();
                let mut days: Vec<i32> = chosen;
                days.sort_unstable();
                days.dedup();
                let deed = |(before, is_own, other, is_done, number): (i32, bool, Control, bool, u8)| {
                    let product = products.iter().find(|product| product.number == number).or(products.first());
                    let product = product.filter(|_| is_own && control.needs_label());
                    Deed {
                        day: today.days_later(-before),
                        control: product.map_or(if is_own { control } else { other }, |product| product.control),
                        is_done,
                        product: product.map_or(u8::from(other.needs_label()), |product| product.number),
                    }
                };
                Case {
                    pest,
                    control,
                    today,
                    deeds: deeds.into_iter().map(deed).collect(),
                    beside,
                    warmth,
                    extent,
                    chosen: days.into_iter().map(|later| today.days_later(later)).collect(),
                    products,
                    shared: shared
                        .into_iter()
                        .map(|(product, before)| SharedUse {
                            product,
                            day: today.days_later(-before),
                        })
                        .collect(),
                }
            },
        )
}

impl Case {
    fn outline(&self) -> Outline {
        let programme = Programme {
            pest: self.pest,
            control: self.control,
            beside: &self.beside,
            first: self.today,
            deeds: &self.deeds,
            products: &self.products,
            warmth: self.warmth,
            extent: self.extent,
            chosen: &self.chosen,
            elsewhere: &[],
            shared: &self.shared,
            sprayed: &[],
            fills_gaps: true,
        };
        programme.outline(self.today)
    }
}

fn life(pest: Pest) -> &'static LifeTable {
    pest.species().and_then(|species| species.life.as_ref()).expect("a life table")
}

proptest! {
    #![proptest_config(quick_or_long())]

    #[test]
    fn degree_days_rise_with_both_extremes_and_stay_below_the_range(
        coolest in -20.0..45.0_f64, more in 0.0..25.0_f64, warmer in 0.0..5.0_f64, lower in 0.0..15.0_f64, range in 5.0..25.0_f64,
    ) {
        let between = Thresholds { lower, upper: lower + range };
        for shape in [DayShape::Sine, DayShape::Triangle] {
            let day = shape.degree_days(coolest, coolest + more, between);
            prop_assert!(day >= -1e-9 && day <= range + 1e-9);
            prop_assert!(shape.degree_days(coolest, coolest + more + warmer, between) >= day - 1e-9);
            prop_assert!(shape.degree_days(coolest + warmer, coolest + more + warmer, between) >= day - 1e-9);
            if coolest >= lower && coolest + more <= between.upper {
                let mean = f64::midpoint(coolest, coolest + more);
                prop_assert!((day - average_degree_days(coolest, coolest + more, lower)).abs() < 1e-9);
                prop_assert!((day - mean_degree_days(mean, between)).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn warmer_is_never_later(start in any_day(), cool in 9.0..30.0_f64, warmer in 0.0..6.0_f64, pest in select(vec![Pest::Whitefly, Pest::SpiderMite, Pest::Thrips])) {
        let species = pest.species().expect("a species");
        let course = |celsius| {
            let warmth = Warmth { latitude: Latitude::from_degrees_north(52.0).expect("a latitude"), glass: None, mean: Some(celsius), readings: &[] };
            Course::after(start, &warmth, species.thresholds)
        };
        for warmth in [species.egg.unwrap_or(50.0), species.cycle.unwrap_or(50.0)] {
            if let Some(days) = course(cool).days_until(0, warmth) {
                let sooner = course(cool + warmer).days_until(0, warmth);
                prop_assert!(sooner.is_some_and(|sooner| sooner <= days));
            }
        }
    }

    /// The same with the usual days of a place, whose nights may be below all warmth.
    #[test]
    fn a_warmer_house_is_never_later(start in any_day(), degrees in -60.0..65.0_f64, by_day in 0.0..4.0_f64, more in 0.0..6.0_f64, pest in select(vec![Pest::Whitefly, Pest::SpiderMite, Pest::Aphid])) {
        let outline = |more: f64| {
            let warmth = Warmth {
                latitude: Latitude::from_degrees_north(degrees).expect("a latitude"),
                glass: Some(GlassOffset { by_day: by_day + more, by_night: more }),
                mean: None,
                readings: &[],
            };
            let programme = Programme {
                pest, control: pest.physical_control(), beside: &[], first: start, deeds: &[], products: &[], warmth,
                extent: Extent::Full, chosen: &[],
            elsewhere: &[],
            shared: &[],
            sprayed: &[],
            fills_gaps: true,
            };
            programme.outline(start)
        };
        let (cool, warm) = (outline(0.0), outline(more));
        for (cool, warm) in [(cool.hatched, warm.hatched), (cool.last_adult, warm.last_adult)] {
            if let Some(cool) = cool {
                prop_assert!(warm.is_some_and(|warm| warm.central <= cool.central && warm.other <= cool.other), "{cool:?} {warm:?}");
            }
        }
        prop_assert!(cool.stalls || !warm.stalls);
    }

    #[test]
    fn a_treatment_never_raises_any_stage(
        pest in select(vec![Pest::Whitefly, Pest::SpiderMite]), celsius in 12.0..30.0_f64, kills in any_kills(), days in vec(0..28_usize, 1..5), extra in 0..28_usize,
    ) {
        let life = life(pest);
        let daily = vec![mean_degree_days(celsius, pest.species().expect("a species").thresholds); 28];
        let treatments: Vec<_> = days.iter().map(|day| (*day, kills)).collect();
        let more: Vec<_> = treatments.iter().copied().chain([(extra, kills)]).collect();
        let (fewer, more) = (curve(life, &daily, 28, &treatments, &[]), curve(life, &daily, 28, &more, &[]));
        for (fewer, more) in fewer.with.iter().zip(&more.with) {
            for (fewer, more) in fewer.iter().zip(more) {
                prop_assert!(*more <= fewer * (1.0 + 1e-9) + 1e-12);
                prop_assert!(*more >= -1e-9);
            }
        }
    }

    #[test]
    fn what_kills_nothing_changes_nothing(pest in select(vec![Pest::Whitefly, Pest::SpiderMite]), celsius in 12.0..30.0_f64, days in vec(0..28_usize, 1..6)) {
        let life = life(pest);
        let daily = vec![mean_degree_days(celsius, pest.species().expect("a species").thresholds); 28];
        let treatments: Vec<_> = days.iter().map(|day| (*day, Kills::NONE)).collect();
        let (with, without) = (curve(life, &daily, 28, &treatments, &[]), curve(life, &daily, 28, &[], &[]));
        prop_assert_eq!(&with.with, &without.with);
        for (stages, total) in with.with.iter().zip(&without.without) {
            let sum: f64 = stages.iter().sum();
            prop_assert!((sum / total - 1.0).abs() < 1e-6, "the steady mixture grows as its rate says");
        }
    }

    /// No spray inside the label's interval, after its last day or beyond its uses; none at all without the gate; picking never before
    /// the last use and its interval, and never without one.
    #[test]
    fn no_date_breaks_a_label(case in any_case()) {
        let outline = case.outline();
        let product = |number: u8| case.products.iter().find(|product| product.number == number);
        let gate = |number: u8| product(number).and_then(|product| cleared(&product.label).ok());
        let planned: Vec<_> = outline.visits.iter().filter(|visit| visit.standing == Standing::Ahead).collect();
        for visit in &planned {
            prop_assert!(visit.day >= case.today, "{visit:?} is past");
            if visit.control.needs_label() {
                let gate = gate(visit.product).expect("a spray is planned with the gate open");
                prop_assert!(product(visit.product).is_some_and(|product| product.control == visit.control));
                let uses = outline.visits.iter().filter(|other| {
                    other.control.needs_label() && other.product == visit.product && other.standing != Standing::Skipped
                });
                let shared = case.shared.iter().filter(|shared| shared.product == visit.product);
                let uses: BTreeSet<CivilDay> = uses.map(|visit| visit.day).chain(shared.map(|shared| shared.day)).collect();
                let is_same_use = case.shared.iter().any(|shared| shared.product == visit.product && shared.day == visit.day);
                let earlier = uses.iter().filter(|day| **day < visit.day).max();
                if let Some(earlier) = earlier.filter(|_| !is_same_use) {
                    prop_assert!(visit.day.days_since(*earlier) >= i32::from(gate.least_days()), "{visit:?} after {earlier}");
                }
                let number = uses.iter().filter(|day| **day <= visit.day).count();
                prop_assert!(is_same_use || number <= usize::from(gate.most_uses()), "{visit:?} is use {number}");
                prop_assert!(gate.label().latest_use.is_none_or(|latest| visit.day <= latest));
            }
        }
        // Picking waits for every product that was or will be used, and for a label of each.
        let picking = |is_counted: &dyn Fn(&Visit) -> bool, told: Option<CivilDay>| {
            let sprays = outline.visits.iter().filter(|visit| visit.control.needs_label() && visit.standing != Standing::Skipped);
            let mut waits = sprays.filter(|visit| is_counted(visit)).map(|visit| {
                let days = gate(visit.product).and_then(|gate| gate.label().days_before_picking)?;
                Some(visit.day.days_later(i32::from(days)))
            });
            told.is_none_or(|told| waits.all(|day| day.is_some_and(|day| told >= day)))
        };
        prop_assert!(picking(&|_| true, outline.pick_after_last), "{:?}", outline.pick_after_last);
        prop_assert!(picking(&|visit| visit.standing == Standing::Done, outline.pick_now), "{:?}", outline.pick_now);
        let next = planned.iter().find(|visit| visit.control.needs_label()).map(|visit| visit.day);
        prop_assert!(picking(&|visit| Some(visit.day) <= next, outline.pick_after_next), "{:?}", outline.pick_after_next);
        for sprayed in planned.iter().filter(|visit| visit.control.needs_label()) {
            let told = outline.pick_between.iter().find(|between| between.until == sprayed.day);
            let uses = outline.visits.iter().filter(|visit| {
                visit.control.needs_label() && visit.standing != Standing::Skipped && visit.day < sprayed.day
            });
            let waits: Option<Vec<CivilDay>> = uses
                .map(|visit| {
                    let days = gate(visit.product).and_then(|gate| gate.label().days_before_picking)?;
                    Some(visit.day.days_later(i32::from(days)))
                })
                .collect();
            let is_open = |waits: &Vec<CivilDay>| !waits.is_empty() && waits.iter().all(|day| *day < sprayed.day);
            let from = waits.filter(is_open).map(|waits| (waits.len(), waits.into_iter().max()));
            prop_assert_eq!(told.map(|between| (between.uses, Some(between.from))), from, "before {}", sprayed.day);
        }
        let ends = outline.pick_between.iter().map(|between| between.until);
        prop_assert!(ends.clone().all(|day| planned.iter().any(|visit| visit.control.needs_label() && visit.day == day)));
        prop_assert!(ends.is_sorted());
        let is_sprayed = outline.visits.iter().any(|visit| visit.control.needs_label() && visit.standing != Standing::Skipped);
        prop_assert!(is_sprayed || outline.pick_after_last.is_none(), "picking without a use");
        // In order, and no day twice.
        for pair in planned.windows(2) {
            if let [one, other] = pair {
                prop_assert!(one.day < other.day, "{one:?} {other:?}");
            }
        }
    }

    /// The best plan is never worse than the simple rule, keeps to the label, and one more treatment is never worse than it.
    #[test]
    fn the_best_plan_is_never_worse_than_the_simple_rule(aim in any_aim()) {
        let simple = aim.outcome(within(&aim, aim.simple.clone()));
        let found = Search::new(aim.clone()).run().expect("a plan");
        prop_assert!(aim.allows(&found.best.days), "{:?}", found.best.days);
        prop_assert_ne!(aim.order(&found.best, &simple), Ordering::Greater, "{:?} {:?}", found.best, simple);
        prop_assert_eq!(found.keeps, found.best.level <= aim.level);
        let again = aim.outcome(found.best.days.clone());
        prop_assert!((again.level - found.best.level).abs() < 1e-12);
        if let Some(fewer) = found.one_fewer {
            prop_assert!(aim.allows(&fewer.days) && fewer.days.len() + 1 == found.best.days.len());
            prop_assert!(!found.keeps || fewer.level > aim.level);
        }
        if let Some(more) = found.one_more {
            prop_assert!(aim.allows(&more.days) && more.days.len() == found.best.days.len() + 1);
        }
    }

    /// On small cases it is the best of all.
    #[test]
    fn on_small_cases_the_best_plan_is_the_best_of_all(aim in any_aim(), horizon in 5..13_usize, most in 1..4_usize) {
        let aim = Aim { daily: aim.daily.into_iter().take(horizon).collect(), most, ..aim };
        let aim = Aim { simple: within(&aim, aim.simple.clone()), ..aim };
        let mut best: Option<Candidate> = None;
        for set in 0..1_u32 << (horizon + 1) {
            let days: Vec<usize> = (0..=horizon).filter(|day| set >> day & 1 == 1).collect();
            if days.len() <= most && aim.allows(&days) {
                let candidate = aim.outcome(days);
                if best.as_ref().is_none_or(|best| aim.order(&candidate, best) == Ordering::Less) {
                    best = Some(candidate);
                }
            }
        }
        let best = best.expect("at least nothing at all");
        let found = Search::new(aim.clone()).run().expect("a plan");
        prop_assert_eq!(aim.order(&found.best, &best), Ordering::Equal, "found {:?}, best {:?}", found.best, best);
    }

    #[test]
    fn texts_come_back_from_a_calendar_file(texts in vec(any_text(), 1..4), day in any_day(), revision in 0..9_u32) {
        let entries: Vec<_> = texts
            .iter()
            .enumerate()
            .map(|(number, text)| CalendarEntry {
                name: format!("visit-{number}"),
                day: day.days_later(i32::try_from(number).expect("few")),
                summary: text.clone(),
                description: text.clone(),
                reminds: number % 2 == 0,
            })
            .collect();
        let file = calendar_file(&entries, "20260709T083000Z", revision);
        prop_assert_eq!(&file, &calendar_file(&entries, "20260709T083000Z", revision));
        prop_assert_eq!(file.matches('\n').count(), file.matches("\r\n").count());
        prop_assert!(file.split("\r\n").all(|line| line.len() <= 75));
        let unfolded = file.replace("\r\n ", "");
        let summaries: Vec<String> = unfolded.split("\r\n").filter_map(|line| line.strip_prefix("SUMMARY:")).map(read_back).collect();
        prop_assert_eq!(summaries, texts);
    }
}

/// Texts of a grower, with all that has a meaning of its own in a calendar file.
fn any_text() -> impl Strategy<Value = String> {
    vec(select(vec!['a', 'é', '°', '🍅', ',', ';', '\\', '\n', ':', ' ', '“', 'n']), 0..120).prop_map(|signs| signs.into_iter().collect())
}

/// The text of a value, by the rules of RFC 5545.
fn read_back(value: &str) -> String {
    let mut text = String::new();
    let mut signs = value.chars();
    while let Some(sign) = signs.next() {
        match sign {
            '\\' => match signs.next() {
                Some('n' | 'N') => text.push('\n'),
                Some(other) => text.push(other),
                None => {}
            },
            other => text.push(other),
        }
    }
    text
}

/// The days that the label allows and the horizon holds.
fn within(aim: &Aim, days: Vec<usize>) -> Vec<usize> {
    days.into_iter()
        .filter(|day| *day <= aim.daily.len().min(aim.latest))
        .take(aim.most)
        .collect()
}

fn any_aim() -> impl Strategy<Value = Aim> {
    (
        select(vec![Pest::Whitefly, Pest::SpiderMite]),
        vec(13.0..29.0_f64, 30),
        select(vec![Control::ContactSpray, Control::WaterJet, Control::Vacuum]),
        1..9_usize,
        1..7_usize,
        option::weighted(0.2, 5..30_usize),
        0.05..2.0_f64,
    )
        .prop_map(|(pest, means, control, least_days, most, latest, level)| {
            let species = pest.species().expect("a species");
            let daily: Vec<f64> = means.iter().map(|mean| mean_degree_days(*mean, species.thresholds)).collect();
            let limits = Limits {
                least_days,
                most,
                latest: latest.unwrap_or(usize::MAX),
            };
            let course = Course {
                start: CivilDay::default(),
                daily: daily.clone(),
                means,
            };
            let rule = repeat(pest, Control::ContactSpray).expect("a rule");
            let aim = Aim {
                life: *life(pest),
                daily,
                kills: control.kills(pest).unwrap_or(Kills::NONE),
                every_day: Kills::NONE,
                least_days,
                most,
                latest: limits.latest,
                level,
                simple: schedule(&course, rule, limits, true).days,
            };
            Aim {
                simple: within(&aim, aim.simple.clone()),
                ..aim
            }
        })
}
