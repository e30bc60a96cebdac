//! What a shop does with a line of the list, apart from what the thing is.

/// What a shop does with a line of the list.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Shelf {
    /// Not sold here: in no tray and in no offer, but still known to the orders that hold it.
    pub is_hidden: bool,
    /// It comes first in its tray.
    pub is_starred: bool,
    /// Its price came with the program and nobody in the shop has gone through it.
    pub has_example_price: bool,
    /// Days from ordering it to having it; 0 where nobody said.
    pub lead_days: u8,
}

/// The longest that may be said, days; our choice, a season.
pub const MOST_LEAD_DAYS: u8 = 120;
