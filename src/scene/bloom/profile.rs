//! What closed and half-open blooms are made of when they are seen from the side: they stand on a stalk, their tip at +x.

use kurbo::{Affine, BezPath, Point, Vec2};

use super::placed;
use crate::colour::Rgb;
use crate::scene::brush::{add, linear, oval, oval_radial, polar, radial};
use crate::scene::draft::Draft;
use crate::scene::hues::{Hues, SEPAL, WHITE};
use crate::scene::outline::{Blade, Fan, between, polygon, smooth};

/// A stalk along these points.
pub(super) fn stalk(draft: &mut Draft, points: &[(f64, f64)], width: f64, colour: Rgb) {
    let line: Vec<Point> = points.iter().copied().map(Point::from).collect();
    let path = smooth(&line, false);
    draft.group.stroke(path.clone(), width, colour.lighter(-0.12).paint(1.0));
    let up = Affine::translate(draft.lightward() * (width * 0.16));
    draft.group.stroke(up * path, width * 0.5, colour.lighter(0.03).paint(0.9));
}

/// A round body about the x axis: half its width at places along it. Lit from the light's side.
pub(super) fn body(draft: &mut Draft, frame: Affine, profile: &[(f64, f64)], hues: &Hues) {
    let widest = profile.iter().fold(0.0_f64, |w, &(_, half)| w.max(half));
    let lit = hues.lit(draft.chance.bell(0.01));
    let side = if draft.light.sin() < 0.0 { 1.0 } else { -1.0 };
    let list = [
        (0.0, lit.mid.solid()),
        (0.2, lit.rim.solid()),
        (0.34, lit.edge.solid()),
        (0.62, lit.mid.solid()),
        (0.86, lit.throat.mixed(lit.mid, 0.45).solid()),
        (1.0, lit.throat.mixed(lit.mid, 0.2).solid()),
    ];
    draft.fill(frame, body_path(profile), linear((0.0, -widest * side), (0.0, widest * side), &list));
}

fn body_path(profile: &[(f64, f64)]) -> BezPath {
    let (one, other): (Vec<Point>, Vec<Point>) =
        profile.iter().map(|&(x, half)| (Point::new(x, -half), Point::new(x, half))).unzip();
    between(&one, &other)
}

/// The edge of one petal over another: shade on one side of it, light on the other.
pub(super) fn seam(draft: &mut Draft, frame: Affine, points: &[(f64, f64)], width: f64, hues: &Hues) {
    let line: Vec<Point> = points.iter().copied().map(Point::from).collect();
    let path = smooth(&line, false);
    let off = draft.lightward() * (width * 0.6);
    draft.stroke(Affine::translate(-off) * frame, path.clone(), width * 1.5, hues.throat.lighter(-0.06).paint(0.36));
    draft.stroke(frame, path, width * 0.55, hues.edge.paint(0.6));
}

/// A petal that stands up from `frame`'s origin: deep at its foot, light at its rolled rim, rounded across.
pub(super) fn cup_petal(draft: &mut Draft, frame: Affine, fan: &Fan, hues: &Hues) {
    let rim = fan.rim(&mut draft.chance);
    let path = fan.closed(&rim);
    let lit = hues.lit(draft.chance.bell(0.014));
    let shift = draft.lightward() * (-0.028 * fan.to);
    draft.fill(Affine::translate(shift) * frame, path.clone(), hues.shade.paint(0.14 * hues.depth));
    let list = [
        (0.0, lit.throat.solid()),
        (0.4, lit.throat.mixed(lit.mid, 0.6).solid()),
        (0.68, lit.mid.solid()),
        (0.9, lit.rim.solid()),
        (1.0, lit.edge.solid()),
    ];
    draft.fill(frame, path.clone(), radial(Point::ZERO, fan.to, &list));
    let turn = crate::scene::draft::turn_of(frame) - draft.light;
    let (one, other) = if turn.sin() > 0.0 { (0.0, 0.42) } else { (0.42, 0.0) };
    let wide = fan.to * fan.half.min(1.4).sin();
    let shade = hues.throat.lighter(-0.10);
    let across = [(0.0, one), (0.45, 0.03), (0.55, 0.03), (1.0, other)].map(|(at, a)| (at, shade.tint(a * hues.depth)));
    draft.fill(frame, path, linear((0.0, -wide), (0.0, wide), &across));
    lip(draft, frame, &rim, fan.to * 0.05, &lit);
}

/// The rim of a standing petal turns outward and catches light.
fn lip(draft: &mut Draft, frame: Affine, rim: &[Point], thick: f64, hues: &Hues) {
    let outer = &rim[rim.len() / 8..rim.len() - rim.len() / 8];
    let last = outer.len() as f64 - 1.0;
    let inner: Vec<Point> = outer
        .iter()
        .enumerate()
        .map(|(i, p)| {
            let a = i as f64 / last * 2.0 - 1.0;
            (p.to_vec2() * (1.0 - thick * (1.0 - a * a) / p.to_vec2().hypot().max(1e-9))).to_point()
        })
        .collect();
    draft.fill(frame, between(outer, &inner), hues.edge.lighter(0.04).paint(0.75));
}

/// Narrow green leaves that hold a bud: where they begin, the turn and length of each, half their width.
pub(super) fn sepals(draft: &mut Draft, foot: (f64, f64), list: &[(f64, f64)], half: f64, hues: &Hues) {
    for &(turn, length) in list {
        let blade = Blade { length, half, peak: 0.32, blunt: 0.9, foot: 0.8, bend: turn * -0.08, ..Blade::PETAL };
        draft.blade(placed(foot, turn), &blade, hues, 1, 0.03);
    }
}

