//! What is kept: the grower's setup and this morning's entries, exactly as typed, what was noted day by day, and the form in which they are stored.
//!
//! Nothing here knows a browser: [`open`] and [`seal`] turn stored text into a [`Notebook`] and back.

mod away_record;
mod bottle;
mod butt_record;
mod code;
mod copy;
mod day_page;
mod diary;
mod ended;
mod entry;
mod envelope;
mod feed_record;
mod field;
mod gone_group;
mod group_record;
mod keeper;
mod lines;
mod link;
mod merge;
mod morning_record;
mod pest_record;
mod product_record;
mod season_page;
mod setup;
mod shared_product;
mod stood;
mod table;
mod waits;

pub use away_record::AwayRecord;
pub use bottle::{ASSUMED_DOSE, ASSUMED_LABEL, Bottle, FormKind, Phrase};
pub use butt_record::{ButtNow, ButtRecord};
pub use code::Coded;
pub use copy::{LARGEST_COPY, open_copy};
pub use day_page::{DayPage, Done, GroupDay};
pub use entry::{Entry, EntryError};
pub use envelope::{ENVELOPE_VERSION, OpenError, Opened, open, seal};
pub use feed_record::FeedRecord;
pub use field::Field;
pub use group_record::{ContainerKind, GroupRecord, NAME_LENGTH};
pub use keeper::{Keeper, Refused, Slot, Start, Store};
pub use link::{
    FeedPlan, LONGEST_FOR_SQUARE, LinkError, LinkKind, MOST_CHARACTERS, Plan, Reply, Treatment, Visits, check_of_link, is_card_over,
    kind_of_link,
};
pub use merge::joined;
pub use morning_record::MorningRecord;
pub use pest_record::{MOST_PRODUCTS, PestCount, PestRecord};
pub use product_record::ProductRecord;
pub use season_page::{GroupSeason, SeasonPage};
pub use setup::{Notebook, Plot};
pub use shared_product::{A_SEASON, LeftUse};
pub use stood::looks_like_a_move;
pub use table::season_table;
pub use waits::Waits;
