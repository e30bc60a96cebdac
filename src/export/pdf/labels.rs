//! Labels for the boxes: one for each piece and each boutonniere, on sheets of labels, from the first free one on. Whose it is
//! stands largest; what must not be overlooked stands in white on black. For the shop and whoever collects: no cost, no score.

use kurbo::{Point, Rect, Shape as _};

use super::column::{LEADING, RISE};
use super::label_sheet::LabelSheet;
use super::sheet::{Align, Document, INK, PaperSheet, Pattern};
use super::{picture, week_words, words};
use crate::book::{Order, Written};
use crate::colour::Rgb;
use crate::export::ExportError;
use crate::export::lettering::{Face, Run, wrapped};
use crate::export::paper_kind::{PaperKind, PaperReader, to_print};
use crate::paperwork::{quote, short_price};
use crate::piece::HouseStyle;
use crate::stock::Stock;
use crate::units::Cents;

/// Room to the edge of a label, mm: a sheet goes through a printer a millimetre off; common practice, no source.
const PAD_MM: f64 = 2.0;
/// Between the words and the picture, mm.
const GUTTER_MM: f64 = 2.0;
/// Widest picture, as a share of what is inside a label.
const PICTURE_SHARE: f64 = 0.3;
/// Sizes of words that are tried, largest first, mm. The smallest is that of a telephone book: from memory, 6 pt.
const SIZES_MM: [f64; 9] = [4.0, 3.7, 3.4, 3.1, 2.9, 2.7, 2.5, 2.3, 2.1];
/// The name over the other words.
const NAME_TIMES: f64 = 1.45;
/// Words on black.
const PAPER: Rgb = Rgb::hex(0xffffff);

/// The label among the papers of an order.
pub(in crate::export) static LABELS: PaperKind = PaperKind {
    id: "labels",
    title: "Box label",
    reader: PaperReader::Shop,
    endings: &["pdf"],
    is_for_each_piece: false,
    missing: "",
    make: |job| {
        let run = LabelRun {
            sheet: LabelSheet::usual(job.paper),
            first: 1,
            with_balance: true,
            stock: job.stock,
            style: job.style,
            written: job.written,
        };
        labels(&[job.order], &run).map(to_print).unwrap_or_default()
    },
};

/// How labels are printed.
#[derive(Clone, Copy, Debug)]
pub struct LabelRun<'a> {
    /// On which sheet.
    pub sheet: LabelSheet,
    /// The first free label of the first sheet, counted from 1 along the rows.
    pub first: u32,
    /// Whether they tell what is still to pay.
    pub with_balance: bool,
    /// What can be bought.
    pub stock: &'a Stock,
    /// The house style.
    pub style: &'a HouseStyle,
    /// How the shop writes days and hours.
    pub written: Written,
}

/// The labels of orders, in the order in which they are given; a boutonniere's follows that of its piece. Refused where the
/// sheet has no such first label.
pub fn labels(orders: &[&Order], run: &LabelRun<'_>) -> Result<Document, ExportError> {
    let last = run.sheet.n_labels();
    let first = run.first.checked_sub(1).filter(|first| *first < last);
    let first = first.ok_or(ExportError::NoSuchLabel { first: run.first, last })?;
    let mut sheets: Vec<PaperSheet> = Vec::new();
    let mut at = first;
    for order in orders {
        let boutonniere = order.boutonniere();
        let balance = run.with_balance.then(|| quote(order, run.style, run.stock).due);
        for (piece, due) in [(Some(*order), balance), (boutonniere.as_ref(), None)] {
            let Some(piece) = piece else { continue };
            if sheets.is_empty() || at == last {
                at = if sheets.is_empty() { first } else { 0 };
                sheets.push(PaperSheet::default());
            }
            if let Some(sheet) = sheets.last_mut() {
                label(sheet, piece, due, run, run.sheet.label(at));
            }
            at += 1;
        }
    }
    let title = match orders {
        [only] => words::title(LABELS.title, only),
        _ => week_words::labels_title(orders.len()),
    };
    Ok(Document { title, paper: run.sheet.paper(), sheets })
}

/// A test print: the frame of every label with its number, to be held against a sheet of labels before one is used.
pub fn label_frame(sheet: LabelSheet) -> Document {
    let mut page = PaperSheet::default();
    for n in 0..sheet.n_labels() {
        let around = sheet.label(n);
        page.line(around.to_path(0.1), 0.3, INK, Pattern::Whole);
        let middle = around.center();
        page.words(&(n + 1).to_string(), Face::Strong, 6.0, Point::new(middle.x, middle.y + 2.0), Align::Middle);
        if n == 0 {
            let mut y = around.y0 + PAD_MM;
            for run in wrapped(week_words::HOLD_THE_FRAME, Face::Text, 2.5, around.width() - 2.0 * PAD_MM) {
                page.run(run, Point::new(around.x0 + PAD_MM, y + 2.5 * RISE), 2.5, INK);
                y += 2.5 * LEADING;
            }
        }
    }
    Document { title: week_words::LABEL_FRAME.to_owned(), paper: sheet.paper(), sheets: vec![page] }
}

/// A line of a label, and how loud it is.
struct LabelLine {
    words: String,
    loud: Loudness,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Loudness {
    /// Whose it is.
    Name,
    /// What must not be overlooked.
    Warning,
    /// What the bench and the door look for.
    Strong,
    Plain,
}

impl Loudness {
    fn face(self) -> Face {
        if self == Self::Plain { Face::Text } else { Face::Strong }
    }

