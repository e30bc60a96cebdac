//! Round heads and beads: craspedia, berry, brunia, pearl, stone.

use std::f64::consts::{PI, TAU};

use kurbo::{Affine, BezPath, Point, Vec2};

use super::{around, placed, ring};
use crate::colour::Rgb;
use crate::scene::brush::{add, circle, oval, oval_radial, polar, radial};
use crate::scene::draft::Draft;
use crate::scene::hues::{Hues, PLUM, WHITE};
use crate::scene::outline::{Blade, polygon, smooth};

/// A craspedia: a drumstick's ball of tiny florets.
pub(crate) fn craspedia(draft: &mut Draft, hues: &Hues) {
    drumstick(draft, hues, 170);
}

/// The same of so many florets: the younger the fewer and the coarser.
pub(crate) fn drumstick(draft: &mut Draft, hues: &Hues, florets: u32) {
    let coarse = (170.0 / f64::from(florets.max(1))).sqrt();
    draft.cast(1.0, 0.5);
    draft.ball(Point::ZERO, 1.0, &hues.lit(-0.03), 0.0);
    draft.studs(Point::ZERO, 1.0 - 0.07 * coarse, florets, [0.075 * coarse, 0.06 * coarse], hues);
    let shade = [(0.0, PLUM.tint(0.0)), (0.72, PLUM.tint(0.0)), (1.0, PLUM.tint(0.34))];
    let lit = (draft.lightward() * 0.16).to_point();
    draft.group.fill(circle(Point::ZERO, 0.995), radial(lit, 1.16, &shade));
}

/// A hypericum berry on its collar of five sepals, the three nibs at +x.
pub(crate) fn berry(draft: &mut Draft, hues: &Hues) {
    draft.cast(0.95, 0.45);
    let green = Hues::of_leaf(Rgb::hex(0x7c9a55));
    let sepal = Blade { length: 0.92, half: 0.3, peak: 0.5, blunt: 0.75, foot: 0.6, ..Blade::PETAL };
    for turn in [1.25, -1.25, 2.0, -2.0, PI] {
        let foot = (-0.4, 0.0);
        let lit = green.lit(draft.chance.bell(0.02));
        draft.blade(placed(foot, turn), &sepal, &lit, 3, 0.06);
    }
    let (centre, radii) = (Point::new(0.1, 0.0), Vec2::new(0.84, 0.7));
    draft.shadow(centre + draft.lightward() * -0.1, radii * 1.14, 0.0, PLUM, 0.4);
    let nib = Blade { length: 0.26, half: 0.05, blunt: 0.9, ..Blade::PETAL };
    for turn in [-0.5, 0.5, 0.0] {
        draft.blade(placed((0.84, turn * 0.12), turn), &nib, &hues.deeper(0.6), 0, 0.0);
    }
    let up = draft.lightward();
    let list = [
        (0.0, hues.edge.solid()),
        (0.3, hues.rim.solid()),
        (0.66, hues.mid.solid()),
        (0.94, hues.throat.solid()),
        (1.0, hues.throat.lighter(0.03).solid()),
    ];
    draft.group.fill(oval(centre, radii, 0.0), oval_radial(centre + up * 0.3, radii * 1.36, 0.0, &list));
    // Three chambers meet in faint seams.
    for v in [-0.42, 0.34] {
        let seam = [(-0.66, v * 0.5), (0.1, v * 1.15), (0.88, v * 0.16)].map(Point::from);
        draft.group.stroke(smooth(&seam, false), 0.03, hues.throat.lighter(-0.04).paint(0.3));
    }
    let bounce = [(0.0, WHITE.tint(0.0)), (0.78, WHITE.tint(0.0)), (0.92, WHITE.tint(0.2)), (1.0, WHITE.tint(0.0))];
    draft.group.fill(oval(centre, radii, 0.0), oval_radial(centre + up * 0.14, radii * 1.08, 0.0, &bounce));
    gloss(draft, centre + up * 0.34, 0.2);
}

/// A bright spot with a soft rim.
fn gloss(draft: &mut Draft, centre: Point, r: f64) {
    let list = [(0.0, WHITE.tint(0.9)), (0.4, WHITE.tint(0.6)), (1.0, WHITE.tint(0.0))];
    let radii = Vec2::new(r, r * 0.7);
    let turn = draft.light + TAU / 4.0;
    draft.group.fill(oval(centre, radii, turn), oval_radial(centre, radii, turn, &list));
}

