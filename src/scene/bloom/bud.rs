//! Buds, each closed in the way of its own kind. They stand on a stalk, their tip at +x.

use kurbo::{Affine, Point, Vec2};

use super::placed;
use super::profile::{body, cup_petal, flush, gloss, green, lies, ruff, seam, sepals, stalk, tiled_cup, within};
use super::ruffled::pinked;
use crate::colour::Rgb;
use crate::scene::brush::{add, circle};
use crate::scene::draft::Draft;
use crate::scene::hues::{Hues, SEPAL};
use crate::scene::outline::{Blade, Fan, smooth};

/// A rose's: wound to a point, its long sepals let go of it.
pub(super) fn rose(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.56);
    rose_bud(draft, hues);
}

fn rose_bud(draft: &mut Draft, hues: &Hues) {
    let leaf = green();
    stalk(draft, &[(-1.0, 0.04), (-0.55, 0.0)], 0.11, SEPAL);
    sepals(draft, (-0.5, 0.0), &[(1.5, 0.66), (-1.62, 0.7)], 0.1, &leaf);
    let petal = Fan { from: 0.2, to: 1.52, half: 0.26, flat: 2.0, tip: 0.03, ..Fan::BROAD };
    cup_petal(draft, placed((-0.52, 0.0), 0.03), &petal, &hues.deeper(0.6));
    for (turn, to, half) in [(-0.16, 1.46, 0.3), (0.2, 1.4, 0.33), (-0.27, 1.26, 0.4), (0.26, 1.16, 0.44)] {
        let petal = Fan { to, half, tip: 0.05, ..petal };
        cup_petal(draft, placed((-0.54, 0.0), turn), &petal, &hues.deeper(0.35));
    }
    // The outermost petal is wound round from one side to the other.
    let petal = Fan { from: 0.2, to: 1.0, half: 0.6, flat: 2.2, tip: 0.06, ..Fan::BROAD };
    cup_petal(draft, placed((-0.56, 0.02), -0.1), &petal, hues);
    body(draft, Affine::IDENTITY, &[(-0.74, 0.06), (-0.66, 0.16), (-0.54, 0.17), (-0.44, 0.1)], &leaf);
    sepals(draft, (-0.56, 0.0), &[(0.62, 0.9), (-0.5, 0.86), (0.06, 0.8)], 0.11, &leaf);
}

/// A spray rose's: round and snug, with a green one beside it.
pub(super) fn spray_rose(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.56);
    let leaf = green();
    stalk(draft, &[(-1.0, -0.1), (-0.6, 0.05), (-0.2, 0.46)], 0.06, SEPAL);
    let young = Hues::of(hues.mid.mixed(SEPAL.lighter(0.1), 0.35));
    within(draft, placed((0.0, 0.52), 0.3), |draft| {
        body(draft, Affine::IDENTITY, &[(-0.26, 0.06), (-0.1, 0.19), (0.12, 0.2), (0.36, 0.03)], &young);
        sepals(draft, (-0.24, 0.0), &[(0.5, 0.5), (-0.5, 0.5), (0.0, 0.52)], 0.075, &leaf);
    });
    stalk(draft, &[(-0.9, -0.08), (-0.55, -0.18), (-0.2, -0.2)], 0.08, SEPAL);
    within(draft, Affine::translate((0.12, -0.2)) * Affine::scale(0.78), |draft| {
        sepals(draft, (-0.5, 0.0), &[(1.35, 0.5), (-1.3, 0.5)], 0.09, &leaf);
        let petal = Fan { from: 0.2, to: 1.3, half: 0.5, flat: 2.4, tip: 0.0, ..Fan::BROAD };
        for (turn, to, half, share) in
            [(0.0, 1.34, 0.36, 0.7), (-0.2, 1.3, 0.42, 0.5), (0.24, 1.26, 0.46, 0.4), (-0.3, 1.1, 0.56, 0.25)]
        {
            cup_petal(draft, placed((-0.5, 0.0), turn), &Fan { to, half, ..petal }, &hues.deeper(share));
        }
        cup_petal(draft, placed((-0.52, 0.0), 0.22), &Fan { to: 0.96, half: 0.72, ..petal }, &hues.deeper(0.1));
        sepals(draft, (-0.56, 0.0), &[(0.7, 0.6), (-0.66, 0.6), (0.0, 0.56)], 0.1, &leaf);
    });
}

