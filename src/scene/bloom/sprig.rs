//! Round sprigs: many small flowers on fine stems, drawn as few merged paths: waxflower, baby's breath, statice, goldenrod.

use kurbo::{Affine, BezPath, Point, Vec2};

use super::{around, placed};
use crate::colour::Rgb;
use crate::scene::brush::{add, circle, oval, polar, radial};
use crate::scene::draft::{Draft, GOLDEN};
use crate::scene::hues::{Hues, PLUM, SEPAL, WHITE};
use crate::scene::outline::{Blade, smooth};
use crate::scene::{Group, Key, Primitive};

/// A waxflower sprig: three open flowers with their cups, buds, needle leaves.
pub(crate) fn waxflower(draft: &mut Draft, hues: &Hues) {
    soft_ground(draft, 0.3);
    let start = draft.chance.angle();
    let places: Vec<Point> = around(3, start).map(|a| polar(a, 0.5 + draft.chance.bell(0.05))).collect();
    let buds: Vec<Point> = around(3, start + 1.05).map(|a| polar(a, 0.78 + draft.chance.bell(0.08))).collect();
    needles(draft, start);
    stems(draft, places.iter().chain(&buds), 0.035);
    for &bud in &buds {
        draft.ball(bud, 0.13, &hues.deeper(0.6), 0.25);
    }
    for &place in &places {
        wax_floret(draft, place, 0.44, hues);
    }
}

fn soft_ground(draft: &mut Draft, strength: f64) {
    let away = draft.lightward() * -0.1;
    draft.shadow(away.to_point(), Vec2::new(0.95, 0.95), 0.0, PLUM, strength);
}

/// Stems from the middle to each place, one stroke for all.
fn stems<'a>(draft: &mut Draft, places: impl Iterator<Item = &'a Point>, width: f64) {
    let mut lines = BezPath::new();
    for &p in places {
        let side = Vec2::new(-p.y, p.x) * draft.chance.bell(0.16);
        add(&mut lines, &smooth(&[Point::ZERO, p.midpoint(Point::ZERO) + side, p], false));
    }
    draft.group.stroke(lines, width, SEPAL.lighter(-0.08).paint(1.0));
}

fn needles(draft: &mut Draft, start: f64) {
    let green = Hues::of_leaf(Rgb::hex(0x5f8a4d));
    for a in around(5, start + 0.5) {
        let bend = draft.chance.bell(0.2);
        let blade = Blade { length: 0.9, half: 0.055, peak: 0.5, blunt: 0.8, bend, ..Blade::PETAL };
        let turn = a + draft.chance.bell(0.25);
        draft.blade(Affine::rotate(turn), &blade, &green, 0, 0.0);
    }
}

