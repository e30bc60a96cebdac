//! Heads as they stand on a wrist, seen from beside them and a little from above: cups, discs, flares and sprigs. A head
//! grows along +x from the place where it is glued; y goes across. Drawn with half a width of 1, then brought to the
//! width and the height that the piece measures by.

pub(super) mod cups;
pub(super) mod discs;
pub(super) mod flares;
pub(super) mod sprays;

use kurbo::{Affine, Point, Vec2};

use super::drawings::drawing_of;
use super::fitted;
use crate::colour::Rgb;
use crate::scene::Group;
use crate::scene::draft::Draft;
use crate::stock::Form;

/// How far from above it is seen: the sine of the angle, here 17 degrees, and its cosine.
pub(crate) const FROM_ABOVE: f64 = 0.29;
const COS_ABOVE: f64 = 0.957;
/// The least and the most height over half the width that a draft is made for.
const SLENDER: (f64, f64) = (0.3, 2.6);

/// A head of this form from the side, its foot at the origin: `size` is its width and its height, mm, both sound and above zero.
pub(crate) fn side_bloom(form: Form, seed: u64, size: [f64; 2], colour: Rgb, light: f64) -> Group {
    let [wide_mm, high_mm] = size;
    let high = (high_mm / (wide_mm / 2.0)).clamp(SLENDER.0, SLENDER.1);
    let mut draft = Draft::new(seed, light);
    drawing_of(form).draw_in_profile(&mut draft, high, colour);
    let mut group = fitted(draft.group, Vec2::new(high_mm, wide_mm), true);
    group.transform = Affine::translate((high_mm / 2.0, 0.0)) * group.transform;
    group
}

/// Where a petal goes that points `around` the head's axis (0 is right, a quarter turn is away from the eye) and rises by
/// `rise` over the plane of the head. It starts `out` of the axis at the height of `level`.
pub(super) fn spread(level: f64, out: f64, around: f64, rise: f64) -> Affine {
    let (depth, across) = around.sin_cos();
    let along = Vec2::new(depth * rise.cos() * FROM_ABOVE + rise.sin() * COS_ABOVE, across * rise.cos());
    // What stands up is rounded across, so it is seen from its face more than a flat thing would be.
    let face = FROM_ABOVE + 0.5 * rise.sin().max(0.0);
    let beside = Vec2::new(across * face - depth * rise.sin() * 0.2, -depth);
    let foot = Point::new(level + depth * out * FROM_ABOVE, across * out);
    Affine::new([along.x, along.y, beside.x, beside.y, foot.x, foot.y])
}

/// Directions round the axis, the far ones first, so that the near ones lie over them.
pub(super) fn far_first(count: u32, start: f64) -> Vec<f64> {
    let mut turns: Vec<f64> = super::around(count, start).collect();
    turns.sort_by(|a, b| b.sin().total_cmp(&a.sin()));
    turns
}
