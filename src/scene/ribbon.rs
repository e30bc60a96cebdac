//! The bow: loops, tails and the small loop over the knot, in satin, organza or velvet.

use std::f64::consts::PI;

use kurbo::{Affine, BezPath, Point, Vec2};

use super::brush::{add, linear, oval, radial};
use super::chance::seed_of;
use super::draft::{Draft, LIGHT};
use super::hues::{PLUM, WHITE};
use super::outline::{between, polygon, smooth};
use super::{Group, Item, Key, Paint};
use crate::colour::Rgb;
use crate::piece::Bow;
use crate::stock::{Stock, Weave};

/// A ribbon without its stock line is drawn as satin in this colour.
pub(super) const UNKNOWN_RIBBON: Rgb = Rgb::hex(0xe9d9d2);
/// Loops and tails beyond this many would only hide each other.
const MOST: u32 = 24;
/// The longest loop or tail that is drawn, mm.
const LONGEST_MM: f64 = 400.0;
/// Width of a tail over the width of a loop, which stands open; our choice.
const TAIL_SHARE: f64 = 0.62;

/// What a ribbon is made of, and the tints it takes.
#[derive(Clone, Copy)]
pub(crate) struct Cloth {
    colour: Rgb,
    weave: Weave,
}

impl Cloth {
    /// The cloth of this colour and weave.
    pub(crate) fn new(colour: Rgb, weave: Weave) -> Self {
        Self { colour, weave }
    }

    fn cover(self) -> f64 {
        match self.weave {
            Weave::Satin | Weave::Velvet => 1.0,
            Weave::Organza => 0.52,
        }
    }

    /// How far light and shade go on it.
    fn swing(self) -> f64 {
        match self.weave {
            Weave::Satin => 1.0,
            Weave::Organza => 0.6,
            Weave::Velvet => 0.42,
        }
    }

    /// Stops along the ribbon; `list` says how much lighter each place is on satin.
    pub(crate) fn along(self, list: &[(f64, f64)]) -> Vec<(f64, super::Tint)> {
        list.iter().map(|&(at, by)| (at, self.shone(by * self.swing()).tint(self.cover()))).collect()
    }

    /// Darker keeps its chroma, lighter goes toward white light: pale cloth must not turn yellow where it shines.
    fn shone(self, by: f64) -> Rgb {
        if by > 0.0 { self.colour.mixed(WHITE, by * 2.4) } else { self.colour.lighter(by) }
    }

    pub(super) fn tone(self, by: f64, alpha: f64) -> Paint {
        self.shone(by).paint(alpha)
    }
}

/// The whole bow, or nothing.
pub(crate) fn bow(bow: &Bow, stock: &Stock) -> Group {
    let ribbon = stock.ribbon(&bow.ribbon);
    let colour = ribbon.and_then(|r| r.colour(&bow.colour)).map_or(UNKNOWN_RIBBON, |c| c.rgb);
    let cloth = Cloth::new(colour, ribbon.map_or(Weave::Satin, |r| r.weave));
    let mut group = Group::new(Key::Bow, Affine::IDENTITY);
    let (Some(long), Some(wide)) = (sane(bow.loop_length_mm), sane(bow.loop_width_mm)) else { return group };
    let seed = seed_of(bow.ribbon.as_str(), bow.loops_a_side);
    for (turn, i) in tail_turns(bow.tails.min(MOST)).zip(0_u32..) {
        if let Some(length) = sane(bow.tail_length_mm) {
            let length = length * if i % 2 == 0 { 1.0 } else { 0.93 };
            let mut draft = Draft::new(seed ^ u64::from(i + 1000), LIGHT - turn);
            tail(&mut draft, length, wide * TAIL_SHARE, cloth);
            group.items.push(turned(draft, turn));
        }
    }
    for (turn, i) in bow.loop_turns(bow.loops_a_side.min(MOST)).into_iter().zip(0_u32..) {
        let mut draft = Draft::new(seed ^ u64::from(i), LIGHT - turn);
        let length = long * (1.0 + draft.chance.about(0.03));
        one_loop(&mut draft, length, wide, cloth);
        group.items.push(turned(draft, turn));
    }
    if bow.centre_loop {
        let mut draft = Draft::new(seed ^ 0x4d, LIGHT);
        knot(&mut draft, wide, cloth);
        group.items.push(Item::Group(draft.group));
    }
    group
}

