//! How high each head stands, as the check of height computes it: for a picture from the side. Lengths in mm.

use super::relief::{GIVE, stacked};
use crate::geometry::{Disc, Stacked, stack};
use crate::piece::{PartId, Piece};
use crate::stock::Stock;

/// A head and how high it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Standing {
    /// Which one.
    pub part: PartId,
    /// Its outline on the sheet.
    pub disc: Disc,
    /// From the skin to its underside, mm.
    pub base_mm: f64,
    /// From its underside to its top, mm.
    pub thickness_mm: f64,
}

/// All blooms and accents of a piece, from below. Leaves and sprigs lie between them and are left out.
pub fn standing(piece: &Piece, stock: &Stock) -> Vec<Standing> {
    let heads: Vec<(PartId, Stacked)> = piece
        .from_below()
        .into_iter()
        .filter_map(|part| {
            let botanical = stock.botanical(&part.stock);
            Some((part.id, stacked(part, &part.shape_as(botanical), botanical)?))
        })
        .collect();
    let heaps: Vec<Stacked> = heads.iter().map(|head| head.1).collect();
    let bases = stack(&heaps, GIVE).bases;
    let standing_of = |(&(part, heap), base_mm): (&(PartId, Stacked), f64)| Standing {
        part,
        disc: heap.disc,
        base_mm,
        thickness_mm: heap.thickness,
    };
    heads.iter().zip(bases).map(standing_of).collect()
}
