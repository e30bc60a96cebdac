//! What the papers of a weekend say, side by side: labels, the market list.

use super::words::{due, joined, pickup, where_worn_in_full};
use crate::book::{Order, Written};
use crate::units::{Cents, counted};

pub(super) const LABEL_FRAME: &str = "Test print of labels";
pub(super) const HOLD_THE_FRAME: &str =
    "Print at 100 %. Hold it against a sheet of labels: every frame must lie on a label.";
pub(super) const SEE_THE_CARD: &str = "MORE: SEE BENCH CARD";

pub(super) fn labels_title(n_orders: usize) -> String {
    format!("Labels for {}", counted(n_orders, "order", "orders"))
}

/// `No. 104 · LEFT WRIST · Classic`
pub(super) fn label_head(order: &Order) -> String {
    let (number, place) = (order.number_text(), where_worn_in_full(order));
    let parts = [number.as_str(), place.trim(), order.size.as_deref().unwrap_or_default()];
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" \u{b7} ")
}

/// Event, school and partner: what tells two of one name apart. A boutonniere is the partner's own.
pub(super) fn label_event(order: &Order) -> String {
    let partner = order.people.partner.trim();
    let is_own = partner.is_empty() || order.wearer.starts_with(partner);
    let partner = if is_own { String::new() } else { format!("with {partner}") };
    joined(&[order.dance.trim(), order.place.trim(), &partner])
}

/// `Pick-up Sat 9 May 2026, 2:00 pm, by Mrs Vale`
pub(super) fn label_pickup(order: &Order, written: Written) -> String {
    let pickup = pickup(order, written);
    if pickup.is_empty() { pickup } else { format!("Pick-up {pickup}") }
}

/// What is still to pay.
pub(super) fn label_balance(balance: Cents, money: impl Fn(Cents) -> String) -> String {
    match due(balance) {
        (_, Cents(0)) => "Paid in full".to_owned(),
        (what, amount) => format!("{what} {}", money(amount)),
    }
}

pub(super) const DELIVERY: &str = "Delivery";
pub(super) const TOTAL: &str = "Total";
pub(super) const FROM_THE_SHELF: &str = "From the shelf";
pub(super) const SHOP_ONLY: &str = "Shop only: this sheet shows sales and shares. Not for suppliers or clients.";

pub(super) fn market_title(occasion: &str) -> String {
    format!("Market list \u{2013} {occasion}")
}

pub(super) fn order_by(day: &str) -> String {
    format!("Order by {day}.")
}