fn sane(mm: f64) -> Option<f64> {
    (mm.is_finite() && mm > 0.0).then_some(mm.min(LONGEST_MM))
}

fn turned(mut draft: Draft, turn: f64) -> Item {
    draft.group.transform = Affine::rotate(turn);
    Item::Group(draft.group)
}

/// Tails hang toward the hand, -x, spread a little.
fn tail_turns(count: u32) -> impl Iterator<Item = f64> {
    let last = f64::from(count.max(2) - 1);
    (0..count).map(move |i| {
        let t = if count == 1 { 0.12 } else { f64::from(i) / last * 2.0 - 1.0 };
        PI + t * 0.42
    })
}

/// One standing loop along +x: its inside first, then its outer face, which leaves a crescent of the inside open.
fn one_loop(draft: &mut Draft, long: f64, wide: f64, cloth: Cloth) {
    let h = wide / 2.0;
    let lean = draft.chance.about(0.10);
    let away = draft.lightward() * (-0.16 * wide);
    draft.shadow(Point::new(long * 0.6, 0.0) + away, Vec2::new(long * 0.5, h * 1.3), 0.0, PLUM, 0.42 * cloth.cover());
    let open = if draft.light.sin() < 0.0 { 1.0 } else { -1.0 };
    let p = |u: f64, v: f64| Point::new(u * long, v * h * open);
    let shut =
        [p(0.0, -0.2), p(0.26, -0.6), p(0.58, -0.99 + lean), p(0.86, -0.9 + lean), p(0.985, -0.42), p(1.0, -0.1)];
    let far = [p(0.0, 0.2), p(0.25, 0.5), p(0.56, 0.9), p(0.84, 0.96), p(0.975, 0.5), p(1.0, -0.1)];
    let near = [p(0.0, 0.1), p(0.3, 0.26), p(0.58, 0.38), p(0.8, 0.34), p(0.94, 0.14), p(1.0, -0.1)];
    let inside = cloth.along(&[(0.0, -0.28), (0.5, -0.2), (0.85, -0.1), (1.0, -0.16)]);
    draft.group.fill(between(&shut, &far), linear((0.0, 0.0), (long, 0.0), &inside));
    let face = between(&shut, &near);
    let sheen = [(0.0, -0.2), (0.14, -0.09), (0.3, 0.02), (0.43, 0.10), (0.53, 0.03), (0.64, -0.03), (0.76, 0.06)];
    let sheen = [&sheen[..], &[(0.84, 0.12), (0.92, 0.02), (1.0, -0.09)]].concat();
    draft.group.fill(face.clone(), linear((0.0, 0.0), (long, long * 0.08 * open), &cloth.along(&sheen)));
    across(draft, face, [p(0.5, -1.0), p(0.5, 0.4)], cloth);
    gathers(draft, long, h, cloth);
    edges(draft, &[&shut, &near, &far], wide, cloth);
}

/// Roundness across a ribbon: light on one side, shade on the other. Velvet is the other way round: lightest at its rims.
fn across(draft: &mut Draft, path: BezPath, line: [Point; 2], cloth: Cloth) {
    let shade = cloth.colour.lighter(-0.3);
    let list = match cloth.weave {
        Weave::Satin => {
            [(0.0, WHITE.tint(0.2)), (0.35, WHITE.tint(0.0)), (0.55, shade.tint(0.0)), (1.0, shade.tint(0.34))]
        }
        Weave::Organza => {
            [(0.0, WHITE.tint(0.3)), (0.4, WHITE.tint(0.05)), (0.6, WHITE.tint(0.02)), (1.0, WHITE.tint(0.2))]
        }
        Weave::Velvet => {
            let glow = cloth.colour.lighter(0.16);
            [(0.0, glow.tint(0.75)), (0.16, glow.tint(0.05)), (0.75, shade.tint(0.25)), (1.0, glow.tint(0.45))]
        }
    };
    draft.group.fill(path, linear(line[0], line[1], &list));
}

