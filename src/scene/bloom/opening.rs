//! Buds and half-open blooms. Three ways to be closed: petals wound about each other, rays held by green bracts, and an egg
//! of tepals lying on its side, its tip at +x.

use std::f64::consts::PI;

use kurbo::{Affine, BezPath, Point, Vec2};

use super::{Openness, around, orchid, placed, ring, rose, ruffled};
use crate::colour::Rgb;
use crate::scene::brush::{add, circle, oval, oval_radial, polar, radial};
use crate::scene::draft::Draft;
use crate::scene::hues::{Hues, PLUM, POLLEN, SEPAL, WHITE};
use crate::scene::outline::{Blade, between, smooth};
use crate::stock::Form;

/// Whether a form is also drawn as a bud and half open: a bloom that opens. Sprigs, spikes, leaves, berries and beads
/// are bought as they stay.
pub fn opens(form: Form) -> bool {
    manner(form).is_some()
}

/// How a form is closed.
#[derive(Clone, Copy)]
enum Manner {
    /// It has a drawing of its own for each stage.
    Own,
    /// Petals wound about each other.
    Wound(Wound),
    /// Rays in bracts: how many, how wide they are as a share of their length, the eye.
    Rayed(u32, f64, Rgb),
    /// Tepals that close to an egg: how many, how wide, the throat.
    Egg(u32, f64, Rgb),
    /// An orchid: how wide its tepals are.
    Orchid(f64),
    /// A ball that is green before it has colour.
    Ball,
}

#[derive(Clone, Copy)]
enum Wound {
    Ranunculus,
    Lisianthus,
    Carnation,
}

fn manner(form: Form) -> Option<Manner> {
    let manner = match form {
        Form::Rose | Form::SprayRose => Manner::Own,
        Form::Ranunculus => Manner::Wound(Wound::Ranunculus),
        Form::Lisianthus => Manner::Wound(Wound::Lisianthus),
        Form::Carnation => Manner::Wound(Wound::Carnation),
        Form::Daisy => Manner::Rayed(15, 0.15, POLLEN),
        Form::ButtonMum => Manner::Rayed(19, 0.15, Rgb::hex(0xb9c04a)),
        Form::Anemone => Manner::Rayed(6, 0.46, Rgb::hex(0x231f3d)),
        Form::Astrantia => Manner::Rayed(12, 0.17, Rgb::hex(0xd9b7bd)),
        Form::Scabiosa => Manner::Rayed(9, 0.3, Rgb::hex(0xd3d8be)),
        Form::Thistle => Manner::Rayed(13, 0.1, Rgb::hex(0x5f7fa8)),
        Form::Freesia => Manner::Egg(6, 0.36, Rgb::hex(0xe0b23a)),
        Form::Stephanotis => Manner::Egg(5, 0.33, Rgb::hex(0xb9c08a)),
        Form::Alstroemeria => Manner::Egg(6, 0.32, Rgb::hex(0xf3cf5a)),
        Form::Nerine => Manner::Egg(6, 0.2, Rgb::hex(0xc9b77a)),
        Form::StarFloret => Manner::Egg(5, 0.28, Rgb::hex(0xe9dfa8)),
        Form::Delphinium => Manner::Egg(5, 0.46, Rgb::hex(0xf3efe2)),
        Form::Hydrangea => Manner::Egg(4, 0.54, Rgb::hex(0xd7dfae)),
        Form::SweetPea => Manner::Egg(3, 0.6, Rgb::hex(0xf6e9ee)),
        Form::Dendrobium => Manner::Orchid(0.36),
        Form::Cymbidium => Manner::Orchid(0.3),
        Form::Craspedia => Manner::Ball,
        Form::Muscari
        | Form::Berry
        | Form::Waxflower
        | Form::BabysBreath
        | Form::Statice
        | Form::Heather
        | Form::Lavender
        | Form::Veronica
        | Form::Goldenrod
        | Form::Succulent
        | Form::Brunia
        | Form::BroadLeaf
        | Form::NarrowLeaf
        | Form::RoundLeaf
        | Form::Frond
        | Form::IvyLeaf
        | Form::Rosette
        | Form::FeltLeaf
        | Form::Needle
        | Form::GrassLoop
        | Form::Plume
        | Form::Pearl
        | Form::Stone => return None,
    };
    Some(manner)
}

