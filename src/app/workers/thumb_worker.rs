//! Draws small pictures of saved orders, so that no frame waits for them: those in sight, the newest wish only.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::SystemTime;

use egui::Context;

use crate::app::workers::worker::{JobReporter, Worker, WorkerEvent, WorkerPolicy};
use crate::export::{Finish, Pixels, raster, view_of};
use crate::scene::{Ground, Group, PictureOptions, picture};
use crate::stock::Stock;
use crate::store::read_order;

/// Pictures to be drawn.
pub(crate) struct ThumbRequest {
    /// The files of the orders, and when each was last changed.
    pub(crate) orders: Vec<(PathBuf, SystemTime)>,
    pub(crate) width_px: u32,
    pub(crate) stock: Arc<Stock>,
}

/// A picture of one writing of a file; none where it cannot be read.
type Thumb = ((PathBuf, SystemTime), Option<Pixels>);

/// Draws the pictures that were asked for last.
pub(crate) struct ThumbWorker(Worker<ThumbRequest, Thumb>);

impl ThumbWorker {
    pub(crate) fn new(ctx: &Context) -> Self {
        Self(Worker::new("thumbnails", ctx, WorkerPolicy::NewestOnly, || draw_all))
    }

    pub(crate) fn request(&mut self, request: ThumbRequest) {
        self.0.request(request);
    }

    /// What has been drawn since it was last asked.
    pub(crate) fn poll(&mut self) -> Vec<Thumb> {
        let drawn = self.0.poll().into_iter().filter_map(|event| match event {
            WorkerEvent::Reported(_, thumb) => Some(thumb),
            // A picture that breaks off stays empty until its order is seen again.
            WorkerEvent::Failed(_) | WorkerEvent::Progress(..) => None,
        });
        drawn.collect()
    }
}

fn draw_all(request: ThumbRequest, reporter: &JobReporter<Thumb>) {
    for (path, modified) in request.orders {
        if reporter.is_overtaken() {
            return;
        }
        let pixels = draw(&path, request.width_px, &request.stock);
        reporter.report(((path, modified), pixels));
    }
}

/// The piece alone, without arm and ground.
fn draw(path: &Path, width_px: u32, stock: &Stock) -> Option<Pixels> {
    let order = read_order(path, stock).ok()?.order;
    let look = PictureOptions { arm: false, ground: Ground::Clear, ..PictureOptions::default() };
    let scene = picture(&order.piece, stock, &order.wrist, &look);
    let (view, width, height) = view_of(&scene, width_px);
    let groups: Vec<&Group> = scene.groups.iter().collect();
    Some(raster(&groups, view, width, height, Finish::Quick))
}
