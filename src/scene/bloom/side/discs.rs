//! Discs from the side: rays or bracts that lie in one plane or in tiers, the far ones first, an eye that domes up between
//! them, a green cup beneath: daisy, chrysanthemum, anemone, astrantia, scabiosa, sea holly, rosettes of leaves.

use std::f64::consts::FRAC_PI_2;

use kurbo::{Affine, BezPath, Point, Vec2};

use super::super::profile::{body, cup_petal, green, ruff, within};
use super::{FROM_ABOVE, far_first, spread};
use crate::colour::Rgb;
use crate::scene::brush::{add, circle, oval, oval_radial};
use crate::scene::draft::{Draft, GOLDEN};
use crate::scene::hues::{Hues, POLLEN, WHITE};
use crate::scene::outline::{Blade, Fan, smooth};

/// Rays of one tier.
#[derive(Clone, Copy)]
struct Tier {
    /// How many.
    count: u32,
    /// How high they begin, and how far from the axis.
    foot: [f64; 2],
    /// How they rise over the plane, radians.
    rise: f64,
    /// Each of them.
    ray: Blade,
    /// Lines on each.
    veins: u32,
}

/// Which rays of a tier: those behind the axis, those before it.
#[derive(Clone, Copy, PartialEq, Eq)]
enum RaySide {
    Far,
    Near,
}

impl Tier {
    fn draw(&self, draft: &mut Draft, part: RaySide, start: f64, hues: &Hues) {
        for around in far_first(self.count, start) {
            if (around.sin() > 0.0) != (part == RaySide::Far) {
                continue;
            }
            let around = around + draft.chance.bell(0.06);
            let length = self.ray.length * (1.0 + draft.chance.bell(0.04));
            let rise = self.rise + draft.chance.bell(0.04);
            let frame = spread(self.foot[0], self.foot[1], around, rise);
            // What is turned away from the light lies in the shade of the head.
            let tones = hues.lit(0.02 * around.sin() - 0.016 * around.cos());
            draft.blade(frame, &Blade { length, ..self.ray }, &tones, self.veins, 0.04);
        }
    }
}

/// A dome over the plane at `level`, `half` wide, `high` high, of many small florets.
fn dome(draft: &mut Draft, [level, half, high]: [f64; 3], count: u32, hues: &Hues) {
    let low = level - half * FROM_ABOVE;
    let tall = high + half * FROM_ABOVE;
    let foot = Point::new(level, 0.0) - draft.lightward() * (0.06 * half);
    draft.shadow(foot, Vec2::new(half * 0.42, half * 1.25), 0.0, hues.shade, 0.5);
    let shares = [(0.0, 0.5), (0.16, 0.86), (0.4, 1.0), (0.66, 0.88), (0.88, 0.54), (1.0, 0.06)];
    let profile = shares.map(|(up, wide)| (low + tall * up, half * wide));
    body(draft, Affine::IDENTITY, &profile, &hues.lit(-0.04));
    let place = Affine::translate((low + tall * 0.48, 0.0)) * Affine::scale_non_uniform(tall * 0.48, half * 0.95);
    within(draft, place, |draft| draft.studs(Point::ZERO, 0.92, count, [0.09, 0.075], hues));
}

/// The green cup under a flat head, as wide as `half` at `top`.
fn under(draft: &mut Draft, half: f64, top: f64, hues: &Hues) {
    body(
        draft,
        Affine::IDENTITY,
        &[(0.0, half * 0.3), (top * 0.18, half * 0.72), (top * 0.6, half), (top, half * 0.96)],
        hues,
    );
    let tile = Blade { length: top * 0.6, half: half * 0.22, peak: 0.5, blunt: 0.7, foot: 0.9, ..Blade::PETAL };
    for (row, count) in [(0.45, 7_u32), (0.16, 5)] {
        for i in 0..count {
            let t = (f64::from(i) + 0.5) / f64::from(count) * 2.0 - 1.0;
            let frame = super::super::placed((top * row, t * half * (0.72 + row * 0.4)), t * 0.4);
            let lit = hues.lit(draft.chance.bell(0.03));
            draft.blade(frame, &tile, &lit, 0, 0.02);
        }
    }
}

/// A thin disc of rays, the yellow eye domed over it.
pub(crate) fn daisy(draft: &mut Draft, high: f64, hues: &Hues) {
    let level = high * 0.58;
    let ray = Blade { length: 0.7, half: 0.12, peak: 0.7, blunt: 0.5, foot: 0.5, notch: 0.02, ..Blade::PETAL };
    let tier = Tier { count: 19, foot: [level, 0.3], rise: 0.1, ray, veins: 2 };
    let start = draft.chance.angle();
    under(draft, 0.3, level, &green());
    tier.draw(draft, RaySide::Far, start, &hues.lit(-0.012));
    dome(draft, [level, 0.37, high * 0.34], 60, &Hues::of(POLLEN));
    Tier { rise: -0.02, ..tier }.draw(draft, RaySide::Near, start, hues);
}

