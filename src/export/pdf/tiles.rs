//! A drawing at 1:1 that is larger than the sheet, over several sheets that are laid on one another along dashed lines.
//!
//! Every sheet shows a cell of the drawing and a strip of what is around it. Lines run through the strip, so that sheets can
//! be laid true; numbers and words stand on the sheet of their cell alone.

use kurbo::{BezPath, Line, PathEl, Point, Rect, Shape as _, Size, Vec2};

use super::column::Column;
use super::sheet::{Align, HAIR, INK, Mark, Pattern, SOFT};
use super::words;
use crate::export::lettering::Face;
use crate::units::ceil_u32;

/// Strip of the neighbour that a sheet shows, mm; our choice.
pub(super) const STRIP_MM: f64 = 8.0;
/// Room for the words above the drawing, mm.
const HEAD_MM: f64 = 8.0;
/// More sheets than these are no template, and a slip in a figure.
const MOST_SHEETS: u32 = 60;
/// Size of words, mm.
const WORDS_MM: f64 = 3.8;
/// How finely curves are cut, mm.
const TOLERANCE_MM: f64 = 0.01;
/// Longest side of the plan of the sheets, mm.
const PLAN_MM: f64 = 70.0;

/// How a drawing is shared out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Tiles {
    /// What is drawn, mm.
    extent: Rect,
    cell: Size,
    n_columns: u32,
    n_rows: u32,
}

impl Tiles {
    /// Shares out what is drawn within `extent` over sheets on which `inside` may be printed; none when it takes far too
    /// many.
    pub(super) fn over(extent: Rect, inside: Rect) -> Option<Self> {
        let cell = Size::new(inside.width() - 2.0 * STRIP_MM, inside.height() - HEAD_MM - 2.0 * STRIP_MM);
        if !extent.is_finite() || cell.width <= 0.0 || cell.height <= 0.0 {
            return None;
        }
        let (n_columns, n_rows) = (ceil_u32(extent.width() / cell.width), ceil_u32(extent.height() / cell.height));
        let (n_columns, n_rows) = (n_columns.max(1), n_rows.max(1));
        let fits = n_columns.checked_mul(n_rows).is_some_and(|n| n <= MOST_SHEETS);
        // Cells are shared out evenly, so that no sheet has but a sliver on it.
        let cell = Size::new(extent.width() / f64::from(n_columns), extent.height() / f64::from(n_rows));
        fits.then_some(Self { extent, cell, n_columns, n_rows })
    }

    /// How many sheets it takes.
    pub(super) fn n_sheets(&self) -> u32 {
        self.n_columns * self.n_rows
    }

    /// Each cell with its name: rows by letters from above, columns by numbers from the left.
    fn cells(self) -> impl Iterator<Item = (String, Rect)> {
        let rows = (0..self.n_rows).zip('A'..='Z').chain((26..self.n_rows).zip('a'..='z'));
        rows.flat_map(move |(row, letter)| {
            (0..self.n_columns).map(move |column| {
                let corner = Vec2::new(f64::from(column) * self.cell.width, f64::from(row) * self.cell.height);
                (format!("{letter}{}", column + 1), Rect::from_origin_size(self.extent.origin() + corner, self.cell))
            })
        })
    }

    /// A small plan of how the sheets lie.
    pub(super) fn plan(self, column: &mut Column) {
        let scale = PLAN_MM / self.extent.width().max(self.extent.height());
        column.make_room(self.extent.height() * scale + 4.0);
        let corner = Point::new(column.inside().x0, column.y + 2.0);
        for (name, cell) in self.cells() {
            let at = corner + (cell.origin() - self.extent.origin()) * scale;
            let around = Rect::from_origin_size(at, cell.size() * scale);
            column.sheet().line(around.to_path(TOLERANCE_MM), 0.3, INK, Pattern::Whole);
            let middle = around.center() + Vec2::new(0.0, WORDS_MM * 0.35);
            column.sheet().words(&name, Face::Strong, WORDS_MM, middle, Align::Middle);
        }
        column.skip(self.extent.height() * scale + 4.0);
    }

