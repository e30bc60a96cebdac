//! Reports for machines. Lengths in mm, areas in mm2, angles in degrees, money in cents (parts of a cent where a head
//! costs them).

use serde_json::{Value, json};

use crate::book::Order;
use crate::once_over::{Finding, KindSpread, OnceOver};
use crate::paperwork::{Price, StemList};

/// Digits kept after the point; far finer than anything measured.
const DIGITS: i32 = 9;

/// The once-over of an order.
pub fn once_over_json(order: &Order, over: &OnceOver) -> Value {
    let m = &over.measures;
    let footprint = order.piece.footprint;
    json!({
        "mark": number(over.mark),
        "oval": { "length_mm": number(footprint.length_mm), "width_mm": number(footprint.width_mm) },
        "outline": outline_json(over),
        "cover": {
            "covered_mm2": number(m.covered_mm2),
            "fraction": number(m.cover_fraction()),
            "fullness": number(m.fullness),
        },
        "room": m.room.iter().map(|g| json!({
            "x_mm": number(g.centre.x), "y_mm": number(g.centre.y), "radius_mm": number(g.radius),
        })).collect::<Vec<_>>(),
        "spread": m.kinds.iter().map(spread_json).collect::<Vec<_>>(),
        "wrist": {
            "girth_mm": number(order.wrist.girth_mm()),
            "width_limit_mm": number(m.width_limit_mm),
            "across_mm": number(m.across_mm),
        },
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
        "blooms_box_fill": m.bloom_outline.as_ref().map(|o| number(o.box_fill)),
    })
}

fn spread_json(kind: &KindSpread) -> Value {
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
        "says": finding.says,
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
            "pieces": l.pieces, "to_place": l.to_place, "stems": l.stems, "cost_cents": number(l.cost_cents),
        })).collect::<Vec<_>>(),
        "hard": stems.hard.iter().map(|h| json!({
            "stock": h.stock.as_str(), "name": h.name, "count": h.count,
            "length_mm": h.length_mm.map(number), "grams": h.grams.map(number), "cost_cents": number(h.cost_cents),
        })).collect::<Vec<_>>(),
        "ribbon_mm": number(stems.ribbon_mm),
        "mass_g": number(stems.mass_g),
        "totals": {
            "heads": stems.lines.iter().map(|l| l.pieces).sum::<u32>(),
            "stems": stems.lines.iter().map(|l| l.stems).sum::<u32>(),
            "fresh_cents": number(stems.fresh_cents),
            "hard_cents": number(stems.hard_cents),
            "making_cents": number(price.making),
            "cost_cents": number(price.cost),
        },
        "minutes": number(stems.minutes),
        "worked_cents": price.worked().0,
        "price_cents": price.rounded.0,
    })
}

/// A number that is always a number, without the noise of its last bits.
fn number(value: f64) -> Value {
    let scale = 10_f64.powi(DIGITS);
    let rounded = (value * scale).round() / scale;
    let clean = if rounded.is_finite() { rounded } else { value };
    if clean == 0.0 { json!(0.0) } else { json!(clean) }
}
