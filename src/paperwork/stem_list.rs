//! The stem list: what one piece needs, from heads to stems, ribbon, band, wire and glue.
//!
//! Parts promised by the size but not sketched yet are in it too, so that a half-finished sketch names the price of what
//! was promised. Each line costs whole cents, rounded once for the whole line, and every sum of costs adds those up: what
//! is printed below each other makes what is printed as their sum.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::making_minutes;
use super::price::{Price, calculated_price};
use crate::geometry::RibbonWork;
use crate::piece::{Bow, Fixing, HouseStyle, LAPEL_PINS, LapelHold, Piece, PieceSize, PriceRule, Worn, still_to_place};
use crate::stock::{Botanical, Caution, Role, Stock, StockId, Sundry, SundryKind};
use crate::units::{Cents, ceil_u32};

/// Ribbon pinched together at the knot, a loop, mm; common practice, no source.
const PINCH_MM: f64 = 12.0;
/// Ribbon cut away slantwise at the end of a tail, mm; common practice, no source.
const CUT_MM: f64 = 12.0;
/// Cut length of florist wire, mm: 18 in ("Designing Corsages and Boutonnieres", lesson, studylib.net/doc/5707417).
const WIRE_CUT_MM: f64 = 457.2;
/// Wire for a bow: one cut of 26 gauge (the same lesson).
const BOW_WIRE_GAUGE: u8 = 26;

/// One kind in one colour.
#[derive(Clone, Debug, PartialEq)]
pub struct StemLine {
    /// What is bought.
    pub stock: StockId,
    /// Trade name.
    pub name: String,
    /// Colour, by its name in stock.
    pub colour: Arc<str>,
    /// The part it plays.
    pub role: Role,
    /// Heads, sprigs or leaves on the piece, those to come included.
    pub pieces: u32,
    /// How many of them are promised but not on the sketch yet.
    pub to_place: u32,
    /// Whole stems to take from the bucket.
    pub stems: u32,
    /// Cost of the heads used.
    pub cost: Cents,
}

/// One line of band, ribbon, wire and the rest.
#[derive(Clone, Debug, PartialEq)]
pub struct HardLine {
    /// What is used.
    pub stock: StockId,
    /// Trade name.
    pub name: String,
    /// How many of it: bands, cuts of wire; one where a length of a roll is cut in one piece.
    pub count: u32,
    /// How long, mm, where it is cut from a roll.
    pub length_mm: Option<f64>,
    /// Grams, where it is wire.
    pub grams: Option<f64>,
    /// Cost.
    pub cost: Cents,
}

/// Everything one piece needs.
#[derive(Clone, Debug, PartialEq)]
pub struct StemList {
    /// Flowers and greens: blooms first.
    pub lines: Vec<StemLine>,
    /// Everything else.
    pub hard: Vec<HardLine>,
    /// Ribbon for the bow, mm.
    pub ribbon_mm: f64,
    /// Cost of flowers and greens.
    pub fresh_cost: Cents,
    /// Cost of everything else.
    pub hard_cost: Cents,
    /// Minutes to make it.
    pub minutes: f64,
    /// Mass, grams; a planning figure until the shop has weighed its own.
    pub mass_g: f64,
}

impl StemList {
    /// What all goods cost.
    pub fn goods_cost(&self) -> Cents {
        self.fresh_cost + self.hard_cost
    }

    /// The price of it by the rule of the house.
    pub fn price(&self, rule: &PriceRule) -> Price {
        calculated_price(self.fresh_cost.0 as f64, self.hard_cost.0 as f64, self.minutes, rule)
    }
}

/// The stem list of `piece`, with what `size` promises beyond it.
pub fn stem_list(piece: &Piece, size: Option<&PieceSize>, stock: &Stock, style: &HouseStyle) -> StemList {
    let to_come = still_to_place(piece, size, stock);
    let lines = stem_lines(piece, &to_come, stock);
    let ribbon_mm = piece.bow.as_ref().map_or(0.0, bow_ribbon_mm);
    let hard = hard_lines(piece, ribbon_mm, stock, style);
    let extra: Vec<(Role, u32)> = to_come.iter().map(|(b, _, n)| (b.role, *n)).collect();
    let wire_g: f64 = hard.iter().filter_map(|h| h.grams).sum();
    let head_g = |id: &StockId| stock.botanical(id).map_or(0.0, |b| b.mass_g);
    let placed_g: f64 = piece.parts().iter().map(|p| head_g(&p.stock)).sum();
    let to_come_g: f64 = to_come.iter().map(|(b, _, n)| b.mass_g * f64::from(*n)).sum();
    StemList {
        fresh_cost: lines.iter().map(|l| l.cost).sum(),
        hard_cost: hard.iter().map(|h| h.cost).sum(),
        minutes: making_minutes(piece, &extra, &style.minutes),
        // A sum of nothing is a nought with a minus before it.
        mass_g: placed_g + to_come_g + wire_g + 0.0,
        lines,
        hard,
        ribbon_mm,
    }
}

