//! A bloom at each end of the oval's axes? The first four blooms go there (common practice, no source); a piece of few blooms
//! needs the two ends along the arm only.

use super::{Finding, Measures, Remedy, SketchMark, finding, words};
use crate::geometry::Point;
use crate::piece::Question;

/// From this many blooms on the ends across the arm are looked at too; our choice.
const FOUR_FROM: usize = 5;
/// Fewer blooms than this take no ends; our choice.
const NEEDED_FROM: usize = 3;
/// An outline that comes this near to the end, mm, takes it; our choice.
const NEAR_MM: f64 = 7.0;
/// Beyond this distance, mm, an end earns nothing; our choice.
const FAR_MM: f64 = 25.0;

pub(super) fn answer(measures: &Measures) -> Option<Finding> {
    let n_blooms = measures.n_blooms();
    if n_blooms < NEEDED_FROM {
        return None;
    }
    let (a, b) = (measures.oval.a, measures.oval.b);
    let along = [Point::new(a, 0.0), Point::new(-a, 0.0)];
    let across = [Point::new(0.0, b), Point::new(0.0, -b)];
    let ends: Vec<Point> =
        if n_blooms >= FOUR_FROM { along.into_iter().chain(across).collect() } else { along.to_vec() };
    let distance = |end: &Point| {
        let to_outlines = measures.heads.iter().map(|h| (h.disc.centre.distance(*end) - h.disc.radius).abs());
        to_outlines.min_by(f64::total_cmp).unwrap_or(f64::INFINITY)
    };
    let earned = |end: &Point| (1.0 - (distance(end) - NEAR_MM) / (FAR_MM - NEAR_MM)).clamp(0.0, 1.0);
    let score = ends.iter().map(earned).sum::<f64>() / ends.len() as f64;
    let bare: Vec<Point> = ends.iter().copied().filter(|end| distance(end) > NEAR_MM).collect();
    let says = match bare.first() {
        None => words::ends_well(ends.len()),
        Some(end) => words::ends_bare(bare.len(), &words::place(*end)),
    };
    let mut found = finding(Question::AxisEnds, says, (ends.len() - bare.len()) as f64, "", score);
    found.marks = bare.iter().map(|end| SketchMark::Ring { centre: *end, radius: 6.0 }).collect();
    found.remedies.extend(bare.first().map(|end| Remedy::TakeEnd(*end)));
    Some(found)
}
