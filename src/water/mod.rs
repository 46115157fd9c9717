//! How much water each plant gets this morning.
//!
//! ```text
//! yesterday's weather ─ cover ─► radiation at the plant ─► reference use ┐
//! height, trusses, leafiness, ground ─► canopy ──────────────────────────┴► demand ─► dose ─► measure for the jug
//! container, compost, weeks since planting ─► root zone ─────────────────────────────┘
//! ```

mod advice;
mod canopy;
mod container;
mod cover;
mod crop_coefficient;
mod demand;
mod dose;
mod group;
mod morning;
mod reference;
mod root_zone;

pub use advice::{Advice, PourWhere, SetPoor, pour_where};
pub use canopy::{Canopy, HEIGHT_RANGE, Leafiness, PlantSize, TRUSSES_RANGE, height_for_trusses, trusses_for_height};
pub use container::{
    BAG_RANGE, Container, Medium, POT_VOLUME_RANGE, POT_WIDTH_RANGE, PlantedFrom, RootZone, diameter_of_pot, volume_of_pot,
};
pub use cover::{Cover, Exposure, Place};
pub use crop_coefficient::*;
pub use demand::Demand;
pub use dose::{Assumption, Dose, Feel, LEAST_LIKELY_BELOW_DULL, LIKELY_FACTOR};
pub use group::{AREA_RANGE, COUNT_RANGE, Group};
pub use morning::{WaterError, morning_water};
pub use reference::*;
pub use root_zone::*;
