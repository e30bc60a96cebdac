//! The bench card: all that a second pair of hands needs, readable at arm's length with glue on the fingers. No price.
//!
//! Sizes: words of 5 mm are read at 60 to 70 cm without leaning in; common practice, no source.

use kurbo::{Point, Rect};

use super::column::{Column, LEADING, RISE, whole_name};
use super::sheet::{Align, Document, INK, SOFT};
use super::table::{Cell, Lane, Table};
use super::{Job, picture, words};
use crate::export::lettering::{Face, Run, wrapped};
use crate::paperwork::{bill_of_materials, cautions_of, making_steps};
use crate::piece::{Fixing, Worn};
use crate::stock::STANDING_LINE;

/// Sizes, mm.
const SIDE_MM: f64 = 20.0;
const NAME_MM: f64 = 12.0;
const WORDS_MM: f64 = 5.0;
const SMALL_MM: f64 = 3.6;
/// Height of the picture, as a share of the sheet's: least, most. Within them it takes what the counts leave.
const PICTURE_SHARES: (f64, f64) = (0.36, 0.56);

const COUNTS: [Lane; 5] = [
    Lane { head: "", share: 8.0, align: Align::Left },
    Lane { head: "", share: 10.0, align: Align::Left },
    Lane { head: "How many", share: 27.0, align: Align::Left },
    Lane { head: "What", share: 75.0, align: Align::Left },
    Lane { head: "Size", share: 32.0, align: Align::Left },
];

const STEPS: [Lane; 3] = [
    Lane { head: "", share: 8.0, align: Align::Left },
    Lane { head: "", share: 130.0, align: Align::Left },
    Lane { head: "", share: 20.0, align: Align::Right },
];

/// The bench card of an order.
pub fn bench_card(job: &Job<'_>) -> Document {
    let mut column = Column::new(words::title(words::BENCH_CARD, job.order), job.paper);
    head(&mut column, job);
    notes(&mut column, job);
    let counts = counts(job);
    middle(&mut column, job, &counts);
    write_counts(&mut column, &counts);
    steps(&mut column, job);
    cautions(&mut column, job);
    column.into_document()
}

/// The side in the largest letters, boxed, at the right; name, dance and size at the left.
fn head(column: &mut Column, job: &Job<'_>) {
    let inside = column.inside();
    let side = Run::new(words::where_worn(job.order), Face::Strong);
    let wide = side.width_mm(SIDE_MM) + 12.0;
    let around = Rect::new(inside.x1 - wide, column.y, inside.x1, column.y + SIDE_MM + 8.0);
    column.sheet().frame(around, 1.2, INK);
    let lapel = job.order.piece.worn == Worn::Lapel;
    let y = column.y + SIDE_MM * if lapel { 1.05 } else { 0.86 };
    column.sheet().run(side, Point::new(around.x0 + 6.0, y), SIDE_MM, INK);
    if !lapel {
        let at = Point::new(around.center().x, around.y1 - 2.6);
        column.sheet().words("WRIST", Face::Strong, 6.0, at, Align::Middle);
    }
    let room = inside.width() - wide - 6.0;
    let within = Rect::from_origin_size((inside.x0, column.y), (room, around.height() - WORDS_MM * 2.0));
    let high = whole_name(column.sheet(), &words::wearer(job.order), Face::Strong, NAME_MM, within);
    let occasion = Run::cut(&words::occasion(job.order), Face::Text, WORDS_MM * 1.3, room);
    let at = Point::new(inside.x0, within.y0 + high + WORDS_MM * 1.6);
    column.sheet().run(occasion, at, WORDS_MM * 1.3, INK);
    column.y = around.y1 + 4.0;
}

