//! Round at the ends, not square at the corners? Hull of the blooms over their box: an ellipse fills 0.785 of it, a
//! rectangle all. Leaf tips would draw it toward a diamond, so blooms and accents alone are looked at.

use super::words::{Sentence, Wording};
use super::{Finding, Measures, Subject, finding};

/// Box fill from which blooms read as a rectangle: well above a row of discs with round ends (0.93). Our choice by eye.
const SQUARE_FROM: f64 = 0.93;

/// How much of their box the blooms and accents fill.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CornerFill {
    /// Area of the hull over that of the box.
    pub box_fill: f64,
    /// From which on corners look square.
    pub square_from: f64,
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
    let outline = measures.bloom_outline.as_ref().filter(|_| measures.heads.len() >= 3)?;
    let fill = outline.box_fill;
    let square = ((fill - SQUARE_FROM) / (1.0 - SQUARE_FROM)).clamp(0.0, 1.0);
    let observed = CornerFill { box_fill: fill, square_from: SQUARE_FROM };
    Some(finding(subject, observed, fill, "", 1.0 - square))
}

impl Sentence for CornerFill {
    fn sentence(&self, _: Wording) -> String {
        let square = self.box_fill > self.square_from;
        if square { "Square corners. Move the corner blooms inward." } else { "Rounded at the ends." }.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, head, hold, piece};
    use crate::piece::{Piece, Question};

    /// Hull of discs of radius r at the corners of a rectangle: it loses (4 - pi) r2 at the corners of its box.
    const LOST: f64 = (4.0 - std::f64::consts::PI) * 100.0;

    fn corners(a: f64, b: f64) -> Piece {
        piece(90.0, 54.0, [head(a, b), head(-a, b), head(a, -b), head(-a, -b)])
    }

    #[test]
    fn it_is_square_from_093_of_the_box_and_wholly_at_all_of_it() {
        let score = |fill: f64| 1.0 - (fill - 0.93) / 0.07;
        hold(
            Question::Squareness,
            [
                ("a box of 60 by 60", corners(20.0, 20.0), score(1.0 - LOST / 3600.0)),
                ("a box of 100 by 50", corners(40.0, 15.0), score(1.0 - LOST / 5000.0)),
                // A row of three with round ends: 1 - 85.84 / (60 x 20) = 0.9285, just within.
                ("60 by 20", piece(90.0, 54.0, [head(-20.0, 0.0), head(0.0, 0.0), head(20.0, 0.0)]), 1.0),
                // 1 - 85.84 / (64 x 20) = 0.9329, just beyond.
                (
                    "64 by 20",
                    piece(90.0, 54.0, [head(-22.0, 0.0), head(0.0, 0.0), head(22.0, 0.0)]),
                    score(1.0 - LOST / 1280.0),
                ),
            ],
        );
    }

    #[test]
    fn two_heads_have_no_corners() {
        let shop = Shop::new();
        let two = piece(90.0, 54.0, [head(-20.0, 20.0), head(20.0, -20.0)]);
        assert_eq!(shop.ask(Question::Squareness, &two), None);
    }
}
