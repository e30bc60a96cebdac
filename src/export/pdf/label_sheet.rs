//! Sheets of labels: how many, how large, where on the sheet. Millimetres from the top left corner; no words of an order.
//!
//! Labels lie in the middle of their sheet, as they do on those that are sold. The two common sheets: 30 on Letter, each
//! 2 5/8 by 1 in with 1/8 in between columns; 24 on A4, each 63.5 by 33.9 mm with 2.5 mm between columns. Both from memory,
//! and as published settings for such sheets give them; the test print shows whether a packet is another.

use kurbo::{Point, Rect, Size};

use super::sheet::PaperSize;
use crate::export::ExportError;
use crate::units::MM_PER_INCH;

/// Least size of a label on which a name can be read, mm; our choice.
const LEAST_MM: (f64, f64) = (30.0, 16.0);
/// Most labels side by side or above each other; our choice.
const MOST_A_ROW: u32 = 20;

/// A sheet of labels that fits on its paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LabelSheet {
    paper: PaperSize,
    columns: u32,
    rows: u32,
    label: Size,
    /// Between two columns, between two rows.
    gap: Size,
}

impl LabelSheet {
    /// 30 on Letter.
    pub const LETTER_30: Self = Self {
        paper: PaperSize::Letter,
        columns: 3,
        rows: 10,
        label: Size::new(2.625 * MM_PER_INCH, MM_PER_INCH),
        gap: Size::new(0.125 * MM_PER_INCH, 0.0),
    };
    /// 24 on A4.
    pub const A4_24: Self =
        Self { paper: PaperSize::A4, columns: 3, rows: 8, label: Size::new(63.5, 33.9), gap: Size::new(2.5, 0.0) };

    /// The common sheet of this paper.
    pub fn usual(paper: PaperSize) -> Self {
        match paper {
            PaperSize::A4 => Self::A4_24,
            PaperSize::Letter => Self::LETTER_30,
        }
    }

    /// Columns and rows of labels so wide and high, with so much between them, mm. Refused when they do not fit on the
    /// paper, or are too small to be read.
    pub fn own(
        paper: PaperSize,
        (columns, rows): (u32, u32),
        (width_mm, height_mm): (f64, f64),
        (across_mm, down_mm): (f64, f64),
    ) -> Result<Self, ExportError> {
        let (label, gap) = (Size::new(width_mm, height_mm), Size::new(across_mm, down_mm));
        let sheet = Self { paper, columns, rows, label, gap };
        let has_labels = (1..=MOST_A_ROW).contains(&columns) && (1..=MOST_A_ROW).contains(&rows);
        let is_sound = label.is_finite() && gap.is_finite() && across_mm >= 0.0 && down_mm >= 0.0;
        if !has_labels || !is_sound || label.width < LEAST_MM.0 || label.height < LEAST_MM.1 {
            let (width, height) = LEAST_MM;
            return Err(ExportError::LabelsTooSmall { width, height, most: MOST_A_ROW });
        }
        let (all, on) = (sheet.extent(), paper.size_mm());
        if all.width > on.0 || all.height > on.1 {
            let (width, height) = (all.width, all.height);
            return Err(ExportError::LabelsTooLarge { width, height, paper: paper.word(), on });
        }
        Ok(sheet)
    }

    /// Reads `letter-30`, `a4-24`, or a sheet of one's own in mm: `a4 3x8 63.5x33.9`, with `gap 2.5x0` where there is one.
    pub fn parse(text: &str) -> Result<Self, ExportError> {
        let text = text.trim().to_lowercase();
        let unread = || ExportError::LabelsNotRead { typed: text.clone() };
        let words: Vec<&str> = text.split_whitespace().collect();
        match &words[..] {
            ["letter-30"] => Ok(Self::LETTER_30),
            ["a4-24"] => Ok(Self::A4_24),
            [paper, counts, size, gap @ ..] => {
                let paper = PaperSize::ALL.into_iter().find(|size| size.word().to_lowercase() == *paper);
                let gap = match gap {
                    [] => Some((0.0, 0.0)),
                    ["gap", gap] => pair(gap),
                    _ => None,
                };
                let read = paper.zip(pair(counts)).zip(pair(size)).zip(gap);
                let (((paper, counts), size), gap) = read.ok_or_else(unread)?;
                Self::own(paper, counts, size, gap)
            }
            _ => Err(unread()),
        }
    }

