//! Chance for surfaces: the small differences between one petal and the next.

use super::curve::TAU;
use crate::units::chance::Chance;

/// A stream of numbers that depends on its seed only.
pub(super) struct Luck(Chance);

impl Luck {
    pub(super) fn seeded(seed: u64) -> Self {
        Self(Chance::seeded(seed))
    }

    /// Even from `from` to `to`.
    pub(super) fn between(&mut self, from: f32, to: f32) -> f32 {
        self.0.between(f64::from(from), f64::from(to)) as f32
    }

    /// Near zero, at most `spread` to either side.
    pub(super) fn bell(&mut self, spread: f32) -> f32 {
        self.0.bell(f64::from(spread)) as f32
    }

    /// About 1, at most `spread` more or less.
    pub(super) fn about_one(&mut self, spread: f32) -> f32 {
        1.0 + self.bell(spread)
    }

    /// Any direction, radians.
    pub(super) fn angle(&mut self) -> f32 {
        self.between(0.0, TAU)
    }
}
