//! What is done with the month to tap.

use crate::app::action::MonthAction;
use crate::app::dialogs::Dialog;
use crate::app::dialogs::month::MonthShown;
use crate::app::shell::window::Window;
use crate::app::typing::field::Field;
use crate::app::widgets::today::today;
use crate::book::{Day, Hour, Month, When};
use crate::command::Command;

impl Window {
    /// Does what was asked of the month.
    pub(crate) fn run_month(&mut self, action: MonthAction) {
        if let MonthAction::Open(field) = action {
            return self.open_month(field);
        }
        let Dialog::Month(shown) = &mut self.dialog else { return };
        let field = shown.field;
        match action {
            MonthAction::Open(_) => {}
            MonthAction::Turn(months) => shown.month = shown.month.plus(months).unwrap_or(shown.month),
            MonthAction::Choose(day) => self.choose_day(field, day),
            MonthAction::ChooseHour(hour) => self.choose_hour(field, hour),
            MonthAction::Clear => {
                self.dialog = Dialog::None;
                self.put(field, When::default());
            }
        }
    }

    /// Shows the month of the day in a field, else this month.
    fn open_month(&mut self, field: Field) {
        self.take_what_is_typed();
        self.put_board_away();
        let day = field.day_in(self.session.order()).and_then(When::day).or_else(|| today(0));
        let Some(month) = day.map(Month::of) else { return };
        self.dialog = Dialog::Month(MonthShown { field, month });
    }

    /// A day with an hour beside it waits for the hour.
    fn choose_day(&mut self, field: Field, day: Day) {
        let Some(when) = field.day_in(self.session.order()) else { return };
        let when = when.on(day, self.shop.written());
        self.dialog = match when.hour() {
            None if field.has_hour() => Dialog::Month(MonthShown { field, month: Month::of(day) }),
            Some(_) | None => Dialog::None,
        };
        self.put(field, when);
    }

    fn choose_hour(&mut self, field: Field, hour: Hour) {
        let Some(when) = field.day_in(self.session.order()) else { return };
        let when = when.at(hour, self.shop.written());
        if when.day().is_some() {
            self.dialog = Dialog::None;
        }
        self.put(field, when);
    }

    fn put(&mut self, field: Field, when: When) {
        if let Some(change) = field.day_change(when) {
            self.run_command(&Command::Change(change));
        }
    }
}
