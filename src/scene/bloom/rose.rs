//! Blooms of many broad petals in rings: rose, spray rose, ranunculus, lisianthus, and the succulent rosette.

use kurbo::{Point, Vec2};

use super::{around, ring};
use crate::colour::Rgb;
use crate::scene::brush::{circle, polar, radial};
use crate::scene::draft::{Draft, Sits};
use crate::scene::hues::{Hues, POLLEN, SEPAL};
use crate::scene::outline::{Blade, Fan, between};

/// A ring of petals: how many, how far they reach, half the angle each spans, how thick the rim rolls.
type Ring = (u32, f64, f64, f64);

/// What all petals of a bloom share.
#[derive(Clone, Copy)]
struct Manner {
    /// Everything is this much larger than the rings say.
    grow: f64,
    /// How much of a tip the outer petals have.
    tip: f64,
    /// How flat rims are.
    flat: f64,
    /// How wavy rims are.
    wave: f64,
    /// How high petals float.
    lift: f64,
}

const ROSE: [Ring; 8] = [
    (5, 1.00, 0.80, 0.11),
    (5, 0.87, 0.80, 0.12),
    (5, 0.725, 0.84, 0.105),
    (4, 0.58, 0.94, 0.085),
    (4, 0.45, 1.02, 0.07),
    (3, 0.335, 1.16, 0.055),
    (3, 0.235, 1.28, 0.04),
    (2, 0.15, 1.5, 0.03),
];

/// A garden or florist's rose from above.
pub(crate) fn rose(draft: &mut Draft, hues: &Hues) {
    draft.cast(1.0, 0.5);
    petals(draft, hues, &ROSE, Manner { grow: 1.0, tip: 0.05, flat: 2.6, wave: 0.03, lift: 0.085 });
    heart(draft, hues, 0.16);
}

/// A rose that still stands high in its middle: fewer rings, sepals under them.
pub(crate) fn rose_half_open(draft: &mut Draft, hues: &Hues) {
    from_fewer_rings(draft, hues, &ROSE[2..], Manner { grow: 1.0, tip: 0.05, flat: 2.4, wave: 0.03, lift: 0.1 }, 0.16);
}

/// The inner rings alone, as large as the whole, on their sepals.
fn from_fewer_rings(draft: &mut Draft, hues: &Hues, rings: &[Ring], manner: Manner, size_of_heart: f64) {
    draft.cast(1.0, 0.5);
    green_points(draft);
    let grow = 1.0 / rings[0].1;
    petals(draft, hues, rings, Manner { grow, ..manner });
    heart(draft, hues, size_of_heart * grow);
}

const SPRAY_ROSE: [Ring; 5] =
    [(5, 1.00, 0.86, 0.085), (5, 0.83, 0.88, 0.09), (4, 0.62, 1.0, 0.08), (3, 0.42, 1.2, 0.06), (3, 0.25, 1.35, 0.045)];

/// A spray rose: fewer petals, a cup with a snug heart.
pub(crate) fn spray_rose(draft: &mut Draft, hues: &Hues) {
    draft.cast(1.0, 0.5);
    petals(draft, hues, &SPRAY_ROSE, Manner { grow: 1.0, tip: 0.012, flat: 2.6, wave: 0.03, lift: 0.085 });
    heart(draft, hues, 0.2);
}

/// A spray rose half open.
pub(crate) fn spray_rose_half_open(draft: &mut Draft, hues: &Hues) {
    let manner = Manner { grow: 1.0, tip: 0.012, flat: 2.6, wave: 0.03, lift: 0.085 };
    from_fewer_rings(draft, hues, &SPRAY_ROSE[1..], manner, 0.2);
}

