//! The care slip: how to keep the piece until it is worn, how to put it on, how long it lasts, what to do if the skin reddens. For
//! one wearer: the boutonniere has a slip of its own, and nothing of the other wearer stands on either. No price.

use super::column::Column;
use super::for_client::{SMALL_MM, WORDS_MM, head};
use super::sheet::{Document, INK, SOFT};
use super::{care_words, words};
use crate::book::{Order, WearerStops};
use crate::export::lettering::Face;
use crate::export::paper_kind::{PaperJob, PaperKind, PaperReader, to_print_and_send};
use crate::paperwork::{care_of, cautions_of};
use crate::stock::STANDING_LINE;

/// The care slip among the papers.
pub(in crate::export) static CARE_SLIP: PaperKind = PaperKind {
    id: "care-slip",
    title: "Care slip",
    reader: PaperReader::Client,
    endings: &["pdf", "png"],
    is_for_each_piece: true,
    missing: "",
    make: |job| to_print_and_send(care_slip(job)),
};

/// The care slip of one wearer, in words as large as lets it stay on one sheet.
pub fn care_slip(job: &PaperJob<'_>) -> Document {
    // The other wearer has a slip of their own.
    let alone = Order { partner_piece: None, ..job.order.clone() };
    let job = PaperJob { order: &alone, ..*job };
    let first = laid_out(&job, WORDS_MM * 1.15);
    if first.n_sheets() == 1 { first } else { laid_out(&job, SMALL_MM) }
}

fn laid_out(job: &PaperJob<'_>, size_mm: f64) -> Document {
    let mut column = Column::new(words::title(CARE_SLIP.title, job.order), job.paper);
    head(&mut column, job, "");
    column.paragraph(&words::for_which(job.order), Face::Text, size_mm, 0.0, INK);
    let when = words::days_for_bench(job.order, job.written);
    if !when.is_empty() {
        column.paragraph(&when, Face::Text, size_mm, 0.0, INK);
    }
    let without = WearerStops::of(job.order, job.stock).made_without();
    if !without.is_empty() {
        column.paragraph(&words::made_without(&without), Face::Strong, size_mm, 0.0, INK);
    }
    let care = care_of(job.stems, job.stock);
    let cautions: Vec<String> = cautions_of(job.stems, job.order, job.stock)
        .iter()
        .filter_map(|(caution, names)| Some(words::caution(names, words::client_caution(*caution)?)))
        .chain([words::NEAR_FLAMES.to_owned()])
        .collect();
    let parts = [
        (care_words::UNTIL_THEN, care_words::keeping(&care)),
        (care_words::PUT_IT_ON, care_words::putting_on(job.order)),
        (care_words::LASTS, care_words::lasting(&care)),
        (care_words::IF_SKIN, care_words::IF_SKIN_REDDENS.map(str::to_owned).to_vec()),
        (words::CAUTIONS, cautions),
    ];
    for (heading, lines) in parts {
        column.skip(size_mm * 0.6);
        column.heading(heading, size_mm, size_mm * 3.0);
        for line in lines {
            column.paragraph(&line, Face::Text, size_mm, 0.0, INK);
        }
    }
    column.skip(size_mm * 0.6);
    column.paragraph(STANDING_LINE, Face::Text, SMALL_MM, 0.0, SOFT);
    column.into_document()
}
