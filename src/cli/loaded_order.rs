//! An order as a command reads it, with everything that it needs; the name of its file, and how a report is written.

use std::path::Path;
use std::sync::Arc;

use serde_json::Value;

use super::cli_error::CliError;
use crate::book::{Letterhead, Order, Written, not_asked_lines, safety_lines};
use crate::piece::HouseStyle;
use crate::stock::Stock;
use crate::store::{self, Shop};

/// An order with everything it needs: its stock, its style, and what follows from it.
#[derive(Debug)]
pub struct LoadedOrder {
    /// The shop as its clients read it.
    pub shop: Letterhead,
    /// The order.
    pub order: Order,
    /// What can be bought.
    pub stock: Arc<Stock>,
    /// The house style.
    pub style: Arc<HouseStyle>,
    /// How the shop writes days and hours.
    pub written: Written,
    /// What to report about the file.
    pub warnings: Vec<String>,
}

impl LoadedOrder {
    /// Reads the order in `file`, with the shop that it lies in or the one named.
    pub fn read(file: &Path, shop: Option<&Path>) -> Result<Self, CliError> {
        let shop = match shop {
            Some(dir) => Shop::open(dir)?,
            None => Shop::of_file(file),
        };
        let read = store::read_order(file, shop.stock())?;
        let (stock, style) = (Arc::clone(shop.stock()), Arc::clone(shop.style()));
        let title = read.order.title();
        let stops = safety_lines(&read.order, &stock).into_iter().map(|line| format!("{title}: {line}"));
        let warnings = shop.warnings().iter().chain(&read.warnings).cloned().chain(stops).collect();
        Ok(Self { shop: shop.letterhead().clone(), order: read.order, stock, style, written: shop.written(), warnings })
    }
}

/// What is stopped on the order, and what nobody asked yet, joined to a report on it.
pub(super) fn with_stops(mut report: Value, order: &Order, stock: &Stock) -> Value {
    report["stopped"] = safety_lines(order, stock).into();
    report["not_asked"] = not_asked_lines(order).into();
    report
}

/// A report as text.
pub(super) fn json_text(value: &Value) -> String {
    format!("{value:#}\n")
}

/// The name of a file without its ending.
pub(super) fn name_of(file: &Path) -> String {
    file.file_stem().map_or_else(|| "piece".to_owned(), |s| s.to_string_lossy().into_owned())
}
