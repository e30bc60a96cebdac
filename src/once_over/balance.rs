//! In balance about the centre? Torques of blooms and accents about the two axes (after D. Ngo, L. Teo, J. Byrne, Information
//! Sciences 152:25-46, 2003; formula from memory). A piece that is lopsided on purpose sets this question aside.

use super::words::{Sentence, Wording, direction};
use super::{Annotation, Finding, Measures, Remedy, Subject, finding};
use crate::geometry::{Point, Weighted, centre_of_weight};

/// From this balance on nobody sees it tip; our choice.
const WELL_FROM: f64 = 0.7;
/// At this balance the score is 0; our choice.
const ZERO_AT: f64 = 0.1;

/// How blooms and accents balance about the centre.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TorqueBalance {
    /// 1 in balance, 0 when all lies in one corner.
    pub balance: f64,
    /// From which on nobody sees it tip.
    pub well_from: f64,
    /// Where the weights meet.
    pub heavy: Point,
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
    if measures.heads.is_empty() || !subject.is_on_wrist() {
        return None;
    }
    let balance = measures.sides.balance();
    let weights: Vec<Weighted> = measures.heads.iter().map(|h| Weighted { disc: h.disc, weight: 1.0 }).collect();
    let heavy = centre_of_weight(&weights).unwrap_or(Point::ZERO);
    let score = (balance - ZERO_AT) / (WELL_FROM - ZERO_AT);
    let observed = TorqueBalance { balance, well_from: WELL_FROM, heavy };
    let mut found = finding(subject, observed, balance, "", score);
    if !found.is_well() {
        found.annotations = vec![Annotation::Axis { from: Point::ZERO, to: heavy }];
        found.remedies.push(Remedy::MoveAll(-heavy.to_vec2()));
    }
    Some(found)
}

impl Sentence for TorqueBalance {
    fn sentence(&self, _: Wording) -> String {
        if self.balance >= self.well_from {
            "Balanced about the centre.".to_owned()
        } else {
            format!("Heavier {}. If that is intended, ignore this.", direction(self.heavy))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, head, hold, on_lapel, piece};
    use super::*;
    use crate::piece::{Piece, Question};

    fn row(xs: &[f64]) -> Piece {
        piece(90.0, 54.0, xs.iter().map(|&x| head(x, 0.0)))
    }

    /// Equal heads clear of the axis: torques are as their distances. Balance is 1 less half of what the lighter side lacks
    /// of the heavier along the arm, less half of the same across it.
    #[test]
    fn balance_counts_from_07_down_to_01() {
        hold(
            Question::Balance,
            [
                ("20 against 20", row(&[20.0, -20.0]), 1.0),
                ("12 against 30: 1 - 0.6 / 2 is 0.7", row(&[30.0, -12.0]), 1.0),
                ("10 against 30: 1 - 1/3 is 0.667", row(&[30.0, -10.0]), (2.0 / 3.0 - 0.1) / 0.6),
                ("nothing against 20: 0.5", row(&[-20.0]), 0.4 / 0.6),
                ("all in one corner: 0", piece(90.0, 54.0, [head(20.0, 20.0)]), 0.0),
            ],
        );
    }

    #[test]
    fn all_are_moved_by_as_much_as_the_middle_of_the_weight_is_off() {
        let shop = Shop::new();
        let found = shop.ask(Question::Balance, &row(&[30.0, -10.0])).unwrap();
        let [Remedy::MoveAll(by)] = found.remedies[..] else { panic!("{found:?}") };
        assert!((by - crate::geometry::Vec2::new(-10.0, 0.0)).hypot() < 1e-9, "{by}");
        assert_eq!(shop.ask(Question::Balance, &row(&[30.0, -12.5])).unwrap().remedies, []);
        assert_eq!(shop.ask(Question::Balance, &on_lapel(row(&[30.0]))), None);
    }
}
