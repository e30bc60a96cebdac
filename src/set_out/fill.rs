//! Put one more where there is room.

use std::sync::Arc;

use crate::geometry::{Disc, GapSearch, Point, Shape, gaps};
use crate::piece::{Edit, Level, NewPart, Piece};
use crate::stock::{Botanical, Role, Stock, StockId};

/// Share of a head's size by which its neighbours may squeeze it; common practice, no source.
const SQUEEZE: f64 = 0.25;

/// The edit that puts a sprig into `gap`: the filler already used on the piece, else the
/// first in stock that fits. Sized to the gap within the sizes the trade has.
pub(super) fn filler_for(piece: &Piece, stock: &Stock, gap: Disc) -> Option<Edit> {
    let used = piece.parts().iter().filter(|p| p.role == Role::Filler).filter_map(|p| stock.botanical(&p.stock));
    let any = stock.offered().filter(|b| b.role == Role::Filler);
    let room = 2.0 * gap.radius / (1.0 - SQUEEZE);
    let is_fit = |b: &&Botanical| b.size_mm[0] <= room && !b.form.is_long() && stock.may_be_proposed(&b.id);
    let filler = used.chain(any).find(is_fit)?;
    let colour = piece.parts().iter().find(|p| p.stock == filler.id).map(|p| Arc::clone(&p.colour));
    let new = NewPart {
        stock: filler.id.clone(),
        colour: colour.unwrap_or_else(|| first_colour(filler)),
        role: Role::Filler,
        centre: gap.centre,
        turn_rad: 0.0,
        size_mm: (filler.usual_mm() > room).then_some(room),
        level: Level::Flat,
    };
    Some(Edit::Place(new))
}

/// The edit that puts one more of a kind where there is most room, like the others of its kind.
pub(super) fn one_more(piece: &Piece, stock: &Stock, kind: &StockId) -> Option<Edit> {
    let like = piece.parts().iter().rev().find(|p| p.stock == *kind && stock.may_be_proposed(kind))?;
    Some(Edit::Place(NewPart { centre: next_place(piece, stock), ..like.as_new() }))
}

/// Where the next part would go: the middle of the largest gap, or the centre when all is covered.
pub fn next_place(piece: &Piece, stock: &Stock) -> Point {
    /// Good enough for a proposal, mm.
    const TOLERANCE_MM: f64 = 0.5;
    let shapes: Vec<Shape> = piece.parts().iter().map(|p| p.shape_in(stock)).collect();
    let search = GapSearch { overhang: 0.0, least_radius: 1.0, tolerance: TOLERANCE_MM, most: 1 };
    let found = if shapes.is_empty() { None } else { gaps(&shapes, piece.oval(), &search).first().map(|g| g.centre) };
    found.unwrap_or(Point::ZERO)
}

fn first_colour(botanical: &Botanical) -> Arc<str> {
    botanical.colours.first().map_or_else(|| Arc::from("white"), |c| Arc::from(c.name.as_str()))
}
