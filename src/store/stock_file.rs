//! The stock list as a file: the built-in one, and a shop's own that changes it line by line and field by field.
//!
//! A line of the shop's file with the id of a built-in line replaces only the fields it gives:
//!
//! ```text
//! (
//!     version: 1,
//!     botanicals: [
//!         (id: "spray-rose", bunch: 19.50, supplier: "Hollin Growers"),
//!     ],
//! )
//! ```
//!
//! A line with a new id must be complete; the refusal names what is missing. The fields are those of `assets/stock.ron`, and
//! `hidden` and `starred`. A price that comes with the program is an example until a line of the shop's names one.

use std::collections::BTreeSet;
use std::path::Path;

use serde::{Deserialize, Serialize};

use super::avoid_file::built_in_avoid_list;
use super::reading::{Versioned, bytes_of, line_with, name_of, nth_line_with, parse, text_of};
use super::stock_lines::{BandLine, BotanicalLine, RibbonLine, StockLine, SundryLine};
use super::store_error::{Cause, StoreError};
use crate::stock::{Caution, OwnStock, Stock, StockId, StockItem};

/// The list that comes with the program.
const BUILT_IN: &str = include_str!("../../assets/stock.ron");

/// The list that comes with the program, every price of it an example.
pub fn built_in_stock() -> Stock {
    // A test proves that it reads; should it ever not, an empty list leaves a program that still opens.
    stock_from_text(BUILT_IN, "stock.ron", &Stock::default())
        .unwrap_or_default()
        .with_example_prices()
        .with_avoid(built_in_avoid_list())
}

/// A shop's own lines as the text of its file: of each only what is not as in `base`.
pub fn stock_to_text(own: &OwnStock, base: &Stock) -> String {
    let mut file = StockFile::default();
    for item in own.items() {
        match item {
            StockItem::Botanical(b) => file.botanicals.push(BotanicalLine::of(b, base.botanical(&b.id))),
            StockItem::Ribbon(r) => file.ribbons.push(RibbonLine::of(r, base.ribbon(&r.id))),
            StockItem::Band(b) => file.bands.push(BandLine::of(b, base.band(&b.id))),
            StockItem::Sundry(s) => file.sundries.push(SundryLine::of(s, base.sundry(&s.id))),
        }
    }
    let has_flags = own.items().iter().any(|i| i.shelf().is_hidden || i.shelf().is_starred);
    let is_ordered = |i: &StockItem| i.shelf().lead_days > 0 || i.botanical().is_none() && !i.supplier().is_empty();
    let has_new_words = |i: &StockItem| cautions_of(i).iter().any(|c| OF_VERSION_3.contains(c));
    file.version = match (own.items().iter().any(|i| is_ordered(i) || has_new_words(i)), has_flags) {
        (true, _) => StockFile::NEWEST,
        (false, true) => 2,
        (false, false) => 1,
    };
    super::writing::pretty(&file, 2)
}

/// Cautions that older programs cannot read.
const OF_VERSION_3: [Caution; 3] = [Caution::Sunlight, Caution::Tuliposide, Caution::Solvent];

fn cautions_of(item: &StockItem) -> &[Caution] {
    match item {
        StockItem::Botanical(b) => &b.cautions,
        StockItem::Band(b) => &b.cautions,
        StockItem::Sundry(s) => &s.cautions,
        StockItem::Ribbon(_) => &[],
    }
}

/// Whether a text of a file holds remarks, which writing it anew would not bring back.
pub(super) fn has_remarks(text: &str) -> bool {
    let (mut in_quotes, mut letters) = (false, text.chars().peekable());
    while let Some(letter) = letters.next() {
        match (letter, in_quotes) {
            ('\\', true) => drop(letters.next()),
            ('"', _) => in_quotes = !in_quotes,
            ('/', false) if matches!(letters.peek(), Some('/' | '*')) => return true,
            _ => {}
        }
    }
    false
}

/// `base`, changed by the lines that `text` holds. `name` is what the file is called in a refusal.
pub fn stock_from_text(text: &str, name: &str, base: &Stock) -> Result<Stock, StoreError> {
    let file: StockFile = parse(text, name)?;
    let stock_text = StockText { text, name };
    let botanicals = stock_text.merged(base.botanicals(), &file.botanicals)?;
    let ribbons = stock_text.merged(base.ribbons(), &file.ribbons)?;
    let bands = stock_text.merged(base.bands(), &file.bands)?;
    let sundries = stock_text.merged(base.sundries(), &file.sundries)?;
    let stock = Stock::new(botanicals, ribbons, bands, sundries).with_avoid(base.avoid().list().clone());
    stock_text.check_sources(&stock)?;
    Ok(stock)
}

