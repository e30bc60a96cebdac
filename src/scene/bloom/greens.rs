//! Greens that are more than one simple leaf: eucalyptus, leatherleaf, ivy, pittosporum, dusty miller, rosemary, bear
//! grass, plumosus. Long ones run from -1 to 1 along x and `breadth` to each side.

use std::f64::consts::PI;

use kurbo::{Affine, BezPath, Point, Vec2};

use super::{around, placed};
use crate::colour::Rgb;
use crate::scene::brush::{add, linear, polar, radial};
use crate::scene::draft::Draft;
use crate::scene::hues::{Hues, PLUM};
use crate::scene::outline::{Blade, between, polygon, smooth};

fn ground(draft: &mut Draft, breadth: f64, strength: f64) {
    let away = draft.lightward() * -0.07;
    draft.shadow(away.to_point(), Vec2::new(1.02, breadth * 1.1 + 0.04), 0.0, PLUM, strength);
}

fn rib(draft: &mut Draft, width: f64, dark: Rgb, light: Rgb) {
    let bend = draft.chance.about(0.03);
    let line = smooth(&[Point::new(-1.0, 0.0), Point::new(0.0, bend), Point::new(0.9, 0.0)], false);
    draft.group.stroke(line.clone(), width, dark.paint(1.0));
    draft.group.stroke(line, width * 0.45, light.paint(0.8));
}

/// Eucalyptus: round leaves in pairs along a stem, smaller toward the tip, with a bloom of wax.
pub(crate) fn eucalyptus(draft: &mut Draft, colour: Rgb, breadth: f64) {
    const PAIRS: u32 = 5;
    ground(draft, breadth, 0.34);
    let stem = Rgb::hex(0x8d7466);
    rib(draft, 0.045, stem.lighter(-0.08), stem.lighter(0.12));
    let hues = Hues::of_leaf(colour);
    for i in 0..PAIRS {
        let t = f64::from(i) / f64::from(PAIRS);
        let x = -0.74 + 1.44 * t;
        let long = (breadth * (1.02 - 0.38 * t)).min(0.46);
        for side in [-1.0, 1.0] {
            let turn = side * (1.25 - 0.5 * t) + draft.chance.about(0.12);
            round_leaf(draft, placed((x + 0.03 * side, 0.0), turn), long, &hues);
        }
    }
    let turn = draft.chance.about(0.1);
    round_leaf(draft, placed((0.66, 0.0), turn), (breadth * 0.62).min(0.32), &hues);
}

