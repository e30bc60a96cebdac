//! Leaves and greens, lying along x with the tip at +x.

use super::Seed;
use crate::light::{Affine3A, Material, Mesh, MeshGrid, Vec2, Vec3, fbm, noise};
use crate::model::curve::{GOLDEN, PI, cos, mix, pow, share, sin, smooth, turn_z};
use crate::model::petal::{Petal, lance, pointed, round_end};
use crate::model::solid::{bowed, stem};
use crate::model::tone::{deeper, of_hex, paler};

/// What a blade is like: half its width along its length, folds, waves, veins.
struct LeafBlade {
    half: f32,
    profile: fn(f32) -> f32,
    /// How far its sides rise from the midrib, and how far its tip bends.
    fold: f32,
    bend: f32,
    waves: f32,
    veins: f32,
    tint: Vec3,
    material: Material,
}

/// A blade along x from 0 to 1 with a midrib.
fn blade(seed: &mut Seed, b: &LeafBlade) -> Mesh {
    let (phase, grain) = (seed.luck.angle(), seed.luck.between(0.0, 80.0));
    let (sway, curl) = (seed.luck.bell(0.05), seed.luck.about_one(0.25));
    let at = |u: f32, v: f32| {
        let s = 1.0 - 2.0 * u;
        let half = b.half * (b.profile)(v);
        let rib = -0.035 * smooth(0.09, 0.0, s.abs()) * (1.0 - v);
        let vein = 0.006 * b.veins * sin((v * 13.0 - s.abs() * 4.5) * PI) * smooth(0.05, 0.3, s.abs());
        let wave = b.waves * half * sin(v * 9.0 + phase + s) * s * s;
        let z = b.fold * half * s.abs() * 1.1 + rib + vein + wave - b.bend * curl * v * v
            + 0.02 * noise(Vec3::new(v * 3.0, s, grain));
        Vec3::new(v, s * half + sway * sin(v * PI), z)
    };
    let tint = |u: f32, v: f32| {
        let s = 1.0 - 2.0 * u;
        let rib = smooth(0.07, 0.0, s.abs()) * (1.0 - 0.6 * v);
        let side = smooth(0.75, 1.0, sin((v * 13.0 - s.abs() * 4.5) * PI)) * b.veins;
        let mottle = 0.10 * fbm(Vec3::new(v * 7.0, s * 3.0, grain), 3);
        paler(deeper(b.tint, (0.06 + mottle).max(0.0)), 0.24 * rib + 0.07 * side + 0.04 * smooth(0.93, 1.0, s.abs()))
    };
    Mesh::of_grid(MeshGrid::sheet(20, 30), b.material, at, tint)
}

fn oval_leaf(t: f32) -> f32 {
    pow(sin(PI * pow(t, 0.85)), 0.8) * (1.0 - 0.12 * t)
}

/// A broad glossy leaf: salal, ruscus, camellia.
pub(super) fn broad(seed: &mut Seed, breadth: f32) -> Mesh {
    let tint = seed.tint;
    blade(
        seed,
        &LeafBlade {
            half: 0.5 * breadth,
            profile: oval_leaf,
            fold: 0.20,
            bend: 0.13,
            waves: 0.05,
            veins: 1.0,
            tint,
            material: Material::LEAF,
        },
    )
}

/// A narrow leaf: olive, willow, italian ruscus.
pub(super) fn narrow(seed: &mut Seed, breadth: f32) -> Mesh {
    let tint = seed.tint;
    blade(
        seed,
        &LeafBlade {
            half: 0.5 * breadth,
            profile: |t| sin(PI * pow(t, 0.9)) * (1.0 - 0.2 * t),
            fold: 0.30,
            bend: 0.16,
            waves: 0.03,
            veins: 0.5,
            tint,
            material: Material::LEAF,
        },
    )
}

