//! Writing down a sheet, and on to the next one where it ends.

use kurbo::{Point, Rect};

use super::sheet::{Align, Document, Paper, SOFT, Sheet};
use super::words;
use crate::colour::Rgb;
use crate::export::lettering::{Face, wrapped};

/// From one baseline to the next, in sizes; our choice.
pub(super) const LEADING: f64 = 1.28;
/// How far a baseline lies below the top of its line, in sizes; our choice.
pub(super) const RISE: f64 = 0.95;
/// Size of what stands at the foot of each sheet, mm.
const FOOT_MM: f64 = 3.2;
/// Room kept for the foot, mm.
const FOOT_ROOM_MM: f64 = 6.0;

/// A column of text over as many sheets as it takes.
#[derive(Debug)]
pub(super) struct Column {
    title: String,
    paper: Paper,
    sheets: Vec<Sheet>,
    /// Where the next line's top is, mm.
    pub(super) y: f64,
}

impl Column {
    /// A column on an empty first sheet; `title` is the document's and stands at the foot of each sheet.
    pub(super) fn new(title: String, paper: Paper) -> Self {
        Self { title, paper, sheets: vec![Sheet::default()], y: paper.inside().y0 }
    }

    /// From edge to edge, as far down as may be written.
    pub(super) fn inside(&self) -> Rect {
        let inside = self.paper.inside();
        Rect { y1: inside.y1 - FOOT_ROOM_MM, ..inside }
    }

    /// The sheet that is written on.
    pub(super) fn sheet(&mut self) -> &mut Sheet {
        let last = self.sheets.len() - 1;
        &mut self.sheets[last]
    }

    /// What is left of this sheet, mm.
    pub(super) fn left_mm(&self) -> f64 {
        self.inside().y1 - self.y
    }

    /// Goes on to the next sheet when less than `height_mm` is left; tells whether it did.
    pub(super) fn make_room(&mut self, height_mm: f64) -> bool {
        let on_top = self.y <= self.inside().y0;
        let turned = !on_top && self.left_mm() < height_mm;
        if turned {
            self.turn_over();
        }
        turned
    }

    /// Goes on to the next sheet.
    pub(super) fn turn_over(&mut self) {
        self.sheets.push(Sheet::default());
        self.y = self.inside().y0;
    }

    /// Leaves some room.
    pub(super) fn skip(&mut self, mm: f64) {
        self.y += mm;
    }

    /// Words over as many lines and sheets as they need, from `indent_mm` on.
    pub(super) fn paragraph(&mut self, words: &str, face: Face, size_mm: f64, indent_mm: f64, rgb: Rgb) {
        let inside = self.inside();
        for run in wrapped(words, face, size_mm, inside.width() - indent_mm) {
            self.make_room(size_mm * LEADING);
            let at = Point::new(inside.x0 + indent_mm, self.y + size_mm * RISE);
            self.sheet().run(run, at, size_mm, rgb);
            self.y += size_mm * LEADING;
        }
    }

    /// A small heading, kept together with at least `with_mm` of what follows.
    pub(super) fn heading(&mut self, words: &str, size_mm: f64, with_mm: f64) {
        self.make_room(size_mm * LEADING + with_mm);
        self.paragraph(words, Face::Strong, size_mm, 0.0, super::sheet::INK);
    }

    /// Done: every sheet gets its foot.
    pub(super) fn into_document(mut self) -> Document {
        let inside = self.paper.inside();
        let n_sheets = self.sheets.len();
        for (i, sheet) in self.sheets.iter_mut().enumerate() {
            let foot = words::foot(&self.title, i + 1, n_sheets);
            let run = crate::export::lettering::Run::cut(&foot, Face::Text, FOOT_MM, inside.width());
            let at = Point::new(inside.x1 - run.width_mm(FOOT_MM), inside.y1);
            sheet.run(run, at, FOOT_MM, SOFT);
        }
        Document { title: self.title, paper: self.paper, sheets: self.sheets }
    }

    /// Words on one line at the left edge.
    pub(super) fn one_line(&mut self, words: &str, face: Face, size_mm: f64) {
        let inside = self.inside();
        let run = crate::export::lettering::Run::cut(words, face, size_mm, inside.width());
        self.make_room(size_mm * LEADING);
        let at = Point::new(inside.x0, self.y + size_mm * RISE);
        self.sheet().words(&run.text, face, size_mm, at, Align::Left);
        self.y += size_mm * LEADING;
    }
}