/// A ranunculus': a ball of many thin petals, like a tulip's head.
pub(super) fn ranunculus(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.56);
    stalk(draft, &[(-1.0, 0.0), (-0.4, 0.0)], 0.15, Rgb::hex(0x8fae62));
    ball_of_petals(draft, hues);
    let leaf = Hues::of_leaf(Rgb::hex(0x93ad66));
    sepals(draft, (-0.62, 0.0), &[(1.15, 0.52), (-1.15, 0.52), (0.42, 0.5), (-0.42, 0.5)], 0.13, &leaf);
}

/// Broad thin petals that wrap about each other to a ball.
fn ball_of_petals(draft: &mut Draft, hues: &Hues) {
    let petal = Fan { from: 0.3, to: 1.6, half: 0.4, flat: 2.3, wave: 0.012, tip: -0.01, ..Fan::BROAD };
    let wraps = [
        (0.05, 1.62, 0.3),
        (-0.2, 1.6, 0.36),
        (0.24, 1.56, 0.42),
        (-0.34, 1.46, 0.5),
        (0.38, 1.36, 0.56),
        (-0.22, 1.24, 0.68),
        (0.26, 1.1, 0.76),
        (-0.1, 0.92, 0.9),
        (0.06, 0.7, 1.05),
    ];
    for (i, (turn, to, half)) in wraps.into_iter().enumerate() {
        cup_petal(draft, placed((-0.62, 0.0), turn), &Fan { to, half, ..petal }, &hues.deeper(0.7 - 0.085 * i as f64));
    }
}

/// A carnation's: a green tube with teeth, and a ruff of pinked petals that pushes out of it.
pub(super) fn carnation(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.56);
    let tube = Hues::of_leaf(Rgb::hex(0x86a283));
    stalk(draft, &[(-1.0, 0.0), (-0.7, 0.0)], 0.12, Rgb::hex(0x86a283));
    carnation_tuft(draft, hues, (0.02, 0.92, 9));
    let profile = [(-0.78, 0.1), (-0.7, 0.24), (-0.3, 0.28), (0.16, 0.33), (0.2, 0.3)];
    body(draft, Affine::IDENTITY, &profile, &tube);
    for (y, turn) in [(-0.26, -0.1), (0.26, 0.1), (-0.1, -0.03), (0.1, 0.05)] {
        let tooth = Blade { length: 0.34, half: 0.1, peak: 0.2, blunt: 0.9, foot: 1.0, wave: 0.0, ..Blade::PETAL };
        draft.blade(placed((0.1, y), turn), &tooth, &tube, 0, 0.02);
    }
    let scale = Blade { length: 0.3, half: 0.15, peak: 0.4, blunt: 0.7, foot: 1.0, ..Blade::PETAL };
    for y in [-0.1, 0.1] {
        draft.blade(placed((-0.78, y), y), &scale, &tube.lit(-0.04), 0, 0.02);
    }
}

/// Pinked petals in a fan out of a tube's mouth: where it is, how far they reach, how many to a row.
pub(super) fn carnation_tuft(draft: &mut Draft, hues: &Hues, (mouth, reach, count): (f64, f64, u32)) {
    within(draft, Affine::translate((mouth, 0.0)), |draft| {
        for (row, span) in [(1.0, 0.78), (0.82, 0.7), (0.62, 0.55)] {
            for i in 0..count {
                let turn = ((f64::from(i) + 0.5) / f64::from(count) * 2.0 - 1.0) * span + draft.chance.bell(0.08);
                let to = reach * row * (1.0 + draft.chance.bell(0.06));
                let fan = Fan { from: to * 0.3, to, half: 0.3, ..Fan::BROAD };
                pinked(draft, &fan, turn, to * 0.4, &hues.deeper(0.6 * (1.0 - row)));
            }
        }
    });
}

