//! What this wearer must not get: flowers and bands that do not agree with her, each with others to take instead.
//!
//! Stopping is a help for the designer and no medical judgement; [`crate::stock::STANDING_LINE`] stands beside it.
//! Allergies are words. They are looked for in the short name, the trade name and the botanical name of everything used,
//! so that too much is stopped rather than too little.

use super::{Order, Words};
use crate::piece::{Piece, Worn};
use crate::stock::{Band, BandKind, Botanical, Caution, Role, Stock, StockId};
use crate::units::fold;

/// What is stopped.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum What {
    /// A flower or green.
    Flower(StockId),
    /// A band.
    Band(StockId),
    /// The wrist it is worn on.
    Wrist,
    /// The pin that would hold it on a lapel.
    Pin,
}

/// One thing that is stopped.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stopped {
    /// What.
    pub what: What,
    /// Its trade name.
    pub name: String,
    /// Why, as a sentence.
    pub why: String,
    /// What may stand in for it, best first; at most three.
    pub instead: Vec<StockId>,
}

/// Ease of a child's band over the girth, mm: a finger's breadth; common practice, no source.
pub const BAND_EASE_MM: f64 = 10.0;

/// Below this age small parts are kept away (16 CFR 1501: toys and articles for children under 3 years).
pub const SMALL_PARTS_BELOW_YEARS: u32 = 3;
/// The test cylinder for small parts: diameter and depth, mm (16 CFR 1501.4: 1.25 in across, 1 to 2.25 in deep). What fits
/// into it wholly is a small part.
pub const SMALL_PARTS_CYLINDER_MM: (f64, f64) = (31.8, 57.2);

/// Letters from which a word is looked for, so that a lone "a" does not stop everything; our choice.
const SHORTEST_WORD: usize = 3;

/// Most alternatives that are named; our choice, as many as one reads at a glance.
const MOST_INSTEAD: usize = 3;

/// Length of a band cut for this wrist, mm: the girth and its ease.
pub fn band_length_mm(order: &Order) -> f64 {
    order.wrist.girth_mm() + BAND_EASE_MM
}

/// Everything on the wearer's own piece that is stopped. The boutonniere is worn by somebody else and is not looked at.
pub fn stopped(order: &Order, stock: &Stock) -> Vec<Stopped> {
    let mut used: Vec<&StockId> = order.piece.parts().iter().map(|p| &p.stock).collect();
    used.sort();
    used.dedup();
    let flowers = used.into_iter().filter_map(|id| stop_flower(order, id, stock));
    let band = order.piece.band.as_ref().and_then(|id| stop_band(order, id, stock));
    flowers.chain(band).chain(stop_wrist(order)).chain(stop_pin(order)).collect()
}

/// Whether this flower is stopped for this wearer: asked before it is put on or swapped in.
pub fn stop_flower(order: &Order, id: &StockId, stock: &Stock) -> Option<Stopped> {
    let botanical = stock.botanical(id)?;
    let why = why_no_flower(order, botanical)?;
    let on_piece = |b: &Botanical| order.piece.parts().iter().any(|p| p.stock == b.id);
    let mut others: Vec<&Botanical> = stock
        .offered()
        .filter(|b| b.role == botanical.role && b.id != botanical.id)
        .filter(|b| why_no_flower(order, b).is_none())
        .collect();
    let asks_care = |b: &Botanical| b.cautions.contains(&Caution::Allergen) && order.needs.allergies.is_some();
    let off = |b: &Botanical| (b.usual_mm() - botanical.usual_mm()).abs();
    others.sort_by(|a, b| {
        let care = asks_care(a).cmp(&asks_care(b));
        care.then(on_piece(b).cmp(&on_piece(a))).then(off(a).total_cmp(&off(b)))
    });
    let instead = others.into_iter().take(MOST_INSTEAD).map(|b| b.id.clone()).collect();
    Some(Stopped { what: What::Flower(id.clone()), name: botanical.name.clone(), why, instead })
}

/// Whether this band is stopped for this wearer.
pub fn stop_band(order: &Order, id: &StockId, stock: &Stock) -> Option<Stopped> {
    let band = stock.band(id)?;
    let why = why_no_band(order, band)?;
    let girth = order.wrist.girth_mm();
    let mut instead: Vec<StockId> = Vec::new();
    for kind in [band.kind, BandKind::RibbonTie, BandKind::Elastic, BandKind::Metal, BandKind::Pearl] {
        let fitting = stock.band_for(kind, girth).filter(|b| why_no_band(order, b).is_none());
        if let Some(fitting) = fitting.filter(|b| !instead.contains(&b.id)) {
            instead.push(fitting.id.clone());
        }
    }
    instead.truncate(MOST_INSTEAD);
    Some(Stopped { what: What::Band(id.clone()), name: band.name.clone(), why, instead })
}

