//! Photographs the piece in the round, beside the window: a small first look, and then the fine one. The newest that was asked for.

use std::sync::Arc;

use egui::Context;

use crate::app::workers::worker::{JobReporter, Worker, WorkerEvent, WorkerPolicy};
use crate::colour::Rgb;
use crate::export::{PHOTO_SHAPE, photograph_file, photograph_size};
use crate::light::{PhotoProgress, Photograph, Quality, ReadyScene};
use crate::model::{Detail, Shot, Viewpoint};
use crate::piece::{Piece, Skin, Wrist};
use crate::stock::Stock;

/// The first look is so much narrower, and has so many paths of light a pixel.
const FIRST_NARROWER: u32 = 3;
const FIRST_SAMPLES: u32 = 2;
const FINE_SAMPLES: u32 = 5;

/// What is to be photographed.
pub(crate) struct PhotographRequest {
    pub(crate) piece: Piece,
    pub(crate) stock: Arc<Stock>,
    pub(crate) wrist: Wrist,
    pub(crate) skin: Skin,
    pub(crate) cloth: Option<Rgb>,
    pub(crate) from: Viewpoint,
    pub(crate) width_px: u32,
    /// Tells how far the fine one has come, and stops both.
    pub(crate) progress: Arc<PhotoProgress>,
}

/// A photograph that was taken.
pub(crate) struct TakenPhotograph {
    pub(crate) photograph: Photograph,
    /// The file of the fine one.
    pub(crate) png: Option<Arc<Vec<u8>>>,
}

/// Takes the newest photograph that was asked for.
pub(crate) struct PhotographWorker(Worker<PhotographRequest, TakenPhotograph>);

impl PhotographWorker {
    pub(crate) fn new(ctx: &Context) -> Self {
        Self(Worker::new("photograph", ctx, WorkerPolicy::NewestOnly, || take))
    }

    pub(crate) fn request(&mut self, request: PhotographRequest) {
        self.0.cancel();
        self.0.request(request);
    }

    /// The newest that was taken since it was last asked; `Err` if none can be.
    pub(crate) fn poll(&mut self) -> Option<Result<TakenPhotograph, ()>> {
        let heard = self.0.poll().into_iter().filter_map(|event| match event {
            WorkerEvent::Reported(_, taken) => Some(Ok(taken)),
            WorkerEvent::Failed(_) => Some(Err(())),
            WorkerEvent::Progress(..) => None,
        });
        heard.last()
    }
}

fn take(request: PhotographRequest, reporter: &JobReporter<TakenPhotograph>) {
    let PhotographRequest { piece, stock, wrist, skin, cloth, from, width_px, progress } = request;
    let shot = Shot { piece: &piece, stock: &stock, wrist: &wrist, skin, cloth, from };
    let camera = shot.camera(PHOTO_SHAPE);
    let photograph = |detail, width_px: u32, samples, progress: &PhotoProgress| {
        let [width_px, height_px] = photograph_size(width_px);
        ReadyScene::new(&shot.scene(detail)).photograph(&camera, &Quality { width_px, height_px, samples }, progress)
    };
    let first = photograph(Detail::Draft, width_px / FIRST_NARROWER, FIRST_SAMPLES, &PhotoProgress::default());
    if let Some(photograph) = first {
        reporter.report(TakenPhotograph { photograph, png: None });
    }
    if reporter.is_overtaken() || progress.is_stopped() {
        return;
    }
    if let Some(photograph) = photograph(Detail::Full, width_px, FINE_SAMPLES, &progress) {
        let png = Some(Arc::new(photograph_file(&photograph, &camera)));
        reporter.report(TakenPhotograph { photograph, png });
    }
}
