//! How far a point lies from the edge of the oval.
//!
//! Knows the nearest point of an ellipse's edge, mm. D. Eberly, "Distance from a Point to an Ellipse, an Ellipsoid, or a
//! Hyperellipsoid", Geometric Tools 2013 (revised 2020). Newton's steps are taken for one over the root of his function, as
//! J. J. More and D. C. Sorensen do ("Computing a Trust Region Step", SIAM J. Sci. Stat. Comput. 4, 1983; from memory): that
//! is nearly a straight line, and it is concave, so that steps from the left end cannot overshoot.
//!
//! Where only a bound is asked for there is one without a root: see [`Oval::surely_holds`].

use kurbo::{Point, Vec2};

use super::Oval;

/// Newton steps at most; most places need two or three.
const MOST_STEPS: usize = 100;

/// After a step smaller than this share of the way the next would be rounding: each doubles the digits.
const LAST_SHARE: f64 = 1e-9;

impl Oval {
    /// How far `p` lies from the edge, mm: positive inside, negative outside. Never changes faster than `p` moves.
    pub fn depth(self, p: Point) -> f64 {
        let away = self.nearest_edge(p).distance(p);
        if self.gauge(p) > 1.0 { -away } else { away }
    }

    /// Whether a circle about `p` surely lies inside; where this says no, it may lie inside all the same.
    ///
    /// The squared distance from `p` to the edge is at least t (1 - x2 / (a2 - t) - y2 / (b2 - t)) for every t between nought
    /// and the smaller semi-axis squared (the dual of finding the nearest point; our own derivation), and equal to it for
    /// the t that belongs to the nearest point. Here t is taken as if the nearest point lay straight out from the centre.
    pub(super) fn surely_holds(self, p: Point, radius: f64) -> bool {
        let (a2, b2) = (self.a * self.a, self.b * self.b);
        let (x2, y2) = (p.x * p.x, p.y * p.y);
        let gauge2 = x2 / a2 + y2 / b2;
        let slope2 = x2 / (a2 * a2) + y2 / (b2 * b2);
        let t = radius * (gauge2 / slope2).sqrt();
        let (rest_a, rest_b) = (a2 - t, b2 - t);
        // At the centre t is no number, and the answer no.
        let apart = t * (rest_a * rest_b - x2 * rest_b - y2 * rest_a) >= radius * radius * rest_a * rest_b;
        gauge2 <= 1.0 && (radius <= 0.0 || (rest_a > 0.0 && rest_b > 0.0 && apart))
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
        let length = outward.hypot2().sqrt();
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
    // Root s = t + b^2 of (a x / (s + excess))^2 + (b y / s)^2 = 1; it lies right of `least`. The first guess is right if the
    // foot lies straight out from the centre.
    let least = (b * y).max(a * x - excess);
    let (p, q) = (x / a, y / b);
    let (gauge2, slope2) = (p * p + q * q, p * p / (a * a) + q * q / (b * b));
    let guess = b * b - (1.0 - gauge2.sqrt()) * gauge2 / slope2;
    let mut s = if guess > least { guess } else { least };
    for _ in 0..MOST_STEPS {
        let (p, q) = (a * x / (s + excess), b * y / s);
        let value = p * p + q * q;
        let step = value * (value.sqrt() - 1.0) / (p * p / (s + excess) + q * q / s);
        if step.is_nan() {
            break;
        }
        s = (s + step).max(least);
        if step.abs() <= LAST_SHARE * s {
            break;
        }
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
    fn what_is_surely_held_is_held_and_most_that_is_held_is_sure() {
        for oval in [Oval { a: 45.0, b: 30.0 }, Oval { a: 20.0, b: 37.0 }, Oval { a: 30.0, b: 30.0 }] {
            let (mut n_held, mut n_sure) = (0, 0);
            for step in 0..625 {
                let p = Point::new(f64::from(step % 25) * 4.0 - 48.0, f64::from(step / 25) * 4.0 - 48.0);
                for radius in [0.5, 2.0, 5.0, 9.0, 20.0] {
                    let (held, sure) = (oval.depth(p) >= radius, oval.surely_holds(p, radius));
                    assert!(held || !sure, "{oval:?} {p:?} {radius}");
                    (n_held, n_sure) = (n_held + u32::from(held), n_sure + u32::from(sure));
                }
            }
            assert!(f64::from(n_sure) > 0.9 * f64::from(n_held), "{n_sure} of {n_held}");
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
