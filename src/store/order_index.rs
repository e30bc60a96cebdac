//! The index of a shop's orders: what a list shows of each, read once and refreshed by the files that changed.
//!
//! Pure data without a thread of its own. A refresh looks at every file's time and size and opens only those that differ
//! from what was read. Knows nothing of windows and keeps no whole order in memory.

use std::collections::BTreeMap;
use std::fmt;
use std::fs::{self, Metadata};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, SystemTime};

use super::order_file::read_order;
use super::order_row::{OrderRow, stem_of};
use super::shop::Shop;
use super::store_error::StoreError;
use crate::book::Order;
use crate::piece::HouseStyle;
use crate::stock::Stock;
use crate::units::counted;

/// A file changed so shortly before it was read may change again without another time: FAT counts in steps of two seconds,
/// the coarsest clock of a disk in use. It is read once more.
const TICK: Duration = Duration::from_secs(2);

/// The first number of a shop; our choice, so that a number said on the telephone is not taken for a count.
const FIRST_NUMBER: u32 = 101;

/// The rows of all orders of a shop.
#[derive(Clone, Debug, Default)]
pub struct OrderIndex {
    /// What was read, by file.
    read: BTreeMap<PathBuf, Indexed>,
    /// The list and the style that the orders were read and priced with; others read them all anew.
    read_with: Option<(Arc<Stock>, Arc<HouseStyle>)>,
}

#[derive(Clone, Debug)]
struct Indexed {
    row: Arc<OrderRow>,
    stamp: Stamp,
}

/// One number that several orders have; all of them are kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RepeatedNumber {
    /// The number.
    pub number: u32,
    /// The files of the orders.
    pub files: Vec<PathBuf>,
}

/// As a sentence: `2 orders have No. 104: ava and ida. All are kept.`
impl fmt::Display for RepeatedNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        /// So many files are named.
        const NAMED: usize = 2;
        let names: Vec<String> = self.files.iter().take(NAMED).map(|path| stem_of(path)).collect();
        let more = if self.files.len() > NAMED { " and others" } else { "" };
        let n = counted(self.files.len(), "order", "orders");
        write!(f, "{n} have No. {}: {}{more}. All are kept.", self.number, names.join(" and "))
    }
}

/// How a file stood in its folder when it was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Stamp {
    modified: SystemTime,
    length: u64,
    /// Whether its time was old enough to tell the next change.
    settled: bool,
}

impl OrderIndex {
    /// An index of nothing yet.
    pub fn empty() -> Self {
        Self::default()
    }

    /// Reads the orders that are new or changed since the last time and forgets those that are gone. Returns why files
    /// that were read this time could not be; such a file keeps a row under its own name.
    pub fn refresh(&mut self, shop: &Shop) -> Vec<StoreError> {
        self.refresh_with(shop, SystemTime::now(), &mut |path| read_order(path, shop.stock()).map(|read| read.order))
    }

    /// The rows by the names of their files.
    pub fn rows(&self) -> impl ExactSizeIterator<Item = &Arc<OrderRow>> {
        self.read.values().map(|indexed| &indexed.row)
    }

    /// The number after the highest one that an order has.
    pub fn next_number(&self) -> u32 {
        self.rows().filter_map(|row| row.number).max().map_or(FIRST_NUMBER, |last| last.saturating_add(1))
    }

    /// Numbers that more than one order has, as it happens where two computers share the folder, lowest first.
    pub fn repeated_numbers(&self) -> Vec<RepeatedNumber> {
        let mut rows: BTreeMap<u32, Vec<&Arc<OrderRow>>> = BTreeMap::new();
        for row in self.rows() {
            row.number.into_iter().for_each(|number| rows.entry(number).or_default().push(row));
        }
        let repeated = rows.into_iter().filter(|(_, rows)| rows.len() > 1);
        repeated
            .map(|(number, rows)| RepeatedNumber {
                number,
                files: rows.into_iter().map(|row| row.path.clone()).collect(),
            })
            .collect()
    }

    fn refresh_with(
        &mut self,
        shop: &Shop,
        now: SystemTime,
        read: &mut dyn FnMut(&Path) -> Result<Order, StoreError>,
    ) -> Vec<StoreError> {
        if !self
            .read_with
            .as_ref()
            .is_some_and(|(stock, style)| is_same(stock, shop.stock()) && is_same(style, shop.style()))
        {
            self.read.clear();
        }
        self.read_with = Some((Arc::clone(shop.stock()), Arc::clone(shop.style())));
        let mut before = std::mem::take(&mut self.read);
        let mut refusals = Vec::new();
        for path in shop.order_files() {
            let Some(stamp) = fs::metadata(&path).ok().and_then(|status| Stamp::of(&status, now)) else { continue };
            let known = before.remove(&path).filter(|indexed| indexed.stamp.is_still(stamp));
            let indexed = known.unwrap_or_else(|| {
                let row = OrderRow::of(&path, stamp.modified, read(&path), shop);
                refusals.extend(row.refusal.clone());
                Indexed { row: Arc::new(row), stamp }
            });
            self.read.insert(path, indexed);
        }
        refusals
    }
}

