//! The picture on the sheet: textures that are shown until newer ones have been drawn.
//!
//! Drawing is done by the [`crate::app::workers::picture_worker`]; only the very first picture of an order is drawn within its frame (or
//! [`crate::app::preload`] of it), and refined like all others. While parts are dragged three textures stand for the scene (what lies below them, they, what lies
//! above), and only the middle one moves; they are asked for when the pointer goes down. While the view changes the last
//! textures are stretched, and drawn anew, at the pixels of the screen, when it rests or has gone far.

use std::sync::mpsc::Receiver;

use egui::{Color32, ColorImage, Context, Painter, Rect, TextureHandle, TextureOptions, pos2};
use kurbo::Vec2;

use crate::app::widgets::points::{f32_of, pos};
use crate::app::workers::picture_worker::{
    FirstFinish, PictureEvent, PictureLayer, PictureRequest, PictureWorker, SceneMaker, layers, see_through,
};
use crate::app::workers::worker::WorkerTicket;
use crate::colour::{Rgb, Vision};
use crate::export::Finish;
use crate::history::Revision;
use crate::piece::PartId;
use crate::scene::Skin;
use crate::sheet::View;

/// The view must rest this long before it is drawn anew, seconds.
const REST_S: f64 = 0.1;
/// A view that shows less than this share of what was drawn is drawn anew without waiting for rest.
const NEAR: f64 = 0.7;

/// What a picture is made of, the view left out.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct PictureSubject {
    pub(crate) revision: Revision,
    /// Parts that can move by themselves.
    pub(crate) lifted: Vec<PartId>,
    pub(crate) skin: Skin,
    pub(crate) dress: Option<Rgb>,
    /// Through which eyes it is seen.
    pub(crate) eyes: Option<Vision>,
}

impl PictureSubject {
    /// Whether a picture of this is a picture of `other` too: layers that lie where they were drawn are a whole picture.
    fn shows(&self, other: &Self) -> bool {
        let whole = Self { lifted: Vec::new(), ..self.clone() };
        self == other || whole == *other
    }
}

/// Of what a picture was asked for.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Made {
    pub(crate) subject: PictureSubject,
    pub(crate) view: View,
    pub(crate) pixels_per_point: f32,
}

struct LayerTexture {
    texture: TextureHandle,
    place: kurbo::Rect,
    moves: bool,
}

/// The textures of the sheet.
pub(crate) struct Canvas {
    worker: Option<PictureWorker>,
    /// A first picture that was begun before there was a window.
    ahead: Option<Receiver<(Made, Vec<PictureLayer>)>>,
    /// Whether the first picture may take its time.
    patient: bool,
    shown: Option<(Made, Vec<LayerTexture>)>,
    asked: Option<(WorkerTicket, Made)>,
    /// Whether the last picture that was asked for could not be drawn, and nobody has been told yet.
    failed: bool,
    seen: View,
    changed_at: f64,
    /// How far the moving layer lies from where it was drawn, mm: kept until the parts have been drawn in their new place.
    by: Vec2,
}

impl Canvas {
    pub(crate) fn new() -> Self {
        Self {
            worker: None,
            ahead: None,
            patient: false,
            shown: None,
            asked: None,
            failed: false,
            seen: View::new(),
            changed_at: f64::NEG_INFINITY,
            by: Vec2::ZERO,
        }
    }

    /// The first picture is being drawn already.
    pub(crate) fn expect(&mut self, ahead: Receiver<(Made, Vec<PictureLayer>)>) {
        self.ahead = Some(ahead);
    }

    /// One whose first picture comes a moment after its frame.
    pub(crate) fn patient() -> Self {
        Self { patient: true, ..Self::new() }
    }

    /// Another order: nothing of the one before is shown while the new one is drawn.
    pub(crate) fn clear(&mut self) {
        self.shown = None;
        self.ahead = None;
        self.asked = None;
    }

