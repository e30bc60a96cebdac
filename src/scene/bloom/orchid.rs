//! Orchids: dendrobium, cymbidium, phalaenopsis. The lip hangs toward -x, the hand's side when the turn is zero.

use std::f64::consts::PI;

use kurbo::{BezPath, Point, Vec2};

use super::{placed, ring};
use crate::colour::Rgb;
use crate::scene::brush::{add, circle, linear, oval, oval_radial};
use crate::scene::draft::Draft;
use crate::scene::hues::{Hues, POLLEN, WHITE};
use crate::scene::outline::Blade;

/// A dendrobium: three sepals, two broad petals, a small deep lip.
pub(crate) fn dendrobium(draft: &mut Draft, hues: &Hues) {
    draft.cast(0.95, 0.42);
    let sepal = Blade { length: 1.0, half: 0.25, peak: 0.5, blunt: 0.78, ..Blade::PETAL };
    ring(draft, [0.0, 2.2, -2.2].into_iter(), sepal, &hues.lit(-0.018), 6, 0.07);
    for side in [-1.0, 1.0] {
        let petal = Blade { half: 0.42, foot: 0.16, wave: 0.035, bend: 0.06 * side, ..Blade::PETAL };
        ring(draft, std::iter::once(side * 1.2), petal, hues, 9, 0.085);
    }
    let tones = lip_hues(hues);
    lobes(draft, &tones, [0.36, 0.15]);
    let front = Blade { length: 0.6, half: 0.23, peak: 0.66, blunt: 0.55, notch: 0.05, wave: 0.07, ..Blade::PETAL };
    draft.blade(placed((-0.02, 0.0), PI), &front, &tones, 7, 0.06);
    ridges(draft, 0.17);
    column(draft, hues, 1.0);
}

/// A cymbidium: five like tepals, a broad spotted lip, an arched column.
pub(crate) fn cymbidium(draft: &mut Draft, hues: &Hues) {
    draft.cast(0.95, 0.45);
    let tepal = Blade { length: 1.0, half: 0.28, peak: 0.55, blunt: 0.7, foot: 0.5, ..Blade::PETAL };
    ring(draft, [2.35, -2.35].into_iter(), tepal, &hues.lit(-0.02), 7, 0.07);
    ring(draft, [1.15, -1.15, 0.0].into_iter(), Blade { half: 0.3, ..tepal }, hues, 7, 0.085);
    let pale = Hues::of(hues.edge.mixed(Rgb::hex(0xfff3e4), 0.5));
    lobes(draft, &pale, [0.46, 0.2]);
    let lip =
        Blade { length: 0.68, half: 0.33, peak: 0.62, blunt: 0.5, foot: 0.5, notch: 0.04, wave: 0.08, ..Blade::PETAL };
    draft.blade(placed((0.0, 0.0), PI), &lip, &pale, 0, 0.08);
    spots(draft, &lip);
    ridges(draft, 0.2);
    column(draft, hues, 1.5);
}

/// A phalaenopsis: two petals like wings, broader than they are long, three sepals behind them, a small lip.
pub(crate) fn phalaenopsis(draft: &mut Draft, hues: &Hues) {
    draft.cast(0.95, 0.45);
    let sepal = Blade { length: 0.94, half: 0.3, peak: 0.52, blunt: 0.66, ..Blade::PETAL };
    ring(draft, [0.0, 2.25, -2.25].into_iter(), sepal, &hues.lit(-0.03), 6, 0.07);
    for side in [-1.0, 1.0] {
        let wing =
            Blade { half: 0.6, peak: 0.52, blunt: 0.5, foot: 0.1, wave: 0.025, bend: 0.04 * side, ..Blade::PETAL };
        ring(draft, std::iter::once(side * 1.36), wing, hues, 11, 0.1);
    }
    let tones = lip_hues(hues);
    lobes(draft, &tones, [0.28, 0.12]);
    let front = Blade { length: 0.42, half: 0.15, peak: 0.45, blunt: 0.75, notch: 0.04, ..Blade::PETAL };
    draft.blade(placed((-0.02, 0.0), PI), &front, &tones, 3, 0.05);
    ridges(draft, 0.13);
    column(draft, hues, 0.85);
}

