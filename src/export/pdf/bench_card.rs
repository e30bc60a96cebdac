//! The bench card: all that a second pair of hands needs, readable at arm's length with glue on the fingers. No price.
//!
//! Sizes: words of 5 mm are read at 60 to 70 cm without leaning in; common practice, no source.

use kurbo::{Point, Rect};

use super::column::{Column, LEADING, RISE, whole_name};
use super::sheet::{Align, Document, INK, SOFT};
use super::table::{Cell, Lane, Table};
use super::{picture, words};
use crate::export::lettering::{Face, Run, wrapped};
use crate::export::paper_kind::{PaperJob, PaperKind, PaperReader, to_print};
use crate::paperwork::{bill_of_materials, cautions_of, chills_there, making_steps};
use crate::piece::Worn;
use crate::stock::STANDING_LINE;

/// Sizes, mm.
const SIDE_MM: f64 = 20.0;
const NAME_MM: f64 = 12.0;
const WORDS_MM: f64 = 5.0;
const SMALL_MM: f64 = 3.6;
/// Words of a card on one sheet: the largest with which everything fits. Smaller ones are not read at arm's length.
const ONE_SHEET_MM: [f64; 3] = [5.0, 4.75, 4.5];
/// Height of the picture, as a share of the sheet's: least, most. Within them it takes what the words leave.
const PICTURE_SHARES: (f64, f64) = (0.36, 0.56);
/// The same where the words stand beside it.
const BESIDE_SHARES: (f64, f64) = (0.28, 0.56);
/// How wide the picture and the facts under it are, as a share of the sheet; between them and the rest, mm.
const LEFT_SHARE: f64 = 0.4;
/// The same of a boutonniere, which is narrow, and takes many words to wire.
const LEFT_SHARE_OF_LAPEL: f64 = 0.3;
const GUTTER_MM: f64 = 6.0;

const fn lane(head: &'static str, share: f64, align: Align) -> Lane {
    Lane { head, share, align }
}

/// How words are set: their size, and the columns of the two tables.
#[derive(Clone, Copy, Debug)]
struct Setting {
    words_mm: f64,
    counts: &'static [Lane],
    steps: &'static [Lane],
}

/// From edge to edge.
const WIDE: Setting = Setting {
    words_mm: WORDS_MM,
    counts: &[
        lane("", 8.0, Align::Left),
        lane("", 10.0, Align::Left),
        lane("How many", 27.0, Align::Left),
        lane("What", 75.0, Align::Left),
        lane("Size", 32.0, Align::Left),
    ],
    steps: &[lane("", 8.0, Align::Left), lane("", 130.0, Align::Left), lane("", 20.0, Align::Right)],
};

/// Beside the picture.
const NARROW: Setting = Setting {
    counts: &[
        lane("", 6.0, Align::Left),
        lane("", 7.5, Align::Left),
        lane("How many", 24.0, Align::Left),
        lane("What", 40.0, Align::Left),
        lane("Size", 18.0, Align::Left),
    ],
    steps: &[lane("", 6.0, Align::Left), lane("", 78.0, Align::Left), lane("", 15.0, Align::Right)],
    ..WIDE
};

/// The bench card among the papers.
pub(in crate::export) static BENCH_CARD: PaperKind = PaperKind {
    id: "bench-card",
    title: "Bench card",
    reader: PaperReader::Bench,
    endings: &["pdf"],
    is_for_each_piece: true,
    missing: "",
    make: |job| to_print(bench_card(job)),
};

/// The bench card of an order: on one sheet where words of a size to be read at arm's length leave room for it.
pub fn bench_card(job: &PaperJob<'_>) -> Document {
    let fits = |words_mm: f64| on_one_sheet(job, Setting { words_mm, ..NARROW });
    ONE_SHEET_MM.into_iter().find_map(fits).unwrap_or_else(|| on_more_sheets(job))
}

