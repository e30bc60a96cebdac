//! The client's page: the picture, what is in it, the price, what to be careful of. No cost, no supplier, no mark.

use kurbo::Rect;

use super::column::Column;
use super::for_client::{GUTTER_MM, SMALL_MM, WORDS_MM, contents, days, head};
use super::sheet::{Document, INK, SOFT};
use super::{picture, words};
use crate::export::lettering::Face;
use crate::export::paper_kind::{PaperJob, PaperKind, PaperReader, to_print};
use crate::export::price_text;
use crate::paperwork::{cautions_of, quote};
use crate::stock::STANDING_LINE;

/// Shares of the sheet that the picture may take: of its width, of its height.
const PICTURE_SHARES: (f64, f64) = (0.6, 0.66);

/// The client's page among the papers.
pub(in crate::export) static CLIENT_PAGE: PaperKind = PaperKind {
    id: "client",
    title: "Client's page",
    reader: PaperReader::Client,
    endings: &["pdf"],
    is_for_each_piece: false,
    missing: "",
    make: |job| to_print(client_page(job)),
};

/// The client's page of an order, with its picture as high as lets it stay on one sheet.
pub fn client_page(job: &PaperJob<'_>) -> Document {
    /// Of the usual height, the highest first; our choice.
    const LOWER: [f64; 4] = [1.0, 0.9, 0.8, 0.7];
    let page = |lower: f64| {
        let (page, is_pictured) = lay_out(job, Boutonniere::UnderWords, lower);
        if is_pictured { page } else { lay_out(job, Boutonniere::BesidePicture, lower).0 }
    };
    let first = page(LOWER[0]);
    if first.n_sheets() == 1 {
        return first;
    }
    LOWER[1..].iter().map(|lower| page(*lower)).find(|page| page.n_sheets() == 1).unwrap_or(first)
}

/// Where the boutonniere is pictured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Boutonniere {
    /// Where the words leave room, so that both pictures are large.
    UnderWords,
    /// In the same box, where they leave none.
    BesidePicture,
}

/// The page, and whether the boutonniere that goes with it found room.
fn lay_out(job: &PaperJob<'_>, place: Boutonniere, lower: f64) -> (Document, bool) {
    let mut column = Column::new(words::title(CLIENT_PAGE.title, job.order), job.paper);
    head(&mut column, job, &price(job));
    let inside = column.inside();
    let size = (inside.width() * PICTURE_SHARES.0, inside.height() * PICTURE_SHARES.1 * lower);
    let within = Rect::from_origin_size((inside.x0, column.y), size);
    let (taken, scale) = match place {
        Boutonniere::UnderWords => picture::worn(column.sheet(), job, within),
        Boutonniere::BesidePicture => (picture::pair(column.sheet(), job, within), 0.0),
    };
    column.write_between(taken.x1 + GUTTER_MM, inside.x1);
    days(&mut column, job);
    contents(&mut column, job);
    let left = Rect { y0: column.y, y1: taken.y1, ..column.inside() };
    let is_pictured = match place {
        Boutonniere::BesidePicture => true,
        Boutonniere::UnderWords if column.n_sheets() == 1 => picture::boutonniere(column.sheet(), job, scale, left),
        Boutonniere::UnderWords => job.order.partner_piece.is_none(),
    };
    column.write_between(inside.x0, inside.x1);
    if column.n_sheets() == 1 {
        column.y = column.y.max(taken.y1 + GUTTER_MM);
    }
    cautions(&mut column, job);
    (column.into_document(), is_pictured)
}

/// What the client pays in all; nothing where nothing has a price yet.
fn price(job: &PaperJob<'_>) -> String {
    if job.stems.lines.is_empty() {
        return String::new();
    }
    let quote = quote(job.order, job.style, job.stock);
    price_text(quote.total, &quote.currency)
}

fn cautions(column: &mut Column, job: &PaperJob<'_>) {
    column.heading(words::CAUTIONS, WORDS_MM, SMALL_MM * 4.0);
    for (caution, names) in cautions_of(job.stems, job.order, job.stock) {
        if let Some(sentence) = words::client_caution(caution) {
            column.paragraph(&words::caution(&names, sentence), Face::Text, SMALL_MM, 0.0, INK);
        }
    }
    if !job.order.needs.body.is_asked {
        column.paragraph(words::PLEASE_TELL, Face::Strong, SMALL_MM, 0.0, INK);
    }
    column.paragraph(words::NEAR_FLAMES, Face::Text, SMALL_MM, 0.0, INK);
    column.paragraph(STANDING_LINE, Face::Text, SMALL_MM, 0.0, SOFT);
    column.paragraph(words::COLOURS_ON_PAPER, Face::Text, SMALL_MM, 0.0, SOFT);
}
