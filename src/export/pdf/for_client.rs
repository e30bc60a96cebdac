//! What the client's papers share: the head, rows of money, what is in the piece, the bar of three. Nothing in it tells a cost.

use kurbo::{Point, Rect, Shape as _};

use super::column::{Column, LEADING, RISE, whole_name};
use super::letterhead::letterhead;
use super::sheet::{Align, Document, HAIR, INK, Pattern, SOFT};
use super::{picture, words};
use crate::book::{Order, QuoteLine, TaxLine, WearerStops};
use crate::colour::Rgb;
use crate::export::lettering::{Face, Run, wrapped};
use crate::export::paper_kind::PaperJob;
use crate::paperwork::{BillLine, ShareOfThree, StemList, bill_of_materials, share_words, stem_list, tax_words};
use crate::piece::Piece;
use crate::units::{Cents, Currency};

/// Sizes, mm; our choice.
pub(super) const NAME_MM: f64 = 11.0;
pub(super) const WORDS_MM: f64 = 4.6;
pub(super) const SMALL_MM: f64 = 3.5;
/// Room between picture and words.
pub(super) const GUTTER_MM: f64 = 7.0;
/// Height of the bar of three.
const BAR_MM: f64 = 9.0;
/// Flowers a rose, band and trims the kraft of a box, making a leaf: told apart in grey as well.
const OF_THREE: [Rgb; 3] = [Rgb::hex(0xd9a0a8), Rgb::hex(0xead9b8), Rgb::hex(0x7d9a78)];

/// What a picture beside words may take of a sheet, as shares of its height and width.
#[derive(Clone, Copy)]
pub(super) struct PictureRoom {
    high: f64,
    wide: f64,
}

/// A paper with its picture as large as lets it stay on one sheet.
pub(super) fn on_one_sheet(make: impl Fn(PictureRoom) -> Document) -> Document {
    /// What is tried, the largest first: lower, then narrower too, so that the words beside it need fewer lines. Our choice.
    const ROOMS: [(f64, f64); 7] =
        [(0.5, 0.5), (0.42, 0.5), (0.34, 0.5), (0.26, 0.5), (0.18, 0.5), (0.26, 0.4), (0.18, 0.34)];
    let mut rooms = ROOMS.map(|(high, wide)| PictureRoom { high, wide }).into_iter().map(&make);
    let first = rooms.next().unwrap_or_else(|| make(PictureRoom { high: 0.5, wide: 0.5 }));
    if first.n_sheets() == 1 { first } else { rooms.find(|page| page.n_sheets() == 1).unwrap_or(first) }
}

/// The picture with what is in it below, and beside it what `at_right` writes; then the word about colours. `job` is what is
/// pictured.
pub(super) fn beside_picture(
    column: &mut Column,
    job: &PaperJob<'_>,
    room: PictureRoom,
    at_right: impl FnOnce(&mut Column),
) {
    let (inside, top) = (column.inside(), column.y);
    let middle = inside.x0 + inside.width() * room.wide;
    let within = Rect::new(inside.x0, top, middle, top + inside.height() * room.high);
    let taken = picture::pair(column.sheet(), job, within);
    column.write_between(middle + GUTTER_MM, inside.x1);
    at_right(column);
    let (lowest, n_sheets) = (column.y, column.n_sheets());
    column.write_between(inside.x0, middle);
    if n_sheets == 1 {
        column.y = taken.y1 + GUTTER_MM;
    }
    contents(column, job);
    column.write_between(inside.x0, inside.x1);
    if column.n_sheets() == n_sheets {
        column.y = column.y.max(lowest) + GUTTER_MM;
    }
    column.paragraph(words::COLOURS_ON_PAPER, Face::Text, SMALL_MM, 0.0, SOFT);
}

