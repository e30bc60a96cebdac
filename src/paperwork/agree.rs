//! The yes: what stands on the agreed sheet, and what has changed since, the price included.

use super::price_words::{short_price, tax_words};
use super::quote::holds_until;
use super::{Quote, quote};
use crate::book::{Agreed, Day, Order, Written, changes_since};
use crate::piece::{HouseStyle, Measured, Worn};
use crate::stock::Stock;

/// Both said yes on this day: the order as it stands, its price and its deposit, and what stands on the sheet. Who said
/// yes before says it anew to all of it.
pub fn agree(order: &Order, on: Day, style: &HouseStyle, stock: &Stock) -> Agreed {
    let order = Order { agreed: None, ..order.clone() };
    let quote = quote(&order, style, stock);
    let until = holds_until(&order, Some(on), style);
    Agreed::freeze(&order, on, quote.total, sheet(&order, &quote, stock)).on_terms(Some(quote.deposit), until)
}

/// What has changed since the yes, in plain words; none when all stands, or when nobody said yes yet. Days are
/// written as the shop writes them.
pub fn changed_since_agreed(order: &Order, style: &HouseStyle, stock: &Stock, written: Written) -> Vec<String> {
    let Some(agreed) = &order.agreed else { return Vec::new() };
    let mut changes = changes_since(agreed, order, stock, written);
    let total = quote(order, style, stock).total;
    if total != agreed.price {
        let money = |price| short_price(price, &style.prices.currency);
        changes.push(format!("Price: {} is now {}.", money(agreed.price), money(total)));
    }
    changes
}

/// The lines of the sheet: what is made, for which wrist, what it costs. Nothing that the client may not see.
fn sheet(order: &Order, quote: &Quote, stock: &Stock) -> Vec<String> {
    let money = |price| short_price(price, &quote.currency);
    let mut lines = vec![order.title_line()];
    lines.extend(quote.lines.iter().map(|l| format!("{}: {}", l.what, money(l.price))));
    lines
        .extend(quote.tax.as_ref().zip(tax_words(quote)).map(|(tax, words)| format!("{words}: {}", money(tax.amount))));
    lines.push(format!(
        "Total {}; deposit {}, balance {} at pick-up",
        money(quote.total),
        money(quote.deposit),
        money(quote.balance)
    ));
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
