//! The market list of an occasion: heads by kind and colour over all its orders, the spare once for all of them, whole stems,
//! packs of the suppliers at the least cost; hard goods too; and what it would cost if each piece were bought for alone.
//!
//! Heads, stems and packs are counted, money is whole cents. Which packs is found by [`super::buying_list`]; rows, no words.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::stem_list::{Heads, heads_of};
use super::together::{Kind, stems_with_spare};
use super::{BuyingList, NoList, PackOffer, Supplier, Wanted, buying_list, quote, stem_list};
use crate::book::{Day, Month, Order};
use crate::piece::{HouseStyle, Piece, PieceSize, still_to_place};
use crate::stock::{Botanical, Role, Stock, StockId, Suppliers};
use crate::units::{Cents, fold, nearest_whole};

/// Packs of the stock list that can be had, where nobody said how many; our choice, more than any weekend takes.
const MANY_PACKS: u32 = 1_000;

/// Packs of one line at one supplier.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MarketBuy {
    /// Who sells them; empty where the stock list names nobody.
    pub supplier: String,
    /// How many packs.
    pub packs: u32,
    /// Stems in each.
    pub stems_each: u32,
    /// What they cost together.
    pub cost: Cents,
    /// The last day to order them; none where no order of the occasion tells a day.
    pub order_by: Option<Day>,
}

/// One kind in one colour, over all the orders.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MarketLine {
    /// What.
    pub stock: StockId,
    /// Trade name.
    pub name: String,
    /// Colour, by its name in stock.
    pub colour: Arc<str>,
    /// The part it plays.
    pub role: Role,
    /// Heads, sprigs or leaves on all pieces.
    pub heads: u32,
    /// With the spare of the house.
    pub heads_with_spare: u32,
    /// Whole stems for them.
    pub stems: u32,
    /// Stems that stand in the cooler already.
    pub in_cooler: u32,
    /// What to buy, where.
    pub buys: Vec<MarketBuy>,
    /// Heads that are left when all pieces are made and no spare is used.
    pub leftover_heads: u32,
    /// Whole stems if every piece were bought for alone, each with a spare of its own.
    pub stems_alone: u32,
    /// The month of the occasion, where it is not in trade then.
    pub out_of_season: Option<&'static str>,
}

impl MarketLine {
    /// What it costs.
    pub fn cost(&self) -> Cents {
        self.buys.iter().map(|buy| buy.cost).sum()
    }

    /// Packs of it, from all suppliers.
    pub fn packs(&self) -> u32 {
        self.buys.iter().map(|buy| buy.packs).sum()
    }
}

/// Hard goods: so many, so long, so heavy.
#[derive(Clone, Debug, PartialEq)]
pub struct MarketGoods {
    /// What.
    pub stock: StockId,
    /// Trade name.
    pub name: String,
    /// Colour, of a ribbon.
    pub colour: Arc<str>,
    /// How many, or how many lengths.
    pub count: u32,
    /// How long in all, mm, where it is cut from a roll.
    pub length_mm: Option<f64>,
    /// Grams in all, where it is wire.
    pub grams: Option<f64>,
    /// What it costs, as the prices of the pieces count it.
    pub cost: Cents,
}

/// What goes to one supplier.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SupplierOrder {
    /// Who; empty where the stock list names nobody.
    pub name: String,
    /// Packs, without the delivery.
    pub packs_cost: Cents,
    /// The delivery.
    pub delivery: Cents,
    /// The last day to order.
    pub order_by: Option<Day>,
}

/// What to buy for an occasion.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct MarketList {
    /// Flowers and greens, blooms first.
    pub lines: Vec<MarketLine>,
    /// Everything else.
    pub goods: Vec<MarketGoods>,
    /// Whom to order from, in the order of their names.
    pub suppliers: Vec<SupplierOrder>,
    /// What flowers and greens cost, deliveries not counted.
    pub flowers: Cents,
    /// What the deliveries cost.
    pub deliveries: Cents,
    /// What everything else costs.
    pub hard_goods: Cents,
    /// What the clients pay, without tax.
    pub sales: Cents,
    /// What flowers and greens would cost if every piece were bought for alone; none where that could not be had.
    pub alone: Option<Cents>,
    /// How far the list may be from the cheapest there is; nothing where it is proven to be that.
    pub unproven: Cents,
}

impl MarketList {
    /// Flowers, greens and everything else.
    pub fn materials(&self) -> Cents {
        self.flowers + self.hard_goods
    }
}

/// Why there is no list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoMarket {
    /// These cannot be had in full: name, colour, stems that are missing.
    Short(Vec<(String, Arc<str>, u32)>),
    /// There is more than can be weighed.
    TooMuch,
}

