//! Oval and narrow, not wide? Length over width on the arm's own axes.

use super::{Finding, Measures, Remedy, SketchMark, finding, words};
use crate::geometry::Point;
use crate::piece::{HouseStyle, Question};

pub(super) fn answer(style: &HouseStyle, measures: &Measures) -> Finding {
    let limits @ [from, to] = style.shape.length_to_width;
    let Some(outline) = &measures.outline else {
        return finding(Question::Outline, words::nothing_yet(), 0.0, "", 0.0);
    };
    let ratio = measures.along_mm / measures.across_mm;
    let says = if ratio < from {
        words::outline_wide(ratio, limits)
    } else if ratio > to {
        words::outline_narrow(ratio, limits)
    } else {
        words::outline_well(ratio)
    };
    let mut found = finding(Question::Outline, says, ratio, "", proportion_score(ratio, limits));
    if !found.is_well() {
        let b = outline.bounds;
        found.marks = vec![
            SketchMark::Ruler { from: Point::new(b.x0, b.y1), to: Point::new(b.x1, b.y1) },
            SketchMark::Ruler { from: Point::new(b.x0, b.y0), to: Point::new(b.x0, b.y1) },
        ];
    }
    if ratio < from {
        found.remedies.push(Remedy::DrawInToRatio(from));
    }
    found
}

/// 1 within the limits, falling to 0 at half the lower and at two and a half times the upper limit; too narrow is a lesser
/// fault than too wide, for leaves mend it.
fn proportion_score(ratio: f64, [from, to]: [f64; 2]) -> f64 {
    if ratio < from {
        1.0 - 2.0 * (from - ratio) / from
    } else if ratio > to {
        1.0 - (ratio - to) / (1.5 * to)
    } else {
        1.0
    }
}
