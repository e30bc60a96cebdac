//! The picture alone, as PNG.

use crate::export::paper_kind::{PaperContent, PaperJob, PaperKind, PaperReader};
use crate::export::signed;
use crate::scene::as_shown;

/// Width of a picture of which nobody has said how wide it shall be, pixels; our choice.
pub const USUAL_WIDTH_PX: u32 = 1200;

/// The picture alone.
pub(super) static PICTURE: PaperKind = PaperKind {
    id: "picture",
    title: "Picture",
    reader: PaperReader::Client,
    endings: &["png"],
    is_for_each_piece: false,
    missing: "",
    make,
};

fn make(job: &PaperJob<'_>) -> Vec<PaperContent> {
    let scene = as_shown(&job.order.piece, job.order, job.stock, &job.style.prices.currency.sign);
    vec![PaperContent::Picture(signed(scene, job.shop))]
}