/// A pompon: rows of short rays that follow a ball, those in the middle of it nearest to the eye.
pub(crate) fn button_mum(draft: &mut Draft, high: f64, hues: &Hues) {
    let foot = high * 0.24;
    let up = high - foot;
    under(draft, 0.42, foot * 1.3, &green());
    let ray = Fan { flat: 2.2, half: 0.13, ..Fan::BROAD };
    let rows =
        [(1.0, 1.56, 19_u32), (0.9, 1.5, 18), (0.79, 1.42, 16), (0.67, 1.36, 15), (0.54, 1.3, 12), (0.4, 1.2, 9)];
    within(draft, Affine::translate((foot, 0.0)), |draft| {
        for (row, span, count) in rows {
            for i in 0..count {
                let t = (f64::from(i) + 0.5) / f64::from(count) * 2.0 - 1.0;
                let turn = t * span + draft.chance.bell(0.04);
                let to = row / (turn.cos() / up).hypot(turn.sin()) * (1.0 + draft.chance.bell(0.03));
                let one = Fan { from: to * 0.5, to, half: ray.half / row.sqrt(), ..ray };
                cup_petal(draft, Affine::rotate(turn), &one, &hues.deeper(0.45 * row).lit(0.02 * (0.7 - row)));
            }
        }
    });
}

/// A shallow bowl of broad tepals about a dark knob, the ruff close under it.
pub(crate) fn anemone(draft: &mut Draft, high: f64, hues: &Hues) {
    let level = high * 0.42;
    let leaf = Hues::of_leaf(Rgb::hex(0x6f9452));
    let long = 0.56;
    within(draft, Affine::scale_non_uniform((high * 0.5).min(1.0), 1.0), |draft| {
        ruff(draft, (0.3, 0.0), &[1.35, -1.35, 0.8, -0.8], long, &leaf);
    });
    body(draft, Affine::IDENTITY, &[(0.0, 0.07), (level * 0.6, 0.08), (level, 0.2)], &green());
    let tepal = Blade { length: 0.98, half: 0.42, peak: 0.62, blunt: 0.5, foot: 0.35, wave: 0.03, ..Blade::PETAL };
    let tier = Tier { count: 8, foot: [level, 0.05], rise: 0.34, ray: tepal, veins: 7 };
    let start = draft.chance.angle();
    tier.draw(draft, RaySide::Far, start, &hues.deeper(0.12));
    let ink = Rgb::hex(0x231f3d);
    let dark = Hues { throat: ink.lighter(-0.06), mid: ink, rim: ink.lighter(0.09), edge: ink.lighter(0.2), ..*hues };
    let at = Point::new(level + 0.12, 0.0);
    let pale = [(0.0, WHITE.tint(0.7)), (0.6, WHITE.tint(0.45)), (1.0, WHITE.tint(0.0))];
    let halo = Vec2::new(0.2, 0.5);
    draft.group.fill(oval(at, halo, 0.0), oval_radial(at, halo, 0.0, &pale));
    within(draft, Affine::translate((level + 0.16, 0.0)) * Affine::scale_non_uniform(0.5, 1.0), |draft| {
        draft.stamens([0.16, 0.4], 26, 0.035, ink.lighter(0.08), ink);
    });
    dome(draft, [level + 0.12, 0.2, 0.24], 30, &dark);
    Tier { rise: 0.14, ..tier }.draw(draft, RaySide::Near, start, hues);
}

/// Papery bracts about a cushion of pins.
pub(crate) fn astrantia(draft: &mut Draft, high: f64, hues: &Hues) {
    let level = high * 0.46;
    body(draft, Affine::IDENTITY, &[(0.0, 0.05), (level * 0.7, 0.08), (level, 0.22)], &green());
    let tips = Hues { edge: hues.edge.mixed(Rgb::hex(0x8aa05f), 0.35), ..*hues };
    let bract = Blade { length: 0.96, half: 0.16, peak: 0.52, blunt: 0.85, foot: 0.5, notch: -0.04, ..Blade::PETAL };
    let tier = Tier { count: 17, foot: [level, 0.06], rise: 0.36, ray: bract, veins: 3 };
    let start = draft.chance.angle();
    tier.draw(draft, RaySide::Far, start, &tips.lit(-0.02));
    pins(draft, [level, 0.5, high * 0.46], 46, hues);
    Tier { rise: 0.1, ..tier }.draw(draft, RaySide::Near, start, &tips);
}

