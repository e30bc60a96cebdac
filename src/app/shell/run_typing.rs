//! What is typed, by keys or on the screen, and how it is taken into the order.

use crate::app::action::{Action, Notice};
use crate::app::shell::window::Window;
use crate::app::typing::field::Field;
use crate::app::typing::taps::{BoardField, TapKey};
use crate::app::widgets::today::today;
use crate::book::{Change, DayReader, PayWay, Payment};
use crate::command::Command;
use crate::units::{DecimalMark, Doubt, Length};

impl Window {
    /// How days are read that are typed now.
    pub(crate) fn day_reader(&self) -> DayReader {
        DayReader { today: today(self.days_off), written: self.shop.written() }
    }

    /// The decimal mark of the shop.
    pub(crate) fn decimal(&self) -> DecimalMark {
        self.session.style().prices.currency.decimal
    }

    /// Does what was typed, or tapped on the keys on the screen.
    pub(crate) fn run_typing(&mut self, action: Action) {
        match action {
            Action::Write(field, words) => {
                let reader = self.day_reader();
                self.typing.write(field, words, &mut self.session, reader);
            }
            Action::LeaveField(Field::WristSize) => {
                if let Some(words) = self.typing.take_wrist_size() {
                    self.take_wrist_size(&words);
                }
            }
            Action::LeaveField(_) => self.leave_field(),
            Action::GiveUpWristSize => drop(self.typing.take_wrist_size()),
            Action::WristSize(words) => self.take_wrist_size(&words),
            Action::Focus(field) => self.typing.focus = Some(field),
            Action::Taps(key) => self.tap(key),
            Action::AddExtra => match self.typing.extra(self.decimal()) {
                Ok(extra) => {
                    let extras = self.session.order().terms.extras.iter().cloned().chain([extra]).collect();
                    self.run_command(&Command::Change(Change::Extras(extras)));
                    self.typing.clear_extra();
                }
                Err(why) => self.say(&why),
            },
            Action::AddPayment { way, is_refund } => self.add_payment(way, is_refund),
            _ => {}
        }
    }

    /// What is written was paid today in this way, or went back.
    fn add_payment(&mut self, way: Option<PayWay>, is_refund: bool) {
        let sum = match self.typing.payment_sum(self.decimal()) {
            Ok(sum) => sum,
            Err(why) => return self.say(&why),
        };
        let way = way.unwrap_or_else(|| self.typing.payment_way());
        let payment = Payment { on: today(self.days_off), way, sum: if is_refund { -sum } else { sum } };
        let payments = self.session.order().terms.payments.iter().cloned().chain([payment]).collect();
        self.run_command(&Command::Change(Change::Payments(payments)));
        self.typing.clear_payment();
    }

    /// The field that was written in is left. Why its words could not be taken is said.
    pub(crate) fn leave_field(&mut self) {
        if let Some(why) = self.typing.leave(&mut self.session) {
            self.say(&why);
        }
    }

    /// What is still being typed is taken before the order is saved or left.
    pub(crate) fn take_what_is_typed(&mut self) {
        if let Some(words) = self.typing.take_wrist_size()
            && words != self.session.order().wrist.girth.typed()
        {
            self.take_wrist_size(&words);
        }
        self.leave_field();
    }

    fn take_wrist_size(&mut self, words: &str) {
        if words.trim().is_empty() {
            self.run_command(&Command::Change(Change::NotMeasured));
            return;
        }
        match Length::parse_within(words, &crate::piece::Wrist::GIRTHS_MM) {
            Ok(girth) if girth == self.session.order().wrist.girth => {}
            Ok(girth) => {
                self.notice = None;
                self.run_command(&Command::Change(Change::Girth(girth)));
            }
            Err(doubt) => {
                let offer = match &doubt {
                    Doubt::Ask { meant, .. } => {
                        let yes = format!("Yes, {}", meant.shown());
                        Some((yes, Box::new(Action::WristSize(format!("{} mm", meant.typed())))))
                    }
                    Doubt::Unreadable { .. } => None,
                };
                if offer.is_none() {
                    self.typing.put_back_wrist_size(words);
                }
                self.notice = Some(Notice::Card { words: format!("Wrist size: {doubt}"), offer });
            }
        }
    }

    fn tap(&mut self, key: TapKey) {
        match key {
            TapKey::Switch => {
                self.put_board_away();
                self.typing.taps.on = !self.typing.taps.on;
            }
            TapKey::Enter(field, is_low) => {
                self.put_board_away();
                self.typing.taps.enter(field, is_low);
            }
            TapKey::Done => self.put_board_away(),
            TapKey::Away => drop(self.typing.taps.put_away()),
            key => {
                let field = match self.typing.taps.field() {
                    Some(BoardField::Order(field)) => *field,
                    Some(BoardField::Page(_)) => return self.typing.taps.tap_in_page(&key),
                    None => return,
                };
                let stands = self.typing.text(field, self.session.order(), self.decimal());
                if let Some(words) = self.typing.taps.tap(&key, stands) {
                    let reader = self.day_reader();
                    self.typing.write(field, words, &mut self.session, reader);
                }
            }
        }
    }

    /// The keys on the screen go; what was tapped in is taken into the order.
    pub(crate) fn put_board_away(&mut self) {
        match self.typing.taps.put_away() {
            Some(BoardField::Order(Field::WristSize)) => self.take_what_is_typed(),
            None => {}
            Some(BoardField::Order(field)) if field.waits_for_a_button() => {}
            Some(BoardField::Order(_)) => self.leave_field(),
            Some(BoardField::Page(_)) => self.page_field_is_left = true,
        }
    }

    /// A field that the page keeps itself was left by the keys on the screen: the page does what it does when real keys leave it.
    pub(crate) fn leave_page_field(&mut self, ctx: &egui::Context) {
        if std::mem::take(&mut self.page_field_is_left) {
            let page = self.page;
            for action in self.with_inputs(ctx, |window, inputs| window.pages.leave_field(page, inputs)) {
                self.run(ctx, action);
            }
        }
    }
}
