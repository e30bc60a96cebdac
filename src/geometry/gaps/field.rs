//! Clearance: how large a circle about a place may be before it meets something.
//!
//! Knows obstacles, the oval's edge, and the gaps already given away; mm.

use kurbo::{Point, Vec2};

use super::super::lens::{LensFrame, direction};
use super::super::shape::tidied;
use super::super::{Disc, Oval, Shape};

/// Everything that limits a circle. Obstacles have numbers: first the lenses, then the discs, then the circles given away
/// in the order they were found.
#[derive(Debug)]
pub(super) struct Obstacles {
    lenses: Vec<LensFrame>,
    discs: Vec<Disc>,
    pub(super) oval: Oval,
    pub(super) overhang: f64,
}

/// Something that limits a circle near a place: to first order the clearance after a step is `clearance + step . grows`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Limit {
    pub(super) clearance: f64,
    pub(super) grows: Vec2,
    /// Radius, mm, of the line of equal clearance through the place, or less: how soon the first order is wrong.
    pub(super) bend: f64,
}

impl Limit {
    /// The same after a step, where it does not bend.
    pub(super) fn moved(self, step: Vec2) -> Self {
        Self { clearance: self.clearance + self.grows.dot(step), ..self }
    }
}

impl Obstacles {
    pub(super) fn new(shapes: &[Shape], oval: Oval, overhang: f64) -> Self {
        let (mut lenses, mut discs) = (Vec::new(), Vec::with_capacity(shapes.len()));
        for shape in tidied(shapes) {
            match shape {
                Shape::Disc(disc) => discs.push(disc),
                Shape::Lens(lens) => lenses.push(LensFrame::of(&lens)),
            }
        }
        Self { lenses, discs, oval, overhang }
    }

    /// Gives a circle away: from now on it is an obstacle like any other.
    pub(super) fn give_away(&mut self, gap: Disc) {
        self.discs.push(gap);
    }

    pub(super) fn n_obstacles(&self) -> usize {
        self.lenses.len() + self.discs.len()
    }

    /// How many of a list are lenses; they stand first.
    pub(super) fn n_lenses_of(&self, list: &[usize]) -> usize {
        list.partition_point(|obstacle| *obstacle < self.lenses.len())
    }

    /// Distance to an obstacle that is a lens.
    pub(super) fn distance_to_lens(&self, obstacle: usize, place: Point) -> f64 {
        self.lenses[obstacle].distance(place)
    }

    /// Distance to an obstacle that is a disc.
    pub(super) fn distance_to_disc(&self, obstacle: usize, place: Point) -> f64 {
        let disc = self.disc(obstacle);
        // Not by `hypot`: nothing here is so large or so small that a square would lose it.
        (place - disc.centre).hypot2().sqrt() - disc.radius
    }

    /// Whether an obstacle that is a disc is no further from `place` than `within`, which is above nought.
    pub(super) fn is_disc_within(&self, obstacle: usize, place: Point, within: f64) -> bool {
        let disc = self.disc(obstacle);
        let reach = disc.radius + within;
        (place - disc.centre).hypot2() <= reach * reach
    }

    /// Whether an obstacle may be no further from `place` than `within`; a lens always may.
    pub(super) fn may_be_within(&self, obstacle: usize, place: Point, within: f64) -> bool {
        obstacle < self.lenses.len() || self.is_disc_within(obstacle, place, within)
    }

    fn disc(&self, obstacle: usize) -> &Disc {
        &self.discs[obstacle - self.lenses.len()]
    }

    /// Distance to an obstacle of either kind.
    pub(super) fn distance_to(&self, obstacle: usize, place: Point) -> f64 {
        if obstacle < self.lenses.len() {
            self.distance_to_lens(obstacle, place)
        } else {
            self.distance_to_disc(obstacle, place)
        }
    }

    /// Distances from four places to the nearest of the listed obstacles.
    pub(super) fn nearest_to_each(&self, places: &[Point; 4], list: &[usize]) -> [f64; 4] {
        let (lenses, discs) = list.split_at(self.n_lenses_of(list));
        let mut free = [f64::INFINITY; 4];
        for &obstacle in lenses {
            lower(&mut free, places.map(|place| self.distance_to_lens(obstacle, place)));
        }
        for &obstacle in discs {
            lower(&mut free, places.map(|place| self.distance_to_disc(obstacle, place)));
        }
        free
    }

