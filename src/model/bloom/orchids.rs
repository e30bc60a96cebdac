//! Orchids: three sepals, two broad petals, a lip.

use super::Seed;
use crate::light::{Affine3A, Material, Mesh, Vec2, Vec3};
use crate::model::curve::{PI, TAU, mix, sin, smooth};
use crate::model::petal::{Petal, clawed, lance, notched, pointed, round_end};
use crate::model::solid::ball;
use crate::model::tone::{deeper, of_hex, paler};

fn p(r: f32, z: f32) -> Vec2 {
    Vec2::new(r, z)
}

/// What tells one orchid from another.
struct Build {
    sepal: (f32, fn(f32) -> f32),
    petal: (f32, fn(f32) -> f32),
    /// How far petals lean back from the face.
    back: f32,
    lip: (f32, f32),
    lip_tint: Vec3,
    lip_edge: Vec3,
    /// How strongly the veins show.
    veins: f32,
    spots: f32,
}

fn orchid(seed: &mut Seed, build: &Build) -> Mesh {
    let (rise, open, tint) = (seed.rise, seed.open, seed.tint);
    let rim = mix(0.5, 1.0, open);
    let face = 0.42 * rise;
    let waxy = Material { mirror: 0.035, rough: 0.42, rough_along: 0.42, ..Material::PETAL };
    let mut mesh = Mesh::default();
    let spine = |long: f32, up: f32| {
        let top = mix(1.4 * rise, face * up, open);
        [
            p(0.04, 0.1 * rise),
            p(0.26 * rim, 0.6 * face + 0.1),
            p(0.66 * rim * long, mix(top, face * 1.12, 0.5)),
            p(rim * long, top),
        ]
    };
    let veined = |s: f32, t: f32, deep: f32| {
        let veins = build.veins * smooth(0.4, 1.0, sin(s * 24.0)) * smooth(1.0, 0.3, t);
        paler(deeper(tint, (deep + veins).max(0.0)), 0.07 * smooth(0.75, 1.0, s.abs()))
    };
    for turn in [PI / 2.0, PI / 2.0 + TAU / 3.0, PI / 2.0 - TAU / 3.0] {
        let sepal = Petal {
            cup: 0.9,
            outline: |s| 0.5 * pointed(s) + 0.5 * round_end(s),
            profile: build.sepal.1,
            roll: (0.72, 0.35),
            crease: 0.07,
            ruffle: (0.012, 1.4, seed.luck.angle()),
            grain: seed.luck.between(0.0, 90.0),
            ..Petal::along(spine(seed.luck.between(0.95, 1.0), 0.65 * build.back), build.sepal.0)
        };
        mesh.append(&sepal.mesh(turn + seed.luck.bell(0.04), (14, 18), waxy, |s, t| veined(s, t, 0.06)));
    }
    for turn in [0.22, PI - 0.22] {
        let petal = Petal {
            cup: 1.3,
            outline: round_end,
            profile: build.petal.1,
            roll: (0.70, 0.5),
            crease: 0.05,
            ruffle: (0.03, 1.6, seed.luck.angle()),
            grain: seed.luck.between(0.0, 90.0),
            ..Petal::along(spine(seed.luck.between(0.93, 0.98), 1.15), build.petal.0)
        };
        mesh.append(&petal.mesh(turn + seed.luck.bell(0.05), (20, 20), waxy, |s, t| veined(s, t, 0.02)));
    }
    mesh.append(&lip(seed, build, face, rise));
    let ivory = paler(tint, 0.6);
    let mut column = ball(
        (10, 8),
        waxy,
        |d| 0.085 * (1.0 + 0.5 * d.z.max(0.0)),
        |d| ivory.lerp(build.lip_tint, 0.5 * (-d.z).max(0.0)),
    );
    column.place(Affine3A::from_translation(Vec3::new(0.0, 0.03, face + 0.10 * rise)));
    mesh.append(&column);
    mesh
}

