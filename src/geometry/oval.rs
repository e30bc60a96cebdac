//! How far a point lies from the edge of the oval.
//!
//! Knows the nearest point of an ellipse's edge, mm. D. Eberly, "Distance from a Point to an Ellipse, an Ellipsoid, or a
//! Hyperellipsoid", Geometric Tools 2013 (revised 2020), with Newton's steps taken from the left end, where they cannot
//! overshoot because the function is convex.

use kurbo::{Point, Vec2};

use super::Oval;

/// Newton steps at most; the convex case needs six to nine, the worst within the limits of a sound oval about sixty.
const MOST_STEPS: usize = 100;

/// A step smaller than this share of the way counts as none.
const LEAST_SHARE: f64 = 1e-15;

impl Oval {
    /// How far `p` lies from the edge, mm: positive inside, negative outside. Never changes faster than `p` moves.
    pub fn depth(self, p: Point) -> f64 {
        let away = self.nearest_edge(p).distance(p);
        if self.gauge(p) > 1.0 { -away } else { away }
    }

    /// The nearest point of the edge (one of them, where there are several).
    pub fn nearest_edge(self, p: Point) -> Point {
        let foot = if self.a >= self.b {
            foot_of(self.a, self.b, p.x.abs(), p.y.abs())
        } else {
            let turned = foot_of(self.b, self.a, p.y.abs(), p.x.abs());
            Point::new(turned.y, turned.x)
        };
        Point::new(foot.x.copysign(p.x), foot.y.copysign(p.y))
    }

    /// The direction inward at a point of the edge.
    pub(super) fn inward(self, edge: Point) -> Vec2 {
        let outward = Vec2::new(edge.x / (self.a * self.a), edge.y / (self.b * self.b));
        let length = outward.hypot();
        if length > 0.0 { outward / -length } else { Vec2::new(0.0, 1.0) }
    }

    /// The point of the edge at an eccentric angle.
    pub fn edge_at(self, angle: f64) -> Point {
        let (sine, cosine) = angle.sin_cos();
        Point::new(self.a * cosine, self.b * sine)
    }

    /// The eccentric angle of a point: the angle after the oval is squeezed into a circle, radians in -pi..pi.
    pub fn angle_of(self, p: Point) -> f64 {
        (p.y / self.b).atan2(p.x / self.a)
    }
}

/// The nearest edge point for a point in the first quarter of an ellipse with a >= b.
fn foot_of(a: f64, b: f64, x: f64, y: f64) -> Point {
    let excess = a * a - b * b;
    if y <= 0.0 {
        if a * x < excess {
            let foot = a * a * x / excess;
            let rise = (1.0 - (foot / a) * (foot / a)).max(0.0).sqrt();
            return Point::new(foot, b * rise);
        }
        return Point::new(a, 0.0);
    }
    // Root s = t + b^2 of (a x / (s + excess))^2 + (b y / s)^2 = 1.
    let mut s = (b * y).max(a * x - excess);
    for _ in 0..MOST_STEPS {
        let (p, q) = (a * x / (s + excess), b * y / s);
        let value = p * p + q * q - 1.0;
        let slope = -2.0 * (p * p / (s + excess) + q * q / s);
        let step = value / slope;
        if step.abs() <= LEAST_SHARE * s || step.is_nan() {
            break;
        }
        s -= step;
    }
    Point::new(a * a * x / (s + excess), b * b * y / s)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_edge_is_as_near_as_a_fine_sample_says() {
        for oval in [Oval { a: 45.0, b: 30.0 }, Oval { a: 20.0, b: 37.0 }, Oval { a: 30.0, b: 30.0 }] {
            for step in 0..225 {
                let p = Point::new(f64::from(step % 15) * 8.0 - 56.0, f64::from(step / 15) * 6.0 - 42.0);
                let sampled = (0..20_000)
                    .map(|k| oval.edge_at(f64::from(k) * 3.1416e-4).distance(p))
                    .fold(f64::INFINITY, f64::min);
                let foot = oval.nearest_edge(p);
                assert!((oval.gauge(foot) - 1.0).abs() < 1e-12, "{oval:?} {p:?}");
                assert!(foot.distance(p) <= sampled + 1e-9, "{oval:?} {p:?}");
                // Samples lie up to 0.016 mm apart.
                assert!(foot.distance(p) > sampled - 0.01, "{oval:?} {p:?}");
            }
        }
    }

    #[test]
    fn points_on_the_axes_and_at_the_edge_are_no_trap() {
        let oval = Oval { a: 45.0, b: 30.0 };
        assert_eq!(oval.depth(Point::ORIGIN), 30.0);
        assert_eq!(oval.depth(Point::new(45.0, 0.0)), 0.0);
        assert_eq!(oval.depth(Point::new(50.0, 0.0)), -5.0);
        assert_eq!(oval.depth(Point::new(0.0, 33.0)), -3.0);
        assert!((oval.depth(Point::new(24.0, 1e-300)) - oval.depth(Point::new(24.0, 0.0))).abs() < 1e-9);
    }
}