/// A stem with pairs of round grey leaves.
pub(super) fn eucalyptus(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    let matt = Material { rough: 0.55, rough_along: 0.55, mirror: 0.03, fuzz: 0.10, ..Material::LEAF };
    let path = bowed(Vec3::ZERO, Vec3::X * 2.0, Vec3::Y * 0.08, 10);
    let mut mesh = stem(&path, 6, Material::LEAF, |v| 0.022 * (1.0 - 0.6 * v), of_hex(0x9a8a6c));
    let pairs = 6;
    for i in 0..pairs {
        let u = share(i, pairs);
        let at = path[(1.0 + u * 8.8) as usize];
        for side in [-1.0, 1.0] {
            let size = mix(0.50, 0.24, u) * seed.luck.about_one(0.08);
            let disc = Petal {
                outline: round_end,
                profile: |t| pow(sin(PI * (0.06 + 0.90 * pow(t, 0.75))), 0.55),
                cup: 1.4,
                crease: 0.07,
                grain: seed.luck.between(0.0, 90.0),
                ..Petal::along(
                    [
                        Vec2::new(0.06, 0.0),
                        Vec2::new(0.4, 0.10),
                        Vec2::new(0.75, 0.10),
                        Vec2::new(1.0, seed.luck.bell(0.18)),
                    ],
                    0.48,
                )
            };
            let leaf = disc.mesh(0.0, (12, 12), matt, |s, t| {
                let rib = 0.16 * smooth(0.07, 0.0, s.abs()) * (1.0 - t);
                paler(deeper(tint, 0.06 * (1.0 - t)), rib + 0.06 * smooth(0.85, 1.0, s.abs()))
                    .lerp(of_hex(0xb98f86), 0.16 * smooth(0.9, 1.0, t))
            });
            let turn = side * mix(1.15, 0.55, u) + seed.luck.bell(0.12);
            let lift = Vec3::Z * if i % 2 == 0 { 0.02 } else { 0.08 };
            mesh.append_at(&leaf, Affine3A::from_mat3_translation(turn_z(turn) * size, at + lift));
        }
    }
    mesh
}

/// A fern: leaflets on both sides of a rib.
pub(super) fn frond(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    let path = bowed(Vec3::ZERO, Vec3::X * 2.0, Vec3::Y * 0.06, 12);
    let mut mesh = stem(&path, 5, Material::LEAF, |v| 0.016 * (1.0 - 0.7 * v), deeper(tint, 0.2));
    let n = 17;
    for i in 0..n {
        let u = share(i, n);
        for side in [-1.0, 1.0] {
            let long = 0.58 * (1.0 - 0.80 * u) * smooth(-0.25, 0.25, u) * seed.luck.about_one(0.05);
            let leaflet = Petal {
                outline: pointed,
                profile: |t| 0.7 + 0.3 * sin(PI * t),
                crease: 0.18,
                grain: seed.luck.between(0.0, 90.0),
                ..Petal::along([Vec2::ZERO, Vec2::new(0.35, 0.05), Vec2::new(0.7, 0.02), Vec2::new(1.0, -0.12)], 0.16)
            };
            let mesh_of =
                leaflet.mesh(0.0, (6, 9), Material::LEAF, |s, _| deeper(tint, 0.10 * smooth(0.15, 0.0, s.abs())));
            let at = Vec3::new(2.0 * mix(0.06, 0.97, u), 0.06 * sin(u * PI), 0.0);
            let turn = side * mix(1.25, 0.7, u);
            mesh.append_at(&mesh_of, Affine3A::from_mat3_translation(turn_z(turn) * long, at));
        }
    }
    mesh
}

/// Five lobes, pale veins, a paler rim where it is variegated.
pub(super) fn ivy(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    let grain = seed.luck.between(0.0, 80.0);
    let lobes = |a: f32| {
        // Direction from the leaf's foot; five points, the middle one longest.
        let point = |at: f32, high: f32, wide: f32| high * (1.0 - smooth(0.0, wide, (a - at).abs()));
        0.42 + point(0.0, 0.58, 0.62)
            + point(1.0, 0.34, 0.55)
            + point(-1.0, 0.34, 0.55)
            + point(1.95, 0.10, 0.5)
            + point(-1.95, 0.10, 0.5)
    };
    let cream = of_hex(0xe6e3c4);
    let at = |u: f32, v: f32| {
        let a = (u - 0.5) * 4.9;
        let r = lobes(a) * v;
        let rib = 0.03 * smooth(0.12, 0.0, a.abs().min((a.abs() - 1.0).abs())) * (1.0 - v);
        Vec3::new(r * cos(a), -r * sin(a), 0.07 * v * v * cos(a * 3.1) - rib - 0.05 * v * v * smooth(0.6, 1.0, v))
    };
    let paint = |u: f32, v: f32| {
        let a = (u - 0.5) * 4.9;
        let vein = smooth(0.07, 0.0, a.abs().min((a.abs() - 1.0).abs()).min((a.abs() - 1.95).abs())) * (1.0 - 0.5 * v);
        let rim = smooth(0.70, 0.86, v + 0.20 * fbm(Vec3::new(u * 5.0, v * 3.0, grain), 3));
        paler(deeper(tint, 0.10 + 0.10 * fbm(Vec3::new(u * 9.0, v * 6.0, grain), 2)), 0.35 * vein)
            .lerp(cream, 0.30 * rim)
    };
    let mut mesh = Mesh::of_grid(MeshGrid::sheet(56, 16), Material::LEAF, at, paint);
    mesh.append(&stem(
        &[Vec3::new(-0.35, 0.05, -0.05), Vec3::new(-0.15, 0.0, -0.03), Vec3::ZERO],
        5,
        Material::LEAF,
        |_| 0.018,
        of_hex(0x8a7a5a),
    ));
    mesh
}

