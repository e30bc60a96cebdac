//! The arm under the piece: forearm and hand. Drawn at true width, softly, so that the flowers are what is looked at.

use std::f64::consts::PI;

use kurbo::{Affine, BezPath, Point, Rect, Vec2};

use super::brush::{linear, oval, oval_radial};
use super::draft::Draft;
use super::hues::{PLUM, ease};
use super::outline::{between, smooth};
use crate::colour::Rgb;
use crate::piece::{Side, Wrist};

/// The tone in which the arm is drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Skin {
    /// A plain form in the colour of paper, nobody's skin.
    #[default]
    Plain,
    /// Very light.
    Fair,
    /// Light and warm.
    Warm,
    /// Middling.
    Olive,
    /// Brown.
    Brown,
    /// Very dark.
    Deep,
}

impl Skin {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 6] = [Self::Plain, Self::Fair, Self::Warm, Self::Olive, Self::Brown, Self::Deep];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Plain => "plain",
            Self::Fair => "fair",
            Self::Warm => "warm",
            Self::Olive => "olive",
            Self::Brown => "brown",
            Self::Deep => "deep",
        }
    }

    /// Its colour in the light.
    pub fn rgb(self) -> Rgb {
        match self {
            Self::Plain => Rgb::hex(0xded0c5),
            Self::Fair => Rgb::hex(0xf0cdb9),
            Self::Warm => Rgb::hex(0xe0b091),
            Self::Olive => Rgb::hex(0xc4926b),
            Self::Brown => Rgb::hex(0x96623f),
            Self::Deep => Rgb::hex(0x5b3a28),
        }
    }
}

/// Half the breadth of the wrist seen from above, mm: the half axis p of an ellipse with this girth whose depth is
/// `Wrist::FLATNESS` of its breadth, by Ramanujan's second formula (1914).
pub(crate) fn half_breadth_mm(girth_mm: f64) -> f64 {
    let girth = if girth_mm.is_finite() { girth_mm.clamp(40.0, 600.0) } else { Wrist::USUAL_GIRTH_MM };
    let h = ((1.0 - Wrist::FLATNESS) / (1.0 + Wrist::FLATNESS)).powi(2);
    let round = PI * (1.0 + Wrist::FLATNESS) * (1.0 + 3.0 * h / (10.0 + (4.0 - 3.0 * h).sqrt()));
    girth / round
}

/// Where the webs between the fingers lie below the crease, in half breadths of the wrist.
const PALM: f64 = 3.5;

/// A finger, in half breadths of the wrist: how far out its root lies on the thumb's side, how it leans outward, how far
/// its tip is from the crease, half its width. By eye, after a hand of 178 mm on a wrist of 57 mm.
#[derive(Clone, Copy)]
struct Finger {
    root: f64,
    lean: f64,
    tip: f64,
    half: f64,
}

/// Little finger to index.
const FINGERS: [Finger; 4] = [
    Finger { root: -0.89, lean: -0.06, tip: 5.2, half: 0.27 },
    Finger { root: -0.32, lean: -0.025, tip: 6.05, half: 0.3 },
    Finger { root: 0.31, lean: 0.01, tip: 6.35, half: 0.31 },
    Finger { root: 0.93, lean: 0.035, tip: 5.95, half: 0.3 },
];

/// The arm's outline, mm. How forearm and hand widen away from the wrist is our choice, by eye.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Arm {
    crease: f64,
    half: f64,
    thumb: f64,
}

impl Arm {
    /// The arm with this wrist, its crease `offset_mm` toward the hand from the piece's centre.
    pub(crate) fn new(wrist: &Wrist, offset_mm: f64) -> Self {
        let offset = if offset_mm.is_finite() { offset_mm.clamp(-200.0, 200.0) } else { 0.0 };
        let thumb = match wrist.side {
            Side::Left => -1.0,
            Side::Right => 1.0,
        };
        Self { crease: -offset, half: half_breadth_mm(wrist.girth_mm()), thumb }
    }

    /// Where the crease lies.
    pub(crate) fn crease(&self) -> f64 {
        self.crease
    }

    /// Half its breadth at `x`, on the thumb's side or the other.
    pub(crate) fn half_at(&self, x: f64, side: f64) -> f64 {
        let above = (x - self.crease) / self.half;
        let fore = 0.30 * ease(0.1, 6.0, above);
        let hand = if side == self.thumb { 0.34 * ease(0.3, -2.4, above) } else { 0.30 * ease(0.3, -3.0, above) };
        let webs = 0.13 * ease(-2.2, -PALM, above);
        self.half * (1.0 + fore + hand - webs)
    }

    fn edge(&self, frame: Rect, side: f64) -> Vec<Point> {
        let (low, high) = ((frame.x0 - 2.0).max(self.crease - self.half * PALM), frame.x1 + 30.0);
        (0..=24)
            .map(|i| {
                let x = low + (high - low) * f64::from(i) / 24.0;
                Point::new(x, side * self.half_at(x, side))
            })
            .collect()
    }

