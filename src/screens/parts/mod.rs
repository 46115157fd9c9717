//! The reusable pieces of view: each draws what it is told and reports what was touched.
//!
//! They know words, numbers and what changes, nothing of the trade. Each is a struct of named fields with one `view`, or a
//! plain function, and returns an [`Element`]. Nothing here writes a `style` attribute: the page's content policy forbids it.
//!
//! Drawings are symbols of `style/sprite.svg`, named by their id.

mod advice;
mod announcer;
mod answer;
mod butt_picture;
mod buttons;
mod cans;
mod chart;
mod choice;
mod cordon;
mod cylinder;
mod drawing;
mod early;
mod element;
mod error_note;

mod gauge;
mod group_labels;
mod jug;
mod keys;
mod life_curve;
mod live;
mod more;
mod plant_finder;
mod plant_frame;
mod plate;
mod repeats_strip;
mod section;
mod shell;
mod square_code;
mod steady;
mod stepper;
mod strokes;
mod table;
mod text_field;
mod tick_box;
mod working;

pub use advice::{AdviceLine, advice};
pub use announcer::{announcer, say, say_what_is_wrong};
pub use answer::Answer;
pub use butt_picture::ButtPicture;
pub use buttons::{button, chief_button, link_button, undo_row};
pub use cans::cans;
pub use chart::{Chart, ChartDay, Poured};
pub use choice::Choice;
pub use cordon::{CaneMark, Cordon};
pub use cylinder::cylinder;
pub use drawing::drawing;
pub use early::{early_choice, first_answer, take_over};
pub use element::{Element, Pass, drawn, element, hold_typing, is_for_typing, leave_field, on_window};
pub use error_note::error_note;

pub use gauge::{Bar, GaugeBand, bars, gauge};
pub use group_labels::{GroupLabel, GroupLabels};
pub use jug::{Jug, JugLevel};
pub use keys::{Key, KeyShape, Keys};
pub use life_curve::LifeCurve;
pub use live::{Act, Live, Words, act, live, words};
pub use more::More;
pub use plant_finder::PlantFinder;
pub use plate::{Dose, Foot, Plate, figure_class};
pub use repeats_strip::{RepeatsStrip, StripDay};
pub use section::{Section, plain_section, section_heading};
pub use shell::{Strip, TabLink, focus_on, go_to_top, skip_link, tabs};
pub use square_code::square_code;
pub use steady::steady;
pub use stepper::Stepper;
pub use table::Table;
pub use text_field::TextField;
pub use tick_box::TickBox;
pub use working::{WorkingLine, working};
