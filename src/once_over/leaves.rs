//! Leaves lengthwise, the smaller ones outward? (Common practice, no source.)

use std::f64::consts::{FRAC_PI_2, PI};

use super::words::{Sentence, Wording};
use super::{Annotation, Finding, Measures, Remedy, Subject, finding};
use crate::geometry::Lens;
use crate::piece::PartId;

/// Within this, degrees, a leaf lies along the arm; our choice.
const LENGTHWISE_WITHIN: f64 = 35.0;
/// Across the arm, degrees, where a leaf earns nothing.
const CROSSWISE: f64 = 90.0;
/// Share of the score that the order of sizes makes; our choice.
const ORDER_SHARE: f64 = 0.3;
/// Lengths that differ by less than this, mm, count as equal; below what an eye compares.
const EQUAL_MM: f64 = 2.0;

/// How the leaves lie.
#[derive(Clone, Debug, PartialEq)]
pub struct LeafDirections {
    /// All of them.
    pub n: usize,
    /// Those that lie across the arm.
    pub crosswise: Vec<PartId>,
    /// Pairs in which the longer lies farther out.
    pub n_wrong: u32,
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
    if measures.leaves.is_empty() {
        return None;
    }
    let off: Vec<(PartId, f64)> = measures.leaves.iter().map(|(id, leaf)| (*id, askew_degrees(leaf))).collect();
    let earned = |d: f64| (1.0 - (d - LENGTHWISE_WITHIN) / (CROSSWISE - LENGTHWISE_WITHIN)).clamp(0.0, 1.0);
    let lengthwise = off.iter().map(|(_, d)| earned(*d)).sum::<f64>() / off.len() as f64;
    let (n_wrong, pairs) = order(measures);
    let ordered = if pairs == 0 { 1.0 } else { 1.0 - f64::from(n_wrong) / f64::from(pairs) };
    let crosswise: Vec<PartId> = off.iter().filter(|(_, d)| *d > LENGTHWISE_WITHIN).map(|(id, _)| *id).collect();
    let score = lengthwise * (1.0 - ORDER_SHARE) + ordered * ORDER_SHARE;
    let observed = LeafDirections { n: off.len(), crosswise: crosswise.clone(), n_wrong };
    let mut found = finding(subject, observed, crosswise.len() as f64, "", score);
    if let Some(first) = crosswise.first() {
        let leaf = measures.leaves.iter().find(|(id, _)| id == first);
        let axis = |(_, leaf): &(PartId, Lens)| Annotation::Axis { from: leaf.tips()[1], to: leaf.tips()[0] };
        found.annotations = leaf.map(axis).into_iter().collect();
        found.remedies.push(Remedy::LayLengthwise(crosswise));
    }
    Some(found)
}

/// Degrees between a leaf and the arm, 0 to 90.
fn askew_degrees(leaf: &Lens) -> f64 {
    ((leaf.turn + FRAC_PI_2).rem_euclid(PI) - FRAC_PI_2).abs().to_degrees()
}

/// Pairs toward the same end in which the longer leaf lies farther out, and all pairs of unlike length.
fn order(measures: &Measures) -> (u32, u32) {
    let mut counts = (0, 0);
    for (i, (_, first)) in measures.leaves.iter().enumerate() {
        for (_, second) in &measures.leaves[i + 1..] {
            let same_end = first.centre.x.signum() == second.centre.x.signum();
            let longer = first.length - second.length;
            let farther = first.centre.x.abs() - second.centre.x.abs();
            if same_end && longer.abs() >= EQUAL_MM && farther.abs() >= EQUAL_MM {
                counts.1 += 1;
                counts.0 += u32::from((longer > 0.0) == (farther > 0.0));
            }
        }
    }
    counts
}

impl Sentence for LeafDirections {
    fn sentence(&self, _: Wording) -> String {
        match (self.crosswise.len(), self.n_wrong) {
            (0, 0) => match self.n {
                1 => "The leaf lies lengthwise.".to_owned(),
                2 => "Both leaves lie lengthwise.".to_owned(),
                n => format!("All {n} leaves lie lengthwise."),
            },
            (0, _) => "Larger leaves are at the tips. Put smaller ones there.".to_owned(),
            (1, _) => "A leaf lies across the arm and could catch. Lay it lengthwise.".to_owned(),
            (n, _) => format!("{n} leaves lie across the arm and could catch. Lay them lengthwise."),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, blade, hold, nth, piece, sized};
    use super::*;
    use crate::piece::{Piece, Question};

    fn lying(degrees: f64) -> Piece {
        piece(90.0, 54.0, [blade(20.0, 0.0, degrees)])
    }

    /// Two leaves along the arm at these places, of these lengths.
    fn two([x, mm]: [f64; 2], [other_x, other_mm]: [f64; 2]) -> Piece {
        piece(90.0, 54.0, [sized(blade(x, 0.0, 0.0), mm), sized(blade(other_x, 0.0, 0.0), other_mm)])
    }

    #[test]
    fn thirty_five_degrees_are_lengthwise_and_crosswise_leaves_the_share_of_order() {
        hold(
            Question::Leaves,
            [
                ("straight", lying(0.0), 1.0),
                ("34.9 degrees", lying(34.9), 1.0),
                ("36 degrees: 0.7 x (1 - 1 / 55) + 0.3", lying(36.0), 0.7 * (1.0 - 1.0 / 55.0) + 0.3),
                ("62.5 degrees: 0.7 x 0.5 + 0.3", lying(62.5), 0.65),
                ("its tip toward the hand", lying(180.0 - 62.5), 0.65),
                ("crosswise", lying(90.0), 0.3),
                (
                    "one of two crosswise",
                    piece(90.0, 54.0, [blade(20.0, 0.0, 0.0), blade(-20.0, 0.0, 90.0)]),
                    0.7 * 0.5 + 0.3,
                ),
            ],
        );
    }

    #[test]
    fn the_shorter_leaf_belongs_farther_out() {
        hold(
            Question::Leaves,
            [
                ("the shorter farther out", two([20.0, 50.0], [30.0, 40.0]), 1.0),
                ("the longer farther out: 0.7 + 0.3 x 0", two([20.0, 40.0], [30.0, 50.0]), 0.7),
                ("the same toward the hand", two([-20.0, 40.0], [-30.0, 50.0]), 0.7),
                ("at unlike ends", two([-20.0, 40.0], [30.0, 50.0]), 1.0),
                ("2 mm longer and 2 mm farther", two([20.0, 40.0], [22.0, 42.0]), 0.7),
                ("1.9 mm longer", two([20.0, 40.0], [30.0, 41.9]), 1.0),
                ("1.9 mm farther", two([20.0, 40.0], [21.9, 50.0]), 1.0),
            ],
        );
    }

    #[test]
    fn the_crosswise_ones_are_laid_lengthwise() {
        let shop = Shop::new();
        let two = piece(90.0, 54.0, [blade(20.0, 0.0, 10.0), blade(-20.0, 0.0, 80.0)]);
        assert_eq!(shop.ask(Question::Leaves, &two).unwrap().remedies, [Remedy::LayLengthwise(vec![nth(2)])]);
        assert_eq!(shop.ask(Question::Leaves, &lying(0.0)).unwrap().remedies, []);
        assert_eq!(shop.ask(Question::Leaves, &piece(90.0, 54.0, [super::super::cases::head(0.0, 0.0)])), None);
    }
}
