//! Sprigs: a few stems that fan from one point and carry small flowers.

use super::Seed;
use super::stars::floret;
use crate::light::{Affine3A, Material, Mesh, Vec2, Vec3};
use crate::model::curve::{GOLDEN, TAU, cos, mix, pow, share, sin, smooth, z_to};
use crate::model::petal::{Petal, blunt, lance, pointed, strap};
use crate::model::solid::{ball, bowed, stem};
use crate::model::tone::{deeper, of_hex, paler, stem_green};

/// Places evenly over a dome: where each is, and the way it looks.
fn dome(seed: &mut Seed, n: u32, reach: f32, low: f32) -> Vec<(Vec3, Vec3)> {
    let rise = seed.rise;
    (0..n)
        .map(|i| {
            let u = pow(share(i, n), 0.5) * 0.98;
            let turn = i as f32 * GOLDEN + seed.luck.bell(0.25);
            let out = reach * u * seed.luck.about_one(0.10);
            let up = rise * mix(1.0, low, u * u) * seed.luck.about_one(0.12);
            let at = Vec3::new(out * cos(turn), out * sin(turn), up);
            (at, (at - Vec3::Z * (0.1 * rise)).normalize_or(Vec3::Z))
        })
        .collect()
}

/// Stalks from the foot of the sprig to each place.
fn stalks(places: &[(Vec3, Vec3)], radius: f32, tint: Vec3) -> Mesh {
    let mut mesh = Mesh::default();
    for (at, _) in places {
        let bow = Vec3::new(at.x * 0.12, at.y * 0.12, -0.05);
        mesh.append(&stem(&bowed(Vec3::ZERO, *at, bow, 5), 5, Material::LEAF, |v| radius * (1.0 - 0.35 * v), tint));
    }
    mesh
}

/// Waxy five-petalled flowers with a dark eye, needles, buds.
pub(super) fn waxflower(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    let eye = of_hex(0x8a2f4c);
    let places = dome(seed, 9, 0.72, 0.45);
    let mut mesh = stalks(&places, 0.022, of_hex(0x7d9355));
    for (i, (at, toward)) in places.iter().enumerate() {
        let is_bud = i % 5 == 4;
        let size = 0.30 * seed.luck.about_one(0.14);
        let one = if is_bud {
            ball(
                (10, 7),
                Material::PETAL,
                |d| 0.42 * (1.0 + 0.2 * d.z),
                |d| deeper(tint, 0.2).lerp(eye, 0.3 * (0.5 - 0.5 * d.z)),
            )
        } else {
            floret(seed, 5, tint, eye, 0.56)
        };
        mesh.append_at(&one, Affine3A::from_mat3_translation(z_to(*toward) * size, *at));
    }
    for i in 0..14 {
        let turn = i as f32 * GOLDEN;
        let needle = Petal {
            outline: pointed,
            profile: lance,
            ..Petal::along(
                [
                    Vec2::new(0.05, 0.1),
                    Vec2::new(0.3, 0.35),
                    Vec2::new(0.55, 0.42),
                    Vec2::new(seed.luck.between(0.62, 0.9), seed.luck.between(0.2, 0.7) * seed.rise),
                ],
                0.028,
            )
        };
        mesh.append(&needle.mesh(turn, (3, 8), Material::LEAF, |_, _| of_hex(0x6d8c50)));
    }
    mesh
}

