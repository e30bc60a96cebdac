//! From millimetres to screen points and back. The arm stands upright: x up, y to the right.

use kurbo::{Affine, Point, Rect, Vec2};

/// Points in a millimetre at 96 to the inch: life-size on an ordinary screen.
pub const LIFE_SIZE: f64 = 96.0 / 25.4;

/// Points per millimetre, least and most: a whole forearm on a small screen, a petal on a large one. Our choice.
const SCALES: (f64, f64) = (0.8, 40.0);

/// What part of the piece the sheet shows. View state: never kept, never undone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// The sheet on screen, points.
    pub area: Rect,
    /// The place of the piece in the middle of the sheet, mm.
    pub middle: Point,
    /// Points per millimetre.
    pub scale: f64,
}

impl View {
    /// A view of nothing yet.
    pub fn new() -> Self {
        Self { area: Rect::new(0.0, 0.0, 100.0, 100.0), middle: Point::ZERO, scale: 4.0 }
    }

    /// From the piece to the screen.
    pub fn screen_from_piece(&self) -> Affine {
        let Self { area, middle, scale } = *self;
        let centre = area.center();
        Affine::new([0.0, -scale, scale, 0.0, centre.x - scale * middle.y, centre.y + scale * middle.x])
    }

    /// A place of the piece on screen.
    pub fn to_screen(&self, p: Point) -> Point {
        self.screen_from_piece() * p
    }

    /// A place on screen in the piece.
    pub fn to_piece(&self, p: Point) -> Point {
        let from_centre = p - self.area.center();
        Point::new(self.middle.x - from_centre.y / self.scale, self.middle.y + from_centre.x / self.scale)
    }

    /// Shows the whole of `frame` (mm), but no larger than `most` points per millimetre.
    pub fn fit(&mut self, frame: Rect, most: f64) {
        let along = self.area.height() / frame.width().max(1.0);
        let across = self.area.width() / frame.height().max(1.0);
        self.middle = frame.center();
        self.set_scale(along.min(across).min(most));
    }

    /// Grows or shrinks by `by` about a screen point.
    pub fn zoom(&mut self, about: Point, by: f64) {
        let fixed = self.to_piece(about);
        self.set_scale(self.scale * by);
        self.middle += fixed - self.to_piece(about);
    }

    /// Moves the sheet under the window by screen points.
    pub fn pan(&mut self, by: Vec2) {
        self.middle += Vec2::new(by.y, -by.x) / self.scale;
        let far = 300.0; // the piece is never lost from sight altogether
        self.middle = Point::new(self.middle.x.clamp(-far, far), self.middle.y.clamp(-far, far));
    }

    fn set_scale(&mut self, scale: f64) {
        if scale.is_finite() {
            self.scale = scale.clamp(SCALES.0, SCALES.1);
        }
    }

    /// What it shows of the piece, and half as much again on every side, so that panning finds more.
    pub fn seen_and_more(&self) -> Rect {
        let far = Point::new(self.area.x1, self.area.y1);
        let seen = Rect::from_points(self.to_piece(self.area.origin()), self.to_piece(far));
        seen.inflate(seen.width() / 2.0, seen.height() / 2.0)
    }
}

impl Default for View {
    fn default() -> Self {
        Self::new()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn view() -> View {
        View { area: Rect::new(100.0, 50.0, 900.0, 650.0), middle: Point::new(5.0, -3.0), scale: 4.0 }
    }

    #[test]
    fn up_on_screen_is_toward_the_elbow_and_right_is_across() {
        let view = View { middle: Point::ZERO, ..view() };
        assert_eq!(view.to_screen(Point::ZERO), Point::new(500.0, 350.0));
        assert_eq!(view.to_screen(Point::new(10.0, 0.0)), Point::new(500.0, 310.0));
        assert_eq!(view.to_screen(Point::new(0.0, 10.0)), Point::new(540.0, 350.0));
    }

    #[test]
    fn screen_and_piece_undo_each_other() {
        let p = Point::new(12.5, -8.25);
        assert!((view().to_piece(view().to_screen(p)) - p).hypot() < 1e-12);
    }

    #[test]
    fn zooming_keeps_what_is_under_the_pointer() {
        let (mut view, at) = (view(), Point::new(220.0, 130.0));
        let under = view.to_piece(at);
        view.zoom(at, 1.7);
        assert!((view.to_piece(at) - under).hypot() < 1e-9);
        view.zoom(at, f64::NAN);
        assert!(view.scale.is_finite());
    }

    #[test]
    fn panning_moves_the_piece_with_the_finger() {
        let mut view = view();
        let before = view.to_screen(Point::ZERO);
        view.pan(Vec2::new(30.0, -12.0));
        assert!((view.to_screen(Point::ZERO) - before - Vec2::new(30.0, -12.0)).hypot() < 1e-9);
    }
}