/// What to buy for these orders, the boutonnieres that go with them included.
pub fn market_list(
    orders: &[&Order],
    suppliers: &Suppliers,
    style: &HouseStyle,
    stock: &Stock,
) -> Result<MarketList, NoMarket> {
    let needs: Vec<BTreeMap<Kind, Heads>> = orders.iter().flat_map(|order| needs_of(order, style, stock)).collect();
    let day = first_pickup(orders);
    let items = items(&needs, style.spare, suppliers, stock);
    let shelf = PackShelf::of(&items, suppliers, stock);
    let bought = shelf.buy(items.iter().map(|item| item.stems.saturating_sub(item.in_cooler)))?;
    let alone = shelf.buy(items.iter().map(|item| item.stems_alone)).ok();
    let lines: Vec<MarketLine> =
        items.iter().enumerate().map(|(i, item)| line(i, item, &shelf, &bought, day, stock)).collect();
    let orders_to = supplier_orders(&shelf, &bought, &lines);
    let goods = goods(orders, style, stock);
    Ok(MarketList {
        flowers: lines.iter().map(MarketLine::cost).sum(),
        deliveries: orders_to.iter().map(|to| to.delivery).sum(),
        hard_goods: goods.iter().map(|line| line.cost).sum(),
        sales: orders.iter().map(|order| sale(order, style, stock)).sum(),
        alone: alone.map(|list| shelf.packs_cost(&list)),
        unproven: bought.cost - bought.cost_floor,
        suppliers: orders_to,
        lines,
        goods,
    })
}

/// Packs that one list has beyond another, by name and colour: what has to be bought on top when orders change.
pub fn more_to_buy(before: &MarketList, after: &MarketList) -> Vec<(String, Arc<str>, u32)> {
    let had = |line: &MarketLine| {
        let same = before.lines.iter().find(|l| (&l.stock, &l.colour) == (&line.stock, &line.colour));
        same.map_or(0, MarketLine::packs)
    };
    let more = after.lines.iter().map(|line| (line, line.packs().saturating_sub(had(line))));
    more.filter(|(_, packs)| *packs > 0).map(|(l, packs)| (l.name.clone(), Arc::clone(&l.colour), packs)).collect()
}

/// The first day on which something of it is picked up, else the first event.
pub fn first_pickup(orders: &[&Order]) -> Option<Day> {
    let picked = orders.iter().filter_map(|order| order.wanted.day()).min();
    picked.or_else(|| orders.iter().filter_map(|order| order.event_day.day()).min())
}

/// What each piece of an order needs.
fn needs_of(order: &Order, style: &HouseStyle, stock: &Stock) -> Vec<BTreeMap<Kind, Heads>> {
    let of = |piece: &Piece, size: Option<&PieceSize>| heads_of(piece, &still_to_place(piece, size, stock), stock);
    let size = order.size.as_ref().and_then(|name| style.size(name));
    let boutonniere = order.partner_piece.as_ref().map(|piece| of(piece, None));
    std::iter::once(of(&order.piece, size)).chain(boutonniere).collect()
}

/// What is wanted of one kind in one colour.
struct MarketItem {
    kind: Kind,
    heads: u32,
    heads_with_spare: u32,
    stems: u32,
    stems_alone: u32,
    in_cooler: u32,
    /// Stems for one head.
    stems_a_head: f64,
}

fn items(needs: &[BTreeMap<Kind, Heads>], spare: f64, suppliers: &Suppliers, stock: &Stock) -> Vec<MarketItem> {
    let kinds: BTreeSet<&Kind> = needs.iter().flat_map(BTreeMap::keys).collect();
    let item = |kind: &Kind| {
        let mut all = Heads::default();
        let of_one = || needs.iter().filter_map(|needs| needs.get(kind));
        of_one().for_each(|heads| all.join(heads));
        let (heads_with_spare, stems) = stems_with_spare(&all, spare);
        MarketItem {
            kind: kind.clone(),
            heads: all.pieces,
            heads_with_spare,
            stems,
            stems_alone: of_one().map(|heads| stems_with_spare(heads, spare).1).sum(),
            in_cooler: suppliers.in_cooler(&kind.1, &kind.2),
            stems_a_head: all.stems / f64::from(all.pieces.max(1)),
        }
    };
    kinds.into_iter().filter(|kind| stock.botanical(&kind.1).is_some()).map(item).collect()
}

/// All packs that can be bought for the items.
struct PackShelf<'a> {
    /// Names of the suppliers.
    names: Vec<String>,
    /// Name and colour of each item.
    items: Vec<(String, Arc<str>)>,
    suppliers: &'a Suppliers,
    offers: Vec<PackOffer>,
    keeps: Vec<(u32, Cents)>,
}

