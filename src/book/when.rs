//! When a piece is picked up: the words as they were said, and the day and time in them where they can be read.
//!
//! The calendar is that of `jiff`. Knows no clock: a day is computed from an instant and a zone that are given, and
//! "Saturday" stays a word and asks for its date.

use std::fmt;

use jiff::civil::{Date, Time, Weekday};
use jiff::tz::TimeZone;
use jiff::{Span, Timestamp};

/// A day of the calendar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(Date);

/// A time of a day, to the minute.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Hour(Time);

/// When a piece is picked up.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct When {
    typed: String,
    day: Option<Day>,
    hour: Option<Hour>,
}

/// Years that an order may name; our choice, so that a slip of the finger asks again.
const YEARS: std::ops::RangeInclusive<i16> = 2000..=2199;

/// Months as people write them, by their first three letters.
const MONTHS: [&str; 12] = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
/// Days of the week likewise.
const WEEKDAYS: [&str; 7] = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];

impl When {
    /// From words as said: `2026-05-09 14:00`, `Sat 9 May 2026, 2 pm`, `next Saturday`.
    pub fn typed(text: &str) -> Self {
        let words = words_of(text);
        Self { typed: text.to_owned(), day: day_in(&words), hour: hour_in(&words) }
    }

    /// The words.
    pub fn words(&self) -> &str {
        &self.typed
    }
    /// The day, where the words tell it.
    pub fn day(&self) -> Option<Day> {
        self.day
    }
    /// The hour, where the words tell it.
    pub fn hour(&self) -> Option<Hour> {
        self.hour
    }
    /// Whether nothing is known.
    pub fn is_blank(&self) -> bool {
        self.typed.trim().is_empty()
    }

    /// As it stands in lists and on papers: `Sat 9 May 2026, 2:00 pm`. Words that say more than day and time, or that tell
    /// no day, stay as they were typed.
    pub fn text(&self) -> String {
        let says_more = || words_of(&self.typed).iter().any(|word| !is_of_a_date(word));
        match (self.day, self.hour) {
            (Some(day), Some(hour)) if !says_more() => format!("{}, {hour}", day.with_weekday()),
            (Some(day), None) if !says_more() => day.with_weekday(),
            (Some(_) | None, _) => self.typed.trim().to_owned(),
        }
    }

    /// The two days that `12/5/2026` may mean, the month first and the day first; none where the words tell one day, or none.
    pub fn two_meanings(&self) -> Option<[Day; 2]> {
        let words = words_of(&self.typed);
        let [first, second, year] = words.iter().find_map(|word| {
            let parts: Vec<i16> = word.split(['/', '.']).map(number).collect::<Option<_>>()?;
            <[i16; 3]>::try_from(parts).ok()
        })?;
        let day = |month: i16, day: i16| Day::new(year, i8::try_from(month).ok()?, i8::try_from(day).ok()?);
        let [a, b] = [day(first, second)?, day(second, first)?];
        (self.day.is_none() && a != b).then_some([a, b])
    }
}

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
        let mut next = |digits: usize| parts.next().filter(|part| part.len() == digits).and_then(number);
        let (year, month, day) = (next(4)?, next(2)?, next(2)?);
        Self::new(year, i8::try_from(month).ok()?, i8::try_from(day).ok()?)
    }

    /// The day so many days later, earlier where they are below none; none outside the years that an order may name.
    pub fn plus(self, days: i64) -> Option<Self> {
        self.0.checked_add(Span::new().try_days(days).ok()?).ok().and_then(Self::of)
    }

    /// `9 May 2026`.
    pub fn text(self) -> String {
        self.0.strftime("%-d %b %Y").to_string()
    }

    /// `Sat 9 May 2026`.
    pub fn with_weekday(self) -> String {
        self.0.strftime("%a %-d %b %Y").to_string()
    }

    /// The day of the week.
    pub fn weekday(self) -> Weekday {
        self.0.weekday()
    }
}

/// `2026-05-09`, as in files.
impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(&self.0, f)
    }
}

