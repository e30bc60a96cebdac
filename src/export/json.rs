//! Reports for machines. Lengths in mm, areas in mm2, angles in degrees, money in whole cents.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use crate::book::Order;
use crate::geometry::{Shape, WristSection, asymmetry};
use crate::once_over::{Finding, KindSpacing, OnceOver};
use crate::paperwork::{Price, StemList};
use crate::piece::Wrist;
use crate::stock::Stock;
use crate::units::Cents;

/// Digits kept after the point; far finer than anything measured.
const DIGITS: i32 = 9;

/// The once-over of an order.
pub fn once_over_json(order: &Order, over: &OnceOver, stock: &Stock) -> Value {
    let m = &over.measures;
    let footprint = order.piece.footprint;
    json!({
        "mark": number(over.score),
        "oval": { "length_mm": number(footprint.length_mm), "width_mm": number(footprint.width_mm) },
        "outline": outline_json(over),
        "cover": {
            "covered_mm2": number(m.cover.area),
            "fraction": number(m.cover_fraction()),
            "fullness": number(m.fullness),
            "overhang_mm2": m.outline.as_ref().map(|o| number(o.region.area - m.cover.area)),
            "base_fraction": number(m.base_covered),
            "bow_seen": m.bow_seen.map(number),
        },
        "room": m.room.iter().map(|g| json!({
            "x_mm": number(g.centre.x), "y_mm": number(g.centre.y), "radius_mm": number(g.radius),
        })).collect::<Vec<_>>(),
        "spread": m.kinds.iter().map(spread_json).collect::<Vec<_>>(),
        "wrist": {
            "girth_mm": number(order.wrist.girth_mm()),
            "width_limit_mm": number(m.width_limit_mm),
            "across_mm": number(m.across_mm),
            "section": section_json(order, over),
        },
        "balance": balance_json(order, over, stock),
        "relief": relief_json(over),
        "mass_g": number(m.mass_g),
        "set_aside": order.piece.wishes.ignored.keys().map(|q| q.id()).collect::<Vec<_>>(),
        "reasons": order.piece.wishes.ignored.iter().map(|(q, why)| (q.id(), why)).collect::<BTreeMap<_, _>>(),
        "findings": over.findings.iter().map(finding_json).collect::<Vec<_>>(),
    })
}

fn outline_json(over: &OnceOver) -> Value {
    let Some(outline) = &over.measures.outline else { return Value::Null };
    let m = &over.measures;
    json!({
        "length_mm": number(m.along_mm),
        "width_mm": number(m.across_mm),
        "length_to_width": number(m.along_mm / m.across_mm),
        "angle_deg": outline.angle.map(|a| number(a.to_degrees())),
        "box_fill": number(outline.box_fill),
        "hull_mm2": number(outline.hull_area),
        "solidity": number(outline.solidity),
        "squareness": number(outline.squareness),
        "exponent": number(outline.exponent),
        "ellipticity": number(outline.ellipticity),
        "area_mm2": number(outline.region.area),
        "semi_axes_mm": outline.semi_axes.map(number),
        "blooms_box_fill": m.bloom_outline.as_ref().map(|o| number(o.box_fill)),
    })
}

/// The wrist as an ellipse: half its width and depth, how wide the piece looks from above, how its two edges tilt, each to its
/// own side, and the steeper of them.
fn section_json(order: &Order, over: &OnceOver) -> Value {
    let section = WristSection::new(order.wrist.girth_mm(), Wrist::FLATNESS);
    let [from, to] = over.measures.outline.as_ref().map_or([0.0; 2], |outline| [outline.bounds.y0, outline.bounds.y1]);
    let tilts = [from, to].map(|arc| section.seen(arc).tilt.to_degrees());
    json!({
        "half_width_mm": number(section.half_width()),
        "half_depth_mm": number(section.half_depth()),
        "seen_across_mm": number(section.seen_across(from, to)),
        "edge_tilt_deg": number(tilts[0].abs().max(tilts[1].abs())),
        "edge_tilts_deg": tilts.map(number),
        "past_edge_mm": number(over.measures.relief.past_edge_mm),
    })
}