/// Ribbon for a bow with its pinches, tails and centre loop, mm.
pub fn bow_ribbon_mm(bow: &Bow) -> f64 {
    RibbonWork {
        loops_a_side: bow.loops_a_side,
        loop_length: bow.loop_length_mm,
        loop_width: bow.loop_width_mm,
        pinch: PINCH_MM,
        tails: bow.tails,
        tail_length: bow.tail_length_mm,
        tail_cut: CUT_MM,
        centre_loop: bow.centre_loop.then_some(Bow::CENTRE_LOOP),
    }
    .ribbon()
    .total()
}

/// Heads of one bought kind and colour, by what is cut from its stems.
#[derive(Clone, Debug, Default)]
pub(super) struct Heads {
    /// How many.
    pub(super) pieces: u32,
    to_place: u32,
    /// Stems and parts of stems.
    pub(super) stems: f64,
    cost: f64,
}

impl Heads {
    fn add(&mut self, botanical: &Botanical, n: u32, to_place: bool) {
        self.pieces += n;
        self.to_place += if to_place { n } else { 0 };
        self.stems += f64::from(n) / f64::from(botanical.per_stem.max(1));
        self.cost += f64::from(n) * botanical.cents_a_head();
    }

    /// Those of another piece are bought with them.
    pub(super) fn join(&mut self, more: &Self) {
        self.pieces += more.pieces;
        self.to_place += more.to_place;
        self.stems += more.stems;
        self.cost += more.cost;
    }
}

fn stem_lines(piece: &Piece, to_come: &[(&Botanical, Arc<str>, u32)], stock: &Stock) -> Vec<StemLine> {
    let heads = heads_of(piece, to_come, stock);
    heads.into_iter().map(|((role, id, colour), h)| line(role, id, colour, &h, stock)).collect()
}

/// Heads by part, kind and colour, blooms first.
pub(super) fn heads_of(
    piece: &Piece,
    to_come: &[(&Botanical, Arc<str>, u32)],
    stock: &Stock,
) -> BTreeMap<(Role, StockId, Arc<str>), Heads> {
    let mut heads: BTreeMap<(Role, StockId, Arc<str>), Heads> = BTreeMap::new();
    let mut add = |b: &Botanical, colour: &Arc<str>, n, to_place| {
        let bought = bought_as(b, stock);
        heads.entry((bought.role, bought.id.clone(), Arc::clone(colour))).or_default().add(b, n, to_place);
    };
    for part in piece.parts() {
        if let Some(botanical) = stock.botanical(&part.stock) {
            add(botanical, &part.colour, 1, false);
        }
    }
    for (botanical, colour, n) in to_come {
        add(botanical, colour, *n, true);
    }
    heads
}

fn line(role: Role, id: StockId, colour: Arc<str>, heads: &Heads, stock: &Stock) -> StemLine {
    /// Sums of parts of a stem that come this near to a whole are whole: 1/3 + 1/3 + 1/3.
    const WHOLE: f64 = 1e-9;
    StemLine {
        name: stock.botanical(&id).map_or_else(|| id.to_string(), |b| b.name.clone()),
        stock: id,
        colour,
        role,
        pieces: heads.pieces,
        to_place: heads.to_place,
        stems: ceil_u32(heads.stems - WHOLE),
        cost: Cents::nearest(heads.cost),
    }
}

/// What is bought when this is wanted: half a carnation comes from a carnation.
fn bought_as<'a>(botanical: &'a Botanical, stock: &'a Stock) -> &'a Botanical {
    botanical.cut_from.as_ref().and_then(|id| stock.botanical(id)).unwrap_or(botanical)
}

