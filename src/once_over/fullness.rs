//! Neither crowded nor thin: areas of blooms and accents against the oval. The limits are a shop rule (common practice,
//! no source).

use std::f64::consts::PI;

use super::{Finding, Measures, Remedy, Subject, finding, words};
use crate::piece::{Footprint, Question};

/// Over the limit by this much, the score is 0; our choice.
const ZERO_OVER: f64 = 0.6;
/// A longer oval is proposed in whole steps of this, mm.
const LENGTH_STEP_MM: f64 = 2.0;

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Finding {
    let [least, most] = subject.style.shape.fullness;
    let full = measures.fullness;
    if full < least {
        return finding(Question::Fullness, words::full_thin(full, least), full, "", full / least);
    }
    if full <= most {
        return finding(Question::Fullness, words::full_well(full), full, "", 1.0);
    }
    let longer = longer_oval(subject, full, most);
    let longer_helps = longer.length_mm > subject.piece.footprint.length_mm;
    let says = if longer_helps {
        words::full_crowded(full, most, longer.length_mm)
    } else {
        words::full_crowded_at_most(full, most)
    };
    let mut found = finding(Question::Fullness, says, full, "", 1.0 - (full - most) / ZERO_OVER);
    if longer_helps {
        found.remedies.push(Remedy::Lengthen(longer));
    }
    found
}

/// The oval of the same width that holds the blooms comfortably, no longer than the house's proportions allow.
fn longer_oval(subject: Subject<'_>, full: f64, most: f64) -> Footprint {
    let now = subject.piece.footprint;
    let blooms = full * PI / 4.0 * now.length_mm * now.width_mm;
    let wanted = blooms / most * 4.0 / (PI * now.width_mm);
    let allowed = subject.style.shape.length_to_width[1] * now.width_mm;
    let length_mm = ((wanted / LENGTH_STEP_MM).ceil() * LENGTH_STEP_MM).min(allowed).max(now.length_mm);
    Footprint { length_mm, ..now }
}
