//! What of an order is not in trade in the month of its pick-up, and what may stand in for it. The months are those of the stock
//! list, which a shop puts right for its own market.

use super::{DateStyle, Day, Month, Order, stop_flower};
use crate::piece::Piece;
use crate::stock::{Botanical, Stock, StockId, StockItem};
use crate::units::counted;

/// Most that may stand in for a flower; our choice, as many as one reads at a glance.
const MOST_INSTEAD: usize = 3;

/// A flower out of season on the pick-up day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OutOfSeason {
    /// What.
    pub what: StockId,
    /// Its trade name.
    pub name: String,
    /// The month: `November`.
    pub month: &'static str,
    /// What is in season and may stand in for it, best first; at most three.
    pub instead: Vec<StockId>,
}

impl Order {
    /// What stands on the piece, or on the boutonniere, and is not in trade in the month of the pick-up: each flower once, in the
    /// order of the stock list. Nothing while the day is not known.
    pub fn out_of_season(&self, stock: &Stock) -> Vec<OutOfSeason> {
        let Some(day) = self.wanted.day() else { return Vec::new() };
        let pieces = || std::iter::once(&self.piece).chain(&self.partner_piece);
        let theirs = self.boutonniere();
        let theirs = theirs.as_ref().unwrap_or(self);
        let missing = stock.botanicals().iter().filter(|b| !is_in_trade(b, day));
        missing
            .filter(|b| pieces().any(|piece| holds(piece, &b.id)))
            .map(|b| OutOfSeason {
                what: b.id.clone(),
                name: b.name.clone(),
                month: Month::of(day).name(),
                instead: in_its_place(if holds(&self.piece, &b.id) { self } else { theirs }, b, day, stock),
            })
            .collect()
    }
}

/// Something of an order that cannot be ordered any more for the day of its pick-up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TooLate {
    /// Its trade name.
    pub name: String,
    /// Days from ordering it to having it.
    pub lead_days: u8,
    /// The last day on which it could have been ordered.
    pub order_by: Day,
}

impl TooLate {
    /// As a sentence: `Freesia takes 5 days to come: it had to be ordered by Mon 30 Nov 2026.`
    pub fn says(&self, style: DateStyle) -> String {
        let days = counted(usize::from(self.lead_days), "day", "days");
        format!("{} takes {days} to come: it had to be ordered by {}.", self.name, self.order_by.with_weekday(style))
    }
}

impl Order {
    /// What of the pieces, their ribbon and bands is not to be had by the day of the pick-up when it is ordered `today`: by the
    /// days that the shop's list says it takes. Nothing once the day is past, or not known.
    pub fn too_late_to_order(&self, stock: &Stock, today: Day) -> Vec<TooLate> {
        let Some(day) = self.wanted.day().filter(|day| *day >= today) else { return Vec::new() };
        let pieces = || std::iter::once(&self.piece).chain(&self.partner_piece);
        let is_used = |item: &StockItem| match item {
            StockItem::Botanical(b) => pieces().any(|piece| holds(piece, &b.id)),
            StockItem::Ribbon(r) => pieces().any(|piece| piece.bow.as_ref().is_some_and(|bow| bow.ribbon == r.id)),
            StockItem::Band(b) => pieces().any(|piece| piece.band.as_ref() == Some(&b.id)),
            StockItem::Sundry(_) => false,
        };
        let late = |item: StockItem| {
            let lead_days = Some(item.shelf().lead_days).filter(|days| *days > 0)?;
            let order_by = day.plus(-i64::from(lead_days)).filter(|order_by| *order_by < today)?;
            is_used(&item).then(|| TooLate { name: item.name().to_owned(), lead_days, order_by })
        };
        stock.items().filter_map(late).collect()
    }
}

/// What plays the same part, is in trade and is not stopped for the wearer: first what comes in a colour that is used, then what
/// comes nearest in size.
fn in_its_place(order: &Order, missing: &Botanical, day: Day, stock: &Stock) -> Vec<StockId> {
    let used = || order.piece.parts().iter().filter(|part| part.stock == missing.id);
    let has_its_colour = |b: &Botanical| used().any(|part| b.colours.iter().any(|c| *c.name == *part.colour));
    let off = |b: &Botanical| (b.usual_mm() - missing.usual_mm()).abs();
    let mut others: Vec<&Botanical> = stock
        .botanicals()
        .iter()
        .filter(|b| b.role == missing.role && b.cut_from.is_none() && is_in_trade(b, day))
        .filter(|b| stop_flower(order, &b.id, stock).is_none())
        .collect();
    others.sort_by(|a, b| has_its_colour(b).cmp(&has_its_colour(a)).then(off(a).total_cmp(&off(b))));
    others.into_iter().take(MOST_INSTEAD).map(|b| b.id.clone()).collect()
}

fn holds(piece: &Piece, id: &StockId) -> bool {
    piece.parts().iter().any(|part| part.stock == *id)
}

fn is_in_trade(botanical: &Botanical, day: Day) -> bool {
    let (_, month, _) = day.parts();
    usize::try_from(month - 1).ok().and_then(|at| botanical.months.get(at)).copied().unwrap_or(true)
}
