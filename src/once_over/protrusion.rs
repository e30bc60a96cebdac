//! Within the edges of the wrist? How far heads, bent round the wrist, reach past its edge as seen from above. The limit is a
//! shop rule (common practice, no source).

use super::{Finding, Measures, Remedy, SketchMark, Subject, finding, words};
use crate::piece::Question;

/// Over the limit by this much, mm, the score is 0; our choice.
const ZERO_AT_MM: f64 = 15.0;

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
    let farthest = measures.relief.farthest?;
    let (past, limit) = (measures.relief.past_edge_mm, subject.style.shape.protrusion_mm);
    let over = (past - limit).max(0.0);
    let says = if over > 0.0 { words::past_edge(past) } else { words::past_well(past) };
    let mut found = finding(Question::Protrusion, says, past, "mm", 1.0 - over / ZERO_AT_MM);
    if over > 0.0 {
        let disc = measures.heads.iter().find(|h| h.id == farthest).map(|h| h.disc);
        found.marks = disc.map(|d| SketchMark::Ring { centre: d.centre, radius: d.radius }).into_iter().collect();
        // Near the edge a step along the skin is seen as less than a step.
        found.remedies.push(Remedy::PullIn(farthest, 1.5 * over));
    }
    Some(found)
}