/// The lip, toward -y: two side lobes that stand up, a tongue that bends down, a yellow crest.
fn lip(seed: &mut Seed, build: &Build, face: f32, rise: f32) -> Mesh {
    let yellow = of_hex(0xf0c54a);
    let (long, wide) = build.lip;
    let dots = build.spots;
    let paint = |s: f32, t: f32| {
        let spot = dots * smooth(0.55, 0.8, sin(s * 21.0) * sin(t * 26.0 + s * 3.0)) * smooth(0.25, 0.45, t);
        let body = build.lip_tint.lerp(build.lip_edge, smooth(0.72, 1.0, t.max(s.abs() * 0.9)));
        deeper(body, 0.15 * (1.0 - t)).lerp(of_hex(0x6e1f36), 0.8 * spot)
    };
    let mut mesh = Mesh::default();
    let tongue = Petal {
        cup: 0.55,
        outline: notched,
        profile: clawed,
        roll: (0.55, 1.15),
        ruffle: (0.05, 2.6, seed.luck.angle()),
        ..Petal::along(
            [p(0.02, face * 0.8), p(0.12, face + 0.06), p(0.6 * long, face + 0.26 * rise), p(long, face + 0.22 * rise)],
            wide,
        )
    };
    mesh.append(&tongue.mesh(-PI / 2.0, (18, 16), Material::PETAL, paint));
    for side in [-1.0, 1.0] {
        let lobe = Petal {
            cup: 0.24,
            outline: round_end,
            profile: clawed,
            ..Petal::along(
                [
                    p(0.02, face),
                    p(0.10, face + 0.10),
                    p(0.6 * wide, face + 0.34 * rise),
                    p(0.75 * wide, face + 0.58 * rise),
                ],
                0.55 * wide,
            )
        };
        mesh.append(&lobe.mesh(-PI / 2.0 + side * 0.95, (10, 10), Material::PETAL, paint));
    }
    for side in [-1.0, 1.0] {
        let mut crest = ball((8, 5), Material::MATT, |d| 0.06 * (1.0 + 0.6 * d.y.abs()), |_| yellow);
        crest.place(Affine3A::from_translation(Vec3::new(side * 0.05, -0.20 * long - 0.04, face + 0.19 * rise)));
        mesh.append(&crest);
    }
    mesh
}

/// Pointed sepals, broad petals, a lip in a deeper colour.
pub(super) fn dendrobium(seed: &mut Seed) -> Mesh {
    let deep = of_hex(0x9c2c72);
    let tint = seed.tint;
    orchid(
        seed,
        &Build {
            sepal: (0.27, lance),
            petal: (0.40, |t| 0.22 + 0.78 * smooth(0.0, 0.6, t)),
            back: 0.7,
            lip: (0.52, 0.26),
            lip_tint: deep,
            lip_edge: deep.lerp(tint, 0.35),
            veins: 0.10,
            spots: 0.0,
        },
    )
}

/// Long equal petals that lean forward, a pale lip with dots.
pub(super) fn cymbidium(seed: &mut Seed) -> Mesh {
    orchid(
        seed,
        &Build {
            sepal: (0.29, lance),
            petal: (0.26, lance),
            back: 1.3,
            lip: (0.56, 0.32),
            lip_tint: of_hex(0xf6ecd6),
            lip_edge: of_hex(0xc86a86),
            veins: 0.07,
            spots: 0.9,
        },
    )
}

/// Two very broad round petals over narrow sepals, a small lip.
pub(super) fn phalaenopsis(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    orchid(
        seed,
        &Build {
            sepal: (0.30, |t| 0.3 + 0.7 * sin(PI * (0.1 + 0.72 * t))),
            petal: (0.66, |t| 0.14 + 0.86 * smooth(0.0, 0.5, t)),
            back: 0.6,
            lip: (0.36, 0.16),
            lip_tint: of_hex(0xb8356f),
            lip_edge: of_hex(0xd98fae).lerp(tint, 0.3),
            veins: 0.06,
            spots: 0.4,
        },
    )
}
