//! Narrow enough for this wrist? The limit is a share of the girth: a shop rule (common practice, no source).

use super::words::{Sentence, Wording};
use super::{Annotation, Finding, Measures, Remedy, Subject, finding};
use crate::geometry::Point;

/// Over the limit by this share of it, the score is 0; our choice.
const ZERO_AT: f64 = 0.4;

/// Width across the wrist, against what it carries, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WidthAcross {
    /// Over all parts.
    pub across_mm: f64,
    /// What this wrist carries.
    pub limit_mm: f64,
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
    if !subject.is_on_wrist() {
        return None;
    }
    let (across, limit) = (measures.across_mm, measures.width_limit_mm);
    let over = (across - limit).max(0.0);
    let score = if limit > 0.0 { 1.0 - over / (ZERO_AT * limit) } else { 0.0 };
    let mut found = finding(subject, WidthAcross { across_mm: across, limit_mm: limit }, across, "mm", score);
    if let Some(outline) = measures.outline.as_ref().filter(|_| over > 0.0) {
        let b = outline.bounds;
        found.annotations = vec![Annotation::Ruler { from: Point::new(0.0, b.y0), to: Point::new(0.0, b.y1) }];
        found.remedies.push(Remedy::DrawInToWidth(limit));
    }
    Some(found)
}

impl Sentence for WidthAcross {
    fn sentence(&self, words: Wording) -> String {
        let advice = if self.across_mm > self.limit_mm { " Narrow it." } else { "" };
        let [across, limit] = [self.across_mm, self.limit_mm].map(|mm| words.length(mm));
        format!("{across} wide; max {limit} for this wrist.{advice}")
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, head, hold, on_lapel, piece};
    use super::*;
    use crate::piece::{Piece, Question};

    /// Two heads of 20 mm beside each other: 2b + 20 across. A wrist of 150 mm carries 0.4 of it, 60 mm.
    fn pair(b: f64) -> Piece {
        piece(90.0, 54.0, [head(0.0, b), head(0.0, -b)])
    }

    #[test]
    fn what_is_over_the_limit_by_two_fifths_of_it_scores_nothing() {
        hold(
            Question::WidthOnWrist,
            [
                ("40 mm", pair(10.0), 1.0),
                ("60 mm, the limit", pair(20.0), 1.0),
                ("61 mm: 1 - 1 / 24", pair(20.5), 1.0 - 1.0 / 24.0),
                ("72 mm: half of the 24 mm over", pair(26.0), 0.5),
                ("84 mm, 24 over", pair(32.0), 0.0),
                ("100 mm", pair(40.0), 0.0),
            ],
        );
    }

    #[test]
    fn it_is_drawn_in_to_the_limit_and_a_lapel_has_none() {
        let shop = Shop::new();
        let found = |b: f64| shop.ask(Question::WidthOnWrist, &pair(b)).unwrap();
        assert_eq!(found(20.5).remedies, [Remedy::DrawInToWidth(60.0)]);
        assert_eq!(found(19.5).remedies, []);
        assert_eq!(shop.ask(Question::WidthOnWrist, &on_lapel(pair(40.0))), None);
        let mut none = Shop::new();
        none.style.shape.width_of_girth = 0.0;
        assert_eq!(none.score(Question::WidthOnWrist, &pair(10.0)), 0.0);
    }
}
