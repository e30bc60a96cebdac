//! The sheet laid round the wrist: where a place on it ends up, how it tilts, what sticks out past the side.
//!
//! Knows a wrist's section as an ellipse, lying, top uppermost; arcs along its skin from the top, mm; angles in radians. On
//! the sheet the arc is the coordinate y. Does not know the forearm's taper, nor what is worn.
//!
//! With half-width p and half-depth q a point of the skin is (p sin t, q cos t), and the arc to it from the top is an
//! incomplete elliptic integral of the second kind (DLMF chapter 19), taken by Gauss-Legendre quadrature.

use std::f64::consts::{FRAC_PI_2, PI};

use kurbo::Vec2;

/// An elliptic section of known girth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WristSection {
    half_width: f64,
    half_depth: f64,
}

/// A place on the skin as one sees it from above.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seen {
    /// Sideways from the middle, mm.
    pub across: f64,
    /// Above the middle of the wrist, mm; below nought on the underside.
    pub height: f64,
    /// How far the skin tilts to that side there, radians: 0 on top, pi/2 at the side, pi underneath.
    pub tilt: f64,
}

/// A round head that stands square on the skin.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RoundHead {
    /// Radius, mm.
    pub radius: f64,
    /// From the skin to the plane of its rim, mm.
    pub lift: f64,
    /// How far it bulges above that plane, mm.
    pub dome: f64,
}

/// Girths that are taken, mm: wider than any arm, so that a slip of the keys still gives a drawing.
const GIRTHS_MM: (f64, f64) = (10.0, 2000.0);

/// Depths over widths that are taken; within them twenty points leave an error of some units in the last place.
const FLATNESSES: (f64, f64) = (0.4, 2.5);

/// Arcs beyond this, mm, are cut to it: hundreds of times round.
const MOST_ARC_MM: f64 = 1e6;

/// Newton's steps at most; the slope stays between the axes, so five or six do.
const MOST_STEPS: usize = 20;

/// A step smaller than this, radians, counts as none.
const LEAST_STEP: f64 = 1e-15;

/// Steps of the search for the farthest place, each of which leaves two thirds: to a millionth of a turn, and the square of
/// that in reach.
const THIRDS: u32 = 34;

/// Nodes above nought and weights of twenty-point Gauss-Legendre quadrature on -1..1: zeros of the Legendre polynomial
/// (DLMF 3.5(v)), by Newton's method to fifty digits.
const GAUSS: [(f64, f64); 10] = [
    (0.993_128_599_185_094_9, 0.017_614_007_139_152_118),
    (0.963_971_927_277_913_8, 0.040_601_429_800_386_94),
    (0.912_234_428_251_326, 0.062_672_048_334_109_06),
    (0.839_116_971_822_218_8, 0.083_276_741_576_704_75),
    (0.746_331_906_460_150_8, 0.101_930_119_817_240_44),
    (0.636_053_680_726_515, 0.118_194_531_961_518_42),
    (0.510_867_001_950_827_1, 0.131_688_638_449_176_63),
    (0.373_706_088_715_419_56, 0.142_096_109_318_382_05),
    (0.227_785_851_141_645_07, 0.149_172_986_472_603_75),
    (0.076_526_521_133_497_33, 0.152_753_387_130_725_85),
];

impl WristSection {
    /// The section with this girth, mm, and this depth over width. Figures no wrist can have are brought to the nearest it
    /// could; what is not a number becomes the smallest girth, or a round section.
    pub fn new(girth: f64, flatness: f64) -> Self {
        let girth = if girth.is_nan() { GIRTHS_MM.0 } else { girth.clamp(GIRTHS_MM.0, GIRTHS_MM.1) };
        let flatness = if flatness.is_nan() { 1.0 } else { flatness.clamp(FLATNESSES.0, FLATNESSES.1) };
        let unit = Self { half_width: 1.0, half_depth: flatness };
        let half_width = girth / 4.0 / unit.arc_within_quarter(FRAC_PI_2);
        Self { half_width, half_depth: flatness * half_width }
    }

    /// Half its width, side to side, mm.
    pub fn half_width(&self) -> f64 {
        self.half_width
    }

