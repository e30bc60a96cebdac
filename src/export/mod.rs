//! Scene or rows to bytes: pixels, PNG, SVG, PDF, CSV, JSON, text. Opens no file.

mod bench;
mod calendar;
mod caption;
mod colours;
mod csv;
mod error;
mod json;
pub mod lettering;
mod market;
mod paper_kind;
mod papers;
mod party_bill;
pub mod pdf;
mod photograph;
mod pixels;
mod png_file;
mod quote;
mod stock_csv;
mod svg_file;
mod text;

pub use bench::{bench_json, bench_text, no_plan_words, stage_word};
pub use calendar::calendar;
pub use caption::{captioned, signed};
pub use colours::{dress_json, dress_text, match_json, match_text};
pub use csv::csv_of;
pub use error::ExportError;
pub use json::{once_over_json, stems_json};
pub use market::{market_csv, market_json, market_text, no_market_words};
pub use paper_kind::{PaperContent, PaperJob, PaperKind, PaperReader};
pub use papers::{PAPERS, PaperFile, PaperMaker, QUOTE_SLIP, USUAL_WIDTH_PX};
pub use party_bill::{party_bill_json, party_bill_text};
pub use photograph::{PHOTO_SHAPE, PHOTO_WIDTH_PX, PhotoFinish, photograph_file, photograph_png, photograph_size};
pub use pixels::{Finish, Pixels, largest_width_px, raster, view_of};
pub use png_file::png_of;
pub use quote::{quote_json, quote_text};
pub use stock_csv::stock_csv;
pub use svg_file::svg_of;
pub use text::{once_over_text, stems_rows, stems_text};

pub use crate::paperwork::short_price as price_text;
