//! Ribbon work: how long a ribbon it takes, and what a loop looks like.
//!
//! Knows loops, pinches, tails, one loop over the knot; mm and radians. Does not know which ribbon, nor how much is added
//! in the shop: the allowances come in from outside.
//!
//! A loop is taken as one cubic curve from the knot and back: with reach L and width w its control points are (0, 0),
//! (4L/3, sqrt 3 w), (4L/3, -sqrt 3 w), (0, 0). It reaches exactly L, stands open exactly w, is convex, and holds
//! 0.4 sqrt 3 L w. Twice the reach, the usual rule, is short of its length by an eighth at w = 0.4 L. Our own choice of curve.

use std::f64::consts::PI;

use kurbo::{CubicBez, ParamCurve, ParamCurveArclen, Point, Vec2};

/// Accuracy asked of a loop's length, mm.
const LENGTH_ACCURACY_MM: f64 = 1e-8;

/// Lengths that are taken, mm: a hundred metres, so that no sum overflows.
const MOST_MM: f64 = 1e5;

/// What is to be made.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RibbonWork {
    /// Loops on each side.
    pub loops_a_side: u32,
    /// How far a loop reaches from the knot, mm.
    pub loop_length: f64,
    /// How wide a loop stands open, mm.
    pub loop_width: f64,
    /// Ribbon that a loop loses in the knot, mm.
    pub pinch: f64,
    /// Tails.
    pub tails: u32,
    /// Length of a tail, mm.
    pub tail_length: f64,
    /// What a tail loses to its slanting cut, mm.
    pub tail_cut: f64,
    /// The loop over the knot, if any.
    pub centre_loop: Option<CentreLoop>,
}

/// A round loop that covers the knot.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct CentreLoop {
    /// How wide it is, mm.
    pub diameter: f64,
    /// How far its ends lie over each other, mm.
    pub overlap: f64,
}

/// The ribbon it takes, part by part.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RibbonLength {
    /// All loops, mm.
    pub loops: f64,
    /// All that is pinched into the knot, mm.
    pub pinches: f64,
    /// The loop over the knot, mm.
    pub centre: f64,
    /// All tails with their cuts, mm.
    pub tails: f64,
}

impl RibbonWork {
    /// The ribbon it takes. What is not finite, or below nought, counts as nought.
    pub fn ribbon(&self) -> RibbonLength {
        let loops = 2.0 * f64::from(self.loops_a_side);
        let centre = self.centre_loop.map_or(0.0, |centre| PI * length(centre.diameter) + length(centre.overlap));
        RibbonLength {
            loops: loops * loop_arc(self.loop_length, self.loop_width),
            pinches: loops * length(self.pinch),
            centre,
            tails: f64::from(self.tails) * (length(self.tail_length) + length(self.tail_cut)),
        }
    }
}

impl RibbonLength {
    /// All of it, mm.
    pub fn total(&self) -> f64 {
        self.loops + self.pinches + self.centre + self.tails
    }
}

/// Length of the ribbon in one loop of this reach and width, mm.
pub fn loop_arc(reach: f64, width: f64) -> f64 {
    let (reach, width) = (length(reach), length(width));
    if width <= 0.0 {
        return 2.0 * reach;
    }
    // The curve is its own mirror image; halving it at the turn keeps the sum exact for slim loops too.
    let (half, _) = loop_curve(reach, width, 0.0).subdivide();
    2.0 * half.arclen(LENGTH_ACCURACY_MM)
}

/// Directions of all loops of a bow, radians: on each side they fan out over twice `spread`, the one side about `toward`,
/// the other mirrored across the line that the knot stands on.
pub fn loop_directions(loops_a_side: u32, spread: f64, toward: f64) -> Vec<f64> {
    let angles = fan_angles(loops_a_side, spread);
    let mirrored = angles.iter().map(|angle| toward + PI - angle);
    angles.iter().map(|angle| toward + angle).chain(mirrored).collect()
}

/// Angles of one side's loops against the middle of the fan, radians: one in the middle, more evenly from end to end.
pub fn fan_angles(loops_a_side: u32, spread: f64) -> Vec<f64> {
    match loops_a_side {
        0 => Vec::new(),
        1 => vec![0.0],
        n => (0..n).map(|k| spread * (2.0 * f64::from(k) / f64::from(n - 1) - 1.0)).collect(),
    }
}

/// The outline of a loop that points in `direction`, about the knot at the origin, as so many points, counter-clockwise
/// from the knot. Twenty-four lose 0.9 % of its area, forty-eight 0.2 %.
pub fn loop_outline(reach: f64, width: f64, direction: f64, n_points: usize) -> Vec<Point> {
    let curve = loop_curve(length(reach), length(width), direction);
    // The curve's own sense is clockwise.
    (0..n_points).map(|index| curve.eval(1.0 - index as f64 / n_points as f64)).collect()
}

/// The loop as one curve from the knot and back, for drawing.
pub fn loop_curve(reach: f64, width: f64, direction: f64) -> CubicBez {
    let along = Vec2::from_angle(direction) * (4.0 / 3.0 * reach);
    let across = Vec2::new(-direction.sin(), direction.cos()) * (3f64.sqrt() * width);
    let knot = Point::ORIGIN;
    CubicBez::new(knot, knot + along + across, knot + along - across, knot)
}

fn length(value: f64) -> f64 {
    if value.is_finite() { value.clamp(0.0, MOST_MM) } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::ConvexPolygon;

    #[test]
    fn a_loop_has_the_reach_the_width_and_the_area_that_are_said() {
        let outline = loop_outline(50.0, 20.0, 0.0, 4000);
        let reach = outline.iter().map(|p| p.x).fold(0.0, f64::max);
        let half = outline.iter().map(|p| p.y).fold(0.0, f64::max);
        assert!((reach - 50.0).abs() < 1e-4 && (half - 10.0).abs() < 1e-4);
        let polygon = ConvexPolygon::around(&outline).unwrap();
        assert_eq!(polygon.corners().len(), 4000, "convex");
        assert!((polygon.area() - 0.4 * 3f64.sqrt() * 1000.0).abs() < 1e-2);
    }

    #[test]
    fn a_flat_loop_is_twice_its_reach() {
        assert_eq!(loop_arc(50.0, 0.0), 100.0);
        assert!((loop_arc(50.0, 1e-6) - 100.0).abs() < 1e-6);
        assert!(loop_arc(0.0, 10.0) > 0.0);
    }

    #[test]
    fn the_worst_numbers_are_answered() {
        for value in [f64::NAN, f64::INFINITY, -5.0, 1e300, 0.0] {
            assert!(loop_arc(value, 10.0).is_finite() && loop_arc(10.0, value).is_finite());
            let work = RibbonWork {
                loops_a_side: u32::MAX,
                loop_length: value,
                loop_width: value,
                pinch: value,
                tails: u32::MAX,
                tail_length: value,
                tail_cut: value,
                centre_loop: Some(CentreLoop { diameter: value, overlap: value }),
            };
            assert!(work.ribbon().total().is_finite());
        }
        assert_eq!(loop_outline(10.0, 5.0, 0.0, 0), []);
    }

    #[test]
    fn the_two_sides_of_a_fan_mirror_each_other() {
        let directions = loop_directions(3, 0.9, 0.0);
        assert_eq!(directions.len(), 6);
        for (one, other) in directions[..3].iter().zip(&directions[3..]) {
            assert!((one.sin() - other.sin()).abs() < 1e-12 && (one.cos() + other.cos()).abs() < 1e-12);
        }
    }
}
