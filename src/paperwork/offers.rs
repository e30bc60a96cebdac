//! The sizes side by side: what each would cost for this client, how it differs from the present piece, and what a budget
//! buys. Nothing here tells a cost.

use std::collections::BTreeMap;

use super::quote::with_tax;
use super::{Quote, quote, stem_list};
use crate::book::{Change, Charge, Order, WearerStops, stop_flower, stopped};
use crate::piece::{Bow, Edit, HouseStyle, Part, PartId, Piece, PieceSize, Seat, still_to_place};
use crate::stock::{Role, Stock, StockId};
use crate::units::Cents;

/// How an offer differs from the present piece: more is positive.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Difference {
    /// Heads: blooms and accents.
    pub heads: i64,
    /// Sprigs.
    pub sprigs: i64,
    /// Leaves.
    pub leaves: i64,
    /// Pearls, stones and the like.
    pub trims: i64,
    /// Minutes on the bench.
    pub minutes: f64,
    /// Price, tax included.
    pub price: Cents,
}

/// One size for this client.
#[derive(Clone, Debug, PartialEq)]
pub struct SizeOffer {
    /// Petite, Classic, Full.
    pub name: String,
    /// Whether this is the present size.
    pub is_present: bool,
    /// What the client pays for the piece, tax included.
    pub price: Cents,
    /// Minutes on the bench.
    pub minutes: f64,
    /// Against the present piece.
    pub difference: Difference,
    /// The piece as far as it is sketched, in this size: to draw it side by side.
    pub piece: Piece,
    /// Names of what it would hold and this wearer must not get.
    pub stopped: Vec<String>,
}

impl SizeOffer {
    /// What makes `present` the piece that is drawn for this size, its ribbon included: one step. Locked parts that stay do
    /// not move.
    pub fn taken(&self, present: &Piece, size: &PieceSize) -> Change {
        // A part laid out anew may have been given the number of one that was left out.
        let is_same = |a: &Part, b: &Part| {
            let is = |p: &Part| (p.stock.clone(), p.colour.clone(), p.role, p.size_mm);
            is(a) == is(b)
        };
        let was = |part: &Part| present.part(part.id).filter(|was| is_same(was, part));
        let stays = |part: &&Part| self.piece.part(part.id).is_some_and(|now| is_same(part, now));
        let gone: Vec<PartId> = present.parts().iter().filter(|p| !stays(p)).map(|p| p.id).collect();
        let moved = |now: &&Part| {
            let same = |was: &Part| (was.centre, was.turn_rad, was.level) == (now.centre, now.turn_rad, now.level);
            was(now).is_some_and(|was| !was.locked && !same(was))
        };
        let seat = |p: &Part| Seat { id: p.id, centre: p.centre, turn_rad: p.turn_rad, level: p.level };
        let seats = self.piece.parts().iter().filter(moved).map(seat).collect();
        let new = self.piece.parts().iter().filter(|p| was(p).is_none()).map(Part::as_new).collect();
        let mut edits = vec![Edit::SetOut(seats, new)];
        if !gone.is_empty() {
            edits.splice(0..0, [Edit::Lock(gone.clone(), false), Edit::Remove(gone)]);
        }
        let size = PieceSize { bow: self.piece.bow.clone(), ..size.clone() };
        Change::Together(vec![Change::Size(Box::new(size)), Change::Piece(Edit::Together(edits))])
    }
}

/// What a budget buys.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BudgetAnswer {
    /// What the client wants to spend.
    pub budget: Cents,
    /// What of it goes to the rest of the order.
    pub other_charges: Cents,
    /// The dearest size within it, and its price.
    pub fits: Option<(String, Cents)>,
    /// What is left of the budget then.
    pub left: Cents,
    /// The next size, and how much more than the budget it costs.
    pub next: Option<(String, Cents)>,
}

/// All sizes that are worn where this piece is worn, as the house lists them.
pub fn sizes_side_by_side(order: &Order, style: &HouseStyle, stock: &Stock) -> Vec<SizeOffer> {
    let stops = WearerStops::of(order, stock);
    let stock = &*stops.stock_to_propose();
    let present_size = order.size.as_ref().and_then(|name| style.size(name));
    let present = figures_of(&order.piece, present_size, style, stock);
    let fitting = style.sizes.iter().filter(|s| s.worn == order.piece.worn);
    let shift = firm_shift(order, present.price, style, stock);
    fitting
        .map(|size| {
            let is_present = present_size.is_some_and(|p| p.name == size.name);
            let piece = if is_present { order.piece.clone() } else { in_size(&order.piece, size, present_size, stock) };
            let now = figures_of(&piece, Some(size), style, stock);
            let difference = difference(&present, &now);
            let stopped = stopped_in(order, &piece, size, stops.stock());
            let (price, minutes) = ((now.price + shift).max(Cents(0)), now.minutes);
            SizeOffer { name: size.name.clone(), is_present, price, minutes, difference, piece, stopped }
        })
        .collect()
}

/// How far the piece's price as quoted or agreed lies from today's: sizes differ by what they differ today, and the present one
/// costs what it was said to cost.
fn firm_shift(order: &Order, today: Cents, style: &HouseStyle, stock: &Stock) -> Cents {
    let quote = quote(order, style, stock);
    let line = quote.lines.iter().find(|line| line.charge == Charge::Wrist).filter(|_| quote.firm.is_some());
    line.map_or(Cents(0), |line| with_tax(line.price, style) - today)
}

