//! Cups from the side: rose, spray rose, ranunculus, lisianthus, carnation, tulip. Petals stand up from one foot, the far ones
//! first; sepals hold them.

use kurbo::{Affine, Point, Vec2};

use super::super::placed;
use super::super::profile::{body, green, sepals, standing_threads, within};
use super::super::ruffled::pinked;
use super::FROM_ABOVE;
use crate::colour::Rgb;
use crate::scene::brush::{oval, oval_radial};
use crate::scene::draft::{Draft, Sits};
use crate::scene::hues::{Hues, POLLEN};
use crate::scene::outline::{Blade, Fan};

/// A petal of a cup: its turn from the axis, its reach as a share of the cup's there, half the angle it spans, how much
/// deeper its tone is.
type Wrap = (f64, f64, f64, f64);

/// A cup in the making.
struct Cup {
    /// How high its petals reach over their foot.
    high: f64,
    /// How high the foot is.
    foot: f64,
    /// How thick rims roll.
    roll: f64,
    /// What all petals share.
    fan: Fan,
}

impl Cup {
    fn petals(&self, draft: &mut Draft, wraps: &[Wrap], hues: &Hues) {
        within(draft, Affine::translate((self.foot, 0.0)), |draft| {
            for &(turn, share, half, deep) in wraps {
                let turn = turn + draft.chance.bell(0.05);
                let to = share * self.reach(turn) * (1.0 + draft.chance.bell(0.02));
                let fan = Fan { from: to * 0.2, to, half: half * (1.0 + draft.chance.bell(0.06)), ..self.fan };
                // Backs of petals: the lit side is the one that faces the light, and they are not deep at their foot.
                let tones = hues.deeper(deep).lit(0.035 * (turn - draft.light).cos() - 0.016);
                let tones = Hues { throat: tones.throat.mixed(tones.mid, 0.25 - 0.2 * deep), ..tones };
                let roll = self.roll * draft.chance.between(0.7, 1.2);
                draft.fan(&fan, Sits { turn, hidden: to * 0.34, roll, lift: 0.07 }, &tones);
            }
        });
    }

    /// The cup's outline is half an oval as wide as the bloom.
    fn reach(&self, turn: f64) -> f64 {
        1.0 / (turn.cos() / self.high).hypot(turn.sin())
    }

    /// The green body that petals stand on.
    fn hip(&self, draft: &mut Draft, half: f64) {
        let top = self.foot;
        body(
            draft,
            Affine::IDENTITY,
            &[(0.0, half * 0.45), (top * 0.4, half * 0.95), (top, half), (top * 1.35, half * 0.6)],
            &green(),
        );
    }
}

const ROSE_FAR: [Wrap; 5] = [
    (-0.88, 1.0, 0.48, 0.4),
    (0.88, 1.0, 0.48, 0.45),
    (-0.5, 0.98, 0.46, 0.5),
    (0.52, 0.97, 0.46, 0.5),
    (0.0, 1.0, 0.46, 0.6),
];
const ROSE_HEART: [Wrap; 5] = [
    (-0.15, 0.89, 0.3, 0.85),
    (0.17, 0.87, 0.32, 0.8),
    (-0.38, 0.92, 0.34, 0.65),
    (0.4, 0.9, 0.36, 0.6),
    (0.02, 0.81, 0.5, 0.5),
];
const ROSE_NEAR: [Wrap; 6] = [
    (-0.44, 0.95, 0.46, 0.45),
    (0.5, 0.93, 0.46, 0.45),
    (-0.84, 0.98, 0.46, 0.2),
    (0.86, 0.97, 0.46, 0.25),
    (0.16, 0.84, 0.7, 0.25),
    (-0.3, 0.71, 0.76, 0.05),
];

pub(crate) fn rose(draft: &mut Draft, high: f64, hues: &Hues) {
    let fan = Fan { flat: 2.5, wave: 0.022, tip: 0.03, ..Fan::BROAD };
    let cup = Cup { high: high * 0.86, foot: high * 0.14, roll: 0.1, fan };
    curled_sepals(draft, &cup, &[1.75, -1.75]);
    cup.petals(draft, &ROSE_FAR, hues);
    wound_heart(draft, high, hues);
    cup.petals(draft, &ROSE_HEART, hues);
    cup.petals(draft, &ROSE_NEAR, hues);
    cup.hip(draft, 0.15);
    curled_sepals(draft, &cup, &[1.3, -1.25, 0.7, -0.62]);
}

