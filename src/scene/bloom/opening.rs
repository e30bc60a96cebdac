//! What several forms share while they are opening: rays that still stand, a funnel, a chin.

use std::f64::consts::PI;

use kurbo::{Affine, BezPath, Point, Vec2};

use super::{around, profile, ring};
use crate::colour::Rgb;
use crate::scene::brush::{add, circle, oval, oval_radial, polar, radial};
use crate::scene::draft::Draft;
use crate::scene::hues::{Hues, SEPAL};
use crate::scene::outline::{Blade, between, smooth};

/// Rays that still stand up: bracts show between their tips, they hide half of the eye.
pub(super) fn raised(draft: &mut Draft, hues: &Hues, count: u32, half: f64, eye: Rgb) {
    draft.cast(1.0, 0.5);
    let start = draft.chance.angle();
    let green = Hues::of_leaf(Rgb::hex(0x7f9a58));
    let bract = Blade { length: 0.96, half: 0.09, peak: 0.5, blunt: 0.8, ..Blade::PETAL };
    ring(draft, around(count.max(9), start + 0.2), bract, &green, 0, 0.0);
    let ray = Blade { length: 1.0, half: half * 1.12, peak: 0.7, blunt: 0.5, foot: 0.4, ..Blade::PETAL };
    ring(draft, around(count, start), ray, &hues.lit(-0.02), 3, 0.09);
    hollow(draft, hues, 0.92, 0.5);
    let inner = Blade { length: 0.74, half: half * 1.0, ..ray };
    ring(draft, around(count, start + PI / f64::from(count)), inner, hues, 3, 0.09);
    hollow(draft, hues, 0.62, 0.6);
    let small = Blade { length: 0.46, half: half * 0.72, ..ray };
    let count = count.div_ceil(2).max(5);
    let tones = Hues::of(eye);
    draft.ball(Point::ZERO, 0.3, &tones.lit(-0.04), 0.0);
    draft.studs(Point::ZERO, 0.28, 30, [0.03, 0.04], &tones);
    if count > 5 {
        ring(draft, around(count, start + 0.3), Blade { foot: 0.1, ..small }, &hues.deeper(0.3), 0, 0.07);
        draft.ball(Point::ZERO, 0.15, &tones, 0.0);
        draft.studs(Point::ZERO, 0.14, 14, [0.028, 0.03], &tones);
    }
}

/// The dark of a cup toward its middle.
fn hollow(draft: &mut Draft, hues: &Hues, r: f64, strength: f64) {
    let deep = hues.throat.lighter(-0.12);
    let list = [(0.0, deep.tint(strength)), (0.45, deep.tint(strength * 0.8)), (1.0, deep.tint(0.0))];
    draft.group.fill(circle(Point::ZERO, r), radial(Point::ZERO, r, &list));
}

/// Half open: tepals that stand up about a deep throat.
pub(super) fn funnel(draft: &mut Draft, hues: &Hues, count: u32, half: f64, throat: Rgb) {
    draft.cast(0.95, 0.46);
    let start = draft.chance.angle();
    let back = hues.deeper(0.35);
    let petal = Blade { length: 1.0, half: half * 1.08, peak: 0.6, blunt: 0.6, foot: 0.5, ..Blade::PETAL };
    for (i, a) in around(count, start).enumerate() {
        let bend = if i % 2 == 0 { 0.1 } else { 0.02 };
        let one = Blade { bend, length: if i % 2 == 0 { 1.0 } else { 0.94 }, ..petal };
        draft.blade(Affine::rotate(a), &one, &back, 4, 0.12);
    }
    // The near sides of the tepals, lit inside the cup, leave their backs as a darker rim.
    for a in around(count, start) {
        let inner = Blade { length: 0.8, half: half * 0.86, bend: 0.06, ..petal };
        draft.blade(Affine::rotate(a), &inner, hues, 4, 0.05);
    }
    hollow(draft, hues, 0.7, 0.75);
    let well = [(0.0, throat.lighter(-0.24).solid()), (0.5, throat.lighter(-0.1).tint(0.85)), (1.0, throat.tint(0.0))];
    draft.group.fill(circle(Point::ZERO, 0.3), radial(Point::ZERO, 0.3, &well));
    let mut heads = BezPath::new();
    for a in around(count.min(5), start + 0.4) {
        add(&mut heads, &oval(polar(a, 0.11), Vec2::new(0.05, 0.03), a));
    }
    draft.group.fill(heads, throat.lighter(0.12).paint(0.95));
}

/// An orchid's bud: an egg with a chin, greener toward its stalk.
pub(super) fn chin(draft: &mut Draft, hues: &Hues) {
    profile::lies(draft, 0.6);
    let stalk = smooth(&[Point::new(-1.0, 0.1), Point::new(-0.62, 0.02)], false);
    draft.group.stroke(stalk, 0.13, SEPAL.lighter(-0.06).paint(1.0));
    let upper = [(-0.78, 0.0), (-0.5, -0.42), (0.05, -0.6), (0.6, -0.4), (0.98, 0.04)].map(Point::from);
    let lower = [(-0.78, 0.0), (-0.8, 0.42), (-0.46, 0.66), (0.25, 0.5), (0.98, 0.04)].map(Point::from);
    let green = SEPAL.mixed(hues.rim, 0.35);
    let lit = (draft.lightward() * 0.35).to_point();
    let list =
        [(0.0, hues.edge.solid()), (0.35, hues.rim.solid()), (0.7, hues.mid.solid()), (1.0, hues.throat.solid())];
    draft.group.fill(between(&upper, &lower), oval_radial(lit, Vec2::new(1.35, 0.95), 0.0, &list));
    let flush = [(0.0, green.tint(0.85)), (0.5, green.tint(0.4)), (1.0, green.tint(0.0))];
    let foot = Point::new(-0.72, 0.2);
    let path = between(&upper, &lower);
    draft.group.fill(path, radial(foot, 0.95, &flush));
    for seam in [[(-0.7, -0.02), (0.0, -0.16), (0.94, 0.03)], [(-0.62, 0.3), (0.1, 0.28), (0.94, 0.05)]] {
        let line = smooth(&seam.map(Point::from), false);
        draft.group.stroke(line.clone(), 0.04, hues.throat.lighter(-0.1).paint(0.5));
        draft.stroke(Affine::translate((0.0, -0.035)), line, 0.03, hues.edge.paint(0.7));
    }
}
