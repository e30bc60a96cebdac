//! A shop's own lines: those that differ from the list that comes with the program, and those that are not in it.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{Botanical, Shelf, Stock, StockItem, StockKey, StockList};

/// The lines of a shop that are not as in the list below them, in the order in which they came to be.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OwnStock(Vec<StockItem>);

/// What a list had and another has no longer: a line, or one of its colours.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lost {
    /// The line.
    pub key: StockKey,
    /// The name of the line.
    pub name: String,
    /// The colour, where the line itself is still there.
    pub colour: Option<String>,
}

impl OwnStock {
    /// What `stock` has that is not the same in `base`.
    pub fn between(base: &Stock, stock: &Stock) -> Self {
        let known = by_key(base);
        Self(stock.items().filter(|item| known.get(&item.key()) != Some(item)).collect())
    }

    /// The lines.
    pub fn items(&self) -> &[StockItem] {
        &self.0
    }

    /// With this line in the place of the one it was; what is cut from it is bought as it is. A line that is as in `base` is no
    /// longer one of the shop's own.
    #[must_use]
    pub fn with(&self, item: StockItem, base: &Stock) -> Self {
        let cuts: Vec<StockItem> = item.botanical().map(|source| self.cuts_of(source, base)).unwrap_or_default();
        cuts.into_iter().chain([item]).fold(self.clone(), |own, item| own.with_line(item, base))
    }

    /// What is cut from this flower, at its price and from its supplier.
    fn cuts_of(&self, source: &Botanical, base: &Stock) -> Vec<StockItem> {
        let cuts = base.botanicals().iter().filter(|b| b.cut_from.as_ref() == Some(&source.id));
        let own = |b: &Botanical| self.0.iter().filter_map(StockItem::botanical).find(|own| own.id == b.id).cloned();
        let cuts = cuts.map(|b| own(b).unwrap_or_else(|| b.clone()));
        let as_bought = |cut: Botanical| Botanical {
            bunch: source.bunch,
            stems_per_bunch: source.stems_per_bunch,
            supplier: source.supplier.clone(),
            shelf: Shelf { has_example_price: source.shelf.has_example_price, ..cut.shelf },
            ..cut
        };
        cuts.map(|cut| StockItem::Botanical(Arc::new(as_bought(cut)))).collect()
    }

    fn with_line(&self, item: StockItem, base: &Stock) -> Self {
        let key = item.key();
        if base.item(&key).as_ref() == Some(&item) {
            return self.without(&key);
        }
        let mut items = self.0.clone();
        match items.iter_mut().find(|own| own.key() == key) {
            Some(own) => *own = item,
            None => items.push(item),
        }
        Self(items)
    }

    /// Without the line of this key: it is as in the list below, or not there.
    #[must_use]
    pub fn without(&self, key: &StockKey) -> Self {
        Self(self.0.iter().filter(|own| own.key() != *key).cloned().collect())
    }

    /// These lines laid over `theirs`: only what has changed here since `saved`, line by line.
    #[must_use]
    pub fn laid_over(&self, theirs: &Self, saved: &Self) -> Self {
        let mut merged = theirs.clone();
        let keys = self.0.iter().chain(&saved.0).map(StockItem::key);
        for key in keys.collect::<std::collections::BTreeSet<_>>() {
            let now = self.get(&key);
            if now == saved.get(&key) {
                continue;
            }
            merged = merged.without(&key);
            merged.0.extend(now.cloned());
        }
        merged
    }

    /// The line of this key as the shop has it.
    pub fn item(&self, key: &StockKey, base: &Stock) -> Option<StockItem> {
        self.get(key).cloned().or_else(|| base.item(key))
    }

    fn get(&self, key: &StockKey) -> Option<&StockItem> {
        self.0.iter().find(|item| item.key() == *key)
    }

    /// The whole list: `base` with these lines in their places, and the new ones after them.
    pub fn over(&self, base: &Stock) -> Stock {
        let own: BTreeMap<StockKey, &StockItem> = self.0.iter().map(|item| (item.key(), item)).collect();
        let known = by_key(base);
        let changed = base.items().map(|item| own.get(&item.key()).map_or(item, |own| (*own).clone()));
        let new = self.0.iter().filter(|item| !known.contains_key(&item.key())).cloned();
        Stock::of_items(changed.chain(new)).with_avoid(base.avoid().list().clone())
    }
}

/// What `before` had and `after` has no longer. An order that holds it could not be read any more.
pub fn lost(before: &Stock, after: &Stock) -> Vec<Lost> {
    let left = by_key(after);
    let mut lost = Vec::new();
    for item in before.items() {
        let key = item.key();
        let one = |colour| Lost { key: key.clone(), name: item.name().to_owned(), colour };
        match left.get(&key) {
            None => lost.push(one(None)),
            Some(now) => {
                let gone = item.colours().iter().filter(|c| !now.colours().iter().any(|d| d.name == c.name));
                lost.extend(gone.map(|c| one(Some(c.name.clone()))));
            }
        }
    }
    lost
}

fn by_key(stock: &Stock) -> BTreeMap<StockKey, StockItem> {
    stock.items().map(|item| (item.key(), item)).collect()
}

