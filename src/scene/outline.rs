//! Outlines of petals and leaves: smooth curves through points, the fan (a petal about the bloom's centre) and the blade
//! (a petal or leaf along +x).

use std::f64::consts::{FRAC_PI_2, PI};

use kurbo::{BezPath, PathEl, Point, Vec2};

use super::brush::polar;
use super::chance::Chance;
use super::hues::ease;

/// A smooth curve through all points (uniform Catmull-Rom as cubic Beziers).
pub(crate) fn smooth(points: &[Point], closed: bool) -> BezPath {
    let mut path = BezPath::new();
    let n = points.len();
    let Some(&first) = points.first() else { return path };
    path.move_to(first);
    let around = |i: usize, step: isize| {
        let j = i.cast_signed() + step;
        let last = n.cast_signed() - 1;
        let j = if closed { j.rem_euclid(n.cast_signed()) } else { j.clamp(0, last) };
        points[j.unsigned_abs()]
    };
    for i in 0..if closed { n } else { n - 1 } {
        let (before, here, next, after) = (around(i, -1), around(i, 0), around(i, 1), around(i, 2));
        path.curve_to(here + (next - before) / 6.0, next - (after - here) / 6.0, next);
    }
    if closed {
        path.close_path();
    }
    path
}

/// The shape between two smooth lines that run the same way.
pub(crate) fn between(one: &[Point], other: &[Point]) -> BezPath {
    let back: Vec<Point> = other.iter().rev().copied().collect();
    let mut path = smooth(one, false);
    for element in smooth(&back, false).elements() {
        match *element {
            PathEl::MoveTo(p) => path.line_to(p),
            other => path.push(other),
        }
    }
    path.close_path();
    path
}

/// A straight-sided outline.
pub(crate) fn polygon(points: &[Point]) -> BezPath {
    let mut path = BezPath::new();
    for (i, &p) in points.iter().enumerate() {
        if i == 0 { path.move_to(p) } else { path.line_to(p) }
    }
    path.close_path();
    path
}

/// A petal that spreads from the bloom's centre, its axis along +x.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Fan {
    /// Where its sides begin.
    pub(crate) from: f64,
    /// How far its rim reaches.
    pub(crate) to: f64,
    /// Half the angle it spans.
    pub(crate) half: f64,
    /// How flat its rim is: 2 is round, 4 is nearly an arc.
    pub(crate) flat: f64,
    /// Height of the waves of its rim, as a share of its reach.
    pub(crate) wave: f64,
    /// Waves along the rim.
    pub(crate) ripples: f64,
    /// A tip (above zero) or a dip in the middle of the rim.
    pub(crate) tip: f64,
}

impl Fan {
    /// A smooth broad petal.
    pub(crate) const BROAD: Self =
        Self { from: 0.25, to: 1.0, half: 0.8, flat: 2.8, wave: 0.02, ripples: 2.0, tip: 0.0 };

    /// Points of its rim, left to right.
    pub(crate) fn rim(&self, chance: &mut Chance) -> Vec<Point> {
        let n = if self.ripples > 3.0 { 26_u32 } else { 14 };
        let (one, two, lean) = (chance.angle(), chance.angle(), chance.bell(0.12));
        let at = |i: u32| {
            let a = f64::from(i) / f64::from(n) * 2.0 - 1.0;
            let leaning = a + lean * (1.0 - a * a);
            let body = (1.0 - leaning.abs().powf(self.flat)).max(0.0).sqrt();
            let wave = (a * self.ripples * 1.9 + one).sin() * 0.62 + (a * self.ripples * 3.3 + two).sin() * 0.38;
            let tip = self.tip * (-(a / 0.24).powi(2)).exp();
            polar(a * self.half, self.from + (self.to - self.from) * body * (1.0 + self.wave * wave + tip))
        };
        (0..=n).map(at).collect()
    }

    /// The closed outline over that rim.
    pub(crate) fn closed(&self, rim: &[Point]) -> BezPath {
        let mut points = rim.to_vec();
        points.push(polar(self.half * 0.7, self.from * 0.5));
        points.push(polar(-self.half * 0.7, self.from * 0.5));
        smooth(&points, true)
    }
}

