//! Half-open blooms that show their kind best from the side: trumpets with a tube, goblets of rays, bowls. Their mouth is
//! at +x.

use std::f64::consts::PI;

use kurbo::{Affine, Point, Vec2};

use super::placed;
use super::profile::{body, cup_petal, green, lies, ruff, seam, sepals, stalk, standing_threads, tiled_cup, within};
use super::rose;
use super::side::{far_first, spread};
use crate::colour::Rgb;
use crate::scene::brush::{oval, oval_radial};
use crate::scene::draft::Draft;
use crate::scene::hues::{Hues, POLLEN, SEPAL, WHITE};
use crate::scene::outline::{Blade, Fan};

/// A flower with a tube, seen from the side and a little into its mouth.
struct Trumpet {
    /// Half the width of the tube along it; the last is its mouth.
    tube: [(f64, f64); 4],
    /// Tepals behind the mouth and before it.
    count: [u32; 2],
    /// How long they are, and half their width.
    tepal: [f64; 2],
    /// How far they lean out, radians.
    spread: f64,
    /// How pointed they are, as in [`Blade`].
    blunt: f64,
    /// Lines on each.
    veins: u32,
    /// What is seen in the mouth.
    throat: Rgb,
}

impl Trumpet {
    fn draw(&self, draft: &mut Draft, hues: &Hues) {
        let (mouth, half) = self.tube[3];
        let [long, wide] = self.tepal;
        let blade =
            Blade { length: long, half: wide, peak: 0.58, blunt: self.blunt, foot: 0.55, wave: 0.025, ..Blade::PETAL };
        for (y, turn) in Self::row(self.count[0], half, self.spread) {
            let lean = Blade { bend: turn * 0.1, ..blade };
            draft.blade(placed((mouth - 0.04, y), turn), &lean, &hues.deeper(0.3), self.veins, 0.08);
        }
        let well = [(0.0, self.throat.lighter(-0.24).solid()), (0.6, self.throat.solid()), (1.0, hues.throat.solid())];
        let (at, radii) = (Point::new(mouth + 0.03, 0.0), Vec2::new(half * 0.5, half * 1.02));
        draft.group.fill(oval(at, radii, 0.0), oval_radial(at, radii, 0.0, &well));
        self.middle(draft, hues);
        body(draft, Affine::IDENTITY, &self.tube, hues);
        for v in [-0.45, 0.4] {
            let line: Vec<(f64, f64)> = self.tube.iter().map(|&(x, half)| (x, half * v)).collect();
            seam(draft, Affine::IDENTITY, &line, 0.024, hues);
        }
        // The near tepals turn toward the eye and are seen shorter.
        for (y, turn) in Self::row(self.count[1], half * 0.8, self.spread * 0.85) {
            let near = Blade { length: long * 0.74, half: wide * 1.05, foot: 0.85, bend: turn * 0.3, ..blade };
            draft.blade(placed((mouth - half * 0.36, y), turn), &near, &hues.lit(0.01), self.veins, 0.07);
        }
    }

    fn middle(&self, draft: &mut Draft, hues: &Hues) {
        let (mouth, half) = self.tube[3];
        let tints = [hues.edge, self.throat.mixed(WHITE, 0.35)];
        standing_threads(draft, Point::new(mouth - 0.1, 0.0), 0.3, half * 0.5 + 0.3, 3, tints);
    }

    /// Where tepals of a row begin across the mouth, and how they lean.
    fn row(count: u32, half: f64, spread: f64) -> impl Iterator<Item = (f64, f64)> {
        // The outer ones first, so that those in the middle lie over them.
        let mut order: Vec<f64> =
            (0..count).map(|i| (f64::from(i) + 0.5) / f64::from(count.max(1)) * 2.0 - 1.0).collect();
        order.sort_by(|a, b| b.abs().total_cmp(&a.abs()));
        order.into_iter().map(move |t| (t * half * 0.9, t * spread * 1.4))
    }
}

