//! Tables: cells wrap, rows go over to the next sheet, and the head row is repeated there.

use kurbo::{Point, Rect};

use super::column::{Column, LEADING, RISE};
use super::sheet::{Align, HAIR, INK, SOFT};
use crate::colour::Rgb;
use crate::export::lettering::{Face, Run, wrapped};

/// Room between columns, mm.
const GUTTER_MM: f64 = 3.0;
/// Room above and below the words of a row, mm.
const PAD_MM: f64 = 1.0;

/// A column of a table.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lane {
    pub(super) head: &'static str,
    /// How wide it is to the others.
    pub(super) share: f64,
    pub(super) align: Align,
}

/// What stands in a cell.
#[derive(Clone, Debug)]
pub(super) enum Cell {
    Words(String),
    /// Words that must be seen first.
    Strong(String),
    /// A spot of colour; empty where no colour is known.
    Swatch(Option<Rgb>),
    /// A box to be ticked by hand.
    Tick,
}

/// A table to be written.
#[derive(Debug)]
pub(super) struct Table<'a> {
    pub(super) lanes: &'a [Lane],
    pub(super) size_mm: f64,
    /// Where it stands, from the left edge of the sheet, mm: from, to.
    pub(super) from_mm: f64,
    pub(super) to_mm: f64,
}

impl Table<'_> {
    /// Writes the head and all rows.
    pub(super) fn write(&self, column: &mut Column, rows: &[Vec<Cell>]) {
        let head = self.line_mm() + 2.0 * PAD_MM;
        column.make_room(head + self.line_mm() + 2.0 * PAD_MM);
        self.head(column);
        for row in rows {
            self.row(column, row);
        }
    }

    /// How high a table of these rows is on one sheet, mm.
    pub(super) fn height_mm(&self, rows: &[Vec<Cell>]) -> f64 {
        let lines: usize = rows.iter().map(|row| self.lines(row).iter().map(Vec::len).max().unwrap_or(1).max(1)).sum();
        let heads = usize::from(!self.is_headless());
        (lines + heads) as f64 * self.line_mm() + (rows.len() + heads) as f64 * 2.0 * PAD_MM
    }

    fn is_headless(&self) -> bool {
        self.lanes.iter().all(|lane| lane.head.is_empty())
    }

    fn line_mm(&self) -> f64 {
        self.size_mm * LEADING
    }

    /// Left and right edge of each lane, mm.
    fn edges(&self) -> Vec<(f64, f64)> {
        let gutters = GUTTER_MM * self.lanes.len().saturating_sub(1) as f64;
        let one = (self.to_mm - self.from_mm - gutters) / self.lanes.iter().map(|l| l.share).sum::<f64>();
        let mut x = self.from_mm;
        let mut edges = Vec::new();
        for lane in self.lanes {
            edges.push((x, x + lane.share * one));
            x += lane.share * one + GUTTER_MM;
        }
        edges
    }

    fn head(&self, column: &mut Column) {
        /// Heads are a little smaller than what they head.
        const SMALLER: f64 = 0.8;
        if self.is_headless() {
            return;
        }
        let size = self.size_mm * SMALLER;
        column.skip(PAD_MM);
        let y = column.y + self.size_mm * RISE;
        for (lane, (x0, x1)) in self.lanes.iter().zip(self.edges()) {
            let run = Run::cut(lane.head, Face::Strong, size, x1 - x0);
            column.sheet().tinted(
                &run.text,
                Face::Strong,
                size,
                Point::new(anchor(lane.align, x0, x1), y),
                lane.align,
                SOFT,
            );
        }
        column.skip(self.line_mm() + PAD_MM);
        let y = column.y;
        column.sheet().rule(Point::new(self.from_mm, y), Point::new(self.to_mm, y), 0.4, INK);
    }

    /// The lines of each cell of a row.
    fn lines(&self, row: &[Cell]) -> Vec<Vec<Run>> {
        let edges = self.edges();
        let of = |(cell, (x0, x1)): (&Cell, &(f64, f64))| match cell {
            Cell::Words(words) => wrapped(words, Face::Text, self.size_mm, x1 - x0),
            Cell::Strong(words) => wrapped(words, Face::Strong, self.size_mm, x1 - x0),
            Cell::Swatch(_) | Cell::Tick => Vec::new(),
        };
        row.iter().zip(&edges).map(of).collect()
    }

    /// A row stays on one sheet if it can; one that is higher than a sheet goes on line by line.
    fn row(&self, column: &mut Column, row: &[Cell]) {
        let lines = self.lines(row);
        let n_lines = lines.iter().map(Vec::len).max().unwrap_or(1).max(1);
        let whole = n_lines as f64 * self.line_mm() + 2.0 * PAD_MM;
        let sheet_mm = column.inside().height() - 3.0 * self.line_mm();
        if column.make_room(whole.min(sheet_mm)) {
            self.head(column);
        }
        column.skip(PAD_MM);
        self.marks(column, row);
        for i in 0..n_lines {
            if column.make_room(self.line_mm()) {
                self.head(column);
                column.skip(PAD_MM);
            }
            let y = column.y + self.size_mm * RISE;
            for ((cell, lane), (x0, x1)) in lines.iter().zip(self.lanes).zip(self.edges()) {
                if let Some(run) = cell.get(i) {
                    let back = match lane.align {
                        Align::Left => 0.0,
                        Align::Middle => run.width_mm(self.size_mm) / 2.0,
                        Align::Right => run.width_mm(self.size_mm),
                    };
                    let at = Point::new(anchor(lane.align, x0, x1) - back, y);
                    column.sheet().run(run.clone(), at, self.size_mm, INK);
                }
            }
            column.skip(self.line_mm());
        }
        column.skip(PAD_MM);
        let y = column.y;
        column.sheet().rule(Point::new(self.from_mm, y), Point::new(self.to_mm, y), 0.15, HAIR);
    }

    /// Swatches and tick boxes, beside the first line of a row.
    fn marks(&self, column: &mut Column, row: &[Cell]) {
        let y = column.y + self.size_mm * RISE;
        let high = self.size_mm * 0.9;
        for (cell, (x0, x1)) in row.iter().zip(self.edges()) {
            match cell {
                Cell::Swatch(Some(rgb)) => {
                    let wide = (x1 - x0).min(high * 1.6);
                    column.sheet().swatch(Rect::new(x0, y - high * 0.9, x0 + wide, y + high * 0.1), *rgb);
                }
                Cell::Tick => column.sheet().tick_box(Point::new(x0, y + high * 0.1), high),
                Cell::Words(_) | Cell::Strong(_) | Cell::Swatch(None) => {}
            }
        }
    }
}

fn anchor(align: Align, x0: f64, x1: f64) -> f64 {
    match align {
        Align::Left => x0,
        Align::Middle => f64::midpoint(x0, x1),
        Align::Right => x1,
    }
}
