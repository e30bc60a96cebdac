//! In balance about the centre? Torques of blooms and accents about the two axes (after D. Ngo, L. Teo, J. Byrne, Information
//! Sciences 152:25-46, 2003; formula from memory). A piece that is lopsided on purpose sets this question aside.

use super::{Finding, Measures, Remedy, SketchMark, finding, words};
use crate::geometry::{Point, Weighted, centre_of_weight};
use crate::piece::Question;

/// From this balance on nobody sees it tip; our choice.
const WELL_FROM: f64 = 0.7;
/// At this balance the score is 0; our choice.
const ZERO_AT: f64 = 0.1;

pub(super) fn answer(measures: &Measures) -> Option<Finding> {
    if measures.heads.is_empty() {
        return None;
    }
    let balance = measures.sides.balance();
    let weights: Vec<Weighted> = measures.heads.iter().map(|h| Weighted { disc: h.disc, weight: 1.0 }).collect();
    let heavy = centre_of_weight(&weights).unwrap_or(Point::ZERO);
    let score = (balance - ZERO_AT) / (WELL_FROM - ZERO_AT);
    let says = if balance >= WELL_FROM { words::balance_well() } else { words::balance_tips(&words::place(heavy)) };
    let mut found = finding(Question::Balance, says, balance, "", score);
    if !found.is_well() {
        found.marks = vec![SketchMark::Axis { from: Point::ZERO, to: heavy }];
        found.remedies.push(Remedy::MoveAll(-heavy.to_vec2()));
    }
    Some(found)
}
