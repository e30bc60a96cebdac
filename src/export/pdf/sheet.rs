//! A sheet of paper as a list of marks, before anything is written: so that it can be walked, measured and read.
//!
//! Millimetres from the top left corner, x to the right, y downward.

use std::sync::Arc;

use kurbo::{Affine, BezPath, Line, Point, Rect, Shape as _};

use crate::book::Logo;
use crate::colour::Rgb;
use crate::export::lettering::{Face, Run};
use crate::scene::{Group, Paint, Tint};

/// The ink of words and lines: a dark plum, near enough to black for any printer.
pub(super) const INK: Rgb = Rgb::hex(0x2b1b26);
/// The ink of what is said in passing.
pub(super) const SOFT: Rgb = Rgb::hex(0x66525f);
/// Hairlines.
pub(super) const HAIR: Rgb = Rgb::hex(0xa8979f);

/// How finely curves are cut, mm.
const TOLERANCE_MM: f64 = 0.01;

/// Paper that the papers are made for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PaperSize {
    /// ISO 216 A4: 210 x 297 mm.
    #[default]
    A4,
    /// US Letter: 8 1/2 x 11 in.
    Letter,
}

impl PaperSize {
    /// White edge that home printers leave, mm, with some to spare; common practice, no source.
    pub const MARGIN_MM: f64 = 12.0;

    /// All of them.
    pub const ALL: [Self; 2] = [Self::A4, Self::Letter];

    /// Width and height, mm.
    pub fn size_mm(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }

    /// What may be printed on.
    pub fn inside(self) -> Rect {
        let (width, height) = self.size_mm();
        Rect::new(0.0, 0.0, width, height).inset(-Self::MARGIN_MM)
    }

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "Letter",
        }
    }
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Pattern {
    Whole,
    /// Dashes and gaps of these lengths, mm.
    Dashed(f64, f64),
}

/// One thing on a sheet.
#[derive(Clone, Debug)]
pub(super) enum Mark {
    Fill { path: BezPath, paint: Paint },
    Line { path: BezPath, width_mm: f64, rgb: Rgb, pattern: Pattern },
    Words { run: Run, at: Point, size_mm: f64, rgb: Rgb },
    Picture { groups: Vec<Group>, view: Affine, within: Rect },
    Logo { logo: Arc<Logo>, within: Rect },
}

impl Mark {
    /// The box of a picture.
    fn picture(&self) -> Option<Rect> {
        match self {
            Self::Picture { within, .. } | Self::Logo { within, .. } => Some(*within),
            Self::Fill { .. } | Self::Line { .. } | Self::Words { .. } => None,
        }
    }
}

/// Where words stand to their place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Align {
    Left,
    Middle,
    Right,
}

/// A sheet in the making.
#[derive(Clone, Debug, Default)]
pub(super) struct PaperSheet {
    pub(super) marks: Vec<Mark>,
}

impl PaperSheet {
    pub(super) fn run(&mut self, run: Run, at: Point, size_mm: f64, rgb: Rgb) {
        if !run.glyphs.is_empty() {
            self.marks.push(Mark::Words { run, at, size_mm, rgb });
        }
    }

    /// Words on one line; `at` is on the baseline, at their left end, middle or right end.
    pub(super) fn words(&mut self, words: &str, face: Face, size_mm: f64, at: Point, align: Align) {
        self.tinted(words, face, size_mm, at, align, INK);
    }

    pub(super) fn tinted(&mut self, words: &str, face: Face, size_mm: f64, at: Point, align: Align, rgb: Rgb) {
        let run = Run::new(words, face);
        let back = match align {
            Align::Left => 0.0,
            Align::Middle => run.width_mm(size_mm) / 2.0,
            Align::Right => run.width_mm(size_mm),
        };
        self.run(run, Point::new(at.x - back, at.y), size_mm, rgb);
    }

    pub(super) fn fill(&mut self, path: BezPath, rgb: Rgb) {
        self.marks.push(Mark::Fill { path, paint: Paint::Solid(Tint { rgb, alpha: 1.0 }) });
    }

    pub(super) fn line(&mut self, path: BezPath, width_mm: f64, rgb: Rgb, pattern: Pattern) {
        self.marks.push(Mark::Line { path, width_mm, rgb, pattern });
    }

    pub(super) fn rule(&mut self, from: Point, to: Point, width_mm: f64, rgb: Rgb) {
        self.line(Line::new(from, to).to_path(TOLERANCE_MM), width_mm, rgb, Pattern::Whole);
    }

    pub(super) fn frame(&mut self, around: Rect, width_mm: f64, rgb: Rgb) {
        self.line(around.to_rounded_rect(1.5).to_path(TOLERANCE_MM), width_mm, rgb, Pattern::Whole);
    }

    /// A box to be ticked by hand, its lower left corner on the baseline.
    pub(super) fn tick_box(&mut self, at: Point, size_mm: f64) {
        let square = Rect::new(at.x, at.y - size_mm, at.x + size_mm, at.y);
        self.line(square.to_rounded_rect(0.6).to_path(TOLERANCE_MM), 0.4, INK, Pattern::Whole);
    }

