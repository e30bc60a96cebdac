//! How large a circle about any place of a square may be, from what limits it at the square's centre.
//!
//! Knows a square and the limits about its centre; mm. It never promises too little, so the search misses nothing.
//!
//! Distance from a convex shape bends by no more than one over the radius of its line of equal distance, and a half-plane
//! that holds the oval does not bend at all: each limit lies below a plane. No place can have more clearance than any
//! average of those planes. The average of three that leaves no slope promises the same everywhere, and is wrong only by
//! the bend, the square of the square's size; the average of two opposite ones leaves little slope. Our own derivation
//! (weak duality of linear programmes, from memory).
//!
//! Better still is the place where those three limits hold at once, found by Newton's steps. From there the distances grow
//! by at most `grows . d + d2 / (2 bend)` along a way d, and whichever way one goes one of the three shrinks by at least a
//! share of it: no place nearer than twice that share of the bend has more clearance than the place itself. A square in
//! that neighbourhood is done with, however large it is. Our own derivation.

use std::f64::consts::SQRT_2;

use kurbo::{Point, Vec2};

use super::field::{Limit, Obstacles};
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
const MOST_PLANES: usize = 4;

/// A limit and how high its plane lies at the square's centre.
#[derive(Clone, Copy, Debug)]
struct Plane {
    height: f64,
    limit: Limit,
    /// The obstacle that limits; none for the oval's edge.
    obstacle: Option<usize>,
}

/// A square of places.
#[derive(Clone, Copy, Debug)]
struct Room {
    centre: Point,
    half_side: f64,
}

/// What the square about `centre` promises, no more than `promise`. `obstacles` are all that can be nearest in it.
pub(super) fn bound(
    field: &Obstacles,
    centre: Point,
    half_side: f64,
    promise: f64,
    obstacles: impl Iterator<Item = usize>,
) -> Bound {
    let reach = half_side * SQRT_2;
    let mut planes = Lowest::new();
    let mut add = |limit: Limit, obstacle: Option<usize>| {
        // What stays clear of the promise all over the square bounds nothing; what is bent too much has no plane.
        if limit.clearance - reach < promise && limit.bend > reach {
            let height = limit.clearance + reach * reach / 2.0 / (limit.bend - reach);
            planes.add(Plane { height, limit, obstacle });
        }
    };
    obstacles
        .filter(|obstacle| field.may_be_within(*obstacle, centre, promise + reach))
        .for_each(|obstacle| add(field.limit_by(obstacle, centre), Some(obstacle)));
    if field.edge_may_limit(centre, promise + reach) {
        field.edge_bounds(centre).for_each(|limit| add(limit, None));
    }
    lowest_average(field, planes.as_slice(), promise, Room { centre, half_side })
}

fn lowest_average(field: &Obstacles, planes: &[Plane], promise: f64, room: Room) -> Bound {
    let reach = room.half_side * SQRT_2;
    let mut bound = Bound { promise, place: None };
    let mut lowest: Option<[&Plane; 3]> = None;
    let mut level = f64::INFINITY;
    for (index, first) in planes.iter().enumerate() {
        for (offset, second) in planes[index + 1..].iter().enumerate() {
            let height = f64::midpoint(first.height, second.height);
            if height < bound.promise {
                let slope = (first.limit.grows + second.limit.grows).hypot2().sqrt() / 2.0;
                bound.promise = bound.promise.min(height + reach * slope);
            }
            for third in &planes[index + offset + 2..] {
                if let Some(height) = level_average([first, second, third]).filter(|height| *height < level) {
                    (level, lowest) = (height, Some([first, second, third]));
                }
            }
        }
    }
    bound.promise = bound.promise.min(level);
    if let Some((place, promise)) = lowest.and_then(|three| about_meeting_place(field, three, room)) {
        bound.promise = bound.promise.min(promise);
        let off = place - room.centre;
        bound.place = (off.x.abs().max(off.y.abs()) <= room.half_side).then_some(place);
    }
    bound
}

/// Newton's steps to the place where three limits are equal, at most.
const MOST_STEPS: usize = 4;

/// After a step shorter than this, mm, the next would be rounding.
const LAST_STEP_MM: f64 = 1e-7;

/// The place where three limits hold at once, if it is near the square, and what it promises for all of the square.
fn about_meeting_place(field: &Obstacles, three: [&Plane; 3], room: Room) -> Option<(Point, f64)> {
    let mut place = room.centre;
    let mut limits = three.map(|plane| plane.limit);
    for _ in 0..MOST_STEPS {
        let step = step_to_equal(limits[0], limits[1], limits[2])?;
        place += step;
        if (place - room.centre).hypot2() > 4.0 * room.half_side * room.half_side {
            return None;
        }
        limits = three.map(|plane| match plane.obstacle {
            Some(obstacle) => field.limit_by(obstacle, place),
            None => plane.limit.moved(place - room.centre),
        });
        if step.hypot2() < LAST_STEP_MM * LAST_STEP_MM {
            break;
        }
    }
    let least_fall = least_fall(limits.map(|limit| limit.grows))?;
    let clearance = limits.iter().map(|limit| limit.clearance).fold(0.0, f64::max);
    let bend = limits.iter().map(|limit| limit.bend).fold(f64::INFINITY, f64::min);
    let off = place - room.centre;
    let far = Vec2::new(off.x.abs() + room.half_side, off.y.abs() + room.half_side).hypot2().sqrt();
    (bend > 0.0).then(|| (place, clearance + (far * (far / (2.0 * bend) - least_fall)).max(0.0)))
}

/// Whichever way one goes, one of three distances falls by at least this share of it: how far nought lies inside the
/// triangle of their directions. None if it lies outside.
pub(super) fn least_fall([p, q, r]: [Vec2; 3]) -> Option<f64> {
    let sides = [(p, q), (q, r), (r, p)].map(|(from, to)| from.cross(to) / (to - from).hypot2().sqrt());
    let inside = sides.iter().all(|side| *side > 0.0) || sides.iter().all(|side| *side < 0.0);
    inside.then(|| sides.iter().fold(f64::INFINITY, |least, side| least.min(side.abs())))
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
        Self { planes: [Plane { height: f64::INFINITY, limit, obstacle: None }; MOST_PLANES], n_planes: 0 }
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
