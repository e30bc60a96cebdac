//! The stock list of a shop in its folder: read, changed, saved in `stock.ron`, and which orders hold what is to go.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::reading::{bytes_of, name_of, text_of};
use super::saving::{FileStamp, RealDisk, save};
use super::shop::Shop;
use super::stock_file::{has_remarks, stock_from_text, stock_to_text};
use super::store_error::{Cause, StoreError};
use crate::stock::{Lost, OwnStock, Stock};

/// The name of the shop's stock list.
const STOCK_FILE: &str = "stock.ron";

/// The shop's stock list as it lies on the disk.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StockOnDisk {
    stamp: FileStamp,
    has_remarks: bool,
}

/// A stock list to be saved, apart from its shop.
#[derive(Clone, Debug)]
pub struct StockToSave {
    path: PathBuf,
    own: OwnStock,
    base: Arc<Stock>,
    on_disk: Option<StockOnDisk>,
}

impl StockOnDisk {
    /// The list in a file over `base`, and how the file looks.
    pub(super) fn read(file: &Path, base: &Stock) -> Result<(Stock, Self), StoreError> {
        let (bytes, name) = (bytes_of(file)?, name_of(file));
        let text = text_of(&bytes, &name)?;
        let stock = stock_from_text(text, &name, base)?;
        Ok((stock, Self { stamp: FileStamp::of_bytes(&bytes), has_remarks: has_remarks(text) }))
    }
}

impl StockToSave {
    /// Saves it after another save of which the shop had not heard yet.
    #[must_use]
    pub fn after(self, earlier: Option<StockOnDisk>) -> Self {
        Self { on_disk: earlier.or(self.on_disk), ..self }
    }

    /// The file it is saved in.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Saves it, with a copy of a file that held remarks beside it; returns the name of the copy. A file that another program
    /// has changed since, or that could not be read, is not written over.
    pub fn save(&self) -> Result<(StockOnDisk, Option<String>), StoreError> {
        if self.on_disk.is_none() && self.path.exists() {
            // It could not be read when the shop was opened; it says why.
            StockOnDisk::read(&self.path, &self.base)?;
            return Err(StoreError::new(&name_of(&self.path), Cause::Changed));
        }
        let copy = self.on_disk.filter(|on_disk| on_disk.has_remarks).map(|_| self.copy()).transpose()?;
        let text = stock_to_text(&self.own, &self.base);
        let stamp = self.on_disk.map(|on_disk| on_disk.stamp);
        let stamp = save(&RealDisk, &self.path, text.as_bytes(), stamp.as_ref())?;
        Ok((StockOnDisk { stamp, has_remarks: false }, copy))
    }

    /// Copies the file beside itself, under a name that is free.
    fn copy(&self) -> Result<String, StoreError> {
        let bytes = bytes_of(&self.path)?;
        let nth = |n: u32| if n == 1 { "stock-by-hand.ron".to_owned() } else { format!("stock-by-hand-{n}.ron") };
        let free = (1..1000).map(nth).find(|name| !self.path.with_file_name(name).exists());
        let name = free.ok_or_else(|| StoreError::new(&name_of(&self.path), Cause::AlreadyThere))?;
        save(&RealDisk, &self.path.with_file_name(&name), &bytes, None).map(|_| name)
    }
}

/// Whether the text of an order or a style names one of these.
pub fn holds_any(text: &str, lost: &[Lost]) -> bool {
    let quoted = |words: &str| text.contains(&format!("\"{words}\""));
    let names = |what: &Lost| quoted(what.key.id.as_str()) && what.colour.as_ref().is_none_or(|colour| quoted(colour));
    lost.iter().any(names)
}

impl Shop {
    /// From now on the shop can buy this. [`Shop::stock_to_save`] saves it.
    pub fn restock(&mut self, stock: Arc<Stock>) {
        self.stock = stock;
    }

    /// The list in the shop's file as it is now, over `base`, and how the file looks.
    pub fn stock_now_on_disk(&self, base: &Stock) -> Result<(PathBuf, Stock, StockOnDisk), StoreError> {
        let folder = self.folder().ok_or_else(|| StoreError::new(STOCK_FILE, Cause::NoPlace))?;
        let path = folder.join(STOCK_FILE);
        StockOnDisk::read(&path, base).map(|(stock, on_disk)| (path, stock, on_disk))
    }

    /// Whether saving the list would lose remarks that somebody wrote into its file.
    pub fn stock_has_remarks(&self) -> bool {
        self.stock_on_disk.is_some_and(|on_disk| on_disk.has_remarks)
    }

    /// The shop's own lines over `base`, to be saved wherever that does not keep anybody waiting; nothing without a folder.
    pub fn stock_to_save(&self, own: OwnStock, base: Arc<Stock>) -> Result<StockToSave, StoreError> {
        let folder = self.folder().ok_or_else(|| StoreError::new(STOCK_FILE, Cause::NoPlace))?;
        Ok(StockToSave { path: folder.join(STOCK_FILE), own, base, on_disk: self.stock_on_disk })
    }

    /// What [`Self::stock_to_save`] gave is saved.
    pub fn stock_was_saved(&mut self, on_disk: StockOnDisk) {
        self.stock_on_disk = Some(on_disk);
    }

    /// How many orders and styles of the shop name one of these; each file is read as text, so that one that cannot be opened
    /// counts too.
    pub fn holders_of(&self, lost: &[Lost]) -> usize {
        let styles = self.folder().and_then(|f| fs::read_dir(f.join("styles")).ok());
        let styles = styles.into_iter().flatten().flatten().map(|e| e.path());
        let holds =
            |path: &PathBuf| bytes_of(path).is_ok_and(|bytes| holds_any(&String::from_utf8_lossy(&bytes), lost));
        self.order_files().into_iter().chain(styles).filter(holds).count()
    }
}