    /// Paints `subject` as `view` shows it, what is lifted moved by `by`, mm; `scene` is asked for only when something must
    /// be drawn anew.
    pub(crate) fn paint(
        &mut self,
        painter: &Painter,
        subject: PictureSubject,
        view: View,
        by: Vec2,
        scene: impl Fn() -> SceneMaker,
    ) {
        let ctx = painter.ctx();
        self.take_drawn(ctx);
        let wanted = Made { subject, view, pixels_per_point: ctx.pixels_per_point() };
        if self.shown.is_none() && !self.patient {
            self.begin(ctx, &wanted, &scene);
        } else if self.is_time_for(ctx, &wanted) {
            self.ask(ctx, wanted.clone(), scene(), FirstFinish::Quick);
        }
        self.show(painter, &wanted, by);
    }

    /// The very first picture: there must be one in this frame, and a fine one as soon as can be.
    fn begin(&mut self, ctx: &Context, wanted: &Made, scene: &impl Fn() -> SceneMaker) {
        let ahead = self.ahead.take().and_then(|drawn| drawn.recv().ok());
        let mut first = FirstFinish::Fine;
        if let Some((made, drawn)) = ahead.filter(|(made, _)| made.subject.shows(&wanted.subject)) {
            if made != *wanted {
                first = FirstFinish::Quick;
            }
            self.load_textures(ctx, made, drawn);
        } else {
            self.draw_now(ctx, wanted.clone(), scene());
        }
        if wanted.subject.lifted.is_empty() {
            self.ask(ctx, wanted.clone(), scene(), first);
        }
    }

    /// Whether the picture must be drawn, and drawn now.
    fn is_time_for(&mut self, ctx: &Context, wanted: &Made) -> bool {
        let now = ctx.input(|i| i.time);
        if self.seen != wanted.view {
            self.seen = wanted.view;
            self.changed_at = now;
        }
        let newest = self.asked.as_ref().map(|(_, made)| made).or(self.shown.as_ref().map(|(made, _)| made));
        let Some(newest) = newest else { return true };
        let other = !newest.subject.shows(&wanted.subject) || newest.pixels_per_point != wanted.pixels_per_point;
        let rested = now - self.changed_at;
        if other || newest.view == wanted.view {
            return other;
        }
        if rested >= REST_S || !is_near(&newest.view, &wanted.view) {
            return true;
        }
        ctx.request_repaint_after_secs(f32_of(REST_S - rested));
        false
    }

    /// Draws it within this frame, quick.
    fn draw_now(&mut self, ctx: &Context, made: Made, scene: SceneMaker) {
        let mut drawn = layers(&scene(), &made.view, made.pixels_per_point, &made.subject.lifted, Finish::Quick);
        see_through(made.subject.eyes, &mut drawn);
        self.load_textures(ctx, made, drawn);
    }

    fn ask(&mut self, ctx: &Context, made: Made, scene: SceneMaker, first: FirstFinish) {
        let request = PictureRequest {
            scene,
            first,
            view: made.view,
            pixels_per_point: made.pixels_per_point,
            lifted: made.subject.lifted.clone(),
            eyes: made.subject.eyes,
        };
        let ticket = self.worker.get_or_insert_with(|| PictureWorker::new(ctx)).request(request);
        self.asked = Some((ticket, made));
    }

    /// Shows what has been drawn since the last frame, unless something newer is on its way.
    fn take_drawn(&mut self, ctx: &Context) {
        match self.worker.as_mut().and_then(PictureWorker::poll) {
            Some(PictureEvent::Drawn(ticket, layers)) => {
                if let Some((_, made)) = self.asked.clone().filter(|(asked, _)| *asked == ticket) {
                    self.load_textures(ctx, made, layers);
                }
            }
            // It is not asked for again before something changes: it would break off again.
            Some(PictureEvent::Failed) => self.failed = true,
            None => {}
        }
    }

    /// Whether a picture could not be drawn since this was last asked.
    pub(crate) fn take_failure(&mut self) -> bool {
        std::mem::take(&mut self.failed)
    }