/// A ranunculus: layer upon layer of thin petals about a green eye.
pub(crate) fn ranunculus(draft: &mut Draft, hues: &Hues) {
    const LAYERS: u32 = 9;
    draft.cast(1.0, 0.5);
    let rings: Vec<Ring> = (0..LAYERS)
        .map(|i| {
            let t = f64::from(i) / f64::from(LAYERS);
            (if i < 7 { 5 } else { 4 }, 1.0 - 0.86 * t.powf(0.9), 0.78 + 0.45 * t, 0.034 * (1.0 - 0.5 * t))
        })
        .collect();
    petals(draft, hues, &rings, Manner { grow: 1.0, tip: 0.0, flat: 3.4, wave: 0.012, lift: 0.055 });
    let green = Hues::of_leaf(Rgb::hex(0x94a548));
    draft.shadow((draft.lightward() * -0.02).to_point(), Vec2::new(0.17, 0.17), 0.0, hues.shade, 0.5);
    draft.ball(Point::ZERO, 0.12, &green, 0.2);
    draft.studs(Point::ZERO, 0.09, 14, [0.014, 0.018], &green.lit(0.04));
}

/// A ranunculus that is still closing over its eye: a ball, seen from above.
pub(crate) fn ranunculus_half_open(draft: &mut Draft, hues: &Hues) {
    const LAYERS: u32 = 7;
    draft.cast(1.0, 0.5);
    green_points(draft);
    let rings: Vec<Ring> = (0..LAYERS)
        .map(|i| {
            let t = f64::from(i) / f64::from(LAYERS);
            (4, 1.0 - 0.88 * t, 1.05 + 0.4 * t, 0.045 * (1.0 - 0.4 * t))
        })
        .collect();
    petals(draft, hues, &rings, Manner { grow: 1.0, tip: 0.0, flat: 3.0, wave: 0.01, lift: 0.07 });
    heart(draft, hues, 0.2);
}

const LISIANTHUS: [Ring; 3] = [(5, 1.00, 0.88, 0.05), (4, 0.80, 0.98, 0.055), (3, 0.56, 1.15, 0.05)];

/// A lisianthus: a wide cup of satin petals with a green-gold throat, pistil and anthers in it.
pub(crate) fn lisianthus(draft: &mut Draft, hues: &Hues) {
    draft.cast(1.0, 0.48);
    let gold = Rgb::hex(0xb3bd5e);
    let tinted = Hues { throat: hues.throat.mixed(gold, 0.45), ..*hues };
    petals(draft, &tinted, &LISIANTHUS, Manner { grow: 1.0, tip: 0.0, flat: 2.4, wave: 0.055, lift: 0.11 });
    let well =
        [(0.0, gold.lighter(-0.14).solid()), (0.55, gold.mixed(hues.throat, 0.5).tint(0.8)), (1.0, hues.mid.tint(0.0))];
    draft.group.fill(circle(Point::ZERO, 0.34), radial(Point::ZERO, 0.34, &well));
    draft.stamens([0.04, 0.2], 6, 0.048, Rgb::hex(0xd9d69a), POLLEN);
    let pistil = Hues::of_leaf(Rgb::hex(0xb7c46c));
    for side in [-1.0, 1.0] {
        draft.ball(Point::new(0.0, side * 0.04), 0.055, &pistil, 0.0);
    }
}

/// A succulent: fleshy pointed leaves in a spiral, flushed at their tips.
pub(crate) fn succulent(draft: &mut Draft, colour: Rgb) {
    draft.cast(1.0, 0.5);
    let green = Hues::of_leaf(colour);
    let flush = colour.mixed(Rgb::hex(0xd98a8f), 0.55);
    let mut turn = draft.chance.angle();
    for (i, reach) in [1.0, 0.86, 0.7, 0.54, 0.38, 0.24].into_iter().enumerate() {
        let share = i as f64 / 5.0;
        let lit = green.lit(0.05 * share);
        let deep = lit.throat.lighter(-0.06);
        let hues = Hues { throat: deep, edge: flush.lighter(0.08), rim: lit.rim.lighter(0.03), depth: 1.35, ..lit };
        let blade = Blade {
            length: reach,
            half: 0.25 * reach.powf(0.75),
            peak: 0.66,
            blunt: 0.62,
            foot: 0.5,
            notch: -0.06,
            ..Blade::PETAL
        };
        turn += 0.42;
        let count = if i < 3 { 8 } else { 7 - u32::try_from(i).unwrap_or(3) + 1 };
        ring(draft, around(count, turn), blade, &hues, 0, 0.09);
    }
}

