//! Blooms of many broad petals in rings: rose, spray rose.

use kurbo::{Affine, Point};

use super::{Openness, around};
use crate::scene::brush::{circle, polar};
use crate::scene::draft::{Draft, Sits};
use crate::scene::hues::{Hues, SEPAL};
use crate::scene::outline::{Blade, Fan, smooth};

/// A ring of petals: how many, how far they reach, half the angle each spans, how thick the rim rolls.
type Ring = (u32, f64, f64, f64);

const OPEN_ROSE: [Ring; 8] = [
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
pub(crate) fn rose(draft: &mut Draft, hues: &Hues, openness: Openness) {
    let skip = match openness {
        Openness::Open => 0,
        Openness::Half => 2,
        Openness::Bud => 4,
    };
    cast_and_sepals(draft, openness);
    let rings = &OPEN_ROSE[skip..];
    let grow = 1.0 / rings[0].1;
    ring_petals(draft, hues, rings, grow, 0.05);
    heart(draft, hues, 0.16 * grow);
}

const SPRAY_ROSE: [Ring; 5] =
    [(5, 1.00, 0.86, 0.085), (5, 0.83, 0.88, 0.09), (4, 0.62, 1.0, 0.08), (3, 0.42, 1.2, 0.06), (3, 0.25, 1.35, 0.045)];

/// A spray rose: fewer petals, a cup with a snug heart.
pub(crate) fn spray_rose(draft: &mut Draft, hues: &Hues, openness: Openness) {
    let skip = match openness {
        Openness::Open => 0,
        Openness::Half => 1,
        Openness::Bud => 2,
    };
    cast_and_sepals(draft, openness);
    let rings = &SPRAY_ROSE[skip..];
    let grow = 1.0 / rings[0].1;
    ring_petals(draft, hues, rings, grow, 0.012);
    heart(draft, hues, 0.2 * grow);
}

fn cast_and_sepals(draft: &mut Draft, openness: Openness) {
    draft.cast(1.0, 0.5);
    if openness == Openness::Open {
        return;
    }
    let green = Hues::of_leaf(SEPAL);
    let start = draft.chance.turn();
    for a in around(5, start) {
        let blade = Blade { length: 1.14, half: 0.15, peak: 0.4, blunt: 0.9, ..Blade::PETAL };
        draft.blade(Affine::rotate(a), &blade, &green, 0, 0.04);
    }
}

/// Rings from the outside in; within a ring the petals lie like roof tiles.
fn ring_petals(draft: &mut Draft, hues: &Hues, rings: &[Ring], grow: f64, tip: f64) {
    draft.group.fill(circle(Point::ZERO, 0.25), hues.throat.lighter(-0.08).paint(1.0));
    let mut turn = draft.chance.turn();
    let last = rings.len().max(2) as f64 - 1.0;
    for (i, &(count, reach, half, roll)) in rings.iter().enumerate() {
        let share = i as f64 / last;
        let inner = rings.get(i + 1).map_or(0.04, |r| r.1) * grow;
        let tones = hues.deeper(share);
        turn += draft.chance.between(0.3, 0.9);
        for a in around(count, turn) {
            let turn = a + draft.chance.about(0.13);
            let to = reach * grow * (1.0 + draft.chance.about(0.035));
            let fan = Fan {
                from: to * 0.22,
                to,
                half: half * (1.0 + draft.chance.about(0.06)),
                flat: 2.6,
                wave: 0.03 - 0.012 * share,
                tip: if i < 3 { tip * draft.chance.share() } else { -0.012 },
                ..Fan::BROAD
            };
            let roll = roll * grow * draft.chance.between(0.7, 1.2);
            let lift = 0.085 * (0.45 + 0.55 * reach * grow);
            draft.fan(&fan, Sits { turn, hidden: inner, roll, lift }, &tones);
        }
    }
}

/// The closed heart: petals wound about each other.
fn heart(draft: &mut Draft, hues: &Hues, r: f64) {
    let turn = draft.chance.turn();
    let points: Vec<Point> = (0..22)
        .map(|i| {
            let t = f64::from(i) / 21.0;
            polar(turn + t * 10.0, r * (0.1 + 0.62 * t))
        })
        .collect();
    draft.stroke(Affine::IDENTITY, smooth(&points, false), r * 0.15, hues.throat.lighter(-0.12).paint(0.5));
}
