//! First Truss: morning water, feed mix and pest repeats for tomatoes grown at home.
//!
//! | module | the question it answers | may use |
//! |---|---|---|
//! | [`quantity`] | How much is that, in the grower's units and in SI? | – |
//! | [`working`] | How was this number reached? | `quantity` |
//! | [`almanac`] | What day is it, how high is the sun, what was yesterday like? | `quantity`, `working` |
//! | [`water`] | How much does each plant get this morning? | `quantity`, `working`, `almanac` |
//! | [`feed`] | How much feed goes into this can, what does it give, and is it time? | `quantity`, `working`, `almanac` |
//! | [`pest`] | When is a treatment repeated, and from when may be picked? | `quantity`, `working`, `almanac` |
//! | [`today`] | What is to be done today, in which order, and what not? | `almanac`, `water`, `feed` |
//! | [`notebook`] | What is kept, and in what form? | all of the above |
//! | `screens` | What does the grower see? (browser only) | all, and `browser` |
//! | `browser` | The only code that touches the browser. | `almanac`, `notebook` |
//!
//! Everything but `screens` and `browser` is plain computation: no clock, no browser, no panic.

pub mod almanac;
pub mod feed;
pub mod notebook;
pub mod pest;
pub mod quantity;
pub mod today;
pub mod water;
pub mod working;

#[cfg(all(target_arch = "wasm32", feature = "page"))]
pub mod browser;
#[cfg(all(target_arch = "wasm32", feature = "page"))]
pub mod screens;
