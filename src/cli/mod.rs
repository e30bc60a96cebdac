//! The commands that need no window.
//!
//! A command gives its text or a sentence that says what could not be done. Exit codes are the door's: 0 done, 1 could
//! not, 2 wrong call.

mod call;
mod colours;
mod run;
mod words;

pub use call::{Call, StemsAs, read_call};
pub use run::{Bench, papers_without_window, run};
pub use words::help;
