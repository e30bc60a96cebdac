//! The bow: loops, tails and the small loop over the knot, in satin, organza or velvet.

use std::f64::consts::PI;

use kurbo::{Affine, BezPath, Point, Vec2};

use super::brush::{add, linear, oval};
use super::chance::seed_of;
use super::draft::{Draft, LIGHT};
use super::hues::{PLUM, WHITE, ease};
use super::outline::{between, smooth};
use super::{Group, Key, Paint, Primitive};
use crate::colour::Rgb;
use crate::piece::Bow;
use crate::stock::{Stock, Weave};

/// A ribbon without its stock line is drawn as satin in this colour.
pub(super) const UNKNOWN_RIBBON: Rgb = Rgb::hex(0xe9d9d2);
/// The colour of shade on white cloth.
const CREAM: Rgb = Rgb::hex(0xd9c6b0);
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
            Weave::Satin | Weave::Velvet | Weave::Grosgrain => 1.0,
            Weave::Organza => 0.52,
            Weave::Lace => 0.66,
        }
    }

    /// How far light and shade go on it.
    fn swing(self) -> f64 {
        match self.weave {
            Weave::Satin => 1.0,
            Weave::Organza | Weave::Lace => 0.6,
            Weave::Velvet => 0.26,
            Weave::Grosgrain => 0.45,
        }
    }

    /// Stops along the ribbon; `list` says how much lighter each place is on satin.
    pub(crate) fn along(self, list: &[(f64, f64)]) -> Vec<(f64, super::Tint)> {
        list.iter().map(|&(at, by)| (at, self.shone(by * self.swing()).tint(self.cover()))).collect()
    }

    /// Darker keeps its chroma, and on white it goes toward warm cream instead of grey; lighter goes toward white light: pale
    /// cloth must not turn yellow where it shines.
    fn shone(self, by: f64) -> Rgb {
        if by > 0.0 {
            return self.colour.mixed(WHITE, by * 2.4);
        }
        let light = self.colour.oklab()[0];
        let white = ease(0.88, 0.97, light);
        // Dark cloth has little left to fall to: less, so that it never closes up to black.
        let by = by * (0.4 + 0.6 * ease(0.1, 0.6, light));
        self.colour.lighter(by * (1.0 - 0.25 * white)).mixed(CREAM, (white * by * -1.7).min(0.5))
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
            tail(&mut draft, length, wide * TAIL_SHARE, (turn - PI).signum(), cloth);
            group.items.push(turned(draft, turn));
        }
    }
    for (turn, i) in bow.loop_turns(bow.loops_a_side.min(MOST)).into_iter().zip(0_u32..) {
        let mut draft = Draft::new(seed ^ u64::from(i), LIGHT - turn);
        let length = long * (1.0 + draft.chance.bell(0.03));
        one_loop(&mut draft, length, wide, cloth);
        group.items.push(turned(draft, turn));
    }
    if bow.loops_a_side > 0 {
        let mut draft = Draft::new(seed ^ 0x4d, LIGHT);
        tie(&mut draft, wide, cloth);
        if bow.centre_loop {
            centre_loop(&mut draft, wide, cloth);
        }
        group.items.push(Primitive::Group(draft.group));
    }
    group
}

fn sane(mm: f64) -> Option<f64> {
    (mm.is_finite() && mm > 0.0).then_some(mm.min(LONGEST_MM))
}

fn turned(mut draft: Draft, turn: f64) -> Primitive {
    draft.group.transform = Affine::rotate(turn);
    Primitive::Group(draft.group)
}

/// Tails hang toward the hand, -x, spread a little.
fn tail_turns(count: u32) -> impl Iterator<Item = f64> {
    let last = f64::from(count.max(2) - 1);
    (0..count).map(move |i| {
        let t = if count == 1 { 0.12 } else { f64::from(i) / last * 2.0 - 1.0 };
        PI + t * 0.42
    })
}

/// A loop of ribbon seen from above and a little from one side: the inside of its lower half shows beyond the upper one.
///
/// Both halves are one strip. Its middle line runs out from the knot on the ground, turns over in the fold and comes back
/// above; what stands high is seen shifted to one side, so the two halves part like an almond and meet at knot and fold.
struct Loop {
    /// Where it begins, and where its fold is.
    ends: [f64; 2],
    /// Half the width of the ribbon.
    half: f64,
    /// How narrow it is drawn together at its beginning, as a share.
    pinch: f64,
    /// How far its halves part.
    parts: f64,
    /// On which side the inside shows, -1 or 1.
    open: f64,
    /// Whether it turns over at its beginning too, as the small loop over the knot does.
    round: bool,
}