    /// Draws forearm and hand as far as `frame` shows them.
    pub(crate) fn draw(&self, draft: &mut Draft, frame: Rect, skin: Skin) {
        let tone = skin.rgb();
        let (one, other) = (self.edge(frame, -1.0), self.edge(frame, 1.0));
        let wide = self.half * 1.34;
        self.shadow(draft, &one, &other);
        self.thumb(draft, tone);
        let round =
            [(0.0, -0.15), (0.1, -0.05), (0.3, 0.04), (0.45, 0.045), (0.72, -0.015), (0.9, -0.085), (1.0, -0.17)];
        let round = round.map(|(at, by)| (at, tone.lighter(by).solid()));
        draft.group.fill(self.outline(&one, &other), linear((0.0, -wide), (0.0, wide), &round));
        for finger in &FINGERS {
            self.finger(draft, finger, tone);
        }
        // Where the thumb leaves the hand the skin runs on.
        draft.shadow(
            self.place(0.75, 1.08),
            Vec2::new(0.95, 0.26) * self.half,
            -self.thumb * 0.2,
            tone.lighter(-0.02),
            0.9,
        );
        self.knuckles(draft, tone);
        self.modelling(draft, tone);
    }

    /// Forearm and back of the hand as one, its lower edge running in a wave from finger to finger.
    fn outline(&self, one: &[Point], other: &[Point]) -> BezPath {
        const STEPS: u32 = 24;
        let (Some(from), Some(to)) = (one.first(), other.first()) else { return BezPath::new() };
        let end = (self.crease - self.half * PALM + 0.01).max(from.x);
        let deep = self.half * if end > self.crease - self.half * PALM + 0.1 { 0.0 } else { 0.16 };
        let edge = (1..STEPS).map(|i| {
            let t = f64::from(i) / f64::from(STEPS);
            let wave = (t * 4.0 * PI).sin().abs().sqrt() * 0.75 + (t * PI).sin() * 1.6;
            Point::new(end - deep * wave, from.y + (to.y - from.y) * t)
        });
        let mut points: Vec<Point> = one.iter().rev().copied().collect();
        points.extend(edge);
        points.extend(other);
        smooth(&points, true)
    }

    /// The place so far below the crease and so far out on the thumb's side, in half breadths of the wrist.
    fn place(&self, down: f64, out: f64) -> Point {
        Point::new(self.crease - self.half * down, self.thumb * self.half * out)
    }

    /// What the arm casts on the ground: strips along both edges, pushed off from the light, so many and so faint that no
    /// step is seen.
    fn shadow(&self, draft: &mut Draft, one: &[Point], other: &[Point]) {
        const STEPS: u32 = 22;
        let away = draft.lightward().y * -self.half * 0.06;
        for i in 0..STEPS {
            let t = f64::from(i) / f64::from(STEPS);
            let out = self.half * (0.26 * (1.0 - t).powi(2) + 0.02);
            for (line, side) in [(one, -1.0), (other, 1.0)] {
                let end = self.crease - self.half * PALM;
                let moved = |by: f64| -> Vec<Point> {
                    let at = |p: &Point| p.y + side * by * ease(end, end + self.half * 0.7, p.x) + away;
                    line.iter().map(|p| Point::new(p.x, at(p))).collect()
                };
                draft.group.fill(between(&moved(out), &moved(-self.half * 0.12)), PLUM.paint(0.013));
            }
        }
    }

    /// A finger from under the back of the hand, with its nail.
    fn finger(&self, draft: &mut Draft, finger: &Finger, tone: Rgb) {
        let Finger { root, lean, tip, half } = *finger;
        let out = |down: f64| root + lean * (down - 3.0);
        let root_of = |down: f64| 0.3 + 0.7 * ease(2.85, 3.75, down);
        let wide = |down: f64| {
            half * root_of(down) * (1.0 - 0.16 * ease(3.2, tip, down) + 0.05 * (-((down - 4.7) / 0.3).powi(2)).exp())
        };
        let side = |sign: f64| -> Vec<Point> {
            let straight = (0..=14).map(|i| 2.75 + (tip - 0.28 - 2.75) * f64::from(i) / 14.0);
            let mut line: Vec<Point> = straight.map(|d| self.place(d, out(d) + sign * wide(d))).collect();
            line.push(self.place(tip - 0.07, out(tip) + sign * half * 0.5));
            line.push(self.place(tip, out(tip)));
            line
        };
        let outline = between(&side(-1.0), &side(1.0));
        let cast = -draft.lightward() * (self.half * 0.1);
        draft.fill(Affine::translate(cast), outline.clone(), PLUM.paint(0.08));
        draft.fill(Affine::translate(cast * 0.5), outline.clone(), PLUM.paint(0.1));
        // The fingers turn away from the light with the hand.
        let away = root * self.thumb * -0.045;
        let list = [(0.0, -0.11), (0.25, -0.01), (0.5, 0.025), (0.75, -0.015), (1.0, -0.12)];
        let list = list.map(|(at, by)| (at, by - away.abs() + if away > 0.0 { away * 1.6 } else { 0.0 }));
        let list = list.map(|(at, by)| (at, tone.lighter(by).solid()));
        let (from, to) = (self.place(4.5, out(4.5) - half), self.place(4.5, out(4.5) + half));
        let (from, to) = if from.y < to.y { (from, to) } else { (to, from) };
        draft.group.fill(outline, linear(from, to, &list));
        nail(draft, self.place(tip - 0.27, out(tip)), Vec2::new(0.22, half * 0.6) * self.half, 0.0, tone);
    }

