//! Scenes to pixels, by `vello_cpu`. The only file that knows the renderer.
//!
//! Sizes are pixels, views map scene millimetres to pixels with y downward. Colours mix in sRGB with straight alpha, as
//! SVG and PDF do.

use kurbo::{Affine, Point, Rect, Stroke};
use vello_cpu::color::{AlphaColor, DynamicColor, Srgb};
use vello_cpu::peniko::{ColorStop, Gradient, InterpolationAlphaSpace};
use vello_cpu::{Level, Pixmap, RasterizerSettings, RenderContext, RenderMode, RenderSettings, Resources};

use crate::scene::{Group, Paint, Primitive, Scene, Stop, Tint, upright};

/// The longest side of a picture, pixels; more is a mistake and would fill the memory.
const LARGEST_PX: u32 = 16_384;
/// Smaller than this, in pixels both ways, a thing is not seen and not drawn; our choice.
const UNSEEN_PX: f64 = 0.25;
/// Coordinates beyond this are not handed to the renderer, pixels.
const FARTHEST_PX: f64 = 1e7;

/// How carefully pixels are mixed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Finish {
    /// In eight bits, for the screen.
    #[default]
    Quick,
    /// In floating point and the same on every machine, for files and papers: no steps in soft shadows.
    Fine,
}

/// A picture in pixels.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pixels {
    /// Columns.
    pub width: u32,
    /// Rows.
    pub height: u32,
    /// Premultiplied red, green, blue, alpha; row by row from the top.
    pub rgba: Vec<u8>,
}

/// How a scene is seen upright when it is `width_px` wide: the view, the width and the height.
pub fn view_of(scene: &Scene, width_px: u32) -> (Affine, u32, u32) {
    let frame = scene.frame;
    let width = width_px.clamp(1, LARGEST_PX);
    if !frame.is_finite() || frame.width() <= 0.0 || frame.height() <= 0.0 {
        return (upright(), width, width);
    }
    let scale = f64::from(width) / frame.height();
    let height = whole((frame.width() * scale).round());
    (Affine::scale(scale) * Affine::translate((-frame.y0, frame.x1)) * upright(), width, height)
}