impl Loop {
    const STEPS: u32 = 14;

    /// The point at `u` of its length, 0 to 1, and at `v` of its half width; `over` is 1 on the upper half, -1 below.
    fn at(&self, u: f64, v: f64, over: f64) -> Point {
        let [from, to] = self.ends;
        let high = if self.round {
            (1.0 - (u * 2.0 - 1.0).powi(2)).max(0.0).sqrt()
        } else {
            1.22 * u.powf(0.95) * (1.0 - u.powi(5)).max(0.0).sqrt()
        };
        let drawn = if self.round { 1.0 } else { self.pinch + (1.0 - self.pinch) * ease(0.0, 0.5, u) };
        let wide = self.half * drawn * (1.0 - 0.14 * ease(0.6, 1.0, u)) * if over > 0.0 { 1.04 } else { 1.0 };
        let belly = 0.24 * self.half * v * v * ease(0.55, 1.0, u);
        let along = from + (to - from) * u - belly * (to - from).signum();
        Point::new(along, v * wide - over * self.open * self.parts * 0.5 * high)
    }

    /// One side of one half, from the knot to the fold; denser where it turns over.
    fn side(&self, v: f64, over: f64) -> Vec<Point> {
        let share = |i: u32| (f64::from(i) / f64::from(Self::STEPS) * std::f64::consts::FRAC_PI_2).sin();
        let both = |i: u32| (1.0 - (f64::from(i) / f64::from(Self::STEPS) * PI).cos()) / 2.0;
        (0..=Self::STEPS).map(|i| self.at(if self.round { both(i) } else { share(i) }, v, over)).collect()
    }

    /// One half, its end at the fold bent outward as soft ribbon is.
    fn half_path(&self, over: f64) -> BezPath {
        let fold: Vec<Point> = [-1.0, -0.5, 0.0, 0.5, 1.0].map(|v| self.at(1.0, v, over)).to_vec();
        let back: Vec<Point> = self.side(1.0, over).into_iter().rev().collect();
        let mut path = smooth(&self.side(-1.0, over), false);
        for line in [fold, back] {
            path.extend(smooth(&line, false).elements().iter().skip(1).copied());
        }
        path.close_path();
        path
    }

    /// What is seen of the inside.
    fn almond(&self) -> BezPath {
        between(&self.side(self.open, -1.0), &self.side(self.open, 1.0))
    }
}

/// One standing loop along +x.
fn one_loop(draft: &mut Draft, long: f64, wide: f64, cloth: Cloth) {
    let h = wide / 2.0;
    let away = draft.lightward() * (-0.13 * wide);
    draft.shadow(Point::new(long * 0.58, 0.0) + away, Vec2::new(long * 0.5, h * 1.22), 0.0, PLUM, 0.4 * cloth.cover());
    let open = if draft.light.sin() < 0.0 { 1.0 } else { -1.0 };
    let parts = wide * (0.27 + draft.chance.bell(0.05));
    let shape = Loop { ends: [0.0, long], half: h * 0.8, pinch: 0.3, parts, open, round: false };
    inside(draft, &shape, cloth);
    let face = shape.half_path(1.0);
    let sheen = [(0.0, -0.27), (0.1, -0.14), (0.24, 0.0), (0.38, 0.11), (0.5, 0.03), (0.64, -0.05)];
    let sheen = [&sheen[..], &[(0.76, 0.02), (0.87, 0.15), (0.94, 0.03), (1.0, -0.15)]].concat();
    let lean = long * 0.10 * open;
    draft.group.fill(face.clone(), linear((0.0, lean * 0.4), (long, -lean), &cloth.along(&sheen)));
    across(draft, face, [shape.at(0.6, -open, 1.0), shape.at(0.6, open, 1.0)], cloth);
    gathers(draft, &shape, cloth);
    woven(draft, &shape, cloth);
    edges(draft, &[&shape.side(-1.0, 1.0), &shape.side(1.0, 1.0), &shape.side(open, -1.0)], wide, cloth);
}

