//! Where circles and straight edges lie inside one another.
//!
//! Knows two simple pieces at a time, a disc or the left side of an edge, and answers along which part of the one's
//! boundary one is inside the other. Lengths mm, angles radians. Does not know whole shapes nor the oval.
//!
//! Both sides of a pair reach the same crossing points by the same arithmetic, and angles come from those points by
//! `atan2`: the pieces of a boundary then close, to second order even where two circles barely touch.

use kurbo::{Point, Vec2};

use super::Disc;
use super::spans::Along;

/// A convex piece whose overlaps make up every shape.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum ConvexPart {
    /// A disc.
    Round(Disc),
    /// All that lies left of the line from the first to the second point.
    Side(Point, Point),
}

/// Pieces that come nearer to touching, to holding or to equalling each other than this, mm, count as doing so. Above the
/// rounding of coordinates at a metre, and the area at stake is a millionth of a millionth of a square millimetre.
const TOUCH_MM: f64 = 1e-9;

/// Where the boundary of `piece` (for a side: the edge between its two points, parameter 0 to 1) lies inside `other`.
///
/// Where the two boundaries are one and the same, `when_same` decides.
pub(super) fn along(piece: &ConvexPart, other: &ConvexPart, when_same: bool) -> Along {
    match (piece, other) {
        (ConvexPart::Round(own), ConvexPart::Round(disc)) => circle_in_disc(*own, *disc, when_same),
        (ConvexPart::Round(own), ConvexPart::Side(p, q)) => circle_in_side(*own, *p, *q),
        (ConvexPart::Side(p, q), ConvexPart::Round(disc)) => edge_in_disc(*p, *q, *disc),
        (ConvexPart::Side(p, q), ConvexPart::Side(from, to)) => edge_in_side([*p, *q], [*from, *to], when_same),
    }
}

fn circle_in_disc(own: Disc, disc: Disc, when_same: bool) -> Along {
    let apart = disc.centre - own.centre;
    let (squared, touching) = (apart.hypot2(), own.radius + disc.radius - TOUCH_MM);
    // Most neighbours are told apart without a root.
    if touching <= 0.0 || squared >= touching * touching {
        return Along::Nowhere;
    }
    let distance = squared.sqrt();
    let (within, holds) =
        (distance + own.radius <= disc.radius + TOUCH_MM, distance + disc.radius <= own.radius + TOUCH_MM);
    match (within, holds) {
        (true, true) => return whole_if(when_same),
        (true, false) => return Along::Everywhere,
        (false, true) => return Along::Nowhere,
        (false, false) => {}
    }
    let (sum, difference) = (own.radius + disc.radius, own.radius - disc.radius);
    // Heron's form keeps the height right where the circles barely touch, and is the same from both sides.
    let squared = (distance + sum) * (sum - distance) * ((distance + difference) * (distance - difference));
    let height = squared.max(0.0).sqrt() / (2.0 * distance);
    let reach = (distance * distance + difference * sum) / (2.0 * distance);
    let unit = apart / distance;
    let aside = Vec2::new(-unit.y, unit.x) * height;
    let toward = unit * reach;
    Along::Between((toward - aside).atan2(), (toward + aside).atan2())
}

fn circle_in_side(own: Disc, p: Point, q: Point) -> Along {
    let Some((inward, depth)) = depth_in_side(own.centre, p, q) else { return Along::Everywhere };
    if depth >= own.radius - TOUCH_MM {
        return Along::Everywhere;
    }
    if depth <= TOUCH_MM - own.radius {
        return Along::Nowhere;
    }
    let half_chord = ((own.radius - depth) * (own.radius + depth)).max(0.0).sqrt();
    let toward = inward * -depth;
    let ahead = Vec2::new(inward.y, -inward.x) * half_chord;
    Along::Between((toward + ahead).atan2(), (toward - ahead).atan2())
}

fn edge_in_disc(p: Point, q: Point, disc: Disc) -> Along {
    let Some((_, depth)) = depth_in_side(disc.centre, p, q) else { return Along::Nowhere };
    if depth.abs() >= disc.radius - TOUCH_MM {
        return Along::Nowhere;
    }
    let way = q - p;
    let length = way.hypot();
    let middle = (disc.centre - p).dot(way) / length;
    let half_chord = ((disc.radius - depth) * (disc.radius + depth)).max(0.0).sqrt();
    between_on_edge((middle - half_chord) / length, (middle + half_chord) / length)
}

fn edge_in_side([p, q]: [Point; 2], [from, to]: [Point; 2], when_same: bool) -> Along {
    let (Some((_, first)), Some((_, last))) = (depth_in_side(p, from, to), depth_in_side(q, from, to)) else {
        return Along::Everywhere;
    };
    if first.abs() <= TOUCH_MM && last.abs() <= TOUCH_MM {
        // Two edges back to back cancel, whichever way; only edges with the same inside must not count twice.
        let same_sense = (q - p).dot(to - from) > 0.0;
        return whole_if(same_sense && when_same);
    }
    match (first >= 0.0, last >= 0.0) {
        (true, true) => Along::Everywhere,
        (false, false) => Along::Nowhere,
        (true, false) => between_on_edge(0.0, first / (first - last)),
        (false, true) => between_on_edge(first / (first - last), 1.0),
    }
}