impl Hour {
    fn new(hour: i16, minute: i16) -> Option<Self> {
        Time::new(i8::try_from(hour).ok()?, i8::try_from(minute).ok()?, 0, 0).ok().map(Self)
    }
}

/// `2:00 pm`.
impl fmt::Display for Hour {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (hour, half) = (self.0.hour(), if self.0.hour() < 12 { "am" } else { "pm" });
        let hour = if hour % 12 == 0 { 12 } else { hour % 12 };
        write!(f, "{hour}:{:02} {half}", self.0.minute())
    }
}

/// Whether a word tells day or time and nothing else.
fn is_of_a_date(word: &str) -> bool {
    let starts = |names: &[&str]| names.iter().any(|name| word.starts_with(name));
    let is_letters = word.chars().all(|c| c.is_alphabetic() || c == '.');
    if is_letters {
        return starts(&MONTHS)
            || starts(&WEEKDAYS)
            || ["at", "on", "noon", "am", "pm", "a.m.", "p.m."].contains(&word);
    }
    word.starts_with(|c: char| c.is_ascii_digit())
        && word.chars().filter(|c| c.is_alphabetic()).count() <= 2
        && !word.contains('/')
}

fn words_of(text: &str) -> Vec<String> {
    let lower = text.to_lowercase();
    lower.split([' ', ',', ';', '\t', '\n']).filter(|w| !w.is_empty()).map(str::to_owned).collect()
}

/// The first day that the words name with its year; `5/9/2026` means two days to two people and is not taken.
fn day_in(words: &[String]) -> Option<Day> {
    let dashed = words.iter().find_map(|w| Day::parse(w).or_else(|| Day::parse(w.split_once('t')?.0)));
    dashed.or_else(|| words.windows(3).find_map(|w| spelled(&w[0], &w[1], &w[2])))
}

/// `9 May 2026` and `May 9 2026`, also with `9th`.
fn spelled(first: &str, second: &str, third: &str) -> Option<Day> {
    let year = number(third)?;
    let ordinal = |w: &str| number(w.trim_end_matches(|c: char| c.is_alphabetic() || c == '.'));
    let (month, day) = match (month(first), month(second)) {
        (None, Some(month)) => (month, ordinal(first)?),
        (Some(month), None) => (month, ordinal(second)?),
        _ => return None,
    };
    Day::new(year, month, i8::try_from(day).ok()?)
}

fn month(word: &str) -> Option<i8> {
    let is_word = word.chars().all(|c| c.is_alphabetic() || c == '.');
    let at = MONTHS.iter().position(|m| is_word && word.starts_with(m))?;
    i8::try_from(at + 1).ok()
}

fn number(word: &str) -> Option<i16> {
    let plain = !word.is_empty() && word.len() <= 4 && word.bytes().all(|b| b.is_ascii_digit());
    plain.then(|| word.parse().ok()).flatten()
}

/// The first hour that the words name: `14:00`, `2 pm`, `2:30pm`, `noon`.
fn hour_in(words: &[String]) -> Option<Hour> {
    let after = |i: usize| words.get(i + 1).map_or("", String::as_str);
    words.iter().enumerate().find_map(|(i, word)| {
        let late = word.split_once('t').filter(|(day, _)| Day::parse(day).is_some()).map_or(word.as_str(), |w| w.1);
        hour_at(late, after(i))
    })
}

