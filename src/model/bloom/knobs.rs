//! Balls and beads: craspedia, berries, brunia, pearls, stones.

use super::Seed;
use crate::light::{Affine3A, FineWeave, Material, Mesh, MeshGrid, Vec2, Vec3, fbm};
use crate::model::curve::{GOLDEN, TAU, cos, sin, smooth, z_to};
use crate::model::petal::{Petal, lance, pointed};
use crate::model::solid::{ball, stem};
use crate::model::tone::{deeper, of_hex, paler, stem_green};

/// Directions evenly over a sphere, in a golden spiral.
pub(super) fn over_a_sphere(n: u32) -> impl Iterator<Item = Vec3> {
    (0..n).map(move |i| {
        let z = 1.0 - 2.0 * (i as f32 + 0.5) / n as f32;
        let (out, turn) = ((1.0 - z * z).max(0.0).sqrt(), i as f32 * GOLDEN);
        Vec3::new(out * cos(turn), out * sin(turn), z)
    })
}

/// A ball of tiny yellow flowers.
pub(super) fn craspedia(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    let mut mesh = ball((20, 12), Material::MATT, |_| 0.88, |_| deeper(tint, 0.7));
    for d in over_a_sphere(380) {
        let size = 0.105 * seed.luck.about_one(0.25);
        let mut tuft = Mesh::default();
        for i in 0..4 {
            let turn = i as f32 * TAU / 4.0 + seed.luck.bell(0.4);
            let mut bead = ball((5, 3), Material::MATT, |_| 0.40, |e| deeper(tint, 0.35 * (0.5 - 0.5 * e.z)));
            bead.place(Affine3A::from_translation(Vec3::new(
                0.5 * cos(turn),
                0.5 * sin(turn),
                seed.luck.between(0.0, 0.5),
            )));
            tuft.append(&bead);
        }
        tuft.place(Affine3A::from_mat3_translation(z_to(d), d * 0.90) * Affine3A::from_scale(Vec3::splat(size)));
        mesh.append(&tuft);
    }
    mesh
}

/// An egg with a shine, sepals at its foot, the rest of a style at its tip.
pub(super) fn berry(seed: &mut Seed) -> Mesh {
    let (rise, tint) = (seed.rise, seed.tint);
    let egg = |d: Vec3| 0.80 * (1.0 + 0.10 * d.z.max(0.0)) * (1.0 - 0.03 * fbm(d * 3.0, 2));
    let mut mesh = ball((28, 20), Material::BERRY, egg, |d| {
        deeper(tint, 0.10 + 0.08 * fbm(d * 5.0, 3)).lerp(stem_green(), 0.35 * smooth(-0.5, -1.0, d.z))
    });
    crate::model::solid::stretch(&mut mesh, Vec3::new(1.0, 1.0, 0.9 * rise.max(0.6)));
    mesh.place(Affine3A::from_translation(Vec3::Z * (0.9 * rise)));
    for i in 0..5 {
        let sepal = Petal {
            outline: pointed,
            profile: lance,
            cup: 0.9,
            crease: 0.05,
            grain: seed.luck.between(0.0, 90.0),
            ..Petal::along(
                [Vec2::new(0.05, 0.15), Vec2::new(0.5, 0.0), Vec2::new(0.86, 0.1), Vec2::new(1.0, 0.36 * rise)],
                0.34,
            )
        };
        mesh.append(&sepal.mesh(i as f32 * TAU / 5.0 + seed.luck.bell(0.15), (8, 10), Material::LEAF, |_, t| {
            paler(stem_green(), 0.12 * t)
        }));
    }
    for i in 0..3 {
        let turn = i as f32 * TAU / 3.0 + 0.4;
        let tip = Vec3::new(0.10 * cos(turn), 0.10 * sin(turn), 1.96 * rise);
        mesh.append(&stem(
            &[Vec3::Z * (1.62 * rise), Vec3::Z * (1.85 * rise), tip],
            5,
            Material::MATT,
            |_| 0.022,
            of_hex(0x4d3527),
        ));
    }
    mesh
}

/// A cluster of woolly balls.
pub(super) fn brunia(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    let wool = Material { fuzz: 0.35, ..Material::MATT };
    let mut mesh = Mesh::default();
    for d in over_a_sphere(13).filter(|d| d.z > -0.35) {
        let at = d * 0.66 + Vec3::Z * 0.3;
        let size = 0.36 * seed.luck.about_one(0.12);
        let mut one = ball((12, 8), wool, |_| 0.92, |_| deeper(tint, 0.35));
        for e in over_a_sphere(90) {
            let mut bead = ball((5, 3), wool, |_| 0.13, |f| paler(deeper(tint, 0.25 * (0.5 - 0.5 * f.dot(e))), 0.15));
            bead.place(Affine3A::from_translation(e * 0.92));
            one.append(&bead);
        }
        one.place(Affine3A::from_scale_rotation_translation(Vec3::splat(size), crate::light::Quat::IDENTITY, at));
        mesh.append(&one);
        mesh.append(&stem(&[Vec3::ZERO, at * 0.5, at], 5, Material::MATT, |_| 0.03, of_hex(0x7d8a63)));
    }
    mesh
}

/// A pearl.
pub(super) fn pearl(seed: &Seed) -> Mesh {
    let tint = seed.tint;
    let nacre = Material { mirror: 0.10, rough: 0.16, rough_along: 0.16, fuzz: 0.10, ..Material::BERRY };
    ball(
        (28, 18),
        nacre,
        |_| 1.0,
        |d| {
            let sheen = Vec3::new(1.0 + 0.03 * sin(4.0 * d.x), 1.0, 1.0 + 0.03 * cos(4.0 * d.y));
            tint * sheen
        },
    )
}

/// A stone with facets: a table, a crown, a pavilion.
pub(super) fn stone(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    let glass = Material { mirror: 0.35, rough: 0.06, rough_along: 0.06, weave: FineWeave::None, ..Material::BERRY };
    let rings = [(0.56, 1.0), (0.86, 0.72), (1.0, 0.46), (0.92, 0.34), (0.5, 0.1), (0.3, 0.0)];
    let n = 12;
    let mut mesh = Mesh::default();
    let corner = |ring: usize, i: u32| {
        let turn = (i as f32 + 0.5 * (ring % 2) as f32) * TAU / n as f32;
        Vec3::new(rings[ring].0 * cos(turn), rings[ring].0 * sin(turn), rings[ring].1)
    };
    let mut facet = |a: Vec3, b: Vec3, c: Vec3| {
        let tone = 0.55 + 0.45 * seed.luck.between(0.0, 1.0);
        let flat = |u: f32, v: f32| a.lerp(b, u).lerp(c, v);
        mesh.append(&Mesh::of_grid(MeshGrid::sheet(1, 1), glass, flat, |_, _| tint * tone));
    };
    for ring in 0..rings.len() - 1 {
        for i in 0..n {
            // Two triangles of a band whose rings are turned by half a step against each other.
            let shift = (ring % 2) as u32;
            let (a, b) = (corner(ring, i), corner(ring, i + 1));
            let (c, d) = (corner(ring + 1, i + shift), corner(ring + 1, i + 1 + shift));
            facet(b, a, c);
            facet(b, c, d);
        }
    }
    for i in 0..n {
        facet(corner(0, i), corner(0, i + 1), Vec3::Z);
    }
    mesh
}
