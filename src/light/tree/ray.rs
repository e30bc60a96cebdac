//! A ray, and what it met.

use glam::Vec4;

use crate::light::Vec3;

/// The least size of a direction's coordinate in a division: keeps it finite for rays along an axis.
const LEAST: f32 = 1e-18;

/// A half line. `toward` need not be of length 1: distances along it are multiples of its length.
#[derive(Clone, Copy, Debug)]
pub(in crate::light) struct Ray {
    /// Where it starts, mm.
    pub(in crate::light) origin: Vec3,
    /// Where it goes.
    pub(in crate::light) toward: Vec3,
}

/// What a ray met.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::light) struct RayHit {
    /// How far along the ray.
    pub(in crate::light) distance: f32,
    /// Which of the placed meshes.
    pub(in crate::light) placed: u32,
    /// Which of its triangles.
    pub(in crate::light) triangle: u32,
    /// Share of the triangle's second corner.
    pub(in crate::light) u: f32,
    /// Share of the triangle's third corner.
    pub(in crate::light) v: f32,
}

impl RayHit {
    /// No hit nearer than so far.
    pub(in crate::light) const fn none_within(distance: f32) -> Self {
        Self { distance, placed: u32::MAX, triangle: u32::MAX, u: 0.0, v: 0.0 }
    }

    /// Whether something was met.
    pub(in crate::light) const fn is_some(&self) -> bool {
        self.triangle != u32::MAX
    }
}

/// A ray made ready to be tested against four boxes or four triangles at once.
#[derive(Clone, Copy, Debug)]
pub(super) struct FourRays {
    pub(super) origin: [Vec4; 3],
    pub(super) toward: [Vec4; 3],
    pub(super) inverse: [Vec4; 3],
    /// Per axis, which bound of a box the ray meets first: 0 the least, 1 the largest.
    pub(super) near: [usize; 3],
}

impl FourRays {
    #[inline]
    pub(super) fn of(ray: &Ray) -> Self {
        let each = |v: Vec3| [Vec4::splat(v.x), Vec4::splat(v.y), Vec4::splat(v.z)];
        let divided = |d: f32| if d.abs() < LEAST { 1.0 / LEAST } else { 1.0 / d };
        let inverse = ray.toward.map(divided);
        let near = inverse.to_array().map(|d| usize::from(d < 0.0));
        Self { origin: each(ray.origin), toward: each(ray.toward), inverse: each(inverse), near }
    }
}
