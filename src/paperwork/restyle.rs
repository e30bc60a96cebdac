//! What another style would make of an order, told before anything is done.

use super::price_words::short_price;
use super::quote;
use crate::book::{Change, Order};
use crate::once_over::{Subject, look_over};
use crate::piece::{HouseStyle, Refusal};
use crate::stock::Stock;
use crate::units::{mm_text, nearest_whole};

/// One figure before and after, as people read it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BeforeAfter {
    /// What.
    pub what: &'static str,
    /// In the present style.
    pub before: String,
    /// In the other.
    pub after: String,
}

/// The change that `to` makes of an order, and what differs. The size of the same name gives oval and bow; parts stay.
/// Nothing is told that does not differ. The mark is for the designer alone.
pub fn restyled(
    order: &Order,
    from: &HouseStyle,
    to: &HouseStyle,
    stock: &Stock,
) -> Result<(Change, Vec<BeforeAfter>), Refusal> {
    let size = order.size.as_ref().and_then(|name| to.size(name));
    let change = size.map_or(Change::Together(Vec::new()), |size| Change::Size(Box::new(size.clone())));
    let after = order.apply(&change, stock)?;
    let told = figures(order, from, stock).into_iter().zip(figures(&after, to, stock));
    let told = told.map(|((what, before), (_, after))| BeforeAfter { what, before, after });
    Ok((change, told.filter(|t| t.before != t.after).collect()))
}

fn figures(order: &Order, style: &HouseStyle, stock: &Stock) -> [(&'static str, String); 7] {
    let quote = quote(order, style, stock);
    let over = look_over(Subject { piece: &order.piece, stock, style, wrist: &order.wrist });
    let footprint = order.piece.footprint;
    [
        ("Style", style.name.clone()),
        ("Oval", format!("{} x {} mm", mm_text(footprint.length_mm), mm_text(footprint.width_mm))),
        ("Width allowed", format!("{} mm", mm_text(style.width_limit_mm(order.wrist.girth_mm())))),
        ("Height allowed", format!("{} mm", mm_text(style.height_limit_mm(&order.piece.wishes)))),
        ("Minutes", nearest_whole(quote.minutes).to_string()),
        ("Price", short_price(quote.total, &quote.currency)),
        ("Mark", nearest_whole(over.mark).to_string()),
    ]
}
