//! Where things lie in the shop's folder: its orders by name, a place for a new order, a place for a picture.

use std::path::{Path, PathBuf};

use super::samples;
use super::saving::{RealDisk, save};
use super::shop::{Shop, file_name_of, make_folder};
use super::store_error::{Cause, StoreError};
use crate::book::Order;

impl Shop {
    /// The shop in the folder that the computer gives this program; none before one has been begun there.
    pub fn own(folder: &Path) -> Result<Option<Self>, StoreError> {
        if folder.join("shop.ron").exists() {
            return Self::open(folder).or_else(|refusal| Ok(Self::fallback(folder, &refusal))).map(Some);
        }
        // Orders without a shop.ron are somebody's work: they get one again without a question.
        if folder.join("orders").is_dir() { Self::begin(folder, "").map(Some) } else { Ok(None) }
    }

    /// The demo shop, written into a folder that has no shop yet.
    pub fn begin_with_samples(folder: &Path) -> Result<Self, StoreError> {
        samples::write_into(folder)?;
        Self::open(folder)
    }

    /// Where the copies of orders lie that are not saved yet; none for the built-in shop.
    pub fn recovery_folder(&self) -> Option<PathBuf> {
        self.folder().map(|f| f.join("recovery"))
    }

    /// A file for an order that has none yet.
    pub fn new_order_file(&self, order: &Order) -> Result<PathBuf, StoreError> {
        self.place_for(order).ok_or_else(|| StoreError::new(&order.title(), Cause::NoPlace))
    }

    /// A file for a picture of an order; the one before it is not written over.
    pub fn new_picture_file(&self, order: &Order) -> Result<PathBuf, StoreError> {
        let folder = self.folder().ok_or_else(|| StoreError::new(&order.title(), Cause::NoPlace))?.join("pictures");
        make_folder(&folder)?;
        let name = file_name_of(&format!("{} {}", order.wearer, order.size.as_deref().unwrap_or("")));
        let nth = |n: u32| folder.join(if n == 1 { format!("{name}.png") } else { format!("{name}-{n}.png") });
        (1..10_000).map(nth).find(|p| !p.exists()).ok_or_else(|| StoreError::new(&name, Cause::AlreadyThere))
    }

    /// A file for the quote slip of an order, as PDF; its picture goes beside it. The one before it is not written over.
    pub fn new_slip_file(&self, order: &Order) -> Result<PathBuf, StoreError> {
        let folder = self.folder().ok_or_else(|| StoreError::new(&order.title(), Cause::NoPlace))?.join("papers");
        make_folder(&folder)?;
        let name = file_name_of(&format!("{} {}", order.wearer, order.size.as_deref().unwrap_or("")));
        let nth = |n: u32| {
            let number = if n == 1 { String::new() } else { format!("-{n}") };
            folder.join(format!("{name}-quote-slip{number}.pdf"))
        };
        let is_free = |p: &PathBuf| !p.exists() && !p.with_extension("png").exists();
        (1..10_000).map(nth).find(is_free).ok_or_else(|| StoreError::new(&name, Cause::AlreadyThere))
    }

    /// The file for the bill of a party, as PDF. One made before is written over: it can be made anew.
    pub fn party_bill_file(&self, party: &str) -> Result<PathBuf, StoreError> {
        let name = file_name_of(party);
        Ok(self.papers_folder(&name)?.join(format!("{name}-party-bill.pdf")))
    }

    /// Where its orders lie; the present folder for the built-in shop.
    pub fn orders_folder(&self) -> PathBuf {
        self.folder().map_or_else(|| PathBuf::from("."), |f| f.join("orders"))
    }
}

/// Puts bytes into a file, over what is there, completely or not at all.
pub fn write_bytes(path: &Path, bytes: &[u8]) -> Result<(), StoreError> {
    let stamp = super::FileStamp::of_file(path)?;
    save(&RealDisk, path, bytes, stamp.as_ref()).map(|_| ())
}
