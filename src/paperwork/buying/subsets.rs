//! Every set of suppliers, the most promising first.
//!
//! For a set the cheapest covers of all items and the deliveries are a bound, and the answer where every order reaches its
//! minimum. Where one does not, a discount at that supplier, paid back on his minimum, raises the bound (Lagrange's
//! multipliers) and finds lists near the best; what is then still open goes through the merge.

use std::collections::BTreeMap;

use super::cover::PARTS;
use super::market::Market;
use super::merge::{Merged, merged, n_rates};

/// Steps for all that minimum orders ask for; our choice, a few seconds in a test build, and none where no minimum binds.
const STEPS: u64 = 400_000_000;
/// Choices kept after each offer: few at first, to find a list so good that the rest can be dropped early; our choice.
const WIDTHS: [usize; 5] = [4, 20, 100, 400, usize::MAX];

/// Packs of every offer, and what no list undercuts, cents.
pub(super) fn cheapest(market: &Market<'_>) -> (Vec<u32>, i64) {
    let n_sets = 1_u32 << market.suppliers.len();
    let none = vec![0; market.suppliers.len()];
    let mut search = SubsetSearch { market, best: market.nothing(), best_cost: i64::MAX, steps: STEPS };
    if let Some((_, packs)) = search.weigh(n_sets - 1, &none) {
        search.consider(packs);
    }
    let mut open = Vec::new();
    for (bound, _, set) in bounds(market, n_sets) {
        if search.is_beaten(bound) {
            break;
        }
        open.extend(search.opened(set, bound));
    }
    open.sort_by_key(|o| o.bound);
    for width in WIDTHS {
        open.retain(|set| matches!(search.look_through(set, width), Look::Open));
    }
    open.retain(|set| !search.is_beaten(set.bound));
    let floor = open.iter().map(|set| in_cents(set.bound)).fold(search.best_cost, i64::min);
    (search.best, floor)
}

/// The bound of each set that has everything, in parts of a cent: least first, then the fewest suppliers.
fn bounds(market: &Market<'_>, n_sets: u32) -> Vec<(i64, u32, u32)> {
    let none = vec![0; market.suppliers.len()];
    let least: Vec<(u32, BTreeMap<u32, Option<i64>>)> = (0..market.wanted.len())
        .map(|item| {
            let sellers = market.sellers(item);
            let sets = (0..n_sets).filter(|set| set & sellers == *set);
            (sellers, sets.map(|set| (set, market.cover(item, set, &none).least())).collect())
        })
        .collect();
    let bound = |set: u32| {
        let covers: Option<i64> = least.iter().map(|(sellers, of)| of.get(&(set & sellers)).copied().flatten()).sum();
        Some((covers?.max(minimums(market, set)) + deliveries(market, set), set.count_ones(), set))
    };
    let mut bounds: Vec<_> = (0..n_sets).filter_map(bound).collect();
    bounds.sort_unstable();
    bounds
}

/// What the minimums of a set cost at least, parts of a cent: their sum, less all that spare stems can be worth.
fn minimums(market: &Market<'_>, set: u32) -> i64 {
    let each = market.suppliers.iter().enumerate().filter(|(s, _)| set & 1 << s != 0);
    let asked: i64 = each.map(|(_, supplier)| supplier.minimum.0).sum();
    let worth: i64 = market.wanted.iter().map(|item| item.spare_worth.0 * i64::from(item.keep)).sum();
    PARTS * (asked - worth)
}

/// Deliveries of a set, parts of a cent.
pub(super) fn deliveries(market: &Market<'_>, set: u32) -> i64 {
    let each = market.suppliers.iter().enumerate();
    each.filter(|(s, _)| set & 1 << s != 0).map(|(_, supplier)| PARTS * supplier.delivery.0).sum()
}

struct SubsetSearch<'a> {
    market: &'a Market<'a>,
    best: Vec<u32>,
    /// Cents.
    best_cost: i64,
    /// Steps left.
    steps: u64,
}

/// What is known of a set after a look.
enum Look {
    /// It holds nothing better than the best list.
    Done,
    /// It may.
    Open,
}

/// A set that may still hold the best list.
pub(super) struct Open {
    /// Parts of a cent.
    pub(super) bound: i64,
    pub(super) set: u32,
    /// Those that give the bound, parts of a cent.
    pub(super) discounts: Vec<i64>,
}

