//! Solid things: balls, stems, and what brings a flower to the size it is measured at.

use super::curve::{PI, TAU, cos, sin};
use crate::light::{Material, Mesh, MeshGrid, Vec3};

/// A ball, or what is one when stretched: `radius` by direction gives its surface.
pub(super) fn ball(
    (across, along): (u32, u32),
    material: Material,
    radius: impl Fn(Vec3) -> f32,
    tint: impl Fn(Vec3) -> Vec3,
) -> Mesh {
    let toward = |u: f32, v: f32| {
        let (turn, down) = (u * TAU, (1.0 - v) * PI);
        Vec3::new(cos(turn) * sin(down), sin(turn) * sin(down), cos(down))
    };
    let at = |u: f32, v: f32| {
        let d = if v <= 0.0 {
            -Vec3::Z
        } else if v >= 1.0 {
            Vec3::Z
        } else {
            toward(u, v)
        };
        d * radius(d)
    };
    Mesh::of_grid(MeshGrid::tube(across, along), material, at, |u, v| tint(toward(u, v)))
}

/// A round stem through these points; `radius` by how far along.
pub(super) fn stem(path: &[Vec3], sides: u32, material: Material, radius: impl Fn(f32) -> f32, tint: Vec3) -> Mesh {
    let last = path.len().saturating_sub(1);
    if last == 0 {
        return Mesh::default();
    }
    let frame = |i: usize| {
        let along = (path[(i + 1).min(last)] - path[i.saturating_sub(1)]).normalize_or(Vec3::Z);
        let side = if along.x.abs() < 0.8 { Vec3::X } else { Vec3::Y };
        let x = side.cross(along).normalize_or(Vec3::Y);
        (x, along.cross(x))
    };
    let at = |u: f32, v: f32| {
        let i = ((v * last as f32 + 0.5) as usize).min(last);
        let (x, y) = frame(i);
        let r = radius(v);
        path[i] + x * (r * cos(u * TAU)) + y * (r * sin(u * TAU))
    };
    Mesh::of_grid(MeshGrid::tube(sides, last as u32), material, at, |_, _| tint)
}

/// A stem from one point to another that sags or bows by `bow` at its middle.
pub(super) fn bowed(from: Vec3, to: Vec3, bow: Vec3, steps: u32) -> Vec<Vec3> {
    (0..=steps)
        .map(|i| {
            let t = i as f32 / steps.max(1) as f32;
            from.lerp(to, t) + bow * (4.0 * t * (1.0 - t))
        })
        .collect()
}

/// Stretches a mesh by these shares along x, y and z; directions follow.
pub(super) fn stretch(mesh: &mut Mesh, by: Vec3) {
    for point in &mut mesh.points {
        *point *= by;
    }
    for normal in &mut mesh.normals {
        *normal = (*normal / by).normalize_or(Vec3::Z);
    }
    for tangent in &mut mesh.tangents {
        *tangent = (*tangent * by).normalize_or_zero();
    }
}

/// Brings a round flower to its radius and height: its underside to z = 0, its middle to the axis.
pub(super) fn fit_round(mesh: &mut Mesh, radius: f32, height: f32) {
    let Some((low, high)) = mesh.bounds() else { return };
    let reach = mesh.points.iter().map(|p| p.x * p.x + p.y * p.y).fold(0.0, f32::max).sqrt();
    let (across, up) = (radius / reach.max(1e-6), height / (high.z - low.z).max(1e-6));
    for point in &mut mesh.points {
        point.z -= low.z;
    }
    stretch(mesh, Vec3::new(across, across, up));
}

/// Brings what lies along x to its length, breadth and height, its middle to the origin, its underside to z = 0.
pub(super) fn fit_long(mesh: &mut Mesh, length: f32, breadth: f32, height: f32) {
    let Some((low, high)) = mesh.bounds() else { return };
    let (size, middle) = ((high - low).max(Vec3::splat(1e-6)), (low + high) / 2.0);
    for point in &mut mesh.points {
        *point -= Vec3::new(middle.x, middle.y, low.z);
    }
    stretch(mesh, Vec3::new(length / size.x, breadth / size.y, height / size.z));
}