fn balance_json(order: &Order, over: &OnceOver, stock: &Stock) -> Value {
    let m = &over.measures;
    let shapes: Vec<Shape> = order.piece.parts().iter().map(|p| p.shape_in(stock)).collect();
    json!({
        "balance": number(m.sides.balance()),
        "along": number(m.sides.along),
        "across": number(m.sides.across),
        "offset": m.offset.map(number),
        "asymmetry": asymmetry(&shapes).map(|a| json!({
            "end_to_end": number(a.end_to_end),
            "side_to_side": number(a.side_to_side),
            "half_turn": number(a.half_turn),
        })),
    })
}

fn relief_json(over: &OnceOver) -> Value {
    let relief = &over.measures.relief;
    json!({
        "top_mm": number(relief.top_mm),
        "hidden": relief.hidden.iter().map(|(id, share)| json!({ "id": id.0, "share": number(*share) })).collect::<Vec<_>>(),
        "crushed": relief.crushed.iter().map(|(below, above)| json!([below.0, above.0])).collect::<Vec<_>>(),
    })
}

fn spread_json(kind: &KindSpacing) -> Value {
    json!({
        "stock": kind.stock.as_str(),
        "role": kind.role.words().0,
        "count": kind.count(),
        "odd": kind.count() % 2 == 1,
        "evenness": kind.evenness.map(number),
        "spread": kind.spread.map(number),
        "ring_evenness": kind.ring_evenness.map(number),
        "steps_deg": kind.steps.iter().map(|s| number(s.width().to_degrees())).collect::<Vec<_>>(),
    })
}

fn finding_json(finding: &Finding) -> Value {
    json!({
        "question": finding.question.id(),
        "says": finding.says(),
        "figure": number(finding.figure),
        "unit": finding.unit,
        "weight": number(finding.weight),
        "points": number(finding.points()),
        "remedies": finding.remedies.iter().map(|r| r.label()).collect::<Vec<_>>(),
    })
}

/// The stem list of an order with its price.
pub fn stems_json(stems: &StemList, price: &Price) -> Value {
    json!({
        "lines": stems.lines.iter().map(|l| json!({
            "stock": l.stock.as_str(), "name": l.name, "colour": &*l.colour, "role": l.role.words().0,
            "pieces": l.pieces, "to_place": l.to_place, "stems": l.stems, "cost_cents": l.cost.0,
        })).collect::<Vec<_>>(),
        "hard": stems.hard.iter().map(|h| json!({
            "stock": h.stock.as_str(), "name": h.name, "count": h.count,
            "length_mm": h.length_mm.map(number), "grams": h.grams.map(number), "cost_cents": h.cost.0,
        })).collect::<Vec<_>>(),
        "ribbon_mm": number(stems.ribbon_mm),
        "mass_g": number(stems.mass_g),
        "totals": {
            "heads": stems.lines.iter().map(|l| l.pieces).sum::<u32>(),
            "stems": stems.lines.iter().map(|l| l.stems).sum::<u32>(),
            "fresh_cents": stems.fresh_cost.0,
            "hard_cents": stems.hard_cost.0,
            "making_cents": Cents::nearest(price.making).0,
            "cost_cents": Cents::nearest(price.cost).0,
        },
        "minutes": number(stems.minutes),
        "worked_cents": price.calculated().0,
        "price_cents": price.rounded.0,
    })
}

/// A number that is always a number, without the noise of its last bits.
pub(super) fn number(value: f64) -> Value {
    let scale = 10_f64.powi(DIGITS);
    let rounded = (value * scale).round() / scale;
    let clean = if rounded.is_finite() { rounded } else { value };
    if clean == 0.0 { json!(0.0) } else { json!(clean) }
}
