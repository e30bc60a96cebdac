//! Sprigs from the side, with the stems that carry them, and the drumstick on its stalk.

use kurbo::{Affine, BezPath, Point, Vec2};

use super::super::profile::{stalk, within};
use super::super::{knob, placed, sprig};
use crate::colour::Rgb;
use crate::scene::brush::{add, circle};
use crate::scene::draft::Draft;
use crate::scene::hues::{Hues, SEPAL};
use crate::scene::outline::{Blade, smooth};

/// Stems from one foot to each place, forking half way: one stroke for all.
fn stems(draft: &mut Draft, places: &[Point], width: f64) {
    let mut lines = BezPath::new();
    for &p in places {
        let fork = Point::new(p.x * 0.4, p.y * 0.24);
        let middle = fork.midpoint(p) + Vec2::new(0.0, p.y * 0.12 + draft.chance.bell(0.03));
        add(&mut lines, &smooth(&[Point::ZERO, fork, middle, p], false));
    }
    draft.group.stroke(lines.clone(), width * 1.5, SEPAL.lighter(-0.16).paint(1.0));
    let up = Affine::translate(draft.lightward() * (width * 0.3));
    draft.group.stroke(up * lines, width * 0.7, SEPAL.lighter(0.04).paint(1.0));
}

/// Places on a dome: shares of its height and of half its width.
fn on_dome(high: f64, shares: &[(f64, f64)]) -> Vec<Point> {
    shares.iter().map(|&(up, out)| Point::new(high * up, out)).collect()
}

pub(crate) fn waxflower(draft: &mut Draft, high: f64, hues: &Hues) {
    let r = (high * 0.3).min(0.34);
    let buds = on_dome(high, &[(0.74, -0.76), (0.92, 0.22), (0.56, 0.86), (0.36, -0.84)]);
    let flowers = on_dome(high, &[(0.82, -0.2), (0.66, 0.52), (0.52, -0.54), (0.44, 0.1)]);
    stems(draft, &buds, 0.028);
    stems(draft, &flowers, 0.034);
    let needle = Hues::of_leaf(Rgb::hex(0x5f8a4d));
    for (up, turn) in [(0.1, 1.15), (0.14, -1.05), (0.24, 0.5), (0.28, -0.4), (0.2, 0.9)] {
        let blade = Blade { length: high * 0.42, half: 0.035, peak: 0.5, blunt: 0.8, ..Blade::PETAL };
        draft.blade(placed((high * up, turn * 0.1), turn), &blade, &needle, 0, 0.0);
    }
    for &bud in &buds {
        draft.ball(bud, r * 0.34, &hues.deeper(0.5), 0.25);
    }
    for &place in &flowers {
        // Each looks its own way: outward and up, so it is seen flatter than from above.
        let frame = placed(place, place.y * 0.7) * Affine::scale_non_uniform(0.72, 1.0);
        within(draft, frame, |draft| sprig::wax_floret(draft, Point::ZERO, r, hues));
    }
}

pub(crate) fn babys_breath(draft: &mut Draft, high: f64, hues: &Hues) {
    const FLORETS: u32 = 23;
    let mut places = Vec::new();
    for i in 0..FLORETS {
        let t = (f64::from(i) + 0.5) / f64::from(FLORETS);
        let lean = (f64::from(i * 7 % FLORETS) + 0.5) / f64::from(FLORETS) * 2.0 - 1.0;
        let reach = 0.5 + 0.42 * t.sqrt();
        places.push(Point::new(high * reach * (lean * 1.2).cos(), reach * (lean * 1.2).sin() / 0.93));
    }
    stems(draft, &places, 0.012);
    let mut beads = BezPath::new();
    for i in 0..7 {
        let lean: f64 = (f64::from(i) - 3.0) * 0.4;
        add(&mut beads, &circle(Point::new(high * 0.96 * lean.cos(), 0.98 * lean.sin()), 0.045));
    }
    draft.group.fill(beads, hues.rim.mixed(SEPAL, 0.15).paint(1.0));
    sprig::clouds(draft, &places, hues);
}

pub(crate) fn statice(draft: &mut Draft, high: f64, hues: &Hues) {
    let places = on_dome(
        high,
        &[
            (0.82, 0.0),
            (0.76, -0.38),
            (0.74, 0.4),
            (0.56, -0.7),
            (0.54, 0.72),
            (0.6, -0.14),
            (0.58, 0.26),
            (0.42, -0.44),
            (0.4, 0.5),
            (0.38, 0.04),
        ],
    );
    stems(draft, &places, 0.05);
    for &place in &places {
        let r = draft.chance.between(0.22, 0.27);
        let frame = placed(place, place.y * 0.8) * Affine::scale_non_uniform(0.74, 1.0);
        within(draft, frame, |draft| sprig::papery_cup(draft, Point::ZERO, r, hues));
    }
}

/// Plumes that arch outward from one stem, thick with fluff on their upper side.
pub(crate) fn goldenrod(draft: &mut Draft, high: f64, hues: &Hues) {
    let tips = on_dome(high, &[(0.62, -0.94), (0.62, 0.94), (0.86, -0.6), (0.86, 0.6), (0.97, -0.2), (0.96, 0.24)]);
    stems(draft, &tips, 0.03);
    let mut layers = [BezPath::new(), BezPath::new(), BezPath::new()];
    let up = draft.lightward();
    for tip in tips {
        for i in 0..26 {
            let t = 0.38 + 0.62 * f64::from(i) / 25.0;
            let arch = Point::new(tip.x * (1.0 - (1.0 - t).powi(2)), tip.y * t * t);
            let r = draft.chance.between(0.035, 0.055) * (1.25 - 0.5 * t);
            let at = arch + Vec2::new(draft.chance.between(-0.02, 0.09), draft.chance.bell(0.05));
            add(&mut layers[0], &circle(at - up * (r * 0.5), r));
            add(&mut layers[1], &circle(at, r * 0.94));
            add(&mut layers[2], &circle(at + up * (r * 0.35), r * 0.45));
        }
    }
    let [under, fluff, glint] = layers;
    draft.group.fill(under, hues.throat.lighter(-0.08).paint(0.9));
    draft.group.fill(fluff, hues.rim.paint(1.0));
    draft.group.fill(glint, hues.edge.lighter(0.03).paint(0.9));
}

/// A ball; where there is room for it, on its stalk.
pub(crate) fn drumstick(draft: &mut Draft, high: f64, hues: &Hues) {
    if high > 2.1 {
        stalk(draft, &[(0.0, 0.0), (high - 1.6, 0.0)], 0.12, Rgb::hex(0x8ea05a));
    }
    within(draft, Affine::translate((high - 1.0, 0.0)), |draft| knob::drumstick(draft, hues, 120));
}