    /// The sheets, each with its part of what is drawn.
    pub(super) fn write(self, column: &mut Column, drawn: &[Mark]) {
        for (name, cell) in self.cells() {
            column.turn_over();
            let inside = column.inside();
            let y = column.y + WORDS_MM;
            column.sheet().words(&name, Face::Strong, WORDS_MM * 1.4, Point::new(inside.x0, y), Align::Left);
            column.sheet().words(words::PRINT_AT_100, Face::Strong, WORDS_MM, Point::new(inside.x1, y), Align::Right);
            let free = inside.size() - Size::new(0.0, HEAD_MM) - cell.size();
            let by = inside.origin() + Vec2::new(free.width / 2.0, HEAD_MM + free.height / 2.0) - cell.origin();
            let marks = drawn.iter().filter_map(|mark| cut(mark, cell, cell.inflate(STRIP_MM, STRIP_MM), by));
            let edges = self.inner_edges(cell).into_iter().map(|edge| edge + by).collect::<Vec<_>>();
            column.sheet().marks.extend(marks);
            for edge in edges {
                column.sheet().line(edge.to_path(TOLERANCE_MM), 0.25, SOFT, Pattern::Dashed(3.0, 2.0));
            }
            let around = (cell + by).inflate(STRIP_MM, STRIP_MM).to_path(TOLERANCE_MM);
            column.sheet().line(around, 0.1, HAIR, Pattern::Whole);
        }
    }

    /// Edges of a cell beyond which another sheet goes on.
    fn inner_edges(self, cell: Rect) -> Vec<Line> {
        /// Cells are calculated, mm.
        const ALIKE_MM: f64 = 1e-6;
        let Rect { x0, y0, x1, y1 } = self.extent;
        let corner = |x: f64, y: f64| Point::new(x, y);
        let all = [
            ((cell.x0 - x0).abs(), Line::new(corner(cell.x0, cell.y0), corner(cell.x0, cell.y1))),
            ((cell.x1 - x1).abs(), Line::new(corner(cell.x1, cell.y0), corner(cell.x1, cell.y1))),
            ((cell.y0 - y0).abs(), Line::new(corner(cell.x0, cell.y0), corner(cell.x1, cell.y0))),
            ((cell.y1 - y1).abs(), Line::new(corner(cell.x0, cell.y1), corner(cell.x1, cell.y1))),
        ];
        all.into_iter().filter(|(off, _)| *off > ALIKE_MM).map(|(_, edge)| edge).collect()
    }
}

/// What of a mark belongs on the sheet of `cell`, moved there: lines as far as they lie in the `window`, words and grounds
/// whole when their middle lies in the cell.
fn cut(mark: &Mark, cell: Rect, window: Rect, by: Vec2) -> Option<Mark> {
    let is_here = |p: Point| p.x >= cell.x0 && p.x < cell.x1 && p.y >= cell.y0 && p.y < cell.y1;
    match mark {
        Mark::Line { path, width_mm, rgb, pattern } => {
            let path = kurbo::Affine::translate(by) * within(path, window);
            let line = Mark::Line { path, width_mm: *width_mm, rgb: *rgb, pattern: *pattern };
            (!is_empty(&line)).then_some(line)
        }
        Mark::Fill { path, paint } => {
            let whole = is_here(path.bounding_box().center());
            whole.then(|| Mark::Fill { path: kurbo::Affine::translate(by) * path.clone(), paint: paint.clone() })
        }
        Mark::Words { run, at, size_mm, rgb } => {
            let wide = run.width_mm(*size_mm);
            // As its ground is: from the size below the baseline to the size above it.
            let middle = *at + Vec2::new(wide / 2.0, -size_mm * 0.25);
            let moved = || Mark::Words { run: run.clone(), at: *at + by, size_mm: *size_mm, rgb: *rgb };
            is_here(middle).then(moved)
        }
        Mark::Picture { .. } | Mark::Logo { .. } => None,
    }
}

