//! What curves are made of: functions that give the same bits on every computer, eases, and a Bezier in the plane.

use crate::light::{Mat3, Vec2, Vec3};

/// The golden angle, radians: by it leaves and petals are set round a stem (H. Vogel, Math. Biosci. 44, 1979).
pub(super) const GOLDEN: f32 = 2.399_963_2;
pub(super) const TAU: f32 = std::f32::consts::TAU;
pub(super) const PI: f32 = std::f32::consts::PI;

pub(super) fn sin(x: f32) -> f32 {
    libm::sinf(x)
}

pub(super) fn cos(x: f32) -> f32 {
    libm::cosf(x)
}

/// `x` to the power of `y`; what is below nought counts as nought.
pub(super) fn pow(x: f32, y: f32) -> f32 {
    libm::powf(x.max(0.0), y)
}

/// From 0 at `from` to 1 at `to`, without a corner.
pub(super) fn smooth(from: f32, to: f32, x: f32) -> f32 {
    let t = ((x - from) / (to - from)).clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}

pub(super) fn mix(from: f32, to: f32, share: f32) -> f32 {
    from + (to - from) * share
}

/// The share that `index` of `count` has of the way from the first to the last.
pub(super) fn share(index: u32, count: u32) -> f32 {
    index as f32 / count.saturating_sub(1).max(1) as f32
}

/// A turn about z, counter-clockwise seen from above.
pub(super) fn turn_z(angle: f32) -> Mat3 {
    let (s, c) = (sin(angle), cos(angle));
    Mat3::from_cols(Vec3::new(c, s, 0.0), Vec3::new(-s, c, 0.0), Vec3::Z)
}

/// A turn that brings z to `direction`, of length 1.
pub(super) fn z_to(direction: Vec3) -> Mat3 {
    let side = if direction.z.abs() < 0.9 { Vec3::Z } else { Vec3::X };
    let x = side.cross(direction).normalize_or(Vec3::X);
    Mat3::from_cols(x, direction.cross(x), direction)
}

/// Point and direction (of length 1) on a cubic Bezier at `t`.
pub(super) fn bezier(p: &[Vec2; 4], t: f32) -> (Vec2, Vec2) {
    let q = 1.0 - t;
    let at = p[0] * (q * q * q) + p[1] * (3.0 * q * q * t) + p[2] * (3.0 * q * t * t) + p[3] * (t * t * t);
    let along = (p[1] - p[0]) * (q * q) + (p[2] - p[1]) * (2.0 * q * t) + (p[3] - p[2]) * (t * t);
    (at, along.normalize_or((p[3] - p[0]).normalize_or(Vec2::Y)))
}
