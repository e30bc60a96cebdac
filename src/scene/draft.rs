//! The drawing board: one bloom, leaf or loop in the making, with its light, and the ways to paint petals on it.
//!
//! Drafts are about two units across and are brought to size at the end. What was found to matter, in order: overlap from
//! the outside in, a gradient from throat to rim, one soft shadow under each petal, a rolled rim, light from one side.

use std::f64::consts::PI;

use kurbo::{Affine, BezPath, Point, Vec2};

use super::brush::{add, circle, linear, oval, oval_place, oval_radial, polar, radial, stops};
use super::chance::Chance;
use super::hues::{Hues, WHITE};
use super::outline::{Blade, Fan, between, smooth};
use super::{Group, Key, Paint};
use crate::colour::Rgb;

/// Where light comes from in piece space, radians: from above and from the left on paper.
pub(crate) const LIGHT: f64 = -0.68;

/// The angle of the golden section, radians: how seeds and florets follow each other.
pub(crate) const GOLDEN: f64 = 2.399_963_229_728_653;

/// Something in the making.
#[derive(Debug)]
pub(crate) struct Draft {
    /// What is drawn so far.
    pub(crate) group: Group,
    /// Its irregularity.
    pub(crate) chance: Chance,
    /// Where light comes from in its own frame, radians.
    pub(crate) light: f64,
}

/// How a fan petal sits.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Sits {
    /// Direction of its axis.
    pub(crate) turn: f64,
    /// Up to where the next ring hides it.
    pub(crate) hidden: f64,
    /// How thick its rim rolls.
    pub(crate) roll: f64,
    /// How high it floats over what is below.
    pub(crate) lift: f64,
}

impl Draft {
    /// An empty board for this seed; `light` as in [`LIGHT`].
    pub(crate) fn new(seed: u64, light: f64) -> Self {
        Self { group: Group::new(Key::Inner, Affine::IDENTITY), chance: Chance::seeded(seed), light }
    }

    /// Toward the light.
    pub(crate) fn lightward(&self) -> Vec2 {
        Vec2::from_angle(self.light)
    }

    /// A filled path, placed by `frame` together with its paint.
    pub(crate) fn fill(&mut self, frame: Affine, path: BezPath, paint: Paint) {
        let path = if frame == Affine::IDENTITY { path } else { frame * path };
        self.group.fill(path, paint.moved(frame));
    }

    /// A stroked path, placed by `frame` together with its paint.
    pub(crate) fn stroke(&mut self, frame: Affine, path: BezPath, width: f64, paint: Paint) {
        self.group.stroke(frame * path, width, paint.moved(frame));
    }

    /// A soft shadow that fades to nothing at its rim.
    pub(crate) fn shadow(&mut self, centre: Point, radii: Vec2, turn: f64, shade: Rgb, strength: f64) {
        let s = strength;
        let list = [(0.0, s), (0.45, s * 0.88), (0.66, s * 0.56), (0.82, s * 0.23), (0.92, s * 0.06), (1.0, 0.0)];
        let list = list.map(|(at, alpha)| (at, shade.tint(alpha)));
        self.group.fill(oval(centre, radii, turn), oval_radial(centre, radii, turn, &list));
    }

    /// The shadow that a round thing of radius `r` casts on what it sits on.
    pub(crate) fn cast(&mut self, r: f64, strength: f64) {
        let away = self.lightward() * (-0.16 * r);
        self.shadow(away.to_point(), Vec2::new(r, r) * 1.2, 0.0, super::hues::PLUM, strength);
    }

    /// One petal about the origin.
    pub(crate) fn fan(&mut self, fan: &Fan, sits: Sits, hues: &Hues) {
        let frame = Affine::rotate(sits.turn);
        let rim = fan.rim(&mut self.chance);
        let path = fan.closed(&rim);
        let facing = (sits.turn - self.light).cos();
        let lit = hues.lit(-0.026 * facing + self.chance.bell(0.016));
        self.fan_shadow(fan, sits, hues);
        let k = (sits.hidden / fan.to).clamp(0.05, 0.9);
        let at = |t: f64| k + (1.0 - k) * t;
        let body = [
            (0.0, lit.throat.solid()),
            (k * 0.8, lit.throat.solid()),
            (at(0.32), lit.mid.solid()),
            (at(0.78), lit.rim.solid()),
            (1.0, lit.edge.solid()),
        ];
        self.fill(frame, path.clone(), radial(Point::ZERO, fan.to, &body));
        if fan.ripples < 5.0 {
            self.fill(frame, path, self.side_shade(fan, sits, hues));
        }
        if sits.roll > 0.0 {
            self.rolled_rim(frame, &rim, fan.to, sits.roll, &lit, facing);
        }
    }

