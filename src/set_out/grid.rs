//! A coarse picture of a layout in bits: 24 rows of 64 points over the oval and a little beyond.
//!
//! One mask a shape; what is hidden, bare or covered is counted by joining masks. Exact enough to steer a search, and some
//! hundred times faster than exact areas. Only arithmetic and square roots, so every computer sees the same picture.

use crate::geometry::{Oval, Point, Vec2};
use crate::units::floor_u32;

/// Rows across the arm.
pub(super) const ROWS: usize = 24;
/// Points in a row.
const COLUMNS: u32 = 64;
/// How far the picture reaches past the oval, as a share of its axes: leaf tips, and heads a little over the edge.
const BEYOND: f64 = 1.2;

/// A set of points.
pub(super) type Mask = [u64; ROWS];

/// A set of points that lie in some rows only, so that the others need not be looked at.
#[derive(Clone, Copy, Debug)]
pub(super) struct Patch {
    mask: Mask,
    from: usize,
    to: usize,
}

impl Patch {
    fn of(mask: Mask) -> Self {
        let from = mask.iter().position(|bits| *bits != 0).unwrap_or(0);
        let to = mask.iter().rposition(|bits| *bits != 0).map_or(0, |last| last + 1);
        Self { mask, from, to }
    }

    fn rows(&self) -> &[u64] {
        &self.mask[self.from..self.to]
    }

    /// How many points it holds.
    pub(super) fn count(&self) -> f64 {
        count(self.rows())
    }

    /// How many of its points lie in `other` too.
    pub(super) fn count_in(&self, other: &Mask) -> f64 {
        let pairs = self.rows().iter().zip(&other[self.from..self.to]);
        f64::from(pairs.map(|(a, b)| (a & b).count_ones()).sum::<u32>())
    }

    /// Adds its points to a mask.
    pub(super) fn join_to(&self, mask: &mut Mask) {
        for (bits, more) in mask[self.from..self.to].iter_mut().zip(self.rows()) {
            *bits |= more;
        }
    }
}

/// Where the points lie.
#[derive(Clone, Debug)]
pub(super) struct Grid {
    left: f64,
    pitch: f64,
    rows: [f64; ROWS],
    /// Area that one point stands for, mm2.
    pub(super) point_mm2: f64,
}

impl Grid {
    pub(super) fn over(oval: Oval) -> Self {
        let (a, b) = (oval.a * BEYOND, oval.b * BEYOND);
        let pitch = 2.0 * a / f64::from(COLUMNS);
        let row_pitch = 2.0 * b / ROWS as f64;
        let mut rows = [0.0; ROWS];
        for (k, row) in rows.iter_mut().enumerate() {
            *row = -b + (k as f64 + 0.5) * row_pitch;
        }
        Self { left: -a + 0.5 * pitch, pitch, rows, point_mm2: pitch * row_pitch }
    }

    /// The points in an ellipse about `centre` with these semi-axes.
    pub(super) fn ellipse(&self, centre: Point, a: f64, b: f64) -> Mask {
        let mut mask = [0; ROWS];
        for (bits, row) in mask.iter_mut().zip(self.rows) {
            let across = (row - centre.y) / b;
            let rest = 1.0 - across * across;
            if rest > 0.0 {
                let half = a * rest.sqrt();
                *bits = self.span(centre.x - half, centre.x + half);
            }
        }
        mask
    }

    /// The points in a disc.
    pub(super) fn disc(&self, centre: Point, radius: f64) -> Patch {
        Patch::of(self.ellipse(centre, radius, radius))
    }

    /// The points in a lens of this half length and half width whose long axis points `toward`: in both of its discs.
    pub(super) fn lens(&self, centre: Point, toward: Vec2, half_length: f64, half_width: f64) -> Patch {
        let radius = (half_length * half_length + half_width * half_width) / (2.0 * half_width);
        let off = Vec2::new(-toward.y, toward.x) * (radius - half_width);
        let within = |centre| self.ellipse(centre, radius, radius);
        let (mut mask, other) = (within(centre + off), within(centre - off));
        for (bits, more) in mask.iter_mut().zip(other) {
            *bits &= more;
        }
        Patch::of(mask)
    }

    /// Points of a row from `from` to `to`.
    fn span(&self, from: f64, to: f64) -> u64 {
        let before = |x: f64| floor_u32((x - self.left) / self.pitch + 1.0).min(COLUMNS);
        low(before(to)) & !low(before(from))
    }
}

/// The lowest `n` bits.
fn low(n: u32) -> u64 {
    if n >= COLUMNS { u64::MAX } else { (1 << n) - 1 }
}

/// How many points a mask holds.
pub(super) fn count(mask: &[u64]) -> f64 {
    f64::from(mask.iter().map(|bits| bits.count_ones()).sum::<u32>())
}

/// How many points lie in the first and in the second.
pub(super) fn count_both(first: &Mask, second: &Mask) -> f64 {
    f64::from(first.iter().zip(second).map(|(a, b)| (a & b).count_ones()).sum::<u32>())
}

/// How many points of the first lie outside the second.
pub(super) fn count_outside(first: &Mask, second: &Mask) -> f64 {
    f64::from(first.iter().zip(second).map(|(a, b)| (a & !b).count_ones()).sum::<u32>())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn areas_in_bits_are_near_the_true_ones() {
        let grid = Grid::over(Oval { a: 45.0, b: 27.0 });
        let disc = grid.disc(Point::new(3.0, -4.0), 15.0).count() * grid.point_mm2;
        assert!((disc / 706.858 - 1.0).abs() < 0.03, "{disc}");
        // A lens of 40 x 16 mm covers 440.02 mm2, whichever way it is turned.
        for toward in [Vec2::new(1.0, 0.0), Vec2::new(0.8, 0.6)] {
            let lens = grid.lens(Point::ZERO, toward, 20.0, 8.0).count() * grid.point_mm2;
            assert!((lens / 440.023 - 1.0).abs() < 0.05, "{lens}");
        }
        let whole = grid.ellipse(Point::ZERO, 45.0, 27.0);
        let inside = grid.disc(Point::ZERO, 20.0);
        assert_eq!(inside.count_in(&whole), inside.count());
        let mut joined = grid.ellipse(Point::new(20.0, 0.0), 5.0, 5.0);
        inside.join_to(&mut joined);
        assert_eq!(count_outside(&joined, &whole), 0.0);
        assert_eq!(inside.count_in(&joined), inside.count());
    }
}
