//! A piece put together again from what was kept.

use super::{Bow, Fixing, Footprint, Part, Piece, Worn};
use crate::stock::StockId;

impl Piece {
    /// The piece that holds these parts; the next part gets a number that none of them has.
    pub fn from_parts(
        worn: Worn,
        footprint: Footprint,
        band: Option<StockId>,
        bow: Option<Bow>,
        fixing: Fixing,
        parts: Vec<Part>,
    ) -> Self {
        let next_id = parts.iter().map(|p| p.id.0).max().unwrap_or(0).saturating_add(1);
        Self { worn, footprint, band, bow, fixing, parts, next_id }
    }
}
