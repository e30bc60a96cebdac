//! The picture of a piece within a box on a sheet.

use kurbo::{Affine, Point, Rect, Shape as _, Vec2};

use super::sheet::{Align, HAIR, PaperSheet, Pattern, SOFT};
use super::words;
use crate::book::Order;
use crate::export::lettering::Face;
use crate::export::paper_kind::PaperJob;
use crate::geometry::{Shape, extents};
use crate::piece::{Piece, STEM_MM, STEM_WIDTH_MM};
use crate::scene::{Ground, PictureOptions, Scene, as_shown, picture, upright};
use crate::stock::Stock;

/// Room left about the piece alone, mm.
const ROOM_MM: f64 = 6.0;

/// Between a wrist piece and its boutonniere, mm on paper.
const BETWEEN_MM: f64 = 4.0;
/// Size of the word over the boutonniere, mm.
const LABEL_MM: f64 = 3.4;

/// The piece on its wrist, as the client saw it.
fn shown(job: &PaperJob<'_>) -> Scene {
    as_shown(&job.order.piece, job.order, job.stock, &job.style.prices.currency.sign)
}

/// The piece on its wrist, as large as `within` allows and at its left. Gives the box that is taken up, and how many
/// millimetres of paper one of the piece is.
pub(super) fn worn(sheet: &mut PaperSheet, job: &PaperJob<'_>, within: Rect) -> (Rect, f64) {
    let scene = shown(job);
    let wide = scene.frame.height();
    let taken = put(sheet, scene, within, Align::Left);
    edged(sheet, taken);
    (taken, taken.width() / wide)
}

/// A line about a picture, with corners as square as its own: cloth would show beyond round ones.
fn edged(sheet: &mut PaperSheet, taken: Rect) {
    sheet.line(taken.to_path(0.1), 0.3, HAIR, Pattern::Whole);
}

/// The boutonniere that goes with it, at the foot of `within` at this scale. Tells whether there was room for it; for none
/// there is.
pub(super) fn boutonniere(sheet: &mut PaperSheet, job: &PaperJob<'_>, scale: f64, within: Rect) -> bool {
    let Some(scene) = boutonniere_scene(job) else { return true };
    let (wide, high) = (scene.frame.height() * scale, scene.frame.width() * scale);
    let has_room = wide <= within.width() && high + LABEL_MM * 2.0 <= within.height();
    if has_room {
        labelled(sheet, scene, Rect::new(within.x0, within.y1 - high, within.x0 + wide, within.y1));
    }
    has_room
}

/// Wrist piece and boutonniere beside each other at one scale, their feet on one line, at the left of `within`; the wrist
/// piece alone where nothing goes with it. Gives the box that is taken up.
pub(super) fn pair(sheet: &mut PaperSheet, job: &PaperJob<'_>, within: Rect) -> Rect {
    let Some(his) = boutonniere_scene(job) else {
        return worn(sheet, job, within).0;
    };
    let hers = shown(job);
    let scale = (within.width() - BETWEEN_MM) / (hers.frame.height() + his.frame.height());
    let scale = scale.min(within.height() / hers.frame.width().max(his.frame.width())).max(0.0);
    let (wide, high) = (hers.frame.height() * scale, hers.frame.width() * scale);
    let taken = put(sheet, hers, Rect::from_origin_size(within.origin(), (wide, high)), Align::Left);
    edged(sheet, taken);
    let (wide, high) = (his.frame.height() * scale, his.frame.width() * scale);
    let corner = Point::new(taken.x1 + BETWEEN_MM, taken.y1 - high);
    labelled(sheet, his, Rect::from_origin_size(corner, (wide, high)));
    Rect { x1: taken.x1 + BETWEEN_MM + wide, ..taken }
}

/// The boutonniere as large as `within` allows, framed, with its word above it.
fn labelled(sheet: &mut PaperSheet, scene: Scene, within: Rect) {
    let taken = put(sheet, scene, within, Align::Left);
    edged(sheet, taken);
    let at = Point::new(taken.x0, taken.y0 - LABEL_MM * 0.5);
    sheet.tinted(words::BOUTONNIERE_WORD, Face::Text, LABEL_MM, at, Align::Left, SOFT);
}

