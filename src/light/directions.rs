//! Directions round a normal, and the arithmetic they need without tables of the computer.

use std::f32::consts::{FRAC_PI_2, PI};

use super::noise::floor;
use super::{Vec2, Vec3};

/// Sine and cosine of so many whole turns; within 4e-7, from sums and products alone, so the same everywhere.
pub(super) fn sin_cos_of_turn(turn: f32) -> (f32, f32) {
    let quarters = turn * 4.0;
    let whole = floor(quarters + 0.5);
    let x = (quarters - whole) * FRAC_PI_2;
    let xx = x * x;
    let sin = x
        * (1.0 - xx * (1.0 / 6.0) * (1.0 - xx * (1.0 / 20.0) * (1.0 - xx * (1.0 / 42.0) * (1.0 - xx * (1.0 / 72.0)))));
    let cos = 1.0 - xx * 0.5 * (1.0 - xx * (1.0 / 12.0) * (1.0 - xx * (1.0 / 30.0) * (1.0 - xx * (1.0 / 56.0))));
    match whole as i32 & 3 {
        0 => (sin, cos),
        1 => (cos, -sin),
        2 => (-sin, -cos),
        _ => (-cos, sin),
    }
}

/// A point of the disk of radius 1, evenly spread.
pub(super) fn in_disk(pair: Vec2) -> Vec2 {
    let (sin, cos) = sin_cos_of_turn(pair.y);
    Vec2::new(cos, sin) * pair.x.sqrt()
}

/// A direction about a normal, as often as its cosine is large: how dull surfaces spread light.
pub(super) fn about(normal: Vec3, pair: Vec2) -> Vec3 {
    let (one, other) = normal.any_orthonormal_pair();
    let flat = in_disk(pair);
    (one * flat.x + other * flat.y + normal * (1.0 - pair.x).max(0.0).sqrt()).normalize_or(normal)
}

/// Share of light that a dull surface sends into a direction, per unit of solid angle, over its cosine.
pub(super) const PER_PI: f32 = 1.0 / PI;

/// From nought at `low` to one at `high`, smoothly.
pub(super) fn smooth(low: f32, high: f32, x: f32) -> f32 {
    let t = ((x - low) / (high - low)).clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn turns_agree_with_the_library() {
        for i in -400..400 {
            let turn = i as f32 * 0.00731;
            let (sin, cos) = sin_cos_of_turn(turn);
            let angle = f64::from(turn) * 2.0 * std::f64::consts::PI;
            assert!((f64::from(sin) - libm::sin(angle)).abs() < 4e-6, "{turn}");
            assert!((f64::from(cos) - libm::cos(angle)).abs() < 4e-6, "{turn}");
        }
    }

    /// The mean cosine of directions spread by their cosine is 2/3 (integral of 2 cos^2 sin over a quarter turn).
    #[test]
    fn directions_are_spread_by_their_cosine() {
        let normal = Vec3::new(0.3, -0.4, 0.866).normalize();
        let n = 64;
        let pairs = (0..n * n).map(|i| Vec2::new((i % n) as f32 + 0.5, (i / n) as f32 + 0.5) / n as f32);
        let sum: f32 = pairs.map(|pair| about(normal, pair).dot(normal)).sum();
        assert!((sum / (n * n) as f32 - 2.0 / 3.0).abs() < 1e-3);
    }
}