/// The largest width at which a scene is seen whole, pixels: a tall one is as wide as lets its height be drawn.
pub fn largest_width_px(scene: &Scene) -> u32 {
    let width = (f64::from(LARGEST_PX) * scene.frame.height() / scene.frame.width()).floor();
    if width.is_finite() { whole(width) } else { LARGEST_PX }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to a small positive range")]
fn whole(px: f64) -> u32 {
    px.clamp(1.0, f64::from(LARGEST_PX)) as u32
}

/// Draws groups, lowest first. A size of nothing gives no pixels, one that is too large is cut.
pub fn raster(groups: &[&Group], view: Affine, width: u32, height: u32, finish: Finish) -> Pixels {
    let (width, height) = (width.min(LARGEST_PX), height.min(LARGEST_PX));
    let (Ok(columns), Ok(rows)) = (u16::try_from(width), u16::try_from(height)) else { return empty() };
    if columns == 0 || rows == 0 {
        return empty();
    }
    let level = match finish {
        Finish::Quick => Level::try_detect().unwrap_or(Level::baseline()),
        Finish::Fine => Level::baseline(),
    };
    let settings = RenderSettings { level, num_threads: 0 };
    let mut context = RenderContext::new_with(columns, rows, settings);
    let seen = Rect::new(0.0, 0.0, f64::from(width), f64::from(height));
    if view.is_finite() {
        for group in groups {
            group.walk(view, &mut |item, here| draw(&mut context, item, here, seen));
        }
    }
    context.flush();
    let mut pixmap = Pixmap::new(columns, rows);
    let mode = match finish {
        Finish::Quick => RenderMode::OptimizeSpeed,
        Finish::Fine => RenderMode::OptimizeQuality,
    };
    let settings = RasterizerSettings { render_mode: mode, ..RasterizerSettings::default() };
    context.render_with(&mut pixmap, &mut Resources::new(), settings);
    Pixels { width, height, rgba: pixmap.data_as_u8_slice().to_vec() }
}

fn empty() -> Pixels {
    Pixels { width: 0, height: 0, rgba: Vec::new() }
}

fn draw(context: &mut RenderContext, item: &Primitive, here: Affine, seen: Rect) {
    let Some(bounds) = rough_bounds(item, here).filter(|b| worth_drawing(*b, seen)) else { return };
    match item {
        Primitive::Group(_) => {}
        Primitive::Fill { path, paint } => {
            set_paint(context, paint);
            context.set_transform(here);
            context.fill_path(path);
        }
        Primitive::Stroke { path, width, paint } => {
            if bounds.width().max(bounds.height()) > 0.0 {
                set_paint(context, paint);
                context.set_transform(here);
                context.set_stroke(Stroke::new(*width));
                context.stroke_path(path);
            }
        }
    }
}

/// A box that surely holds the item: that of its control points.
fn rough_bounds(item: &Primitive, here: Affine) -> Option<Rect> {
    let (path, grow) = match item {
        Primitive::Group(_) => return None,
        Primitive::Fill { path, .. } => (path, 0.0),
        Primitive::Stroke { path, width, .. } => (path, width * here.determinant().abs().sqrt()),
    };
    let mut bounds: Option<Rect> = None;
    let mut include = |p: Point| {
        let p = here * p;
        bounds = Some(bounds.map_or(Rect::from_points(p, p), |b| b.union_pt(p)));
    };
    for element in path.elements() {
        match *element {
            kurbo::PathEl::MoveTo(p) | kurbo::PathEl::LineTo(p) => include(p),
            kurbo::PathEl::QuadTo(a, p) => [a, p].into_iter().for_each(&mut include),
            kurbo::PathEl::CurveTo(a, b, p) => [a, b, p].into_iter().for_each(&mut include),
            kurbo::PathEl::ClosePath => {}
        }
    }
    bounds.map(|b| b.inflate(grow, grow))
}

fn worth_drawing(bounds: Rect, seen: Rect) -> bool {
    let far = [bounds.x0, bounds.y0, bounds.x1, bounds.y1].iter().any(|c| !c.is_finite() || c.abs() > FARTHEST_PX);
    !far && bounds.width().max(bounds.height()) > UNSEEN_PX && bounds.overlaps(seen)
}

fn set_paint(context: &mut RenderContext, paint: &Paint) {
    match paint {
        Paint::Solid(tint) => {
            context.reset_paint_transform();
            context.set_paint(colour(*tint));
        }
        Paint::Linear { from, to, stops } => {
            context.reset_paint_transform();
            context.set_paint(gradient(Gradient::new_linear(*from, *to), stops));
        }
        Paint::Radial { place, stops } => {
            context.set_paint_transform(*place);
            context.set_paint(gradient(Gradient::new_radial(Point::ZERO, 1.0), stops));
        }
    }
}

fn gradient(mut gradient: Gradient, stops: &[Stop]) -> Gradient {
    gradient.interpolation_alpha_space = InterpolationAlphaSpace::Unpremultiplied;
    let stops: Vec<ColorStop> =
        stops.iter().map(|s| ColorStop { offset: narrow(s.at), color: colour_of(s.tint) }).collect();
    gradient.stops = stops.as_slice().into();
    gradient
}

fn colour_of(tint: Tint) -> DynamicColor {
    DynamicColor::from_alpha_color(colour(tint))
}

fn colour(tint: Tint) -> AlphaColor<Srgb> {
    AlphaColor::from_rgb8(tint.rgb.r, tint.rgb.g, tint.rgb.b).with_alpha(narrow(tint.alpha))
}

#[expect(clippy::cast_possible_truncation, reason = "shares between 0 and 1; single precision is plenty")]
fn narrow(share: f64) -> f32 {
    share as f32
}
