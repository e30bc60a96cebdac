//! The chart of all forms, side by side, each in a colour it is often bought in; blooms that open from bud to open.

use kurbo::{Affine, Point, Rect, Shape as _, Vec2};

use super::drawings::drawing_of;
use super::{Openness, bloom, opens};
use crate::colour::Rgb;
use crate::scene::{Group, Key, Scene};
use crate::stock::Form;

/// Single cells to a row; a bloom that opens takes two.
const COLUMNS: u32 = 12;
const CELL_MM: f64 = 39.0;
const BLOOM_MM: f64 = 33.0;
/// The stages of a bloom that opens: where in its two cells, and how large, mm.
const STAGES: [(Openness, f64, f64); 3] =
    [(Openness::Bud, 10.0, 18.0), (Openness::Half, 31.5, 22.0), (Openness::Open, 60.5, BLOOM_MM)];

/// Every form: first the blooms that open, as bud, half open and open, then all others, in the order of [`Form::ALL`].
pub fn form_chart() -> Scene {
    let (opening, others): (Vec<Form>, Vec<Form>) = Form::ALL.into_iter().partition(|form| opens(*form));
    let rows_of = |count: usize, per_row: u32| u32::try_from(count).unwrap_or(0).div_ceil(per_row);
    let first = rows_of(opening.len(), COLUMNS / 2);
    let rows = first + rows_of(others.len(), COLUMNS);
    let frame = Rect::new(-f64::from(rows) * CELL_MM, 0.0, 0.0, f64::from(COLUMNS) * CELL_MM);
    let mut ground = Group::new(Key::Ground, Affine::IDENTITY);
    // A little past the frame, so that its last row of pixels is covered whole.
    ground.fill(frame.inflate(2.0, 2.0).to_path(0.1), Rgb::hex(0xf6f0e9).paint(1.0));
    let mut groups = vec![ground];
    let corner = |i: u32, per_row: u32, from_row: u32| {
        let (row, column) = (from_row + i / per_row, i % per_row);
        Point::new(-(f64::from(row) + 0.5) * CELL_MM, f64::from(column) * f64::from(COLUMNS / per_row) * CELL_MM)
    };
    for (form, i) in opening.into_iter().zip(0_u32..) {
        let at = corner(i, COLUMNS / 2, 0);
        groups.extend(STAGES.map(|(openness, aside, size)| shown_at(form, at + Vec2::new(0.0, aside), size, openness)));
    }
    for (form, i) in others.into_iter().zip(0_u32..) {
        let at = corner(i, COLUMNS, first) + Vec2::new(0.0, CELL_MM / 2.0);
        groups.push(shown_at(form, at, BLOOM_MM, Openness::Open));
    }
    Scene { frame, groups }
}

fn shown_at(form: Form, centre: Point, size_mm: f64, openness: Openness) -> Group {
    let drawing = drawing_of(form);
    let seed = crate::scene::chance::seed_of("chart", 1);
    let mut group = bloom(form, seed, size_mm, drawing.chart_breadth, drawing.chart_colour, openness);
    group.transform = Affine::translate(centre.to_vec2()) * group.transform;
    group
}
