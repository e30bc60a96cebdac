//! The commands that need no window.
//!
//! A command gives its text or a sentence that says what could not be done. Exit codes are the door's: 0 done, 1 could
//! not, 2 wrong call.

mod call;
mod colours;
mod papers;
mod picture_wish;
mod run;
mod said;
mod set_out;
mod words;

pub use crate::export::PaperKind;
pub use call::{Call, StemsAs, read_call};
pub use picture_wish::{Fineness, PictureAs, PictureWish, View};
pub use run::{Bench, papers_without_window, run};
pub use words::help;
