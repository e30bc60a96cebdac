//! What a shop knows of its suppliers, as a file in its folder: `suppliers.ron`. A shop without one buys as the stock list says.
//!
//! ```ron
//! (
//!     version: 1,
//!     suppliers: [(name: "Tidewater Stems", delivery: 12.00, minimum: 100.00, order_days: 10)],
//!     packs: [(supplier: "Harbour Market", stock: "spray-rose", colour: "white", stems: 20, price: 33.00, packs: 6)],
//!     in_cooler: [(stock: "spray-rose", colour: "white", stems: 12)],
//!     worth_keeping: [(stock: "waxflower", stems: 10, worth: 0.20)],
//! )
//! ```

use std::path::Path;

use serde::Deserialize;

use super::figures::{Count, Money, Text};
use super::reading::{Versioned, bytes_of, line_with, name_of, parse, text_of};
use super::store_error::{Cause, StoreError};
use crate::stock::{StemsKept, Stock, StockId, SupplierPack, SupplierTerms, Suppliers, USUAL_ORDER_DAYS};
use crate::units::{Cents, fold};

/// Its name in the shop's folder.
const NAME: &str = "suppliers.ron";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SuppliersFile {
    #[serde(rename = "version")]
    _version: u64,
    #[serde(default)]
    suppliers: Vec<TermsLine>,
    #[serde(default)]
    packs: Vec<PackLine>,
    #[serde(default)]
    in_cooler: Vec<KeptLine>,
    #[serde(default)]
    worth_keeping: Vec<KeptLine>,
}

