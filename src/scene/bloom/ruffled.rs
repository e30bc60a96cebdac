//! Ruffled blooms: carnation, scabiosa, sweet pea.

use kurbo::{Affine, BezPath, Point, Vec2};

use super::{around, placed};
use crate::colour::Rgb;
use crate::scene::brush::{add, circle, polar, radial};
use crate::scene::draft::{Draft, GOLDEN, Sits};
use crate::scene::hues::{Hues, SEPAL};
use crate::scene::outline::{Blade, Fan, between, polygon};

/// A carnation: a dome of fringed petals, each pinked along its edge.
pub(crate) fn carnation(draft: &mut Draft, hues: &Hues) {
    const PETALS: u32 = 36;
    draft.cast(1.0, 0.5);
    draft.group.fill(circle(Point::ZERO, 0.6), hues.throat.lighter(-0.05).paint(1.0));
    for i in 0..PETALS {
        let t = f64::from(i) / f64::from(PETALS - 1);
        let reach = (1.0 - 0.8 * t.powf(1.15)) * (1.0 + draft.chance.bell(0.04));
        let turn = f64::from(i) * GOLDEN + draft.chance.bell(0.2);
        let fan = Fan {
            from: reach * 0.25,
            to: reach,
            half: (0.58 + 0.5 * t) * (1.0 + draft.chance.bell(0.1)),
            ..Fan::BROAD
        };
        pinked(draft, &fan, turn, (reach - 0.22).max(0.06), &hues.deeper(t * 0.35));
    }
}

/// One petal with a saw-toothed edge and folds that run into it.
pub(super) fn pinked(draft: &mut Draft, fan: &Fan, turn: f64, hidden: f64, hues: &Hues) {
    const TEETH: u32 = 15;
    let frame = Affine::rotate(turn);
    let (wave, drift) = (draft.chance.angle(), draft.chance.angle());
    let mut points: Vec<Point> = vec![polar(-fan.half * 0.6, fan.from * 0.5)];
    for i in 0..=TEETH * 2 {
        let a = f64::from(i) / f64::from(TEETH) - 1.0;
        let body = (1.0 - a.abs().powi(4)).max(0.0).sqrt();
        let tooth = if i % 2 == 1 { 1.0 } else { 0.945 - 0.02 * draft.chance.next_f64() };
        let ruffle = 1.0 + 0.05 * (a * 6.0 + wave).sin() + 0.03 * (a * 11.0 + drift).sin();
        points.push(polar(a * fan.half, fan.from + (fan.to - fan.from) * body * tooth * ruffle));
    }
    points.push(polar(fan.half * 0.6, fan.from * 0.5));
    let path = polygon(&points);
    let facing = (turn - draft.light).cos();
    let lit = hues.lit(-0.024 * facing + draft.chance.bell(0.022));
    draft.fan_shadow(fan, Sits { turn, hidden, roll: 0.0, lift: 0.075 }, hues);
    let k = (hidden / fan.to).clamp(0.05, 0.85);
    let at = |t: f64| k + (1.0 - k) * t;
    let list = [
        (k * 0.8, lit.throat.solid()),
        (at(0.35), lit.mid.solid()),
        (at(0.75), lit.rim.solid()),
        (1.0, lit.edge.solid()),
    ];
    draft.fill(frame, path, radial(Point::ZERO, fan.to, &list));
    folds(draft, frame, fan, &lit);
}

/// Dark folds, narrow wedges toward the edge: they make the ruffle.
fn folds(draft: &mut Draft, frame: Affine, fan: &Fan, hues: &Hues) {
    let mut wedges = BezPath::new();
    for i in 0..4 {
        let a = ((f64::from(i) + 0.5) / 4.0 * 2.0 - 1.0 + draft.chance.bell(0.2)) * fan.half * 0.8;
        let wide = fan.half * draft.chance.between(0.05, 0.11);
        let reach = fan.to * draft.chance.between(0.84, 0.95);
        add(
            &mut wedges,
            &polygon(&[polar(a, fan.to * 0.3), polar(a - wide, reach), polar(a + wide * 0.3, reach * 0.94)]),
        );
    }
    draft.fill(frame, wedges, hues.throat.lighter(-0.05).paint(0.3));
}

/// A scabiosa: ruffled outer florets about a pincushion.
pub(crate) fn scabiosa(draft: &mut Draft, hues: &Hues) {
    draft.cast(1.0, 0.45);
    let mut turn = draft.chance.angle();
    for (count, reach, half) in [(9, 1.0, 0.46), (8, 0.82, 0.5), (8, 0.64, 0.52)] {
        turn += 0.3;
        for a in around(count, turn) {
            let to = reach * (1.0 + draft.chance.bell(0.05));
            let fan = Fan { to, half, wave: 0.07, ripples: 3.6, flat: 3.2, ..Fan::BROAD };
            let sits = Sits { turn: a + draft.chance.bell(0.1), hidden: reach * 0.6, roll: 0.0, lift: 0.08 };
            draft.fan(&fan, sits, hues);
        }
    }
    let cushion = Hues::of(hues.mid.mixed(Rgb::hex(0xdfe3c8), 0.55));
    draft.shadow((draft.lightward() * -0.05).to_point(), Vec2::new(0.5, 0.5), 0.0, hues.shade, 0.5);
    draft.ball(Point::ZERO, 0.4, &cushion.lit(-0.04), 0.0);
    draft.studs(Point::ZERO, 0.37, 46, [0.03, 0.045], &cushion);
    for (ring, count) in [([0.05, 0.2], 7), ([0.18, 0.34], 12), ([0.3, 0.46], 15)] {
        draft.stamens(ring, count, 0.026, cushion.edge, Rgb::hex(0xfffaf2));
    }
}

