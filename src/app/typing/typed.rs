//! What is being typed and is not part of the order as it stands, and how it becomes part of it.
//!
//! One stay in a field is one step to undo. What cannot be read is shown where it is typed; when the field is left, why is
//! told and what stood there before comes back, for the beginning of a figure is another figure.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::app::typing::field::{Field, percent};
use crate::app::typing::taps::TapBoard;
use crate::app::widgets::words::Counter;
use crate::book::{DayReader, Extra, Order, PayWay};
use crate::command::Command;
use crate::session::Session;
use crate::units::{Cents, DecimalMark};

/// What is being typed.
#[derive(Clone, Debug, Default)]
pub(crate) struct Typing {
    draft: Option<TypedText>,
    /// The wrist size, while it is typed.
    wrist_size: Option<String>,
    /// What of that could not be taken.
    refused_size: Option<String>,
    /// What waits for a button: an extra, a payment.
    waiting: BTreeMap<Field, String>,
    /// The field that is to get the keyboard.
    pub(crate) focus: Option<Field>,
    pub(crate) taps: TapBoard,
}

/// The words in a field of the order.
#[derive(Clone, Debug, PartialEq)]
struct TypedText {
    field: Field,
    words: String,
    /// The order before the first of them.
    before: Arc<Order>,
    /// Why they cannot be taken.
    refused: Option<String>,
}

impl Typing {
    /// As it was left last time: whether keys come on the screen.
    pub(crate) fn restored(setting: impl Fn(&str) -> Option<String>) -> Self {
        Self { taps: TapBoard::restored(setting), ..Self::default() }
    }

    /// What is typed in a field just now.
    pub(crate) fn in_field(&self, field: Field) -> Option<&str> {
        match field {
            Field::WristSize => self.wrist_size.as_deref(),
            _ if field.waits_for_a_button() => Some(self.waiting(field)),
            _ => self.draft.as_ref().filter(|draft| draft.field == field).map(|draft| draft.words.as_str()),
        }
    }

    /// Whether what is typed in a field cannot be read so far.
    pub(crate) fn is_unreadable(&self, field: Field) -> bool {
        let waiting = self.waiting(field);
        let refused = self.draft.as_ref().is_some_and(|draft| draft.field == field && draft.refused.is_some());
        refused || (!waiting.trim().is_empty() && !field.can_be_read(waiting))
    }

    /// What stands in a field: what is typed, else what the order says.
    pub(crate) fn text(&self, field: Field, order: &Order, decimal: DecimalMark) -> String {
        self.in_field(field).map_or_else(|| field.shown(order, decimal), str::to_owned)
    }

    /// What is written in a field that waits for a button.
    fn waiting(&self, field: Field) -> &str {
        self.waiting.get(&field).map_or("", String::as_str)
    }

    /// Whether something of an extra is written.
    pub(crate) fn has_extra(&self) -> bool {
        [Field::ExtraName, Field::ExtraPrice].into_iter().any(|field| !self.waiting(field).trim().is_empty())
    }

    /// The extra as it is written, or why it cannot be read.
    pub(crate) fn extra(&self, decimal: DecimalMark) -> Result<Extra, String> {
        let name = self.waiting(Field::ExtraName).trim().to_owned();
        if name.is_empty() {
            return Err(Counter::NO_EXTRA_NAME.to_owned());
        }
        let price = self.waiting_sum(Field::ExtraPrice, decimal)?;
        let tax_percent = match self.waiting(Field::ExtraTax) {
            tax if tax.trim().is_empty() => None,
            tax => Some(percent(tax).ok_or_else(|| Field::ExtraTax.refusal(tax, decimal))?),
        };
        Ok(Extra { name, price, tax_percent })
    }

    /// The sum of the payment as it is written, or why it cannot be read.
    pub(crate) fn payment_sum(&self, decimal: DecimalMark) -> Result<Cents, String> {
        self.waiting_sum(Field::PaymentSum, decimal)
    }

    /// The way to pay as it is written.
    pub(crate) fn payment_way(&self) -> PayWay {
        PayWay::of(self.waiting(Field::PaymentWay))
    }

    fn waiting_sum(&self, field: Field, decimal: DecimalMark) -> Result<Cents, String> {
        match self.waiting(field) {
            words if words.trim().is_empty() => Err(Counter::NO_AMOUNT.to_owned()),
            words => Cents::typed(words).ok_or_else(|| field.refusal(words, decimal)),
        }
    }

    /// The extra is part of the order now.
    pub(crate) fn clear_extra(&mut self) {
        self.clear(&[Field::ExtraName, Field::ExtraPrice, Field::ExtraTax]);
    }

    /// The payment is part of the order now.
    pub(crate) fn clear_payment(&mut self) {
        self.clear(&[Field::PaymentSum, Field::PaymentWay]);
    }

    fn clear(&mut self, fields: &[Field]) {
        self.waiting.retain(|field, _| !fields.contains(field));
    }

    /// Other words stand in a field. What reads is part of the order at once, letter by letter.
    pub(crate) fn write(&mut self, field: Field, words: String, session: &mut Session, reader: DayReader) {
        match field {
            Field::WristSize => self.wrist_size = Some(words),
            _ if field.waits_for_a_button() => drop(self.waiting.insert(field, words)),
            _ => self.write_in_order(field, words, session, reader),
        }
    }

    fn write_in_order(&mut self, field: Field, words: String, session: &mut Session, reader: DayReader) {
        let before = Arc::clone(session.order());
        let refused = match field.change(&words, &before, reader) {
            None => Some(field.refusal(&words, session.style().prices.currency.decimal)),
            Some(change) => {
                let command = Command::ChangeInRun(change, field.name().to_owned());
                session.run(&command).err().map(|why| why.to_string())
            }
        };
        let began = self.draft.take().filter(|draft| draft.field == field).map(|draft| draft.before);
        self.draft = Some(TypedText { field, words, before: began.unwrap_or(before), refused });
    }

    /// The field that was written in is left: the step stands for itself. Returns why its words could not be taken; then
    /// what stood there before has come back.
    pub(crate) fn leave(&mut self, session: &mut Session) -> Option<String> {
        // Nothing of these two can be refused.
        drop(session.run(&Command::EndRun));
        let draft = self.draft.take()?;
        let why = draft.refused?;
        if *session.order() != draft.before {
            drop(session.run(&Command::Undo));
        }
        Some(why)
    }

    /// Takes the wrist size as it is typed, to be made part of the order; none when nobody typed one.
    pub(crate) fn take_wrist_size(&mut self) -> Option<String> {
        self.wrist_size.take()
    }

    /// Puts a wrist size back that could not be taken, so that it can be corrected.
    pub(crate) fn put_back_wrist_size(&mut self, words: &str) {
        self.wrist_size = Some(words.to_owned());
        self.refused_size = Some(words.to_owned());
    }

    /// Gives up a wrist size that was put back and that nobody has corrected.
    pub(crate) fn forget_refused_size(&mut self) {
        let refused = self.refused_size.take();
        self.wrist_size.take_if(|words| refused.as_ref() == Some(words));
    }

    /// Another order is open: nothing of what was typed is of it.
    pub(crate) fn forget(&mut self) {
        *self = Self { taps: self.taps.clone(), ..Self::default() };
    }
}