/// Draws the form at a stage before it is open, when it has one that is not its own affair. Says whether it did.
pub(crate) fn closed(draft: &mut Draft, form: Form, hues: &Hues, openness: Openness) -> bool {
    let bud = match openness {
        Openness::Open => return false,
        Openness::Half => false,
        Openness::Bud => true,
    };
    match manner(form) {
        None | Some(Manner::Own) => return false,
        Some(Manner::Wound(kind)) => wound(draft, kind, hues, bud),
        Some(Manner::Rayed(count, half, _)) if bud => bracts(draft, hues, count, half),
        Some(Manner::Rayed(count, half, eye)) => raised(draft, hues, count, half, eye),
        Some(Manner::Egg(count, ..)) if bud => egg(draft, hues, count),
        Some(Manner::Egg(3, ..)) => ruffled::sweet_pea_half_open(draft, hues),
        Some(Manner::Egg(count, half, throat)) => funnel(draft, hues, count, half, throat),
        Some(Manner::Orchid(_)) if bud => chin(draft, hues),
        Some(Manner::Orchid(half)) => orchid::half_open(draft, hues, half),
        Some(Manner::Ball) => {
            let green = Rgb::hex(0x9aab4a);
            let share = if bud { 0.8 } else { 0.35 };
            let hues = Hues::of(hues.mid.mixed(green, share));
            super::knob::drumstick(draft, &hues, if bud { 60 } else { 110 });
        }
    }
    true
}

fn wound(draft: &mut Draft, kind: Wound, hues: &Hues, bud: bool) {
    match kind {
        Wound::Ranunculus => rose::ranunculus_closed(draft, hues, bud),
        Wound::Lisianthus => rose::lisianthus_closed(draft, hues, bud),
        Wound::Carnation => ruffled::carnation_closed(draft, hues, bud),
    }
}

/// A bud of rays: green bracts like tiles, and a tuft of colour between them.
fn bracts(draft: &mut Draft, hues: &Hues, count: u32, half: f64) {
    draft.cast(1.0, 0.5);
    let green = Hues::of_leaf(Rgb::hex(0x7f9a58));
    draft.group.fill(circle(Point::ZERO, 0.6), green.throat.paint(1.0));
    let mut turn = draft.chance.turn();
    let broad = if count < 8 { 0.3 } else { 0.2 };
    for (reach, n, by) in [(1.0, 9, -0.03), (0.84, 8, 0.01), (0.66, 7, 0.04)] {
        turn += 0.4;
        let blade = Blade { length: reach, half: broad, peak: 0.62, blunt: 0.66, foot: 0.5, ..Blade::PETAL };
        ring(draft, around(n, turn), blade, &green.lit(by), 1, 0.07);
    }
    let tuft = hues.deeper(0.2);
    let away = draft.lightward() * -0.05;
    draft.shadow(away.to_point(), Vec2::new(0.5, 0.5), 0.0, green.shade, 0.5);
    for (reach, n) in [(0.5_f64, count.min(13)), (0.36, count.min(9)), (0.2, 5)] {
        turn += 0.3;
        let wide = (half * 1.1).clamp(0.11, 0.3) * reach.sqrt();
        let blade = Blade { length: reach, half: wide, peak: 0.7, blunt: 0.45, foot: 0.5, ..Blade::PETAL };
        ring(draft, around(n, turn), blade, &tuft.deeper(0.5 - reach), 0, 0.05);
    }
}

