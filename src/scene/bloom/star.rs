//! Blooms with few petals that each can be told apart: stephanotis, star floret, delphinium, hydrangea floret, freesia,
//! alstroemeria, nerine.

use kurbo::{Affine, BezPath, Point, Vec2};

use super::{around, placed, ring};
use crate::colour::Rgb;
use crate::scene::brush::{add, circle, oval, oval_radial, polar, radial};
use crate::scene::draft::Draft;
use crate::scene::hues::{Hues, PLUM, POLLEN, SEPAL, WHITE, ease};
use crate::scene::outline::{Blade, smooth};

/// A stephanotis: five thick waxy lobes about a narrow tube.
pub(crate) fn stephanotis(draft: &mut Draft, hues: &Hues) {
    draft.cast(0.95, 0.42);
    let wax = Hues { throat: hues.throat.mixed(hues.mid, 0.5), ..*hues };
    let start = draft.chance.angle();
    for a in around(5, start) {
        let blade =
            Blade { length: 1.0, half: 0.31, peak: 0.5, blunt: 0.72, foot: 0.75, notch: -0.05, bend: 0.07, wave: 0.0 };
        draft.blade(Affine::rotate(a), &blade, &wax, 0, 0.1);
        let (centre, radii) = (polar(a + 0.03, 0.55), Vec2::new(0.26, 0.09));
        let gloss = [(0.0, WHITE.tint(0.5)), (1.0, WHITE.tint(0.0))];
        draft.group.fill(oval(centre, radii, a), oval_radial(centre, radii, a, &gloss));
    }
    let green = Rgb::hex(0xb9c08a);
    let funnel = [(0.0, green.lighter(-0.18).solid()), (0.32, green.tint(0.85)), (1.0, hues.mid.tint(0.0))];
    draft.group.fill(circle(Point::ZERO, 0.27), radial(Point::ZERO, 0.27, &funnel));
    draft.group.fill(circle(Point::ZERO, 0.06), green.lighter(-0.4).paint(0.85));
}

/// Bouvardia, tweedia and their like: a pointed star with a corona.
pub(crate) fn star_floret(draft: &mut Draft, hues: &Hues) {
    draft.cast(0.9, 0.4);
    let start = draft.chance.angle();
    let petal = Blade { length: 1.0, half: 0.25, peak: 0.42, blunt: 0.9, foot: 0.6, notch: -0.06, ..Blade::PETAL };
    ring(draft, around(5, start), petal, hues, 3, 0.08);
    let corona = Hues::of(hues.edge).lit(0.03);
    let short = Blade { length: 0.3, half: 0.1, peak: 0.6, blunt: 0.5, ..Blade::PETAL };
    ring(draft, around(5, start + 0.63), short, &corona, 0, 0.05);
    draft.ball(Point::ZERO, 0.09, &Hues::of(Rgb::hex(0xe9dfa8)), 0.3);
}

/// A delphinium floret: five overlapping sepals and the pale bee in the middle.
pub(crate) fn delphinium(draft: &mut Draft, hues: &Hues) {
    draft.cast(1.0, 0.42);
    let start = draft.chance.angle();
    let sepal = Blade { length: 1.0, half: 0.45, peak: 0.56, blunt: 0.58, foot: 0.25, wave: 0.03, ..Blade::PETAL };
    ring(draft, around(5, start), sepal, hues, 7, 0.1);
    let bee = Hues::of(Rgb::hex(0xfaf6ee));
    let petal = Blade { length: 0.36, half: 0.14, peak: 0.6, blunt: 0.5, notch: 0.12, wave: 0.1, ..Blade::PETAL };
    ring(draft, around(4, start + 0.3), petal, &bee, 2, 0.07);
    draft.stamens([0.03, 0.13], 7, 0.035, Rgb::hex(0xd8d6b0), Rgb::hex(0x3c3550));
}

