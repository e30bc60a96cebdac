//! Several orders bought together: what each kind and colour comes to over all of them, with the spare of the house, in whole
//! stems; and how many more stems it would be if each order were bought alone.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::quote;
use super::stem_list::{Heads, heads_of};
use crate::book::Order;
use crate::piece::{HouseStyle, Piece, PieceSize, still_to_place};
use crate::stock::{Role, Stock, StockId};
use crate::units::{Cents, ceil_u32};

/// One kind in one colour, over all the orders.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TogetherLine {
    /// Trade name.
    pub name: String,
    /// Colour, by its name in stock.
    pub colour: Arc<str>,
    /// The part it plays.
    pub role: Role,
    /// Heads, sprigs or leaves of each order, in the order in which they were given.
    pub each: Vec<u32>,
    /// All of them.
    pub pieces: u32,
    /// All of them and the spare.
    pub with_spare: u32,
    /// Whole stems for them.
    pub stems: u32,
    /// Whole stems if each order were bought alone, with a spare of its own.
    pub stems_alone: u32,
}

/// Several orders bought together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Together {
    /// Blooms first.
    pub lines: Vec<TogetherLine>,
    /// What the clients pay for all of them.
    pub price: Cents,
}

impl Together {
    /// Stems that buying together saves.
    pub fn stems_saved(&self) -> u32 {
        self.lines.iter().map(|l| l.stems_alone.saturating_sub(l.stems)).sum()
    }
}

/// What these orders come to, their boutonnieres included.
pub fn bought_together(orders: &[&Order], style: &HouseStyle, stock: &Stock) -> Together {
    let needs: Vec<BTreeMap<Kind, Heads>> = orders.iter().map(|order| needs_of(order, style, stock)).collect();
    let mut kinds: Vec<&Kind> = needs.iter().flat_map(BTreeMap::keys).collect();
    kinds.sort();
    kinds.dedup();
    let lines = kinds.into_iter().map(|kind| line(kind, &needs, style.spare, stock)).collect();
    Together { lines, price: orders.iter().map(|order| quote(order, style, stock).total).sum() }
}

/// What is bought, in which colour, for which part.
pub(super) type Kind = (Role, StockId, Arc<str>);

fn needs_of(order: &Order, style: &HouseStyle, stock: &Stock) -> BTreeMap<Kind, Heads> {
    let of = |piece: &Piece, size: Option<&PieceSize>| heads_of(piece, &still_to_place(piece, size, stock), stock);
    let size = order.size.as_ref().and_then(|name| style.size(name));
    let mut needs = of(&order.piece, size);
    for (kind, more) in order.partner_piece.iter().flat_map(|piece| of(piece, None)) {
        needs.entry(kind).or_default().join(&more);
    }
    needs
}

fn line(kind: &Kind, needs: &[BTreeMap<Kind, Heads>], spare: f64, stock: &Stock) -> TogetherLine {
    let (role, id, colour) = kind;
    let mut all = Heads::default();
    needs.iter().filter_map(|of_one| of_one.get(kind)).for_each(|heads| all.join(heads));
    let alone = needs.iter().filter_map(|of_one| of_one.get(kind)).map(|heads| stems_with_spare(heads, spare).1).sum();
    let (with_spare, stems) = stems_with_spare(&all, spare);
    TogetherLine {
        name: stock.botanical(id).map_or_else(|| id.to_string(), |b| b.name.clone()),
        colour: Arc::clone(colour),
        role: *role,
        each: needs.iter().map(|of_one| of_one.get(kind).map_or(0, |heads| heads.pieces)).collect(),
        pieces: all.pieces,
        with_spare,
        stems,
        stems_alone: alone,
    }
}

/// Heads with their spare, and whole stems for them.
pub(super) fn stems_with_spare(heads: &Heads, spare: f64) -> (u32, u32) {
    /// Sums of tenths that come this near to a whole are whole.
    const WHOLE: f64 = 1e-9;
    let with_spare = ceil_u32(f64::from(heads.pieces) * (1.0 + spare) - WHOLE);
    let a_head = heads.stems / f64::from(heads.pieces.max(1));
    (with_spare, ceil_u32(f64::from(with_spare) * a_head - WHOLE))
}
