//! The stem list, as a table for a spreadsheet and as text.

use crate::export::paper_kind::{PaperContent, PaperJob, PaperKind, PaperReader};
use crate::export::{csv_of, stems_rows, stems_text};

/// The stem list.
pub(super) static STEMS: PaperKind = PaperKind {
    id: "stems",
    title: "Stem list",
    reader: PaperReader::Shop,
    endings: &["csv", "txt"],
    is_for_each_piece: true,
    missing: "",
    make,
};

fn make(job: &PaperJob<'_>) -> Vec<PaperContent> {
    let (head, rows) = stems_rows(job.order, job.stems);
    let text = stems_text(job.order, job.stems, job.price, &job.style.prices, job.stock);
    vec![PaperContent::Words("csv", csv_of(&head, &rows)), PaperContent::Words("txt", text)]
}
