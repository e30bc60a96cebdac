//! A line of the stock list of whichever kind, for tables and for what is done to any line.

use std::sync::Arc;

use super::{Band, Botanical, Ribbon, Role, Shelf, StockColour, StockId, Sundry};
use crate::units::Cents;

/// A line of the list.
#[derive(Clone, Debug, PartialEq)]
pub enum StockItem {
    /// A flower, berry, green or trim.
    Botanical(Arc<Botanical>),
    /// A ribbon.
    Ribbon(Arc<Ribbon>),
    /// A band.
    Band(Arc<Band>),
    /// Anything else that is used up.
    Sundry(Arc<Sundry>),
}

/// Under what a line is filed in a table: the role of a botanical, or the list it stands in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum StockKind {
    /// A botanical of this role.
    Botanical(Role),
    /// A ribbon.
    Ribbon,
    /// A band.
    Band,
    /// A sundry.
    Sundry,
}

impl StockKind {
    /// All kinds, in the order of the list.
    pub const ALL: [Self; 8] = [
        Self::Botanical(Role::Bloom),
        Self::Botanical(Role::Accent),
        Self::Botanical(Role::Filler),
        Self::Botanical(Role::Leaf),
        Self::Botanical(Role::Trim),
        Self::Ribbon,
        Self::Band,
        Self::Sundry,
    ];

    /// What it is called on the screen, like the tray it stands in.
    pub fn tray_word(self) -> &'static str {
        match self {
            Self::Botanical(role) => role.tray_word(),
            Self::Ribbon | Self::Band | Self::Sundry => self.word(),
        }
    }

    /// What one of the kind is called; so it stands in tables for other programs.
    pub fn word(self) -> &'static str {
        match self {
            Self::Botanical(role) => role.words().0,
            Self::Ribbon => "ribbon",
            Self::Band => "band",
            Self::Sundry => "sundry",
        }
    }
}

/// The four lists in which an id stands once.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum StockList {
    /// Flowers, berries, greens and trims.
    Botanicals,
    /// Ribbons.
    Ribbons,
    /// Bands.
    Bands,
    /// Sundries.
    Sundries,
}

/// By what a line is found: its list and its id.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct StockKey {
    /// The list.
    pub list: StockList,
    /// The id in that list.
    pub id: StockId,
}

impl StockItem {
    /// By what the line is found.
    pub fn key(&self) -> StockKey {
        let list = match self {
            Self::Botanical(_) => StockList::Botanicals,
            Self::Ribbon(_) => StockList::Ribbons,
            Self::Band(_) => StockList::Bands,
            Self::Sundry(_) => StockList::Sundries,
        };
        StockKey { list, id: self.id().clone() }
    }

    /// Its id.
    pub fn id(&self) -> &StockId {
        match self {
            Self::Botanical(b) => &b.id,
            Self::Ribbon(r) => &r.id,
            Self::Band(b) => &b.id,
            Self::Sundry(s) => &s.id,
        }
    }

    /// Its trade name.
    pub fn name(&self) -> &str {
        match self {
            Self::Botanical(b) => &b.name,
            Self::Ribbon(r) => &r.name,
            Self::Band(b) => &b.name,
            Self::Sundry(s) => &s.name,
        }
    }

    /// Under what it is filed.
    pub fn kind(&self) -> StockKind {
        match self {
            Self::Botanical(b) => StockKind::Botanical(b.role),
            Self::Ribbon(_) => StockKind::Ribbon,
            Self::Band(_) => StockKind::Band,
            Self::Sundry(_) => StockKind::Sundry,
        }
    }

    /// What a bunch costs, a step of ribbon, a band, or one piece's worth of a sundry.
    pub fn cost(&self) -> Cents {
        match self {
            Self::Botanical(b) => b.bunch,
            Self::Ribbon(r) => r.step,
            Self::Band(b) => b.price,
            Self::Sundry(s) => s.price,
        }
    }

    /// The botanical, where it is one.
    pub fn botanical(&self) -> Option<&Botanical> {
        match self {
            Self::Botanical(b) => Some(b),
            Self::Ribbon(_) | Self::Band(_) | Self::Sundry(_) => None,
        }
    }

    /// What one head, sprig, leaf, band or piece's worth costs, in cents and parts of a cent.
    pub fn cents_each(&self) -> f64 {
        self.botanical().map_or_else(|| self.cost().0 as f64, Botanical::cents_a_head)
    }

    /// Who sells it; empty where nobody is named.
    pub fn supplier(&self) -> &str {
        match self {
            Self::Botanical(b) => &b.supplier,
            Self::Ribbon(r) => &r.supplier,
            Self::Band(b) => &b.supplier,
            Self::Sundry(s) => &s.supplier,
        }
    }

    /// The same line, sold by somebody else.
    #[must_use]
    pub fn supplied_by(&self, supplier: &str) -> Self {
        let mut item = self.clone();
        let of_item = match &mut item {
            Self::Botanical(b) => &mut Arc::make_mut(b).supplier,
            Self::Ribbon(r) => &mut Arc::make_mut(r).supplier,
            Self::Band(b) => &mut Arc::make_mut(b).supplier,
            Self::Sundry(s) => &mut Arc::make_mut(s).supplier,
        };
        supplier.clone_into(of_item);
        item
    }

    /// The colours it can be had in; none for a band and a sundry.
    pub fn colours(&self) -> &[StockColour] {
        match self {
            Self::Botanical(b) => &b.colours,
            Self::Ribbon(r) => &r.colours,
            Self::Band(_) | Self::Sundry(_) => &[],
        }
    }

    /// What the shop does with it.
    pub fn shelf(&self) -> Shelf {
        match self {
            Self::Botanical(b) => b.shelf,
            Self::Ribbon(r) => r.shelf,
            Self::Band(b) => b.shelf,
            Self::Sundry(s) => s.shelf,
        }
    }

    /// The same line, done with in another way.
    #[must_use]
    pub fn shelved(&self, shelf: Shelf) -> Self {
        let mut item = self.clone();
        match &mut item {
            Self::Botanical(b) => Arc::make_mut(b).shelf = shelf,
            Self::Ribbon(r) => Arc::make_mut(r).shelf = shelf,
            Self::Band(b) => Arc::make_mut(b).shelf = shelf,
            Self::Sundry(s) => Arc::make_mut(s).shelf = shelf,
        }
        item
    }

    /// The same line at the shop's own price.
    #[must_use]
    pub fn at_own_price(&self, cost: Cents) -> Self {
        let mut item = self.shelved(Shelf { has_example_price: false, ..self.shelf() });
        match &mut item {
            Self::Botanical(b) => Arc::make_mut(b).bunch = cost,
            Self::Ribbon(r) => Arc::make_mut(r).step = cost,
            Self::Band(b) => Arc::make_mut(b).price = cost,
            Self::Sundry(s) => Arc::make_mut(s).price = cost,
        }
        item
    }
}