/// A cloud of very many tiny white flowers.
pub(super) fn babys_breath(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    let heart = of_hex(0xdfe2bd);
    let places = dome(seed, 72, 0.92, 0.30);
    let mut mesh = stalks(&places, 0.008, of_hex(0x8fa76a));
    let double = {
        let mut mesh = Mesh::default();
        for i in 0..9 {
            let u = share(i, 9);
            let petal = Petal {
                cup: 0.6,
                outline: blunt,
                ruffle: (0.06, 1.8, i as f32),
                grain: i as f32 * 3.7,
                ..Petal::along(
                    [
                        Vec2::new(0.04, 0.0),
                        Vec2::new(0.3, 0.2),
                        Vec2::new(0.3 + 0.5 * u, mix(0.9, 0.55, u)),
                        Vec2::new(0.25 + 0.75 * u, mix(1.0, 0.5, u)),
                    ],
                    0.36,
                )
            };
            mesh.append(&petal.mesh(i as f32 * GOLDEN, (5, 5), Material::PETAL, |_, t| {
                deeper(tint, 0.10 * (1.0 - t)).lerp(heart, 0.4 * smooth(0.3, 0.0, t))
            }));
        }
        mesh
    };
    for (i, (at, toward)) in places.iter().enumerate() {
        let size = 0.135 * seed.luck.about_one(0.25) * if i % 4 == 3 { 0.6 } else { 1.0 };
        let lean =
            (*toward + Vec3::new(seed.luck.bell(0.5), seed.luck.bell(0.5), seed.luck.bell(0.3))).normalize_or(*toward);
        mesh.append_at(&double, Affine3A::from_mat3_translation(z_to(lean) * size, *at));
    }
    mesh
}

/// Papery cups crowded along flat branches.
pub(super) fn statice(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    let papery = Material { through: 0.45, fuzz: 0.1, ..Material::PETAL };
    let places = dome(seed, 44, 0.90, 0.55);
    let mut mesh = stalks(&places, 0.016, stem_green());
    let cup = |seed: &mut Seed| {
        let mut mesh = Mesh::default();
        for i in 0..5 {
            let petal = Petal {
                cup: 0.55,
                outline: blunt,
                profile: strap,
                ruffle: (0.08, 2.0, seed.luck.angle()),
                ..Petal::along(
                    [Vec2::new(0.12, 0.0), Vec2::new(0.2, 0.5), Vec2::new(0.45, 0.9), Vec2::new(1.0, 1.0)],
                    0.52,
                )
            };
            mesh.append(
                &petal
                    .mesh(i as f32 * TAU / 5.0, (6, 6), papery, |_, t| paler(deeper(tint, 0.15 * (1.0 - t)), 0.08 * t)),
            );
        }
        let mut heart = ball((6, 4), Material::MATT, |_| 0.20, |_| of_hex(0xf5f1e4));
        heart.place(Affine3A::from_translation(Vec3::Z * 0.62));
        mesh.append(&heart);
        mesh
    };
    for (at, toward) in &places {
        let size = 0.145 * seed.luck.about_one(0.2);
        let one = cup(seed);
        mesh.append_at(&one, Affine3A::from_mat3_translation(z_to(*toward) * size, *at - *toward * (0.8 * size)));
    }
    mesh
}

/// Plumes of tiny yellow beads.
pub(super) fn goldenrod(seed: &mut Seed) -> Mesh {
    let (tint, rise) = (seed.tint, seed.rise);
    let mut mesh = Mesh::default();
    for i in 0..19 {
        let turn = i as f32 * GOLDEN;
        let u = pow(share(i, 19), 0.5);
        let tip = Vec3::new(0.95 * u * cos(turn), 0.95 * u * sin(turn), rise * mix(1.0, 0.55, u * u));
        let path = bowed(Vec3::ZERO, tip, Vec3::Z * (0.18 * rise), 12);
        mesh.append(&stem(&path, 5, Material::LEAF, |_| 0.016, stem_green()));
        for (step, at) in path.iter().enumerate().skip(4) {
            for k in 0..6 {
                let around = (step * 6 + k) as f32 * GOLDEN;
                let off = Vec3::new(cos(around), sin(around), 0.6 + 0.4 * sin(around * 2.0)) * 0.055;
                let size = 0.046 * seed.luck.about_one(0.3);
                let mut bead = ball(
                    (6, 4),
                    Material::MATT,
                    |d| size * (1.0 + 0.3 * sin(d.x * 9.0)),
                    |d| deeper(tint, 0.35 * (0.5 - 0.5 * d.z)),
                );
                bead.place(Affine3A::from_translation(*at + off));
                mesh.append(&bead);
            }
        }
    }
    mesh
}
