//! Base and glue covered? What of the base under the middle is seen between the parts.

use super::{Finding, Measures, Remedy, finding, words};
use crate::geometry::{Disc, Point};
use crate::piece::Question;

/// From this share on nothing of it is seen; our choice.
const WELL_FROM: f64 = 0.97;
/// At this share the score is 0; our choice.
const ZERO_AT: f64 = 0.4;

pub(super) fn answer(measures: &Measures) -> Finding {
    let covered = measures.base_covered;
    let score = (covered - ZERO_AT) / (WELL_FROM - ZERO_AT);
    let says = if covered >= WELL_FROM { words::base_well() } else { words::base_seen(1.0 - covered) };
    let mut found = finding(Question::Mechanics, says, covered, "", score);
    if !found.is_well() {
        let nearest = measures.room.iter().min_by(|a, b| from_centre(a.centre).total_cmp(&from_centre(b.centre)));
        found.remedies.extend(nearest.map(|g| Remedy::FillRoom(Disc { centre: g.centre, radius: g.radius })));
    }
    found
}

fn from_centre(p: Point) -> f64 {
    p.to_vec2().hypot()
}
