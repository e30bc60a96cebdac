//! Short ways to paints, tints and small shapes.

use std::sync::Arc;

use kurbo::{Affine, BezPath, Circle, Ellipse, Point, Shape as _, Vec2};

use super::{Paint, Stop, Tint};
use crate::colour::Rgb;

/// How far a drawn curve may stray from the true circle; drafts are about one unit large.
const TOLERANCE: f64 = 0.002;

impl Rgb {
    /// This colour with this cover.
    pub(crate) fn tint(self, alpha: f64) -> Tint {
        Tint { rgb: self, alpha: alpha.clamp(0.0, 1.0) }
    }

    /// This colour without transparency.
    pub(crate) fn solid(self) -> Tint {
        self.tint(1.0)
    }

    /// This colour as a paint.
    pub(crate) fn paint(self, alpha: f64) -> Paint {
        Paint::Solid(self.tint(alpha))
    }
}

/// Stops from places and tints; places that run backward are pulled up to the one before.
pub(crate) fn stops(list: &[(f64, Tint)]) -> Arc<[Stop]> {
    let mut least: f64 = 0.0;
    let stops = list.iter().map(|&(at, tint)| {
        least = least.max(at.clamp(0.0, 1.0));
        Stop { at: least, tint }
    });
    stops.collect()
}

/// A round gradient.
pub(crate) fn radial(centre: Point, radius: f64, list: &[(f64, Tint)]) -> Paint {
    oval_radial(centre, Vec2::new(radius, radius), 0.0, list)
}

/// An elliptical gradient, its axes turned by `turn`.
pub(crate) fn oval_radial(centre: Point, radii: Vec2, turn: f64, list: &[(f64, Tint)]) -> Paint {
    Paint::Radial { place: oval_place(centre, radii, turn), stops: stops(list) }
}

/// A straight gradient.
pub(crate) fn linear(from: impl Into<Point>, to: impl Into<Point>, list: &[(f64, Tint)]) -> Paint {
    Paint::Linear { from: from.into(), to: to.into(), stops: stops(list) }
}

/// Where the unit circle goes to become this ellipse.
pub(crate) fn oval_place(centre: Point, radii: Vec2, turn: f64) -> Affine {
    Affine::translate(centre.to_vec2()) * Affine::rotate(turn) * Affine::scale_non_uniform(radii.x, radii.y)
}

/// A circle.
pub(crate) fn circle(centre: Point, radius: f64) -> BezPath {
    Circle::new(centre, radius).to_path(TOLERANCE * radius.abs().max(1e-6))
}

/// An ellipse, its axes turned by `turn`.
pub(crate) fn oval(centre: Point, radii: Vec2, turn: f64) -> BezPath {
    Ellipse::new(centre, radii, turn).to_path(TOLERANCE * radii.hypot().max(1e-6))
}

/// The point at this angle and distance from the origin.
pub(crate) fn polar(angle: f64, distance: f64) -> Point {
    (Vec2::from_angle(angle) * distance).to_point()
}

/// Adds the outlines of `more` to `path`, so that many small shapes cost one fill.
pub(crate) fn add(path: &mut BezPath, more: &BezPath) {
    path.extend(more.elements().iter().copied());
}
