//! All choices of one set of suppliers that may still be best, offer by offer, where minimum orders bind.
//!
//! Of two choices the one that is no dearer, has no fewer stems in hand and has spent no less at any supplier with a minimum
//! takes the other's place (Pareto). What must cost as much as the best list known is dropped.

use std::cmp::Reverse;

use super::MOST_SUPPLIERS;
use super::cover::{Cover, PARTS, Packs, at_the_end};
use super::market::Market;
use super::subsets::{Open, deliveries};

/// Steps that one choice at one rate counts for, one step being to compare two choices; as measured, roughly.
const STEPS_EACH: u64 = 8;
/// Most lists that come of one merge; our choice.
const MOST_TRACED: usize = 200;
/// Bands of what is missing; our choice.
const BANDS: usize = 16;
const BANDS_WIDE: i64 = 16;
/// Most choices before those that others replace are dropped; our choice, for memory.
const MOST_GROWN: usize = 500_000;

/// What came of it.
pub(super) enum Merged {
    /// All choices were weighed. Packs that may cost less than the best list; the least of this set is among them, if it does.
    All(Vec<Vec<u32>>),
    /// Not all choices were kept. Packs that may cost less than the best list.
    Narrow(Vec<Vec<u32>>),
    /// There was more to weigh than steps left.
    GaveUp,
}

/// A choice of packs of the offers so far.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct PackChoice {
    /// Parts of a cent that a list with these packs costs at least; of two choices, one that replaces the other has no more.
    bound: i64,
    /// Cents still to be spent at suppliers with a minimum.
    missing: i64,
    /// Cents for packs, less the worth of spare stems of items that are done.
    cost: i64,
    /// Of the present item in hand, none above what is worth something; more first.
    stems: Reverse<usize>,
    /// Cents at each supplier with a minimum, none above it; more first.
    spent: Reverse<[i64; MOST_SUPPLIERS]>,
    /// Place of the choice in the layer before.
    from: usize,
    /// Packs of the last offer.
    packs: u32,
}

impl PackChoice {
    fn replaces(&self, other: &Self) -> bool {
        let spent = self.spent.0.iter().zip(&other.spent.0).all(|(mine, yours)| mine >= yours);
        self.cost <= other.cost && self.stems.0 >= other.stems.0 && spent
    }
}

struct Merge<'a> {
    market: &'a Market<'a>,
    set: u32,
    rates: Vec<Rate>,
    /// Cents asked for at each supplier of the set.
    minimums: [i64; MOST_SUPPLIERS],
    /// Parts of a cent from which on a choice is dropped.
    too_dear: i64,
    /// Choices kept after each offer.
    width: usize,
    /// Whether there were more.
    is_narrow: bool,
    steps: &'a mut u64,
}

/// Discounts that tell a bound.
struct Rate {
    /// Parts of a cent, for each supplier.
    discounts: Vec<i64>,
    /// Parts of a cent for deliveries and for all items after the present one.
    later: i64,
}

impl Rate {
    /// None if the set does not have everything.
    fn of(market: &Market<'_>, set: u32, discounts: Vec<i64>) -> Option<Self> {
        let least = (0..market.wanted.len()).map(|item| market.cover(item, set, &discounts).least());
        let later = least.sum::<Option<i64>>()? + deliveries(market, set);
        Some(Self { discounts, later })
    }
}

/// The discounts that are best at the start, and others for choices that have reached a minimum, or nearly, and pay in full
/// from then on: none, some, and none for one supplier.
fn rates(best: &[i64]) -> Vec<Vec<i64>> {
    let mut rates = vec![best.to_vec(), vec![0; best.len()]];
    rates.extend([3, 2, 1].map(|quarters| best.iter().map(|discount| discount * quarters / 4).collect()));
    for supplier in 0..best.len() {
        let mut rate = best.to_vec();
        rate[supplier] = 0;
        rates.push(rate);
    }
    rates.sort_unstable();
    rates.dedup();
    rates
}

