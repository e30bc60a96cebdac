//! The picture of a piece within a box on a sheet.

use kurbo::{Affine, Point, Rect, Shape as _, Vec2};

use super::Job;
use super::sheet::{Align, Sheet};
use crate::geometry::{Shape, extents};
use crate::scene::{Ground, Look, Scene, picture, upright};

/// Room left about the piece alone, mm.
const ROOM_MM: f64 = 6.0;

/// The piece on its wrist, as large as `within` allows and at its left, on warm paper. Gives the box that is taken up.
pub(super) fn worn(sheet: &mut Sheet, job: &Job<'_>, within: Rect) -> Rect {
    let scene = picture(&job.order.piece, job.stock, &job.order.wrist, &Look::default());
    put(sheet, scene, within, Align::Left)
}

/// The piece without the arm, on bare paper: larger, and it takes little ink. Gives the box that is taken up.
pub(super) fn alone(sheet: &mut Sheet, job: &Job<'_>, within: Rect) -> Rect {
    let look = Look { ground: Ground::Clear, arm: false, frame: Some(reach(job, Tails::Shown)), ..Look::default() };
    put(sheet, picture(&job.order.piece, job.stock, &job.order.wrist, &look), within, Align::Middle)
}

/// Whether the bow's tails count for how far a piece reaches.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Tails {
    Shown,
    Left,
}

/// What of piece space the piece and its bow take up, mm.
pub(super) fn reach(job: &Job<'_>, tails: Tails) -> Rect {
    let piece = &job.order.piece;
    let oval = piece.oval();
    let mut all = Rect::new(-oval.a, -oval.b, oval.a, oval.b);
    let shapes: Vec<Shape> = piece.parts().iter().map(|p| p.shape_in(job.stock)).collect();
    if let Some(parts) = extents(&shapes) {
        all = all.union(parts);
    }
    if let Some(bow) = &piece.bow {
        let loops = bow.loop_length_mm + bow.loop_width_mm / 2.0;
        let hang = bow.tails > 0 && tails == Tails::Shown;
        let tail = if hang { bow.tail_length_mm.max(loops) } else { loops };
        all = all.union(Rect::new(-tail, -loops, loops, loops));
    }
    all.inflate(ROOM_MM, ROOM_MM)
}

fn put(sheet: &mut Sheet, scene: Scene, within: Rect, align: Align) -> Rect {
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
