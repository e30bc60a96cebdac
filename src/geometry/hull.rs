//! The convex hull of discs and lenses, exact: arcs and straight bridges.
//!
//! Knows which shape reaches furthest in each direction; mm, radians. Built like a merge sort: two hulls, each a ring of
//! arcs over all directions, are laid over each other and the further one is kept, changing where they are equally far.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use kurbo::{Point, Vec2};

use super::region::Region;
use super::shape::tidied;
use super::{Disc, Lens, Shape};

/// A stretch of directions in which one arc (or corner, an arc of radius nought) reaches furthest.
#[derive(Clone, Copy, Debug)]
struct HullReach {
    arc: Disc,
    from: f64,
    to: f64,
}

/// The hull: stretches in order, from -pi to pi without gaps.
#[derive(Debug)]
pub(super) struct Hull {
    ring: Vec<HullReach>,
}

/// Largest turn between two points that are drawn on an arc, radians: 0.06 mm off a circle of 40 mm. Our choice.
const DRAWN_TURN: f64 = 0.1;

/// Points of the hull of the shapes for drawing, counter-clockwise; empty without shapes.
pub fn hull(shapes: &[Shape]) -> Vec<Point> {
    let Some(hull) = Hull::of(&tidied(shapes)) else { return Vec::new() };
    let mut points = Vec::new();
    for reach in &hull.ring {
        let n_steps = ((reach.to - reach.from) / DRAWN_TURN).ceil().max(1.0);
        let mut step = 0.0;
        while step <= n_steps {
            points.push(reach.at(reach.from + (reach.to - reach.from) * step / n_steps));
            step += 1.0;
        }
    }
    points.dedup();
    points
}

impl Hull {
    /// The hull of tidied shapes; none without shapes.
    pub(super) fn of(shapes: &[Shape]) -> Option<Self> {
        if shapes.len() <= FEW_SHAPES {
            return Self::of_all(shapes);
        }
        Self::of_all(&near_the_hull(shapes))
    }

    fn of_all(shapes: &[Shape]) -> Option<Self> {
        match shapes {
            [] => None,
            [shape] => Some(Self { ring: ring_of(shape) }),
            several => {
                let (left, right) = several.split_at(several.len() / 2);
                Some(Self { ring: merged(&Self::of_all(left)?.ring, &Self::of_all(right)?.ring) })
            }
        }
    }

    /// Area, mm2.
    pub(super) fn area(&self) -> f64 {
        let mut region = Region::default();
        for (index, reach) in self.ring.iter().enumerate() {
            let next = self.ring[(index + 1) % self.ring.len()];
            region.add_arc(reach.arc, reach.from, reach.to);
            region.add_edge(reach.at(reach.to), next.at(next.from));
        }
        region.area
    }
}

/// So many shapes are merged as they are.
const FEW_SHAPES: usize = 12;

/// Directions in which the furthest points are found: the polygon between them holds most shapes of a full piece.
const N_DIRECTIONS: usize = 16;

/// A shape whose own tip is a corner of that polygon lies inside by no more than rounding; this, mm, is far above it.
const WELL_INSIDE_MM: f64 = 1e-6;

/// Without the shapes that lie inside a polygon between points of others: the hull is the same.
fn near_the_hull(shapes: &[Shape]) -> Vec<Shape> {
    let ends: Vec<(Point, f64)> = shapes.iter().flat_map(ends_of).collect();
    let furthest = furthest_points(&ends);
    let edges: Vec<(f64, Vec2, f64)> = furthest
        .iter()
        .zip(furthest.iter().cycle().skip(1))
        .filter(|(p, q)| p != q)
        .map(|(p, q)| {
            let way = *q - *p;
            let outward = Vec2::new(way.y, -way.x) / way.hypot();
            (outward.atan2(), outward, p.to_vec2().dot(outward))
        })
        .collect();
    let lies_inside = |shape: &Shape| {
        let centre = shape.centre().to_vec2();
        let reach = shape.reach();
        let within = |&(angle, outward, far): &(f64, Vec2, f64)| {
            centre.dot(outward) + reach < far - WELL_INSIDE_MM || shape.support(angle) < far - WELL_INSIDE_MM
        };
        edges.len() > 2 && edges.iter().all(within)
    };
    shapes.iter().filter(|shape| !lies_inside(shape)).copied().collect()
}

/// Discs in a shape that reach about as far as it does: the disc itself, or the two tips.
fn ends_of(shape: &Shape) -> impl Iterator<Item = (Point, f64)> {
    let (first, second) = match shape {
        Shape::Disc(disc) => ((disc.centre, disc.radius), None),
        Shape::Lens(lens) => {
            let [front, back] = lens.tips();
            ((front, 0.0), Some((back, 0.0)))
        }
    };
    std::iter::once(first).chain(second)
}

