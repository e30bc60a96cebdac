//! The picture alone, as PNG.

use crate::export::paper_kind::{PaperContent, PaperJob, PaperKind, PaperReader};
use crate::export::png_of;
use crate::scene::{Ground, PictureOptions, picture};

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
    let look = PictureOptions { ground: Ground::before(job.order.taste.dress.hex), ..PictureOptions::default() };
    let scene = picture(&job.order.piece, job.stock, &job.order.wrist, &look);
    vec![PaperContent::Bytes("png", png_of(&scene, USUAL_WIDTH_PX))]
}
