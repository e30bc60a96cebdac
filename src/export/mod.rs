//! Scene or rows to bytes. Opens no file.

mod csv;
mod json;
mod text;

pub use csv::csv_of;
pub use json::{once_over_json, stems_json};
pub use text::{once_over_text, price_text, stems_rows, stems_text};