/// The lower half of a loop, whose inner face is seen: dark toward the knot and under the upper half.
fn inside(draft: &mut Draft, shape: &Loop, cloth: Cloth) {
    let [from, to] = shape.ends;
    let list = cloth.along(&[(0.0, -0.34), (0.4, -0.24), (0.75, -0.13), (0.93, -0.05), (1.0, -0.16)]);
    draft.group.fill(shape.half_path(-1.0), linear((from, 0.0), (to, 0.0), &list));
    let (under, rim) = (shape.at(0.65, shape.open, 1.0), shape.at(0.65, shape.open, -1.0));
    let deep = PLUM.mixed(cloth.colour.lighter(-0.34), 0.6);
    let list = [(0.0, deep.tint(0.5 * cloth.cover())), (0.55, deep.tint(0.2 * cloth.cover())), (1.0, deep.tint(0.0))];
    draft.group.fill(shape.almond(), linear((under.x, under.y), (under.x, rim.y), &list));
}

/// Roundness across a ribbon: light on one side, shade on the other. Velvet is the other way round: lightest at its rims.
fn across(draft: &mut Draft, path: BezPath, line: [Point; 2], cloth: Cloth) {
    let shade = cloth.colour.lighter(-0.3);
    let list = match cloth.weave {
        Weave::Satin | Weave::Grosgrain => {
            [(0.0, WHITE.tint(0.2)), (0.35, WHITE.tint(0.0)), (0.55, shade.tint(0.0)), (1.0, shade.tint(0.34))]
        }
        Weave::Organza | Weave::Lace => {
            [(0.0, WHITE.tint(0.3)), (0.4, WHITE.tint(0.05)), (0.6, WHITE.tint(0.02)), (1.0, WHITE.tint(0.2))]
        }
        Weave::Velvet => {
            let glow = cloth.colour.lighter(0.15);
            [(0.0, glow.tint(0.7)), (0.2, glow.tint(0.1)), (0.72, shade.tint(0.26)), (1.0, glow.tint(0.55))]
        }
    };
    draft.group.fill(path, linear(line[0], line[1], &list));
}

/// Folds that run out from the knot where the ribbon is drawn together: dark ones, and beside each a light ridge.
fn gathers(draft: &mut Draft, shape: &Loop, cloth: Cloth) {
    let (mut valleys, mut ridges) = (BezPath::new(), BezPath::new());
    let long = shape.ends[1];
    for i in 0..5 {
        let v = (f64::from(i) - 2.0) / 2.5 + draft.chance.bell(0.08);
        let reach = draft.chance.between(0.3, 0.56);
        let fold = |by: f64| -> Vec<Point> {
            [0.0, 0.3, 0.65, 1.0].map(|t| shape.at(t * reach, v + by * (1.0 - t) * (0.4 + t), 1.0)).to_vec()
        };
        add(&mut valleys, &between(&fold(0.0), &fold(0.3)));
        add(&mut ridges, &between(&fold(-0.22), &fold(0.0)));
    }
    let (dark, light) = (cloth.colour.lighter(-0.26), cloth.shone(0.16));
    let fade = |tone: Rgb, alpha: f64| {
        let list = [
            (0.0, tone.tint(alpha * cloth.cover())),
            (0.5, tone.tint(alpha * 0.5 * cloth.cover())),
            (1.0, tone.tint(0.0)),
        ];
        linear((0.0, 0.0), (long * 0.52, 0.0), &list)
    };
    draft.group.fill(valleys, fade(dark, 0.62));
    draft.group.fill(ridges, fade(light, 0.34 * cloth.swing()));
}

/// The threads of organza, which are seen because it is so thin.
fn woven(draft: &mut Draft, shape: &Loop, cloth: Cloth) {
    if !matches!(cloth.weave, Weave::Organza | Weave::Lace) {
        return;
    }
    let mut threads = BezPath::new();
    for i in 0..9 {
        let v = (f64::from(i) + 0.5) / 9.0 * 2.0 - 1.0;
        add(&mut threads, &smooth(&shape.side(v * 0.94, 1.0), false));
    }
    draft.group.stroke(threads, shape.half * 0.018, cloth.tone(0.14, 0.34));
}

fn edges(draft: &mut Draft, lines: &[&[Point]], wide: f64, cloth: Cloth) {
    let mut path = BezPath::new();
    for line in lines {
        add(&mut path, &smooth(line, false));
    }
    let (by, alpha) = match cloth.weave {
        Weave::Satin | Weave::Grosgrain => (0.14, 0.7),
        Weave::Organza | Weave::Lace => (0.06, 0.75),
        Weave::Velvet => (0.1, 0.35),
    };
    draft.group.stroke(path, (wide * 0.014).max(0.08), cloth.tone(by, alpha));
}

