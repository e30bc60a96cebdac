//! Flowers with a tube or a stalk and a mouth of tepals that spread over it, from the side: freesia, stephanotis,
//! alstroemeria, nerine, star floret, delphinium, hydrangea floret, orchids.

use std::f64::consts::{FRAC_PI_2, TAU};

use kurbo::{Affine, Point, Vec2};

use super::super::placed;
use super::super::profile::{body, flush, green, lies, seam, sepals, stalk, standing_threads, within};
use super::{far_first, spread};
use crate::colour::Rgb;
use crate::scene::brush::{oval, oval_radial};
use crate::scene::draft::Draft;
use crate::scene::hues::{Hues, POLLEN, SEPAL, WHITE};
use crate::scene::outline::Blade;

/// A tube and the tepals about its mouth.
struct Flare<'a> {
    /// Half the width of the tube along it, from 0 to its mouth.
    tube: &'a [(f64, f64)],
    /// How many tepals, and the direction of the first.
    count: (u32, f64),
    /// Each of them, and the lines on it.
    tepal: Blade,
    veins: u32,
    /// How the far and the near ones rise over the plane of the mouth, radians.
    rise: [f64; 2],
    /// What is seen in the mouth.
    throat: Rgb,
    /// How many threads stand in it, and how far they reach.
    threads: (u32, f64),
}

impl Flare<'_> {
    fn draw(&self, draft: &mut Draft, hues: &Hues) {
        let (mouth, half) = self.tube.last().copied().unwrap_or((0.5, 0.1));
        let turns = far_first(self.count.0, self.count.1);
        let tepal = |draft: &mut Draft, around: f64, rise: f64, hues: &Hues| {
            let frame = spread(mouth - half * 0.2, half * 0.7, around, rise);
            draft.blade(frame, &self.tepal, hues, self.veins, 0.06);
        };
        for &around in turns.iter().filter(|a| a.sin() > 0.0) {
            tepal(draft, around, self.rise[0], &hues.deeper(0.22));
        }
        let (at, radii) = (Point::new(mouth, 0.0), Vec2::new(half * 0.42, half * 1.05));
        let well = [(0.0, self.throat.lighter(-0.2).solid()), (0.6, self.throat.solid()), (1.0, hues.throat.tint(0.0))];
        draft.group.fill(oval(at, radii, 0.0), oval_radial(at, radii, 0.0, &well));
        if self.threads.0 > 0 {
            let tints = [hues.edge, self.throat.mixed(WHITE, 0.3)];
            standing_threads(draft, Point::new(mouth - 0.04, 0.0), 0.5, self.threads.1, self.threads.0, tints);
        }
        body(draft, Affine::IDENTITY, self.tube, hues);
        let line: Vec<(f64, f64)> = self.tube.iter().map(|&(x, half)| (x, half * 0.35)).collect();
        seam(draft, Affine::IDENTITY, &line, 0.02, hues);
        for &around in turns.iter().filter(|a| a.sin() <= 0.0) {
            let tones = hues.lit(0.012 - 0.02 * around.cos());
            tepal(draft, around, self.rise[1], &tones);
        }
    }
}

/// Five tepals to a flower, one of them toward the eye.
const FIVE: (u32, f64) = (5, -FRAC_PI_2);
/// Six, the two in front apart.
const SIX: (u32, f64) = (6, -FRAC_PI_2 + TAU / 12.0);

pub(crate) fn freesia(draft: &mut Draft, high: f64, hues: &Hues) {
    let gold = Rgb::hex(0xe0a82c);
    let tinted = Hues { throat: hues.throat.mixed(gold, 0.45), ..*hues };
    stalk(draft, &[(0.0, 0.1), (high * 0.3, 0.4), (high * 0.62, 0.72)], 0.05, SEPAL);
    for (at, turn, long, share) in [((high * 0.5, 0.6), 0.5, 0.36, 0.4), ((high * 0.28, 0.4), 0.4, 0.5, 0.85)] {
        let tones = Hues::of(SEPAL.lighter(0.12).mixed(hues.mid, share));
        within(draft, placed(at, turn), |draft| {
            let profile = [(0.0, 0.04), (0.4, 0.07), (0.72, 0.11), (1.0, 0.01)].map(|(x, w)| (x * long, w));
            body(draft, Affine::IDENTITY, &profile, &tones);
        });
    }
    let tube = [(0.0, 0.06), (0.3, 0.09), (0.6, 0.2), (0.74, 0.3)].map(|(x, w)| (x * high, w));
    let tepal = Blade { length: 0.66, half: 0.24, peak: 0.6, blunt: 0.5, foot: 0.5, ..Blade::PETAL };
    let flare =
        Flare { tube: &tube, count: SIX, tepal, veins: 3, rise: [0.5, 0.36], throat: gold, threads: (3, high * 0.2) };
    within(draft, placed((0.0, -0.16), -0.1), |draft| flare.draw(draft, &tinted));
}

