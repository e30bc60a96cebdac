//! What can be bought, ranked by how like the dress it is; and what a piece has of colours, beside it.

use crate::colour::{
    ColourWarning, PaletteWords, Relation, Rgb, against_dress, everyday_name, palette_words, rank, relation,
};
use crate::piece::Piece;
use crate::stock::{Role, Stock, StockId};

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
        .filter(|b| !b.shelf.is_hidden)
        .flat_map(|b| b.colours.iter().map(|c| (&b.id, b.role.words().0, b.name.as_str(), c.name.as_str(), c.rgb)));
    let ribbons = stock
        .ribbons()
        .iter()
        .filter(|r| !r.shelf.is_hidden)
        .flat_map(|r| r.colours.iter().map(|c| (&r.id, "ribbon", r.name.as_str(), c.name.as_str(), c.rgb)));
    let bands = stock
        .bands()
        .iter()
        .filter(|b| !b.shelf.is_hidden)
        .map(|b| (&b.id, "band", b.name.as_str(), "as it comes", b.rgb));
    botanicals.chain(ribbons).chain(bands).collect()
}

/// A colour that is on a piece.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceColour {
    /// Trade name: `Spray rose`.
    pub of: String,
    /// The colour's name: `blush`.
    pub name: String,
    /// How it looks.
    pub rgb: Rgb,
    /// About how much is seen of it, mm2: outlines and loops, whatever hides them.
    pub area_mm2: f64,
    /// What to look out for beside the dress; nothing while that is not known.
    pub warnings: Vec<ColourWarning>,
}

/// The colours of a piece, each once, as they were put on; the ribbon last. What is not in stock has no colour.
pub fn piece_colours(piece: &Piece, stock: &Stock, dress: Option<Rgb>) -> Vec<PieceColour> {
    let mut found: Vec<PieceColour> = Vec::new();
    let mut add = |of: &str, name: &str, rgb: Rgb, area_mm2: f64| {
        if let Some(known) = found.iter_mut().find(|c| c.of == of && c.name == name) {
            known.area_mm2 += area_mm2;
        } else {
            let warnings = dress.map(|dress| against_dress(dress, rgb)).unwrap_or_default();
            found.push(PieceColour { of: of.to_owned(), name: name.to_owned(), rgb, area_mm2, warnings });
        }
    };
    // Greens go with every dress, and would make two groups of hues of every piece.
    for part in piece.parts().iter().filter(|p| p.role != Role::Leaf) {
        let known = stock.botanical(&part.stock).and_then(|b| Some((b, b.colour(&part.colour)?)));
        if let Some((botanical, colour)) = known {
            add(&botanical.name, &colour.name, colour.rgb, part.shape_in(stock).area());
        }
    }
    if let Some(bow) = &piece.bow
        && let Some(ribbon) = stock.ribbon(&bow.ribbon)
        && let Some(colour) = ribbon.colour(&bow.colour)
    {
        let area = 2.0 * f64::from(bow.loops_a_side) * bow.loop_length_mm * bow.loop_width_mm;
        add(&ribbon.name, &colour.name, colour.rgb, area);
    }
    found
}

/// How the hues of a piece and the dress lie to each other, the dress weighing as much as the whole piece. Nothing when there
/// is but one colour.
pub fn piece_palette(colours: &[PieceColour], dress: Option<Rgb>) -> Option<PaletteWords> {
    let all: f64 = colours.iter().map(|c| c.area_mm2).sum();
    let dress = dress.map(|rgb| (rgb, all.max(1.0)));
    let seen: Vec<(Rgb, f64)> = colours.iter().map(|c| (c.rgb, c.area_mm2)).chain(dress).collect();
    (seen.len() > 1).then(|| palette_words(&seen))
}

/// How the colours of a piece go with each other and with the dress, in a sentence: `White with teal: neutral, always safe`. The colours
/// that are seen most come first. Nothing when there is but one colour.
pub fn palette_sentence(colours: &[PieceColour], dress: Option<Rgb>) -> Option<String> {
    let palette = piece_palette(colours, dress)?;
    let mut by_area: Vec<&PieceColour> = colours.iter().collect();
    by_area.sort_by(|a, b| b.area_mm2.total_cmp(&a.area_mm2));
    let mut names: Vec<&str> = Vec::new();
    for colour in by_area {
        if !names.contains(&colour.name.as_str()) {
            names.push(&colour.name);
        }
    }
    let piece = match names.as_slice() {
        [] => return None,
        [one] => (*one).to_owned(),
        [one, other] => format!("{one} and {other}"),
        [one, other, ..] => format!("{one}, {other} and more"),
    };
    let with = dress.map(|rgb| format!(" with {}", everyday_name(rgb))).unwrap_or_default();
    let is_plain = dress.is_some() && colours.iter().all(|c| c.rgb.is_neutral());
    let words = if is_plain { Relation::Neutral.words().to_owned() } else { palette.words() };
    let mut letters = piece.chars();
    let first = letters.next().map(|first| first.to_uppercase().to_string()).unwrap_or_default();
    Some(format!("{first}{}{with}: {words}", letters.as_str()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seen(name: &str, hex: u32, area_mm2: f64) -> PieceColour {
        PieceColour { of: "Rose".into(), name: name.into(), rgb: Rgb::hex(hex), area_mm2, warnings: Vec::new() }
    }

    #[test]
    fn a_palette_is_told_as_a_florist_would() {
        let teal = Some(Rgb::hex(0x1c6a70));
        let white = seen("white", 0xfbfaf6, 100.0);
        let said = |colours: &[PieceColour], dress| palette_sentence(colours, dress).unwrap_or_default();
        assert_eq!(said(std::slice::from_ref(&white), teal), "White with teal: neutral, always safe");
        let (rust, peach) = (seen("rust", 0xa5502f, 200.0), seen("peach", 0xf6bf98, 50.0));
        let pair = [peach.clone(), rust.clone()];
        assert_eq!(said(&pair, None), "Rust and peach: one colour family");
        assert!(said(&pair, teal).starts_with("Rust and peach with teal: "), "{}", said(&pair, teal));
        let three = [peach, white.clone(), rust];
        assert!(said(&three, teal).starts_with("Rust, white and more with teal: "), "{}", said(&three, teal));
        assert_eq!(said(&[], teal), "", "no piece, no sentence");
        assert_eq!(said(&[white], None), "", "one colour is no palette");
    }
}