/// A tail along +x with a cut end, bent back toward the arm from the side `aside` that it leaves to. It lies: its shadow is close to it, and it runs in a slow wave as cloth does on a hand.
fn tail(draft: &mut Draft, long: f64, wide: f64, aside: f64, cloth: Cloth) {
    let h = wide / 2.0;
    let sway = draft.chance.between(0.035, 0.065) * aside;
    let middle = |u: f64| sway * long * ((u * 5.4).sin() * (0.3 + u) - u * 0.6);
    let at = |u: f64, v: f64| {
        let slope = (middle(u + 0.01) - middle(u - 0.01)) / (0.02 * long);
        let width = h * (0.4 + 0.6 * ease(0.0, 0.3, u)) * (1.0 + 0.05 * (u * 9.0).sin());
        Point::new(u * long - v * width * slope, middle(u) + v * width)
    };
    let side = |v: f64| -> Vec<Point> { (0..=10).map(|i| at(f64::from(i) / 10.0, v)).collect() };
    let path = cut_end(&side(-1.0), at(1.0 - (0.5 * wide / long).min(0.3), 0.0), side(1.0));
    for step in [0.11, 0.075, 0.04] {
        let away = Affine::translate(draft.lightward() * (-step * wide));
        draft.group.fill(away * path.clone(), PLUM.paint(0.10 * cloth.cover()));
    }
    let list = cloth.along(&[
        (0.0, -0.2),
        (0.14, -0.08),
        (0.3, 0.09),
        (0.42, 0.02),
        (0.54, -0.07),
        (0.68, 0.03),
        (0.78, 0.12),
        (0.88, 0.02),
        (1.0, -0.06),
    ]);
    draft.group.fill(path.clone(), linear((0.0, -h), (long, h), &list));
    across(draft, path, [at(0.5, -1.0), at(0.5, 1.0)], cloth);
    edges(draft, &[&side(-1.0), &side(1.0)], wide, cloth);
}

/// The outline between two sides whose end is cut to two points.
fn cut_end(one: &[Point], notch: Point, mut other: Vec<Point>) -> BezPath {
    let mut path = smooth(one, false);
    path.line_to(notch);
    other.reverse();
    if let Some(&corner) = other.first() {
        path.line_to(corner);
    }
    path.extend(smooth(&other, false).elements().iter().skip(1).copied());
    path.close_path();
    path
}

/// The ribbon wound about the middle of the bow, gathered.
fn tie(draft: &mut Draft, wide: f64, cloth: Cloth) {
    let (r, h) = (wide * 0.2, wide * 0.26);
    draft.shadow((draft.lightward() * (-0.3 * r)).to_point(), Vec2::new(r, h) * 1.4, 0.0, PLUM, 0.4);
    let outline = oval(Point::ZERO, Vec2::new(r, h), 0.0);
    let list = cloth.along(&[(0.0, -0.22), (0.3, 0.04), (0.45, 0.12), (0.7, -0.04), (1.0, -0.24)]);
    draft.group.fill(outline, linear((-r, 0.0), (r, 0.0), &list));
}

/// The small loop that stands over the knot.
fn centre_loop(draft: &mut Draft, wide: f64, cloth: Cloth) {
    let r = wide * 0.46;
    draft.shadow((draft.lightward() * (-0.16 * r)).to_point(), Vec2::new(r * 1.12, r * 1.05), 0.0, PLUM, 0.4);
    let open = if draft.light.sin() < 0.0 { 1.0 } else { -1.0 };
    let shape = Loop { ends: [-r, r], half: r * 0.6, pinch: 1.0, parts: r * 0.55, open, round: true };
    inside(draft, &shape, cloth);
    let face = shape.half_path(1.0);
    let list = cloth.along(&[
        (0.0, -0.24),
        (0.14, -0.04),
        (0.34, 0.05),
        (0.52, 0.16),
        (0.7, 0.04),
        (0.88, -0.06),
        (1.0, -0.26),
    ]);
    draft.group.fill(face.clone(), linear((-r, 0.0), (r, 0.0), &list));
    across(draft, face, [shape.at(0.5, -open, 1.0), shape.at(0.5, open, 1.0)], cloth);
    edges(draft, &[&shape.side(-1.0, 1.0), &shape.side(1.0, 1.0), &shape.side(open, -1.0)], wide, cloth);
}