/// First with the least picture; if that fits, with as large a one as the words leave room for.
fn on_one_sheet(job: &PaperJob<'_>, set: Setting) -> Option<Document> {
    let least = job.paper.inside().height() * BESIDE_SHARES.0;
    let most = job.paper.inside().height() * BESIDE_SHARES.1;
    let (_, spare) = beside(job, set, least)?;
    let (column, _) = beside(job, set, (least + spare - 1.0).clamp(least, most))?;
    Some(column.into_document())
}

/// The picture of this height and the facts at the left, counts and steps at the right; and by how much the picture could
/// be higher, mm. None where that takes more than one sheet.
fn beside(job: &PaperJob<'_>, set: Setting, picture_mm: f64) -> Option<(Column, f64)> {
    let mut column = Column::new(words::title(BENCH_CARD.title, job.order), job.paper);
    head(&mut column, job);
    notes(&mut column, job);
    let (inside, top) = (column.inside(), column.y);
    let share = if job.order.piece.worn == Worn::Lapel { LEFT_SHARE_OF_LAPEL } else { LEFT_SHARE };
    let middle = inside.x0 + inside.width() * share;
    column.write_between(inside.x0, middle - GUTTER_MM / 2.0);
    column.make_room(picture_mm);
    let within = column.inside();
    let within = Rect::new(within.x0, column.y, within.x1, column.y + picture_mm);
    column.y = sketch(&mut column, job, within).y1 + 7.5;
    facts(&mut column, job, set);
    let left = column.y;
    if column.n_sheets() > 1 {
        return None;
    }
    column.write_between(middle + GUTTER_MM / 2.0, inside.x1);
    column.y = top;
    write_counts(&mut column, &counts(job), set);
    steps(&mut column, job, set);
    let right = column.y;
    column.write_between(inside.x0, inside.x1);
    column.y = left.max(right);
    cautions(&mut column, job, set);
    let spare = column.left_mm() + (right - left).max(0.0);
    (column.n_sheets() == 1).then_some((column, spare))
}

/// What is made above, how it is made below, from edge to edge and over as many sheets as it takes.
fn on_more_sheets(job: &PaperJob<'_>) -> Document {
    let mut column = Column::new(words::title(BENCH_CARD.title, job.order), job.paper);
    head(&mut column, job);
    notes(&mut column, job);
    let counts = counts(job);
    middle(&mut column, job, &counts);
    write_counts(&mut column, &counts, WIDE);
    steps(&mut column, job, WIDE);
    cautions(&mut column, job, WIDE);
    column.into_document()
}

/// The side in the largest letters, boxed, at the right; name, number, dance and size at the left; pick-up and event below.
fn head(column: &mut Column, job: &PaperJob<'_>) {
    let inside = column.inside();
    let side = Run::new(words::where_worn(job.order), Face::Strong);
    let wide = side.width_mm(SIDE_MM) + 12.0;
    let around = Rect::new(inside.x1 - wide, column.y, inside.x1, column.y + SIDE_MM + 8.0);
    column.sheet().frame(around, 1.2, INK);
    let y = column.y + SIDE_MM * 0.86;
    column.sheet().run(side, Point::new(around.x0 + 6.0, y), SIDE_MM, INK);
    let at = Point::new(around.center().x, around.y1 - 2.6);
    column.sheet().words(words::worn_on(job.order), Face::Strong, 6.0, at, Align::Middle);
    let room = inside.width() - wide - 6.0;
    let within = Rect::from_origin_size((inside.x0, column.y), (room, around.height() - WORDS_MM * 2.0));
    let high = whole_name(column.sheet(), &words::wearer(job.order), Face::Strong, NAME_MM, within);
    let occasion = Run::cut(&words::occasion(job.order), Face::Text, WORDS_MM * 1.3, room);
    let at = Point::new(inside.x0, within.y0 + high + WORDS_MM * 1.6);
    column.sheet().run(occasion, at, WORDS_MM * 1.3, INK);
    column.y = around.y1 + 3.0;
    let days = words::days_for_bench(job.order, job.written);
    if !days.is_empty() {
        column.paragraph(&days, Face::Strong, WORDS_MM, 0.0, INK);
        column.skip(1.0);
    }
}

