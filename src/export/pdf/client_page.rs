//! The client's page: the picture, what is in it, the price, what to be careful of. No cost, no supplier, no mark.

use kurbo::Rect;

use super::column::Column;
use super::for_client::{GUTTER_MM, SMALL_MM, WORDS_MM, head, spotted};
use super::sheet::{Document, INK, SOFT};
use super::{PaperJob, picture, words};
use crate::export::lettering::Face;
use crate::export::papers::{PaperKind, PaperReader, to_print};
use crate::export::price_text;
use crate::paperwork::{BillLine, StemList, bill_of_materials, cautions_of, quote, stem_list};
use crate::piece::Piece;
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

/// The client's page of an order.
pub fn client_page(job: &PaperJob<'_>) -> Document {
    let (page, is_pictured) = laid(job, Boutonniere::UnderWords);
    if is_pictured { page } else { laid(job, Boutonniere::BesidePicture).0 }
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
fn laid(job: &PaperJob<'_>, place: Boutonniere) -> (Document, bool) {
    let mut column = Column::new(words::title(CLIENT_PAGE.title, job.order), job.paper);
    head(&mut column, job, &price(job));
    let inside = column.inside();
    let size = (inside.width() * PICTURE_SHARES.0, inside.height() * PICTURE_SHARES.1);
    let within = Rect::from_origin_size((inside.x0, column.y), size);
    let (taken, scale) = match place {
        Boutonniere::UnderWords => picture::worn(column.sheet(), job, within),
        Boutonniere::BesidePicture => (picture::pair(column.sheet(), job, within), 0.0),
    };
    column.write_between(taken.x1 + GUTTER_MM, inside.x1);
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

/// What is in it, in words: heads, greens, bow and band; nothing of glue and boxes. Then the boutonniere, where one goes
/// with it.
pub(super) fn contents(column: &mut Column, job: &PaperJob<'_>) {
    column.heading(words::IN_IT, WORDS_MM * 1.1, WORDS_MM * 3.0);
    column.paragraph(&words::for_which(job.order), Face::Text, WORDS_MM, 0.0, INK);
    piece_contents(column, job, &job.order.piece, job.stems);
    if let Some(piece) = &job.order.partner_piece {
        column.skip(2.0);
        column.heading(words::BOUTONNIERE, WORDS_MM, WORDS_MM * 2.0);
        piece_contents(column, job, piece, &stem_list(piece, None, job.stock, job.style));
    }
    column.skip(2.0);
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

fn cautions(column: &mut Column, job: &PaperJob<'_>) {
    column.heading(words::CAUTIONS, WORDS_MM, SMALL_MM * 4.0);
    for (caution, names) in cautions_of(job.stems, job.order, job.stock) {
        if let Some(sentence) = words::client_caution(caution) {
            column.paragraph(&words::caution(&names, sentence), Face::Text, SMALL_MM, 0.0, INK);
        }
    }
    column.paragraph(words::NEAR_FLAMES, Face::Text, SMALL_MM, 0.0, INK);
    column.paragraph(STANDING_LINE, Face::Text, SMALL_MM, 0.0, SOFT);
    column.paragraph(words::COLOURS_ON_PAPER, Face::Text, SMALL_MM, 0.0, SOFT);
}
