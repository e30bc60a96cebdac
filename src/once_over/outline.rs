//! Oval and narrow, not wide? Length over width on the arm's own axes.

use super::words::{Sentence, Wording, unlike};
use super::{Annotation, Finding, Measures, Remedy, Subject, finding};
use crate::geometry::Point;

/// Length over width, against the limits of the style.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Proportion {
    /// Length over width; `None` of nothing.
    pub ratio: Option<f64>,
    /// From, to.
    pub limits: [f64; 2],
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Finding {
    let limits @ [from, _] = subject.style.shape.length_to_width;
    let Some(outline) = &measures.outline else {
        return finding(subject, Proportion { ratio: None, limits }, 0.0, "", 0.0);
    };
    let ratio = measures.along_mm / measures.across_mm;
    let observed = Proportion { ratio: Some(ratio), limits };
    let mut found = finding(subject, observed, ratio, "", proportion_score(ratio, limits));
    if !found.is_well() {
        let b = outline.bounds;
        found.annotations = vec![
            Annotation::Ruler { from: Point::new(b.x0, b.y1), to: Point::new(b.x1, b.y1) },
            Annotation::Ruler { from: Point::new(b.x0, b.y0), to: Point::new(b.x0, b.y1) },
        ];
    }
    if ratio < from {
        found.remedies.push(Remedy::DrawInToRatio(from));
    }
    found
}

/// 1 within the limits, falling to 0 at half the lower and at two and a half times the upper limit; too narrow is a lesser
/// fault than too wide, for leaves mend it.
fn proportion_score(ratio: f64, [from, to]: [f64; 2]) -> f64 {
    if ratio < from {
        1.0 - 2.0 * (from - ratio) / from
    } else if ratio > to {
        1.0 - (ratio - to) / (1.5 * to)
    } else {
        1.0
    }
}

impl Sentence for Proportion {
    fn sentence(&self, _: Wording) -> String {
        let [from, to] = self.limits;
        let Some(ratio) = self.ratio else {
            return "Nothing here yet. Tap a flower below, then tap the wrist.".to_owned();
        };
        let rule = format!("your rule: {from} to {to}");
        let [low, high] = [unlike(ratio, from), unlike(ratio, to)];
        match ratio {
            r if r < from && r < 0.95 => format!("Wider than long ({low}; {rule}). Narrow it, or lengthen it."),
            r if r < from && r < 1.05 => format!("As wide as it is long ({rule}). Narrow it, or lengthen it."),
            r if r < from => format!("{low} times as long as wide ({rule}). Narrow it, or lengthen it."),
            r if r > to => format!("{high} times as long as wide ({rule}). Leaves at the sides would round it."),
            r => format!("A narrow oval: {r:.1} times as long as wide."),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, head, hold, piece};
    use super::*;
    use crate::piece::{Piece, Question};

    /// Four heads of 20 mm, so the outline is 2a + 20 long and 2b + 20 wide; here 40 wide, b = 10.
    fn cross(a: f64) -> Piece {
        piece(90.0, 54.0, [head(a, 0.0), head(-a, 0.0), head(0.0, 10.0), head(0.0, -10.0)])
    }

    #[test]
    fn the_score_falls_to_nothing_at_half_the_lower_and_at_two_and_a_half_times_the_upper_limit() {
        hold(
            Question::Outline,
            [
                ("28 by 40 is 0.7, half of 1.4", cross(4.0), 0.0),
                ("42 by 40 is 1.05: 1 - 2 x 0.35 / 1.4", cross(11.0), 0.5),
                ("55.2 by 40 is 1.38: 1 - 2 x 0.02 / 1.4", cross(17.6), 1.0 - 0.04 / 1.4),
                ("56 by 40 is 1.4, the lower limit", cross(18.0), 1.0),
                ("88 by 40 is 2.2, the upper limit", cross(34.0), 1.0),
                ("92 by 40 is 2.3: 1 - 0.1 / 3.3", cross(36.0), 1.0 - 0.1 / 3.3),
                ("154 by 40 is 3.85: 1 - 1.65 / 3.3", cross(67.0), 0.5),
                ("220 by 40 is 5.5, two and a half times 2.2", cross(100.0), 0.0),
                ("nothing on the oval", piece(90.0, 54.0, []), 0.0),
            ],
        );
    }

    #[test]
    fn only_what_is_too_wide_can_be_drawn_in() {
        let remedies = |a: f64| Shop::new().ask(Question::Outline, &cross(a)).unwrap().remedies;
        assert_eq!(remedies(17.0), [Remedy::DrawInToRatio(1.4)]);
        assert_eq!(remedies(25.0), []);
        assert_eq!(remedies(40.0), []);
    }
}
