//! What to be careful of, gathered from everything on the stem list.

use super::StemList;
use crate::book::Order;
use crate::stock::{Caution, Stock, StockId};

/// Every caution that applies to what is on the list, each with the materials it is for.
pub fn cautions_of(stems: &StemList, order: &Order, stock: &Stock) -> Vec<(Caution, Vec<String>)> {
    let mut found: Vec<(Caution, Vec<String>)> = Vec::new();
    let mut note = |cautions: &[Caution], name: &str| {
        for &caution in cautions {
            match found.iter_mut().find(|f| f.0 == caution) {
                Some((_, names)) => names.push(name.to_owned()),
                None => found.push((caution, vec![name.to_owned()])),
            }
        }
    };
    // The band goes with the wrist piece and not with the boutonniere.
    let is_used = |id: &StockId| stems.hard.iter().any(|h| h.stock == *id);
    for botanical in stems.lines.iter().filter_map(|l| stock.botanical(&l.stock)) {
        note(&botanical.cautions, &botanical.name);
    }
    if let Some(band) = order.piece.band.as_ref().and_then(|id| stock.band(id)).filter(|band| is_used(&band.id)) {
        note(&band.cautions, &band.name);
    }
    for sundry in stems.hard.iter().filter_map(|h| stock.sundry(&h.stock)) {
        note(&sundry.cautions, &sundry.name);
    }
    found.sort_by_key(|f| f.0);
    for (_, names) in &mut found {
        names.dedup();
    }
    found
}