    /// The soft shadow of a fan petal on the ring below.
    pub(crate) fn fan_shadow(&mut self, fan: &Fan, sits: Sits, hues: &Hues) {
        if sits.lift <= 0.0 {
            return;
        }
        let off = Vec2::from_angle(self.light + PI) * (sits.lift * 0.32);
        let mid = fan.to * 0.52;
        let radii =
            Vec2::new(fan.to - mid + sits.lift * 1.2, fan.to * fan.half.min(1.45).sin() * 0.86 + sits.lift * 1.2);
        let solid = (1.0 - 2.2 * sits.lift / radii.x.min(radii.y)).clamp(0.2, 0.9);
        let s = 0.34 * hues.depth;
        let at = |t: f64| solid + (1.0 - solid) * t;
        let list = [(0.0, s), (solid, s), (at(0.45), s * 0.58), (at(0.75), s * 0.18), (1.0, 0.0)];
        let list = list.map(|(at, alpha)| (at, hues.shade.tint(alpha)));
        let centre = polar(sits.turn, mid) + off;
        self.group.fill(oval(centre, radii, sits.turn), oval_radial(centre, radii, sits.turn, &list));
    }

    /// A cupped petal falls away at its sides, more on the one away from the light.
    fn side_shade(&self, fan: &Fan, sits: Sits, hues: &Hues) -> Paint {
        let wide = fan.to * fan.half.min(1.5).sin();
        let (one, other) = if (sits.turn - self.light).sin() > 0.0 { (0.05, 0.26) } else { (0.26, 0.05) };
        let shade = hues.throat.lighter(-0.15);
        let list = [(0.0, one), (0.3, 0.0), (0.68, 0.0), (1.0, other)];
        let list = list.map(|(at, alpha)| (at, shade.tint(alpha * hues.depth)));
        linear((fan.to * 0.6, -wide), (fan.to * 0.6, wide), &list)
    }

    /// The rim of a petal rolls outward: a crescent, thickest in the middle, catching light.
    fn rolled_rim(&mut self, frame: Affine, rim: &[Point], reach: f64, roll: f64, lit: &Hues, facing: f64) {
        let n = rim.len();
        let outer = &rim[n / 9..n - n / 9];
        let last = outer.len() as f64 - 1.0;
        let (wave, lean) = (self.chance.angle(), self.chance.bell(0.35));
        let inner: Vec<Point> = outer
            .iter()
            .enumerate()
            .map(|(i, p)| {
                let a = i as f64 / last * 2.0 - 1.0;
                let thick = (1.0 - a * a).max(0.0).powf(0.8) * (1.0 + lean * a + 0.22 * (a * 3.0 + wave).sin());
                (p.to_vec2() * (1.0 - roll * thick / p.to_vec2().hypot().max(1e-9))).to_point()
            })
            .collect();
        let glow = lit.edge.lighter(0.045 + 0.02 * facing);
        let start = (reach - roll * 1.15) / reach;
        let list = [
            (0.0, glow.tint(0.0)),
            (start, glow.tint(0.24)),
            (start + (1.0 - start) * 0.6, glow.tint(0.72)),
            (1.0, lit.rim.tint(0.75)),
        ];
        self.fill(frame, between(outer, &inner), radial(Point::ZERO, reach * 1.02, &list));
    }

    /// One long petal from `frame`'s origin along its +x, with `veins` fine lines.
    pub(crate) fn blade(&mut self, frame: Affine, blade: &Blade, hues: &Hues, veins: u32, lift: f64) {
        let (left, right) = (blade.side(-1.0, &mut self.chance), blade.side(1.0, &mut self.chance));
        let path = Blade::closed(&left, &right);
        let turn = turn_of(frame);
        let toward = turn - self.light;
        let lit = hues.lit(0.018 * toward.cos() + self.chance.bell(0.014));
        self.blade_shadow(frame, blade, hues, lift);
        let body = [
            (0.0, lit.throat.solid()),
            (0.22, lit.throat.mixed(lit.mid, 0.6).solid()),
            (0.5, lit.mid.solid()),
            (0.8, lit.rim.solid()),
            (1.0, lit.edge.solid()),
        ];
        let reach = Vec2::new(blade.length * 1.02, blade.half * 2.4);
        self.fill(frame, path.clone(), oval_radial(Point::ZERO, reach, 0.0, &body));
        let shade = hues.throat.lighter(-0.16);
        let (one, other) = if toward.sin() > 0.0 { (0.0, 0.22) } else { (0.22, 0.0) };
        let across = [(0.0, one), (0.42, 0.02), (0.5, 0.10), (0.58, 0.02), (1.0, other)];
        let across = across.map(|(at, alpha)| (at, shade.tint(alpha * hues.depth)));
        self.fill(frame, path, linear((0.0, -blade.half), (0.0, blade.half), &across));
        if veins > 0 {
            let mut lines = BezPath::new();
            for i in 0..veins {
                let v = (f64::from(i) + 0.5) / f64::from(veins) * 2.0 - 1.0;
                add(&mut lines, &blade.line(v * 0.85, 0.06, 0.86 - 0.22 * v.abs()));
            }
            self.stroke(frame, lines, blade.half * 0.03, shade.paint(0.16 * hues.depth));
        }
        self.lit_edge(frame, &left, &right, blade.half * 0.07, &lit);
    }

