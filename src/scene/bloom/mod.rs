//! Every form that can be drawn, each a small function on a draft. A draft is brought to the size that the piece reckons
//! with, so that what the eye sees is what is measured.

mod leaf;
mod rose;
mod sprig;
mod star;

use std::f64::consts::TAU;

use kurbo::{Affine, Point, Rect, Vec2};

use super::draft::{Draft, LIGHT};
use super::hues::Hues;
use super::{Group, Item, Key, Scene};
use crate::colour::Rgb;
use crate::stock::Form;

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
/// their width over their length. A size that is no size gives an empty group.
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
    draw(&mut draft, form, breadth, colour, openness);
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

fn draw(draft: &mut Draft, form: Form, breadth: f64, colour: Rgb, openness: Openness) {
    let hues = Hues::of(colour);
    match form {
        Form::Rose => rose::rose(draft, &hues, openness),
        Form::SprayRose => rose::spray_rose(draft, &hues, openness),
        Form::Waxflower => sprig::waxflower(draft, &hues),
        Form::Dendrobium => star::dendrobium(draft, &hues),
        Form::BroadLeaf | Form::NarrowLeaf => leaf::leaf(draft, colour, breadth),
        _ => star::five_petals(draft, &hues),
    }
}

/// Every form side by side, in the order of [`Form::ALL`], as the chart of what can be drawn.
pub fn form_chart() -> Scene {
    const COLUMNS: u32 = 9;
    const CELL_MM: f64 = 40.0;
    const BLOOM_MM: f64 = 32.0;
    let mut groups = Vec::new();
    let mut rows = 0;
    for (form, i) in Form::ALL.into_iter().zip(0_u32..) {
        let (row, column) = (i / COLUMNS, i % COLUMNS);
        rows = row + 1;
        let centre = Vec2::new(-(f64::from(row) + 0.5) * CELL_MM, (f64::from(column) + 0.5) * CELL_MM);
        let mut group =
            bloom(form, u64::from(i) + 1, BLOOM_MM, chart_breadth(form), chart_colour(form), Openness::Open);
        group.transform = Affine::translate(centre) * group.transform;
        groups.push(group);
    }
    let frame = Rect::new(-f64::from(rows) * CELL_MM, 0.0, 0.0, f64::from(COLUMNS) * CELL_MM);
    let mut ground = Group::new(Key::Ground, Affine::IDENTITY);
    ground.fill(kurbo::Shape::to_path(&frame, 0.1), Rgb::hex(0xf6f0e9).paint(1.0));
    ground.items.extend(groups.into_iter().map(Item::Group));
    Scene { frame, groups: vec![ground] }
}

/// Width over length of a form on the chart.
fn chart_breadth(form: Form) -> f64 {
    if form.is_long() { 0.4 } else { 1.0 }
}

/// The colour of a form on the chart: one it is often bought in.
fn chart_colour(form: Form) -> Rgb {
    let _ = form;
    Rgb::hex(0xe9a7ac)
}

/// `count` directions evenly round from `start`.
pub(crate) fn around(count: u32, start: f64) -> impl Iterator<Item = f64> {
    (0..count).map(move |i| start + f64::from(i) * TAU / f64::from(count.max(1)))
}

/// A placement that turns by `turn` about the origin and then starts at `at`.
pub(crate) fn placed(at: impl Into<Point>, turn: f64) -> Affine {
    Affine::translate(at.into().to_vec2()) * Affine::rotate(turn)
}
