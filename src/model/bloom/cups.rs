//! Flowers of many petals about a heart: roses and what is built like them, cups, rosettes of leaves.

use super::Seed;
use crate::light::{Affine3A, FineWeave, Material, Mesh, MeshGrid, Vec2, Vec3};
use crate::model::curve::{GOLDEN, PI, TAU, cos, mix, pow, share, sin, smooth, turn_z};
use crate::model::petal::{Petal, blunt, clawed, lance, notched, pointed, round_end, strap, toothed};
use crate::model::solid::{ball, stem};
use crate::model::tone::{deeper, of_hex, paler, stem_green};

fn p(r: f32, z: f32) -> Vec2 {
    Vec2::new(r, z)
}

/// A rose: a shut heart, then petals that lean out farther and farther and roll back their rims.
pub(super) fn rose(seed: &mut Seed, n_petals: u32) -> Mesh {
    let (open, rise) = (seed.open, seed.rise);
    let mut mesh = heart(seed, 0.16, 0.92 * rise);
    for i in 0..n_petals {
        let u = share(i, n_petals);
        let out = mix(0.35, 1.0, open);
        let rim = 0.05 + 0.93 * pow(u, mix(1.35, 0.95, open)) * out * seed.luck.about_one(0.06);
        let top = rise * mix(0.96, mix(0.86, 0.44, open), pow(u, 1.5)) * seed.luck.about_one(0.05);
        let base = 0.03 + 0.10 * u;
        let belly = mix(1.35, mix(1.05, 0.72, open), u);
        let petal = Petal {
            cup: (rim * seed.luck.between(1.0, 1.15)).max(0.09),
            roll: (mix(0.88, 0.70, u) + seed.luck.bell(0.03), mix(0.35, 2.2, pow(u, 0.8)) * mix(0.5, 1.0, open)),
            sides: 0.10 * u * open,
            ruffle: (0.022 * (0.4 + u), 2.6, seed.luck.angle()),
            crease: 0.05 * u,
            grain: seed.luck.between(0.0, 90.0),
            outline: if i % 3 == 0 { blunt_with_tip } else { blunt },
            ..Petal::along(
                [p(base, 0.0), p(base + 0.5 * rim, 0.10 * rise), p(rim * belly, 0.58 * top), p(rim, top)],
                mix(0.24, 0.74, pow(u, 0.75)),
            )
        };
        let tint = seed.tint;
        let tone = seed.luck.bell(0.06);
        let deep = mix(0.34, 0.05, u) + tone;
        mesh.append(&petal.mesh(i as f32 * GOLDEN + seed.luck.bell(0.16), (14, 18), Material::PETAL, |s, t| {
            let rim_light = smooth(0.72, 1.0, t) * 0.14 + smooth(0.8, 1.0, s.abs()) * 0.06;
            let body = deeper(tint, (deep * mix(1.3, 0.7, t)).max(0.0));
            let green = of_hex(0xdfe3b0) * tint.max_element();
            paler(body.lerp(green, 0.35 * smooth(0.30, 0.0, t)), rim_light)
        }));
    }
    mesh
}

fn blunt_with_tip(s: f32) -> f32 {
    blunt(s) + 0.06 * smooth(0.22, 0.0, s.abs())
}

/// The shut middle of a rose: a few petals wound about each other.
fn heart(seed: &mut Seed, radius: f32, top: f32) -> Mesh {
    let mut mesh = Mesh::default();
    for i in 0..5 {
        let from = i as f32 * GOLDEN + seed.luck.bell(0.2);
        let (tint, out) = (seed.tint, 0.35 + 0.65 * i as f32 / 4.0);
        let spiral = move |u: f32, v: f32| {
            let turn = from + (u - 0.5) * 2.6;
            let r = radius * out * (0.40 + 0.30 * u + 0.50 * sin(v * PI * 0.72)) * (1.0 - 0.22 * v);
            let z = top * v * (1.0 - 0.10 * u * v) * (1.0 - 0.05 * (4 - i) as f32 * v);
            Vec3::new(r * cos(turn), r * sin(turn), z)
        };
        mesh.append(&Mesh::of_grid(MeshGrid::sheet(14, 12), Material::PETAL, spiral, |_, v| {
            paler(deeper(tint, 0.42 - 0.16 * v), 0.10 * smooth(0.85, 1.0, v))
        }));
    }
    mesh
}