/// A petal or leaf along +x, from the origin to (`length`, 0).
#[derive(Clone, Copy, Debug)]
pub(crate) struct Blade {
    /// Base to tip.
    pub(crate) length: f64,
    /// Half its greatest width.
    pub(crate) half: f64,
    /// Where it is widest, as a share of its length.
    pub(crate) peak: f64,
    /// How blunt its ends are: 1 pointed, 0.5 round.
    pub(crate) blunt: f64,
    /// Width at the foot as a share of the profile.
    pub(crate) foot: f64,
    /// How deep the tip is notched, as a share of the length; below zero it is drawn out.
    pub(crate) notch: f64,
    /// Waviness of the sides.
    pub(crate) wave: f64,
    /// Sideways bend at the tip, as a share of the length.
    pub(crate) bend: f64,
}

impl Blade {
    /// A plain petal.
    pub(crate) const PETAL: Self =
        Self { length: 1.0, half: 0.25, peak: 0.6, blunt: 0.6, foot: 0.4, notch: 0.0, wave: 0.02, bend: 0.0 };

    /// Half its width at `u` of its length.
    pub(crate) fn half_at(&self, u: f64) -> f64 {
        let u = u.clamp(0.0, 1.0);
        let rise = if u < self.peak { u / self.peak } else { (1.0 - u) / (1.0 - self.peak) };
        let body = (rise * FRAC_PI_2).sin().max(0.0);
        self.half * body.powf(self.blunt) * (self.foot + (1.0 - self.foot) * ease(0.0, 0.45, u))
    }

    /// The point at `u` of its length and `v` of its half width there.
    pub(crate) fn at(&self, u: f64, v: f64) -> Point {
        Point::new(u * self.length, v * self.half_at(u) + self.bend * self.length * u * u)
    }

    /// Points of one side, base to tip; `side` is -1 or 1.
    pub(crate) fn side(&self, side: f64, chance: &mut Chance) -> Vec<Point> {
        const N: u32 = 9;
        let (one, two) = (chance.angle(), chance.angle());
        let at = |i: u32| {
            let u = (1.0 - (f64::from(i) / f64::from(N) * PI).cos()) / 2.0;
            let wave = 1.0 + self.wave * ((u * 9.0 + one).sin() * 0.6 + (u * 17.0 + two).sin() * 0.4);
            let p = self.at(u, side * wave);
            let pull = self.notch * self.length * (-((1.0 - u) / 0.10).powi(2)).exp();
            let foot = if i == 0 { 0.14 * self.half * self.foot.max(0.12) * side } else { 0.0 };
            p + Vec2::new(-pull, foot)
        };
        (0..=N).map(at).collect()
    }

    /// The closed outline over both sides.
    pub(crate) fn closed(left: &[Point], right: &[Point]) -> BezPath {
        let mut points = left.to_vec();
        points.pop();
        points.extend(right.iter().rev());
        smooth(&points, true)
    }

    /// A line along it at `v` of its half width, from `u0` to `u1` of its length.
    pub(crate) fn line(&self, v: f64, u0: f64, u1: f64) -> BezPath {
        let points: Vec<Point> = (0..=4).map(|i| self.at(u0 + (u1 - u0) * f64::from(i) / 4.0, v)).collect();
        smooth(&points, false)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Shape as _;

    #[test]
    fn a_blade_has_the_length_and_width_it_says() {
        let blade = Blade { length: 10.0, half: 2.0, wave: 0.0, ..Blade::PETAL };
        let mut chance = Chance::seeded(1);
        let bounds = Blade::closed(&blade.side(-1.0, &mut chance), &blade.side(1.0, &mut chance)).bounding_box();
        assert!((bounds.width() - 10.0).abs() < 0.2 && (bounds.height() - 4.0).abs() < 0.2, "{bounds:?}");
    }

    #[test]
    fn a_smooth_curve_passes_through_its_points() {
        let points = [Point::new(0.0, 0.0), Point::new(2.0, 1.0), Point::new(1.0, 3.0)];
        let path = smooth(&points, true);
        let ends: Vec<Point> = path.segments().map(|s| kurbo::ParamCurve::start(&s)).collect();
        assert_eq!(ends, points);
    }
}