fn is_empty(mark: &Mark) -> bool {
    matches!(mark, Mark::Line { path, .. } if path.elements().is_empty())
}

/// The parts of a line that lie in a box, as straight pieces.
fn within(path: &BezPath, window: Rect) -> BezPath {
    let (mut cut, mut end) = (BezPath::new(), None);
    let (mut start, mut here) = (Point::ORIGIN, Point::ORIGIN);
    let mut piece = |from: Point, to: Point| {
        if let Some((a, b)) = clipped(from, to, window) {
            if end != Some(a) {
                cut.move_to(a);
            }
            cut.line_to(b);
            end = Some(b);
        }
    };
    kurbo::flatten(path.iter(), TOLERANCE_MM, |element| match element {
        PathEl::MoveTo(p) => (start, here) = (p, p),
        PathEl::LineTo(p) => {
            piece(here, p);
            here = p;
        }
        PathEl::ClosePath => {
            piece(here, start);
            here = start;
        }
        PathEl::QuadTo(..) | PathEl::CurveTo(..) => {}
    });
    cut
}

/// The part of a straight piece that lies in a box (Liang and Barsky, ACM Transactions on Graphics 3, 1984).
fn clipped(from: Point, to: Point, window: Rect) -> Option<(Point, Point)> {
    let along = to - from;
    let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
    let sides = [
        (-along.x, from.x - window.x0),
        (along.x, window.x1 - from.x),
        (-along.y, from.y - window.y0),
        (along.y, window.y1 - from.y),
    ];
    for (toward, room) in sides {
        if toward < 0.0 {
            enter = enter.max(room / toward);
        } else if toward > 0.0 {
            leave = leave.min(room / toward);
        } else if room < 0.0 {
            return None;
        }
    }
    (enter < leave).then(|| (from + along * enter, from + along * leave))
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Circle;

    /// A circle of 100 mm about the corner of four cells: each has a quarter of it, and a strip of its neighbours'.
    #[test]
    fn a_line_is_cut_to_its_window_and_nothing_is_lost() {
        let circle = Circle::new((0.0, 0.0), 50.0).to_path(TOLERANCE_MM);
        let quarters = [(-60.0, -60.0), (0.0, -60.0), (-60.0, 0.0), (0.0, 0.0)];
        let mut length = 0.0;
        for corner in quarters {
            let cell = Rect::from_origin_size(corner, (60.0, 60.0));
            let part = within(&circle, cell);
            assert!(part.elements().iter().filter_map(PathEl::end_point).all(|p| cell.inflate(1e-9, 1e-9).contains(p)));
            length += part.perimeter(1e-6);
        }
        assert!((length - std::f64::consts::TAU * 50.0).abs() < 0.1, "{length}");
        assert!(within(&circle, Rect::new(-10.0, -10.0, 10.0, 10.0)).elements().is_empty());
    }

    #[test]
    fn cells_make_up_the_whole_and_have_names() {
        let inside = Rect::new(12.0, 12.0, 198.0, 279.0);
        let tiles = Tiles::over(Rect::new(-250.0, -250.0, 250.0, 250.0), inside).unwrap();
        assert_eq!((tiles.n_columns, tiles.n_rows, tiles.n_sheets()), (3, 3, 9));
        let cells: Vec<(String, Rect)> = tiles.cells().collect();
        assert_eq!((cells[0].0.as_str(), cells[8].0.as_str()), ("A1", "C3"));
        assert!((cells.iter().map(|c| c.1.area()).sum::<f64>() - 250_000.0).abs() < 1e-6);
        assert!(cells.iter().all(|c| c.1.width() + 2.0 * STRIP_MM <= inside.width() + 1e-9));
        assert_eq!((tiles.inner_edges(cells[0].1).len(), tiles.inner_edges(cells[4].1).len()), (2, 4));
        for far in [f64::INFINITY, f64::NAN, 1e6] {
            assert_eq!(Tiles::over(Rect::new(0.0, 0.0, far, 100.0), inside), None);
        }
    }
}
