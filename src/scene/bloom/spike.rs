//! Long spikes with the tip at +x: grape hyacinth, lavender, veronica, heather. From -1 to 1 along, `breadth` to each side.

use kurbo::{BezPath, Point, Vec2};

use super::placed;
use super::sprig::fuzz;
use crate::colour::Rgb;
use crate::scene::brush::{add, circle, linear, oval, oval_radial};
use crate::scene::draft::Draft;
use crate::scene::hues::{Hues, PLUM, SEPAL, WHITE, ease};
use crate::scene::outline::{Blade, smooth};

fn ground(draft: &mut Draft, breadth: f64) {
    let away = draft.lightward() * -0.06;
    draft.shadow(away.to_point(), Vec2::new(1.02, breadth * 1.15 + 0.04), 0.0, PLUM, 0.36);
}

fn stalk(draft: &mut Draft, to: f64, width: f64) {
    let line = smooth(&[Point::new(-1.0, 0.0), Point::new(to, 0.0)], false);
    draft.group.stroke(line.clone(), width, SEPAL.lighter(-0.12).paint(1.0));
    draft.group.stroke(line, width * 0.4, SEPAL.lighter(0.1).paint(0.8));
}

/// A grape hyacinth: tight rows of beads with pale mouths, smaller and paler toward the tip.
pub(crate) fn muscari(draft: &mut Draft, hues: &Hues, breadth: f64) {
    const ROWS: u32 = 10;
    ground(draft, breadth);
    stalk(draft, 0.8, breadth * 0.2);
    let mut mouths = BezPath::new();
    for row in (0..ROWS).rev() {
        let t = f64::from(row) / f64::from(ROWS - 1);
        let x = -0.66 + 1.5 * t;
        let wide = breadth * (1.0 - 0.62 * t.powf(2.0)) * if row == 0 { 0.86 } else { 1.0 };
        let r = breadth * (0.33 - 0.11 * t);
        let count = if t > 0.95 {
            1_u32
        } else if t > 0.6 {
            3
        } else if row % 2 == 0 {
            4
        } else {
            5
        };
        for i in 0..count {
            let v = if count == 1 { 0.0 } else { f64::from(i) / f64::from(count - 1) * 2.0 - 1.0 };
            let centre = Point::new(x - 0.06 * v.abs() + draft.chance.bell(0.015), v * (wide - r));
            let lit = hues.lit(0.06 * t + draft.chance.bell(0.02));
            bead(draft, centre, r, &lit, v);
            if t < 0.75 {
                let mouth = centre + Vec2::new(-r * 0.75, v * r * 0.45);
                add(&mut mouths, &oval(mouth, Vec2::new(r * 0.15, r * 0.3), v * -0.5));
            }
        }
    }
    draft.group.fill(mouths, WHITE.mixed(hues.edge, 0.25).paint(0.85));
}

fn bead(draft: &mut Draft, centre: Point, r: f64, hues: &Hues, lean: f64) {
    let radii = Vec2::new(r * 1.18, r);
    let turn = -lean * 0.5;
    let lit = centre + draft.lightward() * (r * 0.4);
    let list = [
        (0.0, hues.edge.solid()),
        (0.4, hues.rim.solid()),
        (0.75, hues.mid.solid()),
        (1.0, hues.throat.lighter(-0.05).solid()),
    ];
    draft.group.fill(oval(centre, radii, turn), oval_radial(lit, radii * 1.3, turn, &list));
}

/// Lavender: whorls of small calyces with gaps between the lower ones.
pub(crate) fn lavender(draft: &mut Draft, hues: &Hues, breadth: f64) {
    ground(draft, breadth * 0.8);
    stalk(draft, 0.9, breadth * 0.13);
    let calyx = hues.deeper(0.4);
    let mut petals = BezPath::new();
    for (i, x) in [-0.62, -0.3, -0.08, 0.12, 0.3, 0.46, 0.6, 0.72].into_iter().enumerate() {
        let t = i as f64 / 7.0;
        let long = (0.36 - 0.12 * t) * (0.55 + breadth);
        for lean in [-1.05, 1.05, -0.55, 0.55, 0.0] {
            let turn = lean * (1.0 - 0.35 * t) + draft.chance.bell(0.1);
            let blade = Blade { length: long, half: long * 0.2, peak: 0.62, blunt: 0.6, foot: 0.5, ..Blade::PETAL };
            let frame = placed((x, 0.0), turn);
            let lit = calyx.lit(draft.chance.bell(0.03));
            draft.blade(frame, &blade, &lit, 0, 0.03);
            if draft.chance.next_f64() < 0.55 {
                let tip = frame * Point::new(long * 0.98, 0.0);
                add(&mut petals, &circle(tip + Vec2::new(0.0, long * 0.07), long * 0.1));
                add(&mut petals, &circle(tip - Vec2::new(0.0, long * 0.07), long * 0.1));
            }
        }
    }
    draft.group.fill(petals, hues.edge.paint(0.95));
}

