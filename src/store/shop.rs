//! The shop's folder: `shop.ron`, `stock.ron`, `styles/`, `orders/`. Whatever is missing or damaged is stood in for by what
//! comes with the program, and said so; a damaged file harms no other.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::SystemTime;

use super::figures::Text;
use super::log_file::{LogEvent, log_event, log_into};
use super::logo::read_logo;
use super::order_file::{SavedOrder, read_order};
use super::reading::{bytes_of, name_of, parse, text_of};
use super::saving::{FileStamp, RealDisk, remove_stale_temps, save};
use super::shop_details::{ShopDetails, ShopFile};
use super::shop_stock::StockOnDisk;
use super::store_error::{Cause, StoreError};
use super::suppliers_file::read_suppliers;
use super::{built_in_stock, built_in_style, style_from_text};
use crate::book::{Letterhead, Order, Written};
use crate::piece::HouseStyle;
use crate::stock::{Stock, Suppliers};

/// The name of the file that makes a folder a shop.
pub(super) const SHOP_FILE: &str = "shop.ron";

/// A shop: what it says of itself, what it can buy, how it makes things, and where its orders lie.
#[derive(Clone, Debug)]
pub struct Shop {
    folder: Option<PathBuf>,
    pub(super) details: ShopDetails,
    /// `shop.ron` as it was when it was read or saved; none where it could not be read.
    pub(super) on_disk: Option<FileStamp>,
    pub(super) stock: Arc<Stock>,
    /// The file that the stock list was read from or saved in, as it was then.
    pub(super) stock_on_disk: Option<StockOnDisk>,
    pub(super) style: Arc<HouseStyle>,
    /// The file that the style was read from or saved in, as it was then.
    pub(super) style_on_disk: Option<(PathBuf, FileStamp)>,
    warnings: Vec<String>,
}

/// An order in the shop's folder, or why it could not be opened.
#[derive(Clone, Debug)]
pub struct OrderEntry {
    /// Its file.
    pub path: PathBuf,
    /// The order.
    pub order: Result<SavedOrder, StoreError>,
}

impl Shop {
    /// The shop that comes with the program: no folder, the built-in list and style.
    pub fn built_in() -> Self {
        Self {
            folder: None,
            details: ShopDetails::default(),
            on_disk: None,
            stock: Arc::new(built_in_stock()),
            stock_on_disk: None,
            style: Arc::new(built_in_style()),
            style_on_disk: None,
            warnings: Vec::new(),
        }
    }

    /// The shop in this folder. Only a folder without a readable `shop.ron` is refused; a damaged list or style is stood
    /// in for by the built-in one, with a warning. Sweeps up what a killed program left behind.
    pub fn open(folder: &Path) -> Result<Self, StoreError> {
        let file = folder.join(SHOP_FILE);
        let bytes = bytes_of(&file).map_err(|refusal| match refusal.cause {
            Cause::NotThere => StoreError::new(&name_of(folder), Cause::NoShop),
            _ => refusal,
        })?;
        let said: ShopFile = parse(text_of(&bytes, &name_of(&file))?, &name_of(&file))?;
        let on_disk = Some(FileStamp::of_bytes(&bytes));
        let mut shop = Self { folder: Some(folder.to_owned()), on_disk, ..Self::built_in() };
        shop.read_stock(folder);
        shop.read_style(folder, said.style.as_ref().map(|s| s.0.as_str()));
        shop.read_details(folder, &said);
        for swept in [folder.to_owned(), folder.join("orders"), folder.join("styles")] {
            remove_stale_temps(&swept, SystemTime::now());
        }
        log_into(folder);
        log_event(&LogEvent::ShopOpened { orders: shop.order_files().len(), warnings: shop.warnings.len() });
        Ok(shop)
    }

    /// The shop in a folder whose `shop.ron` cannot be read: the built-in list and style, and the orders that lie there.
    pub(super) fn fallback(folder: &Path, refusal: &StoreError) -> Self {
        let mut shop = Self { folder: Some(folder.to_owned()), ..Self::built_in() };
        shop.warn(refusal, "stock list and style");
        shop
    }

    /// The shop that an order's file belongs to: the folder above `orders/` when it holds `shop.ron`, else the built-in
    /// one. A `shop.ron` that cannot be read gives the built-in one with a warning.
    pub fn of_file(path: &Path) -> Self {
        super::thread_guard::touch_disk();
        let full = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
        let orders = full.parent().filter(|p| p.file_name().is_some_and(|n| n == "orders"));
        let Some(folder) = orders.and_then(Path::parent).filter(|f| f.join(SHOP_FILE).exists()) else {
            return Self::built_in();
        };
        Self::open(folder).unwrap_or_else(|refusal| Self::fallback(folder, &refusal))
    }

