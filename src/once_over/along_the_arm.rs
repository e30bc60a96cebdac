//! Does it run along the arm? The long axis of the second-moment ellipse of the silhouette against the arm.

use super::words::{Sentence, Wording};
use super::{Annotation, Finding, Measures, Remedy, Subject, finding};
use crate::geometry::{Point, Vec2};

/// Askew by less than this, degrees, nobody sees it; our choice.
const STRAIGHT_WITHIN: f64 = 8.0;
/// Askew by this much, degrees, the score is 0; our choice.
const ZERO_AT: f64 = 60.0;

/// How far the long axis lies off the arm, degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ArmAngle {
    /// From 0 to 90.
    pub off_deg: f64,
    /// What nobody sees.
    pub straight_within_deg: f64,
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
    let outline = measures.outline.as_ref()?;
    let angle = outline.angle?;
    // An axis has no direction: into -90 to 90 degrees.
    let askew = (angle + std::f64::consts::FRAC_PI_2).rem_euclid(std::f64::consts::PI) - std::f64::consts::FRAC_PI_2;
    let degrees = askew.to_degrees().abs();
    let score = 1.0 - (degrees - STRAIGHT_WITHIN) / (ZERO_AT - STRAIGHT_WITHIN);
    let observed = ArmAngle { off_deg: degrees, straight_within_deg: STRAIGHT_WITHIN };
    let mut found = finding(subject, observed, degrees, "degrees", score);
    if !found.is_well() {
        let middle = outline.region.centroid().unwrap_or(Point::ZERO);
        let half = Vec2::from_angle(askew) * outline.semi_axes[0];
        found.annotations = vec![Annotation::Axis { from: middle - half, to: middle + half }];
        found.remedies.push(Remedy::TurnAll(-askew));
    }
    Some(found)
}

impl Sentence for ArmAngle {
    fn sentence(&self, _: Wording) -> String {
        if self.off_deg <= self.straight_within_deg {
            "Straight along the arm.".to_owned()
        } else {
            format!("Crooked: turned {:.0}\u{b0} from the arm. Straighten it.", self.off_deg)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, head, hold_to, piece};
    use super::*;
    use crate::piece::{Piece, Question};

    /// Two heads apart: the long axis of what they cover runs through both.
    fn row(degrees: f64) -> Piece {
        let (y, x) = degrees.to_radians().sin_cos();
        piece(90.0, 54.0, [head(15.0 * x, 15.0 * y), head(-15.0 * x, -15.0 * y)])
    }

    #[test]
    fn eight_degrees_are_straight_and_sixty_score_nothing() {
        hold_to(
            1e-6,
            Question::AlongTheArm,
            [
                ("straight", row(0.0), 1.0),
                ("7.9 degrees", row(7.9), 1.0),
                ("9 degrees: 1 - 1 / 52", row(9.0), 1.0 - 1.0 / 52.0),
                ("34 degrees: 1 - 26 / 52", row(34.0), 0.5),
                ("to the other side", row(-34.0), 0.5),
                ("the other way round", row(146.0), 0.5),
                ("60 degrees", row(60.0), 0.0),
                ("across", row(90.0), 0.0),
            ],
        );
    }

    #[test]
    fn it_is_turned_back_by_as_much_as_it_lies_askew() {
        let shop = Shop::new();
        for degrees in [34.0, -34.0] {
            let found = shop.ask(Question::AlongTheArm, &row(degrees)).unwrap();
            let [Remedy::TurnAll(by)] = found.remedies[..] else { panic!("{found:?}") };
            assert!((by.to_degrees() + degrees).abs() < 1e-6, "{by}");
        }
        assert_eq!(shop.ask(Question::AlongTheArm, &row(7.9)).unwrap().remedies, []);
    }

    /// Two discs of radius r at 15 from the middle: about the middle the second moment along the axis is r2 / 4 + 15 x 15 a unit
    /// of area, a quarter of the square of the semi-axis of the like ellipse: 2 sqrt(25 + 225) = 31.62. The line is twice that.
    #[test]
    fn the_line_drawn_is_the_long_axis_of_the_like_ellipse() {
        let found = Shop::new().ask(Question::AlongTheArm, &row(34.0)).unwrap();
        let [Annotation::Axis { from, to }] = found.annotations[..] else { panic!("{found:?}") };
        let (length, degrees) = (from.distance(to), (to - from).atan2().to_degrees());
        assert!((length - 4.0 * 250.0_f64.sqrt()).abs() < 1e-6 && (degrees - 34.0).abs() < 1e-6, "{length}, {degrees}");
    }

    #[test]
    fn what_is_round_has_no_direction() {
        assert_eq!(Shop::new().ask(Question::AlongTheArm, &piece(90.0, 54.0, [head(0.0, 0.0)])), None);
    }
}