/// A wrist of the arm that is to be spared.
fn stop_wrist(order: &Order) -> Option<Stopped> {
    let on_it = order.piece.worn == Worn::Wrist && order.needs.spared_arm == Some(order.wrist.side);
    on_it.then(|| Stopped {
        what: What::Wrist,
        name: format!("{} wrist", order.wrist.side.word()),
        why: Words::SPARED_WRIST.to_owned(),
        instead: Vec::new(),
    })
}

/// A pin on a small child.
fn stop_pin(order: &Order) -> Option<Stopped> {
    let pinned = order.piece.worn == Worn::Lapel && is_under_three(order);
    let (name, why) = ("Pin".to_owned(), Words::NO_PIN.to_owned());
    pinned.then(|| Stopped { what: What::Pin, name, why, instead: Vec::new() })
}

fn why_no_flower(order: &Order, botanical: &Botanical) -> Option<String> {
    let names = [botanical.id.as_str(), &botanical.name, &botanical.botanical];
    named_allergy(order, &names, &botanical.cautions)
        .map(|word| Words::named(&botanical.name, &word))
        .or_else(|| (is_small_part(botanical) && is_under_three(order)).then(|| Words::small_part(&botanical.name)))
}

fn why_no_band(order: &Order, band: &Band) -> Option<String> {
    let needs = &order.needs;
    let has = |caution| band.cautions.contains(&caution);
    let (girth, unit) = (order.wrist.girth_mm(), order.wrist.girth.unit());
    let grips = band.kind != BandKind::RibbonTie;
    let stretches = matches!(band.kind, BandKind::Elastic | BandKind::Pearl | BandKind::Rhinestone);
    if let Some(word) = named_allergy(order, &[band.id.as_str(), &band.name], &band.cautions) {
        Some(Words::named(&band.name, &word))
    } else if needs.no_latex && has(Caution::Latex) {
        Some(Words::latex(&band.name))
    } else if is_under_three(order) && has(Caution::SmallParts) {
        Some(Words::small_part(&band.name))
    } else if is_under_three(order) && matches!(band.kind, BandKind::Metal | BandKind::Slap) {
        Some(Words::ends(&band.name))
    } else if needs.no_snug_band && grips || needs.spared_arm.is_some() && band.kind == BandKind::Slap {
        Some(Words::grips(&band.name))
    } else if needs.spared_arm.is_some() && stretches {
        Some(Words::no_elastic(&band.name))
    } else if girth < band.fits_mm[0] {
        Some(Words::too_big(&band.name, &unit.short(girth), &unit.short(girth + BAND_EASE_MM)))
    } else if girth > band.fits_mm[1] {
        Some(Words::too_small(&band.name, &unit.short(girth)))
    } else {
        None
    }
}

/// The word among the allergies that one of these names or cautions answers to.
fn named_allergy(order: &Order, names: &[&str], cautions: &[Caution]) -> Option<String> {
    let names: Vec<String> = names.iter().map(|n| plain(n)).collect();
    let tags: Vec<String> = cautions.iter().map(|c| plain(c.tag())).collect();
    let answers = |word: &&String| {
        let wanted = plain(word);
        let bare = wanted.strip_suffix('s').filter(|w| w.chars().count() >= 3).unwrap_or(&wanted);
        let long_enough = |w: &str| w.chars().count() >= SHORTEST_WORD;
        long_enough(bare)
            && (names.iter().any(|n| n.contains(bare) || (long_enough(n) && wanted.contains(n.as_str())))
                || tags.iter().any(|t| wanted.contains(t.as_str()) || t.contains(bare)))
    };
    order.needs.allergies.iter().flatten().find(answers).cloned()
}

/// Words to compare by: folded, letters and digits only, single spaces, no possessive: `Baby's-Breath` is `babys breath`.
fn plain(words: &str) -> String {
    let folded: String = fold(words).chars().filter(|c| *c != '\'').collect();
    let spaced: String = folded.chars().map(|c| if c.is_alphanumeric() { c } else { ' ' }).collect();
    spaced.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Pearls, stones and the like that fit into the test cylinder. Flowers and leaves are not toys and are not counted; their
/// own cautions are.
fn is_small_part(botanical: &Botanical) -> bool {
    let fits = botanical.usual_mm() <= SMALL_PARTS_CYLINDER_MM.0 && botanical.height_mm <= SMALL_PARTS_CYLINDER_MM.1;
    botanical.cautions.contains(&Caution::SmallParts) || (botanical.role == Role::Trim && fits)
}

fn is_under_three(order: &Order) -> bool {
    order.needs.child_years().is_some_and(|years| years < SMALL_PARTS_BELOW_YEARS)
}

/// How many parts of a piece would fit into the test cylinder for small parts.
pub fn small_parts(piece: &Piece, stock: &Stock) -> usize {
    let parts = piece.parts().iter().filter_map(|p| stock.botanical(&p.stock));
    parts.filter(|b| is_small_part(b)).count()
}