/// A sweet pea: the wide ruffled banner behind, two wings that meet before it like hands, the keel between them.
pub(crate) fn sweet_pea(draft: &mut Draft, hues: &Hues) {
    pea(draft, hues, 0.66);
}

/// The same while its banner is still folded about the wings.
pub(crate) fn sweet_pea_half_open(draft: &mut Draft, hues: &Hues) {
    pea(draft, hues, 0.3);
}

/// A sweet pea whose banner is spread so far, 0 to 1.
fn pea(draft: &mut Draft, hues: &Hues, spread: f64) {
    draft.cast(0.95, 0.42);
    let foot = Point::new(-0.62, 0.0);
    let back = Hues { throat: hues.throat.mixed(hues.edge, 0.25), ..*hues };
    for side in [-1.0, 1.0] {
        let half = 0.5 + 0.36 * spread;
        let fan = Fan { from: 0.1, to: 1.62, half, wave: 0.045, ripples: 5.2, flat: 2.3, tip: 0.0 };
        banner(draft, foot, side * (0.16 + 0.38 * spread), &fan, &back);
    }
    let fold = [(0.0, hues.throat.tint(0.75)), (0.7, hues.throat.tint(0.3)), (1.0, hues.throat.tint(0.0))];
    let crease = Blade { length: 1.34, half: 0.06, ..Blade::PETAL };
    let path = Blade::closed(&crease.side(-1.0, &mut draft.chance), &crease.side(1.0, &mut draft.chance));
    draft.fill(placed(foot, 0.0), path, radial(Point::ZERO, 1.3, &fold));
    draft.shadow(Point::new(-0.18, 0.0), Vec2::new(0.62, 0.5), 0.0, hues.shade, 0.4 * hues.depth);
    let wing = Hues::of(hues.rim.mixed(hues.mid, 0.4)).deeper(0.2);
    for side in [-1.0, 1.0] {
        let blade = Blade {
            length: 1.02,
            half: 0.36,
            peak: 0.64,
            blunt: 0.44,
            foot: 0.14,
            wave: 0.05,
            bend: side * (0.05 + 0.2 * spread),
            ..Blade::PETAL
        };
        draft.blade(placed(foot, side * (0.1 + 0.34 * spread)), &blade, &wing, 6, 0.12);
    }
    let keel = Hues::of(hues.edge.lighter(0.02));
    let blade = Blade { length: 0.66, half: 0.14, peak: 0.6, blunt: 0.6, foot: 0.5, ..Blade::PETAL };
    draft.blade(placed(foot, 0.0), &blade, &keel, 0, 0.1);
    let green = Hues::of_leaf(SEPAL);
    for turn in [-0.5, 0.5, 0.0] {
        let tooth = Blade { length: 0.34, half: 0.09, peak: 0.4, blunt: 0.85, foot: 0.8, ..Blade::PETAL };
        draft.blade(placed(foot - Vec2::new(0.12, 0.0), turn), &tooth, &green, 0, 0.04);
    }
}

/// One half of the banner, from `foot`.
fn banner(draft: &mut Draft, foot: Point, turn: f64, fan: &Fan, hues: &Hues) {
    let rim = fan.rim(&mut draft.chance);
    let path = fan.closed(&rim);
    let frame = placed(foot, turn);
    let lit = hues.lit(-0.02 * (turn - draft.light).cos());
    let list = [
        (0.0, lit.throat.solid()),
        (0.3, lit.throat.mixed(lit.mid, 0.5).solid()),
        (0.6, lit.mid.solid()),
        (0.85, lit.rim.solid()),
        (1.0, lit.edge.solid()),
    ];
    draft.fill(frame, path, radial(Point::ZERO, fan.to, &list));
    // The frilled rim turns toward the light, wave by wave.
    let n = rim.len();
    let outer = &rim[n / 8..n - n / 8];
    let frill = |(i, p): (usize, &Point)| (p.to_vec2() * (0.93 + 0.03 * (i as f64 * 1.7).sin())).to_point();
    let inner: Vec<Point> = outer.iter().enumerate().map(frill).collect();
    draft.fill(frame, between(outer, &inner), lit.edge.lighter(0.05).paint(0.55));
    let mut veins = BezPath::new();
    for i in 0..9 {
        let a = (f64::from(i) / 8.0 * 2.0 - 1.0) * fan.half * 0.8;
        veins.move_to(polar(a * 0.7, fan.to * 0.3));
        let reach = 0.86 * (1.0 - (a / fan.half).powi(4)).max(0.0).sqrt();
        veins.quad_to(polar(a * 0.9, fan.to * 0.6), polar(a, fan.to * reach));
    }
    draft.stroke(frame, veins, 0.012, hues.throat.lighter(-0.08).paint(0.16 * hues.depth));
}