/// Very many thin petals, close about a green heart.
pub(super) fn ranunculus(seed: &mut Seed) -> Mesh {
    let (open, rise, n) = (seed.open, seed.rise, 74);
    let tint = seed.tint;
    let green = of_hex(0xa9b860);
    let mut mesh = ball((14, 8), Material::MATT, |_| 0.13, |d| green * (0.8 + 0.2 * d.z));
    for point in &mut mesh.points {
        point.z += 0.80 * rise - 0.13;
    }
    for i in 0..n {
        let u = share(i, n);
        let rim = (0.10 + 0.88 * pow(u, 0.92) * mix(0.55, 1.0, open)) * seed.luck.about_one(0.03);
        let top = rise * mix(0.90, 0.46, pow(u, 1.7)) * seed.luck.about_one(0.035);
        let petal = Petal {
            cup: rim * 1.04,
            roll: (0.93, mix(-0.2, 0.5, u).max(0.0)),
            ruffle: (0.012, 2.0, seed.luck.angle()),
            grain: seed.luck.between(0.0, 90.0),
            outline: round_end,
            ..Petal::along(
                [
                    p(0.05 + 0.1 * u, 0.0),
                    p(0.3 * rim + 0.1, 0.04),
                    p(rim * 1.16, 0.50 * top),
                    p(rim * mix(0.86, 0.99, u), top),
                ],
                mix(0.20, 0.50, u),
            )
        };
        let tone = 0.20 * (1.0 - u) + seed.luck.bell(0.05);
        mesh.append(&petal.mesh(i as f32 * GOLDEN + seed.luck.bell(0.1), (10, 12), Material::PETAL, |_, t| {
            let heart = of_hex(0xc9cf8a).lerp(tint, smooth(0.0, 0.22, u));
            paler(deeper(heart, (tone + 0.25 * (1.0 - t)).max(0.0)), 0.16 * smooth(0.86, 1.0, t))
        }));
    }
    mesh
}

/// A dome of frilled petals with teeth.
pub(super) fn carnation(seed: &mut Seed) -> Mesh {
    let (open, rise, n) = (seed.open, seed.rise, 44);
    let tint = seed.tint;
    let mut mesh = calyx(0.24, 0.55 * rise);
    for i in 0..n {
        let u = share(i, n);
        let rim = 0.10 + 0.88 * pow(u, 0.72) * mix(0.45, 1.0, open);
        let top = rise * mix(1.0, 0.50, pow(u, 2.2)) * seed.luck.about_one(0.07);
        let petal = Petal {
            cup: 0.0,
            roll: (0.74, mix(0.2, 1.1, u)),
            ruffle: (seed.luck.between(0.06, 0.11), seed.luck.between(3.6, 5.2), seed.luck.angle()),
            grain: seed.luck.between(0.0, 90.0),
            outline: toothed,
            profile: clawed,
            ..Petal::along(
                [p(0.05, 0.3 * rise), p(0.10, 0.6 * rise), p(rim * 0.55, top * 0.97), p(rim, top)],
                mix(0.30, 0.70, u),
            )
        };
        let tone = mix(0.30, 0.04, u) + seed.luck.bell(0.06);
        mesh.append(&petal.mesh(i as f32 * GOLDEN + seed.luck.bell(0.3), (26, 12), Material::PETAL, |s, t| {
            let vein = 0.03 * sin(s * 40.0);
            paler(deeper(tint, (tone + 0.35 * smooth(0.7, 0.2, t) + vein).max(0.0)), 0.18 * smooth(0.88, 1.0, t))
        }));
    }
    mesh
}

/// Green sleeve under a flower.
fn calyx(radius: f32, height: f32) -> Mesh {
    let path: Vec<Vec3> = (0..=6).map(|i| Vec3::Z * (height * i as f32 / 6.0)).collect();
    stem(&path, 14, Material::LEAF, |v| radius * (0.45 + 0.55 * smooth(0.0, 0.7, v)), stem_green())
}

