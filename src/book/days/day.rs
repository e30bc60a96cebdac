//! A day of the calendar and an hour of it.

use std::fmt;

use jiff::civil::{Date, Time, Weekday};
use jiff::tz::{AmbiguousOffset, TimeZone};
use jiff::{Span, Timestamp};

use super::written::{DateStyle, HourStyle};

/// A day of the calendar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(Date);

/// A time of a day, to the minute.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Hour(Time);

/// Years that an order may name; our choice, so that a slip of the finger asks again.
const YEARS: std::ops::RangeInclusive<i16> = 2000..=2199;

impl Day {
    /// The day of this date, if there is one within the years of orders.
    pub fn new(year: i16, month: i8, day: i8) -> Option<Self> {
        Date::new(year, month, day).ok().and_then(Self::of)
    }

    /// The day that the calendar on the wall shows at this instant in this zone; none outside the years of orders.
    pub fn at(instant: Timestamp, zone: &TimeZone) -> Option<Self> {
        Self::of(zone.to_datetime(instant).date())
    }

    fn of(date: Date) -> Option<Self> {
        YEARS.contains(&date.year()).then_some(Self(date))
    }

    /// Reads `2026-05-09` and nothing else.
    pub fn parse(text: &str) -> Option<Self> {
        let mut parts = text.trim().splitn(3, '-');
        let mut next = |digits: usize| parts.next().filter(|part| part.len() == digits).and_then(super::read::number);
        let (year, month, day) = (next(4)?, next(2)?, next(2)?);
        Self::new(year, i8::try_from(month).ok()?, i8::try_from(day).ok()?)
    }

    /// The day so many days later, earlier where they are below none; none outside the years that an order may name.
    pub fn plus(self, days: i64) -> Option<Self> {
        self.0.checked_add(Span::new().try_days(days).ok()?).ok().and_then(Self::of)
    }

    /// `9 May 2026`.
    pub fn text(self) -> String {
        self.written(DateStyle::MonthName)
    }

    /// As a shop writes it: `9 May 2026`, `5/9/2026`, `09.05.2026`.
    pub fn written(self, style: DateStyle) -> String {
        style.write(self.0)
    }

    /// With the day of the week before it: `Sat 9 May 2026`.
    pub fn with_weekday(self, style: DateStyle) -> String {
        format!("{} {}", self.0.strftime("%a"), self.written(style))
    }

    /// The day of the week.
    pub fn weekday(self) -> Weekday {
        self.0.weekday()
    }

    /// Year, month from 1, day of the month from 1.
    pub fn parts(self) -> (i16, i8, i8) {
        (self.0.year(), self.0.month(), self.0.day())
    }

    /// Whether clocks in this zone show this hour on this day: they leave out one on the night they go forward.
    pub fn has_hour(self, hour: Hour, zone: &TimeZone) -> bool {
        !matches!(zone.to_ambiguous_timestamp(self.0.to_datetime(hour.0)).offset(), AmbiguousOffset::Gap { .. })
    }
}

/// `2026-05-09`, as in files.
impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(&self.0, f)
    }
}

impl Hour {
    /// The hour, counted from 0 to 23, and the minute.
    pub fn new(hour: i16, minute: i16) -> Option<Self> {
        Time::new(i8::try_from(hour).ok()?, i8::try_from(minute).ok()?, 0, 0).ok().map(Self)
    }

    /// Reads `14:00` and nothing else.
    pub fn parse(text: &str) -> Option<Self> {
        let (hour, minute) = text.split_once(':').filter(|(hour, minute)| hour.len() == 2 && minute.len() == 2)?;
        Self::new(super::read::number(hour)?, super::read::number(minute)?)
    }

    /// As a shop writes it: `2:00 pm`, `14:00`.
    pub fn written(self, style: HourStyle) -> String {
        style.write(self.0)
    }
}

