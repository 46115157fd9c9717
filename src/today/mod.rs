//! What is to be done today, in which order, and what not: the one place that looks at everything together.
//!
//! Kinds, hours and reasons only; the words are the screens'.

mod round;
mod signs;
mod task;

pub use round::{ButtToday, GroupToday, Known, todays_round};
pub use signs::{FeedKnown, facts};
pub use task::{Hours, Item, Reason, Task};
