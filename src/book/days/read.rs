//! How words about a day are read: `5 Dec`, `Saturday`, `12/5`, `5.12.2026`, `5 Dec 2 pm`, `14:00`.
//!
//! A day without its year, and a day of the week, is the next such day from the one that is given as today. A day in
//! figures alone is read the way the shop writes days; where the shop names the month, and both ways give a day, it is
//! left unread and both are offered. Whatever is not part of a day or an hour stays words.

use super::day::{Day, Hour};
use super::doubt::DayDoubt;
use super::written::{DateStyle, Written};
use jiff::civil::Weekday;

/// What words are read by.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct DayReader {
    /// From which day the next one counts; without it only days with their year are read.
    pub today: Option<Day>,
    /// How the shop writes days.
    pub written: Written,
}

/// What was read.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct ReadDay {
    pub(super) day: Option<Day>,
    pub(super) hour: Option<Hour>,
    pub(super) doubt: Option<DayDoubt>,
    /// The words that tell neither.
    pub(super) rest: String,
}

/// Months as people write them.
const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];
/// Days of the week likewise.
const WEEKDAYS: [(&str, Weekday); 7] = [
    ("Monday", Weekday::Monday),
    ("Tuesday", Weekday::Tuesday),
    ("Wednesday", Weekday::Wednesday),
    ("Thursday", Weekday::Thursday),
    ("Friday", Weekday::Friday),
    ("Saturday", Weekday::Saturday),
    ("Sunday", Weekday::Sunday),
];
/// Above this two figures after a month are a year: no hour is.
const LAST_HOUR: i16 = 24;
/// Years by their last two figures are of this century.
const CENTURY: i16 = 2000;
/// The next 29 February is never more than eight years away.
const YEARS_AHEAD: i16 = 8;

/// A word as it was typed and in small letters, without what stops it.
struct DayWord<'a> {
    typed: &'a str,
    plain: String,
}

/// A day of the year, or of one year.
#[derive(Clone, Copy)]
struct NamedDay {
    day: i16,
    month: i16,
    year: Option<i16>,
}

/// Words of the list, from one up to another.
type Span = std::ops::Range<usize>;

/// Reads the words.
pub(super) fn read(text: &str, reader: DayReader) -> ReadDay {
    let words = words_of(text);
    let named = in_iso(&words).or_else(|| spelled(&words)).or_else(|| in_figures(&words, reader));
    let (mut used, mut doubt) = (vec![false; words.len()], None);
    let mut day = None;
    if let Some((span, meant)) = named {
        match meant.settle(reader) {
            Ok(found) => {
                day = found;
                mark(&mut used, &span, day.is_some());
            }
            Err(why) => doubt = Some(why),
        }
    }
    let weekday = words.iter().enumerate().find_map(|(i, word)| Some((i, weekday_of(&word.plain)?)));
    if day.is_none() && doubt.is_none() {
        let coming = coming(&words, weekday, reader.today);
        day = coming.as_ref().map(|(_, day)| *day);
        if let Some((span, _)) = &coming {
            mark(&mut used, span, true);
        }
        doubt = two_meanings(&words, reader.today).filter(|_| day.is_none()).map(DayDoubt::Two);
    } else if let (Some((at, said)), Some(day)) = (weekday, day) {
        used[at] = true;
        doubt = (said != day.weekday()).then_some(DayDoubt::OtherWeekday { said, has: day.weekday() });
    }
    let hour = hour_in(&words, &used, day.is_some());
    if let Some((span, _)) = &hour {
        mark(&mut used, span, true);
    }
    ReadDay { day, hour: hour.map(|(_, hour)| hour), doubt, rest: rest(&words, &used) }
}

fn words_of(text: &str) -> Vec<DayWord<'_>> {
    let ends = |c: char| c.is_whitespace() || matches!(c, ',' | ';');
    let typed = text.split_inclusive(ends).map(str::trim);
    let plain = |word: &str| word.trim_matches(|c: char| matches!(c, ',' | ';' | '(' | ')')).to_lowercase();
    typed.map(|typed| DayWord { typed, plain: plain(typed) }).filter(|word| !word.plain.is_empty()).collect()
}

fn mark(used: &mut [bool], span: &Span, is_used: bool) {
    used[span.clone()].fill(is_used);
}

