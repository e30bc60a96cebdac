//! Which orders are shown and in which order: sorted, filtered, searched. Knows no painting and no files.

use std::cmp::Reverse;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::book::{Day, OrderState};
use crate::store::{OrderRow, SearchWords};
use crate::units::{Cents, fold};

/// Which states are shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum StateFilter {
    /// Those about which something is left to do.
    #[default]
    Open,
    /// One of them.
    Only(OrderState),
    /// All.
    All,
}

/// What is shown of all orders.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct ListFilter {
    pub(crate) search: String,
    pub(crate) states: StateFilter,
    /// Only what is to be picked up within so many days from today; what is late stays.
    pub(crate) within_days: Option<i64>,
    /// Only those that wait for a call.
    pub(crate) only_calls: bool,
    /// Only this party, whatever else is chosen.
    pub(crate) party: Option<String>,
}

/// By what the table can be sorted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum SortColumn {
    Number,
    Wearer,
    Event,
    #[default]
    Pickup,
    Size,
    Price,
    Due,
    State,
}

/// What was read of the orders of a shop.
pub(crate) type ListedRows = Arc<Vec<Arc<OrderRow>>>;

/// The orders of the shop, and which of them are shown.
#[derive(Clone, Debug, Default)]
pub(crate) struct OrderList {
    rows: ListedRows,
    /// Places in `rows`, as they stand below each other.
    shown: Vec<usize>,
    pub(crate) filter: ListFilter,
    pub(crate) column: SortColumn,
    pub(crate) reversed: bool,
    today: Option<Day>,
}

/// How many orders a party has and what they come to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct PartySum {
    pub(crate) n_orders: usize,
    pub(crate) price: Cents,
    pub(crate) paid: Cents,
}

impl PartySum {
    /// Still to pay.
    pub(crate) fn due(self) -> Cents {
        self.price - self.paid
    }
}

impl OrderList {
    /// Takes what was read, and shows of it what was chosen.
    pub(crate) fn take(&mut self, rows: ListedRows, today: Option<Day>) {
        (self.rows, self.today) = (rows, today);
        self.arrange();
    }

    /// All orders, shown or not.
    pub(crate) fn all(&self) -> &[Arc<OrderRow>] {
        &self.rows
    }

    pub(crate) fn n_shown(&self) -> usize {
        self.shown.len()
    }

    /// The row at a place of the table.
    pub(crate) fn at(&self, place: usize) -> Option<&Arc<OrderRow>> {
        self.shown.get(place).and_then(|&row| self.rows.get(row))
    }

    /// Where an order stands in the table.
    pub(crate) fn place_of(&self, path: &Path) -> Option<usize> {
        self.shown.iter().position(|&row| self.rows[row].path == path)
    }

    pub(crate) fn count(&self, states: StateFilter) -> usize {
        self.rows.iter().filter(|row| states.shows(row.state)).count()
    }

    pub(crate) fn n_calls(&self) -> usize {
        self.rows.iter().filter(|row| waits_for_a_call(row)).count()
    }

    /// What a party comes to; cancelled orders are left out.
    pub(crate) fn party_sum(&self, party: &str) -> PartySum {
        let party = fold(party.trim());
        let of_it = self.rows.iter().filter(|row| row.state != OrderState::Cancelled && is_of(row, &party));
        of_it.fold(PartySum::default(), |sum, row| PartySum {
            n_orders: sum.n_orders + 1,
            price: sum.price + row.price,
            paid: sum.paid + row.paid,
        })
    }

    /// The files of a party's orders, cancelled ones left out, as they are due.
    pub(crate) fn party_files(&self, party: &str) -> Vec<PathBuf> {
        let party = fold(party.trim());
        let mut of_it: Vec<&Arc<OrderRow>> =
            self.rows.iter().filter(|row| row.state != OrderState::Cancelled && is_of(row, &party)).collect();
        of_it.sort_by_cached_key(|row| due_key(row));
        of_it.into_iter().map(|row| row.path.clone()).collect()
    }

    /// Sorts by a column; by the same once more, the other way round.
    pub(crate) fn sort(&mut self, column: SortColumn) {
        self.reversed = self.column == column && !self.reversed;
        self.column = column;
        self.arrange();
    }

    /// Shows what the filter and the sorting say.
    pub(crate) fn arrange(&mut self) {
        let words = SearchWords::of(&self.filter.search);
        let last = self.filter.within_days.and_then(|days| self.today?.plus(days));
        let party = self.filter.party.as_deref().map(|party| fold(party.trim()));
        let shows = |row: &OrderRow| match &party {
            Some(party) => is_of(row, party),
            None => {
                self.filter.states.shows(row.state)
                    && last.is_none_or(|last| row.pickup.day().is_some_and(|day| day <= last))
                    && (!self.filter.only_calls || waits_for_a_call(row))
            }
        };
        let rows = &self.rows;
        let mut shown: Vec<usize> = (0..rows.len()).filter(|&n| shows(&rows[n]) && rows[n].fits(&words)).collect();
        shown.sort_by_cached_key(|&n| due_key(&rows[n]));
        match self.column {
            SortColumn::Pickup => {}
            SortColumn::Number => shown.sort_by_key(|&n| Reverse(rows[n].number)),
            SortColumn::Wearer => shown.sort_by_cached_key(|&n| fold(&rows[n].wearer)),
            SortColumn::Event => shown.sort_by_cached_key(|&n| fold(&rows[n].event)),
            SortColumn::Size => shown.sort_by_cached_key(|&n| fold(&rows[n].size)),
            SortColumn::Price => shown.sort_by_key(|&n| Reverse(rows[n].price)),
            SortColumn::Due => shown.sort_by_key(|&n| Reverse(rows[n].due())),
            SortColumn::State => shown.sort_by_key(|&n| rows[n].state),
        }
        if self.reversed {
            shown.reverse();
        }
        self.shown = shown;
    }
}

impl StateFilter {
    fn shows(self, state: OrderState) -> bool {
        match self {
            Self::Open => !state.is_over(),
            Self::Only(one) => state == one,
            Self::All => true,
        }
    }
}

fn waits_for_a_call(row: &OrderRow) -> bool {
    row.call.is_some() && !row.state.is_over()
}

/// Whether an order belongs to a party, given in plain small letters.
fn is_of(row: &OrderRow, party: &str) -> bool {
    !row.party.is_empty() && !party.is_empty() && fold(row.party.trim()) == party
}

/// What is due first stands first: open orders by day and hour, those without a day after them, then what is over, the latest first.
fn due_key(row: &OrderRow) -> impl Ord + use<> {
    let (day, hour) = (row.pickup.day(), row.pickup.hour());
    let is_over = row.state.is_over();
    let forward = day.filter(|_| !is_over);
    let backward = day.filter(|_| is_over).map(Reverse);
    (is_over, day.is_none(), forward, backward, hour.is_none(), hour, fold(&row.wearer))
}
