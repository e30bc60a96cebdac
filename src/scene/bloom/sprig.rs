//! Sprigs: many small flowers on fine stems, drawn as few merged paths.

use kurbo::{Affine, BezPath, Point, Vec2};

use super::around;
use crate::colour::Rgb;
use crate::scene::brush::{add, circle, polar, radial};
use crate::scene::draft::Draft;
use crate::scene::hues::{Hues, SEPAL};
use crate::scene::outline::{Blade, smooth};

/// A waxflower sprig: three open flowers with their cups, buds, needle leaves.
pub(crate) fn waxflower(draft: &mut Draft, hues: &Hues) {
    draft.shadow(Point::ZERO - draft.lightward() * 0.1, Vec2::new(0.95, 0.95), 0.0, crate::scene::hues::PLUM, 0.3);
    let start = draft.chance.turn();
    let places: Vec<Point> = around(3, start).map(|a| polar(a, 0.5 + draft.chance.about(0.05))).collect();
    let buds: Vec<Point> = around(3, start + 1.05).map(|a| polar(a, 0.78 + draft.chance.about(0.08))).collect();
    needles(draft, start);
    stems(draft, places.iter().chain(&buds), 0.035);
    for &bud in &buds {
        draft.ball(bud, 0.13, &hues.deeper(0.6), 0.25);
    }
    for &place in &places {
        wax_floret(draft, place, 0.44, hues);
    }
}

/// Stems from the middle to each place, one stroke for all.
fn stems<'a>(draft: &mut Draft, places: impl Iterator<Item = &'a Point>, width: f64) {
    let mut lines = BezPath::new();
    for &p in places {
        let side = Vec2::new(-p.y, p.x) * draft.chance.about(0.16);
        add(&mut lines, &smooth(&[Point::ZERO, p.to_vec2().to_point().midpoint(Point::ZERO) + side, p], false));
    }
    draft.group.stroke(lines, width, SEPAL.lighter(-0.08).paint(1.0));
}

fn needles(draft: &mut Draft, start: f64) {
    let green = Hues::of_leaf(Rgb::hex(0x5f8a4d));
    for a in around(5, start + 0.5) {
        let blade =
            Blade { length: 0.9, half: 0.055, peak: 0.5, blunt: 0.8, bend: draft.chance.about(0.2), ..Blade::PETAL };
        let turn = a + draft.chance.about(0.25);
        draft.blade(Affine::rotate(turn), &blade, &green, 0, 0.0);
    }
}

/// One waxflower: five round petals about a nectar cup with a ring of stamens.
fn wax_floret(draft: &mut Draft, centre: Point, r: f64, hues: &Hues) {
    let away = draft.lightward() * (-0.14 * r);
    draft.shadow(centre + away, Vec2::new(r, r) * 1.1, 0.0, hues.shade, 0.5 * hues.depth);
    let start = draft.chance.turn();
    let mut petals = BezPath::new();
    for a in around(5, start) {
        let frame = Affine::translate(centre.to_vec2()) * Affine::rotate(a + draft.chance.about(0.08));
        let blade = Blade { length: r, half: r * 0.38, blunt: 0.5, foot: 0.3, ..Blade::PETAL };
        let (left, right) = (blade.side(-1.0, &mut draft.chance), blade.side(1.0, &mut draft.chance));
        add(&mut petals, &(frame * Blade::closed(&left, &right)));
    }
    let list = [
        (0.0, hues.throat.solid()),
        (0.34, hues.mid.solid()),
        (0.7, hues.rim.solid()),
        (0.85, hues.edge.solid()),
        (1.0, hues.edge.mixed(hues.throat, 0.25).solid()),
    ];
    draft.group.fill(petals, radial(centre + draft.lightward() * (r * 0.2), r * 1.25, &list));
    let cup = Rgb::hex(0x8e4a5c);
    draft.group.fill(circle(centre, r * 0.27), hues.edge.mixed(cup, 0.35).paint(1.0));
    let list = [(0.0, Rgb::hex(0xb9b465).solid()), (0.5, cup.lighter(0.08).solid()), (1.0, cup.lighter(-0.08).solid())];
    draft.group.fill(circle(centre, r * 0.2), radial(centre, r * 0.2, &list));
    let mut dots = BezPath::new();
    for a in around(10, start) {
        add(&mut dots, &circle(centre + polar(a, r * 0.24).to_vec2(), r * 0.035));
    }
    draft.group.fill(dots, hues.edge.lighter(0.05).paint(1.0));
}
