//! Which order was open last in each shop, as far as this computer knows: one small file beside the program's own settings,
//! not in the shop's folder, for two computers may share that.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use super::reading::{Versioned, bytes_of, name_of, parse, text_of};
use super::saving::{FileStamp, RealDisk, save};
use super::shop::{Shop, make_folder};
use super::store_error::StoreError;

/// The file.
const NAME: &str = "last-orders.ron";
/// Shops that are remembered; our choice, far more than a computer has.
const MOST_SHOPS: usize = 50;

/// The file's content.
#[derive(Default, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct LastOrdersFile {
    version: u64,
    /// The order's file by the shop's folder.
    #[serde(default)]
    orders: BTreeMap<String, String>,
}

impl Versioned for LastOrdersFile {
    const KIND: &'static str = "list of last orders";
}

/// Remembers the last orders in a folder of this computer.
#[derive(Clone, Debug)]
pub struct LastOrders {
    folder: PathBuf,
}

impl LastOrders {
    /// Those that are remembered in this folder.
    pub fn in_folder(folder: &Path) -> Self {
        Self { folder: folder.to_owned() }
    }

    /// The file of the order that was open last in a shop, as long as it is there.
    pub fn of(&self, shop: &Shop) -> Option<PathBuf> {
        let file = PathBuf::from(self.read().orders.remove(&key(shop)?)?);
        file.exists().then_some(file)
    }

    /// An order of a shop is open now. What cannot be remembered is no harm.
    pub fn remember(&self, shop: &Shop, order: &Path) -> Result<(), StoreError> {
        let (Some(shop), Ok(order)) = (key(shop), std::path::absolute(order)) else { return Ok(()) };
        let Some(order) = order.to_str() else { return Ok(()) };
        let mut file = self.read();
        if file.orders.get(&shop).is_some_and(|known| known == order) {
            return Ok(());
        }
        if file.orders.len() >= MOST_SHOPS {
            file.orders.clear();
        }
        file.version = LastOrdersFile::NEWEST;
        file.orders.insert(shop, order.to_owned());
        make_folder(&self.folder)?;
        let (path, text) = (self.path(), super::writing::pretty(&file, 2));
        save(&RealDisk, &path, text.as_bytes(), FileStamp::of_file(&path)?.as_ref()).map(|_| ())
    }

    fn path(&self) -> PathBuf {
        self.folder.join(NAME)
    }

    /// What is remembered; a file that cannot be read is as good as none.
    fn read(&self) -> LastOrdersFile {
        let path = self.path();
        let read = bytes_of(&path).and_then(|bytes| parse(text_of(&bytes, NAME)?, &name_of(&path)));
        read.unwrap_or_default()
    }
}

/// The shop's folder, by which it is known; none for the built-in one.
fn key(shop: &Shop) -> Option<String> {
    std::path::absolute(shop.folder()?).ok()?.to_str().map(str::to_owned)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_shop_has_its_own_last_order_as_long_as_it_is_there() {
        let folder = tempfile::tempdir().unwrap();
        let shop = |name: &str| Shop::begin(&folder.path().join(name), "Q").unwrap();
        let (first, second) = (shop("a"), shop("b"));
        let last = LastOrders::in_folder(&folder.path().join("settings"));
        assert_eq!(last.of(&first), None);
        let order = first.orders_folder().join("mina.ron");
        std::fs::write(&order, "x").unwrap();
        last.remember(&first, &order).unwrap();
        last.remember(&first, &order).unwrap();
        assert_eq!((last.of(&first), last.of(&second)), (Some(order.clone()), None));
        std::fs::remove_file(&order).unwrap();
        assert_eq!(last.of(&first), None, "it is gone");
    }

    #[test]
    fn a_damaged_file_is_as_good_as_none_and_is_written_anew() {
        let folder = tempfile::tempdir().unwrap();
        let shop = Shop::begin(&folder.path().join("a"), "Q").unwrap();
        std::fs::write(folder.path().join(NAME), "(version: 1, ord").unwrap();
        let last = LastOrders::in_folder(folder.path());
        let order = shop.orders_folder().join("mina.ron");
        std::fs::write(&order, "x").unwrap();
        assert_eq!(last.of(&shop), None);
        last.remember(&shop, &order).unwrap();
        assert_eq!(last.of(&shop), Some(order));
        assert_eq!(LastOrders::in_folder(folder.path()).of(&Shop::built_in()), None);
    }
}