/// The tones of what is green about a flower.
pub(super) fn green() -> Hues {
    Hues::of_leaf(SEPAL)
}

/// Another tint about a place of a body, within its outline.
pub(super) fn flush(
    draft: &mut Draft,
    profile: &[(f64, f64)],
    at: (f64, f64),
    reach: Vec2,
    colour: Rgb,
    strength: f64,
) {
    let list = [(0.0, colour.tint(strength)), (0.5, colour.tint(strength * 0.5)), (1.0, colour.tint(0.0))];
    draft.group.fill(body_path(profile), oval_radial(at.into(), reach, 0.0, &list));
}

/// The shadow under what stands along the x axis, so far to each side.
pub(super) fn lies(draft: &mut Draft, half: f64) {
    let at = Point::new(0.12, 0.0) - draft.lightward() * 0.1;
    draft.shadow(at, Vec2::new(0.95, half * 1.2), 0.0, crate::scene::hues::PLUM, 0.3);
}

/// A long spot of light.
pub(super) fn gloss(draft: &mut Draft, at: Point, radii: Vec2, turn: f64, strength: f64) {
    let list = [(0.0, WHITE.tint(strength)), (1.0, WHITE.tint(0.0))];
    draft.group.fill(oval(at, radii, turn), oval_radial(at, radii, turn, &list));
}

/// Draws something in a place of its own; what it draws is turned and moved by `frame`.
pub(super) fn within(draft: &mut Draft, frame: Affine, draw: impl FnOnce(&mut Draft)) {
    let inner = crate::scene::Group::new(crate::scene::Key::Inner, frame);
    let outer = std::mem::replace(&mut draft.group, inner);
    let light = draft.light;
    draft.light -= crate::scene::draft::turn_of(frame);
    draw(draft);
    draft.light = light;
    let inner = std::mem::replace(&mut draft.group, outer);
    draft.group.items.push(crate::scene::Primitive::Group(inner));
}

/// The green cup under a composite flower: rows of small bracts like tiles, `half` wide at its rim at x = 0.
pub(super) fn tiled_cup(draft: &mut Draft, half: f64, deep: f64, hues: &Hues) {
    body(
        draft,
        Affine::IDENTITY,
        &[(-deep, 0.06), (-deep * 0.86, half * 0.62), (-deep * 0.4, half * 0.96), (0.06, half)],
        hues,
    );
    for (row, count) in [(0.62, 5_u32), (0.3, 6), (0.0, 7)] {
        for i in 0..count {
            let t = (f64::from(i) + 0.5) / f64::from(count) * 2.0 - 1.0;
            let foot = (-deep * (row + 0.34), t * half * (0.86 - row * 0.35));
            let blade =
                Blade { length: deep * 0.52, half: half * 0.2, peak: 0.5, blunt: 0.7, foot: 0.9, ..Blade::PETAL };
            let lit = hues.lit(draft.chance.bell(0.03));
            draft.blade(placed(foot, t * 0.35), &blade, &lit, 1, 0.03);
        }
    }
}

/// A ruff of divided leaves about a foot: several pointed fingers to each.
pub(super) fn ruff(draft: &mut Draft, foot: (f64, f64), turns: &[f64], reach: f64, hues: &Hues) {
    for &turn in turns {
        let mut points = Vec::new();
        let sides = [(0.1, 0.05), (0.42, 0.17), (0.5, 0.08), (0.72, 0.22), (0.74, 0.09)];
        points.extend(sides.iter().map(|&(u, v)| Point::new(u * reach, v * reach)));
        points.push(Point::new(reach, 0.0));
        points.extend(sides.iter().rev().map(|&(u, v)| Point::new(u * reach, -v * reach)));
        let frame = placed(foot, turn);
        let path = polygon(&points);
        draft.fill(Affine::translate(draft.lightward() * -0.03) * frame, path.clone(), hues.shade.paint(0.16));
        let lit = hues.lit(draft.chance.bell(0.03));
        draft.fill(frame, path, radial(Point::ZERO, reach, &[(0.2, lit.throat.solid()), (1.0, lit.rim.solid())]));
        let mut veins = smooth(&[Point::ZERO, Point::new(reach * 0.9, 0.0)], false);
        for v in [-0.17, 0.17] {
            add(&mut veins, &smooth(&[Point::new(reach * 0.3, 0.0), Point::new(reach * 0.68, v * reach)], false));
        }
        draft.stroke(frame, veins, 0.014, lit.edge.paint(0.6));
    }
}

/// Threads with heads that stand in a fan: foot, half the angle they span, their reach.
pub(super) fn standing_threads(draft: &mut Draft, foot: Point, span: f64, reach: f64, count: u32, tints: [Rgb; 2]) {
    let (mut threads, mut heads) = (BezPath::new(), BezPath::new());
    for i in 0..count {
        let a = ((f64::from(i) + 0.5) / f64::from(count) * 2.0 - 1.0) * span;
        let tip = foot + polar(a, reach * (1.0 + draft.chance.bell(0.1))).to_vec2();
        add(&mut threads, &smooth(&[foot, foot.lerp(tip, 0.5) + Vec2::new(0.0, a * 0.06), tip], false));
        add(&mut heads, &oval(tip, Vec2::new(0.06, 0.035), a + 0.9));
    }
    draft.group.stroke(threads, 0.022, tints[0].paint(1.0));
    draft.group.fill(heads, tints[1].paint(1.0));
}
