//! What does not fit about the days of an order, as sentences. Each may be meant; nothing is stopped for it.

use super::{Day, Hour, Order, When, Written};

/// The days of an order.
#[derive(Clone, Copy, Debug)]
pub struct OrderDays<'a> {
    /// The dance or wedding.
    pub event: &'a When,
    /// The pick-up.
    pub pickup: &'a When,
    /// The last day on which something may be changed.
    pub last_change: &'a When,
    /// Whether the client has agreed, so that days that are past are history.
    pub is_agreed: bool,
}

/// What a clock on the wall says; without one nothing is past and every hour is there.
#[derive(Clone, Copy, Debug)]
pub struct WallClock {
    /// Which day it is.
    pub today: Option<Day>,
    /// Whether the clocks show this hour on this day.
    pub has_hour: fn(Day, Hour) -> bool,
}

impl WallClock {
    /// No clock.
    pub const NONE: Self = Self { today: None, has_hour: |_, _| true };
}

impl Order {
    /// Its days.
    pub fn days(&self) -> OrderDays<'_> {
        let is_agreed = self.agreed.is_some();
        OrderDays { event: &self.event_day, pickup: &self.wanted, last_change: &self.last_change, is_agreed }
    }
}

impl OrderDays<'_> {
    /// What does not fit: a pick-up after the event or in the past, a last day to change after the pick-up, an hour that the
    /// clocks leave out, another day of the week than was said. Days are written as the shop writes them.
    pub fn warnings(&self, clock: &WallClock, written: Written) -> Vec<String> {
        let day = |day: Day| day.with_weekday(written.date);
        let pickup = self.pickup.day();
        let after_event = pickup.zip(self.event.day()).filter(|(pickup, event)| pickup > event);
        let late_change = self.last_change.day().zip(pickup).filter(|(last, pickup)| last > pickup);
        let past = pickup.zip(clock.today).filter(|(pickup, today)| !self.is_agreed && pickup < today);
        let left_out = pickup.zip(self.pickup.hour()).filter(|(day, hour)| !(clock.has_hour)(*day, *hour));
        let mut found = self.other_weekdays(written);
        found.extend(
            after_event
                .map(|(pickup, event)| format!("Pick-up ({}) is after the event ({}).", day(pickup), day(event))),
        );
        found.extend(past.map(|(pickup, _)| format!("Pick-up ({}) is past.", day(pickup))));
        found.extend(late_change.map(|(last, pickup)| {
            format!("The last day to change ({}) is after pick-up ({}).", day(last), day(pickup))
        }));
        found.extend(left_out.map(|(on, hour)| {
            format!("Clocks go forward that night: there is no {} on {}.", hour.written(written.hour), day(on))
        }));
        found
    }

    fn other_weekdays(&self, written: Written) -> Vec<String> {
        let named = [("Event day", self.event), ("Pick-up", self.pickup), ("Last day to change", self.last_change)];
        let odd = named.into_iter().filter_map(|(name, when)| {
            let doubt = when.doubt(None).filter(|_| when.day().is_some())?;
            Some(format!("{name}: {}", doubt.says(written)))
        });
        odd.collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::Change;
    use crate::stock::Stock;

    fn warnings(event: &str, pickup: &str, last_change: &str, clock: &WallClock) -> Vec<String> {
        let stock = Stock::default();
        let changes = vec![
            Change::EventDay(When::typed(event)),
            Change::Wanted(When::typed(pickup)),
            Change::LastChange(When::typed(last_change)),
        ];
        let order = Order::blank(None, &stock).apply(&Change::Together(changes), &stock).unwrap();
        order.days().warnings(clock, Written::default())
    }

    #[test]
    fn days_that_do_not_fit_are_said_and_those_that_do_are_not() {
        let fits = |event, pickup, last| warnings(event, pickup, last, &WallClock::NONE);
        assert!(fits("5 Dec 2026", "5 Dec 2026, 2 pm", "1 Dec 2026").is_empty());
        assert!(fits("5 Dec 2026", "4 Dec 2026", "4 Dec 2026").is_empty());
        assert!(fits("", "", "").is_empty() && fits("soon", "then", "never").is_empty());
        assert_eq!(
            fits("5 Dec 2026", "6 Dec 2026", "7 Dec 2026"),
            [
                "Pick-up (Sun 6 Dec 2026) is after the event (Sat 5 Dec 2026).",
                "The last day to change (Mon 7 Dec 2026) is after pick-up (Sun 6 Dec 2026)."
            ]
        );
        assert_eq!(fits("Fri 5 Dec 2026", "", ""), ["Event day: It is a Saturday, not a Friday."]);
    }

    #[test]
    fn what_is_past_and_what_clocks_leave_out_is_said_where_there_is_a_clock() {
        let clock = WallClock {
            today: Day::parse("2027-03-14"),
            has_hour: |day, hour| day.to_string() != "2027-03-14" || hour.to_string() != "02:30",
        };
        assert_eq!(warnings("", "13 Mar 2027", "", &clock), ["Pick-up (Sat 13 Mar 2027) is past."]);
        assert!(warnings("", "14 Mar 2027 3:30 am", "", &clock).is_empty(), "today is not past");
        assert_eq!(
            warnings("", "14 Mar 2027 2:30 am", "", &clock),
            ["Clocks go forward that night: there is no 2:30 am on Sun 14 Mar 2027."]
        );
    }
}
