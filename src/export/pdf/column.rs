//! Writing down a sheet, and on to the next one where it ends.

use kurbo::{Point, Rect};

use super::sheet::{Align, Document, INK, PaperSheet, PaperSize, SOFT};
use super::words;
use crate::colour::Rgb;
use crate::export::lettering::{Face, Run, wrapped};

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
    paper: PaperSize,
    sheets: Vec<PaperSheet>,
    /// Left and right edge of what is written, mm.
    edges: (f64, f64),
    /// Where the next line's top is, mm.
    pub(super) y: f64,
}

impl Column {
    /// A column on an empty first sheet; `title` is the document's and stands at the foot of each sheet.
    pub(super) fn new(title: String, paper: PaperSize) -> Self {
        let inside = paper.inside();
        Self { title, paper, sheets: vec![PaperSheet::default()], edges: (inside.x0, inside.x1), y: inside.y0 }
    }

    /// From edge to edge, as far down as may be written.
    pub(super) fn inside(&self) -> Rect {
        let inside = self.paper.inside();
        Rect { x0: self.edges.0, x1: self.edges.1, y1: inside.y1 - FOOT_ROOM_MM, ..inside }
    }

    /// From here on writes between these edges, mm.
    pub(super) fn write_between(&mut self, from_mm: f64, to_mm: f64) {
        self.edges = (from_mm, to_mm);
    }

    /// How many sheets there are so far.
    pub(super) fn n_sheets(&self) -> usize {
        self.sheets.len()
    }

    /// The sheet that is written on.
    pub(super) fn sheet(&mut self) -> &mut PaperSheet {
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
        self.sheets.push(PaperSheet::default());
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
        self.paragraph(words, Face::Strong, size_mm, 0.0, INK);
    }

    /// Done: every sheet gets its foot.
    pub(super) fn into_document(mut self) -> Document {
        let inside = self.paper.inside();
        let n_sheets = self.sheets.len();
        for (i, sheet) in self.sheets.iter_mut().enumerate() {
            let foot = words::foot(&self.title, i + 1, n_sheets);
            let run = Run::cut(&foot, Face::Text, FOOT_MM, inside.width());
            let at = Point::new(inside.x1 - run.width_mm(FOOT_MM), inside.y1);
            sheet.run(run, at, FOOT_MM, SOFT);
        }
        Document { title: self.title, paper: self.paper, sheets: self.sheets }
    }

    /// Words on one line at the left edge.
    pub(super) fn one_line(&mut self, words: &str, face: Face, size_mm: f64) {
        let inside = self.inside();
        let run = Run::cut(words, face, size_mm, inside.width());
        self.make_room(size_mm * LEADING);
        let at = Point::new(inside.x0, self.y + size_mm * RISE);
        self.sheet().words(&run.text, face, size_mm, at, Align::Left);
        self.y += size_mm * LEADING;
    }
}

/// A name within a box of this width and height, mm, from its upper left corner: as large as it may be and whole, over
/// several lines if need be; only what does not fit in the smallest size is cut. Gives the height it takes, mm.
pub(super) fn whole_name(sheet: &mut PaperSheet, words: &str, face: Face, most_mm: f64, within: Rect) -> f64 {
    /// Sizes that are tried, as shares of the largest; our choice.
    const SHARES: [f64; 5] = [1.0, 0.84, 0.7, 0.58, 0.48];
    /// Lines of a name stand close.
    const CLOSE: f64 = 1.1;
    let smallest = most_mm * SHARES[SHARES.len() - 1];
    let fitting = SHARES.iter().map(|share| most_mm * share).find_map(|size| {
        let lines = wrapped(words, face, size, within.width());
        let fits = lines.len() as f64 * size * CLOSE <= within.height().max(size * CLOSE);
        let unbroken = words.split_whitespace().all(|word| Run::new(word, face).width_mm(size) <= within.width());
        (fits && unbroken).then_some((lines, size))
    });
    let (lines, size) = fitting.unwrap_or_else(|| (vec![Run::cut(words, face, smallest, within.width())], smallest));
    let high = lines.len() as f64 * size * CLOSE;
    for (i, run) in lines.into_iter().enumerate() {
        let y = within.y0 + size * RISE + i as f64 * size * CLOSE;
        sheet.run(run, Point::new(within.x0, y), size, INK);
    }
    high
}
