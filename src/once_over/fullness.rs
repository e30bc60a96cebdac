//! Neither crowded nor thin: areas of blooms and accents against the oval. The limits are a shop rule (common practice,
//! no source).

use std::f64::consts::PI;

use super::words::{Sentence, Wording};
use super::{Finding, Measures, Remedy, Subject, finding};
use crate::piece::Footprint;

/// Over the limit by this much, the score is 0; our choice.
const ZERO_OVER: f64 = 0.6;
/// A longer oval is proposed in whole steps of this, mm.
const LENGTH_STEP_MM: f64 = 2.0;

/// Areas of blooms and accents over the area of the oval.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BloomFill {
    /// The share.
    pub share: f64,
    /// From, to.
    pub limits: [f64; 2],
    /// Length of the oval that would hold them, mm, where a longer one helps.
    pub longer_mm: Option<f64>,
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
    if !subject.is_on_wrist() {
        return None;
    }
    let limits @ [least, most] = subject.style.shape.fullness;
    let share = measures.fullness;
    let score = match share {
        thin if thin < least => thin / least,
        full if full <= most => 1.0,
        crowded => 1.0 - (crowded - most) / ZERO_OVER,
    };
    let longer = Some(longer_oval(subject, share, most))
        .filter(|longer| share > most && longer.length_mm > subject.piece.footprint.length_mm);
    let observed = BloomFill { share, limits, longer_mm: longer.map(|oval| oval.length_mm) };
    let mut found = finding(subject, observed, share, "", score);
    found.remedies.extend(longer.map(Remedy::Lengthen));
    Some(found)
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

impl Sentence for BloomFill {
    fn sentence(&self, words: Wording) -> String {
        let Self { share, limits: [least, most], longer_mm } = self;
        match longer_mm {
            _ if share < least => "Looks sparse. Add blooms, or shorten the oval.".to_owned(),
            _ if share <= most => "Comfortably full.".to_owned(),
            Some(mm) => format!("Crowded. Lengthen the oval to {}, or use fewer blooms.", words.length(*mm)),
            None => "Crowded, and as long as your rules allow. Use fewer or smaller blooms.".to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, head, hold, on_lapel, piece};
    use super::*;
    use crate::piece::{Piece, Question};

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
