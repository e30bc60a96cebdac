//! One order: a wearer, a wrist, a piece; and what may change about it.

use crate::piece::{Edit, Footprint, Measured, Piece, PieceSize, Refusal, Side, Worn, Wrist};
use crate::stock::{BandKind, Stock};
use crate::units::Length;

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

/// What may change about an order, each one step to undo.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// The piece.
    Piece(Edit),
    /// Who wears it.
    Wearer(String),
    /// Which dance.
    Dance(String),
    /// Notes.
    Notes(String),
    /// The wrist has been measured; the band follows it.
    Girth(Length),
    /// The other wrist; the piece becomes its mirror image.
    Side(Side),
    /// Another size: its oval, its bow and what it promises. Parts stay.
    Size(Box<PieceSize>),
}

impl Order {
    /// An order about which nothing is known yet: a usual left wrist, the first size of the house, no parts.
    pub fn blank(first_size: Option<&PieceSize>, stock: &Stock) -> Self {
        let footprint = Footprint { length_mm: 90.0, width_mm: 54.0, offset_mm: USUAL_OFFSET_MM };
        let mut order = Self {
            wearer: String::new(),
            dance: String::new(),
            notes: String::new(),
            wrist: Wrist::usual(),
            size: None,
            piece: Piece::empty(Worn::Wrist, footprint),
        };
        if let Some(size) = first_size {
            order.take_size(size);
        }
        order.fit_band(stock);
        order
    }

    /// The order after `change`, or why it cannot be done.
    pub fn apply(&self, change: &Change, stock: &Stock) -> Result<Self, Refusal> {
        let mut after = self.clone();
        match change {
            Change::Piece(edit) => after.piece = self.piece.apply(edit)?,
            Change::Wearer(name) => after.wearer.clone_from(name),
            Change::Dance(name) => after.dance.clone_from(name),
            Change::Notes(words) => after.notes.clone_from(words),
            Change::Girth(girth) => {
                after.wrist.girth = girth.clone();
                after.wrist.measured = Measured::Tape;
                after.fit_band(stock);
            }
            Change::Side(side) if *side == self.wrist.side => {}
            Change::Side(side) => {
                after.wrist.side = *side;
                after.piece = self.piece.apply(&Edit::Mirror)?;
            }
            Change::Size(size) => {
                after.take_size(size);
                after.fit_band(stock);
            }
        }
        Ok(after)
    }

    /// What the order is called on screen and in lists.
    pub fn title(&self) -> String {
        match (self.wearer.trim(), self.size.as_deref()) {
            ("", None) => "A new piece".to_owned(),
            ("", Some(size)) => format!("A new {size}"),
            (name, None) => name.to_owned(),
            (name, Some(size)) => format!("{name} \u{2013} {size}"),
        }
    }

    fn take_size(&mut self, size: &PieceSize) {
        self.size = Some(size.name.clone());
        self.piece.worn = size.worn;
        self.piece.footprint.length_mm = size.length_mm;
        self.piece.footprint.width_mm = size.width_mm;
        self.piece.bow.clone_from(&size.bow);
    }

    /// A wrist piece gets the band of its kind that fits the wrist; a boutonniere has none.
    fn fit_band(&mut self, stock: &Stock) {
        let kind = self.piece.band.as_ref().and_then(|id| stock.band(id)).map_or(BandKind::Elastic, |b| b.kind);
        self.piece.band = match self.piece.worn {
            Worn::Wrist => stock.band_for(kind, self.wrist.girth_mm()).map(|b| b.id.clone()),
            Worn::Lapel => None,
        };
    }
}

/// How far above the crease of the wrist a piece sits, mm: the middle of the 38 to 64 mm (1 1/2 to 2 1/2 in) that
/// National Ribbon's "Tips and Tricks" gives for the band.
const USUAL_OFFSET_MM: f64 = 50.0;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Point;
    use crate::piece::{Level, NewPart};
    use crate::stock::{Role, StockId};
    use std::sync::Arc;

    #[test]
    fn the_other_wrist_mirrors_the_piece_and_back_again() {
        let stock = Stock::default();
        let new = NewPart {
            stock: StockId::new("rose"),
            colour: Arc::from("white"),
            role: Role::Bloom,
            centre: Point::new(12.0, 8.0),
            turn_rad: 0.0,
            size_mm: None,
            level: Level::Raised,
        };
        let left = Order::blank(None, &stock).apply(&Change::Piece(Edit::Place(new)), &stock).unwrap();
        let right = left.apply(&Change::Side(Side::Right), &stock).unwrap();
        assert_eq!(right.piece.parts()[0].centre, Point::new(12.0, -8.0));
        assert_eq!(right.apply(&Change::Side(Side::Right), &stock).unwrap(), right);
        assert_eq!(right.apply(&Change::Side(Side::Left), &stock).unwrap(), left);
    }
}
