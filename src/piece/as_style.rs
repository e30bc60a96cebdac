//! The present piece as a size of the house, and a house with another size.

use super::{HouseStyle, Piece, PieceSize, Planned};

impl PieceSize {
    /// A size with the oval, the bow and the counts of a piece, what stands for itself first as it was put on.
    pub fn of_piece(name: &str, piece: &Piece) -> Self {
        let mut holds: Vec<Planned> = Vec::new();
        for part in piece.parts() {
            match holds.iter_mut().find(|h| h.stock == part.stock && h.colour == part.colour) {
                Some(held) => held.count += 1,
                None => holds.push(Planned { stock: part.stock.clone(), colour: part.colour.clone(), count: 1 }),
            }
        }
        Self {
            name: name.to_owned(),
            worn: piece.worn,
            length_mm: piece.footprint.length_mm,
            width_mm: piece.footprint.width_mm,
            holds,
            bow: piece.bow.clone(),
        }
    }
}

impl HouseStyle {
    /// The style with this size: in the place of the one of its name, else the last of those worn alike.
    #[must_use]
    pub fn with_size(mut self, size: PieceSize) -> Self {
        if let Some(same) = self.sizes.iter_mut().find(|s| s.name == size.name) {
            *same = size;
        } else {
            let after = self.sizes.iter().rposition(|s| s.worn == size.worn).map_or(self.sizes.len(), |at| at + 1);
            self.sizes.insert(after, size);
        }
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::store::{built_in_stock, built_in_style, order_from_text, samples};

    #[test]
    fn a_piece_becomes_a_size_with_its_counts_and_stands_among_its_like() {
        let sample = samples::orders().find(|s| s.path.contains("03-full")).unwrap();
        let piece = order_from_text(sample.text, sample.path, &built_in_stock()).unwrap().piece;
        let size = PieceSize::of_piece("Moonrise", &piece);
        let total: u32 = size.holds.iter().map(|h| h.count).sum();
        assert_eq!(total as usize, piece.parts().len());
        assert_eq!((size.length_mm, &size.bow), (piece.footprint.length_mm, &piece.bow));
        let style = built_in_style().with_size(size.clone());
        let names: Vec<&str> = style.sizes.iter().map(|s| s.name.as_str()).collect();
        assert_eq!(names, ["Petite", "Classic", "Full", "Orchid Classic", "Moonrise", "Boutonniere"]);
        let again = style.clone().with_size(PieceSize { width_mm: 60.0, ..size });
        assert_eq!((again.sizes.len(), again.size("Moonrise").unwrap().width_mm), (style.sizes.len(), 60.0));
    }
}
