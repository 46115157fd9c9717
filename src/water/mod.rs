//! (the heading comes with the code)

mod crop_coefficient;
mod reference;
mod root_zone;

pub use crop_coefficient::{
    LEAF_EXTINCTION, STAKING_GAIN, StageCoefficients, StageDays, TABLE_HEIGHT_METRES, TOMATO_BASAL,
    TOMATO_SINGLE, TOMATO_STAGES_CALIFORNIA, TOMATO_STAGES_MEDITERRANEAN,
    basal_coefficient_from_cover, basal_coefficient_from_leaf_area, climatic_adjustment,
    effective_cover_of_rows, interception, thin_stand_reduction,
};
pub use reference::{
    LATENT_HEAT, LOWEST_WIND_SPEED, MAKKINK_COEFFICIENT, ReferenceDay, hargreaves_samani, makkink,
    makkink_1957, penman_monteith, priestley_taylor, radiation_weighting, turc,
};
pub use root_zone::{
    DepletionDay, TOMATO_DEPLETION_FRACTION, deplete_by_morning_stress, depletion_fraction,
    loss_over_day, readily_available_water, total_available_water, water_stress_coefficient,
};
