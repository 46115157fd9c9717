//! Links are read from anywhere: whatever comes, nothing is accepted that was not made, and what was made says the same.

use first_truss::almanac::{CivilDay, Sky, Thermometer};
use first_truss::notebook::{
    Coded, ContainerKind, DayPage, Done, Entry, FeedPlan, Field, GroupRecord, Notebook, Plan, Reply, Treatment, Visits, open, seal,
};
use first_truss::pest::{Control, Pest};
use first_truss::quantity::{Measure, TemperatureScale, UnitSystem, Units};
use first_truss::today::Task;
use first_truss::water::{Cover, Exposure, Feel, Handed, Leafiness, Medium, Place, PlantedFrom, Thirst};
use proptest::prelude::*;

use crate::links::{plan_of, season_of};

/// All signs that stand in links.
const SIGNS: &[u8] = b"abcdefghijklmnopqrstuvwxyz0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-_.~";
/// Signs that do not.
const FOREIGN: &str = " %+/:#?&=<>\"'\\\0\né–€😀";

/// Dice whose throws follow from a seed (xorshift, from memory).
struct Dice(u64);

impl Dice {
    fn throw(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    fn below(&mut self, end: u64) -> u64 {
        self.throw() % end
    }

    fn often(&mut self, of_ten: u64) -> bool {
        self.below(10) < of_ten
    }

    #[expect(clippy::cast_precision_loss, reason = "a share of 32 bits")]
    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.below(1 << 32) as f64 / 4_294_967_295.0)
    }

    fn of<T: Coded>(&mut self) -> T {
        T::CODES[usize::try_from(self.below(T::CODES.len() as u64)).expect("few")].1
    }

    fn text(&mut self) -> String {
        let letters: Vec<char> = "abz AZ09-_.~'äß€😀<&".chars().collect();
        let mut letter = || letters[usize::try_from(self.below(letters.len() as u64)).expect("few")];
        (0..40)
            .map(|_| letter())
            .take(usize::try_from(letters.len() as u64 % 41).expect("few"))
            .collect()
    }
}

/// A number somewhere in a field's range: as typed to its decimals, or any at all.
fn entry(dice: &mut Dice, field: Field, units: Units) -> Entry {
    let mut entry = Entry::default();
    if !dice.often(5) {
        return entry;
    }
    let range = field.range(units);
    let value = dice.between(range.low, range.high.min(range.low + 60.0));
    if field.is_whole() || dice.often(5) {
        entry.type_text(field, units, &format!("{:.*}", field.decimals(units), value));
    } else {
        entry = Entry::holding(field, units, field.held(units, value));
    }
    entry
}

fn day(dice: &mut Dice) -> CivilDay {
    CivilDay::new(2026, 1, 1)
        .expect("a day")
        .days_later(i32::try_from(dice.below(900)).expect("few"))
}

fn handed(dice: &mut Dice, day: CivilDay) -> Handed {
    let mut handed = Handed {
        day,
        deficit: dice.between(0.0, 5.0),
        spread: dice.between(0.0, 1.0),
        thirst: Thirst::default(),
        off: 0.0,
        given: dice.between(0.0, 4.0),
        pour_spread: 0.0,
        pours: u32::try_from(1 + dice.below(3)).expect("few"),
        in_parts: dice.often(2),
        stay: None,
    };
    if dice.often(7) {
        handed.off = dice.between(-0.15, 0.15);
        handed.thirst = Thirst {
            factor: dice.between(0.607, 1.648),
            spread: dice.between(0.015, 0.25),
            readings: u32::try_from(dice.below(300)).expect("few"),
        };
    }
    if dice.often(3) {
        handed.pour_spread = dice.between(0.0, 1.0);
    }
    handed
}

fn group(dice: &mut Dice, id: u32, made: CivilDay, units: Units) -> GroupRecord {
    let mut group = GroupRecord {
        id,
        name: if dice.often(5) { dice.text() } else { String::new() },
        container: dice.of::<ContainerKind>(),
        medium: dice.of::<Medium>(),
        leafiness: dice.of::<Leafiness>(),
        planted_from: dice.of::<PlantedFrom>(),
        settled: dice.often(3),
        drains: dice.often(5).then(|| dice.often(5)),
        place: if dice.often(7) {
            Place::Covered {
                cover: dice.of::<Cover>(),
                shaded: dice.often(3),
            }
        } else {
            Place::Outdoors {
                exposure: dice.of::<Exposure>(),
            }
        },
        feel: dice.often(5).then(|| dice.of::<Feel>()),
        handed: dice.often(7).then(|| handed(dice, made.yesterday())),
        planted: dice
            .often(4)
            .then(|| made.days_later(-i32::try_from(dice.below(200)).expect("few"))),
        ..GroupRecord::default()
    };
    for field in GroupRecord::FIELDS {
        *group.entry_mut(field).expect("a field of a group") = entry(dice, field, units);
    }
    group
}