    /// A spot of colour with a line about it, so that white is seen on white.
    pub(super) fn swatch(&mut self, around: Rect, rgb: Rgb) {
        let path = around.to_rounded_rect(0.8).to_path(TOLERANCE_MM);
        self.fill(path.clone(), rgb);
        self.line(path, 0.3, INK, Pattern::Whole);
    }

    pub(super) fn picture(&mut self, groups: Vec<Group>, view: Affine, within: Rect) {
        self.marks.push(Mark::Picture { groups, view, within });
    }

    pub(super) fn logo(&mut self, logo: &Arc<Logo>, within: Rect) {
        self.marks.push(Mark::Logo { logo: Arc::clone(logo), within });
    }

    /// All it says, a line each.
    fn texts(&self) -> impl Iterator<Item = &str> {
        self.marks.iter().filter_map(|mark| match mark {
            Mark::Words { run, .. } => Some(run.text.as_str()),
            Mark::Fill { .. } | Mark::Line { .. } | Mark::Picture { .. } | Mark::Logo { .. } => None,
        })
    }
}

/// Where words stand on a document: the start of their baseline, from the top left corner of their sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed {
    /// The sheet, from 0.
    pub sheet: usize,
    /// To the right.
    pub x_mm: f64,
    /// Down.
    pub y_mm: f64,
    /// Size of the letters.
    pub size_mm: f64,
}

/// Sheets that belong together, ready to be written.
#[derive(Clone, Debug)]
pub struct Document {
    pub(super) title: String,
    pub(super) paper: PaperSize,
    pub(super) sheets: Vec<PaperSheet>,
}

impl Document {
    /// How many sheets it has.
    pub fn n_sheets(&self) -> usize {
        self.sheets.len()
    }

    /// What it is called.
    pub fn title(&self) -> &str {
        &self.title
    }

    /// All the words on it, a line each: what a client, or a search, can read.
    pub fn text(&self) -> String {
        self.sheet_texts().join("\n")
    }

    /// The words on each sheet, a line each.
    pub fn sheet_texts(&self) -> Vec<String> {
        self.sheets.iter().map(|sheet| sheet.texts().collect::<Vec<_>>().join("\n")).collect()
    }

    /// Where a line of these words stands first.
    pub fn find(&self, words: &str) -> Option<Placed> {
        let marks = self.sheets.iter().enumerate().flat_map(|(i, s)| s.marks.iter().map(move |m| (i, m)));
        marks.into_iter().find_map(|(sheet, mark)| match mark {
            Mark::Words { run, at, size_mm, .. } if run.text == words => {
                Some(Placed { sheet, x_mm: at.x, y_mm: at.y, size_mm: *size_mm })
            }
            Mark::Words { .. } | Mark::Fill { .. } | Mark::Line { .. } | Mark::Picture { .. } | Mark::Logo { .. } => {
                None
            }
        })
    }

    /// The lines of words on a sheet, counted from 0, each with the box that it takes up, mm: from the top of its capitals
    /// down to its baseline.
    pub fn words_at(&self, sheet: usize) -> Vec<(&str, Rect)> {
        /// Height of capitals, in sizes; from memory, that of most faces.
        const CAPITALS: f64 = 0.66;
        let marks = self.sheets.get(sheet).map(|sheet| &sheet.marks[..]).unwrap_or_default();
        let boxed = |mark| match mark {
            &Mark::Words { ref run, at, size_mm, .. } => {
                let top = Point::new(at.x, at.y - size_mm * CAPITALS);
                Some((run.text.as_str(), Rect::from_points(top, (at.x + run.width_mm(size_mm), at.y))))
            }
            Mark::Line { .. } | Mark::Fill { .. } | Mark::Picture { .. } | Mark::Logo { .. } => None,
        };
        marks.iter().filter_map(boxed).collect()
    }

    /// How many pictures it shows.
    pub fn n_pictures(&self) -> usize {
        let marks = self.sheets.iter().flat_map(|s| &s.marks);
        marks.filter(|mark| matches!(mark, Mark::Picture { .. })).count()
    }

    /// Lines that begin or end on a picture; there should be none.
    pub fn words_on_pictures(&self) -> Vec<String> {
        let mut on = Vec::new();
        for sheet in &self.sheets {
            let pictures: Vec<Rect> = sheet.marks.iter().filter_map(Mark::picture).collect();
            for mark in &sheet.marks {
                if let Mark::Words { run, at, size_mm, .. } = mark {
                    let end = Point::new(at.x + run.width_mm(*size_mm), at.y);
                    if pictures.iter().any(|p| p.contains(*at) || p.contains(end)) {
                        on.push(run.text.clone());
                    }
                }
            }
        }
        on
    }

    /// Lines that do not stand within the sheet's white edges; there should be none.
    pub fn outside_the_edges(&self) -> Vec<String> {
        let inside = self.paper.inside().inflate(0.5, 0.5);
        let mut out = Vec::new();
        for mark in self.sheets.iter().flat_map(|s| &s.marks) {
            if let Mark::Words { run, at, size_mm, .. } = mark {
                let end = Point::new(at.x + run.width_mm(*size_mm), at.y);
                if !inside.contains(*at) || !inside.contains(end) {
                    out.push(run.text.clone());
                }
            }
        }
        out
    }
}
