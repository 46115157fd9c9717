//! Amounts with their units: SI inside, the grower's own units at the edge.
//!
//! [`Volume`], [`Length`], [`Area`] and [`Temperature`] hold SI; [`Units`] says which units a grower reads and types;
//! [`parse_number`] reads what people type; [`Measure`] is an amount rounded to what a jug can pour.

mod area;
mod axis;
mod bounded;
mod length;
mod likely;
mod measure;
mod number;
mod range;
mod temperature;
mod units;
mod volume;

pub use area::{Area, SQUARE_METRES_PER_SQUARE_FOOT};
pub use axis::Axis;
pub use bounded::bounded;
pub use length::{Length, METRES_PER_FOOT, MILLIMETRES_PER_INCH};
pub use likely::Likely;
pub use measure::{Measure, cans, decimal, quarters};
pub use number::{NumberError, parse_number};
pub use range::{OutOfRange, Range, unit_after};
pub use temperature::Temperature;
pub use units::{TemperatureScale, UnitSystem, Units, country_in};
pub use volume::{LITRES_PER_IMPERIAL_GALLON, LITRES_PER_IMPERIAL_PINT, LITRES_PER_US_GALLON, LITRES_PER_US_PINT, Volume};
