//! Greens of broad leaves: eucalyptus, ivy, pittosporum, dusty miller. Long ones run from -1 to 1 along x and `breadth` to each side.

use std::f64::consts::PI;

use kurbo::{Affine, BezPath, Point, Vec2};

use super::{around, placed};
use crate::colour::Rgb;
use crate::scene::brush::{add, radial};
use crate::scene::draft::Draft;
use crate::scene::hues::{Hues, PLUM};
use crate::scene::outline::{Blade, between, smooth};

/// The shadow under a long sprig.
pub(super) fn ground(draft: &mut Draft, breadth: f64, strength: f64) {
    let away = draft.lightward() * -0.07;
    draft.shadow(away.to_point(), Vec2::new(1.02, breadth * 1.1 + 0.04), 0.0, PLUM, strength);
}

/// A stem from -1 to the tip: dark, with a light line along it.
pub(super) fn rib(draft: &mut Draft, width: f64, dark: Rgb, light: Rgb) {
    let bend = draft.chance.bell(0.03);
    let line = smooth(&[Point::new(-1.0, 0.0), Point::new(0.0, bend), Point::new(0.9, 0.0)], false);
    draft.group.stroke(line.clone(), width, dark.paint(1.0));
    draft.group.stroke(line, width * 0.45, light.paint(0.8));
}

/// Eucalyptus: round leaves in pairs along a stem, smaller toward the tip, with a bloom of wax.
pub(crate) fn eucalyptus(draft: &mut Draft, colour: Rgb, breadth: f64) {
    ground(draft, breadth, 0.34);
    let stem = Rgb::hex(0x8d7466);
    rib(draft, 0.045, stem.lighter(-0.08), stem.lighter(0.12));
    let hues = Hues::of_leaf(colour);
    let longest = (breadth * 0.98).clamp(0.16, 0.66);
    let mut x = -0.8 + longest * 0.2;
    while x < 0.84 - longest * 0.5 {
        let t = (x + 0.8) / 1.6;
        let long = longest * (1.0 - 0.4 * t);
        for side in [-1.0, 1.0] {
            let turn = side * (1.3 - 0.45 * t) + draft.chance.bell(0.14);
            let lit = hues.lit(draft.chance.bell(0.05));
            round_leaf(draft, placed((x + 0.06 * longest * side, 0.0), turn), long, &lit);
        }
        x += long * 0.74;
    }
    let (turn, tip) = (draft.chance.bell(0.1), longest * 0.58);
    round_leaf(draft, placed((0.98 - tip, 0.0), turn), tip, &hues);
}

/// One round leaf along +x: flat, pale at its rim, a fine midrib.
fn round_leaf(draft: &mut Draft, frame: Affine, long: f64, hues: &Hues) {
    let blade =
        Blade { length: long, half: long * 0.47, peak: 0.52, blunt: 0.52, foot: 0.8, wave: 0.015, ..Blade::PETAL };
    let lit = hues.lit(draft.chance.bell(0.03));
    draft.blade(frame, &blade, &lit, 0, 0.09);
    draft.stroke(frame, blade.line(0.0, 0.0, 0.86), long * 0.03, lit.edge.lighter(0.05).paint(0.75));
    let mut veins = BezPath::new();
    for v in [-1.0, 1.0] {
        for u in [0.22, 0.42, 0.6] {
            add(
                &mut veins,
                &smooth(&[blade.at(u, 0.0), blade.at(u + 0.12, v * 0.4), blade.at(u + 0.17, v * 0.75)], false),
            );
        }
    }
    draft.stroke(frame, veins, long * 0.012, lit.edge.paint(0.35));
}