impl<'a> PackShelf<'a> {
    fn of(items: &[MarketItem], suppliers: &'a Suppliers, stock: &Stock) -> Self {
        let mut shelf = Self { names: Vec::new(), items: Vec::new(), suppliers, offers: Vec::new(), keeps: Vec::new() };
        for (i, item) in items.iter().enumerate() {
            let (_, id, colour) = &item.kind;
            let keep = suppliers.worth_keeping(id, colour);
            shelf.keeps.push(keep.map_or((0, Cents(0)), |keep| (keep.stems, keep.worth)));
            let botanical = stock.botanical(id);
            shelf.items.push((botanical.map_or_else(|| id.to_string(), |b| b.name.clone()), Arc::clone(colour)));
            let Some(botanical) = botanical else { continue };
            let own = |pack: &&crate::stock::SupplierPack| pack.is_of(id, colour);
            for pack in suppliers.packs.iter().filter(own) {
                let supplier = shelf.place_of(&pack.supplier);
                let packs = pack.packs.unwrap_or(MANY_PACKS);
                shelf.offers.push(PackOffer { item: i, supplier, stems: pack.stems, price: pack.price, packs });
            }
            // A pack of the same size from the same supplier stands in for that of the stock list.
            let supplier = shelf.place_of(&botanical.supplier);
            let stems = botanical.stems_per_bunch.max(1);
            let is_told = |offer: &PackOffer| (offer.item, offer.supplier, offer.stems) == (i, supplier, stems);
            if !shelf.offers.iter().any(is_told) {
                let price = botanical.bunch;
                shelf.offers.push(PackOffer { item: i, supplier, stems, price, packs: MANY_PACKS });
            }
        }
        shelf
    }

    fn place_of(&mut self, name: &str) -> usize {
        let name = name.trim();
        let known = self.names.iter().position(|known| fold(known) == fold(name));
        known.unwrap_or_else(|| {
            self.names.push(name.to_owned());
            self.names.len() - 1
        })
    }

    fn buy(&self, stems: impl Iterator<Item = u32>) -> Result<BuyingList, NoMarket> {
        let wanted: Vec<Wanted> = stems
            .zip(&self.keeps)
            .map(|(stems, (keep, spare_worth))| Wanted { stems, keep: *keep, spare_worth: *spare_worth })
            .collect();
        let terms: Vec<Supplier> = self
            .names
            .iter()
            .map(|name| self.suppliers.terms_of(name))
            .map(|terms| Supplier { delivery: terms.delivery, minimum: terms.minimum })
            .collect();
        buying_list(&wanted, &terms, &self.offers).map_err(|why| match why {
            NoList::Short(short) => {
                let named = |s: &super::Shortage| {
                    self.items.get(s.item).map(|(name, colour)| (name.clone(), Arc::clone(colour), s.missing_stems))
                };
                NoMarket::Short(short.iter().filter_map(named).collect())
            }
            NoList::StrangeOffer(_)
            | NoList::StrangeMoney(_)
            | NoList::TooManyStems(_)
            | NoList::TooManyItems
            | NoList::TooManyOffers
            | NoList::TooManySuppliers
            | NoList::TooMuchTogether => NoMarket::TooMuch,
        })
    }

    /// Packs of each offer that are bought.
    fn bought<'b>(&'b self, list: &'b BuyingList) -> impl Iterator<Item = (&'b PackOffer, u32)> {
        self.offers.iter().zip(list.packs.iter().copied()).filter(|(_, packs)| *packs > 0)
    }

    fn packs_cost(&self, list: &BuyingList) -> Cents {
        self.bought(list).map(|(offer, packs)| times(offer.price, packs)).sum()
    }
}

fn times(price: Cents, n: u32) -> Cents {
    Cents(price.0.saturating_mul(i64::from(n)))
}

fn line(
    place: usize,
    item: &MarketItem,
    shelf: &PackShelf<'_>,
    list: &BuyingList,
    day: Option<Day>,
    stock: &Stock,
) -> MarketLine {
    let (role, id, colour) = &item.kind;
    let botanical = stock.botanical(id);
    let lead_days = botanical.map_or(0, |b| u32::from(b.shelf.lead_days));
    let buys: Vec<MarketBuy> = shelf
        .bought(list)
        .filter(|(offer, _)| offer.item == place)
        .map(|(offer, packs)| MarketBuy {
            supplier: shelf.names[offer.supplier].clone(),
            packs,
            stems_each: offer.stems,
            cost: times(offer.price, packs),
            order_by: order_by(day, &shelf.names[offer.supplier], shelf.suppliers, lead_days),
        })
        .collect();
    let there: u32 = buys.iter().map(|buy| buy.packs.saturating_mul(buy.stems_each)).sum::<u32>() + item.in_cooler;
    MarketLine {
        stock: id.clone(),
        name: botanical.map_or_else(|| id.to_string(), |b| b.name.clone()),
        colour: Arc::clone(colour),
        role: *role,
        heads: item.heads,
        heads_with_spare: item.heads_with_spare,
        stems: item.stems,
        in_cooler: item.in_cooler,
        buys,
        leftover_heads: heads_of_stems(there, item.stems_a_head).saturating_sub(item.heads),
        stems_alone: item.stems_alone,
        out_of_season: botanical.zip(day).and_then(|(botanical, day)| out_of_season(botanical, day)),
    }
}