/// A lisianthus': petals twisted to a point like an umbrella, pale and green below, sepals like needles.
pub(super) fn lisianthus(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.56);
    let leaf = green();
    stalk(draft, &[(-1.0, 0.03), (-0.6, 0.0)], 0.09, SEPAL);
    sepals(draft, (-0.6, 0.0), &[(0.95, 0.84), (-0.95, 0.84)], 0.06, &leaf);
    let profile = [(-0.66, 0.08), (-0.5, 0.24), (-0.12, 0.39), (0.3, 0.33), (0.72, 0.16), (1.0, 0.02)];
    body(draft, Affine::IDENTITY, &profile, hues);
    let pale = SEPAL.lighter(0.22);
    flush(draft, &profile, (-0.66, 0.0), Vec2::new(0.85, 0.5), pale, 0.9);
    // Each petal winds a third of the way round between foot and tip.
    for start in [-0.5, 0.1, 0.7] {
        let at = |x: f64, t: f64| {
            let i = profile.iter().rposition(|p| p.0 <= x).unwrap_or(0).min(profile.len() - 2);
            let (a, b) = (profile[i], profile[i + 1]);
            let half = a.1 + (b.1 - a.1) * (x - a.0) / (b.0 - a.0);
            (x, half * (start + t * 1.5 - 0.75_f64).clamp(-0.98, 0.98))
        };
        let points: Vec<(f64, f64)> = (0..=8).map(|i| f64::from(i) / 8.0).map(|t| at(-0.34 + 1.28 * t, t)).collect();
        seam(draft, Affine::IDENTITY, &points, 0.045, &hues.deeper(0.1));
    }
    sepals(draft, (-0.66, 0.0), &[(0.42, 0.92), (-0.4, 0.94), (0.02, 0.86)], 0.06, &leaf);
}

/// A freesia's: a comb of buds on a bent stalk, the youngest still green.
pub(super) fn freesia(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.56);
    stalk(draft, &[(-1.0, -0.5), (-0.56, -0.3), (-0.36, 0.0), (-0.32, 0.34), (-0.36, 0.62)], 0.07, SEPAL);
    for (i, y) in [0.58, 0.4, 0.16, -0.16].into_iter().enumerate() {
        let t = i as f64 / 3.0;
        let long = 0.5 + 0.76 * t;
        let tones = Hues::of(SEPAL.lighter(0.12).mixed(hues.mid, (t * 1.25).min(1.0))).lit(0.01);
        within(draft, placed((-0.34 - 0.04 * t, y), 0.42 - 0.5 * t), |draft| {
            let w = 0.09 + 0.085 * t;
            let profile =
                [(0.0, w * 0.4), (long * 0.3, w * 0.62), (long * 0.68, w), (long * 0.9, w * 0.66), (long, 0.01)];
            body(draft, Affine::IDENTITY, &profile, &tones);
            seam(
                draft,
                Affine::IDENTITY,
                &[(long * 0.3, w * 0.1), (long * 0.7, w * 0.36), (long * 0.98, 0.0)],
                0.025,
                &tones,
            );
            flush(draft, &profile, (0.0, 0.0), Vec2::new(long * 0.5, w * 1.4), SEPAL, 0.6);
            let tooth = Blade { length: 0.24, half: w * 0.75, peak: 0.4, blunt: 0.7, foot: 0.9, ..Blade::PETAL };
            draft.blade(Affine::translate((-0.05, 0.0)), &tooth, &green(), 0, 0.02);
        });
    }
}