/// The points of five sepals under a bloom that has not spread over them yet.
pub(super) fn green_points(draft: &mut Draft) {
    let green = Hues::of_leaf(SEPAL);
    let start = draft.chance.angle();
    let blade = Blade { length: 1.14, half: 0.15, peak: 0.4, blunt: 0.9, ..Blade::PETAL };
    ring(draft, around(5, start), blade, &green, 0, 0.04);
}

/// Rings from the outside in; within a ring the petals lie like roof tiles.
fn petals(draft: &mut Draft, hues: &Hues, rings: &[Ring], manner: Manner) {
    let grow = manner.grow;
    draft.group.fill(circle(Point::ZERO, 0.25), hues.throat.lighter(-0.08).paint(1.0));
    let mut turn = draft.chance.angle();
    let last = rings.len().max(2) as f64 - 1.0;
    for (i, &(count, reach, half, roll)) in rings.iter().enumerate() {
        let share = i as f64 / last;
        let hidden = rings.get(i + 1).map_or(0.04, |r| r.1) * grow;
        let tones = hues.deeper(share);
        turn += draft.chance.between(0.3, 0.9);
        for a in around(count, turn) {
            let turn = a + draft.chance.bell(0.13);
            let to = reach * grow * (1.0 + draft.chance.bell(0.035));
            let fan = Fan {
                from: to * 0.22,
                to,
                half: half * (1.0 + draft.chance.bell(0.06)),
                flat: manner.flat,
                wave: manner.wave * (1.0 - 0.4 * share),
                tip: if i < 3 { manner.tip * draft.chance.next_f64() } else { -0.012 },
                ..Fan::BROAD
            };
            let roll = roll * grow * draft.chance.between(0.7, 1.2);
            let lift = manner.lift * (0.45 + 0.55 * reach * grow);
            draft.fan(&fan, Sits { turn, hidden, roll, lift }, &tones);
        }
    }
}

/// The closed heart: the last petals, rolled about each other, each seen by its rim only.
pub(super) fn heart(draft: &mut Draft, hues: &Hues, r: f64) {
    let start = draft.chance.angle();
    let core = hues.throat.lighter(-0.05);
    let well = [(0.0, core.lighter(-0.06).solid()), (0.6, core.tint(0.8)), (1.0, core.tint(0.0))];
    draft.group.fill(circle(Point::ZERO, r * 0.9), radial(Point::ZERO, r * 0.9, &well));
    let tones = hues.deeper(0.8);
    for (i, reach) in [0.86, 0.7, 0.54, 0.4, 0.26].into_iter().enumerate() {
        let turn = start + i as f64 * 2.3;
        // A crescent: the rim outside, and inside it the hollow of the petal that it is rolled about.
        let centre = polar(turn, r * reach * 0.16);
        let outer: Vec<Point> =
            (0..=10).map(|j| centre + polar(turn - 1.5 + 0.3 * f64::from(j), r * reach).to_vec2()).collect();
        let inner: Vec<Point> = (0..=10)
            .map(|j| {
                let a = f64::from(j) / 10.0 * 2.0 - 1.0;
                let thin = 0.42 * (1.0 - a * a) + 0.02;
                centre + polar(turn + 1.5 * a, r * reach * (1.0 - thin)).to_vec2()
            })
            .collect();
        let list = [
            (0.0, tones.throat.tint(0.9)),
            (0.68, tones.throat.tint(0.9)),
            (0.82, tones.mid.solid()),
            (1.0, tones.edge.lighter(0.01).solid()),
        ];
        draft.group.fill(between(&outer, &inner), radial(centre, r * reach, &list));
    }
}