impl SubsetSearch<'_> {
    /// Whether nothing with this bound, in parts of a cent, is better than the best list.
    fn is_beaten(&self, bound: i64) -> bool {
        in_cents(bound) >= self.best_cost
    }

    /// Takes the steps of weighing all items so many times, if they are left.
    fn pay(&mut self, times: u64) -> bool {
        let left = self.steps.checked_sub(self.market.steps().saturating_mul(times));
        self.steps = left.unwrap_or(self.steps);
        left.is_some()
    }

    fn consider_all(&mut self, lists: Vec<Vec<u32>>) {
        for packs in lists {
            self.consider(packs);
        }
    }

    /// Tops the packs up, and keeps them if they cost less than the best list.
    fn consider(&mut self, packs: Vec<u32>) {
        let packs = self.market.topped_up(packs);
        let bill = self.market.bill(&packs);
        if bill.short.is_empty() && bill.cost < self.best_cost {
            (self.best, self.best_cost) = (packs, bill.cost);
        }
    }

    /// The cheapest covers at these discounts: what the set costs at least, and the packs.
    fn weigh(&self, set: u32, discounts: &[i64]) -> Option<(i64, Vec<u32>)> {
        let mut bound = deliveries(self.market, set);
        for (supplier, discount) in self.market.suppliers.iter().zip(discounts) {
            bound += supplier.minimum.0 * discount;
        }
        let mut packs = self.market.nothing();
        for item in 0..self.market.wanted.len() {
            let cover = self.market.cover(item, set, discounts);
            bound += cover.least()?;
            cover.choice().into_iter().for_each(|(offer, n)| packs[offer] = n);
        }
        Some((bound, packs))
    }

    /// What is still open about a set when its cheapest covers and its discounts are known.
    fn opened(&mut self, set: u32, bound: i64) -> Option<Open> {
        let none = vec![0; self.market.suppliers.len()];
        if !self.pay(1) {
            return Some(Open { bound, set, discounts: none });
        }
        let (_, packs) = self.weigh(set, &none)?;
        self.consider(packs);
        if self.is_beaten(bound) {
            return None;
        }
        let (discounts, bound) = self.discounted(set, bound);
        Some(Open { bound, set, discounts })
    }

    /// One look at a set, with so many choices kept.
    fn look_through(&mut self, open: &Open, width: usize) -> Look {
        if self.is_beaten(open.bound) {
            return Look::Done;
        }
        if !self.pay(2 * n_rates(&open.discounts)) {
            return Look::Open;
        }
        match merged(self.market, open, self.best_cost, width, &mut self.steps) {
            Merged::All(lists) => {
                self.consider_all(lists);
                Look::Done
            }
            Merged::Narrow(lists) => {
                self.consider_all(lists);
                Look::Open
            }
            Merged::GaveUp => Look::Open,
        }
    }

    /// Discounts, in parts of a cent, that raise the bound of a set, and that bound. Every try is also a list.
    fn discounted(&mut self, set: u32, bound: i64) -> (Vec<i64>, i64) {
        let has_minimum = |s: &usize| set & 1 << s != 0 && self.market.suppliers[*s].minimum.0 > 0;
        let asking: Vec<usize> = (0..self.market.suppliers.len()).filter(has_minimum).collect();
        let mut best = (vec![0; self.market.suppliers.len()], bound);
        for step in [32, 16, 8, 4, 2, 1] {
            for changes in self.changes(&asking) {
                let changed = best.0.iter().zip(&changes).map(|(now, change)| (now + change * step).clamp(0, PARTS));
                let discounts: Vec<i64> = changed.collect();
                if discounts == best.0 || !self.pay(1) {
                    continue;
                }
                let Some((bound, packs)) = self.weigh(set, &discounts) else { continue };
                self.consider(packs);
                if bound > best.1 {
                    best = (discounts, bound);
                }
            }
        }
        best
    }

    /// Ways to change discounts: more for all, for one, for two; less for one; more for one and less for another.
    fn changes(&self, asking: &[usize]) -> Vec<Vec<i64>> {
        let none = vec![0; self.market.suppliers.len()];
        let with = |changes: &[(usize, i64)]| {
            let mut all = none.clone();
            for (s, change) in changes {
                all[*s] = *change;
            }
            all
        };
        let every: Vec<(usize, i64)> = asking.iter().map(|s| (*s, 1)).collect();
        let mut changes = vec![with(&every)];
        changes.extend(asking.iter().flat_map(|s| [with(&[(*s, 1)]), with(&[(*s, -1)])]));
        for s in asking {
            changes.extend(asking.iter().filter(|t| *t > s).map(|t| with(&[(*s, 1), (*t, 1)])));
            changes.extend(asking.iter().filter(|t| *t != s).map(|t| with(&[(*s, 1), (*t, -1)])));
        }
        changes
    }
}

/// Whole cents that are not below so many parts.
fn in_cents(parts: i64) -> i64 {
    -((-parts).div_euclid(PARTS))
}
