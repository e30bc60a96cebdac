//! Days and hours: the calendar, how a shop writes it, and how what people write is read.
//!
//! The calendar is that of `jiff`. Knows no clock: which day it is and the zone are given.

mod day;
mod doubt;
mod month;
mod read;
mod when;
mod written;

pub use day::{Day, Hour};
pub use doubt::DayDoubt;
pub use month::{Month, week_names};
pub use read::DayReader;
pub use when::When;
pub use written::{DateStyle, HourStyle, Written};