/// An anemone's: silky tepals that close over the eye, a ruff of divided leaves close under them.
pub(super) fn anemone(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.56);
    stalk(draft, &[(-1.0, 0.0), (-0.4, 0.0)], 0.12, SEPAL);
    let leaf = Hues::of_leaf(Rgb::hex(0x6f9452));
    ruff(draft, (-0.6, 0.0), &[1.35, -1.35, 0.95, -0.95], 0.82, &leaf);
    let petal = Fan { from: 0.25, to: 1.4, half: 0.46, flat: 2.2, tip: 0.04, wave: 0.02, ..Fan::BROAD };
    for (turn, to, half, share) in
        [(0.0, 1.5, 0.4, 0.6), (-0.3, 1.42, 0.42, 0.4), (0.32, 1.42, 0.42, 0.4), (-0.12, 1.24, 0.6, 0.2)]
    {
        cup_petal(draft, placed((-0.56, 0.0), turn), &Fan { to, half, ..petal }, &hues.deeper(share));
    }
    cup_petal(draft, placed((-0.56, 0.0), 0.18), &Fan { to: 1.06, half: 0.62, ..petal }, hues);
    ruff(draft, (-0.62, 0.0), &[0.55, -0.55, 0.0], 0.6, &leaf);
}

/// A daisy's: an egg in a cup of tiled bracts; the rays fold inward over the disc, tip to tip.
pub(super) fn daisy(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.5);
    stalk(draft, &[(-0.74, 0.0), (-0.4, 0.0)], 0.11, SEPAL);
    let young = hues.mid.mixed(Rgb::hex(0xd5d88a), 0.35);
    body(draft, Affine::IDENTITY, &[(-0.1, 0.5), (0.3, 0.46), (0.54, 0.22), (0.64, 0.02)], &Hues::of(young));
    for (count, foot, long, by) in [(8_u32, 0.06, 0.72, -0.03), (7, 0.0, 0.64, 0.0), (6, -0.04, 0.5, 0.02)] {
        // The outer ones first: those in the middle lie over them.
        let mut places: Vec<f64> = (0..count).map(|i| (f64::from(i) + 0.5) / f64::from(count) * 2.0 - 1.0).collect();
        places.sort_by(|a, b| b.abs().total_cmp(&a.abs()));
        for t in places {
            let ray = Blade {
                length: long * (1.0 - 0.16 * t * t) * (1.0 + draft.chance.bell(0.04)),
                half: 0.135,
                peak: 0.5,
                blunt: 0.6,
                foot: 0.8,
                bend: -t * 0.3,
                ..Blade::PETAL
            };
            draft.blade(placed((foot, t * 0.47), t * -0.16), &ray, &hues.lit(by), 2, 0.05);
        }
    }
    within(draft, Affine::translate((0.04, 0.0)), |draft| tiled_cup(draft, 0.55, 0.52, &green()));
}

/// A button chrysanthemum's: the petals curl inward to a knob over tiled bracts.
pub(super) fn button_mum(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.56);
    stalk(draft, &[(-1.0, 0.0), (-0.5, 0.0)], 0.13, SEPAL);
    draft.ball(Point::new(0.24, 0.0), 0.68, &hues.deeper(0.5), 0.0);
    let foot = (-0.42, 0.0);
    for (row, count) in [(1.36, 7_u32), (1.2, 9), (1.02, 10), (0.84, 9), (0.66, 8)] {
        for i in 0..count {
            let t = (f64::from(i) + 0.5) / f64::from(count) * 2.0 - 1.0;
            let turn = t * (1.36 - row * 0.66) * 1.2;
            let long = row * (1.0 - 0.16 * t * t);
            let fan = Fan { from: long * 0.5, to: long, half: 0.17, flat: 2.2, ..Fan::BROAD };
            cup_petal(draft, placed(foot, turn), &fan, &hues.deeper(0.25));
        }
    }
    within(draft, Affine::translate((-0.24, 0.0)), |draft| tiled_cup(draft, 0.5, 0.46, &green()));
}