    /// Half its depth, top to underside, mm.
    pub fn half_depth(&self) -> f64 {
        self.half_depth
    }

    /// All the way round, mm.
    pub fn girth(&self) -> f64 {
        4.0 * self.arc_within_quarter(FRAC_PI_2)
    }

    /// Arc from the top to the point at this parameter angle, mm.
    pub fn arc_at(&self, angle: f64) -> f64 {
        let angle = if angle.is_finite() { angle.clamp(-MOST_ARC_MM, MOST_ARC_MM) } else { 0.0 };
        let n_halves = (angle / PI).round();
        let rest = self.arc_within_quarter(angle - n_halves * PI);
        2.0 * n_halves * self.arc_within_quarter(FRAC_PI_2) + rest
    }

    /// Parameter angle at this arc from the top, radians; past pi after more than half way round.
    pub fn angle_at(&self, arc: f64) -> f64 {
        let arc = if arc.is_finite() { arc.clamp(-MOST_ARC_MM, MOST_ARC_MM) } else { 0.0 };
        let quarter = self.arc_within_quarter(FRAC_PI_2);
        let n_halves = (arc / (2.0 * quarter)).round();
        let rest = arc - 2.0 * quarter * n_halves;
        let mut angle = rest / quarter * FRAC_PI_2;
        for _ in 0..MOST_STEPS {
            let step = (self.arc_within_quarter(angle) - rest) / self.speed(angle);
            angle = (angle - step).clamp(-FRAC_PI_2, FRAC_PI_2);
            if step.abs() < LEAST_STEP {
                break;
            }
        }
        angle + n_halves * PI
    }

    /// Where the place at this arc from the top is seen.
    pub fn seen(&self, arc: f64) -> Seen {
        let angle = self.angle_at(arc);
        let (sine, cosine) = angle.sin_cos();
        let normal = self.normal(angle);
        Seen { across: self.half_width * sine, height: self.half_depth * cosine, tilt: normal.x.atan2(normal.y) }
    }

    /// The arc from the top to what is seen this far sideways; none past the side.
    pub fn arc_seen_at(&self, across: f64) -> Option<f64> {
        let share = across / self.half_width;
        (share.abs() <= 1.0).then(|| self.arc_at(share.asin()))
    }

    /// How wide half a sheet with this half-width looks when it lies over the top: no more than half the wrist.
    pub fn seen_half_width(&self, half_width: f64) -> f64 {
        let quarter = self.arc_within_quarter(FRAC_PI_2);
        self.seen(if half_width.is_nan() { 0.0 } else { half_width.clamp(-quarter, quarter) }).across
    }

    /// How wide a sheet looks from above that lies from one arc to another, mm: no more than the wrist, and nought where it hangs
    /// under one side.
    pub fn seen_across(&self, from: f64, to: f64) -> f64 {
        self.seen_half_width(to) - self.seen_half_width(from)
    }

    /// How far a head at this arc sticks out past the side of the wrist, mm; below nought if it does not.
    pub fn protrusion(&self, arc: f64, head: RoundHead) -> f64 {
        self.protrusion_at(self.angle_at(arc), head)
    }

    /// Between the top and the side: the arc at which a head sticks out farthest, and how far.
    pub fn farthest(&self, head: RoundHead) -> (f64, f64) {
        let (mut from, mut to) = (0.0, FRAC_PI_2);
        for _ in 0..THIRDS {
            let third = (to - from) / 3.0;
            if self.protrusion_at(from + third, head) < self.protrusion_at(to - third, head) {
                from += third;
            } else {
                to -= third;
            }
        }
        let angle = f64::midpoint(from, to);
        (self.arc_at(angle), self.protrusion_at(angle, head))
    }

    fn protrusion_at(&self, angle: f64, head: RoundHead) -> f64 {
        let normal = self.normal(angle);
        let middle = (self.half_width * angle.sin()).abs() + head.lift * normal.x.abs();
        middle + (head.radius * normal.y).hypot(head.dome * normal.x) - self.half_width
    }

