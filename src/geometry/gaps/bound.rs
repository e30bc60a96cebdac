//! How large a circle about any place of a square may be, told from what limits it at the square's centre.
//!
//! Knows a square and the limits about its centre; mm. It never promises too little, so the search misses nothing.
//!
//! Distance from a convex shape bends by no more than one over the radius of its line of equal distance, and a half-plane
//! that holds the oval does not bend at all: each limit lies below a plane. No place can have more clearance than any
//! average of those planes. The average of three that leaves no slope promises the same everywhere, and is wrong only by
//! the bend, the square of the square's size; the average of two opposite ones leaves little slope. Our own derivation
//! (weak duality of linear programmes, from memory).

use std::f64::consts::SQRT_2;

use kurbo::{Point, Vec2};

use super::field::{Field, Limit};
use super::polish::step_to_equal;

/// What a square promises.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bound {
    /// No place in it has more clearance than this.
    pub(super) promise: f64,
    /// Where, to first order, three limits that bound it hold at once; in the square.
    pub(super) place: Option<Point>,
}

/// How many of the lowest planes are averaged in twos and threes.
const MOST_PLANES: usize = 5;

/// A limit and how high its plane lies at the square's centre.
#[derive(Clone, Copy, Debug)]
struct Plane {
    height: f64,
    limit: Limit,
}

/// What the square about `centre` promises, no more than `promise`. `obstacles` are all that can be nearest in it.
pub(super) fn bound(
    field: &Field,
    centre: Point,
    half_side: f64,
    promise: f64,
    obstacles: impl Iterator<Item = usize>,
) -> Bound {
    let reach = half_side * SQRT_2;
    let mut planes = Lowest::new();
    let mut add = |limit: Limit| {
        // What stays clear of the promise all over the square bounds nothing; what is bent too much has no plane.
        if limit.clearance - reach < promise && limit.bend > reach {
            planes.add(Plane { height: limit.clearance + reach * reach / 2.0 / (limit.bend - reach), limit });
        }
    };
    obstacles.for_each(|obstacle| add(field.limit_by(obstacle, centre)));
    let edge_at_least = field.oval.a.min(field.oval.b) * (1.0 - field.oval.gauge(centre)) + field.overhang;
    if edge_at_least - reach < promise {
        field.edge_bounds(centre).for_each(add);
    }
    lowest_average(planes.as_slice(), Bound { promise, place: None }, centre, half_side)
}

fn lowest_average(planes: &[Plane], mut bound: Bound, centre: Point, half_side: f64) -> Bound {
    let reach = half_side * SQRT_2;
    for (index, first) in planes.iter().enumerate() {
        for (offset, second) in planes[index + 1..].iter().enumerate() {
            let slope = (first.limit.grows + second.limit.grows).hypot2().sqrt() / 2.0;
            bound.promise = bound.promise.min(f64::midpoint(first.height, second.height) + reach * slope);
            for third in &planes[index + offset + 2..] {
                let Some(height) = level_average([first, second, third]).filter(|height| *height < bound.promise)
                else {
                    continue;
                };
                bound.promise = height;
                let step = step_to_equal(first.limit, second.limit, third.limit);
                let inside = step.filter(|step| step.x.abs().max(step.y.abs()) <= half_side);
                bound.place = inside.map(|step| centre + step);
            }
        }
    }
    bound
}

/// Height of the average of three planes that has no slope; none if every average has some.
fn level_average(planes: [&Plane; 3]) -> Option<f64> {
    let [p, q, r] = planes.map(|plane| plane.limit.grows);
    let shares = [q.cross(r), r.cross(p), p.cross(q)];
    let sum: f64 = shares.iter().sum();
    let one_sided = shares.iter().all(|share| *share > 0.0) || shares.iter().all(|share| *share < 0.0);
    one_sided.then(|| shares.iter().zip(planes).map(|(share, plane)| share / sum * plane.height).sum())
}

/// The lowest planes met so far, in order.
struct Lowest {
    planes: [Plane; MOST_PLANES],
    n_planes: usize,
}

impl Lowest {
    fn new() -> Self {
        let limit = Limit { clearance: f64::INFINITY, grows: Vec2::ZERO, bend: f64::INFINITY };
        Self { planes: [Plane { height: f64::INFINITY, limit }; MOST_PLANES], n_planes: 0 }
    }

    fn add(&mut self, plane: Plane) {
        let place = self.as_slice().iter().take_while(|known| known.height <= plane.height).count();
        if place < MOST_PLANES {
            self.n_planes = (self.n_planes + 1).min(MOST_PLANES);
            self.planes[place..self.n_planes].rotate_right(1);
            self.planes[place] = plane;
        }
    }

    fn as_slice(&self) -> &[Plane] {
        &self.planes[..self.n_planes]
    }
}
