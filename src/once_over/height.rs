//! Flat enough over the wrist? Heads stacked on what below them does not give; the limit is a shop rule (common practice, no
//! source).

use super::{Finding, Measures, Remedy, Subject, finding, words};
use crate::piece::{Level, Question};

/// Over the limit by this share of it, the score is 0; our choice.
pub(crate) const ZERO_AT: f64 = 0.6;

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
    let highest = measures.relief.highest?;
    let (top, limit) = (measures.relief.top_mm, subject.style.height_limit_mm(&subject.piece.wishes));
    let over = (top - limit).max(0.0);
    let says = if over > 0.0 { words::height_over(top, limit) } else { words::height_well(top) };
    let mut found = finding(Question::Height, says, top, "mm", 1.0 - over / (ZERO_AT * limit.max(1.0)));
    if over > 0.0 {
        found.remedies.push(Remedy::MoveToRoom(highest));
    }
    let level = subject.piece.part(highest).map_or(Level::Flat, |p| p.level);
    if over > 0.0 && level != Level::Flat {
        let lower = if level == Level::Top { Level::Raised } else { Level::Flat };
        found.remedies.push(Remedy::Raise(vec![highest], lower));
    }
    Some(found)
}