fn is_same<T: PartialEq>(a: &Arc<T>, b: &Arc<T>) -> bool {
    Arc::ptr_eq(a, b) || a == b
}

impl Stamp {
    fn of(status: &Metadata, now: SystemTime) -> Option<Self> {
        let modified = status.modified().ok()?;
        let settled = now.duration_since(modified).is_ok_and(|age| age > TICK);
        Some(Self { modified, length: status.len(), settled })
    }

    /// Whether a file with the stamp `now` is certainly what was read.
    fn is_still(self, now: Self) -> bool {
        self.settled && (self.modified, self.length) == (now.modified, now.length)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::{Change, MissingDetail, When};
    use crate::piece::{Tax, TaxHow};
    use crate::store::order_row::SearchWords;
    use crate::store::order_to_text;
    use std::fs::File;

    const AN_HOUR: Duration = Duration::from_hours(1);

    /// A shop and a place for its orders.
    fn shop() -> (tempfile::TempDir, Shop) {
        let folder = tempfile::tempdir().unwrap();
        let shop = Shop::begin(folder.path(), "Q").unwrap();
        (folder, shop)
    }

    /// Writes a file as it would have been written `age` ago.
    fn put(shop: &Shop, name: &str, text: &str, age: Duration) {
        let path = shop.orders_folder().join(name);
        fs::write(&path, text).unwrap();
        File::options().write(true).open(&path).unwrap().set_modified(SystemTime::now() - age).unwrap();
    }

    fn order_text(wearer: &str, pickup: &str, shop: &Shop) -> String {
        let changes = vec![Change::Wearer(wearer.to_owned()), Change::Wanted(When::typed(pickup))];
        let blank = Order::blank(None, shop.stock());
        order_to_text(&blank.apply(&Change::Together(changes), shop.stock()).unwrap())
    }

    /// Refreshes, and returns which files were opened and what was refused.
    fn opened(index: &mut OrderIndex, shop: &Shop) -> (Vec<String>, Vec<StoreError>) {
        let mut opened = Vec::new();
        let refusals = index.refresh_with(shop, SystemTime::now(), &mut |path| {
            opened.push(path.file_stem().unwrap().to_string_lossy().into_owned());
            read_order(path, shop.stock()).map(|read| read.order)
        });
        (opened, refusals)
    }

    #[test]
    fn a_thousand_orders_are_opened_once_and_then_only_what_changed() {
        let (_folder, shop) = shop();
        for n in 0..1000 {
            put(&shop, &format!("{n:04}.ron"), &order_text(&format!("Wearer {n}"), "", &shop), AN_HOUR);
        }
        let mut index = OrderIndex::empty();
        assert_eq!(opened(&mut index, &shop).0.len(), 1000);
        assert_eq!(index.rows().len(), 1000);
        assert_eq!(opened(&mut index, &shop).0, Vec::<String>::new(), "the second time no order is opened");

        put(&shop, "0007.ron", &order_text("Mina", "", &shop), AN_HOUR / 2);
        put(&shop, "new.ron", &order_text("Ida", "", &shop), AN_HOUR);
        fs::remove_file(shop.orders_folder().join("0000.ron")).unwrap();
        assert_eq!(opened(&mut index, &shop).0, ["0007", "new"]);
        assert_eq!(index.rows().len(), 1000);
        assert!(index.rows().any(|row| row.title == "Mina") && index.rows().all(|row| !row.path.ends_with("0000.ron")));
    }

    #[test]
    fn the_same_time_with_another_size_is_a_change_and_so_may_be_a_file_of_this_moment() {
        let (_folder, shop) = shop();
        let at = SystemTime::now() - AN_HOUR;
        let path = shop.orders_folder().join("a.ron");
        let write = |wearer: &str, at: SystemTime| {
            fs::write(&path, order_text(wearer, "", &shop)).unwrap();
            File::options().write(true).open(&path).unwrap().set_modified(at).unwrap();
        };
        let mut index = OrderIndex::empty();
        write("Mina", at);
        index.refresh(&shop);
        write("Minna", at);
        assert_eq!(opened(&mut index, &shop).0, ["a"]);
        // Just now: the next writing may come within the same tick of the disk's clock, with the same size.
        let just_now = SystemTime::now();
        write("Minna", just_now);
        index.refresh(&shop);
        write("Minny", just_now);
        index.refresh(&shop);
        assert_eq!(index.rows().next().unwrap().title, "Minny");
    }

    #[test]
    fn an_order_that_cannot_be_read_is_reported_once_and_keeps_a_row() {
        let (_folder, shop) = shop();
        put(&shop, "a.ron", &order_text("Ava", "", &shop), AN_HOUR);
        put(&shop, "b.ron", "(version: 1, wear", AN_HOUR);
        put(&shop, "not-an-order.txt", "x", AN_HOUR);
        let mut index = OrderIndex::empty();
        assert_eq!(opened(&mut index, &shop).1.len(), 1);
        assert_eq!(opened(&mut index, &shop), (vec![], vec![]));
        let rows: Vec<_> = index.rows().map(|row| (row.title.as_str(), row.refusal.is_some())).collect();
        assert_eq!(rows, [("Ava", false), ("b (cannot be read)", true)]);
    }

    #[test]
    fn another_list_of_stock_reads_all_orders_anew() {
        let (folder, first) = shop();
        put(&first, "a.ron", &order_text("Ava", "", &first), AN_HOUR);
        let mut index = OrderIndex::empty();
        index.refresh(&first);
        let again = Shop::open(folder.path()).unwrap();
        assert_eq!(opened(&mut index, &again).0, Vec::<String>::new(), "the same list under another pointer");
        let stock = "(version: 1, bands: [(id: \"elastic-small\", price: 9)])";
        fs::write(folder.path().join("stock.ron"), stock).unwrap();
        let dearer = Shop::open(folder.path()).unwrap();
        assert_ne!(dearer.stock(), first.stock());
        assert_eq!(opened(&mut index, &dearer).0, ["a"]);
    }

    #[test]
    fn another_style_prices_all_orders_anew() {
        let (folder, shop) = shop();
        put(&shop, "a.ron", &order_text("Ava", "", &shop), AN_HOUR);
        let mut index = OrderIndex::empty();
        index.refresh(&shop);
        let before = index.rows().next().unwrap().price;
        let mut style = (**shop.style()).clone();
        style.prices.tax = Some(Tax { name: String::new(), percent: 100.0, how: TaxHow::Added });
        let mut dearer = Shop::open(folder.path()).unwrap();
        dearer.style = Arc::new(style);
        assert_eq!(opened(&mut index, &dearer).0, ["a"]);
        assert!(index.rows().next().unwrap().price > before);
    }

    #[test]
    fn a_number_that_two_computers_gave_is_told_and_both_orders_are_kept() {
        let (_folder, shop) = shop();
        let mut index = OrderIndex::empty();
        assert_eq!(index.next_number(), FIRST_NUMBER);
        for (name, number) in [("ava.ron", 104), ("ida.ron", 104), ("mina.ron", 103)] {
            let text =
                order_text(name, "", &shop).replacen("version: 1,", &format!("version: 3, number: {number},"), 1);
            put(&shop, name, &text, AN_HOUR);
        }
        put(&shop, "old.ron", &order_text("Old", "", &shop), AN_HOUR);
        assert_eq!(index.refresh(&shop), []);
        assert_eq!(index.next_number(), 105);
        let said: Vec<String> = index.repeated_numbers().iter().map(ToString::to_string).collect();
        assert_eq!(said, ["2 orders have No. 104: ava and ida. All are kept."]);
        let found: Vec<Option<u32>> =
            index.rows().filter(|row| row.fits(&SearchWords::of("103"))).map(|row| row.number).collect();
        assert_eq!(found, [Some(103)]);
    }

    #[test]
    fn rows_say_what_waits() {
        let (_folder, shop) = shop();
        put(&shop, "b.ron", &order_text("Ida", "9 May 2026, 2 pm", &shop), AN_HOUR);
        let mut index = OrderIndex::empty();
        assert_eq!(index.refresh(&shop), []);
        let ida = index.rows().find(|row| row.title.starts_with("Ida")).unwrap();
        assert!(ida.missing.contains(&MissingDetail::Girth) && !ida.missing.contains(&MissingDetail::Day));
        assert!(ida.call.as_ref().is_some_and(|call| call.starts_with("event")));
        let fits = |said: &str| ida.fits(&SearchWords::of(said));
        assert!(fits("ida b") && !fits("ava"), "by title and by file");
    }
}
