//! The bill of materials: the stem list and the goods as one numbered list, with supplier and cost. The shop's own.

use super::StemList;
use crate::colour::Rgb;
use crate::piece::{Part, Piece};
use crate::stock::{Role, Stock, StockId};
use crate::units::Cents;

/// One line of the bill.
#[derive(Clone, Debug, PartialEq)]
pub struct BillLine {
    /// Its number, from 1; the same on every paper.
    pub number: usize,
    /// What is bought.
    pub stock: StockId,
    /// Trade name.
    pub name: String,
    /// Colour, by its name in stock; empty where there is none.
    pub colour: String,
    /// How that colour looks.
    pub rgb: Option<Rgb>,
    /// The part it plays; none for goods.
    pub role: Option<Role>,
    /// Heads, sprigs or leaves; goods by the piece.
    pub count: u32,
    /// How many of them are promised but not on the sketch yet.
    pub to_place: u32,
    /// Whole stems to take.
    pub stems: Option<u32>,
    /// Stems in the bunch they come from.
    pub stems_per_bunch: Option<u32>,
    /// Who sells it; empty where not known.
    pub supplier: String,
    /// Sizes of the parts that are on the sketch, mm: least, most.
    pub sizes_mm: Option<(f64, f64)>,
    /// Length, mm, of what is cut from a roll.
    pub length_mm: Option<f64>,
    /// Cost.
    pub cost: Cents,
}

/// The bill: flowers and greens in the order of the stem list, then goods.
pub fn bill_of_materials(piece: &Piece, stems: &StemList, stock: &Stock) -> Vec<BillLine> {
    let fresh = stems.lines.iter().enumerate().map(|(i, line)| {
        let botanical = stock.botanical(&line.stock);
        let parts = piece.parts().iter().filter(|p| line_of(p, stems, stock) == Some(i));
        let sizes = parts.map(|p| p.size_in(stock));
        BillLine {
            number: i + 1,
            stock: line.stock.clone(),
            name: line.name.clone(),
            colour: line.colour.to_string(),
            rgb: botanical.and_then(|b| b.colour(&line.colour)).map(|c| c.rgb),
            role: Some(line.role),
            count: line.pieces,
            to_place: line.to_place,
            stems: Some(line.stems),
            stems_per_bunch: botanical.map(|b| b.stems_per_bunch),
            supplier: botanical.map_or_else(String::new, |b| b.supplier.clone()),
            sizes_mm: sizes.fold(None, |range, mm| match range {
                None => Some((mm, mm)),
                Some((least, most)) => Some((mm.min(least), mm.max(most))),
            }),
            length_mm: None,
            cost: line.cost,
        }
    });
    let goods = stems.hard.iter().enumerate().map(|(i, line)| {
        let bow = piece.bow.as_ref().filter(|bow| bow.ribbon == line.stock);
        let colour = bow.map_or_else(String::new, |bow| bow.colour.to_string());
        BillLine {
            number: stems.lines.len() + i + 1,
            stock: line.stock.clone(),
            name: line.name.clone(),
            rgb: stock.ribbon(&line.stock).and_then(|r| r.colour(&colour)).map(|c| c.rgb),
            colour,
            role: None,
            count: line.count,
            to_place: 0,
            stems: None,
            stems_per_bunch: None,
            supplier: String::new(),
            sizes_mm: None,
            length_mm: line.length_mm,
            cost: line.cost,
        }
    });
    fresh.chain(goods).collect()
}

/// Which line of the stem list a part is counted in.
pub fn line_of(part: &Part, stems: &StemList, stock: &Stock) -> Option<usize> {
    let bought = stock.botanical(&part.stock).map(|b| b.cut_from.as_ref().unwrap_or(&b.id))?;
    stems.lines.iter().position(|l| l.stock == *bought && l.colour == part.colour)
}
