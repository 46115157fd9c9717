use super::container::{Compost, Container, Medium, PlantedFrom};
use super::{Leafiness, Place, Placement, PlantSize};
use crate::almanac::CivilDay;
use crate::quantity::Range;

/// Plants in a group that can be.
pub const COUNT_RANGE: Range = Range {
    what: "Plants",
    low: 0.0,
    high: 999.0,
    unit: "",
};
/// Ground that one plant can have, m².
pub const AREA_RANGE: Range = Range {
    what: "Ground for a plant",
    low: 0.05,
    high: 0.8,
    unit: " m²",
};

/// Ground for a plant under cover, m²: 2¼ plants to the square metre (common practice, no source).
const GROUND_UNDER_COVER: f64 = 1.0 / 2.25;
/// Ground for a plant outdoors, m² (common practice, no source).
const GROUND_OUTDOORS: f64 = 0.40;
/// Ground that a hanging basket shades, m² (choice).
const GROUND_OF_BASKET: f64 = 0.25;

/// Plants that are alike and stand alike.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Group {
    /// How many, 0 to 999.
    pub count: u32,
    /// Where they stand.
    pub place: Place,
    /// What they stand in.
    pub container: Container,
    /// What their roots grow in.
    pub medium: Medium,
    /// Whether that is a second season's, or has shrunk and settled.
    pub settled: bool,
    /// Whether surplus water runs away; as usual for the container when missing.
    pub drains: Option<bool>,
    /// Height and trusses.
    pub size: PlantSize,
    /// How leafy they are for their height.
    pub leafiness: Leafiness,
    /// Ground that each has, m², 0.05 to 0.8; as usual for the place when missing.
    pub ground: Option<f64>,
    /// When they were planted into this compost; roots everywhere when missing.
    pub planted: Option<CivilDay>,
    /// The pot they were planted out of.
    pub planted_from: PlantedFrom,
    /// Compost that came along about the roots of each, litres, above 0; as that pot held when missing.
    pub ball: Option<f64>,
}

impl Group {
    /// Ground that each plant has, m²: as told, or as usual for the container and place.
    #[must_use]
    pub const fn ground_for_each(&self) -> f64 {
        match (self.ground, self.container, self.place) {
            (Some(ground), ..) => ground,
            (None, Container::Basket { .. }, _) => GROUND_OF_BASKET,
            (None, _, Place::Outdoors { .. }) => GROUND_OUTDOORS,
            (None, _, Place::Covered { .. }) => GROUND_UNDER_COVER,
        }
    }

    /// Compost or soil that each plant has, litres.
    #[must_use]
    pub fn litres_for_each(&self) -> f64 {
        self.container.litres_for_each(self.ground_for_each())
    }

    /// The same plants after they were moved on a day, from where they stood before: of more compost than they had there, their roots know
    /// at first what came along. A later day of planting that was told stands.
    #[must_use]
    pub fn moved(self, day: CivilDay, before: &Placement) -> Self {
        let ball = self.placed(before).litres_for_each();
        let is_potted_on = ball < self.litres_for_each() && self.planted.is_none_or(|planted| planted < day);
        if !is_potted_on {
            return self;
        }
        Self {
            planted: Some(day),
            ball: Some(ball),
            ..self
        }
    }

    /// The compost on a day so many weeks after planting.
    pub(super) fn compost(&self, weeks: Option<f64>) -> Compost {
        Compost {
            medium: self.medium,
            settled: self.settled,
            drains: self.drains.unwrap_or_else(|| self.container.usually_drains()),
            weeks,
            planted_from: self.planted_from,
            ball: self.ball,
        }
    }
}