/// A loose cup of broad, wavy petals about pale stamens.
pub(super) fn lisianthus(seed: &mut Seed) -> Mesh {
    let (open, rise, n) = (seed.open, seed.rise, 17);
    let tint = seed.tint;
    let mut mesh = stamens(seed, 6, 0.13, 0.66 * rise, 0.05, of_hex(0xe6d36a), of_hex(0xc9d28c));
    mesh.append(&stem(
        &[Vec3::ZERO, Vec3::Z * (0.35 * rise), Vec3::Z * (0.7 * rise)],
        8,
        Material::LEAF,
        |v| 0.06 + 0.05 * smooth(0.8, 1.0, v),
        of_hex(0x9fb765),
    ));
    for i in 0..n {
        let u = share(i, n);
        let rim = (0.32 + 0.66 * u) * mix(0.45, 1.0, open) * seed.luck.about_one(0.06);
        let top = rise * mix(0.98, 0.72, u) * seed.luck.about_one(0.06);
        let petal = Petal {
            cup: rim * 1.25,
            roll: (0.76, mix(0.3, 1.5, u) * open),
            ruffle: (seed.luck.between(0.035, 0.07), seed.luck.between(2.0, 3.2), seed.luck.angle()),
            grain: seed.luck.between(0.0, 90.0),
            outline: round_end,
            ..Petal::along(
                [p(0.05, 0.0), p(0.14 + 0.3 * rim, 0.10 * rise), p(rim * 0.92, 0.5 * top), p(rim, top)],
                mix(0.42, 0.66, u),
            )
        };
        let tone = seed.luck.bell(0.06);
        mesh.append(&petal.mesh(i as f32 * GOLDEN + seed.luck.bell(0.2), (16, 16), Material::PETAL, |s, t| {
            let vein = 0.05 * sin(s * 30.0) * smooth(1.0, 0.4, t);
            let throat = of_hex(0xdfe6b4) * tint.max_element().max(0.5);
            let body = deeper(tint, (0.12 + 0.12 * t + tone + vein).max(0.0));
            paler(body.lerp(throat, 0.6 * smooth(0.36, 0.05, t)), 0.05 * smooth(0.9, 1.0, t))
        }));
    }
    mesh
}

/// Threads with a bead at their end, in a ring.
pub(super) fn stamens(seed: &mut Seed, n: u32, ring: f32, top: f32, bead: f32, tip: Vec3, thread: Vec3) -> Mesh {
    let mut mesh = Mesh::default();
    for i in 0..n {
        let turn = i as f32 * TAU / n.max(1) as f32 + seed.luck.bell(0.25);
        let out = ring * seed.luck.about_one(0.35);
        let end = Vec3::new(out * cos(turn), out * sin(turn), top * seed.luck.about_one(0.08));
        let foot = Vec3::new(end.x * 0.25, end.y * 0.25, 0.15 * top);
        mesh.append(&stem(&[foot, foot.lerp(end, 0.5), end], 5, Material::MATT, |_| bead * 0.22, thread));
        let mut head = ball((8, 5), Material::MATT, |d| bead * (0.75 + 0.25 * d.z.abs()), |_| tip);
        head.place(Affine3A::from_translation(end));
        mesh.append(&head);
    }
    mesh
}

/// Six broad petals in an egg-shaped cup.
pub(super) fn tulip(seed: &mut Seed) -> Mesh {
    let (open, rise) = (seed.open, seed.rise);
    let tint = seed.tint;
    let mut mesh = stamens(seed, 6, 0.2, 0.45 * rise, 0.07, of_hex(0x3a3040), of_hex(0x8f8a5a));
    for i in 0..6 {
        let is_outer = i % 2 == 0;
        let rim = mix(0.30, 0.74, open) * if is_outer { 1.0 } else { 0.88 } * seed.luck.about_one(0.05);
        let petal = Petal {
            cup: 0.74,
            roll: (0.85, if is_outer { 0.5 } else { 0.2 }),
            ruffle: (0.015, 1.7, seed.luck.angle()),
            crease: 0.05,
            grain: seed.luck.between(0.0, 90.0),
            outline: |s| pointed(s) * 0.35 + round_end(s) * 0.65,
            ..Petal::along([p(0.06, 0.0), p(0.86, 0.02 * rise), p(1.0, 0.55 * rise), p(rim, rise)], 0.66)
        };
        mesh.append(&petal.mesh(i as f32 * TAU / 6.0 + seed.luck.bell(0.06), (16, 20), Material::PETAL, |s, t| {
            let streak = 0.10 * smooth(0.5, 0.0, s.abs()) + 0.03 * sin(s * 46.0);
            let foot = of_hex(0xe8dfa0);
            paler(
                deeper(tint, (0.08 + streak).max(0.0)).lerp(foot, 0.7 * smooth(0.2, 0.0, t)),
                0.12 * smooth(0.82, 1.0, s.abs()),
            )
        }));
    }
    mesh
}