/// The boutonniere on paper: it is not worn on her dress.
fn boutonniere_scene(job: &PaperJob<'_>) -> Option<Scene> {
    let piece = job.order.partner_piece.as_ref()?;
    let options = PictureOptions { frame: Some(reach_of(piece, job.stock, Tails::Shown)), ..PictureOptions::default() };
    Some(picture(piece, job.stock, &job.order.wrist, &options))
}

/// The piece without the arm, on bare paper: larger, and it takes little ink. Gives the box that is taken up.
pub(super) fn alone(sheet: &mut PaperSheet, job: &PaperJob<'_>, within: Rect) -> Rect {
    bare(sheet, job.order, job.stock, within)
}

/// The same, small: without the tails of the bow, which would make it smaller still.
pub(super) fn small(sheet: &mut PaperSheet, order: &Order, stock: &Stock, within: Rect) -> Rect {
    let mut order = order.clone();
    if let Some(bow) = &mut order.piece.bow {
        bow.tails = 0;
    }
    bare(sheet, &order, stock, within)
}

fn bare(sheet: &mut PaperSheet, order: &Order, stock: &Stock, within: Rect) -> Rect {
    /// More room than elsewhere: on bare paper a shadow that is cut off shows its edge, mm.
    const SHADOW_MM: f64 = 5.0;
    let frame = Some(reach_of(&order.piece, stock, Tails::Shown).inflate(SHADOW_MM, SHADOW_MM));
    let options = PictureOptions { ground: Ground::Clear, arm: false, frame, ..PictureOptions::default() };
    put(sheet, picture(&order.piece, stock, &order.wrist, &options), within, Align::Middle)
}

/// Whether the bow's tails count for how far a piece reaches.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Tails {
    Shown,
    Left,
}

/// What of piece space the piece and its bow take up, mm.
pub(super) fn reach(job: &PaperJob<'_>, tails: Tails) -> Rect {
    reach_of(&job.order.piece, job.stock, tails)
}

fn reach_of(piece: &Piece, stock: &Stock, tails: Tails) -> Rect {
    let oval = piece.oval();
    let mut all = Rect::new(-oval.a, -oval.b, oval.a, oval.b);
    let shapes: Vec<Shape> = piece.parts().iter().map(|p| p.shape_in(stock)).collect();
    if let Some(parts) = extents(&shapes) {
        all = all.union(parts);
    }
    if let Some(bow) = &piece.bow {
        let loops = bow.loop_length_mm + bow.loop_width_mm / 2.0;
        let hang = bow.tails > 0 && tails == Tails::Shown;
        let tail = if hang { bow.tail_length_mm.max(loops) } else { loops };
        let at = piece.binding_point(stock).unwrap_or(Point::ORIGIN);
        all = all.union(Rect::new(at.x - tail, at.y - loops, at.x + loops, at.y + loops));
    }
    if let Some(end) = piece.stem_end(stock).filter(|_| !piece.parts().is_empty()) {
        let half = STEM_WIDTH_MM / 2.0;
        all = all.union(Rect::new(end.x, end.y - half, end.x + STEM_MM, end.y + half));
    }
    all.inflate(ROOM_MM, ROOM_MM)
}

fn put(sheet: &mut PaperSheet, scene: Scene, within: Rect, align: Align) -> Rect {
    // Upright, the frame's length is the height.
    let frame = scene.frame;
    let scale = (within.width() / frame.height()).min(within.height() / frame.width());
    if !scale.is_finite() || scale <= 0.0 {
        return Rect::from_origin_size(within.origin(), (0.0, 0.0));
    }
    let size = Vec2::new(frame.height() * scale, frame.width() * scale);
    let spare = within.width() - size.x;
    let before = match align {
        Align::Left => 0.0,
        Align::Middle => spare / 2.0,
        Align::Right => spare,
    };
    let corner = Point::new(within.x0 + before, within.y0);
    let taken = Rect::from_points(corner, corner + size);
    let to_corner = Affine::translate((-frame.y0, frame.x1)) * upright();
    let view = Affine::translate(corner.to_vec2()) * Affine::scale(scale) * to_corner;
    sheet.picture(scene.groups, view, taken.bounding_box());
    taken
}
