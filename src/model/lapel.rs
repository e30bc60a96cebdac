//! The lapel that a boutonniere is pinned to: jacket, lapel with its roll and its notch, collar, buttonhole, a strip of shirt. Space: that of
//! [`crate::model`] with y up the wearer and x to the right as one looks at him; the cloth under the piece is at z = 0; mm. The cut is our
//! choice, after what is usual: a notched lapel some 85 mm wide on the wearer's left.

use std::f32::consts::{FRAC_PI_2, PI, TAU};

use super::arm::ease;
use super::ribbon::UnderRibbon;
use super::share_of_light;
use crate::colour::Rgb;
use crate::light::{FineWeave, Material, Mesh, MeshGrid, Vec2, Vec3, noise};

/// A jacket of which nothing is known.
const CHARCOAL: Rgb = Rgb::hex(0x3c4049);
const SHIRT: Rgb = Rgb::hex(0xf1efea);

const WOOL: Material = Material {
    mirror: 0.02,
    rough: 0.75,
    rough_along: 0.75,
    fuzz: 0.30,
    weave: FineWeave::Cloth(0.85),
    ..Material::MATT
};
const COTTON: Material = Material {
    mirror: 0.03,
    rough: 0.6,
    rough_along: 0.6,
    through: 0.1,
    weave: FineWeave::Cloth(0.4),
    ..Material::MATT
};
const THREAD: Material = Material { mirror: 0.05, rough: 0.4, rough_along: 0.3, ..Material::MATT };

/// From the lowest to the highest of what is made, mm.
const Y: (f32, f32) = (-330.0, 330.0);
/// Where lapel and collar meet at the outer edge.
const NOTCH_Y: f32 = 66.0;
/// How thick the lapel is, mm.
const THICK_MM: f32 = 2.2;
/// How deep under the lapel jacket and shirt lie, mm.
const JACKET_Z: f32 = -3.6;
const SHIRT_Z: f32 = -15.0;
/// Radius of the roll, mm.
const ROLL_MM: f32 = 5.0;

/// A lapel to lay ribbon on.
#[derive(Clone, Copy, Debug, Default)]
pub struct Lapel;

impl UnderRibbon for Lapel {
    fn distance_mm(&self, place: Vec3) -> f32 {
        place.z - sag(place.x, place.y)
    }

    fn floor_mm(&self) -> f32 {
        JACKET_Z
    }
}

/// The chest falls away to all sides.
fn sag(x: f32, y: f32) -> f32 {
    -(x * x / 900.0 + y * y / 3400.0) * ease(0.0, 120.0, Vec2::new(x, y).length())
}

/// Where the lapel rolls over, at this height.
fn roll_x(y: f32) -> f32 {
    -40.0 + 0.22 * y - 0.00012 * y * y
}

/// The outer edge of the lapel, slightly bellied.
fn edge_x(y: f32) -> f32 {
    let down = (NOTCH_Y - y) / (NOTCH_Y - Y.0);
    let wide = 88.0 * (1.0 - down) + 10.0 * libm::sinf(down.clamp(0.0, 1.0) * PI);
    roll_x(y) + wide.max(4.0)
}

/// All of it, the jacket in this colour.
pub fn lapel(jacket: Option<Rgb>) -> Mesh {
    let tint = share_of_light(jacket.unwrap_or(CHARCOAL));
    let shade = |x: f32, y: f32| 1.0 + 0.05 * noise(Vec3::new(x * 0.31, y * 0.27, 1.5));
    let mut mesh = front(tint);
    let rise = |v: f32| Y.0 + (NOTCH_Y - Y.0) * v;
    // The edge toward the notch slants up to it.
    let lapel_y = |u: f32, v: f32| rise(v) + 14.0 * u * v * v * v * v;
    let lapel = |u: f32, v: f32| folded(u, lapel_y(u, v), roll_x(rise(v)), edge_x(rise(v)));
    mesh.append(&Mesh::of_grid(MeshGrid::sheet(72, 150), WOOL, lapel, |u, v| tint * shade(u * 80.0, rise(v))));
    let collar_y = |v: f32| NOTCH_Y + 0.4 + (Y.1 - NOTCH_Y) * v;
    let collar = |u: f32, v: f32| {
        let y = collar_y(v);
        // It is sewn to the lapel along the slanting edge and ends short of the tip, which leaves the notch.
        let wide = 50.0 + 24.0 * ease(0.0, 0.5, v);
        let slant = 14.0 * u * wide / 88.0 * (1.0 - v);
        let open = 5.0 * ease(0.72, 1.0, u) * (1.0 - v);
        folded(u, y + slant + open, roll_x(y), roll_x(y) + wide) - Vec3::Z * 0.3
    };
    mesh.append(&Mesh::of_grid(MeshGrid::sheet(72, 80), WOOL, collar, |u, v| tint * shade(u * 80.0, collar_y(v))));
    mesh.append(&buttonhole(tint));
    mesh
}

