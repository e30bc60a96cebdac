//! Leaves lengthwise, the smaller ones outward? (Common practice, no source.)

use std::f64::consts::{FRAC_PI_2, PI};

use super::{Finding, Measures, Remedy, SketchMark, finding, words};
use crate::geometry::Lens;
use crate::piece::{PartId, Question};

/// Within this, degrees, a leaf lies along the arm; our choice.
const LENGTHWISE_WITHIN: f64 = 35.0;
/// Across the arm, degrees, where a leaf earns nothing.
const CROSSWISE: f64 = 90.0;
/// Share of the score that the order of sizes makes; our choice.
const ORDER_SHARE: f64 = 0.3;
/// Lengths that differ by less than this, mm, count as equal; below what an eye compares.
const EQUAL_MM: f64 = 2.0;

pub(super) fn answer(measures: &Measures) -> Option<Finding> {
    if measures.leaves.is_empty() {
        return None;
    }
    let off: Vec<(PartId, f64)> = measures.leaves.iter().map(|(id, leaf)| (*id, askew_degrees(leaf))).collect();
    let earned = |d: f64| (1.0 - (d - LENGTHWISE_WITHIN) / (CROSSWISE - LENGTHWISE_WITHIN)).clamp(0.0, 1.0);
    let lengthwise = off.iter().map(|(_, d)| earned(*d)).sum::<f64>() / off.len() as f64;
    let (wrong, pairs) = order(measures);
    let ordered = if pairs == 0 { 1.0 } else { 1.0 - f64::from(wrong) / f64::from(pairs) };
    let crosswise: Vec<PartId> = off.iter().filter(|(_, d)| *d > LENGTHWISE_WITHIN).map(|(id, _)| *id).collect();
    let says = match (crosswise.len(), wrong) {
        (0, 0) => words::leaves_well(off.len()),
        (0, _) => words::leaves_order(),
        (n, _) => words::leaves_across(n),
    };
    let mut found = finding(
        Question::Leaves,
        says,
        crosswise.len() as f64,
        "",
        lengthwise * (1.0 - ORDER_SHARE) + ordered * ORDER_SHARE,
    );
    if let Some(first) = crosswise.first() {
        let leaf = measures.leaves.iter().find(|(id, _)| id == first);
        found.marks = leaf.map(|(_, l)| SketchMark::Axis { from: l.tips()[1], to: l.tips()[0] }).into_iter().collect();
        found.remedies.push(Remedy::LayLengthwise(crosswise));
    }
    Some(found)
}

/// Degrees between a leaf and the arm, 0 to 90.
fn askew_degrees(leaf: &Lens) -> f64 {
    ((leaf.turn + FRAC_PI_2).rem_euclid(PI) - FRAC_PI_2).abs().to_degrees()
}

/// Pairs toward the same end in which the longer leaf lies farther out, and all pairs of unlike length.
fn order(measures: &Measures) -> (u32, u32) {
    let mut counts = (0, 0);
    for (i, (_, first)) in measures.leaves.iter().enumerate() {
        for (_, second) in &measures.leaves[i + 1..] {
            let same_end = first.centre.x.signum() == second.centre.x.signum();
            let longer = first.length - second.length;
            let farther = first.centre.x.abs() - second.centre.x.abs();
            if same_end && longer.abs() >= EQUAL_MM && farther.abs() >= EQUAL_MM {
                counts.1 += 1;
                counts.0 += u32::from((longer > 0.0) == (farther > 0.0));
            }
        }
    }
    counts
}
