//! Fine greens: leatherleaf, rosemary, bear grass, plumosus. They run from -1 to 1 along x and `breadth` to each side.

use kurbo::{Affine, BezPath, Point};

use super::greens::{ground, rib};
use super::placed;
use crate::colour::Rgb;
use crate::scene::brush::{add, linear, polar};
use crate::scene::draft::Draft;
use crate::scene::hues::{Hues, PLUM};
use crate::scene::outline::{Blade, polygon, smooth};

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
            let turn = side * (1.22 - 0.5 * t) + draft.chance.bell(0.06);
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
            let wide = half * (1.0 - u).powf(0.6) * if i.is_multiple_of(2) { 0.62 } else { 1.1 };
            Point::new(long * u, sign * wide)
        };
        (0..TEETH * 2).map(at).collect()
    };
    let mut points = side(-1.0);
    points.push(Point::new(long, 0.0));
    points.extend(side(1.0).into_iter().rev());
    polygon(&points)
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
        let lean = 0.95 - 0.55 * t + draft.chance.bell(0.22);
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
    // Flat blades, bent over to a loop each: a dark edge, the face, a light line where it turns.
    for (i, share) in [1.0, 0.74, 0.5, 0.28].into_iter().enumerate() {
        let (wide, reach) = (breadth * 0.93 * share, 1.0 - 0.16 * i as f64);
        let skew = draft.chance.bell(0.1) * breadth;
        let line = [
            Point::new(-1.0, -0.02),
            Point::new(-0.3, -wide * 0.72 + skew),
            Point::new(0.5 * reach, -wide + skew),
            Point::new(reach * 0.96, 0.0),
            Point::new(0.5 * reach, wide + skew),
            Point::new(-0.3, wide * 0.72 + skew),
            Point::new(-1.0, 0.02),
        ];
        let path = smooth(&line, false);
        let thick = 0.085 - 0.008 * i as f64;
        let away = Affine::translate(draft.lightward() * -0.03);
        draft.group.stroke(away * path.clone(), thick * 1.1, PLUM.paint(0.2));
        draft.group.stroke(path.clone(), thick, colour.lighter(-0.13).paint(1.0));
        let by = draft.chance.bell(0.04);
        let along = [(0.0, by - 0.1), (0.45, by + 0.02), (0.8, by + 0.1), (1.0, by - 0.02)];
        let along = along.map(|(at, by)| (at, colour.lighter(by).solid()));
        draft.group.stroke(path.clone(), thick * 0.76, linear((-1.0, 0.0), (1.0, 0.0), &along));
        let shine = Affine::translate(draft.lightward() * 0.014);
        draft.group.stroke(shine * path, thick * 0.18, colour.lighter(0.2).paint(0.7));
    }
    let tie = Blade { length: 0.16, half: 0.045, blunt: 0.4, ..Blade::PETAL };
    draft.blade(placed((-1.0, 0.0), 0.0), &tie, &Hues::of_leaf(colour), 0, 0.0);
}

/// Plumosus and tree fern: a feather of the finest needles.
pub(crate) fn plume(draft: &mut Draft, colour: Rgb, breadth: f64) {
    ground(draft, breadth * 0.6, 0.2);
    let (mut back, mut front, mut twigs) = (BezPath::new(), BezPath::new(), BezPath::new());
    // So fine that from afar a twig is a soft green blade: that is drawn under its needles.
    let mut haze = BezPath::new();
    for i in 0..13_u32 {
        let t = f64::from(i) / 12.0;
        let long = breadth * 1.0 * (1.0 - t).powf(0.6) * (0.8 + 0.2 * (t * 9.0).min(1.0)) + 0.05;
        for side in [-1.0, 1.0] {
            let turn = side * (1.05 - 0.45 * t) + draft.chance.bell(0.1);
            let frame = placed((-0.8 + 1.66 * t, 0.0), turn);
            add(
                &mut twigs,
                &(frame * smooth(&[Point::ZERO, Point::new(long * 0.6, 0.01), Point::new(long, 0.0)], false)),
            );
            let soft = Blade { length: long, half: 0.062 * (1.0 - 0.4 * t), foot: 0.7, ..Blade::PETAL };
            let (left, right) = (soft.side(-1.0, &mut draft.chance), soft.side(1.0, &mut draft.chance));
            add(&mut haze, &(frame * Blade::closed(&left, &right)));
            for j in 0..9 {
                let u = long * (0.12 + 0.84 * f64::from(j) / 8.0);
                for lean in [-1.0, 1.0] {
                    let tip = Point::new(u, 0.0)
                        + polar(lean * (0.8 + draft.chance.bell(0.3)), 0.078 * (1.0 - 0.45 * t)).to_vec2();
                    let layer = if (j + i) % 2 == 0 { &mut front } else { &mut back };
                    let hair = [frame * Point::new(u, 0.0), frame * tip];
                    layer.move_to(hair[0]);
                    layer.line_to(hair[1]);
                }
            }
        }
    }
    draft.group.fill(haze.clone(), colour.lighter(-0.06).paint(0.5));
    draft.group.fill(Affine::translate(draft.lightward() * 0.012) * haze, colour.lighter(0.07).paint(0.4));
    draft.group.stroke(back, 0.016, colour.lighter(-0.1).paint(0.9));
    draft.group.stroke(twigs, 0.013, colour.lighter(-0.04).paint(1.0));
    draft.group.stroke(front, 0.014, colour.lighter(0.08).paint(0.95));
    rib(draft, 0.024, colour.lighter(-0.14), colour.lighter(0.1));
}
