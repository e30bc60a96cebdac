//! Another way to make the same piece: another band, lasting or fresh greens, something else between the blooms. What would
//! change, the minutes and the price are shown before anything is done. Nothing here shows a cost.
//!
//! Flowers keep their places and turns. The boutonniere that goes with the piece follows where it holds the same flower, so
//! that the two still match.

use super::offers::{Difference, difference, figures_of};
use crate::book::{Change, Order, WearerStops, stop_band, swap};
use crate::piece::{EditRefusal, HouseStyle, Piece, Worn};
use crate::stock::{BandKind, Botanical, Keeps, Role, Stock, StockId};
use crate::units::Cents;

/// What is chosen otherwise; what is not chosen stays as it is.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Variation {
    /// Another kind of band.
    pub band: Option<BandKind>,
    /// All leaves become this one.
    pub greens: Option<StockId>,
    /// All that has this one's role, accents or sprigs, becomes this one.
    pub between: Option<StockId>,
}

/// One thing to choose.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct VariationChoice<T> {
    /// What.
    pub what: T,
    /// What it is called.
    pub name: String,
}

/// What there is to choose for an order; nothing that this wearer must not get is among it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct VariationChoices {
    /// Bands that fit the wrist, one of each other kind.
    pub bands: Vec<VariationChoice<BandKind>>,
    /// Leaves that keep very well, those nearest in size to the present ones first.
    pub lasting: Vec<VariationChoice<StockId>>,
    /// Leaves that keep less long, softer to look at.
    pub fresh: Vec<VariationChoice<StockId>>,
    /// Accents and sprigs for the present ones.
    pub between: Vec<VariationChoice<StockId>>,
    /// Bands that were left out, each with the reason.
    pub left_out: Vec<String>,
}

/// The piece made another way.
#[derive(Clone, Debug, PartialEq)]
pub struct VariationOffer {
    /// The piece.
    pub piece: Piece,
    /// What makes it so: one step.
    pub change: Change,
    /// What stands in for what, a few words each.
    pub says: Vec<String>,
    /// What the client pays for the piece, and the boutonniere where it follows, tax included.
    pub price: Cents,
    /// Against the present piece.
    pub difference: Difference,
}

/// How many of a kind are offered; our choice, as many as one reads at a glance.
const MOST: usize = 3;

const BANDS: [BandKind; 6] =
    [BandKind::Elastic, BandKind::Pearl, BandKind::Rhinestone, BandKind::RibbonTie, BandKind::Metal, BandKind::Slap];

/// What there is to choose.
pub fn variation_choices(order: &Order, stock: &Stock) -> VariationChoices {
    let (bands, left_out) = bands(order, stock);
    let leaves = alternatives(order, Role::Leaf, stock);
    let (lasting, fresh): (Vec<_>, Vec<_>) = leaves.into_iter().partition(|b| b.keeps == Keeps::Excellent);
    let named = |all: Vec<&Botanical>| all.into_iter().take(MOST).map(choice_of).collect::<Vec<_>>();
    let between = [Role::Accent, Role::Filler].map(|role| named(alternatives(order, role, stock))).concat();
    VariationChoices { bands, lasting: named(lasting), fresh: named(fresh), between, left_out }
}

/// The piece of an order made another way, or why it cannot be.
pub fn offer_variation(
    order: &Order,
    way: &Variation,
    style: &HouseStyle,
    stock: &Stock,
) -> Result<VariationOffer, EditRefusal> {
    let mut changes = Vec::new();
    let mut says = Vec::new();
    if let Some(kind) = way.band {
        changes.push(Change::BandKind(kind));
    }
    for id in way.greens.iter().chain(&way.between) {
        let (swaps, swap_words) = swapped(order, id, stock);
        changes.extend(swaps);
        says.extend(swap_words);
    }
    let change = Change::Together(changes);
    let after = order.apply(&change, stock)?;
    says.splice(0..0, band_words(&order.piece, &after.piece, stock));
    let size = order.size.as_ref().and_then(|name| style.size(name));
    let follows = after.partner_piece != order.partner_piece;
    let of = |order: &Order| {
        let partner = order.partner_piece.as_ref().filter(|_| follows);
        let own = figures_of(&order.piece, size, style, stock);
        partner.into_iter().fold(own, |sum, piece| sum.and(figures_of(piece, None, style, stock)))
    };
    let (before, now) = (of(order), of(&after));
    let difference = difference(&before, &now);
    Ok(VariationOffer { piece: after.piece, change, says, price: now.price, difference })
}

