//! No bloom hidden or crushed by another? Visible areas from below, and pairs whose cores would have to be in one place.

use super::words::{Sentence, Wording, with_article};
use super::{Annotation, Finding, Measures, Remedy, Subject, finding};
use crate::piece::PartId;

/// Each crushed pair costs this share of the score; our choice.
const CRUSHED_COST: f64 = 0.25;

/// The head that is hidden most, and the first pair that would have to be in one place.
#[derive(Clone, Debug, PartialEq)]
pub struct HiddenHeads {
    /// The one hidden most.
    pub worst: PartId,
    /// What it is called.
    pub worst_name: String,
    /// The share of it that is hidden.
    pub share: f64,
    /// What may be hidden.
    pub limit: f64,
    /// The names of a crushed pair, the lower first.
    pub crushed: Option<[String; 2]>,
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
    let relief = &measures.relief;
    let (worst, share) = relief.hidden.iter().copied().max_by(|a, b| a.1.total_cmp(&b.1))?;
    let limit = subject.style.shape.hidden_share;
    let over = |share: f64| ((share - limit) / (1.0 - limit).max(1e-6)).clamp(0.0, 1.0);
    let lost: f64 = relief.hidden.iter().map(|(_, s)| over(*s)).fold(0.0, f64::max);
    let score = 1.0 - lost - CRUSHED_COST * relief.crushed.len() as f64;
    let name = |id: PartId| {
        let botanical = subject.piece.part(id).and_then(|p| subject.stock.botanical(&p.stock));
        botanical.map_or_else(|| "bloom".to_owned(), |b| b.name.to_lowercase())
    };
    let crushed = relief.crushed.first().map(|(below, above)| [name(*below), name(*above)]);
    let observed = HiddenHeads { worst, worst_name: name(worst), share, limit, crushed };
    let mut found = finding(subject, observed, share, "", score);
    if !found.is_well() {
        let lost_one = if share > limit { worst } else { relief.crushed.first().map_or(worst, |pair| pair.0) };
        let disc = measures.heads.iter().find(|h| h.id == lost_one).map(|h| h.disc);
        found.annotations.extend(disc.map(Annotation::ring));
        found.remedies.push(Remedy::BringOut(lost_one));
    }
    Some(found)
}

impl Sentence for HiddenHeads {
    fn sentence(&self, _: Wording) -> String {
        let Self { worst_name, share, limit, crushed, .. } = self;
        match crushed {
            _ if share > limit => {
                format!("{} is {:.0} % hidden. Bring it out.", with_article(worst_name), share * 100.0)
            }
            Some([below, above]) if below == above => {
                format!("{} sits inside another. Bring it out.", with_article(above))
            }
            Some([below, above]) => format!("{} sits inside a {above}. Bring it out.", with_article(below)),
            None => "Every bloom is visible.".to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, berry, head, hold, nth, piece, sized};
    use super::*;
    use crate::piece::{Piece, Question};

    /// Two heads of radius 10, the later above: of the lower (2 / pi) (acos t - t sqrt(1 - t2)) is hidden, t = d / 20.
    fn apart(d: f64) -> Piece {
        piece(90.0, 54.0, [head(0.0, 0.0), head(d, 0.0)])
    }

    fn hidden_share(d: f64) -> f64 {
        let t: f64 = d / 20.0;
        2.0 / std::f64::consts::PI * (t.acos() - t * (1.0 - t * t).sqrt())
    }

    #[test]
    fn a_bloom_may_be_hidden_by_four_tenths() {
        // t = 0.5: (2 / 3.14159) (1.04720 - 0.43301) = 0.3910; t = 0.45: (2 / 3.14159) (1.10403 - 0.40186) = 0.4470.
        assert!((hidden_share(10.0) - 0.3910).abs() < 1e-4 && (hidden_share(9.0) - 0.4470).abs() < 1e-4);
        hold(
            Question::Hidden,
            [
                ("apart", apart(25.0), 1.0),
                ("0.391", apart(10.0), 1.0),
                ("0.447: 1 - 0.047 / 0.6", apart(9.0), 1.0 - (hidden_share(9.0) - 0.4) / 0.6),
                ("all of it", apart(0.0), 0.0),
            ],
        );
    }

    /// Berries of radius 5 on a head of radius 20 hide a sixteenth each. The head is 20 high and gives 0.45, so a berry stands
    /// 11 higher, less than half of 20 + 10: where the cores (0.4 of 20 and of 5) meet, within 10 mm, one crushes the other.
    /// The berries lie 9 mm off and clear of each other.
    fn on_a_head(places: &[(f64, f64)]) -> Piece {
        let berries = places.iter().map(|&(x, y)| berry(x, y));
        piece(90.0, 54.0, [sized(head(0.0, 0.0), 40.0)].into_iter().chain(berries))
    }

    #[test]
    fn each_crushed_pair_costs_a_quarter() {
        let [up, down, left, right] = [(9.0, 0.0), (-9.0, 0.0), (0.0, -9.0), (0.0, 9.0)];
        hold(
            Question::Hidden,
            [
                ("one 9.9 mm off", on_a_head(&[(9.9, 0.0)]), 0.75),
                ("one 10.1 mm off", on_a_head(&[(10.1, 0.0)]), 1.0),
                ("one", on_a_head(&[up]), 0.75),
                ("two", on_a_head(&[up, down]), 0.5),
                ("three", on_a_head(&[up, down, left]), 0.25),
                ("four", on_a_head(&[up, down, left, right]), 0.0),
            ],
        );
    }

    #[test]
    fn what_is_lost_is_brought_out() {
        let shop = Shop::new();
        let remedies = |p: &Piece| shop.ask(Question::Hidden, p).unwrap().remedies;
        assert_eq!(remedies(&apart(9.0)), [Remedy::BringOut(nth(1))]);
        assert_eq!(remedies(&on_a_head(&[(9.0, 0.0)])), [Remedy::BringOut(nth(1))]);
        assert_eq!(remedies(&apart(10.0)), []);
        assert_eq!(shop.ask(Question::Hidden, &piece(90.0, 54.0, [])), None);
    }
}
