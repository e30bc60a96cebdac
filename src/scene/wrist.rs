//! The arm under the piece: forearm and hand. Drawn at true width, softly, so that the flowers are what is looked at.

use std::f64::consts::PI;

use kurbo::{Affine, BezPath, Point, Rect, Shape as _, Vec2};

use super::Paint;
use super::brush::{add, linear, oval, oval_radial};
use super::draft::Draft;
use super::hues::{WHITE, ease};
use super::outline::{between, smooth};
use crate::colour::Rgb;
use crate::piece::{Side, Skin, Wrist};

/// Half the breadth of the wrist seen from above, mm: the half axis p of an ellipse with this girth whose depth is
/// `Wrist::FLATNESS` of its breadth, by Ramanujan's second formula (1914).
pub(crate) fn half_breadth_mm(girth_mm: f64) -> f64 {
    let girth = if girth_mm.is_finite() { girth_mm.clamp(40.0, 600.0) } else { Wrist::USUAL_GIRTH_MM };
    let h = ((1.0 - Wrist::FLATNESS) / (1.0 + Wrist::FLATNESS)).powi(2);
    let round = PI * (1.0 + Wrist::FLATNESS) * (1.0 + 3.0 * h / (10.0 + (4.0 - 3.0 * h).sqrt()));
    girth / round
}

/// Where the webs between the fingers lie below the crease, in half breadths of the wrist. The hand hangs a little from the
/// wrist and its fingers are bent, so both are seen shorter than they are.
const PALM: f64 = 2.92;
/// How far the longest finger reaches below the crease, in half breadths of the wrist.
const REACH: f64 = 4.5;

/// A finger at rest, in half breadths of the wrist: how far out its root lies on the thumb's side, how far out its tip, how
/// far its web and its tip are from the crease, half its width. By eye, after a hand of 178 mm on a wrist of 57 mm.
#[derive(Clone, Copy)]
struct Finger {
    root: f64,
    out: f64,
    web: f64,
    tip: f64,
    half: f64,
}

/// Little finger to index.
const FINGERS: [Finger; 4] = [
    Finger { root: -0.73, out: -0.9, web: 2.72, tip: 3.86, half: 0.22 },
    Finger { root: -0.26, out: -0.35, web: 2.9, tip: 4.36, half: 0.245 },
    Finger { root: 0.245, out: 0.22, web: 2.94, tip: REACH, half: 0.255 },
    Finger { root: 0.75, out: 0.78, web: 2.84, tip: 4.22, half: 0.25 },
];

/// Half the width of a finger at `t` of its way from web to tip, as a share: fuller at its joints.
fn finger_width(t: f64) -> f64 {
    let joint = |at: f64, wide: f64| (-((t - at) / wide).powi(2)).exp();
    (1.0 - 0.2 * ease(0.1, 1.0, t)) * (1.0 + 0.06 * joint(0.46, 0.1) + 0.03 * joint(0.8, 0.08))
}

/// The arm's outline, mm. How forearm and hand widen away from the wrist is our choice, by eye.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Arm {
    crease: f64,
    half: f64,
    thumb: f64,
}

impl Arm {
    /// How far past its frame the forearm is drawn, mm.
    pub(crate) const ABOVE_FRAME_MM: f64 = 30.0;

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

    /// How far below the crease the longest finger ends, mm.
    pub(crate) fn hand_mm(&self) -> f64 {
        self.half * REACH
    }

    /// Half its breadth at `x`, on the thumb's side or the other.
    pub(crate) fn half_at(&self, x: f64, side: f64) -> f64 {
        let above = (x - self.crease) / self.half;
        let fore = 0.30 * ease(0.1, 6.0, above);
        let hand = if side == self.thumb { 0.17 * ease(0.2, -1.7, above) } else { 0.13 * ease(0.3, -1.7, above) };
        // Toward the knuckles it draws in to where the outer fingers are.
        let webs = if side == self.thumb { 0.19 } else { 0.2 } * ease(-1.5, 0.45 - PALM, above);
        self.half * (1.0 + fore + hand - webs)
    }

    fn edge(&self, frame: Rect, side: f64) -> Vec<Point> {
        let (low, high) =
            ((frame.x0 - 2.0).max(self.crease - self.half * (PALM - 0.45)), frame.x1 + Self::ABOVE_FRAME_MM);
        (0..=24)
            .map(|i| {
                let x = low + (high - low) * f64::from(i) / 24.0;
                Point::new(x, side * self.half_at(x, side))
            })
            .collect()
    }

