//! From the f64 of the house to the f32 points of egui: the one place where precision is given up.

use egui::{Pos2, pos2};
use kurbo::Point;

/// A length or an angle for egui.
#[expect(clippy::cast_possible_truncation, reason = "screens are far smaller than f32 is precise")]
pub(crate) fn f32_of(value: f64) -> f32 {
    value as f32
}

/// A place on screen for egui.
pub(crate) fn pos(p: Point) -> Pos2 {
    pos2(f32_of(p.x), f32_of(p.y))
}

/// A place on screen from egui.
pub(crate) fn point(p: Pos2) -> Point {
    Point::new(f64::from(p.x), f64::from(p.y))
}
