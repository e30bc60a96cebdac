//! The quote slip: what it costs, line by line, what is paid when, until when the price holds and what it is made of. No
//! cost, no supplier, no mark.

use super::column::Column;
use super::for_client::{
    PictureRoom, WORDS_MM, amount, bar_of_three, beside_picture, charge_rows, days, head, money_row, on_one_sheet, rule,
};
use super::sheet::{Document, INK};
use super::words;
use crate::export::lettering::Face;
use crate::export::paper_kind::{PaperJob, PaperKind, PaperReader, to_print_and_send};
use crate::paperwork::{Quote, holds_words, pending_words, quote};
use crate::units::Cents;

/// Size of the total, mm.
const TOTAL_MM: f64 = 6.6;

/// The quote among the papers.
pub static QUOTE_SLIP: PaperKind = PaperKind {
    id: "quote-slip",
    title: "Quote",
    reader: PaperReader::Client,
    endings: &["pdf", "png"],
    is_for_each_piece: false,
    missing: "",
    make: |job| to_print_and_send(quote_slip(job)),
};

/// The quote slip of an order.
pub fn quote_slip(job: &PaperJob<'_>) -> Document {
    let quote = quote(job.order, job.style, job.stock);
    on_one_sheet(|room| lay_out(job, &quote, room))
}

fn lay_out(job: &PaperJob<'_>, quote: &Quote, room: PictureRoom) -> Document {
    let mut column = Column::new(words::title(QUOTE_SLIP.title, job.order), job.paper);
    head(&mut column, job, words::QUOTE);
    beside_picture(&mut column, job, room, |column| money(column, job, quote));
    column.into_document()
}

/// Lines, tax, total; what is paid now and later; until when it holds; what it is made of.
fn money(column: &mut Column, job: &PaperJob<'_>, quote: &Quote) {
    let told = |price: Cents| amount(price, &quote.currency);
    days(column, job);
    charge_rows(column, &quote.lines, &quote.taxes, &quote.currency);
    money_row(column, words::TOTAL, &told(quote.total), Face::Strong, TOTAL_MM);
    column.skip(2.0);
    money_row(column, words::DEPOSIT, &told(quote.deposit), Face::Text, WORDS_MM);
    money_row(column, words::BALANCE, &told(quote.balance), Face::Text, WORDS_MM);
    if !job.order.terms.payments.is_empty() {
        rule(column);
        money_row(column, words::PAID, &told(quote.paid), Face::Text, WORDS_MM);
        let (what, due) = words::due(quote.due);
        money_row(column, what, &told(due), Face::Strong, WORDS_MM);
    }
    if let Some(pending) = &quote.pending {
        rule(column);
        column.paragraph(&pending_words(pending, &quote.currency), Face::Text, WORDS_MM, 0.0, INK);
    }
    column.skip(4.0);
    if let Some(day) = job.order.terms.quoted_on {
        column.paragraph(&words::quoted_on(day, job.written.date), Face::Text, WORDS_MM, 0.0, INK);
    }
    // An agreed price holds for good.
    if let Some(until) = quote.holds_until.filter(|_| job.order.agreed.is_none()) {
        column.paragraph(&holds_words(until, job.written.date), Face::Strong, WORDS_MM, 0.0, INK);
    }
    column.skip(6.0);
    bar_of_three(column, &quote.share_of_three);
}
