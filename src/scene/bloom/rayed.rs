//! Blooms with rays about an eye: daisy, button chrysanthemum, anemone, astrantia, thistle,
//! cornflower.

use kurbo::{Affine, BezPath, Point, Vec2};

use super::{around, ring};
use crate::colour::Rgb;
use crate::scene::brush::{add, circle, polar, radial};
use crate::scene::draft::Draft;
use crate::scene::hues::{Hues, PLUM, POLLEN, WHITE};
use crate::scene::outline::{Blade, polygon, smooth};

/// A daisy: two rings of narrow rays about a domed eye.
pub(crate) fn daisy(draft: &mut Draft, hues: &Hues) {
    draft.cast(1.0, 0.45);
    let back = hues.lit(-0.02);
    let start = draft.chance.angle();
    let ray = Blade { length: 1.0, half: 0.128, peak: 0.66, blunt: 0.6, foot: 0.42, notch: 0.03, ..Blade::PETAL };
    ring(draft, around(15, start), ray, &back, 2, 0.06);
    ring(draft, around(13, start + 0.2), Blade { length: 0.88, ..ray }, hues, 2, 0.06);
    eye(draft, Point::ZERO, 0.27, &Hues::of(POLLEN), 64);
}

/// A domed eye of florets with its shadow.
fn eye(draft: &mut Draft, centre: Point, r: f64, hues: &Hues, florets: u32) {
    let away = draft.lightward() * (-0.16 * r);
    draft.shadow(centre + away, Vec2::new(r, r) * 1.25, 0.0, PLUM, 0.5);
    draft.ball(centre, r, hues, 0.0);
    draft.studs(centre, r * 0.95, florets, [r * 0.06, r * 0.095], hues);
}

/// A button chrysanthemum: a tight dome of short petals, green-gold in the middle.
pub(crate) fn button_mum(draft: &mut Draft, hues: &Hues) {
    draft.cast(1.0, 0.5);
    let heart = Hues::of(hues.mid.mixed(Rgb::hex(0xc3c94f), 0.6));
    draft.group.fill(circle(Point::ZERO, 0.86), hues.throat.lighter(-0.06).paint(1.0));
    let mut turn = draft.chance.angle();
    let rings = [(19_u32, 1.0), (18, 0.88), (17, 0.75), (15, 0.61), (12, 0.47), (9, 0.34), (6, 0.21)];
    for (i, (count, reach)) in rings.into_iter().enumerate() {
        turn += std::f64::consts::PI / f64::from(count) + draft.chance.bell(0.05);
        let share = i as f64 / 6.0;
        let tones = if share > 0.6 { heart.deeper(0.1) } else { hues.deeper(share * 0.3) };
        let half = reach * 3.5 / f64::from(count);
        let blade =
            Blade { length: 0.40 * reach + 0.12, half: half * 0.62, peak: 0.62, blunt: 0.5, foot: 0.5, ..Blade::PETAL };
        short_petals(draft, count, turn, [reach, blade.length], &blade, &tones);
    }
}

/// A ring of short petals that end at `reach[0]` and are `reach[1]` long: shadow, body and middle lines, three items.
fn short_petals(draft: &mut Draft, count: u32, turn: f64, reach: [f64; 2], blade: &Blade, hues: &Hues) {
    let (mut under, mut body, mut lines) = (BezPath::new(), BezPath::new(), BezPath::new());
    let away = draft.lightward() * -0.045;
    let start = reach[0] - reach[1];
    for a in around(count, turn) {
        let frame = Affine::rotate(a + draft.chance.bell(0.06))
            * Affine::translate((start * (1.0 + draft.chance.bell(0.03)), 0.0));
        let path = frame * Blade::closed(&blade.side(-1.0, &mut draft.chance), &blade.side(1.0, &mut draft.chance));
        add(&mut under, &(Affine::translate(away) * path.clone()));
        add(&mut body, &path);
        add(&mut lines, &(frame * blade.line(0.0, 0.2, 0.8)));
    }
    if reach[0] < 0.99 {
        // The outermost ring lies on nothing of the bloom; a hard shadow there would look like a sticker's.
        draft.group.fill(under, hues.shade.paint(0.45 * hues.depth));
    }
    let at = |t: f64| (start + reach[1] * t).max(0.0) / reach[0];
    let list = [
        (at(0.1), hues.throat.solid()),
        (at(0.5), hues.mid.solid()),
        (at(0.8), hues.rim.solid()),
        (1.0, hues.edge.solid()),
    ];
    let lit = draft.lightward() * (reach[0] * 0.06);
    draft.group.fill(body, radial(lit.to_point(), reach[0] * 1.04, &list));
    draft.group.stroke(lines, blade.half * 0.16, hues.throat.paint(0.28 * hues.depth));
}

