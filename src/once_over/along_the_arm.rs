//! Does it run along the arm? The long axis of the second-moment ellipse of the silhouette against the arm.

use super::{Finding, Measures, Remedy, SketchMark, finding, words};
use crate::geometry::{Point, Vec2};
use crate::piece::Question;

/// Askew by less than this, degrees, nobody sees it; our choice.
const STRAIGHT_WITHIN: f64 = 8.0;
/// Askew by this much, degrees, the score is 0; our choice.
const ZERO_AT: f64 = 60.0;

pub(super) fn answer(measures: &Measures) -> Option<Finding> {
    let outline = measures.outline.as_ref()?;
    let angle = outline.angle?;
    // An axis has no direction: into -90 to 90 degrees.
    let askew = (angle + std::f64::consts::FRAC_PI_2).rem_euclid(std::f64::consts::PI) - std::f64::consts::FRAC_PI_2;
    let degrees = askew.to_degrees().abs();
    let score = 1.0 - (degrees - STRAIGHT_WITHIN) / (ZERO_AT - STRAIGHT_WITHIN);
    let says = if degrees <= STRAIGHT_WITHIN { words::arm_well() } else { words::arm_askew(degrees) };
    let mut found = finding(Question::AlongTheArm, says, degrees, "degrees", score);
    if !found.is_well() {
        let middle = outline.region.centroid().unwrap_or(Point::ZERO);
        let half = Vec2::from_angle(askew) * outline.semi_axes[0];
        found.marks = vec![SketchMark::Axis { from: middle - half, to: middle + half }];
        found.remedies.push(Remedy::TurnAll(-askew));
    }
    Some(found)
}
