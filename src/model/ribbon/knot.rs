//! The knot: ribbon wound about the middle of the bow, and the small loop that may stand over it.

use std::f32::consts::{PI, TAU};

use super::{Course, Fabric, RibbonStrip};
use crate::light::{Mesh, MeshGrid, Vec3};
use crate::model::arm::ease;

/// Ribbon gathered round the middle: a barrel that lies across the loops' middle, thicker in its own middle, with folds round it.
pub(super) fn knot(fabric: &Fabric, height_mm: f32) -> Mesh {
    let half = fabric.width_mm * 0.24;
    let thick = 2.0 + fabric.width_mm * 0.09;
    let at = |u: f32, v: f32| {
        let (sine, cosine) = libm::sincosf(u * TAU);
        let along = v * 2.0 - 1.0;
        let belly = thick * (1.0 - 0.30 * along * along) + 0.45 * libm::sinf(along * 7.0 + 0.8 * sine);
        Vec3::new(along * half, cosine * belly * 1.15, height_mm + sine * belly)
    };
    Mesh::of_grid(MeshGrid::tube(36, 18), fabric.material, at, |_, v| fabric.tint_at(v * 2.0 - 1.0))
}

/// A round loop over the knot.
pub(super) fn centre_loop(fabric: &Fabric, diameter_mm: f32, height_mm: f32) -> Mesh {
    let radius = diameter_mm * 0.5;
    let middle = Vec3::Z * (height_mm + 1.0 + radius);
    let turn = |i: usize| i as f32 / 72.0 * TAU - PI / 2.0;
    let places = (0..=72).map(|i| {
        let (sine, cosine) = libm::sincosf(turn(i));
        middle + Vec3::new(0.0, cosine, sine) * radius
    });
    let line = Course::through(places.collect());
    let total = line.length();
    let narrow = |length: f32| 0.45 + 0.5 * ease(0.0, 0.3 * total, length.min(total - length));
    RibbonStrip { fabric, line: &line, narrow: &narrow, side: &|_| Vec3::X, cut: &|_| 0.0 }.mesh(1.0)
}