pub(crate) fn stephanotis(draft: &mut Draft, high: f64, hues: &Hues) {
    let wax = Hues { throat: hues.throat.mixed(hues.mid, 0.5), ..*hues };
    let tube = [(0.0, 0.13), (0.1, 0.19), (0.3, 0.14), (0.66, 0.115), (0.78, 0.16)].map(|(x, w)| (x * high, w));
    let tepal = Blade { length: 0.88, half: 0.27, peak: 0.42, blunt: 0.78, foot: 0.6, bend: 0.0, ..Blade::PETAL };
    let throat = Rgb::hex(0xb9c08a);
    let flare = Flare { tube: &tube, count: FIVE, tepal, veins: 0, rise: [0.02, -0.04], throat, threads: (0, 0.0) };
    flare.draw(draft, &wax);
    flush(draft, &tube, (0.0, 0.0), Vec2::new(0.3, 0.3), Rgb::hex(0xb9c98a), 0.5);
    sepals(draft, (0.02, 0.0), &[(0.8, 0.2), (-0.8, 0.2), (0.0, 0.18)], 0.07, &green());
}

/// Half open: the lobes stand out of the tube like a star that is still cupped.
pub(in super::super) fn stephanotis_half_open(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.6);
    let wax = Hues { throat: hues.throat.mixed(hues.mid, 0.5), ..*hues };
    stalk(draft, &[(-1.2, 0.0), (-0.96, 0.0)], 0.08, SEPAL);
    let tube = [(-1.0, 0.16), (-0.84, 0.22), (-0.5, 0.16), (0.0, 0.13), (0.16, 0.2)];
    let tepal = Blade { length: 0.94, half: 0.28, peak: 0.44, blunt: 0.72, foot: 0.7, bend: 0.0, ..Blade::PETAL };
    let throat = Rgb::hex(0xb9c08a);
    let flare = Flare { tube: &tube, count: FIVE, tepal, veins: 0, rise: [0.72, 0.62], throat, threads: (0, 0.0) };
    flare.draw(draft, &wax);
    flush(draft, &tube, (-1.0, 0.0), Vec2::new(0.4, 0.3), Rgb::hex(0xb9c98a), 0.6);
    sepals(draft, (-1.02, 0.0), &[(0.8, 0.24), (-0.8, 0.24), (0.0, 0.22)], 0.075, &green());
}

pub(crate) fn alstroemeria(draft: &mut Draft, high: f64, hues: &Hues) {
    let flash = Rgb::hex(0xf3cf5a);
    let tube = [(0.0, 0.08), (0.16, 0.14), (0.4, 0.25), (0.56, 0.36)].map(|(x, w)| (x * high, w));
    let tepal = Blade { length: 0.8, half: 0.27, peak: 0.62, blunt: 0.55, foot: 0.35, wave: 0.03, ..Blade::PETAL };
    let throat = flash.mixed(hues.throat, 0.3);
    let flare =
        Flare { tube: &tube, count: SIX, tepal, veins: 5, rise: [0.62, 0.34], throat, threads: (5, high * 0.34) };
    flare.draw(draft, hues);
    for i in 0..7 {
        let t = f64::from(i);
        let at = Point::new(high * (0.66 + 0.03 * t), 0.12 * (t * 2.4).sin());
        draft.group.fill(oval(at, Vec2::new(0.035, 0.011), 0.0), Rgb::hex(0x5a1f2b).paint(0.7));
    }
    body(draft, Affine::IDENTITY, &[(0.0, 0.07), (high * 0.08, 0.14), (high * 0.2, 0.16)], &green());
}

pub(crate) fn nerine(draft: &mut Draft, high: f64, hues: &Hues) {
    let stem = SEPAL.mixed(hues.mid, 0.3);
    stalk(draft, &[(0.0, 0.0), (high * 0.34, 0.0)], 0.07, stem);
    let tube = [(0.3, 0.05), (0.4, 0.09), (0.46, 0.1)].map(|(x, w)| (x * high, w));
    // The tepals are narrow and wavy and roll back at their tips.
    let tepal = Blade { length: 0.98, half: 0.13, peak: 0.56, blunt: 0.7, foot: 0.6, wave: 0.16, ..Blade::PETAL };
    let throat = hues.throat;
    let flare = Flare { tube: &tube, count: SIX, tepal, veins: 1, rise: [0.55, 0.2], throat, threads: (6, high * 0.5) };
    flare.draw(draft, hues);
    body(draft, Affine::IDENTITY, &[(high * 0.28, 0.05), (high * 0.34, 0.09), (high * 0.4, 0.06)], &green());
}