fn hard_lines(piece: &Piece, ribbon_mm: f64, stock: &Stock, style: &HouseStyle) -> Vec<HardLine> {
    let mut lines = Vec::new();
    let counted = |stock: &StockId, name: &str, cost: Cents| HardLine {
        stock: stock.clone(),
        name: name.to_owned(),
        count: 1,
        length_mm: None,
        grams: None,
        cost,
    };
    if let Some(band) = piece.band.as_ref().and_then(|id| stock.band(id)) {
        lines.push(counted(&band.id, &band.name, band.price));
    }
    if let Some(ribbon) = piece.bow.as_ref().and_then(|bow| stock.ribbon(&bow.ribbon)) {
        let steps = ceil_u32(ribbon_mm / ribbon.step_mm.max(1.0));
        let cost = Cents(ribbon.step.0.saturating_mul(i64::from(steps)));
        lines.push(HardLine { length_mm: Some(ribbon_mm), ..counted(&ribbon.id, &ribbon.name, cost) });
    }
    let sundries = match piece.worn {
        Worn::Wrist => &style.wrist_sundries,
        Worn::Lapel => &style.lapel_sundries,
    };
    let glued = piece.fixing == Fixing::Glued;
    // Pins, magnets and spray follow what the order says and not what is usual in the shop.
    let is_used = |s: &&Sundry| match s.kind {
        SundryKind::Adhesive => glued,
        SundryKind::Pin | SundryKind::Spray => false,
        SundryKind::Wire | SundryKind::Tape | SundryKind::Box | SundryKind::Base | SundryKind::Stem => true,
    };
    let mut used: Vec<&Sundry> = sundries.iter().filter_map(|id| stock.sundry(id)).filter(is_used).collect();
    if !glued && used.iter().all(|s| s.kind != SundryKind::Tape) {
        used.extend(stock.sundries().iter().find(|s| s.kind == SundryKind::Tape));
    }
    if piece.is_sprayed {
        used.extend(first_of(SundryKind::Spray, sundries, stock, |_| true));
    }
    lines.extend(used.into_iter().map(|s| counted(&s.id, &s.name, s.price)));
    if piece.worn == Worn::Lapel {
        lines.extend(held_by(piece.lapel.hold, sundries, stock).map(|(s, count)| HardLine {
            count,
            cost: Cents(s.price.0.saturating_mul(i64::from(count))),
            ..counted(&s.id, &s.name, s.price)
        }));
    }
    if !glued {
        lines.extend(wire_lines(piece, stock));
    }
    lines
}

/// The first sundry of a kind: one that the house names, else one in stock.
fn first_of<'a>(
    kind: SundryKind,
    named: &[StockId],
    stock: &'a Stock,
    is_it: impl Fn(&Sundry) -> bool,
) -> Option<&'a Sundry> {
    let fits = |s: &&'a Sundry| s.kind == kind && is_it(s);
    let in_stock = || stock.sundries().iter().find(fits);
    named.iter().filter_map(|id| stock.sundry(id)).find(fits).or_else(in_stock)
}

/// What holds a boutonniere on the cloth, and how many: two pins, or one pair of magnets.
fn held_by<'a>(hold: LapelHold, named: &[StockId], stock: &'a Stock) -> Option<(&'a Sundry, u32)> {
    let is_magnet = |s: &Sundry| s.cautions.contains(&Caution::Magnet);
    match hold {
        LapelHold::Pins => Some((first_of(SundryKind::Pin, named, stock, |s| !is_magnet(s))?, LAPEL_PINS)),
        LapelHold::Magnets => Some((first_of(SundryKind::Pin, named, stock, is_magnet)?, 1)),
    }
}

/// Wire by gauge: whole cuts, the grams and the share of a cut that are used.
fn wire_lines(piece: &Piece, stock: &Stock) -> Vec<HardLine> {
    let mut by_gauge: BTreeMap<u8, (u32, f64)> = BTreeMap::new();
    let heads = piece.parts().iter().filter_map(|p| stock.botanical(&p.stock)?.wire);
    let bow = piece.bow.iter().map(|_| crate::stock::WireCut { gauge: BOW_WIRE_GAUGE, length_mm: WIRE_CUT_MM });
    for cut in heads.chain(bow) {
        let used = by_gauge.entry(cut.gauge).or_default();
        used.0 += 1;
        used.1 += cut.length_mm;
    }
    let wire_of = |gauge: u8| stock.sundries().iter().find(move |s| s.wire.is_some_and(|w| w.0 == gauge));
    let line = |(gauge, (count, length)): (u8, (u32, f64))| {
        let sundry = wire_of(gauge)?;
        let cuts = length / WIRE_CUT_MM;
        Some(HardLine {
            stock: sundry.id.clone(),
            name: sundry.name.clone(),
            count,
            length_mm: Some(length),
            grams: sundry.wire.map(|w| w.1 * cuts),
            cost: Cents::nearest(sundry.price.0 as f64 * cuts),
        })
    };
    by_gauge.into_iter().filter_map(line).collect()
}
