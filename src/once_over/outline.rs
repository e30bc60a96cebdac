//! Oval and narrow, not wide or square?

use std::f64::consts::FRAC_PI_4;

use super::{Finding, Measures, Remedy, SketchMark, finding, words};
use crate::geometry::Point;
use crate::piece::{HouseStyle, Question};

/// Box fill from which blooms read as a rectangle: well above a row of discs with round ends (0.93). Our choice by eye.
const SQUARE_FROM: f64 = 0.93;
/// Share of the score that a fully square outline costs; our choice.
const SQUARE_COST: f64 = 0.5;

pub(super) fn answer(style: &HouseStyle, measures: &Measures) -> Finding {
    let limits @ [from, to] = style.shape.length_to_width;
    let Some(outline) = &measures.outline else {
        return finding(Question::Outline, words::nothing_yet(), 0.0, "", 0.0);
    };
    let ratio = measures.along_mm / measures.across_mm;
    let fill = measures.bloom_outline.as_ref().map_or(FRAC_PI_4, |o| o.box_fill);
    let square = ((fill - SQUARE_FROM) / (1.0 - SQUARE_FROM)).clamp(0.0, 1.0);
    let proportion = proportion_score(ratio, limits);
    let score = proportion * (1.0 - SQUARE_COST * square);
    let says = if ratio < from {
        words::outline_wide(ratio, limits)
    } else if ratio > to {
        words::outline_narrow(ratio, limits)
    } else if square > 0.0 {
        words::outline_square(fill)
    } else {
        words::outline_well(ratio)
    };
    let mut found = finding(Question::Outline, says, ratio, "", score);
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

/// 1 within the limits, falling to 0 at half the lower and at twice and a half the upper limit; too narrow is a lesser
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