/// A hydrangea floret: four broad sepals that lie over each other like a folded letter, veined, a bead in the middle.
pub(crate) fn hydrangea(draft: &mut Draft, hues: &Hues) {
    draft.cast(1.0, 0.46);
    let start = draft.chance.bell(0.3) + 0.785;
    // Lilac lies in coloured sepals; in white ones it would be grey.
    let coloured = 1.0 - ease(0.86, 0.95, hues.mid.oklab()[0]);
    let lilac = hues.mid.mixed(Rgb::hex(0xb07fc4), 0.25);
    let (throat, mid) = (hues.throat.mixed(lilac, 0.3 * coloured), hues.mid.mixed(lilac, 0.12 * coloured));
    let veined = Hues { throat, mid, depth: hues.depth.max(1.15 * coloured), ..*hues };
    for (i, a) in around(4, start).enumerate() {
        let blade = Blade {
            length: 1.0 + draft.chance.bell(0.05),
            half: 0.54 * (1.0 + draft.chance.bell(0.05)),
            peak: 0.54,
            blunt: 0.58,
            foot: 0.2,
            notch: -0.01,
            wave: 0.03,
            bend: 0.02,
        };
        // Two opposite sepals lie under the other two.
        let tones = veined.lit(if i % 2 == 0 { -0.025 } else { 0.015 });
        draft.blade(Affine::rotate(a), &blade, &tones, 0, 0.12);
        branched(draft, a, &blade, &tones);
    }
    let green = Rgb::hex(0xc9d39a);
    let well = [(0.0, green.tint(0.8)), (0.5, green.tint(0.35)), (1.0, green.tint(0.0))];
    draft.group.fill(circle(Point::ZERO, 0.34), radial(Point::ZERO, 0.34, &well));
    draft.shadow((draft.lightward() * -0.03).to_point(), Vec2::new(0.2, 0.2), 0.0, hues.shade, 0.6);
    draft.ball(Point::ZERO, 0.12, &Hues::of(hues.mid.mixed(green, 0.5)), 0.5);
}

/// A middle vein with branches, one stroke.
fn branched(draft: &mut Draft, turn: f64, blade: &Blade, hues: &Hues) {
    let mut lines = blade.line(0.0, 0.1, 0.9);
    for u in [0.22, 0.36, 0.5, 0.64] {
        for v in [-1.0, 1.0] {
            let points = [blade.at(u, 0.0), blade.at(u + 0.1, v * 0.35), blade.at((u + 0.19).min(0.86), v * 0.68)];
            add(&mut lines, &smooth(&points, false));
        }
    }
    draft.stroke(Affine::rotate(turn), lines, 0.012, hues.throat.paint(0.3));
}

/// A freesia: an open funnel with a golden throat, a second one opening, and the buds of its comb in a row.
pub(crate) fn freesia(draft: &mut Draft, hues: &Hues) {
    let away = draft.lightward() * -0.12;
    draft.shadow(Point::new(-0.26, -0.2) + away, Vec2::new(0.9, 0.9), 0.0, PLUM, 0.42);
    draft.shadow(Point::new(0.62, 0.42) + away, Vec2::new(0.62, 0.26), 0.2, PLUM, 0.3);
    let comb = [(-0.5, -0.1), (0.0, 0.34), (0.45, 0.5), (0.86, 0.42), (1.04, 0.3)].map(Point::from);
    draft.group.stroke(smooth(&comb, false), 0.07, SEPAL.paint(1.0));
    let young = Hues::of(hues.mid.mixed(SEPAL.lighter(0.12), 0.45));
    for (at, turn, size, green) in
        [((1.0, 0.34), 0.1, 0.26, 0.9), ((0.82, 0.44), 0.42, 0.36, 0.5), ((0.56, 0.5), 0.62, 0.48, 0.15)]
    {
        let tones = if green > 0.4 { young } else { hues.deeper(0.3) };
        bud(draft, placed(at, turn), size, &tones);
    }
    let gold = Rgb::hex(0xe0a82c);
    let funnel = Hues { throat: hues.throat.mixed(gold, 0.7), mid: hues.mid.mixed(gold, 0.14), ..*hues };
    // The second flower is seen from the side: a trumpet that widens to three lobes.
    for (turn, half, by) in [(0.98, 0.13, -0.04), (0.5, 0.13, -0.02), (0.74, 0.16, 0.02)] {
        let tepal = Blade { length: 0.84, half, peak: 0.74, blunt: 0.5, foot: 0.4, ..Blade::PETAL };
        draft.blade(placed((0.0, 0.2), turn), &tepal, &funnel.lit(by), 3, 0.07);
    }
    let middle = Point::new(-0.26, -0.2);
    let start = draft.chance.angle();
    for (turn, length, tone) in [(0.0, 0.78, funnel.lit(-0.03)), (1.047, 0.73, funnel)] {
        for a in around(3, start + turn) {
            let tepal = Blade { length, half: 0.28, peak: 0.6, blunt: 0.56, foot: 0.7, wave: 0.03, ..Blade::PETAL };
            draft.blade(placed(middle, a), &tepal, &tone, 5, 0.1);
        }
    }
    let well = [(0.0, gold.lighter(-0.3).solid()), (0.35, gold.lighter(-0.08).tint(0.8)), (1.0, gold.tint(0.0))];
    draft.group.fill(circle(middle, 0.32), radial(middle, 0.32, &well));
    let mut anthers = BezPath::new();
    for a in around(3, start + 0.4) {
        add(&mut anthers, &oval(middle + polar(a, 0.14).to_vec2(), Vec2::new(0.075, 0.024), a));
    }
    draft.group.fill(anthers, WHITE.paint(0.95));
}

