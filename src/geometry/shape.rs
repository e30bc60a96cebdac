//! The shapes everything else is reckoned with: oval, disc, lens.

use kurbo::{Point, Vec2};
use std::f64::consts::PI;

/// An ellipse about the origin, its axes on x and y.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Oval {
    /// Semi-axis along x, mm, above zero.
    pub a: f64,
    /// Semi-axis along y, mm, above zero.
    pub b: f64,
}

impl Oval {
    /// The oval with these full axes, mm.
    pub fn from_axes(length: f64, width: f64) -> Self {
        Self { a: length / 2.0, b: width / 2.0 }
    }

    /// Its area, mm2.
    pub fn area(self) -> f64 {
        PI * self.a * self.b
    }

    /// How far out a point lies: 0 at the centre, 1 on the edge.
    pub fn gauge(self, p: Point) -> f64 {
        (p.x / self.a).hypot(p.y / self.b)
    }
}

/// A disc.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Disc {
    /// Centre, mm.
    pub centre: Point,
    /// Radius, mm.
    pub radius: f64,
}

/// The overlap of two equal discs: the outline of a leaf.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lens {
    /// Centre, mm.
    pub centre: Point,
    /// Tip to tip, mm.
    pub length: f64,
    /// Across the middle, mm; at most `length`.
    pub width: f64,
    /// Direction of the long axis from +x toward +y, radians.
    pub turn: f64,
}

impl Lens {
    /// The two discs whose overlap it is.
    pub fn discs(&self) -> [Disc; 2] {
        let (length, width) = (self.length, self.width);
        let radius = (length * length + width * width) / (4.0 * width);
        let off = Vec2::new(-self.turn.sin(), self.turn.cos()) * (radius - width / 2.0);
        [Disc { centre: self.centre + off, radius }, Disc { centre: self.centre - off, radius }]
    }

    /// The two tips.
    pub fn tips(&self) -> [Point; 2] {
        let half = Vec2::from_angle(self.turn) * (self.length / 2.0);
        [self.centre + half, self.centre - half]
    }
}

/// What a part is reckoned as.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shape {
    /// A round head.
    Disc(Disc),
    /// A leaf or a spike.
    Lens(Lens),
}

impl Shape {
    /// A disc about `centre`.
    pub fn disc(centre: Point, radius: f64) -> Self {
        Self::Disc(Disc { centre, radius })
    }

    /// Its centre.
    pub fn centre(&self) -> Point {
        match self {
            Self::Disc(d) => d.centre,
            Self::Lens(l) => l.centre,
        }
    }

    /// Radius of the smallest disc about the centre that holds it, mm.
    pub fn reach(&self) -> f64 {
        match self {
            Self::Disc(d) => d.radius,
            Self::Lens(l) => l.length / 2.0,
        }
    }

    /// Whether `p` lies in it.
    pub fn contains(&self, p: Point) -> bool {
        match self {
            Self::Disc(d) => d.centre.distance(p) <= d.radius,
            Self::Lens(l) => l.discs().iter().all(|d| d.centre.distance(p) <= d.radius),
        }
    }
}
