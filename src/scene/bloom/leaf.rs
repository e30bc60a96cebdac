//! Single leaves, broad and narrow.

use kurbo::{Affine, BezPath, Point, Vec2};

use crate::colour::Rgb;
use crate::scene::brush::{add, linear, oval, oval_radial};
use crate::scene::draft::Draft;
use crate::scene::hues::{PLUM, WHITE};
use crate::scene::outline::{Blade, between, smooth};

/// A broad leaf such as salal or camellia.
pub(crate) fn broad(draft: &mut Draft, colour: Rgb, breadth: f64) {
    let bend = draft.chance.bell(0.12 * breadth);
    let blade =
        Blade { length: 2.0, half: breadth, peak: 0.42, blunt: 0.82, foot: 0.6, notch: -0.03, wave: 0.02, bend };
    simple(draft, &blade, colour, 7);
}

/// A narrow leaf such as ruscus: pointed at both ends.
pub(crate) fn narrow(draft: &mut Draft, colour: Rgb, breadth: f64) {
    let bend = draft.chance.bell(0.2 * breadth);
    let blade = Blade { length: 2.0, half: breadth, peak: 0.42, blunt: 1.1, foot: 0.55, notch: 0.0, wave: 0.012, bend };
    simple(draft, &blade, colour, 5);
}

/// A simple leaf with its tip at +x: the whole blade, its lit half over it, veins, a pale midrib, gloss.
fn simple(draft: &mut Draft, blade: &Blade, colour: Rgb, veins: u32) {
    leaf_shadow(draft, blade);
    let colour = colour.lighter(draft.chance.bell(0.035)).richer(1.0 + draft.chance.bell(0.12));
    let (left, right) = (blade.side(-1.0, &mut draft.chance), blade.side(1.0, &mut draft.chance));
    let along = [(0.0, -0.13), (0.35, -0.045), (0.8, -0.02), (1.0, -0.075)];
    let along = along.map(|(at, by)| (at, colour.lighter(by).solid()));
    draft.group.fill(Blade::closed(&left, &right), linear(Point::ZERO, blade.at(1.0, 0.0), &along));
    lit_half(draft, blade, [&left, &right], colour);
    side_veins(draft, blade, colour, veins);
    midrib_and_gloss(draft, blade, colour);
}

fn leaf_shadow(draft: &mut Draft, blade: &Blade) {
    let away = draft.lightward() * (-0.05 * blade.length);
    let centre = blade.at(0.5, 0.0) + away;
    let radii = Vec2::new(blade.length * 0.58, blade.half * 1.3 + 0.05);
    draft.shadow(centre, radii, blade.bend * 0.9, PLUM, 0.42);
}

/// Which side of a leaf along +x faces the light: -1 or 1.
fn lit_side(draft: &Draft) -> f64 {
    if draft.light.sin() < 0.0 { -1.0 } else { 1.0 }
}

fn midline(blade: &Blade) -> Vec<Point> {
    (0..=6).map(|i| blade.at(f64::from(i) / 6.0, 0.0)).collect()
}

fn lit_half(draft: &mut Draft, blade: &Blade, sides: [&[Point]; 2], colour: Rgb) {
    let side = lit_side(draft);
    let edge = if side < 0.0 { sides[0] } else { sides[1] };
    let list = [(0.0, 0.03), (0.45, 0.10), (1.0, 0.015)].map(|(at, by)| (at, colour.lighter(by).solid()));
    let (l, h) = (blade.length, blade.half * side);
    draft.group.fill(between(edge, &midline(blade)), linear((l * 0.45, h), (l * 0.5, -h * 0.15), &list));
}

fn side_veins(draft: &mut Draft, blade: &Blade, colour: Rgb, count: u32) {
    let lit = lit_side(draft);
    for (side, by, alpha) in [(lit, -0.06, 0.45), (-lit, 0.07, 0.4)] {
        let mut lines = BezPath::new();
        for i in 0..count {
            let u = 0.1 + 0.72 * f64::from(i) / f64::from(count);
            let points = [blade.at(u, 0.0), blade.at(u + 0.07, side * 0.38), blade.at(u + 0.17, side * 0.86)];
            add(&mut lines, &smooth(&points, false));
        }
        draft.stroke(Affine::IDENTITY, lines, blade.length * 0.0065, colour.lighter(by).paint(alpha));
    }
}

/// The midrib tapers toward the tip; a pale line lies in a dark groove.
fn midrib_and_gloss(draft: &mut Draft, blade: &Blade, colour: Rgb) {
    let rib = |thick: f64, end: f64| {
        let side = |sign: f64| -> Vec<Point> {
            let at = |i: i32| {
                let t = f64::from(i) / 8.0;
                blade.at(t * end, 0.0) + Vec2::new(0.0, sign * thick * (1.0 - 0.9 * t))
            };
            (0..=8).map(at).collect()
        };
        between(&side(-1.0), &side(1.0))
    };
    draft.group.fill(rib(blade.length * 0.014, 0.97), colour.lighter(-0.1).paint(0.6));
    draft.group.fill(rib(blade.length * 0.0075, 0.93), colour.lighter(0.17).paint(0.95));
    let side = lit_side(draft);
    let (centre, radii) = (blade.at(0.42, 0.45 * side), Vec2::new(blade.length * 0.24, blade.half * 0.22));
    let turn = blade.bend * 0.6;
    let list = [(0.0, WHITE.tint(0.22)), (1.0, WHITE.tint(0.0))];
    draft.group.fill(oval(centre, radii, turn), oval_radial(centre, radii, turn, &list));
}