/// Any plan, its numbers as a link holds them.
fn plan(seed: u64) -> Plan {
    let dice = &mut Dice(seed | 1);
    for _ in 0..8 {
        dice.throw();
    }
    let made = day(dice);
    let units = Units {
        system: dice.of::<UnitSystem>(),
        temperature: dice.of::<TemperatureScale>(),
    };
    let mut notebook = Notebook {
        units,
        latitude: entry(dice, Field::Latitude, units),
        can: entry(dice, Field::Can, units),
        groups: Vec::new(),
        ..Notebook::default()
    };
    notebook.plot.name = dice.text();
    notebook.morning.sky = dice.often(6).then(|| dice.of::<Sky>());
    notebook.morning.thermometer = dice.of::<Thermometer>();
    for field in first_truss::notebook::MorningRecord::FIELDS {
        *notebook.morning.entry_mut(field).expect("a field of a morning") = entry(dice, field, units);
    }
    let mut id = 0;
    for _ in 0..=dice.below(8) {
        id += u32::try_from(1 + dice.below(9)).expect("few");
        let group = group(dice, id - 1, made, units);
        notebook.groups.push(group);
        if dice.often(3) {
            let before = self::group(dice, 0, made, units).placement();
            notebook.note(made, |page| page.note(id - 1, |group| group.before = Some(before)));
        }
        if dice.often(3) {
            let litres = dice.between(0.0, 20.0);
            notebook.note(made, |page| page.note(id - 1, |group| group.given = Some(litres)));
        }
    }
    let later = |dice: &mut Dice| made.days_later(i32::try_from(dice.below(60)).expect("few"));
    let mut plan = Plan {
        notebook,
        made,
        first: later(dice),
        visits: dice.often(7).then(|| Visits {
            every: u32::try_from(dice.below(61)).expect("few"),
            by: later(dice),
            twice_a_day: dice.often(3),
        }),
        days: u32::try_from(1 + dice.below(60)).expect("few"),
        feed: dice.often(5).then(|| FeedPlan {
            amount: dice.between(0.0, 300.0),
            in_grams: dice.often(5),
            each: dice.between(0.05, 10.0),
            groups: (0..8).filter(|_| dice.often(5)).collect(),
            days: (0..dice.below(5))
                .map(|number| made.days_later(i32::try_from(number * 13).expect("few")))
                .collect(),
        }),
        treatments: (0..dice.below(4))
            .map(|_| Treatment {
                day: later(dice),
                pest: dice.of::<Pest>(),
                control: dice.of::<Control>(),
                plants: dice.often(2).then(|| u32::try_from(dice.below(1000)).expect("few")),
            })
            .collect(),
        pick_in: dice.often(3).then(|| u32::try_from(dice.below(367)).expect("few")),
    };
    plan.settle();
    plan
}

fn reply(seed: u64) -> Reply {
    let dice = &mut Dice(seed | 1);
    let made = day(dice);
    let mut notebook = Notebook::default();
    notebook.turn_to(made);
    for number in 0..dice.below(9) {
        let mut page = DayPage::of(made.days_later(i32::try_from(number * 2).expect("few")));
        for id in 0..dice.below(4) {
            let (given, fed, feel) = (
                dice.often(7).then(|| dice.between(0.0, 9.0)),
                dice.often(2).then(|| dice.between(0.0, 9.0)),
                dice.often(5).then(|| dice.of::<Feel>()),
            );
            page.note(u32::try_from(id).expect("few"), |group| {
                (group.given, group.fed, group.feel) = (given, fed, feel);
            });
        }
        page.tick(Done::Task(dice.of::<Task>()), true);
        if dice.often(3) {
            let plants = dice.often(2).then_some(7);
            page.tick(Done::Treated(dice.of::<Pest>(), dice.of::<Control>(), plants), true);
        }
        notebook.note(page.day, |kept| *kept = page.clone());
    }
    Reply::of(
        &notebook,
        u32::try_from(dice.below(1 << 32)).expect("32 bits"),
        made,
        made.days_later(30),
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(10_000))]

    /// What a link says is what was to be said, to the last bit, and a link of it is the same link.
    #[test]
    fn a_plan_comes_back_as_it_went(seed in any::<u64>()) {
        let plan = plan(seed);
        let link = plan.link();
        let back = Plan::open(&link);
        prop_assert_eq!(back.as_ref(), Ok(&plan), "{}", link);
        prop_assert_eq!(back.expect("a plan").link(), link.clone());
        prop_assert!(link.bytes().all(|sign| SIGNS.contains(&sign)));
        prop_assert!(link.ends_with(|last: char| last.is_ascii_alphanumeric()));
    }

    #[test]
    fn a_reply_comes_back_as_it_went(seed in any::<u64>()) {
        let reply = reply(seed);
        prop_assert_eq!(Reply::open(&reply.link()), Ok(reply));
    }

    /// What is kept of a plan's notebook opens as it was.
    #[test]
    fn the_notebook_of_a_plan_is_kept_whole(seed in any::<u64>()) {
        let notebook = plan(seed).notebook;
        prop_assert_eq!(open(&seal(&notebook, 1)).map(|opened| opened.notebook), Ok(notebook));
    }
}

