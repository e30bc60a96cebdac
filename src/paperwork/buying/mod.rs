//! The buying list: which packs to order from whom, so that all that is wanted is there for the least money.
//!
//! Money is whole cents, stems and packs are counted. A supplier who is ordered from charges a delivery and may ask for a
//! minimum order; spare stems are worth something up to the number one would keep. The least cost is exact: for each set
//! of suppliers the cheapest cover of every item (`cover`), and where that leaves an order below its minimum, a
//! merge of all choices that may still be best (`merge`). Knows nothing of dates, files or screens.

mod cover;
mod market;
mod merge;
mod subsets;

use crate::units::Cents;
use market::Market;

/// Most items on a list. This and the limits below are our choice: far above a shop's week, and quick.
pub const MOST_ITEMS: usize = 500;
/// Most offers.
pub const MOST_OFFERS: usize = 5_000;
/// Most suppliers that can be ordered from.
pub const MOST_SUPPLIERS: usize = 8;
/// Most stems of an item, those to keep included; and most stems in a pack.
pub const MOST_STEMS: u32 = 20_000;
/// Most money in one figure.
pub const MOST_MONEY: Cents = Cents(100_000_000);

/// What is wanted of one item.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Wanted {
    /// Stems that must be there.
    pub stems: u32,
    /// Spare stems that are worth something, at most.
    pub keep: u32,
    /// What each of those is worth.
    pub spare_worth: Cents,
}

/// Terms of one supplier; both count only if anything is ordered there.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Supplier {
    /// For the delivery.
    pub delivery: Cents,
    /// Least sum of the packs, delivery not counted.
    pub minimum: Cents,
}

/// Packs of one item at one supplier.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PackOffer {
    /// Place of the item in the list of what is wanted.
    pub item: usize,
    /// Place of the supplier in the list of suppliers.
    pub supplier: usize,
    /// Stems in a pack.
    pub stems: u32,
    /// Price of a pack.
    pub price: Cents,
    /// Packs in stock.
    pub packs: u32,
}

/// What to order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BuyingList {
    /// Packs of each offer.
    pub packs: Vec<u32>,
    /// Stems of each item beyond what is wanted; more than one would store are counted too.
    pub spare: Vec<u64>,
    /// What is paid: packs and deliveries.
    pub paid: Cents,
    /// What is paid, less what the spare stems are worth: the least there is, if it is `cost_floor`.
    pub cost: Cents,
    /// No list costs less. Below `cost` only where minimum orders left more to weigh than the fixed work allows.
    pub cost_floor: Cents,
}

/// How many stems of an item cannot be had.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shortage {
    /// Place of the item in the list of what is wanted.
    pub item: usize,
    /// Stems missing when everything in stock is bought.
    pub missing_stems: u32,
}

/// Where a figure stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figure {
    /// With this item.
    Item(usize),
    /// With this supplier.
    Supplier(usize),
    /// With this offer.
    Offer(usize),
}

/// Why there is no list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoList {
    /// These items cannot be had in full, even if all is bought from every supplier whose minimum his stock can reach.
    Short(Vec<Shortage>),
    /// The offer names an item or a supplier that is not there, or its packs are empty.
    StrangeOffer(usize),
    /// Money below nothing or above [`MOST_MONEY`].
    StrangeMoney(Figure),
    /// More stems than [`MOST_STEMS`] for an item or in a pack.
    TooManyStems(Figure),
    /// More items than [`MOST_ITEMS`].
    TooManyItems,
    /// More offers than [`MOST_OFFERS`].
    TooManyOffers,
    /// More suppliers than [`MOST_SUPPLIERS`] that can be ordered from.
    TooManySuppliers,
    /// Each figure is within its limit, but there is too much of everything to weigh it all.
    TooMuchTogether,
}

/// The list that costs least. The same input gives the same list.
pub fn buying_list(wanted: &[Wanted], suppliers: &[Supplier], offers: &[PackOffer]) -> Result<BuyingList, NoList> {
    check_counts(wanted, offers)?;
    check_figures(wanted, suppliers, offers)?;
    let market = Market::open(wanted, suppliers, offers)?;
    let (packs, cost_floor) = subsets::cheapest(&market);
    let bill = market.bill(&packs);
    Ok(BuyingList {
        spare: market.spare(&packs),
        paid: Cents(bill.paid),
        cost: Cents(bill.cost),
        cost_floor: Cents(cost_floor),
        packs,
    })
}

fn check_counts(wanted: &[Wanted], offers: &[PackOffer]) -> Result<(), NoList> {
    if wanted.len() > MOST_ITEMS {
        return Err(NoList::TooManyItems);
    }
    if offers.len() > MOST_OFFERS {
        return Err(NoList::TooManyOffers);
    }
    Ok(())
}

fn check_figures(wanted: &[Wanted], suppliers: &[Supplier], offers: &[PackOffer]) -> Result<(), NoList> {
    let is_money = |money: Cents| Cents(0) <= money && money <= MOST_MONEY;
    for (i, item) in wanted.iter().enumerate() {
        if !is_money(item.spare_worth) {
            return Err(NoList::StrangeMoney(Figure::Item(i)));
        }
        if item.stems.saturating_add(item.keep) > MOST_STEMS {
            return Err(NoList::TooManyStems(Figure::Item(i)));
        }
    }
    if let Some(i) = suppliers.iter().position(|s| !is_money(s.delivery) || !is_money(s.minimum)) {
        return Err(NoList::StrangeMoney(Figure::Supplier(i)));
    }
    for (i, offer) in offers.iter().enumerate() {
        if offer.item >= wanted.len() || offer.supplier >= suppliers.len() || offer.stems == 0 {
            return Err(NoList::StrangeOffer(i));
        }
        if !is_money(offer.price) {
            return Err(NoList::StrangeMoney(Figure::Offer(i)));
        }
        if offer.stems > MOST_STEMS {
            return Err(NoList::TooManyStems(Figure::Offer(i)));
        }
    }
    Ok(())
}