/// What is seen of the heart over the rims before it: petals wound about each other, nearly on edge.
fn wound_heart(draft: &mut Draft, high: f64, hues: &Hues) {
    let frame = Affine::translate((high * 0.9, 0.0)) * Affine::scale_non_uniform(0.4 * FROM_ABOVE, 0.4);
    within(draft, frame, |draft| {
        // Nearly on edge little of its depth is seen; as deep as from above a white one would look brown.
        let tones = Hues { throat: hues.throat.mixed(hues.mid, 0.6), ..*hues };
        draft.ball(Point::ZERO, 1.0, &tones.deeper(0.4), 0.0);
        super::super::rose::heart(draft, &tones, 1.1);
    });
}

/// Sepals that let go of the cup and bend outward.
fn curled_sepals(draft: &mut Draft, cup: &Cup, turns: &[f64]) {
    let long = 0.34 * cup.high.min(1.1);
    let list: Vec<(f64, f64)> = turns.iter().map(|&turn| (turn, long)).collect();
    sepals(draft, (cup.foot * 0.85, 0.0), &list, 0.055, &green());
}

pub(crate) fn spray_rose(draft: &mut Draft, high: f64, hues: &Hues) {
    let fan = Fan { flat: 2.7, wave: 0.02, ..Fan::BROAD };
    let cup = Cup { high: high * 0.85, foot: high * 0.15, roll: 0.085, fan };
    curled_sepals(draft, &cup, &[1.6, -1.6]);
    cup.petals(draft, &ROSE_FAR, hues);
    wound_heart(draft, high, hues);
    cup.petals(draft, &ROSE_HEART[2..], hues);
    cup.petals(draft, &[ROSE_NEAR[0], ROSE_NEAR[1], ROSE_NEAR[2], ROSE_NEAR[3]], hues);
    cup.petals(draft, &[(-0.18, 0.82, 0.72, 0.25), (0.34, 0.68, 0.8, 0.0)], hues);
    cup.hip(draft, 0.17);
    curled_sepals(draft, &cup, &[1.25, -1.2, 0.55, -0.5]);
}

/// Thin layers wrapped to a ball, its eye hidden.
pub(crate) fn ranunculus(draft: &mut Draft, high: f64, hues: &Hues) {
    const LAYERS: u32 = 8;
    let fan = Fan { flat: 3.2, wave: 0.01, ..Fan::BROAD };
    let cup = Cup { high: high * 0.88, foot: high * 0.12, roll: 0.036, fan };
    cup.petals(draft, &ROSE_FAR[..2], hues);
    for layer in 0..LAYERS {
        let t = f64::from(layer) / f64::from(LAYERS - 1);
        let lean = if layer % 2 == 0 { 0.16 } else { -0.14 };
        cup.petals(draft, &[(lean, 1.0 - 0.3 * t, 0.62 + 0.4 * t, 0.9 - 0.7 * t)], hues);
    }
    // The outer petals hold the ball as a bowl.
    let bowl = [(-0.92, 0.97, 0.5, 0.15), (0.94, 0.97, 0.5, 0.2), (-0.4, 0.66, 0.62, 0.1), (0.44, 0.6, 0.66, 0.0)];
    cup.petals(draft, &bowl, hues);
    let leaf = Hues::of_leaf(Rgb::hex(0x93ad66));
    cup.hip(draft, 0.16);
    let long = 0.4 * high.min(1.2);
    sepals(draft, (cup.foot * 0.8, 0.0), &[(1.2, long), (-1.2, long), (0.5, long), (-0.5, long)], 0.1, &leaf);
}