/// Nothing that differs from a link by a cut or by one sign is one.
#[test]
fn no_cut_and_no_changed_sign_is_accepted() {
    let (mut cuts, mut changes) = (0, 0);
    for seed in 0..12_u64 {
        let links = [plan(seed * 7919 + 3).link(), reply(seed * 104_729 + 5).link()];
        for link in links {
            let is_accepted = |text: &str| Plan::open(text).is_ok() || Reply::open(text).is_ok();
            assert!(is_accepted(&link));
            for at in 0..link.len() {
                assert!(!is_accepted(&link[..at]), "cut at {at}: {link}");
                assert!(!is_accepted(&link[at + 1..]), "begun at {at}: {link}");
                cuts += 2;
                let signs = SIGNS.iter().map(|sign| char::from(*sign)).chain(FOREIGN.chars());
                for sign in signs.filter(|sign| !link[at..].starts_with(*sign)) {
                    let other = [&link[..at], &sign.to_string(), &link[at + 1..]].concat();
                    // The sign before a fragment may stand there.
                    assert!(!is_accepted(&other), "{at} made {sign}: {other}");
                    let added = [&link[..at], &sign.to_string(), &link[at..]].concat();
                    assert!(!is_accepted(&added) || (at == 0 && sign == '#'), "{at} with {sign} added: {added}");
                    changes += 2;
                }
            }
        }
    }
    println!("links: {cuts} cuts and {changes} changed or added signs, none accepted");
    assert!(cuts > 5_000 && changes > 200_000);
}

/// A million strings that begin like a link, from a seed: none is accepted, none stops the program.
#[test]
fn a_million_random_strings_are_refused() {
    let dice = &mut Dice(0x5eed_cafe_f00d_0001);
    let sample = plan(77).link();
    for number in 0..1_000_000_u32 {
        let length = usize::try_from(dice.below(if number % 1000 == 0 { 2200 } else { 90 })).expect("few");
        let mut text = match number % 4 {
            0 => String::new(),
            1 => "s1.".to_owned(),
            2 => "a1.h".to_owned(),
            _ => sample[..usize::try_from(dice.below(sample.len() as u64)).expect("few")].to_owned(),
        };
        for _ in 0..length {
            let sign = SIGNS[usize::try_from(dice.below(SIGNS.len() as u64)).expect("few")];
            text.push(if number % 97 == 0 {
                char::from_u32(u32::try_from(dice.below(0x11_0000)).expect("a sign")).unwrap_or('?')
            } else {
                char::from(sign)
            });
        }
        if text != sample {
            assert!(Plan::open(&text).is_err() && Reply::open(&text).is_err(), "{text}");
        }
    }
}

