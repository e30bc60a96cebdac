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
use super::png_of;
use crate::book::{Letterhead, Order, WearerStops, Written};
use crate::paperwork::stem_list;
use crate::piece::HouseStyle;
use crate::stock::Stock;

pub use super::pdf::quote_slip::QUOTE_SLIP;
pub use picture::USUAL_WIDTH_PX;

/// All papers, in the order in which they are made.
pub static PAPERS: [&PaperKind; 12] = [
    &picture::PICTURE,
    &stems::STEMS,
    &once_over::ONCE_OVER,
    &pdf::client_page::CLIENT_PAGE,
    &QUOTE_SLIP,
    &pdf::agreed_sheet::AGREEMENT,
    &pdf::receipt::RECEIPT,
    &pdf::care_slip::CARE_SLIP,
    &pdf::bench_card::BENCH_CARD,
    &pdf::template::TEMPLATE,
    &pdf::labels::LABELS,
    &pdf::bill::BILL_OF_MATERIALS,
];

/// How the names of files of the boutonniere begin.
const OF_BOUTONNIERE: &str = "boutonniere-";
/// Pixels to the inch of a paper as a picture: fine enough to be read on a phone and printed; our choice.
const PAPER_DPI: u32 = 150;

impl PaperKind {
    /// The kind of this id.
    pub fn of_id(id: &str) -> Option<&'static Self> {
        PAPERS.into_iter().find(|kind| kind.id == id)
    }

    /// Whether a file whose name ends so is one of this kind, of the piece or of the boutonniere that goes with it.
    pub fn owns(&self, ending: &str) -> bool {
        let ending = ending.strip_prefix(OF_BOUTONNIERE).unwrap_or(ending);
        let Some((stem, kind)) = ending.rsplit_once('.') else { return false };
        let Some(number) = stem.strip_prefix(self.id) else { return false };
        let is_numbered = |number: &str| !number.is_empty() && number.chars().all(|c| c.is_ascii_digit());
        self.endings.contains(&kind) && (number.is_empty() || number.strip_prefix('-').is_some_and(is_numbered))
    }

    fn files(&self, contents: Vec<PaperContent>) -> Result<Vec<PaperFile>, ExportError> {
        let mut files = Vec::new();
        for content in contents {
            match content {
                PaperContent::Pdf(document) => files.push((format!("{}.pdf", self.id), pdf::pdf_of(&document)?)),
                PaperContent::Pngs(document) => {
                    for (png, sheet) in pdf::pngs_of(&document, PAPER_DPI).into_iter().zip(1_u32..) {
                        let number = if sheet == 1 { String::new() } else { format!("-{sheet}") };
                        files.push((format!("{}{number}.png", self.id), png));
                    }
                }
                PaperContent::Picture(scene) => {
                    files.push((format!("{}.png", self.id), png_of(&scene, USUAL_WIDTH_PX)));
                }
                PaperContent::Words(ending, words) => files.push((format!("{}.{ending}", self.id), words.into_bytes())),
            }
        }
        Ok(files)
    }
}

/// What the papers of a shop are made from.
#[derive(Clone, Copy, Debug)]
pub struct PaperMaker<'a> {
    /// The shop as its clients read it.
    pub shop: &'a Letterhead,
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
        let [own, boutonnieres] = self.contents(order, kind);
        let mut files = kind.files(own)?;
        let more = kind.files(boutonnieres)?;
        files.extend(more.into_iter().map(|(ending, bytes)| (format!("{OF_BOUTONNIERE}{ending}"), bytes)));
        Ok(files)
    }

    /// What is in the files of one kind: of the piece, and of the boutonniere that goes with the order where it has one of its
    /// own.
    pub fn contents(&self, order: &Order, kind: &PaperKind) -> [Vec<PaperContent>; 2] {
        let boutonniere = order.boutonniere().filter(|_| kind.is_for_each_piece);
        [self.of(order, kind), boutonniere.map(|order| self.of(&order, kind)).unwrap_or_default()]
    }

    fn of(&self, order: &Order, kind: &PaperKind) -> Vec<PaperContent> {
        let Self { shop, stock, style, written, paper } = *self;
        let stock = &*WearerStops::of(order, stock).stock_to_propose();
        let size = order.size.as_ref().and_then(|name| style.size(name));
        let stems = &stem_list(&order.piece, size, stock, style);
        let price = &stems.price(&style.prices);
        (kind.make)(&PaperJob { shop, order, stock, style, stems, price, written, paper })
    }
}