/// Notes stand boxed above everything else: an allergy must not be overlooked.
fn notes(column: &mut Column, job: &Job<'_>) {
    /// Longer notes go on below their box, unboxed, rather than push the picture off the sheet.
    const MOST_BOXED: usize = 6;
    let notes = &words::notes(job.order);
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
fn middle(column: &mut Column, job: &Job<'_>, counts: &[Vec<Cell>]) {
    let inside = column.inside();
    let least = inside.height() * PICTURE_SHARES.0;
    let spare = column.left_mm() - count_table(inside).height_mm(counts) - 8.0;
    let high = spare.clamp(least, inside.height() * PICTURE_SHARES.1);
    column.make_room(high);
    let top = column.y;
    let within = Rect::new(inside.x0, top + 6.0, inside.x0 + inside.width() * 0.56, top + high - 6.0);
    let taken = picture::alone(column.sheet(), job, within);
    let middle = taken.center().x;
    if job.order.piece.worn == Worn::Wrist {
        let above = Point::new(middle, top + 4.0);
        column.sheet().tinted(
            &format!("\u{2191} {}", words::TO_THE_ELBOW),
            Face::Text,
            4.2,
            above,
            Align::Middle,
            SOFT,
        );
        let below = Point::new(middle, taken.y1 + 4.6);
        column.sheet().tinted(&format!("\u{2193} {}", words::TO_THE_HAND), Face::Text, 4.2, below, Align::Middle, SOFT);
    }
    let lowest = facts(column, job, Rect::new(within.x1 + 6.0, top + 2.0, inside.x1, top + high));
    column.y = (taken.y1 + 6.0).max(lowest) + 3.0;
}

/// Girth, oval, band and bow. Gives how far down they reach, mm.
fn facts(column: &mut Column, job: &Job<'_>, within: Rect) -> f64 {
    let order = job.order;
    let piece = &order.piece;
    let wrist = piece.worn == Worn::Wrist;
    let band = piece.band.as_ref().and_then(|id| job.stock.band(id));
    let bow = piece.bow.as_ref().map(|bow| {
        let ribbon = job.stock.ribbon(&bow.ribbon).map_or("ribbon", |r| r.name.as_str());
        words::bow_recipe(bow, ribbon, job.stems.ribbon_mm)
    });
    let seat = words::seat(order).map_or_else(String::new, |seat| format!("; {seat}"));
    let facts = [
        ("Wrist", wrist.then(|| words::girth(order))),
        ("Oval", Some(words::oval(order) + &seat)),
        ("Band", band.map(|b| b.name.clone())),
        ("Bow", bow),
    ];
    let mut y = within.y0;
    for (head, fact) in facts.into_iter().filter_map(|(head, fact)| Some((head, fact?))) {
        column.sheet().tinted(head, Face::Strong, 4.0, Point::new(within.x0, y + 4.0), Align::Left, SOFT);
        y += 4.0 * LEADING;
        for run in wrapped(&fact, Face::Text, WORDS_MM, within.width()) {
            column.sheet().run(run, Point::new(within.x0, y + WORDS_MM * RISE), WORDS_MM, INK);
            y += WORDS_MM * LEADING;
        }
        y += 2.4;
    }
    y
}

/// Counts by role with swatches and sizes, a box to tick each.
fn counts(job: &Job<'_>) -> Vec<Vec<Cell>> {
    let bill = bill_of_materials(&job.order.piece, job.stems, job.stock);
    let fresh = bill.iter().filter(|line| line.role.is_some());
    fresh
        .map(|line| {
            let to_place = (line.to_place > 0).then(|| words::still_to_place(line.to_place));
            let what = [Some(words::what(line)), to_place].into_iter().flatten().collect::<Vec<_>>().join(". ");
            vec![
                Cell::Tick,
                Cell::Swatch(line.rgb),
                Cell::Strong(words::amount(line)),
                Cell::Words(what),
                Cell::Words(words::sizes(line)),
            ]
        })
        .collect()
}

fn count_table(inside: Rect) -> Table<'static> {
    Table { lanes: &COUNTS, size_mm: WORDS_MM, from_mm: inside.x0, to_mm: inside.x1 }
}

fn write_counts(column: &mut Column, counts: &[Vec<Cell>]) {
    if counts.is_empty() {
        column.paragraph(words::NOTHING_YET, Face::Strong, WORDS_MM * 1.2, 0.0, INK);
    } else {
        let inside = column.inside();
        count_table(inside).write(column, counts);
    }
    column.skip(4.0);
}

/// The steps in order; they start a sheet of their own when they would be torn apart.
fn steps(column: &mut Column, job: &Job<'_>) {
    let inside = column.inside();
    let order = job.order;
    let rows: Vec<Vec<Cell>> = making_steps(&order.piece, job.stems, &job.style.minutes)
        .iter()
        .map(|step| vec![Cell::Tick, Cell::Words(words::step(step, order)), Cell::Words(words::minutes(step.minutes))])
        .collect();
    let table = Table { lanes: &STEPS, size_mm: WORDS_MM * 1.1, from_mm: inside.x0, to_mm: inside.x1 };
    let high = table.height_mm(&rows) + WORDS_MM * 6.0;
    column.make_room(high.min(inside.height()));
    column.heading(words::STEPS, WORDS_MM * 1.3, WORDS_MM * 3.0);
    let how = match order.piece.fixing {
        Fixing::Glued => words::GLUE,
        Fixing::Wired => words::WIRE,
    };
    column.paragraph(how, Face::Text, WORDS_MM, 0.0, INK);
    column.skip(2.0);
    let y = column.y;
    column.sheet().rule(Point::new(inside.x0, y), Point::new(inside.x1, y), 0.4, INK);
    table.write(column, &rows);
    column.skip(3.0);
    column.paragraph(&words::in_all(job.stems.minutes, job.stems.mass_g), Face::Strong, WORDS_MM, 0.0, INK);
    column.skip(2.0);
    column.paragraph(words::MADE_BY, Face::Text, WORDS_MM, 0.0, INK);
    column.skip(4.0);
}

fn cautions(column: &mut Column, job: &Job<'_>) {
    column.heading(words::TO_BE_CAREFUL_OF, WORDS_MM, WORDS_MM * 3.0);
    for (caution, names) in cautions_of(job.stems, job.order, job.stock) {
        column.paragraph(&words::caution(&names, caution.sentence()), Face::Text, WORDS_MM * 0.9, 0.0, INK);
    }
    column.paragraph(STANDING_LINE, Face::Text, SMALL_MM, 0.0, SOFT);
}
