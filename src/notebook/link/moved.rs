use super::super::{Coded, ContainerKind, Notebook};
use super::part::{Limit, Part, float, nearest, signed};
use super::plan::days_after;
use super::plan_group::{FINE, carry_place, choice_at, place_in};
use crate::almanac::CivilDay;
use crate::water::{Container, Medium, Placement, PlantedFrom};

/// The kind of the part of a plan that tells where a group stood before it was moved.
pub(super) const MOVED: u8 = b'm';
/// Compost of the largest container, litres (limit).
const MOST_LITRES: f64 = 500.0;
/// Plants in one bag (limit).
const MOST_IN_BAG: i64 = 999;
/// Days before the move on which the plants can have been planted, and one (limit).
const MOST_PLANTED: i64 = 1000;
/// Days before the plan on which plants can have been moved: earlier ones are of no account, since roots fill any compost in five weeks
/// (limit).
const MOST_AGO: i64 = 41;
/// Whether surplus water runs away, three ways, and twice as many with compost that has settled or not (limit).
const DRAINS: i64 = 3;

/// Carries where plants stood and in what until they were moved on a day.
fn carry_placement(part: &mut Part, placement: Option<Placement>, moved: CivilDay) -> Option<Placement> {
    let usual = Placement::default();
    let place = carry_place(part, placement.unwrap_or(usual).place);
    let written = placement.map(|placement| numbers(&placement, moved));
    let to = Limit::to;
    let limits = [
        to(signed(ContainerKind::CODES.len()) - 1),
        to(nearest(MOST_LITRES * FINE)),
        to(MOST_IN_BAG),
        to(signed(Medium::CODES.len()) - 1),
        to(2 * DRAINS - 1),
        to(nearest(FINE)),
        to(MOST_PLANTED),
        to(signed(PlantedFrom::CODES.len()) - 1),
    ];
    let read = part.list(b'P', "where it stood", written.as_ref().map(<[i64; 8]>::as_slice), &limits);
    let Some(&[kind, litres, plants, medium, drains, ground, planted, from]) = read.as_deref() else {
        return None;
    };
    let litres = float(litres) / FINE;
    let container = match choice_at(kind) {
        ContainerKind::GrowBag => Container::GrowBag {
            litres,
            plants: u32::try_from(plants).unwrap_or_default(),
        },
        ContainerKind::Pot => Container::Pot { litres },
        ContainerKind::Basket => Container::Basket { litres },
        ContainerKind::Border => Container::Border,
        ContainerKind::Ring => Container::Ring,
    };
    let placement = Placement {
        place,
        container,
        medium: choice_at(medium),
        settled: drains >= DRAINS,
        drains: [None, Some(false), Some(true)]
            .get(usize::try_from(drains % DRAINS).ok()?)
            .copied()?,
        ground: Some(float(ground) / FINE).filter(|ground| *ground > 0.0),
        planted: (planted > 0).then(|| days_after(moved, 1 - planted)),
        planted_from: choice_at(from),
        ball: None,
    };
    if placement.check().is_err() {
        part.wrong = part.wrong.or(Some("where it stood"));
        return None;
    }
    Some(placement)
}

/// All but the place as whole numbers.
fn numbers(placement: &Placement, moved: CivilDay) -> [i64; 8] {
    let (kind, litres, plants) = match placement.container {
        Container::GrowBag { litres, plants } => (ContainerKind::GrowBag, litres, plants),
        Container::Pot { litres } => (ContainerKind::Pot, litres, 0),
        Container::Basket { litres } => (ContainerKind::Basket, litres, 0),
        Container::Border => (ContainerKind::Border, 0.0, 0),
        Container::Ring => (ContainerKind::Ring, 0.0, 0),
    };
    let drains = placement.drains.map_or(0, |drains| 1 + i64::from(drains));
    [
        place_in(kind),
        nearest(litres * FINE),
        i64::from(plants),
        place_in(placement.medium),
        drains + if placement.settled { DRAINS } else { 0 },
        nearest(placement.ground.unwrap_or_default() * FINE),
        placement.planted.map_or(0, |planted| i64::from(moved.days_since(planted)) + 1),
        place_in(placement.planted_from),
    ]
}

/// A group of a plan that was moved, by its place there.
pub(super) struct Move {
    pub place: usize,
    pub day: CivilDay,
    pub before: Option<Placement>,
}

/// Whether a move is so fresh on the day of a plan that it goes along.
pub(super) fn is_fresh(moved: CivilDay, made: CivilDay) -> bool {
    (0..=MOST_AGO).contains(&i64::from(made.days_since(moved)))
}

/// Carries a move up to the day of the plan.
pub(super) fn carry_move(part: &mut Part, told: &Move, made: CivilDay) -> Move {
    let limit = Limit::to(signed(Notebook::MOST_GROUPS) - 1);
    let place = part.whole(b'G', "a group that was moved", signed(told.place), limit);
    let ago = i64::from(made.days_since(told.day));
    let day = days_after(made, -part.whole(b'D', "the day of a move", ago, Limit::to(MOST_AGO)));
    Move {
        place: usize::try_from(place).unwrap_or_default(),
        day,
        before: carry_placement(part, told.before, day),
    }
}

/// The same as it is kept, to a millionth.
pub fn kept_placement(placement: Placement, moved: CivilDay) -> Option<Placement> {
    carry_placement(&mut Part::begun(MOVED), Some(placement), moved)
}

/// The line that keeps it on the page of the day of the move.
pub fn placement_line(placement: Placement, moved: CivilDay) -> String {
    let mut part = Part::begun(MOVED);
    carry_placement(&mut part, Some(placement), moved);
    let mut line = String::new();
    part.put_lists(&mut line);
    line
}

/// The same from a line that was kept.
pub fn read_placement(line: &str, moved: CivilDay) -> Option<Placement> {
    let mut part = Part::read(&("m".to_owned() + line))?;
    let placement = carry_placement(&mut part, None, moved);
    placement.filter(|_| part.wrong.is_none())
}
