//! The arm under the piece: forearm and hand. Drawn at true width, softly, so that the flowers are what is looked at.

use std::f64::consts::PI;

use kurbo::{Affine, Point, Rect, Vec2};

use super::brush::{linear, oval, oval_radial};
use super::draft::Draft;
use super::hues::{PLUM, ease};
use super::outline::between;
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
        let cast = Affine::translate((0.0, -draft.lightward().y * h * 0.06));
        draft.fill(cast, between(&outer, &inner), PLUM.paint(0.07));
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
}