    /// Distance to the nearest of the listed obstacles.
    pub(super) fn nearest_obstacle(&self, place: Point, list: &[usize]) -> f64 {
        let (lenses, discs) = list.split_at(self.n_lenses_of(list));
        let lens = lenses.iter().map(|&obstacle| self.distance_to_lens(obstacle, place)).fold(f64::INFINITY, f64::min);
        discs.iter().map(|&obstacle| self.distance_to_disc(obstacle, place)).fold(lens, f64::min)
    }

    /// Clearance at a place with this gauge, of the obstacles only the listed ones.
    pub(super) fn clearance(&self, place: Point, gauge: f64, list: &[usize]) -> f64 {
        self.with_edge(place, gauge, self.nearest_obstacle(place, list))
    }

    /// The same when the distance to the nearest obstacle is known.
    pub(super) fn with_edge(&self, place: Point, gauge: f64, free: f64) -> f64 {
        if self.overhang == f64::INFINITY {
            return free.min(2.0 * self.oval.a.max(self.oval.b));
        }
        // The edge is never nearer than this; the exact distance costs more.
        let at_least = self.oval.a.min(self.oval.b) * (1.0 - gauge) + self.overhang;
        if gauge <= 1.0 && (at_least >= free || self.oval.surely_holds(place, free - self.overhang)) {
            free
        } else {
            free.min(self.oval.depth(place) + self.overhang)
        }
    }

    /// The obstacles no further from `place` than `within`.
    pub(super) fn obstacles_within(&self, place: Point, within: f64) -> Vec<usize> {
        let lenses = (0..self.lenses.len()).filter(|&lens| self.distance_to_lens(lens, place) <= within);
        let discs = self.lenses.len()..self.n_obstacles();
        lenses.chain(discs.filter(|&disc| self.is_disc_within(disc, place, within))).collect()
    }

    /// What limits circles about `place`, of the obstacles only the listed ones, no further off than `within`; the nearest
    /// first.
    pub(super) fn limits(&self, place: Point, list: &[usize], within: f64) -> Vec<Limit> {
        let mut limits: Vec<Limit> = list
            .iter()
            .map(|&obstacle| self.limit_by(obstacle, place))
            .chain(self.edge_limits(place, within))
            .filter(|limit| limit.clearance <= within)
            .collect();
        limits.sort_by(|left, right| left.clearance.total_cmp(&right.clearance));
        limits
    }

    /// How one obstacle limits circles about `place`.
    pub(super) fn limit_by(&self, obstacle: usize, place: Point) -> Limit {
        if obstacle < self.lenses.len() {
            // Its lines of equal distance bend about a tip or about a place farther off.
            let (clearance, grows) = self.lenses[obstacle].nearest(place);
            return Limit { clearance, grows, bend: clearance };
        }
        let disc = self.disc(obstacle);
        let away = place - disc.centre;
        let length = away.hypot2().sqrt();
        Limit { clearance: length - disc.radius, grows: direction(away, length), bend: length }
    }

    /// Whether the edge may limit circles about `place` to less than this; where it says yes, it need not.
    pub(super) fn edge_may_limit(&self, place: Point, clearance: f64) -> bool {
        self.overhang != f64::INFINITY && !self.oval.surely_holds(place, clearance - self.overhang)
    }

