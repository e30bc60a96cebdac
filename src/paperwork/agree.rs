//! The yes: what stands on the agreed sheet, and what has changed since, the price included.

use super::firm::with_changes;
use super::price_words::{pending_total_words, short_price, tax_words};
use super::quote;
use super::quote::holds_until;
use crate::book::{Agreed, Charges, Day, Order, Written, changes_since};
use crate::piece::{HouseStyle, Measured, Worn};
use crate::stock::Stock;
use crate::units::Currency;

/// Both said yes on this day: the order as it stands, its amount and its deposit, and what stands on the sheet. What was quoted
/// or agreed before stands, with what has changed since.
pub fn agree(order: &Order, on: Day, style: &HouseStyle, stock: &Stock) -> Agreed {
    let charges = with_changes(order, style, stock);
    let says = sheet(order, &charges, &style.prices.currency, stock);
    let agreed = Agreed::freeze(order, on, charges.total(), says);
    agreed.on_terms(Some(charges.deposit()), holds_until(order, Some(on), style)).built_on(charges)
}

/// What has changed since the yes, in plain words; none when all stands, or when nobody said yes yet. Days are
/// written as the shop writes them.
pub fn changed_since_agreed(order: &Order, style: &HouseStyle, stock: &Stock, written: Written) -> Vec<String> {
    let Some(agreed) = &order.agreed else { return Vec::new() };
    let mut changes = changes_since(agreed, order, stock, written);
    let quote = quote(order, style, stock);
    changes.extend(quote.pending.iter().map(|pending| pending_total_words(pending, &quote.currency)));
    changes
}

/// The lines of the sheet: what is made, for which wrist, what it costs. Nothing that the client may not see.
fn sheet(order: &Order, charges: &Charges, currency: &Currency, stock: &Stock) -> Vec<String> {
    let money = |price| short_price(price, currency);
    let mut lines = vec![order.title_line()];
    lines.extend(charges.lines().iter().map(|l| format!("{}: {}", l.what, money(l.price))));
    lines.extend(charges.taxes().iter().map(|t| format!("{}: {}", tax_words(&t.tax, currency), money(t.amount))));
    let (total, deposit) = (charges.total(), charges.deposit());
    let [total, deposit, balance] = [total, deposit, total - deposit].map(money);
    lines.push(format!("Total {total}; deposit {deposit}, balance {balance} at pick-up"));
    if order.piece.worn == Worn::Wrist {
        let girth = order.wrist.girth.shown();
        let girth = match order.wrist.measured {
            Measured::Tape => girth,
            Measured::Told => format!("{girth} (told by the client, not measured)"),
            Measured::NotYet => format!("not measured (usual size {girth})"),
        };
        lines.push(format!("{} wrist, {girth}", order.wrist.side.word()));
    }
    if !order.taste.dress.is_blank() {
        lines.push(format!("Dress: {}", order.taste.dress.name()));
    }
    let allergies = order.allergy_names(stock);
    if !allergies.is_empty() {
        lines.push(format!("ALLERGY: {}", allergies.join(", ")));
    }
    if let Some(bow) = &order.piece.bow {
        lines.push(format!("Bow: {}", bow.colour));
    }
    lines
}
