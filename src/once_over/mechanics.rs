//! Base and glue covered? What of the base under the middle is seen between the parts.

use super::measures::gap_disc;
use super::words::{Sentence, Wording};
use super::{Finding, Measures, Remedy, Subject, finding};
use crate::geometry::Point;

/// From this share on nothing of it is seen; our choice.
const WELL_FROM: f64 = 0.97;
/// At this share the score is 0; our choice.
const ZERO_AT: f64 = 0.4;

/// How much of the base is covered.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BaseCover {
    /// The share.
    pub covered: f64,
    /// From which on nothing of it is seen.
    pub well_from: f64,
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
    if !subject.is_on_wrist() {
        return None;
    }
    let covered = measures.base_covered;
    let score = (covered - ZERO_AT) / (WELL_FROM - ZERO_AT);
    let mut found = finding(subject, BaseCover { covered, well_from: WELL_FROM }, covered, "", score);
    if !found.is_well() {
        let nearest = measures.room.iter().min_by(|a, b| from_centre(a.centre).total_cmp(&from_centre(b.centre)));
        found.remedies.extend(nearest.map(|gap| Remedy::FillRoom(gap_disc(gap))));
    }
    Some(found)
}

fn from_centre(p: Point) -> f64 {
    p.to_vec2().hypot()
}

impl Sentence for BaseCover {
    fn sentence(&self, _: Wording) -> String {
        if self.covered >= self.well_from {
            "Base and glue are hidden.".to_owned()
        } else {
            let seen = (100.0 * (1.0 - self.covered)).max(1.0);
            format!("{seen:.0} % of the base shows. Cover it with a leaf or a sprig.")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, head, hold_to, on_lapel, piece, sized};
    use crate::piece::{Piece, Question};

    /// One head in the middle. The base is an oval of 16 by 12: a disc of radius r up to 12 covers r2 / 192 of it.
    fn disc(r: f64) -> Piece {
        piece(90.0, 54.0, [sized(head(0.0, 0.0), 2.0 * r)])
    }

    /// Of radius 14 the disc is cut by the oval for |x| below x0 = sqrt(52 / 0.4375) = 10.902, where 12 sqrt(1 - x2 / 256)
    /// lies below sqrt(196 - x2): four times the integral of the lesser is 553.707 of 603.186 mm2.
    const AT_14: f64 = 0.917_971_234_625;

    #[test]
    fn all_is_well_from_097_and_nothing_at_04() {
        hold_to(
            1e-6,
            Question::Mechanics,
            [
                ("a third", disc(8.0), 0.0),
                ("92.16 / 192 is 0.48", disc(9.6), 0.08 / 0.57),
                ("144 / 192 is 0.75", disc(12.0), 0.35 / 0.57),
                ("0.918", disc(14.0), (AT_14 - 0.4) / 0.57),
                ("all", disc(16.0), 1.0),
                ("bare", piece(90.0, 54.0, [head(40.0, 0.0)]), 0.0),
            ],
        );
    }

    #[test]
    fn the_gap_nearest_to_the_centre_is_filled_and_a_lapel_has_no_base() {
        let shop = Shop::new();
        let found = shop.ask(Question::Mechanics, &piece(90.0, 54.0, [head(40.0, 0.0)])).unwrap();
        assert_eq!(found.remedies.len(), 1);
        assert_eq!(shop.ask(Question::Mechanics, &disc(16.0)).unwrap().remedies, []);
        assert_eq!(shop.ask(Question::Mechanics, &on_lapel(disc(8.0))), None);
    }
}