/// What the lines of this file name and nothing else; fields that a line leaves out are those of `base`.
pub fn stock_of_file(path: &Path, base: &Stock) -> Result<Stock, StoreError> {
    let (bytes, name) = (bytes_of(path)?, name_of(path));
    let text = text_of(&bytes, &name)?;
    let all = stock_from_text(text, &name, base)?;
    let file: StockFile = parse(text, &name)?;
    Ok(Stock::new(
        named(all.botanicals(), &file.botanicals),
        named(all.ribbons(), &file.ribbons),
        named(all.bands(), &file.bands),
        named(all.sundries(), &file.sundries),
    ))
}

/// The things that lines name, in the order of the list.
fn named<L: StockLine>(things: &[L::Thing], lines: &[L]) -> Vec<L::Thing> {
    let ids: BTreeSet<&str> = lines.iter().map(L::id).collect();
    things.iter().filter(|thing| ids.contains(L::id_of(thing).as_str())).cloned().collect()
}

#[derive(Default, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct StockFile {
    version: u64,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    botanicals: Vec<BotanicalLine>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    ribbons: Vec<RibbonLine>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    bands: Vec<BandLine>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    sundries: Vec<SundryLine>,
}

impl Versioned for StockFile {
    const KIND: &'static str = "stock list";
    /// Version 2 added `hidden` and `starred`, 3 `lead_days`, the `supplier` of what is no flower, and three cautions.
    const NEWEST: u64 = 3;
}

/// Where in the file we are, for refusals.
struct StockText<'a> {
    text: &'a str,
    name: &'a str,
}

impl StockText<'_> {
    fn merged<L: StockLine>(&self, base: &[L::Thing], lines: &[L]) -> Result<Vec<L::Thing>, StoreError> {
        let mut things = base.to_vec();
        for (i, line) in lines.iter().enumerate() {
            let id = line.id();
            let refuse =
                |cause| Err(StoreError::at(self.name, line_with(self.text, "id", &format!("\"{id}\"")), cause));
            if !is_plain(id) {
                return refuse(Cause::Value(
                    "an id has small letters, digits and hyphens only, and at most 60 of them".to_owned(),
                ));
            }
            if lines[..i].iter().any(|l| l.id() == id) {
                let again = nth_line_with(self.text, "id", &format!("\"{id}\""), 1);
                return Err(StoreError::at(self.name, again, Cause::Twice { what: "id", name: id.to_owned() }));
            }
            let known = things.iter().position(|t| L::id_of(t).as_str() == id);
            let missing = line.missing();
            if known.is_none() && !missing.is_empty() {
                return refuse(Cause::Incomplete { id: id.to_owned(), missing });
            }
            let mut thing = known.map_or_else(|| L::blank(StockId::new(id)), |at| things[at].clone());
            line.change(&mut thing);
            if let Some(fault) = L::fault(&thing) {
                return refuse(Cause::Value(format!("\u{201c}{id}\u{201d}: {fault}")));
            }
            match known {
                Some(at) => things[at] = thing,
                None => things.push(thing),
            }
        }
        Ok(things)
    }

    /// What is cut from something must be cut from something in stock.
    fn check_sources(&self, stock: &Stock) -> Result<(), StoreError> {
        for source in stock.botanicals().iter().filter_map(|b| b.cut_from.as_ref()) {
            if stock.botanical(source).is_none() {
                let line = line_with(self.text, "cut_from", &format!("\"{source}\""));
                let near = super::nearest::nearest(source.as_str(), stock.botanicals().iter().map(|b| b.id.as_str()));
                let cause = Cause::NotInStock { what: "flower", found: source.to_string(), near };
                return Err(StoreError::at(self.name, line, cause));
            }
        }
        Ok(())
    }
}

fn is_plain(id: &str) -> bool {
    let plain = |b: u8| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-';
    !id.is_empty() && id.len() <= 60 && id.bytes().all(plain)
}
