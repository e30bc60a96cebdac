//! The boutonniere that goes with a wrist piece: the first size of the house for the lapel, in the wearer's own flowers.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{Order, WearerStops};
use crate::geometry::Point;
use crate::piece::{Bow, Edit, Footprint, HouseStyle, NewPart, Piece, Worn};
use crate::stock::{Botanical, Role, Stock, StockId};

/// The size that stands in when the house has none for the lapel, mm; our choice.
const USUAL_MM: (f64, f64) = (60.0, 34.0);

/// A boutonniere that shares flowers and, where its size has a bow, the ribbon with the order's piece. It has stems and a
/// price of its own, and nothing that its own wearer must not get. Of each role it takes the flower that the wrist piece has most of, else the one that the size plans.
pub fn matching_boutonniere(order: &Order, style: &HouseStyle, stock: &Stock) -> Piece {
    let size = style.sizes.iter().find(|s| s.worn == Worn::Lapel);
    let (length_mm, width_mm) = size.map_or(USUAL_MM, |s| (s.length_mm, s.width_mm));
    let mut piece = Piece::empty(Worn::Lapel, Footprint { length_mm, width_mm, offset_mm: 0.0 });
    piece.bow = size.and_then(|s| s.bow.clone()).map(|bow| match &order.piece.bow {
        Some(hers) => Bow { ribbon: hers.ribbon.clone(), colour: Arc::clone(&hers.colour), ..bow },
        None => bow,
    });
    let theirs = Order { needs: order.partner_needs.clone(), partner_piece: None, ..order.clone() };
    let stock = &*WearerStops::of(&theirs, stock).stock_to_propose();
    let mut n_of_role: BTreeMap<Role, u32> = BTreeMap::new();
    for planned in size.iter().flat_map(|s| &s.holds) {
        let Some(usual) = stock.botanical(&planned.stock) else { continue };
        let hers = most_of(&order.piece, usual.role, stock);
        let hers = hers.filter(|(b, _)| stock.may_be_proposed(&b.id));
        let planned_one = || {
            let what = stock.proposable(usual)?;
            Some((
                what,
                what.colour(&planned.colour).map_or_else(|| Arc::clone(&planned.colour), |c| c.name.as_str().into()),
            ))
        };
        let Some((botanical, colour)) = hers.or_else(planned_one) else { continue };
        for _ in 0..planned.count {
            let n = n_of_role.entry(usual.role).or_default();
            let part = place(botanical, Arc::clone(&colour), *n, length_mm, width_mm);
            *n += 1;
            // A place beyond reach or a piece that is full leaves the rest off.
            piece = piece.apply(&Edit::Place(part)).unwrap_or(piece);
        }
    }
    piece
}

/// The flower and colour of a role that the piece has most of; of equals the first in the alphabet.
fn most_of<'a>(piece: &Piece, role: Role, stock: &'a Stock) -> Option<(&'a Botanical, Arc<str>)> {
    let mut counts: BTreeMap<(&StockId, &Arc<str>), u32> = BTreeMap::new();
    for part in piece.parts().iter().filter(|p| p.role == role) {
        *counts.entry((&part.stock, &part.colour)).or_default() += 1;
    }
    let ((id, colour), _) = counts.into_iter().rev().max_by_key(|(_, n)| *n)?;
    Some((stock.botanical(id)?, Arc::clone(colour)))
}

/// The n-th of its role: blooms at the head, sprigs at the foot, leaves behind to both sides, tips downward.
fn place(botanical: &Botanical, colour: Arc<str>, n: u32, length_mm: f64, width_mm: f64) -> NewPart {
    let row = f64::from(n / 2);
    let side = if n.is_multiple_of(2) { -1.0 } else { 1.0 };
    let (along, across) = match botanical.role {
        Role::Bloom if n == 0 => (0.15, 0.0),
        Role::Bloom | Role::Accent | Role::Trim => (-0.02 - 0.1 * row, 0.28 * side),
        Role::Filler => (-0.23, 0.18 * side * f64::from(n.min(1))),
        Role::Leaf => (-0.13 + 0.08 * row, 0.29 * side),
    };
    let centre = Point::new(along * length_mm, across * width_mm);
    let turn_rad = if botanical.role == Role::Leaf { (-168.0 * side).to_radians() } else { 0.0 };
    NewPart { turn_rad, ..NewPart::usual(botanical, colour, centre) }
}
