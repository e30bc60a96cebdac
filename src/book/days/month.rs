//! A month as a sheet of weeks, to choose a day from.

use jiff::civil::Weekday;

use super::day::Day;
use super::written::DateStyle;

/// A month of a year that orders may name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Month {
    first: Day,
}

/// Days in a week.
const WEEK: usize = 7;
/// Weeks that every sheet has, so that nothing on it moves from month to month: no month touches more.
const WEEKS: i64 = 6;

impl DateStyle {
    /// The day on which weeks begin on wall calendars: Sunday where the month is written first, else Monday (Unicode CLDR,
    /// supplemental data, `weekData`: Sunday for the United States, Monday for the world; from memory).
    pub fn week_starts(self) -> Weekday {
        match self {
            Self::Slashes => Weekday::Sunday,
            Self::MonthName | Self::Dots => Weekday::Monday,
        }
    }
}

impl Month {
    /// The month of a day.
    pub fn of(day: Day) -> Self {
        let (.., day_of_month) = day.parts();
        // The first of a month is in the years of orders if another day of it is.
        Self { first: day.plus(1 - i64::from(day_of_month)).unwrap_or(day) }
    }

    /// The month so many months later; none outside the years that an order may name.
    pub fn plus(self, months: i32) -> Option<Self> {
        let (year, month, _) = self.first.parts();
        let n = i32::from(year) * 12 + i32::from(month) - 1 + months;
        let (year, month) = (n.div_euclid(12), n.rem_euclid(12) + 1);
        Day::new(i16::try_from(year).ok()?, i8::try_from(month).ok()?, 1).map(|first| Self { first })
    }

    /// `December`.
    pub fn name(self) -> &'static str {
        let (_, month, _) = self.first.parts();
        super::read::full_month(month)
    }

    /// `December 2026`.
    pub fn text(self) -> String {
        let (year, month, _) = self.first.parts();
        format!("{} {year}", super::read::full_month(month))
    }

    /// Whether a day is in it.
    pub fn holds(self, day: Day) -> bool {
        let ((year, month, _), (its_year, its_month, _)) = (self.first.parts(), day.parts());
        (year, month) == (its_year, its_month)
    }

    /// Its six weeks, with days of the months before and after; none where no order may name one.
    pub fn weeks(self, starts: Weekday) -> Vec<[Option<Day>; WEEK]> {
        let before = i64::from(starts.until(self.first.weekday()));
        let day = |week: i64, at: usize| self.first.plus(week * 7 + i64::try_from(at).unwrap_or_default() - before);
        (0..WEEKS).map(|week| std::array::from_fn(|at| day(week, at))).collect()
    }
}

/// The names over the columns of a sheet: `Mo`, `Tu`.
pub fn week_names(starts: Weekday) -> [&'static str; WEEK] {
    let mut names = ["Mo", "Tu", "We", "Th", "Fr", "Sa", "Su"];
    names.rotate_left(usize::try_from(starts.to_monday_zero_offset()).unwrap_or_default());
    names
}

#[cfg(test)]
mod tests {
    use super::*;

    fn figures(month: Month, starts: Weekday) -> Vec<Vec<i8>> {
        let day = |day: &Option<Day>| day.map_or(0, |day| day.parts().2);
        month.weeks(starts).iter().map(|week| week.iter().map(day).collect()).collect()
    }

    /// December 2026 and February 2027 as wall calendars print them; 1 December 2026 is a Tuesday, 1 February 2027 a Monday.
    #[test]
    fn a_sheet_is_that_of_a_wall_calendar() {
        let december = Month::of(Day::new(2026, 12, 24).unwrap());
        assert_eq!(december.text(), "December 2026");
        assert_eq!(
            figures(december, Weekday::Monday),
            [
                [30, 1, 2, 3, 4, 5, 6],
                [7, 8, 9, 10, 11, 12, 13],
                [14, 15, 16, 17, 18, 19, 20],
                [21, 22, 23, 24, 25, 26, 27],
                [28, 29, 30, 31, 1, 2, 3],
                [4, 5, 6, 7, 8, 9, 10]
            ]
        );
        assert_eq!(figures(december, Weekday::Sunday)[0], [29, 30, 1, 2, 3, 4, 5]);
        let february = december.plus(2).unwrap();
        assert_eq!((february.text().as_str(), figures(february, Weekday::Monday)[0][0]), ("February 2027", 1));
        assert_eq!(week_names(Weekday::Monday)[0], "Mo");
        assert_eq!(week_names(Weekday::Sunday), ["Su", "Mo", "Tu", "We", "Th", "Fr", "Sa"]);
    }

    #[test]
    fn every_month_is_whole_and_leads_to_the_next() {
        let mut month = Month::of(Day::new(2000, 1, 31).unwrap());
        assert_eq!((month.plus(-1), figures(month, Weekday::Monday)[0].clone()), (None, vec![0, 0, 0, 0, 0, 1, 2]));
        let mut n_months = 1;
        while let Some(next) = month.plus(1) {
            let days: Vec<Day> = month.weeks(Weekday::Sunday).into_iter().flatten().flatten().collect();
            let own: Vec<Day> = days.iter().copied().filter(|day| month.holds(*day)).collect();
            assert_eq!(own[0].parts().2, 1);
            let after = own.last().and_then(|last| last.plus(1)).unwrap();
            assert!(next.holds(after) && (28..=31).contains(&own.len()), "{}", month.text());
            assert_eq!(next.plus(-1), Some(month));
            (month, n_months) = (next, n_months + 1);
        }
        assert_eq!((n_months, month.text().as_str()), (2400, "December 2199"));
    }
}