/// A felted silver leaf, deeply cut.
pub(super) fn felt(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    let felted = Material { rough: 0.9, rough_along: 0.9, mirror: 0.02, fuzz: 0.45, through: 0.1, ..Material::MATT };
    let mut mesh = Mesh::default();
    let rib = bowed(Vec3::ZERO, Vec3::X * 1.9, Vec3::Z * 0.05, 8);
    mesh.append(&stem(&rib, 6, felted, |v| 0.045 * (1.0 - 0.5 * v), paler(tint, 0.1)));
    let n = 6;
    for i in 0..n {
        let u = share(i, n);
        let sides: &[f32] = if i == n - 1 { &[0.0] } else { &[-1.0, 1.0] };
        for side in sides {
            let lobe = Petal {
                outline: |s| round_end(s) - 0.10 * smooth(0.45, 0.65, s.abs()),
                profile: |t| 0.55 + 0.45 * smooth(0.2, 0.8, t),
                cup: 0.9,
                crease: 0.08,
                grain: seed.luck.between(0.0, 90.0),
                ..Petal::along([Vec2::ZERO, Vec2::new(0.3, 0.08), Vec2::new(0.7, 0.10), Vec2::new(1.0, 0.02)], 0.34)
            };
            let one = lobe.mesh(0.0, (10, 12), felted, |s, t| {
                paler(deeper(tint, 0.06 * (1.0 - t)), 0.12 * smooth(0.1, 0.0, s.abs()))
            });
            let long = mix(0.66, 0.42, u) * seed.luck.about_one(0.07);
            mesh.append_at(
                &one,
                Affine3A::from_mat3_translation(
                    turn_z(side * mix(1.0, 0.55, u)) * long,
                    Vec3::X * (1.9 * mix(0.18, 0.93, u)),
                ),
            );
        }
    }
    mesh
}

/// A sprig of needles.
pub(super) fn needle(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    let path = bowed(Vec3::ZERO, Vec3::X * 2.4, Vec3::Y * 0.06, 8);
    let mut mesh = stem(&path, 6, Material::LEAF, |v| 0.03 * (1.0 - 0.6 * v), of_hex(0x857257));
    for i in 0..90 {
        let u = share(i, 90);
        let turn = i as f32 * GOLDEN;
        let out = Vec3::new(0.95, cos(turn), 0.7 * sin(turn)).normalize();
        let at = Vec3::new(2.4 * mix(0.03, 0.98, u), 0.06 * sin(u * PI), 0.0);
        let long = mix(0.50, 0.30, u) * seed.luck.about_one(0.12);
        let tone = seed.luck.bell(0.10);
        mesh.append(&stem(
            &bowed(at, at + out * long, Vec3::X * 0.02, 3),
            4,
            Material::LEAF,
            |v| 0.020 * (1.0 - 0.7 * v),
            paler(deeper(tint, tone.max(0.0)), 0.04),
        ));
    }
    mesh
}

/// A blade of grass bent to a loop.
pub(super) fn grass_loop(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    let mut mesh = Mesh::default();
    for (wide, high, shift) in [(0.34_f32, 0.50_f32, 0.0_f32), (0.24, 0.36, 0.09), (0.15, 0.25, -0.07)] {
        let lean = seed.luck.bell(0.10);
        let at = move |u: f32, v: f32| {
            // Out along one side, round, and back to the foot.
            let a = v * PI * 2.0;
            let x = 1.0 * (1.0 - cos(a)) * (0.5 + wide);
            let y = wide * sin(a) + shift;
            let strip = (u - 0.5) * 0.085;
            Vec3::new(x, y + lean * x, high * 0.35 * (1.0 - cos(a)) * 0.5 + strip)
        };
        mesh.append(&Mesh::of_grid(MeshGrid::sheet(5, 40), Material::LEAF, at, |u, v| {
            paler(deeper(tint, 0.08 * sin(v * 40.0).abs()), 0.14 * smooth(0.12, 0.0, (u - 0.5).abs()))
        }));
    }
    let tail = Petal {
        outline: pointed,
        profile: lance,
        crease: 0.15,
        ..Petal::along([Vec2::ZERO, Vec2::new(0.5, 0.05), Vec2::new(1.0, 0.06), Vec2::new(1.6, 0.0)], 0.06)
    };
    mesh.append(&tail.mesh(0.12, (5, 16), Material::LEAF, |_, _| tint));
    mesh
}