/// Veronica: a tapering candle of tiny florets, open at the foot, budded at the tip.
pub(crate) fn veronica(draft: &mut Draft, hues: &Hues, breadth: f64) {
    ground(draft, breadth * 0.7);
    stalk(draft, 0.9, breadth * 0.12);
    let half = |t: f64| breadth * 0.78 * (1.0 - t).powf(0.7) * ease(-0.06, 0.09, t) + 0.015;
    let mut threads = BezPath::new();
    let mut heads = Vec::new();
    for i in 0..110_u32 {
        let t = f64::from(i) / 109.0;
        let (x, v) = (-0.72 + 1.72 * t, (f64::from(i) * 2.399).sin());
        let place = Point::new(x, v * half(t));
        heads.push((place, breadth * (0.15 - 0.1 * t)));
        if t < 0.6 && i % 2 == 0 {
            threads.move_to(place);
            threads.line_to(place + Vec2::new(-0.02, v.signum() * breadth * 0.24));
        }
    }
    let body: Vec<Point> =
        (0..=8).map(|i| Point::new(-0.74 + 1.7 * f64::from(i) / 8.0, half(f64::from(i) / 8.0))).collect();
    let other: Vec<Point> = body.iter().map(|p| Point::new(p.x, -p.y)).collect();
    let list = [(0.0, hues.mid.mixed(hues.throat, 0.5).solid()), (1.0, hues.mid.mixed(SEPAL, 0.4).solid())];
    draft.group.fill(crate::scene::outline::between(&body, &other), linear((-0.7, 0.0), (1.0, 0.0), &list));
    draft.group.stroke(threads, breadth * 0.03, hues.edge.paint(0.9));
    heads.reverse();
    fuzz(draft, &heads, hues);
}

/// Heather: a woody stem with scale leaves and small bells.
pub(crate) fn heather(draft: &mut Draft, hues: &Hues, breadth: f64) {
    ground(draft, breadth * 0.8);
    let bark = Rgb::hex(0x7a5a45);
    draft.group.stroke(smooth(&[Point::new(-1.0, 0.0), Point::new(0.95, 0.0)], false), breadth * 0.1, bark.paint(1.0));
    let (mut dark, mut light) = (BezPath::new(), BezPath::new());
    for i in 0..30_u32 {
        let t = f64::from(i) / 29.0;
        let side = if i % 2 == 0 { 1.0 } else { -1.0 };
        let blade = Blade { length: breadth * 0.6, half: breadth * 0.055, peak: 0.5, ..Blade::PETAL };
        let turn = side * (0.85 + draft.chance.bell(0.2));
        let path = Blade::closed(&blade.side(-1.0, &mut draft.chance), &blade.side(1.0, &mut draft.chance));
        let layer = if i % 3 == 0 { &mut light } else { &mut dark };
        add(layer, &(placed((-0.95 + 1.8 * t, 0.0), turn) * path));
    }
    draft.group.fill(dark, Rgb::hex(0x4d6b45).paint(1.0));
    draft.group.fill(light, Rgb::hex(0x7b9a66).paint(1.0));
    for i in 0..36_u32 {
        let t = f64::from(i) / 35.0;
        let side = if i % 2 == 0 { 1.0 } else { -1.0 };
        let out = breadth * (0.58 - 0.34 * t) * [1.0, 1.0, 0.62, 0.62, 0.12, 0.2][i as usize % 6];
        let long = breadth * (0.46 - 0.14 * t);
        let bell = Blade { length: long, half: long * 0.36, peak: 0.55, blunt: 0.5, foot: 0.5, ..Blade::PETAL };
        let at = Point::new(-0.72 + 1.5 * t, side * out * 0.75);
        let (turn, lit) = (side * 0.75 + draft.chance.bell(0.25), hues.lit(draft.chance.bell(0.04)));
        draft.blade(placed(at, turn), &bell, &lit, 0, 0.03);
    }
}
