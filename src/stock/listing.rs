//! The list as a table: which lines are shown, in which order, and the few words of a cell.

use super::{StockItem, StockKind};
use crate::units::{fold, holds_words};

/// A column by which the table can be sorted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum StockColumn {
    /// Trade name.
    #[default]
    Name,
    /// Role, or the list it stands in.
    Kind,
    /// What a bunch costs.
    Cost,
    /// Stems in a bunch.
    StemsPerBunch,
    /// Heads on a stem.
    PerStem,
    /// What a head costs.
    CostEach,
    /// Who sells it.
    Supplier,
    /// When it is in trade.
    Season,
}

/// Which lines are shown and how.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct StockListing {
    /// Words of the name, the botanical name, the supplier or a colour, in any spelling.
    pub search: String,
    /// One kind alone.
    pub kind: Option<StockKind>,
    /// Only lines whose price nobody has gone through.
    pub only_examples: bool,
    /// The column they are sorted by.
    pub sorted_by: StockColumn,
    /// From the last to the first.
    pub is_descending: bool,
}

impl StockListing {
    /// The lines of `items` that are shown, in order. What is cut from something else follows that and is not shown.
    pub fn rows(&self, items: &[StockItem]) -> Vec<StockItem> {
        let mut rows: Vec<StockItem> = items.iter().filter(|item| self.shows(item)).cloned().collect();
        rows.sort_by(|a, b| self.sorted_by.order(a, b).then_with(|| fold(a.name()).cmp(&fold(b.name()))));
        if self.is_descending {
            rows.reverse();
        }
        rows
    }

    fn shows(&self, item: &StockItem) -> bool {
        let is_cut = item.botanical().is_some_and(|b| b.cut_from.is_some());
        let is_of_kind = self.kind.is_none_or(|kind| item.kind() == kind);
        let is_asked = !self.only_examples || item.shelf().has_example_price;
        !is_cut && is_of_kind && is_asked && holds_words(&searched(item), &self.search)
    }

    /// The same table sorted by this column; once more turns it over.
    #[must_use]
    pub fn sorted_by(&self, column: StockColumn) -> Self {
        let is_descending = self.sorted_by == column && !self.is_descending;
        Self { sorted_by: column, is_descending, ..self.clone() }
    }
}

fn searched(item: &StockItem) -> String {
    let botanical = item.botanical().map_or("", |b| &b.botanical);
    let colours: Vec<&str> = item.colours().iter().map(|c| c.name.as_str()).collect();
    format!("{} {} {botanical} {} {}", item.name(), item.id(), item.supplier(), colours.join(" "))
}

impl StockColumn {
    /// All columns, from left to right.
    pub const ALL: [Self; 8] = [
        Self::Name,
        Self::Kind,
        Self::Cost,
        Self::StemsPerBunch,
        Self::PerStem,
        Self::CostEach,
        Self::Supplier,
        Self::Season,
    ];

    fn order(self, a: &StockItem, b: &StockItem) -> std::cmp::Ordering {
        let stems = |item: &StockItem| item.botanical().map_or(0, |b| b.stems_per_bunch);
        let heads = |item: &StockItem| item.botanical().map_or(0, |b| b.per_stem);
        match self {
            Self::Name => std::cmp::Ordering::Equal,
            Self::Kind => a.kind().cmp(&b.kind()),
            Self::Cost => a.cost().cmp(&b.cost()),
            Self::StemsPerBunch => stems(a).cmp(&stems(b)),
            Self::PerStem => heads(a).cmp(&heads(b)),
            Self::CostEach => a.cents_each().total_cmp(&b.cents_each()),
            Self::Supplier => fold(a.supplier()).cmp(&fold(b.supplier())),
            Self::Season => season_key(a).cmp(&season_key(b)),
        }
    }
}

/// By the month in which the season begins, January 0; all the year before that, and what knows no season after it.
fn season_key(item: &StockItem) -> (u8, usize) {
    let Some(b) = item.botanical() else { return (2, 0) };
    match seasons(&b.months).first() {
        None => (0, 0),
        Some(&(from, _)) => (1, from),
    }
}

/// Spans of months, January 0: from, to, both in trade. None when it is all the year.
fn seasons(months: &[bool; 12]) -> Vec<(usize, usize)> {
    let begins = (0..12).filter(|&m| months[m] && !months[(m + 11) % 12]);
    begins.map(|from| (from, (from..from + 12).take_while(|m| months[m % 12]).last().unwrap_or(from) % 12)).collect()
}

/// Short names of the months, January first.
pub const SHORT_MONTHS: [&str; 12] =
    ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/// `all year`, `Feb to Jun`, `Oct to Apr, Jul`.
pub fn season_words(months: &[bool; 12]) -> String {
    let name = |m: usize| SHORT_MONTHS[m];
    let span = |&(from, to): &(usize, usize)| {
        if from == to { name(from).to_owned() } else { format!("{} to {}", name(from), name(to)) }
    };
    match seasons(months).as_slice() {
        [] => "all year".to_owned(),
        spans => spans.iter().map(span).collect::<Vec<_>>().join(", "),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stock::Role;

    fn items() -> Vec<StockItem> {
        crate::store::built_in_stock().items().collect()
    }

    fn names(listing: &StockListing) -> Vec<String> {
        listing.rows(&items()).iter().map(|item| item.name().to_owned()).collect()
    }

    fn of(search: &str) -> StockListing {
        StockListing { search: search.to_owned(), ..StockListing::default() }
    }

    #[test]
    fn a_search_finds_by_name_botanical_name_and_colour_in_any_spelling() {
        assert!(names(&of("spr\u{e4}y ROSE")).contains(&"Spray rose".to_owned()));
        assert!(names(&of("eustoma")).contains(&"Lisianthus".to_owned()));
        assert!(names(&of("spray burgundy")).contains(&"Spray rose".to_owned()));
        assert!(names(&of("no such flower")).is_empty());
        let cut = items().iter().filter(|i| i.botanical().is_some_and(|b| b.cut_from.is_some())).count();
        assert_eq!(names(&of("")).len(), items().len() - cut);
    }

    #[test]
    fn every_column_sorts_both_ways() {
        for column in StockColumn::ALL {
            let up = StockListing { sorted_by: column, ..StockListing::default() };
            let rows = up.rows(&items());
            assert!(rows.windows(2).all(|pair| column.order(&pair[0], &pair[1]).is_le()), "{column:?}");
            let mut turned = names(&up.sorted_by(column));
            turned.reverse();
            assert_eq!(turned, names(&up), "{column:?}");
        }
        let leaves = StockListing { kind: Some(StockKind::Botanical(Role::Leaf)), ..StockListing::default() };
        assert!(leaves.rows(&items()).iter().all(|i| i.botanical().is_some_and(|b| b.role == Role::Leaf)));
    }

    #[test]
    fn seasons_are_told_from_month_to_month() {
        let months = |numbers: &[usize]| std::array::from_fn(|m| numbers.contains(&(m + 1)));
        for (numbers, words) in [
            (&[2, 3, 4, 5, 6][..], "Feb to Jun"),
            (&[10, 11, 12, 1], "Oct to Jan"),
            (&[7], "Jul"),
            (&[1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12], "all year"),
            (&[1, 7, 8, 12], "Jul to Aug, Dec to Jan"),
        ] {
            assert_eq!(season_words(&months(numbers)), words);
        }
    }
}
