//! What a quote was built on. The day comes from outside; nothing here knows a clock.

use super::{Charges, Day, Order};

/// A quoted price as it was quoted: it stands whatever stock and rules do later.
#[derive(Clone, Debug, PartialEq)]
pub struct KeptQuote {
    /// What the order came to.
    pub charges: Charges,
    /// Until when it holds, where a day is known.
    pub until: Option<Day>,
    /// The order as it was, for what changes about it later. It holds no quote and no agreed sheet of its own.
    order: Order,
}

impl KeptQuote {
    /// Keeps what an order came to.
    pub fn of(order: &Order, charges: Charges, until: Option<Day>) -> Self {
        let order = Order { quoted: None, agreed: None, progress: None, ..order.clone() };
        Self { charges, until, order }
    }

    /// The order as it was.
    pub fn order(&self) -> &Order {
        &self.order
    }
}
