//! Area with its first and second moments, added up along a boundary.
//!
//! Knows how much one stretch of boundary adds when the boundary is walked with the inside on the left: a circle arc, a
//! straight edge, an arc of the oval. Powers of mm. Does not know which stretches bound anything.
//!
//! Green's theorem with the forms x2/2 dy, -y2/2 dx, x3/3 dy, -y3/3 dx, x2y/2 dy; the arc antiderivative of the area is in
//! D. Rusin's note "Area of collection of circles" (sci.math, 9 September 1995).

use std::ops::AddAssign;

use kurbo::{Point, Vec2};

use super::{Disc, Oval};

/// Area and raw moments of a plane region, about the origin.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Region {
    /// Area, mm2.
    pub area: f64,
    /// Integral of x, mm3.
    pub x: f64,
    /// Integral of y, mm3.
    pub y: f64,
    /// Integral of x squared, mm4.
    pub xx: f64,
    /// Integral of y squared, mm4.
    pub yy: f64,
    /// Integral of x times y, mm4.
    pub xy: f64,
}

/// Area under which a region counts as nothing, mm2: above the rounding of sums over a thousand arcs, far below a pinhole.
const LEAST_AREA: f64 = 1e-6;

/// Arcs that turn less than this, radians, are summed by quadrature: the closed form loses digits there when the centre is
/// far away (a slim lens). Error of five Gauss points at this span: 4e-14 of the fourth power of the arc's length.
const FLAT_ARC: f64 = 0.1;

/// Nodes and weights of five-point Gauss-Legendre quadrature on -1..1 (DLMF, table 3.5.2).
const GAUSS: [(f64, f64); 5] = [
    (-0.906_179_845_938_664, 0.236_926_885_056_189),
    (-0.538_469_310_105_683, 0.478_628_670_499_366),
    (0.0, 0.568_888_888_888_889),
    (0.538_469_310_105_683, 0.478_628_670_499_366),
    (0.906_179_845_938_664, 0.236_926_885_056_189),
];

impl Region {
    /// Where it balances; none if there is as good as nothing.
    pub fn centroid(&self) -> Option<Point> {
        (self.area > LEAST_AREA).then(|| Point::new(self.x / self.area, self.y / self.area))
    }

    /// Second moments about the centroid over the area: xx, yy, xy in mm2; none if there is as good as nothing.
    pub fn spread(&self) -> Option<[f64; 3]> {
        let centre = self.centroid()?;
        Some([
            self.xx / self.area - centre.x * centre.x,
            self.yy / self.area - centre.y * centre.y,
            self.xy / self.area - centre.x * centre.y,
        ])
    }

    /// Adds what the arc of `circle` from one angle up to another contributes.
    pub(super) fn add_arc(&mut self, circle: Disc, from: f64, to: f64) {
        if to - from < FLAT_ARC {
            self.add_flat_arc(circle, from, to);
            return;
        }
        let upper = arc_primitive(circle.centre, circle.radius, to);
        let lower = arc_primitive(circle.centre, circle.radius, from);
        *self += upper.minus(lower);
    }

    /// Takes away what the arc would add.
    pub(super) fn remove_arc(&mut self, circle: Disc, from: f64, to: f64) {
        let mut arc = Self::default();
        arc.add_arc(circle, from, to);
        *self = self.minus(arc);
    }

    /// Adds what the straight way from `p` to `q` contributes.
    pub(super) fn add_edge(&mut self, p: Point, q: Point) {
        let (dx, dy) = (q.x - p.x, q.y - p.y);
        let square = |s: f64, t: f64| s * s + s * t + t * t;
        let cube = |s: f64, t: f64| (s + t) * (s * s + t * t);
        self.area += (p.x * q.y - q.x * p.y) / 2.0;
        self.x += dy / 6.0 * square(p.x, q.x);
        self.y -= dx / 6.0 * square(p.y, q.y);
        self.xx += dy / 12.0 * cube(p.x, q.x);
        self.yy -= dx / 12.0 * cube(p.y, q.y);
        let (first, both, last) = (p.x * p.x, 2.0 * p.x * q.x, q.x * q.x);
        self.xy += dy / 24.0 * (p.y * (3.0 * first + both + last) + q.y * (first + both + 3.0 * last));
    }

