//! How much feed goes into a can, what that gives, and whether it is time.
//!
//! ```text
//! words of the label ─► Grade ─► Label ─► contents ┐
//! words of the dose ──► Rate ──────────────────────┴► mix ─► amount, strength, conductivity ─► needs, timing
//! what stands on the shelf, target of the stage ─► blend ─► grams for the can
//! what looks wrong, what is known ─► causes
//! ```

mod brew;
mod compatibility;
mod conductivity;
mod demand;
mod dose_reader;
mod dose_words;
mod element;
mod label;
mod magnesium;
mod mix;
mod mixer;
mod rate;
mod stage;
mod straight;
mod strength;
mod symptoms;
mod timing;
mod water_kind;
mod wording;

pub use brew::{Brew, Brewed};
pub use compatibility::{
    Cloud, Clouds, GYPSUM_LIMITS, InStock, Meeting, STOCK_RANGE, Stock, Stuff, USUAL_STOCK, brushite_index, clouds, gypsum, meeting,
    phosphate, stock, stock_of,
};
pub use conductivity::{
    BAND_ENDS, Band, Free, Ions, METER_COLD, METER_SPREAD, METER_SPREAD_STRONG, SEEDLING_LIMIT, activity, at_twenty_five,
    conductivity_bounds, meter_spread, quick_conductivity, shown_at, yield_in_salt,
};
pub use demand::{
    COMPOST_FEEDS_WEEKS, COMPOST_NITROGEN, FRUIT_RANGE, Habit, Need, Portion, SEASON_UPTAKE, UPTAKE, USUAL_FRUIT, enough_a_week,
    from_compost, grams_a_week, needs, portion, season_uptake,
};
pub use dose_words::{FLUID_OUNCE, OUNCE, SPOON_SPREAD, TABLESPOON, TEASPOON, US_FLUID_OUNCE};
pub use element::{
    BICARBONATE_IN_ALKALINITY, CALCIUM_IN_OXIDE, Contents, MAGNESIUM_IN_OXIDE, Nutrient, PHOSPHORUS_IN_OXIDE, POTASSIUM_IN_OXIDE,
    SULPHUR_IN_OXIDE, atomic_weight,
};
pub use label::{Basis, DENSITY_RANGE, Form, Grade, Label, LabelError, NitrogenForms, POWDER_DENSITY, USUAL_DENSITY};
pub use magnesium::{DRENCH, DRENCH_LITRES, FOLIAR, REPEAT_AFTER_DAYS, epsom, routine_grams};
pub use mix::{CAN_RANGE, Feed, Mix, MixError, mix};
pub use mixer::{Blend, BlendError, MOST_ON_SHELF, Miss, blend};
pub use rate::{Ask, CAP_RANGE, Country, DOSE_RANGE, Measured, OunceKind, Rate, RateError, RatioKind, Told};
pub use stage::{Lean, Stage, Stem, TargetBand, nitrogen_aim, target, wanted};
pub use straight::Straight;
pub use strength::{Strength, grams_for, in_a_litre};
pub use symptoms::{Cause, FED_OF_LATE, Facts, Look, Odds, Part, causes};
pub use timing::{Due, HALF, Situation, Timing, WEEK, Way, Why, is_due, is_too_cold, timing};
pub use water_kind::Water;
pub use wording::{Misread, Unreadable};
