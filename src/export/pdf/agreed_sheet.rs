//! The agreed sheet: picture, price and words as they stood when both said yes, and what has changed since beside them.

use super::column::Column;
use super::for_client::{
    PictureRoom, WORDS_MM, amount, beside_picture, head, money_row, on_one_sheet, rule, to_fill_in,
};
use super::sheet::{Document, INK, SOFT};
use super::words;
use crate::book::{Agreed, Order};
use crate::export::lettering::Face;
use crate::export::paper_kind::{PaperJob, PaperKind, PaperReader, to_print_and_send};
use crate::paperwork::{changed_since_agreed, holds_words, stem_list};
use crate::units::Cents;

/// Size of the price, mm.
const PRICE_MM: f64 = 6.6;

/// The agreement among the papers.
pub(in crate::export) static AGREEMENT: PaperKind = PaperKind {
    id: "agreed-sheet",
    title: "Agreement",
    reader: PaperReader::Client,
    endings: &["pdf", "png"],
    is_for_each_piece: false,
    missing: "the client has not agreed yet, so there is no agreement",
    make: |job| agreed_sheet(job).map(to_print_and_send).unwrap_or_default(),
};

/// The agreed sheet of an order; none where nobody has said yes yet.
pub fn agreed_sheet(job: &PaperJob<'_>) -> Option<Document> {
    let agreed = job.order.agreed.as_deref()?;
    let was = &Order { number: job.order.number, ..agreed.order().clone() };
    let size = was.size.as_ref().and_then(|name| job.style.size(name));
    let stems = &stem_list(&was.piece, size, job.stock, job.style);
    let then = PaperJob { order: was, stems, ..*job };
    Some(on_one_sheet(|room| lay_out(job, &then, agreed, room)))
}

/// The sheet: `then` is the order as it was, `job` as it is now.
fn lay_out(job: &PaperJob<'_>, then: &PaperJob<'_>, agreed: &Agreed, room: PictureRoom) -> Document {
    let mut column = Column::new(words::title(AGREEMENT.title, then.order), job.paper);
    head(&mut column, then, words::AGREED);
    beside_picture(&mut column, then, room, |column| {
        yes(column, job, agreed);
        since(column, job);
    });
    column.into_document()
}

/// The day, the words and the price of the yes, and a place to sign.
fn yes(column: &mut Column, job: &PaperJob<'_>, agreed: &Agreed) {
    let told = |price: Cents| amount(price, &job.style.prices.currency);
    column.paragraph(&words::agreed_on(agreed.on, job.written.date), Face::Strong, WORDS_MM * 1.15, 0.0, INK);
    column.skip(2.0);
    for line in &agreed.says {
        column.paragraph(line, Face::Text, WORDS_MM, 0.0, INK);
        column.skip(WORDS_MM * 0.25);
    }
    let besides = words::days_besides_title(agreed.order(), job.written);
    if !besides.is_empty() {
        column.paragraph(&besides, Face::Text, WORDS_MM, 0.0, INK);
    }
    rule(column);
    money_row(column, words::PRICE_AGREED, &told(agreed.price), Face::Strong, PRICE_MM);
    if let Some(deposit) = agreed.deposit {
        money_row(column, words::DEPOSIT_AGREED, &told(deposit), Face::Text, WORDS_MM);
        money_row(column, words::BALANCE, &told(agreed.price - deposit), Face::Text, WORDS_MM);
    }
    if let Some(until) = agreed.holds_until {
        column.skip(2.0);
        column.paragraph(&holds_words(until, job.written.date), Face::Text, WORDS_MM, 0.0, INK);
    }
    column.skip(2.0);
    to_fill_in(column, words::SIGNED_CLIENT);
    to_fill_in(column, words::SIGNED_SHOP);
    column.skip(6.0);
}

/// What has changed since, beside what was agreed.
fn since(column: &mut Column, job: &PaperJob<'_>) {
    let changed = changed_since_agreed(job.order, job.style, job.stock, job.written);
    column.heading(words::CHANGED_SINCE, WORDS_MM * 1.1, WORDS_MM * 2.0);
    if changed.is_empty() {
        column.paragraph(words::NOTHING_CHANGED, Face::Text, WORDS_MM, 0.0, SOFT);
    }
    for line in changed {
        column.paragraph(&line, Face::Text, WORDS_MM, 0.0, INK);
        column.skip(WORDS_MM * 0.25);
    }
}