/// A standard behind, two wings, a keel.
pub(super) fn sweet_pea(seed: &mut Seed) -> Mesh {
    let tint = seed.tint;
    let mut mesh = Mesh::default();
    let mut add = |petal: Petal, turn: f32, deep: f32| {
        mesh.append(&petal.mesh(turn, (20, 14), Material::PETAL, |s, t| {
            let vein = 0.05 * sin(s * 34.0);
            paler(deeper(tint, (deep + vein * (1.0 - t)).max(0.0)), 0.10 * smooth(0.7, 1.0, t))
        }));
    };
    let ruffle = |luck: &mut crate::model::luck::Luck| (0.06, 2.3, luck.angle());
    add(
        Petal {
            ruffle: ruffle(&mut seed.luck),
            outline: notched,
            profile: clawed,
            crease: 0.12,
            roll: (0.55, 0.7),
            ..Petal::along([p(0.0, 0.0), p(0.12, 0.5), p(0.4, 0.9), p(0.92, 1.05)], 0.74)
        },
        PI,
        0.16,
    );
    for side in [-1.0, 1.0] {
        add(
            Petal {
                ruffle: ruffle(&mut seed.luck),
                cup: 0.6,
                outline: round_end,
                profile: clawed,
                ..Petal::along([p(0.0, 0.0), p(0.2, 0.5), p(0.45, 0.72), p(0.78, 0.66)], 0.42)
            },
            side * 0.62,
            0.02,
        );
    }
    add(Petal { cup: 0.16, ..Petal::along([p(0.0, 0.0), p(0.15, 0.4), p(0.34, 0.6), p(0.52, 0.62)], 0.2) }, 0.0, 0.0);
    mesh
}

/// A tight ball of short scoops.
pub(super) fn button_mum(seed: &mut Seed) -> Mesh {
    let (rise, n, open) = (seed.rise, 150, seed.open);
    let tint = seed.tint;
    let green = of_hex(0xb4bd52);
    let mut mesh = ball((16, 10), Material::MATT, |_| 0.5, |_| deeper(tint, 0.5));
    for point in &mut mesh.points {
        point.z = (point.z + 0.5) * 0.8 * rise;
    }
    for i in 0..n {
        let u = share(i, n);
        // Even over a dome: the angle from the top grows as the root of the share.
        let down = pow(u, 0.5) * mix(1.2, 1.75, open);
        let rim = sin(down).max(0.05) * mix(0.7, 0.98, pow(u, 0.3));
        let top = rise * (0.46 + 0.52 * cos(down));
        let base = (0.40 * sin(down), rise * (0.42 + 0.34 * cos(down)));
        let petal = Petal {
            cup: mix(0.09, 0.16, u),
            outline: round_end,
            profile: strap,
            grain: seed.luck.between(0.0, 90.0),
            ..Petal::along(
                [
                    p(base.0, base.1),
                    p(rim * 0.9, mix(base.1, top, 0.4)),
                    p(rim * 1.05, mix(base.1, top, 0.8)),
                    p(rim * 0.96, top + 0.05 * rise),
                ],
                mix(0.06, 0.135, pow(u, 0.6)),
            )
        };
        let heart = smooth(0.18, 0.0, u);
        mesh.append(&petal.mesh(i as f32 * GOLDEN, (6, 7), Material::PETAL, |_, t| {
            let body = deeper(tint, 0.30 * (1.0 - t) + 0.10 * (1.0 - u));
            paler(body.lerp(green, 0.7 * heart), 0.10 * smooth(0.7, 1.0, t))
        }));
    }
    mesh
}

