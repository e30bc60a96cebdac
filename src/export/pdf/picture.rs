//! The picture of a piece within a box on a sheet.

use kurbo::{Affine, Point, Rect, Shape as _, Vec2};

use super::Job;
use super::sheet::Sheet;
use crate::geometry::{Shape, extents};
use crate::scene::{Ground, Look, Scene, picture, upright};

/// Room left about the piece alone, mm.
const ROOM_MM: f64 = 6.0;

/// The piece on its wrist, as large as `within` allows, on warm paper. Gives the box that is taken up.
pub(super) fn worn(sheet: &mut Sheet, job: &Job<'_>, within: Rect) -> Rect {
    let scene = picture(&job.order.piece, job.stock, &job.order.wrist, &Look::default());
    put(sheet, scene, within)
}

/// The piece without the arm, on bare paper: larger, and it takes little ink. Gives the box that is taken up.
pub(super) fn alone(sheet: &mut Sheet, job: &Job<'_>, within: Rect) -> Rect {
    let look = Look { ground: Ground::Clear, arm: false, frame: Some(reach(job)), ..Look::default() };
    put(sheet, picture(&job.order.piece, job.stock, &job.order.wrist, &look), within)
}

/// What of piece space the piece and its bow take up, mm.
pub(super) fn reach(job: &Job<'_>) -> Rect {
    let piece = &job.order.piece;
    let oval = piece.oval();
    let mut all = Rect::new(-oval.a, -oval.b, oval.a, oval.b);
    let shapes: Vec<Shape> = piece.parts().iter().map(|p| p.shape_in(job.stock)).collect();
    if let Some(parts) = extents(&shapes) {
        all = all.union(parts);
    }
    if let Some(bow) = &piece.bow {
        let loops = bow.loop_length_mm + bow.loop_width_mm / 2.0;
        let tail = if bow.tails > 0 { bow.tail_length_mm.max(loops) } else { loops };
        all = all.union(Rect::new(-tail, -loops, loops, loops));
    }
    all.inflate(ROOM_MM, ROOM_MM)
}

fn put(sheet: &mut Sheet, scene: Scene, within: Rect) -> Rect {
    // Upright, the frame's length is the height.
    let frame = scene.frame;
    let scale = (within.width() / frame.height()).min(within.height() / frame.width());
    if !scale.is_finite() || scale <= 0.0 {
        return Rect::from_origin_size(within.origin(), (0.0, 0.0));
    }
    let size = Vec2::new(frame.height() * scale, frame.width() * scale);
    let corner = Point::new(within.center().x - size.x / 2.0, within.y0);
    let taken = Rect::from_points(corner, corner + size);
    let to_corner = Affine::translate((-frame.y0, frame.x1)) * upright();
    let view = Affine::translate(corner.to_vec2()) * Affine::scale(scale) * to_corner;
    debug_assert!((view.transform_rect_bbox(frame).area() - taken.area()).abs() < 1e-6 * taken.area().max(1.0));
    sheet.picture(scene.groups, view, taken.bounding_box());
    taken
}
