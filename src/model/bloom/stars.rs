//! Flowers of a few petals in a ring about a throat.

use super::Seed;
use super::cups::stamens;
use crate::light::{Affine3A, Material, Mesh, Vec2, Vec3};
use crate::model::curve::{PI, TAU, cos, mix, sin, smooth};
use crate::model::petal::{Petal, clawed, lance, notched, pointed, round_end, rounded};
use crate::model::solid::{ball, stem};
use crate::model::tone::{deeper, of_hex, paler, stem_green};

fn p(r: f32, z: f32) -> Vec2 {
    Vec2::new(r, z)
}

/// The tube under a ring of petals.
pub(super) fn tube(foot: f32, mouth: f32, height: f32, material: Material, tint: Vec3) -> Mesh {
    let path: Vec<Vec3> = (0..=6).map(|i| Vec3::Z * (height * i as f32 / 6.0)).collect();
    stem(&path, 12, material, |v| mix(foot, mouth, v * v), tint)
}

/// `n` petals like this one; each a little different.
fn ring(
    seed: &mut Seed,
    n: u32,
    from: f32,
    plain: Petal,
    material: Material,
    tint: impl Fn(f32, f32) -> Vec3 + Copy,
) -> Mesh {
    let mut mesh = Mesh::default();
    for i in 0..n {
        let mut petal = plain;
        let (long, up) = (seed.luck.about_one(0.05), seed.luck.about_one(0.10));
        petal.spine[2] *= Vec2::new(long, up);
        petal.spine[3] *= Vec2::new(long, up);
        petal.half *= seed.luck.about_one(0.06);
        petal.ruffle.2 = seed.luck.angle();
        petal.grain = seed.luck.between(0.0, 90.0);
        let turn = from + i as f32 * TAU / n.max(1) as f32 + seed.luck.bell(0.06);
        mesh.append(&petal.mesh(turn, (12, 14), material, tint));
    }
    mesh
}

/// Six rounded petals on a long funnel, yellow in the throat.
pub(super) fn freesia(seed: &mut Seed) -> Mesh {
    let (rise, open, tint) = (seed.rise, seed.open, seed.tint);
    let mouth = 0.42 * rise;
    let throat = of_hex(0xf0cf52);
    let mut mesh = tube(0.06, 0.26, mouth, Material::PETAL, deeper(tint, 0.12).lerp(of_hex(0xc8cf86), 0.25));
    for (from, up, wide) in [(0.0, 0.86, 0.40), (PI / 6.0 * 2.0, 1.0, 0.34)] {
        let rim = mix(0.4, 0.98, open);
        let petal = Petal {
            cup: 0.5,
            outline: round_end,
            ruffle: (0.02, 1.6, 0.0),
            roll: (0.72, 0.5 * open),
            ..Petal::along(
                [p(0.06, 0.2 * rise), p(0.26, mouth), p(0.5 * rim, 0.9 * up * rise), p(rim, up * rise)],
                wide,
            )
        };
        mesh.append(&ring(seed, 3, from, petal, Material::PETAL, |s, t| {
            let vein = 0.03 * sin(s * 30.0);
            paler(deeper(tint, (0.06 + vein).max(0.0)), 0.08 * t).lerp(throat, 0.85 * smooth(0.42, 0.18, t))
        }));
    }
    mesh.append(&stamens(seed, 4, 0.10, 0.78 * rise, 0.05, of_hex(0xf2ead0), of_hex(0xf2e7c0)));
    mesh
}

/// Five waxy lobes, flat upon a tube.
pub(super) fn stephanotis(seed: &mut Seed) -> Mesh {
    let (rise, open, tint) = (seed.rise, seed.open, seed.tint);
    let wax = Material { mirror: 0.045, rough: 0.30, rough_along: 0.30, ..Material::PETAL };
    let mouth = 0.78 * rise;
    let mut mesh = tube(0.20, 0.24, mouth, wax, paler(tint, 0.1).lerp(of_hex(0xd8dfae), 0.25));
    let petal = Petal {
        cup: 0.55,
        outline: |s| 0.4 * pointed(s) + 0.6 * round_end(s),
        profile: |t| 0.62 + 0.38 * sin(PI * t),
        roll: (0.55, 0.9 * open),
        ..Petal::along(
            [
                p(0.14, mouth * 0.9),
                p(0.24, mouth * 1.05),
                p(mix(0.3, 0.6, open), rise * 1.02),
                p(mix(0.4, 1.0, open), rise * mix(1.2, 0.98, open)),
            ],
            0.40,
        )
    };
    mesh.append(&ring(seed, 5, 0.0, petal, wax, |_, t| paler(deeper(tint, 0.10 * (1.0 - t)), 0.05)));
    let mut eye = ball((10, 6), Material::MATT, |_| 0.12, |_| deeper(of_hex(0xd9d7a8), 0.3));
    eye.place(Affine3A::from_translation(Vec3::Z * (mouth * 0.9)));
    mesh.append(&eye);
    mesh
}