    /// The thumb, standing off the hand a little.
    fn thumb(&self, draft: &mut Draft, tone: Rgb) {
        let p = |(down, out): (f64, f64)| self.place(down, out);
        let outer =
            [(-0.2, 0.8), (0.4, 1.1), (0.9, 1.38), (1.4, 1.61), (1.95, 1.79), (2.4, 1.89), (2.68, 1.87), (2.84, 1.7)];
        let inner =
            [(0.3, 0.5), (1.0, 0.8), (1.55, 1.0), (1.9, 1.22), (2.3, 1.38), (2.62, 1.46), (2.78, 1.55), (2.84, 1.7)];
        let (outer, inner) = (outer.map(p), inner.map(p));
        let cast = -draft.lightward() * (self.half * 0.1);
        draft.fill(Affine::translate(cast), between(&outer, &inner), PLUM.paint(0.08));
        draft.fill(Affine::translate(cast * 0.5), between(&outer, &inner), PLUM.paint(0.1));
        let lit = if self.thumb < 0.0 { [-0.12, 0.0, 0.05, -0.06] } else { [-0.05, 0.04, -0.01, -0.15] };
        let (edge, web) = (self.place(1.8, 1.86), self.place(1.9, 1.2));
        let (from, to) = if self.thumb < 0.0 { (edge, web) } else { (web, edge) };
        let list = [(0.0, lit[0]), (0.3, lit[1]), (0.62, lit[2]), (1.0, lit[3])];
        draft
            .group
            .fill(between(&outer, &inner), linear(from, to, &list.map(|(at, by)| (at, tone.lighter(by).solid()))));
        let turn = -self.thumb * 0.2;
        nail(draft, self.place(2.55, 1.7), Vec2::new(0.21, 0.14) * self.half, turn, tone);
    }

    /// Over each finger's root the skin runs on without an edge; the knuckles catch light.
    fn knuckles(&self, draft: &mut Draft, tone: Rgb) {
        let (light, dark) = (tone.lighter(0.09), tone.lighter(-0.15));
        for Finger { root, half, .. } in FINGERS {
            let blend = Vec2::new(0.7, half * 0.85) * self.half;
            draft.shadow(self.place(PALM - 0.35, root), blend, 0.0, tone.lighter(0.015), 0.6);
            let knuckle = self.place(2.75, root * 0.94);
            draft.shadow(
                knuckle - draft.lightward() * (self.half * 0.07),
                Vec2::new(0.3, half) * self.half,
                0.0,
                dark,
                0.15,
            );
            draft.shadow(knuckle, Vec2::new(0.24, half * 0.8) * self.half, 0.0, light, 0.4);
        }
    }

    /// The knob of the ulna, the tendons and the crease: faint.
    fn modelling(&self, draft: &mut Draft, tone: Rgb) {
        let (h, c) = (self.half, self.crease);
        let (light, dark) = (tone.lighter(0.09), tone.lighter(-0.16));
        let knob = Point::new(c + h * 0.5, -self.thumb * h * 0.66);
        let radii = Vec2::new(h * 0.3, h * 0.24);
        let glow = [(0.0, light.tint(0.5)), (1.0, light.tint(0.0))];
        draft.shadow(knob - draft.lightward() * (h * 0.06), radii * 1.35, 0.0, dark, 0.2);
        draft.group.fill(oval(knob, radii, 0.0), oval_radial(knob, radii, 0.0, &glow));
        for (v, turn) in [(-0.55, -0.16), (-0.2, -0.06), (0.16, 0.05), (0.5, 0.15)] {
            let centre = Point::new(c - h * 1.7, -self.thumb * h * v);
            let (radii, turn) = (Vec2::new(h * 1.1, h * 0.075), self.thumb * turn);
            draft.shadow(centre - draft.lightward() * (h * 0.06), radii, turn, dark, 0.14);
            draft.shadow(centre, radii, turn, light, 0.3);
        }
        for (down, wide, strength) in [(0.0, 0.62, 0.2), (0.1, 0.45, 0.13)] {
            let fold = Vec2::new(h * 0.025, h * wide);
            draft.shadow(Point::new(c - h * down, h * 0.04), fold, 0.0, dark, strength);
        }
    }
}

/// A nail about `centre`.
fn nail(draft: &mut Draft, centre: Point, radii: Vec2, turn: f64, tone: Rgb) {
    let pink = tone.lighter(0.05).mixed(Rgb::hex(0xf2c8c0), 0.35);
    let list = [(0.0, pink.lighter(0.05).tint(0.9)), (0.8, pink.tint(0.85)), (1.0, tone.lighter(-0.07).tint(0.8))];
    draft.group.fill(oval(centre, radii, turn), oval_radial(centre, radii, turn, &list));
}