fn hour_at(word: &str, next: &str) -> Option<Hour> {
    if word == "noon" {
        return Hour::new(12, 0);
    }
    let half = |w: &str| match w.replace('.', "").as_str() {
        "am" => Some(0),
        "pm" => Some(12),
        _ => None,
    };
    let digits = word.trim_end_matches(|c: char| c.is_alphabetic() || c == '.');
    let offset = half(&word[digits.len()..]).or_else(|| half(next).filter(|_| digits.len() == word.len()));
    let (hour, minute) = match digits.split_once(':') {
        Some((hour, minute)) => (number(hour)?, number(minute).filter(|_| minute.len() >= 2)?),
        None => (number(digits).filter(|_| offset.is_some())?, 0),
    };
    let hour = match offset {
        Some(offset) if (1..=12).contains(&hour) => hour % 12 + offset,
        Some(_) => return None,
        None => hour,
    };
    Hour::new(hour, minute)
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

    fn read(text: &str) -> (Option<String>, Option<String>) {
        let when = When::typed(text);
        assert_eq!(when.words(), text);
        (when.day().map(|d| d.to_string()), when.hour().map(|h| h.to_string()))
    }

    #[test]
    fn days_and_times_are_read_where_the_words_tell_them() {
        for (text, day, hour) in [
            ("2026-05-09 14:00", Some("2026-05-09"), Some("2:00 pm")),
            ("2026-05-09T09:30", Some("2026-05-09"), Some("9:30 am")),
            ("Sat 9 May 2026, 2 pm", Some("2026-05-09"), Some("2:00 pm")),
            ("Saturday May 9th, 2026 at 1:45pm", Some("2026-05-09"), Some("1:45 pm")),
            ("9 may 2026 12 a.m.", Some("2026-05-09"), Some("12:00 am")),
            ("29 Feb 2028 noon", Some("2028-02-29"), Some("12:00 pm")),
            ("Saturday", None, None),
            ("Sat 2 pm", None, Some("2:00 pm")),
            ("5/9/2026", None, None),
            ("31 June 2026", None, None),
            ("29 Feb 2027", None, None),
            ("9 May", None, None),
            ("9 May 1999", None, None),
            ("25:00 13 pm 1:7 3:60", None, None),
            ("", None, None),
            ("\u{130}\u{df} t 9t", None, None),
        ] {
            assert_eq!(read(text), (day.map(str::to_owned), hour.map(str::to_owned)), "{text}");
        }
    }

    /// 9 May 2026 is a Saturday (ISO 8601 week date 2026-W19-6).
    #[test]
    fn day_and_time_are_written_in_one_form_however_they_were_typed() {
        for (typed, text) in [
            ("2026-05-09 14:00", "Sat 9 May 2026, 2:00 pm"),
            ("Saturday May 9th, 2026 at 1:45pm", "Sat 9 May 2026, 1:45 pm"),
            ("2026-05-09T09:30", "Sat 9 May 2026, 9:30 am"),
            ("on 9 May 2026", "Sat 9 May 2026"),
            ("9 May 2026 2 pm, back door", "9 May 2026 2 pm, back door"),
            (" next Saturday ", "next Saturday"),
            ("12/5/2026", "12/5/2026"),
            ("", ""),
        ] {
            assert_eq!(When::typed(typed).text(), text);
        }
    }

    #[test]
    fn a_date_in_numbers_has_two_meanings_unless_only_one_can_be() {
        let told = |text: &str| When::typed(text).two_meanings().map(|days| days.map(Day::text));
        let both = ["5 Dec 2026", "12 May 2026"].map(str::to_owned);
        assert_eq!(told("12/5/2026, 2 pm"), Some(both));
        for text in ["5/5/2026", "13/5/2026", "9 May 2026", "12/5", "12/5/1899", ""] {
            assert_eq!(told(text), None, "{text}");
        }
    }

    /// The Gregorian rule: 2000 is a leap year, 2100 is none. Four hundred years of that calendar have 146,097 days, the first
    /// hundred from March 2000 36,524.
    #[test]
    fn the_calendar_has_its_leap_years() {
        assert!(Day::new(2000, 2, 29).is_some() && Day::new(2028, 2, 29).is_some());
        assert!(Day::new(2100, 2, 29).is_none() && Day::new(2026, 2, 29).is_none());
        assert!(Day::new(1999, 12, 31).is_none() && Day::new(2200, 1, 1).is_none());
        let day = Day::new(2026, 5, 9).unwrap();
        assert_eq!((day.text(), day.with_weekday()), ("9 May 2026".to_owned(), "Sat 9 May 2026".to_owned()));
        assert_eq!(day.weekday(), Weekday::Saturday);
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
}
