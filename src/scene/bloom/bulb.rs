//! Flowers of bulbs and tubers with a shape of their own: tulip, calla, lily of the valley. Long ones lie along +x, from -1 to
//! 1, `breadth` to each side.

use std::f64::consts::FRAC_PI_3;

use kurbo::{Affine, BezPath, Point, Vec2};

use super::profile::{body, gloss, lies, stalk, within};
use super::{around, opening, placed, side};
use crate::colour::Rgb;
use crate::scene::brush::{add, circle, linear, oval, oval_radial, polar, radial};
use crate::scene::draft::{Draft, Sits};
use crate::scene::hues::{Hues, PLUM, POLLEN, SEPAL};
use crate::scene::outline::{Blade, Fan, between, smooth};

/// A tulip looked into: three broad tepals behind three, a dark star at the foot of the cup, six anthers about a green pistil.
pub(super) fn tulip(draft: &mut Draft, hues: &Hues) {
    draft.cast(0.95, 0.5);
    let start = draft.chance.angle();
    let tepal = Fan { from: 0.2, half: 0.86, flat: 2.2, wave: 0.014, tip: 0.07, ..Fan::BROAD };
    for (to, turn, by) in [(1.0, 0.0, -0.02), (0.9, FRAC_PI_3, 0.012)] {
        for a in around(3, start + turn) {
            let turn = a + draft.chance.bell(0.05);
            draft.fan(&Fan { to, ..tepal }, Sits { turn, hidden: 0.3, roll: 0.05, lift: 0.1 }, &hues.lit(by));
        }
    }
    let deep = hues.throat.lighter(-0.16);
    let well = [(0.0, deep.tint(0.8)), (0.5, deep.tint(0.55)), (1.0, deep.tint(0.0))];
    draft.group.fill(circle(Point::ZERO, 0.62), radial(Point::ZERO, 0.62, &well));
    let ink = PLUM.mixed(hues.throat, 0.25);
    for a in around(6, start) {
        let (at, radii) = (polar(a, 0.16), Vec2::new(0.17, 0.08));
        draft.group.fill(oval(at, radii, a), oval_radial(at, radii, a, &[(0.0, ink.tint(0.9)), (1.0, ink.tint(0.0))]));
    }
    draft.stamens([0.08, 0.24], 6, 0.06, Rgb::hex(0xd8d2a0), Rgb::hex(0x3a2c3c));
    draft.ball(Point::ZERO, 0.1, &Hues::of(Rgb::hex(0xb9c67a)), 0.3);
}

/// A tulip's bud: an egg on a bare stalk, greener at its foot.
pub(super) fn tulip_bud(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.5);
    stalk(draft, &[(-1.0, 0.03), (-0.5, 0.0)], 0.13, Rgb::hex(0x8fae6f));
    let young = Hues { throat: hues.throat.mixed(SEPAL, 0.45), ..*hues };
    within(draft, Affine::translate((-0.56, 0.0)) * Affine::scale(0.66), |draft| side::cups::tulip(draft, 2.3, &young));
}

/// A tulip half open: its six tepals still stand.
pub(super) fn tulip_half_open(draft: &mut Draft, hues: &Hues) {
    opening::funnel(draft, hues, 6, 0.4, PLUM.mixed(hues.throat, 0.4));
}

/// A calla on its side: the spathe wound to a funnel, open toward the eye and drawn out to a point, the spadix in it.
pub(super) fn calla(draft: &mut Draft, hues: &Hues, breadth: f64) {
    let wide = breadth;
    draft.shadow((draft.lightward() * -0.06).to_point(), Vec2::new(1.0, wide * 1.15), 0.0, PLUM, 0.36);
    // The far side of the spathe is seen from within.
    let within_it = Hues { throat: hues.throat.lighter(-0.05), ..hues.deeper(0.25) };
    let far = Blade {
        length: 1.42,
        half: wide * 0.98,
        peak: 0.36,
        blunt: 0.72,
        foot: 0.7,
        notch: -0.05,
        bend: 0.04,
        wave: 0.015,
    };
    draft.blade(placed((-0.45, 0.0), 0.0), &far, &within_it, 5, 0.05);
    let throat = [(0.0, hues.throat.lighter(-0.2).tint(0.85)), (1.0, hues.throat.tint(0.0))];
    let (at, radii) = (Point::new(-0.22, 0.0), Vec2::new(0.42, wide * 0.62));
    draft.group.fill(oval(at, radii, 0.0), oval_radial(at, radii, 0.0, &throat));
    spadix(draft, wide);
    funnel(draft, hues, wide);
}

/// The rod in the middle, studded with pollen.
fn spadix(draft: &mut Draft, wide: f64) {
    let gold = Hues::of(POLLEN);
    let rod =
        [(-0.4, 0.08), (-0.1, 0.12), (0.16, 0.11), (0.3, 0.05), (0.33, 0.01)].map(|(x, half)| (x, half * wide / 0.5));
    body(draft, Affine::rotate(0.03), &rod, &gold);
    let mut grains = BezPath::new();
    for i in 0..40_u32 {
        let (x, v) = (-0.36 + 0.6 * f64::from(i) / 39.0, (f64::from(i) * 2.399).sin());
        add(&mut grains, &circle(Point::new(x, v * 0.09 * wide / 0.5), 0.012));
    }
    draft.group.fill(grains, POLLEN.lighter(0.12).paint(0.9));
}