    /// How wide half a head of this radius at this arc looks across the wrist, mm; nought where it faces away.
    pub fn seen_radius(&self, arc: f64, radius: f64) -> f64 {
        radius * self.normal(self.angle_at(arc)).y.max(0.0)
    }

    /// Unit vector out of the skin: sideways, upward.
    fn normal(&self, angle: f64) -> Vec2 {
        let (sine, cosine) = angle.sin_cos();
        let outward = Vec2::new(self.half_depth * sine, self.half_width * cosine);
        outward / outward.hypot()
    }

    /// Arc per parameter angle.
    fn speed(&self, angle: f64) -> f64 {
        let (sine, cosine) = angle.sin_cos();
        (self.half_width * cosine).hypot(self.half_depth * sine)
    }

    /// Arc from the top, for angles within a quarter of it.
    fn arc_within_quarter(&self, angle: f64) -> f64 {
        let half = angle / 2.0;
        let both = |(node, weight)| weight * (self.speed(half - half * node) + self.speed(half + half * node));
        half * GAUSS.into_iter().map(both).sum::<f64>()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_round_wrist_is_a_circle() {
        let section = WristSection::new(150.0, 1.0);
        let radius = 150.0 / (2.0 * PI);
        assert!((section.half_width() - radius).abs() < 1e-12);
        for arc in [-90.0, -20.0, 0.0, 7.5, 37.5, 80.0, 151.0] {
            assert!((section.angle_at(arc) - arc / radius).abs() < 1e-13);
            assert!((section.seen(arc).across - radius * (arc / radius).sin()).abs() < 1e-12);
        }
    }

    #[test]
    fn there_and_back_is_the_same_place() {
        for flatness in [0.4, 0.65, 0.7, 1.0, 1.6, 2.5] {
            let section = WristSection::new(154.0, flatness);
            assert!((section.girth() - 154.0).abs() < 1e-12);
            for step in -40..40 {
                let arc = f64::from(step) * 4.1;
                assert!((section.arc_at(section.angle_at(arc)) - arc).abs() < 1e-11, "{flatness} {arc}");
            }
            let across = section.seen(20.0).across;
            assert!((section.arc_seen_at(across).unwrap() - 20.0).abs() < 1e-10);
            assert_eq!(section.arc_seen_at(section.half_width() + 1.0), None);
        }
    }

    #[test]
    fn tilt_follows_the_skin_round() {
        let section = WristSection::new(150.0, 0.7);
        assert!((section.seen(0.0).tilt).abs() < 1e-15);
        assert!((section.seen(37.5).tilt - FRAC_PI_2).abs() < 1e-12);
        assert!((section.seen(-37.5).tilt + FRAC_PI_2).abs() < 1e-12);
        assert_eq!(section.seen_radius(50.0, 8.0), 0.0);
        assert_eq!(section.seen_radius(0.0, 8.0), 8.0);
    }

    /// On a round wrist of radius 30 an arc of 30 t is seen at 30 sin t: from 0.2 to 1.1 radians; past the side nothing more.
    #[test]
    fn what_hangs_to_one_side_is_seen_from_there() {
        let section = WristSection::new(60.0 * PI, 1.0);
        let span = 30.0 * (1.1_f64.sin() - 0.2_f64.sin());
        assert!((section.seen_across(6.0, 33.0) - span).abs() < 1e-12);
        assert!((section.seen_across(-33.0, -6.0) - span).abs() < 1e-12);
        assert!((section.seen_across(6.0, 60.0) - 30.0 * (1.0 - 0.2_f64.sin())).abs() < 1e-12);
        assert!(section.seen_across(50.0, 60.0).abs() < 1e-12);
    }

    #[test]
    fn the_worst_numbers_are_answered() {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -5.0, 1e300] {
            let section = WristSection::new(value, value);
            assert!(section.half_width().is_finite() && section.half_depth() > 0.0);
            let seen = section.seen(value);
            assert!(seen.across.is_finite() && seen.height.is_finite() && seen.tilt.is_finite());
            assert!(section.seen_half_width(value).is_finite() && section.arc_at(value).is_finite());
        }
    }
}
