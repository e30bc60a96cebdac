//! The letterhead as papers print it, drawn again as it is typed.

use egui::{ColorImage, Context, TextureHandle, TextureOptions};

use crate::app::workers::letterhead_worker::{LetterheadRequest, LetterheadWorker};
use crate::book::Letterhead;
use crate::export::pdf::PaperSize;

/// Width at which the sample is drawn, points; it is shown as wide as there is room.
const WIDE: f32 = 900.0;
/// The most pixels that it is drawn wide, whatever the screen.
const MOST_PX: f32 = 2400.0;

/// What was asked for, and the newest that is drawn.
#[derive(Default)]
pub(crate) struct LetterheadSample {
    worker: Option<LetterheadWorker>,
    asked: Option<(Letterhead, PaperSize)>,
    drawn: Option<TextureHandle>,
}

impl LetterheadSample {
    /// Takes in what is drawn, and asks for what stands there now.
    pub(crate) fn prepare(&mut self, ctx: &Context, letterhead: &Letterhead, paper: PaperSize) {
        let worker = self.worker.get_or_insert_with(|| LetterheadWorker::new(ctx));
        if let Some(image) = worker.poll() {
            self.drawn = Some(textured(ctx, image));
        }
        let is_asked = self.asked.as_ref().is_some_and(|(head, on)| head == letterhead && *on == paper);
        if !is_asked {
            let width_px = (WIDE * ctx.pixels_per_point()).clamp(1.0, MOST_PX);
            let width_px = crate::units::floor_u32(f64::from(width_px));
            worker.request(LetterheadRequest { letterhead: letterhead.clone(), paper, width_px });
            self.asked = Some((letterhead.clone(), paper));
        }
    }

    /// The newest that is drawn.
    pub(crate) fn texture(&self) -> Option<&TextureHandle> {
        self.drawn.as_ref()
    }
}

fn textured(ctx: &Context, image: ColorImage) -> TextureHandle {
    ctx.load_texture("letterhead", image, TextureOptions::LINEAR)
}