/// A drumstick's: a small hard green ball on its stalk.
pub(super) fn craspedia(draft: &mut Draft, hues: &Hues, ripe: f64) {
    lies(draft, 0.56);
    let leaf = Rgb::hex(0x9aab4a);
    let r = 0.56 + 0.2 * ripe;
    stalk(draft, &[(-0.62, 0.05), (0.1, 0.0)], 0.12, Rgb::hex(0x8ea05a));
    let tones = Hues::of(hues.mid.mixed(leaf, 0.85 - 0.5 * ripe));
    within(draft, Affine::translate((1.0 - r, 0.0)) * Affine::scale(r), |draft| {
        super::knob::drumstick(draft, &tones, if ripe > 0.5 { 110 } else { 56 });
    });
}

/// A stephanotis': a long white tube, swollen where it begins, and a pointed knob on it. Two together.
pub(super) fn stephanotis(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.56);
    let wax = Hues { throat: hues.throat.mixed(hues.mid, 0.4), ..*hues };
    for (foot, turn, size) in [((-0.7, -0.2), 0.52, 0.9), ((-0.76, 0.12), -0.42, 1.0)] {
        within(draft, placed(foot, turn) * Affine::scale(size), |draft| {
            stalk(draft, &[(-0.2, 0.0), (0.04, 0.0)], 0.07, SEPAL);
            let profile = [
                (0.0, 0.14),
                (0.16, 0.2),
                (0.5, 0.125),
                (0.96, 0.12),
                (1.2, 0.24),
                (1.42, 0.25),
                (1.66, 0.12),
                (1.8, 0.01),
            ];
            body(draft, Affine::IDENTITY, &profile, &wax);
            for v in [-0.5, 0.4] {
                seam(draft, Affine::IDENTITY, &[(1.08, v * 0.2), (1.36, v * 0.24), (1.78, 0.0)], 0.03, &wax);
            }
            flush(draft, &profile, (0.0, 0.0), Vec2::new(0.5, 0.4), Rgb::hex(0xb9c98a), 0.7);
            sepals(draft, (-0.04, 0.0), &[(0.8, 0.24), (-0.8, 0.24), (0.0, 0.22)], 0.075, &green());
            gloss(draft, Point::new(1.36, 0.1 * draft.light.sin()), Vec2::new(0.2, 0.06), 0.0, 0.6);
        });
    }
}

/// An alstroemeria's: a club with green tips, ribs along it, a young one beside it.
pub(super) fn alstroemeria(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.56);
    stalk(draft, &[(-1.0, 0.0), (-0.7, 0.2), (-0.3, 0.5)], 0.055, SEPAL);
    for (foot, turn, size, young) in [((-0.4, 0.44), 0.16, 0.62, 0.5), ((-0.78, -0.16), -0.02, 1.0, 0.0)] {
        let tones = Hues::of(hues.mid.mixed(SEPAL.lighter(0.1), young)).lit(0.02);
        within(draft, placed(foot, turn) * Affine::scale(size), |draft| {
            stalk(draft, &[(-0.22, 0.0), (0.02, 0.0)], 0.08, SEPAL);
            let profile = [(0.0, 0.12), (0.3, 0.2), (0.9, 0.36), (1.35, 0.36), (1.66, 0.22), (1.78, 0.02)];
            body(draft, Affine::IDENTITY, &profile, &tones);
            for v in [-0.62, 0.0, 0.62] {
                seam(
                    draft,
                    Affine::IDENTITY,
                    &[(0.2, v * 0.16), (0.9, v * 0.38), (1.4, v * 0.36), (1.74, 0.0)],
                    0.035,
                    &tones,
                );
            }
            flush(draft, &profile, (1.78, 0.0), Vec2::new(0.44, 0.4), SEPAL, 1.0);
            body(draft, Affine::IDENTITY, &[(-0.06, 0.07), (0.02, 0.15), (0.2, 0.17), (0.28, 0.12)], &green());
        });
    }
}

