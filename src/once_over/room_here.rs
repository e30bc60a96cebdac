//! Are there bare spots that the eye would see?

use super::measures::gap_disc;
use super::words::{Sentence, Wording, place};
use super::{Annotation, Finding, Measures, Remedy, Subject, finding};
use crate::geometry::{Disc, Gap};

/// Bare spots that together make this share of the oval score 0; our choice.
const ZERO_AT: f64 = 0.45;
/// Most rings drawn at once; more would hide the sketch. Our choice.
const MOST_RINGS: usize = 6;

/// Bare spots within the oval.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BareSpots {
    /// How many.
    pub n: usize,
    /// The largest, where there is one.
    pub largest: Option<Disc>,
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Finding {
    let observed = BareSpots { n: measures.room.len(), largest: measures.room.first().map(gap_disc) };
    let Some(largest) = observed.largest else {
        return finding(subject, observed, 0.0, "mm", 1.0);
    };
    let bare: f64 = measures.room.iter().map(|g: &Gap| std::f64::consts::PI * g.radius * g.radius).sum();
    let score = 1.0 - bare / measures.oval.area() / ZERO_AT;
    let mut found = finding(subject, observed, 2.0 * largest.radius, "mm", score);
    found.annotations = measures.room.iter().take(MOST_RINGS).map(|gap| Annotation::ring(gap_disc(gap))).collect();
    if measures.outline.is_some() {
        found.remedies.push(Remedy::FillRoom(largest));
    }
    found
}

impl Sentence for BareSpots {
    fn sentence(&self, words: Wording) -> String {
        let Some(largest) = self.largest else { return "No gaps.".to_owned() };
        let (across, place) = (words.length(2.0 * largest.radius), place(largest.centre));
        match self.n {
            1 => format!("A gap {across} wide, {place}."),
            n => format!("{n} gaps; the largest is {across} wide, {place}."),
        }
    }

    fn invitation(&self) -> Option<String> {
        self.largest.map(|_| "There is room for one more here.".to_owned())
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, head, piece, sized};
    use super::*;
    use crate::piece::{Piece, Question};

    /// On a round of 80 mm one head of radius r that touches its edge on the left: the largest gap is a disc of radius
    /// 40 - r on the right. The next beside it (in the chain of Pappus) are smaller, and `room_mm` leaves them out.
    fn one_gap(r: f64) -> Piece {
        piece(80.0, 80.0, [sized(head(r - 40.0, 0.0), 2.0 * r)])
    }

    fn found(piece: &Piece, room_mm: f64) -> (usize, Finding) {
        let mut shop = Shop::new();
        shop.style.shape.room_mm = room_mm;
        let n = Measures::take(shop.subject(piece)).room.len();
        (n, shop.ask(Question::RoomHere, piece).unwrap())
    }

    #[test]
    fn the_score_falls_with_the_bare_share_of_the_oval() {
        // Radius 6 of 40: 36 / 1600 of the oval is bare; the next gap would be 5.85.
        let (n, six) = found(&one_gap(34.0), 11.8);
        assert!(n == 1 && (six.score - (1.0 - 0.0225 / 0.45)).abs() < 1e-3, "{n}, {}", six.score);
        assert!((six.figure - 12.0).abs() < 0.05, "{}", six.figure);
        // Radius 10 of 40: 100 / 1600; the next would be 9.23.
        let (n, ten) = found(&one_gap(30.0), 19.0);
        assert!(n == 1 && (ten.score - (1.0 - 0.0625 / 0.45)).abs() < 1e-3, "{n}, {}", ten.score);
        // A head outside leaves the oval bare: one gap, all of it.
        let (n, bare) = found(&piece(80.0, 80.0, [head(100.0, 0.0)]), 9.0);
        assert!(n == 1 && bare.score == 0.0 && (bare.figure - 80.0).abs() < 0.05, "{n}, {}", bare.figure);
    }

    #[test]
    fn what_no_eye_sees_is_no_gap() {
        let (n, none) = found(&one_gap(34.0), 12.1);
        assert_eq!((n, none.score, none.remedies), (0, 1.0, Vec::new()));
        let (_, some) = found(&one_gap(34.0), 11.8);
        let [Remedy::FillRoom(gap)] = some.remedies[..] else { panic!("{some:?}") };
        assert!(gap.centre.distance(crate::geometry::Point::new(34.0, 0.0)) < 0.1 && (gap.radius - 6.0).abs() < 0.03);
    }
}
