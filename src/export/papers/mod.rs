//! The papers of an order: the one list of them, and the files of each. Knows no folder.
//!
//! A paper is entered once: a file with what makes it and its [`PaperKind`], and its line in [`PAPERS`]. Commands, help, the
//! window and the tests of the client's papers go by that list.

mod once_over;
mod picture;
mod stems;

use super::ExportError;
use super::paper_kind::{PaperContent, PaperJob, PaperKind};
use super::pdf::{self, PaperSize};
use crate::book::{Order, Written};
use crate::paperwork::{calculated_price, stem_list};
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

/// Pixels to the inch of a paper as a picture: fine enough to be read on a phone and printed; our choice.
const PAPER_DPI: u32 = 150;

impl PaperKind {
    /// The kind of this id.
    pub fn of_id(id: &str) -> Option<&'static Self> {
        PAPERS.into_iter().find(|kind| kind.id == id)
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

/// What the papers of a shop are made from.
#[derive(Clone, Copy, Debug)]
pub struct PaperMaker<'a> {
    /// The shop's name.
    pub shop: &'a str,
    /// What can be bought.
    pub stock: &'a Stock,
    /// The house style.
    pub style: &'a HouseStyle,
    /// How the shop writes days and hours.
    pub written: Written,
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
        let Self { shop, stock, style, written, paper } = *self;
        let size = order.size.as_ref().and_then(|name| style.size(name));
        let stems = &stem_list(&order.piece, size, stock, style);
        let price = &calculated_price(stems.fresh_cents, stems.hard_cents, stems.minutes, &style.prices);
        kind.files(&PaperJob { shop, order, stock, style, stems, price, written, paper })
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