/// A nerine's: slim buds on their own stalks out of one sheath.
pub(super) fn nerine(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.56);
    let reddish = SEPAL.mixed(hues.mid, 0.3);
    stalk(draft, &[(-1.0, 0.0), (-0.6, 0.0)], 0.13, SEPAL);
    for (turn, long) in [(-0.66, 1.3), (0.62, 1.34), (-0.36, 1.5), (0.3, 1.52), (-0.03, 1.62)] {
        within(draft, placed((-0.64, 0.0), turn), |draft| {
            stalk(draft, &[(0.0, 0.0), (long * 0.45, 0.02)], 0.045, reddish);
            let profile = [(0.42, 0.04), (0.6, 0.09), (0.8, 0.125), (0.94, 0.08), (1.0, 0.005)];
            let profile = profile.map(|(x, w)| (x * long, w));
            body(draft, Affine::IDENTITY, &profile, hues);
            seam(draft, Affine::IDENTITY, &[(0.5 * long, 0.0), (0.8 * long, 0.05), (0.98 * long, 0.0)], 0.022, hues);
        });
    }
    let sheath = Hues::of_leaf(Rgb::hex(0xb89a86));
    sepals(draft, (-0.68, 0.0), &[(0.5, 0.56), (-0.5, 0.56)], 0.09, &sheath);
}

/// A star floret's: slender tubes with square tips, like tiny balloons, three together.
pub(super) fn star_floret(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.56);
    for (turn, long, young) in [(0.44, 1.42, 0.35), (-0.42, 1.5, 0.2), (0.02, 1.84, 0.0)] {
        let tones = Hues::of(hues.mid.mixed(SEPAL.lighter(0.15), young)).lit(0.03);
        within(draft, placed((-0.84, 0.0), turn), |draft| {
            let profile =
                [(0.0, 0.05), (0.2, 0.07), (long * 0.62, 0.075), (long * 0.74, 0.2), (long * 0.9, 0.19), (long, 0.03)];
            body(draft, Affine::IDENTITY, &profile, &tones);
            seam(draft, Affine::IDENTITY, &[(long * 0.66, 0.0), (long * 0.8, 0.03), (long * 0.98, 0.0)], 0.035, &tones);
            sepals(draft, (-0.02, 0.0), &[(0.4, 0.3), (-0.4, 0.3)], 0.05, &green());
        });
    }
    stalk(draft, &[(-1.0, 0.0), (-0.82, 0.0)], 0.1, SEPAL);
}

/// A delphinium's: a plump bud with its spur held out behind, as a dolphin its tail.
pub(super) fn delphinium(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.56);
    stalk(draft, &[(-0.9, 0.72), (-0.56, 0.42), (-0.2, 0.16)], 0.07, SEPAL);
    within(draft, placed((-0.06, 0.0), 0.32), |draft| {
        let profile = [(-0.98, 0.035), (-0.7, 0.06), (-0.4, 0.11), (-0.2, 0.24)];
        body(draft, Affine::IDENTITY, &profile, &hues.deeper(0.25));
    });
    let profile = [(-0.4, 0.12), (-0.2, 0.42), (0.2, 0.54), (0.6, 0.42), (0.9, 0.16), (1.0, 0.02)];
    body(draft, Affine::IDENTITY, &profile, hues);
    for points in
        [[(-0.3, -0.1), (0.2, -0.3), (0.7, -0.16), (0.97, 0.0)], [(-0.3, 0.12), (0.2, 0.22), (0.7, 0.14), (0.97, 0.0)]]
    {
        seam(draft, Affine::IDENTITY, &points, 0.045, hues);
    }
    let tip = Rgb::hex(0x8fa06a).mixed(hues.mid, 0.4);
    flush(draft, &profile, (1.0, 0.0), Vec2::new(0.4, 0.36), tip, 0.9);
    gloss(draft, Point::new(0.2, 0.26 * draft.light.sin()), Vec2::new(0.3, 0.1), 0.0, 0.3);
}

