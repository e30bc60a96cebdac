//! The wrist sheet: where things are on screen, what the hand holds, and what a tap, a drag or a key means.
//!
//! Plain numbers: screen points are [`kurbo::Point`], x right and y down; the piece is millimetres. Nothing is changed
//! here: every touch of the sheet gives [`crate::command::Command`]s, and whoever runs the window carries them out after painting. Knows no egui.

mod hand;
mod ruler;
mod view;

pub use hand::{Grip, Hand, Held, LONG_STEP_MM, Sheet, SheetInput, TAP_SLIP, TURN_STEP_RAD};
pub use ruler::{RulerAxis, RulerTick, ruler_ticks};
pub use view::{LIFE_SIZE, View};
