//! What an order costs the client, as both windows show it.

use crate::app::view::ClientView;
use crate::app::widgets::words::Counter;
use crate::export::price_text;
use crate::paperwork::{short_price, tax_words};

/// The price of an order, in lines to be read.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct PriceShown {
    /// What is on the sheet.
    pub(crate) name: String,
    /// Each line where there are several, and the tax.
    pub(crate) lines: Vec<String>,
    /// The total.
    pub(crate) total: String,
}

impl PriceShown {
    pub(crate) fn of(client: &ClientView) -> Self {
        let quote = &client.quote;
        let (name, lines) = match &quote.lines[..] {
            [only] => (only.what.clone(), &[][..]),
            lines => (Counter::piece(client.active).to_owned(), lines),
        };
        let line = |what: &str, price| format!("{what} {}", short_price(price, &client.currency));
        let mut lines: Vec<String> = lines.iter().map(|l| line(&l.what, l.price)).collect();
        lines.extend(quote.taxes.iter().map(|tax| line(&tax_words(&tax.tax, &client.currency), tax.amount)));
        Self { name, lines, total: price_text(quote.total, &client.currency) }
    }
}