/// Notes stand boxed above everything else: an allergy must not be overlooked.
fn notes(column: &mut Column, job: &PaperJob<'_>) {
    /// Longer notes go on below their box, unboxed, rather than push the picture off the sheet.
    const MOST_BOXED: usize = 6;
    let notes = &words::notes(job.order, job.stock);
    if notes.is_empty() {
        return;
    }
    let size = WORDS_MM * 1.15;
    let inside = column.inside();
    let lines = wrapped(notes, Face::Strong, size, inside.width() - 34.0);
    if lines.len() > MOST_BOXED {
        column.heading(words::NOTES, size, size * 2.0);
        column.paragraph(notes, Face::Strong, WORDS_MM, 0.0, INK);
        column.skip(3.0);
        return;
    }
    let high = lines.len() as f64 * size * LEADING + 4.0;
    let around = Rect::new(inside.x0, column.y, inside.x1, column.y + high);
    column.sheet().frame(around, 0.9, INK);
    let first = around.y0 + 2.0 + size * RISE;
    column.sheet().words(words::NOTES, Face::Text, size, Point::new(around.x0 + 4.0, first), Align::Left);
    for (i, run) in lines.into_iter().enumerate() {
        let at = Point::new(around.x0 + 28.0, first + i as f64 * size * LEADING);
        column.sheet().run(run, at, size, INK);
    }
    column.y = around.y1 + 4.0;
}

/// The picture at the left, the facts of the piece at its right.
fn middle(column: &mut Column, job: &PaperJob<'_>, counts: &[Vec<Cell>]) {
    let inside = column.inside();
    let least = inside.height() * PICTURE_SHARES.0;
    let spare = column.left_mm() - count_table(inside, WIDE).height_mm(counts) - 8.0;
    let high = spare.clamp(least, inside.height() * PICTURE_SHARES.1);
    column.make_room(high);
    let top = column.y;
    let within = Rect::new(inside.x0, top, inside.x0 + inside.width() * 0.56, top + high - 6.0);
    let taken = sketch(column, job, within);
    column.write_between(within.x1 + GUTTER_MM, inside.x1);
    column.y = top + 2.0;
    facts(column, job, WIDE);
    column.write_between(inside.x0, inside.x1);
    column.y = (taken.y1 + 6.0).max(column.y) + 3.0;
}

/// The piece, and where hand and elbow are. Gives the box that the piece takes up.
fn sketch(column: &mut Column, job: &PaperJob<'_>, within: Rect) -> Rect {
    const LABEL_MM: f64 = 4.2;
    let taken = picture::alone(column.sheet(), job, Rect { y0: within.y0 + 6.0, ..within });
    if job.order.piece.worn == Worn::Wrist {
        let (up, down) = (format!("\u{2191} {}", words::TO_THE_ELBOW), format!("\u{2193} {}", words::TO_THE_HAND));
        for (said, y) in [(up, within.y0 + 4.0), (down, taken.y1 + 4.6)] {
            let at = Point::new(taken.center().x, y);
            column.sheet().tinted(&said, Face::Text, LABEL_MM, at, Align::Middle, SOFT);
        }
    }
    taken
}

/// Girth, oval, band and bow.
fn facts(column: &mut Column, job: &PaperJob<'_>, set: Setting) {
    const HEAD_MM: f64 = 4.0;
    let order = job.order;
    let piece = &order.piece;
    let wrist = piece.worn == Worn::Wrist;
    let band = piece.band.as_ref().and_then(|id| job.stock.band(id));
    let bow = piece.bow.as_ref().map(|bow| {
        let ribbon = job.stock.ribbon(&bow.ribbon).map_or("ribbon", |r| r.name.as_str());
        words::bow_recipe(bow, ribbon, job.stems.ribbon_mm, words::unit(order))
    });
    let seat = words::seat(order).map_or_else(String::new, |seat| format!("; {seat}"));
    let facts = [
        ("Wrist", wrist.then(|| words::girth(order))),
        (if wrist { "Oval" } else { "Size" }, Some(words::oval(order) + &seat)),
        ("Band", band.map(|b| b.name.clone())),
        ("Bow", bow),
        ("Stem", (!wrist).then(|| words::stem_length(words::unit(order)))),
    ];
    for (head, fact) in facts.into_iter().filter_map(|(head, fact)| Some((head, fact?))) {
        column.paragraph(head, Face::Strong, HEAD_MM, 0.0, SOFT);
        column.paragraph(&fact, Face::Text, set.words_mm, 0.0, INK);
        column.skip(2.0);
    }
}