/// A bud along +x in its green calyx.
fn bud(draft: &mut Draft, frame: Affine, size: f64, hues: &Hues) {
    let body = Blade { length: size, half: size * 0.25, peak: 0.6, blunt: 0.6, foot: 0.6, wave: 0.0, ..Blade::PETAL };
    draft.blade(frame, &body, hues, 3, 0.07);
    let calyx =
        Blade { length: size * 0.36, half: size * 0.17, peak: 0.5, blunt: 0.6, foot: 0.8, wave: 0.0, ..Blade::PETAL };
    draft.blade(frame * Affine::translate((-size * 0.1, 0.0)), &calyx, &Hues::of_leaf(SEPAL), 0, 0.0);
}

/// An alstroemeria: three broad outer tepals, three inner ones with a golden flash and dark streaks.
pub(crate) fn alstroemeria(draft: &mut Draft, hues: &Hues) {
    draft.cast(1.0, 0.42);
    let start = draft.chance.bell(0.3);
    let outer = Blade { length: 1.0, half: 0.38, peak: 0.66, blunt: 0.5, foot: 0.2, notch: 0.05, ..Blade::PETAL };
    ring(draft, around(3, start + 1.047), outer, &hues.lit(-0.01), 5, 0.1);
    let flash = Rgb::hex(0xf3cf5a);
    let inner = Blade { length: 0.96, half: 0.24, peak: 0.58, blunt: 0.72, foot: 0.3, notch: -0.03, ..Blade::PETAL };
    for a in around(3, start) {
        draft.blade(Affine::rotate(a), &inner, hues, 0, 0.09);
        let list = [(0.0, flash.tint(0.95)), (0.6, flash.tint(0.75)), (1.0, flash.tint(0.0))];
        let (centre, radii) = (polar(a, 0.42), Vec2::new(0.3, 0.15));
        draft.group.fill(oval(centre, radii, a), oval_radial(centre, radii, a, &list));
        streaks(draft, a, &inner);
    }
    curved_stamens(draft, start + 0.5, 0.5, Rgb::hex(0xe9c7c2), Rgb::hex(0x7d4a35));
}

/// Short dark dashes along a tepal, one fill.
fn streaks(draft: &mut Draft, turn: f64, blade: &Blade) {
    let mut dashes = BezPath::new();
    for i in 0..14 {
        let (u, v) = (draft.chance.between(0.25, 0.72), draft.chance.between(-0.7, 0.7));
        let long = 0.028 + 0.02 * f64::from(i % 3);
        add(&mut dashes, &oval(blade.at(u, v), Vec2::new(long, 0.010), v * 0.2));
    }
    draft.fill(Affine::rotate(turn), dashes, Rgb::hex(0x5a1f2b).paint(0.85));
}

/// Stamens that lean one way together and then curve up.
fn curved_stamens(draft: &mut Draft, lean: f64, reach: f64, thread: Rgb, head: Rgb) {
    let (mut threads, mut heads) = (BezPath::new(), BezPath::new());
    for i in 0..6 {
        let a = lean + (f64::from(i) - 2.5) * 0.24 + draft.chance.bell(0.08);
        let tip = polar(a, reach * (1.0 + draft.chance.bell(0.12)));
        let bend = polar(a - 0.25, reach * 0.55);
        add(&mut threads, &smooth(&[Point::ZERO, bend, tip], false));
        add(&mut heads, &oval(tip, Vec2::new(0.055, 0.03), a + 0.9));
    }
    draft.group.stroke(threads.clone(), 0.045, thread.lighter(-0.16).paint(0.5));
    draft.group.stroke(threads, 0.026, thread.paint(1.0));
    draft.group.fill(heads, head.paint(1.0));
}

/// A nerine: six narrow waved tepals that curl back, long stamens.
pub(crate) fn nerine(draft: &mut Draft, hues: &Hues) {
    draft.cast(0.85, 0.34);
    let start = draft.chance.angle();
    for (i, a) in around(6, start).enumerate() {
        let bend = if i % 2 == 0 { 0.14 } else { -0.08 };
        let tepal = Blade { length: 1.0, half: 0.15, peak: 0.56, blunt: 0.7, foot: 0.5, wave: 0.2, bend, notch: 0.0 };
        draft.blade(Affine::rotate(a), &tepal, hues, 1, 0.07);
    }
    draft.group.fill(circle(Point::ZERO, 0.1), hues.throat.mixed(SEPAL, 0.35).paint(1.0));
    curved_stamens(draft, start + 0.4, 0.72, hues.edge, hues.throat.mixed(POLLEN, 0.2).lighter(-0.1));
}
