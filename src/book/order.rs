//! One order: a wearer, a wrist, a piece.

use crate::piece::{Footprint, Piece, Worn, Wrist};

/// An order as it is kept, one to a file.
#[derive(Clone, Debug, PartialEq)]
pub struct Order {
    /// Who wears it.
    pub wearer: String,
    /// For which dance or wedding.
    pub dance: String,
    /// Notes that go with the piece: allergy, no snug band, custom of numbers.
    pub notes: String,
    /// The wrist.
    pub wrist: Wrist,
    /// Name of the size agreed on, if one was chosen.
    pub size: Option<String>,
    /// The piece.
    pub piece: Piece,
}

impl Order {
    /// An order about which nothing is known yet: a usual left wrist and an empty oval.
    pub fn blank() -> Self {
        let footprint = Footprint { length_mm: 90.0, width_mm: 54.0, offset_mm: 50.0 };
        Self {
            wearer: String::new(),
            dance: String::new(),
            notes: String::new(),
            wrist: Wrist::usual(),
            size: None,
            piece: Piece::empty(Worn::Wrist, footprint),
        }
    }
}