    fn load_textures(&mut self, ctx: &Context, made: Made, drawn: Vec<PictureLayer>) {
        let textures = drawn.into_iter().enumerate().map(|(n, layer)| {
            let PictureLayer { pixels, place, moves } = layer;
            let image =
                ColorImage::from_rgba_premultiplied([pixels.width as usize, pixels.height as usize], &pixels.rgba);
            LayerTexture {
                texture: ctx.load_texture(format!("sheet {n}"), image, TextureOptions::LINEAR),
                place,
                moves,
            }
        });
        self.shown = Some((made, textures.collect()));
    }

    fn show(&mut self, painter: &Painter, wanted: &Made, by: Vec2) {
        let whole = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
        let Some((made, sheets)) = &self.shown else { return };
        if made.subject.lifted == wanted.subject.lifted {
            self.by = by;
        } else if made.subject.revision == wanted.subject.revision {
            self.by = Vec2::ZERO;
        }
        for sheet in sheets {
            let by = if sheet.moves { self.by } else { Vec2::ZERO };
            painter.image(sheet.texture.id(), place(made, wanted, sheet.place, by), whole, Color32::WHITE);
        }
    }
}

/// Where a texture that lay at `drawn` in the view it was made for lies in another, its content moved by `by`, mm. At one
/// scale it lies on whole pixels, so that nothing is blurred.
fn place(made: &Made, wanted: &Made, drawn: kurbo::Rect, by: Vec2) -> Rect {
    let (old, now) = (&made.view, &wanted.view);
    let corner = |at: kurbo::Point| now.to_screen(old.to_piece(at) + by);
    let (from, to) = (corner(drawn.origin()), corner(kurbo::Point::new(drawn.x1, drawn.y1)));
    if old.scale != now.scale || made.pixels_per_point != wanted.pixels_per_point {
        return Rect::from_two_pos(pos(from), pos(to));
    }
    let per_point = f64::from(wanted.pixels_per_point);
    let on_pixel = |points: f64| (points * per_point).round() / per_point;
    let from = kurbo::Point::new(on_pixel(from.x), on_pixel(from.y));
    Rect::from_min_max(pos(from), pos(from + (drawn.size().to_vec2())))
}

/// Whether most of what `now` shows was drawn for `old`, at about its scale.
fn is_near(old: &View, now: &View) -> bool {
    let shown = |view: &View| {
        let (a, b) = (view.area.origin(), kurbo::Point::new(view.area.x1, view.area.y1));
        kurbo::Rect::from_points(view.to_piece(a), view.to_piece(b))
    };
    let (old, now) = (shown(old), shown(now));
    old.intersect(now).area() >= NEAR * old.area().max(now.area())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn view(scale: f64) -> View {
        View { area: kurbo::Rect::new(84.0, 64.0, 1034.0, 528.0), scale, ..View::new() }
    }

    #[test]
    fn a_view_that_went_far_is_not_near() {
        let mut moved = view(4.0);
        assert!(is_near(&view(4.0), &moved));
        moved.pan(Vec2::new(40.0, 0.0));
        assert!(is_near(&view(4.0), &moved));
        moved.pan(Vec2::new(400.0, 0.0));
        assert!(!is_near(&view(4.0), &moved));
        assert!(!is_near(&view(4.0), &view(6.0)));
    }

    #[test]
    fn what_is_dragged_lies_on_whole_pixels() {
        let subject = PictureSubject {
            revision: crate::history::History::new(0).revision(),
            lifted: Vec::new(),
            skin: Skin::Plain,
            dress: None,
            eyes: None,
        };
        let made = Made { subject, view: view(4.1), pixels_per_point: 1.0 };
        let at = place(&made, &made, made.view.area, Vec2::new(1.03, -2.77));
        assert_eq!((at.min.x.fract(), at.min.y.fract(), at.width(), at.height()), (0.0, 0.0, 950.0, 464.0));
        assert!((at.min.x - (84.0 - 2.77 * 4.1)).abs() < 0.51, "{at:?}");
    }
}