impl Versioned for SuppliersFile {
    const KIND: &'static str = "list of suppliers";
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TermsLine {
    name: Text,
    delivery: Option<Money>,
    minimum: Option<Money>,
    order_days: Option<Count>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PackLine {
    supplier: Text,
    stock: Text,
    colour: Option<Text>,
    stems: Count,
    price: Money,
    packs: Option<Count>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct KeptLine {
    stock: Text,
    colour: Option<Text>,
    stems: Count,
    worth: Option<Money>,
}

/// The suppliers of the shop in this folder; none where it has no such file.
pub(super) fn read_suppliers(folder: &Path, stock: &Stock) -> Result<Suppliers, StoreError> {
    let file = folder.join(NAME);
    match bytes_of(&file) {
        Ok(bytes) => suppliers_from_text(text_of(&bytes, &name_of(&file))?, &name_of(&file), stock),
        Err(StoreError { cause: Cause::NotThere, .. }) => Ok(Suppliers::default()),
        Err(refusal) => Err(refusal),
    }
}

/// What `text` says of suppliers. Refused where two have one name, where a pack is empty or of something that is not in stock.
pub fn suppliers_from_text(text: &str, name: &str, stock: &Stock) -> Result<Suppliers, StoreError> {
    let file: SuppliersFile = parse(text, name)?;
    let refuse = |field: &str, value: &str, cause| Err(StoreError::at(name, line_with(text, field, value), cause));
    for (i, line) in file.suppliers.iter().enumerate() {
        let is_same = |other: &TermsLine| fold(other.name.0.trim()) == fold(line.name.0.trim());
        if file.suppliers[..i].iter().any(is_same) {
            return refuse("name", &line.name.0, Cause::Twice { what: "supplier", name: line.name.0.clone() });
        }
    }
    let kept = file.in_cooler.iter().chain(&file.worth_keeping).map(|line| &line.stock);
    for id in file.packs.iter().map(|line| &line.stock).chain(kept) {
        if stock.botanical(&StockId::new(&id.0)).is_none() {
            let cause = Cause::NotInStock { what: "flower", found: id.0.clone(), near: Vec::new() };
            return refuse("stock", &id.0, cause);
        }
    }
    if file.packs.iter().any(|line| line.stems.whole() == 0) {
        return refuse("stems", "0", Cause::Value("a pack without stems cannot be bought".to_owned()));
    }
    Ok(file.suppliers_told())
}

impl SuppliersFile {
    fn suppliers_told(self) -> Suppliers {
        let money = |money: Option<Money>| money.map_or(Cents(0), |money| money.0);
        let colour = |colour: Option<Text>| colour.map(|text| text.0).filter(|colour| !colour.trim().is_empty());
        let kept = |lines: Vec<KeptLine>| {
            let line = |line: KeptLine| StemsKept {
                stock: StockId::new(&line.stock.0),
                colour: colour(line.colour),
                stems: line.stems.whole(),
                worth: money(line.worth),
            };
            lines.into_iter().map(line).collect()
        };
        Suppliers {
            terms: self
                .suppliers
                .into_iter()
                .map(|line| SupplierTerms {
                    name: line.name.0.trim().to_owned(),
                    delivery: money(line.delivery),
                    minimum: money(line.minimum),
                    order_days: line.order_days.map_or(USUAL_ORDER_DAYS, Count::whole),
                })
                .collect(),
            packs: self
                .packs
                .into_iter()
                .map(|line| SupplierPack {
                    supplier: line.supplier.0.trim().to_owned(),
                    stock: StockId::new(&line.stock.0),
                    colour: colour(line.colour),
                    stems: line.stems.whole(),
                    price: line.price.0,
                    packs: line.packs.map(Count::whole),
                })
                .collect(),
            in_cooler: kept(self.in_cooler),
            worth_keeping: kept(self.worth_keeping),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::store::built_in_stock;

    #[test]
    fn a_file_with_every_field_reads_and_what_is_left_out_is_usual() {
        let stock = built_in_stock();
        let text = r#"(
            version: 1,
            suppliers: [(name: "Tidewater Stems", delivery: 12.00, minimum: 100.00, order_days: 10), (name: "Other")],
            packs: [(supplier: "Other", stock: "spray-rose", colour: "white", stems: 20, price: 33.00, packs: 6)],
            in_cooler: [(stock: "spray-rose", colour: "white", stems: 12), (stock: "spray-rose", stems: 1)],
            worth_keeping: [(stock: "waxflower", stems: 10, worth: 0.20)],
        )"#;
        let read = suppliers_from_text(text, "suppliers.ron", &stock).unwrap();
        let terms = read.terms_of(" tidewater stems ");
        assert_eq!((terms.delivery, terms.minimum, terms.order_days), (Cents(1200), Cents(10000), 10));
        assert_eq!(read.terms_of("Other").order_days, USUAL_ORDER_DAYS);
        let rose = StockId::new("spray-rose");
        assert_eq!((read.in_cooler(&rose, "white"), read.in_cooler(&rose, "blush")), (13, 1));
        assert_eq!((read.packs[0].stems, read.packs[0].packs), (20, Some(6)));
        assert_eq!(read.worth_keeping(&StockId::new("waxflower"), "white").unwrap().worth, Cents(20));
        assert_eq!(
            read.terms_of("nobody"),
            SupplierTerms { name: "nobody".into(), ..Suppliers::default().terms_of("nobody") }
        );
    }

    #[test]
    fn what_cannot_be_meant_is_refused_with_its_line() {
        let stock = built_in_stock();
        for (said, told) in [
            (r#"suppliers: [(name: "A"), (name: "a ")]"#, "wo have the supplier"),
            (r#"packs: [(supplier: "A", stock: "no-such", stems: 1, price: 1)]"#, "is not in stock"),
            (r#"packs: [(supplier: "A", stock: "rose", stems: 0, price: 1)]"#, " pack without stems"),
            (r#"packs: [(supplier: "A", stock: "rose", stems: 1, price: -1)]"#, "line 1"),
            (r#"in_cooler: [(stock: "nothing", stems: 1)]"#, "is not in stock"),
            ("supplier: []", "is not a field here"),
        ] {
            let refusal = suppliers_from_text(&format!("(version: 1, {said})"), "suppliers.ron", &stock).unwrap_err();
            assert!(refusal.to_string().contains(told), "{said}: {refusal}");
        }
    }
}