/// The near side: a tube that widens to a lip, green at its foot, one edge wound over the other.
fn funnel(draft: &mut Draft, hues: &Hues, wide: f64) {
    let side = |v: f64, end: f64| {
        [(-1.0, 0.1), (-0.72, 0.16), (-0.42, 0.4), (-0.14, 0.76), (end, 0.97)]
            .map(|(x, half)| Point::new(x, v * half * wide))
    };
    let (upper, lower) = (side(-1.0, 0.1), side(1.0, 0.02));
    let lip =
        [upper[4], Point::new(-0.12, -0.45 * wide), Point::new(-0.22, 0.0), Point::new(-0.14, 0.5 * wide), lower[4]];
    let mut outline: Vec<Point> = upper.to_vec();
    outline.extend(&lip[1..]);
    let back: Vec<Point> = vec![lower[0], lower[1], lower[2], lower[3], lower[4]];
    let path = between(&outline, &back);
    let lit = if draft.light.sin() < 0.0 { -1.0 } else { 1.0 };
    let across = [
        (0.0, hues.rim.solid()),
        (0.3, hues.edge.solid()),
        (0.65, hues.mid.solid()),
        (1.0, hues.throat.mixed(hues.mid, 0.3).solid()),
    ];
    draft.group.fill(path.clone(), linear((0.0, wide * lit), (0.0, -wide * lit), &across));
    let green = SEPAL.lighter(0.1);
    let foot = [(0.0, green.tint(0.9)), (0.4, green.tint(0.45)), (1.0, green.tint(0.0))];
    draft.group.fill(path, linear((-1.0, 0.0), (-0.3, 0.0), &foot));
    let edge = smooth(&lip, false);
    draft.group.stroke(edge.clone(), 0.05, hues.throat.lighter(-0.1).paint(0.3));
    draft.stroke(Affine::translate((-0.012, 0.0)), edge, 0.032, hues.edge.lighter(0.05).paint(0.95));
    let fold = smooth(&[lip[2], Point::new(-0.5, 0.12 * wide), Point::new(-0.86, 0.02)], false);
    draft.group.stroke(fold, 0.02, hues.throat.lighter(-0.08).paint(0.4));
    gloss(draft, Point::new(-0.34, 0.26 * wide * lit), Vec2::new(0.26, 0.07 * wide), 0.5 * lit, 0.5);
}

/// A raceme of lily of the valley: bells nod from an arching stalk, open at its foot, green beads at its tip.
pub(super) fn bells(draft: &mut Draft, hues: &Hues, breadth: f64) {
    const BELLS: u32 = 9;
    let away = draft.lightward() * -0.06;
    draft.shadow(away.to_point(), Vec2::new(0.95, breadth * 0.8), 0.0, PLUM, 0.22);
    let arch = |t: f64| Point::new(-1.0 + 1.95 * t, breadth * 0.55 * (1.0 - (2.0 * t - 0.7).powi(2)) - breadth * 0.2);
    let line: Vec<(f64, f64)> = (0..=8).map(|i| arch(f64::from(i) / 8.0)).map(|p| (p.x, p.y)).collect();
    stalk(draft, &line, breadth * 0.1, SEPAL.lighter(0.06));
    for i in (0..BELLS).rev() {
        let t = f64::from(i) / f64::from(BELLS - 1);
        let foot = arch(0.22 + 0.76 * t);
        let lean = if i % 2 == 0 { -0.5 } else { -2.3 } + draft.chance.bell(0.14);
        let r = breadth * (0.38 - 0.17 * t);
        let top = foot + Vec2::from_angle(lean) * (r * 0.55);
        draft.group.stroke(smooth(&[foot, top], false), breadth * 0.05, SEPAL.lighter(0.08).paint(1.0));
        if t > 0.8 {
            draft.ball(top, r * 0.62, &Hues::of(hues.mid.mixed(SEPAL.lighter(0.2), 0.35)), 0.3);
        } else {
            let nods = lean + (-1.4 - lean) * 0.45;
            let lit = hues.lit(draft.chance.bell(0.02));
            bell(draft, placed(top, nods), r, &lit);
        }
    }
}

/// One bell from its stalk along +x: a globe that closes to a mouth with lobes turned out.
fn bell(draft: &mut Draft, frame: Affine, r: f64, hues: &Hues) {
    let at = frame * Point::new(r, 0.0) - draft.lightward() * (r * 0.2);
    draft.shadow(at, Vec2::new(r * 1.25, r * 1.15), 0.0, hues.shade, 0.4);
    let globe = [(0.0, 0.3), (0.3, 0.82), (0.8, 1.0), (1.3, 0.86), (1.6, 0.8)].map(|(x, half)| (x * r, half * r));
    let mouth = frame * Point::new(1.6 * r, 0.0);
    let mut lobes = BezPath::new();
    for v in [-0.78, 0.0, 0.78_f64] {
        add(&mut lobes, &circle(frame * Point::new(r * (1.66 - 0.1 * v.abs()), v * r), r * 0.3));
    }
    draft.group.fill(lobes, hues.edge.lighter(0.03).paint(1.0));
    body(draft, frame, &globe, hues);
    draft.group.fill(circle(mouth, r * 0.16), POLLEN.mixed(SEPAL, 0.4).paint(0.55));
}