/// Three broad and three streaked petals, long curved stamens.
pub(super) fn alstroemeria(seed: &mut Seed) -> Mesh {
    let (rise, open, tint) = (seed.rise, seed.open, seed.tint);
    let rim = mix(0.4, 1.0, open);
    let dark = of_hex(0x4a1526);
    let spine = |out: f32, up: f32| {
        [p(0.05, 0.0), p(0.16, 0.5 * rise), p(0.45 * rim, 0.86 * up * rise), p(out * rim, up * rise)]
    };
    let outer = Petal {
        cup: 0.7,
        outline: notched,
        profile: clawed,
        roll: (0.72, 0.8 * open),
        ruffle: (0.02, 1.5, 0.0),
        ..Petal::along(spine(1.0, 0.90), 0.40)
    };
    let inner = Petal {
        cup: 0.45,
        outline: pointed,
        profile: lance,
        roll: (0.78, 0.5 * open),
        ..Petal::along(spine(0.96, 1.0), 0.33)
    };
    let tip = stem_green();
    let mut mesh = ring(seed, 3, 0.0, outer, Material::PETAL, |s, t| {
        paler(deeper(tint, 0.10 * (1.0 - t)), 0.05).lerp(tip, 0.45 * smooth(0.90, 1.0, t) * smooth(0.3, 0.0, s.abs()))
    });
    let yellow = of_hex(0xf3d98a);
    mesh.append(&ring(seed, 3, PI / 3.0, inner, Material::PETAL, |s, t| {
        let stripe = smooth(0.55, 0.85, sin(s * 22.0 + sin(t * 9.0)))
            * smooth(0.30, 0.42, t)
            * smooth(0.86, 0.70, t)
            * f32::from((t * 11.0).fract() < 0.62);
        let body = tint.lerp(yellow, 0.65 * smooth(0.75, 0.45, t));
        body.lerp(dark, 0.85 * stripe)
    }));
    mesh.append(&stamens(seed, 6, 0.26, 0.98 * rise, 0.05, of_hex(0x7a6a55), tint));
    mesh
}

/// Six narrow petals, curled far back and waved, long stamens.
pub(super) fn nerine(seed: &mut Seed) -> Mesh {
    let (rise, open, tint) = (seed.rise, seed.open, seed.tint);
    let rim = mix(0.35, 0.92, open);
    let petal = Petal {
        outline: pointed,
        profile: lance,
        cup: 0.4,
        roll: (0.52, 1.9 * open),
        ruffle: (0.05, 1.2, 0.0),
        ..Petal::along([p(0.05, 0.0), p(0.2, 0.5 * rise), p(0.5 * rim, 0.95 * rise), p(rim, rise)], 0.25)
    };
    let mut mesh = ring(seed, 6, 0.0, petal, Material::PETAL, |s, t| {
        deeper(tint, 0.20 * smooth(0.3, 0.0, s.abs())).lerp(paler(tint, 0.3), 0.5 * smooth(0.5, 0.9, s.abs()) * t)
    });
    mesh.append(&stamens(seed, 7, 0.42, 1.15 * rise, 0.05, of_hex(0x6b3a4a), paler(tint, 0.2)));
    mesh
}

/// Five pointed petals about a paler eye, flat: tweedia, and the florets of bouvardia with four.
pub(super) fn star_floret(seed: &mut Seed) -> Mesh {
    let (rise, open, tint) = (seed.rise, seed.open, seed.tint);
    let mouth = 0.55 * rise;
    let n = if rise > 1.1 { 4 } else { 5 };
    let wide = if n == 4 { 0.42 } else { 0.32 };
    let mut mesh = tube(0.08, 0.15, mouth, Material::PETAL, deeper(tint, 0.1));
    let petal = Petal {
        outline: |s| 0.6 * pointed(s) + 0.4 * round_end(s),
        profile: |t| 0.4 + 0.6 * sin(PI * (0.12 + 0.76 * t)),
        cup: 0.6,
        roll: (0.6, 0.5 * open),
        crease: 0.06,
        ..Petal::along(
            [p(0.10, mouth), p(0.2, mouth * 1.25), p(mix(0.2, 0.6, open), rise), p(mix(0.35, 1.0, open), rise * 0.98)],
            wide,
        )
    };
    let eye = paler(tint, 0.5);
    mesh.append(&ring(seed, n, 0.0, petal, Material::PETAL, |s, t| {
        deeper(tint, 0.10 * smooth(0.3, 0.0, s.abs())).lerp(eye, 0.7 * smooth(0.28, 0.08, t))
    }));
    mesh.append(&stamens(seed, 5, 0.07, rise * 1.02, 0.05, of_hex(0xf3ecd2), of_hex(0xe9e4c8)));
    mesh
}