    /// Draws forearm and hand as far as `frame` shows them: one outline in one tone, and light and shade softly over it, so
    /// that nothing in it has a seam.
    pub(crate) fn draw(&self, draft: &mut Draft, frame: Rect, skin: Skin) {
        let tone = skin.rgb();
        let outline = self.outline(frame);
        self.shadow(draft, &outline);
        draft.group.fill(outline, self.roundness(tone));
        self.back_of_hand(draft, tone);
        self.thumb(draft, tone);
        for finger in &FINGERS {
            self.finger(draft, finger, tone);
        }
        self.webs(draft, tone);
    }

    /// Light across the arm: from the left, falling off to the right; the thumb takes the tone of the side that it is on.
    pub(crate) fn roundness(&self, tone: Rgb) -> Paint {
        const FAR: f64 = 1.9;
        let list = if self.thumb < 0.0 {
            [
                (-FAR, -0.03),
                (-1.1, -0.04),
                (-0.95, -0.03),
                (-0.5, 0.035),
                (-0.1, 0.045),
                (0.6, -0.01),
                (1.05, -0.075),
                (1.34, -0.15),
            ]
        } else {
            [
                (-1.34, -0.1),
                (-1.05, -0.045),
                (-0.5, 0.035),
                (-0.1, 0.045),
                (0.6, -0.01),
                (1.0, -0.07),
                (1.15, -0.085),
                (FAR, -0.085),
            ]
        };
        let list = list.map(|(at, by)| ((at + FAR) / (2.0 * FAR), tone.lighter(by).solid()));
        linear((0.0, -FAR * self.half), (0.0, FAR * self.half), &list)
    }

    /// Forearm, hand, fingers and thumb as one path.
    fn outline(&self, frame: Rect) -> BezPath {
        let (one, other) = (self.edge(frame, -1.0), self.edge(frame, 1.0));
        let mut path = BezPath::new();
        add_wound(&mut path, between(&one, &other));
        let low = self.crease - self.half * PALM;
        if frame.x0 < low {
            for finger in &FINGERS {
                add_wound(&mut path, self.finger_path(finger, finger.web - 1.0));
            }
            // The ends of the knuckles, so that hand and fingers meet in round webs.
            add_wound(&mut path, oval(self.place(PALM - 0.5, 0.0), Vec2::new(0.42, 0.92) * self.half, 0.0));
        }
        if frame.x0 < self.crease {
            add_wound(&mut path, self.thumb_path(0..19));
        }
        path
    }

    /// The place so far below the crease and so far out on the thumb's side, in half breadths of the wrist.
    fn place(&self, down: f64, out: f64) -> Point {
        Point::new(self.crease - self.half * down, self.thumb * self.half * out)
    }

    /// What the arm casts on the ground: its outline pushed off from the light, so many times and so faintly that no step is
    /// seen.
    fn shadow(&self, draft: &mut Draft, outline: &BezPath) {
        const STEPS: u32 = 14;
        // Plum in two tints that eight bits hold exactly at this cover: others round one way and add up on the screen.
        const FAINT: f64 = 5.0 / 255.0;
        const TINTS: [Rgb; 2] = [Rgb::hex(0x330000), Rgb::hex(0x333333)];
        for (i, tint) in (0..STEPS).zip(TINTS.into_iter().cycle()) {
            let far = self.half * (0.015 + 0.018 * f64::from(i));
            let away = Vec2::new(draft.lightward().x * 0.55, draft.lightward().y) * -far;
            draft.group.fill(Affine::translate(away) * outline.clone(), tint.paint(FAINT));
        }
    }

    /// The middle line of a finger at `t` from web to tip, and its half width there.
    fn finger_at(&self, finger: &Finger, t: f64, v: f64) -> Point {
        let Finger { root, out, web, tip, half } = *finger;
        let aside = root + (out - root) * ease(0.0, 1.0, t.max(0.0)) + v * half * finger_width(t.max(0.0));
        self.place(web + (tip - web) * t, aside)
    }

    /// A finger's outline from `from` below the crease to its round tip.
    fn finger_path(&self, finger: &Finger, from: f64) -> BezPath {
        let Finger { web, tip, half, .. } = *finger;
        let long = tip - web;
        let (start, end) = ((from - web) / long, 1.0 - half * 0.9 / long);
        let side = |sign: f64| {
            // Its foot is round, so that nothing swings out beside the hand there.
            let wide = move |i: u32| if i == 0 { sign * 0.6 } else { sign };
            (0..=10).map(move |i| self.finger_at(finger, start + (end - start) * f64::from(i) / 10.0, wide(i)))
        };
        let mut points: Vec<Point> = side(-1.0).collect();
        points.extend((1..6).map(|i| {
            let a = f64::from(i) / 6.0 * PI - PI / 2.0;
            self.finger_at(finger, end + (1.0 - end) * a.cos(), a.sin())
        }));
        points.extend(side(1.0).collect::<Vec<_>>().into_iter().rev());
        smooth(&points, true)
    }

