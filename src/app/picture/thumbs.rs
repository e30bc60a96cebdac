//! Small pictures of saved orders, each drawn once for each writing of its file, beside the window.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::SystemTime;

use egui::{Color32, ColorImage, Context, Painter, Rect, TextureHandle, TextureOptions, Vec2, pos2};

use crate::app::workers::thumb_worker::{ThumbRequest, ThumbWorker};
use crate::export::Pixels;
use crate::stock::Stock;

/// Pictures kept; more are drawn anew. Our choice: far more than any window shows at once.
const MOST: usize = 300;
/// Width of a picture, points.
const WIDE: f32 = 50.0;

/// Of which writing of which file.
type ThumbKey = (PathBuf, SystemTime);

/// The pictures.
#[derive(Default)]
pub(crate) struct Thumbs {
    worker: Option<ThumbWorker>,
    /// None where there is none: an order that cannot be read.
    made: BTreeMap<ThumbKey, Option<TextureHandle>>,
    asked: Vec<ThumbKey>,
}

impl Thumbs {
    /// The orders in sight: those not drawn yet are drawn next, whatever was asked for before.
    pub(crate) fn want(&mut self, ctx: &Context, seen: Vec<ThumbKey>, stock: &Arc<Stock>) {
        self.take_drawn(ctx);
        if self.made.len() > MOST {
            self.made.retain(|key, _| seen.contains(key));
        }
        let missing: Vec<ThumbKey> = seen.into_iter().filter(|key| !self.made.contains_key(key)).collect();
        if missing.is_empty() || missing.iter().all(|key| self.asked.contains(key)) {
            return;
        }
        self.asked.clone_from(&missing);
        let width_px = pixels(WIDE * ctx.pixels_per_point());
        let request = ThumbRequest { orders: missing, width_px, stock: Arc::clone(stock) };
        self.worker.get_or_insert_with(|| ThumbWorker::new(ctx)).request(request);
    }

    /// Paints the picture of an order in the middle of `place`, as far as it has been drawn.
    pub(crate) fn paint(&self, painter: &Painter, place: Rect, path: &Path, modified: SystemTime) {
        let Some(Some(texture)) = self.made.get(&(path.to_owned(), modified)) else { return };
        let size = texture.size_vec2();
        let scale = (place.width() / size.x).min(place.height() / size.y);
        let picture = Rect::from_center_size(place.center(), size * scale);
        let whole = Rect::from_min_size(pos2(0.0, 0.0), Vec2::splat(1.0));
        painter.image(texture.id(), picture, whole, Color32::WHITE);
    }

    fn take_drawn(&mut self, ctx: &Context) {
        let drawn = self.worker.as_mut().map(ThumbWorker::poll).unwrap_or_default();
        for (key, pixels) in drawn {
            self.made.insert(key, pixels.map(|pixels| load(ctx, &pixels)));
        }
    }
}

fn load(ctx: &Context, pixels: &Pixels) -> TextureHandle {
    let size = [pixels.width as usize, pixels.height as usize];
    let image = ColorImage::from_rgba_premultiplied(size, &pixels.rgba);
    ctx.load_texture("order", image, TextureOptions::LINEAR)
}

fn pixels(points: f32) -> u32 {
    crate::units::ceil_u32(f64::from(points.clamp(16.0, 512.0)))
}