/// The letterhead; the wearer's name and, at the right, what must be seen first on one line; the occasion below.
pub(super) fn head(column: &mut Column, job: &PaperJob<'_>, at_right: &str) {
    letterhead(column, job.shop);
    let inside = column.inside();
    let mut wide = inside.width();
    if !at_right.is_empty() {
        let run = Run::new(at_right, Face::Title);
        let width = run.width_mm(NAME_MM);
        let y = column.y + NAME_MM * RISE;
        column.sheet().run(run, Point::new(inside.x1 - width, y), NAME_MM, INK);
        wide -= width + 6.0;
    }
    let within = Rect::from_origin_size((inside.x0, column.y), (wide, NAME_MM * 1.15));
    let high = whole_name(column.sheet(), &words::wearer(job.order), Face::Title, NAME_MM, within);
    column.skip(high.max(NAME_MM * 1.15) + 1.0);
    let y = column.y + WORDS_MM * RISE;
    let occasion = Run::cut(&words::occasion(job.order), Face::Text, WORDS_MM, inside.width());
    column.sheet().run(occasion, Point::new(inside.x0, y), WORDS_MM, INK);
    column.skip(WORDS_MM * 2.0);
    super::stops::stops(column, job, WORDS_MM);
}

/// An amount with its two digits, so that amounts stand under each other.
pub(super) use crate::paperwork::full_price as amount;

/// What something costs the client: the words at the left over as many lines as they need, the amount at the right.
pub(super) fn money_row(column: &mut Column, what: &str, amount: &str, face: Face, size_mm: f64) {
    let inside = column.inside();
    let wide = Run::new(amount, face).width_mm(size_mm);
    let lines = wrapped(what, face, size_mm, inside.width() - wide - 4.0);
    for (i, run) in lines.into_iter().enumerate() {
        column.make_room(size_mm * LEADING);
        let y = column.y + size_mm * RISE;
        if i == 0 {
            column.sheet().words(amount, face, size_mm, Point::new(inside.x1, y), Align::Right);
        }
        column.sheet().run(run, Point::new(inside.x0, y), size_mm, INK);
        column.skip(size_mm * LEADING);
    }
    column.skip(size_mm * 0.25);
}

/// The lines of a price, and below a rule the sum without tax and the tax of each rate.
pub(super) fn charge_rows(column: &mut Column, lines: &[QuoteLine], taxes: &[TaxLine], currency: &Currency) {
    let told = |price: Cents| amount(price, currency);
    for line in lines {
        money_row(column, &line.what, &told(line.price), Face::Text, WORDS_MM);
    }
    rule(column);
    for tax in taxes {
        money_row(column, words::WITHOUT_TAX, &told(tax.net), Face::Text, WORDS_MM);
        money_row(column, &tax_words(&tax.tax, currency), &told(tax.amount), Face::Text, WORDS_MM);
    }
    if !taxes.is_empty() {
        rule(column);
    }
}

/// A line from edge to edge with some room about it.
pub(super) fn rule(column: &mut Column) {
    let inside = column.inside();
    column.make_room(3.0);
    column.skip(1.0);
    let y = column.y;
    column.sheet().rule(Point::new(inside.x0, y), Point::new(inside.x1, y), 0.3, HAIR);
    column.skip(2.0);
}

/// A place to write by hand, after its word.
pub(super) fn to_fill_in(column: &mut Column, word: &str) {
    let inside = column.inside();
    column.make_room(WORDS_MM * 2.6);
    column.skip(WORDS_MM * 1.3);
    let run = Run::new(word, Face::Text);
    let (wide, y) = (run.width_mm(WORDS_MM), column.y + WORDS_MM * RISE);
    column.sheet().run(run, Point::new(inside.x0, y), WORDS_MM, SOFT);
    let from = Point::new((inside.x0 + wide + 2.0).min(inside.x1), y + 0.8);
    column.sheet().rule(from, Point::new(inside.x1, y + 0.8), 0.3, INK);
    column.skip(WORDS_MM * LEADING);
}

/// What the price is made of: three lengths that make the whole bar, and below them what they are.
pub(super) fn bar_of_three(column: &mut Column, share: &ShareOfThree) {
    let told = share_words(share);
    if told.iter().all(|(_, percent)| *percent == 0) {
        return;
    }
    column.heading(words::MADE_OF, WORDS_MM, BAR_MM + WORDS_MM * LEADING * 3.0 + 4.0);
    column.skip(1.5);
    let inside = column.inside();
    let mut x = inside.x0;
    for ((_, percent), rgb) in told.iter().zip(OF_THREE) {
        let to = x + inside.width() * *percent as f64 / 100.0;
        let path = Rect::new(x, column.y, to, column.y + BAR_MM).to_path(0.1);
        if *percent > 0 {
            column.sheet().fill(path.clone(), rgb);
            column.sheet().line(path, 0.3, INK, Pattern::Whole);
        }
        x = to;
    }
    column.skip(BAR_MM + 2.0);
    for ((name, percent), rgb) in told.iter().zip(OF_THREE) {
        spotted(column, Some(rgb), &format!("{name} {percent} %"));
    }
}