    /// The half-planes that hold the oval and touch it at the edge point nearest to `place`, and at that point's mirror
    /// images: limits that hold as they stand wherever the circle moves. None if only centres must lie in the oval.
    pub(super) fn edge_bounds(&self, place: Point) -> impl Iterator<Item = Limit> {
        let foot = self.oval.nearest_edge(place);
        let finite = self.overhang != f64::INFINITY;
        let images = [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0)];
        images.into_iter().filter(move |_| finite).map(move |(along, across)| {
            let edge = Point::new(foot.x * along, foot.y * across);
            let inward = self.oval.inward(edge);
            Limit { clearance: (place - edge).dot(inward) + self.overhang, grows: inward, bend: f64::INFINITY }
        })
    }

    /// Near the oval's axes two stretches of the edge limit at once: the nearest and its mirror images.
    fn edge_limits(&self, place: Point, within: f64) -> impl Iterator<Item = Limit> {
        let finite = self.edge_may_limit(place, within);
        let foot = if finite { self.oval.nearest_edge(place) } else { place };
        let limit = move |edge: Point| {
            let inward = self.oval.inward(edge);
            Limit { clearance: (place - edge).dot(inward) + self.overhang, grows: inward, bend: f64::INFINITY }
        };
        // An image so far off has nothing near it that limits.
        let far = 2.0 * within.abs() + self.overhang.abs();
        let images = [Point::new(foot.x, -foot.y), Point::new(-foot.x, foot.y)];
        let images = images.into_iter().filter(move |image| limit(*image).clearance <= far);
        // One that settles where the nearest lies is no other stretch.
        let settled = images.map(move |image| settled(self.oval, place, image));
        let settled = settled.filter(move |image| (*image - foot).hypot2() > SAME_PLACE_MM * SAME_PLACE_MM);
        std::iter::once(foot).chain(settled).filter(move |_| finite).map(limit)
    }
}

fn lower(free: &mut [f64; 4], distances: [f64; 4]) {
    for (free, distance) in free.iter_mut().zip(distances) {
        *free = if distance < *free { distance } else { *free };
    }
}

/// Places of the edge nearer to each other than this, mm, are one: far above what `SETTLED` leaves.
const SAME_PLACE_MM: f64 = 1e-6;

/// Steps toward the stationary point of the distance; the start is near it wherever the result matters.
const SETTLING_STEPS: usize = 4;

/// A step shorter than this, radians, is the last.
const SETTLED: f64 = 1e-9;

/// The edge point near `start` where the distance from `place` is stationary.
fn settled(oval: Oval, place: Point, start: Point) -> Point {
    let (a, b) = (oval.a, oval.b);
    let excess = a * a - b * b;
    let mut angle = oval.angle_of(start);
    for _ in 0..SETTLING_STEPS {
        let (sine, cosine) = angle.sin_cos();
        let slope = a * place.x * sine - b * place.y * cosine - excess * sine * cosine;
        let bend = a * place.x * cosine + b * place.y * sine - excess * (cosine * cosine - sine * sine);
        // Where the distance is no minimum the image limits nothing.
        if bend <= 0.0 || bend.is_nan() || slope == 0.0 {
            break;
        }
        let step = (slope / bend).clamp(-0.1, 0.1);
        angle -= step;
        // Each step doubles the digits: after one so short the next would be rounding.
        if step.abs() < SETTLED {
            break;
        }
    }
    oval.edge_at(angle)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every stretch of the edge that limits a circle, against twenty thousand points of the edge: wherever the distance is
    /// least along the edge, and no more than asked for, there is a limit of that size.
    #[test]
    fn every_stretch_of_the_edge_within_reach_is_a_limit() {
        let mut n_seen = 0;
        for oval in [Oval { a: 45.0, b: 30.0 }, Oval { a: 20.0, b: 37.0 }, Oval { a: 45.0, b: 12.0 }] {
            let field = Obstacles::new(&[], oval, 0.0);
            for step in 0..289 {
                let place = Point::new(f64::from(step % 17) * 5.0 - 40.0, f64::from(step / 17) * 3.0 - 24.0);
                if oval.gauge(place) > 0.98 {
                    continue;
                }
                const N: usize = 20_000;
                let away = |k: usize| oval.edge_at(std::f64::consts::TAU * k as f64 / N as f64).distance(place);
                let distances: Vec<f64> = (0..N).map(away).collect();
                let nearest = distances.iter().copied().fold(f64::INFINITY, f64::min);
                let within = 1.2 * nearest;
                let limits = field.limits(place, &[], within);
                for k in 0..N {
                    let (before, here, after) = (distances[(k + N - 1) % N], distances[k], distances[(k + 1) % N]);
                    if here < before && here <= after && here <= within - 0.01 {
                        n_seen += 1;
                        let found = limits.iter().any(|limit| (limit.clearance - here).abs() < 0.01);
                        assert!(found, "{oval:?} {place:?}: {here} is not among {limits:?}");
                    }
                }
            }
        }
        assert!(n_seen > 400, "{n_seen}");
    }
}