/// An orchid half open: its tepals still bend forward over the lip.
pub(crate) fn half_open(draft: &mut Draft, hues: &Hues, half: f64) {
    draft.cast(0.95, 0.45);
    let tepal = Blade { length: 0.96, half: half * 0.72, peak: 0.56, blunt: 0.72, foot: 0.4, ..Blade::PETAL };
    for side in [-1.0, 1.0] {
        let sepal = Blade { bend: 0.22 * side, ..tepal };
        draft.blade(placed((0.0, 0.0), side * 2.45), &sepal, &hues.deeper(0.25), 6, 0.07);
    }
    draft.blade(placed((0.0, 0.0), 0.0), &Blade { length: 1.0, ..tepal }, &hues.deeper(0.2), 6, 0.07);
    let tones = lip_hues(hues);
    let front = Blade { length: 0.52, half: 0.2, peak: 0.66, blunt: 0.55, notch: 0.05, wave: 0.07, ..Blade::PETAL };
    draft.blade(placed((-0.02, 0.0), PI), &front, &tones, 5, 0.06);
    for side in [-1.0, 1.0] {
        let petal = Blade { length: 0.86, half: half * 0.86, bend: 0.34 * side, foot: 0.3, ..tepal };
        draft.blade(placed((0.0, side * 0.03), side * 1.25), &petal, hues, 7, 0.11);
    }
    column(draft, hues, 0.9);
}

/// A lip is deeper than the petals.
fn lip_hues(hues: &Hues) -> Hues {
    Hues::of(hues.throat.mixed(Rgb::hex(0x9b2a78), 0.72))
}

/// The side lobes of a lip; the two numbers are length and half width.
fn lobes(draft: &mut Draft, hues: &Hues, size: [f64; 2]) {
    for side in [-1.0, 1.0] {
        let lobe = Blade { length: size[0], half: size[1], foot: 0.5, wave: 0.04, bend: -0.25 * side, ..Blade::PETAL };
        draft.blade(placed((-0.04, 0.0), PI + side * 0.85), &lobe, hues, 4, 0.05);
    }
}

/// Wine-red spots along the rim of the lip and a flush before it.
fn spots(draft: &mut Draft, lip: &Blade) {
    let wine = Rgb::hex(0x96284f);
    let flush = [(0.0, wine.tint(0.0)), (0.6, wine.tint(0.05)), (0.85, wine.tint(0.55)), (1.0, wine.tint(0.35))];
    let inner = Blade { length: lip.length * 0.96, half: lip.half * 0.9, ..*lip };
    let path = Blade::closed(&inner.side(-1.0, &mut draft.chance), &inner.side(1.0, &mut draft.chance));
    let radii = Vec2::new(inner.length, inner.half * 1.25);
    draft.fill(placed((0.0, 0.0), PI), path, oval_radial(Point::new(0.1, 0.0), radii, 0.0, &flush));
    let mut dots = BezPath::new();
    for i in 0..26_u32 {
        let (u, v) = (draft.chance.between(0.35, 0.9), draft.chance.between(-0.85, 0.85));
        let r = 0.012 + 0.014 * draft.chance.next_f64();
        add(&mut dots, &circle(lip.at(u, v), if i % 3 == 0 { r * 1.3 } else { r }));
    }
    draft.fill(placed((0.0, 0.0), PI), dots, wine.paint(0.8));
}

/// The two golden ridges that lead into the throat.
fn ridges(draft: &mut Draft, at: f64) {
    for side in [-1.0, 1.0] {
        let ridge = oval(Point::new(-at, side * 0.036), Vec2::new(0.085, 0.032), 0.0);
        let gold = [(0.0, POLLEN.lighter(0.08).solid()), (1.0, POLLEN.lighter(-0.14).solid())];
        draft.group.fill(ridge, linear((-at + 0.08, 0.0), (-at - 0.1, 0.0), &gold));
    }
}

/// The column over the throat, with its cap.
fn column(draft: &mut Draft, hues: &Hues, size: f64) {
    let (centre, radii) = (Point::new(0.01, 0.0), Vec2::new(0.115, 0.078) * size);
    draft.shadow(centre + draft.lightward() * -0.03, radii * 1.5, 0.0, hues.shade, 0.5);
    let list = [(0.0, WHITE.solid()), (0.5, hues.rim.solid()), (1.0, hues.throat.solid())];
    let lit = centre + draft.lightward() * 0.04;
    draft.group.fill(oval(centre, radii, 0.0), oval_radial(lit, radii * 1.3, 0.0, &list));
    let cap = Hues::of(Rgb::hex(0xf3d66f));
    draft.ball(Point::new(0.01 - radii.x * 0.72, 0.0), 0.045 * size, &cap, 0.2);
}