impl Stock {
    /// Every line, list after list.
    pub fn items(&self) -> impl Iterator<Item = StockItem> + '_ {
        let botanicals = self.botanicals.iter().map(|b| StockItem::Botanical(Arc::new(b.clone())));
        let ribbons = self.ribbons.iter().map(|r| StockItem::Ribbon(Arc::new(r.clone())));
        let bands = self.bands.iter().map(|b| StockItem::Band(Arc::new(b.clone())));
        let sundries = self.sundries.iter().map(|s| StockItem::Sundry(Arc::new(s.clone())));
        botanicals.chain(ribbons).chain(bands).chain(sundries)
    }

    /// The line of this key.
    pub fn item(&self, key: &StockKey) -> Option<StockItem> {
        match key.list {
            StockList::Botanicals => self.botanical(&key.id).map(|b| StockItem::Botanical(Arc::new(b.clone()))),
            StockList::Ribbons => self.ribbon(&key.id).map(|r| StockItem::Ribbon(Arc::new(r.clone()))),
            StockList::Bands => self.band(&key.id).map(|b| StockItem::Band(Arc::new(b.clone()))),
            StockList::Sundries => self.sundry(&key.id).map(|s| StockItem::Sundry(Arc::new(s.clone()))),
        }
    }

    /// A list of these lines, each list in their order.
    pub fn of_items(items: impl Iterator<Item = StockItem>) -> Self {
        let (mut botanicals, mut ribbons, mut bands, mut sundries) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        for item in items {
            match item {
                StockItem::Botanical(b) => botanicals.push(Arc::unwrap_or_clone(b)),
                StockItem::Ribbon(r) => ribbons.push(Arc::unwrap_or_clone(r)),
                StockItem::Band(b) => bands.push(Arc::unwrap_or_clone(b)),
                StockItem::Sundry(s) => sundries.push(Arc::unwrap_or_clone(s)),
            }
        }
        Self::new(botanicals, ribbons, bands, sundries)
    }

    /// The same list, every price of it an example.
    #[must_use]
    pub fn with_example_prices(&self) -> Self {
        let example = |item: StockItem| {
            let shelf = Shelf { has_example_price: true, ..item.shelf() };
            item.shelved(shelf)
        };
        Self::of_items(self.items().map(example))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stock::{StockChange, StockField, StockId};
    use crate::units::Cents;

    fn base() -> Stock {
        crate::store::built_in_stock()
    }

    fn key(id: &str) -> StockKey {
        StockKey { list: StockList::Botanicals, id: StockId::new(id) }
    }

    fn with_cost(id: &str, cost: &str) -> OwnStock {
        let item = base().item(&key(id)).unwrap();
        let item = item.changed(&StockChange::Field(StockField::Cost, cost.to_owned())).unwrap();
        OwnStock::default().with(item, &base())
    }

    #[test]
    fn only_what_differs_is_the_shops_own_and_lies_over_the_rest() {
        let own = with_cost("spray-rose", "19.50");
        let stock = own.over(&base());
        assert_eq!(own.items().len(), 1);
        assert_eq!(stock.botanical(&StockId::new("spray-rose")).unwrap().bunch, Cents(1950));
        assert_eq!(stock.botanicals().len(), base().botanicals().len());
        assert_eq!(OwnStock::between(&base(), &stock), own);
        let back = own.with(base().item(&key("spray-rose")).unwrap(), &base());
        assert_eq!((back.items().len(), back.over(&base())), (0, base()));
    }

    #[test]
    fn half_a_carnation_is_bought_as_a_whole_one() {
        let stock = with_cost("carnation", "25").over(&base());
        for id in ["carnation", "carnation-half", "carnation-quarter"] {
            let b = stock.botanical(&StockId::new(id)).unwrap();
            assert_eq!((b.bunch, b.shelf.has_example_price), (Cents(2500), false), "{id}");
        }
        let half = stock.botanical(&StockId::new("carnation-half")).unwrap();
        // 25 stems of 2 halves for 25.00: 50 cents each.
        assert_eq!(half.cents_a_head(), 50.0);
    }

    #[test]
    fn two_hands_on_one_list_both_keep_their_lines() {
        let saved = with_cost("rose", "30");
        let dearer = |own: &OwnStock, id: &str, cost: &str| {
            let item = own.over(&base()).item(&key(id)).unwrap();
            own.with(item.changed(&StockChange::Field(StockField::Cost, cost.to_owned())).unwrap(), &base())
        };
        let theirs = dearer(&saved, "freesia", "9").without(&key("rose"));
        let mine = dearer(&saved, "ranunculus", "15");
        let both = mine.laid_over(&theirs, &saved).over(&base());
        let cost = |id: &str| both.botanical(&StockId::new(id)).unwrap().bunch;
        assert_eq!((cost("freesia"), cost("ranunculus")), (Cents(900), Cents(1500)));
        assert_eq!(cost("rose"), base().botanical(&StockId::new("rose")).unwrap().bunch, "they took it back");
    }

    #[test]
    fn what_is_gone_is_named() {
        let rose = base().item(&key("spray-rose")).unwrap();
        let fewer = rose.changed(&StockChange::RemoveColour(0)).unwrap();
        let after = OwnStock::default().with(fewer, &base()).over(&base());
        let gone = lost(&base(), &after);
        assert_eq!((gone.len(), gone[0].colour.as_deref()), (1, Some("white")));
        assert!(lost(&after, &base()).is_empty());
        let without = Stock::of_items(base().items().filter(|item| item.key() != key("spray-rose")));
        assert_eq!(lost(&base(), &without), [Lost { key: key("spray-rose"), name: "Spray rose".into(), colour: None }]);
    }
}
