//! A bloom at each end of the oval's axes? The first four blooms go there (common practice, no source); a piece of few blooms
//! needs the two ends along the arm only.

use super::words::{Sentence, Wording, capitalised};
use super::{Annotation, Finding, Measures, Remedy, Subject, finding};
use crate::geometry::Point;

/// From this many blooms on the ends across the arm are looked at too; our choice.
const FOUR_FROM: usize = 5;
/// Fewer blooms than this take no ends; our choice.
const NEEDED_FROM: usize = 3;
/// An outline that comes this near to the end, mm, takes it; our choice.
const NEAR_MM: f64 = 7.0;
/// Beyond this distance, mm, an end earns nothing; our choice.
const FAR_MM: f64 = 25.0;

/// Ends of the oval, and those without a bloom.
#[derive(Clone, Debug, PartialEq)]
pub struct FilledEnds {
    /// How many are looked at.
    pub n_ends: usize,
    /// The empty ones.
    pub empty: Vec<Point>,
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
    let n_blooms = measures.n_blooms();
    if n_blooms < NEEDED_FROM {
        return None;
    }
    let (a, b) = (measures.oval.a, measures.oval.b);
    let along = [Point::new(a, 0.0), Point::new(-a, 0.0)];
    let across = [Point::new(0.0, b), Point::new(0.0, -b)];
    let ends: Vec<Point> =
        if n_blooms >= FOUR_FROM { along.into_iter().chain(across).collect() } else { along.to_vec() };
    let distance = |end: &Point| {
        let to_outlines = measures.heads.iter().map(|h| (h.disc.centre.distance(*end) - h.disc.radius).abs());
        to_outlines.min_by(f64::total_cmp).unwrap_or(f64::INFINITY)
    };
    let earned = |end: &Point| (1.0 - (distance(end) - NEAR_MM) / (FAR_MM - NEAR_MM)).clamp(0.0, 1.0);
    let score = ends.iter().map(earned).sum::<f64>() / ends.len() as f64;
    let empty: Vec<Point> = ends.iter().copied().filter(|end| distance(end) > NEAR_MM).collect();
    let n_filled = ends.len() - empty.len();
    let observed = FilledEnds { n_ends: ends.len(), empty: empty.clone() };
    let mut found = finding(subject, observed, n_filled as f64, "", score);
    found.annotations = empty.iter().map(|end| Annotation::Ring { centre: *end, radius: 6.0 }).collect();
    found.remedies.extend(empty.first().map(|end| Remedy::TakeEnd(*end)));
    Some(found)
}

impl Sentence for FilledEnds {
    fn sentence(&self, _: Wording) -> String {
        let names: Vec<&str> = self.empty.iter().map(|end| end_name(*end)).collect();
        match &names[..] {
            [] if self.n_ends == 2 => "Both ends are filled.".to_owned(),
            [] => format!("All {} ends are filled.", self.n_ends),
            [one] => format!("{} is empty.", capitalised(one)),
            [first @ .., last] => format!("{} and {last} are empty.", capitalised(&first.join(", "))),
        }
    }
}

fn end_name(end: Point) -> &'static str {
    match (end.x, end.y) {
        (x, _) if x > 0.0 => "elbow end",
        (x, _) if x < 0.0 => "hand end",
        (_, y) if y > 0.0 => "right side",
        _ => "left side",
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, head, hold, piece};
    use super::*;
    use crate::piece::{Piece, Question};

    /// Heads of 10 mm radius on an oval of 80 by 40: from (x, 0) the end at 40 lies 40 - x - 10 from the outline.
    fn row(xs: &[f64]) -> Piece {
        piece(80.0, 40.0, xs.iter().map(|&x| head(x, 0.0)))
    }

    #[test]
    fn an_end_is_taken_within_seven_millimetres_and_earns_nothing_beyond_twenty_five() {
        hold(
            Question::AxisEnds,
            [
                ("at both ends", row(&[30.0, 0.0, -30.0]), 1.0),
                ("7 mm off", row(&[23.0, 0.0, -23.0]), 1.0),
                ("8 mm off: 1 - 1 / 18", row(&[22.0, 0.0, -22.0]), 1.0 - 1.0 / 18.0),
                ("16 mm off: 1 - 9 / 18", row(&[14.0, 0.0, -14.0]), 0.5),
                ("16 mm off at one end", row(&[14.0, 0.0, -30.0]), 0.75),
                ("25 mm off", row(&[5.0, 0.0, -5.0]), 0.0),
                ("30 mm off", row(&[0.0, 0.0, 0.0]), 0.0),
            ],
        );
    }

    #[test]
    fn five_blooms_take_the_sides_too() {
        // The side at (0, 20) lies 10 mm from the outline of the bloom in the middle: 1 - 3 / 18 twice, and two whole.
        let five = row(&[30.0, 15.0, 0.0, -15.0, -30.0]);
        let four = row(&[30.0, 0.0, -15.0, -30.0]);
        hold(Question::AxisEnds, [("five", five, (2.0 + 2.0 * (1.0 - 3.0 / 18.0)) / 4.0), ("four", four, 1.0)]);
    }

    #[test]
    fn the_first_bare_end_is_to_be_taken_and_two_blooms_take_none() {
        let shop = Shop::new();
        let found = shop.ask(Question::AxisEnds, &row(&[30.0, 0.0, -22.0])).unwrap();
        assert_eq!((found.figure, found.remedies), (1.0, vec![Remedy::TakeEnd(Point::new(-40.0, 0.0))]));
        assert_eq!(shop.ask(Question::AxisEnds, &row(&[30.0, -30.0])), None);
    }
}
