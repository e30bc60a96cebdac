//! The receipt for what was paid: twice on one sheet, for the client and for the book, with a line to cut along.

use kurbo::{Line, Point, Rect, Shape as _};

use super::column::Column;
use super::for_client::{GUTTER_MM, WORDS_MM, amount, head, money_row, rule, to_fill_in};
use super::sheet::{Align, Document, HAIR, INK, Pattern, SOFT};
use super::{picture, words};
use crate::book::PayWay;
use crate::export::lettering::Face;
use crate::export::paper_kind::{PaperJob, PaperKind, PaperReader, to_print_and_send};
use crate::paperwork::{Quote, payment_words, quote};
use crate::units::Cents;

/// Size of what was paid, mm.
const PAID_MM: f64 = 6.6;
/// The share of the sheet's width that the picture may take, and of a copy's height.
const PICTURE_SHARES: (f64, f64) = (0.36, 0.66);
/// Room for whose copy it is, with the gap above the fold.
const FOOT_MM: f64 = 16.0;
/// A smaller picture is none; then a copy takes a sheet.
const LEAST_PICTURE_MM: f64 = 30.0;

/// The receipt among the papers.
pub(in crate::export) static RECEIPT: PaperKind = PaperKind {
    id: "receipt",
    title: "Receipt",
    reader: PaperReader::Client,
    endings: &["pdf", "png"],
    is_for_each_piece: false,
    missing: "nothing has been paid yet, so there is no receipt",
    make: |job| receipt(job).map(to_print_and_send).unwrap_or_default(),
};

/// The receipt of an order; none where nothing has been paid yet.
pub fn receipt(job: &PaperJob<'_>) -> Option<Document> {
    let quote = quote(job.order, job.style, job.stock);
    if job.order.terms.payments.is_empty() {
        return None;
    }
    /// Sizes of the words that are tried, the largest first, until both copies stand on one sheet; our choice.
    const SIZES: [f64; 3] = [1.0, 0.86, 0.74];
    let first = both(job, &quote, SIZES[0]);
    if first.n_sheets() == 1 {
        return Some(first);
    }
    Some(SIZES[1..].iter().map(|size| both(job, &quote, *size)).find(|sheet| sheet.n_sheets() == 1).unwrap_or(first))
}

/// Both copies, their words as large as `size` times the usual.
fn both(job: &PaperJob<'_>, quote: &Quote, size: f64) -> Document {
    let mut column = Column::new(words::title(RECEIPT.title, job.order), job.paper);
    let inside = column.inside();
    let middle = inside.center().y;
    copy(&mut column, job, quote, words::FOR_THE_CLIENT, size);
    if column.n_sheets() > 1 || column.y > middle {
        column.turn_over();
    } else {
        let fold = Line::new(Point::new(inside.x0, middle), Point::new(inside.x1, middle)).to_path(0.1);
        column.sheet().line(fold, 0.25, HAIR, Pattern::Dashed(2.0, 2.0));
        column.y = middle + GUTTER_MM;
    }
    copy(&mut column, job, quote, words::FOR_THE_BOOK, size);
    column.into_document()
}

/// One copy, from where the column stands.
fn copy(column: &mut Column, job: &PaperJob<'_>, quote: &Quote, whose: &str, size: f64) {
    let (words_mm, paid_mm) = (WORDS_MM * size, PAID_MM * size);
    let inside = column.inside();
    // Two copies stand on one sheet, whatever the letterhead takes.
    let lowest = column.y + inside.height() / 2.0 - FOOT_MM;
    head(column, job, RECEIPT.title);
    let (top, left) = (column.y, inside.x0 + inside.width() * PICTURE_SHARES.0);
    let high = (inside.height() / 2.0 * PICTURE_SHARES.1).min(lowest - top).max(LEAST_PICTURE_MM * size);
    let within = Rect::new(inside.x0, top, left, top + high);
    let taken = picture::pair(column.sheet(), job, within);
    column.write_between(left + GUTTER_MM, inside.x1);
    let told = |price: Cents| amount(price, &quote.currency);
    column.paragraph(&words::received_from(job.order), Face::Text, words_mm, 0.0, INK);
    column.paragraph(&words::received_for(job), Face::Text, words_mm, 0.0, INK);
    rule(column);
    let payments = &job.order.terms.payments;
    if payments.len() > 1 {
        for payment in payments {
            money_row(column, &payment_words(payment, job.written.date), &told(payment.sum), Face::Text, words_mm);
        }
    }
    money_row(column, words::PAID, &told(quote.paid), Face::Strong, paid_mm);
    money_row(column, words::TOTAL, &told(quote.total), Face::Text, words_mm);
    let (what, due) = words::due(quote.due);
    money_row(column, what, &told(due), Face::Strong, words_mm);
    rule(column);
    for line in words::receipt_days(job, quote, &told) {
        column.paragraph(&line, Face::Text, words_mm, 0.0, INK);
    }
    if let [only] = &payments[..] {
        if only.on.is_some() || only.way != PayWay::NotNoted {
            column.paragraph(&format!("{}.", payment_words(only, job.written.date)), Face::Text, words_mm, 0.0, INK);
        }
        if only.on.is_none() {
            to_fill_in(column, words::PAID_ON);
        }
    }
    to_fill_in(column, words::RECEIVED_BY);
    column.write_between(inside.x0, inside.x1);
    column.y = column.y.max(taken.y1) + 4.0;
    let at = Point::new(inside.x0, column.y);
    column.sheet().tinted(whose, Face::Text, 3.2, at, Align::Left, SOFT);
    column.skip(4.0);
}