/// Rays that still stand up: bracts show between their tips, they hide half of the eye.
fn raised(draft: &mut Draft, hues: &Hues, count: u32, half: f64, eye: Rgb) {
    draft.cast(1.0, 0.5);
    let start = draft.chance.turn();
    let green = Hues::of_leaf(Rgb::hex(0x7f9a58));
    let bract = Blade { length: 0.96, half: 0.09, peak: 0.5, blunt: 0.8, ..Blade::PETAL };
    ring(draft, around(count.max(9), start + 0.2), bract, &green, 0, 0.0);
    let ray = Blade { length: 1.0, half: half * 1.12, peak: 0.7, blunt: 0.5, foot: 0.4, ..Blade::PETAL };
    ring(draft, around(count, start), ray, &hues.lit(-0.02), 3, 0.09);
    hollow(draft, hues, 0.92, 0.5);
    let inner = Blade { length: 0.74, half: half * 1.0, ..ray };
    ring(draft, around(count, start + PI / f64::from(count)), inner, hues, 3, 0.09);
    hollow(draft, hues, 0.62, 0.6);
    let small = Blade { length: 0.46, half: half * 0.72, ..ray };
    let count = count.div_ceil(2).max(5);
    let tones = Hues::of(eye);
    draft.ball(Point::ZERO, 0.3, &tones.lit(-0.04), 0.0);
    draft.studs(Point::ZERO, 0.28, 30, [0.03, 0.04], &tones);
    if count > 5 {
        ring(draft, around(count, start + 0.3), Blade { foot: 0.1, ..small }, &hues.deeper(0.3), 0, 0.07);
        draft.ball(Point::ZERO, 0.15, &tones, 0.0);
        draft.studs(Point::ZERO, 0.14, 14, [0.028, 0.03], &tones);
    }
}

/// The dark of a cup toward its middle.
fn hollow(draft: &mut Draft, hues: &Hues, r: f64, strength: f64) {
    let deep = hues.throat.lighter(-0.12);
    let list = [(0.0, deep.tint(strength)), (0.45, deep.tint(strength * 0.8)), (1.0, deep.tint(0.0))];
    draft.group.fill(circle(Point::ZERO, r), radial(Point::ZERO, r, &list));
}

/// A bud that lies on its side: an egg of tepals in a green cup, its seams running to the tip.
fn egg(draft: &mut Draft, hues: &Hues, count: u32) {
    draft.cast(0.9, 0.42);
    let stalk = smooth(&[Point::new(-1.0, 0.0), Point::new(-0.5, 0.0)], false);
    draft.group.stroke(stalk, 0.14, SEPAL.lighter(-0.08).paint(1.0));
    let body = Blade { length: 1.72, half: 0.62, peak: 0.48, blunt: 0.62, foot: 0.7, wave: 0.0, ..Blade::PETAL };
    draft.blade(placed((-0.72, 0.0), 0.0), &body, &hues.deeper(0.25), 0, 0.09);
    let seams = if count > 4 { [-0.42, 0.42] } else { [-0.3, 0.5] };
    let side = if draft.light.sin() < 0.0 { -1.0 } else { 1.0 };
    for v in seams {
        let (top, foot) = (body.line(v, 0.06, 0.97), body.line(v + 0.14 * side, 0.06, 0.97));
        draft.stroke(placed((-0.72, 0.0), 0.0), foot, 0.05, hues.edge.paint(0.5));
        draft.stroke(placed((-0.72, 0.0), 0.0), top, 0.035, hues.throat.lighter(-0.1).paint(0.6));
    }
    let centre = Point::new(0.1, 0.2 * side);
    let gloss = [(0.0, WHITE.tint(0.4)), (1.0, WHITE.tint(0.0))];
    draft.group.fill(oval(centre, Vec2::new(0.5, 0.16), 0.0), oval_radial(centre, Vec2::new(0.5, 0.16), 0.0, &gloss));
    let flush = SEPAL.mixed(hues.mid, 0.3);
    let list = [(0.0, flush.tint(0.7)), (1.0, flush.tint(0.0))];
    draft.group.fill(circle(Point::new(-0.55, 0.0), 0.5), radial(Point::new(-0.55, 0.0), 0.5, &list));
    let green = Hues::of_leaf(SEPAL);
    for turn in [-0.75, 0.75, -0.25, 0.25] {
        let sepal = Blade { length: 0.6, half: 0.17, peak: 0.4, blunt: 0.85, foot: 0.7, ..Blade::PETAL };
        draft.blade(placed((-0.8, 0.0), turn), &sepal, &green, 1, 0.03);
    }
}

