//! The agreed sheet: what both said yes to, frozen on a day. The day comes from outside; nothing here knows a clock.

use super::{Charges, Day, Order};
use crate::units::Cents;

/// What both said yes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Agreed {
    /// The day of the yes.
    pub on: Day,
    /// The price, tax included.
    pub price: Cents,
    /// What was to be paid at the yes. Sheets from before it was kept do not say.
    pub deposit: Option<Cents>,
    /// Until when the price holds, where that was said.
    pub holds_until: Option<Day>,
    /// What stood on the sheet, line by line.
    pub says: Vec<String>,
    /// What it comes to, line by line. Sheets from before it was kept do not say.
    charges: Option<Charges>,
    /// The order as it was, from which the picture can be drawn again. It holds no agreed sheet of its own.
    order: Order,
}

impl Agreed {
    /// Freezes an order on a day, without a word yet about the deposit.
    pub fn freeze(order: &Order, on: Day, price: Cents, says: Vec<String>) -> Self {
        let price = super::change::payable(price);
        let order = Order { quoted: None, agreed: None, progress: None, ..order.clone() };
        Self { on, price, deposit: None, holds_until: None, says, charges: None, order }
    }

    /// The same sheet with what is paid at the yes, at most the price, and until when the price holds.
    pub fn on_terms(self, deposit: Option<Cents>, holds_until: Option<Day>) -> Self {
        let deposit = deposit.map(|d| super::change::payable(d).min(self.price));
        Self { deposit, holds_until, ..self }
    }

    /// The same sheet with the lines that make its price; a line for the rest where they do not.
    #[must_use]
    pub fn built_on(self, charges: Charges) -> Self {
        Self { charges: Some(charges.coming_to(self.price)), ..self }
    }

    /// What it comes to, line by line, where that was kept.
    pub fn charges(&self) -> Option<&Charges> {
        self.charges.as_ref()
    }

    /// The order as it was.
    pub fn order(&self) -> &Order {
        &self.order
    }
}
