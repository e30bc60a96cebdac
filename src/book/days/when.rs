//! A day, with its hour where that was said: the words as they were said, and what they tell.

use super::day::{Day, Hour};
use super::doubt::DayDoubt;
use super::read::{DayReader, read, rest_without_days};
use super::written::{DateStyle, Written};

/// When something is: the words as they were typed, and the day and the hour that they told on the day they were typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct When {
    typed: String,
    day: Option<Day>,
    hour: Option<Hour>,
}

impl When {
    /// From words that tell all by themselves: `2026-05-09 14:00`, `Sat 9 May 2026, 2 pm`. Of `next Saturday` and `12/5`
    /// the words stay.
    pub fn typed(text: &str) -> Self {
        Self::read(text, DayReader::default())
    }

    /// From words as they are typed in a shop on a day.
    pub fn read(text: &str, reader: DayReader) -> Self {
        let found = read(text, reader);
        Self { typed: text.to_owned(), day: found.day, hour: found.hour }
    }

    /// With a day that was chosen for it. Words that told another day go, and the rest stays.
    #[must_use]
    pub fn on(&self, day: Day, written: Written) -> Self {
        self.chosen(Some(day), self.hour, written)
    }

    /// With an hour that was chosen for it.
    #[must_use]
    pub fn at(&self, hour: Hour, written: Written) -> Self {
        self.chosen(self.day, Some(hour), written)
    }

    fn chosen(&self, day: Option<Day>, hour: Option<Hour>, written: Written) -> Self {
        let rest = self.day.map_or_else(|| rest_without_days(&self.typed), |day| self.rest(day));
        Self { typed: composed(day, hour, rest, written), day, hour }
    }

