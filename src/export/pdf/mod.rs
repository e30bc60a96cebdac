//! The papers as PDF, A4 and Letter: the client's page, the quote slip, the agreed sheet, the receipt; the bench card,
//! the template at 1:1, the bill of materials.
//!
//! A paper is first laid out as a [`Document`]: sheets of marks in millimetres, whose words can be read; [`pdf_of`] writes
//! it, [`pngs_of`] draws it. Words are real text in embedded faces, so that a search finds them.

pub(super) mod agreed_sheet;
pub(super) mod bench_card;
pub(super) mod bill;
pub(super) mod care_slip;
mod care_words;
pub(super) mod client_page;
mod column;
mod for_client;
mod label_sheet;
pub(super) mod labels;
mod letterhead;
mod making_words;
mod market_paper;
mod packed;
mod party_bill;
mod picture;
pub(super) mod quote_slip;
pub(super) mod receipt;
pub(super) mod sheet;
mod sheet_png;
mod stops;
mod table;
pub(super) mod template;
mod tiles;
mod week_words;
mod words;
mod writer;

pub use agreed_sheet::agreed_sheet;
pub use bench_card::bench_card;
pub use bill::{bill_of_materials_paper, bill_rows};
pub use care_slip::care_slip;
pub use client_page::client_page;
pub use label_sheet::LabelSheet;
pub use labels::{LabelRun, label_frame, labels};
pub use letterhead::letterhead_sample;
pub use market_paper::market_paper;
pub use party_bill::party_bill_paper;
pub use quote_slip::quote_slip;
pub use receipt::receipt;
pub use sheet::{Document, PaperSize, Placed};
pub use sheet_png::{page_picture, pngs_of};
pub use template::{CHECK_BAR_MM, template};
pub use writer::{pdf_of, picture_pdf};
