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
            Self::Disc(disc) => disc.centre.distance(place) - disc.radius,
            Self::Lens(frame) => frame.distance(place),
        }
    }

    fn limit(&self, place: Point) -> Limit {
        let (clearance, grows) = match self {
            Self::Disc(disc) => {
                let away = place - disc.centre;
                let length = away.hypot();
                (length - disc.radius, direction(away, length))
            }
            Self::Lens(frame) => frame.nearest(place),
        };
        Limit { clearance, grows }
    }
}

/// Everything that limits a circle.
#[derive(Debug)]
pub(super) struct Field {
    obstacles: Vec<Obstacle>,
    pub(super) oval: Oval,
    overhang: f64,
    /// Circles given away, in the order they were found.
    pub(super) gaps: Vec<Disc>,
}

/// Something that limits a circle near a place: to first order the clearance after a step is `clearance + step . grows`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Limit {
    pub(super) clearance: f64,
    pub(super) grows: Vec2,
}

impl Field {
    pub(super) fn new(shapes: &[Shape], oval: Oval, overhang: f64) -> Self {
        let obstacles = tidied(shapes).iter().map(Obstacle::of).collect();
        Self { obstacles, oval, overhang, gaps: Vec::new() }
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
        let gaps = self.gaps.iter().map(|gap| gap.centre.distance(place) - gap.radius);
        let free = gaps.fold(self.nearest_obstacle(place, list), f64::min);
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
        self.clearance(place, self.oval.gauge(place), &[]).min(free)
    }

    /// The obstacles no further from `place` than `within`.
    pub(super) fn obstacles_within(&self, place: Point, within: f64) -> Vec<usize> {
        (0..self.obstacles.len()).filter(|&obstacle| self.obstacles[obstacle].distance(place) <= within).collect()
    }

    /// What limits circles about `place`, of the obstacles only the listed ones, no further off than `within`; the nearest
    /// first.
    pub(super) fn limits(&self, place: Point, list: &[usize], within: f64) -> Vec<Limit> {
        let given = self.gaps.iter().map(|gap| Obstacle::Disc(*gap));
        let mut limits: Vec<Limit> = list
            .iter()
            .map(|&obstacle| self.obstacles[obstacle])
            .chain(given)
            .map(|obstacle| obstacle.limit(place))
            .chain(self.edge_limits(place))
            .filter(|limit| limit.clearance <= within)
            .collect();
        limits.sort_by(|left, right| left.clearance.total_cmp(&right.clearance));
        limits
    }

    /// Near the oval's axes two stretches of the edge limit at once: the nearest and its mirror images.
    fn edge_limits(&self, place: Point) -> impl Iterator<Item = Limit> {
        let foot = self.oval.nearest_edge(place);
        let finite = self.overhang != f64::INFINITY;
        let images = [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0)];
        images.into_iter().filter(move |_| finite).map(move |(along, across)| {
            let image = Point::new(foot.x * along, foot.y * across);
            let edge = settled(self.oval, place, image);
            let inward = self.oval.inward(edge);
            Limit { clearance: (place - edge).dot(inward) + self.overhang, grows: inward }
        })
    }
}

/// Steps toward the stationary point of the distance; the start is near it wherever the result matters.
const SETTLING_STEPS: usize = 4;

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
        angle -= (slope / bend).clamp(-0.1, 0.1);
    }
    oval.edge_at(angle)
}
