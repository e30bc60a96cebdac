//! Clearance: how large a circle about a place may be before it meets something.
//!
//! Knows obstacles, the oval's edge, and the gaps already given away; mm.

use kurbo::{Point, Vec2};

use super::super::lens::{LensFrame, direction};
use super::super::shape::tidied;
use super::super::{Disc, Oval, Shape};

/// A shape made ready to be asked many times.
#[derive(Clone, Copy, Debug)]
enum Obstacle {
    Disc(Disc),
    Lens(LensFrame),
}

impl Obstacle {
    fn of(shape: &Shape) -> Self {
        match shape {
            Shape::Disc(disc) => Self::Disc(*disc),
            Shape::Lens(lens) => Self::Lens(LensFrame::of(lens)),
        }
    }

    fn distance(&self, place: Point) -> f64 {
        match self {
            // Not by `hypot`: nothing here is so large or so small that a square would lose it.
            Self::Disc(disc) => (place - disc.centre).hypot2().sqrt() - disc.radius,
            Self::Lens(frame) => frame.distance(place),
        }
    }

    fn limit(&self, place: Point) -> Limit {
        match self {
            Self::Disc(disc) => {
                let away = place - disc.centre;
                let length = away.hypot2().sqrt();
                Limit { clearance: length - disc.radius, grows: direction(away, length), bend: length }
            }
            // Its lines of equal distance bend about a tip or about a place farther off.
            Self::Lens(frame) => {
                let (clearance, grows) = frame.nearest(place);
                Limit { clearance, grows, bend: clearance }
            }
        }
    }
}

/// Everything that limits a circle.
#[derive(Debug)]
pub(super) struct Field {
    /// The shapes, then the circles given away in the order they were found.
    obstacles: Vec<Obstacle>,
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

impl Field {
    pub(super) fn new(shapes: &[Shape], oval: Oval, overhang: f64) -> Self {
        let obstacles = tidied(shapes).iter().map(Obstacle::of).collect();
        Self { obstacles, oval, overhang }
    }

    /// Gives a circle away: from now on it is an obstacle like any other.
    pub(super) fn give_away(&mut self, gap: Disc) {
        self.obstacles.push(Obstacle::Disc(gap));
    }

    pub(super) fn n_obstacles(&self) -> usize {
        self.obstacles.len()
    }

    pub(super) fn distance_to(&self, obstacle: usize, place: Point) -> f64 {
        self.obstacles[obstacle].distance(place)
    }

    /// Distance to the nearest of the listed obstacles.
    pub(super) fn nearest_obstacle(&self, place: Point, list: &[usize]) -> f64 {
        list.iter().map(|&obstacle| self.obstacles[obstacle].distance(place)).fold(f64::INFINITY, f64::min)
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
        if gauge <= 1.0 && at_least >= free { free } else { free.min(self.oval.depth(place) + self.overhang) }
    }

    /// Clearance at a place.
    pub(super) fn clearance_of_all(&self, place: Point) -> f64 {
        let free = self.obstacles.iter().map(|obstacle| obstacle.distance(place)).fold(f64::INFINITY, f64::min);
        self.with_edge(place, self.oval.gauge(place), free)
    }

    /// The obstacles no further from `place` than `within`.
    pub(super) fn obstacles_within(&self, place: Point, within: f64) -> Vec<usize> {
        (0..self.obstacles.len()).filter(|&obstacle| self.obstacles[obstacle].distance(place) <= within).collect()
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
        self.obstacles[obstacle].limit(place)
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
        let at_least = self.oval.a.min(self.oval.b) * (1.0 - self.oval.gauge(place)) + self.overhang;
        let finite = at_least <= within;
        let foot = if finite { self.oval.nearest_edge(place) } else { place };
        let images = [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0)];
        images.into_iter().filter(move |_| finite).map(move |(along, across)| {
            let image = Point::new(foot.x * along, foot.y * across);
            let edge = settled(self.oval, place, image);
            let inward = self.oval.inward(edge);
            Limit { clearance: (place - edge).dot(inward) + self.overhang, grows: inward, bend: f64::INFINITY }
        })
    }
}

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