/// Thick leaves in a spiral, with a bloom of wax.
pub(super) fn succulent(seed: &mut Seed) -> Mesh {
    thick_rosette(seed, 36, 1.3, of_hex(0xb9707a), 0.55)
}

/// A tuft of green leaves about a middle.
pub(super) fn rosette(seed: &mut Seed) -> Mesh {
    thick_rosette(seed, 15, 0.5, of_hex(0x9fbb70), 0.1)
}

fn thick_rosette(seed: &mut Seed, n: u32, width: f32, tip: Vec3, blush: f32) -> Mesh {
    let rise = seed.rise;
    let tint = seed.tint;
    let waxy = Material { rough: 0.45, rough_along: 0.45, fuzz: 0.12, ..Material::LEAF };
    let mut mesh = Mesh::default();
    for i in 0..n {
        let u = share(i, n);
        let rim = 0.10 + 0.90 * pow(u, 0.85);
        let top = rise * mix(1.0, 0.30, pow(u, 1.2));
        let petal = Petal {
            cup: mix(0.2, 0.55, u),
            outline: |s| pointed(s) * 0.55 + round_end(s) * 0.45,
            profile: lance,
            crease: 0.06,
            grain: seed.luck.between(0.0, 90.0),
            ..Petal::along(
                [p(0.03, 0.0), p(0.5 * rim, 0.05 * rise), p(rim * 0.95, 0.45 * top), p(rim, top)],
                width * mix(0.30, 0.58, u),
            )
        };
        let turn = i as f32 * GOLDEN + seed.luck.bell(0.06);
        let sheet = petal.mesh(turn, (10, 14), waxy, |s, t| {
            let end = smooth(0.80, 1.0, t) * blush + smooth(0.85, 1.0, s.abs()) * 0.3 * blush;
            paler(tint, 0.10 * (1.0 - t)).lerp(tip, end) * mix(0.72, 1.0, u)
        });
        // The underside: the same leaf, lower and bent less, so that it is thick.
        let mut under = sheet.clone();
        let sink = Vec3::Z * -0.05 + turn_z(turn) * Vec3::new(0.02, 0.0, 0.0);
        for (point, normal) in under.points.iter_mut().zip(&sheet.normals) {
            *point += sink * 0.6 - *normal * 0.025;
        }
        mesh.append(&sheet);
        mesh.append(&under);
    }
    mesh
}

/// One sheet rolled to a funnel about a finger, lying along x.
pub(super) fn calla(seed: &Seed) -> Mesh {
    let tint = seed.tint;
    let glossy = Material { rough: 0.35, rough_along: 0.35, ..Material::PETAL };
    let funnel = |u: f32, v: f32| {
        let around = (u - 0.5) * (TAU + 0.9);
        // The lip is long on one side, and comes to a point there.
        let long = pow(0.5 + 0.5 * cos(around), 1.4);
        let x = v * mix(0.55, 1.0, long) * (1.0 + 0.05 * smooth(0.2, 0.0, around.abs()));
        let flare = smooth(0.35, 1.0, v);
        let r = 0.07 + 0.16 * v + 0.26 * flare * flare + 0.03 * (u - 0.5);
        let back = 0.20 * flare * flare * smooth(0.6, 1.0, v);
        Vec3::new(x * 1.9 - back * cos(around).abs() * 0.4, r * sin(around), 0.30 - r * cos(around) * 0.9)
    };
    let mut mesh = Mesh::of_grid(MeshGrid::sheet(44, 26), glossy, funnel, |_, v| {
        let foot = of_hex(0x9fb26a);
        paler(deeper(tint, 0.12 * (1.0 - v)), 0.06 * smooth(0.9, 1.0, v)).lerp(foot, 0.75 * smooth(0.35, 0.0, v))
    });
    let finger: Vec<Vec3> = (0..=8).map(|i| Vec3::new(0.5 + 0.75 * i as f32 / 8.0, 0.0, 0.30)).collect();
    let grain = Material { weave: FineWeave::Petal(0.4), ..Material::MATT };
    mesh.append(&stem(&finger, 10, grain, |v| 0.055 * (1.0 - 0.8 * smooth(0.85, 1.0, v)), of_hex(0xe3b53c)));
    mesh
}
