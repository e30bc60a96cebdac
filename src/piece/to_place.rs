//! What a size promises beyond what is on the sketch.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{Piece, PieceSize};
use crate::stock::{Botanical, Role, Stock};

/// So many of a kind in a colour, promised and not on the sketch yet.
pub type ToPlace<'a> = (&'a Botanical, Arc<str>, u32);

/// What a size promises beyond what is on the sketch. A head in another colour, or another bloom of the same role, keeps
/// the promise just as well. Where the stock withholds a flower, what may be proposed in its place is promised. Nothing
/// without a size.
pub fn still_to_place<'a>(piece: &Piece, size: Option<&PieceSize>, stock: &'a Stock) -> Vec<ToPlace<'a>> {
    let Some(size) = size else { return Vec::new() };
    let mut spare: BTreeMap<Role, u32> = BTreeMap::new();
    for part in piece.parts() {
        *spare.entry(part.role).or_default() += 1;
    }
    let mut to_come = Vec::new();
    for planned in &size.holds {
        let Some(botanical) = stock.botanical(&planned.stock) else { continue };
        let placed = spare.entry(botanical.role).or_default();
        let kept = planned.count.min(*placed);
        *placed -= kept;
        if planned.count > kept {
            let is_proposable = |id| stock.may_be_proposed(id);
            let like = piece.parts().iter().find(|p| p.role == botanical.role && is_proposable(&p.stock));
            let same = like.and_then(|p| Some((stock.botanical(&p.stock)?, Arc::clone(&p.colour))));
            let planned_one = || {
                let what = stock.proposable(botanical)?;
                let colour = what.colour(&planned.colour).map_or("", |c| c.name.as_str());
                let is_itself = what.id == botanical.id;
                Some((what, if is_itself { Arc::clone(&planned.colour) } else { Arc::from(colour) }))
            };
            if let Some((what, colour)) = same.or_else(planned_one) {
                to_come.push((what, colour, planned.count - kept));
            }
        }
    }
    to_come
}