/// Rates at which a merge weighs all items, twice.
pub(super) fn n_rates(best: &[i64]) -> u64 {
    rates(best).len() as u64
}

/// The least that this set can do below `best_cost` cents, with `width` choices kept after each offer. `discounts`, parts
/// of a cent, only sharpen the bounds.
pub(super) fn merged(market: &Market<'_>, open: &Open, best_cost: i64, width: usize, steps: &mut u64) -> Merged {
    let Some(mut merge) = Merge::begun(market, open, best_cost, width, steps) else { return Merged::All(Vec::new()) };
    let start = PackChoice {
        bound: open.bound,
        missing: 0,
        cost: 0,
        stems: Reverse(0),
        spent: Reverse([0; MOST_SUPPLIERS]),
        from: 0,
        packs: 0,
    };
    let mut layers = vec![(None, vec![start])];
    for item in 0..market.wanted.len() {
        let covers = merge.covers(item);
        let shelf = market.shelves[item].iter().filter(|p| open.set & 1 << p.supplier != 0);
        for (k, packs) in shelf.enumerate() {
            let Some(layer) = merge.with_offer(item, &covers, k, packs, &layers[layers.len() - 1].1) else {
                return Merged::GaveUp;
            };
            layers.push((Some(packs.offer), layer));
        }
        if let Some((_, layer)) = layers.last_mut() {
            for choice in layer {
                settle(choice, &merge, item);
            }
        }
    }
    let lists = traced(market, &layers);
    if merge.is_narrow { Merged::Narrow(lists) } else { Merged::All(lists) }
}

/// The item is done: its spare stems are worth something.
fn settle(choice: &mut PackChoice, merge: &Merge<'_>, item: usize) {
    choice.cost += at_the_end(&merge.market.wanted[item], choice.stems.0) / PARTS;
    choice.stems = Reverse(0);
}

impl<'a> Merge<'a> {
    /// None if the set does not have everything.
    fn begun(market: &'a Market<'a>, open: &'a Open, best_cost: i64, width: usize, steps: &'a mut u64) -> Option<Self> {
        let mut minimums = [0; MOST_SUPPLIERS];
        for (s, supplier) in market.suppliers.iter().enumerate().filter(|(s, _)| open.set & 1 << s != 0) {
            minimums[s] = supplier.minimum.0;
        }
        let rates = rates(&open.discounts).into_iter().map(|d| Rate::of(market, open.set, d)).collect::<Option<_>>()?;
        let too_dear = (best_cost - 1).saturating_mul(PARTS);
        Some(Self { market, set: open.set, rates, minimums, too_dear, width, is_narrow: false, steps })
    }