/// One round leaf along +x: flat, pale at its rim, a fine midrib.
fn round_leaf(draft: &mut Draft, frame: Affine, long: f64, hues: &Hues) {
    let blade =
        Blade { length: long, half: long * 0.47, peak: 0.52, blunt: 0.52, foot: 0.8, wave: 0.015, ..Blade::PETAL };
    let lit = hues.lit(draft.chance.about(0.03));
    draft.blade(frame, &blade, &lit, 0, 0.06);
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

/// A leatherleaf tip: a triangle of toothed pinnae, the lowest the longest.
pub(crate) fn frond(draft: &mut Draft, colour: Rgb, breadth: f64) {
    const PAIRS: u32 = 13;
    ground(draft, breadth * 0.8, 0.3);
    let lit = if draft.light.sin() < 0.0 { -1.0 } else { 1.0 };
    let (mut shade, mut light, mut lines) = (BezPath::new(), BezPath::new(), BezPath::new());
    for i in 0..PAIRS {
        let t = f64::from(i) / f64::from(PAIRS);
        let long = breadth * 1.02 * (1.0 - t).powf(0.8) + 0.04;
        for side in [-1.0, 1.0] {
            let turn = side * (1.22 - 0.5 * t) + draft.chance.about(0.06);
            let frame = placed((-0.86 + 1.74 * t, 0.0), turn);
            let path = frame * toothed(long, 0.062 + 0.03 * (1.0 - t));
            add(if side == lit { &mut light } else { &mut shade }, &path);
            add(&mut lines, &(frame * smooth(&[Point::ZERO, Point::new(long * 0.8, 0.0)], false)));
        }
    }
    let away = Affine::translate(draft.lightward() * -0.03);
    draft.group.fill(away * shade.clone(), PLUM.paint(0.22));
    draft.group.fill(away * light.clone(), PLUM.paint(0.22));
    let ends = |by: f64| {
        [
            (0.0, colour.lighter(by - 0.05).solid()),
            (0.6, colour.lighter(by).solid()),
            (1.0, colour.lighter(by + 0.05).solid()),
        ]
    };
    draft.group.fill(shade, linear((-1.0, 0.0), (1.0, 0.0), &ends(-0.06)));
    draft.group.fill(light, linear((-1.0, 0.0), (1.0, 0.0), &ends(0.05)));
    draft.group.stroke(lines, 0.009, colour.lighter(0.12).paint(0.55));
    rib(draft, 0.028, colour.lighter(-0.12), colour.lighter(0.14));
}

/// A pinna along +x with a toothed edge.
fn toothed(long: f64, half: f64) -> BezPath {
    const TEETH: u32 = 6;
    let side = |sign: f64| -> Vec<Point> {
        let at = |i: u32| {
            let u = f64::from(i) / f64::from(TEETH * 2);
            let wide = half * (1.0 - u).powf(0.6) * if i % 2 == 0 { 0.62 } else { 1.1 };
            Point::new(long * u, sign * wide)
        };
        (0..TEETH * 2).map(at).collect()
    };
    let mut points = side(-1.0);
    points.push(Point::new(long, 0.0));
    points.extend(side(1.0).into_iter().rev());
    polygon(&points)
}

/// An ivy leaf: five lobes, pale veins from one point.
pub(crate) fn ivy(draft: &mut Draft, colour: Rgb, breadth: f64) {
    ground(draft, breadth, 0.38);
    let half = [
        (1.0, 0.0),
        (0.66, 0.25),
        (0.38, 0.38),
        (0.36, 0.68),
        (0.28, 1.0),
        (0.0, 0.86),
        (-0.22, 0.68),
        (-0.42, 0.8),
        (-0.66, 0.86),
        (-0.86, 0.56),
        (-0.9, 0.26),
        (-0.72, 0.05),
    ];
    let left: Vec<Point> = half.iter().map(|&(x, y)| Point::new(x + draft.chance.about(0.03), -y * breadth)).collect();
    let right: Vec<Point> = half.iter().map(|&(x, y)| Point::new(x + draft.chance.about(0.03), y * breadth)).collect();
    let outline = between(&left, &right);
    let list = [(0.0, colour.lighter(0.07).solid()), (0.55, colour.solid()), (1.0, colour.lighter(-0.09).solid())];
    let start = Point::new(-0.7, 0.0);
    draft.group.fill(outline, radial(start, 1.7, &list));
    let lit = if draft.light.sin() < 0.0 { &left } else { &right };
    let middle: Vec<Point> = (0..=4).map(|i| Point::new(1.0 - 1.72 * f64::from(i) / 4.0, 0.0)).collect();
    let glow = [(0.0, colour.lighter(0.13).tint(0.75)), (1.0, colour.lighter(0.06).tint(0.35))];
    draft.group.fill(between(lit, &middle), radial(start, 1.6, &glow));
    let mut veins = BezPath::new();
    for (x, y) in [(0.92, 0.0), (0.24, 0.86), (0.24, -0.86), (-0.62, 0.72), (-0.62, -0.72)] {
        let tip = Point::new(x, y);
        add(&mut veins, &smooth(&[start, start.midpoint(tip) + Vec2::new(0.06 * y.abs(), 0.0), tip], false));
        for t in [0.38, 0.58] {
            let (from, along) = (start.lerp(tip, t), (tip - start) * 0.13);
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
    let mut turn = draft.chance.turn();
    for (count, reach, by) in [(7, 1.0, -0.03), (5, 0.78, 0.02), (4, 0.5, 0.07)] {
        turn += 0.45;
        let blade =
            Blade { length: reach, half: 0.2 * reach.sqrt(), peak: 0.64, blunt: 0.68, foot: 0.3, ..Blade::PETAL };
        for a in around(count, turn) {
            let frame = Affine::rotate(a + draft.chance.about(0.12));
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
            let frame = placed((-0.78 + 1.5 * t, 0.0), side * (1.1 - 0.35 * t) + draft.chance.about(0.08));
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

/// Rosemary: needles in pairs along a woody stem, pale beneath.
pub(crate) fn needle(draft: &mut Draft, colour: Rgb, breadth: f64) {
    ground(draft, breadth * 0.7, 0.28);
    let bark = Rgb::hex(0x8c7a5e);
    rib(draft, breadth * 0.12, bark.lighter(-0.08), bark.lighter(0.08));
    let mut layers = [BezPath::new(), BezPath::new(), BezPath::new()];
    for i in 0..56_u32 {
        let t = f64::from(i) / 55.0;
        let side = if i % 2 == 0 { 1.0 } else { -1.0 };
        let lean = 0.95 - 0.55 * t + draft.chance.about(0.22);
        let long = (breadth / lean.sin().max(0.5)) * (1.0 - 0.3 * t) * draft.chance.between(0.75, 1.0);
        let blade = Blade {
            length: long,
            half: breadth * 0.055 + 0.008,
            peak: 0.5,
            blunt: 0.6,
            foot: 0.7,
            bend: -0.06 * side,
            ..Blade::PETAL
        };
        let path = Blade::closed(&blade.side(-1.0, &mut draft.chance), &blade.side(1.0, &mut draft.chance));
        let frame = placed((-0.94 + 1.72 * t, 0.0), side * lean);
        add(&mut layers[(i % 3) as usize], &(frame * path));
    }
    let [back, middle, front] = layers;
    let away = Affine::translate(draft.lightward() * -0.02);
    draft.group.fill(back, colour.lighter(-0.1).paint(1.0));
    draft.group.fill(away * middle.clone(), PLUM.paint(0.2));
    draft.group.fill(middle, colour.paint(1.0));
    draft.group.fill(away * front.clone(), PLUM.paint(0.2));
    draft.group.fill(front, colour.lighter(0.1).paint(1.0));
}

/// Bear grass: a handful of blades looped back on themselves.
pub(crate) fn grass_loop(draft: &mut Draft, colour: Rgb, breadth: f64) {
    for (i, share) in [1.0, 0.8, 0.62, 0.46, 0.3].into_iter().enumerate() {
        let (wide, reach) = (breadth * 0.97 * share, 1.0 - 0.12 * i as f64);
        let skew = draft.chance.about(0.1) * breadth;
        let line = [
            Point::new(-1.0, -0.02),
            Point::new(-0.3, -wide * 0.72 + skew),
            Point::new(0.5 * reach, -wide + skew),
            Point::new(reach * 0.98, 0.0),
            Point::new(0.5 * reach, wide + skew),
            Point::new(-0.3, wide * 0.72 + skew),
            Point::new(-1.0, 0.02),
        ];
        let path = smooth(&line, false);
        let thick = 0.036;
        let away = Affine::translate(draft.lightward() * -0.03);
        draft.group.stroke(away * path.clone(), thick * 1.1, PLUM.paint(0.2));
        let by = draft.chance.about(0.05);
        let along = [(0.0, by - 0.14), (0.45, by), (0.8, by + 0.08), (1.0, by - 0.03)];
        let along = along.map(|(at, by)| (at, colour.lighter(by).solid()));
        draft.group.stroke(path.clone(), thick, linear((-1.0, 0.0), (1.0, 0.0), &along));
        let shine = Affine::translate(draft.lightward() * 0.006);
        draft.group.stroke(shine * path, thick * 0.3, colour.lighter(0.17).paint(0.6));
    }
    let tie = Blade { length: 0.16, half: 0.045, blunt: 0.4, ..Blade::PETAL };
    draft.blade(placed((-1.0, 0.0), 0.0), &tie, &Hues::of_leaf(colour), 0, 0.0);
}

/// Plumosus and tree fern: a feather of the finest needles.
pub(crate) fn plume(draft: &mut Draft, colour: Rgb, breadth: f64) {
    ground(draft, breadth * 0.6, 0.2);
    let (mut back, mut front, mut twigs) = (BezPath::new(), BezPath::new(), BezPath::new());
    for i in 0..13_u32 {
        let t = f64::from(i) / 12.0;
        let long = breadth * 1.0 * (1.0 - t).powf(0.6) * (0.8 + 0.2 * (t * 9.0).min(1.0)) + 0.05;
        for side in [-1.0, 1.0] {
            let turn = side * (1.05 - 0.45 * t) + draft.chance.about(0.1);
            let frame = placed((-0.8 + 1.66 * t, 0.0), turn);
            add(
                &mut twigs,
                &(frame * smooth(&[Point::ZERO, Point::new(long * 0.6, 0.01), Point::new(long, 0.0)], false)),
            );
            for j in 0..9 {
                let u = long * (0.12 + 0.88 * f64::from(j) / 8.0);
                for lean in [-1.0, 1.0] {
                    let tip = Point::new(u, 0.0) + polar(lean * (0.8 + draft.chance.about(0.3)), 0.075).to_vec2();
                    let layer = if (j + i) % 2 == 0 { &mut front } else { &mut back };
                    let hair = [frame * Point::new(u, 0.0), frame * tip];
                    layer.move_to(hair[0]);
                    layer.line_to(hair[1]);
                }
            }
        }
    }
    draft.group.stroke(back, 0.016, colour.lighter(-0.1).paint(0.9));
    draft.group.stroke(twigs, 0.013, colour.lighter(-0.04).paint(1.0));
    draft.group.stroke(front, 0.014, colour.lighter(0.08).paint(0.95));
    rib(draft, 0.024, colour.lighter(-0.14), colour.lighter(0.1));
}
