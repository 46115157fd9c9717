use std::f64::consts::PI;

use super::TOMATO_DEPLETION_FRACTION;
use crate::quantity::{Range, bounded};
use crate::working::{Working, value};

/// Sizes of grow-bag that can be, litres.
pub const BAG_RANGE: Range = Range {
    what: "Grow-bag size",
    low: 5.0,
    high: 200.0,
    unit: " litres",
};
/// Sizes of pot or basket that can be, litres.
pub const POT_VOLUME_RANGE: Range = Range {
    what: "Pot size",
    low: 0.2,
    high: 500.0,
    unit: " litres",
};
/// Widths of pot or basket that can be, m.
pub const POT_WIDTH_RANGE: Range = Range {
    what: "Pot width",
    low: 0.07,
    high: 1.2,
    unit: " m",
};

/// Compost in a grow-bag until told, litres (common practice, no source).
pub const USUAL_BAG_LITRES: f64 = 35.0;
/// Plants in a grow-bag until told (common practice, no source).
pub const USUAL_PLANTS_IN_BAG: u32 = 3;

/// Water between a drained container and a suction of 5 kPa depends on the depth of the compost: this is the depth at which
/// the table of [`Medium`] holds, cm (choice: that of a 12 litre pot).
const REFERENCE_DEPTH: f64 = 23.0;
/// Depths beyond which that dependence is not carried, cm (choice).
const DEPTH_LIMITS: (f64, f64) = (8.0, 35.0);
/// Share of its water that spent or shrunk compost still holds (choice).
const SETTLED: f64 = 0.8;
/// Depth of compost in a flat grow-bag, cm (common practice, no source).
const BAG_DEPTH: f64 = 10.0;
/// Open wet surface at each plant of a grow-bag, m² (choice).
const BAG_HOLE: f64 = 0.03;
/// Volume of a tapered pot over the cube of its width at the rim, no unit (choice: 23, 25, 30 cm give 6.7, 8.6, 14.9 litres).
const POT_SHAPE: f64 = 0.55;
/// Depth of compost in a pot over its width at the rim, no unit (choice: 23 cm in a pot of 12 litres).
const POT_DEPTH: f64 = 0.82;
/// Volume of a hanging basket over the cube of its width, no unit (choice: 30, 35, 40 cm give 6, 9.6, 14.3 litres).
const BASKET_SHAPE: f64 = 0.223;
/// Depth of compost in a basket over its width, no unit (choice: a half globe that is not filled to the rim).
const BASKET_DEPTH: f64 = 0.45;
/// Depth of border soil that tomatoes root in by summer, m (choice; FAO-56 Table 22 gives 0.7 to 1.5 in open fields).
const BORDER_DEPTH: f64 = 0.4;
/// Water that border loam holds between field capacity and wilting, mm a metre (choice within FAO-56 Table 19).
const BORDER_WATER: f64 = 160.0;
/// Compost in a bottomless ring over aggregate, litres (common practice, no source).
const RING_VOLUME: f64 = 8.0;
/// Share of the dose that runs through a pot which may drain (common: 10 %; targets in the nursery trade lie below 15 %).
const DRAINED: f64 = 0.10;
/// Air in full compost at the reference depth, share of the volume (computed: a published retention curve through the middle of
/// the "ideal" bands gives 0.120, 0.178, 0.223, 0.258, 0.287, 0.331 at 10, 15, 20, 25, 30, 40 cm; this form is within 0.004).
const AIR_AT_REFERENCE: f64 = 0.2465;
/// How that air rises with the logarithm of the depth (computed: the same).
const AIR_BY_DEPTH: f64 = 0.152;
/// Depth up to which it does, cm (computed: the deepest of the same curve).
const DEEPEST_AIR: f64 = 40.0;
/// Weeks until the roots have filled the compost (choice).
const WEEKS_TO_FILL: f64 = 5.0;
/// Share of the compost's volume that takes a single pour without running off (choice).
const SINGLE_POUR: f64 = 0.12;

/// What the roots grow in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Medium {
    /// Compost made of peat.
    Peat,
    /// Compost made of bark, wood fibre, green waste and the like.
    #[default]
    PeatFree,
    /// Coir.
    Coir,
    /// Loam-based compost.
    Loam,
}

