//! One thing on the piece: what it is, where it sits, how it is turned.

use std::sync::Arc;

use crate::geometry::{Lens, Point, Shape};
use crate::stock::{Botanical, Role, Stock, StockId};

/// A part's number within its piece. Given by the piece, never used twice.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PartId(pub u32);

/// How high a part sits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// On the base.
    Flat,
    /// Over the leaves.
    Raised,
    /// In the middle, above the others.
    Top,
}

impl Level {
    /// The level above, round again from the top.
    pub fn next(self) -> Self {
        match self {
            Self::Flat => Self::Raised,
            Self::Raised => Self::Top,
            Self::Top => Self::Flat,
        }
    }

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Flat => "flat",
            Self::Raised => "raised",
            Self::Top => "top",
        }
    }
}

/// A bloom, accent, sprig, leaf or trim on the piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Its number.
    pub id: PartId,
    /// What it is.
    pub stock: StockId,
    /// The colour, by its name in stock.
    pub colour: Arc<str>,
    /// The part it plays here.
    pub role: Role,
    /// Where its centre sits, mm.
    pub centre: Point,
    /// How it is turned, radians; a leaf's tip points this way.
    pub turn_rad: f64,
    /// Diameter or length, mm, when not the usual one.
    pub size_mm: Option<f64>,
    /// How high it sits.
    pub level: Level,
    /// Whether it stays where it is.
    pub locked: bool,
}

/// Size of something that is not in stock, mm; our choice, a middling bloom.
const UNKNOWN_SIZE_MM: f64 = 25.0;

impl Part {
    /// Diameter or length, mm.
    pub fn size_in(&self, stock: &Stock) -> f64 {
        self.size_mm.or_else(|| stock.botanical(&self.stock).map(|b| b.usual_mm())).unwrap_or(UNKNOWN_SIZE_MM)
    }

    /// What it counts as.
    pub fn shape_in(&self, stock: &Stock) -> Shape {
        self.shape_as(stock.botanical(&self.stock))
    }

    /// The same when it is known what the stock has under its name.
    pub fn shape_as(&self, botanical: Option<&Botanical>) -> Shape {
        let size = self.size_mm.or_else(|| botanical.map(Botanical::usual_mm)).unwrap_or(UNKNOWN_SIZE_MM);
        match botanical {
            Some(b) if b.form.is_long() => {
                Shape::Lens(Lens { centre: self.centre, length: size, width: size * b.breadth, turn: self.turn_rad })
            }
            _ => Shape::disc(self.centre, size / 2.0),
        }
    }

    /// Where its role lies among parts of one level, from below.
    pub(super) fn height_rank(&self) -> u8 {
        match self.role {
            Role::Leaf => 0,
            Role::Filler => 1,
            Role::Bloom => 2,
            Role::Accent => 3,
            Role::Trim => 4,
        }
    }
}
