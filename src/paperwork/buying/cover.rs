//! The cheapest cover of one item: a bounded knapsack over stems in hand, told backward, so that each row also says what
//! the rest will cost at least.
//!
//! Money is whole parts of a cent ([`PARTS`]), so that a discount of so many parts stays whole.

use super::Wanted;

/// Parts of a cent; a price discounted by n parts costs `PARTS - n` parts a cent.
pub(super) const PARTS: i64 = 64;

/// More than anything costs; sums of all items stay below `i64::MAX`.
pub(super) const NEVER: i64 = i64::MAX / 2_048;

/// One offer of the item.
#[derive(Clone, Copy, Debug)]
pub(super) struct Packs {
    /// Place of the offer.
    pub(super) offer: usize,
    /// Place of the supplier among those that can be ordered from.
    pub(super) supplier: usize,
    /// Stems in a pack.
    pub(super) stems: usize,
    /// Price of a pack, cents.
    pub(super) price: i64,
    /// Packs in stock.
    pub(super) packs: u32,
}

impl Packs {
    /// Packs that make a difference to somebody who has `have` stems and wants no more than `full`.
    pub(super) fn useful(&self, have: usize, full: usize) -> u32 {
        let missing = full.saturating_sub(have).div_ceil(self.stems);
        u32::try_from(missing).map_or(self.packs, |missing| missing.min(self.packs))
    }
}

/// Stems beyond which more are worth nothing.
pub(super) fn full(wanted: &Wanted) -> usize {
    wanted.stems as usize + wanted.keep as usize
}

/// What `stems` in hand are worth at the end, parts of a cent: nothing below what is wanted will do.
pub(super) fn at_the_end(wanted: &Wanted, stems: usize) -> i64 {
    match u32::try_from(stems).unwrap_or(u32::MAX).checked_sub(wanted.stems) {
        Some(spare) => -PARTS * wanted.spare_worth.0 * i64::from(spare.min(wanted.keep)),
        None => NEVER,
    }
}

/// For every offer and every number of stems in hand, the least still to pay.
pub(super) struct Cover<'a> {
    wanted: &'a Wanted,
    /// The offers, each with the parts of a cent that a cent of its price costs.
    offers: Vec<(Packs, i64)>,
    /// `rows[k][t]`: with the offers from `k` on, and `t` stems in hand; [`NEVER`] or more where it cannot be done.
    rows: Vec<Vec<i64>>,
}

impl<'a> Cover<'a> {
    /// Weighs the offers of one item.
    pub(super) fn of(wanted: &'a Wanted, offers: Vec<(Packs, i64)>) -> Self {
        let mut row: Vec<i64> = (0..=full(wanted)).map(|t| at_the_end(wanted, t)).collect();
        let mut rows = vec![row.clone()];
        for (packs, parts) in offers.iter().rev() {
            add(&mut row, packs, packs.price * parts);
            rows.push(row.clone());
        }
        rows.reverse();
        Self { wanted, offers, rows }
    }

    /// The least for the whole item, if it can be had.
    pub(super) fn least(&self) -> Option<i64> {
        self.to_come(0, 0)
    }

    /// The least still to pay at offer `k` with `stems` in hand.
    pub(super) fn to_come(&self, k: usize, stems: usize) -> Option<i64> {
        self.rows.get(k)?.get(stems.min(full(self.wanted))).copied().filter(|least| *least < NEVER / 2)
    }

    /// Offers and packs of one cheapest cover: the fewest packs of early offers among equals.
    pub(super) fn choice(&self) -> Vec<(usize, u32)> {
        let full = full(self.wanted);
        let mut stems = 0;
        let mut chosen = Vec::new();
        for (k, (packs, parts)) in self.offers.iter().enumerate() {
            let least = self.to_come(k, stems);
            let after = |n: u32| (stems + n as usize * packs.stems).min(full);
            let costs = |n: u32| Some(i64::from(n) * packs.price * parts + self.to_come(k + 1, after(n))?);
            let n = (0..=packs.useful(stems, full)).find(|&n| costs(n) == least).unwrap_or(0);
            stems = after(n);
            chosen.push((packs.offer, n));
        }
        chosen
    }

    /// Steps that weighing takes, for the limit.
    pub(super) fn steps(wanted: &Wanted, offers: impl Iterator<Item = Packs>) -> u64 {
        let halvings = |p: Packs| u64::from(u32::BITS - p.useful(0, full(wanted)).leading_zeros()) + 1;
        (full(wanted) as u64 + 1) * offers.map(halvings).sum::<u64>()
    }
}

/// Up to so many packs at `price` parts of a cent, by doubling bundles. Rows are walked upward: what lies above has not
/// changed yet, and from full hands nothing is gained.
fn add(row: &mut [i64], packs: &Packs, price: i64) {
    let full = row.len() - 1;
    let mut left = packs.useful(0, full);
    let mut bundle = 1;
    while left > 0 {
        let n = bundle.min(left);
        let (cost, stems) = (i64::from(n) * price, n as usize * packs.stems);
        for t in 0..full {
            row[t] = row[t].min(cost + row[(t + stems).min(full)]);
        }
        left -= n;
        bundle *= 2;
    }
}
