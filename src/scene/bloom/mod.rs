//! Every form that can be drawn, each a small function on a draft. A draft is brought to the size that the piece
//! measures by, so that what the eye sees is what is measured.

mod bud;
mod bulb;
mod chart;
mod drawings;
mod fern;
mod greens;
mod half_open;
mod knob;
mod leaf;
mod opening;
mod orchid;
mod profile;
mod rayed;
mod rose;
mod ruffled;
mod side;
mod spike;
mod sprig;
mod star;

use std::f64::consts::TAU;

use kurbo::{Affine, Point, Vec2};

use self::drawings::drawing_of;
use super::draft::{Draft, LIGHT};
use super::hues::Hues;
use super::outline::Blade;
use super::{Group, Key};
use crate::colour::Rgb;
use crate::stock::Form;

pub use chart::form_chart;
pub use drawings::opens;
pub(crate) use side::{FROM_ABOVE, side_bloom};

/// How far a bloom has opened.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Openness {
    /// Still closed.
    Bud,
    /// Half way.
    Half,
    /// Fully open.
    #[default]
    Open,
}

/// The largest size that is drawn, mm; far beyond anything worn, and small enough for every outlet.
const LARGEST_MM: f64 = 10_000.0;
/// The least width over length; thinner is a line.
const THINNEST: f64 = 0.02;

/// A bloom of this form about the origin, lit as in piece space. Long forms lie along +x with the tip at +x; `breadth` is
/// their width over their length. Forms that [`opens`] knows close with `openness`; others stay as they are. A size that
/// is no size gives an empty group.
pub fn bloom(form: Form, seed: u64, size_mm: f64, breadth: f64, colour: Rgb, openness: Openness) -> Group {
    lit_bloom(form, seed, [size_mm, breadth], colour, openness, LIGHT)
}

/// The same with the light coming from `light` in the bloom's own frame; the two numbers are size and breadth.
pub(crate) fn lit_bloom(form: Form, seed: u64, size: [f64; 2], colour: Rgb, openness: Openness, light: f64) -> Group {
    let [size_mm, breadth] = size;
    if !size_mm.is_finite() || size_mm <= 0.0 {
        return Group::new(Key::Inner, Affine::IDENTITY);
    }
    let size_mm = size_mm.min(LARGEST_MM);
    let breadth = if breadth.is_finite() { breadth.clamp(THINNEST, 1.0) } else { 1.0 };
    let mut draft = Draft::new(seed, light);
    drawing_of(form).draw_from_above(&mut draft, breadth, colour, openness);
    let box_mm = if form.is_long() { Vec2::new(size_mm, size_mm * breadth) } else { Vec2::new(size_mm, size_mm) };
    fitted(draft.group, box_mm, form.is_long())
}

/// The draft brought into a box about the origin: both ways for long forms, by its greater side for round ones.
fn fitted(mut group: Group, box_mm: Vec2, both_ways: bool) -> Group {
    let Some(edge) = group.edge_bounds(Affine::IDENTITY) else { return group };
    let (sx, sy) = (box_mm.x / edge.width().max(1e-6), box_mm.y / edge.height().max(1e-6));
    let (sx, sy) = if both_ways { (sx, sy) } else { (sx.min(sy), sx.min(sy)) };
    group.transform = Affine::scale_non_uniform(sx, sy) * Affine::translate(-edge.center().to_vec2());
    group
}

/// A ring of long petals about the origin, each a little different.
pub(crate) fn ring(
    draft: &mut Draft,
    turns: impl Iterator<Item = f64>,
    plain: Blade,
    hues: &Hues,
    veins: u32,
    lift: f64,
) {
    for a in turns {
        let blade = Blade {
            length: plain.length * (1.0 + draft.chance.bell(0.045)),
            half: plain.half * (1.0 + draft.chance.bell(0.08)),
            bend: plain.bend + draft.chance.bell(0.05),
            ..plain
        };
        let turn = a + draft.chance.bell(0.07);
        draft.blade(Affine::rotate(turn), &blade, hues, veins, lift);
    }
}

/// `count` directions evenly round from `start`.
pub(crate) fn around(count: u32, start: f64) -> impl Iterator<Item = f64> {
    (0..count).map(move |i| start + f64::from(i) * TAU / f64::from(count.max(1)))
}

/// A placement that turns by `turn` about the origin and then starts at `at`.
pub(crate) fn placed(at: impl Into<Point>, turn: f64) -> Affine {
    Affine::translate(at.into().to_vec2()) * Affine::rotate(turn)
}
