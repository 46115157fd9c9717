use super::super::{Coded, ContainerKind, Entry, Field, GroupRecord};
use super::part::{Limit, POURED, Part, float, nearest, signed};
use super::plan::{GROUP, days_after};
use crate::almanac::CivilDay;
use crate::quantity::Units;
use crate::water::{Exposure, Feel, Handed, Leafiness, Medium, Place, PlantedFrom, Stay, Thirst};

/// Greatest number of a group (limit).
pub(super) const MOST_ID: i64 = 999_999;
/// Days before the plan on which its plants can have been planted: roots are everywhere long before (limit).
const MOST_PLANTED: i64 = 999;
/// The number of the first spot outdoors; covers, open and shaded, stand before it (limit).
const OUTDOORS: i64 = 20;
/// Days after the one that was handed over on which plants can be kept: as long as what was handed over holds (limit).
const LONGEST_STAY: i64 = 366;
/// Parts of one in which what the sum found is told: litres, factors, and how far a grower's borders lie off (limit).
pub(super) const FINE: f64 = 1e6;

/// The keys of a group's number fields.
const GROUP_FIELDS: [(u8, Field); 12] = [
    (b'C', Field::Plants),
    (b'B', Field::BagSize),
    (b'P', Field::PlantsInBag),
    (b'V', Field::PotSize),
    (b'A', Field::PotWidth),
    (b'H', Field::Height),
    (b'T', Field::Trusses),
    (b'G', Field::Ground),
    (b'S', Field::StoppedAt),
    (b'X', Field::PotDrained),
    (b'Y', Field::PotNow),
    (b'Z', Field::Drip),
];

/// Carries a group, and gives what each of its plants got on the day of the plan.
pub(super) fn carry_group(
    part: &mut Part,
    group: &mut GroupRecord,
    given: Option<f64>,
    place: i64,
    made: CivilDay,
    units: Units,
) -> Option<f64> {
    let mut kept = GroupRecord::default();
    let id = part.whole(
        b'I',
        "the number of a group",
        i64::from(group.id),
        Limit {
            usual: place,
            ..Limit::to(MOST_ID)
        },
    );
    kept.id = u32::try_from(id).unwrap_or_default();
    for (key, field) in GROUP_FIELDS {
        if let (Some(entry), Some(kept)) = (group.entry_mut(field), kept.entry_mut(field)) {
            part.entry(key, field, units, entry);
            *kept = std::mem::take(entry);
        }
    }
    if kept.pot_now.value().is_none() {
        // What a drained pot weighs says nothing by itself.
        kept.pot_drained = Entry::default();
    }
    kept.container = part.choice::<ContainerKind>(b'K', group.container);
    kept.medium = part.choice::<Medium>(b'M', group.medium);
    kept.leafiness = part.choice::<Leafiness>(b'L', group.leafiness);
    kept.planted_from = part.choice::<PlantedFrom>(b'Q', group.planted_from);
    kept.settled = part.whole(b'E', "whether the compost is old", i64::from(group.settled), Limit::to(1)) == 1;
    let drains = part.told(b'R', "whether it drains", group.drains.map(i64::from), Limit::to(1));
    kept.drains = drains.map(|drains| drains == 1);
    kept.place = carry_place(part, group.place);
    let planted = group.planted.map(|planted| i64::from(made.days_since(planted)).max(0));
    let planted = part.told(b'D', "the day of planting", planted, Limit::to(MOST_PLANTED));
    kept.planted = planted.map(|days| days_after(made, -days));
    kept.planted_text = kept.planted.map(|day| day.to_string()).unwrap_or_default();
    kept.feel = part.told_choice::<Feel>(b'F', group.feel);
    kept.handed = carry_handed(part, group.handed, made.yesterday());
    // The size goes with the day that the count begins with.
    kept.looked = Some(kept.handed.map_or(made, |handed| handed.day));
    if kept.handed.is_some() {
        kept.leave_size(made.yesterday(), units);
    }
    let litres = given.map(|given| nearest(given * POURED));
    let given = part.told(b'W', "Water for each", litres, Limit::to(50_000));
    kept.name = part.text(&group.name);
    *group = kept;
    given.map(|given| float(given) / POURED)
}

/// What stands between the sky and the plants as one number.
pub(super) fn carry_place(part: &mut Part, place: Place) -> Place {
    let number = match place {
        Place::Covered { cover, shaded } => 2 * place_in(cover) + i64::from(shaded),
        Place::Outdoors { exposure } => OUTDOORS + place_in(exposure),
    };
    let limit = Limit::to(OUTDOORS + signed(Exposure::CODES.len()) - 1);
    let number = part.whole(b'O', "a place", number, limit);
    if number < OUTDOORS {
        Place::Covered {
            cover: choice_at(number / 2),
            shaded: number % 2 == 1,
        }
    } else {
        Place::Outdoors {
            exposure: choice_at(number - OUTDOORS),
        }
    }
}

