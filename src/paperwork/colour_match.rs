//! What can be bought, ranked by how like the dress it is.

use crate::colour::{ColourWarning, Relation, Rgb, against_dress, rank, relation};
use crate::stock::{Stock, StockId};

/// A colour that something in stock comes in, beside the dress.
#[derive(Clone, Debug, PartialEq)]
pub struct ColourRow {
    /// Short name in files.
    pub stock: StockId,
    /// What it is: bloom, accent, sprig, leaf, trim, ribbon or band.
    pub kind: &'static str,
    /// Trade name: `Spray rose`.
    pub of: String,
    /// The colour's name: `blush`. Of a band, which comes in one, `as it comes`.
    pub name: String,
    /// How it looks.
    pub rgb: Rgb,
    /// CIEDE2000 to the dress.
    pub delta_e00: f64,
    /// How its hue lies to the dress: a description.
    pub relation: Relation,
    /// What to look out for.
    pub warnings: Vec<ColourWarning>,
}

/// Every colour in stock, the most like the dress first; what is equally like keeps the order of the list.
pub fn colour_match(dress: Rgb, stock: &Stock) -> Vec<ColourRow> {
    let colours = stock_colours(stock);
    let keyed: Vec<(usize, Rgb)> = colours.iter().map(|c| c.4).enumerate().collect();
    let row = |ranked: &crate::colour::Ranked<usize>| {
        let (stock, kind, of, name, rgb) = colours[ranked.what];
        ColourRow {
            stock: stock.clone(),
            kind,
            of: of.to_owned(),
            name: name.to_owned(),
            rgb,
            delta_e00: ranked.delta_e00,
            relation: relation(dress, rgb),
            warnings: against_dress(dress, rgb),
        }
    };
    rank(dress, &keyed).iter().map(row).collect()
}

type StockColours<'a> = Vec<(&'a StockId, &'static str, &'a str, &'a str, Rgb)>;

fn stock_colours(stock: &Stock) -> StockColours<'_> {
    let botanicals = stock
        .botanicals()
        .iter()
        .flat_map(|b| b.colours.iter().map(|c| (&b.id, b.role.words().0, b.name.as_str(), c.name.as_str(), c.rgb)));
    let ribbons = stock
        .ribbons()
        .iter()
        .flat_map(|r| r.colours.iter().map(|c| (&r.id, "ribbon", r.name.as_str(), c.name.as_str(), c.rgb)));
    let bands = stock.bands().iter().map(|b| (&b.id, "band", b.name.as_str(), "as it comes", b.rgb));
    botanicals.chain(ribbons).chain(bands).collect()
}