    /// What it is printed on.
    pub fn paper(&self) -> PaperSize {
        self.paper
    }

    /// How many labels it has.
    pub fn n_labels(&self) -> u32 {
        self.columns * self.rows
    }

    /// The label of this number, counted from 0 along the rows.
    pub fn label(&self, n: u32) -> Rect {
        let (column, row) = (f64::from(n % self.columns), f64::from(n / self.columns));
        let (width, height) = self.paper.size_mm();
        let all = self.extent();
        let corner = Point::new(
            (width - all.width) / 2.0 + column * (self.label.width + self.gap.width),
            (height - all.height) / 2.0 + row * (self.label.height + self.gap.height),
        );
        Rect::from_origin_size(corner, self.label)
    }

    /// All labels together.
    fn extent(&self) -> Size {
        let along = |n: u32, label: f64, gap: f64| f64::from(n) * label + f64::from(n.saturating_sub(1)) * gap;
        Size::new(
            along(self.columns, self.label.width, self.gap.width),
            along(self.rows, self.label.height, self.gap.height),
        )
    }
}

/// Two numbers with an x between them.
fn pair<T: std::str::FromStr>(words: &str) -> Option<(T, T)> {
    let (first, second) = words.split_once('x')?;
    Some((first.parse().ok()?, second.parse().ok()?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_lie_in_the_middle_of_their_sheet() {
        for (sheet, n, left, top) in [
            // 3/16 in at the left, 1/2 in above: (8 1/2 - 3 x 2 5/8 - 2 x 1/8) / 2, (11 - 10) / 2.
            (LabelSheet::LETTER_30, 30, 0.1875 * 25.4, 12.7),
            // (210 - 3 x 63.5 - 2 x 2.5) / 2, (297 - 8 x 33.9) / 2.
            (LabelSheet::A4_24, 24, 7.25, 12.9),
        ] {
            assert_eq!(sheet.n_labels(), n);
            let (first, last) = (sheet.label(0), sheet.label(n - 1));
            assert!((first.x0 - left).abs() < 1e-9 && (first.y0 - top).abs() < 1e-9, "{first:?}");
            let (width, height) = sheet.paper().size_mm();
            assert!((width - last.x1 - left).abs() < 1e-9 && (height - last.y1 - top).abs() < 1e-9, "{last:?}");
        }
        assert_eq!(LabelSheet::parse("A4 3x8 63.5x33.9 gap 2.5x0"), Ok(LabelSheet::A4_24));
        assert_eq!(LabelSheet::parse("letter-30"), Ok(LabelSheet::LETTER_30));
    }

    #[test]
    fn labels_that_do_not_fit_are_refused_by_a_sentence() {
        for (typed, told) in [
            ("a4 3x8 71x37", "Labels of 213 x 296 mm in all do not fit on A4 (210 x 297 mm)."),
            ("letter 1x1 216x100", "Labels of 216 x 100 mm in all do not fit on Letter (215.9 x 279.4 mm)."),
            ("a4 3x8 63.5x33.9 gap 20x0", "Labels of 230.5 x 271.2 mm in all do not fit on A4 (210 x 297 mm)."),
            ("a4 3x8 5x5", "A label is at least 30 x 16 mm, with at most 20 in a row."),
            ("a4 0x8 50x30", "A label is at least 30 x 16 mm, with at most 20 in a row."),
            ("a4 3x8 NaNx30", "A label is at least 30 x 16 mm, with at most 20 in a row."),
            ("a4 3x8 50x30 gap -1x0", "A label is at least 30 x 16 mm, with at most 20 in a row."),
            (
                "a3 3x8 50x30",
                "\u{201c}a3 3x8 50x30\u{201d} is no sheet of labels: letter-30, a4-24, or like \
              a4 3x8 63.5x33.9.",
            ),
            ("", "\u{201c}\u{201d} is no sheet of labels: letter-30, a4-24, or like a4 3x8 63.5x33.9."),
        ] {
            assert_eq!(LabelSheet::parse(typed).unwrap_err().to_string(), told, "{typed}");
        }
    }
}
