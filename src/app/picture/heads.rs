//! Small pictures of heads for the trays and for the hand, each drawn once.

use std::collections::BTreeMap;
use std::f64::consts::TAU;
use std::sync::Arc;

use std::sync::mpsc::Receiver;

use egui::emath::GuiRounding as _;
use egui::{Color32, ColorImage, Context, Painter, Rect, TextureHandle, TextureOptions, Vec2, pos2};
use kurbo::Affine;

use crate::app::view::Good;
use crate::app::widgets::points::f32_of;
use crate::colour::Rgb;
use crate::export::{Finish, Pixels, raster};
use crate::scene::{Openness, bloom, upright};
use crate::stock::StockId;
use crate::units::ceil_u32;

/// Room left round a thumbnail for its shadow, as a share of its size.
const MARGIN: f64 = 1.36;
/// Thumbnails kept; more are drawn anew. Our choice: several trays in several colours.
const MOST: usize = 400;

/// Of what a thumbnail is.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct HeadKey {
    stock: StockId,
    colour: Arc<str>,
    pixels: u32,
}

impl HeadKey {
    pub(crate) fn new(stock: &StockId, colour: &Arc<str>, points: f32, pixels_per_point: f32) -> Self {
        let pixels = ceil_u32(f64::from((points * pixels_per_point).round().clamp(8.0, 1024.0)));
        Self { stock: stock.clone(), colour: Arc::clone(colour), pixels }
    }
}

/// The thumbnails.
pub(crate) struct HeadImages {
    made: BTreeMap<HeadKey, TextureHandle>,
    /// Those that were begun before there was a window.
    ahead: Option<Receiver<(HeadKey, Pixels)>>,
}

impl HeadImages {
    pub(crate) fn new() -> Self {
        Self { made: BTreeMap::new(), ahead: None }
    }

    /// Some are being drawn already: the first that is asked for waits until they are.
    pub(crate) fn expect(&mut self, ahead: Receiver<(HeadKey, Pixels)>) {
        self.ahead = Some(ahead);
    }

    /// What is drawn may look otherwise now.
    pub(crate) fn forget(&mut self) {
        self.made.clear();
        self.ahead = None;
    }

    /// Whether it has been drawn.
    #[cfg(test)]
    pub(crate) fn has(&self, which: &HeadKey) -> bool {
        self.made.contains_key(which)
    }

    /// Paints a head that fills `place`; its shadow falls beyond.
    pub(crate) fn paint(&mut self, painter: &Painter, place: Rect, what: &Good, colour: &Arc<str>) {
        let points = with_margin(place.width());
        let texture = self.of(painter.ctx(), what, colour, points);
        let whole = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
        let picture = Rect::from_center_size(place.center(), Vec2::splat(points));
        painter.image(texture.id(), picture.round_to_pixels(painter.pixels_per_point()), whole, Color32::WHITE);
    }

    /// A square picture of a head, `points` wide with its margin, standing upright as on the sheet.
    pub(crate) fn of(&mut self, ctx: &Context, what: &Good, colour: &Arc<str>, points: f32) -> TextureHandle {
        for (which, pixels) in self.ahead.take().into_iter().flatten() {
            let texture = load(ctx, &which, &pixels);
            self.made.insert(which, texture);
        }
        let which = HeadKey::new(&what.id, colour, points, ctx.pixels_per_point());
        if self.made.len() > MOST {
            self.made.clear();
        }
        if let Some(texture) = self.made.get(&which) {
            return texture.clone();
        }
        let texture = load(ctx, &which, &drawn(what, &which));
        self.made.insert(which, texture.clone());
        texture
    }
}

/// The picture of a head.
pub(crate) fn drawn(what: &Good, which: &HeadKey) -> Pixels {
    let pixels = which.pixels;
    let rgb = what.rgb(&which.colour).unwrap_or(Rgb::hex(0xff_ffff));
    let group = bloom(what.form, 7, what.usual_mm, what.breadth, rgb, Openness::Open);
    let scale = f64::from(pixels) / (what.usual_mm.max(1.0) * MARGIN);
    let middle = f64::from(pixels) / 2.0;
    let view = Affine::translate((middle, middle)) * Affine::scale(scale) * upright();
    raster(&[&group], view, pixels, pixels, Finish::Quick)
}

fn load(ctx: &Context, which: &HeadKey, drawn: &Pixels) -> TextureHandle {
    let image = ColorImage::from_rgba_premultiplied([drawn.width as usize, drawn.height as usize], &drawn.rgba);
    ctx.load_texture(format!("{} {}", which.stock, which.colour), image, TextureOptions::LINEAR)
}

/// How large a thumbnail must be on screen so that the head in it is `points` across: whole points, so that it stays crisp.
pub(crate) fn with_margin(points: f32) -> f32 {
    (points * f32_of(MARGIN)).round()
}

/// From a turn in the piece to a turn of an upright thumbnail on screen, radians clockwise.
pub(crate) fn screen_turn(turn_rad: f64) -> f32 {
    // Upright thumbnails already point up; a positive turn goes from up to the right, which is clockwise.
    f32_of(turn_rad.rem_euclid(TAU))
}