/// An anemone: broad petals with a pale ring, a dark eye, a collar of dark stamens.
pub(crate) fn anemone(draft: &mut Draft, hues: &Hues) {
    draft.cast(1.0, 0.45);
    let flat = Hues { throat: hues.throat.mixed(hues.mid, 0.55), ..*hues };
    let start = draft.chance.angle();
    let petal = Blade { length: 1.0, half: 0.44, peak: 0.6, blunt: 0.55, foot: 0.35, wave: 0.03, ..Blade::PETAL };
    ring(draft, around(6, start), petal, &flat.lit(-0.015), 7, 0.1);
    ring(draft, around(5, start + 0.5), Blade { length: 0.86, half: 0.38, ..petal }, &flat, 7, 0.1);
    let pale = [
        (0.0, WHITE.tint(0.0)),
        (0.45, WHITE.tint(0.0)),
        (0.62, WHITE.tint(0.75)),
        (0.8, WHITE.tint(0.55)),
        (1.0, WHITE.tint(0.0)),
    ];
    draft.group.fill(circle(Point::ZERO, 0.5), radial(Point::ZERO, 0.5, &pale));
    let ink = Rgb::hex(0x231f3d);
    draft.stamens([0.14, 0.39], 26, 0.036, ink.lighter(0.08), ink);
    draft.stamens([0.14, 0.29], 20, 0.036, ink.lighter(0.08), ink.lighter(0.04));
    let dark = Hues { throat: ink.lighter(-0.06), mid: ink, rim: ink.lighter(0.09), edge: ink.lighter(0.2), ..*hues };
    eye(draft, Point::ZERO, 0.17, &dark, 34);
}

/// An astrantia: a ruff of pointed papery bracts about a pincushion of tiny florets.
pub(crate) fn astrantia(draft: &mut Draft, hues: &Hues) {
    draft.cast(1.0, 0.42);
    let start = draft.chance.angle();
    let tips = Hues { edge: hues.edge.mixed(Rgb::hex(0x8aa05f), 0.35), ..*hues };
    let bract = Blade { length: 1.0, half: 0.155, peak: 0.5, blunt: 0.85, foot: 0.5, notch: -0.05, ..Blade::PETAL };
    ring(draft, around(12, start), bract, &tips.lit(-0.03), 3, 0.05);
    ring(draft, around(12, start + 0.26), Blade { length: 0.86, ..bract }, &tips, 3, 0.05);
    let cushion = hues.deeper(0.5);
    draft.shadow(Point::ZERO, Vec2::new(0.5, 0.5), 0.0, hues.shade, 0.5);
    draft.ball(Point::ZERO, 0.34, &cushion, 0.0);
    for (reach, count) in [(0.47, 24), (0.37, 18), (0.26, 13), (0.13, 7)] {
        draft.stamens([reach * 0.55, reach], count, 0.042, cushion.throat, hues.edge.lighter(0.02));
    }
}

/// A cornflower: a ring of toothed trumpets about a tuft of dark florets.
pub(crate) fn cornflower(draft: &mut Draft, hues: &Hues) {
    draft.cast(0.9, 0.36);
    let start = draft.chance.angle();
    for (reach, count, turn, by) in [(1.0, 8, 0.0, -0.02), (0.86, 7, 0.4, 0.015)] {
        for a in around(count, start + turn) {
            let (turn, long) = (a + draft.chance.bell(0.1), reach * (1.0 + draft.chance.bell(0.05)));
            trumpet(draft, turn, long, &hues.lit(by));
        }
    }
    let dark = Hues::of(hues.mid.mixed(Rgb::hex(0x4b2a78), 0.65));
    draft.shadow(Point::ZERO, Vec2::new(0.42, 0.42), 0.0, PLUM, 0.5);
    for (reach, count) in [(0.42, 17), (0.32, 14), (0.2, 9)] {
        draft.stamens([reach * 0.3, reach], count, 0.05, dark.mid, dark.rim);
    }
}

