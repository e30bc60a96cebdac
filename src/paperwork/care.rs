//! How a finished piece is kept until it is worn, and how long it lasts. Rows, no words.
//!
//! Which class of keeping a flower is in has its source in the stock list; the hours of a class are from memory.

use super::StemList;
use crate::stock::{Botanical, Keeps, Stock};

/// How cold it is at the front of a fridge, degrees Celsius; from memory.
pub const FRIDGE_FRONT_C: f64 = 5.0;

/// Genera whose petals drops of water mark, or turn brown where they are touched; from memory.
const SPOTTED: [&str; 8] =
    ["Gardenia", "Stephanotis", "Lathyrus", "Phalaenopsis", "Camellia", "Eustoma", "Zantedeschia", "Dahlia"];

/// How a piece is kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Care {
    /// The flower that lasts the shortest out of water, with its hours; none where nothing wilts.
    pub weakest: Option<(String, u32)>,
    /// What the cold of a fridge harms, each with the temperature below which it does, degrees Celsius.
    pub too_cold: Vec<(String, f64)>,
    /// What drops of water mark.
    pub spotted: Vec<String>,
}

/// Hours that a class of keeping lasts once it is out of the cold; from memory.
pub fn hours_of(keeps: Keeps) -> u32 {
    match keeps {
        Keeps::Poor => 3,
        Keeps::Fair => 6,
        Keeps::Good => 10,
        Keeps::Excellent => 24,
    }
}

/// How what is on the list is kept.
pub fn care_of(stems: &StemList, stock: &Stock) -> Care {
    let mut used: Vec<&Botanical> = stems.lines.iter().filter_map(|line| stock.botanical(&line.stock)).collect();
    used.sort_by(|a, b| a.name.cmp(&b.name));
    used.dedup_by(|a, b| a.id == b.id);
    // Pearls and stones do not wilt; foliage goes limp as flowers do.
    let wilting = || used.iter().filter(|b| b.role != crate::stock::Role::Trim);
    let weakest = wilting().min_by_key(|b| hours_of(b.keeps)).map(|b| (b.name.clone(), hours_of(b.keeps)));
    let cold = |b: &&Botanical| Some((b.name.clone(), b.chills_below_c.filter(|limit| *limit > FRIDGE_FRONT_C)?));
    let is_spotted = |b: &&&Botanical| SPOTTED.iter().any(|genus| b.botanical.split_whitespace().next() == Some(genus));
    Care {
        weakest,
        too_cold: used.iter().filter_map(cold).collect(),
        spotted: used.iter().filter(is_spotted).map(|b| b.name.clone()).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Point;
    use crate::paperwork::stem_list;
    use crate::piece::{Edit, Footprint, NewPart, Piece, Worn};
    use crate::stock::StockId;
    use crate::store::{built_in_stock, built_in_style};

    fn care(ids: &[&str]) -> Care {
        let (stock, style) = (built_in_stock(), built_in_style());
        let footprint = Footprint { length_mm: 90.0, width_mm: 54.0, offset_mm: 50.0 };
        let piece = ids.iter().fold(Piece::empty(Worn::Wrist, footprint), |piece, id| {
            let b = stock.botanical(&StockId::new(id)).unwrap();
            let new = NewPart::usual(b, b.colours[0].name.as_str().into(), Point::ORIGIN);
            piece.apply(&Edit::Place(new)).unwrap()
        });
        care_of(&stem_list(&piece, None, &stock, &style), &stock)
    }

    /// A hellebore is in the poorest class, a rose in a good one; pearls last for ever and count for nothing.
    #[test]
    fn a_piece_lasts_as_long_as_its_weakest_flower() {
        assert_eq!(care(&["rose", "hellebore", "pearl"]).weakest, Some(("Hellebore".to_owned(), 3)));
        assert_eq!(care(&["rose", "pearl"]).weakest, Some(("Standard rose".to_owned(), 10)));
        assert_eq!(care(&["pearl"]).weakest, None);
    }

    /// Dendrobium is harmed below 12.8 degrees Celsius (CX, 55 F), a mini cymbidium below 3.3 only: the front of a fridge is
    /// too cold for the one and not for the other.
    #[test]
    fn what_a_fridge_harms_is_named() {
        assert_eq!(care(&["dendrobium", "rose"]).too_cold, [("Dendrobium".to_owned(), 12.8)]);
        assert!(care(&["mini-cymbidium", "rose"]).too_cold.is_empty());
        assert_eq!(care(&["gardenia", "rose"]).spotted, ["Gardenia"]);
    }
}
