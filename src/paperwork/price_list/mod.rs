//! A supplier's price list laid against the stock list: which column is what, what would change, and which lines cannot be taken
//! and why. Knows no files: a table comes in, changes of lines come out, and nothing is changed here.

mod amount;
mod columns;
mod names;

pub use amount::AmountFault;
pub use columns::{PriceColumn, PriceColumns};

use std::collections::BTreeMap;

use crate::stock::{StockChange, StockField, StockItem, StockKey};
use crate::units::Cents;
use amount::amount;
use names::{Match, Names};

/// A list as it was read: the names of its columns, and its lines.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PriceTable {
    /// The name of each column; a number where it has none.
    pub head: Vec<String>,
    /// The lines below the head, empty ones left out.
    pub rows: Vec<PriceRow>,
}

/// A line of a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PriceRow {
    /// Its number in the file, the first line 1.
    pub line: u64,
    /// Its cells.
    pub cells: Vec<String>,
}

/// What taking a list would do.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PriceImport {
    /// Lines that would change, in the order of the list.
    pub changes: Vec<PriceChange>,
    /// How many lines of the list say what the stock list says already.
    pub n_same: usize,
    /// Lines that cannot be taken.
    pub refused: Vec<RefusedRow>,
}

/// A line of the stock list that would change.
#[derive(Clone, Debug, PartialEq)]
pub struct PriceChange {
    /// The line of the file.
    pub line: u64,
    /// The name that it gives.
    pub named: String,
    /// The stock line as it is.
    pub before: StockItem,
    /// The stock line as it would be.
    pub after: StockItem,
}

/// A line that cannot be taken, and why.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RefusedRow {
    /// The line of the file.
    pub line: u64,
    /// The name that it gives.
    pub named: String,
    /// A sentence.
    pub why: String,
}

/// What taking `table` with these columns would do to `items`.
pub fn price_import(table: &PriceTable, columns: &PriceColumns, items: &[StockItem]) -> PriceImport {
    let names = Names::of(items);
    let mut import = PriceImport::default();
    let mut found: BTreeMap<StockKey, Vec<PriceChange>> = BTreeMap::new();
    for row in &table.rows {
        let named = columns.cell(row, PriceColumn::Name).to_owned();
        match change_of(row, columns, items, &names) {
            Ok(after) => {
                let before = &items[after.place];
                let change = PriceChange { line: row.line, named, before: before.clone(), after: after.item };
                found.entry(before.key()).or_default().push(change);
            }
            Err(why) => import.refused.push(RefusedRow { line: row.line, named, why }),
        }
    }
    for changes in found.into_values() {
        import.take(changes);
    }
    import.changes.sort_by_key(|change| change.line);
    import.refused.sort_by_key(|row| row.line);
    import
}

impl PriceImport {
    /// What lines of one name say: once where they say the same, and not at all where it is not known which of them holds.
    fn take(&mut self, changes: Vec<PriceChange>) {
        let lines: Vec<u64> = changes.iter().map(|change| change.line).collect();
        let is_one = changes.windows(2).all(|pair| pair[0].after == pair[1].after);
        if !is_one {
            let other = |line: u64| lines.iter().find(|l| **l != line).copied().unwrap_or(line);
            self.refused.extend(changes.into_iter().map(|change| RefusedRow {
                why: format!("Line {} says something else of {}.", other(change.line), change.before.name()),
                line: change.line,
                named: change.named,
            }));
        } else if let Some(change) = changes.into_iter().next() {
            if change.before == change.after {
                self.n_same += 1;
            } else {
                self.changes.push(change);
            }
        }
    }
}

/// A stock line by its place, and as it would be.
struct After {
    place: usize,
    item: StockItem,
}

fn change_of(row: &PriceRow, columns: &PriceColumns, items: &[StockItem], names: &Names) -> Result<After, String> {
    let named = columns.cell(row, PriceColumn::Name);
    if named.is_empty() {
        return Err("It has no name.".to_owned());
    }
    let place = match names.find(named) {
        Match::One(place) => place,
        Match::None => return Err("Nothing in your list is called that.".to_owned()),
        Match::Several(a, b) => return Err(format!("It may be {} or {}.", items[a].name(), items[b].name())),
    };
    let item = with_counts(&items[place], row, columns)?;
    let cost = cost_of(row, columns, &item)?;
    let item = cost.map_or_else(|| item.clone(), |cost| item.at_own_price(cost));
    Ok(After { place, item })
}

/// The line with the stems, heads and supplier that the row gives; cells that are empty change nothing.
fn with_counts(item: &StockItem, row: &PriceRow, columns: &PriceColumns) -> Result<StockItem, String> {
    let fields = [
        (PriceColumn::Stems, StockField::StemsPerBunch),
        (PriceColumn::Heads, StockField::PerStem),
        (PriceColumn::Supplier, StockField::Supplier),
    ];
    fields.into_iter().try_fold(item.clone(), |item, (column, field)| {
        let cell = columns.cell(row, column);
        if cell.is_empty() || item.botanical().is_none() {
            return Ok(item);
        }
        let number = cell.strip_suffix(".0").or_else(|| cell.strip_suffix(",0")).unwrap_or(cell);
        item.changed(&StockChange::Field(field, number.to_owned()))
    })
}

/// What a bunch costs by the row; none where the list has no column for it.
fn cost_of(row: &PriceRow, columns: &PriceColumns, item: &StockItem) -> Result<Option<Cents>, String> {
    let (column, times) = match (columns.has(PriceColumn::Cost), columns.has(PriceColumn::StemCost)) {
        (true, _) => (PriceColumn::Cost, 1),
        (false, true) => (PriceColumn::StemCost, item.botanical().map_or(1, |b| b.stems_per_bunch)),
        (false, false) => return Ok(None),
    };
    let cell = columns.cell(row, column);
    let parts = amount(cell, columns.decimal).map_err(|fault| match fault {
        AmountFault::Missing => "It names no cost.".to_owned(),
        AmountFault::NoNumber => {
            format!("The cost \u{201c}{}\u{201d} cannot be read.", cell.chars().take(20).collect::<String>())
        }
        AmountFault::Zero => "A cost of 0 would give it away.".to_owned(),
        AmountFault::Negative => "A cost is not below 0.".to_owned(),
        AmountFault::TooDear => "A cost is at most a million.".to_owned(),
    })?;
    let cents = Cents::nearest(parts as f64 / 100.0 * f64::from(times));
    if cents.0 == 0 { Err("A bunch would cost less than a cent.".to_owned()) } else { Ok(Some(cents)) }
}

#[cfg(test)]
mod tests;