/// Words with a spot of colour before them.
pub(super) fn spotted(column: &mut Column, rgb: Option<Rgb>, text: &str) {
    const INDENT_MM: f64 = 8.0;
    column.make_room(WORDS_MM * 1.3);
    if let Some(rgb) = rgb {
        let corner = Point::new(column.inside().x0, column.y + WORDS_MM * 0.25);
        column.sheet().swatch(Rect::from_origin_size(corner, (5.4, WORDS_MM * 0.8)), rgb);
    }
    column.paragraph(text, Face::Text, WORDS_MM, INDENT_MM, INK);
}

/// Event, pick-up, last day to change and who pays, where they are known.
pub(super) fn days(column: &mut Column, job: &PaperJob<'_>) {
    let lines = words::days_for_client(job.order, job.written);
    for line in &lines {
        column.paragraph(line, Face::Text, WORDS_MM, 0.0, INK);
    }
    if !lines.is_empty() {
        column.skip(WORDS_MM * 0.75);
    }
}

/// What is in it, in words: heads, greens, bow and band; nothing of glue and boxes. Then the boutonniere, where one goes
/// with it.
pub(super) fn contents(column: &mut Column, job: &PaperJob<'_>) {
    column.heading(words::IN_IT, WORDS_MM * 1.1, WORDS_MM * 3.0);
    column.paragraph(&words::for_which(job.order), Face::Text, WORDS_MM, 0.0, INK);
    piece_contents(column, job, &job.order.piece, job.stems);
    made_without(column, job, job.order);
    if let Some(piece) = &job.order.partner_piece {
        column.skip(2.0);
        column.heading(words::BOUTONNIERE, WORDS_MM, WORDS_MM * 2.0);
        piece_contents(column, job, piece, &stem_list(piece, None, job.stock, job.style));
        if let Some(theirs) = job.order.boutonniere() {
            made_without(column, job, &theirs);
        }
    }
    column.skip(2.0);
}

/// What the piece is made without, where that was asked for and is true.
fn made_without(column: &mut Column, job: &PaperJob<'_>, order: &Order) {
    let without = WearerStops::of(order, job.stock).made_without();
    if !without.is_empty() {
        column.paragraph(&words::made_without(&without), Face::Strong, WORDS_MM, 0.0, INK);
    }
}

fn piece_contents(column: &mut Column, job: &PaperJob<'_>, piece: &Piece, stems: &StemList) {
    let bill = bill_of_materials(piece, stems, job.stock);
    for line in bill.iter().filter(|line| line.role.is_some()) {
        flower(column, job, line);
    }
    let ribbon = piece.bow.as_ref().and_then(|bow| Some((bow, job.stock.ribbon(&bow.ribbon)?)));
    if let Some((bow, ribbon)) = ribbon {
        let rgb = ribbon.colour(&bow.colour).map(|c| c.rgb);
        spotted(column, rgb, &words::bow_for_client(bow, &ribbon.name));
    }
    if let Some(band) = piece.band.as_ref().and_then(|id| job.stock.band(id)) {
        spotted(column, Some(band.rgb), &band.name);
    }
    if bill.iter().all(|line| line.role.is_none()) {
        column.paragraph(words::NOTHING_YET, Face::Text, WORDS_MM, 0.0, SOFT);
    }
}

fn flower(column: &mut Column, job: &PaperJob<'_>, line: &BillLine) {
    let keeps = job.stock.botanical(&line.stock).filter(|b| b.mass_g > 0.0).map(|b| b.keeps.word());
    let keeps = keeps.map_or_else(String::new, |word| format!(" \u{b7} {word}"));
    spotted(column, line.rgb, &format!("{} \u{d7} {}{keeps}", line.count, words::what(line)));
}