    /// A new shop of this name in a folder that has none yet, which is made if need be.
    pub fn begin(folder: &Path, name: &str) -> Result<Self, StoreError> {
        make_folder(&folder.join("orders"))?;
        let details = ShopDetails { letterhead: Letterhead::named(name), ..ShopDetails::default() };
        let said = ShopFile::of(&details, None);
        let text = super::writing::pretty(&said, 1);
        save(&RealDisk, &folder.join(SHOP_FILE), text.as_bytes(), None)?;
        Self::open(folder)
    }

    /// Its folder; none for the built-in one.
    pub fn folder(&self) -> Option<&Path> {
        self.folder.as_deref()
    }
    /// Its name; empty for the built-in one.
    pub fn name(&self) -> &str {
        &self.details.letterhead.name
    }
    /// What it says of itself.
    pub fn details(&self) -> &ShopDetails {
        &self.details
    }
    /// What its clients read of it.
    pub fn letterhead(&self) -> &Letterhead {
        &self.details.letterhead
    }
    /// How it writes days and hours.
    pub fn written(&self) -> Written {
        self.details.written
    }
    /// What it can buy.
    pub fn stock(&self) -> &Arc<Stock> {
        &self.stock
    }
    /// Its house style.
    pub fn style(&self) -> &Arc<HouseStyle> {
        &self.style
    }
    /// What could not be read and is stood in for, as sentences.
    pub fn warnings(&self) -> &[String] {
        &self.warnings
    }

    /// What it knows of its suppliers, read anew; nothing where it has no `suppliers.ron`.
    pub fn suppliers(&self) -> Result<Suppliers, StoreError> {
        self.folder.as_ref().map_or_else(|| Ok(Suppliers::default()), |folder| read_suppliers(folder, &self.stock))
    }

    /// All orders by the names of their files. An order that cannot be opened is there with its refusal.
    pub fn orders(&self) -> Vec<OrderEntry> {
        self.order_files().into_iter().map(|path| OrderEntry { order: read_order(&path, &self.stock), path }).collect()
    }

    /// The files of its orders by their names, unopened.
    pub(super) fn order_files(&self) -> Vec<PathBuf> {
        super::thread_guard::touch_disk();
        let Some(folder) = &self.folder else { return Vec::new() };
        let Ok(files) = fs::read_dir(folder.join("orders")) else { return Vec::new() };
        let paths = files.flatten().map(|f| f.path());
        let mut paths: Vec<PathBuf> = paths.filter(|p| p.extension().is_some_and(|e| e == "ron")).collect();
        paths.sort();
        paths
    }

    /// A file name for an order that has none yet: after its wearer and size, and not taken. None without a folder.
    pub fn place_for(&self, order: &Order) -> Option<PathBuf> {
        /// Beyond this many of one name something else is wrong.
        const MOST_OF_A_NAME: u32 = 10_000;
        super::thread_guard::touch_disk();
        let orders = self.folder.as_ref()?.join("orders");
        let words = format!("{} {}", order.wearer, order.size.as_deref().unwrap_or(""));
        let name = file_name_of(&words);
        let nth = |n: u32| if n == 1 { format!("{name}.ron") } else { format!("{name}-{n}.ron") };
        (1..=MOST_OF_A_NAME).map(|n| orders.join(nth(n))).find(|p| fs::symlink_metadata(p).is_err())
    }

    fn read_stock(&mut self, folder: &Path) {
        let file = folder.join("stock.ron");
        match StockOnDisk::read(&file, &self.stock) {
            Ok((stock, on_disk)) => (self.stock, self.stock_on_disk) = (Arc::new(stock), Some(on_disk)),
            Err(StoreError { cause: Cause::NotThere, .. }) => {}
            Err(refusal) => self.warn(&refusal, "stock list"),
        }
    }

    fn read_style(&mut self, folder: &Path, name: Option<&str>) {
        let Some(name) = name else { return };
        let plain = file_name_of(name);
        let file = folder.join("styles").join(format!("{plain}.ron"));
        let read = text_in(&file).and_then(|text| style_from_text(&text, &name_of(&file), &self.style, &self.stock));
        match read {
            Ok(style) => {
                self.style = Arc::new(style);
                let stamp = FileStamp::of_file(&file).ok().flatten();
                self.style_on_disk = stamp.map(|stamp| (file, stamp));
            }
            Err(refusal) => self.warn(&refusal, "style"),
        }
    }