/// What of a piece, and of what its size was planned to hold beyond it, this wearer must not get: names, each once. What is
/// counted and priced in place of the planned is what she may get.
fn stopped_in(order: &Order, piece: &Piece, size: &PieceSize, stock: &Stock) -> Vec<String> {
    let with = Order { piece: piece.clone(), ..order.clone() };
    let to_come = still_to_place(piece, Some(size), stock);
    let to_come = to_come.iter().filter_map(|(b, _, _)| stop_flower(order, &b.id, stock));
    let mut names: Vec<String> = Vec::new();
    for stop in stopped(&with, stock).into_iter().chain(to_come) {
        if !names.contains(&stop.name) {
            names.push(stop.name);
        }
    }
    names
}

/// What an order costs by its quote besides the piece that has sizes, tax included: the boutonniere, extras, a rush.
pub fn other_charges(quote: &Quote, style: &HouseStyle) -> Cents {
    let piece = quote.lines.first().map_or(Cents(0), |line| with_tax(line.price, style));
    (quote.total - piece).max(Cents(0))
}

/// What `budget` buys among the offers when the rest of the order costs `besides`.
pub fn fits_budget(offers: &[SizeOffer], budget: Cents, other_charges: Cents) -> BudgetAnswer {
    let to_spend = budget - other_charges;
    let named = |offer: &SizeOffer| (offer.name.clone(), offer.price);
    let fits = offers.iter().filter(|o| o.price <= to_spend).max_by_key(|o| o.price).map(named);
    let next = offers.iter().filter(|o| o.price > to_spend).min_by_key(|o| o.price).map(named);
    let left = fits.as_ref().map_or(to_spend, |(_, price)| to_spend - *price);
    BudgetAnswer { budget, other_charges, fits, left, next: next.map(|(name, price)| (name, price - to_spend)) }
}

/// Counts by role, minutes, and price with tax.
#[derive(Clone, Debug)]
pub(super) struct PieceFigures {
    counts: BTreeMap<Role, i64>,
    minutes: f64,
    pub(super) price: Cents,
}

impl PieceFigures {
    /// Two pieces together.
    pub(super) fn and(mut self, other: Self) -> Self {
        for (role, n) in other.counts {
            *self.counts.entry(role).or_default() += n;
        }
        Self { minutes: self.minutes + other.minutes, price: self.price + other.price, ..self }
    }
}

/// How the one differs from the other.
pub(super) fn difference(from: &PieceFigures, to: &PieceFigures) -> Difference {
    let more = |role: Role| to.counts.get(&role).unwrap_or(&0) - from.counts.get(&role).unwrap_or(&0);
    Difference {
        heads: more(Role::Bloom) + more(Role::Accent),
        sprigs: more(Role::Filler),
        leaves: more(Role::Leaf),
        trims: more(Role::Trim),
        minutes: to.minutes - from.minutes,
        price: to.price - from.price,
    }
}

/// What a piece comes to, with what its size promises.
pub(super) fn figures_of(piece: &Piece, size: Option<&PieceSize>, style: &HouseStyle, stock: &Stock) -> PieceFigures {
    let stems = stem_list(piece, size, stock, style);
    let price = stems.price(&style.prices);
    let mut counts: BTreeMap<Role, i64> = BTreeMap::new();
    for line in &stems.lines {
        *counts.entry(line.role).or_default() += i64::from(line.pieces);
    }
    PieceFigures { counts, minutes: stems.minutes, price: with_tax(price.rounded, style) }
}

/// The piece in another size: its oval and bow, in the ribbon that was chosen; of the parts no more than the size holds,
/// and only where both sizes plan the same flower. What no size plans stays.
fn in_size(piece: &Piece, size: &PieceSize, present: Option<&PieceSize>, stock: &Stock) -> Piece {
    let planned = plan(size, stock);
    let before = present.map(|p| plan(p, stock)).unwrap_or_default();
    let mut left: BTreeMap<Role, u32> = planned.iter().map(|(role, (_, n))| (*role, *n)).collect();
    let is_alike = |role: &Role, id: &StockId, part: &Part| match before.get(role) {
        Some((was, _)) => was == id,
        None => part.stock == *id,
    };
    let mut keep = |part: &&Part| match planned.get(&part.role) {
        None => !before.contains_key(&part.role),
        Some((id, _)) if !is_alike(&part.role, id, part) => false,
        Some(_) => left.get_mut(&part.role).is_some_and(|n| {
            let kept = *n > 0;
            *n = n.saturating_sub(1);
            kept
        }),
    };
    let parts: Vec<Part> = piece.parts().iter().filter(|p| keep(p)).cloned().collect();
    let mut footprint = piece.footprint;
    (footprint.length_mm, footprint.width_mm) = (size.length_mm, size.width_mm);
    let mut after = Piece::restore(size.worn, footprint, parts).unwrap_or_else(|_| Piece::empty(size.worn, footprint));
    let chosen = piece.bow.as_ref();
    after.bow = size.bow.clone().map(|bow| match chosen {
        Some(chosen) => Bow { ribbon: chosen.ribbon.clone(), colour: chosen.colour.clone(), ..bow },
        None => bow,
    });
    after.band.clone_from(&piece.band);
    after.fixing = piece.fixing;
    after.wishes = piece.wishes.clone();
    after
}

/// What a size plans by role: the first flower of the role, and how many in all.
fn plan(size: &PieceSize, stock: &Stock) -> BTreeMap<Role, (StockId, u32)> {
    let mut planned: BTreeMap<Role, (StockId, u32)> = BTreeMap::new();
    for line in &size.holds {
        if let Some(botanical) = stock.botanical(&line.stock) {
            planned.entry(botanical.role).or_insert_with(|| (line.stock.clone(), 0)).1 += line.count;
        }
    }
    planned
}
