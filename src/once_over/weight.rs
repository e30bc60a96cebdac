//! Light enough? No comfortable mass is published; a plain limit of the house (common practice, no source), against planning
//! figures for each bloom.

use super::{Finding, Measures, Subject, finding, words};
use crate::piece::Question;

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Finding {
    let (mass, limit) = (measures.mass_g, subject.style.shape.mass_g);
    let over = (mass - limit).max(0.0);
    let says = if over > 0.0 { words::mass_over(mass, limit) } else { words::mass_well(mass) };
    finding(Question::Weight, says, mass, "g", 1.0 - over / limit.max(1.0))
}