/// Whole heads from so many stems.
fn heads_of_stems(stems: u32, stems_a_head: f64) -> u32 {
    /// Parts of a stem that come this near to a whole head are one.
    const WHOLE: f64 = 1e-6;
    if stems_a_head <= 0.0 {
        return 0;
    }
    let heads = (f64::from(stems) / stems_a_head + WHOLE).floor();
    u32::try_from(nearest_whole(heads)).unwrap_or(u32::MAX)
}

fn out_of_season(botanical: &Botanical, day: Day) -> Option<&'static str> {
    let (_, month, _) = day.parts();
    let is_in_trade = usize::try_from(month - 1).ok().and_then(|at| botanical.months.get(at)).copied().unwrap_or(true);
    (!is_in_trade).then(|| Month::of(day).name())
}

/// The last day to order: as early as the supplier wants it, or the flower itself where that takes longer.
fn order_by(day: Option<Day>, supplier: &str, suppliers: &Suppliers, lead_days: u32) -> Option<Day> {
    day?.plus(-i64::from(suppliers.terms_of(supplier).order_days.max(lead_days)))
}

fn supplier_orders(shelf: &PackShelf<'_>, list: &BuyingList, lines: &[MarketLine]) -> Vec<SupplierOrder> {
    let buys = || lines.iter().flat_map(|line| &line.buys);
    let of = |(place, name): (usize, &String)| {
        let mine = || shelf.bought(list).filter(move |(offer, _)| offer.supplier == place);
        mine().next()?;
        Some(SupplierOrder {
            name: name.clone(),
            packs_cost: mine().map(|(offer, packs)| times(offer.price, packs)).sum(),
            delivery: shelf.suppliers.terms_of(name).delivery,
            order_by: buys().filter(|buy| buy.supplier == *name).filter_map(|buy| buy.order_by).min(),
        })
    };
    let mut orders: Vec<SupplierOrder> = shelf.names.iter().enumerate().filter_map(of).collect();
    orders.sort_by(|a, b| a.name.cmp(&b.name));
    orders
}

/// Bands, ribbon, wire and the rest of all pieces.
fn goods(orders: &[&Order], style: &HouseStyle, stock: &Stock) -> Vec<MarketGoods> {
    let mut goods: BTreeMap<(StockId, Arc<str>), MarketGoods> = BTreeMap::new();
    let mut add = |piece: &Piece, size: Option<&PieceSize>| {
        let ribbon = piece.bow.as_ref().map(|bow| (&bow.ribbon, &bow.colour));
        for line in stem_list(piece, size, stock, style).hard {
            let colour = ribbon.filter(|(id, _)| **id == line.stock).map(|(_, colour)| Arc::clone(colour));
            let colour = colour.unwrap_or_default();
            let sum = goods.entry((line.stock.clone(), Arc::clone(&colour))).or_insert_with(|| MarketGoods {
                stock: line.stock.clone(),
                name: line.name.clone(),
                colour,
                count: 0,
                length_mm: None,
                grams: None,
                cost: Cents(0),
            });
            sum.count += line.count;
            sum.cost = sum.cost + line.cost;
            sum.length_mm = add_up(sum.length_mm, line.length_mm);
            sum.grams = add_up(sum.grams, line.grams);
        }
    };
    for order in orders {
        add(&order.piece, order.size.as_ref().and_then(|name| style.size(name)));
        order.partner_piece.iter().for_each(|piece| add(piece, None));
    }
    goods.into_values().collect()
}

fn add_up(sum: Option<f64>, more: Option<f64>) -> Option<f64> {
    more.map_or(sum, |more| Some(sum.unwrap_or(0.0) + more))
}

/// What an order brings in: what the client pays, without the tax in it.
fn sale(order: &Order, style: &HouseStyle, stock: &Stock) -> Cents {
    let quote = quote(order, style, stock);
    quote.total - quote.taxes.iter().map(|tax| tax.amount).sum()
}
