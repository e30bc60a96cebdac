//! Is the bow seen? The share of its loops beside the parts.

use super::{Finding, Measures, Remedy, finding, words};
use crate::piece::Question;

/// From this share on the bow is part of the piece; our choice.
const WELL_FROM: f64 = 0.12;

pub(super) fn answer(measures: &Measures) -> Option<Finding> {
    let seen = measures.bow_seen?;
    let says = if seen >= WELL_FROM { words::bow_well(seen) } else { words::bow_hidden() };
    let mut found = finding(Question::BowSeen, says, seen, "", seen / WELL_FROM);
    if !found.is_well() {
        found.remedies.push(Remedy::LongerLoops);
    }
    Some(found)
}
