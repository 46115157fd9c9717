//! Whether another place or more compost is a move, or a word that was missing until now.

use super::{ContainerKind, GroupRecord};
use crate::water::{Group, Placement};

/// So many times the compost, no unit, is taken for potting on until the grower says otherwise (choice).
const POTTED_ON: f64 = 2.0;
/// Days after which another place is taken for a move until the grower says otherwise (choice).
const SETTLED_DAYS: usize = 7;

/// Whether a group that stood otherwise until now looks potted on, or moved, after so many days of which something is noted. Where its
/// container was not told (`is_told`), more compost is a word that was missing.
#[must_use]
pub fn looks_like_a_move(stood: &Placement, is_told: bool, now: &Group, days: usize) -> bool {
    let then = now.placed(stood);
    let has_moved = then.place.is_outdoors() != now.place.is_outdoors() && days >= SETTLED_DAYS;
    has_moved || is_told && now.litres_for_each() >= POTTED_ON * then.litres_for_each()
}

impl GroupRecord {
    /// Whether anybody told what the plants stand in, or how much of it there is.
    #[must_use]
    pub fn is_container_told(&self) -> bool {
        let sizes = [&self.bag_size, &self.plants_in_bag, &self.pot_size, &self.pot_width];
        sizes.iter().any(|size| size.value().is_some()) || matches!(self.container, ContainerKind::Border | ContainerKind::Ring)
    }
}
