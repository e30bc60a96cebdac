//! Within the edges of the wrist? How far heads, bent round the wrist, reach past its edge as seen from above. The limit is a
//! shop rule (common practice, no source).

use super::words::{Sentence, Wording};
use super::{Annotation, Finding, Measures, Remedy, Subject, finding};

/// Over the limit by this much, mm, the score is 0; our choice.
const ZERO_AT_MM: f64 = 15.0;

/// How far the farthest head reaches past the edge of the wrist, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EdgeReach {
    /// Below zero when all stay within.
    pub past_mm: f64,
    /// What is allowed.
    pub limit_mm: f64,
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
    let farthest = measures.relief.farthest.filter(|_| subject.is_on_wrist())?;
    let (past, limit) = (measures.relief.past_edge_mm, subject.style.shape.protrusion_mm);
    let over = (past - limit).max(0.0);
    let observed = EdgeReach { past_mm: past, limit_mm: limit };
    let mut found = finding(subject, observed, past, "mm", 1.0 - over / ZERO_AT_MM);
    if over > 0.0 {
        let disc = measures.heads.iter().find(|h| h.id == farthest).map(|h| h.disc);
        found.annotations.extend(disc.map(Annotation::ring));
        // Near the edge a step along the skin is seen as less than a step.
        found.remedies.push(Remedy::PullIn(farthest, 1.5 * over));
    }
    Some(found)
}

impl Sentence for EdgeReach {
    fn sentence(&self, words: Wording) -> String {
        let past = words.length(self.past_mm.round());
        match self.past_mm {
            mm if mm > self.limit_mm => {
                format!("Reaches {past} past the wrist; max {}. Pull it in.", words.length(self.limit_mm))
            }
            mm if mm >= 0.5 => format!("Reaches {past} past the wrist."),
            _ => "Stays within the wrist.".to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, blade, head, hold_to, nth, on_lapel, piece, sized};
    use super::*;
    use crate::piece::{Piece, Question};

    /// Half the width of an ellipse 150 mm round and 0.7 as deep as wide, by Ramanujan's first rule for the girth:
    /// 150 = pi a (3 x 1.7 - sqrt((3 + 0.7) (1 + 3 x 0.7))), so a = 27.869.
    fn half_width() -> f64 {
        150.0 / (std::f64::consts::PI * (5.1 - (3.7_f64 * 3.1).sqrt()))
    }

    /// On top of the wrist a head reaches its radius to the side.
    fn on_top(r: f64) -> Piece {
        piece(90.0, 54.0, [sized(head(0.0, 0.0), 2.0 * r)])
    }

    #[test]
    fn twelve_millimetres_are_allowed_and_fifteen_more_score_nothing() {
        let a = half_width();
        hold_to(
            1e-3,
            Question::Protrusion,
            [
                ("well within", on_top(20.0), 1.0),
                ("11.9 mm past", on_top(a + 11.9), 1.0),
                ("13 mm past: 1 - 1 / 15", on_top(a + 13.0), 1.0 - 1.0 / 15.0),
                ("19.5 mm past: 1 - 7.5 / 15", on_top(a + 19.5), 0.5),
                ("27 mm past", on_top(a + 27.0), 0.0),
                ("40 mm past", on_top(a + 40.0), 0.0),
            ],
        );
    }

    #[test]
    fn the_farthest_is_pulled_in_by_half_as_much_again() {
        let shop = Shop::new();
        let found = shop.ask(Question::Protrusion, &on_top(half_width() + 13.0)).unwrap();
        let [Remedy::PullIn(id, mm)] = found.remedies[..] else { panic!("{found:?}") };
        assert!(id == nth(1) && (mm - 1.5).abs() < 0.01, "{mm}");
        assert_eq!(shop.ask(Question::Protrusion, &on_top(30.0)).unwrap().remedies, []);
        assert_eq!(shop.ask(Question::Protrusion, &on_lapel(on_top(60.0))), None);
        assert_eq!(shop.ask(Question::Protrusion, &piece(90.0, 54.0, [blade(0.0, 60.0, 0.0)])), None);
    }
}
