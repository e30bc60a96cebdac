//! The photograph against what is known: closed forms, published figures, and what must not break it.

mod against_books;
mod bytes;
mod hardy;
mod hits;

use std::sync::Arc;

use super::*;

/// A square of the size given, in the plane z = 0, facing up.
pub(super) fn square(side_mm: f32, tint: f32, material: Material) -> Mesh {
    let at = move |u: f32, v: f32| Vec3::new(u - 0.5, v - 0.5, 0.0) * side_mm;
    Mesh::of_grid(MeshGrid::sheet(1, 1), material, at, move |_, _| Vec3::splat(tint))
}

/// A ball about the origin.
pub(super) fn ball(radius_mm: f32, tint: f32, material: Material) -> Mesh {
    let at = move |u: f32, v: f32| {
        let (around, up) = (u * std::f32::consts::TAU, (v - 0.5) * std::f32::consts::PI);
        let flat = libm::cosf(up);
        Vec3::new(flat * libm::cosf(around), flat * libm::sinf(around), libm::sinf(up)) * radius_mm
    };
    Mesh::of_grid(MeshGrid::tube(96, 48), material, at, move |_, _| Vec3::splat(tint))
}

pub(super) fn in_place(mesh: Mesh) -> PlacedMesh {
    PlacedMesh { mesh: Arc::new(mesh), place: Affine3A::IDENTITY }
}

/// A room as bright on all sides, without a window.
pub(super) fn even_light(light: f32) -> Lights {
    Lights {
        window: WindowLight { centre: Vec3::Z, half_across: Vec3::X, half_up: Vec3::Y, radiance: Vec3::ZERO },
        above: Vec3::splat(light),
        below: Vec3::splat(light),
        card: (Vec3::X, Vec3::ZERO),
    }
}

/// Nothing but a window, square, looking straight down from so high.
pub(super) fn window_above(height_mm: f32, side_mm: f32) -> Lights {
    let half = side_mm / 2.0;
    Lights {
        window: WindowLight {
            centre: Vec3::Z * height_mm,
            half_across: Vec3::X * half,
            half_up: Vec3::NEG_Y * half,
            radiance: Vec3::ONE,
        },
        ..even_light(0.0)
    }
}

/// A camera straight above the origin.
pub(super) fn from_above(width_mm: f32) -> Camera {
    Camera { eye: Vec3::Z * 500.0, at: Vec3::ZERO, up: Vec3::Y, width_mm, lens_mm: 0.0 }
}

pub(super) fn small(samples: u32) -> Quality {
    Quality { width_px: 48, height_px: 60, samples }
}

/// A few balls, sheets and petals that overlap, by the window.
pub(super) fn still_life() -> LitScene {
    let petal = Mesh::of_grid(
        MeshGrid::sheet(8, 8),
        Material::PETAL,
        |u, v| Vec3::new((u - 0.5) * 30.0, (v - 0.5) * 30.0, 12.0 * u * v + 4.0 * u),
        |u, v| Vec3::new(0.9, 0.3 + 0.3 * u, 0.3 + 0.3 * v),
    );
    let skin = Material { soft_mm: 3.0, mirror: 0.03, weave: FineWeave::Skin(1.0), ..Material::MATT };
    let cloth = Material { weave: FineWeave::Cloth(1.5), fuzz: 0.3, ..Material::MATT };
    let at = |x: f32, y: f32, z: f32| Affine3A::from_translation(Vec3::new(x, y, z));
    let petal = Arc::new(petal);
    let tilted = Affine3A::from_rotation_translation(Quat::from_rotation_x(0.5), Vec3::new(-12.0, 4.0, 9.0));
    LitScene {
        placed: vec![
            PlacedMesh { mesh: Arc::new(square(400.0, 0.3, cloth)), place: at(0.0, 0.0, -8.0) },
            PlacedMesh { mesh: Arc::new(ball(14.0, 0.5, skin)), place: at(16.0, -14.0, 2.0) },
            PlacedMesh { mesh: Arc::new(ball(7.0, 0.2, Material::BERRY)), place: at(-18.0, -20.0, 2.0) },
            PlacedMesh { mesh: petal.clone(), place: tilted },
            PlacedMesh { mesh: petal, place: at(10.0, 16.0, 4.0) },
        ],
        lights: Lights::by_a_window(),
    }
}