    /// The covers of the item at all rates; from now on it is the present one.
    fn covers(&mut self, item: usize) -> Vec<Cover<'a>> {
        let (market, set) = (self.market, self.set);
        let cover = |rate: &mut Rate| {
            let cover = market.cover(item, set, &rate.discounts);
            rate.later -= cover.least().unwrap_or(0);
            cover
        };
        self.rates.iter_mut().map(cover).collect()
    }

    /// Every choice with so many packs of one more offer; none if the steps ran out.
    fn with_offer(
        &mut self,
        item: usize,
        covers: &[Cover<'_>],
        k: usize,
        packs: &Packs,
        before: &[PackChoice],
    ) -> Option<Vec<PackChoice>> {
        let full = self.market.full(item);
        let minimum = self.minimums[packs.supplier];
        let each = STEPS_EACH * self.rates.len() as u64;
        let mut grown = Vec::new();
        for (from, choice) in before.iter().enumerate() {
            let missing = minimum - choice.spent.0[packs.supplier];
            let for_minimum = if packs.price > 0 { (missing + packs.price - 1) / packs.price } else { 0 };
            let for_minimum = u32::try_from(for_minimum).unwrap_or(u32::MAX).min(packs.packs);
            let most = packs.useful(choice.stems.0, full).max(for_minimum);
            *self.steps = self.steps.checked_sub((u64::from(most) + 1) * each)?;
            let with = |n: u32| {
                let sum = i64::from(n) * packs.price;
                let mut spent = choice.spent;
                spent.0[packs.supplier] = (spent.0[packs.supplier] + sum).min(minimum);
                let stems = Reverse((choice.stems.0 + n as usize * packs.stems).min(full));
                PackChoice { bound: 0, missing: 0, cost: choice.cost + sum, stems, spent, from, packs: n }
            };
            if grown.len() + most as usize > MOST_GROWN {
                return None;
            }
            grown.extend((0..=most).map(with).filter_map(|c| self.may_be_best(c, covers, k + 1)));
        }
        self.the_best_of(grown)
    }

    /// The choice with its bound, the highest of all rates; none if it is too dear.
    fn may_be_best(&self, choice: PackChoice, covers: &[Cover<'_>], k: usize) -> Option<PackChoice> {
        let missing = || self.minimums.iter().zip(&choice.spent.0).map(|(minimum, spent)| minimum - spent);
        let mut bound = i64::MIN;
        for (rate, cover) in self.rates.iter().zip(covers) {
            let owed: i64 = missing().zip(&rate.discounts).map(|(missing, discount)| missing * discount).sum();
            bound = bound.max(cover.to_come(k, choice.stems.0)? + rate.later + owed);
            if choice.cost * PARTS + bound > self.too_dear {
                return None;
            }
        }
        Some(PackChoice { bound: choice.cost * PARTS + bound, missing: missing().sum(), ..choice })
    }

    /// Those that no other replaces, the most promising first, as many as are kept; none if the steps ran out. Where not
    /// all are kept, each of some bands of what is missing keeps its share: with a large discount, choices that have spent little
    /// promise as much as those near the end.
    fn the_best_of(&mut self, mut grown: Vec<PackChoice>) -> Option<Vec<PackChoice>> {
        grown.sort_unstable();
        let all = self.minimums.iter().sum::<i64>() + 1;
        let mut kept_in = [0; BANDS];
        let mut kept: Vec<PackChoice> = Vec::new();
        for choice in grown {
            let band = usize::try_from(choice.missing * BANDS_WIDE / all).unwrap_or(0).min(BANDS - 1);
            if kept_in[band] >= self.width {
                self.is_narrow = true;
                continue;
            }
            let place = kept.iter().position(|other| other.replaces(&choice));
            *self.steps = self.steps.checked_sub(place.unwrap_or(kept.len()) as u64)?;
            if place.is_none() {
                kept.push(choice);
                kept_in[band] += 1;
            }
        }
        Some(kept)
    }
}

/// The packs of the cheapest choice that reaches all minimums, and of those that may do so for little more when they are
/// topped up.
fn traced(market: &Market<'_>, layers: &[(Option<usize>, Vec<PackChoice>)]) -> Vec<Vec<u32>> {
    let Some((_, last)) = layers.last() else { return Vec::new() };
    let mut order: Vec<usize> = (0..last.len()).collect();
    order.sort_by_key(|at| last[*at].cost + last[*at].missing);
    let reaching = order.iter().find(|at| last[**at].missing == 0);
    reaching.into_iter().chain(order.iter().take(MOST_TRACED)).map(|at| trace(market, layers, *at)).collect()
}

fn trace(market: &Market<'_>, layers: &[(Option<usize>, Vec<PackChoice>)], mut at: usize) -> Vec<u32> {
    let mut packs = market.nothing();
    for (offer, layer) in layers.iter().rev() {
        if let (Some(offer), Some(choice)) = (offer, layer.get(at)) {
            packs[*offer] = choice.packs;
            at = choice.from;
        }
    }
    packs
}
