//! Small pictures of blooms for the trays and for the hand, each drawn once.

use std::collections::BTreeMap;
use std::f64::consts::TAU;
use std::sync::Arc;

use egui::{ColorImage, Context, TextureHandle, TextureOptions};
use kurbo::Affine;

use super::points::f32_of;
use crate::colour::Rgb;
use crate::export::{Finish, raster};
use crate::scene::{Openness, bloom, upright};
use crate::stock::{Botanical, StockId};
use crate::units::count_up;

/// Room left round a thumbnail for its shadow, as a share of its size.
const MARGIN: f64 = 1.16;
/// Thumbnails kept; more are drawn anew. Our choice: several trays in several colours.
const MOST: usize = 400;

#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Which {
    stock: StockId,
    colour: Arc<str>,
    pixels: u32,
}

/// The thumbnails.
pub(super) struct Thumbs {
    made: BTreeMap<Which, TextureHandle>,
}

impl Thumbs {
    pub(super) fn new() -> Self {
        Self { made: BTreeMap::new() }
    }

    /// A square picture of a head, `points` wide with its margin, standing upright as on the sheet.
    pub(super) fn of(&mut self, ctx: &Context, what: &Botanical, colour: &Arc<str>, points: f32) -> TextureHandle {
        let pixels = count_up(f64::from((points * ctx.pixels_per_point()).round().clamp(8.0, 1024.0)));
        let which = Which { stock: what.id.clone(), colour: Arc::clone(colour), pixels };
        if self.made.len() > MOST {
            self.made.clear();
        }
        let texture = self.made.entry(which).or_insert_with(|| draw(ctx, what, colour, pixels));
        texture.clone()
    }
}

fn draw(ctx: &Context, what: &Botanical, colour: &str, pixels: u32) -> TextureHandle {
    let rgb = what.colour(colour).map_or(Rgb::hex(0xff_ffff), |c| c.rgb);
    let group = bloom(what.form, 7, what.usual_mm(), what.breadth, rgb, Openness::Open);
    let scale = f64::from(pixels) / (what.usual_mm().max(1.0) * MARGIN);
    let middle = f64::from(pixels) / 2.0;
    let view = Affine::translate((middle, middle)) * Affine::scale(scale) * upright();
    let drawn = raster(&[&group], view, pixels, pixels, Finish::Quick);
    let image = ColorImage::from_rgba_premultiplied([drawn.width as usize, drawn.height as usize], &drawn.rgba);
    ctx.load_texture(format!("{} {colour}", what.id), image, TextureOptions::LINEAR)
}

/// How large a thumbnail must be on screen so that the head in it is `points` across.
pub(super) fn with_margin(points: f32) -> f32 {
    points * f32_of(MARGIN)
}

/// From a turn in the piece to a turn of an upright thumbnail on screen, radians clockwise.
pub(super) fn screen_turn(turn_rad: f64) -> f32 {
    // Upright thumbnails already point up; a positive turn goes from up to the right, which is clockwise.
    f32_of(turn_rad.rem_euclid(TAU))
}