/// The place of a choice among all.
pub(super) fn place_in<T: Coded>(choice: T) -> i64 {
    signed(T::CODES.iter().position(|(_, other)| *other == choice).unwrap_or_default())
}

/// The choice at a place among all.
pub(super) fn choice_at<T: Coded + Default>(place: i64) -> T {
    let place = usize::try_from(place).ok();
    place
        .and_then(|place| T::CODES.get(place))
        .map(|(_, choice)| *choice)
        .unwrap_or_default()
}

/// What the past comes to: under two keys, since many plants have taught nothing.
fn carry_handed(part: &mut Part, handed: Option<Handed>, day: CivilDay) -> Option<Handed> {
    let parts_of = |value: f64, parts: f64| nearest(value * parts);
    let water = handed.map(|handed| {
        [
            parts_of(handed.deficit, FINE),
            parts_of(handed.spread, FINE),
            parts_of(handed.given, FINE),
            2 * i64::from(handed.pours.saturating_sub(1)) + i64::from(handed.in_parts),
            parts_of(handed.pour_spread, FINE),
        ]
    });
    let litres = |parts: f64| Limit::to(nearest(1000.0 * parts));
    let limits = [litres(FINE), litres(FINE), litres(FINE), Limit::to(47), litres(FINE)];
    let water = part.list(b'J', "what is missing", water.as_ref().map(<[i64; 5]>::as_slice), &limits);
    let usual = Thirst::default();
    let of = |thirst: Thirst, off: f64| {
        [
            parts_of(thirst.factor, FINE),
            parts_of(thirst.spread, FINE),
            i64::from(thirst.readings),
            parts_of(off, FINE),
        ]
    };
    let [factor, spread, readings, off] = of(usual, 0.0);
    let learnt = handed
        .map(|handed| of(handed.thirst, handed.off))
        .filter(|learnt| *learnt != [factor, spread, readings, off]);
    let limits = [
        Limit {
            low: 500_000,
            high: 2_000_000,
            usual: factor,
        },
        Limit {
            low: 0,
            high: nearest(FINE),
            usual: spread,
        },
        Limit::to(9999),
        Limit {
            low: -200_000,
            high: 200_000,
            usual: off,
        },
    ];
    let learnt = part.list(b'U', "what was learnt", learnt.as_ref().map(<[i64; 4]>::as_slice), &limits);
    let Some(&[deficit, spread_of_deficit, given, pours, pour_spread]) = water.as_deref() else {
        return None;
    };
    let (factor, spread, readings, off) = match learnt.as_deref() {
        Some(&[factor, spread, readings, off]) => (factor, spread, readings, off),
        _ => (factor, spread, readings, off),
    };
    Some(Handed {
        day,
        deficit: float(deficit) / FINE,
        spread: float(spread_of_deficit) / FINE,
        thirst: Thirst {
            factor: float(factor) / FINE,
            spread: float(spread) / FINE,
            readings: u32::try_from(readings).unwrap_or_default(),
        },
        off: float(off) / FINE,
        given: float(given) / FINE,
        pour_spread: float(pour_spread) / FINE,
        pours: u32::try_from(pours / 2).unwrap_or_default() + 1,
        in_parts: pours % 2 == 1,
        stay: None,
    })
}

/// A stay, in days after `day`. No link says this: it tells the first day away by itself.
fn keep_stay(part: &mut Part, stay: Option<Stay>, day: CivilDay) -> Option<Stay> {
    let after = |other: CivilDay| i64::from(other.days_since(day));
    let days = stay.map(|stay| [after(stay.from), stay.kept_on.map_or(0, |kept_on| after(kept_on).max(1))]);
    let days = part.list(
        b'E',
        "how long they stay",
        days.as_ref().map(<[i64; 2]>::as_slice),
        &[Limit::to(LONGEST_STAY); 2],
    )?;
    let &[from, kept_on] = days.as_slice() else {
        return None;
    };
    Some(Stay {
        from: days_after(day, from),
        kept_on: (kept_on > 0).then(|| days_after(day, kept_on)),
    })
}

/// What was handed over as it is kept: the day, then as in a link, and the stay.
pub fn handed_line(handed: &Handed) -> String {
    let mut part = Part::begun(GROUP);
    carry_handed(&mut part, Some(*handed), handed.day);
    keep_stay(&mut part, handed.stay, handed.day);
    let mut line = handed.day.to_string();
    line.push(' ');
    part.put_lists(&mut line);
    line
}

/// The same from a line that was kept.
pub fn read_handed(line: &str) -> Option<Handed> {
    let (day, lists) = line.split_once(' ')?;
    let mut part = Part::read(&("g".to_owned() + lists))?;
    let day = day.parse().ok()?;
    let handed = carry_handed(&mut part, None, day)?;
    let stay = keep_stay(&mut part, None, day);
    let handed = Handed { stay, ..handed };
    part.wrong.is_none().then_some(handed)
}
