//! The stock list as a table for a spreadsheet, and for taking prices in again.

use super::csv_of;
use crate::stock::{StockItem, season_words};
use crate::units::Cents;

/// The names of the columns; those that are taken in again are known by them.
const HEAD: [&str; 11] = [
    "Name",
    "Kind",
    "Cost a bunch",
    "Stems a bunch",
    "Heads a stem",
    "Cost a head",
    "Supplier",
    "Season",
    "Colours",
    "Example price",
    "Hidden",
];

/// Every line that is bought under its own name.
pub fn stock_csv(items: &[StockItem]) -> String {
    let is_bought = |item: &&StockItem| item.botanical().is_none_or(|b| b.cut_from.is_none());
    let rows: Vec<Vec<String>> = items.iter().filter(is_bought).map(row).collect();
    csv_of(&HEAD, &rows)
}

fn row(item: &StockItem) -> Vec<String> {
    let botanical = item.botanical();
    let colours: Vec<&str> = item.colours().iter().map(|c| c.name.as_str()).collect();
    let yes = |is: bool| if is { "yes".to_owned() } else { String::new() };
    vec![
        item.name().to_owned(),
        item.kind().word().to_owned(),
        item.cost().to_string(),
        botanical.map(|b| b.stems_per_bunch.to_string()).unwrap_or_default(),
        botanical.map(|b| b.per_stem.to_string()).unwrap_or_default(),
        Cents::nearest(item.cents_each()).to_string(),
        item.supplier().to_owned(),
        botanical.map(|b| season_words(&b.months)).unwrap_or_default(),
        colours.join(", "),
        yes(item.shelf().has_example_price),
        yes(item.shelf().is_hidden),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::paperwork::{PriceColumn, PriceColumns, price_import};

    /// What is written is taken in again: every line is found, and nothing but its price being an example changes.
    #[test]
    fn the_list_as_it_was_written_reads_back_as_it_is() {
        let items: Vec<StockItem> = crate::store::built_in_stock().items().collect();
        let table = crate::store::price_table(stock_csv(&items).as_bytes()).unwrap();
        let columns = PriceColumns::guess(&table);
        let places = PriceColumn::ALL.map(|column| columns.place(column));
        assert_eq!(places, [Some(0), Some(2), None, Some(3), Some(4), Some(6)]);
        let import = price_import(&table, &columns, &items);
        assert_eq!((import.refused.as_slice(), import.changes.len()), (&[][..], table.rows.len()));
        for change in import.changes {
            assert_eq!(change.after, change.before.at_own_price(change.before.cost()), "{}", change.named);
        }
    }
}