/// The check is right and the rest is anything: no number gets in that cannot be, and what does get in comes back the same.
#[test]
fn what_is_sealed_by_another_hand_says_only_what_can_be() {
    let dice = &mut Dice(0x0bad_5eed_0000_0003);
    let (mut accepted, mut refused) = (0_u32, 0_u32);
    let crc = crc::Crc::<u32, crc::Table<1>>::new(&crc::CRC_32_ISO_HDLC);
    let samples: Vec<String> = (1..=50).map(|number| plan(number).link()).collect();
    for sample in samples.iter().cycle().take(200_000) {
        let (body, _) = sample.rsplit_once('.').expect("a check");
        let mut body = body.as_bytes().to_vec();
        for _ in 0..=dice.below(6) {
            let at = 3 + usize::try_from(dice.below(body.len() as u64 - 3)).expect("within");
            body[at] = SIGNS[usize::try_from(dice.below(SIGNS.len() as u64)).expect("few")];
        }
        let body = String::from_utf8(body).expect("signs");
        let mut check = crc.checksum(body.as_bytes());
        let mut digits = [b'0'; 7];
        for digit in digits.iter_mut().rev() {
            *digit = SIGNS[usize::try_from(match check % 36 {
                digit @ 0..=9 => digit + 26,
                digit => digit - 10,
            })
            .expect("few")];
            check /= 36;
        }
        let text = body + "." + std::str::from_utf8(&digits).expect("digits");
        let Ok(plan) = Plan::open(&text) else {
            refused += 1;
            continue;
        };
        accepted += 1;
        assert!((1..=Notebook::MOST_GROUPS).contains(&plan.notebook.groups.len()));
        assert!((1..=60).contains(&plan.days), "{text}");
        for group in &plan.notebook.groups {
            for field in GroupRecord::FIELDS {
                let entry = group.entry(field).expect("a field");
                assert!(
                    entry.value().is_none_or(f64::is_finite) && entry.error(field, plan.notebook.units).is_none(),
                    "{text}"
                );
            }
            let _ = season_of(&plan.notebook, group, plan.made);
        }
        assert_eq!(Plan::open(&plan.link()).as_ref(), Ok(&plan), "{text}");
    }
    println!("links sealed by another hand: {accepted} accepted, {refused} refused");
    assert!(accepted > 10_000 && refused > 10_000);
}

/// The neighbour's dose is the owner's to the last figure that is poured, whatever the days before were like.
#[test]
fn the_dose_is_the_same_to_the_last_figure() {
    let mut compared = 0;
    let mut worst: f64 = 0.0;
    for seed in 1..=400_u64 {
        let dice = &mut Dice(seed * 2_654_435_761);
        let today = CivilDay::new(2026, 6, 1)
            .expect("a day")
            .days_later(i32::try_from(dice.below(80)).expect("few"));
        let units = Units {
            system: dice.of::<UnitSystem>(),
            ..Units::default()
        };
        let mut notebook = Notebook {
            units,
            groups: Vec::new(),
            ..Notebook::default()
        };
        for id in 0..=u32::try_from(dice.below(3)).expect("few") {
            let mut group = group(dice, id, today.days_later(-60), units);
            group.handed = None;
            group.looked = Some(today.days_later(-20));
            notebook.groups.push(group);
        }
        let notes = dice.often(7);
        for back in (0..40).rev() {
            notebook.turn_to(today.days_later(-back));
            notebook.morning.sky = dice.often(7).then(|| dice.of::<Sky>());
            for place in 0..notebook.groups.len() {
                let feel = dice.often(3).then(|| dice.of::<Feel>());
                notebook.groups[place].feel = feel;
                let (id, litres) = (notebook.groups[place].id, dice.between(0.0, 2.5));
                if notes && back > 0 && dice.often(8) {
                    notebook.note(today.days_later(-back), |page| page.note(id, |group| group.given = Some(litres)));
                }
            }
        }
        for id in 0..notebook.next_id.max(3) {
            if dice.often(2) {
                let before = group(dice, 0, today.days_later(-60), units).placement();
                let moved = today.days_later(-i32::try_from(dice.below(4)).expect("few"));
                notebook.note(moved, |page| page.note(id, |group| group.before = Some(before)));
            }
        }
        let plan = plan_of(&notebook, ("", false), today);
        if plan.notebook.groups.is_empty() {
            // None has an answer.
            continue;
        }
        let plan = Plan::open(&plan.link()).expect("a plan");
        for there in &plan.notebook.groups {
            let here = notebook.groups.iter().find(|group| group.id == there.id).expect("the group");
            let here = season_of(&notebook, here, today).expect("a season").dose;
            let there = season_of(&plan.notebook, there, today).expect("a season").dose;
            for (here, there) in [(here.per_plant, there.per_plant), (here.low, there.low), (here.high, there.high)] {
                worst = worst.max((here.litres() - there.litres()).abs() / here.litres().max(0.1));
                assert_eq!(
                    Measure::dose(here, units),
                    Measure::dose(there, units),
                    "seed {seed}: {} and {}",
                    here.litres(),
                    there.litres()
                );
            }
            compared += 1;
        }
    }
    println!("links: {compared} doses the same to the last figure, at most {worst:.1e} of them apart before rounding");
    assert!(compared > 500);
}