/// Points of the shapes that lie about as far out in each direction as any; they only have to be theirs.
fn furthest_points(ends: &[(Point, f64)]) -> [Point; N_DIRECTIONS] {
    let toward: [Vec2; N_DIRECTIONS] =
        std::array::from_fn(|k| Vec2::from_angle(wrapped(TAU * k as f64 / N_DIRECTIONS as f64)));
    let mut furthest = [f64::NEG_INFINITY; N_DIRECTIONS];
    let mut which = [0; N_DIRECTIONS];
    for (index, (centre, radius)) in ends.iter().enumerate() {
        for (k, toward) in toward.iter().enumerate() {
            let far = centre.x * toward.x + centre.y * toward.y + radius;
            if far > furthest[k] {
                (furthest[k], which[k]) = (far, index);
            }
        }
    }
    std::array::from_fn(|k| ends.get(which[k]).map_or(Point::ORIGIN, |(centre, radius)| *centre + toward[k] * *radius))
}

impl HullReach {
    fn at(&self, angle: f64) -> Point {
        self.arc.centre + Vec2::from_angle(angle) * self.arc.radius
    }

    fn support(&self, angle: f64) -> f64 {
        self.arc.centre.to_vec2().dot(Vec2::from_angle(angle)) + self.arc.radius
    }
}

fn ring_of(shape: &Shape) -> Vec<HullReach> {
    match shape {
        Shape::Disc(disc) => vec![HullReach { arc: *disc, from: -PI, to: PI }],
        Shape::Lens(lens) => ring_of_lens(lens),
    }
}

/// A lens: an arc over the directions about each side, a tip over the rest.
fn ring_of_lens(lens: &Lens) -> Vec<HullReach> {
    let half = lens.half_turn_of_arc();
    let [above, below] = lens.discs();
    let [front, back] = lens.tips().map(|centre| Disc { centre, radius: 0.0 });
    let mut ring = Vec::with_capacity(5);
    let mut add = |arc: Disc, middle: f64, half: f64| {
        let from = wrapped(middle - half);
        let to = from + 2.0 * half;
        if to > PI {
            ring.push(HullReach { arc, from, to: PI });
            ring.push(HullReach { arc, from: -PI, to: to - TAU });
        } else {
            ring.push(HullReach { arc, from, to });
        }
    };
    // The arc on one side belongs to the disc on the other.
    add(below, lens.turn + FRAC_PI_2, half);
    add(above, lens.turn - FRAC_PI_2, half);
    add(front, lens.turn, FRAC_PI_2 - half);
    add(back, lens.turn + PI, FRAC_PI_2 - half);
    ring.sort_by(|left, right| left.from.total_cmp(&right.from));
    seamless(ring)
}

/// Closes the rounding between neighbours.
fn seamless(mut ring: Vec<HullReach>) -> Vec<HullReach> {
    let mut reached = -PI;
    for reach in &mut ring {
        reach.from = reached;
        reach.to = reach.to.max(reached);
        reached = reach.to;
    }
    if let Some(last) = ring.last_mut() {
        last.to = PI;
    }
    // A tip of a lens as wide as long has no direction to itself.
    ring.retain(|reach| reach.to > reach.from);
    ring
}

fn merged(left: &[HullReach], right: &[HullReach]) -> Vec<HullReach> {
    let mut ring = Vec::with_capacity(left.len() + right.len());
    let (mut i, mut j) = (0, 0);
    let mut from = -PI;
    while i < left.len() && j < right.len() {
        let to = left[i].to.min(right[j].to);
        if to > from {
            push_further(&mut ring, &left[i], &right[j], from, to);
        }
        from = to;
        // Both may end here; at the last angle both lists run out together.
        let (left_ends, right_ends) = (left[i].to <= to, right[j].to <= to);
        i += usize::from(left_ends);
        j += usize::from(right_ends);
    }
    ring
}

/// Over one stretch where each side is a single arc: cuts where they reach equally far and keeps the further in between.
fn push_further(ring: &mut Vec<HullReach>, left: &HullReach, right: &HullReach, from: f64, to: f64) {
    let mut cuts = [from, to, to, to];
    let mut n_cuts = 1;
    for angle in equally_far(left.arc, right.arc).into_iter().flatten() {
        if angle > from && angle < to {
            cuts[n_cuts] = angle;
            n_cuts += 1;
        }
    }
    cuts[1..n_cuts].sort_by(f64::total_cmp);
    for pair in cuts[..=n_cuts].windows(2) {
        let further = if reaches_further(right, left, f64::midpoint(pair[0], pair[1])) { right } else { left };
        match ring.last_mut() {
            Some(last) if last.arc == further.arc => last.to = pair[1],
            _ => ring.push(HullReach { arc: further.arc, from: pair[0], to: pair[1] }),
        }
    }
}

