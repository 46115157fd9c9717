//! How much water each plant gets this morning.
//!
//! ```text
//! yesterday's weather ─ cover ─► radiation at the plant ─► reference use ┐
//! height, trusses, leafiness, ground ─► canopy ──────────────────────────┴► demand ─► dose ─► measure for the jug
//! container, compost, weeks since planting ─► root zone ─────────────────────────────┘
//! ```
//!
//! [`morning_water`] answers a first morning; [`season`] answers from the records of the days before, and learns.

mod advice;
mod ahead;
mod away;
mod balance;
mod belief;
mod butt;
mod canopy;
mod container;
mod course;
mod cover;
mod crop_coefficient;
mod demand;
mod dose;
mod group;
mod growth;
mod handed;
mod morning;
mod placement;
mod poured;
mod records;
mod reference;
mod ripening;
mod risk;
mod roof;
mod root_zone;
mod season;
mod thirst;

pub use crate::quantity::Likely;

pub use advice::{Advice, BRIGHT_FROM, POLLEN_RUNS, PourWhere, SetPoor, Threat, pour_where};
pub use ahead::{Outlook, Standing, usual_mean};
pub use away::{Absence, AwayGroup, AwayPlan, DAYS_AWAY_RANGE, SomeoneComes, away_plan};
pub use balance::{DayWater, Flows, SODDEN_FROM, Store};
pub use belief::Readings;
pub use butt::{BUTT_RANGE, Butt, ButtDay, DailyNeed, DaysLeft, MonthAhead, USUAL_BUTT_LITRES, daily_need, season_outlook};
pub use canopy::{Canopy, HEIGHT_RANGE, Leafiness, PlantSize, TRUSSES_RANGE, height_for_trusses, trusses_for_height};
pub use container::{
    BAG_RANGE, Compost, Container, Medium, POT_VOLUME_RANGE, POT_WIDTH_RANGE, PlantedFrom, RootZone, USUAL_BAG_LITRES, USUAL_PLANTS_IN_BAG,
    diameter_of_pot, volume_of_pot,
};
pub use course::LONGEST_GAP;
pub use cover::{Cover, Exposure, Place};
pub use crop_coefficient::{
    LEAF_EXTINCTION, STAKING_GAIN, StageCoefficients, TOMATO_BASAL, TOMATO_SINGLE, basal_coefficient_from_cover,
    basal_coefficient_from_leaf_area, climatic_adjustment, effective_cover_of_rows, interception, thin_stand_reduction,
};
pub use demand::Demand;
pub use dose::{AGREES_FROM, Assumption, DRY_FROM, Dose, Feel, likely_factor};
pub use group::{AREA_RANGE, COUNT_RANGE, Group};
pub use growth::{Carried, TRUSSES_FITTED, carry_back, carry_forward, truss_rate};
pub use handed::{Handed, Stay};
pub use morning::{WaterError, morning_water};
pub use placement::Placement;
pub use records::{DayRecord, Records, WINTER};
pub use reference::{
    LATENT_HEAT, LOWEST_WIND_SPEED, MAKKINK_COEFFICIENT, ReferenceDay, hargreaves_samani, makkink, makkink_1957, penman_monteith,
    priestley_taylor, radiation_weighting, turc,
};
pub use ripening::{LastTruss, RIPENING_UNRELIABLE_BELOW, Ripening, is_ending, is_over, last_truss, ripening, ripening_rate};
pub use risk::{Care, Level, Risk, Risks, WiltAdvice, Wilting, wilt_advice};
pub use roof::{ROOF_RANGE, Refill, Roof, RoofKind};
pub use root_zone::{
    DepletionDay, TOMATO_DEPLETION_FRACTION, demand_until, deplete_by_morning_stress, depletion_fraction, loss_over_day,
    readily_available_water, total_available_water, water_stress_coefficient,
};
pub use season::{DayRow, Past, Season, season, season_after};
pub use thirst::Thirst;