    /// What the shop says of itself. A logo that cannot be read is left out.
    fn read_details(&mut self, folder: &Path, said: &ShopFile) {
        self.details = said.details(&self.style.prices);
        if let Some(money) = &self.details.money {
            money.put_into(&mut Arc::make_mut(&mut self.style).prices);
        }
        match self.details.logo_file.as_deref().map(|name| read_logo(&logo_place(folder, name))) {
            Some(Ok(logo)) => self.details.letterhead.logo = Some(Arc::new(logo)),
            Some(Err(refusal)) => self.warnings.push(format!("{refusal} Papers go without the logo.")),
            None => {}
        }
    }

    /// Writes into `shop.ron` which style the house has, unless it says so already.
    pub(super) fn name_style(&mut self) -> Result<(), StoreError> {
        let Some(folder) = &self.folder else { return Ok(()) };
        let file = folder.join(SHOP_FILE);
        let mut said: ShopFile = parse(&text_in(&file)?, &name_of(&file))?;
        if said.style.as_ref().is_some_and(|s| s.0 == self.style.name) {
            return Ok(());
        }
        said.style = Some(Text(self.style.name.clone()));
        let text = super::writing::pretty(&said, 1);
        let before = FileStamp::of_file(&file)?;
        let stamp = save(&RealDisk, &file, text.as_bytes(), before.as_ref())?;
        // What somebody else has written into it meanwhile is still not known here.
        if before == self.on_disk {
            self.on_disk = Some(stamp);
        }
        Ok(())
    }

    fn warn(&mut self, refusal: &StoreError, what: &str) {
        self.warnings.push(format!("{refusal} The built-in {what} is used instead."));
    }
}

/// The file of a logo of this name. A name that leads out of the folder is taken by its last part.
fn logo_place(folder: &Path, name: &str) -> PathBuf {
    Path::new(name).file_name().map_or_else(|| folder.join("logo.png"), |name| folder.join(name))
}

fn text_in(path: &Path) -> Result<String, StoreError> {
    let bytes = bytes_of(path)?;
    text_of(&bytes, &name_of(path)).map(str::to_owned)
}

/// Makes a folder and those above it.
pub fn make_folder(folder: &Path) -> Result<(), StoreError> {
    super::thread_guard::touch_disk();
    fs::create_dir_all(folder).map_err(|e| StoreError::new(&name_of(folder), Cause::of_saving(&e)))
}

/// Words as a file name for every system: letters and digits of any script, hyphens between; never one of the names that
/// Windows keeps for itself (Microsoft, Naming Files, Paths, and Namespaces), never empty, at most 40 letters.
pub(super) fn file_name_of(words: &str) -> String {
    const LONGEST: usize = 40;
    const KEPT_NAMES: [&str; 8] = ["con", "prn", "aux", "nul", "com", "lpt", "conin", "conout"];
    let mut name = String::new();
    for letter in words.to_lowercase().chars() {
        if letter.is_alphanumeric() {
            name.push(letter);
        } else if !name.is_empty() && !name.ends_with('-') {
            name.push('-');
        }
    }
    let name: String = name.chars().take(LONGEST).collect();
    let name = name.trim_matches('-');
    let bare = name.trim_end_matches(|c: char| c.is_numeric());
    match name {
        "" => "order".to_owned(),
        _ if KEPT_NAMES.contains(&bare) => format!("order-{name}"),
        _ => name.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn file_names_hold_on_every_system() {
        for (words, name) in [
            ("Mina Classic", "mina-classic"),
            ("  ", "order"),
            ("../../etc/passwd", "etc-passwd"),
            ("CON", "order-con"),
            ("com1", "order-com1"),
            ("LPT\u{b3}", "order-lpt\u{b3}"),
            ("nul.ron", "nul-ron"),
            ("a:b\\c*d?", "a-b-c-d"),
            ("Zs\u{f3}fia \u{150}ry", "zs\u{f3}fia-\u{151}ry"),
            ("\u{202e}abc", "abc"),
        ] {
            assert_eq!(file_name_of(words), name, "{words}");
        }
        assert!(file_name_of(&"x".repeat(500)).len() <= 40);
    }
}
