//! When a piece is wanted: the words as they were said, and the day and hour in them where they can be told.
//!
//! Knows no clock, so that "Saturday" stays a word and asks for its date.

use std::fmt;

/// A day of the calendar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day {
    year: u32,
    month: u32,
    day: u32,
}

/// An hour of a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Hour {
    /// 0 to 23.
    pub hour: u32,
    /// 0 to 59.
    pub minute: u32,
}

/// When a piece is wanted.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct When {
    typed: String,
    day: Option<Day>,
    hour: Option<Hour>,
}

/// Years that an order may name; our choice, so that a slip of the finger asks again.
const YEARS: std::ops::RangeInclusive<u32> = 2000..=2199;

/// Days from 1 January 1970 to 1 January 2000: thirty years, seven of them leap years.
const DAYS_TO_2000: i64 = 30 * 365 + 7;

/// Months as people write them, by their first three letters.
const MONTHS: [&str; 12] = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

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
}

impl Day {
    /// The day of this date, if there is one.
    pub fn new(year: u32, month: u32, day: u32) -> Option<Self> {
        let is_there = YEARS.contains(&year) && (1..=12).contains(&month) && day >= 1 && day <= length(year, month);
        is_there.then_some(Self { year, month, day })
    }

    /// Reads `2026-05-09` and nothing else.
    pub fn parse(text: &str) -> Option<Self> {
        let mut parts = text.trim().splitn(3, '-');
        let mut next = |digits: usize| {
            let part = parts.next()?;
            (part.len() == digits && part.bytes().all(|b| b.is_ascii_digit())).then(|| part.parse().ok())?
        };
        Self::new(next(4)?, next(2)?, next(2)?)
    }

    /// The day so many days after 1 January 1970, the count that computers keep; none outside the years of orders.
    pub fn after_1970(days: i64) -> Option<Self> {
        let mut left = u32::try_from(days.saturating_sub(DAYS_TO_2000)).ok()?;
        for (year, month) in YEARS.flat_map(|year| (1..=12).map(move |month| (year, month))) {
            let length = length(year, month);
            if left < length {
                return Self::new(year, month, left + 1);
            }
            left -= length;
        }
        None
    }

    /// Year, month from 1, day from 1.
    pub fn date(self) -> (u32, u32, u32) {
        (self.year, self.month, self.day)
    }

    /// The day so many days later; none beyond the years that an order may name.
    pub fn plus(self, days: u32) -> Option<Self> {
        let (mut at, mut left) = (self, days);
        loop {
            let in_month = length(at.year, at.month) - at.day;
            if left <= in_month {
                return Self::new(at.year, at.month, at.day + left);
            }
            left -= in_month + 1;
            let (year, month) = if at.month == 12 { (at.year + 1, 1) } else { (at.year, at.month + 1) };
            at = Self::new(year, month, 1)?;
        }
    }

    /// `9 May 2026`.
    pub fn in_words(self) -> String {
        let short = MONTHS[self.month as usize - 1];
        format!("{} {}{} {}", self.day, short[..1].to_uppercase(), &short[1..], self.year)
    }
}

/// `2026-05-09`.
impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

/// `14:00`.
impl fmt::Display for Hour {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:02}:{:02}", self.hour, self.minute)
    }
}

/// Days of a month, Gregorian calendar.
fn length(year: u32, month: u32) -> u32 {
    let is_leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    match month {
        4 | 6 | 9 | 11 => 30,
        2 if is_leap => 29,
        2 => 28,
        _ => 31,
    }
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
    let year = number(third).filter(|y| YEARS.contains(y))?;
    let ordinal = |w: &str| number(w.trim_end_matches(|c: char| c.is_alphabetic() || c == '.'));
    let (month, day) = match (month(first), month(second)) {
        (None, Some(month)) => (month, ordinal(first)?),
        (Some(month), None) => (month, ordinal(second)?),
        _ => return None,
    };
    Day::new(year, month, day)
}

