//! The papers as PDF, A4 and Letter: the client's page, the quote slip, the agreed sheet, the receipt; the bench card,
//! the template at 1:1, the bill of materials.
//!
//! A paper is first laid out as a [`Document`]: sheets of marks in millimetres, whose words can be read; [`pdf_of`] writes
//! it, [`pngs_of`] draws it. Words are real text in embedded faces, so that a search finds them.

pub(super) mod agreed_sheet;
pub(super) mod bench_card;
pub(super) mod bill;
pub(super) mod client_page;
mod column;
mod for_client;
mod packed;
mod picture;
pub(super) mod quote_slip;
pub(super) mod receipt;
mod sheet;
mod sheet_png;
mod table;
pub(super) mod template;
mod tiles;
mod words;
mod writer;

use crate::book::Order;
use crate::paperwork::{Price, StemList};
use crate::piece::HouseStyle;
use crate::stock::Stock;

pub use agreed_sheet::agreed_sheet;
pub use bench_card::bench_card;
pub use bill::{bill_of_materials_paper, bill_rows};
pub use client_page::client_page;
pub use quote_slip::quote_slip;
pub use receipt::receipt;
pub use sheet::{Document, PaperSize, Placed};
pub use sheet_png::pngs_of;
pub use template::{CHECK_BAR_MM, template};
pub use writer::{pdf_of, picture_pdf};

/// Everything that a paper is made from.
#[derive(Clone, Copy, Debug)]
pub struct PaperJob<'a> {
    /// The shop's name.
    pub shop: &'a str,
    /// The order.
    pub order: &'a Order,
    /// What can be bought.
    pub stock: &'a Stock,
    /// The house style.
    pub style: &'a HouseStyle,
    /// The stem list of the order.
    pub stems: &'a StemList,
    /// Its price.
    pub price: &'a Price,
    /// The paper it is printed on.
    pub paper: PaperSize,
}