/// Brunia: a knot of knobbed silver balls.
pub(crate) fn brunia(draft: &mut Draft, hues: &Hues) {
    draft.cast(1.0, 0.45);
    let start = draft.chance.angle();
    let green = Hues::of_leaf(Rgb::hex(0x6f8a66));
    let needle = Blade { length: 1.02, half: 0.04, peak: 0.5, blunt: 0.8, ..Blade::PETAL };
    ring(draft, around(15, start), needle, &green, 0, 0.0);
    let outer: Vec<Point> = around(6, start).map(|a| polar(a, 0.58)).collect();
    for centre in outer.into_iter().chain([Point::ZERO]) {
        let r = 0.36 * (1.0 + draft.chance.bell(0.1));
        let away = draft.lightward() * -0.06;
        draft.shadow(centre + away, Vec2::new(r, r) * 1.2, 0.0, PLUM, 0.45);
        draft.ball(centre, r, &hues.lit(-0.05), 0.0);
        draft.studs(centre, r * 0.92, 42, [r * 0.12, r * 0.1], hues);
    }
}

/// A pearl.
pub(crate) fn pearl(draft: &mut Draft, hues: &Hues) {
    draft.cast(1.0, 0.5);
    draft.ball(Point::ZERO, 1.0, hues, 0.0);
    let up = draft.lightward();
    let sheen = Rgb::hex(0xf2d5e0);
    let list = [(0.0, sheen.tint(0.0)), (0.66, sheen.tint(0.0)), (0.86, sheen.tint(0.65)), (1.0, sheen.tint(0.0))];
    draft.group.fill(circle(Point::ZERO, 0.98), radial((up * 0.2).to_point(), 1.16, &list));
    gloss(draft, (up * 0.42).to_point(), 0.34);
    gloss(draft, (up * 0.46).to_point(), 0.14);
}

/// A cut stone: table, star and girdle facets, each as bright as it faces the light.
pub(crate) fn stone(draft: &mut Draft, hues: &Hues) {
    draft.cast(1.0, 0.45);
    let facet = TAU / 16.0;
    draft.group.fill(polygon(&around(16, 0.0).map(|a| polar(a, 1.0)).collect::<Vec<_>>()), hues.mid.paint(1.0));
    for i in 0..16 {
        let a = f64::from(i) * facet;
        let (rim, waist) = ([polar(a, 1.0), polar(a + facet, 1.0)], polar(a + facet / 2.0, 0.72));
        bright(draft, &[rim[0], rim[1], waist], hues, f64::from(i % 2) * 0.07);
    }
    for i in 0..8 {
        let a = (f64::from(i) * 2.0 + 0.5) * facet;
        let kite = [polar(a, 0.72), polar(a + facet, 0.98), polar(a + 2.0 * facet, 0.72), polar(a + facet, 0.5)];
        bright(draft, &kite, hues, 0.02);
    }
    for i in 0..8 {
        let a = (f64::from(i) * 2.0 + 1.5) * facet;
        bright(draft, &[polar(a, 0.5), polar(a + facet, 0.72), polar(a + 2.0 * facet, 0.5)], hues, 0.09);
    }
    let table: Vec<Point> = around(8, 1.5 * facet).map(|a| polar(a, 0.5)).collect();
    let up = draft.lightward() * 0.3;
    let list = [(0.0, WHITE.solid()), (0.4, hues.edge.solid()), (1.0, hues.mid.solid())];
    draft.group.fill(polygon(&table), radial(up.to_point(), 0.95, &list));
    sparkle(draft, (up * 1.2).to_point());
}

fn bright(draft: &mut Draft, facet: &[Point], hues: &Hues, by: f64) {
    let middle = facet.iter().fold(Vec2::ZERO, |sum, p| sum + p.to_vec2()) / facet.len().max(1) as f64;
    let facing = (middle.atan2() - draft.light).cos();
    let glint = (middle.atan2() * 3.0 + 0.7).sin();
    let tone = hues
        .mid
        .mixed(if facing + 0.6 * glint > 0.0 { hues.edge } else { hues.throat }, (0.55 * facing + 0.4 * glint).abs());
    draft.group.fill(polygon(facet), tone.lighter(by).paint(0.96));
}

/// A four-pointed glint.
fn sparkle(draft: &mut Draft, at: Point) {
    let mut star = BezPath::new();
    for turn in [0.0, TAU / 4.0] {
        let thin = [Point::new(-0.26, 0.0), Point::new(0.0, 0.025), Point::new(0.26, 0.0), Point::new(0.0, -0.025)];
        add(&mut star, &(Affine::translate(at.to_vec2()) * Affine::rotate(turn) * polygon(&thin)));
    }
    draft.group.fill(star, WHITE.paint(0.95));
}
