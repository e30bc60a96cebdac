//! Blooms graded from small at the ends to large in the middle? (W. Kistler, American Floral Art School, FDP-04: one large in
//! the centre, medium around, smallest at the tips.)

use super::words::{Sentence, Wording};
use super::{Annotation, Finding, Measures, Subject, finding};

/// Radii that differ by less than this, mm, count as equal; below what an eye compares.
const EQUAL_MM: f64 = 1.0;
/// Places that differ by less than this share of the oval count as equally far out; our choice.
const LEVEL: f64 = 0.15;

/// Pairs of blooms of unlike size that lie unlike far out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SizeOrder {
    /// All such pairs.
    pub n_pairs: u32,
    /// Those in which the larger lies farther out.
    pub n_wrong: usize,
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
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
    let mut found = finding(subject, SizeOrder { n_pairs, n_wrong: wrong.len() }, share, "", 1.0 - share);
    found.annotations.extend(wrong.first().map(|disc| Annotation::ring(*disc)));
    Some(found)
}

impl Sentence for SizeOrder {
    fn sentence(&self, _: Wording) -> String {
        match self.n_wrong {
            0 => "Sizes step down from the centre to the tips.".to_owned(),
            _ => "A larger bloom sits farther out than a smaller one. Put small ones at the tips.".to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, head, hold, piece, sized};
    use crate::piece::{Piece, Question};

    /// Blooms by place along an oval that is 100 mm round, and size.
    fn along(blooms: &[(f64, f64)]) -> Piece {
        piece(100.0, 100.0, blooms.iter().map(|&(x, mm)| sized(head(x, 0.0), mm)))
    }

    #[test]
    fn the_score_is_the_share_of_pairs_that_step_down_outward() {
        hold(
            Question::GradedSizes,
            [
                ("the larger in the middle", along(&[(0.0, 24.0), (30.0, 20.0)]), 1.0),
                ("the larger outside", along(&[(0.0, 20.0), (-30.0, 24.0)]), 0.0),
                // Of three pairs one is wrong: 22 at 40 lies beyond 20 at 20.
                ("one pair of three", along(&[(0.0, 24.0), (20.0, 20.0), (40.0, 22.0)]), 1.0 - 1.0 / 3.0),
                ("radii that differ by 1 mm are compared", along(&[(0.0, 20.0), (30.0, 22.0)]), 0.0),
                ("places 0.15 of the oval apart are compared", along(&[(20.0, 20.0), (28.0, 24.0)]), 0.0),
            ],
        );
    }

    #[test]
    fn what_an_eye_does_not_tell_apart_is_not_judged() {
        let shop = Shop::new();
        for alike in [along(&[(0.0, 20.0), (30.0, 21.9)]), along(&[(20.0, 20.0), (27.0, 24.0)]), along(&[(0.0, 20.0)])]
        {
            assert_eq!(shop.ask(Question::GradedSizes, &alike), None);
        }
    }
}
