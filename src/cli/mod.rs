//! The commands that need no window.
//!
//! A command returns its text, or a sentence that says what failed. The exit codes are set in `main`:
//! 0 done, 1 failed, 2 wrong command.

mod args;
mod cli_command;
mod cli_error;
mod colours;
mod help;
mod labels;
mod loaded_order;
mod occasion;
mod papers;
mod party_bill;
mod photograph;
mod picture_args;
mod run;
mod set_out;

pub use crate::export::PaperKind;
pub use cli_command::{CliCommand, StemsFormat, parse_args};
pub use cli_error::CliError;
pub use help::help;
pub use labels::{LabelArgs, LabelledOrders};
pub use loaded_order::LoadedOrder;
pub use occasion::{BenchArgs, MarketArgs, OccasionArgs, ReportFormat};
pub use party_bill::PartyBillArgs;
pub use photograph::PhotographArgs;
pub use picture_args::{PictureArgs, PictureFormat, PictureView, Resolution};
pub use run::{papers_without_window, run};