/// A wide bell of wavy petals; pistil and anthers show over the near ones.
pub(crate) fn lisianthus(draft: &mut Draft, high: f64, hues: &Hues) {
    let gold = Rgb::hex(0xb3bd5e);
    let fan = Fan { flat: 2.3, wave: 0.05, ripples: 2.6, ..Fan::BROAD };
    let cup = Cup { high: high * 0.92, foot: high * 0.08, roll: 0.05, fan };
    sepals(draft, (0.03, 0.0), &[(1.3, 0.5), (-1.3, 0.5)], 0.045, &green());
    let far = [(-0.95, 1.0, 0.46, 0.3), (0.95, 1.0, 0.46, 0.3), (-0.42, 1.0, 0.5, 0.4), (0.44, 1.0, 0.5, 0.45)];
    cup.petals(draft, &far, hues);
    let (at, radii) = (Point::new(high * 0.62, 0.0), Vec2::new(high * 0.2, 0.5));
    let well =
        [(0.0, gold.lighter(-0.12).tint(0.9)), (0.6, gold.mixed(hues.throat, 0.5).tint(0.6)), (1.0, gold.tint(0.0))];
    draft.group.fill(oval(at, radii, 0.0), oval_radial(at, radii, 0.0, &well));
    standing_threads(draft, Point::new(high * 0.5, 0.0), 0.7, high * 0.28, 6, [Rgb::hex(0xd9d69a), POLLEN]);
    let near = [
        (-0.98, 0.93, 0.42, 0.1),
        (1.0, 0.94, 0.42, 0.15),
        (-0.46, 0.72, 0.56, 0.1),
        (0.5, 0.7, 0.56, 0.05),
        (0.0, 0.6, 0.62, 0.0),
    ];
    cup.petals(draft, &near, hues);
    cup.hip(draft, 0.1);
    sepals(draft, (0.05, 0.0), &[(0.62, 0.52), (-0.6, 0.5), (0.0, 0.46)], 0.05, &green());
}

/// An egg of six tepals on a bare stalk: three seen over the rims of three.
pub(crate) fn tulip(draft: &mut Draft, high: f64, hues: &Hues) {
    let fan = Fan { flat: 2.1, wave: 0.012, tip: 0.06, ..Fan::BROAD };
    let cup = Cup { high: high * 0.97, foot: high * 0.03, roll: 0.03, fan };
    cup.petals(draft, &[(-0.5, 1.0, 0.5, 0.45), (0.52, 1.0, 0.5, 0.45), (0.0, 1.0, 0.42, 0.5)], hues);
    cup.petals(draft, &[(-0.6, 0.96, 0.62, 0.2), (0.62, 0.95, 0.62, 0.2), (0.02, 0.9, 0.62, 0.05)], hues);
    cup.hip(draft, 0.07);
}

/// A green tube, and a half dome of pinked petals over it.
pub(crate) fn carnation(draft: &mut Draft, high: f64, hues: &Hues) {
    let foot = high * 0.3;
    let (up, out) = (high - foot, 0.98);
    within(draft, Affine::translate((foot, 0.0)), |draft| {
        for (row, span, count) in
            [(1.0, 1.62, 15_u32), (0.92, 1.5, 13), (0.82, 1.4, 12), (0.7, 1.3, 11), (0.56, 1.2, 9), (0.42, 1.0, 7)]
        {
            for i in 0..count {
                let t = (f64::from(i) + 0.5) / f64::from(count) * 2.0 - 1.0;
                let turn = t * span + draft.chance.bell(0.07);
                let to = row / (turn.cos() / up).hypot(turn.sin() / out) * (1.0 + draft.chance.bell(0.05));
                let fan = Fan { from: to * 0.3, to, half: 0.3, ..Fan::BROAD };
                pinked(draft, &fan, turn, to * 0.5, &hues.deeper(0.5 * (row - 0.42)).lit(0.03 * (1.0 - row)));
            }
        }
    });
    let tube = Hues::of_leaf(Rgb::hex(0x86a283));
    let profile = [(0.0, 0.1), (foot * 0.15, 0.19), (foot * 0.7, 0.22), (foot * 1.25, 0.27), (foot * 1.3, 0.24)];
    body(draft, Affine::IDENTITY, &profile, &tube);
    for (y, turn) in [(-0.2, -0.3), (0.2, 0.3), (0.0, 0.0)] {
        let tooth = Blade { length: 0.22, half: 0.08, peak: 0.2, blunt: 0.9, foot: 1.0, wave: 0.0, ..Blade::PETAL };
        draft.blade(placed((foot * 1.18, y), turn), &tooth, &tube, 0, 0.02);
    }
}