/// The unit vector to the left of the way from `from` to `to`, and how far `p` lies in that direction.
fn depth_in_side(p: Point, from: Point, to: Point) -> Option<(Vec2, f64)> {
    let way = to - from;
    let length = way.hypot();
    let inward = Vec2::new(-way.y, way.x) / length;
    (length > 0.0).then(|| (inward, (p - from).dot(inward)))
}

/// The stretch cut to the edge's 0..1.
pub(super) fn between_on_edge(from: f64, to: f64) -> Along {
    let (from, to) = (from.max(0.0), to.min(1.0));
    match (from < to, from <= 0.0 && to >= 1.0) {
        (false, _) => Along::Nowhere,
        (true, true) => Along::Everywhere,
        (true, false) => Along::Between(from, to),
    }
}

fn whole_if(inside: bool) -> Along {
    if inside { Along::Everywhere } else { Along::Nowhere }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::{FRAC_PI_2, FRAC_PI_3, FRAC_PI_4};

    fn disc(x: f64, y: f64, radius: f64) -> ConvexPart {
        ConvexPart::Round(Disc { centre: Point::new(x, y), radius })
    }

    fn side(from: (f64, f64), to: (f64, f64)) -> ConvexPart {
        ConvexPart::Side(Point::from(from), Point::from(to))
    }

    fn near(found: &Along, from: f64, to: f64) {
        let Along::Between(start, end) = found else { panic!("{found:?}") };
        // Minus pi and pi are the same place.
        let apart = |found: f64, wanted: f64| ((found - wanted).abs() + 1e-12) % std::f64::consts::TAU;
        assert!(apart(*start, from) < 2e-12 && apart(*end, to) < 2e-12, "{found:?}");
    }

    #[test]
    fn two_equal_circles_a_radius_apart_cover_a_third_of_each_other() {
        near(&along(&disc(0.0, 0.0, 10.0), &disc(10.0, 0.0, 10.0), false), -FRAC_PI_3, FRAC_PI_3);
    }

    #[test]
    fn touching_apart_inside_and_equal_are_told_apart() {
        let own = disc(0.0, 0.0, 10.0);
        assert_eq!(along(&own, &disc(20.0, 0.0, 10.0), false), Along::Nowhere);
        assert_eq!(along(&own, &disc(0.0, 2.0, 12.0), false), Along::Everywhere);
        assert_eq!(along(&own, &disc(0.0, 2.0, 8.0), false), Along::Nowhere);
        assert_eq!(along(&own, &own, true), Along::Everywhere);
        assert_eq!(along(&own, &own, false), Along::Nowhere);
    }

    #[test]
    fn a_line_through_the_centre_halves_a_circle() {
        near(&along(&disc(0.0, 0.0, 5.0), &side((-1.0, 0.0), (1.0, 0.0)), false), 0.0, std::f64::consts::PI);
        near(&along(&disc(0.0, 0.0, 5.0), &side((0.0, 1.0), (0.0, -1.0)), false), -FRAC_PI_2, FRAC_PI_2);
    }

    #[test]
    fn edges_are_cut_by_discs_and_by_sides() {
        let edge = side((-10.0, 3.0), (10.0, 3.0));
        near(&along(&edge, &disc(0.0, 0.0, 5.0), false), 0.3, 0.7);
        assert_eq!(along(&edge, &disc(0.0, 0.0, 3.0), false), Along::Nowhere);
        near(&along(&edge, &side((5.0, 0.0), (5.0, 1.0)), false), 0.0, 0.75);
        assert_eq!(along(&edge, &side((0.0, 3.0), (1.0, 3.0)), true), Along::Everywhere);
        assert_eq!(along(&edge, &side((1.0, 3.0), (0.0, 3.0)), true), Along::Nowhere);
    }

    #[test]
    fn both_circles_meet_in_the_same_points() {
        let (left, right) =
            (Disc { centre: Point::new(0.3, -0.7), radius: 4.0 }, Disc { centre: Point::new(7.0, 1.1), radius: 3.1 });
        let at = |d: Disc, angle: f64| d.centre + Vec2::from_angle(angle) * d.radius;
        let (Along::Between(a, b), Along::Between(c, d)) =
            (circle_in_disc(left, right, false), circle_in_disc(right, left, false))
        else {
            panic!()
        };
        assert!(at(left, a).distance(at(right, d)) < 1e-12);
        assert!(at(left, b).distance(at(right, c)) < 1e-12);
        assert!(a > -FRAC_PI_4 && b < 1.0);
    }
}