    /// Roundness of a finger, the folds over its joint, its nail.
    fn finger(&self, draft: &mut Draft, finger: &Finger, tone: Rgb) {
        let Finger { web, tip, half, .. } = *finger;
        let long = (tip - web) * self.half;
        let dark = tone.lighter(-0.18);
        // Dark toward its sides and its tip, which is bent down; the ellipse is wider at the root, where nothing of it shows.
        let reach = Vec2::new(long * 1.5, half * self.half * 1.72);
        let list = [(0.0, 0.0), (0.6, 0.0), (0.76, 0.13), (0.9, 0.36), (1.0, 0.62)];
        let list = list.map(|(at, alpha)| (at, dark.tint(alpha)));
        let turn = (finger.root - finger.out) / (tip - web) * self.thumb;
        let toward = draft.light.sin() * self.thumb;
        let from = self.finger_at(finger, -0.36, toward * 0.2);
        draft.group.fill(self.finger_path(finger, web - 0.1), oval_radial(from, reach, turn, &list));
        let lit = self.finger_at(finger, 0.34, 0.3 * toward);
        draft.shadow(lit, Vec2::new(long * 0.46, half * self.half * 0.42), turn, tone.lighter(0.09), 0.3);
        let joint = self.finger_at(finger, 0.46, 0.1 * toward);
        draft.shadow(joint, Vec2::new(0.15, half * 0.66) * self.half, turn, tone.lighter(0.08), 0.26);
        for (by, wide) in [(-0.045, 0.4), (0.0, 0.54), (0.045, 0.38)] {
            let fold = Vec2::new(0.013, half * wide) * self.half;
            draft.shadow(self.finger_at(finger, 0.46 + by, 0.0), fold, turn, dark, 0.22);
        }
        nail(draft, self.finger_at(finger, 0.84, 0.0), Vec2::new(0.15, half * 0.5) * self.half, turn, tone);
    }

    /// The dark between two fingers where they part.
    fn webs(&self, draft: &mut Draft, tone: Rgb) {
        let dark = tone.lighter(-0.26);
        for pair in FINGERS.windows(2) {
            let web = f64::midpoint(pair[0].web, pair[1].web);
            let at = self.place(web + 0.1, f64::midpoint(pair[0].root + pair[0].half, pair[1].root - pair[1].half));
            draft.shadow(at, Vec2::new(0.3, 0.045) * self.half, 0.0, dark, 0.34);
        }
    }

    /// The thumb's outline, out of the wrist and round its tip, or some of its points.
    fn thumb_path(&self, within: std::ops::Range<usize>) -> BezPath {
        const SIDES: [(f64, f64); 19] = [
            (-0.5, 0.6),
            (-0.1, 0.9),
            (0.3, 1.035),
            (0.7, 1.2),
            (1.1, 1.41),
            (1.48, 1.57),
            (1.84, 1.65),
            (2.16, 1.71),
            (2.46, 1.75),
            (2.66, 1.71),
            (2.78, 1.6),
            (2.76, 1.47),
            (2.62, 1.36),
            (2.35, 1.29),
            (2.05, 1.23),
            (1.8, 1.14),
            (1.55, 1.02),
            (0.9, 0.7),
            (0.2, 0.4),
        ];
        smooth(&SIDES[within].iter().map(|&(down, out)| self.place(down, out)).collect::<Vec<_>>(), true)
    }

    /// Roundness of the thumb and its nail.
    fn thumb(&self, draft: &mut Draft, tone: Rgb) {
        let (dark, light) = (tone.lighter(-0.18), tone.lighter(0.08));
        let toward = draft.light.sin() * self.thumb;
        let turn = -self.thumb * 0.29;
        let list = [(0.0, 0.0), (0.6, 0.0), (0.78, 0.12), (0.92, 0.34), (1.0, 0.5)];
        let list = list.map(|(at, alpha)| (at, dark.tint(alpha)));
        let from = self.place(0.75, 1.0 + toward * 0.1);
        // Of its outline only what stands off the hand: the rest would show as an edge on it.
        draft.group.fill(self.thumb_path(2..17), oval_radial(from, Vec2::new(2.2, 0.5) * self.half, turn, &list));
        draft.shadow(self.place(1.45, 1.3 + toward * 0.06), Vec2::new(0.8, 0.11) * self.half, turn, light, 0.34);
        draft.shadow(self.place(1.98, 1.46), Vec2::new(0.15, 0.15) * self.half, turn, light, 0.3);
        for down in [1.94, 2.0] {
            draft.shadow(self.place(down, 1.45), Vec2::new(0.013, 0.14) * self.half, turn * 0.7, dark, 0.22);
        }
        // The fold where the thumb leaves the hand.
        draft.shadow(self.place(1.52, 1.02), Vec2::new(0.42, 0.045) * self.half, -self.thumb * 0.46, dark, 0.34);
        nail(draft, self.place(2.47, 1.56), Vec2::new(0.18, 0.11) * self.half, -self.thumb * 0.14, tone);
    }