impl Medium {
    /// Share of the volume that is easily available water, −1 to −5 kPa, at 23 cm depth (working value, choice within
    /// published bands of 20 to 30 %).
    #[must_use]
    pub const fn easy_water(self) -> f64 {
        match self {
            Self::Peat | Self::Coir => 0.25,
            Self::PeatFree => 0.20,
            Self::Loam => 0.18,
        }
    }

    /// Share of the volume that the plant can draw at all, at 23 cm depth (working value, choice).
    #[must_use]
    pub const fn all_water(self) -> f64 {
        match self {
            Self::Peat | Self::Coir => 0.33,
            Self::PeatFree | Self::Loam => 0.28,
        }
    }
}

/// What the plants stand in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Container {
    /// A flat bag of compost that several plants share.
    GrowBag {
        /// Compost in the whole bag, litres, 5 to 200.
        litres: f64,
        /// Plants in it, 1 or more.
        plants: u32,
    },
    /// A pot for each plant.
    Pot {
        /// Compost in it, litres, 0.2 to 500.
        litres: f64,
    },
    /// A hanging basket for each plant.
    Basket {
        /// Compost in it, litres, 0.2 to 500.
        litres: f64,
    },
    /// The ground, inside or out.
    Border,
    /// A bottomless ring over wet gravel.
    Ring,
}

impl Default for Container {
    fn default() -> Self {
        Self::GrowBag {
            litres: USUAL_BAG_LITRES,
            plants: USUAL_PLANTS_IN_BAG,
        }
    }
}

/// Volume of a pot from its width at the rim, litres; width in m.
#[must_use]
pub fn volume_of_pot(width_metres: f64) -> f64 {
    POT_SHAPE * width_metres.powi(3) * 1000.0
}

/// Width at the rim of a pot of so many litres, m (exact: the cube root).
#[must_use]
pub fn diameter_of_pot(litres: f64) -> f64 {
    (litres / 1000.0 / POT_SHAPE).powf(1.0 / 3.0)
}

/// Width of a basket of so many litres, m (exact: the cube root).
fn diameter_of_basket(litres: f64) -> f64 {
    (litres / 1000.0 / BASKET_SHAPE).powf(1.0 / 3.0)
}

impl Container {
    /// Whether water that the compost cannot hold may run away, unless the grower says otherwise.
    #[must_use]
    pub const fn usually_drains(self) -> bool {
        matches!(self, Self::Pot { .. } | Self::Basket { .. } | Self::Ring)
    }

    /// Compost or soil of one plant, litres, with its ground in m².
    #[must_use]
    pub fn litres_for_each(self, ground: f64) -> f64 {
        match self {
            Self::GrowBag { litres, .. } => litres / f64::from(self.plants()),
            Self::Pot { litres } | Self::Basket { litres } => litres,
            Self::Ring => RING_VOLUME,
            Self::Border => BORDER_DEPTH * ground * 1000.0,
        }
    }

    /// Plants that share one container, 1 or more. A border counts as one for each plant.
    #[must_use]
    pub const fn plants(self) -> u32 {
        match self {
            Self::GrowBag { plants: plants @ 1.., .. } => plants,
            _ => 1,
        }
    }
}

/// The pot that a plant was planted out of: the only compost its roots know at first.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PlantedFrom {
    /// A pot of 7 cm.
    Pot7,
    /// A pot of 9 cm.
    Pot9,
    /// A pot of 13 cm or one litre.
    #[default]
    Pot13,
}

impl PlantedFrom {
    /// Volume of its root ball, litres (choice).
    #[must_use]
    pub const fn litres(self) -> f64 {
        match self {
            Self::Pot7 => 0.15,
            Self::Pot9 => 0.3,
            Self::Pot13 => 1.0,
        }
    }
}

/// What the roots of one plant can reach.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RootZone {
    /// Compost or soil of one plant, litres.
    pub volume: f64,
    /// The part of it that the roots have reached, litres.
    pub reached: f64,
    /// Water in the reached part that comes easily (RAW), litres.
    pub easy_water: f64,
    /// Water in the reached part that comes at all (TAW), litres.
    pub all_water: f64,
    /// Most water that goes on in a single pour, litres.
    pub single_pour: f64,
    /// Open wet surface, m².
    pub wet_surface: f64,
    /// Share of a dose that runs through, 0 to 1.
    pub drained: f64,
    /// Share of the volume that is air when it is full of water, 0 to 1.
    pub air_when_full: f64,
}