/// Whether the first reaches further at an angle. Of two circles one of which holds the other it is the larger, even where
/// they touch.
fn reaches_further(first: &HullReach, second: &HullReach, angle: f64) -> bool {
    let larger = first.arc.radius - second.arc.radius;
    if first.arc.centre.distance(second.arc.centre) <= larger.abs() {
        return larger > 0.0;
    }
    first.support(angle) > second.support(angle)
}

/// The directions, at most two, in which two circles reach equally far.
fn equally_far(first: Disc, second: Disc) -> [Option<f64>; 2] {
    let apart = second.centre - first.centre;
    let distance = apart.hypot();
    let short = first.radius - second.radius;
    if distance <= short.abs() {
        return [None, None];
    }
    let middle = apart.atan2();
    let half = ((distance - short) * (distance + short)).max(0.0).sqrt().atan2(short);
    [Some(wrapped(middle - half)), Some(wrapped(middle + half))]
}

/// The same angle in -pi..pi.
fn wrapped(angle: f64) -> f64 {
    angle - TAU * (angle / TAU).round()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn area(shapes: &[Shape]) -> f64 {
        Hull::of(shapes).unwrap().area()
    }

    #[test]
    fn two_equal_discs_make_a_stadium() {
        let shapes = [Shape::disc(Point::new(-7.0, 2.0), 5.0), Shape::disc(Point::new(5.0, 7.0), 5.0)];
        assert!((area(&shapes) - (130.0 + 25.0 * PI)).abs() < 1e-10);
        assert_eq!(hull(&[]), []);
    }

    #[test]
    fn a_disc_inside_adds_nothing() {
        let outer = Shape::disc(Point::new(1.0, 2.0), 20.0);
        let inner = Shape::disc(Point::new(4.0, 2.0), 17.0);
        assert!((area(&[inner, outer, inner]) - 400.0 * PI).abs() < 1e-10);
    }

    #[test]
    fn leaving_out_what_lies_inside_leaves_the_hull_as_it_is() {
        for round in 0..20_u32 {
            let shapes: Vec<Shape> = (0..60_u32)
                .map(|k| {
                    let (x, y) =
                        (f64::from((k * 37 + round * 11) % 97) - 48.0, f64::from((k * 53 + round * 7) % 61) - 30.0);
                    let centre = Point::new(x, y);
                    if k % 5 == 1 {
                        Shape::Lens(Lens { centre, length: 30.0, width: 9.0, turn: f64::from(k) })
                    } else {
                        Shape::disc(centre, 2.0 + f64::from(k % 9))
                    }
                })
                .collect();
            assert!(near_the_hull(&shapes).len() < shapes.len() / 2);
            let all = Hull::of_all(&shapes).unwrap().area();
            assert!((area(&shapes) - all).abs() < 1e-9 * all, "{round}");
        }
    }

    #[test]
    fn a_lens_is_its_own_hull_however_it_is_turned() {
        for step in 0..70 {
            let turn = f64::from(step) * 0.1 - 3.5;
            let lens = Shape::Lens(Lens { centre: Point::new(5.0, -3.0), length: 40.0, width: 16.0, turn });
            assert!((area(&[lens]) - lens.area()).abs() < 1e-9, "{turn}");
            assert!((area(&[lens, lens]) - lens.area()).abs() < 1e-9, "{turn}");
        }
    }

    /// Its tips had no direction to themselves, but were walked by all the same: 50 mm2 too much.
    #[test]
    fn a_lens_as_wide_as_long_has_no_tips() {
        let lens = Lens { centre: Point::new(-15.0, 20.0), length: 20.0, width: 20.0, turn: FRAC_PI_2 };
        let other = Shape::disc(Point::new(-20.0, 15.0), 10.0);
        let round = Shape::disc(lens.centre, 10.0);
        assert!((area(&[Shape::Lens(lens), other]) - area(&[round, other])).abs() < 1e-9);
    }

    #[test]
    fn the_drawn_hull_is_the_exact_one_but_for_its_chords() {
        let lens = Shape::Lens(Lens { centre: Point::new(15.0, -3.0), length: 40.0, width: 16.0, turn: 0.7 });
        let shapes = [lens, Shape::disc(Point::new(-12.0, 4.0), 9.0), Shape::disc(Point::new(3.0, 20.0), 6.0)];
        let points = hull(&shapes);
        let mut drawn = Region::default();
        for (index, point) in points.iter().enumerate() {
            drawn.add_edge(*point, points[(index + 1) % points.len()]);
        }
        let exact = area(&shapes);
        assert!(drawn.area < exact && drawn.area > exact * 0.999);
    }
}