/// A hydrangea's: a bunch of beads, green before they colour.
pub(super) fn hydrangea(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.9);
    let places = [
        (-0.5, -0.42),
        (-0.5, 0.42),
        (-0.55, 0.0),
        (0.0, -0.66),
        (0.0, 0.64),
        (0.5, -0.4),
        (0.52, 0.4),
        (-0.08, -0.22),
        (-0.06, 0.24),
        (0.4, 0.0),
    ];
    for (x, y) in places {
        stalk(draft, &[(-0.95, 0.0), (-0.6, y * 0.5), (x, y)], 0.045, SEPAL.lighter(0.05));
    }
    for (i, place) in places.into_iter().enumerate() {
        let share = 0.25 + 0.06 * i as f64;
        let tones = Hues::of(Rgb::hex(0xc3d29a).mixed(hues.mid, share.min(0.8)));
        let r = 0.25 + draft.chance.bell(0.02) + 0.012 * i as f64;
        let centre = Point::from(place);
        draft.shadow(centre - draft.lightward() * (r * 0.3), Vec2::new(r, r) * 1.2, 0.0, hues.shade, 0.4);
        draft.ball(centre, r, &tones, 0.16);
        // Four sepals meet on each bead like a folded letter.
        let mut folds = smooth(&[Point::new(-r * 0.8, 0.0), Point::new(0.0, r * 0.1), Point::new(r * 0.8, 0.0)], false);
        let other = Affine::rotate(std::f64::consts::FRAC_PI_2) * folds.clone();
        add(&mut folds, &other);
        let frame = placed(centre, draft.chance.angle());
        draft.stroke(frame, folds, 0.016, tones.throat.lighter(-0.05).paint(0.5));
    }
}

/// A sweet pea's: the banner still folded over wings and keel, bent like a little boat; five teeth hold it.
pub(super) fn sweet_pea(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.56);
    stalk(draft, &[(-1.0, 0.4), (-0.72, 0.1), (-0.52, -0.02)], 0.08, SEPAL);
    let fold = Fan { from: 0.2, to: 1.5, half: 0.42, flat: 2.4, wave: 0.03, ripples: 3.0, tip: 0.0 };
    cup_petal(draft, placed((-0.56, -0.04), 0.28), &fold, &hues.deeper(0.5));
    let keel = Blade { length: 1.1, half: 0.2, peak: 0.6, blunt: 0.6, foot: 0.6, bend: -0.1, ..Blade::PETAL };
    draft.blade(placed((-0.5, 0.0), 0.18), &keel, &Hues::of(hues.edge.lighter(0.02)), 2, 0.05);
    cup_petal(draft, placed((-0.56, -0.06), -0.18), &Fan { half: 0.5, ..fold }, hues);
    seam(draft, placed((-0.56, -0.06), -0.18), &[(0.2, 0.02), (0.8, 0.12), (1.42, 0.06)], 0.04, hues);
    sepals(draft, (-0.68, 0.0), &[(0.75, 0.5), (-0.7, 0.5), (0.3, 0.52), (-0.3, 0.5), (0.0, 0.5)], 0.085, &green());
}

/// An astrantia's: papery bracts that stand about the florets like a shuttlecock.
pub(super) fn astrantia(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.56);
    stalk(draft, &[(-1.0, 0.0), (-0.5, 0.0)], 0.08, SEPAL);
    let tips = Hues { edge: hues.edge.mixed(Rgb::hex(0x8aa05f), 0.6), ..*hues };
    let bract = Blade { length: 1.5, half: 0.17, peak: 0.56, blunt: 0.85, foot: 0.5, notch: -0.04, ..Blade::PETAL };
    for (count, span, long, by) in [(7_u32, 0.48, 1.52, -0.04), (6, 0.34, 1.34, 0.0), (5, 0.18, 1.12, 0.02)] {
        for i in 0..count {
            let t = (f64::from(i) + 0.5) / f64::from(count) * 2.0 - 1.0;
            let one = Blade { length: long * (1.0 - 0.1 * t * t), bend: -t * 0.06, ..bract };
            draft.blade(placed((-0.56, 0.0), t * span * 1.2), &one, &tips.lit(by), 3, 0.05);
        }
    }
    body(draft, Affine::IDENTITY, &[(-0.72, 0.05), (-0.62, 0.16), (-0.46, 0.15)], &green());
}