    /// Adds what the edge of the oval contributes between two eccentric angles.
    pub(super) fn add_oval_arc(&mut self, oval: Oval, from: f64, to: f64) {
        let mut arc = Self::default();
        arc.add_arc(Disc { centre: Point::ORIGIN, radius: 1.0 }, from, to);
        let (a, b) = (oval.a, oval.b);
        self.area += a * b * arc.area;
        self.x += a * a * b * arc.x;
        self.y += a * b * b * arc.y;
        self.xx += a * a * a * b * arc.xx;
        self.yy += a * b * b * b * arc.yy;
        self.xy += a * a * b * b * arc.xy;
    }

    fn add_flat_arc(&mut self, circle: Disc, from: f64, to: f64) {
        let half = (to - from) / 2.0;
        let middle = f64::midpoint(from, to);
        for (node, weight) in GAUSS {
            let (sine, cosine) = (middle + half * node).sin_cos();
            let x = circle.centre.x + circle.radius * cosine;
            let y = circle.centre.y + circle.radius * sine;
            let step = circle.radius * half * weight;
            let (dx, dy) = (-sine * step, cosine * step);
            self.area += (x * dy - y * dx) / 2.0;
            self.x += x * x / 2.0 * dy;
            self.y -= y * y / 2.0 * dx;
            self.xx += x * x * x / 3.0 * dy;
            self.yy -= y * y * y / 3.0 * dx;
            self.xy += x * x * y / 2.0 * dy;
        }
    }

    /// The difference, member by member.
    pub(super) fn minus(self, other: Self) -> Self {
        Self {
            area: self.area - other.area,
            x: self.x - other.x,
            y: self.y - other.y,
            xx: self.xx - other.xx,
            yy: self.yy - other.yy,
            xy: self.xy - other.xy,
        }
    }
}

impl AddAssign for Region {
    fn add_assign(&mut self, other: Self) {
        self.area += other.area;
        self.x += other.x;
        self.y += other.y;
        self.xx += other.xx;
        self.yy += other.yy;
        self.xy += other.xy;
    }
}

/// Below this turn, radians, the difference between an angle and its sine is summed as a series; its first term left out is
/// 3e-13 of the whole.
const SMALL_TURN: f64 = 0.1;

/// What [`Region::add_arc`] would add to the area alone: the triangle with the origin and the chord, and the segment.
pub(super) fn arc_area(circle: Disc, from: f64, to: f64) -> f64 {
    let at = |angle: f64| circle.centre.to_vec2() + Vec2::from_angle(angle) * circle.radius;
    let turn = to - from;
    let square = turn * turn;
    let more_than_sine = if turn < SMALL_TURN {
        turn * square / 6.0 * (1.0 - square / 20.0 * (1.0 - square / 42.0 * (1.0 - square / 72.0)))
    } else {
        turn - turn.sin()
    };
    let (triangle, segment) = (at(from).cross(at(to)), circle.radius * circle.radius * more_than_sine);
    f64::midpoint(triangle, segment)
}