pub(crate) fn star_floret(draft: &mut Draft, high: f64, hues: &Hues) {
    let tube = [(0.0, 0.05), (0.3, 0.07), (0.6, 0.08), (0.7, 0.13)].map(|(x, w)| (x * high, w));
    let tepal = Blade { length: 0.88, half: 0.2, peak: 0.42, blunt: 0.9, foot: 0.6, notch: -0.05, ..Blade::PETAL };
    let flare = Flare {
        tube: &tube,
        count: FIVE,
        tepal,
        veins: 2,
        rise: [0.1, 0.02],
        throat: Rgb::hex(0xe9dfa8),
        threads: (0, 0.0),
    };
    flare.draw(draft, hues);
    crown(draft, high, hues.edge.mixed(WHITE, 0.4));
    sepals(draft, (0.02, 0.0), &[(0.5, 0.24), (-0.5, 0.24)], 0.045, &green());
}

/// Half open: narrow tepals that still point up about their crown; beside it a bud, wound to a point.
pub(in super::super) fn star_floret_half_open(draft: &mut Draft, hues: &Hues) {
    lies(draft, 0.6);
    stalk(draft, &[(-1.1, 0.0), (-0.7, 0.3), (-0.4, 0.62)], 0.05, SEPAL);
    let young = Hues::of(hues.mid.mixed(SEPAL.lighter(0.15), 0.2)).lit(0.03);
    within(draft, placed((-0.46, 0.58), 0.24), |draft| {
        body(draft, Affine::IDENTITY, &[(0.0, 0.07), (0.24, 0.15), (0.5, 0.12), (0.84, 0.01)], &young);
        for (from, to) in [(-0.12, 0.06), (0.02, 0.1)] {
            seam(draft, Affine::IDENTITY, &[(0.1, from), (0.4, to), (0.8, 0.0)], 0.03, &young);
        }
        sepals(draft, (-0.02, 0.0), &[(0.5, 0.22), (-0.5, 0.22)], 0.05, &green());
    });
    let tube = [(-1.1, 0.06), (-0.7, 0.085), (-0.2, 0.1), (-0.04, 0.17)];
    let tepal = Blade { length: 0.96, half: 0.19, peak: 0.4, blunt: 0.85, foot: 0.7, notch: -0.05, ..Blade::PETAL };
    let throat = Rgb::hex(0xe9dfa8);
    let flare = Flare { tube: &tube, count: FIVE, tepal, veins: 2, rise: [1.0, 0.8], throat, threads: (0, 0.0) };
    within(draft, Affine::translate((0.0, -0.12)), |draft| {
        flare.draw(draft, hues);
        sepals(draft, (-1.08, 0.0), &[(0.5, 0.34), (-0.5, 0.34)], 0.05, &green());
    });
}

/// The little crown of scales in a star floret's mouth.
fn crown(draft: &mut Draft, high: f64, colour: Rgb) {
    let tones = Hues::of(colour);
    for y in [-0.1, 0.1, 0.0] {
        let scale = Blade { length: high * 0.22, half: 0.06, peak: 0.6, blunt: 0.5, foot: 0.8, ..Blade::PETAL };
        draft.blade(placed((high * 0.72, y), y * 3.0), &scale, &tones, 0, 0.02);
    }
}

pub(crate) fn delphinium(draft: &mut Draft, high: f64, hues: &Hues) {
    let spur = [(0.0, 0.03), (0.2, 0.06), (0.4, 0.1), (0.56, 0.2)].map(|(x, w)| (x * high, w));
    let tepal = Blade { length: 0.86, half: 0.38, peak: 0.56, blunt: 0.55, foot: 0.3, wave: 0.03, ..Blade::PETAL };
    let bee = Rgb::hex(0xfaf6ee);
    let flare =
        Flare { tube: &spur, count: FIVE, tepal, veins: 5, rise: [0.5, 0.3], throat: hues.throat, threads: (0, 0.0) };
    // The bee stands between the far sepals and the near ones: a flare of its own would hide it.
    flare.draw(draft, hues);
    let tones = Hues::of(bee);
    for (turn, long) in [(-0.5, 0.34), (0.5, 0.34), (0.0, 0.4)] {
        let one = Blade { length: high * long, half: 0.09, peak: 0.7, blunt: 0.45, notch: 0.06, ..Blade::PETAL };
        draft.blade(placed((high * 0.54, 0.0), turn), &one, &tones, 1, 0.03);
    }
}

