//! Draw a piece in: all free parts move toward the middle line, each by the same share of its distance from it.

use crate::geometry::{Point, Shape, extents};
use crate::piece::{Edit, PartId, Piece};
use crate::stock::Stock;

/// Steps by which parts are drawn in, as shares of their distance; our choice, finer than a hand places.
const STEPS: u32 = 100;

/// The least drawing in after which `enough` holds of the extents along and across the arm, mm.
pub(super) fn until(piece: &Piece, stock: &Stock, enough: impl Fn(f64, f64) -> bool) -> Option<Edit> {
    let places = |share: f64| -> Vec<(PartId, Point)> {
        let free = piece.parts().iter().filter(|p| !p.locked);
        free.map(|p| (p.id, Point::new(p.centre.x, p.centre.y * share))).collect()
    };
    (1..=STEPS).find_map(|step| {
        let edit = Edit::MoveEach(places(1.0 - f64::from(step) / f64::from(STEPS)));
        let after = piece.apply(&edit).ok()?;
        let shapes: Vec<Shape> = after.parts().iter().map(|p| p.shape_in(stock)).collect();
        let bounds = extents(&shapes)?;
        enough(bounds.width(), bounds.height()).then_some(edit)
    })
}