/// The antiderivative of the six forms along a circle with centre (p, q) and radius r, at angle t.
fn arc_primitive(centre: Point, r: f64, t: f64) -> Region {
    let (p, q) = (centre.x, centre.y);
    let (s, c) = t.sin_cos();
    let (sin_double, cos_double) = (2.0 * s * c, c * c - s * s);
    let sin_fourfold = 2.0 * sin_double * cos_double;
    // Integrals of the powers of cosine and sine.
    let (cos2, sin2) = (f64::midpoint(t, s * c), f64::midpoint(t, -s * c));
    let (cos3, sin3) = (s - s * s * s / 3.0, c * c * c / 3.0 - c);
    let (cos4, sin4) = (
        (3.0 * t + 2.0 * sin_double + sin_fourfold / 4.0) / 8.0,
        (3.0 * t - 2.0 * sin_double + sin_fourfold / 4.0) / 8.0,
    );
    let along = p * p * s + 2.0 * p * r * cos2 + r * r * cos3;
    Region {
        area: r / 2.0 * (r * t + p * s - q * c),
        x: r / 2.0 * along,
        y: r / 2.0 * (-q * q * c + 2.0 * q * r * sin2 + r * r * sin3),
        xx: r / 3.0 * (p * p * p * s + 3.0 * p * p * r * cos2 + 3.0 * p * r * r * cos3 + r * r * r * cos4),
        yy: r / 3.0 * (-q * q * q * c + 3.0 * q * q * r * sin2 + 3.0 * q * r * r * sin3 + r * r * r * sin4),
        xy: r / 2.0
            * (q * along + r * (p * p * s * s / 2.0 - 2.0 / 3.0 * p * r * c * c * c - r * r * c * c * c * c / 4.0)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::{FRAC_PI_2, PI};

    fn near(left: Region, right: Region, tolerance: f64) {
        let difference = left.minus(right);
        for (part, scale) in [
            (difference.area, right.area.abs()),
            (difference.x, right.x.abs() + right.area.abs()),
            (difference.y, right.y.abs() + right.area.abs()),
            (difference.xx, right.xx.abs() + right.area.abs()),
            (difference.yy, right.yy.abs() + right.area.abs()),
            (difference.xy, right.xy.abs() + right.area.abs()),
        ] {
            assert!(part.abs() <= tolerance * (1.0 + scale), "{left:?} {right:?}");
        }
    }

    #[test]
    fn a_whole_circle_has_the_textbook_moments() {
        let (p, q, r) = (3.0, -2.0, 5.0);
        let mut region = Region::default();
        region.add_arc(Disc { centre: Point::new(p, q), radius: r }, -PI, PI);
        let area = PI * r * r;
        let own = area * r * r / 4.0;
        let expected =
            Region { area, x: area * p, y: area * q, xx: own + area * p * p, yy: own + area * q * q, xy: area * p * q };
        near(region, expected, 1e-14);
    }

    #[test]
    fn a_rectangle_has_the_textbook_moments() {
        let corners = [(1.0, 2.0), (4.0, 2.0), (4.0, 7.0), (1.0, 7.0)].map(Point::from);
        let mut region = Region::default();
        for (index, corner) in corners.iter().enumerate() {
            region.add_edge(*corner, corners[(index + 1) % 4]);
        }
        let expected = Region { area: 15.0, x: 37.5, y: 67.5, xx: 105.0, yy: 335.0, xy: 168.75 };
        near(region, expected, 1e-14);
    }

    #[test]
    fn short_arcs_add_up_to_the_long_one() {
        let circle = Disc { centre: Point::new(-7.0, 4.0), radius: 11.0 };
        let mut whole = Region::default();
        whole.add_arc(circle, 0.3, FRAC_PI_2);
        let mut sum = Region::default();
        let step = (FRAC_PI_2 - 0.3) / 16.0;
        for index in 0..16 {
            sum.add_arc(circle, 0.3 + step * f64::from(index), 0.3 + step * f64::from(index + 1));
        }
        near(sum, whole, 1e-13);
    }

    #[test]
    fn the_area_alone_is_the_same() {
        let circle = Disc { centre: Point::new(-7.0, 4.0), radius: 11.0 };
        for (from, to) in [(-PI, PI), (0.3, 2.0), (0.3, 0.301), (1.0, 1.099), (1.0, 1.101)] {
            let mut region = Region::default();
            region.add_arc(circle, from, to);
            assert!((arc_area(circle, from, to) - region.area).abs() < 1e-12, "{from} {to}");
        }
    }

    #[test]
    fn nothing_has_no_centroid() {
        assert_eq!(Region::default().centroid(), None);
        assert_eq!(Region::default().spread(), None);
    }
}
