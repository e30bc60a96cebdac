//! The bill of a party for people and for machines. Money in JSON is whole cents.

use std::fmt::Write as _;

use serde_json::{Value, json};

use crate::paperwork::{PartyBill, full_price};
use crate::units::Cents;

/// The bill, a line an order.
pub fn party_bill_text(bill: &PartyBill) -> String {
    let money = |price: Cents| full_price(price, &bill.currency);
    let mut text = if bill.party.is_empty() { String::new() } else { format!("{}\n\n", bill.party) };
    let sums =
        [("Total", bill.total), ("Tax in the total", bill.tax), ("Paid", bill.paid), ("Balance due", bill.due())];
    let lines = bill.lines.iter().map(|line| (line.what.as_str(), line.total));
    for (what, price) in lines.chain(sums) {
        // Writing to a String cannot fail.
        _ = writeln!(text, "{what:<48} {:>10}", money(price));
    }
    text
}

/// The bill for machines.
pub fn party_bill_json(bill: &PartyBill) -> Value {
    let lines = bill.lines.iter().map(|line| {
        json!({
            "number": line.number,
            "what": line.what,
            "total_cents": line.total.0,
            "tax_cents": line.tax.0,
            "paid_cents": line.paid.0,
        })
    });
    json!({
        "party": bill.party,
        "currency": bill.currency.sign,
        "lines": lines.collect::<Vec<_>>(),
        "total_cents": bill.total.0,
        "tax_cents": bill.tax.0,
        "paid_cents": bill.paid.0,
        "due_cents": bill.due().0,
    })
}
