//! Flat enough over the wrist? Heads stacked on what below them does not give; the limit is a shop rule (common practice, no
//! source).

use super::words::{Sentence, Wording};
use super::{Finding, Measures, Remedy, Subject, finding};
use crate::piece::Level;

/// Over the limit by this share of it, the score is 0; our choice.
pub(crate) const ZERO_AT: f64 = 0.6;

/// Height over the skin, against the limit, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeightOverWrist {
    /// The highest top.
    pub top_mm: f64,
    /// What is comfortable.
    pub limit_mm: f64,
    /// Whether what stands highest could be set lower.
    pub can_be_lowered: bool,
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
    let highest = measures.relief.highest.filter(|_| subject.is_on_wrist())?;
    let (top, limit) = (measures.relief.top_mm, subject.style.height_limit_mm(&subject.piece.wishes));
    let over = (top - limit).max(0.0);
    let level = subject.piece.part(highest).map_or(Level::Flat, |p| p.level);
    let observed = HeightOverWrist { top_mm: top, limit_mm: limit, can_be_lowered: level != Level::Flat };
    let mut found = finding(subject, observed, top, "mm", 1.0 - over / (ZERO_AT * limit.max(1.0)));
    if over > 0.0 {
        found.remedies.push(Remedy::MoveToRoom(highest));
    }
    if over > 0.0 && level != Level::Flat {
        let lower = if level == Level::Top { Level::Raised } else { Level::Flat };
        found.remedies.push(Remedy::Raise(vec![highest], lower));
    }
    Some(found)
}

impl Sentence for HeightOverWrist {
    fn sentence(&self, words: Wording) -> String {
        let [top, limit] = [self.top_mm.round(), self.limit_mm].map(|mm| words.length(mm));
        match (self.top_mm > self.limit_mm, self.can_be_lowered) {
            (false, _) => format!("About {top} high."),
            (true, true) => format!("About {top} high; max {limit}. Move or lower the top flower."),
            (true, false) => format!("About {top} high; max {limit}. Move the top flower."),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, at, blade, head, hold, nth, on_lapel, piece, sized};
    use super::*;
    use crate::piece::{Piece, Question};

    /// A head as high as half its width, on 6 mm of stem and glue; 45 mm are comfortable.
    fn one(mm: f64) -> Piece {
        piece(90.0, 54.0, [sized(head(0.0, 0.0), mm)])
    }

    #[test]
    fn over_the_limit_by_six_tenths_of_it_scores_nothing() {
        hold(
            Question::Height,
            [
                ("78 / 2 + 6 is 45", one(78.0), 1.0),
                ("80 / 2 + 6 is 46: 1 - 1 / 27", one(80.0), 1.0 - 1.0 / 27.0),
                ("105 / 2 + 6 is 58.5: 1 - 13.5 / 27", one(105.0), 0.5),
                ("132 / 2 + 6 is 72, 27 over", one(132.0), 0.0),
                (
                    "flat on the base it is 4 lower",
                    piece(90.0, 54.0, [at(sized(head(0.0, 0.0), 86.0), Level::Flat)]),
                    1.0,
                ),
                (
                    "on top it is 4 higher: 46",
                    piece(90.0, 54.0, [at(sized(head(0.0, 0.0), 72.0), Level::Top)]),
                    1.0 - 1.0 / 27.0,
                ),
            ],
        );
    }

    #[test]
    fn a_head_on_another_stands_on_what_the_lower_does_not_give() {
        // 6 + (1 - 0.45) x 10 + 10.
        let two = piece(90.0, 54.0, [head(0.0, 0.0), head(0.0, 0.0)]);
        let top = |p: &Piece| Shop::new().ask(Question::Height, p).map(|f| f.figure);
        assert!((top(&two).unwrap() - 21.5).abs() < 1e-9);
        // Pressed by a quarter of the radius they still lie side by side: 2 x 10 - 2.5.
        let beside = |d: f64| piece(90.0, 54.0, [head(0.0, 0.0), head(d, 0.0)]);
        assert_eq!((top(&beside(17.6)), top(&beside(17.4))), (Some(16.0), Some(21.5)));
        assert_eq!(top(&piece(90.0, 54.0, [blade(0.0, 0.0, 0.0)])), None);
        assert_eq!(top(&on_lapel(two)), None);
    }

    #[test]
    fn the_wearer_may_want_it_lower_and_the_highest_is_moved_or_lowered() {
        let shop = Shop::new();
        let mut low = one(50.0);
        low.wishes.height_mm = Some(30.0);
        // 31 against 30: 1 - 1 / 18.
        let found = shop.ask(Question::Height, &low).unwrap();
        assert!((found.score - (1.0 - 1.0 / 18.0)).abs() < 1e-9, "{}", found.score);
        assert_eq!(found.remedies, [Remedy::MoveToRoom(nth(1)), Remedy::Raise(vec![nth(1)], Level::Flat)]);
        let top = piece(90.0, 54.0, [at(sized(head(0.0, 0.0), 80.0), Level::Top)]);
        let lowered = Remedy::Raise(vec![nth(1)], Level::Raised);
        assert_eq!(shop.ask(Question::Height, &top).unwrap().remedies, [Remedy::MoveToRoom(nth(1)), lowered]);
        let flat = piece(90.0, 54.0, [at(sized(head(0.0, 0.0), 100.0), Level::Flat)]);
        assert_eq!(shop.ask(Question::Height, &flat).unwrap().remedies, [Remedy::MoveToRoom(nth(1))]);
    }
}