/// Counts by role with swatches and sizes, a box to tick each.
fn counts(job: &PaperJob<'_>) -> Vec<Vec<Cell>> {
    let bill = bill_of_materials(&job.order.piece, job.stems, job.stock);
    let unit = words::unit(job.order);
    let fresh = bill.iter().filter(|line| line.role.is_some());
    fresh
        .map(|line| {
            let to_place = (line.to_place > 0).then(|| words::still_to_place(line.to_place));
            let what = [Some(words::what(line)), to_place].into_iter().flatten().collect::<Vec<_>>().join(". ");
            vec![
                Cell::Tick,
                Cell::Swatch(line.rgb),
                Cell::Strong(words::amount(line, unit)),
                Cell::Words(what),
                Cell::Words(words::sizes(line, unit)),
            ]
        })
        .collect()
}

fn count_table(inside: Rect, set: Setting) -> Table<'static> {
    Table { lanes: set.counts, size_mm: set.words_mm, from_mm: inside.x0, to_mm: inside.x1 }
}

fn write_counts(column: &mut Column, counts: &[Vec<Cell>], set: Setting) {
    if counts.is_empty() {
        column.paragraph(words::NOTHING_YET, Face::Strong, set.words_mm * 1.2, 0.0, INK);
    } else {
        let inside = column.inside();
        count_table(inside, set).write(column, counts);
    }
    column.skip(4.0);
}

/// The steps in order; they start a sheet of their own when they would be torn apart.
fn steps(column: &mut Column, job: &PaperJob<'_>, set: Setting) {
    let inside = column.inside();
    let order = job.order;
    let size = set.words_mm;
    let rows: Vec<Vec<Cell>> = making_steps(&order.piece, job.stems, &job.style.minutes)
        .iter()
        .map(|step| vec![Cell::Tick, Cell::Words(words::step(step, order)), Cell::Words(words::minutes(step.minutes))])
        .collect();
    let table = Table { lanes: set.steps, size_mm: size, from_mm: inside.x0, to_mm: inside.x1 };
    let high = table.height_mm(&rows) + size * 6.0;
    if column.make_room(high.min(inside.height())) {
        // A loose second sheet must tell whose it is, and for which side.
        let whose = format!("{} \u{b7} {}", words::where_worn_in_full(order), words::wearer(order));
        column.one_line(&whose, Face::Strong, NAME_MM * 0.7);
        column.skip(3.0);
    }
    column.heading(words::STEPS, size * 1.3, size * 3.0);
    column.paragraph(words::how_it_is_made(&order.piece), Face::Text, size, 0.0, INK);
    column.skip(2.0);
    let y = column.y;
    column.sheet().rule(Point::new(inside.x0, y), Point::new(inside.x1, y), 0.4, INK);
    table.write(column, &rows);
    column.skip(3.0);
    column.paragraph(&words::total_minutes(job.stems.minutes, job.stems.mass_g), Face::Strong, size, 0.0, INK);
    column.skip(2.0);
    column.paragraph(words::MADE_BY, Face::Text, size, 0.0, INK);
    column.skip(4.0);
}

fn cautions(column: &mut Column, job: &PaperJob<'_>, set: Setting) {
    column.heading(words::CAUTIONS, set.words_mm, set.words_mm * 3.0);
    for (caution, names) in cautions_of(job.stems, job.order, job.stock) {
        let said = words::caution(&names, caution.sentence());
        column.paragraph(&said, Face::Text, set.words_mm * 0.9, 0.0, INK);
    }
    for flower in chills_there(job.stems, job.stock) {
        column.paragraph(&flower.says(), Face::Text, set.words_mm * 0.9, 0.0, INK);
    }
    column.paragraph(STANDING_LINE, Face::Text, SMALL_MM, 0.0, SOFT);
}
