//! The wrist piece: only what is saved. Everything else is derived from it.
//!
//! Lengths in millimetres, angles in radians, in the frame of [`crate::geometry`]. A piece changes only by an edit; it
//! knows nothing of judgement, prices, pictures or files.

mod as_style;
mod bow;
mod edit;
mod lapel;
mod part;
mod question;
mod skin;
mod style;
mod style_figure;
mod style_figure_words;
mod to_place;
mod wishes;
mod wrist;

use crate::geometry::{Oval, Point};
use crate::stock::StockId;

pub use bow::Bow;
pub use edit::{Edit, EditRefusal, FARTHEST_MM, MOST_PARTS, NewPart, OVALS_MM, SIZES_MM, Seat};
pub use lapel::{LAPEL_PINS, LapelHold, LapelWear, STEM_MM, STEM_WIDTH_MM, STEMS_MM};
pub use part::{Level, Part, PartId};
pub use question::Question;
pub(crate) use question::for_each_question;
pub use skin::Skin;
pub use style::{
    HouseStyle, Making, MakingMinutes, PieceSize, Planned, PriceRule, ShapeRules, Tax, TaxHow, USUAL_DEPOSIT,
    USUAL_HOLDS_DAYS, USUAL_RUSH,
};
pub use style_figure::{MakingHow, StyleFigure};
pub use style_figure_words::{WEIGHTS_FROM, making_words};
pub use to_place::{ToPlace, still_to_place};
pub use wishes::Wishes;
pub use wrist::{Measured, Side, Wrist};

/// The elliptical footprint about the centre point, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Footprint {
    /// Along the forearm.
    pub length_mm: f64,
    /// Across it.
    pub width_mm: f64,
    /// How far the centre sits from the crease of the wrist toward the elbow.
    pub offset_mm: f64,
}

impl Footprint {
    /// The oval itself.
    pub fn oval(&self) -> Oval {
        Oval::from_axes(self.length_mm, self.width_mm)
    }
}

/// Where the piece is worn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Worn {
    /// Round the wrist.
    Wrist,
    /// Pinned to a lapel: the boutonniere that goes with it.
    Lapel,
}

/// How heads are fastened.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fixing {
    /// Glued to a base.
    Glued,
    /// Each on its wire.
    Wired,
}

/// One piece to be made.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Where it is worn.
    pub worn: Worn,
    /// The oval.
    pub footprint: Footprint,
    /// What goes round the wrist.
    pub band: Option<StockId>,
    /// The bow.
    pub bow: Option<Bow>,
    /// How heads are fastened.
    pub fixing: Fixing,
    /// On which lapel a boutonniere is worn, and what holds it there.
    pub lapel: LapelWear,
    /// Whether it gets a finishing spray.
    pub is_sprayed: bool,
    /// What is wanted otherwise.
    pub wishes: Wishes,
    parts: Vec<Part>,
    next_id: u32,
}

impl Piece {
    /// A piece without parts.
    pub fn empty(worn: Worn, footprint: Footprint) -> Self {
        Self {
            worn,
            footprint,
            band: None,
            bow: None,
            fixing: Fixing::Glued,
            lapel: LapelWear::default(),
            is_sprayed: false,
            wishes: Wishes::default(),
            parts: Vec::new(),
            next_id: 1,
        }
    }

    /// The parts, in the order they were put on.
    pub fn parts(&self) -> &[Part] {
        &self.parts
    }

    /// The part with this id.
    pub fn part(&self, id: PartId) -> Option<&Part> {
        self.parts.iter().find(|p| p.id == id)
    }

    /// The oval.
    pub fn oval(&self) -> Oval {
        self.footprint.oval()
    }

    /// Parts from the lowest to the highest: by level, then leaves, filler, blooms, accents, then age.
    pub fn from_below(&self) -> Vec<&Part> {
        self.order_from_below().into_iter().map(|index| &self.parts[index]).collect()
    }

    /// The same by their places among the parts.
    pub(crate) fn order_from_below(&self) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.parts.len()).collect();
        order.sort_by_key(|&index| {
            let part = &self.parts[index];
            (part.level, part.height_rank(), part.id)
        });
        order
    }

    /// The topmost part under `p`, by the shapes that `shape_of` gives.
    pub fn part_at(&self, p: Point, shape_of: impl Fn(&Part) -> crate::geometry::Shape) -> Option<&Part> {
        self.from_below().into_iter().rev().find(|part| shape_of(part).contains(p))
    }
}