/// Folds that run out from the knot, all of them one fill.
fn gathers(draft: &mut Draft, long: f64, h: f64, cloth: Cloth) {
    let mut folds = BezPath::new();
    for i in 0..4 {
        let v = (f64::from(i) - 1.8) / 2.1;
        let reach = long * draft.chance.between(0.32, 0.5);
        let line =
            [Point::new(0.0, v * h * 0.18), Point::new(long * 0.16, v * h * 0.42), Point::new(reach, v * h * 0.66)];
        let back = [Point::new(0.0, v * h * 0.18 + h * 0.05), Point::new(long * 0.16, v * h * 0.42 + h * 0.1), line[2]];
        add(&mut folds, &between(&line, &back));
    }
    let dark = cloth.colour.lighter(-0.24);
    let list = [(0.0, dark.tint(0.6 * cloth.cover())), (1.0, dark.tint(0.0))];
    draft.group.fill(folds, linear((0.0, 0.0), (long * 0.48, 0.0), &list));
}

fn edges(draft: &mut Draft, lines: &[&[Point]], wide: f64, cloth: Cloth) {
    let mut path = BezPath::new();
    for line in lines {
        add(&mut path, &smooth(line, false));
    }
    let (by, alpha) = match cloth.weave {
        Weave::Satin => (0.14, 0.7),
        Weave::Organza => (0.06, 0.75),
        Weave::Velvet => (0.1, 0.35),
    };
    draft.group.stroke(path, (wide * 0.014).max(0.08), cloth.tone(by, alpha));
}

/// A tail along +x with a cut end, in a slow wave.
fn tail(draft: &mut Draft, long: f64, wide: f64, cloth: Cloth) {
    let h = wide / 2.0;
    let sway = draft.chance.between(0.04, 0.09) * if draft.chance.share() < 0.5 { 1.0 } else { -1.0 };
    let at = |u: f64, v: f64| {
        let width = h * (0.35 + 0.65 * super::hues::ease(0.0, 0.35, u));
        Point::new(u * long, v * width + sway * long * (u * 5.0).sin() * u)
    };
    let away = draft.lightward() * (-0.14 * wide);
    draft.shadow(at(0.6, 0.0) + away, Vec2::new(long * 0.5, h * 1.35), sway, PLUM, 0.34 * cloth.cover());
    let side = |v: f64| -> Vec<Point> { (0..=8).map(|i| at(f64::from(i) / 8.0, v)).collect() };
    let (mut one, mut other) = (smooth(&side(-1.0), false), side(1.0));
    one.line_to(at(1.0 - (0.55 * wide / long).min(0.3), 0.0));
    other.reverse();
    let back = smooth(&other, false);
    one.line_to(at(1.0, 1.0));
    one.extend(back.elements().iter().skip(1).copied());
    one.close_path();
    let list =
        cloth.along(&[(0.0, -0.16), (0.25, -0.02), (0.42, 0.08), (0.55, 0.0), (0.7, -0.06), (0.86, 0.07), (1.0, 0.0)]);
    draft.group.fill(one.clone(), linear((0.0, 0.0), (long, 0.0), &list));
    across(draft, one, [at(0.5, -1.0), at(0.5, 1.0)], cloth);
    let (left, right) = (side(-1.0), side(1.0));
    edges(draft, &[&left, &right], wide, cloth);
}

/// The small loop over the knot.
fn knot(draft: &mut Draft, wide: f64, cloth: Cloth) {
    let r = wide * 0.42;
    let away = draft.lightward() * (-0.2 * r);
    draft.shadow(away.to_point(), Vec2::new(r * 1.1, r * 1.1), 0.0, PLUM, 0.4);
    let outline = oval(Point::ZERO, Vec2::new(r, r * 0.72), 0.0);
    let lit = (draft.lightward() * (r * 0.4)).to_point();
    let list = cloth.along(&[(0.0, 0.12), (0.5, 0.02), (1.0, -0.16)]);
    draft.group.fill(outline, radial(lit, r * 1.4, &list));
    let groove =
        polygon(&[Point::new(-r * 0.9, -r * 0.06), Point::new(r * 0.9, -r * 0.12), Point::new(r * 0.9, r * 0.04)]);
    draft.fill(Affine::rotate(0.1), groove, cloth.tone(-0.2, 0.35));
}
