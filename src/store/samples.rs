//! The demo shop, carried within the program: Quillfern Flowers and the Harbour Hall dance. All of it is invented.

use std::path::Path;

use super::saving::{RealDisk, save};
use super::shop::make_folder;
use super::store_error::{Cause, StoreError};

/// A file of the demo shop.
#[derive(Clone, Copy, Debug)]
pub struct Sample {
    /// Its place within the shop's folder: `orders/01-petite.ron`.
    pub path: &'static str,
    /// What it says.
    pub text: &'static str,
}

macro_rules! samples {
    ($($path:literal),+ $(,)?) => {
        [$(Sample { path: $path, text: include_str!(concat!("../../samples/", $path)) }),+]
    };
}

/// The showpiece stands last: it is what is shown where nothing else was asked for.
const ALL: [Sample; 13] = samples![
    "shop.ron",
    "stock.ron",
    "orders/01-petite.ron",
    "orders/02-classic.ron",
    "orders/03-full.ron",
    "orders/04-too-wide.ron",
    "orders/05-bare-spots.ron",
    "orders/06-empty.ron",
    "orders/07-orchid-classic.ron",
    "orders/08-boutonniere.ron",
    "orders/10-flower-girl.ron",
    "orders/11-teal-gown.ron",
    "orders/09-showpiece.ron",
];

/// Every file of the demo shop.
pub fn all() -> &'static [Sample] {
    &ALL
}

/// The orders of the demo shop.
pub fn orders() -> impl Iterator<Item = &'static Sample> {
    ALL.iter().filter(|s| s.path.starts_with("orders/"))
}

/// Writes the demo shop into a folder, which is made if need be. Refused when a shop is there already.
pub fn write_into(folder: &Path) -> Result<(), StoreError> {
    let taken = ALL.iter().map(|s| folder.join(s.path)).find(|p| p.exists());
    if let Some(taken) = taken {
        return Err(StoreError::new(&taken.display().to_string(), Cause::AlreadyThere));
    }
    make_folder(&folder.join("orders"))?;
    for sample in ALL {
        save(&RealDisk, &folder.join(sample.path), sample.text.as_bytes(), None)?;
    }
    Ok(())
}
