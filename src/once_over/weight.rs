//! Light enough? No comfortable mass is published; a plain limit of the house (common practice, no source), against planning
//! figures for each bloom.

use super::words::{Sentence, Wording};
use super::{Finding, Measures, Subject, finding};

/// Mass of all parts, against the limit, grams.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlannedMass {
    /// By planning figures.
    pub mass_g: f64,
    /// What is comfortable.
    pub limit_g: f64,
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Finding {
    let (mass, limit) = (measures.mass_g, subject.style.shape.mass_g);
    let over = (mass - limit).max(0.0);
    finding(subject, PlannedMass { mass_g: mass, limit_g: limit }, mass, "g", 1.0 - over / limit.max(1.0))
}

impl Sentence for PlannedMass {
    fn sentence(&self, _: Wording) -> String {
        let Self { mass_g, limit_g } = self;
        if mass_g > limit_g {
            format!("About {mass_g:.0} g (estimate); max {limit_g:.0} g. Use fewer or smaller blooms.")
        } else {
            format!("About {mass_g:.0} g (estimate).")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, berry, head, hold, piece};
    use crate::piece::{Piece, Question};

    /// Heads of 5 g and berries of 1 g; a piece may weigh 60.
    fn heap(n_heads: usize, n_berries: usize) -> Piece {
        let heads = (0..n_heads).map(|_| head(0.0, 0.0));
        piece(90.0, 54.0, heads.chain((0..n_berries).map(|_| berry(20.0, 0.0))))
    }

    #[test]
    fn twice_the_limit_scores_nothing() {
        hold(
            Question::Weight,
            [
                ("60 g, the limit", heap(12, 0), 1.0),
                ("61 g: 1 - 1 / 60", heap(12, 1), 1.0 - 1.0 / 60.0),
                ("90 g: 1 - 30 / 60", heap(18, 0), 0.5),
                ("120 g", heap(24, 0), 0.0),
                ("150 g", heap(30, 0), 0.0),
            ],
        );
        assert_eq!(Shop::new().ask(Question::Weight, &heap(12, 1)).map(|f| (f.figure, f.unit)), Some((61.0, "g")));
    }
}
