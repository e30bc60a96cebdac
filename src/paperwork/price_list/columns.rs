//! Which column of a price list is what: guessed from the names of the columns, corrected by whoever reads them.

use std::collections::BTreeMap;

use super::{PriceRow, PriceTable};
use crate::units::DecimalMark;
use crate::units::fold;

/// What a column may hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PriceColumn {
    /// The name by which a line is found.
    Name,
    /// What a bunch costs.
    Cost,
    /// What a stem costs.
    StemCost,
    /// Stems in a bunch.
    Stems,
    /// Heads on a stem.
    Heads,
    /// Who sells it.
    Supplier,
}

impl PriceColumn {
    /// All of them.
    pub const ALL: [Self; 6] = [Self::Name, Self::Cost, Self::StemCost, Self::Stems, Self::Heads, Self::Supplier];

    /// What it is called.
    pub fn label(self) -> &'static str {
        match self {
            Self::Name => "Name",
            Self::Cost => "Cost a bunch",
            Self::StemCost => "Cost a stem",
            Self::Stems => "Stems a bunch",
            Self::Heads => "Heads a stem",
            Self::Supplier => "Supplier",
        }
    }

    /// How lists name it, folded: the first that a name holds decides. From memory, in the languages of the large markets.
    fn words(self) -> &'static [&'static str] {
        match self {
            Self::StemCost => {
                &["cost a stem", "price/stem", "price per stem", "stem price", "per stem", "each", "stuckpreis"]
            }
            Self::Heads => &["heads", "blooms a stem", "florets", "koppen"],
            Self::Stems => {
                &["stems", "bunch size", "pack", "qty", "quantity", "stuck", "stk", "tiges", "tallos", "stelen"]
            }
            Self::Cost => &["cost", "price", "preis", "prix", "precio", "prijs", "prezzo"],
            Self::Supplier => &["supplier", "grower", "farm", "lieferant", "fournisseur", "proveedor", "kweker"],
            Self::Name => &[
                "name",
                "item",
                "article",
                "product",
                "flower",
                "variety",
                "description",
                "artikel",
                "bezeichnung",
                "sorte",
                "produit",
                "designation",
                "producto",
                "nombre",
            ],
        }
    }
}

/// In which column what stands, and how amounts are written.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PriceColumns {
    places: BTreeMap<PriceColumn, usize>,
    /// The mark before cents.
    pub decimal: DecimalMark,
}

impl PriceColumns {
    /// What the names of the columns say.
    pub fn guess(table: &PriceTable) -> Self {
        let mut places = BTreeMap::new();
        // The narrow names first: "price per stem" is no price of a bunch, and "stems a bunch" no name.
        for column in [
            PriceColumn::StemCost,
            PriceColumn::Heads,
            PriceColumn::Stems,
            PriceColumn::Cost,
            PriceColumn::Supplier,
            PriceColumn::Name,
        ] {
            let named = |head: &str| column.words().iter().any(|word| fold(head).contains(word));
            let free = |n: &usize| !places.values().any(|taken| taken == n);
            if let Some(n) = (0..table.head.len()).filter(free).find(|n| named(&table.head[*n])) {
                places.insert(column, n);
            }
        }
        if places.contains_key(&PriceColumn::Cost) {
            // Where both are given, what a bunch costs is what is paid.
            places.remove(&PriceColumn::StemCost);
        }
        let mut columns = Self { places, decimal: DecimalMark::Point };
        columns.decimal = columns.guess_decimal(table);
        columns
    }

    /// Whether names of columns stand in a row: at least two of them are known.
    pub fn is_head(cells: &[String]) -> bool {
        let known =
            |cell: &&String| PriceColumn::ALL.iter().any(|c| c.words().iter().any(|word| fold(cell).contains(word)));
        cells.iter().filter(known).count() >= 2
    }

    fn guess_decimal(&self, table: &PriceTable) -> DecimalMark {
        let column = if self.has(PriceColumn::Cost) { PriceColumn::Cost } else { PriceColumn::StemCost };
        DecimalMark::guess(table.rows.iter().map(|row| self.cell(row, column)))
    }

    /// With `column` in this place, or nowhere. Whatever stood there is nowhere, and a list has one cost: of a bunch or of a stem.
    #[must_use]
    pub fn with(&self, column: PriceColumn, place: Option<usize>, table: &PriceTable) -> Self {
        let mut columns = self.clone();
        columns.places.retain(|other, at| *other != column && Some(*at) != place);
        if let Some(place) = place {
            match column {
                PriceColumn::Cost => drop(columns.places.remove(&PriceColumn::StemCost)),
                PriceColumn::StemCost => drop(columns.places.remove(&PriceColumn::Cost)),
                PriceColumn::Name | PriceColumn::Stems | PriceColumn::Heads | PriceColumn::Supplier => {}
            }
            columns.places.insert(column, place);
        }
        if matches!(column, PriceColumn::Cost | PriceColumn::StemCost) {
            columns.decimal = columns.guess_decimal(table);
        }
        columns
    }

    /// Where a column stands.
    pub fn place(&self, column: PriceColumn) -> Option<usize> {
        self.places.get(&column).copied()
    }

    /// What the column in this place holds.
    pub fn in_place(&self, place: usize) -> Option<PriceColumn> {
        self.places.iter().find(|(_, at)| **at == place).map(|(column, _)| *column)
    }

    /// Whether the list has this column.
    pub fn has(&self, column: PriceColumn) -> bool {
        self.places.contains_key(&column)
    }

    /// Whether enough is known to take anything: a name, and something of it.
    pub fn is_enough(&self) -> bool {
        self.has(PriceColumn::Name) && self.places.len() > 1
    }

    /// A cell of a row, without spaces about it; empty where the list has no such column.
    pub fn cell<'a>(&self, row: &'a PriceRow, column: PriceColumn) -> &'a str {
        self.place(column).and_then(|n| row.cells.get(n)).map_or("", |cell| cell.trim())
    }
}
