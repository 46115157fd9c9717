//! When a control is repeated against a pest, what is to be expected, and from when the label lets the crop be picked.
//!
//! Warmth above a threshold stands for time: [`Course`] adds up the degree-days after a treatment, [`schedule`] and [`Search`] find
//! days, [`Population`] the numbers, and [`Programme::outline`] puts them together. No date for a spray or for picking comes about
//! without a label that [`cleared`] let through.

mod advice;
mod biological;
mod blight;
mod calendar;
mod cohort;
mod conflicts;
mod control;
mod degree_days;
mod expected;
mod gate;
mod label;
mod outcome;
mod outline;
mod plan;
mod population;
mod programme;
mod schedule;
mod slugs;
mod species;
mod visits;
mod warmth;

pub use advice::{Advice, advice};
pub use biological::{AT_WORK, Introduction, Needs, Wait, introduction, needs, soil_mean};
pub use blight::{BlightNight, blight_watch};
pub use calendar::{CalendarEntry, calendar_file};
pub use cohort::{Course, DAYS_AHEAD, SLACK};
pub use control::{Basis, Control, HOME_COVERAGE, Kills, PARASITOID_STARTS_AFTER};
pub use degree_days::{DayShape, Thresholds, average_degree_days, development_line, mean_degree_days};
pub use expected::{Back, Curve, LONGEST_CURVE, curve};
pub use gate::{Cleared, Shut, cleared};
pub use label::{Application, Conflict, LABEL_DAYS_RANGE, LABEL_USES_RANGE, Label, Product, SharedUse, Told, overdrawn, picking_day};
pub use outcome::{Count, Outcome, outcome};
pub use outline::{LikelyDay, Outline, Picking, Standing, Visit};
pub use plan::{Aim, BestPlan, Candidate, Search};
pub use population::{ByStage, Population, growth, spread_of_emergence};
pub use programme::{Deed, Extent, HORIZON, Programme};
pub use schedule::{Allowance, Limits, MOST_TREATMENTS, Repeat, Rule, Schedule, continued, repeat, schedule};
pub use slugs::{Evening, SlugOutlook, last_patrol, slugs_tonight};
pub use species::{Immature, LifeStage, LifeTable, Pest, Recognise, Species};
pub use warmth::{DayReading, DayTemperature, GlassOffset, TOO_HOT, Warmth};