/// An ivy leaf: five lobes, pale veins from one point.
pub(crate) fn ivy(draft: &mut Draft, colour: Rgb, breadth: f64) {
    ground(draft, breadth, 0.38);
    let stalk = smooth(&[Point::new(-1.0, 0.02 * breadth), Point::new(-0.64, 0.0)], false);
    draft.group.stroke(stalk, 0.05, Rgb::hex(0x8a6a62).paint(1.0));
    let half = [
        (1.0, 0.0),
        (0.72, 0.15),
        (0.44, 0.26),
        (0.2, 0.37),
        (0.22, 0.52),
        (0.3, 0.76),
        (0.36, 1.0),
        (0.1, 0.88),
        (-0.1, 0.74),
        (-0.26, 0.6),
        (-0.38, 0.64),
        (-0.54, 0.76),
        (-0.72, 0.7),
        (-0.86, 0.44),
        (-0.84, 0.2),
        (-0.64, 0.03),
    ];
    let left: Vec<Point> = half.iter().map(|&(x, y)| Point::new(x + draft.chance.bell(0.02), -y * breadth)).collect();
    let right: Vec<Point> = half.iter().map(|&(x, y)| Point::new(x + draft.chance.bell(0.02), y * breadth)).collect();
    let outline = between(&left, &right);
    let list = [(0.0, colour.lighter(0.07).solid()), (0.55, colour.solid()), (1.0, colour.lighter(-0.09).solid())];
    let start = Point::new(-0.66, 0.0);
    draft.group.fill(outline, radial(start, 1.7, &list));
    let lit = if draft.light.sin() < 0.0 { &left } else { &right };
    let middle: Vec<Point> = (0..=4).map(|i| Point::new(1.0 - 1.72 * f64::from(i) / 4.0, 0.0)).collect();
    let glow = [(0.0, colour.lighter(0.13).tint(0.75)), (1.0, colour.lighter(0.06).tint(0.35))];
    draft.group.fill(between(lit, &middle), radial(start, 1.6, &glow));
    // Between the lobes the blade dips; each lobe is arched along its vein.
    let dip = colour.lighter(-0.16);
    for (x, y) in [(0.2, 0.37), (0.2, -0.37), (-0.28, 0.6), (-0.28, -0.6)] {
        let (at, radii) = (Point::new(x * 0.7 - 0.16, y * breadth * 0.66), Vec2::new(0.34, 0.15 * breadth));
        let turn = (y * breadth).atan2(x + 0.66);
        draft.shadow(at, radii, turn, dip, 0.42);
    }
    let mut veins = BezPath::new();
    for (x, y) in [(0.94, 0.0), (0.31, 0.88), (0.31, -0.88), (-0.6, 0.64), (-0.6, -0.64)] {
        let tip = Point::new(x, y);
        add(&mut veins, &smooth(&[start, start.midpoint(tip) + Vec2::new(0.06 * y.abs(), 0.0), tip], false));
        for t in [0.34, 0.52, 0.68] {
            let (from, along) = (start.lerp(tip, t), (tip - start) * 0.1);
            for side in [-1.0, 1.0] {
                veins.move_to(from);
                veins.line_to(from + along + Vec2::new(-along.y, along.x) * (side * 0.7));
            }
        }
    }
    let veins = Affine::scale_non_uniform(1.0, breadth) * veins;
    let pale = colour.mixed(Rgb::hex(0xe4edc4), 0.6);
    draft.group.stroke(veins.clone(), 0.045, colour.lighter(0.08).paint(0.35));
    draft.group.stroke(veins, 0.016, pale.paint(0.9));
}

/// Pittosporum: a whorl of leathery leaves with pale midribs.
pub(crate) fn rosette(draft: &mut Draft, colour: Rgb) {
    draft.cast(0.95, 0.4);
    let hues = Hues::of_leaf(colour);
    let mut turn = draft.chance.angle();
    for (count, reach, by) in [(7, 1.0, -0.03), (5, 0.78, 0.02), (4, 0.5, 0.07)] {
        turn += 0.45;
        let blade =
            Blade { length: reach, half: 0.2 * reach.sqrt(), peak: 0.64, blunt: 0.68, foot: 0.3, ..Blade::PETAL };
        for a in around(count, turn) {
            let frame = Affine::rotate(a + draft.chance.bell(0.12));
            draft.blade(frame, &blade, &hues.lit(by), 4, 0.08);
            draft.stroke(frame, blade.line(0.0, 0.08, 0.9), 0.022, hues.edge.lighter(0.06).paint(0.85));
        }
    }
}

/// Dusty miller: a felted leaf cut into round lobes.
pub(crate) fn felt(draft: &mut Draft, colour: Rgb, breadth: f64) {
    ground(draft, breadth, 0.32);
    let hues = Hues::of_leaf(colour);
    let mut all = BezPath::new();
    let mut lines = BezPath::new();
    for i in 0..6_u32 {
        let t = f64::from(i) / 6.0;
        let long = breadth * (0.62 + 0.42 * (t * PI).sin()) * if i == 0 { 0.8 } else { 1.0 };
        for side in [-1.0, 1.0] {
            let lobe =
                Blade { length: long, half: 0.13, peak: 0.72, blunt: 0.45, foot: 0.55, wave: 0.12, ..Blade::PETAL };
            let frame = placed((-0.78 + 1.5 * t, 0.0), side * (1.1 - 0.35 * t) + draft.chance.bell(0.08));
            let path = Blade::closed(&lobe.side(-1.0, &mut draft.chance), &lobe.side(1.0, &mut draft.chance));
            add(&mut all, &(frame * path));
            add(&mut lines, &(frame * lobe.line(0.0, 0.0, 0.75)));
        }
    }
    let core = Blade { length: 2.0, half: 0.14, peak: 0.6, blunt: 0.6, foot: 0.6, ..Blade::PETAL };
    let path = Blade::closed(&core.side(-1.0, &mut draft.chance), &core.side(1.0, &mut draft.chance));
    add(&mut all, &(placed((-1.0, 0.0), 0.0) * path));
    let up = draft.lightward();
    draft.group.fill(Affine::translate(up * -0.04) * all.clone(), PLUM.paint(0.24));
    draft.group.fill(all.clone(), hues.edge.paint(1.0));
    let list = [(0.0, hues.rim.solid()), (0.5, hues.mid.solid()), (1.0, hues.mid.mixed(hues.throat, 0.5).solid())];
    draft
        .group
        .fill(Affine::translate(up * -0.014) * Affine::scale(0.985) * all, radial((up * 0.4).to_point(), 1.5, &list));
    add(&mut lines, &smooth(&[Point::new(-1.0, 0.0), Point::new(0.85, 0.0)], false));
    draft.group.stroke(lines.clone(), 0.05, hues.throat.paint(0.35));
    draft.group.stroke(lines, 0.022, hues.edge.lighter(0.06).paint(0.95));
}
