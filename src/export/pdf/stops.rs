//! What the wearer must not get and what is on the piece all the same: boxed at the head of every paper of the order, so that
//! nobody overlooks it. Nothing where nothing is stopped.

use kurbo::{Point, Rect};

use super::column::{Column, LEADING, RISE};
use super::sheet::INK;
use crate::book::safety_lines;
use crate::export::lettering::{Face, wrapped};
use crate::export::paper_kind::PaperJob;

/// Room between the frame and the words, mm.
const WITHIN_MM: f64 = 3.0;

/// The box, its words of this size.
pub(super) fn stops(column: &mut Column, job: &PaperJob<'_>, size_mm: f64) {
    let inside = column.inside();
    let wide = inside.width() - 2.0 * WITHIN_MM;
    let lines = safety_lines(job.order, job.stock);
    let runs: Vec<_> = lines.iter().flat_map(|line| wrapped(line, Face::Strong, size_mm, wide)).collect();
    if runs.is_empty() {
        return;
    }
    let high = runs.len() as f64 * size_mm * LEADING + 2.0 * WITHIN_MM;
    column.make_room(high);
    let around = Rect::new(inside.x0, column.y, inside.x1, column.y + high);
    column.sheet().frame(around, 0.9, INK);
    for (i, run) in runs.into_iter().enumerate() {
        let y = around.y0 + WITHIN_MM + size_mm * RISE + i as f64 * size_mm * LEADING;
        column.sheet().run(run, Point::new(around.x0 + WITHIN_MM, y), size_mm, INK);
    }
    column.y = around.y1 + WITHIN_MM;
}
