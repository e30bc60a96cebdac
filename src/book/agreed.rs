//! The agreed sheet: what both said yes to, frozen on a day. The day comes from outside; nothing here knows a clock.

use super::{Day, Order};
use crate::units::Cents;

/// What both said yes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Agreed {
    /// The day of the yes.
    pub on: Day,
    /// The price, tax included.
    pub price: Cents,
    /// What stood on the sheet, line by line.
    pub says: Vec<String>,
    /// The order as it was, from which the picture can be drawn again. It holds no agreed sheet of its own.
    order: Order,
}

impl Agreed {
    /// Freezes an order on a day.
    pub fn freeze(order: &Order, on: Day, price: Cents, says: Vec<String>) -> Self {
        let price = super::change::payable(price);
        Self { on, price, says, order: Order { agreed: None, ..order.clone() } }
    }

    /// The order as it was.
    pub fn order(&self) -> &Order {
        &self.order
    }
}