    /// A thin bright line along the side of a long petal that faces the light.
    fn lit_edge(&mut self, frame: Affine, left: &[Point], right: &[Point], thick: f64, lit: &Hues) {
        let side = if (turn_of(frame) - self.light).sin() > 0.0 { left } else { right };
        let outer = &side[side.len() / 4..side.len()];
        let away = if side == left { thick } else { -thick };
        let last = outer.len() as f64 - 1.0;
        let inner: Vec<Point> =
            outer.iter().enumerate().map(|(i, p)| *p + Vec2::new(0.0, away * (i as f64 / last * PI).sin())).collect();
        self.fill(frame, between(outer, &inner), lit.edge.lighter(0.06).paint(0.6));
    }

    fn blade_shadow(&mut self, frame: Affine, blade: &Blade, hues: &Hues, lift: f64) {
        if lift <= 0.0 {
            return;
        }
        let off = Vec2::from_angle(self.light + PI - turn_of(frame)) * (lift * 0.35);
        let centre = Point::new(blade.length * 0.52, blade.bend * blade.length * 0.27) + off;
        let radii = Vec2::new(blade.length * 0.56 + lift * 0.6, blade.half * 1.08 + lift);
        let s = 0.34 * hues.depth;
        let list = [(0.0, s), (0.6, s * 0.88), (0.84, s * 0.36), (1.0, 0.0)];
        let list = list.map(|(at, alpha)| (at, hues.shade.tint(alpha)));
        let place = oval_place(centre, radii, 0.0);
        self.fill(frame, oval(centre, radii, 0.0), Paint::Radial { place, stops: stops(&list) });
    }

    /// A dome lit from the light's side; `gloss` adds a spot of light.
    pub(crate) fn ball(&mut self, centre: Point, r: f64, hues: &Hues, gloss: f64) {
        let lift = self.lightward() * (r * 0.36);
        let list =
            [(0.0, hues.edge.solid()), (0.35, hues.rim.solid()), (0.7, hues.mid.solid()), (1.0, hues.throat.solid())];
        self.group.fill(circle(centre, r), radial(centre + lift, r * 1.38, &list));
        if gloss > 0.0 {
            let spot = centre + lift * 1.15;
            let list = [(0.0, WHITE.tint(gloss)), (0.35, WHITE.tint(gloss * 0.7)), (1.0, WHITE.tint(0.0))];
            self.group.fill(circle(spot, r * 0.34), radial(spot, r * 0.34, &list));
        }
    }

    /// Many small round things in the order of a sunflower's seeds, domed as one: three fills however many there are.
    pub(crate) fn studs(&mut self, centre: Point, r: f64, count: u32, stud: [f64; 2], hues: &Hues) {
        let mut layers = [BezPath::new(), BezPath::new(), BezPath::new()];
        let (up, start) = (self.lightward(), self.chance.angle());
        for i in (0..count).rev() {
            let t = (f64::from(i) + 0.5) / f64::from(count);
            let p = centre + polar(start + f64::from(i) * GOLDEN, r * t.sqrt()).to_vec2();
            let b = stud[0] + (stud[1] - stud[0]) * t;
            add(&mut layers[0], &circle(p - up * (b * 0.45), b));
            add(&mut layers[1], &circle(p, b * 0.92));
            add(&mut layers[2], &circle(p + up * (b * 0.36), b * 0.45));
        }
        let lift = centre + up * (r * 0.42);
        let dome = |by: f64, alpha: f64| {
            let list = [
                (0.0, hues.rim.lighter(by).tint(alpha)),
                (0.55, hues.mid.lighter(by).tint(alpha)),
                (1.0, hues.throat.lighter(by).tint(alpha)),
            ];
            radial(lift, r * 1.55, &list)
        };
        let [under, body, glint] = layers;
        self.group.fill(under, dome(-0.2, 0.6));
        self.group.fill(body, dome(0.0, 0.96));
        self.group.fill(glint, dome(0.1, 0.8));
    }

    /// A ring of stamens: threads and the heads on them, two items for all.
    pub(crate) fn stamens(&mut self, ring: [f64; 2], count: u32, head: f64, thread: Rgb, tip: Rgb) {
        let (mut threads, mut heads) = (BezPath::new(), BezPath::new());
        let start = self.chance.angle();
        for i in 0..count {
            let a = start + f64::from(i) * std::f64::consts::TAU / f64::from(count) + self.chance.bell(0.12);
            let r = ring[1] * (1.0 + self.chance.bell(0.12));
            let middle = polar(a + self.chance.bell(0.15), f64::midpoint(ring[0], r));
            add(&mut threads, &smooth(&[polar(a, ring[0]), middle, polar(a, r)], false));
            add(&mut heads, &oval(polar(a, r), Vec2::new(head, head * 0.7), a + 1.2));
        }
        self.group.stroke(threads, head * 0.4, thread.paint(0.9));
        self.group.fill(heads.clone(), tip.lighter(-0.12).paint(1.0));
        let up = self.lightward() * (head * 0.22);
        self.group.fill(Affine::translate(up) * heads, tip.lighter(0.05).paint(0.85));
    }
}

/// How far a placement turns, radians.
pub(crate) fn turn_of(frame: Affine) -> f64 {
    let [a, b, ..] = frame.as_coeffs();
    b.atan2(a)
}
