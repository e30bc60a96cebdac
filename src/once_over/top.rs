//! Two or three blooms in the middle, above the others (common practice, no source).

use super::words::{Sentence, Wording, number};
use super::{Finding, HeadDisc, Measures, Remedy, Subject, finding};
use crate::piece::{Level, PartId};

/// Fewer blooms than this need no top; our choice.
const NEEDED_FROM: usize = 3;
/// Farther out than this share of the oval is not the middle; our choice.
const MIDDLE: f64 = 0.55;
/// More than this many are no longer a top; common practice, no source.
const MOST: usize = 3;

/// Blooms on top, and those that could be raised where none is.
#[derive(Clone, Debug, PartialEq)]
pub struct FocalBlooms {
    /// On top in the middle.
    pub n_central: usize,
    /// On top outside it.
    pub n_outside: usize,
    /// So many at most stand out.
    pub most: usize,
    /// The blooms to raise.
    pub to_raise: Vec<PartId>,
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
    let n_blooms = measures.n_blooms();
    if n_blooms < NEEDED_FROM {
        return None;
    }
    let in_middle = |h: &&HeadDisc| measures.oval.gauge(h.disc.centre) <= MIDDLE;
    let on_top: Vec<&HeadDisc> = measures.blooms().filter(|h| h.level == Level::Top).collect();
    let n_central = on_top.iter().copied().filter(|h| in_middle(h)).count();
    let n_outside = on_top.len() - n_central;
    let score = match n_central {
        0 => 0.0,
        n if n > MOST => 1.0 - 0.25 * (n - MOST) as f64,
        _ => 1.0 - 0.25 * n_outside as f64,
    };
    let n_to_raise = match n_central {
        0 if n_blooms >= 5 => 2,
        0 => 1,
        _ => 0,
    };
    let to_raise = nearest_to_centre(measures, n_to_raise);
    let observed = FocalBlooms { n_central, n_outside, most: MOST, to_raise: to_raise.clone() };
    let mut found = finding(subject, observed, n_central as f64, "", score);
    if n_central == 0 {
        found.remedies.push(Remedy::Raise(to_raise, Level::Top));
    }
    Some(found)
}

fn nearest_to_centre(measures: &Measures, n: usize) -> Vec<PartId> {
    let mut blooms: Vec<&HeadDisc> = measures.blooms().collect();
    blooms.sort_by(|a, b| a.disc.centre.to_vec2().hypot().total_cmp(&b.disc.centre.to_vec2().hypot()));
    blooms.into_iter().take(n).map(|h| h.id).collect()
}

impl Sentence for FocalBlooms {
    fn sentence(&self, _: Wording) -> String {
        let Self { n_central, n_outside, most, to_raise } = self;
        match (n_central, n_outside) {
            (0, _) => format!("No focal flower. Raise {} in the centre.", number(to_raise.len())),
            (n, _) if n > most => format!("{n} blooms on top. With more than {}, none stands out.", number(*most)),
            (1, 0) => "One bloom on top, in the centre.".to_owned(),
            (n, 0) => format!("{n} blooms on top, in the centre."),
            (n, off) => format!("{n} on top in the centre, and {off} on top outside it."),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, at, head, hold, nth, piece};
    use super::*;
    use crate::piece::{Piece, Question};

    /// On an oval of 80 by 40: these on top, and five more that are not.
    fn topped(places: &[(f64, f64)]) -> Piece {
        let on_top = places.iter().map(|&(x, y)| at(head(x, y), Level::Top));
        let around = [30.0, -30.0, 12.0, -12.0, 20.0].map(|x| head(x, 0.0));
        piece(80.0, 40.0, on_top.chain(around))
    }

    #[test]
    fn the_middle_ends_at_055_of_the_way_out() {
        hold(
            Question::Top,
            [
                ("22 of 40 along the arm is 0.55", topped(&[(21.9, 0.0)]), 1.0),
                ("just beyond", topped(&[(22.1, 0.0)]), 0.0),
                ("11 of 20 across it is 0.55", topped(&[(0.0, -10.9)]), 1.0),
                ("just beyond", topped(&[(0.0, -11.1)]), 0.0),
                ("0.4 along and 0.4 across are 0.566 together", topped(&[(16.0, 8.0)]), 0.0),
            ],
        );
    }

    #[test]
    fn each_beyond_three_and_each_outside_the_middle_costs_a_quarter() {
        hold(
            Question::Top,
            [
                ("none", topped(&[]), 0.0),
                ("one", topped(&[(0.0, 0.0)]), 1.0),
                ("three", topped(&[(0.0, 0.0), (5.0, 0.0), (-5.0, 0.0)]), 1.0),
                ("four", topped(&[(0.0, 0.0), (5.0, 0.0), (-5.0, 0.0), (0.0, 5.0)]), 0.75),
                ("five", topped(&[(0.0, 0.0), (5.0, 0.0), (-5.0, 0.0), (0.0, 5.0), (0.0, -5.0)]), 0.5),
                ("one, and one outside", topped(&[(0.0, 0.0), (35.0, 0.0)]), 0.75),
                ("one, and two outside", topped(&[(0.0, 0.0), (35.0, 0.0), (-35.0, 0.0)]), 0.5),
                ("one outside alone", topped(&[(35.0, 0.0)]), 0.0),
            ],
        );
    }

    #[test]
    fn the_nearest_to_the_centre_are_raised_and_two_blooms_need_no_top() {
        let shop = Shop::new();
        let found = shop.ask(Question::Top, &topped(&[])).unwrap();
        assert_eq!(found.remedies, [Remedy::Raise(vec![nth(3), nth(4)], Level::Top)]);
        let four = piece(80.0, 40.0, [30.0, 9.0, -20.0, -35.0].map(|x| head(x, 0.0)));
        assert_eq!(shop.ask(Question::Top, &four).unwrap().remedies, [Remedy::Raise(vec![nth(2)], Level::Top)]);
        let three = piece(80.0, 40.0, [30.0, 9.0, -20.0].map(|x| head(x, 0.0)));
        assert_eq!(shop.ask(Question::Top, &three).map(|f| f.score), Some(0.0));
        let two = piece(80.0, 40.0, [30.0, 9.0].map(|x| head(x, 0.0)));
        assert_eq!(shop.ask(Question::Top, &two), None);
    }
}
