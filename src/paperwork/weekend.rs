//! An occasion at a glance: how many of which size in which colour, whom to call for what is unknown, money in and due, and
//! what one piece more of each size would take on the bench. Rows, no words.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{quote, stem_list};
use crate::book::{CallBack, Order, call_backs};
use crate::piece::{HouseStyle, Piece, Worn};
use crate::stock::{Role, Stock};
use crate::units::{Cents, ceil_u32};

/// Pieces of one size in one colour.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PieceCount {
    /// The size; empty where none was chosen.
    pub size: String,
    /// The colour of most of its blooms; empty where there are none yet.
    pub colour: Arc<str>,
    /// How many.
    pub count: u32,
}

/// An occasion at a glance.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Weekend {
    /// Pieces by size and colour, most first.
    pub pieces: Vec<PieceCount>,
    /// Boutonnieres that go with them, by colour.
    pub boutonnieres: Vec<PieceCount>,
    /// Whom to call, soonest wanted first.
    pub calls: Vec<CallBack>,
    /// What the clients pay in all.
    pub price: Cents,
    /// Paid so far.
    pub paid: Cents,
    /// Minutes of one piece more, of each size for the wrist.
    pub one_more: Vec<(String, u32)>,
}

impl Weekend {
    /// Still to come in.
    pub fn due(&self) -> Cents {
        self.price - self.paid
    }
}

/// These orders at a glance.
pub fn weekend(orders: &[&Order], style: &HouseStyle, stock: &Stock) -> Weekend {
    let quotes = || orders.iter().map(|order| quote(order, style, stock));
    let (mut price, mut paid) = (Cents(0), Cents(0));
    for quote in quotes() {
        price = price + quote.total;
        paid = paid + quote.paid;
    }
    let size = |order: &&&Order| order.size.clone().unwrap_or_default();
    let pieces = orders.iter().map(|order| (size(&order), colour_of(&order.piece, stock)));
    let partners = orders.iter().filter_map(|order| order.partner_piece.as_ref());
    Weekend {
        pieces: counted(pieces),
        boutonnieres: counted(partners.map(|piece| (String::new(), colour_of(piece, stock)))),
        calls: call_backs(orders.iter().copied(), stock),
        price,
        paid,
        one_more: one_more(style, stock),
    }
}

fn counted(pieces: impl Iterator<Item = (String, Arc<str>)>) -> Vec<PieceCount> {
    let mut counts: BTreeMap<(String, Arc<str>), u32> = BTreeMap::new();
    for piece in pieces {
        *counts.entry(piece).or_default() += 1;
    }
    let mut counts: Vec<PieceCount> =
        counts.into_iter().map(|((size, colour), count)| PieceCount { size, colour, count }).collect();
    counts.sort_by_key(|of| std::cmp::Reverse(of.count));
    counts
}

/// The colour of most blooms.
fn colour_of(piece: &Piece, stock: &Stock) -> Arc<str> {
    let mut counts: BTreeMap<&Arc<str>, u32> = BTreeMap::new();
    let is_bloom = |id| stock.botanical(id).is_some_and(|b| b.role == Role::Bloom);
    for part in piece.parts().iter().filter(|part| is_bloom(&part.stock)) {
        *counts.entry(&part.colour).or_default() += 1;
    }
    let most = counts.into_iter().max_by_key(|(_, count)| *count);
    most.map_or_else(|| Arc::from(""), |(colour, _)| Arc::clone(colour))
}

/// A piece of each size as the house makes it, nothing placed yet.
fn one_more(style: &HouseStyle, stock: &Stock) -> Vec<(String, u32)> {
    let sizes = style.sizes.iter().filter(|size| size.worn == Worn::Wrist);
    let minutes = |size| {
        let mut piece = Order::blank(Some(size), stock).piece;
        piece.bow.clone_from(&size.bow);
        (size.name.clone(), ceil_u32(stem_list(&piece, Some(size), stock, style).minutes))
    };
    sizes.map(minutes).collect()
}
