//! The once-over, as text.

use crate::export::once_over_text;
use crate::export::paper_kind::{PaperContent, PaperJob, PaperKind, PaperReader};
use crate::once_over::{Subject, look_over};

/// The once-over.
pub(super) static ONCE_OVER: PaperKind = PaperKind {
    id: "once-over",
    title: "Once-over",
    reader: PaperReader::Shop,
    endings: &["txt"],
    is_for_each_piece: false,
    missing: "",
    make,
};

fn make(job: &PaperJob<'_>) -> Vec<PaperContent> {
    let PaperJob { order, stock, style, .. } = *job;
    let over = look_over(Subject { piece: &order.piece, stock, style, wrist: &order.wrist });
    vec![PaperContent::Words("txt", once_over_text(order, &over))]
}
