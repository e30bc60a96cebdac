//! Is the bow seen? The share of its loops beside the parts.

use super::words::{Sentence, Wording};
use super::{Finding, Measures, Remedy, Subject, finding};

/// From this share on the bow is part of the piece; our choice.
const WELL_FROM: f64 = 0.12;

/// How much of the loops is seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BowShare {
    /// The share.
    pub seen: f64,
    /// From which on the bow is part of the piece.
    pub well_from: f64,
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
    let seen = measures.bow_seen?;
    let mut found = finding(subject, BowShare { seen, well_from: WELL_FROM }, seen, "", seen / WELL_FROM);
    if !found.is_well() {
        found.remedies.push(Remedy::LongerLoops);
    }
    Some(found)
}

impl Sentence for BowShare {
    fn sentence(&self, _: Wording) -> String {
        if self.seen >= self.well_from {
            "The bow is visible.".to_owned()
        } else {
            "The bow is hardly visible. Lengthen the loops.".to_owned()
        }
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::super::cases::{Shop, head, hold_to, piece, sized};
    use super::*;
    use crate::piece::{Bow, Edit, Piece, Question};
    use crate::stock::StockId;

    /// A loop to each side across the arm, 50 mm long and only 4 wide, and a head of 500 mm whose edge cuts the one at `u`.
    ///
    /// With t along the loop it reaches 50 (1 - u2), u = 1 - 2t, and stands open by a share of (1 - u2) u: beyond the cut lies
    /// the integral of (1 - u2) u2 from 0 to u over the whole 2 / 15, which is 2.5 u3 - 1.5 u5. The other loop is covered.
    fn cut(u: f64) -> Piece {
        tied([sized(head(0.0, 50.0 * (1.0 - u * u) - 250.0), 500.0)])
    }

    fn tied(parts: impl IntoIterator<Item = crate::piece::NewPart>) -> Piece {
        let bow = Bow {
            ribbon: StockId::new("satin-15"),
            colour: Arc::from("white"),
            loops_a_side: 1,
            loop_length_mm: 50.0,
            loop_width_mm: 4.0,
            tails: 0,
            tail_length_mm: 0.0,
            centre_loop: false,
        };
        piece(90.0, 54.0, parts).apply(&Edit::Tie(Some(bow))).unwrap()
    }

    #[test]
    fn twelve_hundredths_of_the_loops_are_enough() {
        // Drawn with 24 points a loop loses a little of its round end, so the figures hold to two hundredths.
        hold_to(
            0.02,
            Question::BowSeen,
            [
                ("all of it", tied([head(0.0, 200.0)]), 1.0),
                ("u = 0.5: 0.2656 of one is 0.1328 of both", cut(0.5), 1.0),
                ("u = 0.4: 0.1446 of one is 0.0723 of both", cut(0.4), 0.0723 / 0.12),
                ("u = 0.3: 0.0639 of one is 0.0319 of both", cut(0.3), 0.0319 / 0.12),
                ("none of it", tied([sized(head(0.0, 0.0), 120.0)]), 0.0),
            ],
        );
    }

    #[test]
    fn without_a_bow_nothing_is_asked() {
        let shop = Shop::new();
        assert_eq!(shop.ask(Question::BowSeen, &piece(90.0, 54.0, [head(0.0, 0.0)])), None);
        assert_eq!(shop.ask(Question::BowSeen, &cut(0.3)).unwrap().remedies, [Remedy::LongerLoops]);
        assert_eq!(shop.ask(Question::BowSeen, &cut(0.6)).unwrap().remedies, []);
    }
}
