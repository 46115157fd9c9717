use super::{AREA_RANGE, BAG_RANGE, Container, Group, Medium, POT_VOLUME_RANGE, Place, PlantedFrom};
use crate::almanac::CivilDay;
use crate::quantity::OutOfRange;

/// Where plants stand and what their roots grow in: what changes when they are moved or potted on.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Placement {
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
    /// Ground that each has, m², 0.05 to 0.8; as usual for the place when missing.
    pub ground: Option<f64>,
    /// When they were planted into this compost; roots everywhere when missing.
    pub planted: Option<CivilDay>,
    /// The pot they were planted out of.
    pub planted_from: PlantedFrom,
    /// Compost that came along about the roots of each, litres, above 0; as that pot held when missing.
    pub ball: Option<f64>,
}

impl Placement {
    /// Whether every size is one that can be.
    ///
    /// # Errors
    /// [`OutOfRange`] of the first that cannot.
    pub fn check(&self) -> Result<(), OutOfRange> {
        if let Some(ground) = self.ground {
            AREA_RANGE.check(ground)?;
        }
        match self.container {
            Container::GrowBag { litres, .. } => BAG_RANGE.check(litres)?,
            Container::Pot { litres } | Container::Basket { litres } => POT_VOLUME_RANGE.check(litres)?,
            Container::Border | Container::Ring => 0.0,
        };
        Ok(())
    }
}

impl Group {
    /// Where they stand and in what.
    #[must_use]
    pub const fn placement(&self) -> Placement {
        Placement {
            place: self.place,
            container: self.container,
            medium: self.medium,
            settled: self.settled,
            drains: self.drains,
            ground: self.ground,
            planted: self.planted,
            planted_from: self.planted_from,
            ball: self.ball,
        }
    }

    /// The same plants elsewhere, or in other compost.
    #[must_use]
    pub const fn placed(&self, placement: &Placement) -> Self {
        Self {
            count: self.count,
            size: self.size,
            leafiness: self.leafiness,
            place: placement.place,
            container: placement.container,
            medium: placement.medium,
            settled: placement.settled,
            drains: placement.drains,
            ground: placement.ground,
            planted: placement.planted,
            planted_from: placement.planted_from,
            ball: placement.ball,
        }
    }
}
