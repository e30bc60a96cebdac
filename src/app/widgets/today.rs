//! Which day it is: the local day of this computer, and which hours its clocks show. The only place that asks the clock.

use jiff::Timestamp;
use jiff::tz::TimeZone;

use crate::book::{Day, Hour};

/// Today and `by` days, for what was agreed yesterday on the telephone; none when the clock is nowhere near.
pub(crate) fn today(by: i64) -> Option<Day> {
    #[cfg(test)]
    if let Some(day) = tests::STILL.get() {
        return day.plus(by);
    }
    Day::at(Timestamp::now(), &TimeZone::system())?.plus(by)
}

/// Whether the clocks here show this hour on this day.
pub(crate) fn has_hour(day: Day, hour: Hour) -> bool {
    day.has_hour(hour, &TimeZone::system())
}

#[cfg(test)]
pub(crate) mod tests {
    use std::cell::Cell;

    use crate::book::Day;

    thread_local! {
        /// The day at which the clock of a test stands still.
        pub(super) static STILL: Cell<Option<Day>> = const { Cell::new(None) };
    }

    /// Stops the clock of this test at a day, so that no midnight comes between what it does and what it looks for.
    pub(crate) fn stand_still() -> Day {
        let day = Day::new(2026, 12, 1).unwrap();
        STILL.set(Some(day));
        day
    }

    #[test]
    fn a_day_can_be_put_right_by_one() {
        let day = stand_still();
        assert_eq!([-1, 0, 1].map(super::today), [day.plus(-1), Some(day), day.plus(1)]);
        STILL.set(None);
        assert!(super::today(0).is_some(), "the clock of this computer");
    }
}
