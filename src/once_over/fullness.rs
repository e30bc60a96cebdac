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

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, head, hold, on_lapel, piece};
    use super::*;
    use crate::piece::Piece;

    /// On a round of 80 mm each head of 20 mm makes a sixteenth: 10 x 10 of 40 x 40.
    fn of(n: usize) -> Piece {
        piece(80.0, 80.0, (0..n).map(|_| head(0.0, 0.0)))
    }

    #[test]
    fn thin_earns_its_share_and_crowded_falls_by_06() {
        hold(
            Question::Fullness,
            [
                ("8/16 of 0.6", of(8), 0.5 / 0.6),
                ("9/16 of 0.6", of(9), 0.5625 / 0.6),
                ("10/16", of(10), 1.0),
                ("16/16", of(16), 1.0),
                ("17/16 is 0.0125 over 1.05", of(17), 1.0 - 0.0125 / 0.6),
                ("22/16 is 0.325 over", of(22), 1.0 - 0.325 / 0.6),
                ("27/16 is 0.6375 over", of(27), 0.0),
            ],
        );
    }

    #[test]
    fn a_longer_oval_is_offered_up_to_the_longest_that_suits() {
        let shop = Shop::new();
        let remedies = |p: &Piece| shop.ask(Question::Fullness, p).unwrap().remedies;
        let length = |p: &Piece, mm: f64| Remedy::Lengthen(Footprint { length_mm: mm, ..p.footprint });
        // 17 heads: 80 x 1.0625 / 1.05 is 80.95, in steps of 2.
        assert_eq!(remedies(&of(17)), [length(&of(17), 82.0)]);
        // 60 heads would want 285.7; 2.2 x 80 is the longest that suits.
        assert_eq!(remedies(&of(60)), [length(&of(60), 176.0)]);
        let mut longest = of(60);
        longest.footprint.length_mm = 176.0;
        assert_eq!(remedies(&longest), []);
        assert_eq!(shop.ask(Question::Fullness, &on_lapel(of(2))), None);
    }
}