/// `14:00`, as in files.
impl fmt::Display for Hour {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.written(HourStyle::Hours24))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The day at Greenwich, three hours west of it and ten hours east, and in a zone with summer time (POSIX rules as New
    /// York's: five hours west, four from the second Sunday of March to the first of November).
    #[test]
    fn today_is_the_day_on_the_wall_in_the_zone_of_the_shop() {
        let fixed = |hours: i8| TimeZone::fixed(jiff::tz::Offset::constant(hours));
        let summer = TimeZone::posix("EST5EDT,M3.2.0,M11.1.0").unwrap();
        for (instant, zone, day) in [
            ("2026-12-01T23:59:59Z", fixed(0), "2026-12-01"),
            ("2026-12-02T00:00:00Z", fixed(0), "2026-12-02"),
            // An evening in the west is not tomorrow yet.
            ("2026-12-02T00:30:00Z", fixed(-3), "2026-12-01"),
            ("2026-12-02T02:59:59Z", fixed(-3), "2026-12-01"),
            ("2026-12-02T03:00:00Z", fixed(-3), "2026-12-02"),
            // A morning in the east is not yesterday any more.
            ("2026-12-01T13:59:59Z", fixed(10), "2026-12-01"),
            ("2026-12-01T14:00:00Z", fixed(10), "2026-12-02"),
            ("2026-12-31T23:00:00Z", fixed(10), "2027-01-01"),
            ("2026-07-02T03:59:59Z", summer.clone(), "2026-07-01"),
            ("2026-07-02T04:00:00Z", summer.clone(), "2026-07-02"),
            ("2026-12-02T04:30:00Z", summer, "2026-12-01"),
        ] {
            let told = Day::at(instant.parse().unwrap(), &zone).unwrap();
            assert_eq!(told.to_string(), day, "{instant} {zone:?}");
        }
        assert_eq!(Day::at(Timestamp::UNIX_EPOCH, &fixed(0)), None, "a clock that is nowhere near");
    }

    /// By the rule above clocks go from 2:00 to 3:00 on the second Sunday of March, the 14th in 2027, and go back from 2:00
    /// to 1:00 on the first of November, the 7th: an hour that comes twice is there.
    #[test]
    fn an_hour_is_left_out_on_the_night_clocks_go_forward() {
        let zone = TimeZone::posix("EST5EDT,M3.2.0,M11.1.0").unwrap();
        for (day, hour, is_there) in [
            ("2027-03-14", "01:59", true),
            ("2027-03-14", "02:00", false),
            ("2027-03-14", "02:59", false),
            ("2027-03-14", "03:00", true),
            ("2027-03-13", "02:30", true),
            ("2027-11-07", "01:30", true),
        ] {
            let (at, hour) = (Day::parse(day).unwrap(), Hour::parse(hour).unwrap());
            assert_eq!(at.has_hour(hour, &zone), is_there, "{day} {hour}");
            assert!(at.has_hour(hour, &TimeZone::UTC));
        }
    }

    /// Zeller's congruence (Christian Zeller, Acta Mathematica 9, 1887), as it is printed in handbooks of the calendar: for
    /// the day q of the month m, March being 3 and January and February 13 and 14 of the year before, of the year J K in
    /// century and rest, (q + 13 (m + 1) / 5 + K + K / 4 + J / 4 + 5 J) mod 7 is 0 for a Saturday.
    fn zeller(day: Day) -> i64 {
        let (year, month, q) = day.parts();
        let (year, month) = if month < 3 { (year - 1, month + 12) } else { (year, month) };
        let [q, m, k, j] = [i64::from(q), i64::from(month), i64::from(year % 100), i64::from(year / 100)];
        (q + 13 * (m + 1) / 5 + k + k / 4 + j / 4 + 5 * j) % 7
    }

    #[test]
    fn days_of_the_week_are_those_of_zeller_through_two_hundred_years() {
        let names = ["Sat", "Sun", "Mon", "Tue", "Wed", "Thu", "Fri"];
        let mut next = Day::new(2000, 1, 1);
        let mut n_days = 0;
        while let Some(day) = next {
            let name = usize::try_from(zeller(day)).unwrap();
            assert!(day.with_weekday(DateStyle::MonthName).starts_with(names[name]), "{day}");
            (next, n_days) = (day.plus(1), n_days + 1);
        }
        // Two hundred years of 365 days, and 49 leap days: every fourth year but 2100.
        assert_eq!(n_days, 200 * 365 + 49);
    }

    /// The Gregorian rule: 2000 is a leap year, 2100 is none. Four hundred years of that calendar have 146,097 days, the first
    /// hundred from March 2000 36,524.
    #[test]
    fn the_calendar_has_its_leap_years() {
        assert!(Day::new(2000, 2, 29).is_some() && Day::new(2028, 2, 29).is_some());
        assert!(Day::new(2100, 2, 29).is_none() && Day::new(2026, 2, 29).is_none());
        assert!(Day::new(1999, 12, 31).is_none() && Day::new(2200, 1, 1).is_none());
        assert_eq!(Day::new(2026, 5, 9).unwrap().weekday(), Weekday::Saturday);
        let later = |text: &str, days| Day::parse(text).unwrap().plus(days).map(|d| d.to_string());
        assert_eq!(later("2026-12-25", 14).as_deref(), Some("2027-01-08"));
        assert_eq!(later("2026-12-01", -1).as_deref(), Some("2026-11-30"));
        assert_eq!(later("2028-02-28", 1).as_deref(), Some("2028-02-29"));
        assert_eq!(later("2000-01-01", 366).as_deref(), Some("2001-01-01"));
        assert_eq!(later("2000-03-01", 36_524).as_deref(), Some("2100-03-01"));
        assert_eq!((later("2026-05-09", 0).as_deref(), later("2199-12-31", 1)), (Some("2026-05-09"), None));
        assert_eq!(later("2000-01-01", -1), None);
        assert_eq!((later("2026-05-09", i64::MAX), later("2026-05-09", i64::MIN)), (None, None));
        for text in ["2026-5-9", "2026-05-32", "26-05-09", "2026-05-09-1", "", "+026-05-09"] {
            assert_eq!(Day::parse(text), None, "{text}");
        }
    }

    #[test]
    fn a_shop_writes_days_and_hours_in_its_own_way() {
        let (day, early, late) = (Day::new(2026, 12, 5).unwrap(), Hour::new(9, 5).unwrap(), Hour::new(14, 0).unwrap());
        assert_eq!(DateStyle::ALL.map(|s| day.written(s)), ["5 Dec 2026", "12/5/2026", "05.12.2026"]);
        assert_eq!(DateStyle::ALL.map(|s| day.with_weekday(s)), ["Sat 5 Dec 2026", "Sat 12/5/2026", "Sat 05.12.2026"]);
        assert_eq!(HourStyle::ALL.map(|s| early.written(s)), ["9:05 am", "09:05"]);
        assert_eq!(HourStyle::ALL.map(|s| late.written(s)), ["2:00 pm", "14:00"]);
        let noon_and_midnight = [12, 0].map(|h| Hour::new(h, 0).unwrap().written(HourStyle::AmPm));
        assert_eq!(noon_and_midnight, ["12:00 pm", "12:00 am"]);
        assert_eq!((Hour::parse("24:00"), Hour::parse("9:05"), Hour::parse("09:05")), (None, None, Some(early)));
    }
}