    fn times(self) -> f64 {
        if self == Self::Name { NAME_TIMES } else { 1.0 }
    }
}

/// Name, warnings, number with side and size, what tells two of one name apart, the days, the balance.
fn lines(order: &Order, due: Option<Cents>, run: &LabelRun<'_>) -> Vec<LabelLine> {
    let currency = &run.style.prices.currency;
    let mut lines = vec![(Loudness::Name, words::wearer(order))];
    lines.extend(order.for_the_box(run.stock).into_iter().map(|warning| (Loudness::Warning, warning)));
    lines.push((Loudness::Strong, week_words::label_head(order)));
    lines.extend(order.missing_sentence(run.stock).map(|missing| (Loudness::Strong, missing)));
    lines.extend(due.map(|due| (Loudness::Strong, week_words::label_balance(due, |sum| short_price(sum, currency)))));
    lines.push((Loudness::Plain, week_words::label_event(order)));
    lines.push((Loudness::Plain, week_words::label_pickup(order, run.written)));
    lines.into_iter().filter(|(_, words)| !words.is_empty()).map(|(loud, words)| LabelLine { words, loud }).collect()
}

/// One label: words at the left as large as lets all of them stand on it, the picture at the right.
fn label(sheet: &mut PaperSheet, order: &Order, due: Option<Cents>, run: &LabelRun<'_>, around: Rect) {
    let inside = around.inset(-PAD_MM);
    let room = inside.width() * PICTURE_SHARE;
    let beside = Rect { x0: inside.x1 - room, ..inside };
    let taken = picture::small(sheet, order, run.stock, beside);
    let wide = if taken.width() > 0.0 { beside.x0 - GUTTER_MM - inside.x0 } else { inside.width() };
    let lines = lines(order, due, run);
    let fitting = SIZES_MM.into_iter().map(|size| set(&lines, size, wide)).find(|set| set.high_mm <= inside.height());
    let set = fitting.unwrap_or_else(|| shortened(&lines, wide, inside.height()));
    let mut y = inside.y0;
    for (loud, runs) in set.lines {
        let size = set.size_mm * loud.times();
        for run in runs {
            let at = Point::new(inside.x0, y + size * RISE);
            if loud == Loudness::Warning {
                let bar = Rect::new(inside.x0 - 0.6, y, inside.x0 + wide, y + size * LEADING);
                sheet.fill(bar.to_path(0.1), INK);
                sheet.run(run, at, size, PAPER);
            } else {
                sheet.run(run, at, size, INK);
            }
            y += size * LEADING;
        }
    }
}

/// Lines of one size, and the height they take.
struct SetLines {
    size_mm: f64,
    lines: Vec<(Loudness, Vec<Run>)>,
    high_mm: f64,
}

fn set(lines: &[LabelLine], size_mm: f64, wide_mm: f64) -> SetLines {
    let runs =
        |line: &LabelLine| (line.loud, wrapped(&line.words, line.loud.face(), size_mm * line.loud.times(), wide_mm));
    let lines: Vec<(Loudness, Vec<Run>)> = lines.iter().map(runs).collect();
    let high_mm = lines.iter().map(|(loud, runs)| runs.len() as f64 * size_mm * loud.times() * LEADING).sum();
    SetLines { size_mm, lines, high_mm }
}

/// What is too much for the smallest size: every line is cut to one, warnings and name last of all, and the last lines go.
/// A warning that is cut says where the rest stands.
fn shortened(lines: &[LabelLine], wide_mm: f64, high_mm: f64) -> SetLines {
    let size_mm = SIZES_MM[SIZES_MM.len() - 1];
    let mut set = set(lines, size_mm, wide_mm);
    let total = |lines: &[(Loudness, Vec<Run>)]| -> f64 {
        lines.iter().map(|(loud, runs)| runs.len() as f64 * size_mm * loud.times() * LEADING).sum()
    };
    for loudness in [Loudness::Plain, Loudness::Strong, Loudness::Name] {
        for (line, (loud, runs)) in lines.iter().zip(&mut set.lines) {
            if *loud == loudness {
                *runs = vec![Run::cut(&line.words, loud.face(), size_mm * loud.times(), wide_mm)];
            }
        }
        if total(&set.lines) <= high_mm {
            break;
        }
    }
    while total(&set.lines) > high_mm && set.lines.last().is_some_and(|(loud, _)| *loud == Loudness::Plain) {
        set.lines.pop();
    }
    let spare = high_mm - total(&set.lines);
    if spare < 0.0 {
        let n_runs: usize = set.lines.iter().filter(|(loud, _)| *loud == Loudness::Warning).map(|(_, r)| r.len()).sum();
        let over = crate::units::ceil_u32(-spare / (size_mm * LEADING)) as usize;
        let mut kept: Vec<Run> = Vec::new();
        for (_, runs) in set.lines.iter_mut().filter(|(loud, _)| *loud == Loudness::Warning) {
            kept.append(runs);
        }
        kept.truncate(n_runs.saturating_sub(over + 1));
        kept.push(Run::cut(week_words::SEE_THE_CARD, Face::Strong, size_mm, wide_mm));
        if let Some((_, runs)) = set.lines.iter_mut().find(|(loud, _)| *loud == Loudness::Warning) {
            *runs = kept;
        }
    }
    set.high_mm = total(&set.lines);
    set
}