/// What is left of the words, without those that only led to a day or an hour.
fn rest(words: &[DayWord<'_>], used: &[bool]) -> String {
    let leads = |i: usize| {
        matches!(words[i].plain.as_str(), "at" | "on" | "for" | "by") && used.get(i + 1).copied().unwrap_or_default()
    };
    let kept = (0..words.len()).filter(|&i| !used[i] && !leads(i)).map(|i| words[i].typed);
    let kept = kept.collect::<Vec<_>>().join(" ");
    kept.trim_matches([',', ';', ' ']).to_owned()
}

/// What is left of words that tell no day when whatever was meant for one goes as well.
pub(super) fn rest_without_days(text: &str) -> String {
    let rest = read(text, DayReader::default()).rest;
    let is_of_a_day = |word: &str| {
        matches!(word, "next" | "last" | "this" | "or" | "week" | "today" | "tonight" | "tomorrow")
            || month_of(word).is_some()
            || weekday_of(word).is_some()
            || figures(word).is_some()
            || ordinal(word).is_some()
    };
    let kept = words_of(&rest).into_iter().filter(|word| !is_of_a_day(&word.plain)).map(|word| word.typed);
    kept.collect::<Vec<_>>().join(" ").trim_matches([',', ';', ' ']).to_owned()
}

impl NamedDay {
    /// The day, which is the next one where no year was said; none where it cannot be told from which day to count.
    fn settle(self, reader: DayReader) -> Result<Option<Day>, DayDoubt> {
        let Self { day, month, year } = self;
        let (Ok(month), Ok(short)) = (i8::try_from(month), i8::try_from(day)) else { return Ok(None) };
        let none = DayDoubt::NoSuchDay { day, month, year };
        match (year, reader.today) {
            (Some(year), _) if Day::new(year, month, 1).is_none() => Ok(None),
            (Some(year), _) => Day::new(year, month, short).map(Some).ok_or(none),
            // In a leap year every day of the calendar is there.
            (None, _) if Day::new(CENTURY, month, short).is_none() => Err(none),
            (None, Some(today)) => {
                let (from, ..) = today.parts();
                let next = (from..=from + YEARS_AHEAD).filter_map(|year| Day::new(year, month, short));
                Ok(next.into_iter().find(|day| *day >= today))
            }
            (None, None) => Ok(None),
        }
    }
}

/// `2026-05-09`, also before `T14:00`.
fn in_iso(words: &[DayWord<'_>]) -> Option<(Span, NamedDay)> {
    words.iter().enumerate().find_map(|(i, word)| {
        let date = word.plain.split_once('t').map_or(word.plain.as_str(), |(date, _)| date);
        let mut parts = date.splitn(3, '-');
        let mut next = |digits: usize| parts.next().filter(|part| part.len() == digits).and_then(number);
        let (year, month, day) = (next(4)?, next(2)?, next(2)?);
        (1..=12).contains(&month).then_some((i..i + 1, NamedDay { day, month, year: Some(year) }))
    })
}

/// `9 May 2026`, `May 9th`, `5th of December '26`.
fn spelled(words: &[DayWord<'_>]) -> Option<(Span, NamedDay)> {
    let found = |i: usize| {
        let first = &words.get(i)?.plain;
        let second = i + 1 + usize::from(words.get(i + 1)?.plain == "of");
        let next = &words.get(second)?.plain;
        let (month, day) = match (month_of(first), month_of(next)) {
            (None, Some(month)) => (month, ordinal(first)?),
            (Some(month), None) => (month, ordinal(next)?),
            _ => return None,
        };
        let year = words.get(second + 1).and_then(|word| year_of(&word.plain));
        Some((i..second + 1 + usize::from(year.is_some()), NamedDay { day, month, year }))
    };
    (0..words.len()).find_map(found)
}

/// `2026`, `'26`, and `26` where it can be no hour.
fn year_of(word: &str) -> Option<i16> {
    let short = word.strip_prefix(['\'', '\u{2019}']);
    let year = number(short.unwrap_or(word))?;
    match (short, word.len()) {
        (Some(two), _) => (two.len() == 2).then_some(CENTURY + year),
        (None, 4) => Some(year),
        (None, 2) => (year > LAST_HOUR).then_some(CENTURY + year),
        (None, _) => None,
    }
}

fn ordinal(word: &str) -> Option<i16> {
    let end = word.find(|c: char| !c.is_ascii_digit()).unwrap_or(word.len());
    let is_end = matches!(&word[end..], "" | "." | "st" | "nd" | "rd" | "th");
    number(&word[..end]).filter(|day| is_end && *day > 0)
}

fn month_of(word: &str) -> Option<i16> {
    let word = word.trim_end_matches('.');
    let at = MONTHS.iter().position(|name| word == "sept" || is_short_for(word, name))?;
    let at = if word == "sept" { 8 } else { at };
    i16::try_from(at + 1).ok()
}

fn weekday_of(word: &str) -> Option<Weekday> {
    let word = word.trim_end_matches('.');
    WEEKDAYS.iter().find(|(name, _)| is_short_for(word, name)).map(|(_, day)| *day)
}

/// Whether a word in small letters is a name or its beginning, three letters at least.
fn is_short_for(word: &str, name: &str) -> bool {
    word.len() >= 3 && name.to_lowercase().starts_with(word)
}

/// `December`; empty for a month that there is not.
pub(super) fn full_month(month: i8) -> &'static str {
    usize::try_from(month - 1).ok().and_then(|at| MONTHS.get(at)).copied().unwrap_or_default()
}

/// `Saturday`.
pub(super) fn full_weekday(day: Weekday) -> &'static str {
    WEEKDAYS.iter().find(|(_, of)| *of == day).map_or("", |(name, _)| name)
}

/// `12/5/2026`, `5.12.26`, `12-5-2026`, `12/5`, `5.12.`, read in the shop's way.
fn in_figures(words: &[DayWord<'_>], reader: DayReader) -> Option<(Span, NamedDay)> {
    words.iter().enumerate().find_map(|(i, word)| {
        let next = words.get(i + 1).map_or("", |next| next.plain.as_str());
        let figures = figures(&word.plain).filter(|_| half_of(next).is_none())?;
        figures.meant(reader.written.date).map(|named| (i..i + 1, named))
    })
}

/// Two figures as they were typed, and a year.
#[derive(Clone, Copy)]
struct DayFigures {
    pair: [i16; 2],
    year: Option<i16>,
    /// `9.30`, which may be an hour as well.
    is_dotted_pair: bool,
}

fn figures(word: &str) -> Option<DayFigures> {
    let word = word.trim_end_matches('.');
    let mark = word.chars().find(|c| matches!(c, '/' | '.' | '-'))?;
    let parts: Vec<&str> = word.split(mark).collect();
    let pair = |a: &str, b: &str| {
        Some([a, b].map(|part| (1..=2).contains(&part.len()).then(|| number(part)).flatten()))
            .and_then(|[a, b]| Some([a?, b?]))
    };
    match parts.as_slice() {
        [a, b, year] => {
            let figure = number(year)?;
            let year = match year.len() {
                4 => figure,
                2 => CENTURY + figure,
                _ => return None,
            };
            Some(DayFigures { pair: pair(a, b)?, year: Some(year), is_dotted_pair: false })
        }
        // `2-3 pm` is a time from one hour to another.
        [a, b] if mark != '-' => Some(DayFigures { pair: pair(a, b)?, year: None, is_dotted_pair: mark == '.' }),
        _ => None,
    }
}

impl DayFigures {
    /// Month first, day first: the ways in which it names a day of some year.
    fn ways(self) -> [Option<NamedDay>; 2] {
        let Self { pair: [first, second], year, .. } = self;
        let way = |month: i16, day: i16| {
            let month = i8::try_from(month).ok()?;
            // Without a year any day that some year has.
            Day::new(year.unwrap_or(CENTURY), month, i8::try_from(day).ok()?)?;
            Some(NamedDay { day, month: i16::from(month), year })
        };
        [way(first, second), way(second, first)]
    }

    fn meant(self, style: DateStyle) -> Option<NamedDay> {
        match (self.ways(), style) {
            ([Some(one), Some(_)], DateStyle::MonthName) => (self.pair[0] == self.pair[1]).then_some(one),
            ([_, Some(day_first)], DateStyle::Dots) => Some(day_first),
            ([Some(month_first), Some(_)], DateStyle::Slashes) => Some(month_first),
            _ if self.is_dotted_pair => None,
            ([Some(only), None] | [None, Some(only)], _) => Some(only),
            // Months there are, but the day is none of theirs: it is told why it is none.
            ([None, None], _) => {
                let Self { pair: [first, second], year, .. } = self;
                let is_month = |figure: i16| (1..=12).contains(&figure);
                let is_day = |figure: i16| (1..=31).contains(&figure);
                let way = |month, day| (is_month(month) && is_day(day)).then_some(NamedDay { day, month, year });
                way(first, second).or_else(|| way(second, first))
            }
        }
    }
}

/// The two days that figures such as `12/5` or `12/5/2026` may mean, the month first and the day first, each the next one
/// where no year was said; none where they mean one day, or none.
fn two_meanings(words: &[DayWord<'_>], today: Option<Day>) -> Option<[Day; 2]> {
    let [month_first, day_first] = words.iter().find_map(|word| figures(&word.plain))?.ways();
    let reader = DayReader { today, ..DayReader::default() };
    let day = |named: Option<NamedDay>| named?.settle(reader).ok().flatten();
    let days = [day(month_first)?, day(day_first)?];
    (days[0] != days[1]).then_some(days)
}

/// `today`, `tomorrow`, and the next day of this name after today. "Next Saturday" is the coming one to some and the one after
/// to others, so it stays words.
fn coming(words: &[DayWord<'_>], weekday: Option<(usize, Weekday)>, today: Option<Day>) -> Option<(Span, Day)> {
    let today = today?;
    let days_on = |word: &str| match word {
        "today" | "tonight" => Some(0),
        "tomorrow" => Some(1),
        _ => None,
    };
    if let Some((at, days)) = words.iter().enumerate().find_map(|(i, word)| Some((i, days_on(&word.plain)?))) {
        return Some((at..at + 1, today.plus(days)?));
    }
    let (at, weekday) = weekday?;
    let is = |i: Option<usize>, names: &[&str]| {
        i.and_then(|i| words.get(i)).is_some_and(|word| names.contains(&word.plain.as_str()))
    };
    let before = at.checked_sub(1);
    if is(before, &["next", "last", "every", "after", "before", "or", "not"]) || is(Some(at + 1), &["or", "week"]) {
        return None;
    }
    let from = if is(before, &["this"]) { at - 1 } else { at };
    let ahead = i64::from(today.weekday().until(weekday));
    Some((from..at + 1, today.plus(if ahead == 0 { 7 } else { ahead })?))
}

/// Figures alone, four at the most.
pub(super) fn number(word: &str) -> Option<i16> {
    let plain = !word.is_empty() && word.len() <= 4 && word.bytes().all(|b| b.is_ascii_digit());
    plain.then(|| word.parse().ok()).flatten()
}

/// The first hour that the words name: `14:00`, `2 pm`, `2:30pm`, `2.30 pm`, `noon`; `14.30` where it is no day.
fn hour_in(words: &[DayWord<'_>], used: &[bool], has_day: bool) -> Option<(Span, Hour)> {
    let after = |i: usize| words.get(i + 1).map_or("", |word| word.plain.as_str());
    words.iter().enumerate().find_map(|(i, word)| {
        let in_iso = word.plain.split_once('t').filter(|(day, _)| Day::parse(day).is_some()).map(|(_, hour)| hour);
        if in_iso.is_none() && used[i] {
            return None;
        }
        let (hour, n_words) = hour_at(in_iso.unwrap_or(&word.plain), after(i), has_day)?;
        Some((i..i + n_words, hour))
    })
}

/// Whether figures name a day of some year, the month or the day first as well.
fn may_be_day(word: &str) -> bool {
    figures(word).is_some_and(|figures| figures.ways().iter().all(Option::is_some))
}

/// `am` and `pm`: the hours that are added.
fn half_of(word: &str) -> Option<i16> {
    match word.replace('.', "").as_str() {
        "am" => Some(0),
        "pm" => Some(12),
        _ => None,
    }
}

/// The hour, and over how many words it goes.
fn hour_at(word: &str, next: &str, has_day: bool) -> Option<(Hour, usize)> {
    if matches!(word, "noon" | "midday") {
        return Some((Hour::new(12, 0)?, 1));
    }
    let digits = word.trim_end_matches(|c: char| c.is_alphabetic() || c == '.');
    let attached = half_of(&word[digits.len()..]);
    let apart = half_of(next).filter(|_| digits.len() == word.len());
    let offset = attached.or(apart);
    let (hour, minute) = match digits.split_once([':', '.']) {
        Some((hour, minute)) if has_day || offset.is_some() || !may_be_day(digits) => {
            (number(hour)?, number(minute).filter(|_| minute.len() == 2)?)
        }
        Some(_) => return None,
        None => (number(digits).filter(|_| offset.is_some())?, 0),
    };
    let hour = match offset {
        Some(offset) if (1..=12).contains(&hour) => hour % 12 + offset,
        Some(_) => return None,
        None => hour,
    };
    Some((Hour::new(hour, minute)?, 1 + usize::from(apart.is_some())))
}
