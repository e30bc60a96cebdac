//! The papers of an order: the one list of them, and the files of each. Knows no folder.
//!
//! A paper is entered once: a file with what makes it and its [`PaperKind`], and its line in [`PAPERS`]. Commands, help, the
//! window and the tests of the client's papers go by that list.

mod once_over;
mod picture;
mod stems;

use std::fmt;

use super::ExportError;
use super::pdf::{self, Document, PaperJob, PaperSize};
use crate::book::Order;
use crate::paperwork::{stem_list, worked_price};
use crate::piece::HouseStyle;
use crate::stock::Stock;

pub use super::pdf::quote_slip::QUOTE_SLIP;
pub use picture::USUAL_WIDTH_PX;

/// All papers, in the order in which they are made.
pub static PAPERS: [&PaperKind; 10] = [
    &picture::PICTURE,
    &stems::STEMS,
    &once_over::ONCE_OVER,
    &pdf::client_page::CLIENT_PAGE,
    &QUOTE_SLIP,
    &pdf::agreed_sheet::AGREEMENT,
    &pdf::receipt::RECEIPT,
    &pdf::bench_card::BENCH_CARD,
    &pdf::template::TEMPLATE,
    &pdf::bill::BILL_OF_MATERIALS,
];

/// Whom a paper is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PaperReader {
    /// The client: no cost, no supplier, no score.
    Client,
    /// Whoever makes the piece.
    Bench,
    /// The shop alone.
    Shop,
}

/// A kind of paper: what it is called, whom it is for, and how it is made.
#[derive(Clone, Copy, Debug)]
pub struct PaperKind {
    /// What it is called on the command line and in the names of files: `quote-slip`.
    pub id: &'static str,
    /// What it is called on itself.
    pub title: &'static str,
    /// Whom it is for.
    pub reader: PaperReader,
    /// What the names of its files end in; more sheets as pictures follow as `-2.png`.
    pub endings: &'static [&'static str],
    /// Whether a boutonniere has one of its own: what is made at the bench, piece by piece.
    pub is_for_each_piece: bool,
    /// Why an order may have none, as a clause; empty where every order has one.
    pub missing: &'static str,
    /// Makes what is in its files, one for each ending; nothing where the order has no such paper.
    pub make: fn(&PaperJob<'_>) -> Vec<PaperContent>,
}

/// What is in a file of a paper.
#[derive(Clone, Debug)]
pub enum PaperContent {
    /// Sheets as PDF.
    Pdf(Document),
    /// Each sheet as PNG.
    Pngs(Document),
    /// Bytes as they stand, with the ending of their file.
    Bytes(&'static str, Vec<u8>),
}

/// Pixels to the inch of a paper as a picture: fine enough to be read on a phone and printed; our choice.
const PAPER_DPI: u32 = 150;

impl Eq for PaperKind {}
impl PartialEq for PaperKind {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

/// Its id.
impl fmt::Display for PaperKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.id)
    }
}

impl PaperKind {
    /// The kind of this id.
    pub fn of_id(id: &str) -> Option<&'static Self> {
        PAPERS.into_iter().find(|kind| kind.id == id)
    }

    /// Why an order has no such paper.
    pub fn why_missing(&self) -> &'static str {
        if self.missing.is_empty() { "there is no such paper" } else { self.missing }
    }

    fn files(&self, job: &PaperJob<'_>) -> Result<Vec<PaperFile>, ExportError> {
        let mut files = Vec::new();
        for content in (self.make)(job) {
            match content {
                PaperContent::Pdf(document) => files.push((format!("{}.pdf", self.id), pdf::pdf_of(&document)?)),
                PaperContent::Pngs(document) => {
                    for (png, sheet) in pdf::pngs_of(&document, PAPER_DPI).into_iter().zip(1_u32..) {
                        let number = if sheet == 1 { String::new() } else { format!("-{sheet}") };
                        files.push((format!("{}{number}.png", self.id), png));
                    }
                }
                PaperContent::Bytes(ending, bytes) => files.push((format!("{}.{ending}", self.id), bytes)),
            }
        }
        Ok(files)
    }
}

/// A paper to print.
pub(super) fn to_print(document: Document) -> Vec<PaperContent> {
    vec![PaperContent::Pdf(document)]
}

/// A paper to print and to send.
pub(super) fn to_print_and_send(document: Document) -> Vec<PaperContent> {
    vec![PaperContent::Pdf(document.clone()), PaperContent::Pngs(document)]
}

/// What the papers of a shop are made from.
#[derive(Clone, Copy, Debug)]
pub struct PaperMaker<'a> {
    /// The shop's name.
    pub shop: &'a str,
    /// What can be bought.
    pub stock: &'a Stock,
    /// The house style.
    pub style: &'a HouseStyle,
    /// What is printed on.
    pub paper: PaperSize,
}

/// A file yet to be written: what its name ends in, and its bytes.
pub type PaperFile = (String, Vec<u8>);

impl PaperMaker<'_> {
    /// The files of one kind, and of the boutonniere that goes with the order where it has one of its own; none where the order
    /// has no such paper.
    pub fn files(&self, order: &Order, kind: &PaperKind) -> Result<Vec<PaperFile>, ExportError> {
        let mut files = self.of(order, kind)?;
        if let Some(boutonniere) = boutonniere_order(order).filter(|_| kind.is_for_each_piece) {
            let more = self.of(&boutonniere, kind)?;
            files.extend(more.into_iter().map(|(ending, bytes)| (format!("boutonniere-{ending}"), bytes)));
        }
        Ok(files)
    }

    fn of(&self, order: &Order, kind: &PaperKind) -> Result<Vec<PaperFile>, ExportError> {
        let Self { shop, stock, style, paper } = *self;
        let size = order.size.as_ref().and_then(|name| style.size(name));
        let stems = &stem_list(&order.piece, size, stock, style);
        let price = &worked_price(stems.fresh_cents, stems.hard_cents, stems.minutes, &style.prices);
        kind.files(&PaperJob { shop, order, stock, style, stems, price, paper })
    }
}

/// The boutonniere that goes with an order as an order of its own, for the bench.
fn boutonniere_order(order: &Order) -> Option<Order> {
    let piece = order.partner_piece.clone()?;
    let partner = order.people.partner.trim();
    let wearer = match (partner, order.wearer.trim()) {
        ("", wearer) => wearer.to_owned(),
        (partner, "") => partner.to_owned(),
        (partner, wearer) => format!("{partner}, with {wearer}"),
    };
    Some(Order { wearer, piece, partner_piece: None, size: None, agreed: None, ..order.clone() })
}