pub(super) fn freesia(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.7);
    stalk(draft, &[(-1.0, 0.1), (-0.7, 0.24), (-0.42, 0.52), (-0.3, 0.8)], 0.06, SEPAL);
    for (at, turn, long, share) in [((-0.32, 0.74), 0.5, 0.42, 0.3), ((-0.48, 0.5), 0.34, 0.66, 0.75)] {
        let tones = Hues::of(SEPAL.lighter(0.12).mixed(hues.mid, share));
        within(draft, placed(at, turn), |draft| {
            let profile = [(0.0, 0.04), (0.4, 0.07), (0.72, 0.115), (1.0, 0.01)].map(|(x, w)| (x * long, w));
            body(draft, Affine::IDENTITY, &profile, &tones);
            sepals(draft, (-0.04, 0.0), &[(0.0, 0.22)], 0.07, &green());
        });
    }
    let gold = Rgb::hex(0xe0a82c);
    let tinted = Hues { throat: hues.throat.mixed(gold, 0.45), ..*hues };
    let trumpet = Trumpet {
        tube: [(-0.98, 0.07), (-0.66, 0.1), (-0.2, 0.24), (0.16, 0.4)],
        count: [3, 3],
        tepal: [0.76, 0.27],
        spread: 0.5,
        blunt: 0.55,
        veins: 3,
        throat: gold,
    };
    within(draft, placed((0.08, -0.1), -0.12), |draft| trumpet.draw(draft, &tinted));
}

pub(super) fn alstroemeria(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.7);
    stalk(draft, &[(-1.0, 0.0), (-0.7, 0.0)], 0.08, SEPAL);
    let flash = Rgb::hex(0xf3cf5a);
    let trumpet = Trumpet {
        tube: [(-0.76, 0.1), (-0.5, 0.22), (-0.2, 0.34), (0.0, 0.42)],
        count: [3, 3],
        tepal: [0.98, 0.28],
        spread: 0.36,
        blunt: 0.6,
        veins: 5,
        throat: flash.mixed(hues.throat, 0.3),
    };
    trumpet.draw(draft, hues);
    // Green tips, and dark dashes on the tepal in the middle: what it is known by.
    for (y, turn) in [(-0.22, -0.3), (0.0, 0.0), (0.22, 0.3)] {
        let at = Point::new(-0.15, y) + Vec2::from_angle(turn) * 0.66;
        let list = [(0.0, SEPAL.tint(0.75)), (1.0, SEPAL.tint(0.0))];
        draft.group.fill(oval(at, Vec2::new(0.1, 0.09), 0.0), oval_radial(at, Vec2::new(0.1, 0.09), 0.0, &list));
    }
    for i in 0..9 {
        let t = f64::from(i);
        let at = Point::new(0.06 + 0.045 * t, 0.1 * (t * 2.4).sin());
        draft.group.fill(oval(at, Vec2::new(0.035, 0.011), 0.0), Rgb::hex(0x5a1f2b).paint(0.8));
    }
    body(draft, Affine::IDENTITY, &[(-0.84, 0.07), (-0.74, 0.15), (-0.58, 0.2), (-0.5, 0.14)], &green());
}

pub(super) fn nerine(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.7);
    stalk(draft, &[(-1.0, 0.0), (-0.6, 0.0)], 0.08, SEPAL.mixed(hues.mid, 0.3));
    let tepal = Blade { length: 1.3, half: 0.13, peak: 0.56, blunt: 0.7, foot: 0.6, wave: 0.16, ..Blade::PETAL };
    for turn in [-0.62, 0.62, -0.34, 0.36, -0.08, 0.14_f64] {
        let one = Blade { bend: turn * 0.5, length: 1.34 - 0.1 * turn.abs(), ..tepal };
        draft.blade(placed((-0.62, 0.0), turn * 0.7), &one, hues, 1, 0.06);
    }
    standing_threads(draft, Point::new(0.12, 0.0), 0.36, 0.84, 6, [hues.edge, hues.throat.lighter(-0.1)]);
    body(draft, Affine::IDENTITY, &[(-0.72, 0.05), (-0.6, 0.1), (-0.48, 0.08)], &green());
}