/// Half open: tepals that stand up about a deep throat.
fn funnel(draft: &mut Draft, hues: &Hues, count: u32, half: f64, throat: Rgb) {
    draft.cast(0.95, 0.46);
    let start = draft.chance.turn();
    let back = hues.deeper(0.35);
    let petal = Blade { length: 1.0, half: half * 1.08, peak: 0.6, blunt: 0.6, foot: 0.5, ..Blade::PETAL };
    for (i, a) in around(count, start).enumerate() {
        let bend = if i % 2 == 0 { 0.1 } else { 0.02 };
        let one = Blade { bend, length: if i % 2 == 0 { 1.0 } else { 0.94 }, ..petal };
        draft.blade(Affine::rotate(a), &one, &back, 4, 0.12);
    }
    // The near sides of the tepals, lit inside the cup, leave their backs as a darker rim.
    for a in around(count, start) {
        let inner = Blade { length: 0.8, half: half * 0.86, bend: 0.06, ..petal };
        draft.blade(Affine::rotate(a), &inner, hues, 4, 0.05);
    }
    hollow(draft, hues, 0.7, 0.75);
    let well = [(0.0, throat.lighter(-0.24).solid()), (0.5, throat.lighter(-0.1).tint(0.85)), (1.0, throat.tint(0.0))];
    draft.group.fill(circle(Point::ZERO, 0.3), radial(Point::ZERO, 0.3, &well));
    let mut heads = BezPath::new();
    for a in around(count.min(5), start + 0.4) {
        add(&mut heads, &oval(polar(a, 0.11), Vec2::new(0.05, 0.03), a));
    }
    draft.group.fill(heads, throat.lighter(0.12).paint(0.95));
}

/// An orchid's bud: an egg with a chin, greener toward its stalk.
fn chin(draft: &mut Draft, hues: &Hues) {
    draft.cast(0.9, 0.42);
    let stalk = smooth(&[Point::new(-1.0, 0.1), Point::new(-0.62, 0.02)], false);
    draft.group.stroke(stalk, 0.13, SEPAL.lighter(-0.06).paint(1.0));
    let upper = [(-0.78, 0.0), (-0.5, -0.42), (0.05, -0.6), (0.6, -0.4), (0.98, 0.04)].map(Point::from);
    let lower = [(-0.78, 0.0), (-0.8, 0.42), (-0.46, 0.66), (0.25, 0.5), (0.98, 0.04)].map(Point::from);
    let green = SEPAL.mixed(hues.rim, 0.35);
    let lit = (draft.lightward() * 0.35).to_point();
    let list =
        [(0.0, hues.edge.solid()), (0.35, hues.rim.solid()), (0.7, hues.mid.solid()), (1.0, hues.throat.solid())];
    draft.group.fill(between(&upper, &lower), oval_radial(lit, Vec2::new(1.35, 0.95), 0.0, &list));
    let flush = [(0.0, green.tint(0.85)), (0.5, green.tint(0.4)), (1.0, green.tint(0.0))];
    let foot = Point::new(-0.72, 0.2);
    let path = between(&upper, &lower);
    draft.group.fill(path, radial(foot, 0.95, &flush));
    for seam in [[(-0.7, -0.02), (0.0, -0.16), (0.94, 0.03)], [(-0.62, 0.3), (0.1, 0.28), (0.94, 0.05)]] {
        let line = smooth(&seam.map(Point::from), false);
        draft.group.stroke(line.clone(), 0.04, hues.throat.lighter(-0.1).paint(0.5));
        draft.stroke(Affine::translate((0.0, -0.035)), line, 0.03, hues.edge.paint(0.7));
    }
    draft.shadow(Point::new(-0.52, 0.42), Vec2::new(0.2, 0.14), 0.3, PLUM, 0.14);
}
