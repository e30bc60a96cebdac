//! Flowers along one stem that lies along x, the tip at +x: spikes, bells, plumes.

use super::Seed;
use crate::light::{Affine3A, Material, Mesh, Vec2, Vec3};
use crate::model::curve::{GOLDEN, PI, TAU, cos, mix, pow, share, sin, smooth, z_to};
use crate::model::petal::{Petal, lance, pointed, round_end, strap};
use crate::model::solid::{ball, bowed, stem};
use crate::model::tone::{deeper, of_hex, paler, stem_green};

/// Length over half breadth of the spikes as they are made; the fit does the rest.
const LONG: f32 = 5.0;

/// Flowers round a stem, in a golden spiral: `carry` makes the one that stands `u` along, of radius 1 and looking up z.
fn along_a_stem(
    seed: &mut Seed,
    n: u32,
    from: f32,
    reach: impl Fn(f32) -> f32,
    size: impl Fn(f32) -> f32,
    lean: f32,
    mut carry: impl FnMut(&mut Seed, f32) -> Mesh,
) -> Mesh {
    let path = bowed(Vec3::ZERO, Vec3::X * LONG, Vec3::Y * seed.luck.bell(0.12), 12);
    let mut mesh = stem(&path, 6, Material::LEAF, |v| 0.07 * (1.0 - 0.6 * v), stem_green());
    for i in 0..n {
        let u = share(i, n);
        let x = LONG * mix(from, 0.985, u);
        let turn = i as f32 * GOLDEN + seed.luck.bell(0.2);
        let out = Vec3::new(0.0, cos(turn), sin(turn));
        let toward = (out + Vec3::X * lean).normalize_or(out);
        let at = Vec3::new(x, 0.0, 0.0) + out * (reach(u) * seed.luck.about_one(0.08));
        let one = carry(seed, u);
        mesh.append_at(&one, Affine3A::from_mat3_translation(z_to(toward) * size(u), at));
    }
    mesh
}

/// Little urns with a pale rim, close, smaller toward the tip.
pub(super) fn muscari(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    along_a_stem(
        seed,
        46,
        0.18,
        |u| mix(0.42, 0.10, u),
        |u| mix(0.34, 0.16, u),
        -0.35,
        |_, u| {
            let mut urn = ball(
                (9, 8),
                Material::BERRY,
                |d| 0.80 * (1.0 - 0.25 * d.z) * (1.0 + 0.25 * smooth(0.8, 1.0, d.z)),
                |d| paler(deeper(tint, 0.15 * (1.0 - u)), 0.7 * smooth(0.72, 0.92, d.z)),
            );
            urn.place(Affine3A::from_translation(Vec3::Z * 0.6));
            urn
        },
    )
}

/// Small rosy bells among needles.
pub(super) fn heather(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    let mut mesh = along_a_stem(
        seed,
        60,
        0.12,
        |u| mix(0.34, 0.14, u),
        |u| mix(0.20, 0.13, u),
        0.4,
        |_, _| {
            ball(
                (7, 5),
                Material::PETAL,
                |d| 0.85 * (1.0 - 0.2 * d.z),
                |d| paler(deeper(tint, 0.12), 0.2 * d.z.max(0.0)),
            )
        },
    );
    let green = of_hex(0x5d7a45);
    for i in 0..60 {
        let turn = i as f32 * GOLDEN + 0.8;
        let at = Vec3::X * (LONG * share(i, 60) * 0.97);
        let out = Vec3::new(0.9, cos(turn), sin(turn)).normalize();
        mesh.append(&stem(
            &[at, at + out * 0.22, at + out * 0.42],
            4,
            Material::LEAF,
            |v| 0.028 * (1.0 - 0.8 * v),
            green,
        ));
    }
    mesh
}

/// Whorls of violet buds with gaps between them.
pub(super) fn lavender(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    let grey = of_hex(0x9a93a8);
    let path = bowed(Vec3::ZERO, Vec3::X * LONG, Vec3::ZERO, 8);
    let mut mesh = stem(&path, 6, Material::LEAF, |_| 0.06, of_hex(0x8fa184));
    for whorl in 0..8 {
        let u = share(whorl, 8);
        let x = LONG * mix(0.26, 0.95, pow(u, 0.9));
        let n = 9;
        for i in 0..n {
            let turn = (i as f32 + 0.5 * (whorl % 2) as f32) * TAU / n as f32 + seed.luck.bell(0.15);
            let out = Vec3::new(0.85, cos(turn), sin(turn)).normalize();
            let size = mix(0.30, 0.18, u) * seed.luck.about_one(0.12);
            let mut bud = ball(
                (7, 6),
                Material { fuzz: 0.25, ..Material::PETAL },
                |d| 0.42 + 0.5 * d.z.abs(),
                |d| deeper(tint, 0.15).lerp(grey, 0.55 * smooth(0.2, -0.8, d.z)),
            );
            bud.place(Affine3A::from_mat3_translation(z_to(out) * size, Vec3::X * x + out * (0.9 * size)));
            mesh.append(&bud);
            if i % 3 == 0 {
                let petal = Petal {
                    outline: round_end,
                    cup: 0.5,
                    ..Petal::along(
                        [Vec2::new(0.0, 0.6), Vec2::new(0.2, 1.2), Vec2::new(0.5, 1.5), Vec2::new(0.9, 1.5)],
                        0.4,
                    )
                };
                let open = petal.mesh(turn, (5, 5), Material::PETAL, |_, t| paler(tint, 0.15 * t));
                mesh.append_at(
                    &open,
                    Affine3A::from_mat3_translation(z_to(out) * size, Vec3::X * x + out * (0.6 * size)),
                );
            }
        }
    }
    mesh
}