    /// Knuckles, tendons, the knob of the ulna and the crease: faint.
    fn back_of_hand(&self, draft: &mut Draft, tone: Rgb) {
        let (h, c) = (self.half, self.crease);
        let (light, dark) = (tone.lighter(0.08), tone.lighter(-0.16));
        let off = draft.lightward() * (h * 0.07);
        for finger in &FINGERS {
            let Finger { root, web, half, .. } = *finger;
            let knuckle = self.place(web - 0.52, root * 0.97);
            draft.shadow(knuckle - off * 1.6, Vec2::new(0.36, half * 1.1) * h, 0.0, dark, 0.13);
            draft.shadow(knuckle, Vec2::new(0.34, half * 0.8) * h, 0.0, light, 0.3);
            let lean = root * 0.17 * self.thumb;
            let tendon = self.place(1.46, root * 0.74);
            draft.shadow(tendon - off * 0.9, Vec2::new(0.95, 0.085) * h, -lean, dark, 0.08);
            draft.shadow(tendon, Vec2::new(0.95, 0.06) * h, -lean, light, 0.16);
        }
        for pair in FINGERS.windows(2) {
            let at = self.place(PALM - 0.62, f64::midpoint(pair[0].root, pair[1].root) * 0.97);
            draft.shadow(at, Vec2::new(0.36, 0.07) * h, 0.0, dark, 0.08);
        }
        let knob = Point::new(c + h * 0.5, -self.thumb * h * 0.66);
        let radii = Vec2::new(h * 0.3, h * 0.24);
        draft.shadow(knob - off * 0.9, radii * 1.35, 0.0, dark, 0.2);
        draft.shadow(knob, radii, 0.0, light, 0.5);
        for (down, wide, strength) in [(0.0, 0.62, 0.2), (0.1, 0.45, 0.13)] {
            let fold = Vec2::new(h * 0.025, h * wide);
            draft.shadow(Point::new(c - h * down, h * 0.04), fold, 0.0, dark, strength);
        }
    }
}

/// Adds a part of an outline, wound the same way as all others, so that they fill as one.
fn add_wound(path: &mut BezPath, part: BezPath) {
    add(path, &if part.area() < 0.0 { part.reverse_subpaths() } else { part });
}

/// A nail about `centre`, its bed under a soft gloss; `radii` along and across the finger.
fn nail(draft: &mut Draft, centre: Point, radii: Vec2, turn: f64, tone: Rgb) {
    // As pink as the skin is warm: the plain form has no blood.
    let [_, a, b] = tone.oklab();
    let pink = tone.lighter(0.035).mixed(Rgb::hex(0xeeb8ae), 0.34 * (a.hypot(b) / 0.05).min(1.0));
    let place =
        Affine::translate(centre.to_vec2()) * Affine::rotate(turn) * Affine::scale_non_uniform(radii.x, radii.y);
    // Straight sides, a round root toward the hand, a flatter end: a barrel rather than an egg.
    let half = [(1.0, 0.0), (0.84, 0.62), (0.2, 0.93), (-0.55, 0.88), (-0.92, 0.5)].map(Point::from);
    let outline: Vec<Point> = half.into_iter().chain(half[1..].iter().rev().map(|p| Point::new(p.x, -p.y))).collect();
    draft.shadow(centre, radii * 1.35, turn, tone.lighter(-0.15), 0.3);
    let list =
        [(0.0, tone.lighter(0.12).mixed(pink, 0.5).solid()), (0.2, pink.solid()), (0.75, pink.lighter(0.02).solid())];
    let list = [&list[..], &[(0.86, pink.lighter(0.07).solid()), (1.0, pink.lighter(0.05).solid())]].concat();
    draft.fill(place, smooth(&outline, true), linear((1.0, 0.0), (-1.0, 0.0), &list));
    let gloss = [(0.0, WHITE.tint(0.42)), (1.0, WHITE.tint(0.0))];
    let at = centre + draft.lightward() * (radii.y * 0.34);
    let spot = Vec2::new(radii.x * 0.55, radii.y * 0.3);
    draft.group.fill(oval(at, spot, turn), oval_radial(at, spot, turn, &gloss));
}
