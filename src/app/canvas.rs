//! The picture on the sheet: one scene, rastered to textures that are kept until the order or the view changes.
//!
//! While parts are dragged three textures stand for the scene (what lies below them, they, what lies above), and only the
//! middle one moves; nothing is rastered until they are let go. While the view changes the last textures are stretched,
//! and drawn anew when it rests.

use egui::{Color32, ColorImage, Context, Painter, Rect, TextureHandle, TextureOptions, pos2, vec2};
use kurbo::{Affine, Vec2};

use super::points::{f32_of, pos};
use crate::export::{Finish, raster};
use crate::history::Revision;
use crate::piece::PartId;
use crate::scene::{Group, Key, Scene};
use crate::sheet::View;
use crate::units::count_up;

/// The view must rest this long before it is drawn anew, seconds.
const REST_S: f64 = 0.12;

/// What textures were made of.
#[derive(Clone, Debug, PartialEq)]
struct Made {
    revision: Revision,
    lifted: Vec<PartId>,
    pixels_per_point: f32,
    client_side: bool,
}

struct Layer {
    texture: TextureHandle,
    moves: bool,
}

/// The textures of the sheet.
pub(super) struct Canvas {
    made: Option<Made>,
    view: View,
    layers: Vec<Layer>,
    changed_at: f64,
}

/// What the sheet is to show now.
pub(super) struct Wanted<'a> {
    pub(super) revision: Revision,
    pub(super) view: View,
    pub(super) client_side: bool,
    /// Parts that are being dragged, and how far from where they were, mm.
    pub(super) lifted: &'a [PartId],
    pub(super) by: Vec2,
}

impl Canvas {
    pub(super) fn new() -> Self {
        Self { made: None, view: View::new(), layers: Vec::new(), changed_at: f64::NEG_INFINITY }
    }

    /// Paints what is wanted; `scene` is asked for only when something must be drawn anew.
    pub(super) fn paint(&mut self, painter: &Painter, wanted: &Wanted<'_>, scene: impl FnOnce() -> Scene) {
        let ctx = painter.ctx();
        let made = Made {
            revision: wanted.revision,
            lifted: wanted.lifted.to_vec(),
            pixels_per_point: ctx.pixels_per_point(),
            client_side: wanted.client_side,
        };
        let now = ctx.input(|i| i.time);
        let same = self.made.as_ref() == Some(&made);
        let moved = self.view != wanted.view;
        let stretched = same && moved;
        if moved && !same {
            self.changed_at = f64::NEG_INFINITY;
        }
        if stretched && self.changed_at == f64::NEG_INFINITY {
            self.changed_at = now;
        }
        if !same || (stretched && now - self.changed_at >= REST_S) {
            self.draw(ctx, made, wanted, &scene());
        } else if stretched {
            ctx.request_repaint_after_secs(f32_of(REST_S));
        }
        self.show(painter, wanted);
    }

    /// The view went on changing: the rest begins anew.
    pub(super) fn view_changed(&mut self, ctx: &Context) {
        self.changed_at = ctx.input(|i| i.time);
    }

    fn draw(&mut self, ctx: &Context, made: Made, wanted: &Wanted<'_>, scene: &Scene) {
        let points = wanted.view.area;
        let ppp = f64::from(made.pixels_per_point);
        let (width, height) = (count_up((points.width() * ppp).round()), count_up((points.height() * ppp).round()));
        let pixels_from_screen = Affine::scale(ppp) * Affine::translate(-points.origin().to_vec2());
        let view = pixels_from_screen * wanted.view.screen_from_piece();
        self.layers = split(&scene.groups, &made.lifted)
            .into_iter()
            .enumerate()
            .filter(|(_, (groups, _))| !groups.is_empty())
            .map(|(n, (groups, moves))| {
                let drawn = raster(&groups, view, width.max(1), height.max(1), Finish::Quick);
                let size = [drawn.width as usize, drawn.height as usize];
                let image = ColorImage::from_rgba_premultiplied(size, &drawn.rgba);
                Layer { texture: ctx.load_texture(format!("sheet {n}"), image, TextureOptions::LINEAR), moves }
            })
            .collect();
        self.made = Some(made);
        self.view = wanted.view;
        self.changed_at = f64::NEG_INFINITY;
    }

    fn show(&self, painter: &Painter, wanted: &Wanted<'_>) {
        let whole = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
        for layer in &self.layers {
            let by = if layer.moves { wanted.by } else { Vec2::ZERO };
            painter.image(layer.texture.id(), self.place(&wanted.view, by), whole, Color32::WHITE);
        }
    }

    /// Where a texture made for the old view lies in the present one, its content moved by `by`, mm.
    fn place(&self, now: &View, by: Vec2) -> Rect {
        let old = self.view.area;
        let corner = |x: f64, y: f64| pos(now.to_screen(self.view.to_piece(kurbo::Point::new(x, y)) + by));
        let rect = Rect::from_two_pos(corner(old.x0, old.y0), corner(old.x1, old.y1));
        if *now == self.view && by == Vec2::ZERO {
            Rect::from_min_size(pos(old.origin()), vec2(f32_of(old.width()), f32_of(old.height())))
        } else {
            rect
        }
    }
}

/// Groups below the lifted parts, the lifted parts, and the groups above; all in one when nothing is lifted.
fn split<'a>(groups: &'a [Group], lifted: &[PartId]) -> Vec<(Vec<&'a Group>, bool)> {
    let is_lifted = |g: &Group| matches!(g.key, Key::Part(id) if lifted.contains(&id));
    let Some(first) = groups.iter().position(is_lifted) else {
        return vec![(groups.iter().collect(), false)];
    };
    let below = groups[..first].iter().collect();
    let held = groups.iter().filter(|g| is_lifted(g)).collect();
    let above = groups[first..].iter().filter(|g| !is_lifted(g)).collect();
    vec![(below, false), (held, true), (above, false)]
}