fn month(word: &str) -> Option<u32> {
    let is_word = word.chars().all(|c| c.is_alphabetic() || c == '.');
    let at = MONTHS.iter().position(|m| is_word && word.starts_with(m))?;
    u32::try_from(at + 1).ok()
}

fn number(word: &str) -> Option<u32> {
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
        return Some(Hour { hour: 12, minute: 0 });
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
    (hour < 24 && minute < 60).then_some(Hour { hour, minute })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Counts of days by another program: Python's `datetime.date`, differences to 1 January 1970.
    #[test]
    fn a_count_of_days_is_the_day_that_other_calendars_tell() {
        let told = |days| Day::after_1970(days).map(|d| d.to_string());
        for (days, day) in [
            (10_957, "2000-01-01"),
            (20_785, "2026-11-28"),
            (21_243, "2028-02-29"),
            (21_244, "2028-03-01"),
            (84_005, "2199-12-31"),
        ] {
            assert_eq!(told(days).as_deref(), Some(day));
        }
        for beyond in [i64::MIN, 0, 10_956, 84_006, i64::MAX] {
            assert_eq!(told(beyond), None, "{beyond}");
        }
    }

    fn told(text: &str) -> (Option<String>, Option<String>) {
        let when = When::typed(text);
        assert_eq!(when.words(), text);
        (when.day().map(|d| d.to_string()), when.hour().map(|h| h.to_string()))
    }

    #[test]
    fn days_and_hours_are_told_where_the_words_tell_them() {
        for (text, day, hour) in [
            ("2026-05-09 14:00", Some("2026-05-09"), Some("14:00")),
            ("2026-05-09T09:30", Some("2026-05-09"), Some("09:30")),
            ("Sat 9 May 2026, 2 pm", Some("2026-05-09"), Some("14:00")),
            ("Saturday May 9th, 2026 at 1:45pm", Some("2026-05-09"), Some("13:45")),
            ("9 may 2026 12 a.m.", Some("2026-05-09"), Some("00:00")),
            ("29 Feb 2028 noon", Some("2028-02-29"), Some("12:00")),
            ("Saturday", None, None),
            ("Sat 2 pm", None, Some("14:00")),
            ("5/9/2026", None, None),
            ("31 June 2026", None, None),
            ("29 Feb 2027", None, None),
            ("9 May", None, None),
            ("25:00 13 pm 1:7", None, None),
            ("", None, None),
            ("\u{130}\u{df} t 9t", None, None),
        ] {
            assert_eq!(told(text), (day.map(str::to_owned), hour.map(str::to_owned)), "{text}");
        }
    }

    /// The Gregorian rule: 2000 is a leap year, 2100 is none.
    #[test]
    fn the_calendar_has_its_leap_years() {
        assert!(Day::new(2000, 2, 29).is_some() && Day::new(2028, 2, 29).is_some());
        assert!(Day::new(2100, 2, 29).is_none() && Day::new(2026, 2, 29).is_none());
        assert_eq!(Day::new(2026, 5, 9).unwrap().in_words(), "9 May 2026");
        let later = |text: &str, days| Day::parse(text).unwrap().plus(days).map(|d| d.to_string());
        assert_eq!(later("2026-12-25", 14).as_deref(), Some("2027-01-08"));
        assert_eq!(later("2028-02-28", 1).as_deref(), Some("2028-02-29"));
        // Four hundred years of that calendar have 146,097 days, a year of 2000 to 2001 has 366.
        assert_eq!(later("2000-01-01", 366).as_deref(), Some("2001-01-01"));
        assert_eq!(later("2000-03-01", 36_524).as_deref(), Some("2100-03-01"));
        assert_eq!((later("2026-05-09", 0).as_deref(), later("2199-12-31", 1)), (Some("2026-05-09"), None));
        assert_eq!(later("2026-05-09", u32::MAX), None);
        for text in ["2026-5-9", "2026-05-32", "26-05-09", "2026-05-09-1", "", "+026-05-09"] {
            assert_eq!(Day::parse(text), None, "{text}");
        }
    }
}
