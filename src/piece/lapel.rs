//! How a boutonniere is worn, and how it is built under its bloom: stem and binding point, in the frame of the piece (x up the
//! lapel, y across). mm.

use super::{Piece, Side, Worn};
use crate::geometry::Point;
use crate::stock::{Role, Stock};

/// How a boutonniere is held on the cloth.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum LapelHold {
    /// Two pins from behind the lapel, through the stem.
    #[default]
    Pins,
    /// Two magnets with the cloth between them.
    Magnets,
}

/// On which lapel a boutonniere is worn, and what holds it there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LapelWear {
    /// The wearer's left lapel, unless somebody asked for the other (common practice, no source).
    pub side: Side,
    /// What holds it.
    pub hold: LapelHold,
}

impl Default for LapelWear {
    fn default() -> Self {
        Self { side: Side::Left, hold: LapelHold::Pins }
    }
}

/// Length of the wired and taped stem below the binding point, mm: 50 to 65 is common practice (an inch and a half to two and
/// a half: Allison Scott, "Make-it-yourself boutonnieres", ehow.co.uk, leaves about an inch and a half below the bloom).
pub const STEM_MM: f64 = 57.0;
/// The least and the most that the stem may be, mm; common practice, no source.
pub const STEMS_MM: (f64, f64) = (50.0, 65.0);
/// Thickness of the taped stem, mm; common practice, no source.
pub const STEM_WIDTH_MM: f64 = 5.0;
/// Pins that hold a boutonniere; common practice, no source.
pub const LAPEL_PINS: u32 = 2;

impl Piece {
    /// Where the stems of a boutonniere are bound together: at the foot of its lowest bloom, else at the foot of its oval.
    /// None on a wrist.
    pub fn binding_point(&self, stock: &Stock) -> Option<Point> {
        if self.worn == Worn::Wrist {
            return None;
        }
        let blooms = self.parts().iter().filter(|part| part.role == Role::Bloom && part.centre.is_finite());
        let feet = blooms.map(|part| (part.centre.x - part.shape_in(stock).reach(), part.centre.y));
        let lowest = feet.filter(|(x, _)| x.is_finite()).min_by(|a, b| a.0.total_cmp(&b.0));
        let (x, y) = lowest.unwrap_or((-self.footprint.length_mm / 4.0, 0.0));
        Some(Point::new(x, y))
    }

    /// The end of that stem.
    pub fn stem_end(&self, stock: &Stock) -> Option<Point> {
        self.binding_point(stock).map(|at| Point::new(at.x - STEM_MM, at.y))
    }
}