/// A slender spire of tiny flowers with long stamens, buds at the tip.
pub(super) fn veronica(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    along_a_stem(
        seed,
        100,
        0.10,
        |u| mix(0.26, 0.05, pow(u, 1.4)),
        |u| mix(0.17, 0.07, u),
        0.25,
        |seed, u| {
            if u > 0.72 {
                return ball(
                    (6, 4),
                    Material::PETAL,
                    |_| 0.7,
                    |_| deeper(tint, 0.1).lerp(of_hex(0x9db27a), 0.5 * smooth(0.8, 1.0, u)),
                );
            }
            let mut mesh = Mesh::default();
            for i in 0..4 {
                let petal = Petal {
                    outline: pointed,
                    profile: strap,
                    cup: 0.5,
                    ..Petal::along(
                        [Vec2::new(0.05, 0.0), Vec2::new(0.3, 0.4), Vec2::new(0.7, 0.5), Vec2::new(1.0, 0.4)],
                        0.4,
                    )
                };
                mesh.append(&petal.mesh(i as f32 * PI / 2.0 + seed.luck.bell(0.2), (4, 4), Material::PETAL, |_, t| {
                    paler(tint, 0.15 * (1.0 - t))
                }));
            }
            for side in [-0.35, 0.35] {
                mesh.append(&stem(
                    &[Vec3::Z * 0.2, Vec3::new(side * 0.5, 0.0, 1.0), Vec3::new(side, 0.2, 1.9)],
                    3,
                    Material::MATT,
                    |_| 0.05,
                    paler(tint, 0.3),
                ));
            }
            mesh
        },
    )
}

/// Nodding white bells on one side of a bowed stem, a leaf behind.
pub(super) fn bells(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    let bow = Vec3::new(0.0, 0.55, 0.5);
    let path = bowed(Vec3::ZERO, Vec3::X * LONG, bow, 14);
    let green = stem_green();
    let mut mesh = stem(&path, 6, Material::LEAF, |v| 0.055 * (1.0 - 0.5 * v), paler(green, 0.15));
    for i in 0..10 {
        let u = share(i, 10);
        let at = path[(2.0 + u * 12.0) as usize];
        let side = if i % 2 == 0 { 1.0 } else { -0.7 };
        let size = mix(0.46, 0.20, u) * seed.luck.about_one(0.06);
        let hang = Vec3::new(0.25, side, 0.35 + seed.luck.bell(0.15)).normalize();
        let neck = at + hang * (0.42 * size + 0.12);
        mesh.append(&stem(&bowed(at, neck, Vec3::Z * 0.05, 4), 4, Material::LEAF, |_| 0.022, green));
        let mut bell = Mesh::default();
        for k in 0..6 {
            let lobe = Petal {
                outline: |s| 0.5 + 0.5 * pointed(s),
                cup: 0.62,
                roll: (0.74, 1.7),
                ..Petal::along(
                    [Vec2::new(0.06, 0.0), Vec2::new(0.72, 0.0), Vec2::new(0.66, 0.7), Vec2::new(0.60, 1.15)],
                    0.36,
                )
            };
            bell.append(
                &lobe.mesh(k as f32 * TAU / 6.0, (7, 12), Material::PETAL, |_, t| paler(deeper(tint, 0.05), 0.05 * t)),
            );
        }
        mesh.append_at(&bell, Affine3A::from_mat3_translation(z_to(hang) * size, neck));
    }
    let blade = Petal {
        outline: pointed,
        profile: lance,
        cup: 1.0,
        crease: 0.2,
        ..Petal::along(
            [
                Vec2::new(0.0, -0.1),
                Vec2::new(0.35 * LONG, -0.3),
                Vec2::new(0.65 * LONG, -0.2),
                Vec2::new(0.92 * LONG, 0.0),
            ],
            0.55,
        )
    };
    mesh.append(
        &blade.mesh(-0.05, (8, 16), Material::LEAF, |s, _| deeper(of_hex(0x4f7a45), 0.2 * smooth(0.1, 0.0, s.abs()))),
    );
    mesh
}

/// A feathery plume of very many fine branches.
pub(super) fn plume(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    let path = bowed(Vec3::ZERO, Vec3::X * LONG, Vec3::Y * 0.15, 10);
    let mut mesh = stem(&path, 5, Material::LEAF, |v| 0.05 * (1.0 - 0.7 * v), deeper(tint, 0.2));
    for i in 0..70 {
        let u = share(i, 70);
        let turn = i as f32 * GOLDEN;
        let at = Vec3::X * (LONG * mix(0.06, 0.95, u));
        let long = mix(1.15, 0.35, u) * seed.luck.about_one(0.15);
        let out = Vec3::new(0.9, cos(turn), 0.55 * sin(turn).abs() - 0.1).normalize();
        let tip = at + out * long;
        mesh.append(&stem(&bowed(at, tip, Vec3::X * 0.06, 4), 3, Material::LEAF, |v| 0.016 * (1.0 - 0.6 * v), tint));
        for k in 1..6 {
            let foot = at.lerp(tip, k as f32 / 6.0);
            for side in [-1.0, 1.0] {
                let off =
                    (out + Vec3::new(-out.y, out.x, 0.3) * side * 0.8).normalize() * (0.20 * (1.0 - 0.1 * k as f32));
                mesh.append(&stem(
                    &[foot, foot + off * 0.6, foot + off],
                    3,
                    Material::LEAF,
                    |v| 0.011 * (1.0 - 0.7 * v),
                    paler(tint, 0.06),
                ));
            }
        }
    }
    mesh
}