/// What a [`RootZone`] is worked out from, beside its container.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Compost {
    /// What it is made of.
    pub medium: Medium,
    /// Whether it is a second season's, or has shrunk and settled.
    pub settled: bool,
    /// Whether surplus water runs away.
    pub drains: bool,
    /// Weeks since planting; the roots count as everywhere when missing.
    pub weeks: Option<f64>,
    /// The pot planted from.
    pub planted_from: PlantedFrom,
    /// Compost that came along about the roots, litres; as that pot held when missing.
    pub ball: Option<f64>,
}

impl RootZone {
    /// `RAW = EAW·√(23/H)·V`, `TAW = RAW + (all − EAW)·V`, over the volume that the roots have reached,
    /// `V_acc = V_ball + (V − V_ball)·min(weeks/5, 1)`. A border: `TAW = 160 mm/m × 0.4 m × ground`, `RAW = 0.4·TAW`.
    ///
    /// Ground per plant in m², above 0.
    #[must_use]
    pub fn new(container: Container, compost: Compost, ground: f64, working: &mut Working) -> Self {
        let volume = container.litres_for_each(ground);
        let (depth_cm, surface) = match container {
            Container::GrowBag { .. } => (BAG_DEPTH, BAG_HOLE),
            Container::Pot { .. } | Container::Ring => round(diameter_of_pot(volume), POT_DEPTH),
            Container::Basket { .. } => round(diameter_of_basket(volume), BASKET_DEPTH),
            Container::Border => (BORDER_DEPTH * 100.0, ground),
        };
        let ball = compost.ball.unwrap_or_else(|| compost.planted_from.litres()).min(volume);
        let filled = compost.weeks.map_or(1.0, |weeks| bounded(weeks / WEEKS_TO_FILL, 0.0, 1.0));
        let reached = working.step(
            "Compost that the roots have reached",
            "root ball + (volume − root ball) × weeks ÷ 5, at most all",
            &[
                value("volume", volume, "litres", 1),
                value("root ball", ball, "litres", 2),
                value("share filled", filled, "", 2),
            ],
            value("reached", ball + (volume - ball) * filled, "litres", 1),
            "Volumes and rooting are our choice, near common sizes of pot and bag",
        );
        let (easy_share, all_share) = if matches!(container, Container::Border) {
            (BORDER_WATER / 1000.0 * TOMATO_DEPLETION_FRACTION, BORDER_WATER / 1000.0)
        } else {
            let (low, high) = DEPTH_LIMITS;
            let depth = (REFERENCE_DEPTH / bounded(depth_cm, low, high)).sqrt();
            let kept = if compost.settled { SETTLED } else { 1.0 };
            let (easy, all) = (compost.medium.easy_water() * kept, compost.medium.all_water() * kept);
            (easy * depth, easy * depth + (all - easy))
        };
        let easy_water = working.step(
            "Water that it holds and gives easily",
            "RAW = easily available share × reached",
            &[value("share", easy_share, "", 2), value("reached", reached, "litres", 1)],
            value("RAW", easy_share * reached, "litres", 1),
            "Shares between −1 and −5 kPa: working values within published bands; a flat bag holds more a litre than a deep pot",
        );
        Self {
            volume,
            reached,
            easy_water,
            all_water: all_share * reached,
            single_pour: SINGLE_POUR * reached,
            wet_surface: surface.min(ground) * (reached / volume),
            drained: if compost.drains { DRAINED } else { 0.0 },
            air_when_full: AIR_AT_REFERENCE + AIR_BY_DEPTH * (bounded(depth_cm, DEPTH_LIMITS.0, DEEPEST_AIR) / REFERENCE_DEPTH).ln(),
        }
    }
}

/// Depth in cm and open surface in m² of a round container.
fn round(width_metres: f64, depth_over_width: f64) -> (f64, f64) {
    (depth_over_width * width_metres * 100.0, PI * (width_metres / 2.0).powi(2))
}
