//! The boutonniere that goes with a wrist piece: the first size of the house for the lapel, in the wearer's own flowers, built as the
//! craft builds it: leaves behind with their tips above the bloom, sprigs behind and beside it, wired and taped.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{Order, WearerStops, What};
use crate::geometry::Point;
use crate::piece::{Bow, Edit, Fixing, Footprint, HouseStyle, LapelHold, Level, NewPart, Piece, PieceSize, Worn};
use crate::stock::{Botanical, Caution, Role, Stock, StockId, SundryKind};

/// The size that stands in when the house has none for the lapel, mm; our choice.
const USUAL_MM: (f64, f64) = (60.0, 34.0);
/// Across a bloom where none is known, and along a leaf, mm; our choice, as of a spray rose and a leaf of ruscus.
const USUAL_BLOOM_MM: f64 = 30.0;
const TYPICAL_LEAF_MM: f64 = 45.0;

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
    if let Some(named) =
        style.lapel_sundries.iter().filter_map(|id| stock.sundry(id)).find(|s| s.kind == SundryKind::Pin)
        && named.cautions.contains(&Caution::Magnet)
    {
        piece.lapel.hold = LapelHold::Magnets;
    }
    piece.fixing = Fixing::Wired;
    let theirs = Order { needs: order.partner_needs.clone(), partner_piece: None, ..order.clone() };
    let whole_stock = stock;
    let stock = &*WearerStops::of(&theirs, stock).stock_to_propose();
    let bloom_mm = bloom_mm(order, size, stock);
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
            let part = place(botanical, Arc::clone(&colour), *n, LapelRoom { length_mm, width_mm, bloom_mm });
            *n += 1;
            // A place beyond reach or a piece that is full leaves the rest off.
            piece = piece.apply(&Edit::Place(part)).unwrap_or(piece);
        }
    }
    safely_made(piece, &theirs, whole_stock)
}

/// The same with what its wearer bears: taped and not wired where wire is stopped, pinned where magnets are.
fn safely_made(mut piece: Piece, theirs: &Order, stock: &Stock) -> Piece {
    let worn = Order { piece: piece.clone(), ..theirs.clone() };
    for stop in WearerStops::of(&worn, stock).all() {
        match stop.what {
            What::Sundry(SundryKind::Wire) => piece.fixing = Fixing::Glued,
            What::Magnet => piece.lapel.hold = LapelHold::Pins,
            _ => {}
        }
    }
    piece
}

/// The room that a boutonniere is built in, mm.
#[derive(Clone, Copy)]
struct LapelRoom {
    length_mm: f64,
    width_mm: f64,
    /// Across its bloom.
    bloom_mm: f64,
}

/// Across the bloom that it will have: the one that the wrist piece has most of, else the one that the size plans.
fn bloom_mm(order: &Order, size: Option<&PieceSize>, stock: &Stock) -> f64 {
    let hers = most_of(&order.piece, Role::Bloom, stock).map(|(b, _)| b).filter(|b| stock.may_be_proposed(&b.id));
    let planned = || {
        let all = size.iter().flat_map(|s| &s.holds).filter_map(|planned| stock.botanical(&planned.stock));
        all.filter(|b| b.role == Role::Bloom).find_map(|usual| stock.proposable(usual))
    };
    hers.or_else(planned).map_or(USUAL_BLOOM_MM, Botanical::usual_mm)
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

/// How much of each leaf stands above the bloom, as a share of its length: a third, its tip with it; common practice, no source.
const ABOVE_THE_BLOOM: f64 = 1.0 / 3.0;
/// How far leaves and sprigs fan out, one after the other, degrees; our choice.
const FAN_DEG: f64 = 15.0;

/// The n-th of its role, as the craft builds it: one bloom in front, further ones beside and below it; leaves behind, tips up, a
/// third of each above the bloom; sprigs behind and beside it.
fn place(botanical: &Botanical, colour: Arc<str>, n: u32, room: LapelRoom) -> NewPart {
    let LapelRoom { length_mm, width_mm, bloom_mm } = room;
    let row = f64::from(n / 2);
    let side = if n.is_multiple_of(2) { -1.0 } else { 1.0 };
    let long_mm = botanical.usual_mm();
    // So that foliage and bloom together sit about the middle of the oval.
    let bloom_x =
        ((length_mm - bloom_mm) / 2.0 - TYPICAL_LEAF_MM * ABOVE_THE_BLOOM).clamp(-length_mm / 6.0, 0.15 * length_mm);
    let top = bloom_x + bloom_mm / 2.0;
    let fanned = side * (FAN_DEG * (row + 1.0)).to_radians();
    match botanical.role {
        Role::Bloom if n == 0 => NewPart::usual(botanical, colour, Point::new(bloom_x, 0.0)),
        Role::Bloom | Role::Accent | Role::Trim => {
            let centre = Point::new(bloom_x - length_mm * (0.06 + 0.1 * row), 0.3 * width_mm * side);
            NewPart::usual(botanical, colour, centre)
        }
        // Behind the bloom, its tip beside the bloom's edge.
        Role::Filler => {
            let centre = Point::new(bloom_x + bloom_mm * (0.28 - 0.2 * row), (0.36 * bloom_mm + 1.0) * -side);
            NewPart { turn_rad: -fanned, level: Level::Flat, ..NewPart::usual(botanical, colour, centre) }
        }
        Role::Leaf => {
            // A third of its length above the bloom's top: the middle stands a sixth of it below.
            let below = long_mm * (0.5 - ABOVE_THE_BLOOM);
            let lean = fanned.tan() * (bloom_mm / 2.0 - below).max(0.0);
            let centre = Point::new(top - below, (0.1 * bloom_mm + lean.abs()) * side);
            NewPart { turn_rad: fanned, level: Level::Flat, ..NewPart::usual(botanical, colour, centre) }
        }
    }
}