pub(crate) fn hydrangea(draft: &mut Draft, high: f64, hues: &Hues) {
    stalk(draft, &[(0.0, 0.0), (high * 0.6, 0.0)], 0.06, SEPAL.lighter(0.05));
    let tube = [(0.5, 0.04), (0.66, 0.1)].map(|(x, w)| (x * high, w));
    let tepal = Blade { length: 0.95, half: 0.5, peak: 0.6, blunt: 0.42, foot: 0.25, ..Blade::PETAL };
    let count = (4, -FRAC_PI_2 + 0.35);
    let flare =
        Flare { tube: &tube, count, tepal, veins: 6, rise: [0.24, 0.1], throat: hues.throat, threads: (0, 0.0) };
    flare.draw(draft, hues);
    draft.ball(Point::new(high * 0.74, 0.0), 0.09, &Hues::of(Rgb::hex(0xd7dfae).mixed(hues.mid, 0.4)), 0.2);
}

pub(crate) fn dendrobium(draft: &mut Draft, high: f64, hues: &Hues) {
    let lip = Hues::of(hues.throat.mixed(Rgb::hex(0x9b2a78), 0.72));
    orchid(draft, high, hues, &lip, [0.24, 0.4, 0.2]);
}

pub(crate) fn cymbidium(draft: &mut Draft, high: f64, hues: &Hues) {
    let pale = Hues::of(hues.edge.mixed(Rgb::hex(0xfff3e4), 0.5));
    orchid(draft, high, hues, &pale, [0.28, 0.3, 0.3]);
    let wine = Rgb::hex(0x96284f);
    for i in 0..9 {
        let t = f64::from(i);
        let at = Point::new(high * (0.36 + 0.018 * t), 0.17 * (t * 2.2).sin());
        draft.group.fill(oval(at, Vec2::new(0.02, 0.03), 0.0), wine.paint(0.75));
    }
}

/// An orchid that looks up: sepals and petals spread about the column, the lip toward the eye; the widths of sepals,
/// petals and lip.
fn orchid(draft: &mut Draft, high: f64, hues: &Hues, lip: &Hues, [sepal, petal, tongue]: [f64; 3]) {
    let level = high * 0.46;
    stalk(draft, &[(0.0, 0.04), (level * 0.6, 0.03), (level, 0.0)], 0.09, SEPAL.lighter(0.04));
    let plain = Blade { length: 0.98, half: sepal, peak: 0.5, blunt: 0.75, foot: 0.45, wave: 0.02, ..Blade::PETAL };
    // Chin and back of the flower, over the stalk.
    body(draft, Affine::IDENTITY, &[(level * 0.5, 0.05), (level * 0.8, 0.12), (level + 0.02, 0.16)], &hues.deeper(0.4));
    draft.blade(spread(level, 0.04, FRAC_PI_2, 0.42), &Blade { length: 0.9, ..plain }, &hues.deeper(0.14), 6, 0.06);
    for (around, tilt) in [(0.42, 0.3), (std::f64::consts::PI - 0.42, 0.3)] {
        let broad = Blade { half: petal, foot: 0.2, wave: 0.03, ..plain };
        draft.blade(spread(level, 0.04, around, tilt), &broad, hues, 9, 0.06);
    }
    for around in [-0.55, 0.55 - std::f64::consts::PI] {
        draft.blade(spread(level, 0.05, around, -0.02), &Blade { length: 0.92, ..plain }, &hues.lit(-0.01), 6, 0.06);
    }
    for side in [-1.0, 1.0] {
        let lobe = Blade { length: high * 0.4, half: tongue * 0.55, foot: 0.6, bend: 0.2 * side, ..Blade::PETAL };
        draft.blade(placed((level * 0.8, 0.05 * side), side * 0.55), &lobe, lip, 3, 0.04);
    }
    let radii = Vec2::new(high * 0.16, 0.09);
    let (at, lit) = (Point::new(level + high * 0.16, 0.0), Point::new(level + high * 0.2, -0.02));
    let cap = [(0.0, WHITE.solid()), (0.5, hues.rim.solid()), (1.0, hues.throat.solid())];
    draft.group.fill(oval(at, radii, 0.0), oval_radial(lit, radii * 1.3, 0.0, &cap));
    draft.ball(Point::new(at.x + radii.x * 0.7, 0.0), 0.055, &Hues::of(POLLEN), 0.3);
    // The front of the lip rolls over toward the eye.
    let front = Blade {
        length: level * 0.95,
        half: tongue,
        peak: 0.6,
        blunt: 0.5,
        foot: 0.55,
        notch: 0.05,
        wave: 0.06,
        ..Blade::PETAL
    };
    draft.blade(placed((level + high * 0.06, 0.0), std::f64::consts::PI), &front, lip, 6, 0.06);
}