pub(super) fn delphinium(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.7);
    stalk(draft, &[(-0.94, 0.5), (-0.6, 0.3), (-0.3, 0.1)], 0.06, SEPAL);
    within(draft, placed((-0.2, -0.06), 0.3), |draft| {
        body(draft, Affine::IDENTITY, &[(-0.86, 0.03), (-0.6, 0.06), (-0.3, 0.1), (-0.1, 0.2)], &hues.deeper(0.2));
    });
    let petal = Fan { from: 0.25, to: 1.3, half: 0.5, flat: 2.2, wave: 0.03, tip: 0.02, ..Fan::BROAD };
    for (turn, to) in [(-0.5, 1.22), (0.5, 1.22), (0.0, 1.34)] {
        cup_petal(draft, placed((-0.4, 0.0), turn), &Fan { to, half: 0.44, ..petal }, &hues.deeper(0.5));
    }
    // The pale bee that the sepals stand about.
    let bee = Hues::of(Rgb::hex(0xfaf6ee));
    for (turn, long) in [(-0.32, 0.96), (0.32, 0.96), (0.0, 1.04)] {
        let one = Blade { length: long, half: 0.15, peak: 0.75, blunt: 0.45, notch: 0.06, ..Blade::PETAL };
        draft.blade(placed((-0.4, 0.0), turn), &one, &bee, 1, 0.05);
    }
    for (turn, to, half) in [(-0.44, 0.94, 0.5), (0.46, 0.9, 0.52)] {
        cup_petal(draft, placed((-0.42, 0.0), turn), &Fan { to, half, ..petal }, hues);
    }
}

/// A daisy's or an aster's rays, raised like a shuttlecock; the near ones lean toward the eye and leave the disc to be seen.
pub(super) fn daisy(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.7);
    stalk(draft, &[(-1.0, 0.0), (-0.6, 0.0)], 0.09, SEPAL);
    within(draft, Affine::translate((-0.16, 0.0)), |draft| tiled_cup(draft, 0.42, 0.46, &green()));
    let (level, out) = (-0.16, 0.36);
    let ray = Blade { length: 0.92, half: 0.115, peak: 0.72, blunt: 0.5, foot: 0.55, notch: 0.02, ..Blade::PETAL };
    let turns = far_first(19, draft.chance.angle());
    let row = |draft: &mut Draft, is_far: bool, rise: f64, hues: &Hues| {
        for &around in turns.iter().filter(|a| (a.sin() > 0.0) == is_far) {
            let length = ray.length * (1.0 + draft.chance.bell(0.05));
            let frame = spread(level, out, around, rise + draft.chance.bell(0.05));
            draft.blade(frame, &Blade { length, ..ray }, &hues.lit(0.015 * around.sin()), 2, 0.05);
        }
    };
    row(draft, true, 1.0, &hues.lit(-0.03));
    let eye = Hues::of(POLLEN);
    let (at, radii) = (Point::new(level + 0.25, 0.0), Vec2::new(0.2, 0.38));
    draft.shadow(at, radii * 1.25, 0.0, hues.shade, 0.5);
    within(draft, Affine::translate(at.to_vec2()) * Affine::scale_non_uniform(radii.x, radii.y), |draft| {
        draft.ball(Point::ZERO, 1.0, &eye, 0.0);
        draft.studs(Point::ZERO, 0.94, 50, [0.07, 0.09], &eye);
    });
    row(draft, false, 0.68, hues);
}