/// Threads with pale heads that stand up together as a cushion: level, half its width, height.
fn pins(draft: &mut Draft, [level, half, high]: [f64; 3], count: u32, hues: &Hues) {
    let (mut threads, mut heads) = (BezPath::new(), BezPath::new());
    for i in 0..count {
        let t = ((f64::from(i) + 0.5) / f64::from(count)).sqrt();
        let (depth, across) = (f64::from(i) * GOLDEN).sin_cos();
        let rise = high * (1.0 - 0.5 * t * t);
        let tip = Point::new(level + rise + depth * t * half * FROM_ABOVE, across * t * half);
        let foot = Point::new(level, across * t * half * 0.5);
        add(&mut threads, &smooth(&[foot, foot.lerp(tip, 0.6) + Vec2::new(0.0, across * 0.02), tip], false));
        add(&mut heads, &circle(tip, 0.034));
    }
    let (at, radii) = (Point::new(level + high * 0.3, 0.0), Vec2::new(high * 0.5, half * 0.8));
    let core = [(0.0, hues.throat.tint(0.8)), (0.7, hues.throat.tint(0.5)), (1.0, hues.throat.tint(0.0))];
    draft.group.fill(oval(at, radii, 0.0), oval_radial(at, radii, 0.0, &core));
    draft.group.stroke(threads, 0.018, hues.mid.paint(1.0));
    draft
        .group
        .fill(Affine::translate(draft.lightward() * -0.014) * heads.clone(), hues.throat.lighter(-0.1).paint(0.8));
    draft.group.fill(heads, hues.edge.lighter(0.06).paint(1.0));
}

/// Frilled outer petals and a pincushion that domes up.
pub(crate) fn scabiosa(draft: &mut Draft, high: f64, hues: &Hues) {
    let level = high * 0.42;
    under(draft, 0.32, level, &green());
    let petal = Blade { length: 0.7, half: 0.27, peak: 0.74, blunt: 0.4, foot: 0.4, wave: 0.09, ..Blade::PETAL };
    let tier = Tier { count: 11, foot: [level, 0.3], rise: 0.16, ray: petal, veins: 5 };
    let inner =
        Tier { count: 10, foot: [level + 0.06, 0.2], rise: 0.5, ray: Blade { length: 0.56, ..petal }, veins: 3 };
    let start = draft.chance.angle();
    tier.draw(draft, RaySide::Far, start, &hues.deeper(0.15));
    inner.draw(draft, RaySide::Far, start + 0.3, &hues.deeper(0.25));
    let cushion = Hues::of(Rgb::hex(0xd3d8be).mixed(hues.mid, 0.25));
    dome(draft, [level + 0.08, 0.38, high * 0.36], 46, &cushion);
    pins(draft, [level + 0.1, 0.4, high * 0.46], 26, &Hues::of(hues.edge));
    Tier { rise: 0.3, ..inner }.draw(draft, RaySide::Near, start + 0.3, &hues.deeper(0.1));
    Tier { rise: -0.06, ..tier }.draw(draft, RaySide::Near, start, hues);
}

/// A cone of florets in a collar of spines.
pub(crate) fn thistle(draft: &mut Draft, high: f64, hues: &Hues) {
    let level = high * 0.24;
    let silver = Hues::of(hues.mid.mixed(Rgb::hex(0xbcd0d8), 0.35));
    body(draft, Affine::IDENTITY, &[(0.0, 0.07), (level, 0.16)], &Hues::of_leaf(Rgb::hex(0x86a08c)));
    let spine = Blade { length: 0.92, half: 0.075, peak: 0.34, blunt: 0.95, foot: 0.8, wave: 0.2, ..Blade::PETAL };
    let tier = Tier { count: 15, foot: [level, 0.1], rise: 0.34, ray: spine, veins: 1 };
    let start = draft.chance.angle();
    tier.draw(draft, RaySide::Far, start, &silver.lit(-0.03));
    dome(draft, [level + 0.06, 0.4, high - level - 0.12], 90, hues);
    Tier { rise: 0.06, ..tier }.draw(draft, RaySide::Near, start, &silver);
}

/// A rosette of fleshy or broad leaves: tiers that stand the steeper the nearer they are to its heart.
pub(crate) fn rosette(draft: &mut Draft, high: f64, colour: Rgb) {
    let leaf = Hues::of_leaf(colour);
    let tips = Hues { edge: leaf.edge.mixed(Rgb::hex(0xd98a8f), 0.3), depth: 1.3, ..leaf };
    let blade = Blade { length: 0.94, half: 0.25, peak: 0.66, blunt: 0.62, foot: 0.5, notch: -0.05, ..Blade::PETAL };
    let tiers: Vec<(Tier, f64)> = (0..5)
        .map(|i| {
            let t = f64::from(i) / 4.0;
            let ray = Blade { length: 0.94 - 0.34 * t, half: 0.25 - 0.08 * t, ..blade };
            let tier = Tier { count: 9 - i, foot: [high * 0.3 * t, 0.05], rise: 0.12 + 1.1 * t, ray, veins: 0 };
            (tier, t)
        })
        .collect();
    for &(tier, t) in &tiers {
        tier.draw(draft, RaySide::Far, t * 1.7, &tips.lit(-0.04 + 0.03 * t));
    }
    let heart = Blade { length: high * 0.6, half: 0.13, ..blade };
    for lean in [-0.3, 0.3, 0.0] {
        draft.blade(super::super::placed((high * 0.4, 0.0), lean), &heart, &tips, 0, 0.05);
    }
    for &(tier, t) in tiers.iter().rev() {
        tier.draw(draft, RaySide::Near, t * 1.7 + FRAC_PI_2 * 0.1, &tips.lit(0.03 * t));
    }
}
