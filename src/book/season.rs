//! What of an order is not in trade in the month of its pick-up, and what may stand in for it. The months are those of the stock
//! list, which a shop puts right for its own market.

use super::{Day, Month, Order, stop_flower};
use crate::piece::Piece;
use crate::stock::{Botanical, Stock, StockId};

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
        let missing = stock.botanicals().iter().filter(|b| !is_in_trade(b, day));
        missing
            .filter(|b| pieces().any(|piece| holds(piece, &b.id)))
            .map(|b| OutOfSeason {
                what: b.id.clone(),
                name: b.name.clone(),
                month: Month::of(day).name(),
                instead: in_its_place(self, b, day, stock),
            })
            .collect()
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
