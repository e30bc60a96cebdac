//! A petal: a thin sheet along a curve that leaves the axis of its flower, bent across, its rim rolled back.

use super::curve::{PI, bezier, sin, smooth, turn_z};
use crate::light::{Affine3A, Material, Mesh, MeshGrid, Vec2, Vec3, noise};

/// Shape of a petal about the z axis. Lengths are in the units of the flower, whatever they are.
#[derive(Clone, Copy, Debug)]
pub(super) struct Petal {
    /// The curve of its middle, from its claw to its rim: distance from the axis, height.
    pub(super) spine: [Vec2; 4],
    /// Half its width where it is widest.
    pub(super) half: f32,
    /// Share of that width by how far along it is, 0 to 1.
    pub(super) profile: fn(f32) -> f32,
    /// Share of its length by how far off its middle, -1 to 1.
    pub(super) outline: fn(f32) -> f32,
    /// Radius of the circle across which it is bent, toward its face; nought for flat, less to bend away.
    pub(super) cup: f32,
    /// From where along its length the rim rolls back, and how far, radians.
    pub(super) roll: (f32, f32),
    /// How far its sides roll back, in halves of its width.
    pub(super) sides: f32,
    /// Height, number and phase of the waves of its rim.
    pub(super) ruffle: (f32, f32, f32),
    /// A crease along its middle, in halves of its width.
    pub(super) crease: f32,
    /// Where its unevenness is read from.
    pub(super) grain: f32,
}

impl Petal {
    /// A plain one along this curve.
    pub(super) const fn along(spine: [Vec2; 4], half: f32) -> Self {
        Self {
            spine,
            half,
            profile: rounded,
            outline: blunt,
            cup: 0.0,
            roll: (1.0, 0.0),
            sides: 0.0,
            ruffle: (0.0, 1.0, 0.0),
            crease: 0.0,
            grain: 0.0,
        }
    }

    /// The point at `s` across (-1 to 1) and `t` along (0 to 1): away from the axis, to the side, up.
    pub(super) fn at(&self, s: f32, t: f32) -> Vec3 {
        let length = self.spine[0].distance(self.spine[1])
            + self.spine[1].distance(self.spine[2])
            + self.spine[2].distance(self.spine[3]);
        let top = (self.outline)(s) * (1.0 + 0.035 * noise(Vec3::new(s * 2.3, self.grain, 1.7)));
        let (fold, along) = (self.roll.0 * top, t * top);
        let (mut at, mut toward) = bezier(&self.spine, along.min(fold).min(1.0));
        let face = Vec2::new(-toward.y, toward.x);
        if along > fold {
            let beyond = (along - fold) * length;
            let span = ((top - fold) * length).max(1e-6);
            if self.roll.1 > 1e-3 {
                let radius = span / self.roll.1;
                let turned = beyond / radius;
                let (s, c) = (sin(turned), super::curve::cos(turned));
                at += toward * (radius * s) - face * (radius * (1.0 - c));
                toward = toward * c - face * s;
            } else {
                at += toward * beyond;
            }
        }
        let face = Vec2::new(-toward.y, toward.x);
        let half = self.half * (self.profile)(t);
        let arc = s * half;
        let (mut aside, mut lift) = (arc, 0.0);
        if self.cup.abs() > 1e-4 {
            let turned = (arc / self.cup).clamp(-1.9, 1.9);
            aside = self.cup * sin(turned);
            lift = self.cup * (1.0 - super::curve::cos(turned));
        }
        let edge = smooth(0.55, 1.0, s.abs());
        lift -= self.sides * half * edge * edge * t;
        let waves =
            sin(self.ruffle.1 * PI * s + self.ruffle.2) + 0.6 * noise(Vec3::new(s * 3.1, t * 1.4, self.grain + 9.0));
        lift += self.ruffle.0 * smooth(0.35, 1.0, t) * waves;
        lift -= self.crease * half * smooth(0.35, 0.0, s.abs()) * (1.0 - 0.6 * t);
        Vec3::new(at.x + face.x * lift, aside, at.y + face.y * lift)
    }

    /// The sheet at `turn` about the axis. `tint` takes (s, t).
    pub(super) fn mesh(
        &self,
        turn: f32,
        (across, along): (u32, u32),
        material: Material,
        tint: impl Fn(f32, f32) -> Vec3,
    ) -> Mesh {
        // u runs against s, so that the normal points away from the face's back.
        let s = |u: f32| 1.0 - 2.0 * u;
        let mut mesh = Mesh::of_grid(
            MeshGrid::sheet(across, along),
            material,
            |u, v| self.at(s(u), v),
            |u, v| tint(s(u), v).clamp(Vec3::ZERO, Vec3::ONE),
        );
        mesh.place(Affine3A::from_mat3(turn_z(turn)));
        mesh
    }
}

/// Narrow at its claw, then broad and rounded.
pub(super) fn rounded(t: f32) -> f32 {
    0.3 + 0.7 * smooth(0.0, 0.62, t)
}

/// Widest in its middle, narrow at both ends.
pub(super) fn lance(t: f32) -> f32 {
    0.16 + 0.84 * sin(PI * super::curve::pow(t, 0.8) * 0.94 + 0.05)
}

/// A long claw and a broad end.
pub(super) fn clawed(t: f32) -> f32 {
    0.16 + 0.84 * smooth(0.18, 0.72, t)
}

/// As wide all along.
pub(super) fn strap(t: f32) -> f32 {
    0.55 + 0.45 * smooth(0.0, 0.4, t)
}

/// A broad rim.
pub(super) fn blunt(s: f32) -> f32 {
    let (a, b) = (s * s, s * s * s * s * s * s);
    1.0 - 0.20 * a - 0.34 * b
}

/// A round end.
pub(super) fn round_end(s: f32) -> f32 {
    0.48 + 0.52 * (1.0 - s * s).max(0.0).sqrt()
}

/// A pointed end.
pub(super) fn pointed(s: f32) -> f32 {
    let a = s.abs();
    1.0 - 0.52 * a - 0.10 * a * a
}

/// A notch in the middle of a broad end.
pub(super) fn notched(s: f32) -> f32 {
    round_end(s) - 0.12 * smooth(0.34, 0.0, s.abs())
}

/// Teeth along a broad rim, as of a carnation.
pub(super) fn toothed(s: f32) -> f32 {
    let teeth = (s * 7.5 + 0.25).fract().abs();
    blunt(s) - 0.11 * (1.0 - (2.0 * teeth - 1.0).abs())
}