/// The place at `u` of the way from under the roll over the lapel to its outer edge and round it.
fn folded(u: f32, y: f32, roll: f32, edge: f32) -> Vec3 {
    let (roll_share, edge_share) = (0.22, 0.06);
    let z = |x: f32| sag(x, y);
    if u < roll_share {
        // From the shirt side round the roll to the top.
        let (sine, cosine) = libm::sincosf(FRAC_PI_2 * (u / roll_share));
        let deep = (1.0 - u / roll_share) * 7.0;
        Vec3::new(roll + ROLL_MM * (1.0 - cosine), y, z(roll) - ROLL_MM * (1.0 - sine) - deep * cosine)
    } else if u > 1.0 - edge_share {
        let turn = (u - 1.0 + edge_share) / edge_share * PI;
        let (sine, cosine) = libm::sincosf(turn);
        Vec3::new(edge + sine * THICK_MM * 0.5, y, z(edge) - THICK_MM * 0.5 * (1.0 - cosine))
    } else {
        let t = (u - roll_share) / (1.0 - edge_share - roll_share);
        let x = roll + ROLL_MM + (edge - roll - ROLL_MM) * t;
        // A little pressed in along the seam at the edge.
        let seam = (edge - x - 4.5) / 1.1;
        Vec3::new(x, y, z(x) - 0.35 * (1.0 - seam * seam).max(0.0) * ease(-60.0, -20.0, x - roll - 90.0))
    }
}

/// Jacket under and beside the lapel, and the shirt toward the middle.
fn front(tint: Vec3) -> Mesh {
    let y = |v: f32| Y.0 + (Y.1 - Y.0) * v;
    let jacket = |u: f32, v: f32| {
        let x = roll_x(y(v)) + 3.0 + 420.0 * u * u;
        let drape = 2.0 * noise(Vec3::new(x * 0.010, y(v) * 0.004, 3.5)) * ease(40.0, 160.0, x);
        Vec3::new(x, y(v), JACKET_Z + sag(x, y(v)) + drape)
    };
    let mut mesh = Mesh::of_grid(MeshGrid::sheet(60, 60), WOOL, jacket, |_, _| tint);
    let shirt = |u: f32, v: f32| {
        let x = roll_x(y(v)) + 30.0 - 330.0 * u;
        let crease = 1.2 * noise(Vec3::new(x * 0.02, y(v) * 0.012, 8.5));
        Vec3::new(x, y(v), SHIRT_Z + 0.4 * sag(x, y(v)) + crease)
    };
    let cotton = share_of_light(SHIRT);
    // From right to left, so that it is turned over to face the eye.
    mesh.append(&Mesh::of_grid(MeshGrid::sheet(60, 60), COTTON, |u, v| shirt(1.0 - u, v), |_, _| cotton));
    mesh
}

/// The worked buttonhole of the lapel, along its upper edge: a rim of thread about a dark slit.
fn buttonhole(tint: Vec3) -> Mesh {
    let (middle, half) = (Vec3::new(24.0, 44.0, 0.0), 10.0);
    let (way, across) = (Vec3::new(0.97, 0.24, 0.0), Vec3::new(-0.24, 0.97, 0.0));
    let rim = |u: f32, v: f32| {
        let ((sine, cosine), (up, out)) = (libm::sincosf(v * TAU), libm::sincosf(u * TAU));
        let stitch = 1.0 + 0.16 * libm::sinf(v * TAU * 46.0);
        let wide = 0.95 + 0.62 * out * stitch;
        let at = middle + way * (cosine * (half + 0.6 * out)) + across * (sine * wide);
        at.with_z(sag(at.x, at.y) + 0.12 + 0.5 * up * stitch)
    };
    let mut mesh = Mesh::of_grid(MeshGrid::tube(8, 220), THREAD, rim, |_, _| tint * 0.8);
    let slit = |u: f32, v: f32| {
        let (sine, cosine) = libm::sincosf(v * TAU);
        let at = middle + (way * (cosine * half) + across * (sine * 0.8)) * u;
        at.with_z(sag(at.x, at.y) + 0.08)
    };
    mesh.append(&Mesh::of_grid(MeshGrid::sheet(2, 40), WOOL, slit, |_, _| tint * 0.15));
    mesh
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_cloth_under_the_piece_is_at_nought_and_some_85_mm_wide() {
        let mesh = lapel(None);
        assert!(mesh.points.iter().chain(&mesh.normals).all(|p| p.is_finite()));
        let near = mesh.points.iter().filter(|p| p.truncate().length() < 20.0 && p.z > -2.0);
        assert!(near.clone().count() > 50 && near.map(|p| p.z.abs()).fold(0.0, f32::max) < 0.5);
        assert!((edge_x(NOTCH_Y) - roll_x(NOTCH_Y) - 88.0).abs() < 1.0);
        assert!((60.0..90.0).contains(&(edge_x(0.0) - roll_x(0.0))));
    }

    #[test]
    fn it_takes_the_colour_of_the_jacket() {
        let [dark, light] = [0x101010, 0xd8d2c4].map(|hex| lapel(Some(Rgb::hex(hex))));
        assert_eq!(dark.points, light.points);
        let mean = |mesh: &Mesh| mesh.tints.iter().map(|t| t.y).sum::<f32>() / mesh.tints.len() as f32;
        assert!(mean(&light) > mean(&dark) + 0.2);
    }
}
