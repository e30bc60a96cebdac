//! What another style would make of an order, shown before anything is done.

use super::price_words::short_price;
use super::quote;
use crate::book::{Change, Order};
use crate::once_over::{Subject, look_over};
use crate::piece::{EditRefusal, HouseStyle};
use crate::stock::Stock;
use crate::units::{LengthUnit, nearest_whole};

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
/// Only what differs is shown. The score is for the designer alone.
pub fn restyled(
    order: &Order,
    from: &HouseStyle,
    to: &HouseStyle,
    stock: &Stock,
) -> Result<(Change, Vec<BeforeAfter>), EditRefusal> {
    let change = oval_and_bow(order, to);
    let after = order.apply(&change, stock)?;
    let rows = side_by_side(figures(order, from, stock), figures(&after, to, stock));
    Ok((change, rows.into_iter().filter(|t| t.before != t.after).collect()))
}

/// What the rules of `to` say of the order as it stands, beside those of `from`: all figures, those that stay too. The
/// mark is for the designer alone.
pub fn judged_anew(order: &Order, from: &HouseStyle, to: &HouseStyle, stock: &Stock) -> Vec<BeforeAfter> {
    let rows = side_by_side(figures(order, from, stock), figures(order, to, stock));
    rows.into_iter().filter(|t| !["Style", "Oval"].contains(&t.what)).collect()
}

/// An order in another style three ways: as it stands, with the oval and the bow of its size there, and by all of its rules.
#[derive(Clone, Debug, PartialEq)]
pub struct InStyle {
    /// What gives the piece the oval and the bow of its size; nothing where the style has no size of that name.
    pub change: Change,
    /// Each figure: as it stands, with oval and bow, by all rules.
    pub rows: Vec<(&'static str, [String; 3])>,
}

/// What another style would make of an order, shown before anything is done. The score is for the designer alone.
pub fn in_style(order: &Order, from: &HouseStyle, to: &HouseStyle, stock: &Stock) -> Result<InStyle, EditRefusal> {
    let change = oval_and_bow(order, to);
    let after = order.apply(&change, stock)?;
    let columns = [figures(order, from, stock), figures(&after, from, stock), figures(&after, to, stock)];
    let [now, shaped, all] = columns;
    let rows = now.into_iter().zip(shaped).zip(all).map(|(((what, a), (_, b)), (_, c))| (what, [a, b, c]));
    Ok(InStyle { change, rows: rows.filter(|(what, _)| *what != "Style").collect() })
}

fn oval_and_bow(order: &Order, style: &HouseStyle) -> Change {
    let size = order.size.as_ref().and_then(|name| style.size(name));
    size.map_or(Change::Together(Vec::new()), |size| Change::Size(Box::new(size.clone())))
}

/// Each figure by its name.
type Figures = [(&'static str, String); 7];

fn side_by_side(before: Figures, after: Figures) -> Vec<BeforeAfter> {
    let pairs = before.into_iter().zip(after);
    pairs.map(|((what, before), (_, after))| BeforeAfter { what, before, after }).collect()
}

fn figures(order: &Order, style: &HouseStyle, stock: &Stock) -> Figures {
    let quote = quote(order, style, stock);
    let over = look_over(Subject { piece: &order.piece, stock, style, wrist: &order.wrist });
    // As the figures of the house style beside them.
    let (footprint, unit) = (order.piece.footprint, LengthUnit::Millimetre);
    [
        ("Style", style.name.clone()),
        ("Oval", unit.area_text(footprint.length_mm, footprint.width_mm)),
        ("Width allowed", unit.short(style.width_limit_mm(order.wrist.girth_mm()))),
        ("Height allowed", unit.short(style.height_limit_mm(&order.piece.wishes))),
        ("Minutes", nearest_whole(quote.minutes).to_string()),
        ("Price", short_price(quote.total, &quote.currency)),
        ("Score", format!("{:.0}", over.whole_score())),
    ]
}