/// One trumpet: a thin tube, then a funnel with five teeth.
fn trumpet(draft: &mut Draft, turn: f64, reach: f64, hues: &Hues) {
    let teeth = [(0.92, 0.25), (0.84, 0.17), (0.98, 0.13), (0.86, 0.06), (1.0, 0.0)];
    let mut points =
        vec![Point::new(0.2 * reach, 0.02), Point::new(0.42 * reach, 0.05), Point::new(0.68 * reach, 0.16)];
    points.extend(teeth.iter().map(|&(u, v)| Point::new(u * reach, v * reach)));
    let mirrored: Vec<Point> = points.iter().rev().map(|p| Point::new(p.x, -p.y)).collect();
    points.extend(mirrored);
    let frame = Affine::rotate(turn);
    let path = polygon(&points);
    draft.group.fill(Affine::translate(draft.lightward() * -0.04) * frame * path.clone(), hues.shade.paint(0.22));
    let lit = hues.lit(0.03 * (turn - draft.light).cos());
    let list = [(0.2, lit.throat.solid()), (0.55, lit.mid.solid()), (0.85, lit.rim.solid()), (1.0, lit.edge.solid())];
    draft.fill(frame, path, radial(Point::ZERO, reach, &list));
    let mut ribs = BezPath::new();
    for v in [-0.1, 0.0, 0.1] {
        add(&mut ribs, &smooth(&[Point::new(0.4 * reach, v * 0.2), Point::new(0.88 * reach, v * reach)], false));
    }
    draft.stroke(frame, ribs, 0.014, lit.throat.paint(0.5));
}

/// A sea holly: a ruff of spined bracts about a steel cone.
pub(crate) fn thistle(draft: &mut Draft, hues: &Hues) {
    draft.cast(0.95, 0.4);
    let start = draft.chance.angle();
    let silver = Hues::of(hues.mid.mixed(Rgb::hex(0xbcd0d8), 0.35));
    for (reach, count, turn) in [(1.0, 9, 0.0), (0.82, 9, 0.35)] {
        for a in around(count, start + turn) {
            let (turn, long) = (a + draft.chance.bell(0.1), reach * (1.0 + draft.chance.bell(0.07)));
            spined(draft, turn, long, &silver);
        }
    }
    cone(draft, hues, 0.42);
}

/// One bract: a long spine with side spines.
fn spined(draft: &mut Draft, turn: f64, reach: f64, hues: &Hues) {
    let mut points = Vec::new();
    let sides = [(0.2, 0.05), (0.34, 0.15), (0.4, 0.06), (0.55, 0.14), (0.6, 0.045), (0.74, 0.1), (0.78, 0.03)];
    points.extend(sides.iter().map(|&(u, v)| Point::new(u * reach, v * reach)));
    points.push(Point::new(reach, 0.0));
    points.extend(sides.iter().rev().map(|&(u, v)| Point::new(u * reach, -v * reach)));
    let frame = Affine::rotate(turn);
    let away = draft.lightward() * -0.04;
    let path = polygon(&points);
    draft.group.fill(Affine::translate(away) * frame * path.clone(), hues.shade.paint(0.16));
    let lit = hues.lit(0.03 * (turn - draft.light).cos());
    let list = [(0.2, lit.throat.solid()), (0.6, lit.mid.solid()), (1.0, lit.edge.solid())];
    draft.fill(frame, path, radial(Point::ZERO, reach, &list));
    let rib = smooth(&[Point::new(reach * 0.2, 0.0), Point::new(reach * 0.9, 0.0)], false);
    draft.stroke(frame, rib, 0.018, lit.edge.lighter(0.05).paint(0.7));
}

/// The dome in the middle: studs that bristle outward.
fn cone(draft: &mut Draft, hues: &Hues, r: f64) {
    draft.shadow((draft.lightward() * -0.07).to_point(), Vec2::new(r, r) * 1.25, 0.0, PLUM, 0.5);
    draft.ball(Point::ZERO, r * 0.92, &hues.lit(-0.04), 0.0);
    let mut bristles = BezPath::new();
    for i in 0..44_u32 {
        let t = (f64::from(i) + 0.5) / 44.0;
        let a = f64::from(i) * crate::scene::draft::GOLDEN;
        let (from, to) = (r * 0.9 * t.sqrt(), r * (t.sqrt() * 1.02 + 0.09));
        add(
            &mut bristles,
            &polygon(&[
                polar(a - 0.05 / t.sqrt().max(0.3), from),
                polar(a, to),
                polar(a + 0.05 / t.sqrt().max(0.3), from),
            ]),
        );
    }
    draft.studs(Point::ZERO, r * 0.86, 60, [r * 0.05, r * 0.09], hues);
    draft.group.fill(bristles, hues.edge.paint(0.75));
}