fn choice_of(botanical: &Botanical) -> VariationChoice<StockId> {
    VariationChoice { what: botanical.id.clone(), name: botanical.name.clone() }
}

/// The bands that may be chosen, and why others may not.
fn bands(order: &Order, stock: &Stock) -> (Vec<VariationChoice<BandKind>>, Vec<String>) {
    let present = order.piece.band.as_ref().and_then(|id| stock.band(id));
    let (mut bands, mut left_out) = (Vec::new(), Vec::new());
    if order.piece.worn != Worn::Wrist {
        return (bands, left_out);
    }
    for kind in BANDS.into_iter().filter(|kind| present.is_none_or(|band| band.kind != *kind)) {
        let Some(band) = stock.band_for(kind, order.wrist.girth_mm()) else { continue };
        match stop_band(order, &band.id, stock) {
            Some(stop) => left_out.push(stop.why),
            None => bands.push(VariationChoice { what: kind, name: band.name.clone() }),
        }
    }
    (bands, left_out)
}

/// What could stand in for all of a role on the piece, nearest in size first; nothing when there is none of that role.
fn alternatives<'a>(order: &Order, role: Role, stock: &'a Stock) -> Vec<&'a Botanical> {
    let present: Vec<&Botanical> =
        order.piece.parts().iter().filter(|p| p.role == role).filter_map(|p| stock.botanical(&p.stock)).collect();
    let Some(most) = present.first() else { return Vec::new() };
    let stops = WearerStops::of(order, stock);
    let is_all_there_is = |b: &Botanical| present.iter().all(|p| p.id == b.id);
    let mut others: Vec<&Botanical> = stock
        .offered()
        .filter(|b| b.role == role && !is_all_there_is(b))
        .filter(|b| stops.may_propose(&b.id))
        .collect();
    others.sort_by(|a, b| {
        let off = |b: &Botanical| (b.usual_mm() - most.usual_mm()).abs();
        off(a).total_cmp(&off(b))
    });
    others
}

/// The changes that put `id` in place of everything of its role, and the words for them.
fn swapped(order: &Order, id: &StockId, stock: &Stock) -> (Vec<Change>, Vec<String>) {
    let Some(other) = stock.botanical(id) else { return (Vec::new(), Vec::new()) };
    let changes = to_stand_in(&order.piece, order, other, stock);
    let bears = |theirs: &Order| WearerStops::of(theirs, stock).may_propose(id);
    let follows = order.boutonniere().is_some_and(|theirs| bears(&theirs));
    let partners = order.partner_piece.as_ref().filter(|_| follows).map(|piece| {
        let hers: Vec<&StockId> = order.piece.parts().iter().map(|p| &p.stock).collect();
        let theirs = Order { piece: piece.clone(), ..order.clone() };
        let shared = to_stand_in(piece, &theirs, other, stock);
        shared.into_iter().filter(|(was, _)| hers.contains(&was)).map(|(_, change)| change).collect::<Vec<_>>()
    });
    let name = |id: &StockId| stock.botanical(id).map_or_else(|| id.to_string(), |b| b.name.clone());
    let was: Vec<String> = changes.iter().map(|(was, _)| name(was)).collect();
    let swap_words = (!was.is_empty()).then(|| format!("{} instead of {}", other.name, was.join(" and ")));
    let partners = partners
        .into_iter()
        .flatten()
        .filter_map(|change| if let Change::Piece(edit) = change { Some(Change::PartnerEdit(edit)) } else { None });
    (changes.into_iter().map(|(_, change)| change).chain(partners).collect(), swap_words.into_iter().collect())
}

/// For each kind of the role of `other` on the piece: the change that swaps it.
fn to_stand_in(piece: &Piece, order: &Order, other: &Botanical, stock: &Stock) -> Vec<(StockId, Change)> {
    let mut kinds: Vec<&StockId> =
        piece.parts().iter().filter(|p| p.role == other.role && p.stock != other.id).map(|p| &p.stock).collect();
    kinds.sort();
    kinds.dedup();
    kinds.into_iter().filter_map(|id| Some((id.clone(), swap(order, id, &other.id, stock)?))).collect()
}

/// `Pearl band, medium instead of Elastic band, medium`; nothing when the band stays.
fn band_words(was: &Piece, now: &Piece, stock: &Stock) -> Option<String> {
    let name = |piece: &Piece| piece.band.as_ref().and_then(|id| stock.band(id)).map(|b| b.name.clone());
    match (name(was), name(now)) {
        (was, now) if was == now => None,
        (Some(was), Some(now)) => Some(format!("{now} instead of {was}")),
        (None, now) => now,
        (Some(was), None) => Some(format!("No {was}")),
    }
}
