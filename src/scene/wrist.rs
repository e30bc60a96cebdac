//! The arm under the piece: forearm, hand, band. Drawn at true width, softly, so that the flowers are what is looked at.

use std::f64::consts::PI;

use kurbo::{Affine, BezPath, Point, Rect, Vec2};

use super::brush::{add, linear, oval, oval_radial};
use super::draft::{Draft, LIGHT};
use super::hues::{Hues, PLUM, WHITE, ease};
use super::outline::{between, smooth};
use super::ribbon::Cloth;
use crate::colour::Rgb;
use crate::piece::{Side, Wrist};
use crate::stock::{Band, BandKind, Weave};

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

    fn rgb(self) -> Rgb {
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
    fn half_at(&self, x: f64, side: f64) -> f64 {
        let above = (x - self.crease) / self.half;
        let fore = 0.30 * ease(0.1, 6.0, above);
        let hand = if side == self.thumb { 0.34 * ease(0.3, -2.4, above) } else { 0.30 * ease(0.3, -3.4, above) };
        self.half * (1.0 + fore + hand)
    }

    fn edge(&self, frame: Rect, side: f64) -> Vec<Point> {
        let (low, high) = (frame.x0 - 2.0, frame.x1 + 2.0);
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
        let outline = between(&one, &other);
        let wide = self.half * 1.34;
        self.shadow(draft, &one, &other);
        self.thumb(draft, tone);
        let round =
            [(0.0, -0.15), (0.1, -0.05), (0.3, 0.04), (0.45, 0.045), (0.72, -0.015), (0.9, -0.085), (1.0, -0.17)];
        let round = round.map(|(at, by)| (at, tone.lighter(by).solid()));
        draft.group.fill(outline, linear((0.0, -wide), (0.0, wide), &round));
        self.modelling(draft, tone);
    }

    /// What the arm casts on the ground: strips along both edges, pushed off from the light, soft in a few steps.
    fn shadow(&self, draft: &mut Draft, one: &[Point], other: &[Point]) {
        const STEPS: u32 = 9;
        let away = draft.lightward().y * -self.half * 0.06;
        for i in 0..STEPS {
            let out = self.half * (0.15 - 0.018 * f64::from(i));
            for (line, side) in [(one, -1.0), (other, 1.0)] {
                let moved =
                    |by: f64| -> Vec<Point> { line.iter().map(|p| Point::new(p.x, p.y + side * by + away)).collect() };
                draft.group.fill(between(&moved(out), &moved(-self.half * 0.12)), PLUM.paint(0.028));
            }
        }
    }

    /// The thumb, lying along the hand and half under it.
    fn thumb(&self, draft: &mut Draft, tone: Rgb) {
        let h = self.half;
        let p = |down: f64, out: f64| Point::new(self.crease - h * down, self.thumb * h * out);
        let outer = [
            p(-0.1, 0.9),
            p(0.45, 1.06),
            p(0.95, 1.27),
            p(1.45, 1.46),
            p(2.0, 1.58),
            p(2.7, 1.6),
            p(3.3, 1.53),
            p(3.7, 1.3),
        ];
        let inner = [p(0.1, 0.5), p(1.0, 0.7), p(2.0, 0.9), p(3.0, 1.0), p(3.7, 1.3)];
        let list =
            [(0.0, -0.13), (0.35, -0.03), (0.7, 0.04), (1.0, -0.07)].map(|(at, by)| (at, tone.lighter(by).solid()));
        let cast = Affine::translate((0.0, self.thumb * h * 0.05));
        draft.fill(cast, between(&outer, &inner), PLUM.paint(0.09));
        draft.group.fill(between(&outer, &inner), linear(p(1.75, 1.1), p(1.55, 1.53), &list));
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

    /// Draws the band round the arm at the piece's centre.
    pub(crate) fn band(&self, draft: &mut Draft, band: &Band) {
        let width = if band.width_mm.is_finite() { band.width_mm.clamp(1.0, 60.0) } else { 6.0 };
        let (left, right) = (self.half_at(0.0, -1.0) + OVERHANG_MM, self.half_at(0.0, 1.0) + OVERHANG_MM);
        let strip = Strip { left, right, half: width / 2.0, sag: self.half * 0.09 };
        strip.shadow(draft);
        match band.kind {
            BandKind::Elastic => strip.elastic(draft, band.rgb),
            BandKind::Pearl => strip.pearls(draft, band.rgb),
            BandKind::RibbonTie => strip.cloth(draft, Cloth::new(band.rgb, Weave::Satin)),
            BandKind::Metal => strip.metal(draft, band.rgb),
        }
    }
}

/// How far a band stands out over the arm's edge, mm; its own thickness, our choice.
const OVERHANG_MM: f64 = 0.7;

/// A strip across the arm, sagging toward the hand as a ring does when it is seen from a little above.
struct Strip {
    left: f64,
    right: f64,
    half: f64,
    sag: f64,
}

impl Strip {
    /// The point at `v` of the way from left to right (0 to 1) and `u` of half its width.
    fn at(&self, u: f64, v: f64) -> Point {
        let t = v * 2.0 - 1.0;
        Point::new(u * self.half - self.sag * (1.0 - t * t), -self.left + (self.left + self.right) * v)
    }

    fn line(&self, u: f64) -> Vec<Point> {
        (0..=10).map(|i| self.at(u, f64::from(i) / 10.0)).collect()
    }

    fn outline(&self) -> BezPath {
        between(&self.line(-1.0), &self.line(1.0))
    }

    fn across(&self, list: &[(f64, super::Tint)]) -> super::Paint {
        linear((0.0, -self.left), (0.0, self.right), list)
    }

    /// What the strip casts on the arm, soft in a few steps and never beyond the arm's own edge.
    fn shadow(&self, draft: &mut Draft) {
        for i in 0..4 {
            let grow = 0.25 + 0.4 * f64::from(i);
            let under = Self {
                left: self.left - OVERHANG_MM,
                right: self.right - OVERHANG_MM,
                half: self.half + grow,
                ..*self
            };
            let away = Vec2::new(draft.lightward().x * -0.9, 0.0);
            draft.fill(Affine::translate(away), under.outline(), PLUM.paint(0.06));
        }
    }

    fn elastic(&self, draft: &mut Draft, rgb: Rgb) {
        let round = [(0.0, -0.16), (0.2, 0.0), (0.4, 0.05), (0.75, -0.02), (1.0, -0.18)];
        draft.group.fill(self.outline(), self.across(&round.map(|(at, by)| (at, rgb.lighter(by).solid()))));
        let (mut dark, mut light) = (BezPath::new(), BezPath::new());
        for i in 0..46 {
            let v = (f64::from(i) + 0.5 + draft.chance.about(0.3)) / 46.0;
            let slip = draft.chance.about(0.012);
            add(&mut dark, &smooth(&[self.at(-0.97, v), self.at(0.0, v + slip), self.at(0.97, v - slip)], false));
            add(
                &mut light,
                &smooth(&[self.at(-0.9, v + 0.007), self.at(0.0, v + slip + 0.007), self.at(0.9, v)], false),
            );
        }
        draft.group.stroke(dark, self.half * 0.09, rgb.lighter(-0.14).paint(0.28));
        draft.group.stroke(light, self.half * 0.06, rgb.lighter(0.1).paint(0.5));
    }

    fn cloth(&self, draft: &mut Draft, cloth: Cloth) {
        let list = cloth.along(&[
            (0.0, -0.16),
            (0.14, 0.01),
            (0.28, 0.10),
            (0.4, 0.02),
            (0.62, -0.04),
            (0.8, 0.06),
            (1.0, -0.16),
        ]);
        draft.group.fill(self.outline(), self.across(&list));
        self.round_over(draft, 0.22);
    }

    fn metal(&self, draft: &mut Draft, rgb: Rgb) {
        let list = [
            (0.0, -0.3),
            (0.12, 0.02),
            (0.2, 0.2),
            (0.27, 0.03),
            (0.5, -0.12),
            (0.7, 0.05),
            (0.78, 0.16),
            (0.86, -0.04),
            (1.0, -0.32),
        ];
        draft.group.fill(self.outline(), self.across(&list.map(|(at, by)| (at, rgb.lighter(by).solid()))));
        self.round_over(draft, 0.5);
    }

    /// Light along the upper edge, shade along the lower one.
    fn round_over(&self, draft: &mut Draft, strength: f64) {
        let upper = between(&self.line(0.72), &self.line(1.0));
        let lower = between(&self.line(-1.0), &self.line(-0.74));
        draft.group.fill(upper, WHITE.paint(strength));
        draft.group.fill(lower, PLUM.paint(strength * 0.6));
    }

    fn pearls(&self, draft: &mut Draft, rgb: Rgb) {
        let wide = self.left + self.right;
        let count = (0..200_u32).take_while(|i| f64::from(*i) * self.half * 1.96 < wide).count().max(3);
        let r = wide / (count as f64 * 2.0);
        let hues = Hues::of(rgb);
        for i in 0..count {
            let centre = self.at(0.0, (i as f64 + 0.5) / count as f64);
            draft.ball(centre, r, &hues, 0.8);
        }
    }
}

/// A draft in piece space.
pub(crate) fn board(seed: u64) -> Draft {
    Draft::new(seed, LIGHT)
}