/// An anemone's bowl, its dark eye seen over the near tepals, the ruff some way below.
pub(super) fn anemone(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.7);
    stalk(draft, &[(-1.0, 0.0), (-0.4, 0.0)], 0.11, SEPAL);
    let leaf = Hues::of_leaf(Rgb::hex(0x6f9452));
    ruff(draft, (-0.8, 0.0), &[1.3, -1.3, 0.8, -0.8], 0.66, &leaf);
    let petal = Fan { from: 0.3, to: 1.5, half: 0.4, flat: 2.4, wave: 0.03, tip: 0.02, ..Fan::BROAD };
    for (turn, to) in [(-0.74, 1.22), (0.74, 1.22), (-0.36, 1.46), (0.36, 1.46), (0.0, 1.54)] {
        cup_petal(draft, placed((-0.5, 0.0), turn), &Fan { to, ..petal }, &hues.deeper(0.3));
    }
    let ink = Rgb::hex(0x231f3d);
    let dark = Hues { throat: ink.lighter(-0.06), mid: ink, rim: ink.lighter(0.09), edge: ink.lighter(0.2), ..*hues };
    let at = Point::new(0.3, 0.0);
    let pale = [(0.0, WHITE.tint(0.7)), (0.6, WHITE.tint(0.5)), (1.0, WHITE.tint(0.0))];
    draft.group.fill(oval(at, Vec2::new(0.36, 0.6), 0.0), oval_radial(at, Vec2::new(0.36, 0.6), 0.0, &pale));
    within(draft, Affine::translate(at.to_vec2()) * Affine::scale_non_uniform(0.62, 1.0), |draft| {
        draft.stamens([0.14, 0.42], 24, 0.04, ink.lighter(0.08), ink);
        draft.stamens([0.12, 0.3], 16, 0.04, ink.lighter(0.08), ink);
        draft.ball(Point::ZERO, 0.2, &dark, 0.0);
        draft.studs(Point::ZERO, 0.19, 24, [0.02, 0.03], &dark);
    });
    for (turn, to, half) in [(-0.56, 0.98, 0.52), (0.56, 0.98, 0.52), (0.02, 0.8, 0.66)] {
        cup_petal(draft, placed((-0.54, 0.0), turn), &Fan { to, half, ..petal }, hues);
    }
}

/// A carnation whose tuft has spread over its tube.
pub(super) fn carnation(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.7);
    let tube = Hues::of_leaf(Rgb::hex(0x86a283));
    stalk(draft, &[(-1.0, 0.0), (-0.8, 0.0)], 0.11, Rgb::hex(0x86a283));
    within(draft, Affine::translate((-0.12, 0.0)), |draft| {
        for (row, span, count) in [(1.08, 1.5, 13_u32), (0.98, 1.2, 11), (0.84, 1.0, 10), (0.68, 0.8, 8), (0.5, 0.7, 7)]
        {
            for i in 0..count {
                let t = (f64::from(i) + 0.5) / f64::from(count) * 2.0 - 1.0;
                let to = row * (1.0 - 0.16 * t * t) * (1.0 + draft.chance.bell(0.06));
                let fan = Fan { from: to * 0.3, to, half: 0.34, ..Fan::BROAD };
                let turn = t * span + draft.chance.bell(0.08);
                super::ruffled::pinked(draft, &fan, turn, to * 0.5, &hues.deeper(0.45 * (1.08 - row)));
            }
        }
    });
    let profile = [(-0.86, 0.1), (-0.76, 0.22), (-0.4, 0.25), (-0.08, 0.3), (-0.04, 0.27)];
    body(draft, Affine::IDENTITY, &profile, &tube);
    for (y, turn) in [(-0.24, -0.2), (0.24, 0.2), (0.0, 0.0)] {
        let tooth = Blade { length: 0.28, half: 0.1, peak: 0.2, blunt: 0.9, foot: 1.0, wave: 0.0, ..Blade::PETAL };
        draft.blade(placed((-0.12, y), turn), &tooth, &tube, 0, 0.02);
    }
}

/// A lisianthus from above, its petals still wound about each other like the vanes of a wheel.
pub(super) fn lisianthus(draft: &mut Draft, hues: &Hues) {
    draft.cast(0.9, 0.42);
    rose::green_points(draft);
    let start = draft.chance.angle();
    for (ring, (reach, half)) in [(1.0, 0.62), (0.78, 0.66), (0.54, 0.74)].into_iter().enumerate() {
        let count = 5 - u32::try_from(ring).unwrap_or(0).min(2);
        let tones = hues.deeper(0.4 * ring as f64 / 2.0);
        for i in 0..count {
            let turn = start + ring as f64 * 0.5 + f64::from(i) / f64::from(count) * 2.0 * PI;
            let petal = Blade {
                length: reach * 1.06,
                half: reach * half * 0.72,
                peak: 0.66,
                blunt: 0.5,
                foot: 0.3,
                bend: 0.34,
                wave: 0.03,
                notch: 0.0,
            };
            draft.blade(Affine::rotate(turn), &petal, &tones, 3, 0.12);
        }
    }
    let gold = Rgb::hex(0xb3bd5e).mixed(hues.throat, 0.5);
    draft.shadow(Point::ZERO, Vec2::new(0.3, 0.3), 0.0, gold.lighter(-0.22), 0.75);
}