    /// Words with the day and the hour that they told on the day they were typed.
    pub fn told(words: &str, day: Option<Day>, hour: Option<Hour>) -> Self {
        Self { typed: words.to_owned(), day, hour }
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

    /// As it stands in lists and on papers: `Sat 9 May 2026, 2:00 pm`, then the words that say more. Words that tell no day
    /// stay as they were typed.
    pub fn written(&self, written: Written) -> String {
        let Some(day) = self.day else { return self.typed.trim().to_owned() };
        composed(Some(day), self.hour, self.rest(day), written)
    }

    /// The words that tell neither day nor hour, in whichever way the day was read.
    fn rest(&self, day: Day) -> String {
        let read_as = |date| {
            let written = Written { date, ..Written::default() };
            read(&self.typed, DayReader { today: Some(day), written })
        };
        let mut ways: Vec<_> = DateStyle::ALL.into_iter().map(read_as).collect();
        let at = ways.iter().position(|found| found.day == Some(day)).unwrap_or_default();
        ways.swap_remove(at).rest
    }

    /// What is odd about the day in the words, typed on the day `today`.
    pub fn doubt(&self, today: Option<Day>) -> Option<DayDoubt> {
        let reader = DayReader { today: self.day.or(today), written: Written::default() };
        let doubt = read(&self.typed, reader).doubt?;
        let is_open = match doubt {
            DayDoubt::Two(_) | DayDoubt::NoSuchDay { .. } => self.day.is_none(),
            DayDoubt::OtherWeekday { .. } => self.day.is_some(),
        };
        is_open.then_some(doubt)
    }
}

/// `Sat 5 Dec 2026, 2:00 pm, back door`.
fn composed(day: Option<Day>, hour: Option<Hour>, rest: String, written: Written) -> String {
    let day = day.map(|day| day.with_weekday(written.date));
    let hour = hour.map(|hour| hour.written(written.hour));
    let parts = [day, hour, Some(rest).filter(|rest| !rest.is_empty())];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Tuesday 1 December 2026: in a wall calendar of 2026 the fifth is a Saturday.
    fn today() -> Option<Day> {
        Day::parse("2026-12-01")
    }

    fn read_in(text: &str, date: DateStyle) -> When {
        let when = When::read(text, DayReader { today: today(), written: Written { date, ..Written::default() } });
        assert_eq!(when.words(), text);
        when
    }

    fn told(when: &When) -> String {
        let day = when.day().map_or_else(|| "-".to_owned(), |day| day.to_string());
        when.hour().map_or(day.clone(), |hour| format!("{day} {hour}"))
    }

    #[test]
    fn days_and_times_are_read_where_the_words_tell_them_by_themselves() {
        for (text, found) in [
            ("2026-05-09 14:00", "2026-05-09 14:00"),
            ("2026-05-09T09:30", "2026-05-09 09:30"),
            ("Sat 9 May 2026, 2 pm", "2026-05-09 14:00"),
            ("Saturday May 9th, 2026 at 1:45pm", "2026-05-09 13:45"),
            ("9 may 2026 12 a.m.", "2026-05-09 00:00"),
            ("29 Feb 2028 noon", "2028-02-29 12:00"),
            ("9 May \u{2019}26", "2026-05-09"),
            ("Saturday", "-"),
            ("Sat 2 pm", "- 14:00"),
            ("5/9/2026", "-"),
            ("31 June 2026", "-"),
            ("29 Feb 2027", "-"),
            ("9 May", "-"),
            ("9 May 1999", "-"),
            ("25:00 13 pm 1:7 3:60", "-"),
            ("", "-"),
            ("\u{130}\u{df} t 9t", "-"),
        ] {
            assert_eq!(told(&When::typed(text)), found, "{text}");
        }
    }

    /// Worked by hand with a calendar of December 2026 to May 2027, today being Tuesday 1 December 2026.
    #[test]
    fn the_next_such_day_is_meant_in_each_way_of_writing() {
        const NAMED: usize = 0;
        const SLASHES: usize = 1;
        const DOTS: usize = 2;
        let same = |words, day| (words, [day; 3]);
        let table = [
            same("5 Dec", "2026-12-05"),
            same("Dec 5", "2026-12-05"),
            same("5th of December", "2026-12-05"),
            same("1 Dec", "2026-12-01"),
            same("30 Nov", "2027-11-30"),
            same("5 Dec 2 pm", "2026-12-05 14:00"),
            same("2pm Dec 5", "2026-12-05 14:00"),
            same("5 Dec 14:00", "2026-12-05 14:00"),
            same("5 Dec at 9.30", "2026-12-05 09:30"),
            same("Sat 9.30", "2026-12-05 09:30"),
            same("14:00", "- 14:00"),
            same("14.30", "- 14:30"),
            same("2.30 pm", "- 14:30"),
            same("Saturday", "2026-12-05"),
            same("sat", "2026-12-05"),
            same("Tuesday", "2026-12-08"),
            same("Monday noon", "2026-12-07 12:00"),
            same("this Saturday 10 am", "2026-12-05 10:00"),
            same("next Saturday", "-"),
            same("Saturday week", "-"),
            same("Fri or Sat", "-"),
            same("today", "2026-12-01"),
            same("tomorrow 9 am", "2026-12-02 09:00"),
            same("29 Feb", "2028-02-29"),
            same("31 June", "-"),
            same("29/2/2027", "-"),
            same("25/12", "2026-12-25"),
            same("12/25", "2026-12-25"),
            same("5/5/2027", "2027-05-05"),
            same("2026-12-05", "2026-12-05"),
            same("2-3 pm", "-"),
            same("wedding day", "-"),
            same("maybe sunny", "-"),
            ("12/5", ["-", "2026-12-05", "2027-05-12"]),
            ("12/5/2026, 2 pm", ["- 14:00", "2026-12-05 14:00", "2026-05-12 14:00"]),
            ("5.12.2026", ["-", "2026-05-12", "2026-12-05"]),
            ("5.12.", ["-", "2027-05-12", "2026-12-05"]),
            ("25.12.", ["-", "-", "2026-12-25"]),
            ("9.10", ["-", "2027-09-10", "2027-10-09"]),
            ("12-5-26", ["-", "2026-12-05", "2026-05-12"]),
        ];
        for (words, days) in table {
            for style in [NAMED, SLASHES, DOTS] {
                let when = read_in(words, DateStyle::ALL[style]);
                assert_eq!(told(&when), days[style], "{words} {:?}", DateStyle::ALL[style]);
            }
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
            ("9 May 2026 2 pm, back door, ring twice", "Sat 9 May 2026, 2:00 pm, back door, ring twice"),
            ("at the back door on 9 May 2026", "Sat 9 May 2026, at the back door"),
            (" next Saturday ", "next Saturday"),
            ("12/5/2026", "12/5/2026"),
            ("", ""),
        ] {
            assert_eq!(When::typed(typed).written(Written::default()), text);
        }
        let dots = Written { date: DateStyle::Dots, hour: crate::book::HourStyle::Hours24 };
        for (typed, style, text) in [
            ("Saturday 2 pm", DateStyle::MonthName, "Sat 05.12.2026, 14:00"),
            ("12/5, 2 pm", DateStyle::Slashes, "Sat 05.12.2026, 14:00"),
            ("tomorrow, back door", DateStyle::Dots, "Wed 02.12.2026, back door"),
        ] {
            assert_eq!(read_in(typed, style).written(dots), text);
        }
    }

    #[test]
    fn what_is_odd_about_a_day_is_said() {
        let says = |text: &str| {
            let when = read_in(text, DateStyle::MonthName);
            when.doubt(today()).map_or_else(String::new, |doubt| doubt.says(Written::default()))
        };
        for (text, odd) in [
            ("12/5/2026, 2 pm", "Sat 5 Dec 2026 or Tue 12 May 2026?"),
            ("12/5", "Sat 5 Dec 2026 or Wed 12 May 2027?"),
            ("29 Feb 2027", "There is no 29 Feb 2027."),
            ("29/2/2027", "There is no 29 Feb 2027."),
            ("2026-02-30", "There is no 30 Feb 2026."),
            ("31 June", "There is no 31 Jun."),
            ("Fri 5 Dec", "It is a Saturday, not a Friday."),
            ("Sat 5 Dec", ""),
            ("5/5/2026", ""),
            ("13/5/2026", ""),
            ("9 May 2026", ""),
            ("12/5/1899", ""),
            ("soon", ""),
            ("", ""),
        ] {
            assert_eq!(says(text), odd, "{text}");
        }
    }

    #[test]
    fn a_day_that_was_told_stays_when_the_words_are_read_again_later() {
        let when = read_in("Saturday 2 pm", DateStyle::MonthName);
        let again = When::told(when.words(), when.day(), when.hour());
        assert_eq!(again, when);
    }

    #[test]
    fn a_day_or_an_hour_is_chosen_for_words_and_the_rest_of_them_stays() {
        let (day, hour) = (Day::new(2026, 12, 4).unwrap(), Hour::new(10, 0).unwrap());
        for (words, on, at) in [
            ("", "Fri 4 Dec 2026", "10:00 am"),
            ("Saturday 2 pm, back door", "Fri 4 Dec 2026, 2:00 pm, back door", "Sat 5 Dec 2026, 10:00 am, back door"),
            ("12/5, back door", "Fri 4 Dec 2026, back door", "10:00 am, back door"),
            ("next Saturday", "Fri 4 Dec 2026", "10:00 am"),
            ("2 pm", "Fri 4 Dec 2026, 2:00 pm", "10:00 am"),
            ("31 June", "Fri 4 Dec 2026", "10:00 am"),
        ] {
            let when = read_in(words, DateStyle::MonthName);
            let (on_day, at_hour) = (when.on(day, Written::default()), when.at(hour, Written::default()));
            assert_eq!((on_day.words(), at_hour.words()), (on, at), "{words}");
            assert_eq!((on_day.day(), on_day.hour()), (Some(day), when.hour()));
            assert_eq!((at_hour.day(), at_hour.hour()), (when.day(), Some(hour)));
        }
    }
}
