//! Narrow enough for this wrist? The limit is a share of the girth: a shop rule (common practice, no source).

use super::{Finding, Measures, Remedy, SketchMark, Subject, finding, words};
use crate::geometry::Point;
use crate::piece::Question;

/// Over the limit by this share of it, the score is 0; our choice.
const ZERO_AT: f64 = 0.4;

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Finding {
    let (across, limit, girth) = (measures.across_mm, measures.width_limit_mm, &subject.wrist.girth);
    let over = (across - limit).max(0.0);
    let score = if limit > 0.0 { 1.0 - over / (ZERO_AT * limit) } else { 0.0 };
    let says =
        if over > 0.0 { words::width_over(across, limit, girth) } else { words::width_well(across, limit, girth) };
    let mut found = finding(Question::WidthOnWrist, says, across, "mm", score);
    if let Some(outline) = measures.outline.as_ref().filter(|_| over > 0.0) {
        let b = outline.bounds;
        found.marks = vec![SketchMark::Ruler { from: Point::new(0.0, b.y0), to: Point::new(0.0, b.y1) }];
        found.remedies.push(Remedy::DrawInToWidth(limit));
    }
    found
}
