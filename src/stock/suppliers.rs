//! What a shop knows of its suppliers beyond a line's price: delivery, least order, how early they want it, other packs, what
//! stands in the cooler already, and what leftovers are worth. Money is whole cents.

use super::StockId;
use crate::units::{Cents, fold};

/// Days before the pick-up on which flowers are ordered at the latest where nothing else is known: shops that were asked order
/// the week before; common practice.
pub const USUAL_ORDER_DAYS: u32 = 7;

/// Terms of one supplier.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SupplierTerms {
    /// As the stock list calls them.
    pub name: String,
    /// For a delivery.
    pub delivery: Cents,
    /// The least sum of an order, delivery not counted.
    pub minimum: Cents,
    /// So many days before the pick-up it is ordered at the latest.
    pub order_days: u32,
}

/// Packs besides the one that the stock list names: of another size or from another supplier.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SupplierPack {
    /// Who sells it.
    pub supplier: String,
    /// What.
    pub stock: StockId,
    /// In which colour; all of them where none is named.
    pub colour: Option<String>,
    /// Stems in a pack.
    pub stems: u32,
    /// Price of a pack.
    pub price: Cents,
    /// Packs to be had; none says nothing about it.
    pub packs: Option<u32>,
}

/// Stems of one kind and colour.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StemsKept {
    /// What.
    pub stock: StockId,
    /// In which colour; any where none is named.
    pub colour: Option<String>,
    /// How many stems.
    pub stems: u32,
    /// What each is worth; nothing for those that stand in the cooler.
    pub worth: Cents,
}

/// All of it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Suppliers {
    /// Those whose terms are known.
    pub terms: Vec<SupplierTerms>,
    /// Packs besides those of the stock list.
    pub packs: Vec<SupplierPack>,
    /// What stands in the cooler already.
    pub in_cooler: Vec<StemsKept>,
    /// Leftovers that are worth something.
    pub worth_keeping: Vec<StemsKept>,
}

impl Suppliers {
    /// The terms of a supplier; the usual ones where they are not known.
    pub fn terms_of(&self, name: &str) -> SupplierTerms {
        let known = self.terms.iter().find(|terms| fold(terms.name.trim()) == fold(name.trim()));
        known.cloned().unwrap_or_else(|| SupplierTerms {
            name: name.trim().to_owned(),
            delivery: Cents(0),
            minimum: Cents(0),
            order_days: USUAL_ORDER_DAYS,
        })
    }

    /// Stems of a kind and colour that are there already.
    pub fn in_cooler(&self, id: &StockId, colour: &str) -> u32 {
        self.in_cooler.iter().filter(|kept| kept.is_of(id, colour)).map(|kept| kept.stems).sum()
    }

    /// Leftovers of a kind and colour that are worth something.
    pub fn worth_keeping(&self, id: &StockId, colour: &str) -> Option<&StemsKept> {
        self.worth_keeping.iter().find(|kept| kept.is_of(id, colour))
    }
}

impl StemsKept {
    fn is_of(&self, id: &StockId, colour: &str) -> bool {
        self.stock == *id && self.colour.as_ref().is_none_or(|of| of == colour)
    }
}

impl SupplierPack {
    /// Whether it holds this kind in this colour.
    pub fn is_of(&self, id: &StockId, colour: &str) -> bool {
        self.stock == *id && self.colour.as_ref().is_none_or(|of| of == colour)
    }
}
