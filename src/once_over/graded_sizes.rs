//! Blooms graded from small at the ends to large in the middle? (W. Kistler, American Floral Art School, FDP-04: one large in
//! the centre, medium around, smallest at the tips.)

use super::{Finding, Measures, SketchMark, finding, words};
use crate::piece::Question;

/// Radii that differ by less than this, mm, count as equal; below what an eye compares.
const EQUAL_MM: f64 = 1.0;
/// Places that differ by less than this share of the oval count as equally far out; our choice.
const LEVEL: f64 = 0.15;

pub(super) fn answer(measures: &Measures) -> Option<Finding> {
    let blooms: Vec<_> = measures.blooms().map(|h| (h.disc, measures.oval.gauge(h.disc.centre))).collect();
    let mut n_pairs = 0_u32;
    let mut wrong = Vec::new();
    for (i, (first, first_out)) in blooms.iter().enumerate() {
        for (second, second_out) in &blooms[i + 1..] {
            let (size, out) = (first.radius - second.radius, first_out - second_out);
            if size.abs() < EQUAL_MM || out.abs() < LEVEL {
                continue;
            }
            n_pairs += 1;
            if (size > 0.0) == (out > 0.0) {
                wrong.push(if size > 0.0 { *first } else { *second });
            }
        }
    }
    if n_pairs == 0 {
        return None;
    }
    let share = wrong.len() as f64 / f64::from(n_pairs);
    let says = if wrong.is_empty() { words::graded_well() } else { words::graded_off() };
    let mut found = finding(Question::GradedSizes, says, share, "", 1.0 - share);
    found.marks = wrong.first().map(|d| SketchMark::Ring { centre: d.centre, radius: d.radius }).into_iter().collect();
    Some(found)
}