/// A scabiosa's: a flat green button of closed florets over a star of narrow bracts.
pub(super) fn scabiosa(draft: &mut Draft, hues: &Hues) {
    draft.cast(0.8, 0.4);
    let leaf = Hues::of_leaf(Rgb::hex(0x7f9a58));
    sepals(draft, (0.0, 0.0), &super::around(11, 0.2).map(|a| (a, 1.0)).collect::<Vec<_>>(), 0.1, &leaf);
    let florets = Hues::of(Rgb::hex(0xb9c98e).mixed(hues.mid, 0.3));
    let outer = Hues::of(Rgb::hex(0xb9c98e).mixed(hues.mid, 0.75));
    for (reach, count, r, tones) in [(0.58, 12_u32, 0.16, outer), (0.33, 8, 0.14, florets), (0.1, 3, 0.12, florets)] {
        for a in super::around(count, draft.chance.angle()) {
            let centre = crate::scene::brush::polar(a, reach);
            draft.shadow(centre - draft.lightward() * 0.05, Vec2::new(r, r) * 1.15, 0.0, leaf.shade, 0.4);
            draft.ball(centre, r, &tones, 0.0);
            draft.group.fill(circle(centre, r * 0.22), tones.throat.paint(0.5));
        }
    }
}

/// A sea holly's: a green cone in spines that still point up.
pub(super) fn thistle(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.56);
    let leaf = Hues::of_leaf(Rgb::hex(0x86a08c));
    stalk(draft, &[(-1.0, 0.0), (-0.4, 0.0)], 0.12, Rgb::hex(0x86a08c));
    ruff(draft, (-0.5, 0.0), &[1.2, -1.2, 0.75, -0.75], 0.92, &leaf);
    let cone = Hues::of(hues.mid.mixed(Rgb::hex(0x9fb48a), 0.55));
    let profile = [(-0.5, 0.2), (-0.3, 0.44), (0.1, 0.44), (0.55, 0.26), (0.8, 0.08)];
    body(draft, Affine::IDENTITY, &profile, &cone);
    within(draft, Affine::translate((0.08, 0.0)) * Affine::scale_non_uniform(1.36, 0.92), |draft| {
        draft.studs(Point::ZERO, 0.46, 56, [0.04, 0.05], &cone);
    });
    ruff(draft, (-0.6, 0.0), &[0.42, -0.42, 0.0], 0.66, &leaf);
}

/// A cymbidium's: a plump bud, keeled, its stalk bent.
pub(super) fn cymbidium(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.56);
    stalk(draft, &[(-1.0, 0.36), (-0.84, 0.1), (-0.5, 0.0)], 0.13, SEPAL);
    let profile = [(-0.66, 0.12), (-0.5, 0.4), (-0.1, 0.66), (0.4, 0.62), (0.8, 0.3), (1.0, 0.03)];
    body(draft, Affine::IDENTITY, &profile, hues);
    for v in [-0.5, 0.3] {
        seam(draft, Affine::IDENTITY, &[(-0.5, v * 0.3), (0.1, v * 0.62), (0.6, v * 0.46), (0.97, 0.0)], 0.05, hues);
    }
    let green = SEPAL.mixed(hues.rim, 0.25);
    flush(draft, &profile, (-0.66, 0.0), Vec2::new(0.9, 0.8), green, 0.8);
    gloss(draft, Point::new(0.2, 0.3 * draft.light.sin()), Vec2::new(0.4, 0.12), 0.0, 0.35);
}
