//! Pieces put together in a few words, for the tests.

pub(crate) mod paper_shop;
pub(crate) mod pdf_streams;

use std::sync::{Arc, OnceLock};

use posywright::geometry::Point;
use posywright::piece::{Edit, Footprint, Level, NewPart, Piece, Worn};
use posywright::stock::{Role, Stock, StockId};
use posywright::store::built_in_stock;

/// A wrist piece without parts.
pub(crate) fn empty(length_mm: f64, width_mm: f64) -> Piece {
    Piece::empty(Worn::Wrist, Footprint { length_mm, width_mm, offset_mm: 50.0 })
}

pub(crate) fn put(piece: &Piece, stock: &str, role: Role, at: (f64, f64), size: f64, level: Level) -> Piece {
    let new = NewPart {
        stock: StockId::new(stock),
        colour: colour_of(stock),
        role,
        centre: Point::new(at.0, at.1),
        turn_rad: 0.0,
        size_mm: Some(size),
        level,
    };
    piece.apply(&Edit::Place(new)).unwrap_or_else(|r| panic!("{r}"))
}

pub(crate) fn bloom(piece: &Piece, at: (f64, f64)) -> Piece {
    put(piece, "spray-rose", Role::Bloom, at, 28.0, Level::Raised)
}

/// Five blooms at the ends and in the middle, on an oval of 90 x 54.
pub(crate) fn five() -> Piece {
    [(31.0, 0.0), (-31.0, 0.0), (0.0, 13.0), (0.0, -13.0), (2.0, 0.0)]
        .into_iter()
        .fold(empty(90.0, 54.0), |p, at| bloom(&p, at))
}

/// The first colour that something comes in.
fn colour_of(stock: &str) -> Arc<str> {
    static STOCK: OnceLock<Stock> = OnceLock::new();
    let list = STOCK.get_or_init(built_in_stock);
    let botanical = list.botanical(&StockId::new(stock)).unwrap_or_else(|| panic!("no {stock} in stock"));
    Arc::from(botanical.colours[0].name.as_str())
}
