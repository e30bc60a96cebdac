//! What is odd about a day that words name, and how it is said.

use jiff::civil::Weekday;

use super::day::Day;
use super::read::{full_month, full_weekday};
use super::written::Written;

/// What is odd about the day that words name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DayDoubt {
    /// Figures that may mean two days, the month first and the day first.
    Two([Day; 2]),
    /// A day that the month does not have, with its year where that was said.
    NoSuchDay {
        /// Day of the month as said.
        day: i16,
        /// Month from 1.
        month: i8,
        /// Year as said.
        year: Option<i16>,
    },
    /// Another day of the week was said than the day has.
    OtherWeekday {
        /// As said.
        said: Weekday,
        /// As it is.
        has: Weekday,
    },
}

impl DayDoubt {
    /// As a sentence: `There is no 29 Feb 2027.`
    pub fn says(self, written: Written) -> String {
        /// Letters of a month that is written short.
        const SHORT: usize = 3;
        match self {
            Self::Two([a, b]) => format!("{} or {}?", a.with_weekday(written.date), b.with_weekday(written.date)),
            Self::NoSuchDay { day, month, year } => {
                let year = year.map_or_else(String::new, |year| format!(" {year}"));
                format!("There is no {day} {}{year}.", full_month(month).get(..SHORT).unwrap_or_default())
            }
            Self::OtherWeekday { said, has } => format!("It is a {}, not a {}.", full_weekday(has), full_weekday(said)),
        }
    }
}
