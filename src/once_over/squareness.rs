//! Round at the ends, not square at the corners? Hull of the blooms over their box: an ellipse fills 0.785 of it, a
//! rectangle all. Leaf tips would draw it toward a diamond, so blooms and accents alone are looked at.

use super::{Finding, Measures, finding, words};
use crate::piece::Question;

/// Box fill from which blooms read as a rectangle: well above a row of discs with round ends (0.93). Our choice by eye.
const SQUARE_FROM: f64 = 0.93;

pub(super) fn answer(measures: &Measures) -> Option<Finding> {
    let outline = measures.bloom_outline.as_ref().filter(|_| measures.heads.len() >= 3)?;
    let fill = outline.box_fill;
    let square = ((fill - SQUARE_FROM) / (1.0 - SQUARE_FROM)).clamp(0.0, 1.0);
    let says = if square > 0.0 { words::corners_square(fill) } else { words::corners_round(fill) };
    Some(finding(Question::Squareness, says, fill, "", 1.0 - square))
}
