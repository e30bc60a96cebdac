//! One bill for a party: what each of its orders comes to, what is paid, and their sums. Each order is priced for itself, so
//! that a bill for the party and the bills of its orders tell the same cents.

use super::quote;
use crate::book::Order;
use crate::piece::HouseStyle;
use crate::stock::Stock;
use crate::units::{Cents, Currency};

/// One order on the bill.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PartyBillLine {
    /// Its number in the shop.
    pub number: Option<u32>,
    /// Who wears it, and what it is.
    pub what: String,
    /// What it costs, tax in it.
    pub total: Cents,
    /// The tax in that.
    pub tax: Cents,
    /// Paid so far.
    pub paid: Cents,
}

/// A bill for a party.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PartyBill {
    /// The party's name.
    pub party: String,
    /// How amounts of money are written.
    pub currency: Currency,
    /// One line an order.
    pub lines: Vec<PartyBillLine>,
    /// The lines together.
    pub total: Cents,
    /// The tax in that.
    pub tax: Cents,
    /// Paid so far.
    pub paid: Cents,
}

impl PartyBill {
    /// Still to pay; below nothing where too much was paid.
    pub fn due(&self) -> Cents {
        self.total - self.paid
    }
}

/// The bill of the orders of a party, in the order in which they are given.
pub fn party_bill(party: &str, orders: &[&Order], style: &HouseStyle, stock: &Stock) -> PartyBill {
    let lines: Vec<PartyBillLine> = orders.iter().map(|order| line(order, style, stock)).collect();
    PartyBill {
        party: party.trim().to_owned(),
        currency: style.prices.currency.clone(),
        total: lines.iter().map(|line| line.total).sum(),
        tax: lines.iter().map(|line| line.tax).sum(),
        paid: lines.iter().map(|line| line.paid).sum(),
        lines,
    }
}

fn line(order: &Order, style: &HouseStyle, stock: &Stock) -> PartyBillLine {
    let quote = quote(order, style, stock);
    let things: Vec<&str> = quote.lines.iter().map(|line| line.what.as_str()).collect();
    let things = things.join("; ");
    let what = match order.wearer.trim() {
        "" => things,
        wearer => format!("{wearer}: {things}"),
    };
    PartyBillLine {
        number: order.number,
        what,
        total: quote.total,
        tax: quote.taxes.iter().map(|tax| tax.amount).sum(),
        paid: quote.paid,
    }
}
