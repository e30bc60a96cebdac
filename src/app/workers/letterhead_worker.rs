//! Draws the letterhead as it stands on a paper, so that no letter that is typed waits for it. What was asked last is drawn.

use egui::{ColorImage, Context};

use crate::app::workers::worker::{JobReporter, Worker, WorkerEvent, WorkerPolicy};
use crate::book::Letterhead;
use crate::export::pdf::{PaperSize, letterhead_sample};

/// A letterhead to be drawn.
pub(crate) struct LetterheadRequest {
    pub(crate) letterhead: Letterhead,
    pub(crate) paper: PaperSize,
    pub(crate) width_px: u32,
}

/// Draws what was asked last.
pub(crate) struct LetterheadWorker(Worker<LetterheadRequest, ColorImage>);

impl LetterheadWorker {
    pub(crate) fn new(ctx: &Context) -> Self {
        Self(Worker::new("letterhead", ctx, WorkerPolicy::NewestOnly, || {
            |request: LetterheadRequest, reporter: &JobReporter<ColorImage>| reporter.report(drawn(&request))
        }))
    }

    pub(crate) fn request(&mut self, request: LetterheadRequest) {
        self.0.request(request);
    }

    /// The newest that is drawn since it was last asked.
    pub(crate) fn poll(&mut self) -> Option<ColorImage> {
        self.0.poll().into_iter().rev().find_map(|event| match event {
            WorkerEvent::Reported(_, image) => Some(image),
            // The one before stays; the next letter asks again.
            WorkerEvent::Progress(..) | WorkerEvent::Failed(_) => None,
        })
    }
}

fn drawn(request: &LetterheadRequest) -> ColorImage {
    let pixels = letterhead_sample(&request.letterhead, request.paper, request.width_px);
    ColorImage::from_rgba_premultiplied([pixels.width as usize, pixels.height as usize], &pixels.rgba)
}