/// One waxflower: five round petals about a nectar cup with a ring of stamens.
pub(super) fn wax_floret(draft: &mut Draft, centre: Point, r: f64, hues: &Hues) {
    let away = draft.lightward() * (-0.14 * r);
    draft.shadow(centre + away, Vec2::new(r, r) * 1.1, 0.0, hues.shade, 0.5 * hues.depth);
    let start = draft.chance.angle();
    let mut petals = BezPath::new();
    for a in around(5, start) {
        let frame = Affine::translate(centre.to_vec2()) * Affine::rotate(a + draft.chance.bell(0.08));
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

/// Baby's breath: a cloud of tiny double florets and buds on hair-fine stems.
pub(crate) fn babys_breath(draft: &mut Draft, hues: &Hues) {
    const FLORETS: u32 = 27;
    soft_ground(draft, 0.22);
    let start = draft.chance.angle();
    let mut places: Vec<Point> = Vec::new();
    for i in 0..FLORETS {
        let t = (f64::from(i) + 0.5) / f64::from(FLORETS);
        places.push(polar(
            start + f64::from(i) * GOLDEN + draft.chance.bell(0.25),
            0.86 * t.sqrt() * (1.0 + draft.chance.bell(0.08)),
        ));
    }
    let buds: Vec<Point> = around(7, start + 0.4).map(|a| polar(a, 0.9 + draft.chance.bell(0.1))).collect();
    stems(draft, places.iter().chain(&buds), 0.013);
    let mut beads = BezPath::new();
    for &bud in &buds {
        add(&mut beads, &circle(bud, 0.05));
    }
    draft.group.fill(beads, hues.rim.mixed(SEPAL, 0.15).paint(1.0));
    clouds(draft, &places, hues);
}

/// Double florets at all places: shadows, outer petals, inner petals, hearts: four fills in all.
pub(super) fn clouds(draft: &mut Draft, places: &[Point], hues: &Hues) {
    let mut layers = [BezPath::new(), BezPath::new(), BezPath::new(), BezPath::new()];
    let away = draft.lightward() * -0.035;
    for &place in places {
        let r = draft.chance.between(0.115, 0.175);
        add(&mut layers[0], &circle(place + away, r * 1.02));
        let start = draft.chance.angle();
        for a in around(7, start) {
            let centre = place + polar(a, r * 0.6).to_vec2();
            add(&mut layers[1], &oval(centre, Vec2::new(r * 0.44, r * 0.3), a));
        }
        for a in around(5, start + 0.3) {
            let centre = place + polar(a, r * 0.3).to_vec2();
            add(&mut layers[2], &oval(centre, Vec2::new(r * 0.28, r * 0.19), a));
        }
        add(&mut layers[3], &circle(place, r * 0.12));
    }
    let [under, outer, inner, hearts] = layers;
    draft.group.fill(under, hues.shade.paint(0.24 * hues.depth));
    draft.group.fill(outer.clone(), hues.mid.paint(1.0));
    draft.group.fill(Affine::translate(draft.lightward() * 0.012) * outer, hues.edge.paint(0.75));
    draft.group.fill(Affine::translate(away * 0.4) * inner.clone(), hues.throat.paint(0.5));
    draft.group.fill(inner, hues.edge.lighter(0.03).paint(1.0));
    draft.group.fill(hearts, hues.throat.mixed(SEPAL, 0.4).paint(0.8));
}

/// Statice: papery cups in a comb, a tiny pale flower in each.
pub(crate) fn statice(draft: &mut Draft, hues: &Hues) {
    soft_ground(draft, 0.34);
    let start = draft.chance.angle();
    let mut places: Vec<Point> = Vec::new();
    for i in 0..13_u32 {
        let t = (f64::from(i) + 0.5) / 13.0;
        places.push(polar(start + f64::from(i) * GOLDEN, 0.76 * t.sqrt() * (1.0 + draft.chance.bell(0.06))));
    }
    stems(draft, places.iter(), 0.05);
    for &place in places.iter().rev() {
        let r = draft.chance.between(0.25, 0.31);
        papery_cup(draft, place, r, hues);
    }
}

/// One papery cup: five-sided and pleated.
pub(super) fn papery_cup(draft: &mut Draft, centre: Point, r: f64, hues: &Hues) {
    let turn = draft.chance.angle();
    let away = draft.lightward() * (-0.2 * r);
    draft.shadow(centre + away, Vec2::new(r, r) * 1.15, 0.0, hues.shade, 0.6);
    let (mut rim, mut pleats) = (Vec::new(), BezPath::new());
    for i in 0..20 {
        let a = turn + f64::from(i) / 20.0 * std::f64::consts::TAU;
        let reach =
            r * (1.0 + 0.10 * (f64::from(i) / 20.0 * 5.0 * std::f64::consts::TAU).cos() + draft.chance.bell(0.05));
        rim.push(centre + polar(a, reach).to_vec2());
        if i % 2 == 0 {
            pleats.move_to(centre + polar(a, r * 0.25).to_vec2());
            pleats.line_to(centre + polar(a, r * 0.92).to_vec2());
        }
    }
    let lit = hues.lit(draft.chance.bell(0.03));
    let list = [
        (0.0, lit.throat.lighter(-0.06).solid()),
        (0.4, lit.throat.solid()),
        (0.75, lit.mid.solid()),
        (1.0, lit.edge.solid()),
    ];
    draft.group.fill(smooth(&rim, true), radial(centre, r * 1.08, &list));
    draft.group.stroke(pleats, r * 0.05, lit.edge.paint(0.4));
    let mut floret = BezPath::new();
    for a in around(5, turn + 0.3) {
        add(&mut floret, &oval(centre + polar(a, r * 0.19).to_vec2(), Vec2::new(r * 0.17, r * 0.1), a));
    }
    draft.group.fill(floret, WHITE.mixed(hues.edge, 0.1).paint(0.96));
}

/// Goldenrod: arching plumes, thick with fluff along their upper side, the tip at +x.
pub(crate) fn goldenrod(draft: &mut Draft, hues: &Hues) {
    soft_ground(draft, 0.3);
    let sway = draft.chance.bell(0.06);
    let mut lines = smooth(&[(-1.0, 0.0), (-0.2, sway), (0.6, 0.0)].map(Point::from), false);
    let leaf = Hues::of_leaf(Rgb::hex(0x5f8a4d));
    for (foot, turn) in [(-0.72, 1.0), (-0.6, -0.95), (-0.3, 0.85), (-0.2, -0.8)] {
        let blade = Blade { length: 0.5, half: 0.06, peak: 0.5, blunt: 0.8, bend: 0.2, ..Blade::PETAL };
        draft.blade(placed((foot, 0.0), turn), &blade, &leaf, 1, 0.02);
    }
    let mut plumes = Vec::new();
    for i in 0..11_u32 {
        let t = f64::from(i) / 10.0;
        let side = if i % 2 == 0 { 1.0 } else { -1.0 };
        let foot = Point::new(-0.5 + 0.86 * t, sway * 0.6);
        let (turn, reach) = (side * (1.0 - 0.85 * t), (0.92 - 0.3 * t) * draft.chance.between(0.88, 1.06));
        plumes.push((foot, turn, reach, side * draft.chance.between(0.75, 1.05)));
    }
    for (foot, turn, reach, arch) in plumes {
        let along = |u: f64| foot + polar(turn + arch * u * u * 0.8, reach * u).to_vec2();
        add(&mut lines, &smooth(&[foot, along(0.5), along(1.0)], false));
        let mut heads = Vec::new();
        for j in 0..54_u32 {
            let u = 0.12 + 0.88 * f64::from(j) / 53.0;
            let thick = 0.105 * (u * 3.4).sin().max(0.12) + 0.02;
            let off = thick * ((f64::from(j) * 2.4).sin() * 0.9);
            let place = along(u) + polar(turn + arch * u + 1.57, off).to_vec2();
            heads.push((place, 0.044 - 0.014 * u));
        }
        let tones = hues.lit(draft.chance.bell(0.03));
        fuzz(draft, &heads, &tones);
    }
    let mut all = Group::new(Key::Inner, Affine::IDENTITY);
    all.stroke(lines, 0.022, SEPAL.paint(1.0));
    // The stalks lie under all fluff but over the ground.
    draft.group.items.insert(1, Primitive::Group(all));
}

/// Tiny fluffy heads: shade, body, light; three fills.
pub(crate) fn fuzz(draft: &mut Draft, heads: &[(Point, f64)], hues: &Hues) {
    let mut layers = [BezPath::new(), BezPath::new(), BezPath::new()];
    let up = draft.lightward();
    for &(place, r) in heads {
        let r = r * (1.0 + draft.chance.bell(0.25));
        add(&mut layers[0], &circle(place - up * (r * 0.5), r));
        add(&mut layers[1], &circle(place, r));
        add(&mut layers[2], &circle(place + up * (r * 0.35), r * 0.5));
    }
    let [under, body, glint] = layers;
    draft.group.fill(under, hues.throat.lighter(-0.1).paint(0.75));
    draft.group.fill(body, hues.mid.mixed(hues.rim, 0.5).paint(1.0));
    draft.group.fill(glint, hues.edge.paint(0.85));
}
