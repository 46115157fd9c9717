//! How much water each plant gets this morning.
//!
//! ```text
//! yesterday's weather ─ cover ─► radiation at the plant ─► reference use ┐
//! height, trusses, leafiness, ground ─► canopy ──────────────────────────┴► demand ─► dose ─► measure for the jug
//! container, compost, weeks since planting ─► root zone ─────────────────────────────┘
//! ```

mod advice;
mod balance;
mod belief;
mod canopy;
mod container;
mod cover;
mod crop_coefficient;
mod demand;
mod dose;
mod group;
mod morning;
mod reference;
mod risk;
mod root_zone;
mod season;
mod thirst;

pub use advice::{Advice, PourWhere, SetPoor, pour_where};
pub use balance::{DayWater, Flows, Store};
pub use belief::{Readings, chance_of};
pub use canopy::{Canopy, HEIGHT_RANGE, Leafiness, PlantSize, TRUSSES_RANGE, height_for_trusses, trusses_for_height};
pub use container::{
    BAG_RANGE, Compost, Container, Medium, POT_VOLUME_RANGE, POT_WIDTH_RANGE, PlantedFrom, RootZone, USUAL_BAG_LITRES, USUAL_PLANTS_IN_BAG,
    diameter_of_pot, volume_of_pot,
};
pub use cover::{Cover, Exposure, Place};
pub use crop_coefficient::{
    LEAF_EXTINCTION, STAKING_GAIN, StageCoefficients, TOMATO_BASAL, TOMATO_SINGLE, basal_coefficient_from_cover,
    basal_coefficient_from_leaf_area, climatic_adjustment, effective_cover_of_rows, interception, thin_stand_reduction,
};
pub use demand::Demand;
pub use dose::{Assumption, Dose, Feel, likely_factor};
pub use group::{AREA_RANGE, COUNT_RANGE, Group};
pub use morning::{WaterError, morning_water};
pub use reference::{
    LATENT_HEAT, LOWEST_WIND_SPEED, MAKKINK_COEFFICIENT, ReferenceDay, hargreaves_samani, makkink, makkink_1957, penman_monteith,
    priestley_taylor, radiation_weighting, turc,
};
pub use risk::{Care, Level, Risk, Risks, WiltAdvice, Wilting, wilt_advice};
pub use root_zone::{
    DepletionDay, TOMATO_DEPLETION_FRACTION, deplete_by_morning_stress, depletion_fraction, loss_over_day, readily_available_water,
    total_available_water, water_stress_coefficient,
};
pub use season::{DayFlow, DayRecord, GroupDays, Season};
pub use thirst::Thirst;