/// Five broad petals with a small pale middle of its own.
pub(super) fn delphinium(seed: &mut Seed) -> Mesh {
    let (rise, open, tint) = (seed.rise, seed.open, seed.tint);
    let rim = mix(0.4, 1.0, open);
    let mut mesh = Mesh::default();
    for (from, wide, up) in [(0.0, 0.52, 0.75), (PI / 5.0, 0.46, 0.9)] {
        let petal = Petal {
            cup: 1.1,
            outline: round_end,
            profile: clawed,
            ruffle: (0.045, 1.8, 0.0),
            roll: (0.75, 0.4),
            ..Petal::along(
                [p(0.04, 0.1 * rise), p(0.3 * rim, 0.25 * rise), p(0.7 * rim, 0.6 * up * rise), p(rim, up * rise)],
                wide,
            )
        };
        mesh.append(&ring(seed, 5, from, petal, Material::PETAL, |s, t| {
            let vein = 0.05 * sin(s * 26.0);
            let violet = of_hex(0x8a6fc0);
            deeper(tint, (0.10 * (1.0 - t) + vein).max(0.0))
                .lerp(violet * tint.max_element(), 0.25 * smooth(0.2, 0.8, t))
        }));
    }
    let bee = Petal {
        cup: 0.16,
        outline: notched,
        ruffle: (0.03, 2.0, 0.3),
        ..Petal::along([p(0.02, 0.2 * rise), p(0.06, 0.7 * rise), p(0.18, 1.0 * rise), p(0.34, 1.05 * rise)], 0.17)
    };
    let white = of_hex(0xf5f2ea);
    mesh.append(&ring(seed, 4, 0.4, bee, Material::PETAL, |_, t| deeper(white, 0.2 * (1.0 - t))));
    mesh
}

/// Four broad round petals, flat, a bead in the middle.
pub(super) fn hydrangea(seed: &mut Seed) -> Mesh {
    let (rise, open, tint) = (seed.rise, seed.open, seed.tint);
    let rim = mix(0.45, 1.0, open);
    let petal = Petal {
        cup: 1.4,
        outline: round_end,
        profile: |t| 0.28 + 0.72 * smooth(0.0, 0.55, t),
        crease: 0.08,
        ruffle: (0.03, 1.3, 0.0),
        roll: (0.7, 0.35),
        ..Petal::along(
            [
                p(0.03, 0.2 * rise),
                p(0.3 * rim, 0.4 * rise),
                p(0.7 * rim, 0.8 * rise),
                p(rim, mix(1.6, 0.9, open) * rise),
            ],
            0.60,
        )
    };
    let green = of_hex(0xcfdba6);
    let mut mesh = ring(seed, 4, PI / 4.0, petal, Material::PETAL, |s, t| {
        let vein = 0.05 * smooth(0.85, 1.0, sin(s * 20.0 + t * 4.0)) + 0.10 * smooth(0.06, 0.0, s.abs());
        deeper(tint, (0.04 + vein).max(0.0))
            .lerp(green * tint.max_element(), 0.5 * smooth(0.35, 0.05, t) + 0.5 * (1.0 - open))
    });
    let mut eye = ball((10, 6), Material::BERRY, |_| 0.10, |_| paler(deeper(tint, 0.3), 0.2));
    eye.place(Affine3A::from_translation(Vec3::Z * (0.55 * rise)));
    mesh.append(&eye);
    mesh
}

/// A small five-petalled floret that sprigs carry: radius 1, standing on z = 0.
pub(super) fn floret(luck_seed: &mut Seed, n: u32, tint: Vec3, heart: Vec3, wide: f32) -> Mesh {
    let petal = Petal {
        cup: 0.8,
        outline: round_end,
        profile: rounded,
        ruffle: (0.03, 1.4, 0.0),
        ..Petal::along([p(0.10, 0.22), p(0.35, 0.28), p(0.7, 0.40), p(1.0, 0.46)], wide)
    };
    let mut mesh = Mesh::default();
    for i in 0..n {
        let mut one = petal;
        one.spine[3].y *= luck_seed.luck.about_one(0.25);
        one.grain = luck_seed.luck.between(0.0, 90.0);
        mesh.append(&one.mesh(
            i as f32 * TAU / n as f32 + luck_seed.luck.bell(0.08),
            (7, 7),
            Material::PETAL,
            |_, t| deeper(tint, 0.10 * (1.0 - t)).lerp(heart, 0.7 * smooth(0.24, 0.05, t)),
        ));
    }
    let cup = ball((10, 5), Material::MATT, |d| 0.22 * (1.0 - 0.25 * d.z), |d| deeper(heart, 0.25 * (1.0 - d.z)));
    let mut cup = cup;
    cup.place(Affine3A::from_translation(Vec3::Z * 0.18));
    mesh.append(&cup);
    for i in 0..n {
        let turn = (i as f32 + 0.5) * TAU / n as f32;
        let mut bead = ball((5, 3), Material::MATT, |_| 0.05, |_| paler(tint, 0.3));
        bead.place(Affine3A::from_translation(Vec3::new(0.27 * cos(turn), 0.27 * sin(turn), 0.42)));
        mesh.append(&bead);
    }
    mesh
}
