//! The only code that touches the browser beyond drawing. It holds no wording.

mod clock;
mod download;
mod language;
mod look;
mod share;
mod storage;
mod upload;

pub use clock::{elapsed, milliseconds, time_of_day, today, utc_stamp};
pub use download::{hand_over_calendar, save_to_file};
pub use language::language;
pub use look::fetch_look;
pub use share::{address_with, can_share, copy_text, share_address};
pub use storage::{BrowserStore, ask_to_persist};
pub use upload::read_chosen;
