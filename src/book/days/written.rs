//! How a shop writes a day and an hour, on the screen, on papers and when it types them.

use jiff::civil::{Date, Time};

/// How a day is written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum DateStyle {
    /// `5 Dec 2026`. A day in figures alone is asked about, since it may mean two.
    #[default]
    MonthName,
    /// `12/5/2026`: the month first.
    Slashes,
    /// `05.12.2026`: the day first.
    Dots,
}

/// How an hour is written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum HourStyle {
    /// `2:00 pm`.
    #[default]
    AmPm,
    /// `14:00`.
    Hours24,
}

/// How a shop writes days and hours.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Written {
    /// Days.
    pub date: DateStyle,
    /// Hours.
    pub hour: HourStyle,
}

impl DateStyle {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 3] = [Self::MonthName, Self::Slashes, Self::Dots];

    pub(super) fn write(self, date: Date) -> String {
        let form = match self {
            Self::MonthName => "%-d %b %Y",
            Self::Slashes => "%-m/%-d/%Y",
            Self::Dots => "%d.%m.%Y",
        };
        date.strftime(form).to_string()
    }
}

impl HourStyle {
    /// Both, in the order in which they are offered.
    pub const ALL: [Self; 2] = [Self::AmPm, Self::Hours24];

    pub(super) fn write(self, time: Time) -> String {
        match self {
            Self::AmPm => time.strftime("%-I:%M %P").to_string(),
            Self::Hours24 => time.strftime("%H:%M").to_string(),
        }
    }
}
