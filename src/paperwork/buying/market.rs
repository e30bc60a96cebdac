//! The market as it is weighed: offers by item, suppliers that can be ordered from, and the bill of any choice.

use super::cover::{Cover, Packs, full};
use super::{MOST_SUPPLIERS, NoList, PackOffer, Shortage, Supplier, Wanted};

/// Steps that weighing every set of suppliers may take; our choice, a fraction of a second and 100 MB at most.
const MOST_STEPS: u64 = 50_000_000;

/// What is wanted, and all that may be bought.
pub(super) struct Market<'a> {
    pub(super) wanted: &'a [Wanted],
    /// Those that can be ordered from, in the order given.
    pub(super) suppliers: Vec<Supplier>,
    /// Offers of each item.
    pub(super) shelves: Vec<Vec<Packs>>,
    n_offers: usize,
}

/// What a choice costs.
pub(super) struct Bill {
    /// Packs and deliveries, cents.
    pub(super) paid: i64,
    /// The same, less the worth of spare stems, cents.
    pub(super) cost: i64,
    /// Sum of the packs at each supplier, cents.
    pub(super) spent: Vec<i64>,
    /// Suppliers that are ordered from without reaching their minimum.
    pub(super) short: Vec<usize>,
}

impl<'a> Market<'a> {
    /// Leaves out suppliers whose whole stock does not reach their minimum; then all needs can be met by buying everything,
    /// or not at all.
    pub(super) fn open(wanted: &'a [Wanted], suppliers: &[Supplier], offers: &'a [PackOffer]) -> Result<Self, NoList> {
        let mut stock = vec![0_i64; suppliers.len()];
        for offer in offers {
            let worth = i64::from(offer.packs).saturating_mul(offer.price.0);
            stock[offer.supplier] = stock[offer.supplier].saturating_add(worth);
        }
        let is_open = |s: &usize| offers.iter().any(|o| o.supplier == *s) && stock[*s] >= suppliers[*s].minimum.0;
        let open: Vec<usize> = (0..suppliers.len()).filter(is_open).collect();
        let mut shelves = vec![Vec::new(); wanted.len()];
        for (i, offer) in offers.iter().enumerate() {
            if let Ok(supplier) = open.binary_search(&offer.supplier) {
                let (stems, price) = (offer.stems as usize, offer.price.0);
                shelves[offer.item].push(Packs { offer: i, supplier, stems, price, packs: offer.packs });
            }
        }
        let suppliers = open.into_iter().map(|s| suppliers[s]).collect();
        let market = Self { wanted, suppliers, shelves, n_offers: offers.len() };
        market.check()?;
        Ok(market)
    }

    fn check(&self) -> Result<(), NoList> {
        let shortages: Vec<Shortage> = (0..self.wanted.len()).filter_map(|i| self.shortage(i)).collect();
        if !shortages.is_empty() {
            return Err(NoList::Short(shortages));
        }
        if self.suppliers.len() > MOST_SUPPLIERS {
            return Err(NoList::TooManySuppliers);
        }
        let steps =
            |i: usize| Cover::steps(&self.wanted[i], self.shelves[i].iter().copied()) << self.sellers(i).count_ones();
        if (0..self.wanted.len()).map(steps).sum::<u64>() > MOST_STEPS {
            return Err(NoList::TooMuchTogether);
        }
        Ok(())
    }

    fn shortage(&self, item: usize) -> Option<Shortage> {
        let there: u64 = self.shelves[item].iter().map(|p| u64::from(p.packs) * p.stems as u64).sum();
        let missing = u64::from(self.wanted[item].stems).saturating_sub(there);
        let missing_stems = u32::try_from(missing).unwrap_or(u32::MAX);
        (missing > 0).then_some(Shortage { item, missing_stems })
    }

    /// Suppliers of an item, as bits.
    pub(super) fn sellers(&self, item: usize) -> u32 {
        self.shelves[item].iter().fold(0, |set, packs| set | 1 << packs.supplier)
    }

    /// No packs at all.
    pub(super) fn nothing(&self) -> Vec<u32> {
        vec![0; self.n_offers]
    }

    /// What `packs` of every offer cost.
    pub(super) fn bill(&self, packs: &[u32]) -> Bill {
        let mut spent = vec![0; self.suppliers.len()];
        let mut is_ordered = vec![false; self.suppliers.len()];
        for line in self.shelves.iter().flatten() {
            spent[line.supplier] += i64::from(packs[line.offer]) * line.price;
            is_ordered[line.supplier] |= packs[line.offer] > 0;
        }
        let ordered = || (0..self.suppliers.len()).filter(|s| is_ordered[*s]);
        let paid = ordered().map(|s| spent[s] + self.suppliers[s].delivery.0).sum();
        let worth = |(item, spare): (&Wanted, u64)| {
            let kept = u32::try_from(spare).unwrap_or(u32::MAX).min(item.keep);
            item.spare_worth.0 * i64::from(kept)
        };
        let worth: i64 = self.wanted.iter().zip(self.spare(packs)).map(worth).sum();
        let short = ordered().filter(|s| spent[*s] < self.suppliers[*s].minimum.0).collect();
        Bill { paid, cost: paid - worth, short, spent }
    }

    /// Stems of every item beyond what is wanted.
    pub(super) fn spare(&self, packs: &[u32]) -> Vec<u64> {
        let bought = |shelf: &Vec<Packs>| shelf.iter().map(|p| u64::from(packs[p.offer]) * p.stems as u64).sum::<u64>();
        let spare = |(shelf, item): (_, &Wanted)| bought(shelf).saturating_sub(u64::from(item.stems));
        self.shelves.iter().zip(self.wanted).map(spare).collect()
    }

    /// Adds packs until every order reaches its minimum: the cheapest pack that does it, else the dearest there is.
    pub(super) fn topped_up(&self, mut packs: Vec<u32>) -> Vec<u32> {
        let bill = self.bill(&packs);
        for supplier in bill.short {
            let mut missing = self.suppliers[supplier].minimum.0 - bill.spent[supplier];
            while missing > 0 {
                let mine = self.shelves.iter().flatten().filter(|p| p.supplier == supplier && p.price > 0);
                let left: Vec<&Packs> = mine.filter(|p| packs[p.offer] < p.packs).collect();
                let enough = left.iter().filter(|p| p.price >= missing).min_by_key(|p| p.price);
                let Some(line) = enough.or_else(|| left.iter().max_by_key(|p| p.price)) else { break };
                let times = u32::try_from(missing / line.price).unwrap_or(u32::MAX);
                let n = times.clamp(1, line.packs - packs[line.offer]);
                packs[line.offer] += n;
                missing -= i64::from(n) * line.price;
            }
        }
        packs
    }

    /// The cheapest cover of an item from the suppliers in `set`, each at his discount in parts of a cent.
    pub(super) fn cover(&self, item: usize, set: u32, discounts: &[i64]) -> Cover<'a> {
        let open = self.shelves[item].iter().filter(|p| set & 1 << p.supplier != 0);
        let priced = open.map(|p| (*p, super::cover::PARTS - discounts[p.supplier])).collect();
        Cover::of(&self.wanted[item], priced)
    }

    /// Steps that weighing all items once takes.
    pub(super) fn steps(&self) -> u64 {
        self.wanted.iter().zip(&self.shelves).map(|(w, s)| Cover::steps(w, s.iter().copied())).sum()
    }

    /// Stems beyond which more of the item are worth nothing.
    pub(super) fn full(&self, item: usize) -> usize {
        full(&self.wanted[item])
    }
}
